package docfile

import (
	"bytes"
	"strings"

	"berthwright/doc"
)

// splice replaces the bytes from start to end.
type splice struct {
	start, end int
	text       string
}

// draft is a text under change with its tree. The tree belongs to it alone.
type draft struct {
	text []byte
	root *node
}

// plan works out the splice of one operation and its inverse, less what the inverse finds, which is known only
// afterwards. An inverse without a path is for the entry that the splice writes.
func (d *draft) plan(op doc.Op) (splice, doc.Op, error) {
	a, err := aimAt(d.root, op)
	if err != nil {
		return splice{}, doc.Op{}, err
	}
	switch {
	case op.Kind == doc.Insert:
		return d.insert(a)
	case op.Kind != doc.Set:
		s, back := d.take(a)
		return s, back, nil
	case len(a.left) > 0:
		return d.create(a)
	}
	s, back := d.replace(a.last(), a.n, op)
	return s, back, nil
}

// behind returns the offset behind the colon or dash of entry i of c; an entry of a list in brackets has neither.
func (d *draft) behind(c *node, i int) int {
	switch {
	case c.kind == mapping:
		if i := colonAt(d.text, c.keys[i].end, c.flow); i >= 0 {
			return i + 1
		}
		return c.keys[i].end
	case c.flow:
		return c.items[i].start
	}
	return c.marks[i] + 1
}

// value returns the offset where all that is written for a value begins: behind its key, or as behind does.
func (d *draft) value(at step) int {
	if at.in.kind == mapping {
		return at.in.keys[at.i].end
	}
	return d.behind(at.in, at.i)
}

// colonAt returns the offset of the colon of a key that ends at i, or -1 when a key in brackets has none.
func colonAt(t []byte, i int, flow bool) int {
	g := grower{text: t}
	if i = g.skip(i, false); i < len(t) && t[i] == ':' {
		return i
	}
	return -1
}

// replace writes another value where one stands.
func (d *draft) replace(at step, n *node, op doc.Op) (splice, doc.Op) {
	from, whole := d.behind(at.in, at.i), d.value(at)
	inverse := doc.Op{Kind: doc.Set, Path: op.Path, Value: flowText(n), Exact: &doc.Exact{Text: string(d.text[whole:n.end]), Value: true}}
	if at.in.kind == list && n.kind == scalar {
		inverse.Path = "" // the entry is named by its own text
	}
	if x := op.Exact; x != nil && x.Value {
		return splice{whole, n.end, x.Text}, inverse
	}
	value := strings.TrimSpace(op.Value)
	if at.in.kind == list && at.in.flow || n.kind != null && (n.kind == scalar || n.flow) && bytes.IndexByte(d.text[from:n.end], '\n') < 0 {
		return splice{n.start, n.end, value}, inverse
	}
	colon := " "
	if at.in.flow && d.text[from-1] != ':' {
		colon = ": "
	}
	return splice{from, n.end, colon + value}, inverse
}

// create writes a value where nothing stands yet, with the keys on the way to it.
func (d *draft) create(a *aim) (splice, doc.Op, error) {
	op, n, left := a.op, a.n, a.left
	done := op.Path[:len(op.Path)-len(strings.Join(left, "/"))]
	inverse := doc.Op{Kind: doc.Unset, Path: done + left[0]}
	if x := op.Exact; x != nil && !x.Value && len(left) == 1 {
		return d.putBack(a, inverse)
	}
	if n.kind == null {
		s, back := d.replace(a.last(), n, doc.Op{Kind: doc.Set, Path: strings.TrimSuffix(done, "/"), Value: nest(left, op.Value)})
		return s, back, nil
	}
	if n.flow {
		return d.flowAdd(n, Quote(unescape(left[0]))+": "+nest(left[1:], op.Value)), inverse, nil
	}
	column := d.columnOf(n.keys[0].start)
	lines := d.keyLines(left, strings.TrimSpace(op.Value), column)
	return d.lineAdd(n.items[len(n.items)-1].end, column, lines), inverse, nil
}

// nest writes value below keys, on one line.
func nest(keys []string, value string) string {
	value = strings.TrimSpace(value)
	for i := len(keys) - 1; i >= 0; i-- {
		value = "{" + Quote(unescape(keys[i])) + ": " + value + "}"
	}
	return value
}

// keyLines writes keys, one below the other, the way the file writes them elsewhere: in brackets or on lines.
func (d *draft) keyLines(keys []string, value string, column int) string {
	key := Quote(unescape(keys[0]))
	if len(keys) == 1 {
		return pad(column) + key + ": " + value
	}
	if like := like(d.root, unescape(keys[0])); like != nil && !like.flow {
		inner := column + 2
		return pad(column) + key + ":" + d.newline() + d.keyLines(keys[1:], value, inner)
	}
	return pad(column) + key + ": " + nest(keys[1:], value)
}

// like returns the first mapping that is written under key anywhere.
func like(n *node, key string) *node {
	if n.kind == mapping {
		if c := n.get(key); c != nil && c.kind == mapping {
			return c
		}
	}
	for _, c := range n.items {
		if found := like(c, key); found != nil {
			return found
		}
	}
	return nil
}

