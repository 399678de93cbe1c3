package check

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/geom"
	"berthwright/rules"
	"berthwright/unit"
)

// pressed is the share of its thickness a mattress keeps under a sleeper (common practice, no source).
const pressed = 0.70

// levels returns the underside and the lain-on height of a berth: the top of its body is the mattress, not laden.
func levels(b *derive.FitBerth) (low, lain unit.Length) {
	thick := b.Berth.Mattress.Else(b.Box.Max.Z - b.Box.Min.Z)
	low = b.Box.Max.Z - thick
	return low, low + thick.Times(pressed)
}

// runBerths judges length, width, free height, guard and load of each berth, then their number.
func runBerths(f *Fit) []Finding {
	var out []Finding
	slept := 0
	for i := range f.In.Berths {
		b := &f.In.Berths[i]
		slept += b.Berth.People.Else(1)
		if !b.Placed {
			out = append(out, f.berth(b, "place", Finding{Missing: []Subject{{Path: b.Path, Name: "the place of " + b.Name + " at night"}}, Says: say("berth-place", b.Name)}))
			continue
		}
		out = append(out, f.berthLength(b), f.berthWidth(b))
		out = append(out, f.berthHeight(b)...)
		out = append(out, f.guard(b)...)
		out = append(out, f.bedLoad(b)...)
	}
	out = append(out, f.berthCount(slept)...)
	return append(out, f.taxBed()...)
}

func (f *Fit) berth(b *derive.FitBerth, what string, x Finding) Finding {
	x.Check, x.State, x.Case, x.Subject = "fit-berth-"+what, string(derive.Night), "beds", b.ID
	x.Title = "Berth: " + b.Name
	mid := func(a, c unit.Length) unit.Opt[unit.Length] { return unit.Some(a + (c - a).Half()) }
	if b.Placed {
		x.Subjects = append(x.Subjects, Subject{Path: b.Path, Name: b.Name, At: [3]unit.Opt[unit.Length]{mid(b.Box.Min.X, b.Box.Max.X), mid(b.Box.Min.Y, b.Box.Max.Y), mid(b.Box.Min.Z, b.Box.Max.Z)}})
	}
	return x
}

// wanted is the length a berth must have: what was promised, else the tallest sleeper it is meant for.
func (f *Fit) wanted(b *derive.FitBerth) (unit.Length, string, bool) {
	if l, ok := b.Berth.Length.Get(); ok {
		return l, "promised length", true
	}
	tallest := unit.Length(0)
	for _, p := range f.In.People {
		if p.Child == b.Berth.Child.Else(false) && p.Height.Known() {
			tallest = max(tallest, p.Height.V)
		}
	}
	return tallest, "tallest sleeper", tallest > 0
}

// berthLength compares the clear length at mattress height, between the real walls, with what is wanted.
func (f *Fit) berthLength(b *derive.FitBerth) Finding {
	want, why, ok := f.wanted(b)
	x := Finding{Rule: "promise", Level: calc.Seen, Basis: "between the lined walls at mattress height, the mattress pressed by 30 %"}
	have := b.Box.Max.X - b.Box.Min.X
	taper := ""
	var steps []calc.Step
	if b.Berth.Across.Else(false) {
		have = b.Box.Max.Y - b.Box.Min.Y
		low, lain := levels(b)
		if !f.Shape {
			x.Missing = []Subject{{Path: "van/shell/sections", Name: "the inner shape of the van (" + f.ShapeWhy + ")"}}
			x.Says = say("berth-unknown", b.Name, "length", missingWords(x.Missing))
			return f.berth(b, "length", x)
		}
		a, err := f.in(derive.Night).Across(b.Box.Min.X, b.Box.Max.X, low, lain+100*unit.Millimetre)
		var out geom.RangeError
		switch {
		case errors.As(err, &out):
			x.Missing = []Subject{{Path: "van/shell/sections", Name: "a cross-section at each end of " + b.Name}}
			x.Says = say("berth-unknown", b.Name, "length", missingWords(x.Missing))
			return f.berth(b, "length", x)
		case err != nil:
			x.Says = say("berth-unknown", b.Name, "length", err.Error())
			return f.berth(b, "length", x)
		}
		steps = f.bedSteps(b, low, lain, have, a)
		have = min(have, a.Narrowest)
		if d := a.Front - a.Rear; d > 5*unit.Millimetre || d < -5*unit.Millimetre {
			taper = fmt.Sprintf(", tapering from %s ahead to %s behind", length(a.Front), length(a.Rear))
		}
		if a.Narrowest < b.Box.Max.Y-b.Box.Min.Y {
			taper += "; the walls press into the mattress"
		}
	}
	if !ok {
		x.Missing = []Subject{{Path: b.Path + "/length", Name: "a promised length or the height of a sleeper"}}
		x.Value = unit.Some(mm(have))
		x.Says = say("berth-no-promise", b.Name, mm(have), "long"+taper)
		return f.berth(b, "length", x)
	}
	x = f.berth(b, "length", atLeast(x, "berth-long", b.Name, have, want, why+taper, f.halfShape()))
	f.show(&x, lengthSlip("Length of "+b.Name, have, want, "length of the mattress", why, b.Path, steps...))
	return x
}

