package sheet

import (
	"berthwright/derive"
	"berthwright/geom"
	"berthwright/unit"
)

// Tape is one measure of an item from a line that a fitter can see.
type Tape struct {
	From   string      // "bulkhead line"
	Edge   string      // of the item: "front edge"
	Length unit.Length // from the line to the edge; below 0: the other way
	Text   string      // "back from the bulkhead line 1 160 mm to the front edge"
}

// Tapes returns the best measures of a placed item, at most six: first one along, one across and one up, each from the nearer
// line, then the opposite ones to check against. Walls are the lined walls as the van's lines give them.
func Tapes(p *derive.Placed, v derive.Van, sys unit.System) []Tape {
	return tapes(p, v, sys, func(left bool) (unit.Length, bool) {
		if left {
			return v.Left.V, v.Left.Known()
		}
		return v.Right.V, v.Right.Known()
	})
}

// Tapes is the function Tapes with the lined walls as measured, at the item's middle height.
func (s *Sheet) Tapes(p *derive.Placed, state derive.State) []Tape {
	_, lined, ok := shells(s.shape(), state)
	return tapes(p, s.van, s.System(), func(left bool) (unit.Length, bool) {
		face, line := geom.RightWall, s.van.Right
		if left {
			face, line = geom.LeftWall, s.van.Left
		}
		if ok {
			x, z := p.Min[0]+(p.Max[0]-p.Min[0]).Half(), p.Min[2]+(p.Max[2]-p.Min[2]).Half()
			if y, err := lined.Wall(face, x, z); err == nil {
				return y - y%unit.Millimetre, true
			}
		}
		return line.V, line.Known()
	})
}

func tapes(p *derive.Placed, v derive.Van, sys unit.System, wall func(left bool) (unit.Length, bool)) []Tape {
	if !p.Boxed || p.Away {
		return nil
	}
	say := func(l unit.Length) string { return unit.Format(l, sys, -1) }
	var pairs [3][]Tape
	add := func(k int, from, edge string, l unit.Length, on, back string) {
		t := Tape{From: from, Edge: edge, Length: l, Text: on + " the " + from + " " + say(l) + " to the " + edge}
		if l < 0 {
			t.Text = back + " the " + from + " " + say(-l) + " to the " + edge
		}
		pairs[k] = append(pairs[k], t)
	}
	if v.Bulkhead.Known() {
		add(0, "bulkhead line", "front edge", p.Min[0]-v.Bulkhead.V, "back from", "forward from")
	}
	if v.RearDoor.Known() {
		add(0, "rear door line", "rear edge", v.RearDoor.V-p.Max[0], "forward from", "back from")
	}
	outside := p.Item.On != "" && p.Item.On != "inside"
	if h, ok := p.Item.Hole.Get(); ok && h.Face != "inside" {
		outside = true
	}
	switch {
	case outside || p.Min[1] < 0 && p.Max[1] > 0 && p.Min[1]+p.Max[1] == 0:
		mid := p.Min[1] + (p.Max[1] - p.Min[1]).Half()
		if mid == 0 {
			pairs[1] = append(pairs[1], Tape{From: "centre line", Edge: "middle", Text: "on the centre line with the middle"})
		} else {
			add(1, "centre line", "middle", mid, "right of", "left of")
		}
	default:
		if y, ok := wall(true); ok {
			add(1, "left wall", "left edge", p.Min[1]-y, "from", "beyond")
		}
		if y, ok := wall(false); ok {
			add(1, "right wall", "right edge", y-p.Max[1], "from", "beyond")
		}
	}
	switch {
	case p.Item.On == "under":
		add(2, "bare floor", "top", p.Max[2], "up from", "down from")
	case v.Finished.Known() && !outside:
		add(2, "finished floor", "underside", p.Min[2]-v.Finished.V, "up from", "down from")
	default:
		add(2, "bare floor", "underside", p.Min[2], "up from", "down from")
	}
	if v.Ceiling.Known() && !outside {
		add(2, "ceiling", "top", v.Ceiling.V-p.Max[2], "down from", "up from")
	}
	taped := [3]bool{p.Item.Place.RearDoor.Given(), p.Item.Place.RightWall.Given(), p.Item.Place.Ceiling.Given()}
	other := [3]bool{p.Item.Place.Bulkhead.Given(), p.Item.Place.LeftWall.Given(), p.Item.Place.FinishedFloor.Given()}
	var out, check []Tape
	for k, ts := range pairs {
		if len(ts) == 2 && (taped[k] || !other[k] && off(ts[1].Length) < off(ts[0].Length)) {
			ts[0], ts[1] = ts[1], ts[0]
		}
		if len(ts) > 0 {
			out = append(out, ts[0])
			check = append(check, ts[1:]...)
		}
	}
	return append(out, check...)
}

func off(l unit.Length) unit.Length { return max(l, -l) }
