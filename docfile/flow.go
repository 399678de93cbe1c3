package docfile

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
)

// Quote returns text as a scalar that an operation can carry: as it is where that reads back, else in quotes.
func Quote(text string) string {
	if plainInFlow(text) {
		return text
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r < 0x20 || r == 0x7f || r >= 0x80 && r < 0xa0 || r == 0x2028 || r == 0x2029 || r == 0xfeff || r == utf8.RuneError:
			if r > 0xffff {
				fmt.Fprintf(&b, `\U%08x`, r)
			} else {
				fmt.Fprintf(&b, `\u%04x`, r)
			}
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// plainInFlow reports whether text can stand without quotes everywhere. It errs towards quotes.
func plainInFlow(text string) bool {
	if text == "" || text != strings.TrimSpace(text) || text == "<<" || text == "~" || strings.HasPrefix(text, "---") || strings.HasPrefix(text, "...") {
		return false
	}
	for i, r := range text {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9':
		case strings.ContainsRune("±°µ½¼¾²³·é/+.()_;=", r):
		case r == ' ':
		case r == '-' && (i > 0 || len(text) > 1 && text[1] != ' '):
		case i > 0 && r == '%', i > 0 && r == '@':
		case i > 0 && r == '\'', i > 0 && r == '!', i > 0 && r == '&':
		default:
			return false
		}
	}
	return true
}

// flowText returns n on one line, as between brackets, without comments.
func flowText(n *node) string {
	var b strings.Builder
	writeFlow(&b, n)
	return b.String()
}

func writeFlow(b *strings.Builder, n *node) {
	switch n.kind {
	case null:
	case scalar:
		// a plain scalar keeps its own digits; true and "true" must stay apart
		if !n.plain && quoteNeeded(n.value) {
			b.WriteString(strconv.Quote(n.value))
			return
		}
		b.WriteString(Quote(n.value))
	case mapping:
		b.WriteByte('{')
		for i, k := range n.keys {
			if i > 0 {
				b.WriteString(", ")
			}
			writeFlow(b, k)
			b.WriteByte(':')
			if n.items[i].kind != null {
				b.WriteByte(' ')
				writeFlow(b, n.items[i])
			}
		}
		b.WriteByte('}')
	case list:
		b.WriteByte('[')
		for i, c := range n.items {
			if i > 0 {
				b.WriteString(", ")
			}
			if c.kind == null {
				b.WriteString(`""`)
			}
			writeFlow(b, c)
		}
		b.WriteByte(']')
	}
}

// quoteNeeded reports whether a quoted scalar would be read otherwise without its quotes.
func quoteNeeded(value string) bool {
	return value == "true" || value == "false" || wholeNumber.MatchString(value)
}

// parseValue reads the value that an operation carries. Offsets count from the start of value.
func parseValue(value string) (*node, error) {
	value = strings.TrimSpace(value)
	if strings.ContainsAny(value, "\r\n") || !utf8.ValidString(value) || len(value) > maxText {
		return nil, fmt.Errorf("value %s is not on one line", quote(value))
	}
	if plainInFlow(value) {
		return &node{kind: scalar, plain: true, end: len(value), value: value}, nil
	}
	text := []byte("[" + value + "]")
	if bad := plainText(text); bad != nil {
		return nil, fmt.Errorf("value %s: %s", quote(value), bad.text())
	}
	g := newGrower(text)
	y, bad := load(text, g)
	if bad == nil && y.Kind == yaml.SequenceNode {
		n := g.grow(y, 0, -1, 0)
		if bad = g.bad; bad == nil && n.kind == list && n.end == len(text) && len(n.items) == 1 && n.items[0].kind != null && n.items[0].end == len(text)-1 {
			n.items[0].shift(-1)
			return n.items[0], nil
		}
	}
	return nil, fmt.Errorf("value %s is not one value on one line", quote(value))
}
