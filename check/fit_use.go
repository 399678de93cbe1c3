package check

import (
	"fmt"
	"math"
	"slices"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/unit"
)

// runGarage sends what is carried through the opening it goes through: a box in any of its six poses, never slanting.
func runGarage(f *Fit) []Finding {
	var out []Finding
	for i := range f.In.Carried {
		k := &f.In.Carried[i]
		if k.In == "" {
			continue
		}
		x := Finding{State: string(derive.Travel), Case: "garage", Subject: k.ID, Rule: "through-opening", Level: calc.Seen, Subjects: []Subject{{Path: k.Path, Name: k.Name}, {Path: "items/" + k.In, Name: f.In.Names[k.In]}}}
		var use *derive.FitUse
		for j := range f.In.Uses {
			if f.In.Uses[j].ID == k.In {
				use = &f.In.Uses[j]
			}
		}
		if use == nil || !use.Use.Wide.Given() || !use.Use.Tall.Given() {
			x.Missing = append(x.Missing, Subject{Path: "items/" + k.In + "/use", Name: "clear width and height of the opening of " + f.In.Names[k.In]})
		}
		for j := range k.Size {
			if !k.Size[j].Known() {
				x.Missing = append(x.Missing, Subject{Path: k.Size[j].Path, Name: "size of " + k.Name})
				break
			}
		}
		if len(x.Missing) > 0 {
			x.Says = say("garage-unknown", k.Name, missingWords(x.Missing))
			out = append(out, x)
			continue
		}
		w, h := use.Use.Wide.Else(0), use.Use.Tall.Else(0)
		s := [3]unit.Length{k.Size[0].V, k.Size[1].V, k.Size[2].V}
		best := unit.Length(math.MinInt64)
		for a := range s {
			for b := range s {
				if a != b {
					best = max(best, min(w-s[a], h-s[b]))
				}
			}
		}
		x.Value, x.Limit, x.Margin = unit.Some(mm(min(w, h))), unit.Some(mm(min(w, h)-best)), unit.Some(mm(best))
		x.Verdict = Judge(best.Millimetres(), 0)
		code := "garage-holds"
		if best < 0 {
			code, best = "garage-fails", -best
		}
		x.Says = say(code, k.Name, f.In.Names[k.In], mm(w), mm(h), mm(best))
		out = append(out, x)
	}
	return out
}

// Heights people find usual, above the finished floor (common practice, no source).
var usual = map[string]struct {
	low, high unit.Length
	name      string
}{
	"worktop": {850 * unit.Millimetre, 950 * unit.Millimetre, "worktop"}, "table": {680 * unit.Millimetre, 760 * unit.Millimetre, "table"},
	"seat": {400 * unit.Millimetre, 500 * unit.Millimetre, "seat"}, "desk": {680 * unit.Millimetre, 760 * unit.Millimetre, "desk"},
	"hob": {850 * unit.Millimetre, 970 * unit.Millimetre, "hob"}, "sink": {830 * unit.Millimetre, 950 * unit.Millimetre, "sink"},
}

// runHeights says which heights are unusual; an advice, never a limit.
func runHeights(f *Fit) []Finding {
	var out []Finding
	for i := range f.In.Uses {
		u := &f.In.Uses[i]
		want, ok := usual[u.Use.As]
		if !ok {
			continue
		}
		x := Finding{State: string(derive.Camp), Case: "use", Subject: u.ID, Rule: "usual-height", Advisory: true, Level: calc.Unsourced, Subjects: []Subject{{Path: u.Path, Name: u.Name}}}
		if !u.High.Known() {
			continue
		}
		off := min(u.High.V-want.low, want.high-u.High.V)
		x.Value, x.Margin = unit.Some(mm(u.High.V)), unit.Some(mm(off))
		x.Verdict = Judge(off.Millimetres(), 0)
		x.Says = say("usual-height", u.Name, mm(u.High.V), want.name, mm(want.low), mm(want.high))
		out = append(out, x)
	}
	return out
}

// Angles of a ladder to the floor that people climb well (common practice, no source).
const ladderLow, ladderHigh = 60.0, 75.0

// runLadder judges the angle of a bunk ladder and whether it is stowed in travel.
func runLadder(f *Fit) []Finding {
	var out []Finding
	for i := range f.In.Uses {
		u := &f.In.Uses[i]
		if u.Use.As != "ladder" {
			continue
		}
		x := Finding{State: string(derive.Night), Case: "ladder", Subject: u.ID, Rule: "ladder-angle", Advisory: true, Level: calc.Unsourced, Subjects: []Subject{{Path: u.Path, Name: u.Name}}}
		a, ok := u.Use.Angle.Get()
		if !ok {
			x.Missing = []Subject{{Path: u.Path + "/angle", Name: "the angle of " + u.Name}}
			x.Says = say("ladder-unknown", u.Name)
			out = append(out, x)
			continue
		}
		d := a.Degrees()
		off := min(d-ladderLow, ladderHigh-d)
		fig := func(v float64) Figure { return Figure{Kind: unit.KindAngle, SI: v * unit.Degree.Radians()} }
		x.Value, x.Margin = unit.Some(fig(d)), unit.Some(fig(off))
		x.Verdict = Judge(off, 0)
		x.Says = say("ladder", u.Name, fig(d), fig(ladderLow), fig(ladderHigh))
		out = append(out, x)
	}
	return out
}

