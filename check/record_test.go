package check_test

import (
	"math"
	"strings"
	"testing"

	"berthwright/axle"
	"berthwright/check"
	"berthwright/doc"
	"berthwright/internal/calctest"
	"berthwright/unit"
)

func est(kg float64) unit.Opt[unit.MassEst] {
	return unit.Some(unit.MassEst{Value: unit.Kilogram.Times(kg)})
}

// finished is a ticket of the demo van as its sum of parts would have it, both tanks of fuel and fresh water full, driver
// aboard, plus what is really there beside the list at x metres.
func finished(t *testing.T, extra, x float64) *doc.Record {
	t.Helper()
	w := assess(t, read(t, "../examples/curlew.yaml"), nil)
	load := func(kg, x float64) axle.Load {
		return axle.Load{ID: "", Mass: unit.Kilogram.Times(kg), At: axle.At(unit.MetresLength(x), 0, unit.Metre)}
	}
	s, err := w.Base.With([]axle.Load{load(84, 1.19), load(76*0.835, 1.46), load(92, 3.88), load(extra, x)})
	if err != nil {
		t.Fatal(err)
	}
	return &doc.Record{Version: 1, Build: "curlew", Weighings: []doc.Weighing{{
		ID: "w1", Stage: "finished", Driver: unit.Some(84 * unit.Kilogram), Division: unit.Some(10 * unit.Kilogram),
		Front: est(kgOf(t, "front", s.Front)), Rear: est(kgOf(t, "rear", s.Rear)),
		Fills: []doc.Fill{{Tank: "fuel-tank", Level: unit.Some(unit.Ratio(1))}, {Tank: "fresh-tank", Level: unit.Some(unit.Ratio(1))}},
	}}}
}

// A ticket of the finished van leads: verdicts come from it, and the sum stands beside it.
func TestPropFinishedTicketLeads(t *testing.T) {
	b := read(t, "../examples/curlew.yaml")
	before := assess(t, b, nil)
	w := assess(t, b, finished(t, 12, 3))
	near(t, "base", w.Base.Total.Kilograms(), before.Base.Total.Kilograms()+12, 1e-6)
	near(t, "sum", w.Sum.Total.Kilograms(), before.Base.Total.Kilograms(), 1e-9)
	near(t, "rear in hand", get(t, "margin", finding(t, w, "axle-rear").Margin).SI, get(t, "margin", finding(t, before, "axle-rear").Margin).SI-9, 1e-6)
	f := finding(t, w, "ticket-leads")
	if f.Verdict != check.Holds || !f.Advisory || !strings.Contains(f.Says.Text(unit.Metric), "sum of parts gives") {
		t.Errorf("%s: %s", f.Verdict.Says(), f.Says.Text(unit.Metric))
	}
	if !strings.Contains(finding(t, w, "axle-rear").Basis, "ticket of the finished van") {
		t.Error("the basis does not say that the ticket leads")
	}
	if g := finding(t, assess(t, b, finished(t, 90, 3)), "ticket-leads"); g.Verdict != check.DoesNotHold {
		t.Errorf("90 kg that nobody listed: %s", g.Verdict.Says())
	}
	if has(before, "ticket-leads") {
		t.Error("a ticket leads that nobody took")
	}
}

// Once weighed, a missing mass does not matter unless it was not yet fitted; the fuel level does.
func TestPropFinishedTicketNeedsNoMasses(t *testing.T) {
	b := read(t, "../examples/curlew.yaml")
	for i := range b.Items {
		if b.Items[i].ID == "fridge" {
			b.Items[i].Mass = doc.Opt[unit.MassEst]{}
		}
	}
	rec := finished(t, 0, 3)
	if f := finding(t, assess(t, b, rec), "axle-rear"); f.Verdict == check.Unknown {
		t.Errorf("a mass that was on the scale is asked for: %s", f.Says.Text(unit.Metric))
	}
	rec.Weighings[0].Missing = []string{"fridge"}
	if f := finding(t, assess(t, b, rec), "axle-rear"); f.Verdict != check.Unknown {
		t.Errorf("a mass that was not on the scale is not asked for: %s", f.Says.Text(unit.Metric))
	}
	rec = finished(t, 0, 3)
	rec.Weighings[0].Fills = rec.Weighings[0].Fills[1:]
	if f := finding(t, assess(t, read(t, "../examples/curlew.yaml"), rec), "axle-rear"); f.Verdict != check.Unknown {
		t.Errorf("an unknown fuel level is taken as empty: %s", f.Says.Text(unit.Metric))
	}
}

