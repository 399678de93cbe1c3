package doc

import (
	"reflect"
	"strings"
	"testing"
)

// visit calls f for every field of a table, with its path.
func visit(path string, t *Field, f func(path string, t *Field)) {
	for i := range t.Fields {
		c := &t.Fields[i]
		p := strings.TrimPrefix(path+"/"+c.Key, "/")
		f(p, c)
		visit(p, c, f)
	}
}

func TestFieldTable(t *testing.T) {
	for _, root := range []*Field{Fields(), RecordFields()} {
		seen := map[string]bool{}
		visit("", root, func(path string, f *Field) {
			if seen[path] {
				t.Errorf("%s is there twice", path)
			}
			seen[path] = true
			if f.Help == "" || strings.HasSuffix(f.Help, ".") {
				t.Errorf("%s: help %q", path, f.Help)
			}
			if strings.ToLower(f.Key) != f.Key || strings.ContainsAny(f.Key, " _/~#") {
				t.Errorf("%s: key", path)
			}
			switch f.Key {
			case "on", "off", "yes", "no", "true", "false", "null":
				t.Errorf("%s: some readers of YAML take this key for something else", path)
			}
			if f.Lo != "" && !(f.Min <= f.Max) {
				t.Errorf("%s: range %s..%s", path, f.Lo, f.Hi)
			}
			if f.Kind == Quantity && f.Of.Unit() != "" && f.Unit == "" {
				t.Errorf("%s: a %s has no usual unit", path, f.Of)
			}
			if f.Unit != "" {
				if _, err := f.Of.Parse("1 " + f.Unit); f.Kind != Quantity || err != nil {
					t.Errorf("%s: unit %q: %v", path, f.Unit, err)
				}
			}
			if (f.Kind == Mapping) != (len(f.Fields) > 0) {
				t.Errorf("%s: %s with %d keys", path, f.Kind, len(f.Fields))
			}
			ids := 0
			for i := range f.Fields {
				if f.Fields[i].ID || f.Fields[i].KeyField {
					ids++
				}
			}
			if ids > 1 {
				t.Errorf("%s has %d names", path, ids)
			}
		})
		if len(seen) < 20 {
			t.Errorf("only %d fields", len(seen))
		}
	}
	f, ok := Fields().Entry("items")
	if !ok || !f.List || f.Go != reflect.TypeFor[Item]() {
		t.Fatalf("items: %+v", f)
	}
	mass, ok := f.Entry("mass")
	if !ok || !mass.Optional || mass.Unit != "kg" || mass.Max != 3000 {
		t.Errorf("mass: %+v", mass)
	}
	if id, ok := f.IDField(); !ok || id.Key != "id" || !id.Required {
		t.Errorf("id: %+v", id)
	}
	if e, ok := f.Entry("electric"); !ok || !e.Reserved || e.Index != -1 {
		t.Errorf("electric: %+v", e)
	}
}

func TestPropWhatIsUsualIsAllowed(t *testing.T) {
	stated := 0
	var visit func(path string, f *Field)
	visit = func(path string, f *Field) {
		if f.Usually() != "" {
			stated++
			if !(f.UsualMin < f.UsualMax) || f.Kind != Quantity && f.Kind != Whole {
				t.Errorf("%s: usually %s", path, f.Usually())
			}
			if f.Lo != "" && (f.UsualLo != "" && !(f.UsualMin > f.Min) || f.UsualHi != "" && !(f.UsualMax < f.Max)) {
				t.Errorf("%s: usually %s, allowed %s to %s", path, f.Usually(), f.Lo, f.Hi)
			}
		}
		for i := range f.Fields {
			visit(path+"/"+f.Fields[i].Key, &f.Fields[i])
		}
	}
	visit("", Fields())
	if stated < 10 {
		t.Errorf("only %d fields say what is usual", stated)
	}
}
