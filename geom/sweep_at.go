package geom

import (
	"math"

	"berthwright/unit"
)

// Bounds returns the smallest box around the whole way, rounded outwards. A turned body lies within its corners, so the extremes are
// those of the arcs of the corners: at their ends, and where they pass one of the four directions.
func (s Sweep) Bounds() (Box3, error) {
	switch s.kind {
	case slide:
		b := s.start.Bounds()
		return b.Union(b.Move(s.travel)), nil
	case tip:
		least, most := turnedBounds(s.body, s.hinge, s.angle)
		corners := [4]pt{s.axis.plan(least.x, s.low), s.axis.plan(least.x, s.high), s.axis.plan(most.x, s.low), s.axis.plan(most.x, s.high)}
		p, q := corners[0], corners[0]
		for _, c := range corners {
			p, q = pt{math.Min(p.x, c.x), math.Min(p.y, c.y)}, pt{math.Max(q.x, c.x), math.Max(q.y, c.y)}
		}
		return Box3{Vec3{-up(-p.x), -up(-p.y), -up(-least.y)}, Vec3{up(q.x), up(q.y), up(most.y)}}, nil
	}
	p, q := turnedBounds(s.body, s.hinge, s.angle)
	return Box3{Vec3{-up(-p.x), -up(-p.y), -up(-s.low)}, Vec3{up(q.x), up(q.y), up(s.high)}}, nil
}

// turnedBounds returns the corners of the box around all places of the body's corners while it turns.
func turnedBounds(body []pt, hinge pt, angle float64) (least, most pt) {
	least, most = pt{math.Inf(1), math.Inf(1)}, pt{math.Inf(-1), math.Inf(-1)}
	see := func(p pt) {
		least, most = pt{math.Min(least.x, p.x), math.Min(least.y, p.y)}, pt{math.Max(most.x, p.x), math.Max(most.y, p.y)}
	}
	for _, c := range body {
		see(c)
		see(c.rotated(hinge, angle))
		d := c.minus(hinge)
		from := math.Atan2(d.y, d.x)
		to := from + angle
		if from > to {
			from, to = to, from
		}
		for k := math.Ceil(from / (math.Pi / 2)); k*math.Pi/2 < to; k++ {
			see(hinge.plus([4]pt{{d.length(), 0}, {0, d.length()}, {-d.length(), 0}, {0, -d.length()}}[(int(k)%4+4)%4]))
		}
	}
	return least, most
}

// At returns the part when it has gone a share of its way, from 0 to 1. A tip gives an upright solid around the slanting board.
func (s Sweep) At(share float64) (Solid, error) {
	if !(share >= 0 && share <= 1) {
		return Solid{}, ShapeError{"share of a way", -1, "is not between 0 and 1"}
	}
	switch s.kind {
	case slide:
		part := func(l unit.Length) unit.Length { return l.Times(share) }
		return s.start.Move(Vec3{part(s.travel.X), part(s.travel.Y), part(s.travel.Z)}), nil
	case tip:
		u0, u1, z0, z1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, p := range s.body {
			q := p.rotated(s.hinge, s.angle*share)
			u0, u1, z0, z1 = math.Min(u0, q.x), math.Max(u1, q.x), math.Min(z0, q.y), math.Max(z1, q.y)
		}
		o, err := s.axis.strip(u0, u1, s.low, s.high)
		return Solid{o, -up(-z0), up(z1)}, err
	}
	o, err := s.start.Outline.Turn(nearest(s.hinge), unit.Angle(s.angle*share))
	return Solid{o, s.start.Low, s.start.High}, err
}
