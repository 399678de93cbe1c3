package check

import (
	"slices"

	"berthwright/axle"
	"berthwright/derive"
	"berthwright/unit"
)

// Mend is one way to clear what does not hold, checked by computing the case anew.
type Mend struct {
	Finding Finding
	Subject Subject
	ID      string      // of the item
	Says    string      // in metric units
	Words   Message     // the same, for any reader
	By      unit.Length // rearwards positive; of a move
	Removal bool
	Gain    unit.Mass
	Margins []unit.Mass // of every bound afterwards, in the order of Weight.Bounds
	Clears  bool
	Reopens []string
}

// mendsMost is how many ways are told for one finding.
const mendsMost = 6

// Clears ranks single moves and removals for the plated limit that fails worst, or is tight. Belted seats and their fixings,
// gas, slung tanks and what the build locks are never offered for moving, safety equipment never for removal; nor is an
// item moved that others are measured from, or one left out whose allowance would come back.
func (w *Weight) Clears(placed []derive.Placed) []Mend { return w.ClearsUpTo(placed, mendsMost) }

// ClearsUpTo is Clears with at most so many.
func (w *Weight) ClearsUpTo(placed []derive.Placed, most int) []Mend {
	target, f := -1, -1
	for i, b := range w.Bounds {
		for k := range w.Findings {
			have := &w.Findings[k]
			if (have.Verdict == DoesNotHold || have.Verdict == Tight) && have.Check == boundCheck[b.Name] && (target < 0 || Worse(have, &w.Findings[f])) {
				target, f = i, k
			}
		}
	}
	if target < 0 {
		return nil
	}
	half, _ := w.Findings[f].Half.Get()
	want := unit.Kilogram.Times(half.SI)
	mends, err := axle.Clears(w.Bounds, target, w.candidates(placed), want)
	if err != nil {
		return nil
	}
	var out []Mend
	for i := range mends {
		m := &mends[i]
		if len(out) == most {
			break
		}
		if !m.Clears && m.Gain < 2*unit.Kilogram {
			continue
		}
		after, ok := w.recomputed(m)
		if !ok {
			continue
		}
		gain := after[target] - w.Bounds[target].Margin
		if !(gain > 0) {
			continue
		}
		o := Mend{Finding: w.Findings[f], Subject: subject(&m.Load), ID: m.Load.ID, By: m.By, Removal: m.Removal, Gain: gain, Margins: after, Clears: after[target] >= want}
		for j := range after {
			if j != target && w.Bounds[j].Margin >= 0 && after[j] < 0 {
				o.Reopens = append(o.Reopens, w.Bounds[j].Name)
			}
		}
		o.Words = mendWords(m, after[target], w.Bounds[target].Name)
		o.Says = o.Words.Text(unit.Metric)
		out = append(out, o)
	}
	slices.SortStableFunc(out, func(a, b Mend) int {
		switch {
		case a.Clears != b.Clears:
			if a.Clears {
				return -1
			}
			return 1
		case !a.Clears && a.Gain > b.Gain:
			return -1
		case !a.Clears && a.Gain < b.Gain:
			return 1
		}
		return 0
	})
	return out
}

func mendWords(m *axle.Mend, left unit.Mass, bound string) Message {
	result := say("mend-leaves", Kg(left), bound)
	if left < 0 {
		result = say("mend-short", Kg(-left), bound)
	}
	switch {
	case m.Removal:
		return say("mend-out", m.Load.Name, result)
	case m.By < 0:
		return say("mend-forward", m.Load.Name, mm(-m.By), result)
	}
	return say("mend-back", m.Load.Name, mm(m.By), result)
}

var boundCheck = map[string]string{"total": "weight-total", "front axle": "axle-front", "rear axle": "axle-rear"}

