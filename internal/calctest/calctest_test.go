package calctest_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"berthwright/calc"
	"berthwright/internal/calctest"
)

var (
	kg = calc.Show{Unit: "kg"}
	mm = calc.Show{Unit: "mm", Factor: 0.001}
)

// lever is reference row M-20: 60 kg, 1.20 m behind the rear axle, wheelbase 4.035 m.
func lever() calc.Working {
	statics := []calc.Cite{{Key: "statics", At: "moments about the front axle"}}
	return calc.Working{ID: "test.lever", Title: "What a load does to the rear axle", Steps: []calc.Step{
		{Symbol: "m", Says: "mass", Kind: calc.Given, SI: 60, Dim: calc.DimMass, Show: kg},
		{Symbol: "l", Says: "wheelbase", Kind: calc.Given, SI: 4.035, Dim: calc.DimLength, Show: mm},
		{Symbol: "o", Says: "distance behind the rear axle", Kind: calc.Given, SI: 1.2, Dim: calc.DimLength, Show: mm},
		{Says: "it stands behind the rear axle, so the front is relieved", Kind: calc.Choice},
		{Symbol: "r", Says: "added to the rear axle", Kind: calc.Derived, Formula: "m * (l + o) / l",
			SI: 60 * (4.035 + 1.2) / 4.035, Dim: calc.DimMass, Show: calc.Show{Unit: "kg", Digits: 2}, Source: statics},
		{Symbol: "f", Says: "added to the front axle", Kind: calc.Derived, Formula: "m - r",
			SI: 60 - 60*(4.035+1.2)/4.035, Dim: calc.DimMass, Show: calc.Show{Unit: "kg", Digits: 2}, Source: statics},
	}}
}

func TestRefLeverIsBorneOut(t *testing.T) { calctest.Recompute(t, lever()) }

// numeric is an empirical formula in fixed units: mm in, kg out.
func numeric() calc.Working {
	return calc.Working{ID: "test.numeric", Title: "A rule of thumb", Steps: []calc.Step{
		{Symbol: "d", Says: "thickness", Kind: calc.Given, SI: 0.0183, Dim: calc.DimLength, Show: mm},
		{Symbol: "k", Says: "mass of a sheet", Kind: calc.Derived, Formula: "1.5 * d + 3", Numeric: true, SI: 1.5*18.3 + 3,
			Dim: calc.DimMass, Show: calc.Show{Unit: "kg", Digits: 1}, Source: []calc.Cite{{Key: "practice", At: "sheets"}}},
	}}
}

func TestPropNumericFormulas(t *testing.T) {
	calctest.Recompute(t, numeric())
	w := numeric()
	w.Steps[1].Numeric = false
	if got := strings.Join(calctest.Faults(w), "\n"); !strings.Contains(got, "dimension mismatch") {
		t.Errorf("a formula in fixed units without the mark: %s", got)
	}
	w = numeric()
	w.Steps[1].SI++
	if got := strings.Join(calctest.Faults(w), "\n"); !strings.Contains(got, "value mismatch") || !strings.Contains(got, "does not give the result") {
		t.Errorf("a wrong value: %s", got)
	}
}

