package web

// Scene is one view of the van, ready to be drawn (drawing.Scene on the wire). Coordinates are millimetres of the van
// on the sheet: x to the right, y down. Lines and texts are sized for paper: a size in the scene is the size on paper
// times Scale; a pen width in millimetres of paper is multiplied by Scale likewise.
type Scene struct {
	ID       string  `json:"id"`
	View     string  `json:"view"` // what is seen, in words
	State    string  `json:"state"`
	Title    string  `json:"title"` // accessible name
	Desc     string  `json:"desc"`  // accessible description
	Scale    float64 `json:"scale"` // 20 for 1:20
	Extent   Box     `json:"extent"`
	Revision int     `json:"revision"`
	Prims    []Prim  `json:"prims"` // paint order; children follow their group
}

// Box is a rectangle in scene axes.
type Box struct {
	X0 float64 `json:"x0" ts:"Mm"`
	Y0 float64 `json:"y0" ts:"Mm"`
	X1 float64 `json:"x1" ts:"Mm"`
	Y1 float64 `json:"y1" ts:"Mm"`
}

// Prim is one primitive. Which fields count depends on Kind.
type Prim struct {
	ID    string `json:"id"`           // stable: "item:fridge", "item:fridge/box"
	In    string `json:"in,omitempty"` // the group it belongs to; absent at the top
	Kind  string `json:"kind" ts:"'group' | 'path' | 'text'"`
	Role  string `json:"role"`            // outline, thin, item, item-ghost, dimension, label, ... (line weight and ink by CSS)
	Layer string `json:"layer,omitempty"` // the trade it belongs to
	Path  string `json:"path,omitempty"`  // group: path in the document, "items/fridge"; its row id is the last part
	Title string `json:"title,omitempty"` // group: accessible name
	Focus bool   `json:"focus,omitempty"` // group: the keyboard reaches it
	Depth int    `json:"depth,omitempty"` // siblings are painted in rising depth

	D    string `json:"d,omitempty"` // path: SVG path data
	Fill string `json:"fill,omitempty" ts:"'paper' | 'tint' | 'solid'"`

	X      float64 `json:"x,omitempty" ts:"Mm"` // text: the point its anchor stands at, on the line of writing; absent: 0
	Y      float64 `json:"y,omitempty" ts:"Mm"`
	Size   float64 `json:"size,omitempty" ts:"Mm"` // text: em
	Turn   float64 `json:"turn,omitempty"`         // text: degrees, clockwise on the sheet
	Anchor string  `json:"anchor,omitempty" ts:"'start' | 'middle' | 'end'"`
	Face   string  `json:"face,omitempty" ts:"'regular' | 'semibold' | 'italic' | 'bold'"`
	Text   string  `json:"text,omitempty"`
}
