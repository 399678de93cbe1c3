package docfile

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"berthwright/diag"
	"berthwright/doc"
)

// The limits of one text.
const (
	maxText     = 2 << 20 // bytes
	maxItems    = 2000
	maxDepth    = 32
	maxMarks    = 300_000 // marks that part values, so that memory stays bounded before the text is read
	maxScalar   = 20_000  // bytes of one value
	maxProblems = 1000    // that are told; nobody reads more
	version     = 1       // of the file format
)

// File is a text with what it says. It is not changed once made; Apply returns another one.
type File struct {
	Name     string
	Text     []byte
	Readable bool      // false: the text cannot be read at all, Diags has the one reason, Build is empty
	Build    doc.Build // wrong values are absent

	Diags diag.List // every problem, by position

	index *diag.Text
	refs  Refs
	root  *node
	parts []part
	ids   *idIndex
}

// part is a stretch of the file that is bound on its own: an entry of items, or another key of the root.
type part struct {
	key  string // of the root
	item int    // index into items, or -1
	name string // of the item in paths
	*found
	checked bool
	unknown []problem // references to ids that are not there
}

// Read reads the text of a build. name is used in messages only. refs, when given, knows the ids outside the file.
func Read(name string, text []byte, refs ...Refs) *File {
	f := &File{Name: name, Text: text}
	if len(refs) > 0 {
		f.refs = refs[0]
	}
	root, bad := parse(text)
	if bad != nil {
		f.Diags = f.diagnostics([]problem{bad.problem()})
		return f
	}
	f.root, f.Readable = root, true
	f.bindAll()
	return f
}

// parse makes the tree of a text, or tells why it cannot be read.
func parse(text []byte) (*node, *refusal) {
	if bad := plainText(text); bad != nil {
		return nil, bad
	}
	if root, ok := quick(text); ok {
		return root, nil
	}
	return parseYAML(text)
}

// parseYAML makes the tree with the library. The text has passed plainText.
func parseYAML(text []byte) (*node, *refusal) {
	g := newGrower(text)
	body := bytes.TrimPrefix(text, []byte("\ufeff"))
	if len(body) < len(text) {
		g.lines[0] = len(text) - len(body)
		g.offset = g.lines[0]
	}
	y, bad := load(body, g)
	if bad != nil {
		return nil, bad
	}
	root := g.grow(y, g.lines[0], -1, 0)
	if g.bad != nil {
		return nil, g.bad
	}
	if root.kind != mapping {
		return nil, &refusal{root.start, root.end, diag.Unreadable, "the file is " + shape(root) + ", not keys with values", "begin with berthwright: 1"}
	}
	return root, nil
}

func load(body []byte, g *grower) (y *yaml.Node, bad *refusal) {
	defer func() { // a fault of the library must not take the program down
		if r := recover(); r != nil {
			y, bad = nil, &refusal{code: diag.Unreadable}
		}
	}()
	var top yaml.Node
	err := yaml.Load(body, &top, yaml.WithPlugin(loaderlimits.New(loaderlimits.DepthValue(2*maxDepth))))
	if err != nil {
		return nil, yamlRefusal(err, g)
	}
	if len(top.Content) != 1 {
		return nil, nothing
	}
	return top.Content[0], nil
}

