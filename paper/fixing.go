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

// MapWidth and MapHeight are the room for a wall on a page of the fixing map, in millimetres of paper. NothingFixed is what it
// takes from the height to say on the same page that nothing is fixed, with the hold point; WhyLine what a reason takes.
const (
	NothingFixed = 25.0
	WhyLine      = 5.5
	MapWidth     = 265.0
	MapHeight    = 138.0
)

// fixingCaution stands on each wall; it must fit one line.
const fixingCaution = "Look and feel behind both faces before you cut or drill: a drawing does not know what is there. Gas and mains: local codes, licensed people. Structure: the base maker."

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
		k.cautions(append([]string{fixingCaution}, w.Cautions...))
		if i == 0 {
			k.why(f.Why)
		}
		k.figure(w.Scene, w.Name)
		if len(w.Rows) > 0 {
			t := table{size: 2.9, tight: true, cols: []column{{title: "no.", width: 12, align: right}, {title: "what is fixed"}, {title: k.in("with contents"), width: 24, align: decimal},
				{title: "how many", width: 15, align: right}, {title: "size", width: 21}, {title: "into", width: 16}, {title: "where", width: 108}, {title: "done", width: 12}}}
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
		keep := 0.0
		if i+1 == len(f.Walls) {
			keep = signHeight
		}
		k.holdPoint(w.Name, keep)
	}
	k.signatures(f.Sign)
	return k
}

// holdPoint sets the box in which the photograph before closing is signed for, with keep millimetres after it on its page.
func (k *kit) holdPoint(name string, keep float64) {
	const wide = 120.0
	ls := k.wrap(body, wide, "photographed before the lining goes on: "+name+", a tape in the picture")
	h := 9 + float64(len(ls))*sizeBody*lead
	k.need(h + 3 + keep)
	k.path(drawing.Frame, drawing.Rect(drawing.Box{X0: k.x0(), Y0: k.y, X1: k.x1(), Y1: k.y + h}), drawing.NoFill)
	k.text(k.x0()+4, k.y+6, drawing.Start, style{4, fonts.Bold, drawing.Cell}, "HOLD POINT")
	for i, l := range ls {
		k.text(k.x0()+4, k.y+11+float64(i)*sizeBody*lead, drawing.Start, body, l)
	}
	x, y := k.x0()+wide+19, k.y+h/2
	k.path(drawing.Datum, drawing.Rect(drawing.Box{X0: x - 12, Y0: y - 2.5, X1: x - 7, Y1: y + 2.5}), drawing.NoFill)
	for i, w := range []string{"photographs, numbers", "by", "date"} {
		a := x + float64(i)*41
		k.rule(drawing.Datum, a, a+38, y+2)
		k.text(a, y+5.4, drawing.Start, note, w)
	}
	k.y += h + 3
}