// insert puts an entry into a list.
func (d *draft) insert(a *aim) (splice, doc.Op, error) {
	op, n := a.op, a.n
	inverse := doc.Op{Kind: doc.Remove}
	if len(a.left) == 0 && op.Exact != nil {
		return d.putBack(a, inverse)
	}
	if len(a.left) > 0 || n.kind == null || n.flow && len(n.items) == 0 {
		return d.begin(a)
	}
	value := strings.TrimSpace(op.Value)
	if n.flow {
		return d.flowAddAt(n, a.after, value), inverse, nil
	}
	column := d.columnOf(n.marks[0])
	return d.lineAdd(n.items[a.after].end, column, pad(column)+"- "+d.entryText(n.items[a.after], a.v, value, column+2)), inverse, nil
}

// begin makes a list with its first entry: on a line of its own where the list is a key on a line of its own.
func (d *draft) begin(a *aim) (splice, doc.Op, error) {
	op, left := a.op, a.left
	value := strings.TrimSpace(op.Value)
	parent := a.n
	if len(left) == 0 {
		parent = a.last().in
	}
	if len(left) > 1 || parent.kind != mapping || parent.flow {
		if len(left) == 0 && a.n.kind == list {
			return d.flowAddAt(a.n, -1, value), doc.Op{Kind: doc.Remove}, nil
		}
		return d.plan(doc.Op{Kind: doc.Set, Path: op.Path, Value: "[" + value + "]"})
	}
	column := d.columnOf(parent.keys[0].start)
	entry := pad(column+2) + "- " + d.entryText(nil, a.v, value, column+4)
	if len(left) == 1 {
		lines := pad(column) + Quote(unescape(left[0])) + ":" + d.newline() + entry
		return d.lineAdd(parent.items[len(parent.items)-1].end, column, lines), doc.Op{Kind: doc.Unset, Path: op.Path}, nil
	}
	from := d.behind(parent, a.last().i)
	end := lineEnd(d.text, from)
	if end > 0 && end < len(d.text) && d.text[end-1] == '\r' {
		end--
	}
	if a.n.kind == null {
		return splice{end, end, d.newline() + entry}, doc.Op{Kind: doc.Remove}, nil
	}
	if len(bytes.TrimSpace(d.text[a.n.end:end])) > 0 || end < a.n.end { // a comment behind the brackets, or lines between them
		return d.flowAddAt(a.n, -1, value), doc.Op{Kind: doc.Remove}, nil
	}
	back := doc.Op{Kind: doc.Set, Path: op.Path, Value: "[]", Exact: &doc.Exact{Text: string(d.text[d.value(a.last()):a.n.end]), Value: true}}
	return splice{from, a.n.end, d.newline() + entry}, back, nil
}

// entryText writes an entry of a block list: on lines of its own when its neighbour is, else as it came.
func (d *draft) entryText(near, v *node, value string, column int) string {
	value = strings.TrimSpace(value)
	if v.kind != mapping || len(v.keys) == 0 || near != nil && (near.kind != mapping || near.flow) {
		return value
	}
	var b strings.Builder
	for i, k := range v.keys {
		if i > 0 {
			b.WriteString(d.newline() + pad(column))
		}
		b.WriteString(value[k.start:k.end] + ":")
		if c := v.items[i]; c.kind != null {
			b.WriteString(" " + value[c.start:c.end])
		}
	}
	return b.String()
}

// take cuts an entry out of a mapping or list.
func (d *draft) take(a *aim) (splice, doc.Op) {
	op, at, n := a.op, a.last(), a.n
	c := at.in
	s, e := d.region(c, at.i)
	inverse := doc.Op{Kind: doc.Set, Path: op.Path, Value: flowText(n)}
	if op.Kind == doc.Remove {
		inverse.Kind = doc.Insert
		inverse.Path = strings.TrimSuffix(op.Path[:strings.LastIndexByte(op.Path, '/')+1], "/")
	}
	x := &doc.Exact{Text: string(d.text[s:e])}
	base := 0
	if at.i == 0 {
		x.First = true
		base = d.base(a.steps[:len(a.steps)-1], c)
	} else {
		base = c.items[at.i-1].end
		if op.Kind == doc.Remove {
			inverse.After = nameOf(c, at.f, at.i-1)
		} else {
			inverse.After = escape(c.keys[at.i-1].value)
		}
	}
	if base <= s {
		x.Gap = string(d.text[base:s])
	}
	inverse.Exact = x
	return splice{s, e, ""}, inverse
}

// base returns the offset from which the gap before the first entry of n counts; steps lead to n.
func (d *draft) base(steps []step, n *node) int {
	if n.flow {
		return n.start + 1
	}
	if len(steps) == 0 {
		return 0
	}
	at := steps[len(steps)-1]
	return d.behind(at.in, at.i)
}

// putBack writes bytes back that were cut out. Where their neighbour is gone the value is written anew.
func (d *draft) putBack(a *aim, inverse doc.Op) (splice, doc.Op, error) {
	op, n, x := a.op, a.n, a.op.Exact
	op.Exact = nil
	base := d.base(a.steps, n)
	if !x.First {
		i := -1
		if n.kind == mapping {
			i = n.find(unescape(op.After))
		} else if n.kind == list {
			i = entryIndex(n, a.f, op.After)
		}
		if i < 0 {
			op.After = ""
			return d.plan(op)
		}
		base = n.items[i].end
	}
	if !bytes.HasPrefix(d.text[base:], []byte(x.Gap)) {
		return d.plan(op)
	}
	at := base + len(x.Gap)
	return splice{at, at, x.Text}, inverse, nil
}