// yamlRefusal words an error of the library in our terms.
func yamlRefusal(err error, g *grower) *refusal {
	var le *yaml.LoadError
	if !errors.As(err, &le) || le.Mark.Line == 0 {
		if strings.Contains(err.Error(), "multiple") {
			at := max(0, bytes.Index(g.text, []byte("\n---"))+1)
			return &refusal{at, min(at+3, len(g.text)), diag.Documents, "", `take out the line "---"`}
		}
		if strings.Contains(err.Error(), "no documents") {
			return nothing
		}
		return &refusal{0, 0, diag.Unreadable, "", ""}
	}
	at := g.at(le.Mark.Line, max(1, le.Mark.Column))
	r := &refusal{at, min(at+1, len(g.text)), diag.Unreadable, "", ""}
	began := ""
	if le.ContextMark.Line > 0 && le.ContextMark.Line != le.Mark.Line {
		began = fmt.Sprintf("it began in line %d", le.ContextMark.Line)
	}
	has := func(word string) bool { return strings.Contains(le.Message+" "+le.ContextMsg, word) }
	switch {
	case at < len(g.text) && g.text[at] == '\t':
		r.code, r.hint = diag.Tab, "indent with spaces"
	case has("depth") || has("nest"):
		r.code, r.hint = diag.TooDeep, "at most 32 levels are read"
	case has("quoted scalar"):
		r.code, r.hint = diag.Quote, began
	case has("flow mapping") || has("flow sequence"):
		r.code, r.hint = diag.Bracket, began
	case has("mapping values are not allowed"):
		r.message, r.hint = "a colon and a space stand inside a value", "put the value in quotes"
	case has("control characters"):
		r.code = diag.Control
	case has("block mapping") || has("block collection") || has("indentation"):
		r.code, r.hint = diag.Indent, "begin the keys of one thing in the same column"
	case has("simple key") || has("expected ':'"):
		r.code, r.hint = diag.Key, "write key: value"
	case has("alias") || has("anchor"):
		r.code, r.hint = diag.Anchor, "put the value in quotes when it begins with & or *"
	case has("cannot start any token"):
		r.message, r.hint = "a value cannot begin with this character", "put the value in quotes"
	}
	return r
}

var nothing = &refusal{code: diag.Unreadable, message: "the text is empty", hint: "begin with berthwright: 1"}

// plainText refuses what cannot be a text of ours before anything else looks at it.
func plainText(text []byte) *refusal {
	no := func(at int, code diag.Code, message, hint string) *refusal {
		return &refusal{at, min(at+1, len(text)), code, message, hint}
	}
	if len(text) > maxText {
		return &refusal{0, 0, diag.TooLarge, fmt.Sprintf("the text is too large: %d bytes", len(text)), "at most 2 MB are read"}
	}
	if !utf8.Valid(text) {
		at := 0
		for at < len(text) {
			r, size := utf8.DecodeRune(text[at:])
			if r == utf8.RuneError && size == 1 {
				break
			}
			at += size
		}
		return no(at, diag.NotUTF8, "the text is not UTF-8 from here on", "save the file as UTF-8")
	}
	marks := 0
	for i, c := range text {
		switch {
		case c == ',' || c == ':' || c == '[' || c == '{' || c == '\n' || c == '-' && i+1 < len(text) && text[i+1] <= ' ':
			marks++
		case c == '\t', c >= ' ' && c != 0x7f:
		case c == '\r' && i+1 < len(text) && text[i+1] == '\n':
		case c == '\r':
			return no(i, diag.Control, "a line ends with a lone carriage return", "save the file with the line ends of this machine")
		default:
			return no(i, diag.Control, "", "save the file as plain text")
		}
	}
	if marks > maxMarks {
		return &refusal{0, 0, diag.TooLarge, "the text holds too many values", fmt.Sprintf("at most %d commas, colons, dashes, brackets and lines are read", maxMarks)}
	}
	for _, b := range []string{"\u0085", "\u2028", "\u2029"} {
		if i := bytes.Index(text, []byte(b)); i >= 0 {
			return no(i, diag.Control, "an invisible line break stands here", "put a space or begin a new line")
		}
	}
	if i := bytes.LastIndex(text, []byte("\ufeff")); i > 0 {
		return no(i, diag.Control, "", "take the invisible character out")
	}
	return nil
}

// Range returns the place of the value at path, or of its key where the value is empty.
func (f *File) Range(path string) (diag.Range, bool) {
	if f.root == nil {
		return diag.Range{}, false
	}
	steps, n, _, left := walk(f.root, path)
	if len(left) > 0 {
		return diag.Range{}, false
	}
	start, end := n.start, n.end
	if n.kind == null && len(steps) > 0 {
		if at := steps[len(steps)-1]; at.in.kind == mapping {
			start, end = at.in.keys[at.i].start, at.in.keys[at.i].end
		}
	}
	if f.index == nil {
		f.index = diag.NewText(f.Text)
	}
	return f.index.Range(start, end), true
}

