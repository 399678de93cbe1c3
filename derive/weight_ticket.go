package derive

import (
	"berthwright/doc"
	"berthwright/unit"
)

// ticket gathers the weighing of the empty van and what was aboard.
func (m *maker) ticket() {
	e := m.b.Van.Empty
	t := Ticket{From: e.From, Path: "van/empty"}
	read := func(own doc.Opt[unit.MassEst], key string) Val[unit.Mass] {
		if x, ok := own.Get(); ok {
			return given(x.Value, "van/empty/"+key)
		}
		return Val[unit.Mass]{Path: "van/empty/" + key}
	}
	t.Front, t.Rear, t.Total = read(e.Front, "front"), read(e.Rear, "rear"), read(e.Total, "total")
	t.Left, t.Right = read(e.Left, "left"), read(e.Right, "right")
	if x, ok := e.Slope.Get(); ok {
		t.Slope = given(x, "van/empty/slope")
	}
	t.FrontHalf, t.HalfFrom = m.readingHalf(e.Front, e)
	t.RearHalf, _ = m.readingHalf(e.Rear, e)
	switch {
	case t.Total.Known() && t.Front.Known() && !t.Rear.Known():
		t.Rear = derived(t.Total.V-t.Front.V, "van/empty/total", "total less front as read")
		t.RearHalf = t.FrontHalf
	case t.Total.Known() && t.Rear.Known() && !t.Front.Known():
		t.Front = derived(t.Total.V-t.Rear.V, "van/empty/total", "total less rear as read")
		t.FrontHalf = t.RearHalf
	case !t.Front.Known() && !t.Rear.Known() && !t.Total.Known():
		m.classTicket(&t)
	}
	with := e.With
	if t.How() == Assumed {
		with = m.c.Class(m.b.Van.Class).Van.Empty.With
	}
	m.aboard(&t, with)
	m.w.Ticket = t
}

// How tells how the axle readings are known: the weaker of both.
func (t Ticket) How() How {
	if !t.Front.Known() || !t.Rear.Known() {
		return Missing
	}
	return max(t.Front.How, t.Rear.How)
}

// readingHalf returns the 95 % half-width of a reading: as written, else one scale division, else the workshop's
// default for how it is known.
func (m *maker) readingHalf(own doc.Opt[unit.MassEst], e doc.Ticket) (unit.Mass, string) {
	x, ok := own.Get()
	if !ok {
		return 0, ""
	}
	if h, ok := x.Half().Get(); ok {
		return h, "as written"
	}
	if d, ok := e.Division.Get(); ok {
		return d, "one scale division"
	}
	known := map[string]string{"weighing": "weighed", "papers": "data-sheet", "catalogue": "data-sheet", "guess": "guess"}[e.From]
	r, from := m.c.HalfOf(known)
	h := r.Of(x.Value)
	m.assume("empty axle reading ± %s", from, "van/empty", h)
	return h, from
}

// classTicket stands in the typical empty axle loads of the class until the van is weighed.
func (m *maker) classTicket(t *Ticket) {
	c := m.c.Class(m.b.Van.Class).Van.Empty
	f, fok := c.Front.Get()
	r, rok := c.Rear.Get()
	if !fok || !rok {
		return
	}
	from := "class " + m.b.Van.Class + ": weigh before buying the battery"
	t.Front, t.Rear = assumed(f.Value, "van/empty/front", from), assumed(r.Value, "van/empty/rear", from)
	t.FrontHalf, t.RearHalf, t.HalfFrom, t.From = f.Half().Else(0), r.Half().Else(0), from, "class"
	m.assume("empty van %s front, %s rear", from, "van/empty", f.Value, r.Value)
}

