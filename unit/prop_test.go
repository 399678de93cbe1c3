package unit

import (
	"errors"
	"math"
	"math/big"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// size draws a float64 of any magnitude that can be stored.
func size(limit float64) *rapid.Generator[float64] {
	return rapid.Custom(func(t *rapid.T) float64 {
		if rapid.Bool().Draw(t, "everyday") {
			return float64(rapid.IntRange(-100000, 100000).Draw(t, "n")) / 100
		}
		f := math.Ldexp(rapid.Float64Range(0.5, 1).Draw(t, "mantissa"), rapid.IntRange(-331, 49).Draw(t, "exponent")) // from 1e-100
		f = min(f, limit)
		if rapid.Bool().Draw(t, "negative") {
			f = -f
		}
		return f
	})
}

// Stored text reads back to the same value, for every kind.
func TestPropPrintParse(t *testing.T) {
	for _, k := range Kinds() {
		limit := k.limit()
		t.Run(k.String(), func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				si := size(limit).Draw(t, "si")
				switch k.Base() {
				case KindTemperature:
					si = abs(si)
				case KindMoney:
					si = math.Trunc(si)
				case KindLength:
					si = math.Round(math.Mod(si, 9e9)*1e6) / 1e6
				}
				text, ok := k.Text(si)
				if !ok || len(text) > maxText {
					t.Fatalf("%v prints as %q, not storable", si, text)
				}
				if got, err := k.Parse(text); err != nil || got != si {
					t.Fatalf("%v prints as %q, which reads as %v, %v", si, text, got, err)
				}
			})
		})
	}
}

// The text form of each Go type reads back through its own methods; the types with whole numbers
// over their full range.
func TestPropMarshal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := size(1e11).Draw(t, "f")
		spread := Spread{Kind: SpreadKind(rapid.IntRange(0, 2).Draw(t, "spread"))}
		length := Length(rapid.Int64Range(-9e15, 9e15).Draw(t, "length"))
		half := Length(rapid.Int64Range(0, 1e9).Draw(t, "half"))
		lengthSpread := spread
		switch spread.Kind {
		case Relative:
			spread.Rel = Ratio(math.Mod(abs(size(10).Draw(t, "rel")), 10))
			lengthSpread.Rel = spread.Rel
		case Absolute:
			spread.Abs = abs(f)
			lengthSpread.Abs = half.Metres()
		}
		roundTrip(t, Mass(f))
		roundTrip(t, Volume(f))
		roundTrip(t, Density(f))
		roundTrip(t, Area(f))
		roundTrip(t, Angle(f))
		roundTrip(t, Ratio(f))
		roundTrip(t, Speed(f))
		roundTrip(t, Current(f))
		roundTrip(t, Voltage(f))
		roundTrip(t, Power(f))
		roundTrip(t, Energy(f))
		roundTrip(t, Charge(f))
		roundTrip(t, Pressure(f))
		roundTrip(t, Force(f))
		roundTrip(t, MassMoment(f))
		roundTrip(t, Temperature(math.Mod(abs(f), 1e4)))
		roundTrip(t, TempDiff(math.Mod(f, 1e4)))
		roundTrip(t, Hours(math.Mod(f, 1e8)))
		roundTrip(t, length)
		roundTrip(t, Money(length))
		roundTrip(t, MassEst{Mass(f), spread})
		roundTrip(t, LengthEst{length, lengthSpread})
	})
}

func roundTrip[Q Quantity](t *rapid.T, q Q) {
	text, err := any(q).(interface{ MarshalText() ([]byte, error) }).MarshalText()
	if err != nil {
		t.Fatalf("%T %v: %v", q, q, err)
	}
	var got Q
	if err := any(&got).(interface{ UnmarshalText([]byte) error }).UnmarshalText(text); err != nil || any(got) != any(q) {
		t.Fatalf("%T %q reads as %v, %v", q, text, got, err)
	}
	if q.String() != string(text) {
		t.Fatalf("String %q, MarshalText %q", q.String(), text)
	}
	if k, ok := KindOf(reflect.TypeOf(q)); !ok || k != q.Kind() {
		t.Fatalf("KindOf(%T) = %v, %v", q, k, ok)
	}
}

