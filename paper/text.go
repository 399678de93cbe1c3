package paper

import (
	"regexp"
	"strings"

	"berthwright/drawing/fonts"
)

// clean makes s printable in face f and remembers the signs that the font lacks.
func (k *kit) clean(f fonts.Face, s string) string {
	out, lacking := fonts.Printable(f, s)
	for _, r := range lacking {
		k.odd[r] = true
	}
	return out
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
func (k *kit) wrap(s style, width float64, words string) []string {
	words = k.clean(s.face, words)
	var out []string
	line := ""
	for _, w := range strings.Split(glue(words), " ") {
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
