package drawing

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"berthwright/drawing/fonts"
	"berthwright/unit"
)

// Plan draws the van from above, front at left, right-hand side at the top of the sheet. Everything
// with a place is shown once: what hangs above 1.4 m in dash-dot-dot, what lies under something
// else dashed, and stretches as bars underneath.
func Plan(in Input, o Options) Scene {
	b := newBuilder("plan", "plan, front at left", in, o)
	b.at = func(x, y, _ unit.Length) (float64, float64) { return x.Millimetres(), -y.Millimetres() }
	h := hullOf(in.Van)
	b.bodyPlan(h)
	b.ends = h.ends(1)
	seen, shut := in.Things, []string(nil)
	if !o.Hidden {
		seen, shut = b.openSeen(in.Things)
	}
	b.things(seen, func(t Thing) [][2]float64 {
		out := make([][2]float64, len(t.Outline))
		for i, p := range t.Outline {
			out[i] = [2]float64{p.X.Millimetres(), -p.Y.Millimetres()}
		}
		return out
	}, func(t Thing) float64 { return t.Z1.Millimetres() + 1000 }, func(t Thing) bool { return t.Z0 >= cutHeight })

	b.holes("roof", func(x, y unit.Length) (float64, float64) { return b.at(x, y, 0) })
	room := b.room(h.long && h.wide, Box{h.x0, -h.half, h.x1, h.half})
	top, bottom := room.Y0, room.Y1
	if in.Van.LeftWall.Given() && in.Van.RightWall.Given() {
		b.datums(-in.Van.RightWall.Else(0).Millimetres(), -in.Van.LeftWall.Else(0).Millimetres(), 1, top)
	} else {
		b.datums(top, bottom, 1, top)
	}
	c := b.group(Prim{ID: "centre-line", Role: CentreLine, Layer: "datum", Depth: depthBody + 2})
	b.path("centre-line/x", c, CentreLine, LineFrom(room.X0-3*b.k, 0, room.X1+3*b.k, 0), NoFill)

	y := bottom + 2*b.k
	y = b.axleLines(top-2*b.k, y)
	if in.Centre != nil {
		b.mass(in.Centre.X.Millimetres(), -in.Centre.Y.Millimetres(), in.Centre.Text)
	}
	if o.Dimensions {
		y = b.lengthDims(h, 1, bottom, y)
		if !o.Overall {
			b.measured(seen, 1, top)
		}
		if h.wide && h.long {
			b.dimension(dim{id: "width", a: -h.half, b: h.half, at: h.x1 + 10*b.k, from: h.x1, value: in.Van.Width.Else(0), upright: true, extension: true})
		}
	}
	b.shut(shut)
	y = b.remarks(room.X0, y, h.long && h.wide)
	if o.Band {
		y = b.spreads(in.Things, 1, y+4*b.k, spreadTitle)
		b.curve(y+2*b.k, h)
	}
	b.grid(room)
	b.placeLabels(room.Grow(5 * b.k))
	return b.finish(2)
}

// openSeen leaves out what is shut in something that ends below the height the plan is cut at, and lists its numbers.
func (b *builder) openSeen(ts []Thing) (seen []Thing, shut []string) {
	top := map[string]unit.Length{}
	for _, t := range ts {
		if t.Kind == Item && t.Holds && !t.Removed && !t.Ghost {
			top[t.ID] = t.Z1
		}
	}
	for _, t := range ts {
		in := false
		for _, c := range t.Within {
			z, ok := top[c]
			in = in || ok && z < cutHeight && t.Z1 < z
		}
		if in && !t.Marked && !t.Removed && !t.Ghost && t.Kind == Item {
			if t.Number > 0 {
				shut = append(shut, strconv.Itoa(t.Number))
			}
			continue
		}
		seen = append(seen, t)
	}
	return seen, shut
}

// shut says which things are not drawn.
func (b *builder) shut(numbers []string) {
	if len(numbers) > 0 && b.o.Dimensions {
		b.in.Remarks = append([]string{"Not drawn, because shut in something lower than 1.4 m: no. " + strings.Join(numbers, ", ") + "."}, b.in.Remarks...)
	}
}

