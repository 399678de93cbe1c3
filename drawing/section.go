package drawing

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"berthwright/unit"
)

// behindCut is how far behind the plane of a section things are still drawn.
const behindCut = 1500 * unit.Millimetre

// Section cuts the van at x and looks forward, so that the left wall is at left. It shows the bare and the lined wall of the cut
// in Input.Cuts at x (without one, a remark), the floor build-up, the wheel boxes, what the plane cuts hatched by ISO 128 (from
// memory), and what stands up to 1.5 m ahead of the plane in thin outline. What holds other things is cut hollow.
func Section(in Input, x unit.Length, o Options) Scene {
	where := unit.Format(x, in.System, -1) + " back from the front axle"
	if l, ok := in.Van.Bulkhead.Get(); ok {
		where = unit.Format(abs(x-l), in.System, -1) + " back from the bulkhead line"
		if x < l {
			where = unit.Format(l-x, in.System, -1) + " ahead of the bulkhead line"
		}
	}
	id := "section-" + strconv.FormatFloat(x.Millimetres(), 'f', -1, 64)
	b := newBuilder(id, "section "+where+", looking forward", in, o)
	b.at = func(_, y, z unit.Length) (float64, float64) { return y.Millimetres(), -z.Millimetres() }
	i := slices.IndexFunc(in.Cuts, func(c Cut) bool { return c.X == x })
	var cut Cut
	if i >= 0 {
		cut = in.Cuts[i]
	} else {
		b.in.Remarks = append([]string{"The curve of the wall is not known here: nothing was measured at this station."}, b.in.Remarks...)
	}
	body := b.cutBody(cut, x)
	parts := b.cutThings(x)
	room := b.room(body != (Box{}), body)
	c := b.group(Prim{ID: "centre-line", Role: CentreLine, Layer: "datum", Depth: depthBody + 2})
	b.path("centre-line/z", c, CentreLine, LineFrom(0, room.Y0-3*b.k, 0, room.Y1+3*b.k), NoFill)
	y := room.Y1
	if o.Dimensions {
		y = b.cutWidths(cut, y+2*b.k)
		b.cutHeights(cut, parts, room)
		b.cutItems(cut, parts, room.Y0)
	}
	y = b.floorBuild(cut, room, y)
	b.remarks(room.X0, y, false)
	b.grid(room)
	b.placeLabels(room.Grow(5 * b.k))
	return b.finish(2)
}

func points(ps []YZ) [][2]float64 {
	out := make([][2]float64, len(ps))
	for i, p := range ps {
		out[i] = [2]float64{p.Y.Millimetres(), -p.Z.Millimetres()}
	}
	return out
}

// cutBody draws the cut walls, roof and floor, and the wheel boxes.
func (b *builder) cutBody(c Cut, x unit.Length) Box {
	g := b.group(Prim{ID: "van", Role: Outline, Layer: "van", Doc: "van/shell", Title: "the wall at this station", Depth: depthBody})
	var box Box
	bare, lined := points(c.Bare), points(c.Lined)
	if len(bare) > 2 {
		b.path("van/bare", g, Outline, Polygon(bare), NoFill)
		box = boxOf(bare)
	}
	if len(lined) > 2 {
		b.path("van/lined", g, Datum, Polygon(lined), NoFill)
		box = box.Union(boxOf(lined))
	}
	if len(bare) > 2 && len(lined) > 2 {
		ring := append(append(slices.Clone(bare), bare[0]), lined...)
		b.path("van/lining", g, Hatch, hatchLines(append(ring, lined[0]), 1.4*b.k), NoFill)
	}
	for i, l := range c.Floor {
		if i+1 < len(c.Floor) && len(lined) > 2 { // the top one is the lined floor itself
			z := -l.Z.Millimetres()
			b.path("van/floor-"+strconv.Itoa(i+1), g, Thin, LineFrom(lined[0][0], z, lined[len(lined)-1][0], z), NoFill)
		}
	}
	for i, w := range b.in.Van.WheelBoxes {
		t, ok := w.Top.Get()
		if !ok || x < w.X0 || x > w.X1 {
			continue
		}
		id := "van/wheel-box-" + strconv.Itoa(i+1)
		inner, outer := w.Y1, w.Y0
		if w.Y0 > 0 {
			inner, outer = w.Y0, w.Y1
		}
		if l, r, ok := across(c.Bare, t); ok && w.Y0 > 0 {
			outer = r
		} else if ok {
			outer = l
		}
		z := -t.Millimetres()
		b.path(id, g, Outline, polyline([2]float64{inner.Millimetres(), 0}, [2]float64{inner.Millimetres(), z}, [2]float64{outer.Millimetres(), z}), NoFill)
		box = box.Union(Box{math.Min(inner.Millimetres(), outer.Millimetres()), z, math.Max(inner.Millimetres(), outer.Millimetres()), 0})
	}
	if f, ok := b.in.Van.FinishedFloor.Get(); ok && len(lined) < 3 {
		if l, ok := b.in.Van.LeftWall.Get(); ok {
			r := b.in.Van.RightWall.Else(-l)
			b.path("van/finished-floor", g, Datum, LineFrom(l.Millimetres(), -f.Millimetres(), r.Millimetres(), -f.Millimetres()), NoFill)
		}
	}
	return box
}

