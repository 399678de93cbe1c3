package calc_test

import (
	"fmt"
	"strings"
	"testing"

	"berthwright/calc"
)

var (
	kg   = calc.Show{Unit: "kg", Digits: 1}
	m    = calc.Show{Unit: "m", Digits: 3}
	kgm  = calc.Show{Unit: "kg·m", Digits: 1}
	step = func(symbol, says string, si float64, dim calc.Dim, show calc.Show) calc.Step {
		return calc.Step{Symbol: symbol, Says: says, Kind: calc.Given, SI: si, Dim: dim, Show: show}
	}
)

// split is reference row M-23: a bare van and ten items, moments about the front axle.
func split() calc.Working {
	masses := []float64{75, 75, 82, 95, 30, 28, 100, 21.5, 120, 18}
	places := []float64{1.15, 1.15, 2.3, 3.2, 4.6, 5.1, 3.4, 4.9, 3.0, 3.0}
	sum, moment := 0.0, 0.0
	rows := make([]calc.Row, len(masses))
	for i, mass := range masses {
		sum += mass
		moment += mass * places[i]
		rows[i].Label = fmt.Sprintf("item %d", i+1)
	}
	total := 2000 + sum
	all := 790*4.035 + moment
	list := func(symbol, says string, each []float64, dim calc.Dim, show calc.Show) calc.Step {
		s := step(symbol, says, 0, dim, show)
		s.Each, s.Rows = each, rows
		return s
	}
	derived := func(s calc.Step, formula string) calc.Step {
		s.Kind, s.Formula = calc.Derived, formula
		s.Source = []calc.Cite{{Key: "statics", At: "moments about the front axle"}}
		return s
	}
	return calc.Working{ID: "test.split", Title: "Axle masses", Steps: []calc.Step{
		step("l", "wheelbase", 4.035, calc.DimLength, m),
		step("F_0", "bare van, front axle", 1210, calc.DimMass, kg),
		step("R_0", "bare van, rear axle", 790, calc.DimMass, kg),
		list("m_i", "mass of each item", masses, calc.DimMass, kg),
		list("x_i", "place of each item", places, calc.DimLength, m),
		derived(step("W", "total", total, calc.DimMass, kg), "F_0 + R_0 + sum(m_i)"),
		derived(step("M", "moment about the front axle", all, calc.DimMassMoment, kgm), "R_0*l + sum(m_i * x_i)"),
		derived(step("R", "rear axle", all/4.035, calc.DimMass, kg), "M / l"),
		derived(step("F", "front axle", total-all/4.035, calc.DimMass, kg), "W - R"),
	}}
}

func lineOf(t *testing.T, lines []calc.SlipLine, symbol string) calc.SlipLine {
	t.Helper()
	for _, l := range lines {
		if l.Symbol == symbol {
			return l
		}
	}
	t.Fatalf("no line %q", symbol)
	return calc.SlipLine{}
}

// plain replaces the no-break spaces, so that tests can be read.
func plain(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

func TestRefLinesOfAnAxleSplit(t *testing.T) {
	lines := calc.Lines(split())
	for _, want := range []struct{ symbol, formula, numbers, result string }{
		{"m_i", "", "", "75.0 kg, 75.0 kg, 82.0 kg, …, 10 rows, sum 644.5 kg"},
		{"x_i", "", "", "1.150 m, 1.150 m, 2.300 m, …, 10 rows, from 1.150 m to 5.100 m"},
		{"W", "F_0 + R_0 + sum(m_i)", "1 210.0 kg + 790.0 kg + (75.0 kg + 75.0 kg + 82.0 kg + … 7 more)", "2 644.5 kg"},
		{"M", "R_0 × l + sum(m_i × x_i)", "790.0 kg × 4.035 m + (75.0 kg × 1.150 m + 75.0 kg × 1.150 m + 82.0 kg × 2.300 m + … 7 more)", "4 992.9 kg·m"},
		{"R", "M / l", "4 992.9 kg·m / 4.035 m", "1 237.4 kg"},
		{"F", "W − R", "2 644.5 kg − 1 237.4 kg", "1 407.1 kg"},
	} {
		got := lineOf(t, lines, want.symbol)
		if got.Fault != "" {
			t.Errorf("%s: fault %s", want.symbol, got.Fault)
		}
		if plain(got.Formula) != want.formula || plain(got.Numbers) != want.numbers || plain(got.Result) != want.result {
			t.Errorf("%s printed as\n\t%s = %s = %s\nwant\n\t%s = %s = %s", want.symbol,
				plain(got.Formula), plain(got.Numbers), plain(got.Result), want.formula, want.numbers, want.result)
		}
	}
	if rows := lineOf(t, lines, "m_i").Rows; len(rows) != 10 || rows[7].Label != "item 8" || plain(rows[7].Text) != "21.5 kg" {
		t.Errorf("table of m_i: %v", rows)
	}
}
