package calc_test

import (
	"math"
	"strings"
	"testing"

	"berthwright/calc"
)

func lookup(symbol string) (calc.Value, bool) {
	switch symbol {
	case "a":
		return calc.Value{One: 2}, true
	case "b":
		return calc.Value{One: -3}, true
	case "zero":
		return calc.Value{}, true
	case "m_i":
		return calc.Value{List: true, Each: []float64{10, 20, 30}}, true
	case "x_i":
		return calc.Value{List: true, Each: []float64{1, 2, 4}}, true
	case "short_i":
		return calc.Value{List: true, Each: []float64{1}}, true
	case "none_i":
		return calc.Value{List: true}, true
	}
	return calc.Value{}, false
}

func TestPropEval(t *testing.T) {
	for _, c := range []struct {
		formula string
		want    float64
	}{
		{"a + b * 2", -4}, {"(a + b) * 2", -2}, {"a - b - 1", 4}, {"12 / a / 3", 2}, {"-a", -2}, {"1.5e2", 150},
		{"sum(m_i)", 60}, {"sum(m_i * x_i) / sum(m_i)", 170.0 / 60}, {"sum(m_i * a)", 120}, {"count(m_i)", 3}, {"sum(none_i)", 0},
		{"min(m_i)", 10}, {"max(m_i)", 30}, {"max(a, b, 1)", 2}, {"min(a, b)", -3}, {"sum(max(m_i, 15))", 65},
		{"sqrt(a * 8)", 4}, {"pow(a, 3)", 8}, {"abs(b)", 3}, {"4 * atan(1)", math.Pi}, {"pi", math.Pi}, {"exp(ln(a))", 2},
		{"tan(atan(a))", 2}, {"sin(asin(0.5))", 0.5}, {"cos(acos(0.5))", 0.5},
	} {
		e, err := calc.Parse(c.formula)
		if err != nil {
			t.Errorf("%s: %v", c.formula, err)
			continue
		}
		got, err := e.Eval(lookup)
		if err != nil || got.List || !(math.Abs(got.One-c.want) <= 1e-12) {
			t.Errorf("%s = %v, %v; want %v", c.formula, got, err, c.want)
		}
	}
}

func TestPropRefusedFormulas(t *testing.T) {
	for formula, want := range map[string]string{
		"":                                "formula",
		"a +":                             "formula",
		"a % 2":                           `operator "%"`,
		"a == b":                          `operator "=="`,
		"+a":                              "only numbers",
		"a.b":                             "only numbers",
		"m_i[0]":                          "only numbers",
		"func() int { return 1 }()":       "only numbers",
		`"text"`:                          "not a decimal number",
		"'x'":                             "not a decimal number",
		"0x10":                            "not a decimal number",
		"1e999":                           "not a decimal number",
		"system(a)":                       `function "system"`,
		"sqrt(a, b)":                      "with 2 arguments",
		"pow(a)":                          "with 1 arguments",
		"sum(m_i...)":                     "only numbers",
		strings.Repeat("(", 60) + "a":     "formula",
		strings.Repeat("-", 80) + "a":     "formula",
		strings.Repeat("a + ", 400) + "a": "longer than",
		strings.Repeat("(", 60) + "a" + strings.Repeat(")", 60): "nested deeper",
	} {
		if _, err := calc.Parse(formula); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: got error %v, want %q", formula, err, want)
		}
	}
	for formula, want := range map[string]string{
		"c": `unknown symbol "c"`, "a / zero": "finite", "sqrt(b)": "finite", "ln(zero)": "finite", "sum(a)": "not a list",
		"min(none_i)": "empty", "m_i + short_i": "lists of 3 and 1", "sum(m_i / zero)": "finite",
	} {
		e, err := calc.Parse(formula)
		if err != nil {
			t.Fatal(err)
		}
		if _, err = e.Eval(lookup); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: got error %v, want %q", formula, err, want)
		}
	}
}

