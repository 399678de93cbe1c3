package sheet

import (
	"fmt"
	"strings"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/paper"
	"berthwright/unit"
)

// tables says payload by party, the wheels of the deciding case, and what every plated set would leave.
func (s *Sheet) tables(sys unit.System) []paper.Pair {
	w := s.Weight
	var out []paper.Pair
	byFill := map[string][]string{}
	var fills []string
	for _, p := range w.Party {
		if !p.Known || w.Unsure() {
			continue
		}
		if byFill[p.Fill] == nil {
			fills = append(fills, p.Fill)
		}
		byFill[p.Fill] = append(byFill[p.Fill], p.Who+" "+kg(p.Left, sys))
	}
	for _, f := range fills {
		out = append(out, paper.Pair{Name: "Left, " + f, Value: strings.Join(byFill[f], ", "), Note: "for luggage over the zones behind the cab; " + w.LadenWords(sys)})
	}
	for i := range out {
		if i > 0 {
			out[i].Note = ""
		}
	}
	if w.Deciding >= 0 {
		if wheels, basis, ok := w.Wheels(w.Cases[w.Deciding].Split); ok {
			var parts []string
			for _, x := range wheels {
				parts = append(parts, fmt.Sprintf("%s %s to %s", x.Name, kg(x.Low, sys), kg(x.High, sys)))
			}
			out = append(out, paper.Pair{Name: "Wheels", Value: strings.Join(parts, ", "), Note: s.decidingName() + "; " + basis})
		}
	}
	if rows := w.Plates(); len(rows) > 1 {
		for _, r := range rows {
			var parts []string
			for i, m := range [...]unit.Opt[unit.Mass]{r.Total, r.Front, r.Rear} {
				if v, ok := m.Get(); ok {
					parts = append(parts, [...]string{"total ", "front ", "rear "}[i]+signed(v, sys))
				}
			}
			note := strings.TrimSpace(r.Basis + " " + r.Paper)
			if r.InUse {
				note = strings.TrimSpace(note + " judged here")
			}
			out = append(out, paper.Pair{Name: "Plated set, " + r.Name, Value: strings.Join(parts, ", ") + " in hand: " + r.Verdict.Says(), Note: note})
		}
	}
	return out
}

// standingRows gives the dry van in the states in which something stands elsewhere than when travelling.
func (s *Sheet) standingRows(sys unit.System) []paper.CaseRow {
	var out []paper.CaseRow
	for _, state := range []derive.State{derive.Camp, derive.Night} {
		split, ok := s.Standing(state)
		if !ok || !s.Poses(state) {
			continue
		}
		row := paper.CaseRow{Name: "Finished, dry, " + string(state), People: "nobody aboard, tanks empty; with what stands out or is made up",
			Front: number(split.Front, sys), Rear: number(split.Rear, sys), Total: bare(split.Total, 0, sys)}
		if l, ok := split.Left.Get(); ok {
			r, _ := split.Right.Get()
			row.Fills = "left " + kg(l, sys) + ", right " + kg(r, sys)
		}
		out = append(out, row)
	}
	return out
}

// Poses reports whether any item is elsewhere in a state than when travelling.
func (s *Sheet) Poses(state derive.State) bool {
	travel, there := s.Placed(derive.Travel), s.Placed(state)
	for i := range there {
		if there[i].Centre != travel[i].Centre || there[i].Away != travel[i].Away {
			return true
		}
	}
	return false
}

// weighings sets the ticket of the finished van against the sum of parts, reading by reading.
func (s *Sheet) weighings(sys unit.System) []paper.Pair {
	f := s.Weight.In.Finished
	if f == nil {
		return nil
	}
	r := s.Weight.Reconcile(&doc.Record{Weighings: []doc.Weighing{f.Weighing}})
	if !r.Known {
		return []paper.Pair{{Name: "Finished ticket", Value: "not held against the sum of parts", Note: r.Why}}
	}
	var out []paper.Pair
	for _, m := range r.Says {
		out = append(out, paper.Pair{Name: "Finished ticket", Value: m.Text(sys)})
	}
	for _, x := range r.Rows {
		out = append(out, paper.Pair{Name: x.Name, Value: fmt.Sprintf("read %s, by the sum of parts %s", kg(x.Read, sys), kg(x.Expected, sys)),
			Note: fmt.Sprintf("off by %s, ± %s: %s", signed(x.Off, sys), kg(x.Half, sys), agrees(x.Verdict))})
	}
	for _, x := range r.Suspects {
		out = append(out, paper.Pair{Name: "Look at", Value: x.Name})
	}
	return out
}

func agrees(v check.Verdict) string {
	if v == check.DoesNotHold {
		return "further off than both doubts allow"
	}
	return "agrees"
}
