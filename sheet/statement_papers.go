package sheet

import (
	"strings"

	"berthwright/calc"
	"berthwright/check"
	"berthwright/paper"
	"berthwright/source"
)

// sources lists each place in a publication that a finding rests on, with what it is used for.
func (s *Sheet) sources() []paper.Source {
	var out []paper.Source
	index := map[calc.Cite]int{}
	for _, f := range s.Weight.Findings {
		for i, c := range f.Sources {
			p, ok := source.Find(c.Key)
			if !ok {
				continue
			}
			if k, have := index[c]; have {
				if !strings.Contains(out[k].For, f.Title) {
					out[k].For += ", " + f.Title
				}
				continue
			}
			row := paper.Source{Title: p.Name(), At: c.At, For: f.Title}
			if i == 0 {
				row.Evidence = f.Level.Says()
			}
			index[c] = len(out)
			out = append(out, row)
		}
	}
	return out
}

// paperSlips turns a slip into blocks for paper, at most n of its workings; certificates follow as lines.
func paperSlips(slip check.Slip, n int) []paper.Slip {
	var out []paper.Slip
	for i, w := range slip.Workings {
		if i == n {
			break
		}
		b := paper.Slip{ID: w.ID, Title: w.Title, Notes: w.Notes}
		if i == 0 {
			b.Title = slip.Title
		}
		for _, l := range calc.Lines(w) {
			kind := l.Kind.String()
			if l.Kind == calc.Derived {
				kind = ""
			}
			b.Lines = append(b.Lines, paper.SlipLine{Symbol: l.Symbol, Says: l.Says, Kind: kind, Formula: l.Formula, Numbers: l.Numbers, Result: l.Result, Source: citeWords(l.Cites, l.Level)})
		}
		out = append(out, b)
	}
	for _, c := range slip.Certificates {
		b := paper.Slip{ID: c.ID, Title: c.Title, Notes: []string{c.Method}}
		for _, l := range c.Lines() {
			if l.SI == 0 {
				continue
			}
			b.Lines = append(b.Lines, paper.SlipLine{Says: l.Label + ": " + l.Why, Kind: "given", Result: l.Show.Text(l.SI)})
		}
		for _, x := range c.Balances {
			b.Lines = append(b.Lines, paper.SlipLine{Says: "balance: " + x.Says, Kind: "given", Result: x.Show.Text(x.Left) + " = " + x.Show.Text(x.Right)})
		}
		out = append(out, b)
	}
	return out
}

func citeWords(all []calc.Cite, level calc.Evidence) string {
	var parts []string
	for _, c := range all {
		p, ok := source.Find(c.Key)
		if !ok {
			continue
		}
		t := p.Number
		if t == "" {
			t = p.Title
		}
		if c.At != "" {
			t += ", " + c.At
		}
		parts = append(parts, t)
	}
	if len(parts) == 0 {
		return ""
	}
	return strings.Join(parts, "; ") + " (" + level.String() + ")"
}
