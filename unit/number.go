package unit

import (
	"math/big"
	"strings"
	"unicode/utf8"
)

// number is one unsigned number as written.
type number struct {
	value    *big.Rat
	text     string // with a decimal point and without spaces between groups
	fraction bool   // written as a fraction: 1/2, 5 1/2, ½
	whole    bool   // written as digits alone
	end      int
}

var vulgar = map[rune][2]int64{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4},
	'⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6},
	'⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
}

// scanNumber reads a number at the start of s[at:]. code is not empty when there is none, and
// then end is the end of the offending part.
func scanNumber(s string, at int) (n number, code Code) {
	i := at
	whole, i := scanDigits(s, i)
	n.end = i
	if whole == "" {
		if r, size := utf8.DecodeRuneInString(s[i:]); vulgar[r][1] != 0 {
			return fractionOf(nil, "", s, i, i+size, vulgar[r])
		}
	}
	comma := i < len(s) && s[i] == ','
	if i < len(s) && (s[i] == '.' || comma) {
		decimals, j := digitRun(s, i+1)
		if decimals == "" {
			n.end = min(i+1, len(s))
			return n, CodeNotANumber
		}
		n.end = j
		if j < len(s) && (s[j] == ',' || s[j] == '.') {
			return n, CodeNotANumber // 1,886.5 or 1.2.3
		}
		if comma && len(decimals) == 3 && whole != "" && whole[0] != '0' && len(whole) <= 3 {
			return n, CodeAmbiguous
		}
		if whole == "" {
			whole = "0"
		}
		n.text = whole + "." + decimals
		n.value = plainRat(whole, decimals)
		return n, ""
	}
	if whole == "" {
		return n, CodeNotANumber
	}
	n.text, n.whole = whole, true
	n.value = plainRat(whole, "")
	return scanFraction(n, s, at)
}

// scanFraction reads what makes the whole number n a fraction: "/2", " 1/2", "½".
func scanFraction(n number, s string, at int) (number, Code) {
	i := n.end
	if i < len(s) && s[i] == '/' {
		below, j := digitRun(s, i+1)
		if below == "" {
			return n, "" // not ours: "+/-" or a unit
		}
		return quotient(n, nil, "", n.text, below, j)
	}
	j := skipSpace(s, i)
	if r, size := utf8.DecodeRuneInString(s[j:]); vulgar[r][1] != 0 {
		return fractionOf(n.value, n.text, s, j, j+size, vulgar[r])
	}
	if above, k := digitRun(s, j); j > i && above != "" && k < len(s) && s[k] == '/' {
		if below, end := digitRun(s, k+1); below != "" {
			return quotient(n, n.value, n.text+" ", above, below, end)
		}
	}
	return n, ""
}

func fractionOf(whole *big.Rat, text, s string, at, end int, f [2]int64) (number, Code) {
	v := big.NewRat(f[0], f[1])
	if whole != nil {
		v.Add(v, whole)
	}
	return number{value: v, text: text + s[at:end], fraction: true, end: end}, ""
}

func quotient(n number, whole *big.Rat, before, above, below string, end int) (number, Code) {
	n.end = end
	if strings.Trim(below, "0") == "" {
		return n, CodeNotANumber
	}
	v := plainRat(above, "")
	v.Quo(v, plainRat(below, ""))
	if whole != nil {
		v.Add(v, whole)
	}
	return number{value: v, text: before + above + "/" + below, fraction: true, end: end}, ""
}

// plainRat returns digits with decimals, always in base ten: big.Rat would read "010/5" as octal.
func plainRat(whole, decimals string) *big.Rat {
	n, _ := new(big.Int).SetString(whole+decimals, 10)
	return new(big.Rat).SetFrac(n, new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(decimals))), nil))
}

// scanDigits reads digits, with spaces between groups of three left out.
func scanDigits(s string, at int) (digits string, end int) {
	digits, end = digitRun(s, at)
	if digits == "" || len(digits) > 3 {
		return digits, end
	}
	for {
		r, size := utf8.DecodeRuneInString(s[end:])
		if !isSpace(r) {
			return digits, end
		}
		group, next := digitRun(s, end+size)
		if len(group) != 3 || next < len(s) && s[next] == '/' {
			return digits, end
		}
		digits, end = digits+group, next
	}
}

func digitRun(s string, at int) (string, int) {
	end := at
	for end < len(s) && s[end] >= '0' && s[end] <= '9' {
		end++
	}
	if at > len(s) {
		return "", at
	}
	return s[at:end], end
}

func isSpace(r rune) bool {
	return r == ' ' || r == '\t' || r == '\n' || r == '\r' || r == '\u00a0' || r == '\u202f' || r == '\u2009'
}

func skipSpace(s string, at int) int {
	for at < len(s) {
		r, size := utf8.DecodeRuneInString(s[at:])
		if !isSpace(r) {
			break
		}
		at += size
	}
	return at
}
