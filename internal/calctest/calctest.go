// Package calctest answers: is the working that gets printed really the calculation?
//
// Recompute evaluates each formula of a Working with an evaluator of its own (it shares only the
// types and the syntax with package calc), compares value and dimension, then reads the printed
// text back and compares it to the last printed digit. Check does the like for a Certificate.
package calctest

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"berthwright/calc"
)

// within is the relative difference between a recorded and a recomputed value that different
// orders of summation may leave.
const within = 1e-9

// Recompute fails the test for every step of w that its own printed text does not bear out.
func Recompute(t testing.TB, w calc.Working) {
	t.Helper()
	for _, fault := range Faults(w) {
		t.Errorf("working %s: %s", w.ID, fault)
	}
}

// Check fails the test for every input or balance of c that does not close.
func Check(t testing.TB, c calc.Certificate) {
	t.Helper()
	for _, fault := range CertificateFaults(c) {
		t.Errorf("certificate %s: %s", c.ID, fault)
	}
}

// Faults returns what is wrong with w; nothing when all of it can be recomputed.
func Faults(w calc.Working) []string {
	var faults []string
	add := func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }
	if w.ID == "" || w.Title == "" {
		add("has no id or no title")
	}
	if len(w.Steps) == 0 {
		add("has no steps")
	}
	earlier := map[string]calc.Step{}
	units := map[string]float64{}
	for _, s := range w.Steps {
		for _, fault := range form(s) {
			add("step %s: %s", s.Symbol, fault)
		}
		if _, twice := earlier[s.Symbol]; twice && s.Kind != calc.Choice {
			add("step %s: symbol is used twice", s.Symbol)
		}
		if f, known := units[s.Show.Unit]; known && f != factor(s.Show) {
			add("step %s: unit %q stands for %v and for %v", s.Symbol, s.Show.Unit, f, factor(s.Show))
		}
		units[s.Show.Unit] = factor(s.Show)
		if s.Kind == calc.Derived {
			if fault := recompute(s, earlier); fault != "" {
				add("step %s: %s", s.Symbol, fault)
			}
		}
		if s.Kind != calc.Choice {
			earlier[s.Symbol] = s
		}
	}
	return append(faults, printedFaults(w, earlier)...)
}

// form checks what every step must have.
func form(s calc.Step) []string {
	var faults []string
	add := func(ok bool, fault string) {
		if !ok {
			faults = append(faults, fault)
		}
	}
	add(s.Kind != 0, "has no kind")
	add(s.Says != "", "says nothing")
	if s.Kind == calc.Choice {
		return faults
	}
	list := strings.HasSuffix(s.Symbol, "_i")
	add(s.Symbol != "", "has no symbol")
	add(list || s.Each == nil, "has rows, but its symbol does not end in _i")
	add(s.Rows == nil || len(s.Rows) == len(s.Each), "labels and rows differ in number")
	add(s.Kind == calc.Derived || s.Formula == "", "has a formula, but is not derived")
	add(s.Kind != calc.Derived || s.Formula != "", "is derived, but has no formula")
	add(s.Kind != calc.Constant && s.Kind != calc.Limit || len(s.Source) > 0, "has no source")
	add(s.Show.Unit != "" || factor(s.Show) == 1, "is printed without a unit, but is scaled")
	for _, v := range append([]float64{s.SI}, s.Each...) {
		add(!math.IsNaN(v) && !math.IsInf(v, 0), "is not a finite number")
	}
	return faults
}

// recompute evaluates the formula of s from the recorded values of earlier steps.
func recompute(s calc.Step, earlier map[string]calc.Step) string {
	got, err := evaluate(s.Formula, func(symbol string) (quantity, bool) {
		o, ok := earlier[symbol]
		return operand(o, s.Numeric), ok
	}, s.Numeric)
	if err != nil {
		return err.Error()
	}
	if !s.Numeric && !got.anyDim && got.dim != s.Dim {
		return fmt.Sprintf("dimension mismatch: formula %q gives %s, recorded is %s", s.Formula, got.dim, s.Dim)
	}
	want := operand(s, s.Numeric)
	if got.list != want.list || len(got.v) != len(want.v) {
		return fmt.Sprintf("formula %q gives %d rows, recorded are %d", s.Formula, len(got.v), len(want.v))
	}
	for i := range got.v {
		if !close(got.v[i], want.v[i], got.scale) {
			return fmt.Sprintf("value mismatch: formula %q gives %v, recorded is %v", s.Formula, got.v[i], want.v[i])
		}
	}
	return ""
}

