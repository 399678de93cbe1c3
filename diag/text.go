package diag

import (
	"bytes"
	"sort"
	"unicode/utf8"
)

// Text finds lines and columns in a text. Lines end at "\n"; a "\r" before it belongs to no line.
type Text struct {
	bytes  []byte
	starts []int // byte offset of each line
}

// NewText indexes b, which must not change afterwards.
func NewText(b []byte) *Text {
	t := &Text{bytes: b, starts: make([]int, 1, 1+bytes.Count(b, []byte{'\n'}))}
	for i, c := range b {
		if c == '\n' {
			t.starts = append(t.starts, i+1)
		}
	}
	return t
}

// Pos returns the place of a byte offset; an offset beyond the text is the end of the text.
// A byte that is not UTF-8 counts as one character.
func (t *Text) Pos(offset int) Pos {
	offset = min(max(offset, 0), len(t.bytes))
	line := sort.SearchInts(t.starts, offset+1) - 1
	return Pos{Line: line + 1, Col: 1 + utf8.RuneCount(t.bytes[t.starts[line]:offset]), Byte: offset}
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
