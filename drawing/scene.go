// Package drawing answers: what does this van look like to scale, seen from one side, in one state?
//
// Plan, SideLeft and SideRight make a Scene from plain inputs; SVG, PDF and DXF write it out. A
// Scene is a flat list of primitives (groups, paths, texts) with stable ids, so that a page
// replaces only what Diff names.
//
// Scene axes: millimetres of the van, x to the right on the sheet, y down on the sheet. The views
// map van axes (x rearwards from the front axle, y right, z up from the bare load floor) to them.
// A text or line is sized for paper: its size in the scene is its size on paper times Scene.Scale.
package drawing

import (
	"math"
	"slices"

	"berthwright/drawing/fonts"
)

// Scene is one view, ready to be drawn.
type Scene struct {
	ID     string  // "plan", "left", "right", "sheet"; stable
	View   string  // what is seen, in words: "plan, front at left"
	State  string  // travel, camp, night, stored
	Title  string  // accessible name
	Desc   string  // accessible description
	Scale  float64 // scene millimetres per millimetre of paper: 20 for 1:20
	Extent Box     // everything that is drawn lies within
	Prims  []Prim  // paint order; children follow their group
}

// Box is a rectangle in scene axes.
type Box struct{ X0, Y0, X1, Y1 float64 }

// W returns the width of b.
func (b Box) W() float64 { return b.X1 - b.X0 }

// H returns the height of b.
func (b Box) H() float64 { return b.Y1 - b.Y0 }

// Overlaps reports whether b and o share an area.
func (b Box) Overlaps(o Box) bool {
	return b.X0 < o.X1 && o.X0 < b.X1 && b.Y0 < o.Y1 && o.Y0 < b.Y1
}

// Within reports whether b lies in o.
func (b Box) Within(o Box) bool {
	return b.X0 >= o.X0 && b.X1 <= o.X1 && b.Y0 >= o.Y0 && b.Y1 <= o.Y1
}

// Union returns the smallest box around b and o; an empty box counts for nothing.
func (b Box) Union(o Box) Box {
	if b == (Box{}) {
		return o
	}
	if o == (Box{}) {
		return b
	}
	return Box{math.Min(b.X0, o.X0), math.Min(b.Y0, o.Y0), math.Max(b.X1, o.X1), math.Max(b.Y1, o.Y1)}
}

// Grow returns b widened by d on every side.
func (b Box) Grow(d float64) Box { return Box{b.X0 - d, b.Y0 - d, b.X1 + d, b.Y1 + d} }

// Kind tells what a primitive is. The zero value is invalid.
type Kind uint8

// The kinds of primitive.
const (
	_ Kind = iota
	Group
	Path
	Text
)

// Anchor tells which end of a text stands at its point.
type Anchor uint8

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Prim is one primitive. Which fields count depends on Kind.
type Prim struct {
	ID    string // stable: "item:fridge", "item:fridge/box"
	In    string // the group it belongs to; empty at the top
	Kind  Kind
	Role  Role
	Layer string // the trade it belongs to: body, kitchen, electric …
	Doc   string // Group: path in the document, "items/fridge"
	Title string // Group: accessible name
	Focus bool   // Group: the page lets the keyboard reach it
	Depth int    // siblings are painted in rising depth

	D    Segs // Path
	Fill Fill // Path

	X, Y   float64 // Text: the point its Anchor stands at, on the line of writing
	Size   float64 // Text: em in scene millimetres
	Turn   float64 // Text: degrees, clockwise on the sheet
	Anchor Anchor
	Face   fonts.Face
	Text   string
}

func (p Prim) equal(o Prim) bool {
	d, e := p.D, o.D
	p.D, o.D = nil, nil
	return slices.Equal(d, e) && equalRest(p, o)
}

func equalRest(p, o Prim) bool {
	return p.ID == o.ID && p.In == o.In && p.Kind == o.Kind && p.Role == o.Role && p.Layer == o.Layer &&
		p.Doc == o.Doc && p.Title == o.Title && p.Focus == o.Focus && p.Depth == o.Depth && p.Fill == o.Fill &&
		p.X == o.X && p.Y == o.Y && p.Size == o.Size && p.Turn == o.Turn && p.Anchor == o.Anchor &&
		p.Face == o.Face && p.Text == o.Text
}

// Box returns the extent of p without its line width; empty for a group.
func (p Prim) Box() Box {
	switch p.Kind {
	case Path:
		return p.D.Box()
	case Text:
		return textBox(p)
	}
	return Box{}
}

func textBox(p Prim) Box {
	w := fonts.Width(p.Face, p.Size, p.Text)
	x0 := 0.0
	switch p.Anchor {
	case Middle:
		x0 = -w / 2
	case End:
		x0 = -w
	}
	up, down := -fonts.CapHeight*p.Size*1.08, fonts.Descent*p.Size
	sin, cos := math.Sincos(p.Turn * math.Pi / 180)
	b := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, c := range [4][2]float64{{x0, up}, {x0 + w, up}, {x0 + w, down}, {x0, down}} {
		x, y := p.X+c[0]*cos-c[1]*sin, p.Y+c[0]*sin+c[1]*cos
		b = Box{math.Min(b.X0, x), math.Min(b.Y0, y), math.Max(b.X1, x), math.Max(b.Y1, y)}
	}
	return b
}

// Patch is what turns one scene into another.
type Patch struct {
	Changed []Prim   // new or different, in paint order
	Removed []string // ids no longer there, in the old paint order
	Extent  Box      // the new extent
}

// Diff returns the primitives by which b differs from a.
func Diff(a, b Scene) Patch {
	old := make(map[string]Prim, len(a.Prims))
	for _, p := range a.Prims {
		old[p.ID] = p
	}
	out := Patch{Extent: b.Extent}
	for _, p := range b.Prims {
		q, ok := old[p.ID]
		if !ok || !p.equal(q) {
			out.Changed = append(out.Changed, p)
		}
		delete(old, p.ID)
	}
	for _, p := range a.Prims {
		if _, gone := old[p.ID]; gone {
			out.Removed = append(out.Removed, p.ID)
		}
	}
	return out
}
