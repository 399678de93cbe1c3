package check

import (
	"math"
	"slices"

	"berthwright/axle"
	"berthwright/derive"
	"berthwright/unit"
)

// baseLoads returns the empty van re-based to no fuel, nobody aboard and a level plate, and everything fitted to it.
func baseLoads(in derive.Weight, geo axle.Geometry) []axle.Load {
	t := in.Ticket
	side := sideOf(t.Left, t.Right, geo).Else(0)
	high := unit.Opt[unit.Length]{}
	if in.Van.EmptyHigh.Known() {
		high = unit.Some(in.Van.EmptyHigh.V)
	}
	loads := make([]axle.Load, 0, len(in.Loads)+6)
	two := geo.Ticket(massEst(t.Front.V, t.FrontHalf), massEst(t.Rear.V, t.RearHalf), unit.Some(side), high)
	for i := range two {
		two[i].Kind = "ticket"
	}
	loads = append(loads, two[0], two[1])
	if t.Fuel.V > 0 {
		loads = append(loads, axle.Load{ID: "ticket-fuel", Name: "fuel aboard when weighed", Ref: t.Fuel.Path, Mass: -t.Fuel.V, At: t.FuelAt})
	}
	if t.Driver.V > 0 {
		loads = append(loads, axle.Load{ID: "ticket-driver", Name: "driver aboard when weighed", Ref: t.Driver.Path, Mass: -t.Driver.V, At: t.DriverAt})
	}
	loads = append(loads, levelled(t.Slope, geo, two)...)
	for i := range in.Loads {
		loads = append(loads, in.Loads[i].Load)
	}
	return loads
}

// levelled returns what a plate that slopes nose-down moved to the front axle, as two loads that put it back.
func levelled(slope derive.Val[unit.Ratio], geo axle.Geometry, read [2]axle.Load) []axle.Load {
	if slope.V == 0 {
		return nil
	}
	s, err := axle.Sum(geo, read[:])
	if err != nil {
		return nil
	}
	moved, ok := s.NoseDown(unit.Angle(math.Atan(slope.V.Share()))).Get()
	if !ok {
		return nil
	}
	put := func(id string, m unit.Mass, like axle.Load) axle.Load {
		return axle.Load{ID: id, Name: "moved by the slope of the plate", Ref: slope.Path, Mass: m, At: like.At}
	}
	return []axle.Load{put("ticket-slope-front", -moved, read[0]), put("ticket-slope-rear", moved, read[1])}
}

func massEst(m, half unit.Mass) unit.MassEst {
	return unit.MassEst{Value: m, Spread: unit.Spread{Kind: unit.Absolute, Abs: half.Kilograms()}}
}

// sideOf returns how far right of the centre line the mass centre lies by the readings of both sides; absent without
// them.
func sideOf(left, right derive.Val[unit.Mass], geo axle.Geometry) unit.Opt[unit.Length] {
	f, okF := geo.TrackFront.Get()
	r, okR := geo.TrackRear.Get()
	if !left.Known() || !right.Known() || !okF || !okR || !(left.V+right.V > 0) {
		return unit.Opt[unit.Length]{}
	}
	return unit.Some((f + r).Half().Half().Times((right.V - left.V).Per(left.V + right.V).Share()))
}

// finishedLoads returns the weighing of the finished van, re-based to nobody aboard and no fill, plus what was not yet
// fitted. Height, and the side where it was not read, are those of the sum of parts.
func finishedLoads(in derive.Weight, geo axle.Geometry, sum axle.Split) []axle.Load {
	f := in.Finished
	side := sum.Centre.Y
	if read := sideOf(f.Left, f.Right, geo); read.Given() {
		side = read
	}
	loads := make([]axle.Load, 0, 8)
	c := axle.Corners{FrontLeft: f.Corners[0], FrontRight: f.Corners[1], RearLeft: f.Corners[2], RearRight: f.Corners[3]}
	if four, err := c.Loads(geo); f.Cornered && err == nil {
		for _, l := range four {
			l.Ref, l.At.Z = f.Path, sum.Centre.Z
			loads = append(loads, l)
		}
	} else {
		two := geo.Ticket(massEst(f.Front.V, f.FrontHalf), massEst(f.Rear.V, f.RearHalf), side, sum.Centre.Z)
		two[0].Name, two[1].Name = "front axle of the finished van as weighed", "rear axle of the finished van as weighed"
		two[0].Ref, two[1].Ref = f.Front.Path, f.Rear.Path
		loads = append(loads, two[0], two[1])
	}
	loads = append(loads, f.Off...)
	for i := range in.Loads {
		if slices.Contains(f.Weighing.Missing, in.Loads[i].ID) {
			loads = append(loads, in.Loads[i].Load)
		}
	}
	return loads
}

// cornered returns the four corner readings of the finished van and their split.
func (w *Weight) cornered() (c axle.Corners, s axle.Split, ok bool) {
	f := w.In.Finished
	if f == nil || !f.Cornered {
		return c, s, false
	}
	c = axle.Corners{FrontLeft: f.Corners[0], FrontRight: f.Corners[1], RearLeft: f.Corners[2], RearRight: f.Corners[3]}
	four, err := c.Loads(w.Geometry)
	if err != nil {
		return c, s, false
	}
	s, err = axle.Sum(w.Geometry, four)
	return c, s, err == nil
}

// level returns what one degree of nose-down moves between the axles: nobody reads an axle closer than the plate is
// level. Where a height is missing, all of the van is taken at the mean height of the loads that have one, and exact is
// false; it is nought when none has.
func (w *Weight) level(s axle.Split) (moved unit.Mass, exact bool) {
	if m, ok := s.NoseDown(unit.Degree).Get(); ok {
		return m, true
	}
	h, ok := w.height.Get()
	if !ok {
		return 0, false
	}
	one, err := axle.Sum(w.Geometry, []axle.Load{{ID: "all", Mass: s.Total, At: axle.Place{Z: unit.Some(h)}}})
	if err != nil {
		return 0, false
	}
	return one.NoseDown(unit.Degree).Else(0), false
}

// meanHeight returns the mean height of the loads that have one.
func meanHeight(loads []axle.Load) unit.Opt[unit.Length] {
	m, mz := 0.0, 0.0
	for i := range loads {
		if z, ok := loads[i].At.Z.Get(); ok {
			m += loads[i].Mass.Kilograms()
			mz += loads[i].Mass.Kilograms() * z.Metres()
		}
	}
	if !(m > 0) {
		return unit.Opt[unit.Length]{}
	}
	return unit.Some(unit.MetresLength(mz / m))
}
