package docfile

import (
	"fmt"
	"reflect"
	"strconv"

	"berthwright/diag"
	"berthwright/doc"
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
	f := &File{Name: name, Text: text, index: diag.NewText(text)}
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
	problems = append(problems, f.outside()...)
	problems = accept(problems[:min(len(problems), maxProblems)], f.root, f.Build.Accepted)
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
