package check

import (
	"math"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/derive"
	"berthwright/rules"
	"berthwright/unit"
)

// runPayMass compares what is left after everybody's published mass with the least pay-mass.
func runPayMass(w *Weight, c *cases) []Finding {
	rule := w.Pack.Stricter("pay-mass-least", "per-person")
	if !rule.Known {
		return nil
	}
	f := Finding{Case: "approval", Rule: "pay-mass-least", Slip: "weight.pay-mass"}
	f.rests(rule, byStatics)
	lc, ok := w.find("ro-approval")
	pay, n, okPay := c.payMass()
	if !ok || !okPay || !w.In.Van.Plate.Total.Known() || w.noMass() || w.fittedMass() {
		for i := range w.In.Lacks {
			if l := &w.In.Lacks[i]; l.Need != derive.NeedPlace {
				f.Missing = append(f.Missing, Subject{Path: l.Path, Name: l.What})
			}
		}
		f.Missing = append(f.Missing, w.Why...)
		if !w.In.Van.Length.Known() {
			f.Missing = append(f.Missing, Subject{Path: w.In.Van.Length.Path, Name: "overall length"})
		}
		if !w.In.Van.Plate.Total.Known() {
			f.Missing = append(f.Missing, Subject{Path: w.In.Van.Plate.Total.Path, Name: "plated total"})
		}
		if n == 0 {
			f.Missing = append(f.Missing, Subject{Path: "items", Name: "the seats used when driving"})
		}
		f.Says = say("limit-unknown", "least pay-mass", missingWords(f.Missing))
		return one(f)
	}
	left := w.In.Van.Plate.Total.V - lc.Split.Total - c.person.Times(float64(n-1))
	half := w.doubt(lc.Split, axle.Total(), 0)
	m := left - pay
	f.Value, f.Limit, f.Margin, f.Half = unit.Some(Kg(left)), unit.Some(Kg(pay)), unit.Some(Kg(m)), unit.Some(Kg(half))
	code := "paymass-holds"
	if f.Verdict = Judge(m.Kilograms(), half.Kilograms()); f.Verdict == DoesNotHold {
		code = "paymass-fails"
	}
	f.Says = say(code, Kg(left), Kg(pay), Kg(c.person))
	f.careful(rule.Rule, "least pay-mass")
	return one(f)
}

// runOccupants compares the occupant and cargo capacity with what every belted seat counts, where that is the rule.
func runOccupants(w *Weight, _ *cases) []Finding {
	rule := w.Pack.Stricter("belted-capacity-least", "per-seat")
	if !rule.Known {
		return nil
	}
	f := Finding{Case: "unloaded", Rule: "belted-capacity-least", Slip: "weight.occupants",
		Basis: "rated total less the finished van with fuel and gas full; water and everything carried count as cargo"}
	f.rests(rule, byStatics)
	lc, ok := w.find("unloaded")
	n, open := w.belted()
	f.Missing = open
	for i := range w.In.Lacks {
		if l := &w.In.Lacks[i]; l.Need == derive.NeedMass || l.Need == derive.NeedOther {
			f.Missing = append(f.Missing, Subject{Path: l.Path, Name: l.What})
		}
	}
	f.Missing = append(f.Missing, w.Why...)
	if !w.In.Van.Plate.Total.Known() {
		f.Missing = append(f.Missing, Subject{Path: w.In.Van.Plate.Total.Path, Name: "rated total"})
	}
	if !ok || len(f.Missing) > 0 {
		f.Says = say("limit-unknown", "occupant and cargo capacity", missingWords(f.Missing))
		return one(f)
	}
	capacity := w.In.Van.Plate.Total.V - lc.Split.Total
	want := unit.Mass(rule.Value.SI).Times(float64(n))
	half := w.doubt(lc.Split, axle.Total(), 0)
	m := capacity - want
	f.Value, f.Limit, f.Margin, f.Half = unit.Some(Kg(capacity)), unit.Some(Kg(want)), unit.Some(Kg(m)), unit.Some(Kg(half))
	code := "occupants-hold"
	if f.Verdict = Judge(m.Kilograms(), half.Kilograms()); f.Verdict == DoesNotHold {
		code = "occupants-fail"
	}
	f.Says = say(code, Kg(capacity), count(n, "belted seat", "belted seats"), Kg(unit.Mass(rule.Value.SI)), Kg(want))
	f.Caution = "state the capacity on the label as the rule words it"
	f.careful(rule.Rule, "occupant and cargo capacity")
	return one(f)
}

