package unit

import (
	"math"
	"strings"
)

// readPlain is the quick way for what nearly every stored text looks like: "-12.5 kg",
// "19.2 kg ± 4 %". It takes at most 12 digits, a point, one space and a unit that is a power of
// ten, and leaves everything else, and every error, to the long way; both agree (TestCrossPlain).
func readPlain(k Kind, text string) (result, bool) {
	value, spread, spreads := text, "", false
	if k.HasSpread() {
		value, spread, spreads = strings.Cut(text, " ± ")
	}
	r, ok := plainValue(k.Base(), value)
	if !ok || !spreads {
		return r, ok
	}
	if s, ok := plainValue(KindRatio, spread); ok {
		r.entry.Spread = Spread{Kind: Relative, Rel: Ratio(s.entry.SI)}
		ok = spread[0] != '-' && s.entry.SI <= 10 && spread[len(spread)-1] == '%'
		r.entry.Text = text
		return r, ok
	}
	s, ok := plainValue(k.Base(), spread)
	r.entry.Spread = Spread{Kind: Absolute, Abs: s.entry.SI}
	r.entry.Text = text
	return r, ok && spread[0] != '-'
}

func plainValue(k Kind, text string) (r result, ok bool) {
	number, unit, spaced := strings.Cut(text, " ")
	u := k.unit(unit)
	if !spaced || u == nil || !u.decimal || u.plus != nil || u.next != "" || k == KindMoney || strings.Contains(unit, Space) {
		return r, false
	}
	digits := strings.TrimPrefix(number, "-")
	coefficient, decimals, point := int64(0), 0, false
	for i := range len(digits) {
		switch c := digits[i]; {
		case c >= '0' && c <= '9':
			coefficient = coefficient*10 + int64(c-'0')
			if point {
				decimals++
			}
		case c == '.' && !point && i > 0 && i < len(digits)-1:
			point = true
		default:
			return r, false
		}
	}
	if len(digits) == 0 || len(digits) > 12 {
		return r, false
	}
	var si float64
	if k == KindLength {
		r.whole = timesTen(coefficient, u.shift+6-decimals)
		si = float64(r.whole) / float64(Metre)
	} else if e := u.shift - decimals; e >= 0 { // exact operands, so rounded once
		si = float64(coefficient) * math.Pow10(e)
	} else {
		si = float64(coefficient) / math.Pow10(-e)
	}
	if number != digits {
		si, r.whole = 0-si, -r.whole
	}
	r.entry = Entry{Text: text, SI: si}
	limit := k.limit()
	return r, si >= -limit && si <= limit && u.shift-decimals <= 22
}

// timesTen returns n times 10^e, half up; n is at most 12 digits and e at most 6.
func timesTen(n int64, e int) int64 {
	power := int64(1)
	for range max(e, -e) {
		power *= 10
	}
	if e >= 0 {
		return n * power
	}
	return (n + power/2) / power
}
