package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"

	"berthwright/diag"
	"berthwright/docfile"
)

const module = "../../.."

func TestFilesAreUpToDate(t *testing.T) {
	if err := run(module, true); err != nil {
		t.Fatal(err)
	}
}

func compiled(t *testing.T, name string) *jsonschema.Schema {
	t.Helper()
	files, err := generate()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if f.name != name {
			continue
		}
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(f.text))
		if err != nil {
			t.Fatal(err)
		}
		c := jsonschema.NewCompiler()
		if err := c.AddResource(name, v); err != nil {
			t.Fatal(err)
		}
		s, err := c.Compile(name)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	t.Fatalf("no file %s is generated", name)
	return nil
}

// instance is what an editor makes of a text: words, numbers, true and false.
func instance(t *testing.T, text []byte) any {
	t.Helper()
	var n yaml.Node
	if err := yaml.Load(text, &n); err != nil {
		t.Fatal(err)
	}
	return plain(n.Content[0])
}

var number = regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][-+]?[0-9]+)?$`)

func plain(n *yaml.Node) any {
	switch n.Kind {
	case yaml.MappingNode:
		m := map[string]any{}
		for i := 0; i < len(n.Content); i += 2 {
			m[n.Content[i].Value] = plain(n.Content[i+1])
		}
		return m
	case yaml.SequenceNode:
		l := []any{}
		for _, c := range n.Content {
			l = append(l, plain(c))
		}
		return l
	}
	if n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) == 0 {
		switch {
		case n.Value == "":
			return nil
		case n.Value == "true" || n.Value == "false":
			return n.Value == "true"
		case number.MatchString(n.Value):
			return json.Number(n.Value)
		}
	}
	return n.Value
}

func TestCrossExamplesKeepToTheSchema(t *testing.T) {
	s := compiled(t, "docs/schema/berthwright.schema.json")
	names, err := filepath.Glob(module + "/examples/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	builds := 0
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(text, []byte("\nberthwright: 1")) {
			continue // another kind of file
		}
		builds++
		if err := s.Validate(instance(t, text)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		f := docfile.Read(name, text)
		for _, d := range f.Diags {
			if d.Severity == diag.Error {
				t.Errorf("%v", d)
			}
		}
	}
	if builds == 0 {
		t.Fatal("no example build was found")
	}
}

// TestCrossBinderAndSchemaAgree holds the two to each other where both can tell.
func TestCrossBinderAndSchemaAgree(t *testing.T) {
	s := compiled(t, "docs/schema/berthwright.schema.json")
	const head = "berthwright: 1\nbuild: {id: planted}\n"
	for _, c := range []struct{ text, code string }{
		{"", ""},
		{"items: [{id: a, mass: 19.2 kg ± 4 %}]", ""},
		{"items: [{id: a, mass: 19.2 kg ± 10 lb}]", ""},
		{"items: [{id: a, mass: '42,5 lb', size: {x: 5 ft 10 in, y: 20\", z: 1/2 in}}]", ""},
		{"items: [{id: 12, mass: 0, price: 249.50, turn: 90 °}]", ""},
		{"items: [{id: a, at: , mass: }]", ""},
		{"items: [{id: a, electric: {anything: [1, 2]}}]\ntrips: [x]", ""},
		{"items: [{id: a, mass: 19.2}]", "missing-unit"},
		{"items: [{id: a, mass: 12}]", "missing-unit"},
		{"items: [{id: a, mass: 12.5 Ah}]", "wrong-unit"},
		{"items: [{id: a, mass: 12.5 stone}]", "unknown-unit"},
		{"items: [{id: a, mass: heavy}]", "not-a-number"},
		{"items: [{id: a, mass: {kg: 3}}]", "not-a-value"},
		{"items: [{id: a, mass: 3 kg ± 4 mm}]", "wrong-unit"},
		{"items: [{id: a, mess: 3 kg}]", "unknown-key"},
		{"items: [{name: a}]", "missing-key"},
		{"items: [{id: a b}]", "bad-id"},
		{"items: {id: a}", "not-a-list"},
		{"items: [a]", "not-a-mapping"},
		{"items: [{id: a, removed: yes}]", "not-true-or-false"},
		{"items: [{id: a, removed: 1}]", "not-true-or-false"},
		{"items: [{id: a, group: kichen}]", "unknown-word"},
		{"items: [{id: a, count: 2.5}]", "not-a-whole-number"},
		{"items: [{id: a, count: 1000}]", "out-of-range"},
		{"items: [{id: a, dated: yesterday}]", "not-a-date"},
		{"items:\n-\n- {id: a}", "empty-entry"},
		{"van: {wheelbase: 4 kg}", "wrong-unit"},
	} {
		text := []byte(head + c.text + "\n")
		f := docfile.Read("planted.yaml", text)
		var codes []string
		for _, d := range f.Diags {
			codes = append(codes, string(d.Code))
		}
		if got := strings.Join(codes, " "); got != c.code {
			t.Errorf("%s\nbinder says %q, want %q", c.text, got, c.code)
		}
		if err := s.Validate(instance(t, text)); (err == nil) != (c.code == "") {
			t.Errorf("%s\nbinder says %q, schema says %v", c.text, codes, err)
		}
	}
}

func TestRecordSchema(t *testing.T) {
	s := compiled(t, "docs/schema/berthwright-record.schema.json")
	const good = "berthwright-record: 1\nbuild: curlew\nweighings:\n- {id: w1, stage: finished, front: 1321 kg ± 5 kg, fills: [{tank: fresh, level: 50 %}], items: [fridge]}\n"
	for text, fine := range map[string]bool{
		good: true,
		strings.Replace(good, "1321 kg", "1321", 1):     false,
		strings.Replace(good, "build: curlew\n", "", 1): false,
	} {
		f := docfile.ReadRecord("record.yaml", []byte(text))
		if err := s.Validate(instance(t, []byte(text))); (err == nil) != fine || (len(f.Diags) == 0) != fine {
			t.Errorf("%s\nschema: %v\nbinder: %v", text, err, f.Diags)
		}
	}
}
