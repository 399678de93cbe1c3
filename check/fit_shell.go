package check

import (
	"errors"
	"slices"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/geom"
	"berthwright/unit"
)

// wheelBoxes returns the boxes over the rear wheels as solids.
func (f *Fit) wheelBoxes() []geom.Solid {
	v := f.In.Van
	if !v.BoxFront.Known() || !v.BoxRear.Known() || !v.BoxInner.Known() || !v.BoxHigh.Known() {
		return nil
	}
	var out []geom.Solid
	for _, side := range [2]bool{true, false} {
		b := geom.Box3{Min: geom.Vec3{X: v.BoxFront.V, Y: v.BoxInner.V}, Max: geom.Vec3{X: v.BoxRear.V, Y: v.BoxInner.V + 400*unit.Millimetre, Z: v.BoxHigh.V}}
		if side {
			b.Min.Y, b.Max.Y = -v.BoxInner.V-400*unit.Millimetre, -v.BoxInner.V
		}
		if s, err := geom.BoxSolid(b); err == nil {
			out = append(out, s)
		}
	}
	return out
}

// runShell finds bodies that poke through a lined wall, the ceiling, the floor or a wheel box.
func runShell(f *Fit) []Finding {
	if !f.Shape {
		return one(Finding{State: "all", Case: "shell", Rule: "inside", Missing: []Subject{{Path: "van/shell/sections", Name: "the inner shape of the van"}},
			Says: say("shell-unknown", f.ShapeWhy), Advice: "measure widths at heights and stations, or pick a class of van to start from"})
	}
	var out []Finding
	var beyond []string
	boxes := f.wheels
	told := map[string]unit.Length{}
	for si := range f.In.States {
		st := &f.In.States[si]
		sh := f.in(st.State)
		for i := range st.Bodies {
			b := &st.Bodies[i]
			if b.Outside || b.Wall || b.Shape || si > 0 && b.Same && len(f.In.Shell.Raises) == 0 {
				continue
			}
			found, whole := f.pokes(sh, st, b, told)
			out = append(out, found...)
			if !whole && !slices.Contains(beyond, b.Name) {
				beyond = append(beyond, b.Name)
			}
			for _, w := range boxes {
				c, ok := b.Solid.Clash(w)
				key := b.ID + "+wheel-box"
				if !ok || c.Depth <= fitSlack || b.Soft || b.Scribe >= c.Depth || told[key] == c.Depth {
					continue
				}
				told[key] = c.Depth
				x := Finding{State: string(st.State), Case: "shell", Subject: key, Rule: "inside", Verdict: DoesNotHold, Level: calc.Seen,
					Value: unit.Some(mm(c.Depth)), Limit: unit.Some(mm(0)), Margin: unit.Some(mm(-c.Depth)), Subjects: []Subject{bodySubject(b)},
					Says: say("wheel-box-clash", b.Name, mm(c.Depth)), Advice: f.moveAdvice(b, c.Move) + ", or cut it around the wheel box", Moves: f.offer(st, b, c.Move)}
				f.show(&x, func(s *Slip) {
					clashSlip(s, b, &derive.Body{ID: "wheel-box", Name: "the wheel box", Path: "van/inside/wheel-box", Solid: w, Box: w.Bounds()}, c)
				})
				out = append(out, x)
			}
		}
	}
	if len(out) == 0 {
		x := Finding{State: "all", Case: "shell", Rule: "inside", Verdict: Holds, Level: calc.Seen, Says: say("shell-holds")}
		if f.assumedShape() {
			x.Verdict, x.Level = Unknown, calc.Unsourced
			x.Missing = []Subject{{Path: "van/shell/sections", Name: "the inner shape of this van; that of its class is assumed"}}
			x.Says = say("shell-assumed")
		}
		if len(beyond) > 0 {
			x.Basis = "between the first and the last section; nothing was measured where " + some(beyond, func(s string) string { return s }) + " stand, wholly or in part"
		}
		out = append(out, x)
	}
	return out
}

