package web

import (
	"strings"

	"berthwright/check"
	"berthwright/sheet"
	"berthwright/unit"
)

// viewFit adds what the fit concern answers, and puts the findings of all concerns in one order, worst first.
func viewFit(v *BuildView, sh *sheet.Sheet, sys unit.System) {
	v.Findings = viewAll(sh.Findings(false), sys)
	f := sh.Fit()
	c := ConcernView{ID: "fit", Name: "Fit", Verdict: check.NotBegun.String(), Text: "not begun"}
	if f.Begun {
		c.Verdict, c.Text = tally(f.Findings)
	}
	v.Concerns = append(v.Concerns, c)
}

// tally returns the worst verdict among findings that count, and how many there are of each.
func tally(findings []check.Finding) (worst, text string) {
	n := map[check.Verdict]int{}
	for i := range findings {
		if !findings[i].Advisory {
			n[findings[i].Verdict]++
		}
	}
	worst = check.Holds.String()
	var parts []string
	for _, k := range []check.Verdict{check.DoesNotHold, check.Unknown, check.Tight, check.Holds} {
		if n[k] == 0 {
			continue
		}
		if len(parts) == 0 {
			worst = k.String()
		}
		parts = append(parts, k.Of(n[k]))
	}
	return worst, strings.Join(parts, ", ")
}

// viewAll renders findings; the worst of them become margin notes, advices never.
func viewAll(findings []check.Finding, sys unit.System) []FindingView {
	out := make([]FindingView, 0, len(findings))
	notes := 0
	for i := range findings {
		v := viewFinding(&findings[i], sys)
		if findings[i].Verdict != check.Holds && !findings[i].Advisory && notes < notesMost {
			v.Note = true
			notes++
		}
		out = append(out, v)
	}
	return out
}

// viewMoves makes the moves that clear a finding into edits.
func viewMoves(moves []check.Move) []Offer {
	var out []Offer
	for _, m := range moves {
		out = append(out, Offer{Text: m.Text, Edits: []Edit{{Kind: "move", Row: m.Item, State: m.State, DX: m.By.X.Micrometres(), DY: m.By.Y.Micrometres(), DZ: m.By.Z.Micrometres()}}})
	}
	return out
}
