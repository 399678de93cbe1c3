package docfile

import (
	"reflect"

	"berthwright/diag"
	"berthwright/doc"
)

// RecordFile is the text of a record with what it says.
type RecordFile struct {
	Name     string
	Text     []byte
	Readable bool
	Record   doc.Record
	Diags    diag.List
}

// ReadRecord reads the text of a record. refs, when given, knows the ids of the build it belongs to ("item").
func ReadRecord(name string, text []byte, refs ...Refs) *RecordFile {
	f := &File{Name: name, Text: text, index: diag.NewText(text)}
	out := &RecordFile{Name: name, Text: text}
	if len(refs) > 0 {
		f.refs = refs[0]
	}
	root, bad := parse(text)
	if bad != nil {
		out.Diags = f.diagnostics([]problem{bad.problem()})
		return out
	}
	if f.newer(root, "berthwright-record") {
		out.Diags = f.Diags
		return out
	}
	out.Readable = true
	b := &binder{out: &found{}}
	b.mapping(root, doc.RecordFields(), reflect.ValueOf(&out.Record).Elem())
	problems := append(b.out.problems, indexIDs([]part{{item: -1, found: b.out}}, nil).twice...)
	problems = append(problems, (*idIndex)(nil).check(b.out.refs, f.refs)...)
	out.Diags = f.diagnostics(problems)
	return out
}
