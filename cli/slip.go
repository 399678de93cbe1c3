package cli

import (
	"fmt"
	"slices"
	"strings"

	"berthwright/calc"
	"berthwright/check"
	"berthwright/sheet"
	"berthwright/source"
)

// printSlip prints the working behind one figure: key is the id of a working, the key of a finding, or the name of a check.
func (e *env) printSlip(s *sheet.Sheet, key string) error {
	slip, ok := s.Slip(key)
	for _, f := range s.Findings(false) {
		if ok {
			break
		}
		if f.Slip != "" && (f.Key() == key || f.Check == key) {
			slip, ok = s.Slip(f.Slip)
		}
	}
	if !ok {
		return usage{fmt.Sprintf("there is no working %q of this build", key), "there are " + strings.Join(slips(s), ", ") + ", and each finding's by its key"}
	}
	e.workings(slip)
	return nil
}

// slips lists the workings of a build.
func slips(s *sheet.Sheet) []string {
	ids := []string{"weight.base", "weight.payload", "weight.sides"}
	for _, f := range s.Findings(false) {
		ids = append(ids, f.Slip)
	}
	for _, c := range s.Weight.Cases {
		ids = append(ids, "case."+c.ID)
	}
	slices.Sort(ids)
	return slices.DeleteFunc(slices.Compact(ids), func(id string) bool {
		_, ok := s.Slip(id)
		return !ok
	})
}

func (e *env) workings(slip check.Slip) {
	fmt.Fprintf(e.out, "%s\n", slip.Title)
	for _, w := range slip.Workings {
		fmt.Fprintf(e.out, "\n%s  [%s]\n", w.Title, w.ID)
		e.lines(w)
	}
	for _, c := range slip.Certificates {
		fmt.Fprintf(e.out, "\n%s  [%s]\n  %s\n", c.Title, c.ID, c.Method)
		for _, l := range c.Lines() {
			fmt.Fprintf(e.out, "  %10s  %-38s %s\n", l.Show.Text(l.SI), l.Label, l.Why)
		}
		for _, b := range c.Balances {
			fmt.Fprintf(e.out, "  balance: %s: %s = %s\n", b.Says, b.Show.Text(b.Left), b.Show.Text(b.Right))
		}
	}
}

func (e *env) lines(w calc.Working) {
	for _, l := range calc.Lines(w) {
		fmt.Fprintf(e.out, "  %-6s %s\n", l.Symbol, l.Says)
		if l.Formula != "" {
			fmt.Fprintf(e.out, "         = %s\n", l.Formula)
			if l.Numbers != "" && l.Numbers != l.Formula {
				fmt.Fprintf(e.out, "         = %s\n", l.Numbers)
			}
		}
		fmt.Fprintf(e.out, "         = %s%s\n", l.Result, sourceWords(l))
	}
	for _, n := range w.Notes {
		fmt.Fprintf(e.out, "  note: %s\n", n)
	}
}

func sourceWords(l calc.SlipLine) string {
	var parts []string
	for _, c := range l.Cites {
		if p, ok := source.Find(c.Key); ok {
			t := p.Name()
			if c.At != "" {
				t += ", " + c.At
			}
			parts = append(parts, t)
		}
	}
	if l.Kind == calc.Assumed {
		parts = append(parts, "assumed")
	}
	if len(parts) == 0 {
		return ""
	}
	if len(l.Cites) > 0 {
		parts[len(parts)-1] += " (" + l.Level.String() + ")"
	}
	return "   [" + strings.Join(parts, "; ") + "]"
}
