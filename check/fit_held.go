package check

import (
	"fmt"
	"slices"
	"strings"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/unit"
)

// heldAbove is the mass above which an item is listed for its fixing, wherever it is; below it, what is higher than shoulder, a seated
// person's shoulder over the bare floor (common practice, no source), and heavier than heldLeast.
const (
	heldAbove = 5 * unit.Kilogram
	heldLeast = unit.Kilogram
	shoulder  = 1050 * unit.Millimetre
)

// pulls are the decelerations the arithmetic is shown for, in multiples of gravity: a stated assumption. No published factor for
// furniture is known.
var pulls = [3]float64{1, 5, 10}

// standardGravity is in m/s², exact by convention (CGPM 1901, from memory).
const standardGravity = 9.80665

const heldCaution = "arithmetic only: bolts, inserts and what they pull out of are judged by the people who fit and examine them"

// runRestraint shows what things would pull with, contents full, worst first, and at how many times gravity the fixings that are
// entered reach what they are said to hold. Arithmetic only, never a verdict: one finding for all that are given, one for the others.
func runRestraint(f *Fit) []Finding {
	var all, given, open []*derive.FitFixing
	for i := range f.In.Fixings {
		k := &f.In.Fixings[i]
		if k.Soft || k.ID == derive.UnlistedID || k.Group == "lining" || k.Mass <= heldAbove && (k.High <= shoulder || k.Mass <= heldLeast) {
			continue
		}
		all = append(all, k)
		if k.Fixing.Count.Else(0) > 0 {
			given = append(given, k)
		} else {
			open = append(open, k)
		}
	}
	if len(all) == 0 {
		return nil
	}
	heaviest := func(a, b *derive.FitFixing) int {
		switch {
		case a.Mass > b.Mass:
			return -1
		case a.Mass < b.Mass:
			return 1
		}
		return strings.Compare(a.ID, b.ID)
	}
	for _, list := range [][]*derive.FitFixing{all, given, open} {
		slices.SortFunc(list, heaviest)
	}
	var out []Finding
	force := func(k *derive.FitFixing, times float64) Figure {
		return Figure{Kind: unit.KindForce, SI: k.Mass.Kilograms() * times * standardGravity}
	}
	w := all[0]
	x := Finding{State: string(derive.Travel), Case: "restraint", Subject: "all", Rule: "restraint", Advisory: true, Verdict: Holds, Level: calc.Unsourced, Value: unit.Some(force(w, 1)),
		Basis: "contents full; the multiples of gravity are a stated assumption, no published factor for furniture is known", Caution: heldCaution,
		Says: say("held-all", plain(len(all)), w.Name, Kg(w.Mass), force(w, pulls[0]), force(w, pulls[1]), force(w, pulls[2]))}
	if k, times := weakest(given); k != nil {
		x.Says = say("held-each", plain(len(all)), w.Name, Kg(w.Mass), force(w, pulls[0]), force(w, pulls[1]), force(w, pulls[2]), k.Name, Figure{SI: times, Digits: 1})
	}
	x.Subjects = heldSubjects(all)
	f.show(&x, func(s *Slip) { heldSlip(s, all) })
	out = append(out, x)
	if len(open) > 0 {
		y := Finding{State: string(derive.Travel), Case: "restraint", Subject: "open", Rule: "restraint", Advisory: true, Level: calc.Unsourced, Caution: heldCaution, Subjects: heldSubjects(open),
			Says: say("held-unknown", plain(len(open)), some(open, func(k *derive.FitFixing) string { return k.Name }))}
		for _, k := range open {
			y.Missing = append(y.Missing, Subject{Path: k.Path, Name: "how " + k.Name + " is held"})
		}
		out = append(out, y)
	}
	return out
}

func heldSubjects(all []*derive.FitFixing) []Subject {
	out := make([]Subject, 0, len(all))
	for _, k := range all {
		out = append(out, Subject{Path: k.Path, Name: k.Name})
	}
	return out
}

// weakest returns the item whose fixings, where they are said to hold something, reach it at the least multiple of gravity.
func weakest(given []*derive.FitFixing) (*derive.FitFixing, float64) {
	var worst *derive.FitFixing
	least := 0.0
	for _, k := range given {
		each, ok := k.Fixing.Each.Get()
		if !ok {
			continue
		}
		times := each.Newtons() * float64(k.Fixing.Count.Else(0)) / (k.Mass.Kilograms() * standardGravity)
		if worst == nil || times < least {
			worst, least = k, times
		}
	}
	return worst, least
}

