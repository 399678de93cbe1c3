package sheet

import "berthwright/check"

// PaperState is one paper with how far it may be relied on, as far as computed here, and what keeps it from going further.
type PaperState struct {
	Name, File string
	Status     check.Status
	Why        []string
}

// Papers lists the papers, each with its own status: what rests on the weight alone, what touches the shell, what is cut.
func (s *Sheet) Papers() []PaperState {
	weight, whyWeight := s.Weight.Status()
	shape, whyShape := s.fitStatus(false)
	holes, whyHoles := s.fitStatus(true)
	drawing, whyDrawing := weight, whyWeight
	switch {
	case shape < weight:
		drawing, whyDrawing = shape, whyShape
	case shape == weight:
		whyDrawing = both(whyWeight, whyShape)
	}
	return []PaperState{
		{"Mass statement", "mass-statement.pdf", weight, whyWeight},
		{"Loading placard", "placard.pdf", weight, whyWeight},
		{"Hole register", "hole-register.pdf", holes, whyHoles},
		{"Hole templates", "templates.pdf", holes, whyHoles},
		{"Fixing map", "fixing-map.pdf", shape, whyShape},
		{"Drawings of every state", "states.pdf", shape, whyShape},
		{"Drawings", "drawing", drawing, whyDrawing},
	}
}

func both(a, b []string) []string {
	out := append([]string(nil), a...)
	for _, w := range b {
		seen := false
		for _, o := range out {
			seen = seen || o == w
		}
		if !seen {
			out = append(out, w)
		}
	}
	return out
}