// across returns where a curve crosses the height z, nearest to the centre line on either side.
func across(ps []YZ, z unit.Length) (l, r unit.Length, ok bool) {
	okL, okR := false, false
	for i := 1; i < len(ps); i++ {
		a, c := ps[i-1], ps[i]
		if (a.Z < z) == (c.Z < z) && a.Z != z && c.Z != z || a.Z == c.Z {
			continue
		}
		f := (z - a.Z).Per(c.Z - a.Z).Share()
		if !(f >= 0 && f <= 1) {
			continue
		}
		y := a.Y + (c.Y - a.Y).Times(f)
		if y < 0 && (!okL || y > l) {
			l, okL = y, true
		}
		if y > 0 && (!okR || y < r) {
			r, okR = y, true
		}
	}
	return l, r, okL && okR
}

// inwards rounds the two ends of a width to whole millimetres, so that it is never said too wide.
func inwards(l, r unit.Length) (unit.Length, unit.Length) {
	return trunc(l), trunc(r)
}

// trunc cuts l to whole millimetres, towards the centre line.
func trunc(l unit.Length) unit.Length { return l - l%unit.Millimetre }

// part is a thing cut by the plane.
type part struct {
	s      *shape
	y0, y1 unit.Length
}

// cutThings draws what is behind the plane, the furthest first, then what it cuts.
func (b *builder) cutThings(x unit.Length) []part {
	var beyond []*shape
	var parts []part
	for _, t := range b.in.Things {
		if t.Kind != Item || len(t.Outline) < 3 || t.Removed || t.Ghost {
			continue
		}
		lo, hi := t.Outline[0].X, t.Outline[0].X
		y0, y1 := t.Outline[0].Y, t.Outline[0].Y
		for _, p := range t.Outline {
			lo, hi, y0, y1 = min(lo, p.X), max(hi, p.X), min(y0, p.Y), max(y1, p.Y)
		}
		s := &shape{t: t, role: ItemBeyond, near: hi.Millimetres()}
		if lo < x && x < hi {
			s.role = ItemCut
			y0, y1 = spanAt(t.Outline, x)
		} else if hi > x || x-hi > behindCut || t.Outside {
			continue
		}
		a, c, z0, z1 := y0.Millimetres(), y1.Millimetres(), -t.Z0.Millimetres(), -t.Z1.Millimetres()
		s.poly = [][2]float64{{a, z0}, {c, z0}, {c, z1}, {a, z1}}
		s.box = boxOf(s.poly)
		if t.Marked {
			s.role = ItemMarked
		}
		if lo < x && x < hi {
			parts = append(parts, part{s, y0, y1})
		} else {
			beyond = append(beyond, s)
		}
	}
	slices.SortStableFunc(beyond, func(p, q *shape) int {
		return cmp.Or(cmp.Compare(p.near, q.near), cmp.Compare(len(p.t.Within), len(q.t.Within)), strings.Compare(p.t.ID, q.t.ID))
	})
	slices.SortStableFunc(parts, func(p, q part) int {
		return cmp.Or(cmp.Compare(len(p.s.t.Within), len(q.s.t.Within)), strings.Compare(p.s.t.ID, q.s.t.ID))
	})
	var hides []Box
	for _, p := range parts {
		if !p.s.t.Holds { // through what is hollow one sees on
			hides = append(hides, p.s.box)
		}
	}
	for i, s := range slices.Backward(beyond) {
		g := b.cutGroup(s, depthThings+i)
		b.path(g+"/edge", g, s.role, Polygon(s.poly), Paper)
		if !covered(s.box, hides) && !b.quiet(s.t) {
			w := b.wishFor(s)
			w.inside = true
			b.want = append(b.want, w)
		}
		if !s.t.Holds {
			hides = append(hides, s.box)
		}
	}
	for i, p := range parts {
		s := p.s
		g := b.cutGroup(s, depthOver+i)
		fill := Paper
		if s.t.Holds {
			fill = NoFill
		}
		b.path(g+"/edge", g, s.role, Polygon(s.poly), fill)
		if !s.t.Holds {
			poly := s.poly
			if i%2 == 1 { // neighbours the other way
				poly = mirrored(poly)
			}
			h := hatchLines(poly, (2+0.4*float64(i%3))*b.k)
			if i%2 == 1 {
				h = h.mirrored()
			}
			b.path(g+"/cut", g, Hatch, h, NoFill)
		}
		b.tops = append(b.tops, s.box)
		if !b.quiet(s.t) {
			b.want = append(b.want, b.wishFor(s))
		}
	}
	return parts
}

func (b *builder) cutGroup(s *shape, depth int) string {
	return b.group(Prim{ID: "item:" + s.t.ID, Role: s.role, Layer: s.t.Layer, Doc: s.t.Doc, Title: accessible(s.t), Focus: true, Depth: depth})
}

func mirrored(poly [][2]float64) [][2]float64 {
	out := make([][2]float64, len(poly))
	for i, p := range poly {
		out[i] = [2]float64{-p[0], p[1]}
	}
	return out
}

func (s Segs) mirrored() Segs {
	out := slices.Clone(s)
	for i := range out {
		out[i].X = -out[i].X
	}
	return out
}

// spanAt returns the extent across of an outline at x.
func spanAt(o []At, x unit.Length) (lo, hi unit.Length) {
	first := true
	for i, p := range o {
		q := o[(i+1)%len(o)]
		if (p.X < x) == (q.X < x) {
			continue
		}
		y := p.Y + (q.Y - p.Y).Times((x - p.X).Per(q.X-p.X).Share())
		if first || y < lo {
			lo = y
		}
		if first || y > hi {
			hi = y
		}
		first = false
	}
	return lo, hi
}
