package docfile

import (
	"reflect"
	"slices"

	"berthwright/diag"
	"berthwright/doc"
)

// Preview tells what a change would make of the build, without touching the text. Only the entries it touches are
// bound again. Diagnostics inside them have the place of the entry in the text as it is.
func (f *File) Preview(c doc.Change) (doc.Build, diag.List, error) {
	if !f.Readable {
		return doc.Build{}, nil, &PathError{Problem: "the text cannot be read"}
	}
	m := &model{root: f.root, own: map[*node]bool{}}
	for _, op := range c.Ops {
		if err := m.do(op); err != nil {
			return doc.Build{}, nil, err
		}
	}
	g := &File{Name: f.Name, Text: f.Text, Readable: true, refs: f.refs, root: m.root, index: f.index}
	g.bindLike(f)
	if !g.Readable {
		return doc.Build{}, nil, &PathError{Problem: g.Diags[0].Text()}
	}
	return g.Build, g.Diags, nil
}

// model edits a tree without its text. Nodes on the way to a change are copied first: the tree it began with stays.
type model struct {
	root *node
	own  map[*node]bool
}

// mine returns a node that may be changed in place of n.
func (m *model) mine(n *node) *node {
	if m.own[n] {
		return n
	}
	c := *n
	c.keys, c.items, c.marks = slices.Clone(n.keys), slices.Clone(n.items), slices.Clone(n.marks)
	m.own[&c] = true
	return &c
}

// reach copies the nodes on the way and returns the last one, for changing.
func (m *model) reach(steps []step) *node {
	m.root = m.mine(m.root)
	at := m.root
	for _, s := range steps {
		c := m.mine(at.items[s.i])
		at.items[s.i] = c
		at = c
	}
	return at
}

func (m *model) do(op doc.Op) error {
	a, err := aimAt(m.root, op)
	if err != nil {
		return err
	}
	switch {
	case op.Kind == doc.Insert && (len(a.left) > 0 || a.n.kind == null):
		a.v = &node{kind: list, items: []*node{a.v}, marks: []int{0}}
		m.set(a)
	case op.Kind == doc.Insert:
		in := m.reach(a.steps)
		a.v.put(in.start)
		in.items = slices.Insert(in.items, a.after+1, a.v)
		in.marks = slices.Insert(in.marks, min(a.after+1, len(in.marks)), in.start)
	case op.Kind == doc.Set:
		m.set(a)
	default:
		at := a.last()
		in := m.reach(a.steps[:len(a.steps)-1])
		in.items = slices.Delete(in.items, at.i, at.i+1)
		if in.kind == mapping {
			in.keys = slices.Delete(in.keys, at.i, at.i+1)
		} else if !in.flow {
			in.marks = slices.Delete(in.marks, at.i, at.i+1)
		}
		if len(in.items) == 0 && !in.flow {
			in.kind, in.end = null, in.start
		}
	}
	return nil
}

func (m *model) set(a *aim) {
	if len(a.left) == 0 {
		at := a.last()
		in := m.reach(a.steps[:len(a.steps)-1])
		a.v.put(a.n.start)
		in.items[at.i] = a.v
		return
	}
	v, flow := a.v, a.n.kind == null || a.n.flow
	for i := len(a.left) - 1; i >= 0; i-- {
		key := unescape(a.left[i])
		if i > 0 {
			above := like(m.root, unescape(a.left[i-1]))
			v = &node{kind: mapping, flow: flow || above == nil || above.flow, keys: []*node{{kind: scalar, value: key}}, items: []*node{v}}
			continue
		}
		in := m.reach(a.steps)
		if in.kind == null {
			*in = node{kind: mapping, flow: true, start: in.start, end: in.start}
			m.own[in] = true
		}
		k := &node{kind: scalar, value: key}
		v.put(in.start)
		k.put(in.start)
		in.keys, in.items = append(in.keys, k), append(in.items, v)
	}
}

