package workshop

import (
	"reflect"
	"slices"
	"sync"

	"berthwright/diag"
	"berthwright/doc"
	"berthwright/docfile"
)

// File is the text of a workshop file with what it says.
type File struct {
	Name     string
	Text     []byte
	Readable bool     // false: the text cannot be read at all, Diags has the one reason
	Workshop Workshop // wrong values are absent
	Diags    diag.List
}

// fields is the field table of the workshop file.
var fields = sync.OnceValue(func() *doc.Field { return doc.FieldsOf(reflect.TypeFor[Workshop]()) })

// Read reads a workshop file. name is used in messages only. A confirmed figure that lacks anything required, or has it
// wrong, is absent: it confirms nothing.
func Read(name string, text []byte) *File {
	f := &File{Name: name, Text: text}
	f.Diags, f.Readable = docfile.ReadInto(name, text, fields(), &f.Workshop)
	f.Workshop.Confirmed = slices.DeleteFunc(f.Workshop.Confirmed, func(c Confirmed) bool {
		return c.Rule == "" || c.Edition == "" || c.Clause == "" || c.Initials == "" || !c.Date.Given()
	})
	return f
}