// bedSteps shows the length between the walls: the height the mattress is pressed to, the walls at both ends and where it is
// narrowest.
func (f *Fit) bedSteps(b *derive.FitBerth, low, lain, mattress unit.Length, a geom.Across) []calc.Step {
	thick := b.Berth.Mattress.Else(b.Box.Max.Z - b.Box.Min.Z)
	steps := []calc.Step{
		known("t", "thickness of the mattress, not laden", thick, b.Path+"/mattress"),
		known("z_0", "its underside over the bare floor", low, b.Path),
		{Symbol: "k", Says: "left of it under a sleeper", Kind: calc.Assumed, SI: pressed, Show: calc.Show{Unit: "%", Factor: 0.01}, Source: []calc.Cite{byPractice1}},
		follows("z_1", "height a sleeper lies at", "z_0 + k * t", lain),
	}
	sh := f.in(derive.Night)
	wall := func(symbol, says string, face geom.Face, x unit.Length) (unit.Length, bool) {
		y, err := sh.Wall(face, x, lain)
		if err == nil {
			steps = append(steps, known(symbol, says, y, "van/shell/sections"))
		}
		return y, err == nil
	}
	for _, end := range [2]struct {
		at   string
		x    unit.Length
		wide unit.Length
	}{{"front", b.Box.Min.X, a.Front}, {"rear", b.Box.Max.X, a.Rear}} {
		l, okL := wall("l_"+end.at, "lined left wall at the "+end.at+" edge, at that height", geom.LeftWall, end.x)
		r, okR := wall("r_"+end.at, "lined right wall there", geom.RightWall, end.x)
		if okL && okR {
			steps = append(steps, follows("w_"+end.at, "between them", "r_"+end.at+" - l_"+end.at, r-l))
		}
	}
	return append(steps,
		known("w", "least width from the underside of the mattress to 100 mm over it, anywhere along the bed", a.Narrowest, "van/shell/sections"),
		known("m", "length of the mattress", mattress, b.Path),
		follows("L", "clear length", "min(w, m)", min(a.Narrowest, mattress)))
}

// halfShape is the 95 % half-width of a length between walls: that of the sections, or 30 mm for a class's shape.
func (f *Fit) halfShape() unit.Length {
	if f.assumedShape() {
		return 30 * unit.Millimetre
	}
	half := unit.Length(0)
	for _, s := range f.In.Shell.Sections {
		half = max(half, s.Half)
	}
	return half
}

// atLeast judges a length that must be at least another.
func atLeast(x Finding, code, name string, have, want unit.Length, why string, half unit.Length) Finding {
	x.Value, x.Limit, x.Margin, x.Half = unit.Some(mm(have)), unit.Some(mm(want)), unit.Some(mm(have-want)), unit.Some(mm(half))
	x.Verdict = Judge((have - want).Millimetres(), half.Millimetres())
	word := "enough"
	switch x.Verdict {
	case DoesNotHold:
		word = "short by " + length(want-have)
	case Tight:
		word = "just enough, known to ± " + length(half)
	}
	x.Says = say(code, name, mm(have), mm(want), why, word)
	return x
}

func (f *Fit) berthWidth(b *derive.FitBerth) Finding {
	x := Finding{Rule: "promise", Level: calc.Seen, Basis: "the mattress"}
	have := b.Box.Max.Y - b.Box.Min.Y
	if b.Berth.Across.Else(false) {
		have = b.Box.Max.X - b.Box.Min.X
	}
	want, ok := b.Berth.Width.Get()
	if !ok {
		x.Missing = []Subject{{Path: b.Path + "/width", Name: "a promised width"}}
		x.Value = unit.Some(mm(have))
		x.Says = say("berth-no-promise", b.Name, mm(have), "wide")
		return f.berth(b, "width", x)
	}
	x = f.berth(b, "width", atLeast(x, "berth-wide", b.Name, have, want, "promised width", 0))
	f.show(&x, lengthSlip("Width of "+b.Name, have, want, "width of the mattress", "promised width", b.Path))
	return x
}

