package check

import (
	"slices"
	"strings"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/derive"
	"berthwright/rules"
	"berthwright/unit"
)

// plated judges one plated limit by its worst case.
func (w *Weight) plated(id string) []Finding {
	l := w.limit(id)
	f := Finding{Case: "worst-" + id, Rule: "plated-limits", Slip: "weight." + id}
	if l == nil {
		f.Missing = w.lacks()
		f.Says = say("limit-unknown", map[string]string{"total": "total", "front": "front axle", "rear": "rear axle"}[id], missingWords(f.Missing))
		return one(f)
	}
	f.Level, f.Sources = levelOf(l.plate.How), []calc.Cite{byPlate, byStatics}
	if r := w.Pack.Find("plated-limits"); len(r) > 0 {
		f.Level, f.Sources = min(f.Level, r[0].Level), []calc.Cite{byPlate, r[0].Cite, byStatics}
	}
	if !l.plate.Known() {
		f.Missing = append(f.Missing, Subject{Path: l.path, Name: "plated " + l.short})
	}
	f.Missing = w.missingFor(f.Missing, l)
	f.Basis = w.basis(l)
	if l.judged < 0 || !l.plate.Known() {
		f.Says = say("limit-unknown", l.short, missingWords(f.Missing))
		return one(f)
	}
	lc := &w.Cases[l.judged]
	f.Case = lc.ID
	f.Subjects = w.heaviest(l.measure, 4)
	v := lc.Worst.Value
	d, ok := w.Doubts[id]
	switch {
	case !ok:
		f.Value, f.Limit = unit.Some(Kg(v)), unit.Some(Kg(l.plate.V))
		f.Says = say("limit-unknown", l.short, missingWords(f.Missing))
		return one(f)
	case len(f.Missing) == 0:
		f = judged(f, l.short, v, l.plate.V, d.Half)
	case v > l.plate.V && w.grows(l.measure):
		m := l.plate.V - v
		f.Value, f.Limit, f.Margin, f.Half = unit.Some(Kg(v)), unit.Some(Kg(l.plate.V)), unit.Some(Kg(m)), unit.Some(Kg(d.Half))
		f.Verdict, f.Says = DoesNotHold, say("at-least-fails", l.short, Kg(v), Kg(l.plate.V), Kg(-m))
	default:
		f.Value, f.Limit = unit.Some(Kg(v)), unit.Some(Kg(l.plate.V))
		f.Says = say("limit-unknown", l.short, missingWords(f.Missing))
		return one(f)
	}
	switch f.Verdict {
	case Tight:
		f.Advice = "weigh what makes up most of the doubt, or take the next step under What clears it"
	case DoesNotHold:
		f.Advice = "see What clears it"
	}
	f.Caution = "the driver answers for the mass on the road: weigh the laden van"
	return one(f)
}

// missingFor lists what is missing for one limit, each input once.
func (w *Weight) missingFor(have []Subject, l *limit) []Subject {
	out := w.openLoads(have, l.id == "total")
	for _, id := range l.missing {
		s := w.named(id)
		if !slices.ContainsFunc(out, func(o Subject) bool { return o.Path == s.Path || strings.HasPrefix(o.Path, s.Path+"/") }) {
			out = append(out, s)
		}
	}
	return out
}

// openLoads lists the inputs of the declared plan and of the sum that are missing; the total needs no place.
func (w *Weight) openLoads(out []Subject, total bool) []Subject {
	for i := range w.In.Lacks {
		if l := &w.In.Lacks[i]; !total || l.Need != derive.NeedPlace {
			out = append(out, Subject{Path: l.Path, Name: l.What})
		}
	}
	if !w.In.Luggage.Known() {
		out = append(out, Subject{Path: w.In.Luggage.Path, Name: luggageLimit})
	}
	if len(w.In.Seats) == 0 {
		out = append(out, Subject{Path: "items", Name: "the seats used when driving"})
	} else if !slices.ContainsFunc(w.In.Seats, func(s derive.Seat) bool { return s.Driver }) {
		out = append(out, Subject{Path: "items", Name: "the driver's seat"})
	}
	return out
}

