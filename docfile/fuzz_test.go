package docfile

import (
	"bytes"
	"strings"
	"testing"

	"berthwright/doc"
)

// FuzzRead reads any text: no panic, every problem has its place inside, and every value its range.
func FuzzRead(f *testing.F) {
	for _, text := range texts(f) {
		f.Add(text[:min(len(text), 900)])
	}
	f.Add([]byte("berthwright: 1\nbuild: {id: x}\nitems:\n- {id: a, mass: 1,860 kg, at: {x: .nan}}\n- &a [*a]\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		file := Read("fuzz.yaml", text)
		if !file.Readable && len(file.Diags) != 1 {
			t.Fatalf("unreadable for %d reasons", len(file.Diags))
		}
		for _, d := range file.Diags {
			if !d.Pos.Known() || d.Pos.Byte < 0 || d.End.Byte > len(text) || d.End.Byte < d.Pos.Byte || !d.Code.Known() {
				t.Fatalf("%+v is not in a text of %d bytes", d, len(text))
			}
		}
		for _, path := range file.Paths() {
			value, ok := file.Value(path)
			r, found := file.Range(path)
			if !ok || !found || r.End.Byte > len(text) || r.Start.Byte > r.End.Byte {
				t.Fatalf("%s: %q %v %+v", path, value, ok, r)
			}
			if strings.ContainsAny(value, "\n\r") {
				t.Fatalf("%s: %q is not on one line", path, value)
			}
			if v, err := parseValue(value); err != nil || flowText(v) != value {
				t.Fatalf("%s: %q does not read back: %v", path, value, err)
			}
		}
	})
}

// FuzzApply does any operation on any text: the text edit is the model edit, the inverse gives the bytes back, and
// every other value stays.
func FuzzApply(f *testing.F) {
	all := texts(f)
	for _, name := range []string{"styles.yaml", "brackets.yaml", "crlf-styles.yaml"} {
		for _, op := range []doc.Op{
			{Kind: doc.Set, Path: "items/alone/remark", Value: "new words"},
			{Kind: doc.Set, Path: "items/12/states/night/at/x", Value: "1 m"},
			{Kind: doc.Unset, Path: "items/1e3/size"},
			{Kind: doc.Insert, Path: "items", Value: "{id: new, mass: 3 kg}", After: "wide"},
			{Kind: doc.Insert, Path: "van/plates", Value: "{id: new}"},
			{Kind: doc.Remove, Path: "items/#5"},
			{Kind: doc.Remove, Path: "loading/travelling/fills/alone"},
			{Kind: doc.Unset, Path: "options"},
		} {
			f.Add(all[name], string(op.Kind), op.Path, op.Value, op.After)
		}
	}
	f.Fuzz(func(t *testing.T, text []byte, kind, path, value, after string) {
		file := Read("fuzz.yaml", text)
		if !file.Readable {
			return
		}
		c := doc.Change{Ops: []doc.Op{{Kind: doc.OpKind(kind), Path: path, Value: value, After: after}}}
		compareEdits(t, file, c)
		g, back, err := file.Apply(c)
		if err != nil {
			return
		}
		compareEdits(t, g, back)
		h, _, err := g.Apply(back)
		if err != nil || !bytes.Equal(h.Text, text) {
			t.Fatalf("%+v\nback %+v\n%v\n%s", c.Ops, back.Ops, err, lineDiff(text, h.Text))
		}
		if len(entriesOfNumber(file)) > 0 {
			return // numbers shift with what is taken out before them
		}
		for _, d := range Diff(file, g) {
			if !touched(d.Path, Touches(c)) {
				t.Fatalf("%+v\nchanged %+v", c.Ops, d)
			}
		}
	})
}

// entriesOfNumber returns the paths that go by numbers.
func entriesOfNumber(f *File) []string {
	var all []string
	for _, p := range f.Paths() {
		if strings.Contains(p, "#") {
			all = append(all, p)
		}
	}
	return all
}
