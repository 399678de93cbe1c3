package derive

import (
	"fmt"
	"slices"

	"berthwright/axle"
	"berthwright/doc"
	"berthwright/unit"
)

// UnlistedID is the item that stands for screws, glue and cable (design: 4 % ± 2 % of the fitted mass).
const UnlistedID = "unlisted"

// loads gathers fitted, removed and allowance items, then the unlisted.
func (m *maker) loads() {
	real := map[string]unit.Mass{} // by group, fitted
	fitted := unit.Mass(0)
	moment := unit.MassMoment(0)
	placed := unit.Mass(0)
	var allowances []int
	hasUnlisted := false
	for i := range m.b.Items {
		it, p := &m.b.Items[i], &m.pos[i]
		switch {
		case it.InTicket.Else(false):
			if it.Removed.Else(false) {
				m.w.Doubles = append(m.w.Doubles, Lack{What: p.Name() + " is both in the ticket and removed: say removed only", Path: p.Path})
			}
			continue
		case p.Away:
			continue
		case it.Allow.Else(false):
			allowances = append(allowances, i)
			continue
		}
		ld, ok := m.load(p)
		if !ok {
			continue
		}
		if it.ID == UnlistedID {
			hasUnlisted, ld.Unlisted, ld.Kind = true, true, UnlistedID
		} else if ld.Mass > 0 {
			real[it.Group] += ld.Mass
			fitted += ld.Mass
			if x, ok := ld.At.X.Get(); ok {
				placed += ld.Mass
				moment += ld.Mass.Moment(x)
			}
		}
		m.w.Loads = append(m.w.Loads, ld)
	}
	for _, i := range allowances {
		ld, ok := m.load(&m.pos[i])
		if !ok {
			continue
		}
		ld.Allowance = true
		whole, used := ld.Mass, min(max(real[ld.Group], 0), ld.Mass)
		real[ld.Group] -= used // two allowances of one group are used up one after the other
		ld.Mass -= used
		if used > 0 && whole > 0 {
			ld.Half = ld.Half.Times(ld.Mass.Per(whole).Share())
			ld.Name += " (what is left of it)"
		}
		fitted += ld.Mass
		if x, ok := ld.At.X.Get(); ok {
			placed += ld.Mass
			moment += ld.Mass.Moment(x)
		}
		m.w.Loads = append(m.w.Loads, ld)
	}
	if !hasUnlisted && fitted > 0 {
		share, half, from := m.c.Unlisted()
		ld := Load{Unlisted: true, Load: axle.Load{
			ID: UnlistedID, Ref: "items", Name: "Screws, glue, cable and the like (unlisted)", Group: "other",
			Mass: share.Of(fitted), Half: half.Of(fitted), Kind: UnlistedID, At: axle.Place{Y: unit.Some(unit.Length(0))},
		}}
		if placed > 0 {
			ld.At.X = unit.Some(moment.Arm(placed))
		}
		m.w.Unlisted = share
		m.w.Loads = append(m.w.Loads, ld)
		m.assume("unlisted fixings %s ± %s",
			fmt.Sprintf("%.0f %% ± %.0f %% of the fitted mass until the van is weighed; %s", share.Percent(), half.Percent(), from), "items", ld.Mass, ld.Half)
	}
}

// load makes the Load of one placed item; it reports false and notes the lack when there is no mass.
func (m *maker) load(p *Placed) (Load, bool) {
	it := p.Item
	n := it.Count.Else(1)
	e, ok := it.Mass.Get()
	if !ok && n != 0 {
		m.w.Lacks = append(m.w.Lacks, Lack{What: "mass of " + p.Name(), Path: p.Path + "/mass", Need: NeedMass,
			At: m.ground(p.Centre), On: carrier(it.On), Group: it.Group, Item: it.ID, Takes: it.Removed.Else(false)})
		return Load{}, false
	}
	ld := Load{Number: p.Number, Locked: Locked(it), Load: axle.Load{
		ID: it.ID, Ref: p.Path, Name: p.Name(), Group: it.Group,
		Mass: e.Value.Times(float64(n)), Kind: it.Known, At: m.ground(p.Centre), HalfX: p.XHalf, On: carrier(it.On),
	}}
	if h, ok := e.Half().Get(); ok {
		ld.Half = h.Times(float64(n))
	} else {
		r, from := m.c.HalfOf(it.Known)
		ld.Half = r.Of(ld.Mass)
		if it.Known == "" {
			m.assume(fmt.Sprintf("%s: ± %.0f %%", p.Name(), r.Percent()), from, p.Path+"/mass")
		}
	}
	if ld.Kind == "" {
		ld.Kind = "guess"
	}
	if it.Removed.Else(false) {
		ld.Mass = -ld.Mass
	}
	if !p.Centre[0].Known() && ld.Mass != 0 {
		what := "place along the van of " + p.Name()
		if p.Ring {
			what += " (its neighbours are measured from each other in a ring)"
		}
		m.w.Lacks = append(m.w.Lacks, Lack{What: what, Path: p.Path + "/place", Need: NeedPlace, Item: it.ID})
	}
	return ld, true
}

