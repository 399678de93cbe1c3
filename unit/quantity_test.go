package unit

import (
	"encoding/json"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// Exact by definition: international yard and pound (1959) and the gallons, from memory of NIST
// Special Publication 811, appendix B.
func TestRefUnits(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		text string
		want float64
	}{
		{KindMass, "1 lb", 0.45359237}, {KindMass, "1 oz", 0.028349523125}, {KindLength, "1 ft", 0.3048}, {KindLength, "1 yd", 0.9144},
		{KindVolume, "1 US gal", 3.785411784e-3}, {KindVolume, "1 imp gal", 4.54609e-3}, {KindSpeed, "1 mph", 0.44704},
		{KindPressure, "1 psi", 6894.757293168362}, {KindForce, "1 lbf", 4.4482216152605}, {KindPower, "1 BTU/h", 0.2930710701722222},
		{KindDensity, "1 lb/ft³", 16.018463373960138}, {KindArea, "1 ft²", 0.09290304}, {KindTemperature, "32 °F", 273.15},
	} {
		if got, err := c.kind.Parse(c.text); err != nil || got != c.want {
			t.Errorf("%s is %v, %v, want %v", c.text, got, err, c.want)
		}
	}
	for _, c := range []struct{ got, want float64 }{
		{Pound.Kilograms(), 0.45359237}, {Ounce.Kilograms(), 0.028349523125}, {Foot.Metres(), 0.3048}, {Yard.Metres(), 0.9144},
		{USGallon.Litres(), 3.785411784}, {ImperialGallon.Litres(), 4.54609}, {Degree.Radians(), math.Pi / 180}, {(90 * KilometrePerHour).MetresPerSecond(), 25},
	} {
		if c.got != c.want {
			t.Errorf("%v, want %v", c.got, c.want)
		}
	}
}

func TestMetresLength(t *testing.T) {
	for _, c := range []struct {
		metres float64
		want   Length
	}{
		{0, 0}, {0.6, 600 * Millimetre}, {0.4e-6, 0}, {0.5e-6, 1}, {-0.5e-6, -1}, {-0.4e-6, 0}, {1.5e-6, 2}, {2.5e-6, 3}, {-2.5e-6, -3},
		{0.4999999999999999e-6, 0}, {9007199254.740992, 1 << 53}, {-9007199254.740992, -1 << 53}, {4503599627.370497, 1<<52 + 1}, {-4503599627.370497, -1<<52 - 1}, {9e12, 9e18}, {-9e12, -9e18},
	} {
		if got := MetresLength(c.metres); got != c.want {
			t.Errorf("%v m is %d µm, want %d", c.metres, got, c.want)
		}
		if got, ok := LengthOf(c.metres); !ok || got != c.want {
			t.Errorf("%v m is %d µm, %v, want %d", c.metres, got, ok, c.want)
		}
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 9.1e12, -9.1e12, 1e300} {
		if got, ok := LengthOf(bad); ok || got != 0 {
			t.Errorf("%v m is a length: %v", bad, got)
		}
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%v m does not panic", bad)
				}
			}()
			MetresLength(bad)
		}()
	}
}

func TestHalfAndTimes(t *testing.T) {
	for _, c := range []struct{ l, half Length }{
		{0, 0}, {1, 1}, {-1, -1}, {2, 1}, {-2, -1}, {3, 2}, {-3, -2}, {math.MaxInt64, 1 << 62}, {math.MinInt64, -1 << 62},
	} {
		if got := c.l.Half(); got != c.half {
			t.Errorf("half of %d is %d, want %d", int64(c.l), int64(got), int64(c.half))
		}
	}
	for _, c := range []struct {
		l      Length
		factor float64
		want   Length
	}{{3, 0.5, 2}, {-3, 0.5, -2}, {5, 0.5, 3}, {1 << 52, 2, 1 << 53}, {7, 0, 0}, {600 * Millimetre, 1.5, 900 * Millimetre}} {
		if got := c.l.Times(c.factor); got != c.want {
			t.Errorf("%d times %v is %d, want %d", c.l, c.factor, got, c.want)
		}
	}
}

// Half is Times(0.5), and half an even length is exact.
func TestPropHalf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Int64Range(-1<<52, 1<<52).Draw(t, "l"))
		if l.Half() != l.Times(0.5) || (2*l).Half() != l || (-l).Half() != -l.Half() {
			t.Fatalf("half of %d is %d", l, l.Half())
		}
	})
}

func TestOpt(t *testing.T) {
	var o Opt[Mass]
	if o.Given() || o.Else(3) != 3 {
		t.Error("the zero Opt is present")
	}
	if v, ok := Some(Mass(0)).Get(); !ok || v != 0 || Some(Mass(0)).Else(3) != 0 {
		t.Error("a present zero is absent")
	}
	var by Optional = &o
	*by.Fill().(*Mass) = 5
	if v, ok := o.Get(); !ok || v != 5 {
		t.Errorf("filled: %v, %v", v, ok)
	}
	if v, ok := by.Any(); !ok || v != Mass(5) {
		t.Errorf("any: %v, %v", v, ok)
	}
	by.Clear()
	if o != (Opt[Mass]{}) {
		t.Errorf("cleared: %v", o)
	}
}

