package check

import (
	"math"

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
		var pose [2]int
		for a := range s {
			for b := range s {
				if m := min(w-s[a], h-s[b]); a != b && m > best {
					best, pose = m, [2]int{a, b}
				}
			}
		}
		spare := best
		x.Value, x.Limit, x.Margin = unit.Some(mm(min(w, h))), unit.Some(mm(min(w, h)-best)), unit.Some(mm(best))
		x.Verdict = Judge(best.Millimetres(), 0)
		code := "garage-holds"
		if best < 0 {
			code, best = "garage-fails", -best
		}
		x.Says = say(code, k.Name, f.In.Names[k.In], mm(w), mm(h), mm(best))
		f.show(&x, func(sl *Slip) {
			sl.Title = k.Name + " through the opening of " + f.In.Names[k.In]
			sl.Workings = append(sl.Workings, calc.Working{ID: "fit.garage", Title: sl.Title, Steps: []calc.Step{
				known("w", "clear width of the opening", w, use.Path+"/clear-width"), known("h", "clear height of the opening", h, use.Path+"/clear-height"),
				known("a", "its size across the opening", s[pose[0]], k.Size[pose[0]].Path), known("b", "its size up", s[pose[1]], k.Size[pose[1]].Path),
				follows("d", "to spare in the better way", "min(w - a, h - b)", spare),
			}, Notes: []string{"All six ways of holding a box straight are tried and the best is shown; holding it slanting is not counted."}})
		})
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
		f.show(&x, func(s *Slip) {
			s.Title = "Height of " + u.Name
			s.Workings = append(s.Workings, calc.Working{ID: "fit.height", Title: s.Title, Steps: []calc.Step{
				known("h", "height over the finished floor", u.High.V, u.Path), usualStep("h_0", "usual, from", want.low), usualStep("h_1", "usual, to", want.high),
				follows("d", "within it by", "min(h - h_0, h_1 - h)", off)}})
		})
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
		f.show(&x, func(s *Slip) {
			s.Title = "Angle of " + u.Name
			step := func(symbol, says string, v float64, kind calc.Kind) calc.Step {
				return calc.Step{Symbol: symbol, Says: says, Kind: kind, SI: radians(v), Show: showDeg, Source: []calc.Cite{byPractice1}}
			}
			given := calc.Step{Symbol: "a", Says: "to the floor", Kind: calc.Given, SI: radians(d), Show: showDeg, Ref: u.Path + "/angle"}
			s.Workings = append(s.Workings, calc.Working{ID: "fit.ladder", Title: s.Title, Steps: []calc.Step{given, step("a_0", "climbs well, from", ladderLow, calc.Assumed), step("a_1", "climbs well, to", ladderHigh, calc.Assumed),
				{Symbol: "d", Says: "within it by", Kind: calc.Derived, Formula: "min(a - a_0, a_1 - a)", SI: radians(off), Show: showDeg}}})
		})
		out = append(out, x)
		if travel, night := f.state(derive.Travel).Body(u.ID), f.state(derive.Night).Body(u.ID); travel != nil && night != nil && travel.Box == night.Box {
			out = append(out, Finding{Check: "fit-ladder-stowed", Title: "Ladder", State: string(derive.Travel), Case: "ladder", Subject: u.ID, Rule: "usual", Advisory: true, Verdict: DoesNotHold, Level: calc.Unsourced, Subjects: []Subject{bodySubject(travel)},
				Says: say("ladder-stowed", u.Name), Advice: "say where it is stowed while driving"})
		}
	}
	return out
}
