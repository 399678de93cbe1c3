package docfile

import (
	"reflect"

	"berthwright/diag"
	"berthwright/doc"
)

// ReadInto reads a text that is no build, by the field table of a Go type (doc.FieldsOf), into the value of that type
// that into points to. The first key of the table holds the version of the format. A text that is not readable has one
// problem, and into stays as it was; a value that is wrong stays absent. Warnings are accepted where the table has the
// list accepted, as in a build. refs, when given, knows the ids the text may
// refer to: none of them is looked for in the text itself, where ids are only held to be there once in their list.
func ReadInto(name string, text []byte, table *doc.Field, into any, refs ...Refs) (problems diag.List, readable bool) {
	f := &File{Name: name, Text: text, index: diag.NewText(text)}
	if len(refs) > 0 {
		f.refs = refs[0]
	}
	version := table.Fields[0].Key
	root, bad := parse(text)
	if bad != nil {
		p := bad.problem()
		if p.hint == begin {
			p.hint = "begin with " + version + ": 1"
		}
		return f.diagnostics([]problem{p}), false
	}
	if f.newer(root, version) {
		return f.Diags, false
	}
	b := &binder{out: &found{}}
	v := reflect.ValueOf(into).Elem()
	b.mapping(root, table, v)
	all := append(b.out.problems, indexIDs([]part{{item: -1, found: b.out}}, nil).twice...)
	all = append(all, (*idIndex)(nil).check(b.out.refs, f.refs)...)
	all = all[:min(len(all), maxProblems)]
	if c, ok := table.Entry("accepted"); ok {
		list, _ := v.Field(c.Index).Interface().([]doc.Accepted)
		all = accept(all, root, list)
	}
	return f.diagnostics(all), true
}

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
	f := &RecordFile{Name: name, Text: text}
	f.Diags, f.Readable = ReadInto(name, text, doc.RecordFields(), &f.Record, refs...)
	return f
}
