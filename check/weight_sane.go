package check

import (
	"fmt"
	"math"

	"berthwright/derive"
	"berthwright/unit"
)

func count(n int, one, many string) string {
	if n == 1 {
		return fmt.Sprintf("%d %s", n, one)
	}
	return fmt.Sprintf("%d %s", n, many)
}

// runTicket finds a ticket that contradicts itself, or none at all.
func runTicket(w *Weight, _ *cases) []Finding {
	t := w.In.Ticket
	var out []Finding
	if t.How() == derive.Missing || t.How() == derive.Assumed {
		f := Finding{Case: "empty", Subject: "weigh", Rule: "ticket", Missing: []Subject{{Path: "van/empty", Name: "a ticket of the empty van"}}}
		f.Says = say("weigh-first", "weigh before buying the battery")
		f.Advice = "weigh both axles with nobody aboard, note the fuel level and what is still fitted"
		out = append(out, f)
	}
	if t.Front.How == derive.Given && t.Rear.How == derive.Given && t.Total.Known() {
		sum := t.Front.V + t.Rear.V
		within := max(2*math.Hypot(t.FrontHalf.Kilograms(), t.RearHalf.Kilograms()), 20)
		if off := math.Abs((sum - t.Total.V).Kilograms()); off > within {
			out = append(out, Finding{Case: "empty", Subject: "sum", Rule: "ticket", Verdict: DoesNotHold,
				Value: unit.Some(Kg(sum)), Limit: unit.Some(Kg(t.Total.V)), Margin: unit.Some(Kg(unit.Kilogram.Times(within - off))),
				Says: say("ticket-sum", Kg(t.Front.V), Kg(t.Rear.V), Kg(sum), Kg(t.Total.V)), Subjects: []Subject{{Path: t.Total.Path, Name: "total as read"}},
				Advice: "read the ticket again; part-on weighing on a slope reads wrong"})
		}
	}
	if t.Left.Known() && t.Right.Known() && t.How() == derive.Given {
		sides, axles := t.Left.V+t.Right.V, t.Front.V+t.Rear.V
		if off := math.Abs((sides - axles).Kilograms()); off > 40 {
			out = append(out, Finding{Case: "empty", Subject: "sides", Rule: "ticket", Verdict: DoesNotHold,
				Value: unit.Some(Kg(sides)), Limit: unit.Some(Kg(axles)), Margin: unit.Some(Kg(unit.Kilogram.Times(40 - off))),
				Says: say("ticket-sides", Kg(t.Left.V), Kg(t.Right.V), Kg(sides), Kg(axles)), Subjects: []Subject{{Path: t.Left.Path, Name: "left side as read"}}})
		}
	}
	return out
}

// runRules says when no rules apply, so that nobody takes silence for an answer.
func runRules(w *Weight, _ *cases) []Finding {
	if w.Pack.Country != "" {
		return nil
	}
	return one(Finding{Case: "rules", Rule: "rules", Says: say("rules-none"), Missing: []Subject{{Path: "build/country", Name: "country"}, {Path: "build/date", Name: "date"}},
		Advice: "say whose rules the build is judged by, and on which day"})
}

// runDoubles names what is counted twice, or subtracted though it was not in the ticket.
func runDoubles(w *Weight, _ *cases) []Finding {
	var out []Finding
	for _, d := range w.In.Doubles {
		out = append(out, Finding{Case: "empty", Subject: d.Path, Rule: "ticket", Verdict: DoesNotHold, Says: say("doubled", d.What),
			Subjects: []Subject{{Path: d.Path, Name: d.What}}, Advice: "say whether the ticket was read with or without it"})
	}
	return out
}

// Tape limits: above these a tape is read again (docs/methods/survey.md; common practice, no source).
const (
	closingMost = 10 * unit.Millimetre
	hubsMost    = 10 * unit.Millimetre
	boxMost     = 30 * unit.Millimetre
	lineMost    = 10 * unit.Millimetre
)

// runSurvey checks that the tapes agree with each other and with the lines written.
func runSurvey(w *Weight, _ *cases) []Finding {
	s := w.In.Van.Survey
	var out []Finding
	row := func(subject string, v derive.Val[unit.Length], most unit.Length, fails, holds string) {
		if !v.Known() {
			return
		}
		off := v.V
		if off < 0 {
			off = -off
		}
		f := Finding{Case: "survey", Subject: subject, Rule: "survey", Subjects: []Subject{{Path: v.Path, Name: v.From}},
			Value: unit.Some(mm(off)), Limit: unit.Some(mm(most)), Margin: unit.Some(mm(most - off)), Verdict: Judge((most - off).Millimetres(), 0)}
		switch {
		case f.Verdict == DoesNotHold:
			f.Says = say(fails, mm(off), mm(most))
			f.Advice = "measure again before anything is cut"
		case holds == "":
			return
		default:
			f.Says = say(holds, mm(off))
		}
		out = append(out, f)
	}
	row("closing", s.Closing, closingMost, "closing-fails", "closing-holds")
	row("hubs", s.HubsApart, hubsMost, "hubs", "")
	row("wheel-box", s.BoxMiddle, boxMost, "wheel-box", "")
	for _, l := range []struct {
		name        string
		used, taped derive.Val[unit.Length]
	}{{"the wheelbase", w.In.Van.Wheelbase, s.Wheelbase}, {"the bulkhead line", w.In.Van.Bulkhead, s.Bulkhead}, {"the rear door line", w.In.Van.RearDoor, s.RearDoor}} {
		if l.used.How != derive.Given || !l.taped.Known() {
			continue
		}
		if d := l.used.V - l.taped.V; d > lineMost || d < -lineMost {
			out = append(out, Finding{Case: "survey", Subject: l.used.Path, Rule: "survey", Verdict: DoesNotHold,
				Value: unit.Some(mm(l.used.V)), Limit: unit.Some(mm(l.taped.V)), Says: say("line-moved", l.name, mm(l.used.V), mm(l.taped.V)),
				Subjects: []Subject{{Path: l.used.Path, Name: l.name}}, Advice: "take the value out and let the tapes give it, or tape it again"})
		}
	}
	return out
}

func mm(l unit.Length) Figure { return Figure{Kind: unit.KindLength, SI: l.Metres()} }
