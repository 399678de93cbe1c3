package docfile

import (
	"slices"
	"strings"

	"berthwright/doc"
)

// Touches returns the paths that a change writes to. What stands at or below such a path, and what it stands in, is
// not what it was. Entries that have only a number stand for their whole list, for the numbers of others shift.
func Touches(c doc.Change) []string {
	var all []string
	for _, op := range c.Ops {
		path := op.Path
		if op.Kind == doc.Insert {
			if v, err := parseValue(op.Value); err == nil {
				if name := entryName(v, idKey(fieldAt(op.Path))); name != "" {
					path += "/" + name
				}
			}
		}
		if i := strings.Index(path+"/", "/#"); i >= 0 {
			path = path[:i]
		}
		if !slices.Contains(all, path) {
			all = append(all, path)
		}
	}
	return all
}

// Clash is a path of a change that another change has touched since.
type Clash struct {
	Path  string // of the change
	Since int    // index of the other change
	Other string // the path that the other touched: the same, above or below
}

// Conflicts returns where c touches what any change since its base has touched. When there is none, c may be applied
// to what they made of its base.
func Conflicts(c doc.Change, since []doc.Change) []Clash {
	var all []Clash
	mine := Touches(c)
	for i, other := range since {
		for _, theirs := range Touches(other) {
			for _, path := range mine {
				if path == theirs || strings.HasPrefix(path, theirs+"/") || strings.HasPrefix(theirs, path+"/") {
					all = append(all, Clash{path, i, theirs})
				}
			}
		}
	}
	return all
}

// Difference is one path at which two files differ. Entries and keys that only one of them has are told whole, the
// rest value by value.
type Difference struct {
	Kind   doc.OpKind // the operation that leads from the first file to the second: set, unset, insert or remove
	Path   string     // of the value or entry, also where Kind is insert
	Before string     // what stands in the first file, on one line; "" for nothing
	After  string     // what stands in the second
}

// Diff returns how b differs from a, in the order of b; what only a has stands where it stood. The order of keys and
// of named entries, comments and formatting do not count.
func Diff(a, b *File) []Difference {
	if !a.Readable || !b.Readable {
		return nil
	}
	var all []Difference
	diffNodes("", a.root, b.root, doc.Fields(), &all)
	return all
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "/" + name
}

func diffNodes(path string, a, b *node, f *doc.Field, out *[]Difference) {
	if a.kind != b.kind || a.kind == scalar || a.kind == null {
		if x, y := flowText(a), flowText(b); x != y || a.kind != b.kind && (a.kind == null || b.kind == null) && x+y != "" {
			kind := doc.Set
			if b.kind == null {
				kind = doc.Unset
			}
			*out = append(*out, Difference{kind, path, x, y})
		}
		return
	}
	added, gone := doc.Set, doc.Unset
	var x, y []string
	below := func(name string) *doc.Field { return f }
	if a.kind == mapping {
		x, y = keyNames(a), keyNames(b)
		below = func(name string) *doc.Field {
			if f == nil {
				return nil
			}
			if c, ok := f.Entry(unescape(name)); ok && !c.Reserved {
				return c
			}
			return nil
		}
	} else {
		added, gone = doc.Insert, doc.Remove
		x, y = entryNames(a, f), entryNames(b, f)
	}
	at := make(map[string]int, len(x))
	for i, name := range x {
		at[name] = i
	}
	has := make(map[string]bool, len(y))
	for _, name := range y {
		has[name] = true
	}
	i := 0
	drop := func(until int) { // entries of a that b has not
		for ; i < until; i++ {
			if !has[x[i]] && a.items[i].kind != null {
				*out = append(*out, Difference{gone, join(path, x[i]), flowText(a.items[i]), ""})
			}
		}
	}
	for j, name := range y {
		k, ok := at[name]
		if !ok {
			if b.items[j].kind != null {
				*out = append(*out, Difference{added, join(path, name), "", flowText(b.items[j])})
			}
			continue
		}
		drop(k)
		diffNodes(join(path, name), a.items[k], b.items[j], below(name), out)
	}
	drop(len(x))
}

// keyNames returns the keys of n as they stand in paths. A key that is there twice counts the first time; the others
// get names that no path has.
func keyNames(n *node) []string {
	names := make([]string, len(n.keys))
	for i, first := range n.first() {
		names[i] = escape(n.keys[i].value)
		if first < i {
			names[i] = "~2" + names[i]
		}
	}
	return names
}

// Compile returns operations that make of a what b says: so a text edited by hand becomes a change like any other.
// ok is false where they would not (an id changed in place, entries without ids moved about); the text is then
// replaced as a whole.
func Compile(a, b *File) (ops []doc.Op, ok bool) {
	if !a.Readable || !b.Readable {
		return nil, false
	}
	var late []doc.Op
	for _, d := range Diff(a, b) {
		switch d.Kind {
		case doc.Insert:
			ops = append(ops, insertOf(b, d))
		case doc.Set:
			ops = append(ops, doc.Op{Kind: doc.Set, Path: d.Path, Value: d.After, Found: d.Before})
		default:
			late = append(late, doc.Op{Kind: d.Kind, Path: d.Path, Found: d.Before})
		}
	}
	slices.Reverse(late) // the last first, so that the numbers of those before stay
	ops = append(late, ops...)
	g, _, err := a.Apply(doc.Change{Ops: ops})
	return ops, err == nil && len(Diff(g, b)) == 0
}

// insertOf returns the operation that inserts the entry of d behind the one that it follows in b.
func insertOf(b *File, d Difference) doc.Op {
	cut := strings.LastIndexByte(d.Path, '/')
	op := doc.Op{Kind: doc.Insert, Path: d.Path[:cut], Value: d.After}
	if _, n, f, left := walk(b.root, op.Path); len(left) == 0 {
		if i := entryIndex(n, f, d.Path[cut+1:]); i > 0 {
			if before := nameOf(n, f, i-1); before[0] != '#' {
				op.After = before
			}
		}
	}
	return op
}
