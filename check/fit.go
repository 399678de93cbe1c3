package check

import (
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
	f := &Fit{In: in, Pack: pack, Begun: in.Begun}
	if !f.Begun {
		return f
	}
	f.shape()
	for _, c := range fitChecks {
		if moving && !c.moving {
			continue
		}
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
	slices.SortStableFunc(f.Findings, func(a, b Finding) int {
		switch {
		case Worse(&a, &b):
			return -1
		case Worse(&b, &a):
			return 1
		}
		return 0
	})
	return f
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
	f.Bare, f.Lined, f.Shape = bare, lined, true
}

// in returns the lined shell in one state: with lifting roofs open where they are.
func (f *Fit) in(s derive.State) geom.Shell {
	var up []geom.Raise
	for _, r := range f.In.Shell.Raises {
		if r.Open[s] {
			up = append(up, geom.Raise{From: r.From.X, To: r.To.X, Left: r.From.Y, Right: r.To.Y, High: r.High})
		}
	}
	if len(up) == 0 {
		return f.Lined
	}
	raised, err := f.Lined.Raised(up)
	if err != nil {
		return f.Lined
	}
	return raised
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

// runClash finds bodies that overlap in each state. A clash that is the same in every state is told once, in the first.
func runClash(f *Fit) []Finding {
	var out []Finding
	told := map[string]unit.Length{}
	for si := range f.In.States {
		st := &f.In.States[si]
		solids := make([]geom.Solid, 0, len(st.Bodies))
		index := make([]int, 0, len(st.Bodies))
		for i := range st.Bodies {
			if b := &st.Bodies[i]; !b.Soft && !b.Shape {
				solids, index = append(solids, b.Solid), append(index, i)
			}
		}
		for _, pair := range geom.Pairs(solids) {
			a, b := &st.Bodies[index[pair[0]]], &st.Bodies[index[pair[1]]]
			if related(a, b) {
				continue
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
			x := Finding{State: string(st.State), Case: "bodies", Subject: key, Rule: "no-overlap", Verdict: DoesNotHold, Level: calc.Seen,
				Value: unit.Some(mm(c.Depth)), Limit: unit.Some(mm(0)), Margin: unit.Some(mm(-c.Depth)),
				Subjects: []Subject{bodySubject(a), bodySubject(b)}, Says: say("clash", a.Name, b.Name, mm(c.Depth), string(st.State))}
			x.Advice = "move " + moveWords(a, b, c)
			out = append(out, x)
		}
	}
	if len(out) == 0 {
		return one(Finding{State: "all", Case: "bodies", Rule: "no-overlap", Verdict: Holds, Level: calc.Seen, Says: say("no-clash", plain(len(f.In.States[0].Bodies)))})
	}
	return out
}

// moveWords says the shortest move that clears a clash; a locked item is not offered.
func moveWords(a, b *derive.Body, c geom.Clash) string {
	who, v := a, c.Move
	if a.Locked != "" && b.Locked == "" {
		who, v = b, geom.Vec3{X: -v.X, Y: -v.Y, Z: -v.Z}
	}
	if who.Locked != "" {
		return "neither: both are locked; change the plan around them"
	}
	return who.Name + " " + vectorWords(v)
}

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
	up := (l + unit.Millimetre - 1).Micrometres() / unit.Millimetre.Micrometres()
	return fmt.Sprintf("%d%smm", up, unit.Space)
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
				if b.ID == sp.Item || slices.Contains(sp.Space.First, b.ID) || b.Shape || b.Wall || owner != nil && related(owner, b) || b.Soft && sp.Space.For != "air" && sp.Space.For != "heat" {
					continue
				}
				c, ok := b.Solid.Clash(sp.Solid)
				key := sp.Item + "." + sp.Space.ID + "+" + b.ID
				if !ok || c.Depth <= fitSlack || seen[key] {
					continue
				}
				seen[key] = true
				d := sp.Space.Depth.Else(0)
				out = append(out, Finding{State: string(st.State), Case: "spaces", Subject: key, Rule: "fitting-instruction", Verdict: DoesNotHold, Level: calc.Seen,
					Value: unit.Some(mm(d - min(c.Depth, d))), Limit: unit.Some(mm(d)), Margin: unit.Some(mm(-min(c.Depth, d))), Basis: sp.Space.From,
					Subjects: []Subject{{Path: "items/" + sp.Item, Name: f.In.Names[sp.Item]}, bodySubject(b)},
					Says:     say("space", f.In.Names[sp.Item], mm(d), spaceWords[sp.Space.For], sideWords(sp.Space.Side), b.Name, mm(min(c.Depth, d))),
					Advice:   "move " + b.Name + " " + vectorWords(c.Move), Caution: spaceCaution(sp.Space.For)})
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
