package unit

import (
	"math"
	"math/big"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// plainSpaces makes expectations readable: the no-break space is written as a space.
func plainSpaces(s string) string { return strings.ReplaceAll(s, Space, " ") }

func TestFrozenFormat(t *testing.T) {
	for _, c := range []struct {
		q      Quantity
		system System
		digits int
		want   string
	}{
		{1886 * Kilogram, Metric, -1, "1 886 kg"}, {-43 * Kilogram, Metric, -1, "−43 kg"}, {-0.4 * Kilogram, Metric, -1, "0 kg"}, {1886.5 * Kilogram, Metric, -1, "1 887 kg"},
		{14.3 * Kilogram, Metric, 1, "14.3 kg"}, {1234567 * Kilogram, Metric, 0, "1 234 567 kg"}, {999.96 * Kilogram, Metric, 1, "1 000.0 kg"},
		{100 * Kilogram, Imperial, -1, "220 lb"}, {3500 * Kilogram, US, -1, "7 716 lb"}, {MassEst{Value: 20}, Metric, -1, "20 kg"},
		{600 * Millimetre, Metric, -1, "600 mm"}, {600 * Millimetre, Imperial, -1, "23.6 in"}, {1640 * Millimetre, Metric, -1, "1 640 mm"}, {-Inch, Imperial, -1, "−1.0 in"},
		{92 * Litre, Metric, -1, "92 L"}, {92 * Litre, Imperial, -1, "20.2 imp gal"}, {92 * Litre, US, -1, "24.3 US gal"},
		{Ratio(0.447), Metric, 1, "44.7 %"}, {90 * Degree, Metric, -1, "90°"}, {Celsius(20), Metric, -1, "20 °C"}, {Celsius(20), US, -1, "68 °F"}, {Celsius(-40), Imperial, -1, "−40 °F"},
		{Money(124950), Metric, -1, "1 249.50"}, {Density(835), Metric, -1, "0.835 kg/L"}, {4.5 * Bar, Imperial, -1, "65 psi"}, {25 * MetrePerSecond, Metric, -1, "90 km/h"},
		{Mass(math.NaN()), Metric, -1, "unknown"}, {Mass(math.Inf(1)), Imperial, -1, "unknown"}, {20 * Kilogram, System(9), -1, "20 kg"},
	} {
		if got := plainSpaces(Format(c.q, c.system, c.digits)); got != c.want {
			t.Errorf("%v in %d: %q, want %q", c.q, c.system, got, c.want)
		}
	}
	if got := plainSpaces(FormatIn(KindMass, 3500, "t", 1)); got != "3.5 t" {
		t.Errorf("%q", got)
	}
}

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		f      float64
		digits int
		want   string
	}{
		{0, 0, "0"}, {math.Copysign(0, -1), 1, "0.0"}, {0.5, 0, "1"}, {-0.5, 0, "−1"}, {0.49, 0, "0"}, {-0.49, 0, "0"}, {1.5, 0, "2"}, {2.5, 0, "3"}, {1.005, 2, "1.01"},
		{999.5, 0, "1 000"}, {99.95, 1, "100.0"}, {20.499999999999996, 0, "21"}, {1e15, 0, "1 000 000 000 000 000"}, {0.001, 1, "0.0"}, {123, -2, "123"},
		{9.5, 0, "10"}, {-999.5, 0, "−1 000"}, {math.NaN(), 0, "unknown"}, {math.Inf(-1), 3, "unknown"},
	} {
		if got := plainSpaces(Number(c.f, c.digits)); got != c.want {
			t.Errorf("%v with %d: %q, want %q", c.f, c.digits, got, c.want)
		}
	}
}

