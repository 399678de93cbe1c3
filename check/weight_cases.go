package check

import (
	"errors"
	"slices"
	"strconv"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/derive"
	"berthwright/rules"
	"berthwright/unit"
)

// LoadCase is one named case: who is aboard, what is filled.
type LoadCase struct {
	ID     string // "ro-approval", "party", "worst-rear-refilled"
	Name   string
	Says   Message // party and fill in words
	Split  axle.Split
	Worst  *axle.Case // how a worst case was filled
	Basis  string     // of a running order: whose
	Source []calc.Cite
	Level  calc.Evidence
}

// cases builds the named cases of one weight input.
type cases struct {
	in     *derive.Weight
	geo    axle.Geometry
	pack   *rules.Pack
	base   axle.Split // finished, dry, no fuel, nobody aboard
	person unit.Mass  // of a passenger on the published basis
	list   []LoadCase

	groups       []axle.Group // of the declared plan; the first is kept for the water
	fresh, waste []axle.Variable
	shares       []leastShare
	contents     []axle.Load // of each tank, full; names are made once
	one          []axle.Load // a kilogram of luggage, spread over the zones
}

// named fills the list with the cases that are not a worst case.
func (c *cases) named() {
	c.add("dry", "Finished, dry", say("case-dry"), nil)
	for _, r := range c.pack.Find("running-order") {
		if _, told := r.Value("fresh"); !told && !c.fillDeclared() {
			continue // it would repeat the approval basis
		}
		if c.add(basisID(r), r.Title, say("case-rule", r.Says), c.runningOrder(r)) {
			last := &c.list[len(c.list)-1]
			last.Basis, last.Source, last.Level = r.Edition, []calc.Cite{r.Cite}, r.Level
		}
	}
	if r := c.pack.Find("belted-capacity-least"); len(r) > 0 && c.add("unloaded", "Unloaded, for the occupant and cargo capacity", say("case-unloaded"), c.unloaded()) {
		last := &c.list[len(c.list)-1]
		last.Basis, last.Source, last.Level = r[0].Edition, []calc.Cite{r[0].Cite}, r[0].Level
	}
	if ld, says, ok := c.approval(); ok && c.add("approval", "Laden for approval", says, ld) {
		last := &c.list[len(c.list)-1]
		r := c.pack.Find("pay-mass-least")[0]
		last.Basis, last.Source, last.Level = r.Edition, []calc.Cite{r.Cite}, r.Level
	}
	c.add("party", "As this party travels", c.partySays(), c.party())
}

// add reports false where the sciences refuse the case: a wrong value is reported where it stands, and counts as missing.
func (c *cases) add(id, name string, says Message, aboard []axle.Load) bool {
	s, err := c.base.With(aboard)
	if err != nil {
		return false
	}
	c.list = append(c.list, LoadCase{ID: id, Name: name, Says: says, Split: s})
	return true
}

// fillDeclared reports whether a fill for driving is declared for any fresh tank.
func (c *cases) fillDeclared() bool {
	return slices.ContainsFunc(c.in.Tanks, func(t derive.Tank) bool { return t.For == "fresh" && t.DrivingHow == derive.Given })
}

// runningOrder returns what is aboard on one published basis. A basis that names no fresh water counts the fill declared for
// driving.
func (c *cases) runningOrder(r rules.Rule) []axle.Load {
	out := make([]axle.Load, 0, 1+len(c.in.Tanks))
	if m, ok := r.Mass("driver").Get(); ok {
		for i := range c.in.Seats {
			if c.in.Seats[i].Driver {
				out = append(out, person("driver", "driver", &c.in.Seats[i], m))
				break
			}
		}
	}
	cylinders := false
	_, only := r.Value("gas-cylinders")
	for i := range c.in.Tanks {
		t := &c.in.Tanks[i]
		level, ok := r.Share(t.For).Get()
		if !ok && t.For == "fresh" {
			level = t.Driving
		}
		if only && t.For == "gas" {
			if cylinders {
				continue
			}
			cylinders = true
			level = unit.Ratio(level.Share() / float64(t.Vessels)) // one of those that the entry stands for
		}
		out = append(out, c.tank(i, level))
	}
	return out
}

