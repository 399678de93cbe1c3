package sheet

import (
	"slices"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/unit"
)

// clearsTried is how many ways are held against the fit, clearsMost how many are told, and clearsBlocked how many when none is clean.
const (
	clearsTried   = 14
	clearsMost    = 6
	clearsBlocked = 3
)

// Clears returns what clears the plated limit that fails worst: the ways of Weight.Clears, each move tried against clashes, walls and
// room beside in the moved build. A move that brings on something new there is left out; where no way is left the best stay, with what
// each reopens. It is for a build at rest, not for previews.
func (s *Sheet) Clears() []check.Mend {
	s.clearsOnce.Do(func() { s.clears = s.tried() })
	return s.clears
}

func (s *Sheet) tried() []check.Mend {
	placed := s.Placed(derive.Travel)
	mends := s.Weight.ClearsUpTo(placed, clearsTried)
	var clean, blocked []check.Mend
	for _, m := range mends {
		if len(clean) == clearsMost {
			break
		}
		if m.Removal || !s.shape().Begun {
			clean = append(clean, m)
			continue
		}
		if came := s.cameWith(placed, m); len(came) > 0 {
			m.Reopens = append(slices.Clone(m.Reopens), came...)
			blocked = append(blocked, m)
			continue
		}
		clean = append(clean, m)
	}
	if len(clean) == 0 {
		return blocked[:min(len(blocked), clearsBlocked)]
	}
	return clean
}

// cameWith lists what does not hold of the fit with one item moved along the van, and holds now.
func (s *Sheet) cameWith(placed []derive.Placed, m check.Mend) []string {
	b := s.Build
	b.Items = slices.Clone(b.Items)
	for i := range placed {
		if p := &placed[i]; p.Item.ID == m.ID && p.At[0].Known() {
			b.Items[i].At.X = unit.Some(p.At[0].V + m.By)
		}
	}
	was := map[string]bool{}
	for _, f := range s.shape().Findings {
		was[f.Key()] = f.Verdict == check.DoesNotHold
	}
	var out []string
	for _, f := range check.AssessFitMoving(derive.MakeFit(b, s.ctx), s.Pack).Findings {
		if f.Verdict == check.DoesNotHold && !f.Advisory && !was[f.Key()] {
			out = append(out, f.Says.Text(s.System()))
		}
	}
	return out
}
