package check

import (
	"fmt"
	"slices"

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
		s := Sentence{Key: "payload-left", Verdict: Holds, Slip: "weight.payload", Text: fmt.Sprintf("%s left, %s, water full", Kg(w.Left.Left).Text(sys), aboardWords(n)),
			Detail: w.forWhat() + "; the " + w.Left.Ends + " ends it"}
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
		out = append(out, Sentence{Key: "payload-left", Text: "payload not known yet", Detail: firstMissing(append(w.openLoads(nil, true), w.lacks()...)), Verdict: Unknown})
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
	if len(axles) > 0 {
		out = append(out, limitSentence(axles[0], sys))
	}
	for _, f := range w.Findings {
		if f.Check == "weight-total" {
			out = append(out, limitSentence(f, sys))
		}
	}
	return out
}

// forWhat says what the payload left is for: pieces that are carried have no share in it yet.
func (w *Weight) forWhat() string {
	if len(w.In.Carried) == 0 {
		return "for luggage"
	}
	return "for luggage and what else is carried"
}

func firstMissing(s []Subject) string {
	if len(s) == 0 {
		return "the plate, the ticket or the plan is not complete"
	}
	return s[0].Name + " missing"
}

func limitSentence(f Finding, sys unit.System) Sentence {
	s := Sentence{Key: f.Key(), Verdict: f.Verdict, Slip: f.Slip}
	name := map[string]string{"axle-front": "front axle", "axle-rear": "rear axle", "weight-total": "total"}[f.Check]
	m, ok := f.Margin.Get()
	h, hok := f.Half.Get()
	v, _ := f.Value.Get()
	lim, limOK := f.Limit.Get()
	switch {
	case f.Verdict == Unknown || !ok:
		s.Text = name + " not known yet"
		s.Detail = firstMissing(f.Missing)
		return s
	case m.SI < 0:
		s.Text = fmt.Sprintf("%s %s over", name, Figure{m.Kind, -m.SI, 0}.Text(sys))
	default:
		s.Text = fmt.Sprintf("%s %s in hand", name, m.Text(sys))
	}
	if hok {
		s.Text += ", ± " + h.Text(sys)
	}
	if limOK {
		s.Detail = v.Text(sys) + " of " + lim.Text(sys) + ", worst of the plan"
	}
	return s
}
