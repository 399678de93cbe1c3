package check

import (
	"errors"
	"fmt"
	"strings"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/derive"
	"berthwright/rules"
	"berthwright/unit"
)

// LoadCase is one named case: who is aboard, what is filled.
type LoadCase struct {
	ID     string // "ro-eu", "party", "worst-rear-refilled"
	Name   string
	Says   string // party and fill in words
	Split  axle.Split
	Worst  *axle.Case // how a worst case was filled
	Basis  string     // of a running order: whose
	Source []calc.Cite
	Level  calc.Evidence
}

// cases builds the named cases of one weight input.
type cases struct {
	in   derive.Weight
	geo  axle.Geometry
	pack rules.Pack
	base axle.Split // finished, dry, no fuel, nobody aboard
	list []LoadCase
}

// baseLoads returns the empty van re-based to no fuel and nobody aboard, and everything fitted to it.
func baseLoads(in derive.Weight, geo axle.Geometry) []axle.Load {
	t := in.Ticket
	side := unit.Some(unit.Length(0))
	if l, r := t.Left, t.Right; l.Known() && r.Known() && in.Van.TrackFront.Known() && in.Van.TrackRear.Known() {
		track := (in.Van.TrackFront.V + in.Van.TrackRear.V).Half()
		off := r.V - l.V
		side = unit.Some(track.Half().Times(off.Per(l.V + r.V).Share()))
	}
	high := unit.Opt[unit.Length]{}
	if in.Van.EmptyHigh.Known() {
		high = unit.Some(in.Van.EmptyHigh.V)
	}
	loads := make([]axle.Load, 0, len(in.Loads)+4)
	spread := func(m, half unit.Mass) unit.MassEst {
		return unit.MassEst{Value: m, Spread: unit.Spread{Kind: unit.Absolute, Abs: half.Kilograms()}}
	}
	two := geo.Ticket(spread(t.Front.V, t.FrontHalf), spread(t.Rear.V, t.RearHalf), side, high)
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
	for i := range in.Loads {
		loads = append(loads, in.Loads[i].Load)
	}
	return loads
}

// named fills the list with the cases that are not a worst case.
func (c *cases) named() {
	c.add("dry", "Finished, dry", "nobody aboard, no fuel, tanks empty", nil)
	for _, r := range c.pack.Find("running-order") {
		if c.add(basisID(r), r.Title, r.Says, c.runningOrder(r)) {
			last := &c.list[len(c.list)-1]
			last.Basis, last.Source, last.Level = r.Edition, []calc.Cite{r.Cite}, r.Level
		}
	}
	if ld, says, ok := c.approval(); ok && c.add("approval", "Laden for approval", says, ld) {
		last := &c.list[len(c.list)-1]
		r := c.pack.Find("pay-mass-least")[0]
		last.Basis, last.Source, last.Level = r.Edition, []calc.Cite{r.Cite}, r.Level
	}
	c.add("party", "As this party travels", c.partySays(), c.party())
}

// add reports false where the sciences refuse the case: a wrong value is reported where it stands, and counts as missing.
func (c *cases) add(id, name, says string, aboard []axle.Load) bool {
	s, err := c.base.With(aboard)
	if err != nil {
		return false
	}
	c.list = append(c.list, LoadCase{ID: id, Name: name, Says: says, Split: s})
	return true
}

// runningOrder returns what is aboard on one published basis. A basis that names no fresh water counts the fill declared for
// driving.
func (c *cases) runningOrder(r rules.Rule) []axle.Load {
	var out []axle.Load
	if m, ok := r.Mass("driver").Get(); ok {
		for _, s := range c.in.Seats {
			if s.Driver {
				out = append(out, person("driver", "driver", s, m))
				break
			}
		}
	}
	cylinders := false
	for i := range c.in.Tanks {
		t := &c.in.Tanks[i]
		level, ok := r.Share(t.For).Get()
		if !ok && t.For == "fresh" {
			level = t.Driving
		}
		if _, only := r.Value("gas-cylinders"); only && t.For == "gas" {
			if cylinders {
				continue
			}
			cylinders = true
		}
		out = append(out, c.tank(t, level))
	}
	return out
}

