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

// runSeatEvidence asks for the tested evidence of each belted seat: nothing here computes a seat, a belt or a floor.
func runSeatEvidence(f *Fit) []Finding {
	var out []Finding
	for i := range f.In.Seats {
		s := &f.In.Seats[i]
		if !s.Seat.Belted.Else(false) || !s.Planned {
			continue
		}
		x := Finding{State: string(derive.Travel), Case: "seats", Subject: s.ID, Rule: "seat-evidence", Level: calc.Seen, Subjects: []Subject{{Path: s.Path, Name: s.Name}},
			Caution: "seats, belts and their fixings need the tested evidence for this floor; an examiner decides"}
		if at, ok := s.Seat.Tested.Get(); ok && s.X.Known() {
			if d := s.X.V - at; d > 10*unit.Millimetre || d < -10*unit.Millimetre {
				x.Verdict, x.Value, x.Limit = DoesNotHold, unit.Some(mm(s.X.V)), unit.Some(mm(at))
				x.Says = say("seat-moved", s.Name, mm(max(d, -d)))
				x.Advice = "put it back, or bring evidence for the new place"
				out = append(out, x)
				continue
			}
		}
		for _, need := range []struct{ have, key, name string }{
			{s.Seat.Paper, "paper", "test paper"}, {s.Seat.Floor, "floor", "floor it was tested on"}, {s.Seat.Torque, "torque", "torque record"},
		} {
			if s.Driver || s.Seat.Row.Else(2) == 1 {
				continue // a seat of the base van in its own place
			}
			if need.have == "" {
				x.Missing = append(x.Missing, Subject{Path: s.Path + "/" + need.key, Name: need.name + " of " + s.Name})
			}
		}
		x.Verdict = Unknown
		switch {
		case len(x.Missing) > 0:
			x.Says = say("seat-evidence-missing", s.Name, missingWords(x.Missing))
		default:
			x.Says = say("seat-evidence", s.Name)
			x.Advisory = true
		}
		out = append(out, x)
	}
	return out
}

// runUnder finds what hangs under the floor against what must stay free there.
func runUnder(f *Fit) []Finding {
	var slung []*derive.Body
	st := f.state(derive.Travel)
	for i := range st.Bodies {
		if b := &st.Bodies[i]; b.Outside && b.Box.Max.Z <= 50*unit.Millimetre {
			slung = append(slung, b)
		}
	}
	if len(slung) == 0 {
		return nil
	}
	if len(f.In.Under) == 0 {
		return one(Finding{State: string(derive.Travel), Case: "under", Rule: "under-floor", Missing: []Subject{{Path: "van/shell/under", Name: "what is under the floor: exhaust, fuel tank, winch, jacking points"}},
			Says: say("under-unknown", slung[0].Name), Advice: "measure them on this van, or enter them from the base maker's instruction", Caution: "nothing is granted under a floor that nobody has looked at"})
	}
	var out []Finding
	for _, b := range slung {
		for i := range f.In.Under {
			u := &f.In.Under[i]
			if !u.Known || u.Part.Kind == "fuel-tank" && b.ID == u.Part.ID {
				continue
			}
			free := u.Part.Free.Else(0)
			box := u.Solid.Bounds()
			grown, err := geom.BoxSolid(geom.Box3{Min: box.Min.Minus(geom.Vec3{X: free, Y: free, Z: free}), Max: box.Max.Plus(geom.Vec3{X: free, Y: free, Z: free})})
			if err != nil {
				continue
			}
			c, ok := b.Solid.Clash(grown)
			if !ok || c.Depth <= fitSlack {
				continue
			}
			x := Finding{State: string(derive.Travel), Case: "under", Subject: b.ID + "+" + u.Part.ID, Rule: "under-floor", Verdict: DoesNotHold, Level: calc.Seen,
				Value: unit.Some(mm(free - min(c.Depth, free))), Limit: unit.Some(mm(free)), Margin: unit.Some(mm(-c.Depth)), Subjects: []Subject{bodySubject(b), {Path: u.Path, Name: u.Part.ID}},
				Says: say("under", b.Name, u.Part.Kind, mm(c.Depth)), Advice: "move " + b.Name + " " + vectorWords(c.Move)}
			if u.Part.Hot.Else(false) {
				x.Caution = "keep slung tanks, gas and cables away from hot parts, as their makers ask"
			}
			out = append(out, x)
		}
	}
	if len(out) == 0 {
		out = append(out, Finding{State: string(derive.Travel), Case: "under", Rule: "under-floor", Verdict: Holds, Level: calc.Seen, Says: say("under-holds", plain(len(slung)), plain(len(f.In.Under)))})
	}
	return append(out, f.ground(slung)...)
}

// ground says how low the lowest slung item hangs, and the angles it leaves; figures, no limit.
func (f *Fit) ground(slung []*derive.Body) []Finding {
	if !f.In.Van.FloorHigh.Known() {
		return nil
	}
	lowest := slung[0]
	for _, b := range slung {
		if b.Box.Min.Z < lowest.Box.Min.Z {
			lowest = b
		}
	}
	clear := f.In.Van.FloorHigh.V + lowest.Box.Min.Z
	x := Finding{Check: "fit-clearance", Title: "Ground clearance", State: string(derive.Travel), Case: "under", Advisory: true, Rule: "ground-clearance", Verdict: Holds, Level: calc.Unsourced,
		Value: unit.Some(mm(clear)), Subjects: []Subject{bodySubject(lowest)}, Says: say("ground", lowest.Name, mm(clear))}
	if g, ok := f.In.Ground.Clearance.Get(); ok {
		x.Limit, x.Margin = unit.Some(mm(g)), unit.Some(mm(clear-g))
		x.Says = say("ground-lower", lowest.Name, mm(clear), mm(g))
	}
	return one(x)
}

