package unit

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		text string
		want float64 // in SI units
	}{
		{KindMass, "12.5 kg", 12.5}, {KindMass, "12,5 kg", 12.5}, {KindMass, "12.5kg", 12.5}, {KindMass, "  12.5\u00a0kg ", 12.5},
		{KindMass, "0 kg", 0}, {KindMass, "-3 kg", -3}, {KindMass, "−3 kg", -3}, {KindMass, "+3 kg", 3}, {KindMass, ".5 kg", 0.5},
		{KindMass, "250 g", 0.25}, {KindMass, "3.5 t", 3500}, {KindMass, "10 lb", 4.5359237}, {KindMass, "5 lb 8 oz", 2.494758035},
		{KindMass, "1 886 kg", 1886}, {KindMass, "1\u202f886\u202f000 g", 1886}, {KindMass, "0,125 kg", 0.125}, {KindMass, "1,25 kg", 1.25},
		{KindMass, "1 1/2 kg", 1.5}, {KindMass, "010/5 kg", 2}, {KindMass, "010 kg", 10}, {KindMass, "010.5 kg", 10.5}, {KindMass, "08/010 kg", 0.8}, {KindMass, "1 100/200 kg", 1.5}, {KindMass, "1234,567 kg", 1234.567},
		{KindMass, "1000000000000 kg", 1e12},
		{KindLength, "600 mm", 0.6}, {KindLength, "1.2 m", 1.2}, {KindLength, "12 cm", 0.12}, {KindLength, "7 µm", 7e-6}, {KindLength, "7 μm", 7e-6},
		{KindLength, "1 in", 0.0254}, {KindLength, "5 1/2 in", 0.1397}, {KindLength, "5½\"", 0.1397}, {KindLength, "3/8\"", 0.009525},
		{KindLength, "5' 10\"", 1.778}, {KindLength, "5'10\"", 1.778}, {KindLength, "5 ft 10 in", 1.778}, {KindLength, "-5 ft 10 in", -1.778},
		{KindLength, "5’ 10 1/2”", 1.7907}, {KindLength, "2 yd", 1.8288},
		{KindLength, "0.0004 mm", 0}, {KindLength, "0.0005 mm", 1e-6}, {KindLength, "-0.0005 mm", -1e-6}, {KindLength, "-0.0004999 mm", 0},
		{KindLength, "9000000000 m", 9e9},
		{KindVolume, "92 L", 0.092}, {KindVolume, "92 l", 0.092}, {KindVolume, "33 cl", 0.00033}, {KindVolume, "5 dl", 0.0005}, {KindVolume, "500 ml", 0.0005},
		{KindVolume, "1 m3", 1}, {KindVolume, "1 m³", 1}, {KindVolume, "20 gal(US)", 0.07570823568}, {KindVolume, "20 imp gal", 0.0909218},
		{KindDensity, "0.835 kg/L", 835}, {KindDensity, "835 kg/m³", 835}, {KindDensity, "0.835 g/cm3", 835},
		{KindArea, "2.5 mm2", 2.5e-6}, {KindArea, "12.28 m²", 12.28},
		{KindAngle, "180 °", math.Pi}, {KindAngle, "-90°", -math.Pi / 2}, {KindAngle, "1 turn", 2 * math.Pi},
		{KindRatio, "50 %", 0.5}, {KindRatio, "50%", 0.5}, {KindRatio, "½ tank", 0.5}, {KindRatio, "3/4 full", 0.75}, {KindRatio, "1/2 %", 0.005},
		{KindSpeed, "90 km/h", 25}, {KindSpeed, "60 mph", 26.8224},
		{KindCurrent, "4.2 A", 4.2}, {KindCurrent, "250 mA", 0.25}, {KindVoltage, "12,8 V", 12.8},
		{KindPower, "1.2 kW", 1200}, {KindEnergy, "1.2 kWh", 4.32e6}, {KindEnergy, "1 Wh", 3600}, {KindCharge, "190 Ah", 684000},
		{KindPressure, "30 mbar", 3000}, {KindPressure, "4.5 bar", 450000}, {KindForce, "2 kN", 2000}, {KindMassMoment, "40 kg·m", 40},
		{KindTemperature, "20 °C", 293.15}, {KindTemperature, "-5 °C", 268.15}, {KindTemperature, "-4 °F", 253.15}, {KindTemperature, "0 K", 0}, {KindTemperature, "-273.15 °C", 0},
		{KindTempDiff, "15 K", 15}, {KindTempDiff, "18 °F", 10},
		{KindHours, "2.5 h", 9000}, {KindHours, "1 h 30 min", 5400}, {KindHours, "45 min", 2700},
		{KindMoney, "249.50", 24950}, {KindMoney, "249", 24900}, {KindMoney, "-0,05", -5}, {KindMoney, "90000000000000", 9e15},
	} {
		got, err := c.kind.Parse(c.text)
		if err != nil || got != c.want {
			t.Errorf("%s %q: %v, %v, want %v", c.kind, c.text, got, err, c.want)
		}
	}
}

