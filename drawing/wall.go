package drawing

import (
	"math"

	"berthwright/unit"
)

// WallLeft looks at the left wall from inside: front at right. It shows what is against that wall, with pillars and ribs as thin
// chain lines and the holes by their number in the hole register; with Options.Fixings only what is fixed to it.
func WallLeft(in Input, o Options) Scene {
	return wallView("wall-left", "left wall seen from inside, front at right", "left", -1, in, o)
}

// WallRight looks at the right wall from inside: front at left.
func WallRight(in Input, o Options) Scene {
	return wallView("wall-right", "right wall seen from inside, front at left", "right", 1, in, o)
}

// againstWall is how far off a wall a thing may be and still belong to its elevation.
const againstWall = 450 * unit.Millimetre

// AtWall reports whether t belongs in the elevation of the left wall (or, left false, of the right one): its nearest wall is
// that one and no further than 450 mm off, behind the bulkhead line. What reaches from wall to wall belongs to both, what is outside the van to neither.
func AtWall(t Thing, v Van, left bool) bool {
	l, okL := v.LeftWall.Get()
	r, okR := v.RightWall.Get()
	if t.Outside || t.InSkin || t.Kind == Spread || !okL || !okR {
		return false
	}
	lo, hi, back := t.Centre.Y, t.Centre.Y, t.Centre.X
	if t.Kind != MassOnly && len(t.Outline) > 2 {
		lo, hi = t.Outline[0].Y, t.Outline[0].Y
		for _, p := range t.Outline {
			lo, hi, back = min(lo, p.Y), max(hi, p.Y), max(back, p.X)
		}
	}
	if line, ok := v.Bulkhead.Get(); ok && back <= line {
		return false // in the cab
	}
	near, far := max(lo-l, 0), max(r-hi, 0)
	if !left {
		near, far = far, near
	}
	return near <= againstWall && (near < far || near == far && hi-lo > (r-l).Half() || near < far+60*unit.Millimetre && hi-lo > (r-l).Times(0.8))
}

func wallView(id, view, face string, dir float64, in Input, o Options) Scene {
	b := newBuilder(id, view, in, o)
	b.at = func(x, _, z unit.Length) (float64, float64) { return dir * x.Millimetres(), -z.Millimetres() }
	left := face == "left"
	top, x0, x1, known := b.wallBody(left, dir)
	square := func(x, z unit.Length) (float64, float64) { return b.at(x, 0, z) }
	b.doors(face, square)
	var seen []Thing
	var lines []Thing
	for _, t := range in.Things {
		switch {
		case t.Kind == Spread:
			if (t.Layer == "electric" || t.Layer == "water" || t.Layer == "gas" || t.Layer == "heating") && (t.Centre.Y == 0 || (t.Centre.Y < 0) == left) {
				lines = append(lines, t)
			}
		case !AtWall(t, in.Van, left), o.Fixings && t.Fixed == "":
		default:
			seen = append(seen, t)
		}
	}
	b.things(seen, func(t Thing) [][2]float64 {
		lo, hi := t.Outline[0].X, t.Outline[0].X
		for _, p := range t.Outline {
			lo, hi = min(lo, p.X), max(hi, p.X)
		}
		a, c := dir*lo.Millimetres(), dir*hi.Millimetres()
		a, c = math.Min(a, c), math.Max(a, c)
		z0, z1 := -t.Z1.Millimetres(), -t.Z0.Millimetres()
		return [][2]float64{{a, z0}, {c, z0}, {c, z1}, {a, z1}}
	}, func(t Thing) float64 { // the edge towards the eye, which stands at the centre line
		y := dir * t.Centre.Y.Millimetres()
		for i, p := range t.Outline {
			if v := dir * p.Y.Millimetres(); i == 0 || v < y {
				y = v
			}
		}
		return 5000 - y
	}, func(Thing) bool { return false })
	b.holes(face, square)
	room := b.room(known, Box{x0, -top, x1, 0})
	if known {
		room = Box{math.Min(room.X0, x0), math.Min(room.Y0, -top), math.Max(room.X1, x1), math.Max(room.Y1, 0)}
	}
	y := room.Y1 + 1*b.k
	y = b.members(face, dir, top, y)
	if o.Dimensions && known {
		y += 6.5 * b.k
		bh, rd := in.Van.Bulkhead.Else(0), in.Van.RearDoor.Else(0)
		b.dimension(dim{id: "floor", a: dir * bh.Millimetres(), b: dir * rd.Millimetres(), at: y, from: room.Y1, value: rd - bh, prefix: "bulkhead line to rear door line ", extension: true})
		if !o.Fixings { // the fixing map says it in words
			b.measured(seen, dir, room.Y0)
		}
		b.wallHeights(room, dir)
	}
	y = b.remarks(room.X0, y, false)
	if o.Band || o.Fixings {
		b.spreads(lines, dir, y+4*b.k, "Wires, pipes and ducts on this side by their ends; their way along the wall is not entered")
	}
	b.grid(room)
	b.placeLabels(room.Grow(5 * b.k))
	return b.finish(2)
}