// basisID names the case of one basis.
func basisID(r rules.Rule) string {
	switch r.Edition {
	case "EN 1646-2":
		return "ro-en-1646-2"
	case "travelling fill":
		return "ro-travelling-fill"
	case "dry":
		return "ro-dry"
	}
	return "ro-approval"
}

// approval returns running order with all fluids, 75 kg in every other seat and the pay-mass 10 (n + L) over the luggage zones.
func (c *cases) approval() (out []axle.Load, says string, ok bool) {
	pay, n, ok := c.payMass()
	basis := c.pack.Find("running-order")
	if !ok || len(basis) == 0 {
		return nil, "", false
	}
	out = c.runningOrder(basis[0])
	for _, s := range c.in.Seats {
		if !s.Driver && s.Planned {
			out = append(out, person("approval-"+s.ID, "75 kg in "+s.Name, s, 75*unit.Kilogram))
		}
	}
	out = append(out, c.spreadPay(pay)...)
	return out, fmt.Sprintf("%d × 75 kg, all fluids full but waste, pay-mass %.1f kg over the luggage zones behind the cab", n, pay.Kilograms()), true
}

// payMass returns the least pay-mass of a motor caravan, 10 (n + L) kg with n seats including the driver's and L the overall
// length in metres (Regulation (EU) 1230/2012, annex I A 2.6.4.1.2).
func (c *cases) payMass() (pay unit.Mass, n int, ok bool) {
	for _, s := range c.in.Seats {
		if s.Driver || s.Planned {
			n++
		}
	}
	rule := c.pack.Stricter("pay-mass-least", "per-person")
	metre := c.pack.Stricter("pay-mass-least", "per-metre")
	if n == 0 || !c.in.Van.Length.Known() || !rule.Known || !metre.Known {
		return 0, n, false
	}
	return unit.Kilogram.Times(rule.Value.SI*float64(n) + metre.Value.SI*c.in.Van.Length.V.Metres()), n, true
}

// spreadPay spreads the pay-mass over the luggage zones behind the bulkhead line in proportion to their limits; without zones, over the middle of
// the load floor.
func (c *cases) spreadPay(pay unit.Mass) []axle.Load {
	sum := unit.Mass(0)
	behind := func(z derive.Zone) bool {
		x, ok := z.At.X.Get()
		return ok && z.Limit.Known() && (!c.in.Van.Bulkhead.Known() || x >= c.in.Van.Bulkhead.V)
	}
	for _, z := range c.in.Zones {
		if behind(z) {
			sum += z.Limit.V
		}
	}
	var out []axle.Load
	if sum > 0 {
		for _, z := range c.in.Zones {
			if behind(z) {
				out = append(out, axle.Load{ID: "pay-" + z.ID, Name: "pay-mass in " + z.Name, Ref: z.Path, Mass: z.Limit.V.Per(sum).Of(pay), At: z.At, On: z.On})
			}
		}
		return out
	}
	l := axle.Load{ID: "pay", Name: "pay-mass, middle of the load floor", Mass: pay}
	if c.in.Van.Bulkhead.Known() && c.in.Van.RearDoor.Known() {
		l.At.X = unit.Some((c.in.Van.Bulkhead.V + c.in.Van.RearDoor.V).Half())
		l.At.Y = unit.Some(unit.Length(0))
	}
	return []axle.Load{l}
}

