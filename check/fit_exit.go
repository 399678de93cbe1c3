package check

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strings"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/geom"
	"berthwright/unit"
)

// walkLow and walkHigh bound the band of heights above the finished floor in which something is in a walker's way.
const (
	walkLow  = 100 * unit.Millimetre
	walkHigh = 1400 * unit.Millimetre
)

// runExits looks for a way out at night from each berth: through a door that opens from the inside, over the floor between what stands
// there at night; a rear bed counts the rear doors as its own only where they open from the inside.
//
// The washroom's door counts as standing open, right across the aisle where it reaches: somebody may be in there. Any other leaf can be
// pushed shut by who gets up; where one would narrow the only way out it is told as an advice.
func runExits(f *Fit) []Finding {
	st := f.state(derive.Night)
	var out []Finding
	want := unit.Opt[unit.Length]{}
	row := f.Pack.Stricter("living-door", "width")
	if row.Known {
		want = unit.Some(unit.MetresLength(row.Value.SI))
	}
	var floor floorPlan
	why := ""
	if len(f.In.Berths) > 0 {
		floor, why = f.floorPlan()
	}
	for i := range f.In.Berths {
		b := &f.In.Berths[i]
		x := Finding{Check: "fit-exit", Title: "Way out: " + b.Name, State: string(derive.Night), Case: "exits", Subject: b.ID, Rule: "way-out", Level: calc.Seen,
			Subjects: []Subject{{Path: b.Path, Name: b.Name}}, Basis: "beds made, washroom door open, what is carried in its garage", Caution: "try each way out in the dark, with the beds made and the garage loaded"}
		if row.Known {
			x.Level, x.Sources = row.Rule.Level, []calc.Cite{row.Rule.Cite, byGeometry}
		}
		if !b.Placed || st == nil || why != "" {
			x.Missing = []Subject{{Path: b.Path, Name: cmp.Or(why, "the place of "+b.Name)}}
			x.Says = say("exit-unknown", b.Name, missingWords(x.Missing))
			out = append(out, x)
			continue
		}
		out = append(out, f.exit(x, b, st, floor, want)...)
	}
	f.walks = nil
	return append(out, f.doorSize()...)
}

// wayOut is the best way out of a berth.
type wayOut struct {
	geom.Way
	door    string // in words; "": none
	locked  string // why another door does not count
	missing []Subject
	why     string // what could not be judged
}

// exit judges the best way out of one berth.
func (f *Fit) exit(x Finding, b *derive.FitBerth, st *derive.FitState, floor floorPlan, want unit.Opt[unit.Length]) []Finding {
	solids := f.inTheWay(st, b)
	counted, others := f.leaves(st)
	best := f.bestWay(b, floor, append(slices.Clone(solids), counted...), want)
	w, asked := want.Get()
	if !asked {
		w = 300 * unit.Millimetre
	}
	half := geom.WayError
	switch {
	case best.door == "" && (len(best.missing) > 0 || best.why != ""):
		x.Missing = best.missing
		if len(x.Missing) == 0 {
			x.Missing = []Subject{{Path: b.Path, Name: best.why}}
		}
		x.Says = say("exit-unknown", b.Name, missingWords(x.Missing))
	case best.door == "":
		x.Verdict = DoesNotHold
		locked := best.locked
		if locked == "" {
			locked = "every door is blocked by what stands there at night"
		}
		x.Says = say("exit-none", b.Name, locked)
		x.Advice = "give the door an inside handle, or clear the way to another"
	default:
		x.Value = unit.Some(mm(best.Width))
		x.Limit, x.Margin, x.Half = unit.Some(mm(w)), unit.Some(mm(best.Width-w)), unit.Some(mm(half))
		x.Verdict = Judge((best.Width - w).Millimetres(), half.Millimetres())
		x.Says = say("exit-holds", b.Name, best.door, mm(best.Width))
		if best.Width > reach-unit.Millimetre {
			x.Says = say("exit-wide", b.Name, best.door, mm(reach))
		}
		if x.Verdict == DoesNotHold {
			x.Says = say("exit-narrow", b.Name, best.door, mm(best.Width), mm(w))
		}
		if row := f.Pack.Stricter("living-door", "width"); row.Known && !row.Rule.MayHold() && x.Verdict != DoesNotHold {
			x.Verdict = Unknown
		}
		x.Subjects = append(x.Subjects, Subject{Path: b.Path, Name: "narrowest place", At: [3]unit.Opt[unit.Length]{unit.Some(best.At.X), unit.Some(best.At.Y), unit.Some(f.In.Van.Finished.V)}})
	}
	if x.Verdict == DoesNotHold && len(counted) > 0 {
		if shut := f.bestWay(b, floor, solids, want); shut.door != "" && shut.Width >= w {
			x.Says = say("exit-leaf", b.Name, shut.door, mm(best.Width), f.leafNames(st, counted), mm(w), mm(shut.Width))
			x.Advice = "let the door slide or fold, hang it to close with the way out, or make another door count"
			x.Value, x.Limit, x.Margin, x.Half = unit.Some(mm(best.Width)), unit.Some(mm(w)), unit.Some(mm(best.Width-w)), unit.Some(mm(half))
		}
	}
	if best.door != "" {
		f.show(&x, func(s *Slip) { f.waySlip(s, b, st, best, append(slices.Clone(solids), counted...)) })
	}
	out := one(x)
	if best.door == "" || x.Verdict == DoesNotHold {
		return out
	}
	var near []leafOpen
	for _, l := range others {
		if l.nearer(best.Path, w.Half()) {
			near = append(near, l)
		}
	}
	if len(near) > 0 {
		all := append(slices.Clone(solids), counted...)
		for _, l := range near {
			all = append(all, l.solid)
		}
		if open := f.bestWay(b, floor, all, want); open.Width < w {
			names := make([]string, len(near))
			for i, l := range near {
				names[i] = l.name
			}
			out = append(out, Finding{Check: "fit-exit-door", Title: "Way out: " + b.Name, State: x.State, Case: x.Case, Subject: b.ID, Rule: "way-out", Advisory: true, Verdict: DoesNotHold, Level: calc.Unsourced,
				Value: unit.Some(mm(open.Width)), Limit: unit.Some(mm(w)), Margin: unit.Some(mm(open.Width - w)), Subjects: x.Subjects[:1],
				Says: say("exit-door", b.Name, strings.Join(names, ", "), mm(open.Width)), Advice: "keep it shut at night"})
		}
	}
	return out
}

