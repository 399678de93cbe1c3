package unit

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Code tells what is wrong with a text. The codes are spelled as in the list of package diag.
type Code string

// The codes of a ParseError.
const (
	CodeNotANumber  Code = "not-a-number"     // no number where one is needed
	CodeAmbiguous   Code = "ambiguous-number" // a comma that could part thousands or be the decimal one
	CodeMissingUnit Code = "missing-unit"     // a number alone
	CodeWrongUnit   Code = "wrong-unit"       // the unit of another kind of quantity
	CodeUnknownUnit Code = "unknown-unit"     // a word that is no unit
	CodeExtraText   Code = "extra-text"       // something after the value
	CodeBadSpread   Code = "bad-spread"       // a spread that is none, or where none belongs
	CodeTooLarge    Code = "too-large"        // a size beyond the limit of the kind, or a text beyond 300 bytes
	CodeOutOfRange  Code = "out-of-range"     // a temperature below absolute zero
	CodeBadSum      Code = "bad-sum"          // a sum or product that cannot be worked out
)

// ParseError tells why a text is not a quantity. At and End are byte offsets within Text, with
// 0 <= At <= End <= len(Text), around the offending part.
type ParseError struct {
	Code    Code
	Kind    Kind
	Text    string // the whole text as it was given
	At, End int
	Problem string // what is wrong, lower case, with the text in quotes: `"12.5 Ah" is not a mass: "Ah" is a charge`
	Hint    string // what to write instead, or ""
}

// Error returns the problem without the hint.
func (e *ParseError) Error() string { return e.Problem }

// quote puts text in quotes on one line, shortened.
func quote(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	n := 0
	for _, r := range text {
		if n++; n > 60 {
			b.WriteString("…")
			break
		}
		if r == utf8.RuneError || !unicode.IsPrint(r) && !unicode.IsSpace(r) {
			r = '�'
		} else if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			r = ' '
		}
		b.WriteRune(r)
	}
	b.WriteByte('"')
	return b.String()
}