// party returns what is aboard when this party sets out: own masses, fills and stowed luggage as given.
func (c *cases) party() []axle.Load {
	var out []axle.Load
	for i := range c.in.People {
		p := &c.in.People[i]
		m, _ := c.own(p)
		if p.Seat >= 0 {
			out = append(out, person("party-"+p.ID, p.Name, c.in.Seats[p.Seat], m))
		} else {
			out = append(out, axle.Load{ID: "party-" + p.ID, Name: p.Name, Ref: p.Path, Mass: m})
		}
		if p.Restraint.V > 0 {
			out = append(out, c.restraint(p))
		}
	}
	for i := range c.in.Tanks {
		out = append(out, c.tank(&c.in.Tanks[i], c.in.Tanks[i].Level.V))
	}
	for _, z := range c.in.Zones {
		if z.Stowed.V > 0 {
			out = append(out, axle.Load{ID: "stowed-" + z.ID, Name: z.Name, Ref: z.Path, Mass: z.Stowed.V, At: z.At, On: z.On})
		}
	}
	for i := range c.in.Carried {
		k := &c.in.Carried[i]
		if k.Usual > 0 {
			l := c.carried(k)
			l.Mass = k.Each.V.Times(float64(k.Usual))
			out = append(out, l)
		}
	}
	return append(out, c.nose()...)
}

func (c *cases) partySays() string {
	var who []string
	for i := range c.in.People {
		m, how := c.own(&c.in.People[i])
		mark := ""
		if how != derive.Given {
			mark = " (assumed)"
		}
		who = append(who, fmt.Sprintf("%s %.0f kg%s", c.in.People[i].Name, m.Kilograms(), mark))
	}
	if len(who) == 0 {
		who = []string{"nobody is named"}
	}
	var fills []string
	for _, t := range c.in.Tanks {
		if t.Level.V > 0 {
			fills = append(fills, fmt.Sprintf("%s %.0f %%", t.For, t.Level.V.Percent()))
		}
	}
	sum := unit.Mass(0)
	for _, z := range c.in.Zones {
		sum += z.Stowed.V
	}
	return strings.Join(who, ", ") + "; " + strings.Join(fills, ", ") + fmt.Sprintf("; luggage %.0f kg", sum.Kilograms())
}

// own returns a person's own mass, or the counted mass where it is not given.
func (c *cases) own(p *derive.Person) (unit.Mass, derive.How) {
	if p.Mass.Known() {
		return p.Mass.V, derive.Given
	}
	return c.in.Person, derive.Assumed
}

func person(id, name string, s derive.Seat, m unit.Mass) axle.Load {
	return axle.Load{ID: id, Name: name, Ref: s.Path, Group: "people", Mass: m, At: s.At}
}

func (c *cases) restraint(p *derive.Person) axle.Load {
	return axle.Load{ID: "restraint-" + p.ID, Name: "child restraint of " + p.Name, Ref: p.Path, Mass: p.Restraint.V, At: p.RestraintAt}
}

func (c *cases) tank(t *derive.Tank, level unit.Ratio) axle.Load {
	return axle.Load{ID: "in-" + t.ID, Name: "contents of " + t.Name, Ref: t.Path, Group: t.For, Mass: level.Of(t.Full.V), At: t.At}
}

func (c *cases) carried(k *derive.Carried) axle.Load {
	return axle.Load{ID: k.ID, Name: k.Name, Ref: k.Path, Mass: k.Each.V.Times(float64(k.UpTo)), At: k.At, On: k.On}
}

func (c *cases) nose() []axle.Load {
	if !(c.in.Tow.Nose.V > 0) {
		return nil
	}
	l := axle.Load{ID: "nose", Name: "nose weight of the trailer", Ref: c.in.Tow.Nose.Path, Mass: c.in.Tow.Nose.V, On: axle.Behind}
	if c.in.Tow.Ball.Known() {
		l.At.X, l.At.Y = unit.Some(c.in.Tow.Ball.V), unit.Some(unit.Length(0))
	}
	return []axle.Load{l}
}