// pokes tells how one body stands through the shell; whole is false where part of it stands beyond the sections, in the cab or behind
// the doors, where nothing was measured.
func (f *Fit) pokes(sh geom.Shell, st *derive.FitState, b *derive.Body, told map[string]unit.Length) (out []Finding, whole bool) {
	fit, err := sh.Fit(b.Solid)
	if err != nil {
		var outside geom.RangeError
		if errors.As(err, &outside) {
			return nil, false
		}
		return one(Finding{State: string(st.State), Case: "shell", Subject: b.ID, Rule: "inside", Missing: []Subject{{Path: b.Path, Name: "the shape of " + b.Name + " against the walls (" + err.Error() + ")"}}, Says: say("shell-odd", b.Name, err.Error())}), false
	}
	for _, p := range fit.Pokes {
		if p.Depth <= fitSlack || b.Soft && p.Depth < 60*unit.Millimetre || b.Scribe >= p.Depth {
			continue
		}
		key := b.ID + "+" + faceID[p.Face]
		if told[key] == p.Depth {
			continue
		}
		told[key] = p.Depth
		x := Finding{State: string(st.State), Case: "shell", Subject: key, Rule: "inside", Level: calc.Seen,
			Value: unit.Some(mm(p.Depth)), Limit: unit.Some(mm(b.Scribe)), Margin: unit.Some(mm(b.Scribe - p.Depth)), Half: unit.Some(mm(f.halfShape())),
			Subjects: []Subject{{Path: b.Path, Name: b.Name, At: [3]unit.Opt[unit.Length]{unit.Some(p.At.X), unit.Some(p.At.Y), unit.Some(p.At.Z)}}}}
		x.Verdict = DoesNotHold
		x.Says = say("poke", b.Name, mm(p.Depth), f.through(st, b, p))
		f.show(&x, func(s *Slip) { f.pokeSlip(s, sh, b, p) })
		x.Advice, x.Moves = "move it in, or write how far it is scribed to the wall", f.offer(st, b, inwards(p))
		if f.assumedShape() && p.Depth <= f.halfShape() {
			x.Verdict = Unknown
			x.Missing = []Subject{{Path: "van/shell/sections", Name: "the inner shape of this van; that of its class is assumed"}}
		}
		out = append(out, x)
	}
	return out, fit.Ahead == 0 && fit.Behind == 0
}

// through names the face a body stands through: lined, or bare metal as well.
func (f *Fit) through(st *derive.FitState, b *derive.Body, p geom.Poke) string {
	if fit, err := f.Bare.Fit(b.Solid); err == nil && len(f.In.Shell.Raises) == 0 {
		for _, q := range fit.Pokes {
			if q.Face == p.Face && q.Depth > fitSlack {
				return p.Face.String() + ", " + length(q.Depth) + " of it through the bare metal"
			}
		}
	}
	return "lined " + p.Face.String()
}

// pokeSlip shows where a body is furthest through a wall, and the wall there.
func (f *Fit) pokeSlip(s *Slip, sh geom.Shell, b *derive.Body, p geom.Poke) {
	s.Title = b.Name + " and the " + p.Face.String()
	place := []calc.Step{known("x", "furthest point of it, back from the front axle", p.At.X, b.Path), known("y", "right of the centre line", p.At.Y, b.Path), known("z", "over the bare floor", p.At.Z, b.Path)}
	if p.Face == geom.LeftWall || p.Face == geom.RightWall {
		if y, err := sh.Wall(p.Face, p.At.X, p.At.Z); err == nil && max(y, -y) <= max(p.At.Y, -p.At.Y) {
			out := p.At.Y - y
			formula := "y - y_w"
			if p.Face == geom.LeftWall {
				out, formula = -out, "y_w - y"
			}
			place = append(place, known("y_w", "the lined wall there", y, "van/shell/sections"), follows("d", "it stands through by", formula, out))
			s.Workings = append(s.Workings, calc.Working{ID: "fit.poke", Title: s.Title, Steps: place, Notes: []string{"Walls are straight from section to section; the furthest point lies on a corner of the body, or where its outline crosses a line of sections."}})
			return
		}
	}
	s.Certificates = append(s.Certificates, calc.Certificate{ID: "fit.poke", Title: s.Title, Inputs: append(place, known("d", "how far it stands through", p.Depth, "")),
		Method:   "Each corner of the outline, and where it crosses the lines of sections and corners, is held against the lined walls sideways and, once it is clear of them, against the roof plumb; the furthest is told.",
		Chosen:   []calc.Line{{Label: "furthest point", Ref: b.Path, SI: p.Depth.Metres(), Dim: calc.DimLength, Show: showMM}},
		Balances: []calc.Balance{{Says: "the depth told is that of the furthest point", Left: p.Depth.Metres(), LeftFormula: "sum(c_i)", Right: p.Depth.Metres(), RightFormula: "d", Show: showMM}}})
}

// inwards is the move that takes a body back inside the face it stands through.
func inwards(p geom.Poke) geom.Vec3 {
	switch p.Face {
	case geom.LeftWall:
		return geom.Vec3{Y: p.Depth}
	case geom.RightWall:
		return geom.Vec3{Y: -p.Depth}
	case geom.Roof:
		return geom.Vec3{Z: -p.Depth}
	}
	return geom.Vec3{Z: p.Depth}
}

var faceID = map[geom.Face]string{geom.LeftWall: "left-wall", geom.RightWall: "right-wall", geom.Roof: "roof", geom.Floor: "floor"}