// room is where labels may stand: the body or, where it is unknown, what surrounds the things.
func (b *builder) room(known bool, body Box) Box {
	r := Box{}
	if known {
		r = body
	}
	for _, p := range b.sc.Prims {
		if p.Kind == Path {
			r = r.Union(p.Box())
		}
	}
	for _, w := range b.want {
		r = r.Union(w.home)
	}
	return r
}

// axleLines draws the axles as chain lines from y0 to below y1, with their loads underneath.
func (b *builder) axleLines(y0, y1 float64) float64 {
	g := b.group(Prim{ID: "axles", Role: CentreLine, Layer: "datum", Depth: depthBody + 3})
	bottom := y1
	if len(b.in.Axles) > 0 {
		bottom += 4 * b.k
	}
	for i, x := range b.in.Van.axles() {
		X, _ := b.at(x, 0, 0)
		b.path("axles/"+strconv.Itoa(i+1), g, CentreLine, LineFrom(X, y0, X, bottom), NoFill)
	}
	foot := y1
	for i, a := range b.in.Axles {
		X, _ := b.at(a.X, 0, 0)
		foot = math.Max(foot, b.load(i, a, X, y1+1*b.k, 8*b.k))
	}
	return foot
}

// load draws an arrow that ends at x, y, pointing up, with its words to the right of the shaft.
// It returns the foot of the words.
func (b *builder) load(i int, a AxleLoad, x, y, long float64) float64 {
	g := b.group(Prim{ID: "axle-load:" + strconv.Itoa(i+1), Role: LoadArrow, Layer: "loads", Doc: "van", Title: strings.TrimSuffix(a.Text+", "+a.Sub, ", "), Focus: true, Depth: depthLoads})
	head := 2.6 * b.k
	b.path(g+"/shaft", g, LoadArrow, LineFrom(x, y+head, x, y+long), NoFill)
	b.path(g+"/head", g, LoadArrow, Polygon([][2]float64{{x, y}, {x - 0.3*head, y + head}, {x + 0.3*head, y + head}}), Solid)
	tx, ty, anchor := b.loadPlace(a, x, y)
	t := b.text(g+"/text", g, Figure, tx, ty+3.2*b.k, textNormal*1.15, anchor, fonts.SemiBold, 0, a.Text)
	t = t.Union(b.text(g+"/sub", g, Note, tx, ty+6.8*b.k, textNormal, anchor, fonts.Regular, 0, a.Sub))
	b.plateUnder(g, t)
	return t.Y1
}

// plateUnder puts paper under the last texts of group g, so that no line runs through them.
func (b *builder) plateUnder(g string, box Box) {
	n := len(b.sc.Prims)
	at := n
	for at > 0 && b.sc.Prims[at-1].In == g && b.sc.Prims[at-1].Kind == Text {
		at--
	}
	p := Prim{ID: g + "/plate", In: g, Kind: Path, Role: Plate, D: Rect(box.Grow(0.3 * b.k)), Fill: Paper}
	b.sc.Prims = slices.Insert(b.sc.Prims, at, p)
}

// loadPlace finds where the words of an axle load stand: right of the arrow, or left of it when an
// extension line of the overall length would run through them, or lower when both are taken.
func (b *builder) loadPlace(a AxleLoad, x, y float64) (tx, ty float64, anchor Anchor) {
	wide := math.Max(fonts.Width(fonts.SemiBold, textNormal*1.15*b.k, a.Text), fonts.Width(fonts.Regular, textNormal*b.k, a.Sub))
	for row := 0; ; row++ {
		ty = y + float64(row)*8*b.k
		right := Box{x + 2*b.k, ty, x + 2*b.k + wide, ty + 8*b.k}
		left := Box{x - 2*b.k - wide, ty, x - 2*b.k, ty + 8*b.k}
		crossed := slices.ContainsFunc(b.ends, func(e float64) bool { return right.X0 < e && e < right.X1 })
		switch {
		case !crossed && b.free(right):
			return right.X0, ty, Start
		case crossed && b.free(left):
			return left.X1, ty, End
		case b.free(right):
			return right.X0, ty, Start
		}
	}
}

