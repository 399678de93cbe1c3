package axle

import (
	"fmt"
	"math"

	"berthwright/calc"
)

// Certificate shows the case so that a reader can check it without searching: the loads add up, the
// moments add up, no group passes its limit, and no plan within the groups can pass the value found.
//
// The last is linear programming's dual bound: with p the gain that a limit is worth per kilogram, no
// plan can gain more than Σ p·limit + Σ room·max(gain − p, 0). Where whole pieces meet a limit the bound
// is that of broken pieces; the search closes the gap, which is printed.
func (c Case) Certificate() calc.Certificate {
	b := builder{c: &c, objective: c.Measure, sign: "", cert: calc.Certificate{
		ID: "axle.worst", Title: c.title(),
		Method: "The groups of the plan are independent of each other; each is filled in the order of its levers up to its limit.",
	}}
	if c.Sense == Least {
		b.sign = "-"
	}
	if c.tried > 0 {
		b.cert.Method += fmt.Sprintf(" Whole pieces under a limit were searched, with the fill of broken pieces as bound (%d steps).", c.tried)
	}
	share, isShare := c.Share.Get()
	if isShare {
		b.objective = c.Measure.Plus(-share.Share(), c.Over, c.Measure.Name+" less the share of "+c.Over.Name)
		b.cert.Method += fmt.Sprintf(" The share was found in %d rounds: fill for the part less the last share of the whole, until nothing is gained.", len(c.Rounds))
	}
	b.chosen()
	total := Total()
	b.cert.Base = calc.Line{Label: "finished van", SI: c.base.read(&total), Dim: calc.DimMass, Show: showKg, Why: "the base of every case: always aboard"}
	b.cert.Sum = calc.Line{Label: "together", SI: c.Split.read(&total), Dim: calc.DimMass, Show: showKg, Why: "the lines above, added up"}
	b.sums()
	if isShare {
		b.balance(fmt.Sprintf("the share of %.6f times the %s is the %s", share.Share(), c.Over.Name, c.Measure.Name),
			share.Share()*c.Split.read(&c.Over), "", c.Split.read(&c.Measure), "")
	}
	b.caps()
	b.bound()
	return b.cert
}

func (c *Case) title() string {
	name := c.Measure.Name
	if c.Share.Given() {
		name += " as a share of the " + c.Over.Name
	}
	if c.Sense == Least {
		return "The least the plan allows: " + name
	}
	return "The most the plan allows: " + name
}

// builder writes a certificate.
type builder struct {
	c         *Case
	cert      calc.Certificate
	objective Measure
	sign      string // "-" when the least is sought
}

func (b *builder) in(s calc.Step) { b.cert.Inputs = append(b.cert.Inputs, s) }

func (b *builder) list(symbol, says string, dim calc.Dim, show calc.Show, of func(p *Pick) float64) {
	s := calc.Step{Symbol: symbol, Says: says, Kind: calc.Given, Dim: dim, Show: show}
	for i := range b.c.Picks {
		p := &b.c.Picks[i]
		s.Each = append(s.Each, of(p))
		s.Rows = append(s.Rows, calc.Row{Label: p.Load.label(), Ref: p.Load.Ref})
	}
	b.in(s)
}

func (b *builder) balance(says string, left float64, leftFormula string, right float64, rightFormula string) {
	if len(b.c.Picks) == 0 { // a sum over no rows has no dimension
		leftFormula, rightFormula = "", ""
	}
	scale := max(1, math.Abs(left), math.Abs(right), b.c.Split.Total.Kilograms())
	b.cert.Balances = append(b.cert.Balances, calc.Balance{Says: says, Left: left, Right: right,
		LeftFormula: leftFormula, RightFormula: rightFormula, Within: slack * scale, Show: showKg})
}

// chosen writes one line for each variable, in the order of filling, and its lever as an input.
func (b *builder) chosen() {
	for i := range b.c.Picks {
		p := &b.c.Picks[i]
		a := b.c.gain(&b.objective, p)
		why := fmt.Sprintf("%.3f kg per kg", a)
		switch {
		case p.Must:
			why = "always aboard"
		case p.Mass.Kilograms() <= p.floor && p.room > 0 && (b.sign == "") == (a <= 0):
			why += ": adds nothing here"
		case p.Mass.Kilograms() < p.floor+p.room-slack:
			why += ": the limit of the group is reached"
		}
		if p.Load.Mass > 0 && p.Pieces > 0 {
			why += fmt.Sprintf("; whole pieces: %d", p.Pieces)
		}
		b.cert.Chosen = append(b.cert.Chosen, calc.Line{Label: p.Load.label(), Ref: p.Load.Ref, SI: p.Mass.Kilograms(), Dim: calc.DimMass, Show: showKg, Why: why})
	}
}

