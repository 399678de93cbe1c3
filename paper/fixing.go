package paper

import (
	"berthwright/drawing"
	"berthwright/drawing/fonts"
)

// FixingSet is the fixing map: what goes behind the lining and what is fixed to it, wall by wall, before the lining goes on.
type FixingSet struct {
	Head
	Why   []string
	Walls []FixingWall
	Sign  []Signature
}

// FixingWall is one wall, or the floor and the roof.
type FixingWall struct {
	Name     string
	Scene    drawing.Scene // nothing is drawn when it has no primitives
	Rows     []FixingRow
	Cautions []string
	Lines    []string // wires, pipes and ducts on this side
}

// FixingRow is one thing that is fixed.
type FixingRow struct {
	Number, Name, Mass string // mass with its contents
	Count, Size, Into  string
	Place              string
	Paper              string
}

var landscape = format{297, 210, 18, 14, 22, 16}

// MapWidth and MapHeight are the room for a wall on a page of the fixing map, in millimetres of paper.
const (
	MapWidth  = 265.0
	MapHeight = 140.0
)

// FixingMap sets f as a PDF, a page or two for each wall.
func FixingMap(f FixingSet) ([]byte, error) {
	return f.lay().finish("What is fixed where, before the lining")
}

func (f FixingSet) lay() *kit {
	k := newKit(landscape, f.Head, "Fixing map")
	for i, w := range f.Walls {
		if i > 0 {
			k.page()
		}
		k.titled("Fixing map: "+w.Name, f.Build)
		if i == 0 {
			k.why(f.Why)
		}
		k.figure(w.Scene, w.Name)
		if len(w.Rows) > 0 {
			t := table{size: 3.0, tight: true, cols: []column{{title: "no.", width: 12, align: right}, {title: "what is fixed"}, {title: k.in("with contents"), width: 24, align: decimal},
				{title: "how many", width: 16, align: right}, {title: "size", width: 26}, {title: "into", width: 22}, {title: "where", width: 74}, {title: "done", width: 14}}}
			for _, r := range w.Rows {
				t.rows = append(t.rows, row{cells: cells(r.Number, r.Name, r.Mass, r.Count, r.Size, r.Into, r.Place, "")})
			}
			k.table(t)
		} else {
			k.para(body, "Nothing is said to be fixed here.")
		}
		for _, l := range w.Lines {
			k.lines(k.x0(), k.width(), note, l)
		}
		k.cautions(append([]string{lookBehind}, w.Cautions...))
		k.holdPoint(w.Name)
	}
	k.signatures(f.Sign)
	return k
}

// holdPoint sets the box in which the photograph before closing is signed for.
func (k *kit) holdPoint(name string) {
	k.need(17)
	k.path(drawing.Frame, drawing.Rect(drawing.Box{X0: k.x0(), Y0: k.y, X1: k.x1(), Y1: k.y + 14}), drawing.NoFill)
	k.text(k.x0()+4, k.y+6, drawing.Start, style{4, fonts.Bold, drawing.Cell}, "HOLD POINT")
	k.text(k.x0()+4, k.y+11, drawing.Start, body, "photographed before the lining goes on: "+name+", a tape in the picture")
	x := k.x0() + 128
	k.path(drawing.Datum, drawing.Rect(drawing.Box{X0: x - 12, Y0: k.y + 4.5, X1: x - 7, Y1: k.y + 9.5}), drawing.NoFill)
	for i, w := range []string{"photographs, numbers", "by", "date"} {
		a := x + float64(i)*46
		k.rule(drawing.Datum, a, a+40, k.y+9)
		k.text(a, k.y+12.4, drawing.Start, note, w)
	}
	k.y += 17
}