// Locked says why an item is not offered for moving or removal; "" where it is.
func Locked(it *doc.Item) string {
	tank, _ := it.Tank.Get()
	switch {
	case it.Locked != "":
		return it.Locked
	case it.Seat.Given():
		return "belted seats and their fixings are never offered for moving: that needs the tested evidence for this floor"
	case it.Tank.Given() && (tank.For == "gas" || it.On == "under"):
		return "gas and slung tanks are never offered for moving"
	case it.Group == "gas" || it.Group == "safety":
		return "gas and safety equipment is never offered for moving or removal"
	}
	return ""
}

// tanks gathers what is filled.
func (m *maker) tanks() {
	m.w.Tanks = make([]Tank, 0, 8)
	level := map[string]doc.Opt[unit.Ratio]{}
	for _, f := range m.b.Loading.Travel.Fills {
		level[f.Tank] = f.Level
	}
	for i := range m.b.Items {
		it, p := &m.b.Items[i], &m.pos[i]
		t, ok := it.Tank.Get()
		if !ok || it.Removed.Else(false) {
			continue
		}
		path := p.Path + "/tank"
		k := Tank{ID: it.ID, Path: path, Name: p.Name(), For: t.For, Driving: 1, DrivingHow: Assumed, Vessels: max(t.Vessels.Else(it.Count.Else(1)), 1)}
		k.At, k.In = place(m.point(t.At), m.ground(p.Centre)), !t.At.X.Given()
		k.Full = Val[unit.Mass]{Path: path + "/volume"}
		if h, ok := t.Holds.Get(); ok {
			k.Full = given(h, path+"/holds")
		} else if v, ok := t.Volume.Get(); ok {
			if d, ok := t.Density.Get(); ok {
				k.Full = derived(d.MassOf(v), path+"/volume", "volume times density")
			} else if d, from, ok := densityOf(t.For); ok {
				k.Full = Val[unit.Mass]{V: d.MassOf(v), How: Assumed, From: from, Path: path + "/density"}
				if t.For == "fuel" {
					m.assume(fmt.Sprintf("%s: %.3f kg/L", k.Name, d.KilogramsPerCubicMetre()/1000), from, path+"/density")
				}
			}
		}
		if r, ok := t.Travel.Get(); ok {
			k.Driving, k.DrivingHow = r, Given
		}
		k.Level = Val[unit.Ratio]{Path: "loading/travelling/fills"}
		if l, ok := level[it.ID].Get(); ok {
			k.Level = given(l, "loading/travelling/fills")
		} else {
			switch t.For {
			case "waste", "toilet":
				k.Level = assumed(unit.Ratio(0), "loading/travelling/fills", "sets out empty")
			case "fuel":
				k.Level = assumed(unit.Ratio(0.9), "loading/travelling/fills", "sets out with 90 % fuel")
			default:
				k.Level = assumed(k.Driving, "loading/travelling/fills", "sets out as full as declared for driving")
			}
			m.assume(fmt.Sprintf("%s sets out %.0f %% full", k.Name, k.Level.V.Percent()), "this party, fill not given", "loading/travelling/fills")
		}
		if !k.Full.Known() {
			m.lack(NeedContents, "mass of the contents of "+k.Name, k.Full.Path)
		}
		if !k.At.X.Given() {
			m.lack(NeedPlace, "place of the contents of "+k.Name, path+"/at")
		}
		m.w.Tanks = append(m.w.Tanks, k)
	}
}

// densityOf returns the default density of the contents of a tank.
func densityOf(what string) (unit.Density, string, bool) {
	switch what {
	case "fresh", "waste", "hot", "toilet", "flush":
		return 1 * unit.KilogramPerLitre, "water, 1 kg/L", true
	case "fuel":
		return 0.835 * unit.KilogramPerLitre, "diesel at 15 °C, middle of 0.820 to 0.845 kg/L (EN 590, from memory)", true
	}
	return 0, "", false
}