// planArea is overall length times width.
func (f *Fit) planArea() (unit.Area, bool) {
	l, w := f.In.Van.Length, f.In.Van.Width
	if !l.Known() || !w.Known() {
		return 0, false
	}
	return unit.SquareMetre * unit.Area(l.V.Metres()*w.V.Metres()), true
}

// berthHeight finds the free height over a bunk: from the pressed mattress to the lowest body or the ceiling above it, over the share
// of the bunk that the standard's row names. Each published row is told; the stricter one is judged.
func (f *Fit) berthHeight(b *derive.FitBerth) []Finding {
	area, okArea := f.planArea()
	rows := f.Pack.Find("bunk-space")
	if len(rows) == 0 {
		return nil
	}
	x := Finding{Rule: "bunk-space", Basis: "from the mattress, not laden, to what is above it"}
	st := f.state(derive.Night)
	if !okArea || st == nil {
		x.Missing = []Subject{{Path: "van/length", Name: "overall length and width"}}
		x.Says = say("berth-unknown", b.Name, "free height", missingWords(x.Missing))
		return one(f.berth(b, "height", x))
	}
	free := f.freeHeights(b, st)
	if len(free) == 0 {
		x.Missing = []Subject{{Path: "van/shell/sections", Name: "the ceiling over " + b.Name}}
		x.Says = say("berth-unknown", b.Name, "free height", missingWords(x.Missing))
		return one(f.berth(b, "height", x))
	}
	var worst Finding
	var notes []string
	var tell func(*Slip)
	for i, r := range rows {
		limit, _ := r.Value("area")
		highName, partName := "high-small", "part-small"
		if area.SquareMetres() > limit.SI {
			highName, partName = "high", "part"
		}
		high, _ := r.Value(highName)
		part, _ := r.Value(partName)
		have := free[min(int(float64(len(free))*(1-part.SI)+0.5), len(free)-1)]
		want := unit.MetresLength(high.SI)
		y := atLeast(x, "berth-high", b.Name, have, want, fmt.Sprintf("over %.0f %% of the bunk, %s, plan area %.2f m²", part.SI*100, r.Edition, area.SquareMetres()), f.halfShape())
		y.Level, y.Sources = r.Level, []calc.Cite{r.Cite, byGeometry}
		notes = append(notes, fmt.Sprintf("%s asks %s", r.Edition, length(want)))
		if i == 0 || Worse(&y, &worst) {
			worst, tell = y, heightSlip(b, free, have, r, highName, partName, area, f.In.Van)
		}
	}
	worst.Basis += "; " + strings.Join(notes, ", ")
	worst = f.berth(b, "height", worst)
	f.show(&worst, tell)
	return one(worst)
}

func (f *Fit) state(s derive.State) *derive.FitState {
	for i := range f.In.States {
		if f.In.States[i].State == s {
			return &f.In.States[i]
		}
	}
	return nil
}

// cell is the grid over a bunk on which free heights are taken.
const bunkCell = 100 * unit.Millimetre

// freeHeights returns the free height over each cell of a bunk, rising. It is empty when the ceiling is not known.
func (f *Fit) freeHeights(b *derive.FitBerth, st *derive.FitState) []unit.Length {
	top := b.Box.Max.Z
	var out []unit.Length
	sh := f.in(derive.Night)
	for x := b.Box.Min.X + bunkCell.Half(); x < b.Box.Max.X; x += bunkCell {
		for y := b.Box.Min.Y + bunkCell.Half(); y < b.Box.Max.Y; y += bunkCell {
			over := unit.Length(-1)
			if f.Shape {
				if h, err := sh.CeilingAt(geom.Vec2{X: x, Y: y}); err == nil {
					over = h
				}
			}
			if over < 0 && f.In.Van.Ceiling.Known() {
				over = f.In.Van.Ceiling.V
			}
			if over < 0 {
				return nil
			}
			for i := range st.Bodies {
				k := &st.Bodies[i]
				if k.ID != b.ID && !k.Outside && !k.Wall && k.Box.Min.Z >= top && k.Box.Min.Z < over && k.Box.Min.X < x && x < k.Box.Max.X && k.Box.Min.Y < y && y < k.Box.Max.Y {
					over = k.Box.Min.Z
				}
			}
			out = append(out, over-top)
		}
	}
	slices.SortFunc(out, func(a, b unit.Length) int { return cmp.Compare(a, b) })
	return out
}