// wallBody draws what stands between the bulkhead line and the rear door line: floor, ceiling, wheel box. top is the height of
// the bare inside, 0 when unknown.
func (b *builder) wallBody(left bool, dir float64) (top, x0, x1 float64, known bool) {
	v := b.in.Van
	bh, ok := v.Bulkhead.Get()
	rd, ok2 := v.RearDoor.Get()
	if !ok || !ok2 {
		return 0, 0, 0, false
	}
	g := b.group(Prim{ID: "van", Role: Outline, Layer: "van", Doc: "van", Title: "the wall", Depth: depthBody})
	a, c := dir*bh.Millimetres(), dir*rd.Millimetres()
	roof := func(of func(Cut) []YZ) [][2]float64 {
		var out [][2]float64
		for _, k := range b.in.Cuts {
			if k.X < bh || k.X > rd || len(of(k)) == 0 {
				continue
			}
			high := 0.0
			for _, p := range of(k) {
				high = math.Max(high, p.Z.Millimetres())
			}
			out = append(out, [2]float64{dir * k.X.Millimetres(), -high})
			top = math.Max(top, high)
		}
		return out
	}
	bare, lined := roof(func(k Cut) []YZ { return k.Bare }), roof(func(k Cut) []YZ { return k.Lined })
	switch ceiling, ok := v.Ceiling.Get(); {
	case len(bare) > 1:
		b.path("van/roof", g, Outline, polyline(bare...), NoFill)
		if len(lined) > 1 {
			b.path("van/ceiling", g, Thin, polyline(lined...), NoFill)
		}
	case ok:
		top = ceiling.Millimetres()
		b.path("van/ceiling", g, Thin, LineFrom(a, -top, c, -top), NoFill)
	default:
		top = 0
	}
	b.path("van/bare-floor", g, Outline, LineFrom(a, 0, c, 0), NoFill)
	if f, ok := v.FinishedFloor.Get(); ok {
		z := -f.Millimetres()
		b.path("van/floor-hatch", g, Hatch, hatchLines([][2]float64{{a, 0}, {c, 0}, {c, z}, {a, z}}, 1.5*b.k), NoFill)
		b.path("van/finished-floor", g, Thin, LineFrom(a, z, c, z), NoFill)
	}
	b.datums(-top, 0, dir, -top)
	for _, w := range v.WheelBoxes {
		if t, ok := w.Top.Get(); ok && (w.Y0+w.Y1 < 0) == left {
			w0, w1, z := dir*w.X0.Millimetres(), dir*w.X1.Millimetres(), -t.Millimetres()
			b.path("van/wheel-box", g, ItemBeyond, polyline([2]float64{w0, 0}, [2]float64{w0, z}, [2]float64{w1, z}, [2]float64{w1, 0}), NoFill)
		}
	}
	return top, math.Min(a, c), math.Max(a, c), true
}

// wallHeights draws the heights of ceiling and wheel box above the finished floor, behind the rear door line.
func (b *builder) wallHeights(room Box, dir float64) {
	f, ok := b.in.Van.FinishedFloor.Get()
	if !ok {
		return
	}
	at, from, step := room.X1+6*b.k, room.X1, 6*b.k
	if dir < 0 {
		at, from, step = room.X0-4*b.k, room.X0, -6*b.k
	}
	for i, w := range b.in.Van.WheelBoxes {
		if t, ok := w.Top.Get(); ok && (w.Y0+w.Y1 < 0) == (dir < 0) && i < 2 {
			b.dimension(dim{id: "wheel-box", a: -f.Millimetres(), b: -t.Millimetres(), at: at, from: from, value: t - f, prefix: "wheel box ", upright: true, extension: true})
			at += step
		}
	}
	if c, ok := b.in.Van.Ceiling.Get(); ok {
		b.dimension(dim{id: "headroom", a: -f.Millimetres(), b: -c.Millimetres(), at: at, from: from, value: c - f, prefix: "floor to ceiling ", upright: true, extension: true})
	}
}