// candidates lists what may be offered for moving along the load floor, or for leaving out. The contents of a tank go
// with it; what the finished van was weighed with is not offered for what its ticket cannot tell.
func (w *Weight) candidates(placed []derive.Placed) []axle.Candidate {
	v := &w.In.Van
	leaned := map[string]bool{} // others are measured from these
	for i := range placed {
		p := &placed[i].Item.Place
		for _, id := range [...]string{p.Behind, p.Ahead, p.LeftOf, p.RightOf, p.OnTop} {
			if id != "" {
				leaned[id] = true
			}
		}
	}
	out := make([]axle.Candidate, 0, len(w.In.Loads))
	for i := range w.In.Loads {
		l := &w.In.Loads[i]
		if l.Mass < unit.Kilogram || l.Unlisted || l.Allowance || l.Locked != "" || l.Number < 1 || l.Number > len(placed) {
			continue
		}
		p := &placed[l.Number-1]
		c := axle.Candidate{Load: l.Load, CanGo: l.Group != "body" && l.Group != "lining" && l.Group != "safety" && l.Group != "seats" && !w.allowance(l.Group)}
		x, ok := l.At.X.Get()
		if ok && p.Boxed && !p.Stretch && l.On == axle.Inside && !leaned[l.ID] && v.Bulkhead.Known() && v.RearDoor.Known() {
			c.From, c.To = v.Bulkhead.V+(x-p.Min[0]), v.RearDoor.V-(p.Max[0]-x)
			c.CanMove = c.From <= c.To && x >= c.From && x <= c.To
		}
		if !c.CanMove && !c.CanGo {
			continue
		}
		for k := range w.In.Tanks {
			if t := &w.In.Tanks[k]; t.ID == l.ID && t.In {
				c.Load.Mass += t.Driving.Of(t.Full.V)
			}
		}
		out = append(out, c)
	}
	return out
}

// recomputed returns the margins of the bounds with one item moved or left out: its contents, luggage kept in it and its
// share of the unlisted go with it, and each worst case is filled anew.
func (w *Weight) recomputed(m *axle.Mend) ([]unit.Mass, bool) {
	var was *derive.Load
	for i := range w.In.Loads {
		if w.In.Loads[i].ID == m.Load.ID {
			was = &w.In.Loads[i]
		}
	}
	if was == nil {
		return nil, false
	}
	delta := []axle.Load{was.Load}
	if u := w.In.Unlisted.Of(was.Mass); u > 0 && w.In.Finished == nil {
		extra := was.Load
		extra.ID, extra.Mass = derive.UnlistedID, u
		delta = append(delta, extra)
	}
	n := len(delta)
	for i := range n {
		delta[i].Mass = -delta[i].Mass
		if !m.Removal {
			to := delta[i]
			to.Mass, to.At.X = -to.Mass, shifted(to.At.X, m.By)
			delta = append(delta, to)
		}
	}
	base, err := w.Base.With(delta)
	if err != nil {
		return nil, false
	}
	c := w.plan
	if w.carries(m.Load.ID) {
		c = w.planWithout(m)
	}
	out := make([]unit.Mass, len(w.Bounds))
	for _, policy := range policies {
		if policy == axle.RefilledWithoutEmptying && w.In.Empties {
			continue
		}
		groups := c.plan(policy)
		for i := range w.Bounds {
			v, ok := hardest(base, groups, w.Bounds[i].Measure)
			if !ok {
				return nil, false
			}
			if margin := w.plateOf(w.Bounds[i].Name) - v; policy == policies[0] || margin < out[i] {
				out[i] = margin
			}
		}
	}
	return out, true
}

// carries reports whether an item holds something of the plan.
func (w *Weight) carries(id string) bool {
	return slices.ContainsFunc(w.In.Tanks, func(t derive.Tank) bool { return t.ID == id }) ||
		slices.ContainsFunc(w.In.Zones, func(z derive.Zone) bool { return z.In == id })
}

// planWithout returns the plan with one item moved or left out. The luggage of a zone that goes with its item is gone.
func (w *Weight) planWithout(m *axle.Mend) *cases {
	in := w.In
	in.Tanks, in.Zones = slices.Clone(in.Tanks), slices.Clone(in.Zones)
	if m.Removal {
		in.Tanks = slices.DeleteFunc(in.Tanks, func(t derive.Tank) bool { return t.ID == m.Load.ID })
		in.Zones = slices.DeleteFunc(in.Zones, func(z derive.Zone) bool { return z.In == m.Load.ID })
	}
	for i := range in.Tanks {
		if in.Tanks[i].ID == m.Load.ID && in.Tanks[i].In {
			in.Tanks[i].At.X = shifted(in.Tanks[i].At.X, m.By)
		}
	}
	for i := range in.Zones {
		if in.Zones[i].In == m.Load.ID {
			in.Zones[i].At.X = shifted(in.Zones[i].At.X, m.By)
		}
	}
	return &cases{in: &in, geo: w.Geometry, pack: &w.Pack, person: w.plan.person}
}

func shifted(o unit.Opt[unit.Length], by unit.Length) unit.Opt[unit.Length] {
	x, ok := o.Get()
	if !ok {
		return o
	}
	return unit.Some(x + by)
}

func (w *Weight) plateOf(name string) unit.Mass {
	for i := range w.limits {
		if w.limits[i].short == name {
			return w.limits[i].plate.V
		}
	}
	return 0
}
