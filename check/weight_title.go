package check

import (
	"fmt"
	"slices"

	"berthwright/derive"
	"berthwright/unit"
)

// Sentence is one deciding figure said in words.
type Sentence struct {
	Key, Text, Detail string
	Verdict           Verdict
	Slip              string
}

// Title returns the deciding figures as sentences: payload left, the tighter axle, the total.
func (w *Weight) Title(sys unit.System) []Sentence {
	if !w.Begun {
		return []Sentence{{Key: "weight", Text: "weight not begun", Detail: "enter the plate and the empty ticket", Verdict: NotBegun}}
	}
	var out []Sentence
	n := len(w.planSeats())
	switch {
	case w.Left.Known && !w.open():
		s := Sentence{Key: "payload-left", Verdict: Holds, Slip: "weight.payload", Text: fmt.Sprintf("%s for luggage, %s, water full", Kg(w.Left.Left).Text(sys), aboardWords(n)),
			Detail: w.spreadWords() + "; the " + w.Left.Ends + " ends it; " + w.LadenWords(sys)}
		if w.Left.Left < 0 {
			s.Verdict = DoesNotHold
			s.Text = fmt.Sprintf("%s too much, %s, water full", Kg(-w.Left.Left).Text(sys), aboardWords(n))
			s.Detail = "before any luggage; the " + w.Left.Ends + " is passed"
		} else if w.In.Luggage.Known() && w.Left.Left < w.In.Luggage.V {
			s.Verdict = DoesNotHold
			s.Detail = "less than the " + Kg(w.In.Luggage.V).Text(sys) + " of luggage declared"
		}
		out = append(out, s)
	default:
		out = append(out, Sentence{Key: "payload-left", Text: "payload not known yet", Detail: lackWords(distinct(append(w.openLoads(nil, false), w.Why...))), Verdict: Unknown})
	}
	var axles []Finding
	for _, f := range w.Findings {
		switch f.Check {
		case "axle-front", "axle-rear":
			axles = append(axles, f)
		}
	}
	slices.SortStableFunc(axles, func(a, b Finding) int {
		switch {
		case Worse(&a, &b):
			return -1
		case Worse(&b, &a):
			return 1
		}
		return 0
	})
	payload, plate := w.Left.Known && !w.open(), w.plateWords
	switch {
	case len(axles) > 0 && !slices.ContainsFunc(axles, func(f Finding) bool { return f.Margin.Given() }):
		s := Sentence{Key: axles[0].Key(), Text: "axles not known yet", Verdict: Unknown, Slip: axles[0].Slip}
		if payload || lackWords(axles[0].Missing) != out[0].Detail {
			s.Detail = lackWords(axles[0].Missing)
		}
		out = append(out, s)
	case len(axles) > 0:
		out = append(out, limitSentence(axles[0], sys, plate(axles[0].Check)))
	}
	if f, ok := w.Plated("total"); ok {
		s := limitSentence(*f, sys, plate(f.Check))
		if s.Detail == out[0].Detail {
			s.Detail = ""
		}
		out = append(out, s)
	}
	return out
}

// plateWords says that the plate a limit is judged against is assumed; "" where it was read.
func (w *Weight) plateWords(check string) string {
	for i := range w.limits {
		if l := &w.limits[i]; boundCheck[l.short] == check && l.plate.How == derive.Assumed {
			return ", plate assumed"
		}
	}
	return ""
}

func distinct(all []Subject) []Subject {
	var out []Subject
	for _, s := range all {
		if !slices.ContainsFunc(out, func(o Subject) bool { return o.Name == s.Name }) {
			out = append(out, s)
		}
	}
	return out
}

// spreadWords says how the payload left is thought of as stowed; what is carried outside has no share in it yet.
func (w *Weight) spreadWords() string {
	s := "spread over the zones behind the cab"
	if len(w.In.Zones) == 0 {
		s = "in the middle of the load floor"
	}
	if len(w.In.Carried) == 0 {
		return s
	}
	names := w.In.Carried[0].Name
	if n := len(w.In.Carried) - 1; n > 0 {
		names += " and " + count(n, "more", "more")
	}
	return s + ", before what is carried (" + names + ")"
}

func limitSentence(f Finding, sys unit.System, plate string) Sentence {
	s := Sentence{Key: f.Key(), Verdict: f.Verdict, Slip: f.Slip}
	name := map[string]string{"axle-front": "front axle", "axle-rear": "rear axle", "weight-total": "total"}[f.Check]
	m, ok := f.Margin.Get()
	h, hok := f.Half.Get()
	v, _ := f.Value.Get()
	lim, limOK := f.Limit.Get()
	switch {
	case f.Verdict == Unknown || !ok:
		s.Text = name + " not known yet"
		s.Detail = lackWords(f.Missing)
		return s
	case m.SI < 0:
		s.Text = fmt.Sprintf("%s %s over with the whole plan aboard", name, Figure{m.Kind, -m.SI, 0}.Text(sys))
	default:
		s.Text = fmt.Sprintf("%s %s in hand with the whole plan aboard", name, m.Text(sys))
	}
	if hok {
		s.Text += ", ± " + h.Text(sys)
	}
	if limOK {
		s.Detail = v.Text(sys) + " of " + lim.Text(sys) + ", its worst case" + plate
	}
	return s
}
