package calc

import (
	"math"
	"strconv"
	"strings"
)

// Characters of printed numbers: a no-break space groups thousands and parts number and unit, so
// that a figure never breaks across lines; the minus is the typographic one.
const (
	group = "\u00a0"
	minus = "−"
)

// Text returns an SI value as printed, with its unit: "1 893 kg". A value that is not a number
// prints as "unknown".
func (s Show) Text(si float64) string { return s.withUnit(s.Number(si)) }

// Number returns an SI value as printed, without its unit.
func (s Show) Number(si float64) string { return number(s.display(si), s.Digits, s.Digits) }

// display converts an SI value to the display unit.
func (s Show) display(si float64) float64 { return si / s.factor() }

func (s Show) factor() float64 {
	if s.Factor == 0 {
		return 1
	}
	return s.Factor
}

func (s Show) withUnit(number string) string {
	if s.Unit == "" || number == "unknown" {
		return number
	}
	return number + group + s.Unit
}

// number prints v with at most digits and at least keep digits after the point, half away from
// zero on the first 15 significant digits of v (620.4999999999999 is 620.5, as in package unit, so
// that a finding and its slip print the same figure), thousands grouped.
func number(v float64, digits, keep int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "unknown"
	}
	first, _ := strconv.ParseFloat(strconv.FormatFloat(math.Abs(v), 'e', 14, 64), 64)
	whole, frac := round(strconv.FormatFloat(first, 'f', -1, 64), max(digits, 0))
	for len(frac) > max(keep, 0) && strings.HasSuffix(frac, "0") {
		frac = frac[:len(frac)-1]
	}
	var b strings.Builder
	if v < 0 && strings.Trim(whole+frac, "0") != "" {
		b.WriteString(minus)
	}
	for i, c := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteString(group)
		}
		b.WriteRune(c)
	}
	if frac != "" {
		b.WriteString("." + frac)
	}
	return b.String()
}

// round rounds the unsigned decimal text to digits after the point, half up.
func round(text string, digits int) (whole, frac string) {
	whole, frac, _ = strings.Cut(text, ".")
	if len(frac) <= digits {
		return whole, frac + strings.Repeat("0", digits-len(frac))
	}
	up := frac[digits] >= '5'
	all := []byte("0" + whole + frac[:digits])
	for i := len(all) - 1; up; i-- {
		up = all[i] == '9'
		if up {
			all[i] = '0'
		} else {
			all[i]++
		}
	}
	if all[0] == '0' {
		all = all[1:]
	}
	return string(all[:len(all)-digits]), string(all[len(all)-digits:])
}

// value reads back a number printed by number.
func value(text string) float64 {
	v, err := strconv.ParseFloat(strings.NewReplacer(group, "", minus, "-").Replace(text), 64)
	if err != nil {
		return math.NaN()
	}
	return v
}