// runHoles judges each hole against frames, other holes, and what the base maker grants there.
func runHoles(f *Fit) []Finding {
	var out []Finding
	for i := range f.In.Holes {
		h := &f.In.Holes[i]
		if h.Hole.Face == "inside" || h.Hole.Face == "" {
			continue
		}
		base := Finding{State: "all", Case: "holes", Subject: h.ID, Rule: "cut-out", Level: calc.Seen, Subjects: []Subject{{Path: h.Path, Name: h.Name, At: [3]unit.Opt[unit.Length]{unit.Some(h.At.X), unit.Some(h.At.Y), unit.Some(h.At.Z)}}},
			Caution: "look and feel behind both faces before you cut or drill; a frame is never cut without the base maker's instruction"}
		if !h.Known {
			base.Missing = []Subject{{Path: h.Path, Name: "size and place of the hole for " + h.Name}}
			base.Says = say("hole-open", h.Name)
			out = append(out, base)
			continue
		}
		hit := false
		for k := range f.In.Frames {
			fr := &f.In.Frames[k]
			if d, ok := crosses(h, fr); ok {
				hit = true
				x := base
				x.Check, x.Subject = "fit-hole-frame", h.ID+"+"+fr.Frame.ID
				x.Value, x.Limit, x.Margin, x.Verdict = unit.Some(mm(d)), unit.Some(mm(0)), unit.Some(mm(-d)), DoesNotHold
				x.Subjects = append(slices.Clone(x.Subjects), Subject{Path: fr.Path, Name: fr.Frame.Kind})
				x.Says = say("hole-frame", h.Name, fr.Frame.Kind, mm(d))
				if fr.Frame.Content != "" {
					x.Caution += "; in it: " + fr.Frame.Content
				}
				x.Advice = "move the hole between the frames"
				out = append(out, x)
			}
		}
		for k := i + 1; k < len(f.In.Holes); k++ {
			o := &f.In.Holes[k]
			if !o.Known || o.Hole.Face != h.Hole.Face {
				continue
			}
			dx, dy := min(h.To.X, o.To.X)-max(h.From.X, o.From.X), min(h.To.Y, o.To.Y)-max(h.From.Y, o.From.Y)
			if dx > 0 && dy > 0 {
				hit = true
				x := base
				x.Check, x.Subject, x.Verdict = "fit-hole-hole", h.ID+"+"+o.ID, DoesNotHold
				x.Value, x.Limit, x.Margin = unit.Some(mm(min(dx, dy))), unit.Some(mm(0)), unit.Some(mm(-min(dx, dy)))
				x.Says = say("hole-hole", h.Name, o.Name, mm(min(dx, dy)))
				out = append(out, x)
			}
		}
		if hit {
			continue
		}
		x := base
		x.Check = "fit-hole-zone"
		if paper, ok := f.granted(h); ok {
			x.Verdict, x.Basis = Holds, paper
			x.Says = say("hole-granted", h.Name, paper)
		} else {
			x.Missing = []Subject{{Path: "van/shell/allowed", Name: "a cut-out granted at this place, with document, page and date"}}
			x.Says = say("hole-no-grant", h.Name)
			x.Advice = "enter the base maker's body-building instruction, or what was measured on this van"
		}
		if x.Verdict == Holds && h.Hole.Looked == "" {
			x.Verdict = Unknown
			x.Missing = []Subject{{Path: h.Path + "/looked", Name: "who looked behind both faces at " + h.Name}}
			x.Says = say("hole-not-looked", h.Name)
		}
		out = append(out, x)
	}
	return out
}

// crosses tells by how much a hole runs into a frame of its face, along the van.
func crosses(h *derive.FitHole, fr *derive.FitFrame) (unit.Length, bool) {
	if fr.Frame.Side != h.Hole.Face || fr.Frame.Kind == "noggin" || fr.Frame.Kind == "sill" {
		return 0, false
	}
	x, ok := fr.Frame.X.Get()
	if !ok || h.Hole.Face == "rear" {
		return 0, false
	}
	w := fr.Frame.Width.Else(0)
	from, to := x-w.Half(), x+w.Half()
	d := min(h.To.X, to) - max(h.From.X, from)
	if w == 0 && h.From.X < x && x < h.To.X {
		d = min(h.To.X-x, x-h.From.X)
	}
	if d <= 0 {
		return 0, false
	}
	if h.Hole.Face == "left" || h.Hole.Face == "right" {
		if min(h.To.Y, fr.Frame.High.Else(4*unit.Metre))-max(h.From.Y, fr.Frame.Low.Else(-unit.Metre)) <= 0 {
			return 0, false
		}
	}
	return d, true
}

// granted tells whether a cut-out is granted where a hole lies, and by which paper.
func (f *Fit) granted(h *derive.FitHole) (string, bool) {
	for i := range f.In.Allowed {
		a := &f.In.Allowed[i].Allowed
		if a.Kind != "cut-out" || a.Side != h.Hole.Face {
			continue
		}
		if a.From.Else(-10*unit.Metre) <= h.From.X && h.To.X <= a.To.Else(20*unit.Metre) && a.Low.Else(-10*unit.Metre) <= h.From.Y && h.To.Y <= a.High.Else(20*unit.Metre) {
			return a.Paper, true
		}
	}
	return "", false
}
