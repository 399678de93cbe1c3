package paper

import (
	"fmt"
	"math"

	"berthwright/drawing"
	"berthwright/drawing/fonts"
	"berthwright/unit"
)

// TemplateSet is a set of templates at true size, one hole after the other on tiled A4 pages.
type TemplateSet struct {
	Head
	Holes []TemplateHole
}

// TemplateHole is a hole as it is marked on its face. Wide and High lie across and up the paper.
type TemplateHole struct {
	Mark, Name   string
	Wide, High   unit.Length
	Radius       unit.Length
	Frame        unit.Length // drawn thin around the cut, 0: not
	Seen         string      // "left side, seen from outside"
	Left, Up     string      // what is towards the left and the top of the paper: "front", "up"
	Size         string      // as printed
	Measure      []string    // where it goes
	Right, Under string
}

// The window of a template page, in millimetres of paper. Neighbouring windows overlap, and are joined in the middle of the overlap.
const (
	tileX, tileY = 18.0, 30.0
	tileW, tileH = 176.0, 238.0
	tileOver     = 10.0
	tileMargin   = 12.0 // around the frame
	checkBar     = 100.0
	flatness     = 0.004 // of curves cut into straight pieces, mm
)

// Templates sets t as a PDF. It must be printed at true size: a bar of 100 mm stands along and up every page.
func Templates(t TemplateSet) ([]byte, error) { return t.lay().finish("Templates at true size") }

func (t TemplateSet) lay() *kit {
	k := newKit(format{210, 297, tileX, 210 - tileX - tileW, 12, 12}, t.Head, "Templates at true size")
	k.bare = true
	first := true
	for _, h := range t.Holes {
		if h.Wide <= 0 || h.High <= 0 {
			continue
		}
		for _, p := range h.tiles() {
			if !first {
				k.page()
			}
			first = false
			k.templatePage(h, p)
		}
	}
	if first {
		k.para(body, "No hole with a size is described in this build.")
	}
	return k
}

// tile is one page of a template: its column and row, and its window in millimetres from the middle of the hole.
type tile struct {
	col, row, cols, rows int
	win                  drawing.Box
}

func (t tile) name() string { return string(rune('A'+t.row)) + fmt.Sprint(t.col+1) }

// tiles cuts the hole's surroundings into windows and leaves out those in which nothing is drawn.
func (h TemplateHole) tiles() []tile {
	f := h.Frame.Millimetres()
	w, v := h.Wide.Millimetres()+2*f+2*tileMargin, h.High.Millimetres()+2*f+2*tileMargin
	count := func(size, window float64) int { return max(1, int(math.Ceil((size-tileOver)/(window-tileOver)))) }
	cols, rows := count(w, tileW), count(v, tileH)
	x0 := -(float64(cols)*(tileW-tileOver) + tileOver) / 2
	y0 := -(float64(rows)*(tileH-tileOver) + tileOver) / 2
	var out []tile
	for r := range rows {
		for c := range cols {
			x, y := x0+float64(c)*(tileW-tileOver), y0+float64(r)*(tileH-tileOver)
			t := tile{c, r, cols, rows, drawing.Box{X0: x, Y0: y, X1: x + tileW, Y1: y + tileH}}
			drawn := false
			for _, l := range h.lines() {
				drawn = drawn || len(clipped(l.pts, t.win)) > 0
			}
			if drawn {
				out = append(out, t)
			}
		}
	}
	return out
}

type templateLine struct {
	role drawing.Role
	pts  [][2]float64
}

// lines are the lines of a template about the middle of the hole.
func (h TemplateHole) lines() []templateLine {
	a, c, r := h.Wide.Millimetres()/2, h.High.Millimetres()/2, h.Radius.Millimetres()
	f := h.Frame.Millimetres()
	out := []templateLine{{drawing.HoleEdge, roundedRing(a, c, r)}}
	if f > 0 {
		out = append(out, templateLine{drawing.ItemHidden, roundedRing(a+f, c+f, r+f)})
	}
	x, y := a+f+tileMargin, c+f+tileMargin
	out = append(out, templateLine{drawing.CentreLine, [][2]float64{{-x, 0}, {x, 0}}}, templateLine{drawing.CentreLine, [][2]float64{{0, -y}, {0, y}}})
	if r > 8 && r < math.Min(a, c) { // middles of the corners, for the saw or the compasses
		for _, s := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
			px, py := s[0]*(a-r), s[1]*(c-r)
			out = append(out, templateLine{drawing.Thin, [][2]float64{{px - 4, py}, {px + 4, py}}}, templateLine{drawing.Thin, [][2]float64{{px, py - 4}, {px, py + 4}}})
		}
	}
	return out
}

