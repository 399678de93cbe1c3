package check

import (
	"fmt"
	"math"
	"slices"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/unit"
)

// Reconciled is the weighings held against the sum of parts.
type Reconciled struct {
	Known     bool
	Why       string // why nothing can be said
	Result    axle.Reconciled
	Rows      []ReadingRow
	Suspects  []Subject
	Says      []Message
	Refused   bool
	Shifts    []Shift // what the weighings change, largest first
	Axles     []AxleAfter
	Verdict   Verdict
	Readings  int
	Unlisted  unit.Mass // what the unlisted comes to, as weighed
	NotListed bool
}

// ReadingRow is one reading against the sum.
type ReadingRow struct {
	Name                string
	Read, Expected, Off unit.Mass
	Half                unit.Mass // 95 % half-width of the difference
	Verdict             Verdict
}

// Shift is one load as the weighings leave it.
type Shift struct {
	Subject       Subject
	Before, After unit.Mass
	HalfBefore    unit.Mass
	Half          unit.Mass
}

// AxleAfter is one total of the dry van before and after.
type AxleAfter struct {
	Name          string
	Before, After unit.Mass
	HalfBefore    unit.Mass
	Half          unit.Mass
}

// Reconcile compares the weighings of a record with the sum of parts.
func (w *Weight) Reconcile(rec *doc.Record) Reconciled {
	r := Reconciled{}
	if !w.Summed {
		r.Why = "the wheelbase or the ticket of the empty van is missing"
		return r
	}
	if rec == nil || len(rec.Weighings) == 0 {
		r.Why = "nothing has been weighed yet"
		return r
	}
	loads := baseLoads(w.In, w.Geometry)
	all := make([]string, 0, len(loads))
	for i := range loads {
		all = append(all, loads[i].ID)
	}
	var readings []axle.Reading
	for i := range rec.Weighings {
		z := &rec.Weighings[i]
		aboard := slices.Clone(all)
		aboard = slices.DeleteFunc(aboard, func(id string) bool { return slices.Contains(z.Missing, id) })
		extra := w.aboardWhenWeighed(z)
		for _, l := range extra {
			loads = append(loads, l)
			aboard = append(aboard, l.ID)
		}
		readings = append(readings, w.readings(z, aboard)...)
	}
	if len(readings) == 0 {
		r.Why = "the weighings hold no reading"
		return r
	}
	res, err := axle.Reconcile(w.Geometry, loads, w.shared, readings)
	if err != nil {
		r.Why = err.Error()
		return r
	}
	r.Known, r.Result, r.Refused, r.Readings = true, res, res.Refused, len(readings)
	for _, x := range res.Residuals {
		row := ReadingRow{Name: x.Reading.Name, Read: x.Reading.Value, Expected: x.Expected, Off: x.Misfit, Half: x.MisfitHalf}
		row.Verdict = Judge((x.MisfitHalf - unit.Kilogram.Times(math.Abs(x.Misfit.Kilograms()))).Kilograms(), 0)
		r.Rows = append(r.Rows, row)
	}
	r.Verdict = Holds
	chi := fmt.Sprintf("%.1f", res.Misfit)
	limit := fmt.Sprintf("%.1f", res.Limit)
	if res.Refused {
		r.Verdict = DoesNotHold
		r.Says = append(r.Says, say("reconcile-refused", chi, limit, count(len(readings), "reading", "readings")))
	} else {
		r.Says = append(r.Says, say("reconcile-fits", chi, limit, count(len(readings), "reading", "readings")))
	}
	names := map[string]Subject{}
	for i := range loads {
		names[loads[i].ID] = subject(&loads[i])
	}
	for _, x := range readings {
		names[x.ID] = Subject{Path: x.Ref, Name: x.Name}
	}
	for _, s := range res.Suspects {
		if len(r.Suspects) == 5 || !(s.Explains && res.Refused || math.Abs(s.Strain) > 2) {
			break
		}
		n := names[s.ID]
		n.Name = fmt.Sprintf("%s, off by %s", n.Name, Kg(s.By).Text(unit.Metric))
		r.Suspects = append(r.Suspects, n)
	}
	if !res.Refused {
		w.shifts(&r, res, loads, all)
	}
	return r
}

// aboardWhenWeighed returns what was aboard beside the fitted van: fills and the driver.
func (w *Weight) aboardWhenWeighed(z *doc.Weighing) []axle.Load {
	if z.Stage == "part" {
		return nil
	}
	var out []axle.Load
	for _, f := range z.Fills {
		for i := range w.In.Tanks {
			t := &w.In.Tanks[i]
			if m := f.Level.Else(0).Of(t.Full.V); t.ID == f.Tank && m > 0 {
				out = append(out, axle.Load{ID: z.ID + "-" + t.ID, Name: "contents of " + t.Name + " when weighed", Ref: t.Path, Mass: m, Half: m.Times(0.03), At: t.At})
			}
		}
	}
	if d := z.Driver.Else(0); d > 0 {
		for _, s := range w.In.Seats {
			if s.Driver {
				out = append(out, axle.Load{ID: z.ID + "-driver", Name: "driver when weighed", Ref: s.Path, Mass: d, Half: unit.Kilogram, At: s.At})
			}
		}
	}
	return out
}