func TestParseEst(t *testing.T) {
	for _, c := range []struct {
		text   string
		value  Mass
		half   float64
		given  bool
		stored string
	}{
		{"19.2 kg ± 4 %", 19.2, 0.768, true, "19.2 kg ± 4 %"},
		{"1180 kg ± 10 kg", 1180, 10, true, "1180 kg ± 10 kg"},
		{"1180 kg +/- 10kg", 1180, 10, true, "1180 kg ± 10 kg"},
		{"1180kg+-500 g", 1180, 0.5, true, "1180 kg ± 0.5 kg"},
		{"1180 kg ± 2,5%", 1180, 29.5, true, "1180 kg ± 2.5 %"},
		{"3 kg", 3, 0, false, "3 kg"},
		{"3 kg ± 0 kg", 3, 0, true, "3 kg ± 0 kg"},
		{"-3 kg ± 10 %", -3, 0.3, true, "-3 kg ± 10 %"},
		{"0 kg ± 1 kg", 0, 1, true, "0 kg ± 1 kg"},
	} {
		e, err := ParseMassEst(c.text)
		half, given := e.Half().Get()
		if err != nil || e.Value != c.value || given != c.given || math.Abs(half.Kilograms()-c.half) > 1e-12 || e.String() != c.stored {
			t.Errorf("%q: %v, half %v (%v), %v", c.text, e, half, given, err)
		}
	}
	e, err := ParseLengthEst("1640 mm ± 3 mm")
	if half, ok := e.Half().Get(); err != nil || e.Value != 1640*Millimetre || !ok || half != 3*Millimetre {
		t.Errorf("%v, %v", e, err)
	}
	e, err = ParseLengthEst("10 ft ± 1/8 in")
	if half, _ := e.Half().Get(); err != nil || e.Value != 10*Foot || half != 3175*Micrometre || e.String() != "3048 mm ± 3.175 mm" {
		t.Errorf("%v, %v", e, err)
	}
	e = LengthEst{Value: -3 * Millimetre, Spread: Spread{Kind: Relative, Rel: 0.5}}
	if half, _ := e.Half().Get(); half != 1500*Micrometre {
		t.Errorf("half of a negative length: %v", half)
	}
}

