package unit

import (
	"math/big"
	"strings"
	"unicode/utf8"
)

// Typed reads what a person types into a column of that kind and unit ("" for the usual one).
// Besides stored text it reads a bare number, which takes the unit of the column; sums and
// differences ("1240+30-15"); products by a count ("4x0.8"); and for a share the words and
// fractions of a tank ("½", "3/4", "half", "full", "empty"). A spread may follow ("21 ± 5 %")
// where the kind has one.
//
// The stored text keeps the digits and the unit that were typed; a decimal comma becomes a point.
// Of a sum, a product or a fraction without a unit it keeps the result, in the first unit typed
// or else the unit of the column, at most 6 decimals. Entry.SI is read from the stored text, so
// the two never differ.
func Typed(k Kind, column, text string) (Entry, error) {
	r, err := read(k, column, text, false)
	return r.entry, err
}

// sum reads products parted by + and -.
func (p *reader) sum() (literal, *ParseError) {
	if l, ok := p.tankWord(); ok {
		return l, nil
	}
	total, err := p.product()
	if err != nil || p.strict {
		return total, err
	}
	terms := []literal{total}
	for p.at < len(p.text) && p.spreadSign() == 0 {
		r, size := utf8.DecodeRuneInString(p.text[p.at:])
		if r != '+' && r != '-' && r != '−' {
			break
		}
		p.at += size
		p.space()
		term, err := p.product()
		if err != nil {
			return total, err
		}
		if term.signed {
			return total, p.fail(CodeBadSum, term.at, term.end, p.subject()+" has two signs in a row", "")
		}
		if r != '+' {
			term.value = new(big.Rat).Neg(term.value)
		}
		terms = append(terms, term)
	}
	if len(terms) == 1 {
		return total, nil
	}
	return p.add(terms)
}

// add sums terms. Bare numbers take the unit of the column, unless another unit was typed.
func (p *reader) add(terms []literal) (literal, *ParseError) {
	if p.kind == KindTemperature {
		return literal{}, p.fail(CodeBadSum, terms[1].at, terms[1].end, p.subject()+" adds temperatures", p.example())
	}
	total := literal{value: new(big.Rat), at: terms[0].at, end: terms[len(terms)-1].end}
	var other *unitRow
	for _, t := range terms {
		if t.unit != nil && total.unit == nil {
			total.unit = t.unit
		}
		if t.unit != nil && t.unit != p.column {
			other = t.unit
		}
	}
	if total.unit == nil {
		total.unit = p.column
	}
	for _, t := range terms {
		if t.unit == nil && other != nil {
			return total, p.fail(CodeMissingUnit, t.at, t.end, p.subject()+" mixes numbers with and without a unit",
				"write the unit of "+quote(strings.TrimSpace(p.text[t.at:t.end]))+" too")
		}
		v := t.value
		if t.unit == nil {
			v = p.bare(t)
		}
		total.value.Add(total.value, v)
	}
	return total, nil // text "" asks settle for the result
}

// product reads literals parted by x, × or *; all but one are counts.
func (p *reader) product() (literal, *ParseError) {
	l, err := p.literal()
	if err != nil || p.strict {
		return l, err
	}
	for p.at < len(p.text) {
		r, size := utf8.DecodeRuneInString(p.text[p.at:])
		if r != 'x' && r != 'X' && r != '×' && r != '*' {
			break
		}
		p.at += size
		p.space()
		next, err := p.literal()
		if err != nil {
			return l, err
		}
		count, each := l, next
		if count.unit != nil || !count.num.whole && next.num.whole && next.unit == nil {
			count, each = each, count
		}
		if count.unit != nil || !count.num.whole || count.signed && count.at != l.at || p.kind == KindTemperature {
			return l, p.fail(CodeBadSum, l.at, next.end, p.subject()+" multiplies two values of which neither is a count", "write a whole number first, like "+quote("4x0.8"))
		}
		product := literal{unit: each.unit, at: l.at, end: next.end, signed: l.signed, num: each.num}
		product.value = new(big.Rat).Mul(count.value, each.value)
		if each.unit == nil {
			product.text = decimalText(product.value)
			product.num.whole = count.num.whole && each.num.whole
		}
		l = product
	}
	return l, nil
}

// tankWord reads the words for how full a tank is.
func (p *reader) tankWord() (literal, bool) {
	if p.strict || p.kind != KindRatio {
		return literal{}, false
	}
	words := map[string]string{"full": "100", "empty": "0", "half": "50", "quarter": "25", "three quarters": "75"}
	word := strings.ToLower(strings.TrimFunc(p.text, isSpace))
	for _, end := range []string{" full", " a tank", " of a tank", " tank"} {
		if short, ok := strings.CutSuffix(word, end); ok {
			word = short
			break
		}
	}
	n, ok := words[word]
	if !ok {
		return literal{}, false
	}
	p.at = len(p.text)
	percent := p.kind.unit("%")
	return literal{value: percent.si(rat(n)), text: n + " %", unit: percent, end: p.at}, true
}

// decimalText prints v with at most 6 decimals, half away from zero.
func decimalText(v *big.Rat) string {
	return trimZeros(v.FloatString(6))
}

// trimZeros drops the zeros after a decimal point, and the point.
func trimZeros(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
