package check

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/geom"
	"berthwright/rules"
	"berthwright/unit"
)

// Fit is the fit concern, whole: what clashes, what is too small, what cannot be reached, in each state.
type Fit struct {
	In       derive.Fit
	Begun    bool
	Pack     rules.Pack
	Findings []Finding
	Bare     geom.Shell // as measured
	Lined    geom.Shell // less lining, with recesses; what is judged
	Shape    bool       // the shells are known
	ShapeWhy string     // why not

	inside  []geom.Shell           // lined, in each state: with lifting roofs open where they are
	wheels  []geom.Solid           // the boxes over the rear wheels
	slips   map[string]func(*Slip) // by the key of the finding; called when somebody asks
	walks   []keptWalk             // while ways out are looked for
	running string                 // id of the check under way
}

// fitCheck is one row of the fit concern.
type fitCheck struct {
	ID, Title     string
	Limit, Method calc.Cite
	run           func(*Fit) []Finding
	moving        bool // told while something is being moved; the rest is told when it has come to rest
}

var (
	byGeometry   = calc.Cite{Key: "geometry", At: "exact overlap of upright solids"}
	byFitting    = calc.Cite{Key: "fitting-instruction"}
	byBodyMaker  = calc.Cite{Key: "body-builder"}
	byPractice1  = calc.Cite{Key: "practice", At: "heights and reach"}
	byPlanPapers = calc.Cite{Key: "practice", At: "what was said to the customer"}
)

// fitChecks lists the checks of the concern in the order they are run.
var fitChecks = []fitCheck{
	{"fit-clash", "Clash", byGeometry, byGeometry, runClash, true},
	{"fit-shell", "Walls and ceiling", byGeometry, byGeometry, runShell, true},
	{"fit-sweep", "Doors, drawers, seats that move", byGeometry, byGeometry, runSweeps, false},
	{"fit-space", "Room beside", byFitting, byGeometry, runSpaces, true},
	{"fit-berth", "Berths", byPlanPapers, byGeometry, runBerths, false},
	{"fit-exit", "Ways out", calc.Cite{Key: "en-1646-1-2012"}, byGeometry, runExits, false},
	{"fit-door-awning", "Sliding door outside", byGeometry, byGeometry, runDoors, false},
	{"fit-behind", "Behind windows and roof lights", byPractice1, byGeometry, runBehind, false},
	{"fit-head", "Room to sit", byPractice1, byGeometry, runHeads, false},
	{"fit-pillow", "Over the pillow", byPractice1, byGeometry, runPillows, false},
	{"fit-table", "Table and seat", byPractice1, byGeometry, runTables, false},
	{"fit-aisle", "Aisle and standing room", byPractice1, byGeometry, runAisle, false},
	{"fit-seat-evidence", "Evidence of belted seats", byBodyMaker, byPractice, runSeatEvidence, false},
	{"fit-hole", "Holes", byBodyMaker, byGeometry, runHoles, false},
	{"fit-under", "Under the floor", byBodyMaker, byGeometry, runUnder, false},
	{"fit-garage", "Through the opening", byGeometry, byGeometry, runGarage, false},
	{"fit-ladder", "Ladder", byPractice1, byGeometry, runLadder, false},
	{"fit-height", "Heights people work at", byPractice1, byGeometry, runHeights, false},
	{"fit-overall", "Overall size", byGeometry, byGeometry, runOverall, false},
	{"fit-restraint", "Held in place", byPractice, calc.Cite{Key: "statics", At: "force = mass × acceleration"}, runRestraint, false},
}

// AssessFit assesses the fit concern. It is a pure function of its inputs.
func AssessFit(in derive.Fit, pack rules.Pack) *Fit { return assessFit(in, pack, false) }

// AssessFitMoving assesses what is told while something moves: clashes, walls, room beside.
func AssessFitMoving(in derive.Fit, pack rules.Pack) *Fit { return assessFit(in, pack, true) }

