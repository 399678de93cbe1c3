package docfile

import (
	"errors"
	"strings"
	"testing"

	"berthwright/diag"
	"berthwright/doc"
)

// TestSplices shows what an operation does to the text, in every style.
func TestSplices(t *testing.T) {
	const head = "berthwright: 1\nbuild: {id: x}\n"
	set := func(path, value string) doc.Op { return doc.Op{Kind: doc.Set, Path: path, Value: value} }
	unset := func(path string) doc.Op { return doc.Op{Kind: doc.Unset, Path: path} }
	insert := func(path, value, after string) doc.Op {
		return doc.Op{Kind: doc.Insert, Path: path, Value: value, After: after}
	}
	remove := func(path string) doc.Op { return doc.Op{Kind: doc.Remove, Path: path} }
	for _, c := range []struct {
		name, before string
		op           doc.Op
		after        string
	}{
		{"a value keeps its column and comment", "van:\n  length:   6 m   # taped\n", set("van/length", "6.02 m"), "van:\n  length:   6.02 m   # taped\n"},
		{"a value in brackets", "van: {length: 6 m, width: 2 m}\n", set("van/width", "2.04 m"), "van: {length: 6 m, width: 2.04 m}\n"},
		{"an empty value", "van:\n  length:   # not yet\n  width: 2 m\n", set("van/length", "6 m"), "van:\n  length: 6 m   # not yet\n  width: 2 m\n"},
		{"an empty value in brackets", "van: {length, width: }\n", set("van/length", "6 m"), "van: {length: 6 m, width: }\n"},
		{"a new key on a line", "van:\n    length: 6 m\n    # still to be taped\n\nitems:\n", set("van/width", "2 m"), "van:\n    length: 6 m\n    width: 2 m\n    # still to be taped\n\nitems:\n"},
		{"a new key in brackets", "van: {length: 6 m}\n", set("van/width", "2 m"), "van: {length: 6 m, width: 2 m}\n"},
		{"a new section", "van: {length: 6 m}\n# the end\n", set("loading/luggage", "145 kg"), "van: {length: 6 m}\nloading: {luggage: 145 kg}\n# the end\n"},
		{"keys on the way, as the file has them in brackets", "items:\n  - id: a\n    at: {x: 1 m}\n  - id: b\n", set("items/b/at/x", "2 m"), "items:\n  - id: a\n    at: {x: 1 m}\n  - id: b\n    at: {x: 2 m}\n"},
		{"keys on the way, as the file has them on lines", "items:\n  - id: a\n    at:\n      x: 1 m\n  - id: b\n", set("items/b/at/x", "2 m"), "items:\n  - id: a\n    at:\n      x: 1 m\n  - id: b\n    at:\n      x: 2 m\n"},
		{"a text over lines", "items:\n- id: a\n  remark: |\n    one\n    two\n- id: b\n", set("items/a/remark", "three"), "items:\n- id: a\n  remark: three\n- id: b\n"},
		{"a key taken out", "van:\n  # as taped\n  length: 6 m   # twice\n  width: 2 m\n", unset("van/length"), "van:\n  width: 2 m\n"},
		{"a key in brackets taken out", "van: {length: 6 m, width: 2 m}\n", unset("van/length"), "van: {width: 2 m}\n"},
		{"the last key taken out", "van:\n  length: 6 m\nitems:\n", unset("van/length"), "van:\nitems:\n"},
		{"an entry as its neighbours", "items:\n- id: a\n  name: A\n", insert("items", "{id: b, name: \"B, the second\"}", ""), "items:\n- id: a\n  name: A\n- id: b\n  name: \"B, the second\"\n"},
		{"an entry in brackets as its neighbours", "items:\n  - {id: a}\n", insert("items", "{id: b}", ""), "items:\n  - {id: a}\n  - {id: b}\n"},
		{"an entry between", "items:\n  - id: a\n    # about a\n\n  # about c\n  - id: c\n", insert("items", "{id: b}", "a"), "items:\n  - id: a\n    # about a\n  - id: b\n\n  # about c\n  - id: c\n"},
		{"the first entry", "items: []\n", insert("items", "{id: a, mass: 1 kg}", ""), "items:\n  - id: a\n    mass: 1 kg\n"},
		{"the first entry of a new list", "van: {length: 6 m}\n", insert("items", "{id: a}", ""), "van: {length: 6 m}\nitems:\n  - id: a\n"},
		{"a word", "loading: {seats: [a]}\n", insert("loading/seats", "b", ""), "loading: {seats: [a, b]}\n"},
		{"an entry taken out with its comment", "items:\n  - id: a\n\n  # about b\n  - id: b\n    name: B\n    # more about b\n  - id: c\n", remove("items/b"), "items:\n  - id: a\n\n  - id: c\n"},
		{"an entry of a fill", "loading:\n  travelling:\n    fills:\n      - {tank: fresh, level: 1 %}\n      - {tank: waste, level: 2 %}\n", remove("loading/travelling/fills/fresh"), "loading:\n  travelling:\n    fills:\n      - {tank: waste, level: 2 %}\n"},
		{"a text with a colon is given in quotes", "notes:\n- id: n\n", set("notes/n/text", Quote("note: this")), "notes:\n- id: n\n  text: \"note: this\"\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := Read("splice.yaml", []byte(head+c.before))
			g, back, err := f.Apply(doc.Change{Ops: []doc.Op{c.op}})
			if err != nil {
				t.Fatal(err)
			}
			if got := string(g.Text); got != head+c.after {
				t.Errorf("got\n%s\nwant\n%s", got, head+c.after)
			}
			if h, _, err := g.Apply(back); err != nil || string(h.Text) != head+c.before {
				t.Errorf("back: %v\n%s", err, h.Text)
			}
			compareEdits(t, f, doc.Change{Ops: []doc.Op{c.op}})
		})
	}
}

