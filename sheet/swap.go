package sheet

import (
	"fmt"
	"slices"

	"berthwright/axle"
	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/unit"
)

// Standing returns the finished van in one state, dry and nobody aboard: with the awning out, or the beds made. ok is
// false while it cannot be said.
func (s *Sheet) Standing(state derive.State) (split axle.Split, ok bool) {
	w := check.AssessWeight(derive.MakeWeightIn(s.Build, s.ctx, nil, state), s.Pack)
	return w.Base, w.Known && w.Base.Front.Given()
}

// Swap puts the items and the plan of s into another base van: a class ("doc.Van{Class: id}"), or the van of another
// build. What is measured from a line follows that line; what has a bare position behind the bulkhead line keeps its
// distance from that line, and what is ahead of it its distance from the front axle. Seats and tanks of the base van stay
// among the items: compare them with the other van. notes names what then stands behind the rear door line or has no
// place.
func (s *Sheet) Swap(van doc.Van) (other *Sheet, notes []string) {
	b := s.Build
	was, is := s.van.Bulkhead, s.ctx.Van(van).Bulkhead
	b.Van = van
	if was.Known() && is.Known() {
		b = shiftBehind(b, was.V, is.V-was.V)
	}
	other = Assess(b, s.ctx, nil)
	before := s.Placed(derive.Travel) // the same items in the same order
	for i, p := range other.Placed(derive.Travel) {
		switch end := other.van.RearDoor; {
		case before[i].Boxed && s.van.RearDoor.Known() && before[i].Max[0] > s.van.RearDoor.V: // it did before, as a door's window does
		case p.Item.InTicket.Else(false) || p.Item.Removed.Else(false) || p.Away:
		case !p.Centre[0].Known():
			notes = append(notes, p.Name()+" has no place in this van")
		case end.Known() && p.Boxed && p.Item.On == "" && p.Max[0] > end.V:
			notes = append(notes, fmt.Sprintf("%s stands %s behind the rear door line", p.Name(), unit.Format(p.Max[0]-end.V, s.System(), -1)))
		}
	}
	return other, notes
}

// shiftBehind moves every bare position behind a line by d, in copies of the lists it touches.
func shiftBehind(b doc.Build, line, d unit.Length) doc.Build {
	move := func(o *doc.Opt[unit.Length]) {
		if x, ok := o.Get(); ok && x >= line {
			*o = unit.Some(x + d)
		}
	}
	b.Items = slices.Clone(b.Items)
	for i := range b.Items {
		it := &b.Items[i]
		move(&it.At.X)
		move(&it.Span.From)
		move(&it.Span.To)
		for _, pose := range []*doc.Box[doc.Pose]{&it.States.Travel, &it.States.Camp, &it.States.Night, &it.States.Stored} {
			if p, ok := pose.Get(); ok {
				move(&p.At.X)
				*pose = unit.Boxed(p)
			}
		}
		if t, ok := it.Tank.Get(); ok {
			move(&t.At.X)
			it.Tank = unit.Boxed(t)
		}
		if x, ok := it.Seat.Get(); ok {
			move(&x.R.X)
			it.Seat = unit.Boxed(x)
		}
	}
	b.Loading.Zones = slices.Clone(b.Loading.Zones)
	for i := range b.Loading.Zones {
		move(&b.Loading.Zones[i].At.X)
	}
	b.Loading.Carried = slices.Clone(b.Loading.Carried)
	for i := range b.Loading.Carried {
		move(&b.Loading.Carried[i].At.X)
	}
	b.Loading.Party = slices.Clone(b.Loading.Party)
	for i := range b.Loading.Party {
		move(&b.Loading.Party[i].RestraintAt.X)
	}
	return b
}