func assessFit(in derive.Fit, pack rules.Pack, moving bool) *Fit {
	f := &Fit{In: in, Pack: pack, Begun: in.Begun, slips: map[string]func(*Slip){}}
	if !f.Begun {
		return f
	}
	f.shape()
	f.wheels = f.wheelBoxes()
	for _, c := range fitChecks {
		if moving && !c.moving {
			continue
		}
		f.running = c.ID
		found := c.run(f)
		for i := range found {
			x := &found[i]
			x.Concern = "fit"
			if x.Check == "" {
				x.Check = c.ID
			}
			if x.Title == "" {
				x.Title = c.Title
			}
			if len(x.Sources) == 0 {
				x.Sources = []calc.Cite{c.Limit, c.Method}
			}
		}
		f.Findings = append(f.Findings, found...)
	}
	f.Findings = WorstFirst(f.Findings)
	return f
}

// WorstFirst returns findings in the order of a report. They are large: places are sorted, then each is moved once.
func WorstFirst(all []Finding) []Finding {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch a, b := &all[i], &all[j]; {
		case Worse(a, b):
			return -1
		case Worse(b, a):
			return 1
		}
		return 0
	})
	out := make([]Finding, len(all))
	for k, i := range order {
		out[k] = all[i]
	}
	return out
}

// shape makes the shells of the measured sections.
func (f *Fit) shape() {
	s := f.In.Shell
	if !s.Known {
		f.ShapeWhy = "no inner cross-sections are measured"
		return
	}
	stations := make([]geom.Station, 0, len(s.Sections))
	corners := func(w []geom.Vec2) []geom.Corner {
		out := make([]geom.Corner, 0, len(w))
		for _, v := range w {
			out = append(out, geom.Corner{Y: v.X, Z: v.Y})
		}
		return out
	}
	for _, k := range s.Sections {
		stations = append(stations, geom.Station{X: k.X, Left: corners(k.Left), Right: corners(k.Right)})
	}
	bare, err := geom.NewShell(stations)
	if err != nil {
		f.ShapeWhy = err.Error()
		return
	}
	faces := map[string]geom.Face{"left": geom.LeftWall, "right": geom.RightWall, "roof": geom.Roof, "floor": geom.Floor}
	var linings []geom.Lining
	first, last := stations[0].X, stations[len(stations)-1].X
	for _, l := range s.Linings {
		linings = append(linings, geom.Lining{Face: faces[l.Face], From: l.From.Else(first), To: l.To.Else(last), Thick: l.Insulation.Else(0) + l.Panel.Else(0)})
	}
	lined, err := bare.Lined(linings)
	if err == nil && len(s.Recesses) > 0 {
		var rs []geom.Recess
		for _, r := range s.Recesses {
			face := geom.RightWall
			if r.Left {
				face = geom.LeftWall
			}
			rs = append(rs, geom.Recess{Face: face, From: r.From.X, To: r.To.X, Low: r.From.Y, High: r.To.Y, Deep: r.Depth})
		}
		lined, err = lined.Recessed(rs)
	}
	if err != nil {
		f.ShapeWhy = err.Error()
		return
	}
	inside := make([]geom.Shell, len(f.In.States))
	for k := range f.In.States {
		var up []geom.Raise
		for _, r := range s.Raises {
			if r.Open[f.In.States[k].State] {
				up = append(up, geom.Raise{From: r.From.X, To: r.To.X, Left: r.From.Y, Right: r.To.Y, High: r.High})
			}
		}
		inside[k] = lined
		if len(up) > 0 {
			if inside[k], err = lined.Raised(up); err != nil {
				f.ShapeWhy = err.Error()
				return
			}
		}
	}
	f.Bare, f.Lined, f.inside, f.Shape = bare, lined, inside, true
}

// in returns the lined shell in one state: with lifting roofs open where they are.
func (f *Fit) in(s derive.State) geom.Shell {
	for k := range f.In.States {
		if f.In.States[k].State == s && k < len(f.inside) {
			return f.inside[k]
		}
	}
	return f.Lined
}

