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

// pair has two lists of different lengths and a last step with the formula.
func pair(formula string, si float64, each ...float64) calc.Working {
	last := step("r", "result", si, calc.DimMass, kg)
	if each != nil {
		last.Symbol, last.Each = "r_i", each
	}
	last.Kind, last.Formula = calc.Derived, formula
	m, n := step("m_i", "masses", 0, calc.DimMass, kg), step("n_i", "others", 0, calc.DimMass, kg)
	m.Each, n.Each = []float64{1, 2, 3, 4, 5}, []float64{10, -20}
	none := step("none_i", "no rows", 0, calc.DimMass, kg)
	none.Each = []float64{}
	return calc.Working{ID: "test.pair", Title: "Two lists", Steps: []calc.Step{
		m, n, none, step("a", "a mass", 2, calc.DimMass, kg), step("zero", "nothing", 0, calc.DimMass, kg), last,
	}}
}

func TestPropLinesWithLists(t *testing.T) {
	for _, c := range []struct {
		formula string
		si      float64
		each    []float64
		numbers string
		result  string
		fault   string
	}{
		{"sum(m_i) + sum(n_i)", 5, nil, "(1.0 kg + 2.0 kg + 3.0 kg + … 2 more) + (10.0 kg + (−20.0 kg))", "5.0 kg", ""},
		{"sum(n_i - a)", -14, nil, "(10.0 kg − 2.0 kg) + ((−20.0 kg) − 2.0 kg)", "−14.0 kg", ""},
		{"max(m_i) - min(n_i)", 25, nil, "max(1.0 kg, 2.0 kg, 3.0 kg, … 2 more) − min(10.0 kg, (−20.0 kg))", "25.0 kg", ""},
		{"sum(max(n_i, a))", 12, nil, "max(10.0 kg, 2.0 kg) + max((−20.0 kg), 2.0 kg)", "12.0 kg", ""},
		{"sum(none_i)", 0, nil, "0", "0.0 kg", ""},
		{"n_i * 2", 0, []float64{20, -40}, "10.0 kg × 2; (−20.0 kg) × 2", "20.0 kg, −40.0 kg, 2 rows, sum −20.0 kg", ""},
		{"n_i - sum(m_i)", 0, []float64{-5, -35}, "10.0 kg − (1.0 kg + 2.0 kg + 3.0 kg + … 2 more); (−20.0 kg) − (1.0 kg + 2.0 kg + 3.0 kg + … 2 more)", "−5.0 kg, −35.0 kg, 2 rows, sum −40.0 kg", ""},
		{"sum(m_i * n_i)", 1, nil, "", "1.0 kg", "lists of 5 and 2 rows"},
		{"m_i - a", 0, []float64{1}, "", "1.0 kg, 1 row, sum 1.0 kg", "gives 5 rows, recorded are 1"},
		{"a / zero", 1, nil, "", "1.0 kg", "not a finite number"},
		{"a + b", 1, nil, "", "1.0 kg", "unknown symbol"},
		{"a +", 1, nil, "", "1.0 kg", "formula"},
		{"a", 3, nil, "", "3.0 kg", "does not give the result"},
	} {
		w := pair(c.formula, c.si, c.each...)
		line := lineOf(t, calc.Lines(w), w.Steps[len(w.Steps)-1].Symbol)
		if plain(line.Numbers) != c.numbers || plain(line.Result) != c.result || (c.fault == "") != (line.Fault == "") || !strings.Contains(line.Fault, c.fault) {
			t.Errorf("%s: printed %q = %q, fault %q; want %q = %q, fault %q", c.formula,
				plain(line.Numbers), plain(line.Result), line.Fault, c.numbers, c.result, c.fault)
		}
		if line.Fault != "" && !strings.Contains(line.String(), "does not recompute") {
			t.Errorf("%s: the fault is not printed: %s", c.formula, line)
		}
	}
}

// FuzzLines: whatever the formula, the lines are printed, and a line either recomputes or says that it does not.
func FuzzLines(f *testing.F) {
	for _, seed := range []string{"sum(m_i) + sum(n_i)", "m_i * n_i", "min(none_i)", "max(m_i, n_i)", "count(sum(m_i))", "sum(n_i + sum(m_i))", "abs(m_i)", "-sum(m_i)"} {
		f.Add(seed, 1.5)
	}
	f.Fuzz(func(t *testing.T, formula string, si float64) {
		for _, w := range []calc.Working{pair(formula, si), pair(formula, 0, si, si)} {
			last := w.Steps[len(w.Steps)-1]
			line := lineOf(t, calc.Lines(w), last.Symbol)
			e, err := calc.Parse(formula)
			if err == nil {
				_, err = e.Eval(func(s string) (calc.Value, bool) {
					for _, o := range w.Steps[:len(w.Steps)-1] {
						if o.Symbol == s {
							return calc.Value{One: o.SI, Each: o.Each, List: calc.IsList(s)}, true
						}
					}
					return calc.Value{}, false
				})
			}
			if err != nil && line.Fault == "" {
				t.Fatalf("%q: %v, but the line has no fault: %s", formula, err, line)
			}
			if line.Fault == "" && line.Numbers == "" {
				t.Fatalf("%q: neither numbers nor a fault", formula)
			}
		}
	})
}
