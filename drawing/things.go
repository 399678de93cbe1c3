package drawing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"berthwright/drawing/fonts"
	"berthwright/unit"
)

// shape is a thing as it is seen in one view.
type shape struct {
	t      Thing
	poly   [][2]float64 // empty for a mark
	box    Box
	cx, cy float64 // its centre of mass in the view
	near   float64 // larger is nearer to the eye
	role   Role
}

// cutHeight is the z at which the plan is cut: what hangs wholly above is drawn in dash-dot-dot.
const cutHeight = 1400 * unit.Millimetre

// things draws the items, zones and marks among ts and asks for their labels.
// near tells how close to the eye a thing is, in millimetres; above tells that it is over the cut.
func (b *builder) things(ts []Thing, poly func(Thing) [][2]float64, near func(Thing) float64, above func(Thing) bool) {
	shapes := make([]*shape, 0, len(ts))
	for _, t := range ts {
		if t.Kind == Spread {
			continue
		}
		s := &shape{t: t, near: near(t)}
		s.cx, s.cy = b.at(t.Centre.X, t.Centre.Y, t.Centre.Z)
		if t.Kind != MassOnly && len(t.Outline) > 2 {
			s.poly = poly(t)
			s.box = boxOf(s.poly)
		} else {
			s.t.Kind = MassOnly
			r := 0.8 * b.k
			s.box = Box{s.cx - r, s.cy - r, s.cx + r, s.cy + r}
		}
		shapes = append(shapes, s)
	}
	slices.SortStableFunc(shapes, func(p, q *shape) int {
		return cmp.Or(cmp.Compare(p.near, q.near), strings.Compare(p.t.ID, q.t.ID))
	})
	type over struct {
		t   Thing
		box Box
	}
	open := func(c, t Thing) bool { // t is seen in c
		return slices.Contains(t.Within, c.ID) && (b.sc.ID != "plan" || c.Z1 >= cutHeight)
	}
	var nearer []over
	for _, s := range slices.Backward(shapes) {
		s.role = roleOf(s.t)
		if s.role != ItemEdge {
			continue
		}
		var upon []Box // what it stands in is open to the eye
		for _, o := range nearer {
			if !open(o.t, s.t) {
				upon = append(upon, o.box)
			}
		}
		switch {
		case above(s.t):
			s.role = ItemAbove
			continue
		case covered(s.box, upon):
			s.role = ItemHidden
		}
		nearer = append(nearer, over{s.t, s.box})
	}
	for _, s := range shapes { // and is painted before it
		for _, c := range shapes {
			if s.role == ItemEdge && c.near >= s.near && open(c.t, s.t) {
				s.near = c.near + float64(len(s.t.Within))
			}
		}
	}
	for _, s := range shapes {
		b.shape(s)
		if s.role == ItemEdge {
			b.tops = append(b.tops, s.box)
		}
	}
	for _, s := range shapes {
		if !s.t.Ghost && !b.quiet(s.t) {
			b.want = append(b.want, b.wishFor(s))
		}
	}
}

// quiet tells whether a thing is drawn without a name or number here.
func (b *builder) quiet(t Thing) bool { return t.Quiet || t.Light && !t.Marked && b.k >= 40 }

func roleOf(t Thing) Role {
	switch {
	case t.Ghost:
		return ItemGhost
	case t.Removed:
		return ItemRemoved
	case t.Marked:
		return ItemMarked
	case t.Kind == MassOnly:
		return Mark
	case t.Kind == Zone:
		return ZoneArea
	}
	return ItemEdge
}

// covered reports whether most of box lies under nearer things.
func covered(box Box, nearer []Box) bool {
	const n = 6
	hit := 0
	for i := range n * n {
		x := box.X0 + box.W()*(float64(i%n)+0.5)/n
		y := box.Y0 + box.H()*(float64(i/n)+0.5)/n
		for _, o := range nearer {
			if x > o.X0 && x < o.X1 && y > o.Y0 && y < o.Y1 {
				hit++
				break
			}
		}
	}
	return float64(hit) >= 0.6*n*n
}

