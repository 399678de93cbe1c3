package check

import (
	"strings"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/rules"
	"berthwright/unit"
)

// Slip is the working behind one figure: closed formulas, and certificates of what was searched.
type Slip struct {
	Key, Title   string
	Workings     []calc.Working
	Certificates []calc.Certificate
}

var (
	showKg = calc.Show{Unit: "kg", Digits: 1}
	showM  = calc.Show{Unit: "m", Digits: 3}
)

// Slip returns the working behind a figure by the id that findings, cases and sentences carry; ok is false for an id that has
// none. It is built only when asked for.
func (w *Weight) Slip(key string) (s Slip, ok bool) {
	s.Key = key
	if id, isCase := strings.CutPrefix(key, "case."); isCase {
		c, ok := w.find(id)
		if !ok {
			return s, false
		}
		s.Title = c.Name
		w.addCase(&s, c)
		return s, true
	}
	if !w.Known {
		return s, key == "weight.plate" && w.hasPlate() && w.fillPlate(&s)
	}
	switch key {
	case "weight.total", "weight.front", "weight.rear":
		return w.limitSlip(s, strings.TrimPrefix(key, "weight."))
	case "weight.sides":
		c, ok := w.find("party")
		if !ok {
			return s, false
		}
		s.Title = "Left and right"
		w.addCase(&s, c)
		return s, true
	case "weight.base":
		s.Title = "The finished van, dry, nobody aboard"
		s.Workings = append(s.Workings, w.Base.Working())
		if w.In.Finished != nil && w.Summed {
			sum := w.Sum.Working()
			sum.ID, sum.Title = "weight.sum", "The same by the sum of parts"
			s.Workings = append(s.Workings, sum)
		}
		return s, true
	case "weight.pay-mass":
		return w.payMassSlip(s)
	case "weight.payload":
		return w.payloadSlip(s)
	case "weight.roof":
		return w.roofSlip(s)
	case "weight.plate":
		return s, w.hasPlate() && w.fillPlate(&s)
	case "weight.occupants":
		return w.occupantsSlip(s)
	case "weight.tyres":
		return w.tyreSlip(s)
	}
	return s, false
}

func (w *Weight) addCase(s *Slip, c *LoadCase) {
	if c.Worst != nil {
		s.Certificates = append(s.Certificates, c.Worst.Certificate())
	}
	s.Workings = append(s.Workings, c.Split.Working())
}

func (w *Weight) limitSlip(s Slip, id string) (Slip, bool) {
	for i := range w.limits {
		l := &w.limits[i]
		if l.id != id || l.judged < 0 {
			continue
		}
		c := &w.Cases[l.judged]
		s.Title = l.name + ": " + c.Says.Text(unit.Metric)
		if l.plate.Known() {
			level := levelOf(l.plate.How)
			s.Workings = append(s.Workings, calc.Working{ID: "weight.margin", Title: "What is in hand", Steps: []calc.Step{
				{Symbol: "v", Says: l.short + " in its worst case", Kind: calc.Given, SI: c.Worst.Value.Kilograms(), Dim: calc.DimMass, Show: showKg, Ref: "case." + c.ID},
				{Symbol: "P", Says: "plated " + l.short, Kind: calc.Limit, SI: l.plate.V.Kilograms(), Dim: calc.DimMass, Show: showKg, Ref: l.path, Source: []calc.Cite{byPlate}, Level: level},
				{Symbol: "d", Says: "in hand", Kind: calc.Derived, Formula: "P - v", SI: (l.plate.V - c.Worst.Value).Kilograms(), Dim: calc.DimMass, Show: showKg},
			}})
		}
		w.addCase(&s, c)
		if d, ok := w.Doubts[id]; ok {
			work := d.Working()
			if l.plate.Known() {
				if p, ok := axle.Probability(l.plate.V-c.Worst.Value, d.Half).Get(); ok {
					work.Notes = append(work.Notes, "If errors are normal, the margin is not below nought with a probability of "+unit.FormatSI(unit.KindRatio, p.Share(), unit.Metric, 0)+"; the verdict does not use it.")
				}
			}
			s.Workings = append(s.Workings, work)
			if down, ok := c.Split.NoseDownWorking(unit.Degree); ok && d.Floor > 0 {
				s.Workings = append(s.Workings, down)
			}
		}
		return s, true
	}
	return s, false
}