// belted counts the belted seats of the van, and lists those of which it is not said.
func (w *Weight) belted() (n int, open []Subject) {
	for i := range w.In.Seats {
		s := &w.In.Seats[i]
		switch belt, said := s.Belted.Get(); {
		case !said && s.Planned:
			open = append(open, Subject{Path: s.Path + "/belted", Name: "whether " + s.Name + " has a belt"})
		case belt:
			n++
		}
	}
	return n, open
}

// runAdded says whether the weight added before the first sale is so much that it goes on the labels; a duty to tell,
// not a limit.
func runAdded(w *Weight, _ *cases) []Finding {
	byShare, byMass := w.Pack.Stricter("weight-added", "share"), w.Pack.Stricter("weight-added", "mass")
	if !byShare.Known || !byMass.Known || w.In.Registered.Else(false) {
		return nil
	}
	f := Finding{Case: "fitted", Rule: "weight-added", Advisory: true}
	f.rests(byMass, byStatics)
	for i := range w.In.Lacks {
		if l := &w.In.Lacks[i]; l.Need == derive.NeedMass {
			f.Missing = append(f.Missing, Subject{Path: l.Path, Name: l.What})
		}
	}
	plate := w.In.Van.Plate.Total
	if !plate.Known() {
		f.Missing = append(f.Missing, Subject{Path: plate.Path, Name: "rated total"})
	}
	if !w.In.Registered.Given() {
		f.Missing = append(f.Missing, Subject{Path: "build/registered", Name: "whether the van was sold before conversion"})
	}
	added := unit.Mass(0)
	for i := range w.In.Loads {
		added += w.In.Loads[i].Mass
	}
	limit := min(unit.Ratio(byShare.Value.SI).Of(plate.V), unit.Mass(byMass.Value.SI))
	f.Value, f.Limit = unit.Some(Kg(added)), unit.Some(Kg(limit))
	if len(f.Missing) > 0 {
		f.Says = say("limit-unknown", "weight added before first sale", missingWords(f.Missing))
		return one(f)
	}
	f.Margin = unit.Some(Kg(limit - added))
	f.Verdict, f.Says = Holds, say("added-little", Kg(added), Kg(limit))
	if added > limit {
		f.Verdict, f.Says = Tight, say("added-much", Kg(added), Kg(limit))
		f.Advice = "state the weight added on the labels"
	}
	return one(f)
}

// A finished four-berth van of 3.5 t usually has this much left; common practice, no source.
const (
	typicalLow  = 300 * unit.Kilogram
	typicalHigh = 400 * unit.Kilogram
	typicalVan  = 3500 * unit.Kilogram
)

// runTypical says how what is left compares with what is usual; never a limit.
func runTypical(w *Weight, c *cases) []Finding {
	lc, ok := w.find("ro-approval")
	n := len(w.planSeats())
	if !ok || n != 4 || w.In.Van.Plate.Total.V != typicalVan || w.noMass() || w.fittedMass() {
		return nil
	}
	left := typicalVan - lc.Split.Total - c.person.Times(float64(n-1))
	f := Finding{Case: "ro-approval", Rule: "typical-left", Advisory: true, Verdict: Holds, Value: unit.Some(Kg(left)), Slip: "case.ro-approval", Basis: "common practice, no source"}
	f.Says = say("typical-left", Kg(left), Kg(typicalLow), Kg(typicalHigh))
	switch {
	case left < typicalLow:
		f.Verdict = Tight
	case left > typicalHigh:
		f.Verdict = Tight
		f.Advice = "more than usual: look for what is not listed yet"
	}
	return one(f)
}

