package check

import (
	"fmt"
	"math"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/geom"
	"berthwright/unit"
)

var (
	showMM  = calc.Show{Unit: "mm", Factor: 0.001}
	showN   = calc.Show{Unit: "N"}
	showDeg = calc.Show{Unit: "°", Factor: math.Pi / 180, Digits: 1}

	dimForce = calc.Dim{1, 1, -2}
	dimAcc   = calc.Dim{1, 0, -2}
)

// known is a length as a step that is not worked out here; from says how it came about.
func known(symbol, says string, l unit.Length, ref string) calc.Step {
	return calc.Step{Symbol: symbol, Says: says, Kind: calc.Given, SI: l.Metres(), Dim: calc.DimLength, Show: showMM, Ref: ref}
}

// follows is a length as a step that follows from others.
func follows(symbol, says, formula string, l unit.Length) calc.Step {
	return calc.Step{Symbol: symbol, Says: says, Kind: calc.Derived, Formula: formula, SI: l.Metres(), Dim: calc.DimLength, Show: showMM}
}

// usualStep is a length of common practice, or a limit where cite names one.
func usualStep(symbol, says string, l unit.Length) calc.Step {
	return calc.Step{Symbol: symbol, Says: says, Kind: calc.Assumed, SI: l.Metres(), Dim: calc.DimLength, Show: showMM, Source: []calc.Cite{byPractice1}}
}

// clashSlip shows how deep two bodies overlap and why the move clears them. Two boxes along the axes are a closed formula; for others
// it is a certificate.
func clashSlip(s *Slip, a, b *derive.Body, c geom.Clash) {
	s.Title = a.Name + " and " + b.Name
	p, q := a.Box, b.Box
	if a.Turned || b.Turned {
		moved := a.Solid.Move(c.Move)
		left := unit.Length(0)
		if again, ok := moved.Clash(b.Solid); ok {
			left = again.Depth
		}
		line := func(label string, l unit.Length, why string) calc.Line {
			return calc.Line{Label: label, Ref: a.Path, SI: l.Metres(), Dim: calc.DimLength, Show: showMM, Why: why}
		}
		m := c.Move
		s.Certificates = append(s.Certificates, calc.Certificate{
			ID: "fit.clash", Title: "How deep they overlap",
			Method: "Two upright bodies overlap where no edge of either outline parts them; the shortest move that parts them is along the normal of one edge, or plumb. Each is tried, in whole micrometres.",
			Inputs: []calc.Step{known("m_x", "the move, back", m.X, ""), known("m_y", "the move, right", m.Y, ""), known("m_z", "the move, up", m.Z, ""), known("d", "depth", c.Depth, "")},
			Chosen: []calc.Line{line("shortest level move", geomLength(c.Plan), "along the normal of an edge"), line("up, to stand on it", c.Up, "plumb"), line("down, to lie under it", c.Down, "plumb")},
			Balances: []calc.Balance{
				{Says: "the depth is the length of the move", Left: c.Depth.Metres(), LeftFormula: "d", Right: math.Sqrt(m.X.Metres()*m.X.Metres() + m.Y.Metres()*m.Y.Metres() + m.Z.Metres()*m.Z.Metres()), RightFormula: "sqrt(m_x*m_x + m_y*m_y + m_z*m_z)", Within: 1.5e-6, Show: showMM},
				{Says: "after the move nothing of the overlap is left", Left: left.Metres(), Right: 0, Within: 0, Show: showMM},
			},
		})
		return
	}
	steps := []calc.Step{}
	for _, ax := range []struct {
		at         string
		low, high  string
		a0, a1     unit.Length
		b0, b1     unit.Length
		from, over string
	}{
		{"x", "front", "rear", p.Min.X, p.Max.X, q.Min.X, q.Max.X, "along", "overlap along the van"},
		{"y", "left", "right", p.Min.Y, p.Max.Y, q.Min.Y, q.Max.Y, "across", "overlap across the van"},
		{"z", "underside", "top", p.Min.Z, p.Max.Z, q.Min.Z, q.Max.Z, "up", "overlap in height"},
	} {
		steps = append(steps,
			known("a_"+ax.at+"0", ax.low+" of "+a.Name, ax.a0, a.Path), known("a_"+ax.at+"1", ax.high+" of "+a.Name, ax.a1, a.Path),
			known("b_"+ax.at+"0", ax.low+" of "+b.Name, ax.b0, b.Path), known("b_"+ax.at+"1", ax.high+" of "+b.Name, ax.b1, b.Path),
			follows("o_"+ax.at, ax.over, fmt.Sprintf("min(a_%[1]s1, b_%[1]s1) - max(a_%[1]s0, b_%[1]s0)", ax.at), min(ax.a1, ax.b1)-max(ax.a0, ax.b0)))
	}
	steps = append(steps, follows("d", "depth: the shortest move of the first that clears", "min(a_x1 - b_x0, b_x1 - a_x0, a_y1 - b_y0, b_y1 - a_y0, a_z1 - b_z0, b_z1 - a_z0)", c.Depth))
	s.Workings = append(s.Workings, calc.Working{ID: "fit.clash", Title: "How deep they overlap", Steps: steps, Notes: []string{"They overlap because all three overlaps are above nought. The move that clears is " + vectorWords(c.Move) + "."}})
}

func geomLength(v geom.Vec2) unit.Length {
	return unit.MetresLength(math.Hypot(v.X.Metres(), v.Y.Metres()))
}

// lengthSlip shows a length that must be at least another: have and want with how they are known.
func lengthSlip(title string, have, want unit.Length, haveSays, wantSays, ref string, before ...calc.Step) func(*Slip) {
	return func(s *Slip) {
		s.Title = title
		steps := append([]calc.Step{}, before...)
		if len(before) == 0 {
			steps = append(steps, known("L", haveSays, have, ref))
		}
		steps = append(steps,
			calc.Step{Symbol: "L_0", Says: wantSays, Kind: calc.Limit, SI: want.Metres(), Dim: calc.DimLength, Show: showMM, Source: []calc.Cite{byPlanPapers}},
			follows("d", "to spare", "L - L_0", have-want))
		s.Workings = append(s.Workings, calc.Working{ID: "fit.length", Title: title, Steps: steps})
	}
}