func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		kind    Kind
		text    string
		code    Code
		bad     string // the offending part
		problem string
		hint    string
	}{
		{KindMass, "12.5", CodeMissingUnit, "12.5", `mass "12.5" has no unit`, `write "12.5 kg"`},
		{KindMass, "12,5", CodeMissingUnit, "12,5", `mass "12,5" has no unit`, `write "12.5 kg"`},
		{KindMass, "12.5 Ah", CodeWrongUnit, "Ah", `"12.5 Ah" is not a mass: "Ah" is a charge`, `write a mass like "12.5 kg"`},
		{KindMass, "0.8 kg/L", CodeWrongUnit, "kg/L", `"0.8 kg/L" is not a mass: "kg/L" is a density`, `write a mass like "12.5 kg"`},
		{KindLength, "12 m2", CodeWrongUnit, "m2", `"12 m2" is not a length: "m2" is an area`, `write a length like "600 mm"`},
		{KindCharge, "12 Wh", CodeWrongUnit, "Wh", `"12 Wh" is not a charge: "Wh" is an energy`, `write a charge like "190 Ah"`},
		{KindMass, "12.5 kq", CodeUnknownUnit, "kq", `mass "12.5 kq" has no known unit: "kq"`, "a mass is written in kg, g, t, lb or oz"},
		{KindMoney, "12 EUR", CodeUnknownUnit, "EUR", `amount of money "12 EUR" has no known unit: "EUR"`, "write the amount alone; the currency stands at the head of the build"},
		{KindMass, "", CodeNotANumber, "", "a mass is missing its number", `write a mass like "12.5 kg"`},
		{KindMass, "heavy", CodeNotANumber, "heavy", `mass "heavy" has "heavy" where a number is needed`, `write a mass like "12.5 kg"`},
		{KindMass, "NaN kg", CodeNotANumber, "NaN", `mass "NaN kg" has "NaN" where a number is needed`, `write a mass like "12.5 kg"`},
		{KindMass, "-Inf kg", CodeNotANumber, "Inf", `mass "-Inf kg" has "Inf" where a number is needed`, `write a mass like "12.5 kg"`},
		{KindMass, "1e400 kg", CodeNotANumber, "e", `mass "1e400 kg" has an exponent`, "write the number out"},
		{KindMass, "0x10 kg", CodeUnknownUnit, "x", `mass "0x10 kg" has no known unit: "x"`, "a mass is written in kg, g, t, lb or oz"},
		{KindMass, "1,886 kg", CodeAmbiguous, "1,886", `mass "1,886 kg" could be a decimal comma or one between thousands`, `write "1886 kg" or "1.886 kg"`},
		{KindMass, "1,886.5 kg", CodeNotANumber, "1,886", `mass "1,886.5 kg" has "1,886" where a number is needed`, "write one point or comma before the decimals and none between thousands"},
		{KindMass, "1.2.3 kg", CodeNotANumber, "1.2", `mass "1.2.3 kg" has "1.2" where a number is needed`, "write one point or comma before the decimals and none between thousands"},
		{KindMass, "5. kg", CodeNotANumber, "5.", `mass "5. kg" has "5." where a number is needed`, "write one point or comma before the decimals and none between thousands"},
		{KindMass, "1/0 kg", CodeNotANumber, "1/0", `mass "1/0 kg" has "1/0" where a number is needed`, `write a mass like "12.5 kg"`},
		{KindMass, "12 kg approx", CodeExtraText, "approx", `mass "12 kg approx" has "approx" after the value`, `write a mass like "12.5 kg"`},
		{KindMass, "12 kg 5 oz", CodeExtraText, "5 oz", `mass "12 kg 5 oz" has "5 oz" after the value`, `write a mass like "12.5 kg"`},
		{KindLength, "5 ft 10 ft", CodeExtraText, "10 ft", `length "5 ft 10 ft" has "10 ft" after the value`, `write a length like "600 mm"`},
		{KindLength, "5 ft 10", CodeMissingUnit, "10", `length "5 ft 10" has no unit`, `write "10 in"`},
		{KindMass, "12 kg ± 3 %", CodeBadSpread, "± 3 %", `mass "12 kg ± 3 %" takes no spread here`, `write "12 kg"`},
		{KindMassEst, "12 kg ± 3", CodeMissingUnit, "3", `mass "12 kg ± 3" has a spread without a unit`, `write "± 3 %" or "± 3 kg"`},
		{KindMassEst, "12 kg ± -3 %", CodeBadSpread, "-3 %", `mass "12 kg ± -3 %" has a spread with a sign`, "write it without the sign"},
		{KindMassEst, "12 kg ± 3 mm", CodeWrongUnit, "mm", `"12 kg ± 3 mm" is not a mass: "mm" is a length`, `write a mass like "12.5 kg"`},
		{KindMassEst, "12 kg ± 1001 %", CodeBadSpread, "1001 %", `mass "12 kg ± 1001 %" has a spread above 1000 %`, ""},
		{KindMassEst, "12 kg ±", CodeNotANumber, "", `mass "12 kg ±" ends where a number is needed`, `write a mass like "12.5 kg"`},
		{KindMass, "1000000000000.1 kg", CodeTooLarge, "1000000000000.1 kg", `mass "1000000000000.1 kg" is too large for a mass`, ""},
		{KindLength, "9000000000.001 m", CodeTooLarge, "9000000000.001 m", `length "9000000000.001 m" is too large for a length`, ""},
		{KindTemperature, "-273.16 °C", CodeOutOfRange, "-273.16 °C", `temperature "-273.16 °C" is below absolute zero`, ""},
		{KindMoney, "12.345", CodeNotANumber, "12.345", `amount of money "12.345" is not a whole number of coins`, `write an amount of money like "249.50"`},
		{KindMass, "1240+30 kg", CodeMissingUnit, "1240", `mass "1240+30 kg" has no unit`, `write "1240 kg"`},
		{KindMass, "1 kg+3 kg", CodeExtraText, "+3 kg", `mass "1 kg+3 kg" has "+3 kg" after the value`, `write a mass like "12.5 kg"`},
		{KindRatio, "full", CodeNotANumber, "full", `share "full" has "full" where a number is needed`, `write a share like "50 %"`},
		{NoKind, "1 kg", CodeNotANumber, "1 kg", "no kind of quantity", ""},
	} {
		_, err := c.kind.Parse(c.text)
		var e *ParseError
		if !errors.As(err, &e) {
			t.Errorf("%s %q: %v, want a ParseError", c.kind, c.text, err)
			continue
		}
		if e.Code != c.code || e.Text[e.At:e.End] != c.bad || e.Error() != c.problem || e.Hint != c.hint || e.Kind != c.kind || e.Text != c.text {
			t.Errorf("%s %q:\n got %s %q: %s; %s\nwant %s %q: %s; %s", c.kind, c.text, e.Code, e.Text[e.At:e.End], e.Problem, e.Hint, c.code, c.bad, c.problem, c.hint)
		}
	}
	long := strings.Repeat("1", maxText+1)
	var e *ParseError
	if _, err := ParseMass(long); !errors.As(err, &e) || e.Code != CodeTooLarge || len(e.Problem) > 120 {
		t.Errorf("long text: %v", err)
	}
}