func (w *Weight) payMassSlip(s Slip) (Slip, bool) {
	c := w.plan
	lc, ok := w.find("ro-approval")
	pay, n, okPay := c.payMass()
	plate := w.In.Van.Plate.Total
	if !ok || !okPay || !plate.Known() {
		return s, false
	}
	rule := w.Pack.Stricter("pay-mass-least", "per-person")
	metre := w.Pack.Stricter("pay-mass-least", "per-metre")
	left := plate.V - lc.Split.Total - c.person.Times(float64(n-1))
	s.Title = "Least pay-mass"
	person, _ := w.Pack.Stricter("person-mass", "mass").Rule.Step("p", "mass")
	a, _ := rule.Rule.Step("a", "per-person")
	b, _ := metre.Rule.Step("b", "per-metre")
	person.Show, a.Show = showKg, showKg
	s.Workings = append(s.Workings, calc.Working{ID: "weight.pay-mass", Title: s.Title, Steps: []calc.Step{
		{Symbol: "P", Says: "plated total", Kind: calc.Limit, SI: plate.V.Kilograms(), Dim: calc.DimMass, Show: showKg, Ref: plate.Path, Source: []calc.Cite{byPlate}, Level: levelOf(plate.How)},
		{Symbol: "W_o", Says: "mass in running order, " + lc.Basis, Kind: calc.Given, SI: lc.Split.Total.Kilograms(), Dim: calc.DimMass, Show: showKg, Ref: "case.ro-approval"},
		{Symbol: "n", Says: "seats used when driving, driver's included", Kind: calc.Given, SI: float64(n), Show: calc.Show{}},
		person,
		{Symbol: "W_p", Says: "left after everybody's mass", Kind: calc.Derived, Formula: "P - W_o - (n - 1) * p", SI: left.Kilograms(), Dim: calc.DimMass, Show: showKg},
		a, b,
		{Symbol: "L", Says: "overall length", Kind: calc.Given, SI: w.In.Van.Length.V.Metres(), Dim: calc.DimLength, Show: showM, Ref: w.In.Van.Length.Path},
		{Symbol: "M", Says: "least pay-mass", Kind: calc.Derived, Formula: "a * n + b * L", SI: pay.Kilograms(), Dim: calc.DimMass, Show: showKg},
		{Symbol: "d", Says: "in hand", Kind: calc.Derived, Formula: "W_p - M", SI: (left - pay).Kilograms(), Dim: calc.DimMass, Show: showKg},
	}}, lc.Split.Working())
	return s, true
}

// payloadSlip shows what is left with everybody aboard and water full.
func (w *Weight) payloadSlip(s Slip) (Slip, bool) {
	if !w.Left.Known {
		return s, false
	}
	split, err := w.Base.With(w.laden(w.planSeats(), waterFull))
	if err != nil {
		return s, false
	}
	s.Title = "Left for luggage with everybody aboard and water full"
	work := calc.Working{ID: "weight.payload", Title: s.Title, Notes: []string{
		"Luggage lies over the zones behind the bulkhead line in proportion to their limits; the limit reached first ends it.",
		"Beside it: " + w.LadenWords(unit.Metric) + "."}}
	all := ""
	for i := range w.limits {
		l := &w.limits[i]
		v, _ := split.Read(l.measure).Get()
		lever := w.luggageLever(l.measure).Else(0).Share()
		k := l.id[:1]
		if !(lever > 0) {
			work.Notes = append(work.Notes, "Luggage does not load the "+l.short+".")
			continue
		}
		work.Steps = append(work.Steps,
			calc.Step{Symbol: "P_" + k, Says: "plated " + l.short, Kind: calc.Limit, SI: l.plate.V.Kilograms(), Dim: calc.DimMass, Show: showKg, Ref: l.path, Source: []calc.Cite{byPlate}, Level: levelOf(l.plate.How)},
			calc.Step{Symbol: "v_" + k, Says: l.short + " without luggage", Kind: calc.Given, SI: v.Kilograms(), Dim: calc.DimMass, Show: showKg},
			calc.Step{Symbol: "a_" + k, Says: "what a kilogram of luggage adds to it", Kind: calc.Given, SI: lever, Show: calc.Show{Digits: 3}},
			calc.Step{Symbol: "L_" + k, Says: "left as far as the " + l.short + " goes", Kind: calc.Derived, Formula: "(P_" + k + " - v_" + k + ") / a_" + k, SI: (l.plate.V - v).Times(1 / lever).Kilograms(), Dim: calc.DimMass, Show: showKg})
		all = strings.TrimPrefix(all+", L_"+k, ", ")
	}
	if strings.Contains(all, ",") {
		all = "min(" + all + ")"
	}
	work.Steps = append(work.Steps, calc.Step{Symbol: "L", Says: "left for luggage", Kind: calc.Derived, Formula: all, SI: w.Left.Left.Kilograms(), Dim: calc.DimMass, Show: showKg})
	s.Workings = append(s.Workings, work, split.Working())
	return s, true
}