// show keeps the working behind a finding until somebody asks for it.
func (f *Fit) show(x *Finding, working func(*Slip)) {
	if x.Check == "" {
		x.Check = f.running
	}
	x.Slip = x.Key()
	f.slips[x.Slip] = working
}

// Slip returns the working behind a finding, by its key; ok is false where there is none.
func (f *Fit) Slip(key string) (s Slip, ok bool) {
	working, ok := f.slips[key]
	if !ok {
		return s, false
	}
	s.Key = key
	working(&s)
	return s, true
}

// assumedShape says that a finding rests on the class's shape, not on a measured one.
func (f *Fit) assumedShape() bool { return f.In.Shell.From == "class" || f.In.Shell.From == "" }

// body points at an item in a state.
func bodySubject(b *derive.Body) Subject {
	mid := func(a, c unit.Length) unit.Opt[unit.Length] { return unit.Some(a + (c - a).Half()) }
	return Subject{Path: b.Path, Name: b.Name, At: [3]unit.Opt[unit.Length]{mid(b.Box.Min.X, b.Box.Max.X), mid(b.Box.Min.Y, b.Box.Max.Y), mid(b.Box.Min.Z, b.Box.Max.Z)}}
}

// related tells whether one body stands inside the other, or both within one.
func related(a, b *derive.Body) bool {
	return slices.Contains(a.Within, b.ID) || slices.Contains(b.Within, a.ID)
}

// slack is what touching bodies may overlap by before it is told: a saw cut and a tape (common practice, no source).
const fitSlack = unit.Millimetre

// runClash finds bodies that overlap in each state. A clash that is the same in every state is told once, in the first. A pair is
// named in the order of its ids, so that its name does not change with the order of the file.
func runClash(f *Fit) []Finding {
	var out []Finding
	told := map[string]unit.Length{}
	var line []int
	for si := range f.In.States {
		st := &f.In.States[si]
		line = line[:0] // bodies from front to rear
		for i := range st.Bodies {
			if b := &st.Bodies[i]; !b.Soft && !b.Shape {
				line = append(line, i)
			}
		}
		slices.SortFunc(line, func(i, j int) int { return cmp.Compare(st.Bodies[i].Box.Min.X, st.Bodies[j].Box.Min.X) })
		for n, i := range line {
			p := &st.Bodies[i]
			for _, j := range line[n+1:] {
				q := &st.Bodies[j]
				if q.Box.Min.X >= p.Box.Max.X {
					break
				}
				if si > 0 && p.Same && q.Same || !p.Box.Overlaps(q.Box) || related(p, q) {
					continue
				}
				a, b := p, q
				if b.ID < a.ID {
					a, b = b, a
				}
				c, ok := a.Solid.Clash(b.Solid)
				if !ok || c.Depth <= fitSlack {
					continue
				}
				key := a.ID + "+" + b.ID
				if d, had := told[key]; had && d == c.Depth {
					continue
				}
				told[key] = c.Depth
				out = append(out, f.clash(st, a, b, c))
			}
		}
	}
	if len(out) == 0 {
		return one(Finding{State: "all", Case: "bodies", Rule: "no-overlap", Verdict: Holds, Level: calc.Seen, Says: say("no-clash", plain(len(f.In.States[0].Bodies)))})
	}
	return out
}

// clash tells of two bodies that overlap.
func (f *Fit) clash(st *derive.FitState, a, b *derive.Body, c geom.Clash) Finding {
	x := Finding{State: string(st.State), Case: "bodies", Subject: a.ID + "+" + b.ID, Rule: "no-overlap", Verdict: DoesNotHold, Level: calc.Seen,
		Value: unit.Some(mm(c.Depth)), Limit: unit.Some(mm(0)), Margin: unit.Some(mm(-c.Depth)),
		Subjects: []Subject{bodySubject(a), bodySubject(b)}, Says: say("clash", a.Name, b.Name, mm(c.Depth), string(st.State))}
	x.Advice, x.Moves = "neither may be moved: change the plan around them", f.clearing(st, a, b, c)
	if len(x.Moves) > 0 {
		x.Advice = x.Moves[0].Text
	}
	f.show(&x, func(s *Slip) { clashSlip(s, a, b, c) })
	return x
}