func TestTyped(t *testing.T) {
	for _, c := range []struct {
		kind         Kind
		column, text string
		stored       string
		si           float64
	}{
		{KindMass, "kg", "21", "21 kg", 21}, {KindMass, "kg", "0,8", "0.8 kg", 0.8}, {KindMass, "", "21", "21 kg", 21}, {KindMass, "g", "250", "250 g", 0.25},
		{KindMass, "kg", "21 lb", "21 lb", 9.52543977}, {KindMass, "kg", "12.50", "12.50 kg", 12.5}, {KindMass, "kg", "1 886", "1886 kg", 1886},
		{KindLength, "mm", "1240+30-15", "1255 mm", 1.255}, {KindLength, "mm", "1240 + 30,5 − 15", "1255.5 mm", 1.2555}, {KindLength, "mm", "-30+10", "-20 mm", -0.02},
		{KindMass, "kg", "4x0.8", "3.2 kg", 3.2}, {KindMass, "kg", "4 × 0,8 kg", "3.2 kg", 3.2}, {KindMass, "kg", "0.8 kg x 4", "3.2 kg", 3.2}, {KindMass, "kg", "0.8*4", "3.2 kg", 3.2},
		{KindMass, "kg", "2 x 3 x 0.4", "2.4 kg", 2.4}, {KindMass, "kg", "4x0.8+1", "4.2 kg", 4.2}, {KindMass, "kg", "3x0.1", "0.3 kg", 0.3},
		{KindLength, "mm", "5' 10\"", "5' 10\"", 1.778}, {KindLength, "in", "5 1/2", "5 1/2 in", 0.1397}, {KindLength, "mm", "1.2 m + 30 mm", "1.23 m", 1.23},
		{KindLength, "mm", "1.2 m + 30 cm - 1 in", "1.4746 m", 1.4746}, {KindLength, "mm", "30 mm + 20", "50 mm", 0.05}, {KindLength, "mm", "2 x 3 ft 6 in", "7 ft", 2.1336},
		{KindLength, "m", "1.2", "1.2 m", 1.2},
		{KindRatio, "%", "50", "50 %", 0.5}, {KindRatio, "%", "½ tank", "½ tank", 0.5}, {KindRatio, "%", "1/2", "50 %", 0.5}, {KindRatio, "%", "½", "50 %", 0.5},
		{KindRatio, "%", "3/4 full", "3/4 full", 0.75}, {KindRatio, "%", "Half", "50 %", 0.5}, {KindRatio, "%", "empty", "0 %", 0}, {KindRatio, "%", "half a tank", "50 %", 0.5}, {KindRatio, "%", "Full tank", "100 %", 1}, {KindRatio, "%", "quarter full", "25 %", 0.25}, {KindRatio, "%", " full ", "100 %", 1},
		{KindRatio, "%", "2/3", "66.666667 %", 0.66666667}, {KindRatio, "%", "-1/4", "-25 %", -0.25}, {KindRatio, "%", "1/4+1/2", "75 %", 0.75},
		{KindMoney, "", "249,50", "249.50", 24950}, {KindMoney, "", "4x12.50+0.5", "50.50", 5050},
		{KindTemperature, "°C", "-5", "-5 °C", 268.15}, {KindDensity, "kg/L", "0,835", "0.835 kg/L", 835}, {KindHours, "h", "1 h 30 min", "1 h 30 min", 5400},
		{KindMassEst, "kg", "21 ± 5 %", "21 kg ± 5 %", 21}, {KindMassEst, "kg", "2x21 +/- 500 g", "42 kg ± 500 g", 42}, {KindMassEst, "kg", "21", "21 kg", 21},
	} {
		e, err := Typed(c.kind, c.column, c.text)
		if err != nil || e.Text != c.stored || e.SI != c.si {
			t.Errorf("%s %q: %q, %v, %v, want %q, %v", c.kind, c.text, e.Text, e.SI, err, c.stored, c.si)
		}
	}
	for _, c := range []struct {
		kind Kind
		text string
		code Code
		bad  string
	}{
		{KindMass, "0.5x0.8", CodeBadSum, "0.5x0.8"}, {KindMass, "4 kg x 2 kg", CodeBadSum, "4 kg x 2 kg"}, {KindMass, "4 kg x 1.5", CodeBadSum, "4 kg x 1.5"},
		{KindMass, "5--3", CodeBadSum, "-3"}, {KindTemperature, "5+3", CodeBadSum, "3"}, {KindTemperature, "2x3", CodeBadSum, "2x3"},
		{KindLength, "1.2 m + 30", CodeMissingUnit, "30"}, {KindLength, "30 + 1.2 m", CodeMissingUnit, "30 "},
		{KindMassEst, "21 ± 5", CodeMissingUnit, "5"}, {KindMass, "21 ± 5 %", CodeBadSpread, "± 5 %"},
		{KindMass, "4x", CodeNotANumber, ""}, {KindMass, "4+", CodeNotANumber, ""}, {KindMass, "", CodeNotANumber, ""}, {KindMass, "?", CodeNotANumber, "?"},
		{KindMoney, "1/3", CodeNotANumber, "1/3"}, {KindMass, "999999999999x9", CodeTooLarge, "999999999999x9"}, {KindMass, "2,500", CodeAmbiguous, "2,500"},
		{KindMass, "21 Ah", CodeWrongUnit, "Ah"}, {KindMass, "nan", CodeNotANumber, "nan"},
	} {
		e, err := Typed(c.kind, "", c.text)
		var pe *ParseError
		if !errors.As(err, &pe) || pe.Code != c.code || strings.TrimSpace(pe.Text[pe.At:pe.End]) != strings.TrimSpace(c.bad) {
			t.Errorf("%s %q: %v, %v, want %s at %q", c.kind, c.text, e, err, c.code, c.bad)
		}
	}
}
