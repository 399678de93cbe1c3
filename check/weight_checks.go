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
	byPromise  = calc.Cite{Key: "practice", At: "what was said to the customer"}
	byPractice = calc.Cite{Key: "practice"}
	bySides    = calc.Cite{Key: "statics", At: "moments about the centre line"}
)

// weightChecks lists the checks of the concern in the order they are run.
var weightChecks = []weightCheck{
	{"rules", "Rules", byPractice, byPractice, runRules},
	{"mass-missing", "Masses and places", byPractice, byStatics, runMissing},
	{"weight-total", "Total mass", byPlate, byStatics, func(w *Weight, _ *cases) []Finding { return w.plated("total") }},
	{"axle-front", "Front axle load", byPlate, byStatics, func(w *Weight, _ *cases) []Finding { return w.plated("front") }},
	{"axle-rear", "Rear axle load", byPlate, byStatics, func(w *Weight, _ *cases) []Finding { return w.plated("rear") }},
	{"tyres", "Tyres", calc.Cite{Key: "iso-4000-1", At: "load index"}, byStatics, runTyres},
	{"plate-sum", "Plate", byPlate, byPlate, runPlate},
	{"front-share", "Front-axle share", calc.Cite{Key: "eu-1230-2012", At: "annex I, part A"}, byStatics, runFrontShare},
	{"sides", "Left and right", calc.Cite{Key: "body-builder"}, bySides, runSides},
	{"roof-load", "Roof load", calc.Cite{Key: "body-builder", At: "roof load"}, calc.Cite{Key: "statics", At: "sum of masses"}, runRoof},
	{"nose", "Nose weight and train", byPlate, byStatics, runTow},
	{"luggage", "Luggage declared", byPractice, byStatics, runLuggage},
	{"pay-mass", "Least pay-mass", calc.Cite{Key: "eu-1230-2012", At: "annex I, A 2.6.4.1.2"}, byStatics, runPayMass},
	{"occupant-capacity", "Occupant and cargo capacity", calc.Cite{Key: "us-fmvss-110"}, byStatics, runOccupants},
	{"weight-added", "Weight added before first sale", calc.Cite{Key: "us-fmvss-110"}, byStatics, runAdded},
	{"typical-left", "What is usually left", byPractice, byStatics, runTypical},
	{"overload", "Brim-full", byPlate, byStatics, runOverload},
	{"ticket", "Empty ticket", byPractice, byStatics, runTicket},
	{"ticket-leads", "Finished ticket and sum of parts", byPractice, byStatics, runLeads},
	{"declared-mass", "Empty mass of the papers", calc.Cite{Key: "eu-2021-535", At: "annex XIII, part 2"}, byStatics, runDeclared},
	{"counted-twice", "Counted twice", byPractice, byStatics, runDoubles},
	{"licence", "Driving licence", calc.Cite{Key: "uk-licensing-guidance"}, byPlate, runLicence},
	{"unladen-speed", "Unladen mass and speed", calc.Cite{Key: "uk-rtra-1984", At: "schedule 6"}, byStatics, runUnladen},
	{"modification", "Who judges the conversion", byPractice, byPractice, runModification},
	{"belts", "Belted seats", byPractice, byPractice, runBelts},
	{"seating", "Who sits where", byPractice, byPractice, runSeating},
	{"promise", "Promises", byPromise, byStatics, runPromises},
	{"survey", "Survey", calc.Cite{Key: "practice", At: "nine tapes"}, byStatics, runSurvey},
}

func one(f Finding) []Finding { return []Finding{f} }

// rests carries what a chosen figure of a rule rests on: its evidence, its source, and any other row that differs. A
// figure that nobody has read may not carry "holds" in a field of care.
func (f *Finding) rests(c rules.Choice, method calc.Cite) {
	f.Level, f.Sources = c.Rule.Level, []calc.Cite{c.Rule.Cite, method}
	if c.Rule.Note != "" {
		f.Basis = strings.TrimPrefix(f.Basis+"; rule "+c.Rule.Edition+": "+c.Rule.Note, "; ")
	}
	for _, o := range c.Also {
		if v, ok := o.Value(c.Value.Name); ok {
			f.Sources = append(f.Sources, o.Cite)
			f.Basis = strings.TrimPrefix(f.Basis+"; sources differ: "+c.Rule.Edition+" says "+c.Value.Show.Text(c.Value.SI)+", "+o.Edition+" says "+v.Show.Text(v.SI)+"; the stricter is used", "; ")
		}
	}
}

