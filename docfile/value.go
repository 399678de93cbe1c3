package docfile

import (
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"time"

	"berthwright/diag"
	"berthwright/doc"
	"berthwright/unit"
)

// scalar binds one written value.
func (b *binder) scalar(n *node, f *doc.Field, v reflect.Value) {
	switch f.Kind {
	case doc.Text:
		b.text(n, f, v)
	case doc.Whole:
		b.whole(n, f, v)
	case doc.YesNo:
		switch {
		case n.plain && n.value == "true":
			target(f, v).SetBool(true)
		case n.plain && n.value == "false":
			target(f, v).SetBool(false)
		default:
			b.say(n, diag.BadBoolean, args(f.Key, n.value), "write true or false")
		}
	case doc.Day:
		if d, ok := parseDate(n.value); ok {
			target(f, v).Set(reflect.ValueOf(d))
		} else {
			b.say(n, diag.BadDate, args(f.Key, n.value), `write year, month and day like "2026-11-01"`)
		}
	default:
		b.quantity(n, f, v)
	}
}

func (b *binder) text(n *node, f *doc.Field, v reflect.Value) {
	if len(n.value) > maxScalar {
		b.say(n, diag.TooLong, args(f.Key, n.value), fmt.Sprintf("a text may have %d bytes", maxScalar))
		return
	}
	if len(f.Enum) > 0 {
		for _, w := range f.Enum {
			if w == n.value {
				target(f, v).SetString(w)
				return
			}
		}
		b.say(n, diag.UnknownWord, args(f.Key, n.value), nearHint(n.value, f.Enum, "one of: "+strings.Join(f.Enum, ", ")))
		return
	}
	if f.ID {
		if !goodID(n.value) {
			b.say(n, diag.BadID, args(f.Key, n.value), "an id has letters, digits, - _ and ., begins with a letter or digit, and has at most 64 characters")
			return
		}
		b.out.ids = append(b.out.ids, idAt{path: b.at(), list: b.list, id: n.value, at: n})
	}
	if f.Ref != "" {
		b.out.refs = append(b.out.refs, refAt{path: b.at(), kind: f.Ref, id: n.value, at: n})
	}
	target(f, v).SetString(n.value)
}

// goodID reports whether text can be an id: it stands in paths, addresses and file names.
func goodID(text string) bool {
	for i, r := range text {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9':
		case i > 0 && (r == '-' || r == '_' || r == '.'):
		default:
			return false
		}
	}
	return text != "" && len(text) <= 64
}

var wholeNumber = regexp.MustCompile(`^[-+]?(0|[1-9][0-9]{0,8})$`)

func (b *binder) whole(n *node, f *doc.Field, v reflect.Value) {
	if !n.plain || !wholeNumber.MatchString(n.value) {
		b.say(n, diag.NotAWholeNumber, args(f.Key, n.value), "write "+example(f))
		return
	}
	i, _ := strconv.Atoi(n.value)
	if f.Lo != "" {
		if x := float64(i); !(x >= f.Min && x <= f.Max) {
			b.outside(n, f)
			return
		}
	}
	target(f, v).SetInt(int64(i))
	b.unusual(n, f, i, float64(i))
}

func (b *binder) outside(n *node, f *doc.Field) {
	hint := "from " + f.Lo + " to " + f.Hi + ": " + f.Help
	if f.Why != "" {
		hint = f.Why
	}
	if digits := number(n.value); f.Kind == doc.Quantity && digits != "" {
		if near := withUnit(digits, f); near != "" {
			hint += "; is it " + quote(near) + "?"
		}
	}
	b.say(n, diag.OutOfRange, args(f.Key, n.value), hint)
}

func parseDate(text string) (doc.Date, bool) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil || len(text) != len(time.DateOnly) {
		return doc.Date{}, false
	}
	return doc.Date{Year: t.Year(), Month: int(t.Month()), Day: t.Day()}, true
}

