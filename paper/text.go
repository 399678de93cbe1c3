package paper

import (
	"regexp"
	"strings"

	"berthwright/drawing/fonts"
)

// missing is printed for a sign that the font lacks.
const missing = "?"

// stand are signs that are written in words because the font lacks them.
var stand = map[rune]string{'⌀': "dia. ", '∅': "dia. ", '\u00ad': "", '\u200b': "", '\t': " ", '\n': " ", '\r': "",
	'\u202f': "\u00a0", '\u2009': "\u00a0", '\u2007': "\u00a0", '\u2011': "-", '\u2212': "−"}

// clean makes s printable in face f: what the font lacks is written in words or as a question mark, and counted.
func (k *kit) clean(f fonts.Face, s string) string {
	plain := true
	for _, r := range s {
		if r < 0x20 || r > 0x7e && !fonts.Has(f, r) {
			plain = false
			break
		}
	}
	if plain {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		w, known := stand[r]
		switch {
		case r >= 0x20 && fonts.Has(f, r):
			b.WriteRune(r)
		case known:
			b.WriteString(w)
		default:
			k.odd[r] = true
			b.WriteString(missing)
		}
	}
	return b.String()
}

var (
	thousands = regexp.MustCompile(`(\d) (\d{3}\b)`)
	withUnit  = regexp.MustCompile(`(\d) (kg|mm|m|L|%|°|h|min|V|A|W|Ah|Wh)\b`)
	spread    = regexp.MustCompile(`± (\d)`)
)

// glue keeps a number together with its groups, its unit and its spread.
func glue(s string) string {
	s = thousands.ReplaceAllString(s, "$1\u00a0$2")
	s = withUnit.ReplaceAllString(s, "$1\u00a0$2")
	return spread.ReplaceAllString(s, "±\u00a0$1")
}

// wrap breaks words into lines no wider than width. A word that is wider by itself is cut.
func wrap(s style, width float64, words string) []string {
	var out []string
	for _, par := range strings.Split(words, "\n") {
		line := ""
		for _, w := range strings.Split(glue(par), " ") {
			if w == "" {
				continue
			}
			try := w
			if line != "" {
				try = line + " " + w
			}
			if fonts.Width(s.face, s.size, try) <= width {
				line = try
				continue
			}
			if line != "" {
				out = append(out, line)
			}
			for fonts.Width(s.face, s.size, w) > width {
				n := cut(s, width, w)
				out = append(out, w[:n])
				w = w[n:]
			}
			line = w
		}
		if line != "" {
			out = append(out, line)
		}
	}
	return out
}

// cut returns how many bytes of w fit in width, at least one sign.
func cut(s style, width float64, w string) int {
	n := 0
	for i, r := range w {
		next := i + len(string(r))
		if n > 0 && fonts.Width(s.face, s.size, w[:next]) > width {
			break
		}
		n = next
	}
	return n
}