// seats gathers travelling places and the party.
func (m *maker) seats() {
	planned := m.b.Loading.Seats
	m.w.Seats, m.w.People = make([]Seat, 0, 8), make([]Person, 0, len(m.b.Loading.Party))
	for i := range m.b.Items {
		it, p := &m.b.Items[i], &m.pos[i]
		s, ok := it.Seat.Get()
		if !ok || it.Removed.Else(false) || p.Away {
			continue
		}
		path := p.Path + "/seat"
		seat := Seat{ID: it.ID, Path: path, Name: p.Name(), Belted: s.Belted, Faces: s.Faces, Driver: s.Driver.Else(false), Row: s.Row.Else(0), Person: -1}
		seat.At = place(m.point(s.R), m.ground(p.Centre))
		if len(planned) > 0 {
			seat.Planned = slices.Contains(planned, it.ID) || seat.Driver
		} else {
			seat.Planned = seat.Driver || s.Belted.Else(false)
		}
		if seat.Planned && !seat.At.X.Given() {
			m.lack(NeedPlace, "place of the seat "+seat.Name, path+"/r-point")
		}
		m.w.Seats = append(m.w.Seats, seat)
	}
	for i := range m.b.Loading.Party {
		d := &m.b.Loading.Party[i]
		path := "loading/party/" + d.ID
		name := d.Name
		if name == "" {
			name = d.ID
		}
		p := Person{ID: d.ID, Path: path, Name: name, Seat: -1, SeatID: d.Seat, Child: d.Child.Else(false), Licence: d.Licence}
		p.Mass = Val[unit.Mass]{Path: path + "/mass"}
		if x, ok := d.Mass.Get(); ok {
			p.Mass = given(x, p.Mass.Path)
		}
		if x, ok := d.Restraint.Get(); ok {
			p.Restraint = given(x, path+"/child-seat")
		}
		if !p.Mass.Known() {
			m.assume("%s: counted as %s", "own mass not given", p.Mass.Path, name, m.w.Person)
		}
		p.RestraintAt = m.point(d.RestraintAt)
		for s := range m.w.Seats {
			if m.w.Seats[s].ID != d.Seat {
				continue
			}
			p.Seat = s
			if m.w.Seats[s].Person < 0 {
				m.w.Seats[s].Person = i
			}
			p.RestraintAt = place(p.RestraintAt, m.w.Seats[s].At)
		}
		m.w.People = append(m.w.People, p)
	}
}

// zones gathers luggage zones and what is carried in whole pieces.
func (m *maker) zones() {
	stowed := map[string]doc.Opt[unit.Mass]{}
	for _, s := range m.b.Loading.Travel.Stowed {
		stowed[s.Zone] = s.Mass
	}
	at := func(id string) int {
		for i := range m.b.Items {
			if m.b.Items[i].ID == id {
				return i
			}
		}
		return -1
	}
	m.w.Zones = make([]Zone, 0, len(m.b.Loading.Zones))
	for i := range m.b.Loading.Zones {
		d := &m.b.Loading.Zones[i]
		path := "loading/zones/" + d.ID
		z := Zone{ID: d.ID, Path: path, Name: d.Name, On: carrier(d.On), At: m.point(d.At)}
		if z.Name == "" {
			z.Name = d.ID
		}
		if k := at(d.Item); d.Item != "" && k >= 0 {
			if !z.At.X.Given() {
				z.In = d.Item
			}
			z.At = place(z.At, m.ground(m.pos[k].Centre))
		}
		z.Limit = Val[unit.Mass]{Path: path + "/limit"}
		if x, ok := d.Limit.Get(); ok {
			z.Limit = given(x, z.Limit.Path)
		} else {
			m.lack(NeedContents, "limit of the luggage zone "+z.Name, z.Limit.Path)
		}
		if !z.At.X.Given() {
			m.lack(NeedPlace, "place of the luggage zone "+z.Name, path+"/at/x")
		}
		if x, ok := stowed[d.ID].Get(); ok {
			z.Stowed = given(x, "loading/travelling/stowed")
		}
		m.w.Zones = append(m.w.Zones, z)
	}
	m.w.Luggage = Val[unit.Mass]{Path: "loading/luggage"}
	if x, ok := m.b.Loading.Luggage.Get(); ok {
		m.w.Luggage = given(x, "loading/luggage")
	}
	for i := range m.b.Loading.Carried {
		d := &m.b.Loading.Carried[i]
		path := "loading/carried/" + d.ID
		k := Carried{ID: d.ID, Path: path, Name: d.Name, On: carrier(d.On), UpTo: d.UpTo.Else(1), At: m.point(d.At)}
		if k.Name == "" {
			k.Name = d.ID
		}
		k.Usual = d.Usual.Else(k.UpTo)
		k.Each = Val[unit.Mass]{Path: path + "/each"}
		if x, ok := d.Each.Get(); ok {
			k.Each, k.Half = given(x.Value, k.Each.Path), x.Half().Else(0)
		} else {
			m.lack(NeedContents, "mass of one of "+k.Name, k.Each.Path)
		}
		if !k.At.X.Given() {
			m.lack(NeedPlace, "place of "+k.Name, path+"/at/x")
		}
		m.w.Carried = append(m.w.Carried, k)
	}
}