func TestPropWrongWorkingsAreReported(t *testing.T) {
	for _, c := range []struct {
		name, want string
		change     func(w *calc.Working)
	}{
		{"wrong sign", "value mismatch", func(w *calc.Working) { w.Steps[4].Formula = "m * (l - o) / l" }},
		{"forgotten division", "dimension mismatch", func(w *calc.Working) { w.Steps[4].Formula = "m * (l + o)" }},
		{"sum of mass and length", "dimension mismatch", func(w *calc.Working) { w.Steps[5].Formula = "m - l" }},
		{"wrong dimension", "dimension mismatch", func(w *calc.Working) { w.Steps[5].Dim = calc.DimLength }},
		{"wrong value", "value mismatch", func(w *calc.Working) { w.Steps[5].SI += 1e-5 }},
		{"later symbol", "not an earlier step", func(w *calc.Working) { w.Steps[4].Formula = "m - f" }},
		{"not a formula", "formula", func(w *calc.Working) { w.Steps[4].Formula = "m * (l + o" }},
		{"division by nought", "not a finite number", func(w *calc.Working) { w.Steps[4].Formula = "m / (o - o)" }},
		{"list expected", "gives 1 rows", func(w *calc.Working) { w.Steps[5].Symbol, w.Steps[5].Each = "f_i", []float64{-17.8, 2} }},
		{"symbol twice", "used twice", func(w *calc.Working) { w.Steps[5].Symbol = "r" }},
		{"limit without source", "no source", func(w *calc.Working) { w.Steps[0].Kind = calc.Limit }},
		{"no kind", "no kind", func(w *calc.Working) { w.Steps[0].Kind = 0 }},
		{"not a number", "not a finite number", func(w *calc.Working) { w.Steps[0].SI = math.NaN() }},
		{"one unit, two meanings", "stands for", func(w *calc.Working) { w.Steps[0].Show = calc.Show{Unit: "mm"} }},
		{"scaled without a unit", "without a unit", func(w *calc.Working) { w.Steps[0].Show = calc.Show{Factor: 1000} }},
	} {
		w := lever()
		c.change(&w)
		if got := strings.Join(calctest.Faults(w), "\n"); !strings.Contains(got, c.want) {
			t.Errorf("%s: want %q among the faults, got:\n%s", c.name, c.want, got)
		}
	}
}

func certificate() calc.Certificate {
	return calc.Certificate{ID: "test.worst", Title: "Worst rear axle", Method: "fills each group in order of leverage",
		Inputs: []calc.Step{{Symbol: "R_0", Says: "rear axle, empty", Kind: calc.Given, SI: 770, Dim: calc.DimMass, Show: kg}},
		Chosen: []calc.Line{
			{Label: "garage", SI: 85, Dim: calc.DimMass, Show: kg, Why: "1.09 kg per kg"},
			{Label: "wardrobe", SI: 22, Dim: calc.DimMass, Show: kg, Why: "0.89 kg per kg"},
		},
		Base: calc.Line{Label: "van", SI: 2686, Dim: calc.DimMass, Show: kg}, Sum: calc.Line{Label: "together", SI: 2793, Dim: calc.DimMass, Show: kg},
		Balances: []calc.Balance{{Says: "loads add up", Left: 877, Right: 877, Within: 0.001, LeftFormula: "R_0 + sum(c_i)", Show: kg}},
	}
}

func TestPropCertificates(t *testing.T) {
	calctest.Check(t, certificate())
	for _, c := range []struct {
		name, want string
		change     func(c *calc.Certificate)
	}{
		{"does not close", "differ", func(c *calc.Certificate) { c.Balances[0].Right = 878 }},
		{"not a number", "differ", func(c *calc.Certificate) { c.Balances[0].Left = math.NaN() }},
		{"tolerance is not a number", "differ", func(c *calc.Certificate) { c.Balances[0].Within = math.NaN() }},
		{"another case than chosen", "recorded is", func(c *calc.Certificate) { c.Chosen[0].SI = 84 }},
		{"base forgotten", "add up to", func(c *calc.Certificate) { c.Base.SI = 0 }},
		{"base without a name", "from its base", func(c *calc.Certificate) { c.Base.Label = "" }},
		{"another sum", "add up to", func(c *calc.Certificate) { c.Sum.SI = 2794 }},
		{"lines in another unit", "the printed lines", func(c *calc.Certificate) { c.Base.Show = calc.Show{Unit: "t", Factor: 1000} }},
		{"formula on the right side", "recorded is", func(c *calc.Certificate) { c.Balances[0].RightFormula = "R_0" }},
		{"mass and length", "dimension mismatch", func(c *calc.Certificate) { c.Inputs[0].Dim = calc.DimLength }},
		{"nothing to check", "no balance", func(c *calc.Certificate) { c.Balances = nil }},
		{"no method", "no id, title or method", func(c *calc.Certificate) { c.Method = "" }},
	} {
		cert := certificate()
		c.change(&cert)
		if got := strings.Join(calctest.CertificateFaults(cert), "\n"); !strings.Contains(got, c.want) {
			t.Errorf("%s: want %q among the faults, got:\n%s", c.name, c.want, got)
		}
	}
}