// A limit is never printed above itself, and never a whole last digit below.
func TestPropLimitsAreRoundedDown(t *testing.T) {
	for _, c := range []struct {
		m      Mass
		system System
		want   string
	}{
		{8 * Kilogram, Imperial, "17 lb"}, {145 * Kilogram, US, "319 lb"}, {3500 * Kilogram, US, "7 716 lb"}, {1900 * Kilogram, Imperial, "4 188 lb"},
		{8 * Kilogram, Metric, "8 kg"}, {8.9 * Kilogram, Metric, "8 kg"}, {Mass(18 * 0.45359237), Imperial, "18 lb"}, {-0.5 * Kilogram, Metric, "−1 kg"}, {Mass(math.NaN()), Metric, "unknown"},
	} {
		if got := plainSpaces(FormatAtMost(c.m, c.system, 0)); got != c.want {
			t.Errorf("%v in %d: %q, want %q", c.m, c.system, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		kg, digits := rapid.Float64Range(0, 5000).Draw(t, "kg"), rapid.IntRange(0, 2).Draw(t, "digits")
		last := math.Pow10(-digits)
		for system, per := range []float64{1, 0.45359237, 0.45359237} {
			text := FormatAtMost(Mass(kg), System(system), digits)
			printed, err := strconv.ParseFloat(strings.NewReplacer(Space, "", "kg", "", "lb", "").Replace(text), 64)
			if err != nil || !(printed <= kg/per*(1+1e-14) && printed > kg/per-last*(1+1e-9)) {
				t.Fatalf("%v kg in %d: %v, %v", kg, system, printed, err)
			}
		}
	})
}

// Number agrees with exact decimal arithmetic.
func TestCrossNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, places, digits := rapid.Int64Range(-1e12, 1e12).Draw(t, "n"), rapid.IntRange(0, 6).Draw(t, "places"), rapid.IntRange(0, 4).Draw(t, "digits")
		exact := new(big.Rat).SetFrac(big.NewInt(n), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
		f, _ := exact.Float64()
		want := exact.FloatString(digits) // half away from zero
		if strings.Trim(want, "-0.") == "" {
			want = strings.TrimPrefix(want, "-")
		}
		got := strings.ReplaceAll(strings.ReplaceAll(Number(f, digits), Space, ""), Minus, "-")
		if got != want {
			t.Fatalf("%v with %d digits: %q, want %q", f, digits, got, want)
		}
	})
}

// What is printed with enough digits reads back, in every system.
func TestPropFormatParse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(Kinds()).Draw(t, "kind").Base()
		system := System(rapid.IntRange(0, 2).Draw(t, "system"))
		si := float64(rapid.IntRange(0, 9000).Draw(t, "si"))
		text := FormatSI(k, si, system, 9)
		if k == KindMoney {
			text = FormatSI(k, si, system, 2)
		}
		if got, err := k.Parse(text); err != nil || math.Abs(got-si) > 1e-5 {
			t.Fatalf("%s %v prints as %q, which reads as %v, %v", k, si, text, got, err)
		}
	})
}

func TestFrozenPair(t *testing.T) {
	for _, c := range []struct {
		value, limit Mass
		want         string
	}{
		{1849.6, 1850, "1 849.6 kg of 1 850.0 kg"}, {1850, 1850, "1 850 kg of 1 850 kg"}, {1893, 1850, "1 893 kg of 1 850 kg"}, {1849.97, 1850, "1 849.97 kg of 1 850.00 kg"},
		{1850.0000001, 1850, "1 850.000 kg of 1 850.000 kg"}, {Mass(math.NaN()), 1850, "unknown of 1 850 kg"},
	} {
		a, b := FormatPair(c.value, c.limit, Metric, -1)
		if got := plainSpaces(a + " of " + b); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func BenchmarkParseMassEst(b *testing.B) {
	for b.Loop() {
		if _, err := ParseMassEst("19.2 kg ± 4 %"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkParseLength(b *testing.B) {
	for b.Loop() {
		if _, err := ParseLength("1640 mm"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFormat(b *testing.B) {
	for b.Loop() {
		Format(1886.4*Kilogram, Imperial, 0)
	}
}