func TestRefusedOperations(t *testing.T) {
	f := Read("refused.yaml", []byte("berthwright: 1\nbuild: {id: x}\nitems:\n- {id: a, name: A}\n- {id: b}\nloading: {seats: [a], luggage: 3 kg}\n"))
	for _, c := range []struct {
		op   doc.Op
		says string
	}{
		{doc.Op{Kind: doc.Set, Path: "", Value: "3"}, "empty"},
		{doc.Op{Kind: "move", Path: "items/a"}, "no such operation"},
		{doc.Op{Kind: doc.Set, Path: "items/a/id", Value: "c"}, "never changed"},
		{doc.Op{Kind: doc.Unset, Path: "items/a/id"}, "keeps its id"},
		{doc.Op{Kind: doc.Set, Path: "items/a", Value: "{id: c}"}, "keeps its id"},
		{doc.Op{Kind: doc.Set, Path: "items/c/name", Value: "C"}, `no entry "c"`},
		{doc.Op{Kind: doc.Set, Path: "loading/party/ann/mass", Value: "70 kg"}, "no entry yet"},
		{doc.Op{Kind: doc.Set, Path: "loading/luggage/x", Value: "70 kg"}, "not keys"},
		{doc.Op{Kind: doc.Set, Path: "items/a/name", Value: "a: b"}, "one value"},
		{doc.Op{Kind: doc.Set, Path: "items/a/name", Value: "a]\n- b"}, "one line"},
		{doc.Op{Kind: doc.Set, Path: "items/a/name", Value: "a}, {id: z"}, "one value"},
		{doc.Op{Kind: doc.Set, Path: "items/a/name", Value: "a # b"}, "one value"},
		{doc.Op{Kind: doc.Set, Path: "items/a/name", Value: "&a b"}, "one value"},
		{doc.Op{Kind: doc.Unset, Path: "items/a/mass"}, "nothing is written"},
		{doc.Op{Kind: doc.Unset, Path: "berthwright"}, "version"},
		{doc.Op{Kind: doc.Unset, Path: "items/a"}, "remove takes entries"},
		{doc.Op{Kind: doc.Remove, Path: "items/a/name"}, "unset takes keys"},
		{doc.Op{Kind: doc.Insert, Path: "items/a/name", Value: "b"}, "not a list"},
		{doc.Op{Kind: doc.Insert, Path: "items", Value: "{id: c}", After: "z"}, `no entry "z"`},
		{doc.Op{Kind: doc.Set, Path: "berthwright", Value: "2"}, "version"},
	} {
		g, _, err := f.Apply(doc.Change{Ops: []doc.Op{{Kind: doc.Set, Path: "items/b/name", Value: "B"}, c.op}})
		if err == nil || g != nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: %v", c.op, err)
		}
		var pe *PathError
		if !errors.As(err, &pe) {
			t.Errorf("%+v: %T", c.op, err)
		}
	}
	for _, op := range []doc.Op{
		{Kind: doc.Set, Path: "items/a/name", Value: "C", Found: "B"},
		{Kind: doc.Unset, Path: "items/b/name", Found: "B"},
		{Kind: doc.Insert, Path: "items", Value: "{id: b, name: another}"},
	} {
		var ce *ConflictError
		if _, _, err := f.Apply(doc.Change{Ops: []doc.Op{op}}); !errors.As(err, &ce) {
			t.Errorf("%+v: %v", op, err)
		}
	}
	if _, _, err := f.Apply(doc.Change{Ops: []doc.Op{{Kind: doc.Set, Path: "items/a/name", Value: "C", Found: `"A"`}}}); err != nil {
		t.Errorf("the same text found in quotes: %v", err)
	}
}

func TestRefsOutsideTheFile(t *testing.T) {
	refs := Refs{
		Known: func(kind, id string) bool { return kind != "part" || id == "fridge@1" },
		Near:  func(kind, id string) (string, bool) { return "fridge@1", kind == "part" },
	}
	text := []byte("berthwright: 1\nbuild: {id: x}\nvan: {class: anything}\nitems: [{id: a, from: fridge@1}, {id: b, from: frigde@1}]\n")
	f := Read("refs.yaml", text, refs)
	if len(f.Diags) != 1 || f.Diags[0].Code != diag.UnknownID || f.Diags[0].Hint != `did you mean "fridge@1"?` || f.Diags[0].Path != "items/b/from" {
		t.Errorf("%+v", f.Diags)
	}
	if f := Read("refs.yaml", text); len(f.Diags) > 0 {
		t.Errorf("without a catalogue: %v", f.Diags)
	}
	g, _, err := f.Apply(doc.Change{Ops: []doc.Op{{Kind: doc.Set, Path: "items/a/from", Value: "stove@1"}}})
	if err != nil || len(g.Diags) != 2 {
		t.Errorf("%v %v", err, g.Diags)
	}
}