func (w *Weight) roofSlip(s Slip) (Slip, bool) {
	s.Title = "What is on the roof"
	m := calc.Step{Symbol: "m_i", Says: "everything on the roof", Kind: calc.Given, Dim: calc.DimMass, Show: showKg}
	sum := unit.Mass(0)
	for _, r := range w.onRoof() {
		m.Each, m.Rows = append(m.Each, r.mass.Kilograms()), append(m.Rows, calc.Row{Label: r.name, Ref: r.ref})
		sum += r.mass
	}
	if len(m.Each) == 0 {
		return s, false
	}
	work := calc.Working{ID: "weight.roof", Title: s.Title, Steps: []calc.Step{m,
		{Symbol: "W_roof", Says: "together", Kind: calc.Derived, Formula: "sum(m_i)", SI: sum.Kilograms(), Dim: calc.DimMass, Show: showKg}}}
	if w.In.Roof.Known() {
		work.Steps = append(work.Steps,
			calc.Step{Symbol: "P", Says: "roof limit, from the base maker's papers", Kind: calc.Limit, SI: w.In.Roof.V.Kilograms(), Dim: calc.DimMass, Show: showKg, Ref: w.In.Roof.Path, Source: []calc.Cite{{Key: "body-builder", At: "roof load"}}, Level: calc.Seen},
			calc.Step{Symbol: "d", Says: "in hand", Kind: calc.Derived, Formula: "P - W_roof", SI: (w.In.Roof.V - sum).Kilograms(), Dim: calc.DimMass, Show: showKg})
	}
	s.Workings = append(s.Workings, work)
	return s, true
}

// hasPlate reports whether the plate is complete.
func (w *Weight) hasPlate() bool {
	p := &w.In.Van.Plate
	return p.Total.Known() && p.Front.Known() && p.Rear.Known()
}

// fillPlate shows the plate in itself.
func (w *Weight) fillPlate(s *Slip) bool {
	p := &w.In.Van.Plate
	s.Title = "The plate in itself"
	row := func(symbol, says string, kg unit.Mass, path string) calc.Step {
		return calc.Step{Symbol: symbol, Says: says, Kind: calc.Limit, SI: kg.Kilograms(), Dim: calc.DimMass, Show: showKg, Ref: path, Source: []calc.Cite{byPlate}, Level: calc.Seen}
	}
	s.Workings = append(s.Workings, calc.Working{ID: "weight.plate", Title: s.Title, Steps: []calc.Step{
		row("P_f", "plated front axle", p.Front.V, p.Front.Path), row("P_r", "plated rear axle", p.Rear.V, p.Rear.Path), row("P", "plated total", p.Total.V, p.Total.Path),
		{Symbol: "d", Says: "axle plates together above the total", Kind: calc.Derived, Formula: "P_f + P_r - P", SI: (p.Front.V + p.Rear.V - p.Total.V).Kilograms(), Dim: calc.DimMass, Show: showKg},
	}})
	return true
}