// guard asks for a guard on a high bunk.
func (f *Fit) guard(b *derive.FitBerth) []Finding {
	rule := f.Pack.Stricter("bunk-guard", "above")
	least := f.Pack.Stricter("bunk-guard", "guard")
	if !rule.Known || !f.In.Van.Finished.Known() {
		return nil
	}
	high := b.Box.Max.Z - f.In.Van.Finished.V
	limit := unit.MetresLength(rule.Value.SI)
	if high <= limit {
		return nil
	}
	x := Finding{Rule: "bunk-guard", Level: rule.Rule.Level, Sources: []calc.Cite{rule.Rule.Cite, byGeometry}, Caution: "a high bunk is not for children below six; say so beside it"}
	g, ok := b.Berth.Guard.Get()
	if !ok {
		x.Verdict, x.Value, x.Limit = DoesNotHold, unit.Some(mm(high)), unit.Some(mm(limit))
		x.Margin = unit.Some(mm(limit - high))
		x.Says = say("no-guard", b.Name, mm(high), mm(limit))
		x.Advice = "fit a guard and write its height above the mattress"
		x = f.berth(b, "guard", x)
		f.show(&x, func(s *Slip) {
			s.Title = "Height of " + b.Name
			s.Workings = append(s.Workings, calc.Working{ID: "fit.guard", Title: s.Title, Steps: []calc.Step{
				known("z", "top of the mattress over the bare floor", b.Box.Max.Z, b.Path), known("f", "finished floor", f.In.Van.Finished.V, f.In.Van.Finished.Path), follows("h", "over the finished floor", "z - f", high),
				{Symbol: "h_0", Says: "no guard is asked for up to", Kind: calc.Limit, SI: limit.Metres(), Dim: calc.DimLength, Show: showMM, Source: []calc.Cite{rule.Rule.Cite}, Level: rule.Rule.Level}, follows("d", "in hand", "h_0 - h", limit-high)}})
		})
		return one(x)
	}
	want := unit.MetresLength(least.Value.SI)
	x = f.berth(b, "guard", atLeast(x, "guard", b.Name, g, want, "guard above the mattress", 0))
	f.show(&x, lengthSlip("Guard of "+b.Name, g, want, "guard above the mattress", "least height of a guard", b.Path+"/guard"))
	return one(x)
}

// bedLoad compares what a bed is said to carry with its sleepers.
func (f *Fit) bedLoad(b *derive.FitBerth) []Finding {
	n := b.Berth.People.Else(1)
	per := 75 * unit.Kilogram
	if p := f.Pack.Stricter("person-mass", "mass"); p.Known {
		per = unit.Mass(p.Value.SI)
	}
	if b.Berth.Child.Else(false) {
		heaviest := unit.Mass(0)
		for _, p := range f.In.People {
			if p.Child {
				heaviest = max(heaviest, p.Mass.V)
			}
		}
		if heaviest > 0 {
			per = heaviest
		}
	} else {
		for _, p := range f.In.People {
			per = max(per, p.Mass.V)
		}
	}
	x := Finding{Rule: "bed-load", Level: calc.Seen, Basis: "the heavier of the counted and the own mass, for each sleeper"}
	load, ok := b.Berth.Load.Get()
	want := per.Times(float64(n))
	if !ok {
		x.Missing = []Subject{{Path: b.Path + "/load", Name: "what " + b.Name + " is said to carry"}}
		x.Says = say("bed-load-unknown", b.Name, Kg(want))
		return one(f.berth(b, "load", x))
	}
	m := load - want
	x.Value, x.Limit, x.Margin = unit.Some(Kg(load)), unit.Some(Kg(want)), unit.Some(Kg(m))
	x.Verdict = Judge(m.Kilograms(), 0)
	x.Says = say("bed-load", b.Name, Kg(load), Kg(want))
	x.Caution = "what a bed carries is its builder's figure; nothing here computes its strength"
	x = f.berth(b, "load", x)
	f.show(&x, func(s *Slip) {
		s.Title = "Load of " + b.Name
		mass := func(symbol, says string, m unit.Mass, kind calc.Kind, formula string) calc.Step {
			return calc.Step{Symbol: symbol, Says: says, Kind: kind, Formula: formula, SI: m.Kilograms(), Dim: calc.DimMass, Show: showKg}
		}
		s.Workings = append(s.Workings, calc.Working{ID: "fit.bed-load", Title: s.Title, Steps: []calc.Step{
			mass("p", "the heavier of the counted and the own mass of a sleeper", per, calc.Given, ""), {Symbol: "n", Says: "sleepers", Kind: calc.Given, SI: float64(n), Ref: b.Path + "/people"},
			mass("P", "its sleepers", want, calc.Derived, "n * p"), mass("C", "what it is said to carry", load, calc.Given, ""), mass("d", "to spare", m, calc.Derived, "C - P")}})
	})
	return one(x)
}

