package drawing

import (
	"math"
	"strconv"

	"berthwright/unit"
)

// SideLeft looks at the van from outside on its left, with the left wall taken away: front at left.
// It shows what has its middle left of the centre line or reaches across it; SideRight shows the
// rest, and what reaches across again. Stretches are shown in plan only.
func SideLeft(in Input, o Options) Scene {
	return side("left", "elevation from the left, left wall taken away", 1, in, o)
}

// SideRight looks at the van from outside on its right, with the right wall taken away: front at right.
func SideRight(in Input, o Options) Scene {
	return side("right", "elevation from the right, right wall taken away", -1, in, o)
}

// InSide reports whether t belongs in the elevation from the left (or, left false, from the right).
func InSide(t Thing, left bool) bool {
	if t.Kind == Spread {
		return false
	}
	y := t.Centre.Y
	if t.Kind != MassOnly && len(t.Outline) > 2 {
		lo, hi := t.Outline[0].Y, t.Outline[0].Y
		for _, p := range t.Outline {
			lo, hi = min(lo, p.Y), max(hi, p.Y)
		}
		if lo < 0 && hi > 0 {
			return true
		}
		y = (lo + hi).Half()
	}
	if y == 0 {
		return true
	}
	return (y < 0) == left
}

func side(id, view string, dir float64, in Input, o Options) Scene {
	b := newBuilder(id, view, in, o)
	b.at = func(x, _, z unit.Length) (float64, float64) { return dir * x.Millimetres(), -z.Millimetres() }
	h := hullOf(in.Van)
	b.bodySide(h, dir)
	b.ends = h.ends(dir)
	var seen []Thing
	for _, t := range in.Things {
		if InSide(t, dir > 0) {
			seen = append(seen, t)
		}
	}
	b.things(seen, func(t Thing) [][2]float64 {
		lo, hi := t.Outline[0].X, t.Outline[0].X
		for _, p := range t.Outline {
			lo, hi = min(lo, p.X), max(hi, p.X)
		}
		x0, x1 := dir*lo.Millimetres(), dir*hi.Millimetres()
		if x0 > x1 {
			x0, x1 = x1, x0
		}
		z0, z1 := -t.Z1.Millimetres(), -t.Z0.Millimetres()
		return [][2]float64{{x0, z0}, {x1, z0}, {x1, z1}, {x0, z1}}
	}, func(t Thing) float64 {
		y := t.Centre.Y.Millimetres()
		for i, p := range t.Outline { // the edge towards the eye
			if v := p.Y.Millimetres(); i == 0 || dir*v < dir*y {
				y = v
			}
		}
		return 5000 - dir*y
	}, func(Thing) bool { return false })

	face := "right"
	if dir > 0 {
		face = "left"
	}
	b.holes(face, func(x, z unit.Length) (float64, float64) { return b.at(x, 0, z) })
	known := h.long && h.tall
	x0, x1 := h.x0, h.x1
	if dir < 0 {
		x0, x1 = -h.x1, -h.x0
	}
	room := b.room(known, Box{x0, -h.height, x1, -h.ground})
	b.levels(h, dir)
	top := room.Y0
	y := room.Y1 + 2*b.k
	y = b.axleLines(top-2*b.k, y)
	if in.Centre != nil {
		x, z := b.at(in.Centre.X, 0, in.Centre.Z)
		b.mass(x, z, in.Centre.Text)
	}
	if o.Dimensions {
		y = b.lengthDims(h, dir, room.Y1, y)
		b.heightDims(h, dir, x0, x1)
	}
	b.remarks(x0, y, known)
	b.grid(room)
	b.placeLabels(room.Grow(5 * b.k))
	return b.finish(2)
}

// levels draws the bare and the finished floor and the ceiling between the taped lines.
func (b *builder) levels(h hull, dir float64) {
	v := b.in.Van
	bh, ok := v.Bulkhead.Get()
	rd, ok2 := v.RearDoor.Get()
	if !ok || !ok2 {
		return
	}
	top := v.Ceiling.Else(unit.MetresLength(h.height * 0.9 / 1000)).Millimetres()
	if !v.Ceiling.Given() && !h.tall {
		top = 0
	}
	b.datums(-top, 0, dir, math.Inf(1))
	g := b.group(Prim{ID: "levels", Role: Datum, Layer: "datum", Depth: depthBody + 2})
	x0, x1 := dir*bh.Millimetres(), dir*rd.Millimetres()
	b.path("levels/bare-floor", g, Datum, LineFrom(x0, 0, x1, 0), NoFill)
	if f, ok := v.FinishedFloor.Get(); ok {
		z := -f.Millimetres()
		b.path("levels/floor-hatch", g, Hatch, hatchLines([][2]float64{{x0, 0}, {x1, 0}, {x1, z}, {x0, z}}, 1.5*b.k), NoFill)
		b.path("levels/finished-floor", g, Thin, LineFrom(x0, z, x1, z), NoFill)
	}
	for i, wb := range v.WheelBoxes {
		if t, ok := wb.Top.Get(); ok && (wb.Y0+wb.Y1 < 0) == (dir > 0) {
			w0, w1 := dir*wb.X0.Millimetres(), dir*wb.X1.Millimetres()
			b.path("levels/wheel-box-"+strconv.Itoa(i+1), g, Hidden, polyline([2]float64{w0, 0}, [2]float64{w0, -t.Millimetres()}, [2]float64{w1, -t.Millimetres()}, [2]float64{w1, 0}), NoFill)
		}
	}
	if c, ok := v.Ceiling.Get(); ok {
		b.path("levels/ceiling", g, Thin, LineFrom(x0, -c.Millimetres(), x1, -c.Millimetres()), NoFill)
	}
}

// heightDims draws floor, ceiling and overall height behind the van.
func (b *builder) heightDims(h hull, dir, x0, x1 float64) {
	v := b.in.Van
	if !h.long || !h.tall {
		return
	}
	from, sign := x1, 1.0
	if dir < 0 {
		from, sign = x0, -1.0
	}
	at := from + 5.5*b.k
	if sign < 0 { // the figures stand left of their line
		at = from - 3*b.k
	}
	fh := v.FloorHeight.Else(0)
	b.dimension(dim{id: "floor-height", a: -h.ground, b: 0, at: at, from: from, value: fh, upright: true, extension: true})
	if c, ok := v.Ceiling.Get(); ok {
		b.dimension(dim{id: "ceiling", a: 0, b: -c.Millimetres(), at: at, from: from, value: c, upright: true, extension: true})
	}
	b.dimension(dim{id: "height", a: -h.ground, b: -h.height, at: at + sign*6*b.k, from: from, value: v.Height.Else(0), upright: true, extension: true})
}
