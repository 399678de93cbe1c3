package edit

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"berthwright/doc"
	"berthwright/docfile"
)

// values holds the values of one entry as YAML text by their path within it: "mass" -> "21 kg", "at/x" -> "480 mm".
type values map[string]string

// flatten writes the values of v, an entry described by f, into out.
func flatten(v reflect.Value, f *doc.Field, prefix string, out values) {
	for i := range f.Fields {
		sub := &f.Fields[i]
		if sub.Index < 0 {
			continue
		}
		path := prefix + sub.Key
		fv := v.Field(sub.Index)
		if sub.List {
			if fv.Len() > 0 {
				out[path] = list(fv, sub)
			}
			continue
		}
		if sub.Optional {
			got := fv.MethodByName("Get").Call(nil)
			if !got[1].Bool() {
				continue
			}
			fv = got[0]
		}
		if sub.Kind == doc.Mapping {
			flatten(fv, sub, path+"/", out)
		} else if text := scalarOf(fv, sub); text != "" {
			out[path] = text
		}
	}
}

func list(v reflect.Value, f *doc.Field) string {
	entries := make([]string, v.Len())
	for i := range entries {
		if f.Kind == doc.Mapping {
			vals := values{}
			flatten(v.Index(i), f, "", vals)
			entries[i] = tree(f, vals, "")
		} else {
			entries[i] = scalarOf(v.Index(i), f)
		}
	}
	return "[" + strings.Join(entries, ", ") + "]"
}

// scalarOf writes one value; "" for an absent text.
func scalarOf(v reflect.Value, f *doc.Field) string {
	switch x := v.Interface().(type) {
	case string:
		if x == "" {
			return ""
		}
		return docfile.Quote(x)
	case bool:
		return strconv.FormatBool(x)
	case int:
		if x == 0 && !f.Optional {
			return ""
		}
		return strconv.Itoa(x)
	case doc.Date:
		return dateText(x)
	case fmt.Stringer:
		return docfile.Quote(x.String())
	}
	panic("edit: no text for " + v.Type().String())
}

func dateText(d doc.Date) string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

// tree writes values as a YAML mapping on one line, keys in the order of the field table.
func tree(f *doc.Field, vals values, prefix string) string {
	var b strings.Builder
	b.WriteByte('{')
	for i := range f.Fields {
		sub := &f.Fields[i]
		path := prefix + sub.Key
		text, ok := vals[path]
		if !ok && sub.Kind == doc.Mapping && !sub.List && under(vals, path+"/") {
			text, ok = tree(sub, vals, path+"/"), true
		}
		if !ok {
			continue
		}
		if b.Len() > 1 {
			b.WriteString(", ")
		}
		b.WriteString(sub.Key + ": " + text)
	}
	b.WriteByte('}')
	return b.String()
}

func under(vals values, prefix string) bool {
	for p := range vals {
		if strings.HasPrefix(p, prefix) {
			return true
		}
	}
	return false
}

// FieldAt returns the field of a path from the root, "items/fridge/at/x": the names of list entries are stepped over.
func FieldAt(path string) (*doc.Field, bool) {
	f := doc.Fields()
	steps := strings.Split(path, "/")
	for i := 0; i < len(steps); i++ {
		if f.List {
			inner := *f
			inner.List = false
			f = &inner
			continue // the name of an entry
		}
		next, ok := f.Entry(unescape(steps[i]))
		if !ok {
			return nil, false
		}
		f = next
	}
	return f, true
}

// below returns the field of a path within an entry of f.
func below(f *doc.Field, path string) (*doc.Field, bool) {
	for step := range strings.SplitSeq(path, "/") {
		next, ok := f.Entry(step)
		if !ok {
			return nil, false
		}
		f = next
	}
	return f, true
}