// lengthDims draws wheelbase with overhangs, the floor between its lines, and the overall length.
func (b *builder) lengthDims(h hull, dir, from, y float64) float64 {
	v := b.in.Van
	step := 6.5 * b.k
	wb, hasWB := v.Wheelbase.Get()
	if h.long && hasWB {
		y += step
		fo := v.FrontOverhang.Else(0)
		l := v.Length.Else(0)
		b.dimension(dim{id: "front-overhang", a: dir * h.x0, b: 0, at: y, from: from, value: fo, extension: true})
		b.dimension(dim{id: "wheelbase", a: 0, b: dir * wb.Millimetres(), at: y, from: y - step, value: wb, extension: true})
		b.dimension(dim{id: "rear-overhang", a: dir * wb.Millimetres(), b: dir * h.x1, at: y, from: from, value: l - fo - wb, extension: true})
	} else if hasWB {
		y += step
		b.dimension(dim{id: "wheelbase", a: 0, b: dir * wb.Millimetres(), at: y, from: y - step, value: wb, extension: true})
	}
	bh, ok := v.Bulkhead.Get()
	if rd, ok2 := v.RearDoor.Get(); ok && ok2 {
		y += step
		b.dimension(dim{id: "floor", a: dir * bh.Millimetres(), b: dir * rd.Millimetres(), at: y, from: y - 2*b.k, value: rd - bh, prefix: "floor ", extension: true})
	}
	if h.long {
		y += step
		b.dimension(dim{id: "length", a: dir * h.x0, b: dir * h.x1, at: y, from: from, value: v.Length.Else(0), extension: true})
	}
	return y
}

// mostMeasured is how many things are dimensioned from the bulkhead line.
const mostMeasured = 6

// measured draws the distance from the bulkhead line to the near edge of each thing asked for,
// the shortest nearest to the van.
func (b *builder) measured(ts []Thing, dir, top float64) {
	line, ok := b.in.Van.Bulkhead.Get()
	if !ok {
		return
	}
	type key struct {
		t    Thing
		x    unit.Length
		area float64
	}
	var ks []key
	for _, t := range ts {
		if !t.Measured || t.Kind != Item || len(t.Outline) < 3 || t.Ghost || t.Removed {
			continue
		}
		k := key{t: t, x: t.Outline[0].X}
		for i, p := range t.Outline {
			k.x = min(k.x, p.X)
			q := t.Outline[(i+1)%len(t.Outline)]
			k.area += (p.X.Millimetres()*q.Y.Millimetres() - q.X.Millimetres()*p.Y.Millimetres()) / 2
		}
		k.area = math.Abs(k.area)
		if k.x != line {
			ks = append(ks, k)
		}
	}
	if len(ks) > mostMeasured { // the largest in plan lead
		slices.SortStableFunc(ks, func(p, q key) int { return cmp.Compare(q.area, p.area) })
		ks = ks[:mostMeasured]
	}
	slices.SortStableFunc(ks, func(p, q key) int {
		return cmp.Or(cmp.Compare(abs(p.x-line), abs(q.x-line)), strings.Compare(p.t.ID, q.t.ID))
	})
	y := top - 2*b.k
	for _, k := range ks {
		y -= 6 * b.k
		p := ""
		if k.t.Number > 0 {
			p = "no. " + strconv.Itoa(k.t.Number) + ": "
		}
		b.dimension(dim{id: "item-" + k.t.ID, a: dir * line.Millimetres(), b: dir * k.x.Millimetres(), at: y, from: top, value: abs(k.x - line), prefix: p, extension: true})
	}
}

func abs(l unit.Length) unit.Length {
	if l < 0 {
		return -l
	}
	return l
}

