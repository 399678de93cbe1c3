package derive

import (
	"math"

	"berthwright/doc"
	"berthwright/geom"
	"berthwright/unit"
)

// leaf is how thick a door, a lid or a flap is taken (common practice, no source).
const leaf = 20 * unit.Millimetre

// FitSweep is a moving part in a state it is used in.
type FitSweep struct {
	Item   string
	Motion doc.Motion
	Sweep  geom.Sweep
	Other  geom.Sweep // the other way round, for a seat that may turn either way
	Either bool
	Known  bool
	Whole  bool        // it must go its whole way
	Angle  unit.Angle  // of a turn
	Travel unit.Length // of a slide
}

// sweepOf turns a motion of a placed item into a sweep in van axes.
func sweepOf(p *Placed, m *doc.Motion) FitSweep {
	s := FitSweep{Item: p.Item.ID, Motion: *m, Whole: m.Must.Else(true), Angle: m.Angle.Else(0), Travel: m.Travel.Else(0)}
	hx, hy, h := p.Size[0].V.Half(), p.Size[1].V.Half(), p.Size[2].V
	low, high := m.Low.Else(0), min(m.High.Else(h), h)
	var err error
	switch m.Kind {
	case "drawer", "slide", "lift":
		s.Sweep, err = slideOf(p, m, geom.Box3{Min: geom.Vec3{X: -hx, Y: -hy, Z: low}, Max: geom.Vec3{X: hx, Y: hy, Z: high}}, s.Travel)
		s.Known = err == nil && s.Travel != 0
	case "swivel":
		s.swivel(p, low, high)
	case "door":
		s.Known = s.door(p, m, low, high)
	case "lid", "flap", "fold":
		s.Known = s.tip(p, m, low, high)
	}
	return s
}

// out returns a level direction of the item's own axes in van axes, so long.
func out(p *Placed, dir geom.Vec2, long unit.Length) geom.Vec3 {
	step := func(d unit.Length) unit.Length {
		switch {
		case d > 0:
			return long
		case d < 0:
			return -long
		}
		return 0
	}
	x, y := turned(step(dir.X), step(dir.Y), p.Turn)
	return geom.Vec3{X: x, Y: y}
}

var outward = map[string]geom.Vec2{"front": {X: -1}, "rear": {X: 1}, "left": {Y: -1}, "right": {Y: 1}}

// along cuts a part to its stretch of a face.
func along(b geom.Box3, m *doc.Motion) geom.Box3 {
	cut := func(lo, hi *unit.Length) {
		start := *lo
		*lo = start + m.From.Else(0)
		if t, ok := m.To.Get(); ok {
			*hi = start + t
		}
	}
	switch m.Side {
	case "front", "rear":
		cut(&b.Min.Y, &b.Max.Y)
	default:
		cut(&b.Min.X, &b.Max.X)
	}
	return b
}

func slideOf(p *Placed, m *doc.Motion, part geom.Box3, travel unit.Length) (geom.Sweep, error) {
	dir, level := outward[m.Side]
	if m.Kind != "lift" && level {
		part = along(part, m)
	}
	solid, ok := local(p, part)
	if !ok {
		return geom.Sweep{}, geom.ShapeError{}
	}
	if m.Kind == "lift" || !level {
		return geom.Slide(solid, geom.Vec3{Z: travel})
	}
	return geom.Slide(solid, out(p, dir, travel))
}

// swivel turns the whole item about its middle, either way round.
func (s *FitSweep) swivel(p *Placed, low, high unit.Length) {
	hx, hy := p.Size[0].V.Half(), p.Size[1].V.Half()
	solid, ok := local(p, geom.Box3{Min: geom.Vec3{X: -hx, Y: -hy, Z: low}, Max: geom.Vec3{X: hx, Y: hy, Z: high}})
	if !ok || s.Angle == 0 {
		return
	}
	at := geom.Vec2{X: p.At[0].V, Y: p.At[1].V}
	a, err := geom.Swing(solid, at, s.Angle)
	b, err2 := geom.Swing(solid, at, -s.Angle)
	if err != nil || err2 != nil {
		return
	}
	s.Sweep, s.Other, s.Either, s.Known = a, b, true, true
}