// sums balances loads, the measure and the moments.
func (b *builder) sums() {
	c := b.c
	total, x := Total(), everywhere("moment", lever{x: 1})
	w, v, m := c.base.read(&total), c.base.read(&b.objective), c.base.read(&x)
	b.in(given("W_0", "total of what is always aboard", w, calc.DimMass, showKg))
	b.in(given("V_0", b.objective.Name+" by what is always aboard", v, calc.DimMass, showKg))
	b.list("a_i", "what each kilogram adds to the "+b.objective.Name, calc.None, showOne, func(p *Pick) float64 { return c.gain(&b.objective, p) })
	for i := range c.Picks {
		p := &c.Picks[i]
		kg := p.Mass.Kilograms()
		w += kg
		v += kg * c.gain(&b.objective, p)
		m += kg * c.gain(&x, p)
	}
	b.balance("the loads add up to the total", w, "W_0 + sum(c_i)", c.Split.read(&total), "")
	b.balance("levers times loads add up to the "+b.objective.Name, v, "V_0 + sum(a_i * c_i)", c.Split.read(&b.objective), "")
	if math.IsNaN(m) {
		return
	}
	l := c.Split.Geometry.Wheelbase.Metres()
	b.in(given("M_0", "moment about the front axle of what is always aboard", c.base.read(&x), calc.DimMassMoment, showKgm))
	b.in(given("l", "wheelbase", l, calc.DimLength, showM))
	b.list("x_i", "mass centre, rearwards from the front axle", calc.DimLength, showM, func(p *Pick) float64 { return c.gain(&x, p) })
	front, rear := c.Split.Geometry.Front(), c.Split.Geometry.Rear()
	b.balance("the moments about the front axle give the rear axle", m/l, "(M_0 + sum(x_i * c_i)) / l", c.Split.read(&rear), "")
	b.balance("front and rear axle make the total", c.Split.read(&front)+c.Split.read(&rear), "", c.Split.read(&total), "W_0 + sum(c_i)")
}

// gain is the lever of a pick; one without mass needs no place.
func (c *Case) gain(m *Measure, p *Pick) float64 {
	a := m.lever(&p.Load)
	if math.IsNaN(a) && p.Load.Mass == 0 {
		return 0
	}
	return a
}

// caps balances each limit of a group: what is aboard and what is left make the limit.
func (b *builder) caps() {
	for k := range b.c.groups {
		g := &b.c.groups[k]
		limit, ok := g.Cap.Get()
		if !ok {
			continue
		}
		name := g.Name
		if name == "" {
			name = g.ID
		}
		used := 0.0
		for i := range b.c.Picks {
			if b.c.Picks[i].Group == g.ID {
				used += b.c.Picks[i].Mass.Kilograms()
			}
		}
		n := k + 1
		left := max(limit.Kilograms()-used, 0) // a limit passed would not balance
		b.list(fmt.Sprintf("g%d_i", n), "1 where the load counts towards the limit of "+name, calc.None, calc.Show{}, func(p *Pick) float64 {
			if p.Group == g.ID {
				return 1
			}
			return 0
		})
		b.in(given(fmt.Sprintf("q%d", n), "left over under the limit of "+name, left, calc.DimMass, showKg))
		b.balance("what is aboard and what is left make the limit of "+name, used+left, fmt.Sprintf("sum(g%d_i * c_i) + q%d", n, n), limit.Kilograms(), "")
	}
}

// bound balances the value with what no plan can pass.
func (b *builder) bound() {
	c := b.c
	b.list("f_i", "least of each load", calc.DimMass, showKg, func(p *Pick) float64 { return p.floor })
	b.list("u_i", "room of each load above its least", calc.DimMass, showKg, func(p *Pick) float64 { return p.room })
	b.list("p_i", "what a kilogram under the group's limit is worth", calc.None, showOne, func(p *Pick) float64 { return p.price })
	rooms := calc.Step{Symbol: "K_i", Says: "limit of each group less the least of its loads", Kind: calc.Given, Dim: calc.DimMass, Show: showKg}
	prices := calc.Step{Symbol: "P_i", Says: "what a kilogram of that is worth", Kind: calc.Given, Show: showOne}
	for k := range c.groups {
		if !c.groups[k].Cap.Given() {
			continue
		}
		row := calc.Row{Label: c.groups[k].ID}
		rooms.Each, rooms.Rows = append(rooms.Each, c.rooms[k]), append(rooms.Rows, row)
		prices.Each, prices.Rows = append(prices.Each, c.prices[k]), append(prices.Rows, row)
	}
	gains := "sum(u_i * max(" + b.sign + "a_i - p_i, 0))"
	if len(rooms.Each) > 0 {
		b.in(rooms)
		b.in(prices)
		gains = "(sum(P_i * K_i) + " + gains + ")"
	}
	plus := " + "
	if b.sign == "-" {
		plus = " - "
	}
	formula := "V_0 + sum(f_i * a_i)" + plus + gains
	value, bound := c.Split.read(&b.objective), c.base.read(&b.objective)
	part := 0.0
	for k := range c.groups {
		if c.groups[k].Cap.Given() {
			part += c.prices[k] * c.rooms[k]
		}
	}
	for i := range c.Picks {
		p := &c.Picks[i]
		a := c.gain(&b.objective, p)
		bound += p.floor * a
		if b.sign == "-" {
			a = -a
		}
		part += p.room * max(a-p.price, 0)
	}
	if b.sign == "-" {
		part = -part
	}
	bound += part
	if gap := bound - value; c.tried > 0 && math.Abs(gap) > slack*max(1, math.Abs(bound)) {
		b.in(given("G", "what broken pieces would gain, which the search has ruled out", gap, calc.DimMass, showKg))
		b.balance("no plan passes the value found, broken pieces aside", value+gap, "V_0 + sum(a_i * c_i) + G", bound, formula)
		return
	}
	b.balance("no plan passes the value found", value, "V_0 + sum(a_i * c_i)", bound, formula)
}
