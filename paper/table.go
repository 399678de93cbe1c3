package paper

import (
	"strings"

	"berthwright/drawing"
	"berthwright/drawing/fonts"
)

// align tells how the cells of a column stand.
type align uint8

const (
	left align = iota
	right
	centre
	decimal // on the decimal sign; whole numbers end where it would stand
)

type column struct {
	title string
	group string  // a title over this column and its neighbours of the same group
	width float64 // millimetres; 0: a share of what the others leave
	align align
}

type cell struct {
	text, sub string
	strong    bool
	verdict   Verdict
	hasMark   bool
}

type row struct {
	cells []cell
	group bool // a title across the table
	total bool // stronger, with a line above
}

type table struct {
	cols  []column
	rows  []row
	size  float64 // em; 0: body
	tight bool    // less air
}

func cells(texts ...string) []cell {
	out := make([]cell, len(texts))
	for i, t := range texts {
		out[i].text = t
	}
	return out
}

const (
	padX = 1.4
	padY = 0.9
)

// table sets t over as many pages as it needs, its head on each.
func (k *kit) table(t table) {
	if len(t.rows) == 0 {
		return
	}
	if t.size == 0 {
		t.size = sizeBody
	}
	x, w := k.columns(t)
	frac := fractions(t)
	heads := k.headHeight(t, w)
	k.need(heads + 2*k.rowHeight(t, w, t.rows[0]) + 2)
	k.tableHead(t, x, w)
	for i, r := range t.rows {
		h := k.rowHeight(t, w, r)
		if r.group && i+1 < len(t.rows) {
			h += k.rowHeight(t, w, t.rows[i+1])
		}
		if k.y+h > k.floor() {
			k.rule(drawing.Datum, k.x0(), k.x1(), k.y)
			k.page()
			k.tableHead(t, x, w)
		}
		k.row(t, x, w, frac, r)
		last := i+1 == len(t.rows)
		switch {
		case last:
			k.rule(drawing.Frame, k.x0(), k.x1(), k.y)
		case t.rows[i+1].total:
			k.rule(drawing.Datum, k.x0(), k.x1(), k.y)
		default:
			k.rule(drawing.Rule, k.x0(), k.x1(), k.y)
		}
	}
	k.y += 3
}

// columns returns left edge and width of each column.
func (k *kit) columns(t table) (x, w []float64) {
	rest, shares := k.width(), 0
	for _, c := range t.cols {
		if c.width == 0 {
			shares++
		}
		rest -= c.width
	}
	at := k.x0()
	for _, c := range t.cols {
		wide := c.width
		if wide == 0 {
			wide = rest / float64(shares)
		}
		x, w = append(x, at), append(w, wide)
		at += wide
	}
	return x, w
}

// fractions returns, for decimal columns, the widest part from the decimal sign on.
func fractions(t table) []float64 {
	out := make([]float64, len(t.cols))
	for i, c := range t.cols {
		if c.align != decimal {
			continue
		}
		for _, r := range t.rows {
			if !r.group && i < len(r.cells) {
				_, f := splitDecimal(r.cells[i].text)
				f, _, _ = strings.Cut(glue(f), "\u00a0") // a unit may hang over
				out[i] = max(out[i], fonts.Width(faceOf(r, r.cells[i]), t.size, f))
			}
		}
	}
	return out
}

func splitDecimal(s string) (whole, rest string) {
	for i := 1; i+1 < len(s); i++ {
		if (s[i] == '.' || s[i] == ',') && digit(s[i-1]) && digit(s[i+1]) {
			return s[:i], s[i:]
		}
	}
	return s, ""
}

func digit(b byte) bool { return b >= '0' && b <= '9' }

func faceOf(r row, c cell) fonts.Face {
	if r.group || r.total || c.strong {
		return fonts.SemiBold
	}
	return fonts.Regular
}

func (k *kit) pad(t table) float64 {
	if t.tight {
		return padY * 0.55
	}
	return padY
}

func (k *kit) rowHeight(t table, w []float64, r row) float64 {
	if r.group {
		return t.size*lead + 2*k.pad(t) + 1
	}
	high := 0.0
	for i, c := range r.cells {
		s := style{t.size, faceOf(r, c), drawing.Cell}
		h := float64(len(k.wrap(s, k.room(w[i], c), c.text))) * t.size * lead
		if c.sub != "" {
			h += float64(len(k.wrap(note, w[i]-2*padX, c.sub))) * sizeNote * lead
		}
		high = max(high, h)
	}
	return high + 2*k.pad(t)
}

// room is the width that the words of a cell have.
func (k *kit) room(w float64, c cell) float64 {
	if c.hasMark {
		return w - 2*padX - 6
	}
	return w - 2*padX
}

