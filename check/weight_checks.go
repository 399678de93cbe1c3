package check

import (
	"math"
	"strings"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/derive"
	"berthwright/rules"
	"berthwright/unit"
)

// weightCheck is one row of the weight concern.
type weightCheck struct {
	ID, Title     string
	Limit, Method calc.Cite
	run           func(*Weight, *cases) []Finding
}

var (
	byPlate    = calc.Cite{Key: "plate", At: "statutory plate of the van"}
	byStatics  = calc.Cite{Key: "statics", At: "moments about the front axle"}
	byPractice = calc.Cite{Key: "practice"}
)

// weightChecks lists the checks of the concern in the order they are run.
var weightChecks = []weightCheck{
	{"rules", "Rules", byPractice, byPractice, runRules},
	{"mass-missing", "Masses and places", byPractice, byStatics, runMissing},
	{"weight-total", "Total mass", byPlate, byStatics, func(w *Weight, c *cases) []Finding { return w.plated(c, "total") }},
	{"axle-front", "Front axle load", byPlate, byStatics, func(w *Weight, c *cases) []Finding { return w.plated(c, "front") }},
	{"axle-rear", "Rear axle load", byPlate, byStatics, func(w *Weight, c *cases) []Finding { return w.plated(c, "rear") }},
	{"tyres", "Tyres", calc.Cite{Key: "iso-4000-1", At: "load index"}, byStatics, runTyres},
	{"plate-sum", "Plate", byPlate, byPlate, runPlate},
	{"front-share", "Front-axle share", calc.Cite{Key: "eu-1230-2012", At: "annex I, part A"}, byStatics, runFrontShare},
	{"sides", "Left and right", calc.Cite{Key: "body-builder"}, calc.Cite{Key: "statics", At: "moments about the centre line"}, runSides},
	{"roof-load", "Roof load", calc.Cite{Key: "body-builder", At: "roof load"}, calc.Cite{Key: "statics", At: "sum of masses"}, runRoof},
	{"nose", "Nose weight and train", byPlate, byStatics, runTow},
	{"luggage", "Luggage declared", byPractice, byStatics, runLuggage},
	{"pay-mass", "Least pay-mass", calc.Cite{Key: "eu-1230-2012", At: "annex I, A 2.6.4.1.2"}, byStatics, runPayMass},
	{"overload", "Brim-full", byPlate, byStatics, runOverload},
	{"ticket", "Empty ticket", byPractice, byStatics, runTicket},
	{"counted-twice", "Counted twice", byPractice, byStatics, runDoubles},
	{"licence", "Driving licence", calc.Cite{Key: "uk-licensing-guidance"}, byPlate, runLicence},
	{"unladen-speed", "Unladen mass and speed", calc.Cite{Key: "uk-rtra-1984", At: "schedule 6"}, byStatics, runUnladen},
	{"belts", "Belted seats", byPractice, byPractice, runBelts},
	{"seating", "Who sits where", byPractice, byPractice, runSeating},
	{"promise", "Promises", calc.Cite{Key: "practice", At: "what was said to the customer"}, byStatics, runPromises},
	{"survey", "Survey", calc.Cite{Key: "practice", At: "nine tapes"}, byStatics, runSurvey},
}

func one(f Finding) []Finding { return []Finding{f} }

