package unit

import (
	"strings"
	"unicode/utf8"
)

// This file words the problems that a reader meets.

func (p *reader) fail(code Code, at, end int, problem, hint string) *ParseError {
	at = min(max(at, 0), len(p.text))
	return &ParseError{Code: code, Kind: p.kind, Text: p.text, At: at, End: min(max(end, at), len(p.text)), Problem: problem, Hint: hint}
}

func (p *reader) quoted() string { return quote(strings.TrimFunc(p.text, isSpace)) }

// subject names the text: `mass "12.5"`.
func (p *reader) subject() string { return p.kind.String() + " " + p.quoted() }

func (p *reader) example() string {
	return "write " + p.kind.Article() + " like " + quote(p.kind.Example())
}

// missing tells that the number l has no unit; unit is the one it probably has.
func (p *reader) missing(l literal, unit string) *ParseError {
	return p.fail(CodeMissingUnit, l.at, l.end, p.subject()+" has no unit", "write "+quote(join(l.text, unit)))
}

func (p *reader) unknownUnit(at int, word string) *ParseError {
	if e := strings.TrimLeft(p.text[at:], "eE"); (word == "e" || word == "E") && e != "" && strings.ContainsAny(e[:1], "+-0123456789") {
		return p.fail(CodeNotANumber, at, at+len(word), p.subject()+" has an exponent", "write the number out")
	}
	units := p.kind.Units()
	list := strings.Join(units, ", ")
	if n := len(units); n > 1 {
		list = strings.Join(units[:n-1], ", ") + " or " + units[n-1]
	}
	hint := p.kind.Article() + " is written in " + list
	if p.kind == KindMoney {
		hint = "write the amount alone; the currency stands at the head of the build"
	}
	return p.fail(CodeUnknownUnit, at, at+len(word), p.subject()+" has no known unit: "+quote(word), hint)
}

func (p *reader) badNumber(n number, code Code) *ParseError {
	end := n.end
	if end <= p.at && p.at < len(p.text) {
		_, size := utf8.DecodeRuneInString(p.text[p.at:])
		end = p.at + max(len(p.word()), size)
	}
	written := p.text[p.at:min(end, len(p.text))]
	switch {
	case strings.TrimFunc(p.text, isSpace) == "":
		return p.fail(code, 0, len(p.text), p.kind.Article()+" is missing its number", p.example())
	case code == CodeAmbiguous:
		unit := p.column.name()
		return p.fail(code, p.at, end, p.subject()+" could be a decimal comma or one between thousands",
			"write "+quote(join(strings.ReplaceAll(written, ",", ""), unit))+" or "+quote(join(strings.ReplaceAll(written, ",", "."), unit)))
	case strings.ContainsAny(written, "0123456789") && strings.ContainsAny(written, ".,"):
		return p.fail(code, p.at, end, p.subject()+" has "+quote(written)+" where a number is needed",
			"write one point or comma before the decimals and none between thousands")
	case written == "":
		return p.fail(code, p.at, end, p.subject()+" ends where a number is needed", p.example())
	}
	return p.fail(code, p.at, end, p.subject()+" has "+quote(written)+" where a number is needed", p.example())
}