// occupantsSlip shows the occupant and cargo capacity.
func (w *Weight) occupantsSlip(s Slip) (Slip, bool) {
	lc, ok := w.find("unloaded")
	rule := w.Pack.Stricter("belted-capacity-least", "per-seat")
	plate := w.In.Van.Plate.Total
	if !ok || !rule.Known || !plate.Known() {
		return s, false
	}
	n, _ := w.belted()
	s.Title = "Occupant and cargo capacity"
	each, _ := rule.Rule.Step("q", "per-seat")
	each.Show = showKg
	capacity, want := (plate.V - lc.Split.Total).Kilograms(), float64(n)*rule.Value.SI
	s.Workings = append(s.Workings, calc.Working{ID: "weight.occupants", Title: s.Title, Steps: []calc.Step{
		{Symbol: "P", Says: "rated total", Kind: calc.Limit, SI: plate.V.Kilograms(), Dim: calc.DimMass, Show: showKg, Ref: plate.Path, Source: []calc.Cite{byPlate}, Level: levelOf(plate.How)},
		{Symbol: "W_u", Says: "finished van, nobody aboard, fuel and gas full", Kind: calc.Given, SI: lc.Split.Total.Kilograms(), Dim: calc.DimMass, Show: showKg, Ref: "case.unloaded"},
		{Symbol: "C", Says: "occupant and cargo capacity", Kind: calc.Derived, Formula: "P - W_u", SI: capacity, Dim: calc.DimMass, Show: showKg},
		{Symbol: "n", Says: "belted seats", Kind: calc.Given, SI: float64(n)},
		each,
		{Symbol: "Q", Says: "what they count together", Kind: calc.Derived, Formula: "n * q", SI: want, Dim: calc.DimMass, Show: showKg},
		{Symbol: "d", Says: "in hand", Kind: calc.Derived, Formula: "C - Q", SI: capacity - want, Dim: calc.DimMass, Show: showKg},
	}, Notes: []string{"Water and all that is carried count as cargo."}}, lc.Split.Working())
	return s, true
}

// slips reports whether a slip of that id can be made, without making it.
func (w *Weight) slips(key string) bool {
	if id, isCase := strings.CutPrefix(key, "case."); isCase {
		_, ok := w.find(id)
		return ok
	}
	switch key {
	case "weight.plate":
		return w.hasPlate()
	case "weight.total", "weight.front", "weight.rear":
		l := w.limit(strings.TrimPrefix(key, "weight."))
		return l != nil && l.judged >= 0
	case "weight.sides":
		_, ok := w.find("party")
		return ok
	case "weight.pay-mass":
		_, ok := w.find("ro-approval")
		_, _, pay := w.plan.payMass()
		return ok && pay && w.In.Van.Plate.Total.Known()
	case "weight.occupants":
		_, ok := w.find("unloaded")
		return ok && w.In.Van.Plate.Total.Known()
	case "weight.roof":
		return w.Known && len(w.onRoof()) > 0
	case "weight.tyres":
		_, front := rules.LoadIndex(w.In.Tyres[0].V)
		_, rear := rules.LoadIndex(w.In.Tyres[1].V)
		return w.Known && (w.In.Tyres[0].Known() && front == nil || w.In.Tyres[1].Known() && rear == nil)
	case "weight.base":
		return w.Known
	}
	return false
}

func (w *Weight) tyreSlip(s Slip) (Slip, bool) {
	s.Title = "What the tyres carry"
	work := calc.Working{ID: "weight.tyres", Title: s.Title}
	for i, id := range [2]string{"front", "rear"} {
		index := w.In.Tyres[i]
		row, err := rules.LoadIndex(index.V)
		if !index.Known() || err != nil {
			continue
		}
		k, n := id[:1], 2.0
		if i == 1 && w.In.Twin {
			n = 4
		}
		work.Steps = append(work.Steps,
			calc.Step{Symbol: "T_" + k, Says: row.Says, Kind: calc.Constant, SI: row.SI, Dim: row.Dim, Show: row.Show, Source: []calc.Cite{row.Source}, Level: row.Level, Ref: index.Path},
			calc.Step{Symbol: "n_" + k, Says: "tyres on the " + id + " axle", Kind: calc.Given, SI: n, Show: calc.Show{}},
			calc.Step{Symbol: "C_" + k, Says: "the " + id + " tyres carry", Kind: calc.Derived, Formula: "n_" + k + " * T_" + k, SI: n * row.SI, Dim: calc.DimMass, Show: showKg})
		for k := range w.limits {
			if l := &w.limits[k]; l.id == id && l.judged >= 0 {
				v := w.Cases[l.judged].Worst.Value
				work.Steps = append(work.Steps,
					calc.Step{Symbol: "v_" + id[:1], Says: l.short + " in its worst case", Kind: calc.Given, SI: v.Kilograms(), Dim: calc.DimMass, Show: showKg, Ref: "case." + w.Cases[l.judged].ID},
					calc.Step{Symbol: "d_" + id[:1], Says: "in hand on the " + id + " tyres", Kind: calc.Derived, Formula: "C_" + id[:1] + " - v_" + id[:1], SI: n*row.SI - v.Kilograms(), Dim: calc.DimMass, Show: showKg})
			}
		}
	}
	s.Workings = append(s.Workings, work)
	return s, len(work.Steps) > 0
}
