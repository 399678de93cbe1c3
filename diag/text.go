package diag

import (
	"bytes"
	"sort"
	"unicode/utf8"
)

// Text finds lines and columns in a text. Lines end at "\n"; a "\r" before it belongs to no line.
type Text struct {
	bytes  []byte
	starts []int  // byte offset of each line
	marks  []mark // places inside long lines, in order
}

// mark is a place whose column is known, so that columns far along a line are found quickly.
type mark struct{ offset, col int }

const markEvery = 1024 // bytes

// NewText indexes b, which must not change afterwards.
func NewText(b []byte) *Text {
	t := &Text{bytes: b, starts: make([]int, 1, 1+bytes.Count(b, []byte{'\n'}))}
	for rest := b; ; {
		end := bytes.IndexByte(rest, '\n')
		if end < 0 {
			t.markLine(len(b)-len(rest), len(b))
			return t
		}
		start := len(b) - len(rest)
		t.markLine(start, start+end)
		rest = rest[end+1:]
		t.starts = append(t.starts, start+end+1)
	}
}

// markLine puts marks into the line from start to end, if it is long.
func (t *Text) markLine(start, end int) {
	col := 1
	for at, last := start, start; end-at > markEvery; {
		_, size := utf8.DecodeRune(t.bytes[at:end])
		at, col = at+size, col+1
		if at-last >= markEvery {
			t.marks = append(t.marks, mark{at, col})
			last = at
		}
	}
}

// Pos returns the place of a byte offset; an offset beyond the text is the end of the text.
// A byte that is not UTF-8 counts as one character.
func (t *Text) Pos(offset int) Pos {
	offset = min(max(offset, 0), len(t.bytes))
	line := sort.SearchInts(t.starts, offset+1) - 1
	from := mark{t.starts[line], 1}
	if i := sort.Search(len(t.marks), func(i int) bool { return t.marks[i].offset > offset }); i > 0 && t.marks[i-1].offset > from.offset {
		from = t.marks[i-1]
	}
	return Pos{Line: line + 1, Col: from.col + utf8.RuneCount(t.bytes[from.offset:offset]), Byte: offset}
}

// Range returns the places of two byte offsets.
func (t *Text) Range(start, end int) Range {
	return Range{t.Pos(start), t.Pos(max(start, end))}
}

// Lines returns how many lines t has; an empty text has one.
func (t *Text) Lines() int { return len(t.starts) }

// Line returns line n, counted from 1, without its end; nil where there is none.
func (t *Text) Line(n int) []byte {
	if n < 1 || n > len(t.starts) {
		return nil
	}
	end := len(t.bytes)
	if n < len(t.starts) {
		end = t.starts[n] - 1
	}
	return bytes.TrimSuffix(t.bytes[t.starts[n-1]:end], []byte{'\r'})
}