// plated judges one plated limit by its worst case.
func (w *Weight) plated(c *cases, id string) []Finding {
	var l *limit
	for i := range w.limits {
		if w.limits[i].id == id {
			l = &w.limits[i]
		}
	}
	name := map[string]string{"total": "total", "front": "front axle", "rear": "rear axle"}[id]
	f := Finding{Case: "worst-" + id, Rule: "plated-limits", Slip: "weight." + id}
	if l == nil {
		f.Missing = w.lacks()
		f.Says = say("limit-unknown", name, missingWords(f.Missing))
		return one(f)
	}
	f.Level = levelOf(l.plate.How)
	if !l.plate.Known() {
		f.Missing = append(f.Missing, Subject{Path: l.path, Name: "plated " + l.short})
	}
	if l.judged >= 0 {
		lc := w.Cases[l.judged]
		f.Case = lc.ID
		v := lc.Worst.Value
		f.Value = unit.Some(Kg(v))
		f.Subjects = w.heaviest(l.measure, 4)
		d, ok := w.Doubts[id]
		if l.plate.Known() {
			margin := l.plate.V - v
			f.Limit, f.Margin = unit.Some(Kg(l.plate.V)), unit.Some(Kg(margin))
			if ok {
				f.Half = unit.Some(Kg(d.Half))
				f.Verdict = Judge(margin.Kilograms(), d.Half.Kilograms())
			}
		}
	} else {
		for _, id := range l.missing {
			f.Missing = append(f.Missing, w.named(id))
		}
	}
	f.Basis = w.basis()
	f.Missing = append(f.Missing, w.openLoads(id)...)
	if len(f.Missing) > 0 {
		m, known := f.Margin.Get()
		if known && m.SI < 0 && w.onlyAdds(id) {
			v, _ := f.Value.Get()
			lim, _ := f.Limit.Get()
			f.Verdict = DoesNotHold
			f.Says = say("at-least-fails", l.short, v, lim, Figure{m.Kind, -m.SI, 0})
			return one(f)
		}
		f.Verdict = Unknown
		f.Says = say("limit-unknown", l.short, missingWords(f.Missing))
		return one(f)
	}
	v, _ := f.Value.Get()
	lim, _ := f.Limit.Get()
	m, _ := f.Margin.Get()
	h, _ := f.Half.Get()
	switch f.Verdict {
	case Holds:
		f.Says = say("limit-holds", l.short, v, lim, m, h)
	case Tight:
		f.Says = say("limit-tight", l.short, v, lim, m, h)
		f.Advice = "weigh what makes up most of the doubt, or take the next step under What clears it"
	case DoesNotHold:
		f.Says = say("limit-fails", l.short, v, lim, Figure{m.Kind, -m.SI, 0}, h)
		f.Advice = "see What clears it"
	}
	f.Caution = "the driver answers for the mass on the road: weigh the laden van"
	return one(f)
}

// openLoads lists the inputs of the declared plan and of the sum that are missing for one limit.
func (w *Weight) openLoads(id string) []Subject {
	var out []Subject
	for _, l := range w.In.Lacks {
		if id == "total" && strings.HasPrefix(l.What, "place") {
			continue
		}
		out = append(out, Subject{Path: l.Path, Name: l.What})
	}
	if !w.In.Luggage.Known() {
		out = append(out, Subject{Path: w.In.Luggage.Path, Name: "one limit for all luggage"})
	}
	if len(w.In.Seats) == 0 {
		out = append(out, Subject{Path: "items", Name: "the seats used when driving"})
	}
	return out
}

// onlyAdds reports whether what is missing can only add to a measure: masses are never negative, and every place is
// between the axles for both of them.
func (w *Weight) onlyAdds(id string) bool {
	return id == "total" || !w.noMass()
}