// operand is a step as an operand: in SI, or in display units for a numeric formula.
func operand(s calc.Step, numeric bool) quantity {
	q := quantity{dim: s.Dim, list: strings.HasSuffix(s.Symbol, "_i"), v: []float64{s.SI}}
	if q.list {
		q.v = append([]float64(nil), s.Each...)
	}
	for i, v := range q.v {
		if numeric {
			q.v[i] = v / factor(s.Show)
		}
		q.scale = math.Max(q.scale, math.Abs(q.v[i]))
	}
	return q
}

// close compares relative to the larger of both and of the largest intermediate result.
func close(a, b, scale float64) bool {
	return math.Abs(a-b) <= within*math.Max(scale, math.Max(math.Abs(a), math.Abs(b)))
}

func factor(s calc.Show) float64 {
	if s.Factor == 0 {
		return 1
	}
	return s.Factor
}

// CertificateFaults returns what is wrong with c.
func CertificateFaults(c calc.Certificate) []string {
	var faults []string
	add := func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }
	if c.ID == "" || c.Title == "" || c.Method == "" {
		add("has no id, title or method")
	}
	if len(c.Balances) == 0 {
		add("has no balance to check")
	}
	if fault := sumFault(c); fault != "" {
		add("%s", fault)
	}
	inputs := map[string]calc.Step{}
	for _, s := range c.Inputs {
		for _, fault := range form(s) {
			add("input %s: %s", s.Symbol, fault)
		}
		inputs[s.Symbol] = s
	}
	for _, b := range c.Balances {
		if !(b.Within >= 0) || !(math.Abs(b.Left-b.Right) <= b.Within) {
			add("balance %q: %v and %v differ by more than %v", b.Says, b.Left, b.Right, b.Within)
		}
		for _, side := range []struct {
			value   float64
			formula string
		}{{b.Left, b.LeftFormula}, {b.Right, b.RightFormula}} {
			if side.formula == "" {
				continue
			}
			got, err := evaluate(side.formula, func(symbol string) (quantity, bool) {
				if symbol == calc.ChosenSymbol {
					return chosen(c.Chosen), true
				}
				s, ok := inputs[symbol]
				return operand(s, false), ok
			}, false)
			switch {
			case err != nil:
				add("balance %q: %v", b.Says, err)
			case got.list:
				add("balance %q: formula %q gives a list", b.Says, side.formula)
			case !close(got.v[0], side.value, got.scale):
				add("balance %q: formula %q gives %v, recorded is %v", b.Says, side.formula, got.v[0], side.value)
			}
		}
	}
	return faults
}

// sumFault adds up the lines of the case as they are recorded and as they are printed.
func sumFault(c calc.Certificate) string {
	if c.Sum.Label == "" {
		return ""
	}
	lines := c.Lines()
	if n := len(lines); n != len(c.Chosen)+2 || lines[0].Label != c.Base.Label || c.Base.Label == "" || lines[n-1].Label != c.Sum.Label {
		return "the case is not printed from its base to its sum"
	}
	recorded, printed := 0.0, 0.0
	for _, l := range lines[:len(lines)-1] {
		v, _, err := readNumber(l.Show.Text(l.SI), l.Show.Unit)
		if err != nil {
			return err.Error()
		}
		recorded, printed = recorded+l.SI, printed+v
	}
	if !close(recorded, c.Sum.SI, math.Abs(c.Sum.SI)) {
		return fmt.Sprintf("the lines add up to %v, recorded is %v", recorded, c.Sum.SI)
	}
	if fault := sameDigits(printed*factor(c.Sum.Show), c.Sum.Show.Text(c.Sum.SI), calc.Step{Show: c.Sum.Show}); fault != "" {
		return "the printed lines: " + fault
	}
	return ""
}

// chosen is the chosen case as a list.
func chosen(lines []calc.Line) quantity {
	q := quantity{list: true, anyDim: len(lines) == 0}
	for i, l := range lines {
		q.v = append(q.v, l.SI)
		q.scale = math.Max(q.scale, math.Abs(l.SI))
		if i == 0 {
			q.dim = l.Dim
		}
	}
	return q
}
