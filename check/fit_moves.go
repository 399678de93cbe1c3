package check

import (
	"errors"
	"math"
	"slices"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/geom"
	"berthwright/unit"
)

var motionWords = map[string]string{"door": "the door", "drawer": "the drawer", "lid": "the lid", "flap": "the flap", "slide": "it slides and", "swivel": "it turns and", "fold": "it folds and", "lift": "it lifts and"}

// contact is what a moving part meets first.
type contact struct {
	met   bool
	by    Subject
	share float64 // of its way, gone by then
	door  string  // what it meets is a door that may stand open: its name
	why   string  // not known, and why
}

// runSweeps sends each moving part its way in the states it is used in, and tells what it meets first.
func runSweeps(f *Fit) []Finding {
	var out []Finding
	n := 0
	told := map[string]bool{}
	for si := range f.In.States {
		st := &f.In.States[si]
		for k := range st.Sweeps {
			s := &st.Sweeps[k]
			key := s.Item + "." + s.Motion.ID
			x := Finding{State: string(st.State), Case: "moves", Subject: key, Rule: "moves", Level: calc.Seen}
			if !s.Known {
				if !told[key] {
					told[key] = true
					x.Missing = []Subject{{Path: "items/" + s.Item + "/moves/" + s.Motion.ID, Name: "side, hinge and angle or travel of " + f.In.Names[s.Item]}}
					x.Says = say("sweep-open", f.In.Names[s.Item], s.Motion.ID)
					out = append(out, x)
				}
				continue
			}
			n++
			c := f.first(st, s, s.Sweep)
			if c.met && s.Either {
				if d := f.first(st, s, s.Other); d.why == "" && (!d.met || d.share > c.share) {
					c = d
				}
			}
			if c.why != "" && !c.met {
				x.Missing = []Subject{{Path: "items/" + s.Item + "/moves/" + s.Motion.ID, Name: "the way of " + f.In.Names[s.Item]}}
				x.Says = say("sweep-unknown", f.In.Names[s.Item], s.Motion.ID, c.why)
				out = append(out, x)
				continue
			}
			if c.met {
				out = append(out, f.meeting(x, st, s, c))
			}
		}
	}
	if n > 0 && !slices.ContainsFunc(out, func(x Finding) bool { return x.Verdict == DoesNotHold || x.Verdict == Unknown }) {
		x := Finding{State: "all", Case: "moves", Rule: "moves", Verdict: Holds, Level: calc.Seen, Says: say("sweeps-hold", plain(n)), Basis: "against what stands in the way, in the states each is used in, and the measured walls"}
		out = append(out, x)
	}
	return out
}

// meeting tells how far a part goes before it meets something.
func (f *Fit) meeting(x Finding, st *derive.FitState, s *derive.FitSweep, c contact) Finding {
	x.Verdict, x.Advisory = DoesNotHold, !s.Whole || c.door != ""
	x.Subjects = []Subject{{Path: "items/" + s.Item, Name: f.In.Names[s.Item]}, c.by}
	if own := st.Body(s.Item); own != nil {
		x.Subjects[0] = bodySubject(own)
	}
	way := func(share float64) Figure {
		if s.Travel != 0 {
			return mm(s.Travel.Times(share))
		}
		return Figure{Kind: unit.KindAngle, SI: s.Angle.Radians() * share}
	}
	whole, have := way(1), way(c.share)
	x.Value, x.Limit, x.Margin = unit.Some(have), unit.Some(whole), unit.Some(Figure{Kind: whole.Kind, SI: have.SI - whole.SI, Digits: whole.Digits})
	x.Says = say("sweep-stops", f.In.Names[s.Item], motionWords[s.Motion.Kind], c.by.Name, have, whole)
	x.Advice = "move one of them, or hang it the other way"
	if c.door != "" {
		x.Says = say("sweep-door", f.In.Names[s.Item], motionWords[s.Motion.Kind], c.door, have, whole)
		x.Advice = "open " + c.door + " first"
	}
	name, by := f.In.Names[s.Item], c.by.Name
	f.show(&x, func(sl *Slip) {
		dim, show := calc.DimLength, showMM
		if s.Travel == 0 {
			dim, show = calc.None, showDeg
		}
		sl.Title = name + ": how far it goes"
		sl.Certificates = append(sl.Certificates, calc.Certificate{
			ID: "fit.sweep", Title: sl.Title,
			Method:   "A first overlap begins where a corner of the one meets an edge of the other: all such places on the way are found, and between two of them one test decides. Against the walls the part is tried at places on its way, then between the last that is free and the first that is not.",
			Inputs:   []calc.Step{{Symbol: "w", Says: "its whole way", Kind: calc.Given, SI: whole.SI, Dim: dim, Show: show}, {Symbol: "a", Says: "gone when it meets", Kind: calc.Given, SI: have.SI, Dim: dim, Show: show}},
			Chosen:   []calc.Line{{Label: by, SI: have.SI, Dim: dim, Show: show, Why: "met first"}},
			Balances: []calc.Balance{{Says: "gone and left make the whole way", Left: have.SI + (whole.SI - have.SI), LeftFormula: "sum(c_i) + (w - a)", Right: whole.SI, RightFormula: "w", Within: 1e-9, Show: show}},
		})
	})
	return x
}

