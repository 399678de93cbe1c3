package check

import (
	"berthwright/axle"
	"berthwright/unit"
)

// Room is what can still be added at one place along the van.
type Room struct {
	X    unit.Length
	Kg   unit.Mass
	Free bool // no limit is ever reached there
	Ends string
}

// roomStep is how far apart the points of the curve are sent between its exact breaks.
const roomStep = 200 * unit.Millimetre

// Added returns the curve of what can still be added, on the centre line of the floor, from a metre ahead of the bulkhead
// line to where a rack would hang. Points stand at every break, to the micrometre, and between them at most 200 mm apart.
func (w *Weight) Added() []Room {
	v := w.In.Van
	if len(w.Bounds) == 0 || !v.Bulkhead.Known() || !v.RearDoor.Known() || w.open() {
		return nil
	}
	from, to := v.Bulkhead.V-unit.Metre, v.RearDoor.V+700*unit.Millimetre
	stretches, err := axle.RoomAlong(w.Bounds, from, to, 0, axle.Inside)
	if err != nil {
		return nil
	}
	var out []Room
	add := func(x unit.Length, bound int) {
		at := axle.Place{X: unit.Some(x), Y: unit.Some(unit.Length(0))}
		r, err := axle.RoomAt(w.Bounds, at, axle.Inside)
		if err != nil {
			return
		}
		m, ok := r.Mass.Get()
		p := Room{X: x, Kg: m, Free: !ok}
		if bound >= 0 {
			p.Ends = w.Bounds[bound].Name
		}
		out = append(out, p)
	}
	for _, s := range stretches {
		for x := s.From; x < s.To; x += roomStep {
			add(x, s.Bound)
		}
	}
	if n := len(stretches); n > 0 {
		add(stretches[n-1].To, stretches[n-1].Bound)
	}
	return out
}

// ZoneRoom is one row of what can still be added, by zone.
type ZoneRoom struct {
	Zone string
	Room
}

// ZoneRooms returns what can still be added in the middle of each zone along the van, and on a rack behind.
func (w *Weight) ZoneRooms() []ZoneRoom {
	if len(w.Bounds) == 0 || w.open() {
		return nil
	}
	var out []ZoneRoom
	add := func(name string, x unit.Length) {
		r, err := axle.RoomAt(w.Bounds, axle.Place{X: unit.Some(x), Y: unit.Some(unit.Length(0))}, axle.Inside)
		if err != nil {
			return
		}
		m, ok := r.Mass.Get()
		z := ZoneRoom{Zone: name, Room: Room{X: x, Kg: m, Free: !ok}}
		if r.Bound >= 0 {
			z.Ends = w.Bounds[r.Bound].Name
		}
		out = append(out, z)
	}
	for _, z := range [...][2]string{{"cab", "in the cab"}, {"door", "at the sliding door"}, {"mid", "in the middle"}, {"wheel", "over the rear wheels"}, {"rear", "behind the rear wheels"}} {
		if from, to, ok := w.In.Van.ZoneSpan(z[0]); ok {
			add(z[1], (from + to).Half())
		}
	}
	if w.In.Van.RearDoor.Known() {
		add("on a rack behind the doors", w.In.Van.RearDoor.V+500*unit.Millimetre)
	}
	return out
}