// careful turns "holds" into "unknown" where the rule lies in a field of care and its own figure was never read.
func (f *Finding) careful(r rules.Rule, name string) {
	if (f.Verdict == Holds || f.Verdict == Tight) && !r.MayHold() {
		f.Verdict = Unknown
		f.Missing = append(f.Missing, Subject{Path: "workshop/confirmed", Name: "confirmation of " + r.Title + " from your own copy: clause, initials, date"})
		f.Says = say("limit-unknown", name, missingWords(f.Missing))
	}
}

func ratio(r float64) Figure { return Figure{Kind: unit.KindRatio, SI: r, Digits: 1} }

// runMissing names items without mass or place.
func runMissing(w *Weight, _ *cases) []Finding {
	var out []Finding
	for _, kind := range [2]string{"mass", "place"} {
		f := Finding{Case: kind, Subject: kind}
		for i := range w.In.Lacks {
			l := &w.In.Lacks[i]
			if (kind == "place") == (l.Need == derive.NeedPlace) {
				f.Missing = append(f.Missing, Subject{Path: l.Path, Name: l.What})
			}
		}
		if len(f.Missing) == 0 {
			continue
		}
		f.Subjects = f.Missing
		names := make([]string, len(f.Missing))
		for i, s := range f.Missing {
			names[i] = strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(s.Name, "mass of "), "place along the van of "), "place of ")
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

// leastShare is the lowest front-axle share of the plan, once without and once with the trailer.
type leastShare struct {
	id, name, value string // value: name of the rule's figure
	at              int    // index of the case, -1 where it could not be found
	err             error
}

// share adds the cases of the lowest front-axle share.
func (w *Weight) share(c *cases) {
	if !w.Pack.Stricter("front-share-least", "laden").Known {
		return
	}
	groups := c.plan(axle.RefilledWithoutEmptying)
	rows := []leastShare{{id: "least-front-share", name: "Lowest front-axle share", value: "laden"}}
	if w.In.Tow.Nose.V > 0 {
		rows = append(rows, leastShare{id: "least-front-share-coupled", name: "Lowest front-axle share, trailer coupled", value: "coupled"})
	}
	for i := range rows {
		r := &rows[i]
		r.at = -1
		g := groups
		if r.value == "laden" {
			g = solo(groups)
		}
		least, err := axle.WorstShare(w.Base, g, w.Geometry.Front(), axle.Total(), axle.Least)
		if r.err = err; err == nil {
			r.at = len(c.list)
			c.list = append(c.list, LoadCase{ID: r.id, Name: r.name, Split: least.Split, Worst: &least, Says: say("case-share", policyWords[axle.RefilledWithoutEmptying])})
		}
	}
	c.shares = rows
}

// runFrontShare judges the lowest front-axle share the declared plan can reach.
func runFrontShare(w *Weight, c *cases) []Finding {
	rows := c.shares
	if len(rows) == 0 {
		if !w.Pack.Stricter("front-share-least", "laden").Known {
			return nil
		}
		rows = []leastShare{{id: "least-front-share", value: "laden", at: -1}}
	}
	var out []Finding
	for _, r := range rows {
		rule := w.Pack.Stricter("front-share-least", r.value)
		want := unit.Ratio(rule.Value.SI)
		f := Finding{Case: r.id, Rule: "front-share-least", Slip: "case." + r.id}
		f.rests(rule, byStatics)
		f.Missing = append(w.openLoads(nil, false), w.Why...)
		if r.err != nil && len(f.Missing) == 0 {
			f.Missing = append(f.Missing, Subject{Path: "items", Name: r.err.Error()})
		}
		if r.at < 0 || len(f.Missing) > 0 {
			f.Says = say("limit-unknown", "front-axle share", missingWords(f.Missing))
			out = append(out, f)
			continue
		}
		least := w.Cases[r.at].Worst
		share, total := least.Share.Else(0), least.Split.Total
		floor, _ := w.level(least.Split)
		half := w.doubt(least.Split, w.Geometry.Front().Plus(-want.Share(), axle.Total(), "front share"), floor)
		lacks := want.Of(total) - least.Value // kg on the front axle
		f.Value, f.Limit, f.Margin = unit.Some(ratio(share.Share())), unit.Some(ratio(want.Share())), unit.Some(ratio(share.Share()-want.Share()))
		f.Half = unit.Some(ratio(half.Per(total).Share()))
		code := "share-holds"
		if f.Verdict = Judge(-lacks.Kilograms(), half.Kilograms()); f.Verdict == DoesNotHold {
			code = "share-fails"
			f.Advice = "move mass forward; the least the front axle must carry keeps steering and brakes working"
		}
		if r.value == "coupled" {
			code += "-coupled"
		}
		f.Says = say(code, ratio(share.Share()), ratio(want.Share()), Kg(lacks))
		f.careful(rule.Rule, "front-axle share")
		out = append(out, f)
	}
	return out
}

// runSides says how far the sides differ; an advice, never a limit.
func runSides(w *Weight, _ *cases) []Finding {
	want := w.Pack.Stricter("side-difference", "share")
	lc, ok := w.find("party")
	if !ok || !want.Known {
		return nil
	}
	f := Finding{Advisory: true, Rule: "side-difference", Case: "party", Slip: "weight.sides"}
	f.rests(want, bySides)
	l, lok := lc.Split.Left.Get()
	r, rok := lc.Split.Right.Get()
	if !lok || !rok {
		if !w.In.Van.TrackFront.Known() || !w.In.Van.TrackRear.Known() {
			f.Missing = append(f.Missing, Subject{Path: "van/track", Name: "track"})
		} else {
			for _, id := range lc.Split.Missing(w.Geometry.Right()) {
				s := w.named(id)
				s.Name = strings.Replace(strings.Replace(s.Name, "along the van", "across the van", 1), "place of", "place across the van of", 1)
				f.Missing = append(f.Missing, s)
			}
		}
		f.Says = say("limit-unknown", "left and right", missingWords(f.Missing))
		return one(f)
	}
	side, more := "left", l-r
	if more < 0 {
		side, more = "right", -more
	}
	diff := more.Per(l + r)
	f.Value, f.Limit, f.Margin = unit.Some(ratio(diff.Share())), unit.Some(ratio(want.Value.SI)), unit.Some(ratio(want.Value.SI-diff.Share()))
	f.Verdict = Judge(want.Value.SI-diff.Share(), 0)
	f.Says = say("side", ratio(max(l, r).Per(l+r).Share()), side, Kg(more), ratio(want.Value.SI))
	return one(f)
}

// roofRow is one thing on the roof.
type roofRow struct {
	name, ref string
	mass      unit.Mass
	half      unit.Mass
	at        [3]unit.Opt[unit.Length]
}

// onRoof lists everything that is, or may be, on the roof.
func (w *Weight) onRoof() []roofRow {
	var out []roofRow
	for i := range w.In.Loads {
		if l := &w.In.Loads[i]; l.On == axle.Roof {
			out = append(out, roofRow{l.Name, l.Ref, l.Mass, l.Half, subject(&l.Load).At})
		}
	}
	for i := range w.In.Carried {
		if k := &w.In.Carried[i]; k.On == axle.Roof {
			n := float64(k.UpTo)
			out = append(out, roofRow{name: k.Name, ref: k.Path, mass: k.Each.V.Times(n), half: k.Half.Times(n)})
		}
	}
	for i := range w.In.Zones {
		if z := &w.In.Zones[i]; z.On == axle.Roof {
			out = append(out, roofRow{name: z.Name, ref: z.Path, mass: z.Limit.V})
		}
	}
	return out
}

// byWorkshop says whose reading a limit of the base maker's papers is. The rules for roof and nose carry no figure of
// their own: the limit is what the workshop has read in the papers of this very van and entered, so it was read in the
// publication, and "holds" may rest on it. A limit that nobody entered is unknown, never a usual value.
const byWorkshop = "limit as the workshop read it in the base maker's papers and entered it"

// runRoof adds up what is on the roof with everything declared for it.
func runRoof(w *Weight, _ *cases) []Finding {
	rows := w.onRoof()
	var open []Subject
	for i := range w.In.Lacks {
		if l := &w.In.Lacks[i]; l.On == axle.Roof && l.Need != derive.NeedPlace {
			open = append(open, Subject{Path: l.Path, Name: l.What})
		}
	}
	if len(rows)+len(open) == 0 {
		return nil
	}
	f := Finding{Case: "roof-full", Rule: "roof-load", Level: calc.Seen, Slip: "weight.roof", Basis: "everything marked as carried on the roof; " + byWorkshop,
		Caution: "the base maker's own roof limit and fixing instruction decide; nothing here computes a fixing or a roof"}
	sum, half := unit.Mass(0), 0.0
	for _, r := range rows {
		sum += r.mass
		half += r.half.Kilograms() * r.half.Kilograms()
		f.Subjects = append(f.Subjects, Subject{Path: r.ref, Name: r.name, At: r.at})
	}
	f.Value, f.Missing = unit.Some(Kg(sum)), open
	limit := w.In.Roof
	switch {
	case !limit.Known():
		f.Missing = append(f.Missing, Subject{Path: limit.Path, Name: "roof load limit"})
		f.Says = say("limit-no-limit", "roof", Kg(sum))
	case len(open) == 0 || sum > limit.V: // what is missing can only add
		f.Missing = nil
		f = judged(f, "roof", sum, limit.V, unit.Kilogram.Times(math.Sqrt(half)))
	default:
		f.Limit = unit.Some(Kg(limit.V))
		f.Says = say("limit-unknown", "roof", missingWords(open))
	}
	return one(f)
}

// runTow judges nose weight, trailer and train.
func runTow(w *Weight, _ *cases) []Finding {
	t := &w.In.Tow
	if !t.Nose.Known() && !t.Trailer.Known() {
		return nil
	}
	var out []Finding
	row := func(subject, name string, v, limit derive.Val[unit.Mass], half unit.Mass, open []Subject, least bool) {
		if !v.Known() {
			return
		}
		f := Finding{Case: "towing", Subject: subject, Rule: subject, Level: calc.Seen, Subjects: []Subject{{Path: v.Path, Name: name}}}
		f.Value = unit.Some(Kg(v.V))
		switch subject {
		case "train":
			f.Rule, f.Sources = "plated-limits", []calc.Cite{byPlate, byStatics}
			if r := w.Pack.Find("plated-limits"); len(r) > 0 {
				f.Level, f.Sources = min(levelOf(limit.How), r[0].Level), []calc.Cite{byPlate, r[0].Cite, byStatics}
			}
		default:
			f.Basis, f.Sources = byWorkshop, []calc.Cite{{Key: "body-builder", At: "tow bar"}, byStatics}
			f.Caution = "the lower limit of tow bar, van and trailer decides; nothing here computes a tow bar"
		}
		if !limit.Known() {
			f.Missing = []Subject{{Path: limit.Path, Name: name + " limit"}}
			f.Says = say("limit-no-limit", name, Kg(v.V))
			out = append(out, f)
			return
		}
		if len(open) > 0 && !(least && v.V > limit.V) {
			f.Limit, f.Missing = unit.Some(Kg(limit.V)), open
			f.Says = say("limit-unknown", name, missingWords(open))
			out = append(out, f)
			return
		}
		out = append(out, judged(f, name, v.V, limit.V, half))
	}
	row("nose-weight", "nose weight", t.Nose, t.NoseLimit, 0, nil, true)
	row("trailer", "trailer", t.Trailer, t.TowLimit, 0, nil, true)
	if l := w.limit("total"); l != nil && l.judged >= 0 && t.Trailer.Known() {
		// The nose weight rests on the van and is part of the trailer: it is counted once.
		train := w.Cases[l.judged].Worst.Value + t.Trailer.V - t.Nose.V
		v := derive.Val[unit.Mass]{V: train, How: derive.Derived, Path: t.Trailer.Path}
		row("train", "train", v, w.In.Van.Plate.Train, w.Doubts["total"].Half, w.openLoads(nil, true), w.grows(l.measure))
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

// overload adds the case of everything that could be stuffed in.
func (w *Weight) overload(c *cases) {
	if !w.In.Van.Plate.Total.Known() || w.noMass() {
		return
	}
	k, err := c.worst("brim-refilled", "Brim-full", axle.Total(), axle.Most, axle.RefilledWithoutEmptying, c.brim())
	if err != nil {
		return
	}
	c.list[k].Says = say("case-brim")
	w.Overload = unit.Some(c.list[k].Worst.Value - w.In.Van.Plate.Total.V)
}

// runOverload says how far the van can be overloaded with everything that could be stuffed in; a figure, never a verdict.
func runOverload(w *Weight, _ *cases) []Finding {
	lc, ok := w.find("brim-refilled")
	if !ok {
		return nil
	}
	over := w.Overload.Else(0)
	f := Finding{Case: lc.ID, Advisory: true, Rule: "loading-plan", Value: unit.Some(Kg(lc.Worst.Value)), Limit: unit.Some(Kg(w.In.Van.Plate.Total.V)), Margin: unit.Some(Kg(-over)), Verdict: Holds, Slip: "case.brim-refilled"}
	if over > 0 {
		f.Says = say("overload", Kg(over))
		f.Advice = "the placard says what may be loaded together"
	} else {
		f.Says = say("overload-none", Kg(-over))
	}
	return one(f)
}