func TestPropDimensions(t *testing.T) {
	dims := map[string]calc.Dim{"m": calc.DimMass, "l": calc.DimLength, "s": calc.None, "v": calc.DimSpeed, "m_i": calc.DimMass, "x_i": calc.DimLength}
	find := func(symbol string) (calc.Dim, bool) { d, ok := dims[symbol]; return d, ok }
	for formula, want := range map[string]string{
		"m * l": "kg·m", "m / (l * l * l)": "kg/m³", "sum(m_i * x_i) / l": "kg", "sqrt(l * l)": "m", "pow(l, 2)": "m²",
		"pow(l, -1)": "1/m", "pow(s, 0.3)": "1", "max(0, m - 2 * m)": "kg", "atan(l / l)": "1", "count(m_i)": "1", "abs(v)": "m/s", "2 * s": "1",
		"m + l":      "dimension mismatch at +: kg and m",
		"max(m, 75)": "dimension mismatch at max: kg and 1",
		"sqrt(l)":    "no whole dimension",
		"pow(l, s)":  "not a plain number",
		"sin(l)":     "needs a plain number",
		"m + q":      `unknown symbol "q"`,
	} {
		e, err := calc.Parse(formula)
		if err != nil {
			t.Fatal(err)
		}
		d, err := e.EvalDim(find)
		switch {
		case err == nil && d.String() != want:
			t.Errorf("%s has dimension %s, want %s", formula, d, want)
		case err != nil && !strings.Contains(err.Error(), want):
			t.Errorf("%s: %v, want %s", formula, err, want)
		}
	}
}

func TestPropShow(t *testing.T) {
	kg := calc.Show{Unit: "kg"}
	for _, c := range []struct {
		show calc.Show
		si   float64
		want string
	}{
		{kg, 3500, "3 500 kg"}, {kg, 999.5, "1 000 kg"}, {kg, 1234567, "1 234 567 kg"}, {kg, -0.4, "0 kg"}, {kg, -0.5, "−1 kg"}, {kg, -1893.2, "−1 893 kg"},
		{kg, 2.5, "3 kg"}, {kg, math.NaN(), "unknown"}, {kg, math.Inf(1), "unknown"}, {kg, 1e15, "1 000 000 000 000 000 kg"},
		{calc.Show{Unit: "mm", Factor: 0.001}, 1.15, "1 150 mm"}, {calc.Show{Unit: "mm", Factor: 0.001}, 0.0215, "22 mm"}, {calc.Show{Unit: "%", Factor: 0.01, Digits: 1}, 0.3, "30.0 %"},
		{calc.Show{Digits: 3}, 0.0625, "0.063"}, {calc.Show{Digits: 2}, 9.999, "10.00"}, {calc.Show{Digits: -1}, 12.4, "12"},
	} {
		if got := plain(c.show.Text(c.si)); got != c.want {
			t.Errorf("%v shown with %v: %q, want %q", c.si, c.show, got, c.want)
		}
	}
}

// FuzzParse: no panic, whatever is written; a formula that parses prints as one that parses to
// the same symbols and the same value.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{"sum(m_i * x_i) / a", "-(a - b)", "max(0, a - b)", "pow(a, 2) + 1e3", "a +", "((((", "f(x)(y)", "m_i[1:2]"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		e, err := calc.Parse(text)
		if err != nil {
			return
		}
		again, err := calc.Parse(strings.NewReplacer("×", "*", "−", "-").Replace(e.String()))
		if err != nil {
			t.Fatalf("%q prints as %q: %v", text, e, err)
		}
		if strings.Join(e.Symbols(), " ") != strings.Join(again.Symbols(), " ") {
			t.Fatalf("%q prints as %q with other symbols", text, e)
		}
		v1, err1 := e.Eval(lookup)
		v2, err2 := again.Eval(lookup)
		if (err1 == nil) != (err2 == nil) || v1.One != v2.One || len(v1.Each) != len(v2.Each) {
			t.Fatalf("%q and %q differ: %v %v, %v %v", text, e, v1, err1, v2, err2)
		}
		_, _ = e.EvalDim(func(string) (calc.Dim, bool) { return calc.DimMass, true })
	})
}
