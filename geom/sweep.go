package geom

import (
	"fmt"
	"math"

	"berthwright/unit"
)

// Sweep is the way of a moving part: a door or a seat that turns about a plumb axis (Swing), a lid or a flap that turns about
// a level one (Tip), a drawer, a table or a bed that slides or lifts (Slide). Meets tells where it first touches something.
type Sweep struct {
	kind      sweepKind
	start     Solid
	body      []pt    // convex, at the start: in plan, or u and z for a tip
	hinge     pt      // in the same plane
	angle     float64 // radians, counter-clockwise in that plane
	travel    Vec3
	low, high float64 // of the body: heights, or the stretch along the axis for a tip
	axis      frame
}

type sweepKind int

const (
	swing sweepKind = iota
	tip
	slide
)

// frame is the plumb plane of a tip: w along the axis from origin, u 90° counter-clockwise from it.
type frame struct{ origin, w, u pt }

func (f frame) plan(u, w float64) pt { return f.origin.plus(f.u.times(u)).plus(f.w.times(w)) }

// maxSweep bounds the angle of a turn.
const maxSweep = unit.Angle(2 * math.Pi)

func checkSweep(angle unit.Angle) error {
	if !(angle >= -maxSweep*(1+1e-12) && angle <= maxSweep*(1+1e-12)) {
		return AngleError{"angle of a moving part", angle, "from -360° to 360°"}
	}
	return nil
}

// Swing turns a part about a plumb axis at hinge, counter-clockwise seen from above when angle is above 0: a hinged door, a
// seat on its swivel. The outline must be convex.
func Swing(part Solid, hinge Vec2, angle unit.Angle) (Sweep, error) {
	if err := checkSweep(angle); err != nil {
		return Sweep{}, err
	}
	if !part.Outline.Convex() || part.High <= part.Low {
		return Sweep{}, ShapeError{"moving part", -1, "is not convex"}
	}
	return Sweep{
		kind: swing, start: part, body: metresOf(part.Outline.points), hinge: metres2(hinge), angle: angle.Radians(),
		low: part.Low.Metres(), high: part.High.Metres(),
	}, nil
}

// Panel is the part that a Tip turns, and its hinge: a board beside the plumb plane of its axis. The axis runs level from
// From to To at height Axis; Near and Far are the distances of the board's edges from it, to the left of the axis as one
// looks from From to To (below 0: to the right); Low and High are its heights. All as the part lies at the start.
type Panel struct {
	From, To  Vec2
	Axis      unit.Length
	Near, Far unit.Length
	Low, High unit.Length
}

// Tip turns a board about a level axis; above 0 the side to the left of the axis goes up. Its ends stay as they are.
func Tip(p Panel, angle unit.Angle) (Sweep, error) {
	if err := checkSweep(angle); err != nil {
		return Sweep{}, err
	}
	if p.From == p.To || p.Far <= p.Near || p.High <= p.Low {
		return Sweep{}, ShapeError{"panel", -1, "has no extent"}
	}
	for _, l := range [...]unit.Length{p.From.X, p.From.Y, p.To.X, p.To.Y, p.Axis, p.Near, p.Far, p.Low, p.High} {
		if l < -MaxCoordinate/2 || l > MaxCoordinate/2 {
			return Sweep{}, RangeError{"panel", l, -MaxCoordinate / 2, MaxCoordinate / 2}
		}
	}
	a, b := metres2(p.From), metres2(p.To)
	w := b.minus(a).normed()
	u0, u1, z0, z1 := p.Near.Metres(), p.Far.Metres(), p.Low.Metres(), p.High.Metres()
	return Sweep{
		kind: tip, body: []pt{{u0, z0}, {u1, z0}, {u1, z1}, {u0, z1}}, hinge: pt{0, p.Axis.Metres()}, angle: angle.Radians(),
		high: b.minus(a).length(), axis: frame{a, w, pt{-w.y, w.x}},
	}, nil
}

// Slide moves a part straight: level (a drawer, a table) or plumb (a bed that lifts). A slanting move is refused.
func Slide(part Solid, travel Vec3) (Sweep, error) {
	if travel.Z != 0 && travel.Flat() != (Vec2{}) {
		return Sweep{}, ShapeError{"slide", -1, fmt.Sprintf("goes up \"%g mm\" and along at once", travel.Z.Millimetres())}
	}
	if !part.Outline.Convex() || part.High <= part.Low {
		return Sweep{}, ShapeError{"moving part", -1, "is not convex"}
	}
	for _, l := range [...]unit.Length{travel.X, travel.Y, travel.Z} {
		if l < -10*unit.Metre || l > 10*unit.Metre {
			return Sweep{}, RangeError{"travel", l, -10 * unit.Metre, 10 * unit.Metre}
		}
	}
	return Sweep{kind: slide, start: part, travel: travel}, nil
}

// Contact is where a moving part first touches something: the angle or the travel it has gone by then, each from 0 to the
// whole of it and without sign. At 0 it is in the way at the start.
type Contact struct {
	Angle  unit.Angle
	Travel unit.Length // rounded down
}

// Meets tells where the part first meets t on its way; false: it passes. Touching without overlapping is passing. Angles are
// found among the places where a corner of the one meets an edge of the other, so nothing is stepped over; an overlap
// shallower than Tolerance is passed.
func (s Sweep) Meets(t Solid) (Contact, bool) {
	switch s.kind {
	case slide:
		return s.slideMeets(t)
	case tip:
		return s.turnMeets(s.axis.shadow(t, s.low, s.high))
	}
	if s.high <= t.Low.Metres()+Tolerance || t.High.Metres() <= s.low+Tolerance {
		return Contact{}, false
	}
	_, reach := radii(s.body, s.hinge)
	far := int64(math.Ceil(reach * 1e6))
	at := raw(nearest(s.hinge))
	if o := &t.Outline; o.min.x > at.x+far || o.max.x < at.x-far || o.min.y > at.y+far || o.max.y < at.y-far {
		return Contact{}, false
	}
	var fixed [][]pt
	for _, p := range t.Outline.pieces {
		fixed = append(fixed, metresOf(p))
	}
	return s.turnMeets(fixed)
}