func (b *binder) quantity(n *node, f *doc.Field, v reflect.Value) {
	q := quantities[f.Go]
	text := n.value
	if text == "0" && f.Unit != "" {
		text = "0 " + f.Unit // nought is nought in every unit of a field
	}
	val, si, err := q(text)
	if err != nil {
		b.wrong(n, f, err)
		return
	}
	if f.Lo != "" {
		if !(si >= f.Min && si <= f.Max) {
			b.outside(n, f)
			return
		}
	}
	target(f, v).Set(reflect.ValueOf(val))
	b.unusual(n, f, val, si)
}

// wrong reports a text that is not the quantity wanted.
func (b *binder) wrong(n *node, f *doc.Field, err error) {
	var pe *unit.ParseError
	if !errors.As(err, &pe) {
		b.say(n, diag.NotANumber, args(f.Key, n.value), "write "+example(f))
		return
	}
	hint := pe.Hint
	if near := withUnit(number(n.value), f); pe.Code == unit.CodeMissingUnit && near != "" && number(n.value) == strings.TrimSpace(n.value) {
		hint = "write " + quote(near)
	}
	p := b.say(n, diag.Code(pe.Code), args(f.Key, n.value), hint)
	p.message, p.args["problem"] = "{key}: {problem}", pe.Problem
	if n.plain && pe.Text == n.value && pe.End > pe.At {
		p.start, p.end = n.start+pe.At, n.start+pe.End
	}
}

// number returns the number that text begins with.
func number(text string) string {
	text = strings.TrimSpace(text)
	if end := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.,-−+", r) }); end >= 0 {
		return text[:end]
	}
	return text
}

// withUnit returns digits with the first unit of the field that puts the value in its range: the usual one, else
// another; or "".
func withUnit(digits string, f *doc.Field) string {
	if digits == "" {
		return ""
	}
	for _, u := range append([]string{f.Unit}, f.Of.Units()...) {
		text := strings.TrimSpace(digits + " " + u)
		if v, err := f.Of.Parse(text); err == nil && (f.Lo == "" || v >= f.Min && v <= f.Max) {
			return text
		}
	}
	return ""
}

// quantities reads each type of quantity: the value, and its size for comparing with a range.
var quantities = map[reflect.Type]func(string) (any, float64, error){
	reflect.TypeFor[unit.Mass]():      reads(unit.ParseMass),
	reflect.TypeFor[unit.MassEst]():   reads(unit.ParseMassEst),
	reflect.TypeFor[unit.Length]():    reads(unit.ParseLength),
	reflect.TypeFor[unit.LengthEst](): reads(unit.ParseLengthEst),
	reflect.TypeFor[unit.Volume]():    reads(unit.ParseVolume),
	reflect.TypeFor[unit.Density]():   reads(unit.ParseDensity),
	reflect.TypeFor[unit.Angle]():     reads(unit.ParseAngle),
	reflect.TypeFor[unit.Ratio]():     reads(unit.ParseRatio),
	reflect.TypeFor[unit.Money]():     reads(unit.ParseMoney),
	reflect.TypeFor[unit.Hours]():     reads(unit.ParseHours),
	reflect.TypeFor[unit.Force]():     reads(unit.ParseForce),
}

func reads[T unit.Quantity](parse func(string) (T, error)) func(string) (any, float64, error) {
	return func(text string) (any, float64, error) {
		v, err := parse(text)
		return v, v.SI(), err
	}
}

// example returns a value that the field could have.
func example(f *doc.Field) string {
	switch {
	case len(f.Enum) > 0:
		return f.Key + ": " + f.Enum[0]
	case f.Kind == doc.Whole && f.Min > 2:
		return f.Key + ": " + f.Lo
	case f.Kind == doc.Whole:
		return f.Key + ": 2"
	case f.Kind == doc.YesNo:
		return f.Key + ": true"
	case f.Kind == doc.Day:
		return f.Key + ": 2026-11-01"
	case f.Kind == doc.Text && f.ID:
		return f.Key + ": fridge"
	case f.Kind == doc.Text:
		return f.Key + ": text"
	case f.Kind == doc.Quantity:
		return f.Key + ": " + f.Of.Example()
	}
	return f.Key + ": ..."
}
