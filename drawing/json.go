package drawing

import "encoding/json"

// wirePrim is the compact form for the page: absent is zero, paths are SVG path data.
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

type wireScene struct {
	ID     string     `json:"id"`
	View   string     `json:"view"`
	State  string     `json:"state,omitempty"`
	Title  string     `json:"title"`
	Desc   string     `json:"desc,omitempty"`
	Units  string     `json:"units"`
	Scale  float64    `json:"scale"`
	Extent [4]float64 `json:"extent"` // x0, y0, x1, y1
	Prims  []Prim     `json:"prims"`
}

// MarshalJSON writes s compactly.
func (s Scene) MarshalJSON() ([]byte, error) {
	prims := s.Prims
	if prims == nil {
		prims = []Prim{}
	}
	return json.Marshal(wireScene{s.ID, s.View, s.State, s.Title, s.Desc, "mm", s.Scale, s.Extent.wire(), prims})
}

// MarshalJSON writes c as {changed, removed, extent}.
func (c Patch) MarshalJSON() ([]byte, error) {
	changed, removed := c.Changed, c.Removed
	if changed == nil {
		changed = []Prim{}
	}
	if removed == nil {
		removed = []string{}
	}
	return json.Marshal(struct {
		Changed []Prim     `json:"changed"`
		Removed []string   `json:"removed"`
		Extent  [4]float64 `json:"extent"`
	}{changed, removed, c.Extent.wire()})
}

func (b Box) wire() [4]float64 { return [4]float64{b.X0, b.Y0, b.X1, b.Y1} }