// put gives a new node, and all in it, a place in the old text.
func (n *node) put(at int) {
	n.start, n.end = at, at
	for _, k := range n.keys {
		k.start, k.end = at, at
	}
	for _, c := range n.items {
		c.put(at)
	}
}

// bindLike binds the tree of f, taking over from old what is bound to the same nodes under the same path.
func (f *File) bindLike(old *File) {
	if f.newer(f.root, "berthwright") {
		return
	}
	f.Build = old.Build
	was, is := old.root.get("items"), f.root.get("items")
	if is != nil && len(is.items) > maxItems {
		f.bindAll() // refuses
		return
	}
	table := doc.Fields()
	top := &found{}
	b := &binder{out: top}
	b.keys(f.root, table)
	f.parts = append(make([]part, 0, len(old.parts)+1), part{item: -1, found: top})
	before := map[string]*part{}
	var rows []*part
	for i := range old.parts {
		if p := &old.parts[i]; p.item >= 0 {
			rows = append(rows, p)
		} else if p.key != "" {
			before[p.key] = p
		}
	}
	v := reflect.ValueOf(&f.Build).Elem()
	for i := range table.Fields {
		c := &table.Fields[i]
		if c.Reserved {
			continue
		}
		n := f.root.get(c.Key)
		if n == nil || n.kind == null {
			v.Field(c.Index).SetZero()
			if c.Required {
				b.missing(f.root, c)
			}
			continue
		}
		if c.Key == "items" && n.kind == list {
			f.bindItems(was, is, c, old.Build.Items, rows)
			continue
		}
		if p := before[c.Key]; p != nil && n == old.root.get(c.Key) {
			f.parts = append(f.parts, *p)
			continue
		}
		v.Field(c.Index).SetZero()
		f.parts = append(f.parts, bindPart(n, c, v.Field(c.Index)))
	}
	f.settle(old)
}

// bindItems binds the entries of is, taking over those that stand in was under the same name.
func (f *File) bindItems(was, is *node, c *doc.Field, items []doc.Item, rows []*part) {
	if was == is {
		for _, p := range rows {
			f.parts = append(f.parts, *p)
		}
		return
	}
	names := namesLike(was, is, c, rows)
	var index map[*node]int
	aligned := was != nil && len(was.items) == len(is.items) && len(rows) == len(is.items)
	if aligned {
		f.Build.Items = slices.Clone(items) // at one go: this is most of the time of a preview
	} else {
		f.Build.Items = make([]doc.Item, len(is.items))
	}
	for i, n := range is.items {
		j := i
		if was == nil || j >= len(was.items) || was.items[j] != n {
			if index == nil {
				index = map[*node]int{}
				if was != nil {
					for k, w := range was.items {
						index[w] = k
					}
				}
			}
			var ok bool
			if j, ok = index[n]; !ok {
				j = -1
			}
		}
		if j >= 0 && j < len(rows) && rows[j].name == names[i] {
			if !aligned || i != j {
				f.Build.Items[i] = items[j]
			}
			p := *rows[j]
			p.item = i
			f.parts = append(f.parts, p)
			continue
		}
		f.Build.Items[i] = doc.Item{}
		f.parts = append(f.parts, bindItem(n, c, names[i], i, &f.Build.Items[i]))
	}
}

// namesLike returns the names of the entries of is, from those of was where no entry was added, taken out or renamed.
func namesLike(was, is *node, c *doc.Field, rows []*part) []string {
	if was == nil || len(was.items) != len(is.items) || len(rows) != len(is.items) {
		return entryNames(is, c)
	}
	key := idKey(c)
	names := make([]string, len(rows))
	for i, n := range is.items {
		if n != was.items[i] && entryWord(n, key) != entryWord(was.items[i], key) {
			return entryNames(is, c)
		}
		names[i] = rows[i].name
	}
	return names
}
