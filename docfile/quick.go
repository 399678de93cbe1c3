package docfile

import (
	"bytes"
	"strings"
)

// quickReader makes the tree of a text in the plain style that nearly all builds are written in: block collections,
// brackets, words, one-line quotes, comments. It gives up at anything else and at every mistake, and the YAML library
// then reads the text and has the last word. What it does read it reads as the library does, which a fuzz test holds
// it to; it is there because the library alone takes 18 ms for 3,000 lines (docs/decisions/0102-quick-reader.md).
type quickReader struct {
	t    string
	i    int
	slab []node
}

// giveUp unwinds the reader; it never leaves quick.
type giveUp struct{}

func (q *quickReader) giveUp() { panic(giveUp{}) }

// quick reads text, which has passed plainText; ok is false when it is not in the plain style.
func quick(text []byte) (root *node, ok bool) {
	if bytes.IndexByte(text, '\t') >= 0 || bytes.Contains(text, []byte("\ufeff")) || oddCharacter(text) {
		return nil, false
	}
	defer func() {
		if r := recover(); r != nil {
			if _, mine := r.(giveUp); !mine {
				panic(r)
			}
			root, ok = nil, false
		}
	}()
	q := &quickReader{t: string(text)}
	column := q.nextContent()
	if column != 0 || !q.atKey() {
		return nil, false
	}
	root = q.mapping(0, 0)
	if q.i < len(q.t) {
		return nil, false
	}
	return root, true
}

// oddCharacter reports characters that the library does not read, or reads as line breaks.
func oddCharacter(text []byte) bool {
	for i := 0; i+1 < len(text); i++ {
		switch c, d := text[i], text[i+1]; {
		case c < 0x80:
		case c == 0xc2 && d < 0xa0:
			return true
		case c == 0xef && d == 0xbf && i+2 < len(text) && text[i+2] >= 0xbe:
			return true
		}
	}
	return false
}

func (q *quickReader) node(k kind, start, end int) *node {
	if len(q.slab) == 0 {
		q.slab = make([]node, 128)
	}
	n := &q.slab[0]
	q.slab = q.slab[1:]
	n.kind, n.start, n.end = k, start, end
	return n
}

func (q *quickReader) peek() byte {
	if q.i < len(q.t) {
		return q.t[q.i]
	}
	return '\n'
}

func (q *quickReader) atEnd() bool { c := q.peek(); return c == '\n' || c == '\r' }

// nextContent moves from the start of a line to the next text that is no comment, and returns its column; -1 at the
// end.
func (q *quickReader) nextContent() int {
	for q.i < len(q.t) {
		from := q.i
		for q.i < len(q.t) && q.t[q.i] == ' ' {
			q.i++
		}
		if q.i < len(q.t) && !q.atEnd() && q.t[q.i] != '#' {
			return q.i - from
		}
		q.skipLine()
	}
	return -1
}

func (q *quickReader) skipLine() {
	if j := strings.IndexByte(q.t[q.i:], '\n'); j >= 0 {
		q.i += j + 1
	} else {
		q.i = len(q.t)
	}
}

func (q *quickReader) spaces() {
	for q.i < len(q.t) && q.t[q.i] == ' ' {
		q.i++
	}
}

// restOfLine passes spaces and a comment up to the next line. Nothing else may stand there.
func (q *quickReader) restOfLine() {
	from := q.i
	q.spaces()
	if q.atEnd() || q.t[q.i] == '#' && q.i > from {
		q.skipLine()
		return
	}
	q.giveUp()
}

func wordByte(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_' || c == '.'
}

func firstByte(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9'
}

// wordEnd returns the end of the word at i, or i when there is none.
func (q *quickReader) wordEnd(i int) int {
	if i >= len(q.t) || !firstByte(q.t[i]) {
		return i
	}
	j := i + 1
	for j < len(q.t) && wordByte(q.t[j]) {
		j++
	}
	return j
}

// atKey reports whether a word with a colon begins here.
func (q *quickReader) atKey() bool {
	j := q.wordEnd(q.i)
	if j == q.i || j-q.i > 100 || j >= len(q.t) || q.t[j] != ':' {
		return false
	}
	return j+1 == len(q.t) || q.t[j+1] == ' ' || q.t[j+1] == '\n' || q.t[j+1] == '\r'
}

func (q *quickReader) atDash() bool {
	return q.peek() == '-' && (q.i+1 == len(q.t) || q.t[q.i+1] == ' ' || q.t[q.i+1] == '\n' || q.t[q.i+1] == '\r')
}

func (q *quickReader) key() *node {
	n := q.node(scalar, q.i, q.wordEnd(q.i))
	n.plain, n.value = true, q.t[n.start:n.end]
	q.i = n.end
	return n
}

// mapping reads the keys in a column; the first one is here. It ends at the next content of another column.
func (q *quickReader) mapping(column, depth int) *node {
	if depth > maxDepth {
		q.giveUp()
	}
	n := q.node(mapping, q.i, q.i)
	for {
		if !q.atKey() {
			q.giveUp()
		}
		n.keys = append(n.keys, q.key())
		q.i++
		value, next := q.value(column, depth+1, true)
		n.items = append(n.items, value)
		n.end = value.end
		if next == column {
			continue
		}
		if next > column {
			q.giveUp()
		}
		return n
	}
}

// list reads the entries in a column; the first dash is here.
func (q *quickReader) list(column, depth int) *node {
	if depth > maxDepth {
		q.giveUp()
	}
	n := q.node(list, q.i, q.i)
	for {
		n.marks = append(n.marks, q.i)
		q.i++
		value, next := q.value(column, depth+1, false)
		n.items = append(n.items, value)
		n.end = value.end
		if next == column && q.atDash() {
			continue
		}
		if next > column {
			q.giveUp()
		}
		return n
	}
}

// value reads what stands behind a colon or dash of a collection in a column, and moves to the next content, whose
// column it returns.
func (q *quickReader) value(column, depth int, ofKey bool) (*node, int) {
	empty := q.i
	q.spaces()
	c := q.peek()
	if q.atEnd() || c == '#' {
		if c == '#' && q.i == empty {
			q.giveUp()
		}
		q.skipLine()
		next := q.nextContent()
		switch {
		case next > column && q.atDash():
			n := q.list(next, depth)
			return n, q.column()
		case next > column:
			n := q.mapping(next, depth)
			return n, q.column()
		case next == column && ofKey && q.atDash():
			n := q.list(next, depth)
			return n, q.column()
		}
		return q.node(null, empty, empty), next
	}
	if !ofKey && q.atKey() {
		n := q.mapping(q.i-(strings.LastIndexByte(q.t[:q.i], '\n')+1), depth)
		return n, q.column()
	}
	var n *node
	switch c {
	case '{', '[':
		n = q.brackets(column, depth)
	case '"', '\'':
		n = q.quoted()
	case '|', '>':
		return q.lines(column)
	default:
		n = q.words()
	}
	q.restOfLine()
	next := q.nextContent()
	if next > column {
		q.giveUp() // a value over several lines, or a mistake
	}
	return n, next
}

// column returns the column of the content that is here, or -1 at the end.
func (q *quickReader) column() int {
	if q.i >= len(q.t) {
		return -1
	}
	return q.i - (strings.LastIndexByte(q.t[:q.i], '\n') + 1)
}