// open reports whether an input of the plan is missing, so that margins cannot be said.
func (w *Weight) open() bool { return len(w.openLoads(nil, false)) > 0 }

// Unsure reports whether an input of the plan or of the sum is missing, so that no margin can be said to hold.
func (w *Weight) Unsure() bool { return w.open() }

// grows reports whether nothing that is missing could lower what a measure reads, so that the figure is the least it can
// be. What may be aboard need not be; what is fitted adds where its lever is not negative; what would be taken off lowers
// the total; and where a place is missing, or an allowance would shrink by the missing mass, an axle may go either way.
func (w *Weight) grows(m axle.Measure) bool {
	_, anywhere := m.Lever(axle.Place{}, axle.Inside).Get() // the total: the same lever everywhere
	for i := range w.In.Lacks {
		l := &w.In.Lacks[i]
		switch {
		case l.Takes:
			return false
		case anywhere || l.Need == derive.NeedContents:
		case l.Need == derive.NeedMass:
			a, ok := m.Lever(l.At, l.On).Get()
			if !ok || a < 0 || w.allowance(l.Group) {
				return false
			}
		default:
			return false
		}
	}
	return anywhere || slices.ContainsFunc(w.In.Seats, func(s derive.Seat) bool { return s.Driver })
}

// allowance reports whether an allowance stands in for a group.
func (w *Weight) allowance(group string) bool {
	for i := range w.In.Loads {
		if l := &w.In.Loads[i]; l.Allowance && l.Group == group {
			return true
		}
	}
	return false
}

// named finds what an id of a science stands for.
func (w *Weight) named(id string) Subject {
	for i := range w.In.Loads {
		if l := &w.In.Loads[i]; l.ID == id {
			return Subject{Path: l.Ref + "/place", Name: "place along the van of " + l.Name}
		}
	}
	for i := range w.In.Tanks {
		if t := &w.In.Tanks[i]; "in-"+t.ID == id {
			return Subject{Path: t.Path + "/at", Name: "place of the contents of " + t.Name}
		}
	}
	return Subject{Path: "loading", Name: "place of " + id}
}

func missingWords(s []Subject) string {
	if len(s) == 0 {
		return "something is missing"
	}
	names := make([]string, 0, 3)
	for i := 0; i < len(s) && i < 3; i++ {
		names = append(names, s[i].Name)
	}
	t := strings.Join(names, "; ")
	if n := len(s) - 3; n > 0 {
		t += "; and " + count(n, "more", "more")
	}
	return t + " missing"
}

// lackWords says what is missing in few words, for the title: "no place for the fridge and 2 more".
func lackWords(s []Subject) string {
	if len(s) == 0 {
		return "the plate, the ticket or the plan is not complete"
	}
	var out []string
	for _, k := range [...]struct{ head, says string }{{"place along the van of ", "no place for "}, {"mass of ", "no mass for "}} {
		var names []string
		for _, x := range s {
			if n, ok := strings.CutPrefix(x.Name, k.head); ok {
				names = append(names, n)
			}
		}
		switch {
		case len(names) == 1:
			out = append(out, k.says+names[0])
		case len(names) > 1:
			out = append(out, k.says+names[0]+" and "+count(len(names)-1, "more", "more"))
		}
	}
	for _, x := range s {
		switch {
		case strings.HasPrefix(x.Name, "place along the van of ") || strings.HasPrefix(x.Name, "mass of "):
		case x.Name == luggageLimit:
			out = append(out, "say how much luggage in all")
		case len(out) < 3:
			out = append(out, x.Name+" missing")
		}
	}
	return strings.Join(out, "; ")
}

const luggageLimit = "one limit for all luggage"

func levelOf(h derive.How) calc.Evidence {
	switch h {
	case derive.Given, derive.Derived:
		return calc.Seen
	}
	return calc.Unsourced
}