// door turns a leaf of a side face about its upright edge, outwards.
func (s *FitSweep) door(p *Placed, m *doc.Motion, low, high unit.Length) bool {
	dir, ok := outward[m.Side]
	if !ok || s.Angle == 0 {
		return false
	}
	hx, hy := p.Size[0].V.Half(), p.Size[1].V.Half()
	b := along(geom.Box3{Min: geom.Vec3{X: -hx, Y: -hy, Z: low}, Max: geom.Vec3{X: hx, Y: hy, Z: high}}, m)
	face := geom.Vec2{} // the plane of the face
	switch m.Side {
	case "front":
		b.Max.X, face.X = b.Min.X+leaf, b.Min.X
	case "rear":
		b.Min.X, face.X = b.Max.X-leaf, b.Max.X
	case "left":
		b.Max.Y, face.Y = b.Min.Y+leaf, b.Min.Y
	case "right":
		b.Min.Y, face.Y = b.Max.Y-leaf, b.Max.Y
	}
	hinge, free := face, geom.Vec2{} // free: from the hinge to the free edge
	switch m.Hinge {
	case "left":
		hinge.Y, free.Y = b.Min.Y, 1
	case "right":
		hinge.Y, free.Y = b.Max.Y, -1
	case "front":
		hinge.X, free.X = b.Min.X, 1
	case "rear":
		hinge.X, free.X = b.Max.X, -1
	default:
		return false
	}
	if (dir.X != 0) == (free.X != 0) {
		return false // the hinge is not an edge of that face
	}
	// The leaf begins its own thickness away from the hinge, so that its inner edge never swings past the side of the item.
	switch {
	case free.X > 0:
		b.Min.X += leaf
	case free.X < 0:
		b.Max.X -= leaf
	case free.Y > 0:
		b.Min.Y += leaf
	case free.Y < 0:
		b.Max.Y -= leaf
	}
	angle := s.Angle
	if (free.X > 0 && dir.Y < 0) || (free.X < 0 && dir.Y > 0) || (free.Y > 0 && dir.X > 0) || (free.Y < 0 && dir.X < 0) {
		angle = -angle // clockwise, as free × outwards points down
	}
	solid, ok := local(p, b)
	if !ok {
		return false
	}
	x, y := turned(hinge.X, hinge.Y, p.Turn)
	sw, err := geom.Swing(solid, geom.Vec2{X: p.At[0].V + x, Y: p.At[1].V + y}, angle)
	s.Sweep = sw
	return err == nil
}

// tip turns a lid about an edge of the top, or a flap of a side face about its upper or lower edge.
func (s *FitSweep) tip(p *Placed, m *doc.Motion, low, high unit.Length) bool {
	if s.Angle == 0 {
		return false
	}
	hx, hy := p.Size[0].V.Half(), p.Size[1].V.Half()
	z := p.At[2].V
	world := func(x, y unit.Length) geom.Vec2 {
		tx, ty := turned(x, y, p.Turn)
		return geom.Vec2{X: p.At[0].V + tx, Y: p.At[1].V + ty}
	}
	var k geom.Panel
	angle := s.Angle
	if m.Side == "top" || m.Side == "" {
		// The lid lies to the left of its axis and goes up.
		k = geom.Panel{Axis: z + high, Low: z + high - leaf, High: z + high}
		switch m.Hinge {
		case "front":
			k.From, k.To, k.Far = world(-hx, hy), world(-hx, -hy), 2*hx
		case "rear":
			k.From, k.To, k.Far = world(hx, -hy), world(hx, hy), 2*hx
		case "left":
			k.From, k.To, k.Far = world(-hx, -hy), world(hx, -hy), 2*hy
		case "right":
			k.From, k.To, k.Far = world(hx, hy), world(-hx, hy), 2*hy
		default:
			return false
		}
	} else {
		b := along(geom.Box3{Min: geom.Vec3{X: -hx, Y: -hy}, Max: geom.Vec3{X: hx, Y: hy}}, m)
		// Outwards is to the left of the axis; the flap stands behind it.
		k = geom.Panel{Near: -leaf, Low: z + low, High: z + high}
		switch m.Side {
		case "front":
			k.From, k.To = world(b.Min.X, b.Min.Y), world(b.Min.X, b.Max.Y)
		case "rear":
			k.From, k.To = world(b.Max.X, b.Max.Y), world(b.Max.X, b.Min.Y)
		case "left":
			k.From, k.To = world(b.Max.X, b.Min.Y), world(b.Min.X, b.Min.Y)
		case "right":
			k.From, k.To = world(b.Min.X, b.Max.Y), world(b.Max.X, b.Max.Y)
		default:
			return false
		}
		switch m.Hinge {
		case "top":
			k.Axis = z + high
		case "bottom":
			k.Axis, angle = z+low, -angle
		default:
			return false
		}
	}
	sw, err := geom.Tip(k, angle)
	s.Sweep = sw
	return err == nil && !math.IsNaN(angle.Radians())
}
