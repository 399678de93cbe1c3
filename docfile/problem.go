package docfile

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"berthwright/diag"
)

// problem is a diagnostic before its positions are worked out.
type problem struct {
	start, end int
	path       string
	code       diag.Code
	message    string // template; "" is that of the code
	args       diag.Args
	hint       string
	related    []related
}

type related struct {
	start, end int
	says       string
}

// diagnostics gives problems their positions.
func (f *File) diagnostics(problems []problem) diag.List {
	if len(problems) == 0 {
		return nil
	}
	var list diag.List
	for _, p := range problems {
		at := f.index.Range(p.start, p.end)
		d := diag.Diagnostic{
			File: f.Name, Pos: at.Start, End: at.End, Path: p.path, Code: p.code, Message: p.message, Args: p.args, Hint: p.hint,
		}
		for _, r := range p.related {
			at := f.index.Range(r.start, r.end)
			d.Related = append(d.Related, diag.Related{Pos: at.Start, End: at.End, Says: r.says})
		}
		list.Add(d)
	}
	list.Sort()
	return list
}

// args makes the arguments of a message: the key, and the offending text in quotes.
func args(key, text string) diag.Args { return diag.Args{"key": quote(key), "text": quote(text)} }

// nearHint asks whether the nearest of words was meant, or says otherwise.
func nearHint(word string, words []string, otherwise string) string {
	if near, ok := diag.Nearest(word, words, 2); ok {
		return "did you mean " + quote(near) + "?"
	}
	return otherwise
}

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
		switch {
		case r == utf8.RuneError:
			r = '�'
		case !unicode.IsPrint(r):
			r = ' '
		}
		b.WriteRune(r)
	}
	b.WriteByte('"')
	return b.String()
}
