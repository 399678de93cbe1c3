package check

import (
	"slices"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/unit"
)

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
				f.show(&x, func(s *Slip) { frameSlip(s, h, fr, d) })
				out = append(out, x)
			}
		}
		for k := i + 1; k < len(f.In.Holes); k++ {
			o := &f.In.Holes[k]
			if !o.Known || o.Hole.Face != h.Hole.Face {
				continue
			}
			rim := h.Hole.Frame.Else(0) + o.Hole.Frame.Else(0)
			dx, dy := min(h.To.X, o.To.X)-max(h.From.X, o.From.X)+rim, min(h.To.Y, o.To.Y)-max(h.From.Y, o.From.Y)+rim
			if dx > 0 && dy > 0 {
				hit = true
				x := base
				d := min(dx, dy)
				x.Check, x.Subject, x.Verdict = "fit-hole-hole", h.ID+"+"+o.ID, DoesNotHold
				x.Value, x.Limit, x.Margin = unit.Some(mm(d)), unit.Some(mm(0)), unit.Some(mm(-d))
				x.Says = say("hole-hole", h.Name, o.Name, mm(d))
				f.show(&x, func(s *Slip) { holesSlip(s, h, o, rim, dx, dy) })
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
	return folded(out, map[string]string{"hole-granted": "hole-granted-all", "hole-no-grant": "hole-no-grant-all", "hole-not-looked": "hole-not-looked-all", "hole-open": "hole-open-all"})
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

// frameSlip shows how far a hole runs into a member of the body, along the van.
func frameSlip(s *Slip, h *derive.FitHole, fr *derive.FitFrame, d unit.Length) {
	s.Title = "The hole for " + h.Name + " and the " + fr.Frame.Kind
	w := calc.Working{ID: "fit.frame", Title: s.Title, Steps: []calc.Step{
		known("h_0", "front edge of the cut", h.From.X, h.Path), known("h_1", "rear edge of the cut", h.To.X, h.Path),
		known("x", "middle of the "+fr.Frame.Kind, fr.Frame.X.Else(0), fr.Path), known("b", "its width along the van", fr.Frame.Width.Else(0), fr.Path),
	}}
	if fr.Frame.Width.Else(0) > 0 {
		half := fr.Frame.Width.Else(0).Half()
		if half+half == fr.Frame.Width.Else(0) {
			w.Steps = append(w.Steps, follows("d", "it runs in by", "min(h_1, x + b/2) - max(h_0, x - b/2)", d))
		} else {
			w.Steps = append(w.Steps, known("d", "it runs in by", d, ""))
		}
	} else {
		w.Steps = append(w.Steps, follows("d", "from its middle to the nearer edge of the cut", "min(h_1 - x, x - h_0)", d))
	}
	w.Notes = []string{"Look and feel behind both faces before you cut or drill."}
	s.Workings = append(s.Workings, w)
}

// holesSlip shows how two holes with their frames overlap.
func holesSlip(s *Slip, h, o *derive.FitHole, rim, dx, dy unit.Length) {
	s.Title = "The holes for " + h.Name + " and " + o.Name
	s.Workings = append(s.Workings, calc.Working{ID: "fit.holes", Title: s.Title, Steps: []calc.Step{
		known("a_0", "first edge of "+h.Name, h.From.X, h.Path), known("a_1", "second edge", h.To.X, h.Path), known("b_0", "first edge of "+o.Name, o.From.X, o.Path), known("b_1", "second edge", o.To.X, o.Path),
		known("p_0", "lower edge of "+h.Name, h.From.Y, h.Path), known("p_1", "upper edge", h.To.Y, h.Path), known("q_0", "lower edge of "+o.Name, o.From.Y, o.Path), known("q_1", "upper edge", o.To.Y, o.Path),
		known("r", "both frames together stand over the cuts by", rim, ""),
		follows("o_x", "overlap one way", "min(a_1, b_1) - max(a_0, b_0) + r", dx), follows("o_y", "overlap the other way", "min(p_1, q_1) - max(p_0, q_0) + r", dy),
		follows("d", "overlap", "min(o_x, o_y)", min(dx, dy)),
	}})
}