// walk is the floor between solids; the last ones are kept, for two beds often share one floor.
func (f *Fit) walk(floor floorPlan, solids []geom.Solid) (*geom.Walk, error) {
	fin := f.In.Van.Finished.V
	var reach []geom.Solid
	for _, s := range solids {
		if s.Low < fin+walkHigh && fin+walkLow < s.High {
			reach = append(reach, s)
		}
	}
	same := func(a, b geom.Solid) bool {
		return a.Bounds() == b.Bounds() && slices.Equal(a.Outline.Corners(), b.Outline.Corners())
	}
	for _, w := range f.walks {
		if slices.EqualFunc(w.solids, reach, same) {
			return w.walk, nil
		}
	}
	walk, err := geom.NewWalk(floor.outline, reach, fin+walkLow, fin+walkHigh)
	if err == nil {
		f.walks = append(f.walks, keptWalk{reach, walk})
	}
	return walk, err
}

// keptWalk is a floor that was walked on.
type keptWalk struct {
	solids []geom.Solid
	walk   *geom.Walk
}

// bestWay finds the widest way out of a berth between solids.
func (f *Fit) bestWay(b *derive.FitBerth, floor floorPlan, solids []geom.Solid, want unit.Opt[unit.Length]) wayOut {
	var best wayOut
	walk, err := f.walk(floor, solids)
	if err != nil {
		best.why = err.Error()
		return best
	}
	for i := range f.In.Doors {
		d := &f.In.Doors[i].Opening
		to, leads := floor.outside[d.ID]
		if !leads || len(b.Berth.Out) > 0 && !slices.Contains(b.Berth.Out, d.ID) {
			continue
		}
		inside, said := d.Inside.Get()
		if d.Kind == "cab" {
			inside, said = true, true
		}
		if !said {
			best.missing = append(best.missing, Subject{Path: f.In.Doors[i].Path + "/opens-inside", Name: "whether the " + doorWords[d.Kind] + " open from the inside"})
			continue
		}
		if !inside {
			best.locked = "the " + doorWords[d.Kind] + " cannot be opened from the inside"
			continue
		}
		way, err := walk.Widest(f.sitsUp(b, to), to)
		switch {
		case errors.Is(err, geom.ErrShut):
		case err != nil:
			best.why = err.Error()
		case best.door == "" || way.Width > best.Width:
			best.Way, best.door = way, "the "+doorWords[d.Kind]
		}
		if w, asked := want.Get(); asked && best.Width > w+geom.WayError {
			break // wide enough: no need to look at the other doors
		}
	}
	return best
}