// runLeads sets the ticket of the finished van beside the sum of parts.
func runLeads(w *Weight, _ *cases) []Finding {
	if w.In.Finished == nil || !w.Known {
		return nil
	}
	f := Finding{Case: "dry", Rule: "ticket", Advisory: true, Level: calc.Seen, Subjects: []Subject{{Path: w.In.Finished.Path, Name: "ticket of the finished van"}}, Slip: "weight.base"}
	front, okF := w.Base.Front.Get()
	rear, okR := w.Base.Rear.Get()
	sumF, okSF := w.Sum.Front.Get()
	sumR, okSR := w.Sum.Rear.Get()
	lacking := false
	for i := range w.Given.Lacks {
		l := &w.Given.Lacks[i]
		lacking = lacking || l.Item != "" || l.Takes
	}
	if !okF || !okR {
		f.Missing = w.lacks()
		f.Says = say("limit-unknown", "finished van", missingWords(f.Missing))
		return one(f)
	}
	f.Value = unit.Some(Kg(w.Base.Total))
	if !w.Summed || !okSF || !okSR || lacking {
		f.Verdict, f.Says = Holds, say("ticket-leads-alone", Kg(front), Kg(rear))
		return one(f)
	}
	f.Limit = unit.Some(Kg(w.Sum.Total))
	f.Verdict, f.Says = Holds, say("ticket-leads", Kg(front), Kg(rear), Kg(sumF), Kg(sumR))
	floor, _ := w.level(w.Base)
	for _, x := range [...]struct {
		m        axle.Measure
		off      unit.Mass
		levelled unit.Mass
	}{{w.Geometry.Front(), front - sumF, floor}, {w.Geometry.Rear(), rear - sumR, floor}, {axle.Total(), w.Base.Total - w.Sum.Total, 0}} {
		half := math.Hypot(w.doubt(w.Base, x.m, x.levelled).Kilograms(), w.doubt(w.Sum, x.m, x.levelled).Kilograms())
		if math.Abs(x.off.Kilograms()) > half {
			f.Verdict = DoesNotHold
			f.Advice = "they differ by more than both doubts allow: look at the suspects of the reconciliation"
		}
	}
	return one(f)
}

// runDeclared compares the empty mass of the papers with a weighing of the empty van, both in running order: driver and
// 90 % fuel.
func runDeclared(w *Weight, c *cases) []Finding {
	d := w.In.Declared
	rule := w.Pack.Stricter("running-order-tolerance", "share")
	if d == nil || !rule.Known {
		return nil
	}
	f := Finding{Case: "empty", Rule: "running-order-tolerance", Basis: "both with a driver and 90 % fuel"}
	f.rests(rule, byStatics)
	more := c.person + d.Fuel
	papers, weighed := d.Papers+more, d.Weighed+more
	within := unit.Ratio(rule.Value.SI).Of(papers)
	off := weighed - papers
	if off < 0 {
		off = -off
	}
	m := within - off
	f.Value, f.Limit, f.Margin, f.Half = unit.Some(Kg(weighed)), unit.Some(Kg(papers)), unit.Some(Kg(m)), unit.Some(Kg(d.Half))
	code := "declared-holds"
	if f.Verdict = Judge(m.Kilograms(), d.Half.Kilograms()); f.Verdict == DoesNotHold {
		code = "declared-fails"
		f.Advice = "start from the weighing, and ask whose papers they are"
	}
	f.Subjects = []Subject{{Path: d.Path, Name: "weighing of the empty van"}}
	f.Says = say(code, Kg(papers), Kg(weighed), ratio(rule.Value.SI))
	f.careful(rule.Rule, "empty mass of the papers")
	return one(f)
}

// runModification tells who judges a conversion, where the rules of the country name somebody.
func runModification(w *Weight, _ *cases) []Finding {
	var out []Finding
	for _, r := range w.Pack.Find("modification-code") {
		out = append(out, told(r))
	}
	return out
}

// told is a rule that is told and not judged here.
func told(r rules.Rule) Finding {
	return Finding{Case: "conversion", Subject: r.Edition, Rule: r.ID, Advisory: true, Level: r.Level, Sources: []calc.Cite{r.Cite}, Says: say("told", r.Says),
		Missing: []Subject{{Path: "build", Name: "the judgement of whoever the rule names"}}}
}
