package unit

import (
	"math/big"
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxText is the longest text that is read, in bytes.
const maxText = 300

// Entry is what was read from a text.
type Entry struct {
	Text   string  // valid stored text that reads back to SI and Spread
	SI     float64 // see Kind.Parse
	Spread Spread  // only for kinds that have one
}

// result is an Entry with the value as the exact types hold it.
type result struct {
	entry Entry
	whole int64    // micrometres of a length, coins of an amount
	exact *big.Rat // in SI units; nil when readPlain read it
}

// literal is a number with its unit, or several in falling units (5 ft 10 in).
type literal struct {
	value  *big.Rat // in SI units; the plain number when bare
	text   string   // stored text
	unit   *unitRow // of the first number; nil when bare
	num    number   // the last number
	signed bool
	at     int
	end    int
}

// reader reads one text. In strict mode it reads stored text: one literal, always with its unit.
type reader struct {
	kind   Kind
	column *unitRow
	text   string
	at     int
	strict bool
}

func read(k Kind, column, text string, strict bool) (result, error) {
	p := reader{kind: k, text: text, strict: strict}
	if k == NoKind || k >= kindCount {
		return result{}, p.fail(CodeNotANumber, 0, len(text), "no kind of quantity", "")
	}
	if column == "" {
		column = k.Unit()
	}
	if p.column = k.unit(column); p.column == nil {
		p.column = k.unit(k.Unit())
	}
	if strict {
		if r, ok := readPlain(k, text); ok {
			return r, nil
		}
	}
	if len(text) > maxText {
		return result{}, p.fail(CodeTooLarge, maxText, len(text), quote(text)+" is too long for "+k.Article(), p.example())
	}
	r, err := p.entry()
	if err != nil {
		return result{}, err
	}
	return r, nil
}

// entry reads the whole text.
func (p *reader) entry() (r result, err *ParseError) {
	p.space()
	var sum literal
	if sum, err = p.sum(); err != nil {
		return r, err
	}
	if r, err = p.settle(sum); err != nil {
		return r, err
	}
	if sign := p.spreadSign(); sign > 0 {
		at := p.at
		p.at += sign
		var text string
		if r.entry.Spread, text, err = p.spread(at); err != nil {
			return r, err
		}
		r.entry.Text += " ± " + text
	}
	if p.at < len(p.text) {
		rest := strings.TrimRightFunc(p.text[p.at:], unicode.IsSpace)
		return r, p.fail(CodeExtraText, p.at, p.at+len(rest), p.subject()+" has "+quote(rest)+" after the value", p.example())
	}
	return r, nil
}

// settle turns a value into an Entry and checks its size.
func (p *reader) settle(l literal) (result, *ParseError) {
	text := l.text
	if l.unit == nil {
		if p.strict && p.kind != KindMoney {
			return result{}, p.missing(l, p.column.name())
		}
		text = join(text, p.column.name())
		if l.num.fraction && (p.kind == KindRatio || p.kind == KindMoney) {
			text, l.text = "", ""
		}
		l.value = p.bare(l)
		l.unit = p.column
	}
	if text == "" {
		// What is stored decides, to the last digit.
		n := l.unit.number(l.value)
		text = join(decimalText(n), l.unit.name())
		if n, _ = new(big.Rat).SetString(decimalText(n)); n != nil {
			l.value = l.unit.si(n)
		}
	}
	si, whole, err := p.size(&l)
	if p.kind == KindMoney && err == nil && l.text == "" {
		text = printMoney(Money(si))
	}
	return result{Entry{Text: text, SI: si}, whole, l.value}, err
}

// bare returns the value of a number without a unit: the column gives the unit, but a fraction
// of a share is one of the whole (1/2 is half a tank, not half a per cent).
func (p *reader) bare(l literal) *big.Rat {
	if p.kind == KindRatio && l.num.fraction {
		return l.value
	}
	return p.column.si(l.value)
}

// size rounds the value of l as the type of the kind does, and returns it as a float64 and, for
// the exact types, as their whole number.
func (p *reader) size(l *literal) (f float64, whole int64, err *ParseError) {
	switch p.kind.Base() {
	case KindLength:
		l.value = roundRat(l.value, int64(Metre))
	case KindMoney:
		if !l.value.IsInt() {
			return 0, 0, p.fail(CodeNotANumber, l.at, l.end, p.subject()+" is not a whole number of coins", p.example())
		}
	}
	f, _ = l.value.Float64()
	if limit := p.kind.limit(); !(f >= -limit && f <= limit) {
		return 0, 0, p.fail(CodeTooLarge, l.at, l.end, p.subject()+" is too large for "+p.kind.Article(), "")
	}
	switch p.kind.Base() {
	case KindLength:
		whole = new(big.Rat).Mul(l.value, big.NewRat(int64(Metre), 1)).Num().Int64()
	case KindMoney:
		whole = l.value.Num().Int64()
	case KindTemperature:
		if !(f >= 0) {
			return 0, 0, p.fail(CodeOutOfRange, l.at, l.end, p.subject()+" is below absolute zero", "")
		}
	}
	return f, whole, nil
}

// literal reads a number with its unit, and the smaller units that may follow.
func (p *reader) literal() (l literal, err *ParseError) {
	l.at = p.at
	negative := false
	for _, sign := range []string{"-", "−", "+"} {
		if strings.HasPrefix(p.text[p.at:], sign) {
			negative, l.signed = sign != "+", true
			p.at += len(sign)
			p.space()
			break
		}
	}
	if err = p.term(&l); err != nil {
		return l, err
	}
	for last := l.unit; last != nil && last.next != "" && p.at < len(p.text) && startsNumber(p.text[p.at:]); {
		next := literal{at: p.at}
		if err = p.term(&next); err != nil {
			return l, err
		}
		if next.unit == nil {
			return l, p.missing(next, last.next)
		}
		if last = p.kind.unit(last.next); next.unit != last {
			return l, p.fail(CodeExtraText, next.at, next.end, p.subject()+" has "+quote(p.text[next.at:next.end])+" after the value", p.example())
		}
		l.value = new(big.Rat).Add(l.value, next.value)
		l.text += " " + next.text
		l.end = next.end
	}
	if negative {
		l.value = p.negative(l)
		l.text = "-" + l.text
	}
	return l, nil
}

// negative returns the value of l with its number negated, which matters for °C.
func (p *reader) negative(l literal) *big.Rat {
	if l.unit == nil || l.unit.plus == nil {
		return new(big.Rat).Neg(l.value)
	}
	n := l.unit.number(l.value)
	return l.unit.si(n.Neg(n))
}

// term reads one number and its unit.
func (p *reader) term(l *literal) *ParseError {
	var code Code
	l.num, code = scanNumber(p.text, p.at)
	if code != "" {
		return p.badNumber(l.num, code)
	}
	p.at, l.end = l.num.end, l.num.end
	l.value, l.text = l.num.value, l.num.text
	p.space()
	spelling := longestUnit(p.text[p.at:])
	if spelling == "" {
		if word := p.word(); word != "" && !p.operator(word) {
			return p.unknownUnit(p.at, word)
		}
		return nil
	}
	at := p.at
	if l.unit = p.kind.unit(spelling); l.unit == nil {
		return p.fail(CodeWrongUnit, at, at+len(spelling),
			p.quoted()+" is not "+p.kind.Article()+": "+quote(spelling)+" is "+ownerOf(spelling).Article(), p.example())
	}
	p.at += len(spelling)
	l.end = p.at
	l.value = l.unit.si(l.num.value)
	l.text = join(l.num.text, strings.ReplaceAll(spelling, Space, " "))
	p.space()
	return nil
}

func (p *reader) space() { p.at = skipSpace(p.text, p.at) }

// word returns what stands where a unit is expected, up to a space, a digit or an operator.
func (p *reader) word() string {
	rest := p.text[p.at:]
	end := strings.IndexFunc(rest, func(r rune) bool { return isSpace(r) || strings.ContainsRune("0123456789+-−±×*", r) })
	if end < 0 {
		return rest
	}
	return rest[:end]
}

func (p *reader) operator(word string) bool { return !p.strict && (word == "x" || word == "X") }

func startsNumber(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return r >= '0' && r <= '9' || vulgar[r][1] != 0
}
