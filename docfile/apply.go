package docfile

import (
	"strings"

	"berthwright/diag"
	"berthwright/doc"
)

// Apply does all operations of a change on the text, or none: then it returns an error (*PathError, *ConflictError).
// Bytes outside the places of the operations stay as they are. The inverse, applied to the result, gives back the
// text byte for byte; its operations carry what they must find.
func (f *File) Apply(c doc.Change) (*File, doc.Change, error) {
	if !f.Readable {
		return nil, doc.Change{}, &PathError{Problem: "the text cannot be read"}
	}
	d := &draft{text: f.Text, root: f.root}
	var back []doc.Op
	for ops := c.Ops; len(ops) > 0; {
		run := d.run(ops)
		inverse, err := d.do(ops[:run])
		if err != nil {
			return nil, doc.Change{}, err
		}
		back = append(back, inverse...)
		ops = ops[run:]
	}
	for i, j := 0, len(back)-1; i < j; i, j = i+1, j-1 {
		back[i], back[j] = back[j], back[i]
	}
	out := &File{Name: f.Name, Text: d.text, index: diag.NewText(d.text), Readable: true, refs: f.refs, root: d.root}
	out.bindAll()
	if !out.Readable {
		return nil, doc.Change{}, &PathError{Problem: "the text would no longer be readable: " + out.Diags[0].Text()}
	}
	return out, doc.Change{Title: c.Title, Ops: back}, nil
}

// run returns how many operations at the start of ops insert named entries one behind the other, as a pasted table
// does: they become one splice, so that the text is read once. It is 1 for anything else.
func (d *draft) run(ops []doc.Op) int {
	_, n, f, left := walk(d.root, ops[0].Path)
	if ops[0].Kind != doc.Insert || len(left) > 0 || n.kind != list || len(n.items) == 0 {
		return 1
	}
	key := idKey(f)
	taken := map[string]bool{}
	before := ""
	for i, op := range ops {
		v, err := parseValue(op.Value)
		if err != nil || v.kind != mapping || op.Kind != doc.Insert || op.Path != ops[0].Path || op.Exact != nil {
			return max(1, i)
		}
		name := entryName(v, key)
		if name == "" || taken[name] || entryIndex(n, f, name) >= 0 || i > 0 && op.After != before && (op.After != "" || ops[0].After != "") {
			return max(1, i)
		}
		taken[name] = true
		before = name
	}
	return len(ops)
}

// do does one operation, or a run of them, and returns the inverses in the same order.
func (d *draft) do(ops []doc.Op) ([]doc.Op, error) {
	s, back, err := d.plan(ops[0])
	if err != nil {
		return nil, err
	}
	backs := []doc.Op{back}
	for _, op := range ops[1:] {
		op.After = ops[0].After // all behind the same neighbour, in their order
		more, back, err := d.plan(op)
		if err != nil {
			return nil, err
		}
		s.text += more.text
		backs = append(backs, back)
	}
	text := make([]byte, 0, len(d.text)+len(s.text)-(s.end-s.start))
	text = append(append(append(text, d.text[:s.start]...), s.text...), d.text[s.end:]...)
	root, bad := parse(text)
	if bad != nil {
		return nil, cannot(ops[0], "the text would no longer be readable: %s", bad.text())
	}
	d.text, d.root = text, root
	for i := range backs {
		d.settle(ops[i], &backs[i], s, len(ops) > 1)
	}
	return backs, nil
}

// settle completes an inverse from the text after the operation: the name of the entry written, and what is found.
func (d *draft) settle(op doc.Op, back *doc.Op, s splice, named bool) {
	switch {
	case back.Path != "":
	case named:
		v, _ := parseValue(op.Value)
		_, _, f, _ := walk(d.root, op.Path)
		back.Path = op.Path + "/" + entryName(v, idKey(f))
	case back.Kind == doc.Remove:
		back.Path = d.entryAt(op.Path, s)
	default: // a word in a list took the place of another
		back.Path = d.entryAt(op.Path[:strings.LastIndexByte(op.Path, '/')], s)
	}
	back.Left = back.Value
	if back.Kind == doc.Insert {
		return
	}
	if _, n, _, left := walk(d.root, back.Path); len(left) == 0 {
		back.Found = flowText(n)
	}
}

// entryAt returns the path of the entry of the list at path that the splice wrote.
func (d *draft) entryAt(path string, s splice) string {
	_, n, f, _ := walk(d.root, path)
	for i, c := range n.items {
		if c.end > s.start && c.start < s.start+len(s.text) {
			return path + "/" + nameOf(n, f, i)
		}
	}
	return path
}
