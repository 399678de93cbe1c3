package drawing

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"berthwright/drawing/fonts"
)

// wish is a label that looks for a place.
type wish struct {
	id, doc, layer string
	words          string // name with number
	number         string // number alone, or the short name when there is none
	home           Box    // where the thing is
	inside         bool   // a label may stand inside home
	mark           bool   // the thing is a mark: a bare number may stand beside it
	marked         bool
	cx, cy         float64
	poly           [][2]float64
}

func (b *builder) wishFor(s *shape) wish {
	w := wish{id: "label:" + s.t.ID, doc: s.t.Doc, layer: s.t.Layer, words: shortName(s.t), home: s.box, cx: s.cx, cy: s.cy}
	w.number = strconv.Itoa(s.t.Number)
	if s.t.Number == 0 {
		w.number = w.words
	}
	w.mark = s.t.Kind == MassOnly
	w.inside = !w.mark && s.role != ItemHidden && s.role != ItemAbove
	w.marked = s.t.Marked
	if !w.mark {
		w.poly = s.poly
		w.cx, w.cy = (s.box.X0+s.box.X1)/2, (s.box.Y0+s.box.Y1)/2
	}
	return w
}

// placeLabels gives every wish one place: its name inside, its number inside or beside, or a
// balloon with a leader. No label overlaps another or a fixed text. Big things choose first, what
// is marked (and may be moving) chooses last, so that the others keep still.
func (b *builder) placeLabels(room Box) {
	if !b.o.Labels {
		return
	}
	slices.SortStableFunc(b.want, func(p, q wish) int {
		if p.marked != q.marked {
			return int(bit(p.marked)) - int(bit(q.marked))
		}
		pa, qa := p.home.W()*p.home.H(), q.home.W()*q.home.H()
		if pa != qa {
			return int(math.Copysign(1, qa-pa))
		}
		return strings.Compare(p.id, q.id)
	})
	// Names and near numbers first, over all things; balloons take what is left.
	var rest []wish
	for _, w := range b.want {
		if !b.nameInside(w) && !b.numberNear(w) {
			rest = append(rest, w)
		}
	}
	var targets [][2]float64
	for _, w := range rest {
		if !w.mark {
			w.cx, w.cy = b.target(w, targets)
		}
		targets = append(targets, [2]float64{w.cx, w.cy})
		b.balloon(w, room)
	}
}

// target is where the leader of a thing ends: its middle or a point of its edge, far from the ends
// of the leaders drawn before.
func (b *builder) target(w wish, others [][2]float64) (float64, float64) {
	tries := [][2]float64{{w.cx, w.cy}}
	for i, p := range w.poly {
		q := w.poly[(i+1)%len(w.poly)]
		for _, f := range []float64{0.5, 0.2, 0.8} {
			tries = append(tries, [2]float64{p[0] + f*(q[0]-p[0]), p[1] + f*(q[1]-p[1])})
		}
	}
	best, bx, by := -1.0, w.cx, w.cy
	for _, t := range tries {
		far := 8 * b.k // far enough is all alike: the first wins
		for _, o := range others {
			far = math.Min(far, math.Hypot(t[0]-o[0], t[1]-o[1]))
		}
		if !b.free(Box{t[0], t[1], t[0], t[1]}.Grow(0.5 * b.k)) {
			far -= 4 * b.k
		}
		if far > best {
			best, bx, by = far, t[0], t[1]
		}
	}
	return bx, by
}

func (b *builder) free(box Box) bool {
	for _, t := range b.taken {
		if box.Overlaps(t) {
			return false
		}
	}
	return true
}

// lineTexts returns the texts of a label of several lines about cx, cy, and the box they fill.
func (b *builder) lineTexts(w wish, cx, cy float64, ls []string) ([]Prim, Box) {
	face := fonts.Regular
	if w.marked {
		face = fonts.SemiBold
	}
	size := textSmall * b.k
	y := cy - 1.1*size*float64(len(ls)-1)/2 + 0.33*size
	var box Box
	out := make([]Prim, len(ls))
	for i, l := range ls {
		out[i] = Prim{Kind: Text, X: round3(cx), Y: round3(y + 1.1*size*float64(i)), Size: size, Anchor: Middle, Face: face, Text: l}
		box = box.Union(out[i].Box())
	}
	return out, box
}

// lines writes the label about cx, cy over paper, when nothing else stands there.
func (b *builder) lines(w wish, cx, cy float64, ls []string) bool {
	texts, box := b.lineTexts(w, cx, cy, ls)
	if !b.free(box.Grow(0.7 * b.k)) { // two numbers side by side must not read as one
		return false
	}
	g := b.group(Prim{ID: w.id, Role: Label, Layer: w.layer, Doc: w.doc, Depth: depthLabels})
	b.path(w.id+"/plate", g, Plate, Rect(box), Paper)
	for i, t := range texts {
		b.text(w.id+"/"+strconv.Itoa(i), g, Label, t.X, t.Y, textSmall, Middle, t.Face, 0, t.Text)
	}
	return true
}

func (b *builder) nameInside(w wish) bool {
	if !w.inside {
		return false
	}
	pad := 0.7 * b.k
	for _, ls := range splits(w.words) {
		wide := 0.0
		for _, l := range ls {
			wide = math.Max(wide, fonts.Width(fonts.Regular, textSmall*b.k, l))
		}
		if b.inside(w, wide+2*pad, 1.1*textSmall*b.k*float64(len(ls))+1.2*pad, ls) {
			return true
		}
	}
	return b.inside(w, fonts.Width(fonts.Regular, textSmall*b.k, w.number)+pad, textSmall*b.k, []string{w.number})
}