// refuse makes f unreadable for one reason.
func (f *File) refuse(n *node, code diag.Code, text, hint string) {
	f.Readable, f.root, f.parts = false, nil, nil
	f.Diags = f.diagnostics([]problem{{start: n.start, end: n.end, code: code, args: diag.Args{"text": text}, hint: hint}})
}

// newer refuses a text whose version, under key, is above ours.
func (f *File) newer(root *node, key string) bool {
	v := root.get(key)
	if v == nil || v.kind != scalar || !wholeNumber.MatchString(v.value) {
		return false
	}
	if n, _ := strconv.Atoi(v.value); n <= version {
		return false
	}
	f.refuse(v, diag.NewerVersion, quote(v.value), fmt.Sprintf("open it with a newer program; this one reads version %d", version))
	return true
}

func (f *File) bindAll() {
	if f.newer(f.root, "berthwright") {
		return
	}
	if items := f.root.get("items"); items != nil && len(items.items) > maxItems {
		f.refuse(items.items[maxItems], diag.TooManyItems, fmt.Sprint(len(items.items)), fmt.Sprintf("at most %d are read", maxItems))
		return
	}
	table := doc.Fields()
	v := reflect.ValueOf(&f.Build).Elem()
	top := &found{}
	b := &binder{out: top}
	b.keys(f.root, table)
	f.parts = append(f.parts, part{item: -1, found: top})
	for i := range table.Fields {
		c := &table.Fields[i]
		n := f.root.get(c.Key)
		if n == nil || n.kind == null {
			if c.Required {
				b.missing(f.root, c)
			}
			continue
		}
		if c.Reserved {
			continue
		}
		if c.Key != "items" || n.kind != list {
			f.parts = append(f.parts, bindPart(n, c, v.Field(c.Index)))
			continue
		}
		f.Build.Items = make([]doc.Item, len(n.items))
		for i, name := range entryNames(n, c) {
			f.parts = append(f.parts, bindItem(n.items[i], c, name, i, &f.Build.Items[i]))
		}
	}
	f.settle(nil)
}

func bindPart(n *node, c *doc.Field, v reflect.Value) part {
	b := &binder{path: []string{c.Key}, out: &found{}}
	b.bind(n, c, v)
	return part{key: c.Key, item: -1, found: b.out}
}

func bindItem(n *node, c *doc.Field, name string, i int, into *doc.Item) part {
	b := &binder{path: []string{c.Key, name}, list: c.Key, out: &found{}}
	b.entry(n, c, reflect.ValueOf(into).Elem())
	return part{key: c.Key, item: i, name: name, found: b.out}
}

// settle gathers the problems of all parts and of the references between them. old, when given, is the file that
// parts were taken over from.
func (f *File) settle(old *File) {
	f.ids = nil
	if old != nil && f.sameIDs(old) {
		f.ids = old.ids
	}
	same := f.ids != nil
	if !same {
		f.ids = indexIDs(f.parts, func(i int) bool { return f.Build.Items[i].Seat.Given() })
	}
	problems := append([]problem(nil), f.ids.twice[:min(len(f.ids.twice), maxProblems)]...)
	for i := range f.parts {
		p := &f.parts[i]
		if !same || !p.checked {
			p.unknown, p.checked = f.ids.check(p.refs, f.refs), true
		}
		problems = append(append(problems, p.problems...), p.unknown...)
		if len(problems) >= maxProblems {
			problems = problems[:maxProblems]
			break
		}
	}
	f.Diags = f.diagnostics(problems)
}

// sameIDs reports whether f has the parts of old with the ids and seats of old.
func (f *File) sameIDs(old *File) bool {
	if len(f.parts) != len(old.parts) {
		return false
	}
	for i := range f.parts {
		p, q := &f.parts[i], &old.parts[i]
		if p.found == q.found && p.item == q.item {
			continue
		}
		if p.key != q.key || p.item != q.item || !sameIDs(p.found, q.found) {
			return false
		}
		if p.item >= 0 && f.Build.Items[p.item].Seat.Given() != old.Build.Items[q.item].Seat.Given() {
			return false
		}
	}
	return true
}