// runOverall says how long, wide and high the van is with everything on, by state; figures, no limit.
func runOverall(f *Fit) []Finding {
	v := f.In.Van
	if !v.Length.Known() || !v.Width.Known() || !v.Height.Known() || !v.FloorHigh.Known() || !v.Overhang.Known() {
		return nil
	}
	var out []Finding
	last := ""
	for si := range f.In.States {
		st := &f.In.States[si]
		front, rear := -v.Overhang.V, v.Length.V-v.Overhang.V
		left, right, top := -v.Width.V.Half(), v.Width.V.Half(), v.Height.V
		var on []Subject
		for i := range st.Bodies {
			b := &st.Bodies[i]
			grows := false
			grow := func(limit *unit.Length, is unit.Length, less bool) {
				if less && is < *limit || !less && is > *limit {
					*limit, grows = is, true
				}
			}
			grow(&front, b.Box.Min.X, true)
			grow(&rear, b.Box.Max.X, false)
			grow(&left, b.Box.Min.Y, true)
			grow(&right, b.Box.Max.Y, false)
			grow(&top, b.Box.Max.Z+v.FloorHigh.V, false)
			if grows {
				on = append(on, bodySubject(b))
			}
		}
		says := fmt.Sprintf("%s long, %s wide, %s high", length(rear-front), length(right-left), length(top))
		if says == last {
			continue
		}
		last = says
		out = append(out, Finding{State: string(st.State), Case: "overall", Rule: "overall-size", Advisory: true, Verdict: Holds, Level: calc.Unsourced, Value: unit.Some(mm(top)), Subjects: on,
			Says: say("overall", string(st.State), says), Caution: "height limits of car parks, ferries and tolls are for the van as loaded: measure it"})
	}
	return out
}

// heldAbove is the mass above which an item is listed for its fixing, wherever it is.
const heldAbove = 5 * unit.Kilogram

// pull is the deceleration that the arithmetic is shown for, in multiples of gravity. No published factor for furniture is known;
// the figure is common practice, no source.
const pull = 10.0

// runRestraint shows what each fixing would have to take, worst first: arithmetic only, never a verdict.
func runRestraint(f *Fit) []Finding {
	type row struct {
		k   *derive.FitFixing
		per float64
	}
	var rows []row
	shoulder := 1050 * unit.Millimetre
	for i := range f.In.Fixings {
		k := &f.In.Fixings[i]
		if k.Mass <= heldAbove && k.High <= shoulder || k.Group == "lining" || k.Mass <= unit.Kilogram {
			continue
		}
		n := k.Fixing.Count.Else(0)
		per := k.Mass.Kilograms() * pull * standardGravity
		if n > 0 {
			per /= float64(n)
		}
		rows = append(rows, row{k, per})
	}
	slices.SortStableFunc(rows, func(a, b row) int {
		switch {
		case a.per > b.per:
			return -1
		case a.per < b.per:
			return 1
		}
		return 0
	})
	var out []Finding
	for i, r := range rows {
		if i == 12 {
			break
		}
		k := r.k
		force := Figure{Kind: unit.KindForce, SI: k.Mass.Kilograms() * pull * standardGravity}
		x := Finding{State: string(derive.Travel), Case: "restraint", Subject: k.ID, Rule: "restraint", Advisory: true, Level: calc.Unsourced, Value: unit.Some(force),
			Subjects: []Subject{{Path: k.Path, Name: k.Name}}, Basis: "contents full, at ten times gravity; no published factor for furniture is known",
			Caution: "arithmetic only: bolts, inserts and what they pull out of are judged by the people who fit and examine them"}
		if n, ok := k.Fixing.Count.Get(); !ok || n == 0 {
			x.Missing = []Subject{{Path: k.Path, Name: "how " + k.Name + " is held"}}
			x.Says = say("held-unknown", k.Name, Kg(k.Mass), force)
			out = append(out, x)
			continue
		}
		x.Verdict = Holds
		x.Says = say("held", k.Name, Kg(k.Mass), force, fmt.Sprintf("%d", k.Fixing.Count.Else(1)), Figure{Kind: unit.KindForce, SI: r.per})
		if each, ok := k.Fixing.Each.Get(); ok {
			x.Says = say("held-each", k.Name, Kg(k.Mass), force, fmt.Sprintf("%d", k.Fixing.Count.Else(1)), Figure{Kind: unit.KindForce, SI: r.per}, Figure{Kind: unit.KindForce, SI: each.Newtons()})
			if each.Newtons() < r.per {
				x.Verdict = DoesNotHold
			}
		}
		out = append(out, x)
	}
	return out
}

// standardGravity is in m/s², exact by convention (CGPM 1901, from memory).
const standardGravity = 9.80665