// basis says what the figure of a limit rests on.
func (w *Weight) basis(l *limit) string {
	t := &w.In.Ticket
	var s string
	switch {
	case w.In.Finished != nil:
		s = "the ticket of the finished van leads"
	case t.How() == derive.Assumed:
		s = "assumed empty van of its class, plus what is fitted"
	case t.From == "papers":
		s = "empty van from its papers, plus what is fitted"
	case t.From == "catalogue" || t.From == "guess":
		s = "empty van from a " + t.From + ", plus what is fitted"
	default:
		s = "ticket of the empty van, plus what is fitted"
	}
	if l.plate.How == derive.Assumed {
		s += "; the plate is assumed: " + l.plate.From
	}
	d, ok := w.Doubts[l.id]
	if !ok || l.id == "total" {
		return s
	}
	switch {
	case d.Floor == 0 && !l.exact:
		s += "; no height is known: what one degree of nose-down moves is not in the ±"
	case d.Floor > d.Sum:
		s += "; the ± is what one degree of nose-down moves between the axles"
	}
	if d.Floor > 0 && !l.exact {
		s += ", taken at the mean height of the loads that have one"
	}
	return s
}

// judged fills value, limit, margin and verdict of a limit on a mass.
func judged(f Finding, name string, v, limit, half unit.Mass) Finding {
	m := limit - v
	f.Value, f.Limit, f.Margin, f.Half = unit.Some(Kg(v)), unit.Some(Kg(limit)), unit.Some(Kg(m)), unit.Some(Kg(half))
	f.Verdict = Judge(m.Kilograms(), half.Kilograms())
	switch f.Verdict {
	case DoesNotHold:
		f.Says = say("limit-fails", name, Kg(v), Kg(limit), near(-m, -m, 0), Kg(half))
	case Tight:
		f.Says = say("limit-tight", name, Kg(v), Kg(limit), near(m, m, half), Kg(half))
	case Holds:
		f.Says = say("limit-holds", name, Kg(v), Kg(limit), Kg(m), Kg(half))
	default:
		f.Says = say("limit-unknown", name, "a figure is not a number")
	}
	return f
}

// near returns a mass with one digit more where whole kilograms would hide on which side of a limit it lies.
func near(m, a, b unit.Mass) Figure {
	f := Kg(m)
	if d := (a - b).Kilograms(); d > -0.5 && d < 0.5 || a.Kilograms() < 0.5 {
		f.Digits = 1
	}
	return f
}

// runTyres compares the worst axle loads with what the tyres carry, and the tyres with the plate.
func runTyres(w *Weight, _ *cases) []Finding {
	var out []Finding
	for i, id := range [2]string{"front", "rear"} {
		name := [2]string{"front tyres", "rear tyres"}[i]
		f := Finding{Case: "worst-" + id, Subject: id, Rule: "tyre-capacity", Slip: "weight.tyres"}
		index := w.In.Tyres[i]
		if !index.Known() {
			f.Missing = []Subject{{Path: index.Path, Name: "load index of the " + name}}
			f.Says = say("limit-unknown", name, missingWords(f.Missing))
			out = append(out, f)
			continue
		}
		carry, err := rules.TyreMass(index.V, i == 1 && w.In.Twin)
		row, _ := rules.LoadIndex(index.V)
		if err != nil {
			f.Missing = []Subject{{Path: index.Path, Name: "a load index that is in the table"}}
			f.Says = say("limit-unknown", name, missingWords(f.Missing))
			out = append(out, f)
			continue
		}
		f.Level, f.Sources, f.Basis = row.Level, []calc.Cite{row.Source, byStatics}, "load index as written on the wall"
		if i == 1 && w.In.Twin {
			f.Basis = "second load index on the wall, for twin tyres"
		}
		plate := [2]derive.Val[unit.Mass]{w.In.Van.Plate.Front, w.In.Van.Plate.Rear}[i]
		if plate.Known() && carry < plate.V {
			p := f
			p.Subject, p.Case, p.Verdict = id+"-plate", "plate", DoesNotHold
			p.Value, p.Limit, p.Margin = unit.Some(Kg(carry)), unit.Some(Kg(plate.V)), unit.Some(Kg(carry-plate.V))
			p.Says = say("plate-"+id, Kg(carry), Kg(plate.V))
			p.Subjects = []Subject{{Path: index.Path, Name: "load index of the " + name}}
			p.Advice = "fit tyres whose load index carries the axle plate"
			out = append(out, p)
		}
		l := w.limit(id)
		f.Limit = unit.Some(Kg(carry))
		if l == nil {
			f.Missing = w.lacks()
		} else {
			f.Missing = w.missingFor(nil, l)
		}
		d, ok := w.Doubts[id]
		if l == nil || l.judged < 0 || len(f.Missing) > 0 || !ok {
			f.Says = say("limit-unknown", name, missingWords(f.Missing))
			out = append(out, f)
			continue
		}
		f.Case = w.Cases[l.judged].ID
		out = append(out, judged(f, name, w.Cases[l.judged].Worst.Value, carry, d.Half))
	}
	return out
}