var doorWords = map[string]string{"sliding-door": "sliding door", "rear-doors": "rear doors", "tailgate": "tailgate", "cab": "cab doors"}

// reach is how far the floor is taken to run on through an open door, so that the doorway itself is measured: no way counts as wider.
const reach = 800 * unit.Millimetre

// floorPlan is the living floor in plan, from the cab seats to the rear door line, running out through every door; outside has a place
// beyond each.
type floorPlan struct {
	outline geom.Outline
	outside map[string]geom.Vec2
}

// floorPlan makes the floor; the text says why there is none.
func (f *Fit) floorPlan() (floorPlan, string) {
	v := f.In.Van
	if !v.Bulkhead.Known() || !v.RearDoor.Known() || !v.Left.Known() || !v.Right.Known() || !v.Finished.Known() {
		return floorPlan{}, "the lines of the floor"
	}
	x0, x1, y0, y1 := v.Bulkhead.V-900*unit.Millimetre, v.RearDoor.V, v.Left.V, v.Right.V
	out := floorPlan{outside: map[string]geom.Vec2{}}
	var left, right, rear [][2]unit.Length
	for i := range f.In.Doors {
		d := &f.In.Doors[i].Opening
		from, okF := d.From.Get()
		end, okT := d.To.Get()
		mid := from + (end - from).Half()
		switch d.Kind {
		case "rear-doors", "tailgate":
			if !okF || !okT {
				from, end = y0, y1
			}
			from, end = max(from, y0), min(end, y1)
			rear = append(rear, [2]unit.Length{from, end})
			out.outside[d.ID] = geom.Vec2{X: x1 + reach.Half(), Y: from + (end - from).Half()}
		case "cab":
			out.outside[d.ID] = geom.Vec2{X: x0 + reach.Half()}
		case "sliding-door":
			if !okF || !okT {
				return floorPlan{}, "the edges of the sliding door"
			}
			if d.Side == "right" {
				right = append(right, [2]unit.Length{from, end})
				out.outside[d.ID] = geom.Vec2{X: mid, Y: y1 + reach.Half()}
			} else {
				left = append(left, [2]unit.Length{from, end})
				out.outside[d.ID] = geom.Vec2{X: mid, Y: y0 - reach.Half()}
			}
		}
	}
	for _, side := range [][][2]unit.Length{left, right, rear} {
		slices.SortFunc(side, func(a, b [2]unit.Length) int { return cmp.Compare(a[0], b[0]) })
	}
	slices.Reverse(right)
	at := func(x, y unit.Length) geom.Vec2 { return geom.Vec2{X: x, Y: y} }
	c := []geom.Vec2{at(x0, y0)}
	for _, d := range left {
		c = append(c, at(d[0], y0), at(d[0], y0-reach), at(d[1], y0-reach), at(d[1], y0))
	}
	c = append(c, at(x1, y0))
	for _, d := range rear {
		c = append(c, at(x1, d[0]), at(x1+reach, d[0]), at(x1+reach, d[1]), at(x1, d[1]))
	}
	c = append(c, at(x1, y1))
	for _, d := range right {
		c = append(c, at(d[1], y1), at(d[1], y1+reach), at(d[0], y1+reach), at(d[0], y1))
	}
	o, err := geom.NewOutline(slices.Compact(append(c, at(x0, y1))))
	if err != nil {
		return floorPlan{}, "the floor with its doors: " + err.Error()
	}
	out.outline = o
	return out, ""
}

// inTheWay lists what stands on the floor in a state. What lies mostly within the outline of the bed somebody gets up from belongs to
// the bed; soft things are climbed over.
func (f *Fit) inTheWay(st *derive.FitState, b *derive.FitBerth) []geom.Solid {
	var out []geom.Solid
	for i := range st.Bodies {
		k := &st.Bodies[i]
		if k.Soft || k.Outside || k.Wall || k.Shape || b != nil && (k.ID == b.ID || within(k.Box, b.Box)) {
			continue
		}
		out = append(out, k.Solid)
	}
	return append(out, f.wheels...)
}

// within tells whether most of one box lies over another in plan.
func within(a, b geom.Box3) bool {
	x := min(a.Max.X, b.Max.X) - max(a.Min.X, b.Min.X)
	y := min(a.Max.Y, b.Max.Y) - max(a.Min.Y, b.Min.Y)
	if x <= 0 || y <= 0 {
		return false
	}
	return x.Metres()*y.Metres() > 0.8*(a.Max.X-a.Min.X).Metres()*(a.Max.Y-a.Min.Y).Metres()
}