// first returns what a sweep meets first.
func (f *Fit) first(st *derive.FitState, s *derive.FitSweep, sw geom.Sweep) contact {
	own := st.Body(s.Item)
	c := contact{share: 1}
	gone := func(k geom.Contact) float64 {
		if s.Travel != 0 {
			return k.Travel.Per(max(s.Travel, -s.Travel)).Share()
		}
		return k.Angle.Radians() / s.Angle.Radians()
	}
	bounds, err := sw.Bounds()
	if err != nil {
		c.why = err.Error()
		return c
	}
	for i := range st.Bodies {
		b := &st.Bodies[i]
		if !b.Box.Overlaps(bounds) || b.ID == s.Item || b.Soft || b.Shape || b.Wall || own != nil && (related(own, b) || siblings(own, b)) {
			continue
		}
		if k, ok := sw.Meets(b.Solid); ok {
			if g := gone(k); !c.met || g < c.share {
				c = contact{met: true, by: bodySubject(b), share: g, door: f.openable(st, b, sw)}
			}
		}
	}
	if own != nil && (own.Outside || own.Wall) {
		return c
	}
	for _, w := range f.wheels {
		if k, ok := sw.Meets(w); ok && own != nil && !own.Solid.Overlaps(w) {
			if g := gone(k); !c.met || g < c.share {
				c = contact{met: true, by: Subject{Path: "van/inside/wheel-box", Name: "the wheel box"}, share: g}
			}
		}
	}
	if f.Shape {
		f.meetsWall(&c, st, s.Motion.Kind, sw, bounds)
	}
	return c
}

// openable tells whether a body is a door leaf that, standing open, lets a part pass; it returns its name.
func (f *Fit) openable(st *derive.FitState, b *derive.Body, part geom.Sweep) string {
	size := b.Box.Size()
	if min(size.X, size.Y) > leafAtMost {
		return ""
	}
	for k := range st.Sweeps {
		d := &st.Sweeps[k]
		if d.Item != b.ID || d.Motion.Kind != "door" || !d.Known {
			continue
		}
		open, err := d.Sweep.At(1)
		if err != nil {
			return ""
		}
		if _, met := part.Meets(open); !met {
			return b.Name
		}
	}
	return ""
}

// leafAtMost is how thick a body may be that is a door leaf itself (common practice, no source).
const leafAtMost = 180 * unit.Millimetre

// siblings tells whether two bodies stand in the same thing, such as the drawers and the fridge of one kitchen.
func siblings(a, b *derive.Body) bool {
	return slices.ContainsFunc(a.Within, func(id string) bool { return slices.Contains(b.Within, id) })
}

// brush is how far a part may go into the wall beyond where it starts: panels give way, and edges are rounded.
const brush = 10 * unit.Millimetre

// sweepExcess is how much larger than the true swept volume its slabs may be.
const sweepExcess = 5 * unit.Millimetre

// wallTries is at how many places on its way a part is held against the walls.
const wallTries = 12

// meetsWall looks whether a part goes through the walls before what it has met so far. What lies ahead of the first and behind the
// last section, where nothing was measured, is not judged.
func (f *Fit) meetsWall(c *contact, st *derive.FitState, kind string, sw geom.Sweep, bounds geom.Box3) {
	sh := f.in(st.State)
	deepest := func(b geom.Solid) (geom.Poke, error) {
		fit, err := sh.Fit(b)
		if outside := (geom.RangeError{}); errors.As(err, &outside) {
			return geom.Poke{}, nil
		}
		var most geom.Poke
		for _, p := range fit.Pokes {
			if p.Depth > most.Depth {
				most = p
			}
		}
		return most, err
	}
	at := func(share float64) (geom.Poke, error) {
		b, err := sw.At(share)
		if err != nil {
			return geom.Poke{}, err
		}
		return deepest(b)
	}
	around, err := geom.BoxSolid(bounds)
	if err != nil {
		c.refuse(err)
		return
	}
	start, err := at(0)
	if err != nil {
		c.refuse(err)
		return
	}
	allowed := start.Depth + brush
	if most, err := deepest(around); err != nil || most.Depth <= allowed {
		c.refuse(err)
		return
	}
	if kind == "lid" || kind == "flap" || kind == "fold" { // At knows a slanting board by a box around it, which may be too large
		slabs, err := sw.Solids(sweepExcess)
		most := unit.Length(0)
		for _, b := range slabs {
			p, e := deepest(b)
			most, err = max(most, p.Depth), errors.Join(err, e)
		}
		if err != nil || most <= allowed {
			c.refuse(err)
			return
		}
	}
	free := 0.0
	for k := 1; k <= wallTries && free < c.share; k++ {
		share := float64(k) / wallTries
		p, err := at(share)
		if err != nil {
			c.refuse(err)
			return
		}
		if p.Depth <= allowed {
			free = share
			continue
		}
		for range 10 { // between the last free place and this one
			mid := (free + share) / 2
			if q, err := at(mid); err == nil && q.Depth <= allowed {
				free = mid
			} else {
				share, p = mid, q
			}
		}
		if !c.met || free < c.share {
			*c = contact{met: true, share: free, by: Subject{Path: "van/shell", Name: "the " + p.Face.String(), At: [3]unit.Opt[unit.Length]{unit.Some(p.At.X), unit.Some(p.At.Y), unit.Some(p.At.Z)}}}
		}
		return
	}
}

func (c *contact) refuse(err error) {
	if err != nil && !c.met {
		c.why = err.Error()
	}
}

// radians is an angle as a plain number, for steps of working.
func radians(degrees float64) float64 { return degrees * math.Pi / 180 }