func TestKinds(t *testing.T) {
	brands, names := map[string]Kind{}, map[string]Kind{}
	if len(Kinds()) != 22 {
		t.Errorf("%d kinds", len(Kinds()))
	}
	for _, k := range Kinds() {
		if k.Base() == k {
			if other, double := brands[k.Brand()]; double || k.Brand() == "" {
				t.Errorf("%s and %s have the brand %q", k, other, k.Brand())
			}
			if other, double := names[k.String()]; double {
				t.Errorf("%s is named twice: %d, %d", k, k, other)
			}
			brands[k.Brand()], names[k.String()] = k, k
		}
		spelled := map[string]bool{}
		for _, u := range k.row().units {
			for _, s := range u.spellings {
				if spelled[s] {
					t.Errorf("%s has the unit %q twice", k, s)
				}
				spelled[s] = true
				if si, err := k.Parse("2" + s); err != nil || si != two(k, u) {
					t.Errorf("%s %q: %v, %v", k, "2"+s, si, err)
				}
				if si, err := k.Parse("2 " + s + " "); err != nil || si != two(k, u) {
					t.Errorf("%s %q: %v, %v", k, "2 "+s, si, err)
				}
			}
			if u.next != "" && k.unit(u.next) == nil {
				t.Errorf("%s: no unit %q", k, u.next)
			}
		}
		if _, err := k.Parse(k.Example()); err != nil || k.unit(k.Unit()) == nil {
			t.Errorf("%s: example %q: %v", k, k.Example(), err)
		}
		for s := Metric; s <= US; s++ {
			if unit, _ := k.Shown(s); k.unit(unit) == nil {
				t.Errorf("%s is shown in %q", k, unit)
			}
		}
	}
	if NoKind.String() != "quantity" || Kind(200).String() != "quantity" || Kind(200).Unit() != "" {
		t.Errorf("%v, %v", NoKind, Kind(200))
	}
}

// two is 2 of u, rounded to the micrometre for a length.
func two(k Kind, u unitRow) float64 {
	v := u.si(rat("2"))
	if k.Base() == KindLength {
		v = roundRat(v, 1_000_000)
	}
	f, _ := v.Float64()
	return f
}

func TestKindOf(t *testing.T) {
	type notOurs struct{ A int }
	for _, c := range []struct {
		value any
		want  Kind
		ok    bool
	}{
		{Mass(0), KindMass, true}, {Length(0), KindLength, true}, {MassEst{}, KindMassEst, true}, {LengthEst{}, KindLengthEst, true}, {Money(0), KindMoney, true},
		{Opt[Mass]{}, KindMass, true}, {Opt[MassEst]{}, KindMassEst, true}, {Opt[Length]{}, KindLength, true}, {Hours(0), KindHours, true},
		{Opt[int]{}, NoKind, false}, {Opt[any]{}, NoKind, false}, {0, NoKind, false}, {"", NoKind, false}, {notOurs{}, NoKind, false}, {[]Mass{}, NoKind, false},
	} {
		if k, ok := KindOf(reflect.TypeOf(c.value)); k != c.want || ok != c.ok {
			t.Errorf("KindOf(%T) = %v, %v", c.value, k, ok)
		}
	}
}

func TestMarshalRefuses(t *testing.T) {
	for _, q := range []interface{ MarshalText() ([]byte, error) }{
		Mass(math.NaN()), Mass(math.Inf(1)), Mass(2e12), Temperature(-1), Volume(math.NaN()), Angle(math.NaN()), Hours(math.NaN()), Hours(math.Inf(-1)), Length(math.MaxInt64), Length(math.MinInt64), Money(math.MaxInt64),
		MassEst{1, Spread{Kind: Absolute, Abs: math.NaN()}}, MassEst{1, Spread{Kind: Relative, Rel: -1}}, MassEst{1, Spread{Kind: Relative, Rel: 11}}, MassEst{Value: Mass(math.NaN())},
		LengthEst{Value: math.MaxInt64}, LengthEst{1, Spread{Kind: Absolute, Abs: math.NaN()}},
	} {
		if text, err := q.MarshalText(); err == nil {
			t.Errorf("%T is stored as %q", q, text)
		}
	}
	var got struct{ M Mass }
	if err := json.Unmarshal([]byte(`{"M":"12 Ah"}`), &got); err == nil || got.M != 0 {
		t.Errorf("%v, %v", got, err)
	}
}

func TestFrozenString(t *testing.T) {
	for _, c := range []struct {
		q    Quantity
		want string
	}{
		{12.5 * Kilogram, "12.5 kg"}, {Mass(0), "0 kg"}, {Mass(math.Copysign(0, -1)), "0 kg"}, {0.1 * Kilogram, "0.1 kg"}, {Mass(1e-7), "0.0000001 kg"}, {Mass(1e9), "1000000000 kg"},
		{600 * Millimetre, "600 mm"}, {Length(1), "0.001 mm"}, {Length(-1500), "-1.5 mm"}, {Length(-500), "-0.5 mm"}, {5 * Foot, "1524 mm"},
		{92 * Litre, "92 L"}, {Density(835), "0.835 kg/L"}, {Ratio(0.5), "50 %"}, {Ratio(0.07), "7 %"}, {90 * Degree, "90 °"}, {KilometrePerHour * 90, "90 km/h"},
		{190 * AmpereHour, "190 Ah"}, {1.2 * KilowattHour, "1200 Wh"}, {30 * Millibar, "0.03 bar"}, {Celsius(20), "20 °C"}, {Celsius(-5.5), "-5.5 °C"}, {Money(-5), "-0.05"}, {Money(24950), "249.50"},
		{Hours(2.5), "2.5 h"}, {MassEst{19.2, Spread{Kind: Relative, Rel: 0.04}}, "19.2 kg ± 4 %"}, {Mass(math.NaN()), "NaN kg"}, {Hours(math.NaN()), "NaN h"},
	} {
		if got := c.q.String(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