// inside tries nine places for a label of the given size within the thing.
func (b *builder) inside(w wish, wide, high float64, ls []string) bool {
	if wide > w.home.W() || high > w.home.H() {
		return false
	}
	for _, f := range [9][2]float64{{0.5, 0.5}, {0.5, 0}, {0.5, 1}, {0, 0.5}, {1, 0.5}, {0, 0}, {1, 1}, {1, 0}, {0, 1}} {
		x := w.home.X0 + f[0]*(w.home.W()-wide)
		y := w.home.Y0 + f[1]*(w.home.H()-high)
		box := Box{x, y, x + wide, y + high}
		if b.free(box) && b.offOthers(box, w.home) && b.lines(w, x+wide/2, y+high/2, ls) {
			return true
		}
	}
	return false
}

// offOthers reports whether box is clear of every seen thing that could be mistaken for its owner.
func (b *builder) offOthers(box, home Box) bool {
	for _, t := range b.tops {
		if t != home && box.Overlaps(t) && !home.Within(t) {
			return false
		}
	}
	return true
}

// splits offers the words on one line, on two and on three, the most even split first.
func splits(words string) [][]string {
	out := [][]string{{words}}
	f := strings.Fields(words)
	for n := 2; n <= 3 && n <= len(f); n++ {
		if l := evenSplit(f, n); l != nil {
			out = append(out, l)
		}
	}
	return out
}

func evenSplit(f []string, n int) []string {
	if n == 1 {
		return []string{strings.Join(f, " ")}
	}
	var best []string
	long := math.MaxInt
	for i := 1; i <= len(f)-n+1; i++ {
		l := append([]string{strings.Join(f[:i], " ")}, evenSplit(f[i:], n-1)...)
		m := 0
		for _, s := range l {
			m = max(m, len(s))
		}
		if m < long {
			best, long = l, m
		}
	}
	return best
}

// numberNear puts a bare number right beside a mark.
func (b *builder) numberNear(w wish) bool {
	if !w.mark {
		return false
	}
	wide, high := fonts.Width(fonts.Regular, textSmall*b.k, w.number), fonts.CapHeight*textSmall*b.k
	gap := 1.3 * b.k
	for _, f := range [8][2]float64{{1, 0}, {-1, 0}, {1, -1}, {1, 1}, {-1, -1}, {-1, 1}, {0, -1}, {0, 1}} {
		cx, cy := w.cx+f[0]*(gap+wide/2), w.cy+f[1]*(gap+high/2)
		box := Box{cx - wide/2, cy - high, cx + wide/2, cy + high}
		if !b.free(box) {
			continue
		}
		clear := true
		for _, o := range b.want {
			if o.mark && o.id != w.id && box.Overlaps(o.home) {
				clear = false
				break
			}
		}
		if clear && b.lines(w, cx, cy, []string{w.number}) {
			return true
		}
	}
	return false
}

// balloon puts the number in a circle, or words in a frame, at the nearest free place and draws a
// leader to the thing. When all of room is full it goes on above it.
func (b *builder) balloon(w wish, room Box) {
	words := w.number
	hx := math.Max(fonts.Width(fonts.Regular, textSmall*b.k, words)/2+0.9*b.k, 2.1*b.k)
	hy := hx
	round := hx < 4*b.k
	if !round {
		hy = 2.1 * b.k
	}
	at := func(x, y float64) Box { return Box{x - hx, y - hy, x + hx, y + hy} }
	best, bx, by := math.Inf(1), 0.0, 0.0
	for ring := 1; ring <= 30; ring++ {
		r := hy * (0.8 + 0.7*float64(ring))
		if r > best {
			break
		}
		n := 8 + 4*ring
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / float64(n))
			x, y := w.cx+(r+hx-hy)*cos, w.cy+r*sin
			box := at(x, y)
			if !box.Within(room) || !b.free(box) {
				continue
			}
			cost := r
			for _, t := range b.tops {
				if box.Overlaps(t) {
					cost += 0.8 * hy
				}
			}
			if cost < best {
				best, bx, by = cost, x, y
			}
		}
	}
	for row := 0; math.IsInf(best, 1); row++ {
		y := room.Y0 - hy*(1+2.2*float64(row))
		for x := room.X0 + hx; x <= math.Max(room.X1-hx, room.X0+hx); x += hy {
			if c := math.Abs(x - w.cx); c < best && b.free(at(x, y)) {
				best, bx, by = c, x, y
			}
		}
		if row > 1000 {
			panic("drawing: no row is free for a label")
		}
	}
	g := b.group(Prim{ID: w.id, Role: Balloon, Layer: w.layer, Doc: w.doc, Depth: depthLabels + 1})
	dx, dy := w.cx-bx, w.cy-by
	d := math.Hypot(dx, dy)
	out := hy // from the middle of the balloon to its edge, towards the thing
	if !round && d > 0 {
		out = d * math.Min(hx/math.Max(math.Abs(dx), 1e-9), hy/math.Max(math.Abs(dy), 1e-9))
	}
	if d > out {
		b.path(w.id+"/leader", g, Leader, LineFrom(bx+dx*out/d, by+dy*out/d, w.cx, w.cy), NoFill)
		if !w.mark {
			b.path(w.id+"/dot", g, Leader, Circle(w.cx, w.cy, 0.4*b.k), Solid)
		}
	}
	if round {
		b.path(w.id+"/ring", g, Balloon, Circle(bx, by, hx), Paper)
	} else {
		b.path(w.id+"/ring", g, Balloon, Rect(at(bx, by)), Paper)
	}
	b.text(w.id+"/0", g, Label, bx, by+0.33*textSmall*b.k, textSmall, Middle, fonts.Regular, 0, words)
	b.taken[len(b.taken)-1] = at(bx, by)
}