func (s Sweep) turnMeets(fixed [][]pt) (Contact, bool) {
	least, met := math.Inf(1), false
	for _, f := range fixed {
		if a, ok := firstTurn(s.body, s.hinge, s.angle, f); ok {
			least, met = math.Min(least, a), true
		}
	}
	if !met {
		return Contact{}, false
	}
	return Contact{Angle: unit.Angle(least)}, true
}

// shadow returns what stands in the plumb plane of the axis: as the board is the same all along, each convex piece of t between
// the board's ends counts as the rectangle of its extent.
func (f frame) shadow(t Solid, from, to float64) [][]pt {
	var out [][]pt
	z0, z1 := t.Low.Metres(), t.High.Metres()
	for _, piece := range t.Outline.pieces {
		poly := make([]pt, len(piece))
		for i, p := range metresOf(piece) {
			d := p.minus(f.origin)
			poly[i] = pt{d.dot(f.u), d.dot(f.w)}
		}
		poly = clipped(clipped(poly, pt{0, 1}, to), pt{0, -1}, -from)
		if thin(poly) {
			continue
		}
		u0, u1 := poly[0].x, poly[0].x
		for _, p := range poly {
			u0, u1 = math.Min(u0, p.x), math.Max(u1, p.x)
		}
		out = append(out, []pt{{u0, z0}, {u1, z0}, {u1, z1}, {u0, z1}})
	}
	return out
}

func (s Sweep) slideMeets(t Solid) (Contact, bool) {
	if s.travel.Flat() == (Vec2{}) {
		up := s.travel.Z > 0
		if !s.start.Outline.Overlaps(t.Outline) {
			return Contact{}, false
		}
		gap, travel := s.start.Low-t.High, -s.travel.Z
		if up {
			gap, travel = t.Low-s.start.High, s.travel.Z
		}
		if s.start.Overlaps(t) {
			return Contact{}, true
		}
		return Contact{Travel: max(gap, 0)}, gap >= 0 && gap < travel
	}
	if s.start.Low >= t.High || t.Low >= s.start.High {
		return Contact{}, false
	}
	move, least, met := metres2(s.travel.Flat()), math.Inf(1), false
	body := metresOf(s.start.Outline.points)
	for _, p := range t.Outline.pieces {
		if share, ok := firstMove(body, move, metresOf(p)); ok {
			least, met = math.Min(least, share), true
		}
	}
	if !met {
		return Contact{}, false
	}
	return Contact{Travel: down(least * move.length())}, true
}

// Outline returns what the part sweeps in plan, never smaller than it is and at most excess larger (at least 0.1 mm). The
// hole in the middle of a ring is filled.
func (s Sweep) Outline(excess unit.Length) (Outline, error) {
	if err := checkExcess(excess); err != nil {
		return Outline{}, err
	}
	switch s.kind {
	case slide:
		d := raw(s.travel.Flat())
		return outlineOf(hull(append(shifted(s.start.Outline.points, d), s.start.Outline.points...))), nil
	case tip:
		u0, u1 := math.Inf(1), math.Inf(-1)
		for _, p := range sweptOutline(s.body, s.hinge, s.angle, excess.Metres()) {
			u0, u1 = math.Min(u0, p.x), math.Max(u1, p.x)
		}
		return s.axis.strip(u0, u1, s.low, s.high)
	}
	return roundedOut(micrometres(sweptOutline(s.body, s.hinge, s.angle, excess.Metres())), sweptOutwards)
}

func checkExcess(excess unit.Length) error {
	if excess < 100*unit.Micrometre || excess > unit.Metre {
		return RangeError{"excess", excess, 100 * unit.Micrometre, unit.Metre}
	}
	return nil
}

// strip returns the outline of a rectangle in the frame of an axis, rounded outwards.
func (f frame) strip(u0, u1, w0, w1 float64) (Outline, error) {
	return roundedOut(micrometres([]pt{f.plan(u0, w0), f.plan(u0, w1), f.plan(u1, w1), f.plan(u1, w0)}), outwards)
}

func micrometres(poly []pt) []pt {
	if areaOf(poly) < 0 {
		poly = reversed(poly)
	}
	out := make([]pt, len(poly))
	for i, p := range poly {
		out[i] = p.times(1e6)
	}
	return out
}

// Solids returns solids that hold the whole way, at most excess larger (at least 0.1 mm). A tip takes many flat ones: for
// pictures ask for a coarse excess; Meets needs none of them.
func (s Sweep) Solids(excess unit.Length) ([]Solid, error) {
	if s.kind != tip {
		b, err := s.Bounds()
		if err != nil {
			return nil, err
		}
		o, err := s.Outline(excess)
		if err != nil {
			return nil, err
		}
		return []Solid{{o, b.Min.Z, b.Max.Z}}, nil
	}
	if err := checkExcess(excess); err != nil {
		return nil, err
	}
	var out []Solid
	for _, b := range slabs(sweptOutline(s.body, s.hinge, s.angle, excess.Metres()/2), excess.Metres()/2) {
		o, err := s.axis.strip(b.u0, b.u1, s.low, s.high)
		if err != nil {
			return nil, err
		}
		out = append(out, Solid{o, -up(-b.z0), up(b.z1)})
	}
	return out, nil
}
