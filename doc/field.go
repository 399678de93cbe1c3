package doc

import (
	"math"
	"reflect"
	"strconv"
	"strings"
	"sync"

	"berthwright/unit"
)

// Kind tells what a value in the file is, as the reader of a form would say it.
type Kind string

// The kinds of value.
const (
	Mapping  Kind = "mapping"
	Text     Kind = "text"
	Whole    Kind = "whole number"
	YesNo    Kind = "true or false"
	Day      Kind = "date"
	Quantity Kind = "quantity" // a number with a unit: Field.Of tells of what
	Anything Kind = "anything" // reserved keys: kept, not read
)

// Field is one row of the field table: what one key of the file means.
// The binder, the JSON Schema, docs/file-format.md and the form on the page are all made from it.
type Field struct {
	Key      string       // the key in the file; "" at the root
	Kind     Kind         // kind of the value, or of each entry when List
	Of       unit.Kind    // Quantity: of what
	List     bool         // the value is a list
	Optional bool         // held as Opt or Box: absent differs from zero
	Required bool         // the file is incomplete without it; its absence is a diagnostic
	Reserved bool         // read by a later version: kept untouched, not read
	ID       bool         // it is the id of the entry it stands in
	KeyField bool         // it names the entry it stands in, but refers to something else
	Unit     string       // usual unit, for hints and columns
	Lo, Hi   string       // inclusive range as text, or both empty
	Min, Max float64      // the range as plain numbers, SI for a quantity (unit.Kind.Parse)
	Why      string       // why the range is what it is
	UsualLo  string       // what is usual, inclusive, as text; "" is open. Both empty: not stated
	UsualHi  string       //
	UsualMin float64      // the same as plain numbers, infinite where open
	UsualMax float64      //
	Enum     []string     // the words allowed
	Ref      string       // the kind of id the text refers to
	Help     string       // what it is
	Fields   []Field      // keys of a mapping, in file order
	Go       reflect.Type // Go type of the value or of each entry, without Opt or Box
	Index    int          // index of the struct field, -1 when reserved or the root
}

// Entry returns the field of a mapping with the given key.
func (f *Field) Entry(key string) (*Field, bool) {
	for i := range f.Fields {
		if f.Fields[i].Key == key {
			return &f.Fields[i], true
		}
	}
	return nil, false
}

// Usually says what is usual: "at most 400 kg", "from 2.5 m to 4.8 m"; "" when that is not stated.
func (f *Field) Usually() string {
	switch {
	case f.UsualLo != "" && f.UsualHi != "":
		return "from " + f.UsualLo + " to " + f.UsualHi
	case f.UsualHi != "":
		return "at most " + f.UsualHi
	case f.UsualLo != "":
		return "at least " + f.UsualLo
	}
	return ""
}

// IDField returns the field that names an entry (its id, or failing that its key field).
func (f *Field) IDField() (*Field, bool) {
	for i := range f.Fields {
		if f.Fields[i].ID || f.Fields[i].KeyField {
			return &f.Fields[i], true
		}
	}
	return nil, false
}

// Fields returns the field table of the build file. It is shared: do not change it.
var Fields = sync.OnceValue(func() *Field { return FieldsOf(reflect.TypeFor[Build]()) })

// RecordFields returns the field table of the record file. It is shared: do not change it.
var RecordFields = sync.OnceValue(func() *Field { return FieldsOf(reflect.TypeFor[Record]()) })

// FieldsOf makes the field table of a struct whose fields carry the tags of this package. It panics on a tag that cannot
// be: keep the table, and let a test ask for it.
func FieldsOf(t reflect.Type) *Field {
	return &Field{Kind: Mapping, Go: t, Index: -1, Required: true, Fields: fieldsOf(t)}
}

var kinds = map[reflect.Type]Kind{
	reflect.TypeFor[string](): Text,
	reflect.TypeFor[int]():    Whole,
	reflect.TypeFor[bool]():   YesNo,
	reflect.TypeFor[Date]():   Day,
}

func fieldsOf(t reflect.Type) []Field {
	var out []Field
	for i := range t.NumField() {
		if _, ok := t.Field(i).Tag.Lookup("doc"); ok {
			out = append(out, fieldOf(t, t.Field(i), i))
		}
	}
	return out
}

func fieldOf(in reflect.Type, sf reflect.StructField, index int) Field {
	words := strings.Split(sf.Tag.Get("doc"), ",")
	f := Field{
		Key:  words[0],
		Unit: sf.Tag.Get("unit"), Why: sf.Tag.Get("why"), Ref: sf.Tag.Get("ref"), Help: sf.Tag.Get("help"),
		Index: index,
	}
	for _, w := range words[1:] {
		switch w {
		case "id":
			f.ID = true
		case "key":
			f.KeyField = true
		case "required":
			f.Required = true
		case "reserved":
			f.Reserved = true
		default:
			panic("doc: tag option " + w + " on " + in.Name() + "." + sf.Name)
		}
	}
	if e := sf.Tag.Get("enum"); e != "" {
		f.Enum = strings.Split(e, "|")
	}
	if r := sf.Tag.Get("range"); r != "" {
		f.Lo, f.Hi, _ = strings.Cut(r, "..")
	}
	if f.Reserved {
		f.Kind, f.Index = Anything, -1
		return f
	}
	t := sf.Type
	if t.Kind() == reflect.Slice {
		f.List, t = true, t.Elem()
	} else if of, ok := inOpt(t); ok {
		f.Optional, t = true, of
	}
	f.Go = t
	if k, ok := kinds[t]; ok {
		f.Kind = k
	} else if k, ok := unit.KindOf(t); ok {
		f.Kind, f.Of = Quantity, k
	} else if t.Kind() == reflect.Struct {
		f.Kind, f.Fields = Mapping, fieldsOf(t)
	} else {
		panic("doc: no kind for " + in.Name() + "." + sf.Name)
	}
	if f.Lo != "" {
		f.Min, f.Max = f.bound(f.Lo), f.bound(f.Hi)
	}
	if u := sf.Tag.Get("usual"); u != "" {
		f.UsualLo, f.UsualHi, _ = strings.Cut(u, "..")
		f.UsualMin, f.UsualMax = math.Inf(-1), math.Inf(1)
		if f.UsualLo != "" {
			f.UsualMin = f.bound(f.UsualLo)
		}
		if f.UsualHi != "" {
			f.UsualMax = f.bound(f.UsualHi)
		}
	}
	return f
}

func (f *Field) bound(text string) float64 {
	var v float64
	var err error
	if f.Kind == Quantity {
		v, err = f.Of.Parse(text)
	} else {
		v, err = strconv.ParseFloat(text, 64)
	}
	if err != nil {
		panic("doc: range of " + f.Key + ": " + err.Error())
	}
	return v
}

// inOpt returns T for Opt[T] and Box[T].
func inOpt(t reflect.Type) (reflect.Type, bool) {
	o, ok := reflect.New(t).Interface().(unit.Optional)
	if !ok {
		return nil, false
	}
	v, _ := o.Any()
	return reflect.TypeOf(v), true
}