// leafOpen is a door of the furniture standing open.
type leafOpen struct {
	item, name string
	solid      geom.Solid
}

// nearer tells whether a leaf comes nearer to a way than so far.
func (l leafOpen) nearer(path []geom.Vec2, than unit.Length) bool {
	least, most := l.solid.Outline.Bounds()
	for _, p := range path {
		dx, dy := max(least.X-p.X, p.X-most.X, 0), max(least.Y-p.Y, p.Y-most.Y, 0)
		if math.Hypot(dx.Metres(), dy.Metres()) < than.Metres() {
			return true
		}
	}
	return false
}

// leaves returns the doors of the furniture standing open at night: those of a washroom, which count as in the way, and the others.
func (f *Fit) leaves(st *derive.FitState) (counted []geom.Solid, others []leafOpen) {
	for k := range st.Sweeps {
		s := &st.Sweeps[k]
		own := st.Body(s.Item)
		if s.Motion.Kind != "door" || !s.Known || own == nil || own.Outside || own.Wall {
			continue
		}
		open, err := s.Sweep.At(1)
		if err != nil {
			continue
		}
		if own.Group == "washroom" {
			counted = append(counted, open)
		} else {
			others = append(others, leafOpen{s.Item, f.In.Names[s.Item], open})
		}
	}
	return counted, others
}

// leafNames names the washroom doors.
func (f *Fit) leafNames(st *derive.FitState, counted []geom.Solid) string {
	var names []string
	for k := range st.Sweeps {
		if b := st.Body(st.Sweeps[k].Item); b != nil && b.Group == "washroom" && st.Sweeps[k].Motion.Kind == "door" && !slices.Contains(names, b.Name) {
			names = append(names, b.Name)
		}
	}
	return strings.Join(names, ", ")
}

// inset is how far within the edge of a bed its sleeper sits up.
const inset = 250 * unit.Millimetre

// sitsUp is where on a bed somebody gets up who goes to a place.
func (f *Fit) sitsUp(b *derive.FitBerth, to geom.Vec2) geom.Vec2 {
	mid := geom.Vec2{X: b.Box.Min.X + (b.Box.Max.X - b.Box.Min.X).Half(), Y: b.Box.Min.Y + (b.Box.Max.Y - b.Box.Min.Y).Half()}
	from := mid
	switch {
	case to.X < b.Box.Min.X:
		from.X = min(b.Box.Min.X+inset, mid.X)
	case to.X > b.Box.Max.X:
		from.X = max(b.Box.Max.X-inset, mid.X)
	case to.Y < b.Box.Min.Y:
		from.Y = min(b.Box.Min.Y+inset, mid.Y)
	case to.Y > b.Box.Max.Y:
		from.Y = max(b.Box.Max.Y-inset, mid.Y)
	}
	return from
}

// waySlip is the certificate of a way: what is nearest to its narrowest place, and that the width is twice that far.
func (f *Fit) waySlip(s *Slip, b *derive.FitBerth, st *derive.FitState, w wayOut, solids []geom.Solid) {
	s.Title = "Way out of " + b.Name + " through " + w.door
	spot, err := geom.Rectangle(w.At.Minus(geom.Vec2{X: 1, Y: 1}), w.At.Plus(geom.Vec2{X: 1, Y: 1}))
	if err != nil {
		return
	}
	fin := f.In.Van.Finished.V
	nearest := unit.Length(math.MaxInt64)
	for _, k := range solids {
		if k.Low < fin+walkHigh && fin+walkLow < k.High {
			nearest = min(nearest, k.Outline.Distance(spot)+1)
		}
	}
	edge := edgeOf(f, w.At)
	nearest = min(nearest, edge)
	row := func(l unit.Length, label, why string) calc.Line {
		return calc.Line{Label: label, SI: l.Metres(), Dim: calc.DimLength, Show: showMM, Why: why}
	}
	s.Certificates = append(s.Certificates, calc.Certificate{
		ID: "fit.way", Title: s.Title,
		Method:   "The width of a way is that of the largest disc that can be pushed along it over the floor, between what stands between " + length(walkLow) + " and " + length(walkHigh) + " above the finished floor. The way is looked for on a grid of 30 mm, the freest points first; then measured about its narrow places.",
		Inputs:   []calc.Step{known("r", "from the middle of the narrowest place to what is nearest", nearest, ""), known("W", "width", w.Width, "")},
		Chosen:   []calc.Line{row(w.At.X, "narrowest place, back from the front axle", "the way's least width"), row(w.At.Y, "narrowest place, right of the centre line", "")},
		Balances: []calc.Balance{{Says: "twice the distance to what is nearest is the width", Left: 2 * nearest.Metres(), LeftFormula: "2 * r", Right: w.Width.Metres(), RightFormula: "W", Within: 60e-6, Show: showMM}},
	})
}