// Digits are taken as written: reading agrees with exact arithmetic by another route, integers
// with the decimal places counted.
func TestCrossExactDigits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := rapid.Int64Range(0, 99999).Draw(t, "whole")
		digits := rapid.StringMatching(`[0-9]{4,12}`).Draw(t, "digits")
		text := big.NewInt(whole).String() + "." + digits
		all, _ := new(big.Int).SetString(strings.Replace(text, ".", "", 1), 10)
		// Length in mm: micrometres = all * 1000 / 10^n, half up.
		div := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(digits))), nil)
		um := new(big.Int).Mul(all, big.NewInt(2000))
		um.Add(um, div).Quo(um, new(big.Int).Mul(div, big.NewInt(2)))
		if got, err := ParseLength(text + " mm"); err != nil || got.Micrometres() != um.Int64() {
			t.Fatalf("%s mm is %d µm, %v, want %d", text, got.Micrometres(), err, um)
		}
		// Inches: 25400 µm each.
		um.Mul(all, big.NewInt(2*25400))
		um.Add(um, div).Quo(um, new(big.Int).Mul(div, big.NewInt(2)))
		if got, err := ParseLength("-" + text + " in"); err != nil || got.Micrometres() != -um.Int64() {
			t.Fatalf("-%s in is %d µm, %v, want -%d", text, got.Micrometres(), err, um)
		}
		// Pounds: 45359237 / 10^8 kg.
		f, _, _ := big.ParseFloat(text, 10, 400, big.ToNearestEven)
		f.Mul(f, new(big.Float).SetPrec(400).SetInt64(45359237))
		kg, _ := f.Quo(f, new(big.Float).SetPrec(400).SetInt64(1e8)).Float64()
		if got, err := ParseMass(text + " lb"); err != nil || got.Kilograms() != kg {
			t.Fatalf("%s lb is %v, %v, want %v", text, got, err, kg)
		}
	})
}

// The quick way for plain text agrees with the long way, and takes the usual texts.
func TestCrossPlain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`-?[0-9]{1,9}(\.[0-9]{1,8})? (kg|g|t|mm|cm|m|µm|L|m³|kg/L|%|kW|in|°C|)( ± [0-9]{1,3}(\.[0-9])? (%|kg|mm))?`).Draw(t, "text")
		for _, k := range Kinds() {
			quick, ok := readPlain(k, text)
			if !ok {
				continue
			}
			p := reader{kind: k, text: text, strict: true, column: k.unit(k.Unit())}
			if slow, err := p.entry(); err != nil || slow.entry != quick.entry || slow.whole != quick.whole {
				t.Fatalf("%s %q: %v by the quick way, %v, %v by the long one", k, text, quick, slow, err)
			}
		}
	})
	for k, text := range map[Kind]string{KindMass: "12.5 kg", KindLength: "-1640.5 mm", KindMassEst: "19.2 kg ± 4 %", KindLengthEst: "1640 mm ± 3 mm", KindRatio: "50 %"} {
		if _, ok := readPlain(k, text); !ok {
			t.Errorf("%q is read the long way", text)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"12.5 kg", "1,5 m", "1.5m", "1.5 µm", "1e400 kg", "5' 10 1/2\"", "19.2 kg ± 4 %", "1180 kg +/- 10 kg", "½ tank", "1 886 kg", "-20 °C", "1 h 30 min", "\xff kg", "1/0 m", "NaN", "4x0.8+1", "1240+30-15", "half", "9 ⅞ in", "249,50", "5 ft 10 in ± 3 mm"} {
		for k := range kindCount {
			f.Add(uint8(k), s)
		}
	}
	f.Fuzz(func(t *testing.T, kind uint8, text string) {
		k := Kind(kind) % kindCount
		check := func(e Entry, err error) {
			var pe *ParseError
			switch {
			case err == nil:
				again, err := read(k, "", e.Text, true) // stored text, once more
				if err != nil || again.entry.SI != e.SI || again.entry.Spread != e.Spread || again.entry.Text != e.Text {
					t.Fatalf("%s %q is stored as %q, which reads as %v, %v", k, text, e.Text, again.entry, err)
				}
				if !(abs(e.SI) <= 1e16) {
					t.Fatalf("%s %q is %v", k, text, e.SI)
				}
				if printed, ok := k.Text(e.SI); ok {
					if got, err := k.Parse(printed); err != nil || got != e.SI {
						t.Fatalf("%s %q prints as %q, which reads as %v, %v", k, text, printed, got, err)
					}
				} else if abs(e.SI) > 1e-100 {
					t.Fatalf("%s %q reads but %q cannot be stored", k, text, printed)
				}
			case !errors.As(err, &pe):
				t.Fatalf("%v is no ParseError", err)
			case pe.At < 0 || pe.At > pe.End || pe.End > len(text) || pe.Text != text:
				t.Fatalf("%s %q: offsets %d to %d", k, text, pe.At, pe.End)
			case pe.Code == "" || pe.Problem == "" || !utf8.ValidString(pe.Problem) || strings.ContainsAny(pe.Problem+pe.Hint, "\n\x1b"):
				t.Fatalf("%s %q: %q, %q", k, text, pe.Code, pe.Problem)
			}
		}
		r, err := read(k, "", text, true)
		check(r.entry, err)
		if quick, ok := readPlain(k, text); ok {
			p := reader{kind: k, text: text, strict: true, column: k.unit(k.Unit())}
			if slow, err := p.entry(); err != nil || slow.entry != quick.entry || slow.whole != quick.whole {
				t.Fatalf("%s %q: %v by the quick way, %v, %v by the long one", k, text, quick, slow, err)
			}
		}
		check(Typed(k, "", text))
	})
}