// berthCount compares berths with the party and with what was promised.
func (f *Fit) berthCount(slept int) []Finding {
	var out []Finding
	row := func(subject string, want int, why string) {
		x := Finding{Check: "fit-berths", Title: "Berths", State: string(derive.Night), Case: "beds", Subject: subject, Rule: "promise", Level: calc.Seen}
		x.Value, x.Limit, x.Margin = unit.Some(plain(slept)), unit.Some(plain(want)), unit.Some(plain(slept-want))
		x.Verdict = Judge(float64(slept-want), 0)
		x.Says = say("berths", plain(slept), plain(want), why)
		out = append(out, x)
	}
	if len(f.In.Berths) == 0 {
		return nil
	}
	if n := len(f.In.People); n > 0 {
		row("party", n, "people of the party")
	}
	for _, p := range f.In.Promise {
		if n, ok := p.Count.Get(); ok && p.What == "berths" {
			row(p.ID, n, "promised")
		}
	}
	return out
}

// taxBed tells whether one bed is long enough for the tax definition of a motor caravan.
func (f *Fit) taxBed() []Finding {
	rule := f.Pack.Stricter("registration-bed", "length")
	if !rule.Known || len(f.In.Berths) == 0 {
		return nil
	}
	longest := unit.Length(0)
	for i := range f.In.Berths {
		b := &f.In.Berths[i]
		l := b.Box.Max.X - b.Box.Min.X
		if b.Berth.Across.Else(false) {
			l = b.Box.Max.Y - b.Box.Min.Y
		}
		longest = max(longest, l)
	}
	x := Finding{Check: "fit-registration", Title: "Registration", State: string(derive.Night), Case: "beds", Subject: "bed", Rule: "registration-bed", Level: rule.Rule.Level,
		Sources: []calc.Cite{rule.Rule.Cite, byGeometry}, Caution: "the authority decides; rules change"}
	want := unit.MetresLength(rule.Value.SI)
	x = atLeast(x, "berth-long", "longest bed", longest, want, "tax definition of a motor caravan", 0)
	f.show(&x, lengthSlip("Longest bed", longest, want, "longest bed", "tax definition of a motor caravan", ""))
	return one(x)
}

// heightSlip is the certificate of a free height: the height that so much of the bunk has, found cell by cell.
func heightSlip(b *derive.FitBerth, free []unit.Length, have unit.Length, r rules.Rule, highName, partName string, area unit.Area, v derive.Van) func(*Slip) {
	return func(s *Slip) {
		s.Title = "Free height over " + b.Name
		enough, lower := 0, 0
		for _, h := range free {
			if h < have {
				lower++
			} else {
				enough++
			}
		}
		high, _ := r.Step("h_0", highName)
		part, _ := r.Step("p", partName)
		s.Workings = append(s.Workings, calc.Working{ID: "fit.plan-area", Title: "Plan area", Steps: []calc.Step{
			known("l", "overall length", v.Length.V, v.Length.Path), known("b", "overall width", v.Width.V, v.Width.Path),
			{Symbol: "A", Says: "plan area", Kind: calc.Derived, Formula: "l * b", SI: area.SquareMetres(), Dim: calc.DimArea, Show: calc.Show{Unit: "m²", Digits: 2}}}})
		count := func(symbol, says string, n int) calc.Step {
			return calc.Step{Symbol: symbol, Says: says, Kind: calc.Given, SI: float64(n)}
		}
		s.Certificates = append(s.Certificates, calc.Certificate{ID: "fit.height", Title: s.Title,
			Method:   "The free height is taken in the middle of each cell of 100 mm, from the mattress, not laden, to the lowest body or the ceiling over it; the heights are put in order, and the one that the asked part of the cells has at least is the free height. " + r.Says,
			Inputs:   []calc.Step{count("n", "cells", len(free)), count("e", "cells at least so high", enough), count("u", "lower cells", lower), high, part},
			Chosen:   []calc.Line{{Label: "free height over the asked part", Ref: b.Path, SI: have.Metres(), Dim: calc.DimLength, Show: showMM, Why: fmt.Sprintf("%d of %d cells are at least so high", enough, len(free))}, {Label: "lowest cell", SI: free[0].Metres(), Dim: calc.DimLength, Show: showMM}, {Label: "highest cell", SI: free[len(free)-1].Metres(), Dim: calc.DimLength, Show: showMM}},
			Balances: []calc.Balance{{Says: "cells so high, and lower ones, make all", Left: float64(enough + lower), LeftFormula: "e + u", Right: float64(len(free)), RightFormula: "n", Within: 0}}})
	}
}