// edgeOf returns how far a place lies from the edge of the floor.
func edgeOf(f *Fit, p geom.Vec2) unit.Length {
	floor, why := f.floorPlan()
	if why != "" {
		return unit.Length(math.MaxInt64)
	}
	c := floor.outline.Corners()
	least := math.Inf(1)
	for i, a := range c {
		b := c[(i+1)%len(c)]
		dx, dy, px, py := (b.X - a.X).Metres(), (b.Y - a.Y).Metres(), (p.X - a.X).Metres(), (p.Y - a.Y).Metres()
		t := math.Max(0, math.Min(1, (px*dx+py*dy)/(dx*dx+dy*dy)))
		least = math.Min(least, math.Hypot(px-t*dx, py-t*dy))
	}
	return unit.MetresLength(least)
}

// doorSize compares the doors of the living space with the size a rule asks for: one of them must have it.
func (f *Fit) doorSize() []Finding {
	wide, high := f.Pack.Stricter("living-door", "width"), "high-small"
	area, sized := f.planArea()
	if !wide.Known || len(f.In.Doors) == 0 {
		return nil
	}
	limit, _ := wide.Rule.Value("area")
	if sized && area.SquareMetres() >= limit.SI {
		high = "high"
	}
	tall := f.Pack.Stricter("living-door", high)
	x := Finding{Check: "fit-door-size", Title: "Door of the living space", State: "all", Case: "exits", Rule: "living-door", Level: wide.Rule.Level, Sources: []calc.Cite{wide.Rule.Cite, byGeometry}}
	wantW, wantH := unit.MetresLength(wide.Value.SI), unit.MetresLength(tall.Value.SI)
	var best *doc.Opening
	var bestW, bestH, margin unit.Length
	for i := range f.In.Doors {
		d := &f.In.Doors[i].Opening
		if d.Kind != "sliding-door" && d.Kind != "rear-doors" && d.Kind != "tailgate" {
			continue
		}
		if !d.From.Given() || !d.To.Given() || !d.Low.Given() || !d.High.Given() {
			x.Missing = append(x.Missing, Subject{Path: f.In.Doors[i].Path, Name: "edges of the " + doorWords[d.Kind]})
			continue
		}
		w, h := d.To.Else(0)-d.From.Else(0), d.High.Else(0)-max(d.Low.Else(0), f.In.Van.Finished.V)
		if m := min(w-wantW, h-wantH); best == nil || m > margin {
			best, bestW, bestH, margin = d, w, h, m
			x.Subjects = []Subject{{Path: f.In.Doors[i].Path, Name: "the " + doorWords[d.Kind]}}
		}
	}
	if best == nil && len(x.Missing) == 0 {
		return nil
	}
	if best == nil || !sized {
		if !sized {
			x.Missing = append(x.Missing, Subject{Path: "van/length", Name: "overall length and width"})
		}
		x.Says = say("door-size-unknown", missingWords(x.Missing))
		return one(x)
	}
	x.Subject = best.ID
	x.Value, x.Limit, x.Margin = unit.Some(mm(min(bestW, bestH))), unit.Some(mm(min(bestW, bestH)-margin)), unit.Some(mm(margin))
	x.Verdict = Judge(margin.Millimetres(), 0)
	x.Says = say("door-size", "the "+doorWords[best.Kind], mm(bestW), mm(bestH), mm(wantW), mm(wantH))
	if x.Verdict != DoesNotHold && (!wide.Rule.MayHold() || best.Known == "class" || best.Known == "") {
		x.Verdict = Unknown
		x.Missing = []Subject{{Path: "van/shell/openings/" + best.ID, Name: "the measured edges of the " + doorWords[best.Kind]}}
	}
	name := "the " + doorWords[best.Kind]
	f.show(&x, func(s *Slip) {
		s.Title = "Door of the living space"
		a, _ := wide.Rule.Step("w_0", "width")
		h, _ := tall.Rule.Step("h_0", high)
		s.Workings = append(s.Workings, calc.Working{ID: "fit.door-size", Title: s.Title, Steps: []calc.Step{
			known("w", "width of "+name, bestW, ""), known("h", "height of "+name+" over the finished floor", bestH, ""), a, h,
			follows("d", "to spare", "min(w - w_0, h - h_0)", margin)}})
	})
	return one(x)
}