// vectorWords says a move, axis by axis.
func vectorWords(v geom.Vec3) string {
	var parts []string
	add := func(d unit.Length, plus, minus string) {
		switch {
		case d > 0:
			parts = append(parts, length(d)+" "+plus)
		case d < 0:
			parts = append(parts, length(-d)+" "+minus)
		}
	}
	add(v.X, "back", "forward")
	add(v.Y, "right", "left")
	add(v.Z, "up", "down")
	return strings.Join(parts, " and ")
}

// length prints a length rounded up to the millimetre, as a fitter would take it.
func length(l unit.Length) string {
	return fmt.Sprintf("%d%smm", awayFromZero(l).Micrometres()/unit.Millimetre.Micrometres(), unit.Space)
}

// awayFromZero rounds a move up to whole millimetres.
func awayFromZero(l unit.Length) unit.Length {
	if l < 0 {
		return -awayFromZero(-l)
	}
	up := l + unit.Millimetre - 1
	return up - up%unit.Millimetre
}

// spaceWords says what a space is for.
var spaceWords = map[string]string{"air": "air", "service": "service", "drain": "draining", "access": "getting at it", "heat": "distance from heat", "use": "using it", "": "room"}

// runSpaces finds what stands in the room an item needs.
func runSpaces(f *Fit) []Finding {
	var out []Finding
	seen := map[string]bool{}
	for si := range f.In.States {
		st := &f.In.States[si]
		for _, sp := range st.Spaces {
			owner := st.Body(sp.Item)
			for i := range st.Bodies {
				b := &st.Bodies[i]
				if !b.Box.Overlaps(sp.Box) || b.ID == sp.Item || slices.Contains(sp.Space.First, b.ID) || b.Shape || b.Wall || owner != nil && related(owner, b) || b.Soft && sp.Space.For != "air" && sp.Space.For != "heat" {
					continue
				}
				c, ok := b.Solid.Clash(sp.Solid)
				key := sp.Item + "." + sp.Space.ID + "+" + b.ID
				if !ok || c.Depth <= fitSlack || seen[key] {
					continue
				}
				seen[key] = true
				d := sp.Space.Depth.Else(0)
				x := Finding{State: string(st.State), Case: "spaces", Subject: key, Rule: "fitting-instruction", Verdict: DoesNotHold, Level: calc.Seen,
					Value: unit.Some(mm(d - min(c.Depth, d))), Limit: unit.Some(mm(d)), Margin: unit.Some(mm(-min(c.Depth, d))), Basis: sp.Space.From,
					Subjects: []Subject{{Path: "items/" + sp.Item, Name: f.In.Names[sp.Item]}, bodySubject(b)},
					Says:     say("space", f.In.Names[sp.Item], mm(d), spaceWords[sp.Space.For], sideWords(sp.Space.Side), b.Name, mm(min(c.Depth, d))),
					Advice:   f.moveAdvice(b, c.Move), Moves: f.offer(st, b, c.Move), Caution: spaceCaution(sp.Space.For)}
				owner := derive.Body{ID: sp.Item, Name: "the room beside " + f.In.Names[sp.Item], Path: "items/" + sp.Item + "/spaces/" + sp.Space.ID, Solid: sp.Solid, Box: sp.Box, Turned: owner != nil && owner.Turned}
				f.show(&x, func(s *Slip) { clashSlip(s, b, &owner, c) })
				out = append(out, x)
			}
		}
	}
	return out
}

func spaceCaution(what string) string {
	if what == "air" || what == "heat" {
		return "the maker's fitting instruction decides how much air and distance an appliance needs"
	}
	return ""
}

func sideWords(side string) string {
	switch side {
	case "top":
		return "above"
	case "bottom":
		return "below"
	case "front":
		return "ahead"
	case "rear":
		return "behind"
	}
	return "on its " + side
}
