package main

import (
	"bytes"
	"encoding/json"
	"regexp"
	"slices"
	"strings"

	"berthwright/doc"
	"berthwright/unit"
)

// ordered is a JSON object that keeps its keys in order.
type ordered []member

type member struct {
	key   string
	value any
}

// MarshalJSON writes the members in order.
func (o ordered) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		b.Write(text(m.key))
		b.WriteByte(':')
		v, err := json.Marshal(m.value)
		if err != nil {
			return nil, err
		}
		b.Write(v)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func text(s string) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	_ = e.Encode(s) // a string always encodes
	return bytes.TrimRight(b.Bytes(), "\n")
}

// schema writes the JSON Schema (2020-12) of a file. It is for editors: it knows keys, words, forms of values and
// required keys; ranges in units, references and values that exclude each other are the binder's.
func schema(kind string, root *doc.Field) ([]byte, error) {
	top := ordered{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"title", "Berthwright " + kind + " file"},
		{"description", "Written from the field table of package doc; do not edit."},
	}
	w := &writer{made: map[string]any{}}
	top = append(top, w.of(root)...)
	slices.Sort(w.names)
	var defs ordered
	for _, name := range w.names {
		defs = append(defs, member{name, w.made[name]})
	}
	top = append(top, member{"$defs", defs})
	raw, err := json.Marshal(top)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := json.Indent(&out, raw, "", " "); err != nil {
		return nil, err
	}
	out.WriteByte('\n')
	return out.Bytes(), nil
}

// writer gathers the schemas that are used in several places.
type writer struct {
	made  map[string]any
	names []string
}

// share returns a reference to a schema that is made once.
func (w *writer) share(name string, make func() ordered) ordered {
	if _, ok := w.made[name]; !ok {
		w.made[name] = nil // it is being made
		w.made[name] = make()
		w.names = append(w.names, name)
	}
	return ordered{{"$ref", "#/$defs/" + name}}
}

// of returns the members of the schema of one field.
func (w *writer) of(f *doc.Field) ordered {
	if f.List {
		one := *f
		one.List, one.Help = false, ""
		entry := append(w.of(&one), member{"not", ordered{{"type", "null"}}}) // an entry cannot be empty, a value can
		return about(f, ordered{{"type", []string{"array", "null"}}, {"items", entry}})
	}
	switch f.Kind {
	case doc.Mapping:
		if f.Key == "" {
			return w.mapping(f)
		}
		return about(f, w.share(strings.ToLower(f.Go.Name()), func() ordered { return w.mapping(f) }))
	case doc.Text:
		if len(f.Enum) > 0 {
			var words []any
			for _, w := range f.Enum {
				words = append(words, w)
			}
			return about(f, ordered{{"enum", append(words, nil)}})
		}
		o := ordered{{"type", []string{"string", "number", "boolean", "null"}}}
		if f.ID {
			o = append(o, member{"pattern", `^[A-Za-z0-9][-A-Za-z0-9_.]{0,63}$`})
		}
		return about(f, o)
	case doc.Whole:
		o := ordered{{"type", []string{"integer", "null"}}}
		if f.Lo != "" {
			o = append(o, member{"minimum", f.Min}, member{"maximum", f.Max})
		}
		return about(f, o)
	case doc.YesNo:
		return about(f, ordered{{"type", []string{"boolean", "null"}}})
	case doc.Day:
		return about(f, ordered{{"type", []string{"string", "null"}}, {"pattern", `^[0-9]{4}-[0-9]{2}-[0-9]{2}$`}})
	case doc.Quantity:
		name := strings.ReplaceAll(f.Of.Base().String(), " ", "-")
		if f.Of.HasSpread() {
			name += "-with-spread"
		}
		return about(f, w.share(name, func() ordered { return quantity(f) }))
	}
	return about(f, ordered{})
}

func about(f *doc.Field, o ordered) ordered {
	if help := describe(f); help != "" {
		o = append(o, member{"description", help})
	}
	return o
}

// describe says what a field is, with its unit and range.
func describe(f *doc.Field) string {
	s := f.Help
	if f.Lo != "" {
		s += " (" + f.Lo + " to " + f.Hi + ")"
	} else if f.Unit != "" {
		s += " (" + f.Unit + ")"
	}
	return s
}

func (w *writer) mapping(f *doc.Field) ordered {
	var properties ordered
	var required []string
	for i := range f.Fields {
		c := &f.Fields[i]
		properties = append(properties, member{c.Key, w.of(c)})
		if c.Required {
			required = append(required, c.Key)
		}
	}
	o := ordered{{"type", []string{"object", "null"}}, {"properties", properties}, {"additionalProperties", false}}
	if f.Key == "" {
		o[0].value = "object"
	}
	if len(required) > 0 {
		o = append(o, member{"required", required})
	}
	return o
}

// quantity allows a number with one of the units of its kind, a sum of such, and a spread where there may be one.
// A bare 0 is a length or a mass of nought.
func quantity(f *doc.Field) ordered {
	if f.Of == unit.KindMoney {
		return ordered{{"type", []string{"number", "string", "null"}}, {"pattern", `^[-+−]?[0-9][0-9.,  ]*$`}}
	}
	var units []string
	for _, u := range f.Of.Spellings() {
		units = append(units, regexp.QuoteMeta(u))
	}
	slices.SortFunc(units, func(a, b string) int { return len(b) - len(a) })
	unit := "(" + strings.Join(units, "|") + ")"
	pattern := `^[^±]*[0-9½¼¾⅓⅔⅛] *` + unit
	if f.Of.HasSpread() {
		pattern += `( *(±|\+/-|\+-) *[0-9.,]+ *(%|` + unit + `))?`
	}
	return ordered{{"type", []string{"string", "integer", "null"}}, {"pattern", pattern + ` *$`}, {"minimum", 0}, {"maximum", 0}}
}