// Four corners give axles, sides and wheels exactly; only what is added is a band.
func TestPropCorners(t *testing.T) {
	b := read(t, "../examples/curlew.yaml")
	rec := &doc.Record{Weighings: []doc.Weighing{{ID: "w", Stage: "finished", Driver: unit.Some(unit.Mass(0)), FrontLeft: est(700), FrontRight: est(680), RearLeft: est(690), RearRight: est(720),
		Fills: []doc.Fill{{Tank: "fuel-tank", Level: unit.Some(unit.Ratio(0))}}}}}
	w := assess(t, b, rec)
	near(t, "front", kgOf(t, "front", w.Base.Front), 1380, 1e-9)
	near(t, "rear", kgOf(t, "rear", w.Base.Rear), 1410, 1e-9)
	wheels, basis, ok := w.Wheels(w.Base)
	if !ok || !strings.Contains(basis, "corners") {
		t.Fatal(ok, basis)
	}
	for i, want := range []float64{700, 680, 690, 720} {
		near(t, wheels[i].Name+", low", wheels[i].Low.Kilograms(), want, 1e-6)
		near(t, wheels[i].Name+", high", wheels[i].High.Kilograms(), want, 1e-6)
	}
	s := caseOf(t, w, "party").Split
	loaded, _, ok := w.Wheels(s)
	if !ok {
		t.Fatal("no wheels")
	}
	low, high := 0.0, 0.0
	for _, x := range loaded {
		low, high = low+x.Low.Kilograms(), high+x.High.Kilograms()
	}
	if !(low < s.Total.Kilograms() && s.Total.Kilograms() < high) {
		t.Errorf("%v is not between %v and %v", s.Total, low, high)
	}
	if _, _, ok := assess(t, b, nil).Wheels(s); !ok {
		t.Error("without corners there is no band")
	}
}

// Simulated weighings are recovered, one wrong mass is named, and what cannot be is refused.
func TestPropReconcile(t *testing.T) {
	b := read(t, "../examples/curlew.yaml")
	fit := assess(t, b, nil).Reconcile(finished(t, 6, 3.2))
	if !fit.Known || fit.Refused {
		t.Fatalf("6 kg more than listed is refused: %s", fit.Why)
	}
	calctest.Check(t, fit.Result.Certificate())
	near(t, "total afterwards", fit.Axles[0].After.Kilograms()-fit.Axles[0].Before.Kilograms(), 6, 4)
	for _, a := range fit.Axles {
		if a.Half >= a.HalfBefore {
			t.Errorf("%s: ± %v after a weighing, ± %v before", a.Name, a.Half, a.HalfBefore)
		}
	}

	// The kitchen is 60 kg heavier than its row says, and was weighed on a hook scale with two other items.
	rec := finished(t, 60, 2.78)
	w := assess(t, b, nil)
	var names []string
	sum := 60.0
	for i := range w.In.Loads {
		if l := &w.In.Loads[i]; l.Group == "kitchen" {
			names, sum = append(names, l.ID), sum+l.Mass.Kilograms()
		}
	}
	rec.Weighings = append(rec.Weighings, doc.Weighing{ID: "w2", Stage: "part", Items: names[:1], Pieces: est(func() float64 {
		for i := range w.In.Loads {
			if w.In.Loads[i].ID == names[0] {
				return w.In.Loads[i].Mass.Kilograms() + 60
			}
		}
		return 0
	}()), Division: unit.Some(unit.Kilogram)})
	r := w.Reconcile(rec)
	if !r.Refused || r.Verdict != check.DoesNotHold {
		t.Errorf("60 kg beside the list is not refused: chi-square %.1f of %.1f", r.Result.Misfit, r.Result.Limit)
	}
	found := false
	for _, s := range r.Suspects {
		found = found || strings.HasPrefix(s.Path, "items/"+names[0])
	}
	if !found {
		t.Errorf("%s is not among the suspects %v", names[0], r.Suspects)
	}

	none := w.Reconcile(&doc.Record{})
	if none.Known || none.Why == "" {
		t.Error("nothing weighed is reconciled")
	}
	if math.IsNaN(r.Result.Misfit) {
		t.Error("the misfit is not a number")
	}
}
