package docfile

import (
	"berthwright/doc"
	"strings"
)

// Apply does all operations of a change on the text, or none: then it returns an error (*PathError, *ConflictError).
// Bytes outside the places of the operations stay as they are. The inverse, applied to the result, gives back the
// text byte for byte.
func (f *File) Apply(c doc.Change) (*File, doc.Change, error) {
	if !f.Readable {
		return nil, doc.Change{}, &PathError{Problem: "the text cannot be read"}
	}
	d := &draft{text: f.Text, root: f.root}
	inverse := doc.Change{Title: c.Title, Ops: make([]doc.Op, len(c.Ops))}
	for i, op := range c.Ops {
		back, err := d.do(op)
		if err != nil {
			return nil, doc.Change{}, err
		}
		inverse.Ops[len(c.Ops)-1-i] = back
	}
	out := Read(f.Name, d.text, f.refs)
	if !out.Readable {
		return nil, doc.Change{}, &PathError{Problem: "the text would no longer be readable: " + out.Diags[0].Text()}
	}
	return out, inverse, nil
}

// do does one operation and returns its inverse.
func (d *draft) do(op doc.Op) (doc.Op, error) {
	s, back, err := d.plan(op)
	if err != nil {
		return back, err
	}
	text := make([]byte, 0, len(d.text)+len(s.text)-(s.end-s.start))
	text = append(append(append(text, d.text[:s.start]...), s.text...), d.text[s.end:]...)
	root, bad := parse(text)
	if bad != nil {
		return back, cannot(op, "the text would no longer be readable: %s", bad.text())
	}
	before := d.root
	d.text, d.root = text, root
	_ = before
	switch {
	case back.Kind == doc.Remove && back.Path == "":
		back.Path = d.entryAt(op, s)
	case back.Path == "": // a word in a list took another
		back.Path = d.entryAt(doc.Op{Path: op.Path[:strings.LastIndexByte(op.Path, '/')]}, s)
	}
	if back.Kind != doc.Insert {
		if _, n, _, left := walk(d.root, back.Path); len(left) == 0 {
			back.Found = flowText(n)
		}
	}
	return back, nil
}

// entryAt returns the path of the entry of the list at op.Path that the splice wrote.
func (d *draft) entryAt(op doc.Op, s splice) string {
	_, n, f, _ := walk(d.root, op.Path)
	for i, c := range n.items {
		if c.end > s.start && c.start < s.start+len(s.text) {
			return op.Path + "/" + nameOf(n, f, i)
		}
	}
	return op.Path
}