// runPlate checks that the axle plates can carry the plated total.
func runPlate(w *Weight, _ *cases) []Finding {
	p := &w.In.Van.Plate
	f := Finding{Case: "plate", Rule: "axle-sum-least", Level: calc.Seen, Slip: "weight.plate"}
	f.Sources = []calc.Cite{byPlate}
	if r := w.Pack.Stricter("axle-sum-least", "share"); r.Known {
		f.Sources, f.Level = []calc.Cite{r.Rule.Cite, byPlate}, r.Rule.Level
	}
	for _, v := range [...]struct {
		v    derive.Val[unit.Mass]
		name string
	}{{p.Total, "plated total"}, {p.Front, "plated front axle"}, {p.Rear, "plated rear axle"}} {
		if !v.v.Known() {
			f.Missing = append(f.Missing, Subject{Path: v.v.Path, Name: v.name})
		}
	}
	odd := w.oddPlates()
	if len(f.Missing) > 0 {
		f.Says = say("limit-unknown", "plate", missingWords(f.Missing))
		return append(odd, f)
	}
	sum := p.Front.V + p.Rear.V
	m := sum - p.Total.V
	f.Value, f.Limit, f.Margin = unit.Some(Kg(sum)), unit.Some(Kg(p.Total.V)), unit.Some(Kg(m))
	f.Subjects = []Subject{{Path: p.Path, Name: "plate"}}
	if f.Verdict = Judge(m.Kilograms(), 0); f.Verdict == DoesNotHold {
		f.Says = say("plate-sum", Kg(sum), Kg(p.Total.V))
		f.Advice = "read the plate again: the axle limits together are at least the total"
		return append(odd, f)
	}
	f.Says = say("plate-holds", Kg(sum), Kg(p.Total.V))
	return append(odd, f)
}

// oddPlates finds figures of the plate that no van has: an axle limit above the total, or any limit below the empty van.
func (w *Weight) oddPlates() []Finding {
	p, t := &w.In.Van.Plate, &w.In.Ticket
	var out []Finding
	row := func(id, name, code string, v, than derive.Val[unit.Mass], m unit.Mass) {
		out = append(out, Finding{Case: "plate", Subject: id, Rule: "plate-read", Verdict: DoesNotHold, Level: levelOf(v.How), Sources: []calc.Cite{byPlate},
			Value: unit.Some(Kg(v.V)), Limit: unit.Some(Kg(than.V)), Margin: unit.Some(Kg(m)), Says: say(code, name, Kg(v.V), Kg(than.V)),
			Subjects: []Subject{{Path: v.Path, Name: "plated " + name}}, Advice: "read the plate again, or the ticket of the empty van: both cannot be right"})
	}
	for _, a := range [...]struct {
		id, name     string
		plate, empty derive.Val[unit.Mass]
	}{{"front", "front axle", p.Front, t.Front}, {"rear", "rear axle", p.Rear, t.Rear}, {"total", "total", p.Total, t.Total}} {
		if !a.plate.Known() {
			continue
		}
		if a.id != "total" && p.Total.Known() && a.plate.V > p.Total.V {
			row(a.id, a.name, "plate-over", a.plate, p.Total, p.Total.V-a.plate.V)
			out[len(out)-1].Advice = "read the plate again: no axle carries more than the whole van"
		}
		if a.empty.Known() && a.plate.V < a.empty.V {
			row(a.id+"-empty", a.name, "plate-under", a.plate, a.empty, a.plate.V-a.empty.V)
		}
	}
	return out
}
