package docfile

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"berthwright/diag"
)

// grower makes nodes of byte ranges from the nodes of the YAML library, which know only where they start.
// It walks them in the order of the text.
type grower struct {
	text   []byte
	lines  []int // offset of the start of each line
	line   int   // cursor: line, column and offset last looked up
	column int
	offset int
	nodes  int
	bad    *refusal
}

func newGrower(text []byte) *grower {
	g := &grower{text: text, lines: make([]int, 1, 64+len(text)/24), line: 1, column: 1}
	for i := 0; ; {
		j := bytes.IndexByte(text[i:], '\n')
		if j < 0 {
			break
		}
		i += j + 1
		g.lines = append(g.lines, i)
	}
	return g
}

// at returns the offset of a line and column, both from 1; columns count characters.
func (g *grower) at(line, column int) int {
	if line < 1 || line > len(g.lines) {
		return len(g.text)
	}
	if line != g.line || column < g.column {
		g.line, g.column, g.offset = line, 1, g.lines[line-1]
	}
	for g.column < column && g.offset < len(g.text) && g.text[g.offset] != '\n' {
		if g.text[g.offset] < utf8.RuneSelf {
			g.offset++
		} else {
			_, size := utf8.DecodeRune(g.text[g.offset:])
			g.offset += size
		}
		g.column++
	}
	return g.offset
}

func (g *grower) refuse(start, end int, code diag.Code, hint string) {
	if g.bad == nil || start < g.bad.start {
		g.bad = &refusal{start: start, end: end, code: code, hint: hint}
	}
}

// grow returns the node of y. from is the offset behind what stands before it; outer is the column, from 0, of the
// block collection it stands in, or -1.
func (g *grower) grow(y *yaml.Node, from, outer, depth int) *node {
	g.nodes++
	n := &node{start: from, end: from}
	if g.bad != nil {
		return n
	}
	if y.Kind == yaml.ScalarNode && y.Value == "" && y.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle|yaml.TaggedStyle) == 0 && y.Anchor == "" {
		return n
	}
	n.start = g.at(y.Line, y.Column)
	n.end = n.start
	switch {
	case y.Kind == yaml.AliasNode:
		g.refuse(n.start, g.word(n.start), diag.Alias, "write the value out where it is wanted")
	case y.Anchor != "":
		g.refuse(n.start, g.word(n.start), diag.Anchor, "write the value out where it is wanted")
	case y.Style&yaml.TaggedStyle != 0:
		g.refuse(n.start, g.word(n.start), diag.Tag, "leave out the word that begins with \"!\"")
	case depth > maxDepth:
		g.refuse(n.start, n.start+1, diag.TooDeep, "at most 32 levels are read")
	}
	if g.bad != nil {
		return n
	}
	switch y.Kind {
	case yaml.ScalarNode:
		g.scalar(n, y, outer)
	case yaml.MappingNode:
		g.mapping(n, y, depth)
	case yaml.SequenceNode:
		g.list(n, y, depth)
	}
	return n
}

func (g *grower) scalar(n *node, y *yaml.Node, outer int) {
	n.kind, n.value = scalar, y.Value
	switch t := g.text; {
	case y.Style&yaml.DoubleQuotedStyle != 0:
		i := n.start + 1
		for i < len(t) && t[i] != '"' {
			if t[i] == '\\' {
				i++
			}
			i++
		}
		n.end = min(i+1, len(t))
	case y.Style&yaml.SingleQuotedStyle != 0:
		i := n.start + 1
		for i < len(t) && (t[i] != '\'' || i+1 < len(t) && t[i+1] == '\'') {
			if t[i] == '\'' {
				i++
			}
			i++
		}
		n.end = min(i+1, len(t))
	case y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		n.end = g.blockEnd(n.start, outer)
	case bytes.HasPrefix(t[n.start:], []byte(y.Value)):
		n.plain, n.end = true, n.start+len(y.Value)
	default:
		n.end = foldedEnd(t, n.start, y.Value)
	}
}

// foldedEnd returns the end of a plain scalar over several lines.
func foldedEnd(t []byte, i int, value string) int {
	for j := 0; j < len(value) && i < len(t); {
		run := i
		for run < len(t) && (t[run] == ' ' || t[run] == '\t' || t[run] == '\n' || t[run] == '\r') {
			run++
		}
		breaks := bytes.Count(t[i:run], []byte{'\n'})
		switch {
		case breaks > 0:
			i, j = run, j+max(1, breaks-1)
		case run > i:
			i, j = run, j+run-i
		default:
			i, j = i+1, j+1
		}
	}
	return i
}

