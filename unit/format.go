package unit

import (
	"math"
	"strconv"
	"strings"
)

// System is the units that a reader wants to see.
type System uint8

// The systems. Imperial and US differ in the gallon.
const (
	Metric System = iota
	Imperial
	US
)

// The typography of numbers, in this one place: a no-break space between groups of three digits
// and before the unit, and a true minus sign.
const (
	Space = "\u00a0"
	Minus = "−"
)

// Unknown is printed for a number that is not finite.
const Unknown = "unknown"

// shown is the unit and the digits after the point in which a kind is shown.
type shown struct {
	unit   string
	digits int
}

// Format prints q for people in their system, rounded half away from zero: "1 886 kg", "23.6 in".
// digits counts those after the point; below 0 it takes the usual number for the kind. The spread
// of an Est is not printed. What is printed is never fed back into a formula.
func Format(q Quantity, system System, digits int) string {
	return FormatSI(q.Kind(), q.SI(), system, digits)
}

// FormatSI is Format for a plain number in SI units (see Kind.Parse).
func FormatSI(k Kind, si float64, system System, digits int) string {
	unit, usual := k.Shown(system)
	if digits < 0 {
		digits = usual
	}
	return FormatIn(k, si, unit, digits)
}

// Shown returns the unit in which k is shown in system, and the usual digits after the point.
func (k Kind) Shown(system System) (unit string, digits int) {
	row := k.row()
	if int(system) >= len(row.show) {
		system = Metric
	}
	return row.show[system].unit, row.show[system].digits
}

// FormatIn prints si in one of the units of k; the spelling given is the one printed. An unknown
// spelling is a bug of the caller and panics.
func FormatIn(k Kind, si float64, unit string, digits int) string {
	return withUnit(Number(k.in(si, unit), digits), unit)
}

func withUnit(number, unit string) string {
	switch {
	case unit == "" || number == Unknown:
		return number
	case unit == "°" || unit == "'" || unit == "\"":
		return number + unit
	}
	return number + Space + strings.ReplaceAll(unit, " ", Space)
}

// in returns si as a plain number of unit.
func (k Kind) in(si float64, unit string) float64 {
	u := k.unit(unit)
	if u == nil {
		panic("unit: " + unit + " is no unit of " + k.String())
	}
	if u.decimal && u.plus == nil && !math.IsNaN(si) && !math.IsInf(si, 0) { // exact to the last digit
		f, _ := strconv.ParseFloat(shiftPoint(si, u.shift), 64)
		return f
	}
	times, _ := u.times.Float64()
	f := si / times
	if u.plus != nil {
		plus, _ := u.plus.Float64()
		f -= plus
	}
	return f
}

// Number prints a plain number for people: groups of three from four digits on, a true minus
// sign, digits after the point rounded half away from zero. The rounding starts from the first 15
// significant digits, so that 20.5 reached through a conversion is 20.5. -0 is 0.
func Number(f float64, digits int) string {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		return Unknown
	}
	s := roundText(plain(f, 15), max(digits, 0))
	sign := ""
	if strings.HasPrefix(s, "-") {
		s = s[1:]
		if strings.Trim(s, "0.") != "" {
			sign = Minus
		}
	}
	whole, part, _ := strings.Cut(s, ".")
	var b strings.Builder
	b.WriteString(sign)
	for i := range len(whole) {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteString(Space)
		}
		b.WriteByte(whole[i])
	}
	if part != "" {
		b.WriteString("." + part)
	}
	return b.String()
}

// roundText rounds a decimal text to so many digits after the point, half away from zero.
func roundText(s string, digits int) string {
	whole, part, _ := strings.Cut(s, ".")
	if len(part) <= digits {
		if digits == 0 {
			return whole
		}
		return whole + "." + part + strings.Repeat("0", digits-len(part))
	}
	sign := ""
	if whole[0] == '-' {
		sign, whole = "-", whole[1:]
	}
	up := part[digits] >= '5'
	d := []byte(whole + part[:digits])
	for i := len(d) - 1; up && i >= 0; i-- {
		if up = d[i] == '9'; up {
			d[i] = '0'
		} else {
			d[i]++
		}
	}
	if up {
		d = append([]byte{'1'}, d...)
	}
	if s = sign + string(d[:len(d)-digits]); digits > 0 {
		s += "." + string(d[len(d)-digits:])
	}
	return s
}

// FormatAtMost is Format for a limit that must not be passed: the last digit is rounded down, so that who keeps to what is
// printed keeps to the limit in every system: 8 kg is 17 lb.
func FormatAtMost(q Quantity, system System, digits int) string {
	unit, usual := q.Kind().Shown(system)
	if digits < 0 {
		digits = usual
	}
	return withUnit(NumberAtMost(q.Kind().in(q.SI(), unit), digits), unit)
}

// NumberAtMost is Number rounded down, towards the lower number also below 0.
func NumberAtMost(f float64, digits int) string {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		return Unknown
	}
	digits = max(digits, 0)
	s := plain(f, 15)
	v, _ := strconv.ParseFloat(s, 64)
	r, _ := strconv.ParseFloat(roundText(s, digits), 64)
	if r > v {
		r -= math.Pow10(-digits)
	}
	return Number(r, digits)
}

// FormatPair prints a value and the limit it is held against. Where rounding would make them look
// equal although they differ, both get one more digit, and one more again, at most three.
func FormatPair(value, limit Quantity, system System, digits int) (string, string) {
	unit, usual := value.Kind().Shown(system)
	if digits < 0 {
		digits = usual
	}
	v, l := value.Kind().in(value.SI(), unit), limit.Kind().in(limit.SI(), unit)
	a, b := NumberPair(v, l, digits)
	return withUnit(a, unit), withUnit(b, unit)
}

// NumberPair is FormatPair for two plain numbers of the same unit.
func NumberPair(value, limit float64, digits int) (string, string) {
	digits = max(digits, 0)
	for more := 0; ; more++ {
		a, b := Number(value, digits+more), Number(limit, digits+more)
		if a != b || more == 3 || value == limit {
			return a, b
		}
	}
}