// unloaded returns what is aboard when the unloaded weight is told in the United States: every fluid the vehicle runs
// on and gas; water counts as cargo (49 CFR 571.3 and 571.110, from memory).
func (c *cases) unloaded() []axle.Load {
	var out []axle.Load
	for i := range c.in.Tanks {
		if f := c.in.Tanks[i].For; f == "fuel" || f == "gas" {
			out = append(out, c.tank(i, 1))
		}
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

// approval returns running order with all fluids, the published mass in every other seat and the pay-mass 10 (n + L)
// over the luggage zones.
func (c *cases) approval() (out []axle.Load, says Message, ok bool) {
	pay, n, ok := c.payMass()
	basis := c.pack.Find("running-order")
	if !ok || len(basis) == 0 {
		return nil, Message{}, false
	}
	out = c.runningOrder(basis[0])
	for i := range c.in.Seats {
		if s := &c.in.Seats[i]; !s.Driver && s.Planned {
			out = append(out, person("approval-"+s.ID, s.Name, s, c.person))
		}
	}
	out = append(out, c.spreadPay(pay)...)
	return out, say("case-approval", strconv.Itoa(n), Kg(c.person), Figure{Kind: unit.KindMass, SI: pay.Kilograms(), Digits: 1}), true
}

// payMass returns the least pay-mass of a motor caravan, 10 (n + L) kg with n seats including the driver's and L the overall
// length in metres (Regulation (EU) 1230/2012, annex I A 2.6.4.1.2).
func (c *cases) payMass() (pay unit.Mass, n int, ok bool) {
	for i := range c.in.Seats {
		if s := &c.in.Seats[i]; s.Driver || s.Planned {
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

// behind reports whether a luggage zone takes part when luggage is spread: it has a limit and lies behind the bulkhead
// line.
func (c *cases) behind(z *derive.Zone) bool {
	x, ok := z.At.X.Get()
	return ok && z.Limit.Known() && (!c.in.Van.Bulkhead.Known() || x >= c.in.Van.Bulkhead.V)
}

// spreadPay spreads the pay-mass over the luggage zones behind the bulkhead line in proportion to their limits; without zones, over the middle of
// the load floor.
func (c *cases) spreadPay(pay unit.Mass) []axle.Load {
	sum := unit.Mass(0)
	for i := range c.in.Zones {
		if z := &c.in.Zones[i]; c.behind(z) {
			sum += z.Limit.V
		}
	}
	if sum > 0 {
		out := make([]axle.Load, 0, len(c.in.Zones))
		for i := range c.in.Zones {
			if z := &c.in.Zones[i]; c.behind(z) {
				out = append(out, axle.Load{ID: "pay-" + z.ID, Name: z.Name, Ref: z.Path, Group: "luggage", Mass: z.Limit.V.Per(sum).Of(pay), At: z.At, On: z.On})
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
	out := make([]axle.Load, 0, 2*len(c.in.People)+len(c.in.Tanks)+len(c.in.Zones)+len(c.in.Carried)+1)
	for i := range c.in.People {
		p := &c.in.People[i]
		m, _ := c.own(p)
		if p.Seat >= 0 {
			out = append(out, person("party-"+p.ID, p.Name, &c.in.Seats[p.Seat], m))
		} else {
			out = append(out, axle.Load{ID: "party-" + p.ID, Name: p.Name, Ref: p.Path, Group: "people", Mass: m})
		}
		if p.Restraint.V > 0 {
			out = append(out, c.restraint(p))
		}
	}
	for i := range c.in.Tanks {
		out = append(out, c.tank(i, c.in.Tanks[i].Level.V))
	}
	for i := range c.in.Zones {
		if z := &c.in.Zones[i]; z.Stowed.V > 0 {
			out = append(out, axle.Load{ID: "stowed-" + z.ID, Name: z.Name, Ref: z.Path, Group: "luggage", Mass: z.Stowed.V, At: z.At, On: z.On})
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

func (c *cases) partySays() Message {
	who := make([]Message, 0, len(c.in.People))
	for i := range c.in.People {
		m, how := c.own(&c.in.People[i])
		code := "party-own"
		if how != derive.Given {
			code = "party-assumed"
		}
		who = append(who, say(code, c.in.People[i].Name, Kg(m)))
	}
	if len(who) == 0 {
		who = append(who, say("party-nobody"))
	}
	var fills []Message
	for i := range c.in.Tanks {
		if t := &c.in.Tanks[i]; t.Level.V > 0 {
			fills = append(fills, say("party-fill", t.For, Figure{Kind: unit.KindRatio, SI: t.Level.V.Share()}))
		}
	}
	if len(fills) == 0 {
		fills = append(fills, say("party-dry"))
	}
	for i := range c.in.Carried {
		if k := &c.in.Carried[i]; k.Usual > 0 {
			fills = append(fills, say("party-carried", strconv.Itoa(k.Usual), k.Name))
		}
	}
	sum := unit.Mass(0)
	for i := range c.in.Zones {
		sum += c.in.Zones[i].Stowed.V
	}
	return say("case-party", who, fills, Kg(sum))
}

// own returns a person's own mass, or the counted mass where it is not given.
func (c *cases) own(p *derive.Person) (unit.Mass, derive.How) {
	if p.Mass.Known() {
		return p.Mass.V, derive.Given
	}
	return c.in.Person, derive.Assumed
}

func person(id, name string, s *derive.Seat, m unit.Mass) axle.Load {
	return axle.Load{ID: id, Name: name, Ref: s.Path, Group: "people", Mass: m, At: s.At}
}

func (c *cases) restraint(p *derive.Person) axle.Load {
	return axle.Load{ID: "restraint-" + p.ID, Name: "child restraint of " + p.Name, Ref: p.Path, Mass: p.Restraint.V, At: p.RestraintAt}
}

// tank returns the contents of the i-th tank at a level.
func (c *cases) tank(i int, level unit.Ratio) axle.Load {
	if c.contents == nil {
		c.contents = make([]axle.Load, len(c.in.Tanks))
		for k := range c.in.Tanks {
			t := &c.in.Tanks[k]
			c.contents[k] = axle.Load{ID: "in-" + t.ID, Name: "contents of " + t.Name, Ref: t.Path, Group: t.For, Mass: t.Full.V, At: t.At}
		}
	}
	l := c.contents[i]
	l.Mass = level.Of(l.Mass)
	return l
}

func (c *cases) carried(k *derive.Carried) axle.Load {
	return axle.Load{ID: k.ID, Name: k.Name, Ref: k.Path, Mass: k.Each.V.Times(float64(k.UpTo)), Half: k.Half.Times(float64(k.UpTo)), At: k.At, On: k.On}
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

// missingOf returns the ids that a science needed a place of.
func missingOf(err error) []string {
	var m axle.MissingError
	if errors.As(err, &m) {
		return m.IDs
	}
	return nil
}
