package unit

import (
	"fmt"
	"math"
	"math/big"
)

// The text forms of the exact types and of those with a spread; see text.go for the rest.

// ParseLength reads a length from stored text: "600 mm", "5 ft 10 in", "5 1/2 in". It is rounded
// once to the micrometre, half away from zero.
func ParseLength(text string) (Length, error) {
	r, err := read(KindLength, "", text, true)
	if err != nil {
		return 0, err
	}
	return Length(r.whole), nil
}

// Kind returns KindLength.
func (Length) Kind() Kind { return KindLength }

// SI returns the plain number of metres.
func (l Length) SI() float64 { return l.Metres() }

// String returns l as stored text, exact: "0.001 mm" is a micrometre.
func (l Length) String() string { s, _ := printLength(l); return s }

// MarshalText returns l as stored text.
func (l Length) MarshalText() ([]byte, error) {
	s, ok := printLength(l)
	if !ok {
		return nil, fmt.Errorf("length %q cannot be stored", s)
	}
	return []byte(s), nil
}

// UnmarshalText reads stored text.
func (l *Length) UnmarshalText(b []byte) error { return unmarshal(l, ParseLength, b) }

// ParseMoney reads an amount from stored text, a number without a currency and with at most two
// decimals: "249.50".
func ParseMoney(text string) (Money, error) {
	r, err := read(KindMoney, "", text, true)
	if err != nil {
		return 0, err
	}
	return Money(r.whole), nil
}

// Kind returns KindMoney.
func (Money) Kind() Kind { return KindMoney }

// SI returns the plain number of coins.
func (m Money) SI() float64 { return float64(m) }

// String returns m as stored text: "249.50".
func (m Money) String() string { return printMoney(m) }

// MarshalText returns m as stored text.
func (m Money) MarshalText() ([]byte, error) { return marshal(m) }

// UnmarshalText reads stored text.
func (m *Money) UnmarshalText(b []byte) error { return unmarshal(m, ParseMoney, b) }

// ParseHours reads working time from stored text: "2.5 h", "1 h 30 min", "45 min".
func ParseHours(text string) (Hours, error) {
	r, err := read(KindHours, "", text, true)
	if err != nil {
		return 0, err
	}
	h, _ := new(big.Rat).Quo(r.exact, big.NewRat(3600, 1)).Float64()
	return Hours(h), nil
}

// Kind returns KindHours.
func (Hours) Kind() Kind { return KindHours }

// SI returns the plain number of seconds.
func (h Hours) SI() float64 { return float64(h) * 3600 }

// String returns h as stored text: "2.5 h".
func (h Hours) String() string {
	if math.IsNaN(float64(h)) || math.IsInf(float64(h), 0) {
		return text(h)
	}
	return shiftPoint(float64(h), 0) + " h" // not through seconds, which would round twice
}

// MarshalText returns h as stored text.
func (h Hours) MarshalText() ([]byte, error) {
	if got, err := ParseHours(h.String()); err != nil || got != h {
		return nil, fmt.Errorf("working time %q cannot be stored", h.String())
	}
	return []byte(h.String()), nil
}

// UnmarshalText reads stored text.
func (h *Hours) UnmarshalText(b []byte) error { return unmarshal(h, ParseHours, b) }

// ParseMassEst reads a mass with or without a spread: "19.2 kg ± 4 %", "1180 kg ± 10 kg", "3 kg".
// The sign may be written +/-.
func ParseMassEst(text string) (MassEst, error) {
	r, err := read(KindMassEst, "", text, true)
	return MassEst{Mass(r.entry.SI), r.entry.Spread}, err
}

// Kind returns KindMassEst.
func (MassEst) Kind() Kind { return KindMassEst }

// SI returns the plain number of kilograms, without the spread.
func (e MassEst) SI() float64 { return e.Value.SI() }

// String returns e as stored text.
func (e MassEst) String() string { return join2(e.Value.String(), e.Spread.text(KindMass)) }

// MarshalText returns e as stored text.
func (e MassEst) MarshalText() ([]byte, error) { return marshalEst(e.Value, e.Spread) }

// UnmarshalText reads stored text.
func (e *MassEst) UnmarshalText(b []byte) error { return unmarshal(e, ParseMassEst, b) }

// ParseLengthEst reads a length with or without a spread: "1640 mm ± 3 mm".
func ParseLengthEst(text string) (LengthEst, error) {
	r, err := read(KindLengthEst, "", text, true)
	if err != nil {
		return LengthEst{}, err
	}
	return LengthEst{Length(r.whole), r.entry.Spread}, nil
}

// Kind returns KindLengthEst.
func (LengthEst) Kind() Kind { return KindLengthEst }

// SI returns the plain number of metres, without the spread.
func (e LengthEst) SI() float64 { return e.Value.SI() }

// String returns e as stored text.
func (e LengthEst) String() string { return join2(e.Value.String(), e.Spread.text(KindLength)) }

// MarshalText returns e as stored text.
func (e LengthEst) MarshalText() ([]byte, error) { return marshalEst(e.Value, e.Spread) }

// UnmarshalText reads stored text.
func (e *LengthEst) UnmarshalText(b []byte) error { return unmarshal(e, ParseLengthEst, b) }

// text returns s as written behind the ± in stored text, or "".
func (s Spread) text(k Kind) string {
	text, _ := s.print(k)
	return text
}

func (s Spread) print(k Kind) (text string, ok bool) {
	switch s.Kind {
	case Relative:
		text, ok = printSI(KindRatio, float64(s.Rel))
		return text, ok && s.Rel >= 0 && s.Rel <= 10
	case Absolute:
		text, ok = printSI(k, s.Abs)
		return text, ok && s.Abs >= 0
	}
	return "", true
}

func join2(value, spread string) string {
	if spread == "" {
		return value
	}
	return value + " ± " + spread
}

func marshalEst(value Quantity, spread Spread) ([]byte, error) {
	v, ok := printSI(value.Kind(), value.SI())
	if l, is := value.(Length); is {
		v, ok = printLength(l)
	}
	s, spreadOK := spread.print(value.Kind())
	if text := join2(v, s); ok && spreadOK {
		return []byte(text), nil
	}
	return nil, fmt.Errorf("%s %q cannot be stored", value.Kind(), join2(v, s))
}
