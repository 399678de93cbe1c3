package unit

import (
	"math/big"
	"reflect"
	"strconv"
	"strings"
)

// Kind names a kind of quantity at run time. The zero Kind is invalid.
type Kind uint8

// The kinds of quantity. The two Est kinds are a quantity with a spread.
const (
	NoKind Kind = iota
	KindMass
	KindLength
	KindVolume
	KindDensity
	KindArea
	KindAngle
	KindRatio
	KindSpeed
	KindCurrent
	KindVoltage
	KindPower
	KindEnergy
	KindCharge
	KindPressure
	KindForce
	KindMassMoment
	KindTemperature
	KindTempDiff
	KindHours
	KindMoney
	KindMassEst
	KindLengthEst
	kindCount
)

// Kinds returns every kind.
func Kinds() []Kind {
	all := make([]Kind, 0, kindCount)
	for k := KindMass; k < kindCount; k++ {
		all = append(all, k)
	}
	return all
}

// String returns the name of k in plain words: "mass", "temperature difference".
func (k Kind) String() string { return k.row().name }

// Article returns the name of k with its article: "a mass", "an energy".
func (k Kind) Article() string { return k.row().article + " " + k.row().name }

// Unit returns the usual unit of k, in which stored text is printed: "kg". Money has none.
func (k Kind) Unit() string { return k.row().usual }

// SI returns the coherent SI unit of k, in which JSON carries it: "m", "m³"; "1" for a ratio, "" for money and no kind.
func (k Kind) SI() string {
	switch k = k.Base(); k {
	case NoKind, KindMoney:
		return ""
	case KindRatio:
		return "1"
	case KindMassMoment:
		return "kg·m"
	}
	one := big.NewRat(1, 1)
	for _, u := range k.row().units {
		if u.times.Cmp(one) == 0 && u.plus == nil {
			return u.spellings[0]
		}
	}
	symbols := [...]string{"kg", "m", "s", "A", "K"}
	d := k.Dims()
	d[0], d[1] = d[1], d[0]
	var parts []string
	for i, n := range d {
		switch {
		case n == 1:
			parts = append(parts, symbols[i])
		case n != 0:
			parts = append(parts, symbols[i]+strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴").Replace(strconv.Itoa(int(n))))
		}
	}
	return strings.Join(parts, "·")
}

// Units returns one spelling of each unit that k is written in.
func (k Kind) Units() []string {
	var all []string
	for _, u := range k.row().units {
		all = append(all, u.spellings[0])
	}
	return all
}

// Spellings returns every spelling of every unit that k is written in.
func (k Kind) Spellings() []string {
	var all []string
	for _, u := range k.row().units {
		all = append(all, u.spellings...)
	}
	return all
}

// Example returns stored text of k, for hints: "12.5 kg".
func (k Kind) Example() string { return join(k.row().example, k.Unit()) }

// Brand returns the name of the branded number of k in the page's types: "Kg". It holds the plain
// number that the Go type holds, so "Um" counts micrometres and "Hrs" hours.
func (k Kind) Brand() string { return k.row().brand }

// Dims returns the exponents of metre, kilogram, second, ampere and kelvin.
func (k Kind) Dims() [5]int8 { return k.row().dims }

// Base returns the kind of the value where k has a spread, else k.
func (k Kind) Base() Kind {
	switch k {
	case KindMassEst:
		return KindMass
	case KindLengthEst:
		return KindLength
	}
	return k
}

// HasSpread reports whether k is a quantity with a spread.
func (k Kind) HasSpread() bool { return k.Base() != k }

// Parse reads stored text of k and returns its value in coherent SI units: metres for a length,
// seconds for Hours, kelvins for a Temperature, coins for Money. A spread is read and left out.
func (k Kind) Parse(text string) (float64, error) {
	r, err := read(k, "", text, true)
	return r.entry.SI, err
}

// Text returns si (see Parse) as stored text in the usual unit. ok is false where that text would
// not read back: NaN, Inf and sizes outside the limits of the package.
func (k Kind) Text(si float64) (text string, ok bool) { return printSI(k.Base(), si) }

// KindOf returns the kind of a type of this package, or of an Opt of one.
func KindOf(t reflect.Type) (Kind, bool) {
	if t.Kind() == reflect.Struct && reflect.PointerTo(t).Implements(optional) {
		v, _ := reflect.Zero(t).Interface().(interface{ Any() (any, bool) }).Any()
		if t = reflect.TypeOf(v); t == nil {
			return NoKind, false
		}
	}
	if !t.Implements(kinder) {
		return NoKind, false
	}
	return reflect.Zero(t).Interface().(interface{ Kind() Kind }).Kind(), true
}

var (
	optional = reflect.TypeFor[Optional]()
	kinder   = reflect.TypeFor[Quantity]()
)

// Quantity is a value of one of the types of this package.
type Quantity interface {
	Kind() Kind
	SI() float64 // in coherent SI units, see Kind.Parse
	String() string
}

// kindRow describes one kind.
type kindRow struct {
	article, name string
	usual         string
	example       string // a number
	brand         string
	dims          [5]int8
	max           float64 // largest size read, in SI units; 0 means 1e12
	units         []unitRow
	show          [3]shown // by System
}

func (k Kind) row() *kindRow {
	k = k.Base()
	if k >= kindCount {
		k = NoKind
	}
	return &kinds[k]
}

// limit returns the largest size that is read, in SI units.
func (k Kind) limit() float64 {
	if m := k.row().max; m != 0 {
		return m
	}
	return 1e12
}