// named finds what an id of a science stands for.
func (w *Weight) named(id string) Subject {
	for i := range w.In.Loads {
		if w.In.Loads[i].ID == id {
			return Subject{Path: w.In.Loads[i].Ref + "/place", Name: "place of " + w.In.Loads[i].Name}
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

func levelOf(h derive.How) calc.Evidence {
	switch h {
	case derive.Given:
		return calc.Seen
	case derive.Derived:
		return calc.Seen
	}
	return calc.Unsourced
}

func (w *Weight) basis() string {
	t := w.In.Ticket
	switch {
	case w.In.Finished != nil:
		return "the ticket of the finished van leads"
	case t.How() == derive.Assumed:
		return "assumed empty van of its class, plus what is fitted"
	case t.From == "papers":
		return "empty van from its papers, plus what is fitted"
	}
	return "ticket of the empty van, plus what is fitted"
}

// runMissing names items without mass or place.
func runMissing(w *Weight, _ *cases) []Finding {
	var out []Finding
	for _, kind := range [2]string{"mass", "place"} {
		f := Finding{Case: kind, Subject: kind}
		for _, l := range w.In.Lacks {
			if strings.HasPrefix(l.What, kind) {
				f.Missing = append(f.Missing, Subject{Path: l.Path, Name: l.What})
			}
		}
		if len(f.Missing) == 0 {
			continue
		}
		f.Subjects = f.Missing
		names := make([]string, len(f.Missing))
		for i, s := range f.Missing {
			_, names[i], _ = strings.Cut(s.Name, " of ")
		}
		if len(names) > 4 {
			names = append(names[:4], count(len(f.Missing)-4, "more", "more"))
		}
		f.Says = say(kind+"-missing", strings.Join(names, "; "))
		f.Advice = map[string]string{"mass": "weigh it, read its data sheet, or write a guess with its ±", "place": "tape it from a line you can see, or pick a zone"}[kind]
		out = append(out, f)
	}
	return out
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
		f.Level, f.Sources = row.Level, []calc.Cite{row.Source, byStatics}
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
		var l *limit
		for k := range w.limits {
			if w.limits[k].id == id {
				l = &w.limits[k]
			}
		}
		f.Missing = w.openLoads(id)
		f.Limit = unit.Some(Kg(carry))
		if l == nil || l.judged < 0 || len(f.Missing) > 0 {
			if l == nil {
				f.Missing = append(f.Missing, w.lacks()...)
			}
			f.Says = say("limit-unknown", name, missingWords(f.Missing))
			out = append(out, f)
			continue
		}
		v := w.Cases[l.judged].Worst.Value
		f.Case = w.Cases[l.judged].ID
		out = append(out, judged(f, name, v, carry, w.Doubts[id].Half))
	}
	return out
}

// judged fills value, limit, margin and verdict of a limit on a mass.
func judged(f Finding, name string, v, limit, half unit.Mass) Finding {
	m := limit - v
	f.Value, f.Limit, f.Margin, f.Half = unit.Some(Kg(v)), unit.Some(Kg(limit)), unit.Some(Kg(m)), unit.Some(Kg(half))
	f.Verdict = Judge(m.Kilograms(), half.Kilograms())
	switch f.Verdict {
	case DoesNotHold:
		f.Says = say("limit-fails", name, Kg(v), Kg(limit), Kg(-m), Kg(half))
	case Tight:
		f.Says = say("limit-tight", name, Kg(v), Kg(limit), Kg(m), Kg(half))
	case Holds:
		f.Says = say("limit-holds", name, Kg(v), Kg(limit), Kg(m), Kg(half))
	}
	return f
}

// runPlate checks that the axle plates can carry the plated total.
func runPlate(w *Weight, _ *cases) []Finding {
	p := w.In.Van.Plate
	f := Finding{Case: "plate", Rule: "axle-sum-least", Level: calc.Seen, Slip: "weight.plate"}
	for _, v := range []struct {
		v    derive.Val[unit.Mass]
		name string
	}{{p.Total, "plated total"}, {p.Front, "plated front axle"}, {p.Rear, "plated rear axle"}} {
		if !v.v.Known() {
			f.Missing = append(f.Missing, Subject{Path: v.v.Path, Name: v.name})
		}
	}
	if len(f.Missing) > 0 {
		f.Says = say("limit-unknown", "plate", missingWords(f.Missing))
		return one(f)
	}
	sum := p.Front.V + p.Rear.V
	m := sum - p.Total.V
	f.Value, f.Limit, f.Margin = unit.Some(Kg(sum)), unit.Some(Kg(p.Total.V)), unit.Some(Kg(m))
	f.Subjects = []Subject{{Path: p.Path, Name: "plate"}}
	if f.Verdict = Judge(m.Kilograms(), 0); f.Verdict == DoesNotHold {
		f.Says = say("plate-sum", Kg(sum), Kg(p.Total.V))
		f.Advice = "read the plate again: the axle limits together are at least the total"
		return one(f)
	}
	f.Says = say("limit-holds", "sum of the axle plates less the total", Kg(sum), Kg(p.Total.V), Kg(m), Kg(0))
	return one(f)
}

// runFrontShare finds the lowest front-axle share the declared plan can reach.
func runFrontShare(w *Weight, c *cases) []Finding {
	f := Finding{Case: "least-front-share", Rule: "front-share-least", Slip: "weight.front-share"}
	coupled := "laden"
	if w.In.Tow.Nose.V > 0 {
		coupled = "coupled"
	}
	rule := w.Pack.Stricter("front-share-least", coupled)
	want := unit.Ratio(rule.Value.SI)
	if !rule.Known {
		return nil
	}
	f.Level, f.Sources = rule.Rule.Level, []calc.Cite{rule.Rule.Cite, byStatics}
	f.Missing = append(w.openLoads("front"), w.Why...)
	if !w.Known || len(f.Missing) > 0 {
		f.Says = say("limit-unknown", "front-axle share", missingWords(f.Missing))
		return one(f)
	}
	least, err := axle.WorstShare(w.Base, c.plan(axle.RefilledWithoutEmptying), w.Geometry.Front(), axle.Total(), axle.Least)
	if err != nil {
		f.Missing = append(f.Missing, Subject{Path: "items", Name: err.Error()})
		f.Says = say("limit-unknown", "front-axle share", missingWords(f.Missing))
		return one(f)
	}
	c.list = append(c.list, LoadCase{ID: "least-front-share", Name: "Lowest front-axle share", Split: least.Split, Worst: &least,
		Says: "the declared plan with the lowest share on the front axle, fresh refilled without emptying the waste"})
	w.Cases = c.list
	share := least.Share.Else(0)
	half := unit.Mass(0)
	floor := least.Split.NoseDown(unit.Degree).Else(0)
	if d, err := axle.Spread(least.Split.Loads(), w.shared, w.Geometry.Front().Plus(-want.Share(), axle.Total(), "front share"), floor); err == nil {
		half = d.Half
	}
	total := least.Split.Total
	lacks := want.Of(total) - least.Value // kg on the front axle
	pc := func(r unit.Ratio) Figure { return Figure{Kind: unit.KindRatio, SI: r.Share(), Digits: 1} }
	f.Value, f.Limit, f.Margin = unit.Some(pc(share)), unit.Some(pc(want)), unit.Some(pc(unit.Ratio(share.Share()-want.Share())))
	f.Half = unit.Some(pc(half.Per(total)))
	if f.Verdict = Judge(-lacks.Kilograms(), half.Kilograms()); f.Verdict == DoesNotHold {
		f.Says = say("share-fails", pc(share), pc(want), Kg(lacks))
		f.Advice = "move mass forward; the least the front axle must carry keeps steering and brakes working"
		return one(f)
	}
	f.Says = say("share-holds", pc(share), pc(want))
	return one(f)
}

// runSides says how far the sides differ; an advice, never a limit.
func runSides(w *Weight, _ *cases) []Finding {
	f := Finding{Advisory: true, Rule: "side-difference", Case: "party", Slip: "weight.sides"}
	lc, ok := w.find("party")
	if !ok {
		return nil
	}
	l, lok := lc.Split.Left.Get()
	r, rok := lc.Split.Right.Get()
	if !lok || !rok {
		f.Missing = []Subject{{Path: "van/track", Name: "tracks, or the side of an item"}}
		f.Says = say("limit-unknown", "left and right", missingWords(f.Missing))
		return one(f)
	}
	want := w.Pack.Stricter("side-difference", "share")
	if !want.Known {
		return nil
	}
	side, more := "left", l-r
	if more < 0 {
		side, more = "right", -more
	}
	diff := more.Per(l + r)
	share := max(l, r).Per(l + r)
	pc := func(r unit.Ratio) Figure { return Figure{Kind: unit.KindRatio, SI: r.Share(), Digits: 1} }
	f.Level = want.Rule.Level
	f.Value, f.Limit, f.Margin = unit.Some(pc(diff)), unit.Some(pc(unit.Ratio(want.Value.SI))), unit.Some(pc(unit.Ratio(want.Value.SI-diff.Share())))
	f.Verdict = Judge(want.Value.SI-diff.Share(), 0)
	f.Says = say("side", pc(share), side, Kg(more), pc(unit.Ratio(want.Value.SI)))
	f.Sources = []calc.Cite{want.Rule.Cite, {Key: "statics", At: "moments about the centre line"}}
	return one(f)
}

// find returns a named case.
func (w *Weight) find(id string) (LoadCase, bool) {
	for _, c := range w.Cases {
		if c.ID == id {
			return c, true
		}
	}
	return LoadCase{}, false
}

// runRoof adds up what is on the roof with everything declared for it.
func runRoof(w *Weight, _ *cases) []Finding {
	sum, half := unit.Mass(0), 0.0
	var on []Subject
	for i := range w.In.Loads {
		l := &w.In.Loads[i]
		if l.On == axle.Roof {
			sum += l.Mass
			half += l.Half.Kilograms() * l.Half.Kilograms()
			on = append(on, subject(l.Load))
		}
	}
	for _, k := range w.In.Carried {
		if k.On == axle.Roof {
			sum += k.Each.V.Times(float64(k.UpTo))
			on = append(on, Subject{Path: k.Path, Name: k.Name})
		}
	}
	for _, z := range w.In.Zones {
		if z.On == axle.Roof {
			sum += z.Limit.V
			on = append(on, Subject{Path: z.Path, Name: z.Name})
		}
	}
	if len(on) == 0 {
		return nil
	}
	f := Finding{Case: "roof-full", Rule: "roof-load", Level: calc.Seen, Subjects: on, Slip: "weight.roof", Basis: "everything marked as carried on the roof",
		Caution: "the base maker's own roof limit and fixing instruction decide; nothing here computes a fixing or a roof"}
	f.Value = unit.Some(Kg(sum))
	if !w.In.Roof.Known() {
		f.Missing = []Subject{{Path: w.In.Roof.Path, Name: "roof load limit"}}
		f.Says = say("limit-no-limit", "roof", Kg(sum))
		return one(f)
	}
	return one(judged(f, "roof", sum, w.In.Roof.V, unit.Kilogram.Times(math.Sqrt(half))))
}

// runTow judges nose weight, trailer and train.
func runTow(w *Weight, _ *cases) []Finding {
	t := w.In.Tow
	if !t.Nose.Known() && !t.Trailer.Known() {
		return nil
	}
	var out []Finding
	row := func(subject, name string, v, limit derive.Val[unit.Mass], half unit.Mass) {
		if !v.Known() {
			return
		}
		f := Finding{Case: "towing", Subject: subject, Rule: subject, Level: calc.Seen, Subjects: []Subject{{Path: v.Path, Name: name}}}
		f.Value = unit.Some(Kg(v.V))
		if !limit.Known() {
			f.Missing = []Subject{{Path: limit.Path, Name: name + " limit"}}
			f.Says = say("limit-no-limit", name, Kg(v.V))
			out = append(out, f)
			return
		}
		out = append(out, judged(f, name, v.V, limit.V, half))
	}
	row("nose-weight", "nose weight", t.Nose, t.NoseLimit, 0)
	row("trailer", "trailer", t.Trailer, t.TowLimit, 0)
	for _, l := range w.limits {
		if l.id == "total" && l.judged >= 0 && t.Trailer.Known() {
			// The nose weight rests on the van and is part of the trailer: it is counted once.
			train := w.Cases[l.judged].Worst.Value + t.Trailer.V - t.Nose.V
			v := derive.Val[unit.Mass]{V: train, How: derive.Derived, Path: t.Trailer.Path}
			row("train", "train", v, w.In.Van.Plate.Train, w.Doubts["total"].Half)
		}
	}
	return out
}

// runLuggage says that payload is unknown while no luggage is declared.
func runLuggage(w *Weight, _ *cases) []Finding {
	if w.In.Luggage.Known() {
		return nil
	}
	f := Finding{Case: "plan", Says: say("no-luggage"), Missing: []Subject{{Path: w.In.Luggage.Path, Name: "one limit for all luggage"}}, Rule: "loading-plan"}
	f.Advice = "declare the luggage zones with their limits, and one limit for all luggage together"
	return one(f)
}

// runPayMass compares what is left after everybody's 75 kg with the least pay-mass.
func runPayMass(w *Weight, c *cases) []Finding {
	lc, ok := w.find("ro-approval")
	pay, n, okPay := c.payMass()
	f := Finding{Case: "approval", Rule: "pay-mass-least", Slip: "weight.pay-mass"}
	rule := w.Pack.Find("pay-mass-least")
	if len(rule) == 0 {
		return nil
	}
	f.Level, f.Sources = rule[0].Level, []calc.Cite{rule[0].Cite, byStatics}
	if !ok || !okPay || !w.In.Van.Plate.Total.Known() || w.noMass() {
		f.Missing = w.lacks()
		if !w.In.Van.Length.Known() {
			f.Missing = append(f.Missing, Subject{Path: w.In.Van.Length.Path, Name: "overall length"})
		}
		if !w.In.Van.Plate.Total.Known() {
			f.Missing = append(f.Missing, Subject{Path: w.In.Van.Plate.Total.Path, Name: "plated total"})
		}
		f.Says = say("limit-unknown", "least pay-mass", missingWords(f.Missing))
		return one(f)
	}
	left := w.In.Van.Plate.Total.V - lc.Split.Total - (75 * unit.Kilogram).Times(float64(n-1))
	half := unit.Mass(0)
	if d, err := axle.Spread(lc.Split.Loads(), w.shared, axle.Total(), 0); err == nil {
		half = d.Half
	}
	m := left - pay
	f.Value, f.Limit, f.Margin, f.Half = unit.Some(Kg(left)), unit.Some(Kg(pay)), unit.Some(Kg(m)), unit.Some(Kg(half))
	if f.Verdict = Judge(m.Kilograms(), half.Kilograms()); f.Verdict == DoesNotHold {
		f.Says = say("paymass-fails", Kg(left), Kg(pay))
		return one(f)
	}
	f.Says = say("paymass-holds", Kg(left), Kg(pay))
	return one(f)
}

// runOverload says how far the van can be overloaded with everything that could be stuffed in; a figure, never a verdict.
func runOverload(w *Weight, c *cases) []Finding {
	if !w.Known || !w.In.Van.Plate.Total.Known() || w.noMass() {
		return nil
	}
	groups := c.plan(axle.RefilledWithoutEmptying)
	for i := range groups {
		groups[i].Cap = unit.Opt[unit.Mass]{}
	}
	k, err := c.worst("brim", "Brim-full", axle.Total(), axle.Most, axle.RefilledWithoutEmptying, groups)
	if err != nil {
		return nil
	}
	c.list[k].Says = "every tank, seat and luggage zone full, whatever the plan allows"
	w.Cases = c.list
	over := c.list[k].Worst.Value - w.In.Van.Plate.Total.V
	w.Overload = unit.Some(over)
	f := Finding{Case: c.list[k].ID, Advisory: true, Rule: "loading-plan", Value: unit.Some(Kg(c.list[k].Worst.Value)), Limit: unit.Some(Kg(w.In.Van.Plate.Total.V)), Margin: unit.Some(Kg(-over)), Verdict: Holds}
	if over > 0 {
		f.Says = say("overload", Kg(over))
		f.Advice = "the placard says what may be loaded together"
	} else {
		f.Says = say("overload-none", Kg(-over))
	}
	return one(f)
}