// plan returns the declared loading plan as groups. People count at the larger of their own mass and the counted one.
func (c *cases) plan(policy axle.WaterPolicy) []axle.Group {
	var people, fluids, fresh, waste, luggage []axle.Variable
	groups := make([]axle.Group, 0, 6+len(c.in.Carried))
	var restraints []axle.Group
	for i := range c.in.Seats {
		s := &c.in.Seats[i]
		if !s.Planned {
			continue
		}
		m, name := c.in.Person, "somebody in "+s.Name
		if s.Person >= 0 {
			p := &c.in.People[s.Person]
			own, _ := c.own(p)
			m, name = max(m, own), p.Name
			if p.Restraint.V > 0 {
				restraints = append(restraints, axle.Group{ID: "restraint-" + p.ID, Name: "child restraint", Variables: []axle.Variable{axle.Whole(c.restraint(p), 1)}})
			}
		}
		v := axle.Whole(person("seat-"+s.ID, name, *s, m), 1)
		if s.Driver {
			v.Least = v.Mass
		}
		people = append(people, v)
	}
	for i := range c.in.Tanks {
		t := &c.in.Tanks[i]
		v := axle.UpTo(c.tank(t, t.Driving))
		switch t.For {
		case "fresh":
			fresh = append(fresh, v)
		case "waste":
			waste = append(waste, v)
		default:
			fluids = append(fluids, v)
		}
	}
	for _, z := range c.in.Zones {
		luggage = append(luggage, axle.UpTo(axle.Load{ID: z.ID, Name: z.Name, Ref: z.Path, Group: "luggage", Mass: z.Limit.V, At: z.At, On: z.On}))
	}
	groups = append(groups,
		axle.Group{ID: "people", Name: "people", Variables: people},
		axle.Group{ID: "fluids", Name: "fuel, hot water, toilet, gas", Variables: fluids},
		axle.Water(fresh, waste, policy))
	lug := axle.Group{ID: "luggage", Name: "luggage", Variables: luggage}
	if c.in.Luggage.Known() {
		lug.Cap = unit.Some(c.in.Luggage.V)
	}
	groups = append(groups, lug)
	groups = append(groups, restraints...)
	for i := range c.in.Carried {
		k := &c.in.Carried[i]
		if k.UpTo > 0 {
			groups = append(groups, axle.Group{ID: "carried-" + k.ID, Name: k.Name, Variables: []axle.Variable{axle.Whole(c.carried(k), k.UpTo)}})
		}
	}
	for _, l := range c.nose() {
		groups = append(groups, axle.Group{ID: "nose", Name: "nose weight", Variables: []axle.Variable{axle.UpTo(l)}})
	}
	return groups
}

// policyWords names the water policies as people say them.
var policyWords = [...]string{
	axle.UsedWaterLeavesFresh:    "used water leaves the fresh tank",
	axle.RefilledWithoutEmptying: "fresh refilled without emptying the waste",
}

var policyID = [...]string{axle.UsedWaterLeavesFresh: "used", axle.RefilledWithoutEmptying: "refilled"}

// worst adds the worst case of the declared plan for m under one policy; it returns the index in the list, or an error
// that names the places that are missing.
func (c *cases) worst(id, name string, m axle.Measure, sense axle.Sense, policy axle.WaterPolicy, groups []axle.Group) (int, error) {
	w, err := axle.Worst(c.base, groups, m, sense)
	if err != nil {
		return -1, err
	}
	c.list = append(c.list, LoadCase{ID: id + "-" + policyID[policy], Name: name, Worst: &w, Split: w.Split,
		Says: "the declared plan at its worst, people at the larger of " + fmt.Sprintf("%.0f kg", c.in.Person.Kilograms()) + " and their own mass, " + policyWords[policy]})
	return len(c.list) - 1, nil
}

// missingOf returns the ids that a science needed a place of.
func missingOf(err error) []string {
	var m axle.MissingError
	if errors.As(err, &m) {
		return m.IDs
	}
	return nil
}