// Two loads of 4.75 kg are printed with the digits that they need, the others are not.
func TestPropLinesOfACaseAddUpAsPrinted(t *testing.T) {
	c := certificate()
	one := calc.Show{Unit: "kg", Digits: 1}
	c.Base.Show, c.Sum.Show = one, one
	c.Chosen = []calc.Line{{Label: "garage", SI: 85, Show: one}, {Label: "seat", SI: 4.75, Show: one}, {Label: "seat", SI: 4.75, Show: one}}
	c.Sum.SI = 2780.5
	if fault := strings.Join(calctest.CertificateFaults(c), "\n"); strings.Contains(fault, "printed") {
		t.Error(fault)
	}
	var got []string
	for _, l := range c.Lines() {
		got = append(got, l.Show.Number(l.SI))
	}
	if s := strings.ReplaceAll(strings.Join(got, " + "), "\u00a0", " "); s != "2 686.0 + 85.0 + 4.75 + 4.75 + 2 780.5" {
		t.Error(s)
	}
}

// TestPropPrintedDigits prints random axle splits: whatever the digits, the printed operands must
// give the printed result, and operands that are exact must not grow.
func TestPropPrintedDigits(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	raised := 0
	for range 300 {
		n := 1 + random.IntN(12)
		m, x := make([]float64, n), make([]float64, n)
		moment, moments := 0.0, make([]float64, n)
		for i := range n {
			m[i] = float64(random.IntN(200000)) / 1000
			x[i] = math.Round(random.Float64()*6e6) / 1e6
			moments[i] = m[i] * x[i]
			moment += moments[i]
		}
		l := 3 + math.Round(random.Float64()*1e6)/1e6
		kgm := calc.Show{Unit: "kg·m", Digits: random.IntN(3)}
		w := calc.Working{ID: "test.random", Title: "Rear axle", Steps: []calc.Step{
			{Symbol: "m_i", Says: "masses", Kind: calc.Given, Each: m, Dim: calc.DimMass, Show: kg},
			{Symbol: "x_i", Says: "places", Kind: calc.Given, Each: x, Dim: calc.DimLength, Show: mm},
			{Symbol: "l", Says: "wheelbase", Kind: calc.Given, SI: l, Dim: calc.DimLength, Show: mm},
			{Symbol: "M_i", Says: "moments", Kind: calc.Derived, Formula: "m_i * x_i", Each: moments, Dim: calc.DimMassMoment, Show: kgm},
			{Symbol: "M", Says: "moment", Kind: calc.Derived, Formula: "sum(M_i)", SI: moment, Dim: calc.DimMassMoment, Show: kgm},
			{Symbol: "r", Says: "rear axle", Kind: calc.Derived, Formula: "M / l", SI: moment / l, Dim: calc.DimMass, Show: kg},
			{Symbol: "q", Says: "share", Kind: calc.Derived, Formula: "r / sum(m_i)", SI: share(moment/l, m), Show: calc.Show{Unit: "%", Factor: 0.01, Digits: 1}},
			{Symbol: "h", Says: "free of units", Kind: calc.Derived, Formula: "sqrt(pow(l, 2) + pow(l * q, 2))", SI: math.Hypot(l, l*share(moment/l, m)), Dim: calc.DimLength, Show: mm},
		}}
		calctest.Recompute(t, w)
		for _, line := range calc.Lines(w) {
			if line.Symbol == "r" && strings.Contains(line.Operands[1].Text, ".") {
				raised++
			}
		}
		if t.Failed() {
			return
		}
	}
	if raised == 0 {
		t.Error("no operand ever needed more digits: the test does not test")
	}
}

func share(of float64, m []float64) float64 {
	sum := 0.0
	for _, v := range m {
		sum += v
	}
	return of / sum
}