// roundedRing is a rectangle of half sizes a and c with corners of radius r, closed, within flatness of true.
func roundedRing(a, c, r float64) [][2]float64 {
	r = math.Max(0, math.Min(r, math.Min(a, c)))
	n := 1
	if r > 0 {
		n = int(math.Ceil(math.Pi / 2 / (2 * math.Acos(math.Max(0, 1-flatness/r)))))
	}
	var out [][2]float64
	for q, s := range [4][2]float64{{1, -1}, {1, 1}, {-1, 1}, {-1, -1}} {
		for i := range n + 1 {
			sin, cos := math.Sincos((float64(q-1) + float64(i)/float64(n)) * math.Pi / 2)
			out = append(out, [2]float64{s[0]*(a-r) + r*cos, s[1]*(c-r) + r*sin})
			if r == 0 {
				break
			}
		}
	}
	return append(out, out[0])
}

// clipped returns the parts of a line of points that lie in win.
func clipped(pts [][2]float64, win drawing.Box) drawing.Segs {
	var out drawing.Segs
	var last [2]float64
	for i := 1; i < len(pts); i++ {
		p, q, ok := clip(pts[i-1], pts[i], win)
		if !ok {
			continue
		}
		if len(out) == 0 || last != p {
			out = append(out, drawing.Seg{Op: drawing.Move, X: p[0], Y: p[1]})
		}
		out = append(out, drawing.Seg{Op: drawing.Line, X: q[0], Y: q[1]})
		last = q
	}
	return out
}

// clip cuts one straight piece to win.
func clip(p, q [2]float64, win drawing.Box) (a, b [2]float64, ok bool) {
	t0, t1 := 0.0, 1.0
	d := [2]float64{q[0] - p[0], q[1] - p[1]}
	for _, e := range [4][2]float64{{-d[0], p[0] - win.X0}, {d[0], win.X1 - p[0]}, {-d[1], p[1] - win.Y0}, {d[1], win.Y1 - p[1]}} {
		switch {
		case e[0] == 0:
			if e[1] < 0 {
				return a, b, false
			}
		case e[0] < 0:
			t0 = math.Max(t0, e[1]/e[0])
		default:
			t1 = math.Min(t1, e[1]/e[0])
		}
	}
	if t0 >= t1 {
		return a, b, false
	}
	at := func(t float64) [2]float64 {
		switch t {
		case 0:
			return p
		case 1:
			return q
		}
		return [2]float64{p[0] + t*d[0], p[1] + t*d[1]}
	}
	return at(t0), at(t1), true
}