func (k *kit) row(t table, x, w, frac []float64, r row) {
	h := k.rowHeight(t, w, r)
	for i, c := range r.cells {
		s := style{t.size, faceOf(r, c), drawing.Cell}
		if c.hasMark && c.verdict == DoesNotHold {
			s.role = drawing.Strong
		}
		y := k.y + k.pad(t)
		wide := k.room(w[i], c)
		col := t.cols[i]
		if r.group {
			wide, col = k.width(), column{}
			y += 1
		}
		off := 0.0
		if c.hasMark {
			k.mark(c.verdict, x[i]+padX+3.3, y+t.size*0.66, 0.34*t.size)
			off = 6
		}
		for _, l := range k.wrap(s, wide, c.text) {
			k.cellLine(col, x[i]+off, w[i]-off, frac[i], y+t.size*0.97, s, l)
			y += t.size * lead
		}
		if c.sub != "" {
			for _, l := range k.wrap(note, w[i]-2*padX, c.sub) {
				k.cellLine(column{align: t.cols[i].align}, x[i], w[i], 0, y+sizeNote*0.97, note, l)
				y += sizeNote * lead
			}
		}
	}
	k.y += h
}

func (k *kit) cellLine(c column, x, w, frac, y float64, s style, words string) {
	switch c.align {
	case right:
		k.text(x+w-padX, y, drawing.End, s, words)
	case centre:
		k.text(x+w/2, y, drawing.Middle, s, words)
	case decimal:
		whole, rest := splitDecimal(words)
		at := x + w - padX - frac
		at -= fonts.Width(s.face, s.size, whole)
		k.text(at, y, drawing.Start, s, whole+rest)
	default:
		k.text(x+padX, y, drawing.Start, s, words)
	}
}

func (k *kit) headHeight(t table, w []float64) float64 {
	high, grouped := 0.0, 0.0
	for i, c := range t.cols {
		high = max(high, float64(len(k.wrap(note, w[i]-2*padX, c.title)))*sizeNote*lead)
		if c.group != "" {
			grouped = sizeNote*lead + 1
		}
	}
	return high + grouped + 1.8
}

func (k *kit) tableHead(t table, x, w []float64) {
	k.rule(drawing.Frame, k.x0(), k.x1(), k.y)
	h := k.headHeight(t, w)
	for i := 0; i < len(t.cols); i++ {
		g := t.cols[i].group
		if g == "" {
			continue
		}
		j := i
		for j+1 < len(t.cols) && t.cols[j+1].group == g {
			j++
		}
		k.text((x[i]+x[j]+w[j])/2, k.y+sizeNote*1.15, drawing.Middle, note, g)
		k.rule(drawing.Rule, x[i]+padX, x[j]+w[j]-padX, k.y+sizeNote*1.5)
		i = j
	}
	for i, c := range t.cols {
		ls := k.wrap(note, w[i]-2*padX, c.title)
		y := k.y + h - 0.9 - float64(len(ls))*sizeNote*lead
		for _, l := range ls {
			a := c
			if a.align == decimal {
				a.align = right
			}
			k.cellLine(a, x[i], w[i], 0, y+sizeNote*0.97, note, l)
			y += sizeNote * lead
		}
	}
	k.y += h
	k.rule(drawing.Datum, k.x0(), k.x1(), k.y)
}

// Verdict is how a claim stands. The zero value is Unknown.
type Verdict uint8

// The verdicts.
const (
	Unknown Verdict = iota
	Holds
	Tight
	DoesNotHold
)

// String returns the word printed for v.
func (v Verdict) String() string { return [...]string{"unknown", "holds", "tight", "does not hold"}[v] }

// mark draws the shape that goes with the word: circle, triangle, full square, open diamond.
func (k *kit) mark(v Verdict, x, y, r float64) {
	var pts [][2]float64
	role, fill := drawing.Datum, drawing.NoFill
	switch v {
	case Holds:
		k.path(drawing.Datum, drawing.Circle(x, y, r), drawing.NoFill)
		return
	case Tight:
		pts = [][2]float64{{x, y - r*1.1}, {x + r*1.15, y + r*0.9}, {x - r*1.15, y + r*0.9}}
	case DoesNotHold:
		role, fill = drawing.Strong, drawing.Solid
		pts = [][2]float64{{x - r, y - r}, {x + r, y - r}, {x + r, y + r}, {x - r, y + r}}
	default:
		pts = [][2]float64{{x, y - r*1.2}, {x + r*1.2, y}, {x, y + r*1.2}, {x - r*1.2, y}}
	}
	k.path(role, drawing.Polygon(pts), fill)
}

func verdictCell(v Verdict) cell {
	return cell{text: v.String(), verdict: v, hasMark: true, strong: v == DoesNotHold}
}
