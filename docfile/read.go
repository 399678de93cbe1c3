package docfile

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"berthwright/doc"
)

// The limits of one text.
const (
	maxText   = 2 << 20 // bytes
	maxItems  = 2000
	maxDepth  = 32
	maxValues = 300_000 // marks that part values, so that memory stays bounded before the text is read
	maxScalar = 20_000  // bytes of one value
	version   = 1       // of the file format
)

// File is a text with what it says. It is not changed once made; Apply returns another one.
type File struct {
	Name     string
	Text     []byte
	Readable bool      // false: the text cannot be read at all, Diags has the one reason, Build is empty
	Build    doc.Build // wrong values are absent

	problems []problem
	refs     Refs
	root     *node
	parts    []part
	lines    []int
}

// part is a stretch of the file that is bound on its own: an entry of items, or another key of the root.
type part struct {
	key  string // of the root
	item int    // index into items, or -1
	*found
}

// Read reads the text of a build. name is used in messages only. refs, when given, knows the ids outside the file.
func Read(name string, text []byte, refs ...Refs) *File {
	f := &File{Name: name, Text: text}
	if len(refs) > 0 {
		f.refs = refs[0]
	}
	root, lines, bad := parse(text)
	f.lines = lines
	if bad != nil {
		f.problems = []problem{{start: bad.start, end: bad.end, code: "unreadable", message: bad.message, hint: bad.hint}}
		return f
	}
	f.root, f.Readable = root, true
	f.bindAll()
	return f
}

// parse makes the tree of a text, or tells why it cannot be read.
func parse(text []byte) (*node, []int, *refusal) {
	if bad := plainText(text); bad != nil {
		return nil, nil, bad
	}
	g := newGrower(text)
	body := bytes.TrimPrefix(text, []byte("\ufeff"))
	if len(body) < len(text) {
		g.lines[0] = len(text) - len(body)
		g.offset = g.lines[0]
	}
	y, bad := load(body, g)
	if bad != nil {
		return nil, g.lines, bad
	}
	root := g.grow(y, g.lines[0], -1, 0)
	if g.bad != nil {
		return nil, g.lines, g.bad
	}
	if root.kind != mapping {
		return nil, g.lines, &refusal{root.start, root.end, "unreadable", "a build file is keys with values, here is " + shape(root), "begin with berthwright: 1"}
	}
	return root, g.lines, nil
}

func load(body []byte, g *grower) (y *yaml.Node, bad *refusal) {
	defer func() { // a fault of the library must not take the program down
		if r := recover(); r != nil {
			y, bad = nil, &refusal{0, 0, "unreadable", "the text cannot be read as YAML", ""}
		}
	}()
	var top yaml.Node
	err := yaml.Load(body, &top, yaml.WithPlugin(loaderlimits.New(loaderlimits.DepthValue(2*maxDepth))))
	if err != nil {
		return nil, yamlRefusal(err, g)
	}
	if len(top.Content) != 1 {
		return nil, &refusal{0, 0, "unreadable", "the text is empty", "begin with berthwright: 1"}
	}
	return top.Content[0], nil
}

// yamlRefusal words an error of the library in our terms.
func yamlRefusal(err error, g *grower) *refusal {
	var le *yaml.LoadError
	if !errors.As(err, &le) || le.Mark.Line == 0 {
		switch {
		case bytes.Contains([]byte(err.Error()), []byte("no documents")):
			return &refusal{0, 0, "unreadable", "the text is empty", "begin with berthwright: 1"}
		case bytes.Contains([]byte(err.Error()), []byte("multiple")):
			at := max(0, bytes.Index(g.text, []byte("\n---"))+1)
			return &refusal{at, min(at+3, len(g.text)), "unreadable", "there is more than one document", `take out the line "---"`}
		}
		return &refusal{0, 0, "unreadable", "the text cannot be read as YAML", ""}
	}
	at := g.at(le.Mark.Line, max(1, le.Mark.Column))
	message := le.Message
	hint := ""
	if at < len(g.text) && g.text[at] == '\t' {
		message, hint = "a tab stands where only spaces are read", "indent with spaces"
	}
	if le.ContextMsg != "" && le.ContextMark.Line > 0 && le.ContextMark.Line != le.Mark.Line {
		message += fmt.Sprintf(", %s that began in line %d", le.ContextMsg, le.ContextMark.Line)
	}
	return &refusal{at, min(at+1, len(g.text)), "unreadable", message, hint}
}

// plainText refuses what cannot be a text of ours before anything else looks at it.
func plainText(text []byte) *refusal {
	no := func(at int, message, hint string) *refusal {
		return &refusal{at, min(at+1, len(text)), "unreadable", message, hint}
	}
	if len(text) > maxText {
		return no(0, fmt.Sprintf("the text is %d bytes long", len(text)), "at most 2 MB are read")
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
		return no(at, "the text is not UTF-8", "save the file as UTF-8")
	}
	marks := 0
	for i, c := range text {
		switch {
		case c == ',' || c == ':' || c == '[' || c == '{' || c == '\n' || c == '-' || c == '?':
			marks++
		case c == 0:
			return no(i, "the text holds a zero byte", "save the file as plain text")
		case c == '\r' && (i+1 == len(text) || text[i+1] != '\n'):
			return no(i, "a line ends with a lone carriage return", "save the file with the line ends of this machine")
		}
	}
	if marks > maxValues {
		return no(0, "the text holds too many values", fmt.Sprintf("at most %d marks that part values are read", maxValues))
	}
	for _, b := range []string{"\u0085", "\u2028", "\u2029"} {
		if i := bytes.Index(text, []byte(b)); i >= 0 {
			return no(i, "the text holds an invisible line break", "put a plain line break or a space")
		}
	}
	return nil
}

// refuse makes f unreadable for one reason.
func (f *File) refuse(n *node, code, message, hint string) {
	f.Readable, f.root, f.parts = false, nil, nil
	f.problems = []problem{{start: n.start, end: n.end, code: code, message: message, hint: hint}}
}

func (f *File) bindAll() {
	if v := f.root.get("berthwright"); v != nil && v.kind == scalar && wholeNumber.MatchString(v.value) && v.value != "0" && v.value[0] != '-' && v.value != fmt.Sprint(version) {
		f.refuse(v, "newer-version", fmt.Sprintf("this file has version %s, this program reads version %d", quote(v.value), version), "open it with a newer program")
		return
	}
	if items := f.root.get("items"); items != nil && len(items.items) > maxItems {
		f.refuse(items.items[maxItems], "too-many-items", fmt.Sprintf("there are %d items", len(items.items)), fmt.Sprintf("at most %d are read", maxItems))
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
	f.settle()
}

func bindPart(n *node, c *doc.Field, v reflect.Value) part {
	b := &binder{path: []string{c.Key}, out: &found{}}
	b.bind(n, c, v)
	return part{c.Key, -1, b.out}
}

func bindItem(n *node, c *doc.Field, name string, i int, into *doc.Item) part {
	b := &binder{path: []string{c.Key, name}, list: c.Key, out: &found{}}
	b.entry(n, c, reflect.ValueOf(into).Elem())
	return part{c.Key, i, b.out}
}

// settle gathers the problems of all parts and of the references between them.
func (f *File) settle() {
	var all []*found
	f.problems = nil
	for _, p := range f.parts {
		all = append(all, p.found)
		f.problems = append(f.problems, p.problems...)
	}
	f.problems = append(f.problems, references(all, seatsOf(&f.Build), f.refs)...)
	slices.SortStableFunc(f.problems, func(a, b problem) int { return a.start - b.start })
}