// blockEnd returns the end of a literal or folded scalar whose header is at start: the end of its last line that is
// not blank, without the line break.
func (g *grower) blockEnd(start, outer int) int {
	t := g.text
	i := lineEnd(t, start)
	header := t[start:i]
	end := start + len(bytes.TrimRight(bytes.SplitN(header, []byte(" "), 2)[0], "\r"))
	keep := bytes.IndexByte(header[:min(3, len(header))], '+') > 0
	indent := -1
	if j := bytes.IndexAny(header, "123456789"); j > 0 && j < 3 {
		indent = max(outer, 0) + int(header[j]-'0')
		if outer < 0 {
			indent = int(header[j] - '0')
		}
	}
	for i < len(t) {
		i++ // the line break
		from := i
		for i < len(t) && t[i] == ' ' {
			i++
		}
		in := i - from
		i = lineEnd(t, i)
		if len(bytes.TrimSpace(t[from:i])) == 0 {
			if keep && i < len(t) {
				end = i
			}
			continue
		}
		if indent < 0 {
			if in <= outer {
				break
			}
			indent = in
		}
		if in < indent {
			break
		}
		end = i
		if end > from && t[end-1] == '\r' {
			end--
		}
	}
	return end
}

func (g *grower) mapping(n *node, y *yaml.Node, depth int) {
	n.kind, n.flow = mapping, y.Style&yaml.FlowStyle != 0
	t := g.text
	if n.flow && (n.start >= len(t) || t[n.start] != '{') {
		g.refuse(n.start, g.word(n.start), diag.Pair, "write {key: value}")
		return
	}
	column := g.columnOf(n.start)
	if pairs := len(y.Content) / 2; pairs > 0 {
		n.keys, n.items = make([]*node, 0, pairs), make([]*node, 0, pairs)
	}
	at := n.start
	if n.flow {
		at++
		column = -1
	}
	for i := 0; i+1 < len(y.Content); i += 2 {
		at = g.skip(at, n.flow)
		if at < len(t) && t[at] == '?' && (at+1 == len(t) || strings.IndexByte(" \n\r\t", t[at+1]) >= 0) {
			g.refuse(at, at+1, diag.Key, "write key: value")
			return
		}
		if c := y.Content[i]; c.Kind != yaml.ScalarNode || c.Value == "<<" && c.Style == 0 {
			g.refuse(at, g.word(at), diag.Key, "merge keys and keys that are lists are not read")
			return
		}
		key := g.grow(y.Content[i], at, column, depth+1)
		if g.bad != nil {
			return
		}
		at = key.end
		colon := g.skip(at, n.flow && len(y.Content[i+1].Value) == 0)
		has := colon < len(t) && t[colon] == ':'
		if has {
			at = colon + 1
		} else if !n.flow {
			g.refuse(key.start, key.end, diag.Key, "write key: value")
			return
		}
		value := g.grow(y.Content[i+1], at, column, depth+1)
		if g.bad != nil {
			return
		}
		if !has && value.kind != null {
			g.refuse(key.start, key.end, diag.Key, "write key: value")
			return
		}
		n.keys, n.items = append(n.keys, key), append(n.items, value)
		at = value.end
	}
	n.end = at
	if n.flow {
		n.end = g.close(at, '}')
	}
}

func (g *grower) list(n *node, y *yaml.Node, depth int) {
	n.kind, n.flow = list, y.Style&yaml.FlowStyle != 0
	t := g.text
	column := g.columnOf(n.start)
	if len(y.Content) > 0 {
		n.items = make([]*node, 0, len(y.Content))
	}
	at := n.start
	if n.flow {
		at++
		column = -1
	}
	for _, c := range y.Content {
		if at = g.skip(at, n.flow); !n.flow {
			if at >= len(t) || t[at] != '-' {
				g.refuse(at, at+1, diag.Entry, "write - before each entry")
				return
			}
			n.marks = append(n.marks, at)
			at++
		}
		item := g.grow(c, at, column, depth+1)
		if g.bad != nil {
			return
		}
		n.items = append(n.items, item)
		at = item.end
	}
	n.end = at
	if n.flow {
		n.end = g.close(at, ']')
	}
}

// skip returns the offset of the next byte that is not space or comment (nor, in brackets, a comma).
func (g *grower) skip(i int, comma bool) int {
	t := g.text
	for i < len(t) {
		switch c := t[i]; {
		case c == ' ' || c == '\t' || c == '\n' || c == '\r' || comma && c == ',':
			i++
		case c == '#' && (i == 0 || strings.IndexByte(" \t\n\r,[]{}", t[i-1]) >= 0):
			i = lineEnd(t, i)
		default:
			return i
		}
	}
	return i
}

func (g *grower) close(i int, bracket byte) int {
	i = g.skip(i, true)
	if i >= len(g.text) || g.text[i] != bracket {
		g.refuse(min(i, len(g.text)), min(i+1, len(g.text)), diag.Bracket, "")
		return i
	}
	return i + 1
}

// word returns the end of the word at i, for marking it.
func (g *grower) word(i int) int {
	for i < len(g.text) && strings.IndexByte(" \t\r\n,]}", g.text[i]) < 0 {
		i++
	}
	return i
}

// columnOf returns the column, from 0, in bytes, of offset i.
func (g *grower) columnOf(i int) int { return i - lineStart(g.text, i) }

// lineStart returns the offset of the first byte of the line that i is in.
func lineStart(t []byte, i int) int { return bytes.LastIndexByte(t[:i], '\n') + 1 }

// lineEnd returns the offset of the line break (\n) that ends the line i is in, or the end of the text.
func lineEnd(t []byte, i int) int {
	if j := bytes.IndexByte(t[i:], '\n'); j >= 0 {
		return i + j
	}
	return len(t)
}
