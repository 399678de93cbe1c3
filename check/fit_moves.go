package check

import (
	"slices"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/geom"
	"berthwright/unit"
)

var motionWords = map[string]string{"door": "the door", "drawer": "the drawer", "lid": "the lid", "flap": "the flap", "slide": "it slides and", "swivel": "it turns and", "fold": "it folds and", "lift": "it lifts and"}

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
			if !s.Known {
				if !told[key] {
					told[key] = true
					out = append(out, Finding{State: string(st.State), Case: "moves", Subject: key, Rule: "moves", Missing: []Subject{{Path: "items/" + s.Item + "/moves/" + s.Motion.ID, Name: "side, hinge and angle or travel of " + f.In.Names[s.Item]}},
						Says: say("sweep-open", f.In.Names[s.Item], s.Motion.ID)})
				}
				continue
			}
			n++
			by, at, met := f.first(st, s, s.Sweep)
			if met && s.Either {
				if by2, at2, met2 := f.first(st, s, s.Other); !met2 || at2 > at {
					by, at, met = by2, at2, met2
				}
			}
			if !met || told[key+string(st.State)] {
				continue
			}
			told[key+string(st.State)] = true
			x := Finding{State: string(st.State), Case: "moves", Subject: key, Rule: "moves", Verdict: DoesNotHold, Level: calc.Seen, Advisory: !s.Whole,
				Subjects: []Subject{{Path: "items/" + s.Item, Name: f.In.Names[s.Item]}, by}}
			if own := st.Body(s.Item); own != nil {
				x.Subjects[0] = bodySubject(own)
			}
			way := func(share float64) Figure {
				if s.Travel != 0 {
					return mm(s.Travel.Times(share))
				}
				return Figure{Kind: unit.KindAngle, SI: s.Angle.Radians() * share}
			}
			whole, have := way(1), way(at)
			x.Value, x.Limit, x.Margin = unit.Some(have), unit.Some(whole), unit.Some(Figure{Kind: whole.Kind, SI: have.SI - whole.SI, Digits: whole.Digits})
			x.Says = say("sweep-stops", f.In.Names[s.Item], motionWords[s.Motion.Kind], by.Name, have, whole)
			x.Advice = "move one of them, or hang it the other way"
			out = append(out, x)
		}
	}
	if n > 0 && !slices.ContainsFunc(out, func(x Finding) bool { return x.Verdict == DoesNotHold }) {
		out = append(out, Finding{State: "all", Case: "moves", Rule: "moves", Verdict: Holds, Level: calc.Seen, Says: say("sweeps-hold", plain(n))})
	}
	return out
}

// first returns what a sweep meets first and the share of its way it has gone by then.
func (f *Fit) first(st *derive.FitState, s *derive.FitSweep, sw geom.Sweep) (by Subject, share float64, met bool) {
	own := st.Body(s.Item)
	least := 1.0
	gone := func(c geom.Contact) float64 {
		if s.Travel != 0 {
			return c.Travel.Per(max(s.Travel, -s.Travel)).Share()
		}
		return c.Angle.Radians() / s.Angle.Radians()
	}
	bounds, err := sw.Bounds()
	if err != nil {
		return by, 0, false
	}
	for i := range st.Bodies {
		b := &st.Bodies[i]
		if b.ID == s.Item || b.Soft || b.Shape || b.Wall || own != nil && (related(own, b) || siblings(own, b)) || !b.Box.Overlaps(bounds) {
			continue
		}
		if c, ok := sw.Meets(b.Solid); ok {
			if g := gone(c); g < least {
				least, by, met = g, bodySubject(b), true
			}
		}
	}
	if f.Shape && (own == nil || !own.Outside && !own.Wall) && !met {
		by, met = f.meetsWall(st, s, sw)
		least = 0.99
	}
	return by, least, met
}

// siblings tells whether two bodies stand in the same thing, such as the drawers and the fridge of one kitchen.
func siblings(a, b *derive.Body) bool {
	return slices.ContainsFunc(a.Within, func(id string) bool { return slices.Contains(b.Within, id) })
}

// sweepExcess is how much larger than the true swept volume its outline may be.
const sweepExcess = 2 * unit.Millimetre

// meetsWall tells whether the whole way of a part stays within the walls; a door may brush the wall by a little.
func (f *Fit) meetsWall(st *derive.FitState, s *derive.FitSweep, sw geom.Sweep) (Subject, bool) {
	solids, err := sw.Solids(sweepExcess)
	if err != nil {
		return Subject{}, false
	}
	sh := f.in(st.State)
	for _, k := range solids {
		fit, err := sh.Fit(k)
		if err != nil {
			continue
		}
		for _, p := range fit.Pokes {
			if p.Depth > 10*unit.Millimetre {
				return Subject{Path: "van/shell", Name: "the " + p.Face.String(), At: [3]unit.Opt[unit.Length]{unit.Some(p.At.X), unit.Some(p.At.Y), unit.Some(p.At.Z)}}, true
			}
		}
	}
	return Subject{}, false
}