// readings turns one visit to the scale into readings.
func (w *Weight) readings(z *doc.Weighing, aboard []string) []axle.Reading {
	g := w.Geometry
	half := z.Division.Else(10 * unit.Kilogram)
	ref := "weighings/" + z.ID
	when := z.Stage
	if d, ok := z.Date.Get(); ok {
		when += fmt.Sprintf(" %04d-%02d-%02d", d.Year, d.Month, d.Day)
	}
	var out []axle.Reading
	add := func(key, name string, m axle.Measure, e doc.Opt[unit.MassEst], of []string) {
		x, ok := e.Get()
		if !ok {
			return
		}
		h := x.Half().Else(half)
		out = append(out, axle.Reading{ID: z.ID + "/" + key, Name: name + ", " + when, Ref: ref, Measure: m, Value: x.Value, Half: h, Of: of})
	}
	if z.Stage == "part" || len(z.Items) > 0 && z.Pieces.Given() {
		add("pieces", "hook scale", axle.Total(), z.Pieces, z.Items)
		return out
	}
	add("total", "total", axle.Total(), z.Total, aboard)
	add("front", "front axle", g.Front(), z.Front, aboard)
	add("rear", "rear axle", g.Rear(), z.Rear, aboard)
	add("left", "left side", g.Left(), z.Left, aboard)
	add("right", "right side", g.Right(), z.Right, aboard)
	corner := func(a, b doc.Opt[unit.MassEst]) doc.Opt[unit.MassEst] {
		x, okX := a.Get()
		y, okY := b.Get()
		if !okX || !okY {
			return doc.Opt[unit.MassEst]{}
		}
		hx, hy := x.Half().Else(half).Kilograms(), y.Half().Else(half).Kilograms()
		return unit.Some(unit.MassEst{Value: x.Value + y.Value, Spread: unit.Spread{Kind: unit.Absolute, Abs: math.Hypot(hx, hy)}})
	}
	if !z.Front.Given() {
		add("front-corners", "front axle from its corners", g.Front(), corner(z.FrontLeft, z.FrontRight), aboard)
	}
	if !z.Rear.Given() {
		add("rear-corners", "rear axle from its corners", g.Rear(), corner(z.RearLeft, z.RearRight), aboard)
	}
	if !z.Left.Given() && !z.Right.Given() {
		add("left-corners", "left side from its corners", g.Left(), corner(z.FrontLeft, z.RearLeft), aboard)
	}
	return out
}

// shifts tells what the weighings change: each load that moves by a kilogram or more, and the dry van.
func (w *Weight) shifts(r *Reconciled, res axle.Reconciled, loads []axle.Load, fitted []string) {
	for _, p := range res.Posteriors {
		if p.Load.ID == derive.UnlistedID {
			r.Unlisted, r.NotListed = p.Mass, true
		}
		if math.Abs(p.Adjusted.Kilograms()) >= 0.5 && slices.Contains(fitted, p.Load.ID) {
			r.Shifts = append(r.Shifts, Shift{Subject: subject(&p.Load), Before: p.Prior, After: p.Mass, HalfBefore: p.PriorHalf, Half: p.Half})
		}
	}
	slices.SortStableFunc(r.Shifts, func(a, b Shift) int {
		x, y := math.Abs((a.After - a.Before).Kilograms()), math.Abs((b.After - b.Before).Kilograms())
		switch {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	var after []axle.Load
	for _, l := range res.Loads() {
		if slices.Contains(fitted, l.ID) {
			after = append(after, l)
		}
	}
	split, err := axle.Sum(w.Geometry, after)
	if err != nil {
		return
	}
	for _, m := range []axle.Measure{axle.Total(), w.Geometry.Front(), w.Geometry.Rear()} {
		b, okB := w.Sum.Read(m).Get()
		a, okA := split.Read(m).Get()
		if !okA || !okB {
			continue
		}
		row := AxleAfter{Name: m.Name + ", dry van", Before: b, After: a}
		if d, err := w.Sum.Spread(w.shared, m, 0); err == nil {
			row.HalfBefore = d.Half
		}
		row.Half = res.Half(m).Else(row.HalfBefore)
		r.Axles = append(r.Axles, row)
	}
}

// Slip is the certificate behind a reconciliation.
func (r Reconciled) Slip() Slip {
	return Slip{Key: "reconcile", Title: "Weighings against the sum of parts", Certificates: []calc.Certificate{r.Result.Certificate()}}
}
