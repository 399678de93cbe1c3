package docfile

import (
	"bytes"
	"strings"
)

func pad(column int) string { return strings.Repeat(" ", column) }

// newline returns the line end of the text.
func (d *draft) newline() string {
	if i := bytes.IndexByte(d.text, '\n'); i > 0 && d.text[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

func (d *draft) columnOf(i int) int {
	from := lineStart(d.text, i)
	if from == 0 && bytes.HasPrefix(d.text, []byte("\ufeff")) {
		from = 3
	}
	return i - from
}

// flowAdd adds text behind the last entry of a collection in brackets.
func (d *draft) flowAdd(n *node, text string) splice { return d.flowAddAt(n, len(n.items)-1, text) }

// flowAddAt adds text behind entry i of a collection in brackets; i is -1 in an empty one.
func (d *draft) flowAddAt(n *node, i int, text string) splice {
	if i < 0 {
		return splice{n.start + 1, n.start + 1, text}
	}
	return splice{n.items[i].end, n.items[i].end, ", " + text}
}

// lineAdd adds whole lines behind a value that ends at end, below comments that are indented deeper than column.
func (d *draft) lineAdd(end, column int, lines string) splice {
	at := d.past(end, column)
	if at == len(d.text) && (at == 0 || d.text[at-1] != '\n') {
		return splice{at, at, d.newline() + lines}
	}
	return splice{at, at, lines + d.newline()}
}

// past returns the offset behind the line that ends at or behind end, and behind the comment lines below it that are
// indented deeper than column.
func (d *draft) past(end, column int) int {
	at := d.nextLine(end)
	for at < len(d.text) {
		i := at
		for i < len(d.text) && d.text[i] == ' ' {
			i++
		}
		if i-at <= column || i == len(d.text) || d.text[i] != '#' {
			break
		}
		at = d.nextLine(i)
	}
	return at
}

func (d *draft) nextLine(i int) int { return min(lineEnd(d.text, i)+1, len(d.text)) }

// region returns the bytes that belong to entry i of c: in brackets with the comma, on lines with the comment lines
// directly above.
func (d *draft) region(c *node, i int) (int, int) {
	starts := func(i int) int {
		switch {
		case c.kind == mapping:
			return c.keys[i].start
		case c.flow:
			return c.items[i].start
		}
		return c.marks[i]
	}
	start, end := starts(i), c.items[i].end
	if c.flow {
		switch {
		case i > 0:
			return c.items[i-1].end, end
		case len(c.items) > 1:
			return start, starts(1)
		}
		g := grower{text: d.text}
		if j := g.skip(end, false); j < len(d.text) && d.text[j] == ',' {
			end = j + 1
		}
		return start, end
	}
	from := lineStart(d.text, start)
	column := d.columnOf(start)
	if len(bytes.TrimLeft(bytes.TrimPrefix(d.text[from:start], []byte("\ufeff")), " ")) > 0 {
		if i == 0 && len(c.items) > 1 {
			return start, starts(1)
		}
		return start, end
	}
	for from > 0 {
		above := lineStart(d.text, from-1)
		line := d.text[above : from-1]
		if len(line) <= column || len(bytes.TrimLeft(line[:column], " ")) > 0 || line[column] != '#' {
			break
		}
		from = above
	}
	to := d.past(end, column)
	if to == len(d.text) && d.text[to-1] != '\n' && from > 0 {
		from--
		if from > 0 && d.text[from-1] == '\r' {
			from--
		}
	}
	return from, to
}