// curve draws how much can still be added over the place along the van.
func (b *builder) curve(y float64, h hull) {
	pts := b.in.Curve
	if len(pts) < 2 {
		return
	}
	word, one := "kg", unit.Kilogram
	if b.in.System != unit.Metric {
		word, one = "lb", unit.Pound
	}
	shown := func(m unit.Mass) float64 { return m.Per(one).Share() }
	lo, hi := 0.0, 0.0
	for _, p := range pts {
		lo, hi = math.Min(lo, shown(p.Mass)), math.Max(hi, shown(p.Mass))
	}
	step := niceStep((hi - lo) / 4)
	lo, hi = math.Floor(lo/step)*step, math.Ceil(hi/step)*step
	if !(hi > lo) {
		hi = lo + step
	}
	g := b.group(Prim{ID: "added-mass", Role: Curve, Layer: "loads", Title: "what can still be added, by place along the van", Focus: true, Depth: depthLoads})
	x0, x1 := pts[0].X.Millimetres(), pts[len(pts)-1].X.Millimetres()
	b.text(g+"/title", g, Note, x0, y+2.6*b.k, textSmall, Start, fonts.Italic, 0, "What can still be added at a place along the van, "+word+", before the first limit is reached")
	y += 5 * b.k
	tall := 16 * b.k
	at := func(kg float64) float64 { return y + (hi-kg)/(hi-lo)*tall }
	for kg, i := lo, 0; kg <= hi+step/2; kg, i = kg+step, i+1 {
		role := Rule
		if math.Abs(kg) < step/2 {
			role = Thin
		}
		b.path(g+"/rule-"+strconv.Itoa(i), g, role, LineFrom(x0, at(kg), x1, at(kg)), NoFill)
		b.text(g+"/kg-"+strconv.Itoa(i), g, Note, x0-1.5*b.k, at(kg)+0.9*b.k, textSmall, End, fonts.Regular, 0, strconv.FormatFloat(kg, 'f', -1, 64))
	}
	var d Segs
	for i, p := range pts {
		if i == 0 {
			d = d.move(p.X.Millimetres(), at(shown(p.Mass)))
		} else {
			d = d.line(p.X.Millimetres(), at(shown(p.Mass)))
		}
	}
	b.path(g+"/line", g, Curve, d, NoFill)
	said := ""
	for i, p := range pts {
		if p.Text == "" || p.Text == said { // a level stretch says its figure once
			continue
		}
		x, y := p.X.Millimetres(), at(shown(p.Mass))
		t := Prim{Kind: Text, X: x, Y: y - 1.4*b.k, Size: textSmall * b.k, Face: fonts.SemiBold, Text: p.Text, Anchor: [3]Anchor{Start, Middle, End}[i*2/max(1, len(pts)-1)]}
		if !b.free(t.Box()) {
			continue
		}
		said = p.Text
		b.path(g+"/dot-"+strconv.Itoa(i), g, Curve, Circle(x, y, 0.6*b.k), Solid)
		b.text(g+"/value-"+strconv.Itoa(i), g, Figure, t.X, t.Y, textSmall, t.Anchor, t.Face, 0, p.Text)
	}
}

// niceStep is the next of 1, 2, 5, 10 … above f.
func niceStep(f float64) float64 {
	if !(f > 0) {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(f)))
	for _, m := range []float64{1, 2, 5, 10} {
		if m*p >= f {
			return m * p
		}
	}
	return 10 * p
}

// remarks writes what has to be said under the view and returns the height below it.
func (b *builder) remarks(x, y float64, outline bool) float64 {
	rs := b.in.Remarks
	if outline && b.o.Dimensions {
		rs = append([]string{schematic}, rs...)
	}
	if len(rs) == 0 {
		return y
	}
	g := b.group(Prim{ID: "remarks", Role: Note, Layer: "notes", Depth: depthDims})
	y += 1 * b.k
	for i, r := range rs {
		y += 4 * b.k
		b.text("remarks/"+strconv.Itoa(i+1), g, Note, x, y, textSmall, Start, fonts.Italic, 0, r)
	}
	return y + 1*b.k
}
