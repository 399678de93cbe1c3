package diag

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/width"
)

// maxShown is how many columns of a line are shown around the offending text.
const maxShown = 100

// Fprint prints l for a terminal, in the order of l:
//
//	curlew.yaml:14:11: mass "12.5 Ah" is not a mass
//		mass: 12.5 Ah
//		      ^~~~~~~
//		hint: write a mass like "12.5 kg"
//
// texts finds the text of a file, and may return nil; then the line and the mark are left out.
// Control characters of the text are never sent to the terminal.
func Fprint(w io.Writer, l List, texts func(file string) *Text) error {
	out := bufio.NewWriter(w)
	for _, d := range l {
		says := clean(d.Text())
		if d.Severity != Error {
			says = d.Severity.String() + ": " + says
		}
		fmt.Fprintf(out, "%s%s\n", place(d.File, d.Pos), says)
		if texts != nil && d.Pos.Known() {
			if t := texts(d.File); t != nil {
				excerpt(out, t, d.Pos, d.End)
			}
		}
		for _, r := range d.Related {
			file := r.File
			if file == "" {
				file = d.File
			}
			fmt.Fprintf(out, "\t%s%s\n", place(file, r.Pos), clean(r.Says))
		}
		if d.Hint != "" {
			fmt.Fprintf(out, "\thint: %s\n", clean(d.Hint))
		}
	}
	return out.Flush()
}

// String returns d on one line, without the hint: "curlew.yaml:14:11: mass ...".
func (d Diagnostic) String() string { return place(d.File, d.Pos) + clean(d.Text()) }

func place(file string, p Pos) string {
	s := ""
	if file != "" {
		s = clean(file) + ":"
	}
	if p.Known() {
		s += fmt.Sprintf("%d:%d:", p.Line, p.Col)
	}
	if s != "" {
		s += " "
	}
	return s
}

// cell is one character as shown, and the columns it takes.
type cell struct {
	r    rune
	wide int
}

// excerpt prints the line of from, without its indent, and marks it up to the end or to. Of a long
// line only the part around from is looked at.
func excerpt(w io.Writer, t *Text, from, to Pos) {
	if from.Line > t.Lines() {
		return // a place in another text
	}
	line := t.Line(from.Line)
	at := min(max(from.Byte-t.starts[from.Line-1], 0), len(line))
	indent := len(line) - len(bytes.TrimLeft(line, " \t"))
	var cells []cell
	for left := line[min(indent, at):at]; len(left) > 0 && len(cells) <= maxShown; {
		r, size := utf8.DecodeLastRune(left)
		left = left[:len(left)-size]
		cells = append(cells, shown(r))
	}
	slices.Reverse(cells)
	first := len(cells)
	last := first + 1
	if to.Line == from.Line {
		last = max(last, first+to.Col-from.Col)
	} else if to.Line > from.Line {
		last = first + len(line)
	}
	for right := line[at:]; len(right) > 0 && len(cells) <= first+maxShown; {
		r, size := utf8.DecodeRune(right)
		right = right[size:]
		cells = append(cells, shown(r))
	}
	last = max(first+1, min(last, len(cells)))
	cells, first, last = window(cells, first, last)
	var text, mark strings.Builder
	for i, c := range cells {
		text.WriteRune(c.r)
		switch {
		case i < first:
			mark.WriteString(strings.Repeat(" ", c.wide))
		case i == first:
			mark.WriteString("^" + strings.Repeat("~", max(c.wide, 1)-1))
		case i < last:
			mark.WriteString(strings.Repeat("~", c.wide))
		}
	}
	if first >= len(cells) {
		mark.WriteString(strings.Repeat(" ", first-len(cells)) + "^")
	}
	fmt.Fprintf(w, "\t%s\n\t%s\n", strings.TrimRight(text.String(), " "), mark.String())
}

// window keeps at most maxShown cells around the marked ones, with … where some were left out.
func window(cells []cell, first, last int) ([]cell, int, int) {
	if len(cells) <= maxShown {
		return cells, first, last
	}
	from := max(0, min(first-maxShown/3, len(cells)-maxShown))
	to := min(len(cells), from+maxShown)
	kept := append([]cell(nil), cells[from:to]...)
	if from > 0 {
		kept[0] = cell{'…', 1}
	}
	if to < len(cells) {
		kept[len(kept)-1] = cell{'…', 1}
	}
	return kept, first - from, min(last, to) - from
}

// shown returns how r is printed: a tab as a space, what is not printable as the mark for it.
func shown(r rune) cell {
	switch {
	case r == '\t' || unicode.Is(unicode.Zs, r):
		return cell{' ', 1}
	case unicode.Is(unicode.Mn, r) || unicode.Is(unicode.Me, r):
		return cell{r, 0}
	case !unicode.IsPrint(r):
		return cell{utf8.RuneError, 1}
	}
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return cell{r, 2}
	}
	return cell{r, 1}
}

// clean makes s one line that is fit for a terminal. Spaces that do not break are kept.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			return ' '
		case unicode.Is(unicode.Zs, r) || unicode.IsPrint(r):
			return r
		}
		return utf8.RuneError
	}, s)
}