// templatePage draws one window with its joints, its place among the others and two bars of 100 mm.
func (k *kit) templatePage(h TemplateHole, t tile) {
	dx, dy := tileX-t.win.X0, tileY-t.win.Y0
	place := func(s drawing.Segs) drawing.Segs {
		for i := range s {
			s[i].X, s[i].Y = s[i].X+dx, s[i].Y+dy
		}
		return s
	}
	for _, l := range h.lines() {
		if s := clipped(l.pts, t.win); len(s) > 0 {
			k.path(l.role, place(s), drawing.NoFill)
		}
	}
	k.joints(t)
	g := k.put(drawing.Prim{ID: fmt.Sprintf("p%d-title", len(k.pages)), Kind: drawing.Group, Role: drawing.Heading, Title: k.clean(fonts.Bold, join(" ", h.Mark, h.Name, t.name()))})
	k.textIn(g, tileX, 15, drawing.Start, style{7, fonts.Bold, drawing.Heading}, join(" ", h.Mark, t.name()))
	k.text(tileX+32, 12, drawing.Start, style{fitSize(fonts.SemiBold, 3.6, 100, h.Name), fonts.SemiBold, drawing.Cell}, h.Name)
	k.text(tileX+32, 16, drawing.Start, inked, join(" · ", h.Size, h.Seen))
	for i, m := range h.Measure {
		if i < 2 {
			k.text(tileX+32, 20+4*float64(i), drawing.Start, note, m)
		}
	}
	k.text(tileX+tileW, 12, drawing.End, style{sizeNote, fonts.SemiBold, drawing.Cell}, k.head.Status)
	k.text(tileX+tileW, 16, drawing.End, note, k.head.Build+label(", content ", k.head.Hash))
	k.tileMap(t, tileX+tileW, 18)
	k.text(tileX+tileW*0.6, tileY-1.2, drawing.Middle, inked, "↑ "+h.Up)
	k.put(drawing.Prim{Kind: drawing.Text, Role: drawing.Cell, X: tileX + tileW + 4.5, Y: tileY + tileH/2, Size: sizeNote, Anchor: drawing.Middle, Turn: 90, Face: fonts.Regular, Text: k.clean(fonts.Regular, h.Right)})
	k.put(drawing.Prim{Kind: drawing.Text, Role: drawing.Cell, X: tileX - 9, Y: tileY + tileH/2 + checkBar/2 + 12, Size: sizeNote, Anchor: drawing.Middle, Turn: -90, Face: fonts.Regular, Text: k.clean(fonts.Regular, h.Left)})
	// The bars: along and up, for printers stretch the two by different amounts.
	y := tileY + tileH + 11.0
	x := tileX
	k.path(drawing.Datum, drawing.LineFrom(x, y, x+checkBar, y), drawing.NoFill)
	for i := 0; i <= 10; i++ {
		high := 1.6
		if i%5 == 0 {
			high = 3
		}
		k.path(drawing.Datum, drawing.LineFrom(x+10*float64(i), y-high, x+10*float64(i), y), drawing.NoFill)
	}
	k.text(x+checkBar+3, y, drawing.Start, style{sizeNote, fonts.SemiBold, drawing.Cell}, "must measure 100 mm, as must the bar at the left.")
	k.text(x, y+5, drawing.Start, inked, "Print at true size, not fitted to the page. Thick: cut. Dashed: frame. Look and feel behind both faces first.")
	vx, vy := tileX-6.0, tileY+tileH/2-checkBar/2
	k.path(drawing.Datum, drawing.LineFrom(vx, vy, vx, vy+checkBar), drawing.NoFill)
	for i := 0; i <= 10; i += 5 {
		k.path(drawing.Datum, drawing.LineFrom(vx-1.5, vy+10*float64(i), vx+1.5, vy+10*float64(i)), drawing.NoFill)
	}
}

// joints draws where a window meets its neighbours: a dashed line in the middle of the overlap with crosses that fall on one
// another, and the name of the neighbour.
func (k *kit) joints(t tile) {
	at := tileOver / 2
	cross := func(x, y float64) {
		k.path(drawing.Thin, append(drawing.LineFrom(x-3, y, x+3, y), drawing.LineFrom(x, y-3, x, y+3)...), drawing.NoFill)
		k.path(drawing.Thin, drawing.Circle(x, y, 1.5), drawing.NoFill)
	}
	side := func(x0, y0, x1, y1 float64, there bool, other tile, turn float64) {
		if !there {
			return
		}
		k.path(drawing.Hidden, drawing.LineFrom(x0, y0, x1, y1), drawing.NoFill)
		for _, f := range [2]float64{0.2, 0.8} {
			cross(x0+f*(x1-x0), y0+f*(y1-y0))
		}
		k.put(drawing.Prim{Kind: drawing.Text, Role: drawing.Note, X: x0 + 0.35*(x1-x0), Y: y0 + 0.35*(y1-y0) - 0.8, Size: 2.6, Anchor: drawing.Middle, Turn: turn, Face: fonts.Regular, Text: "joins " + other.name()})
	}
	x0, y0, x1, y1 := tileX, tileY, tileX+tileW, tileY+tileH
	side(x0+at, y0, x0+at, y1, t.col > 0, tile{col: t.col - 1, row: t.row}, -90)
	side(x1-at, y0, x1-at, y1, t.col+1 < t.cols, tile{col: t.col + 1, row: t.row}, -90)
	side(x0, y0+at, x1, y0+at, t.row > 0, tile{col: t.col, row: t.row - 1}, 0)
	side(x0, y1-at, x1, y1-at, t.row+1 < t.rows, tile{col: t.col, row: t.row + 1}, 0)
}

// tileMap shows which of the pages this one is, its right top corner at x, y.
func (k *kit) tileMap(t tile, x, y float64) {
	if t.cols*t.rows == 1 {
		return
	}
	w := math.Min(5, 30/float64(t.cols))
	h := math.Min(w*1.3, 9.5/float64(t.rows))
	for r := range t.rows {
		for c := range t.cols {
			b := drawing.Box{X0: x - float64(t.cols-c)*w, Y0: y + float64(r)*h}
			b.X1, b.Y1 = b.X0+w, b.Y0+h
			fill := drawing.NoFill
			if r == t.row && c == t.col {
				fill = drawing.Solid
			}
			k.path(drawing.Thin, drawing.Rect(b), fill)
		}
	}
}