// aboard finds what has to come off the ticket to reach no fuel and nobody aboard.
func (m *maker) aboard(t *Ticket, with doc.Aboard) {
	if !t.Front.Known() || !t.Rear.Known() {
		return
	}
	t.Fuel = Val[unit.Mass]{Path: "van/empty/with/fuel"}
	t.Driver = assumed(unit.Mass(0), "van/empty/with/driver", "nobody aboard")
	if d, ok := with.Driver.Get(); ok {
		t.Driver = given(d, "van/empty/with/driver")
	}
	for _, s := range m.w.Seats {
		if s.Driver {
			t.DriverAt = s.At
		}
	}
	if t.Driver.V > 0 && !t.DriverAt.X.Given() {
		m.lack(NeedPlace, "place of the driver's seat", "items")
	}
	var tank *Tank
	for i := range m.w.Tanks {
		if m.w.Tanks[i].For == "fuel" {
			tank = &m.w.Tanks[i]
		}
	}
	if tank == nil {
		m.assume("no fuel is taken off the ticket and none is counted", "the build has no fuel tank among its items", "items")
		t.Fuel = assumed(unit.Mass(0), "items", "no fuel tank among the items")
		return
	}
	t.FuelAt = tank.At
	switch level, ok := with.Fuel.Get(); {
	case !ok:
		m.w.Lacks = append(m.w.Lacks, Lack{What: "fuel level when the empty van was weighed", Path: "van/empty/with/fuel", Takes: true})
	case tank.Full.Known():
		t.Fuel = derived(level.Of(tank.Full.V), "van/empty/with/fuel", "fuel level times what the tank holds")
	}
}

// limits gathers what is written on the tyre walls and in the base maker's papers.
func (m *maker) limits() {
	v := m.b.Van
	mass := func(o doc.Opt[unit.Mass], path string) Val[unit.Mass] {
		if x, ok := o.Get(); ok {
			return given(x, path)
		}
		return Val[unit.Mass]{Path: path}
	}
	m.w.Roof = mass(v.RoofLimit, "van/roof-limit")
	m.w.Tow = Tow{
		Nose: mass(m.b.Loading.Tow.Nose, "loading/tow/nose"), Trailer: mass(m.b.Loading.Tow.Trailer, "loading/tow/trailer"),
		NoseLimit: mass(v.NoseLimit, "van/nose-limit"), TowLimit: mass(v.TowLimit, "van/tow-limit"),
		Ball: Val[unit.Length]{Path: "van/tow-ball"},
	}
	if x, ok := v.TowBall.Get(); ok {
		m.w.Tow.Ball = given(x, "van/tow-ball")
	} else if m.w.Van.Length.Known() && m.w.Van.Overhang.Known() {
		m.w.Tow.Ball = assumed(m.w.Van.Length.V-m.w.Van.Overhang.V+100*unit.Millimetre, "van/tow-ball", "100 mm behind the rear end, common practice, no source")
	}
	if m.w.Tow.Nose.V > 0 {
		switch b := m.w.Tow.Ball; {
		case !b.Known():
			m.lack(NeedPlace, "place of the tow ball", b.Path)
		case b.How == Assumed:
			m.assume("tow ball %s behind the front axle", b.From, b.Path, b.V)
		}
	}
	for i, o := range [2]doc.Opt[int]{v.Tyres.Front, v.Tyres.Rear} {
		key := "van/tyres/" + [2]string{"front", "rear"}[i]
		m.w.Tyres[i] = Val[int]{Path: key}
		if x, ok := o.Get(); ok {
			m.w.Tyres[i] = given(x, key)
		}
	}
	m.ticketContents(v.Empty.With)
}

// ticketContents finds base equipment that is subtracted though the ticket was read without it.
func (m *maker) ticketContents(with doc.Aboard) {
	for _, c := range []struct {
		in  doc.Opt[bool]
		ids []string
	}{
		{with.Bulkhead, []string{"old-bulkhead", "bulkhead"}}, {with.Bench, []string{"old-passenger-bench", "passenger-bench"}},
		{with.Floor, []string{"old-load-floor", "load-floor"}}, {with.Panels, []string{"old-wall-panels", "wall-panels"}},
	} {
		if in, ok := c.in.Get(); !ok || in {
			continue
		}
		for i := range m.b.Items {
			it := &m.b.Items[i]
			for _, id := range c.ids {
				if it.ID == id && it.Removed.Else(false) {
					m.w.Doubles = append(m.w.Doubles, Lack{What: m.pos[i].Name() + " is subtracted, but the ticket says it was already out", Path: m.pos[i].Path})
				}
			}
		}
	}
}