// shape draws one thing as a group that the page can move, focus and name.
func (b *builder) shape(s *shape) {
	depth := depthThings + int(math.Round(s.near))
	switch s.role {
	case ItemAbove:
		depth += 300000
	case ItemHidden, ZoneArea, ItemRemoved, ItemGhost:
		depth += 200000
	case Mark:
		depth += 400000
	case ItemMarked:
		depth += 500000
	}
	id := "item:" + s.t.ID
	if s.t.Ghost {
		id = "ghost:" + s.t.ID
	}
	g := b.group(Prim{ID: id, Role: s.role, Layer: s.t.Layer, Doc: s.t.Doc, Title: accessible(s.t), Focus: !s.t.Ghost, Depth: depth})
	if s.t.Kind == MassOnly {
		r := 0.8 * b.k
		d := append(LineFrom(s.cx-r, s.cy-r, s.cx+r, s.cy+r), LineFrom(s.cx-r, s.cy+r, s.cx+r, s.cy-r)...)
		b.path(id+"/mark", g, s.role, d, NoFill)
		return
	}
	fill := NoFill
	if s.role == ItemEdge {
		fill = Paper
	}
	b.path(id+"/edge", g, s.role, Polygon(s.poly), fill)
	switch s.role {
	case ZoneArea:
		b.path(id+"/hatch", g, ZoneArea, hatchLines(s.poly, 4*b.k), NoFill)
	case ItemRemoved:
		d := append(LineFrom(s.box.X0, s.box.Y0, s.box.X1, s.box.Y1), LineFrom(s.box.X0, s.box.Y1, s.box.X1, s.box.Y0)...)
		b.path(id+"/cross", g, ItemRemoved, d, NoFill)
	}
}

func accessible(t Thing) string {
	s := t.Name
	if t.Number > 0 {
		s = strconv.Itoa(t.Number) + " " + s
	}
	if t.Mass != "" {
		s += ", " + t.Mass
	}
	switch {
	case t.Removed:
		s += ", removed"
	case t.Ghost:
		s += ", former place"
	case t.Kind == Zone:
		s += ", somewhere in this zone"
	}
	return s
}

func boxOf(poly [][2]float64) Box {
	b := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range poly {
		b = Box{math.Min(b.X0, p[0]), math.Min(b.Y0, p[1]), math.Max(b.X1, p[0]), math.Max(b.Y1, p[1])}
	}
	return b
}

const spreadTitle = "Spread along the van, from and to; the tick is the middle of the mass"

// ends returns the left and right end of a stretch on the sheet.
func (t Thing) ends(dir float64) (x0, x1 float64) {
	x0, x1 = dir*t.X0.Millimetres(), dir*t.X1.Millimetres()
	return math.Min(x0, x1), math.Max(x0, x1)
}

// spreads draws the stretches as bars under a view, packed into rows, from y down. It returns the
// y below the last row.
func (b *builder) spreads(all []Thing, dir, y float64, title string) float64 {
	var ts []Thing
	for _, t := range all {
		if t.Kind == Spread {
			ts = append(ts, t)
		}
	}
	if len(ts) == 0 {
		return y
	}
	slices.SortStableFunc(ts, func(p, q Thing) int {
		a, _ := p.ends(dir)
		c, _ := q.ends(dir)
		return cmp.Or(cmp.Compare(a, c), strings.Compare(p.ID, q.ID))
	})
	row := 4.4 * b.k
	g := b.group(Prim{ID: "stretches", Role: Stretch, Layer: "stretch", Depth: depthOver})
	var left float64 = math.Inf(1)
	for _, t := range ts {
		x0, _ := t.ends(dir)
		left = math.Min(left, x0)
	}
	b.text("stretches/title", g, Note, left, y+2.2*b.k, textSmall, Start, fonts.Italic, 0, title)
	y += 3 * b.k
	var ends []float64 // right end of each row so far
	for _, t := range ts {
		x0, x1 := t.ends(dir)
		words := strings.TrimSpace(strconv.Itoa(t.Number) + " " + t.Name)
		if t.Number == 0 {
			words = t.Name
		}
		if t.Mass != "" {
			words += ", " + t.Mass
		}
		right := math.Max(x1, x0+fonts.Width(fonts.Regular, textSmall*b.k, words)) + 2*b.k
		r := 0
		for r < len(ends) && ends[r] > x0 {
			r++
		}
		if r == len(ends) {
			ends = append(ends, 0)
		}
		ends[r] = right
		yy := y + float64(r+1)*row
		id := "item:" + t.ID
		gg := b.group(Prim{ID: id, Role: Stretch, Layer: t.Layer, Doc: t.Doc, Title: accessible(t), Focus: true, Depth: depthOver + 1})
		tick := 0.7 * b.k
		c := dir * t.Centre.X.Millimetres()
		d := append(LineFrom(x0, yy, x1, yy), LineFrom(x0, yy-tick, x0, yy+tick)...)
		d = append(append(d, LineFrom(x1, yy-tick, x1, yy+tick)...), LineFrom(c, yy, c, yy+1.6*tick)...)
		b.path(id+"/bar", gg, Stretch, d, NoFill)
		b.text(id+"/name", gg, Label, x0, yy-0.8*b.k, textSmall, Start, fonts.Regular, 0, words)
	}
	return y + float64(len(ends)+1)*row
}

// shortName is the number and the name up to its first comma, unless the comma belongs to a list.
func shortName(t Thing) string {
	n, more, _ := strings.Cut(t.Name, ",")
	if strings.Contains(more, " and ") {
		n = t.Name
	}
	if t.Number > 0 {
		return fmt.Sprintf("%d %s", t.Number, n)
	}
	return n
}
