package drawing

import "encoding/json"

// wirePrim is how the frozen scenes of the tests are written: absent is zero, paths are SVG path data. The page has a form
// of its own, in package web.
type wirePrim struct {
	ID     string  `json:"id"`
	In     string  `json:"in,omitempty"`
	Kind   string  `json:"k"` // g, p, t
	Role   Role    `json:"r,omitempty"`
	Layer  string  `json:"l,omitempty"`
	Doc    string  `json:"doc,omitempty"`
	Title  string  `json:"title,omitempty"`
	Focus  bool    `json:"focus,omitempty"`
	Depth  int     `json:"z"`
	D      string  `json:"d,omitempty"`
	Fill   string  `json:"f,omitempty"`
	X      float64 `json:"x,omitempty"`
	Y      float64 `json:"y,omitempty"`
	Size   float64 `json:"s,omitempty"`
	Turn   float64 `json:"turn,omitempty"`
	Anchor string  `json:"a,omitempty"`    // middle, end; absent: start
	Face   string  `json:"face,omitempty"` // semibold, italic, bold; absent: regular
	Text   string  `json:"t,omitempty"`
}

// MarshalJSON writes p compactly. Lengths are scene millimetres.
func (p Prim) MarshalJSON() ([]byte, error) {
	w := wirePrim{ID: p.ID, In: p.In, Role: p.Role, Doc: p.Doc, Title: p.Title, Focus: p.Focus, Depth: p.Depth,
		Kind: [...]string{"", "g", "p", "t"}[p.Kind], D: p.D.String(), Fill: p.Fill.String(), X: p.X, Y: p.Y, Size: p.Size,
		Turn: p.Turn, Anchor: [...]string{"", "middle", "end"}[p.Anchor],
		Face: [...]string{"", "semibold", "italic", "bold"}[p.Face], Text: p.Text}
	if p.Kind == Group {
		w.Layer = p.Layer
	}
	return json.Marshal(w)
}