// heldSlip is the table of forces: F = m · k · g, and what comes on each fixing.
func heldSlip(s *Slip, all []*derive.FitFixing) {
	s.Title = "What things pull with"
	var rows []calc.Row
	var mass []float64
	total := 0.0
	for _, k := range all {
		label := k.Name
		if n := k.Fixing.Count.Else(0); n > 0 {
			label = fmt.Sprintf("%s, on %d fixings", k.Name, n)
		}
		rows = append(rows, calc.Row{Label: label, Ref: k.Path})
		mass = append(mass, k.Mass.Kilograms())
		total += k.Mass.Kilograms()
	}
	steps := []calc.Step{
		{Symbol: "m_i", Says: "mass with contents full", Kind: calc.Given, Each: mass, Rows: rows, SI: total, Dim: calc.DimMass, Show: showKg},
		{Symbol: "g", Says: "standard gravity", Kind: calc.Constant, SI: standardGravity, Dim: dimAcc, Show: calc.Show{Unit: "m/s²", Digits: 5}, Source: []calc.Cite{{Key: "statics", At: "standard gravity"}}, Level: calc.Recalled},
	}
	for _, k := range pulls {
		each := make([]float64, len(mass))
		sum := 0.0
		for i, m := range mass {
			each[i] = m * k * standardGravity
			sum += each[i]
		}
		symbol, factor := fmt.Sprintf("F%.0f_i", k), fmt.Sprintf("k_%.0f", k)
		steps = append(steps,
			calc.Step{Symbol: factor, Says: fmt.Sprintf("taken: %.0f times gravity", k), Kind: calc.Assumed, SI: k, Source: []calc.Cite{byPractice}},
			calc.Step{Symbol: symbol, Says: fmt.Sprintf("force at %.0f times gravity", k), Kind: calc.Derived, Formula: "m_i * " + factor + " * g", Each: each, Rows: rows, SI: sum, Dim: dimForce, Show: showN})
	}
	s.Workings = append(s.Workings, calc.Working{ID: "fit.held", Title: s.Title, Steps: steps, Notes: []string{
		"No published factor for furniture is known: the multiples of gravity are assumptions, shown side by side.",
		"A force is shared evenly over its fixings only where they lie in line with the mass centre; prying, pull-out and what they are fixed into are not in it.",
	}})
	for _, k := range all {
		n := k.Fixing.Count.Else(0)
		each, ok := k.Fixing.Each.Get()
		if n == 0 || !ok {
			continue
		}
		times := each.Newtons() * float64(n) / (k.Mass.Kilograms() * standardGravity)
		s.Workings = append(s.Workings, calc.Working{ID: "fit.held." + k.ID, Title: "Where the fixings of " + k.Name + " reach what they are said to hold", Steps: []calc.Step{
			{Symbol: "f", Says: "one fixing is said to hold", Kind: calc.Given, SI: each.Newtons(), Dim: dimForce, Show: showN, Ref: k.Path},
			{Symbol: "n", Says: "fixings", Kind: calc.Given, SI: float64(n), Ref: k.Path},
			{Symbol: "m", Says: "mass with contents full", Kind: calc.Given, SI: k.Mass.Kilograms(), Dim: calc.DimMass, Show: showKg},
			steps[1],
			{Symbol: "k", Says: "multiple of gravity at which they do", Kind: calc.Derived, Formula: "f * n / (m * g)", SI: times, Show: calc.Show{Digits: 1}},
		}})
	}
}

// some names the first three of a list and counts the rest.
func some[T any](all []T, name func(T) string) string {
	var names []string
	for i, k := range all {
		if i == 3 && len(all) > 4 {
			return strings.Join(names, "; ") + fmt.Sprintf(" and %d more", len(all)-3)
		}
		names = append(names, name(k))
	}
	return strings.Join(names, "; ")
}

// folded tells findings of one check that give the same answer for the same reason as one, with the subject "all": its name stays the
// same when one more is added. What does not hold is told one by one.
func folded(rows []Finding, codes map[string]string) []Finding {
	var out []Finding
	at := map[string]int{}
	for _, x := range rows {
		if codes[x.Says.Code] == "" || x.Verdict == DoesNotHold {
			out = append(out, x)
			continue
		}
		key := x.Check + x.Says.Code + x.Verdict.String()
		i, had := at[key]
		if !had {
			at[key] = len(out)
			out = append(out, x)
			continue
		}
		y := &out[i]
		y.Subject, y.Subjects = "all", append(slices.Clone(y.Subjects), x.Subjects...)
		for _, m := range x.Missing {
			if !slices.Contains(y.Missing, m) {
				y.Missing = append(slices.Clone(y.Missing), m)
			}
		}
		if x.Basis != "" && !strings.Contains(y.Basis, x.Basis) {
			y.Basis += "; " + x.Basis
		}
	}
	for i := range out {
		x := &out[i]
		if code := codes[x.Says.Code]; x.Subject == "all" && code != "" {
			x.Says = say(code, plain(len(x.Subjects)), some(x.Subjects, func(s Subject) string { return s.Name }))
		}
	}
	return out
}
