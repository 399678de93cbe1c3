package docfile

import (
	"bytes"
	"fmt"
	"strings"

	"berthwright/doc"
)

// splice replaces the bytes from start to end.
type splice struct {
	start, end int
	text       string
}

// ConflictError tells that another text stands where a change expected one.
type ConflictError struct {
	Path  string
	Found string // what the change was made on
	Now   string // what stands there
}

func (e *ConflictError) Error() string {
	return fmt.Sprintf("%s is now %s, the change was made on %s", e.Path, quote(e.Now), quote(e.Found))
}

// PathError tells that an operation cannot be done at its path.
type PathError struct {
	Op      doc.OpKind
	Path    string
	Problem string
}

func (e *PathError) Error() string {
	return fmt.Sprintf("cannot %s %s: %s", e.Op, quote(e.Path), e.Problem)
}

// draft is a text under change with its tree. The tree belongs to it alone.
type draft struct {
	text []byte
	root *node
}

func refusal1(op doc.Op, format string, args ...any) error {
	return &PathError{op.Kind, op.Path, fmt.Sprintf(format, args...)}
}

// plan works out the splice of one operation and its inverse, less what the inverse finds, which is known only
// afterwards.
func (d *draft) plan(op doc.Op) (splice, doc.Op, error) {
	steps, n, f, left := walk(d.root, op.Path)
	if op.Found != "" {
		now := ""
		if len(left) == 0 {
			now = flowText(d.text, n)
		}
		if op.Kind != doc.Insert && !sameValue(now, op.Found) {
			return splice{}, doc.Op{}, &ConflictError{op.Path, op.Found, now}
		}
	}
	switch op.Kind {
	case doc.Set:
		if op.Path == "" {
			break
		}
		if len(left) == 0 {
			return d.replace(op, steps[len(steps)-1], n)
		}
		return d.create(op, steps, n, f, left)
	case doc.Insert:
		return d.insert(op, steps, n, f, left)
	case doc.Unset, doc.Remove:
		if len(left) > 0 || len(steps) == 0 {
			return splice{}, doc.Op{}, refusal1(op, "nothing is written there")
		}
		return d.take(op, steps[len(steps)-1], n)
	}
	return splice{}, doc.Op{}, refusal1(op, "there is no such operation")
}

