package check

import (
	"errors"

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
	boxes := f.wheels
	told := map[string]unit.Length{}
	for si := range f.In.States {
		st := &f.In.States[si]
		sh := f.in(st.State)
		for i := range st.Bodies {
			b := &st.Bodies[i]
			if b.Outside || b.Wall || b.Shape {
				continue
			}
			out = append(out, f.pokes(sh, st, b, told)...)
			for _, w := range boxes {
				c, ok := b.Solid.Clash(w)
				key := b.ID + "+wheel-box"
				if !ok || c.Depth <= fitSlack || b.Soft || b.Scribe >= c.Depth || told[key] == c.Depth {
					continue
				}
				told[key] = c.Depth
				out = append(out, Finding{State: string(st.State), Case: "shell", Subject: key, Rule: "inside", Verdict: DoesNotHold, Level: calc.Seen,
					Value: unit.Some(mm(c.Depth)), Limit: unit.Some(mm(0)), Margin: unit.Some(mm(-c.Depth)), Subjects: []Subject{bodySubject(b)},
					Says: say("wheel-box-clash", b.Name, mm(c.Depth)), Advice: "move " + b.Name + " " + vectorWords(c.Move) + ", or cut it around the wheel box", Moves: f.offer(st, b, c.Move)})
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
		out = append(out, x)
	}
	return out
}

// pokes tells how one body stands through the shell.
func (f *Fit) pokes(sh geom.Shell, st *derive.FitState, b *derive.Body, told map[string]unit.Length) []Finding {
	fit, err := sh.Fit(b.Solid)
	if err != nil {
		var outside geom.RangeError
		if errors.As(err, &outside) {
			return nil // in the cab, or behind the doors: nothing was measured there
		}
		return nil
	}
	var out []Finding
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
		x.Says = say("poke", b.Name, mm(p.Depth), p.Face.String())
		x.Advice, x.Moves = "move it in, or write how far it is scribed to the wall", f.offer(st, b, inwards(p))
		if f.assumedShape() && p.Depth <= f.halfShape() {
			x.Verdict = Unknown
			x.Missing = []Subject{{Path: "van/shell/sections", Name: "the inner shape of this van; that of its class is assumed"}}
		}
		out = append(out, x)
	}
	return out
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
