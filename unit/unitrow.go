package unit

import (
	"math/big"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// unitRow is one unit: value in SI = (number + plus) * times.
type unitRow struct {
	spellings []string // the first is printed
	times     *big.Rat
	plus      *big.Rat // temperatures only, else nil
	shift     int      // the exponent, when decimal
	decimal   bool     // times is a power of ten
	next      string   // the smaller unit that may follow, as in 5 ft 10 in
}

// unit returns the unit of k with that spelling.
func (k Kind) unit(spelling string) *unitRow {
	row := k.row()
	for i := range row.units {
		for _, s := range row.units[i].spellings {
			if s == spelling {
				return &row.units[i]
			}
		}
	}
	return nil
}

func (u *unitRow) name() string { return u.spellings[0] }

// ownerOf returns the first kind that has a unit with that spelling.
func ownerOf(spelling string) Kind {
	for k := KindMass; k < KindMassEst; k++ {
		if k.unit(spelling) != nil {
			return k
		}
	}
	return NoKind
}

// longestUnit returns the longest spelling of any unit that s starts with.
func longestUnit(s string) string {
	if s == "" {
		return ""
	}
	for _, spelling := range spellings[s[0]] {
		if strings.HasPrefix(s, spelling) && endsWord(spelling, s[len(spelling):]) {
			return spelling
		}
	}
	return ""
}

// spellings holds every spelling of every unit by its first byte, long ones first. Never written.
var spellings = func() (all [256][]string) {
	for k := KindMass; k < KindMassEst; k++ {
		for _, u := range k.row().units {
			for _, s := range u.spellings {
				if s != "" && !slices.Contains(all[s[0]], s) {
					all[s[0]] = append(all[s[0]], s)
				}
			}
		}
	}
	for _, list := range all {
		slices.SortFunc(list, func(a, b string) int { return len(b) - len(a) })
	}
	return all
}()

// endsWord reports whether a spelling ends before rest and not in the middle of a longer word.
func endsWord(spelling, rest string) bool {
	last, _ := utf8.DecodeLastRuneInString(spelling)
	next, _ := utf8.DecodeRuneInString(rest)
	return rest == "" || !unicode.IsLetter(last) && !unicode.IsDigit(last) ||
		!unicode.IsLetter(next) && !strings.ContainsRune("²³/·°%", next)
}

// si returns n of the unit in SI units.
func (u *unitRow) si(n *big.Rat) *big.Rat {
	v := new(big.Rat)
	if u.plus != nil {
		n = v.Add(n, u.plus)
	}
	return v.Mul(n, u.times)
}

// number is the inverse of si.
func (u *unitRow) number(si *big.Rat) *big.Rat {
	v := new(big.Rat).Quo(si, u.times)
	if u.plus != nil {
		v.Sub(v, u.plus)
	}
	return v
}

// join puts a unit behind a number: 12.5 kg, 5', 249.50.
func join(number, unit string) string {
	if unit == "" {
		return number
	}
	if strings.ContainsAny(unit[:1], "'\"") || strings.HasPrefix(unit, "′") || strings.HasPrefix(unit, "″") || strings.HasPrefix(unit, "’") || strings.HasPrefix(unit, "”") {
		return number + unit
	}
	return number + " " + unit
}

// roundRat rounds v to a whole number of parts, half away from zero.
func roundRat(v *big.Rat, parts int64) *big.Rat {
	scaled := new(big.Rat).Mul(v, big.NewRat(parts, 1))
	whole, _ := new(big.Int).SetString(scaled.FloatString(0), 10) // FloatString rounds half away from zero
	return new(big.Rat).SetFrac(whole, big.NewInt(parts))
}
