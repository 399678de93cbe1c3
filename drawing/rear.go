package drawing

import (
	"math"

	"berthwright/unit"
)

// Rear looks at the van from behind, right side at right: the doors, the holes in them, and what is carried behind, outside on
// the walls, on the roof and under the floor.
func Rear(in Input, o Options) Scene {
	b := newBuilder("rear", "elevation from behind, right side at right", in, o)
	b.at = func(_, y, z unit.Length) (float64, float64) { return y.Millimetres(), -z.Millimetres() }
	h := hullOf(in.Van)
	known := h.wide && h.tall
	square := func(y, z unit.Length) (float64, float64) { return b.at(0, y, z) }
	if known {
		g := b.group(Prim{ID: "van", Role: Outline, Layer: "van", Doc: "van", Title: "the van", Depth: depthBody})
		high := h.height - h.ground
		z := func(f float64) float64 { return -(h.ground + f*high) }
		b.path("van/body", g, Outline, Rounded(Box{-h.half, z(1), h.half, z(0.115)}, 120), NoFill)
		r, t := in.Van.wheelRadius(), in.Van.TrackRear.Else(in.Van.Width.Else(0).Times(0.86)).Millimetres()/2
		for i, s := range [2]float64{-1, 1} {
			box := Box{s*t - 110, -h.ground - 2*r, s*t + 110, -h.ground}
			b.path("van/wheel-"+string(rune('1'+i)), g, Hidden, Rect(Box{box.X0, z(0.115), box.X1, box.Y1}), NoFill)
		}
		b.path("van/ground", g, Datum, LineFrom(-h.half-100, -h.ground, h.half+100, -h.ground), NoFill)
	}
	b.doors("rear", square)
	var seen []Thing
	for _, t := range in.Things {
		if AtRear(t, in) {
			seen = append(seen, t)
		}
	}
	b.things(seen, func(t Thing) [][2]float64 {
		lo, hi := t.Outline[0].Y, t.Outline[0].Y
		for _, p := range t.Outline {
			lo, hi = min(lo, p.Y), max(hi, p.Y)
		}
		a, c, z0, z1 := lo.Millimetres(), hi.Millimetres(), -t.Z0.Millimetres(), -t.Z1.Millimetres()
		return [][2]float64{{a, z0}, {c, z0}, {c, z1}, {a, z1}}
	}, func(t Thing) float64 {
		x := t.Centre.X.Millimetres()
		for _, p := range t.Outline {
			x = math.Max(x, p.X.Millimetres())
		}
		return x + 2000
	}, func(Thing) bool { return false })
	b.holes("rear", square)
	room := b.room(known, Box{-h.half, -h.height, h.half, -h.ground})
	c := b.group(Prim{ID: "centre-line", Role: CentreLine, Layer: "datum", Depth: depthBody + 2})
	b.path("centre-line/z", c, CentreLine, LineFrom(0, room.Y0-3*b.k, 0, room.Y1+3*b.k), NoFill)
	y := room.Y1
	if o.Dimensions && known {
		y += 8 * b.k
		b.dimension(dim{id: "width", a: -h.half, b: h.half, at: y, from: room.Y1, value: in.Van.Width.Else(0), extension: true})
		b.dimension(dim{id: "height", a: -h.ground, b: -h.height, at: room.X1 + 8*b.k, from: room.X1, value: in.Van.Height.Else(0), upright: true, extension: true})
	}
	b.remarks(room.X0, y, known)
	b.grid(room)
	b.placeLabels(room.Grow(5 * b.k))
	return b.finish(2)
}

// AtRear reports whether t belongs in the elevation from behind: it is outside, or sits in a hole in the rear doors.
func AtRear(t Thing, in Input) bool {
	if t.Kind == Spread || t.Ghost || t.Removed {
		return false
	}
	for _, h := range in.Holes {
		if h.ID == t.ID {
			return h.Face == "rear"
		}
	}
	return t.Outside
}