func sameValue(a, b string) bool {
	if a == b {
		return true
	}
	x, err := parseValue(b)
	return err == nil && flowText(nil, x) == a
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

// colonAt returns the offset of the colon of a key that ends at i, or -1 when a key in brackets has none.
func colonAt(t []byte, i int, flow bool) int {
	g := grower{text: t}
	if i = g.skip(i, false); i < len(t) && t[i] == ':' {
		return i
	}
	return -1
}

// replace writes another value where one stands.
func (d *draft) replace(op doc.Op, at step, n *node) (splice, doc.Op, error) {
	from := d.behind(at.in, at.i)
	inverse := doc.Op{Kind: doc.Set, Path: op.Path, Value: flowText(d.text, n), Exact: &doc.Exact{Text: string(d.text[from:n.end]), Value: true}}
	if at.in.kind == mapping && at.f != nil {
		if c, ok := at.f.Entry(at.in.keys[at.i].value); ok && (c.ID || c.KeyField) && n.kind != null {
			return splice{}, doc.Op{}, refusal1(op, "an id is made once and never changed")
		}
	}
	if x := op.Exact; x != nil && x.Value {
		return splice{from, n.end, x.Text}, inverse, nil
	}
	v, err := parseValue(op.Value)
	if err != nil {
		return splice{}, doc.Op{}, refusal1(op, "%v", err)
	}
	if at.in.kind == list && entryName(v, idKey(at.f)) != entryName(n, idKey(at.f)) && idKey(at.f) != "" {
		return splice{}, doc.Op{}, refusal1(op, "an entry keeps its id")
	}
	if at.in.kind == list && n.kind == scalar {
		inverse.Path = "" // the entry is named by its own text: settled afterwards
	}
	value := strings.TrimSpace(op.Value)
	colon := ""
	if at.in.kind == mapping && at.in.flow && d.text[from-1] != ':' {
		colon = ":"
	}
	if n.kind == null || n.kind != scalar && !n.flow || n.kind == scalar && bytes.IndexByte(d.text[from:n.end], '\n') >= 0 {
		return splice{from, n.end, colon + " " + value}, inverse, nil
	}
	return splice{n.start, n.end, value}, inverse, nil
}

// create writes a value where nothing stands yet, with the keys on the way to it.
func (d *draft) create(op doc.Op, steps []step, n *node, f *doc.Field, left []string) (splice, doc.Op, error) {
	done := op.Path[:len(op.Path)-len(strings.Join(left, "/"))]
	switch {
	case n.kind == list:
		return splice{}, doc.Op{}, refusal1(op, "there is no entry %s", quote(left[0]))
	case n.kind == scalar:
		return splice{}, doc.Op{}, refusal1(op, "%s is a text, not keys", quote(strings.TrimSuffix(done, "/")))
	}
	for i := range left[:len(left)-1] {
		if t := fieldAt(done + strings.Join(left[:i+1], "/")); t != nil && (t.List || t.Kind != doc.Mapping) {
			return splice{}, doc.Op{}, refusal1(op, "%s has no entry yet", quote(done+strings.Join(left[:i+1], "/")))
		}
	}
	inverse := doc.Op{Kind: doc.Unset, Path: done + left[0]}
	if op.Exact == nil || op.Exact.Value {
		v, err := parseValue(op.Value)
		if err != nil {
			return splice{}, doc.Op{}, refusal1(op, "%v", err)
		}
		_ = v
	}
	if n.kind == null {
		at := steps[len(steps)-1]
		path := strings.TrimSuffix(done, "/")
		if op.Exact != nil && !op.Exact.Value {
			return d.putBack(op, n, d.behind(at.in, at.i), inverse)
		}
		return d.replace(doc.Op{Kind: doc.Set, Path: path, Value: nest(left, op.Value)}, at, n)
	}
	if op.Exact != nil && !op.Exact.Value {
		base := d.base(steps, n)
		return d.putBack(op, n, base, inverse)
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
	if like := d.like(d.root, unescape(keys[0])); like != nil && !like.flow {
		inner := column + 2
		return pad(column) + key + ":" + d.newline() + d.keyLines(keys[1:], value, inner)
	}
	return pad(column) + key + ": " + nest(keys[1:], value)
}

// like returns the first mapping that is written under key anywhere.
func (d *draft) like(n *node, key string) *node {
	if n.kind == mapping {
		if c := n.get(key); c != nil && c.kind == mapping {
			return c
		}
	}
	for _, c := range n.items {
		if found := d.like(c, key); found != nil {
			return found
		}
	}
	return nil
}

// insert puts an entry into a list.
func (d *draft) insert(op doc.Op, steps []step, n *node, f *doc.Field, left []string) (splice, doc.Op, error) {
	t := fieldAt(op.Path)
	if t != nil && !t.List {
		return splice{}, doc.Op{}, refusal1(op, "it is not a list")
	}
	v, err := parseValue(op.Value)
	if err != nil {
		return splice{}, doc.Op{}, refusal1(op, "%v", err)
	}
	inverse := doc.Op{Kind: doc.Remove}
	name := entryName(v, idKey(t))
	if len(left) > 0 || n.kind == null {
		if op.After != "" {
			return splice{}, doc.Op{}, refusal1(op, "there is no entry %s", quote(op.After))
		}
		return d.begin(op, steps, n, left, v)
	}
	if n.kind != list {
		return splice{}, doc.Op{}, refusal1(op, "it is not a list")
	}
	if name != "" && entryIndex(n, f, name) >= 0 {
		return splice{}, doc.Op{}, &ConflictError{op.Path + "/" + name, "", flowText(d.text, n.items[entryIndex(n, f, name)])}
	}
	if op.Exact != nil {
		return d.putBack(op, n, d.base(steps, n), inverse)
	}
	i := len(n.items) - 1
	if op.After != "" {
		if i = entryIndex(n, f, op.After); i < 0 {
			return splice{}, doc.Op{}, refusal1(op, "there is no entry %s", quote(op.After))
		}
	}
	if n.flow {
		return d.flowAddAt(n, i, strings.TrimSpace(op.Value)), inverse, nil
	}
	column := d.columnOf(n.marks[0])
	return d.lineAdd(n.items[i].end, column, pad(column)+"- "+d.entryText(n.items[i], v, op.Value, column+2)), inverse, nil
}

// begin makes a list with its first entry.
func (d *draft) begin(op doc.Op, steps []step, n *node, left []string, v *node) (splice, doc.Op, error) {
	value := strings.TrimSpace(op.Value)
	if op.Exact != nil && len(left) == 0 {
		at := steps[len(steps)-1]
		return d.putBack(op, n, d.behind(at.in, at.i), doc.Op{Kind: doc.Remove})
	}
	parent := n
	if len(left) == 0 {
		parent = steps[len(steps)-1].in
	}
	if len(left) > 1 || parent.kind != mapping || parent.flow {
		return d.plan(doc.Op{Kind: doc.Set, Path: op.Path, Value: "[" + value + "]"})
	}
	column := d.columnOf(parent.keys[0].start)
	entry := pad(column+2) + "- " + d.entryText(nil, v, value, column+4)
	if len(left) == 1 {
		lines := pad(column) + Quote(unescape(left[0])) + ":" + d.newline() + entry
		return d.lineAdd(parent.items[len(parent.items)-1].end, column, lines), doc.Op{Kind: doc.Unset, Path: op.Path}, nil
	}
	at := steps[len(steps)-1]
	end := lineEnd(d.text, d.behind(at.in, at.i))
	if end > 0 && end < len(d.text) && d.text[end-1] == '\r' {
		end--
	}
	return splice{end, end, d.newline() + entry}, doc.Op{Kind: doc.Remove}, nil
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
func (d *draft) take(op doc.Op, at step, n *node) (splice, doc.Op, error) {
	c := at.in
	if want := map[doc.OpKind]kind{doc.Unset: mapping, doc.Remove: list}[op.Kind]; c.kind != want {
		return splice{}, doc.Op{}, refusal1(op, "unset takes keys out, remove takes entries of lists out")
	}
	if op.Kind == doc.Unset {
		if c == d.root && c.keys[at.i].value == "berthwright" {
			return splice{}, doc.Op{}, refusal1(op, "every file has its version")
		}
		if at.f != nil {
			if k, ok := at.f.Entry(c.keys[at.i].value); ok && (k.ID || k.KeyField) {
				return splice{}, doc.Op{}, refusal1(op, "an entry keeps its id")
			}
		}
	}
	s, e := d.region(c, at.i)
	inverse := doc.Op{Kind: doc.Set, Path: op.Path, Value: flowText(d.text, n)}
	if op.Kind == doc.Remove {
		inverse.Kind = doc.Insert
		inverse.Path = strings.TrimSuffix(op.Path[:strings.LastIndexByte(op.Path, '/')+1], "/")
	}
	x := &doc.Exact{Text: string(d.text[s:e])}
	base := 0
	if at.i == 0 {
		x.First = true
		base = d.firstBase(c)
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
	return splice{s, e, ""}, inverse, nil
}

// firstBase returns the offset from which the gap before the first entry of c counts.
func (d *draft) firstBase(c *node) int {
	if c.flow {
		return c.start + 1
	}
	if at, ok := d.parentOf(d.root, c); ok {
		return d.behind(at.in, at.i)
	}
	return 0
}

func (d *draft) parentOf(in, c *node) (step, bool) {
	for i, n := range in.items {
		if n == c {
			return step{in: in, i: i}, true
		}
		if n.start <= c.start && c.end <= n.end {
			if at, ok := d.parentOf(n, c); ok {
				return at, true
			}
		}
	}
	return step{}, false
}

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

// putBack writes bytes back that were cut out. base is where the gap counts from when they were the first.
func (d *draft) putBack(op doc.Op, n *node, base int, inverse doc.Op) (splice, doc.Op, error) {
	x := op.Exact
	if !x.First {
		i := -1
		if n.kind == mapping {
			i = n.find(unescape(op.After))
		} else if n.kind == list {
			i = entryIndex(n, fieldAt(op.Path), op.After)
		}
		if i < 0 {
			op.Exact, op.After = nil, ""
			return d.plan(op)
		}
		base = n.items[i].end
	}
	if !bytes.HasPrefix(d.text[base:], []byte(x.Gap)) {
		op.Exact = nil
		return d.plan(op)
	}
	at := base + len(x.Gap)
	return splice{at, at, x.Text}, inverse, nil
}
