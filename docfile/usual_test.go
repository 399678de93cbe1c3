package docfile

import (
	"fmt"
	"strings"
	"testing"

	"berthwright/diag"
	"berthwright/doc"
)

const usualHead = "berthwright: 1\nbuild: {id: x}\n"

// told lists what a text is told, as code and path.
func told(t *testing.T, text string) []string {
	t.Helper()
	f := Read("usual.yaml", []byte(text))
	if !f.Readable {
		t.Fatalf("%s\n%v", text, f.Diags)
	}
	var all []string
	for _, d := range f.Diags {
		if d.Hint == "" || d.Path == "" || (d.Severity == diag.Warning) != (d.Code == diag.FarFromUsual || d.Code == diag.AcceptedNothing) {
			t.Errorf("%+v", d)
		}
		all = append(all, string(d.Code)+" "+d.Path)
	}
	return all
}

// TestPropFarFromUsual: at the edge of what is usual nothing is said, beyond it there is a warning, the value counts all
// the same, and beyond the range it is an error.
func TestPropFarFromUsual(t *testing.T) {
	for _, c := range []struct{ path, text, usual, far, wrong string }{
		{"items/a/mass", "items: [{id: a, mass: %s}]", "400 kg", "401 kg", "4000 kg"},
		{"items/a/mass", "items: [{id: a, mass: %s}]", "5 kg ± 60 %", "5 kg ± 61 %", ""},
		{"items/a/mass", "items: [{id: a, mass: %s}]", "5 kg ± 3 kg", "5 kg ± 4 kg", ""},
		{"items/a/count", "items: [{id: a, count: %s}]", "100", "101", "1000"},
		{"items/a/price", "items: [{id: a, price: %s}]", "0.01", "0", ""},
		{"items/a/hours", "items: [{id: a, hours: %s}]", "80 h", "81 h", "600 h"},
		{"van/wheelbase", "van: {wheelbase: %s}", "2.5 m", "2.49 m", "1 m"},
		{"van/wheelbase", "van: {wheelbase: %s}", "4800 mm", "4801 mm", "4800 m"},
		{"van/plated/total", "van: {plated: {total: %s}}", "2500 kg", "2400 kg", "900 kg"},
		{"van/plated/total", "van: {plated: {total: %s}}", "5 t", "5001 kg", "13 t"},
		{"van/plates/b/total", "van: {plates: [{id: b, total: %s}]}", "4.25 t", "5.6 t", ""},
		{"van/tyres/rear", "van: {tyres: {rear: %s}}", "90", "89", "10"},
		{"loading/party/p/mass", "loading: {party: [{id: p, mass: %s}]}", "150 kg", "151 kg", "300 kg"},
		{"loading/luggage", "loading: {luggage: %s}", "500 kg", "501 kg", "3 t"},
		{"items/a/at/x", "van: {floor: {rear: 5030 mm}}\nitems: [{id: a, at: {x: %s}}]", "6030 mm", "6031 mm", "20 m"},
		{"items/a/at/x", "van: {floor: {rear: 5030 mm}, length: 6 m, front-overhang: 1 m}\nitems: [{id: a, at: {x: %s}}]", "6 m", "6.01 m", ""},
		{"items/a/at/x", "van: {front-overhang: 1 m}\nitems: [{id: a, at: {x: %s}}]", "-2 m", "-2.01 m", ""},
		{"items/a/at/x", "van: {floor: {rear: 5 m}}\nitems: [{id: a, turn: 90 °, centre: {y: -100 mm}, at: {x: %s}}]", "5.9 m", "5.91 m", ""},
	} {
		text := func(value string) string { return usualHead + fmt.Sprintf(c.text, value) + "\n" }
		if got := told(t, text(c.usual)); len(got) > 0 {
			t.Errorf("%s %s: %v", c.path, c.usual, got)
		}
		if got := told(t, text(c.far)); len(got) != 1 || got[0] != "far-from-usual "+c.path {
			t.Errorf("%s %s: %v", c.path, c.far, got)
		}
		if f := Read("usual.yaml", []byte(text(c.far))); len(Diff(f, Read("usual.yaml", []byte(text(c.usual))))) != 1 || f.Diags.HasErrors() {
			t.Errorf("%s %s: %v", c.path, c.far, f.Diags)
		}
		if got := told(t, text(c.wrong)); c.wrong != "" && (len(got) != 1 || got[0] != "out-of-range "+c.path) {
			t.Errorf("%s %s: %v", c.path, c.wrong, got)
		}
	}
	f := Read("usual.yaml", []byte(usualHead+"items: [{id: a, mass: 500 kg}]\n"))
	if m, ok := f.Build.Items[0].Mass.Get(); !ok || m.Value.Kilograms() != 500 {
		t.Errorf("the value does not count: %+v", f.Build.Items[0])
	}
	if got := told(t, usualHead+"items: [{id: a, at: {x: 14 m}}]\n"); len(got) > 0 {
		t.Errorf("the van has no ends yet: %v", got)
	}
}

// TestPropAccepted: a warning is switched off by its code, at its path or above, with a reason; an error never is.
func TestPropAccepted(t *testing.T) {
	const far, none = "far-from-usual items/a/mass", "accepted-nothing accepted/#1"
	for _, c := range []struct {
		entry string
		want  []string
	}{
		{"{code: far-from-usual, path: items/a/mass, reason: a safe}", nil},
		{"{code: far-from-usual, path: items/a, reason: a safe}", nil},
		{"{code: far-from-usual, reason: a circus}", nil},
		{"{code: far-from-usual, path: items/a/ma, reason: a safe}", []string{far, none}},
		{"{code: far-from-usual, path: items/b, reason: a safe}", []string{far, none}},
		{"{code: far-from-usual, path: items/a/mass}", []string{far, "missing-key accepted/#1/reason"}},
		{"{path: items/a/mass, reason: a safe}", []string{far, "missing-key accepted/#1/code"}},
		{"{code: newer-part, path: items/a, reason: old stock}", []string{far}},
		{"{code: far-from-usal, path: items/a, reason: a safe}", []string{far, "unknown-code accepted/#1/code"}},
		{"{code: wrong-unit, path: items/b, reason: I say so}", []string{far, "unknown-code accepted/#1/code"}},
		{"a safe", []string{far, "not-a-mapping accepted/a safe"}},
		{"", []string{far, "empty-entry accepted/#1"}},
	} {
		text := usualHead + "items:\n- {id: a, mass: 500 kg}\n- {id: b, mass: 5 kg}\naccepted:\n- " + c.entry + "\n"
		got := told(t, text)
		if strings.Join(got, ", ") != strings.Join(c.want, ", ") {
			t.Errorf("%s: %v, want %v", c.entry, got, c.want)
		}
	}
	wrong := told(t, usualHead+"items: [{id: a, mass: 5 Ah}]\naccepted: [{code: wrong-unit, path: items/a/mass, reason: no}]\n")
	if len(wrong) != 2 || wrong[0] != "wrong-unit items/a/mass" {
		t.Errorf("an error was accepted: %v", wrong)
	}
	twice := told(t, usualHead+"accepted:\n- {code: far-from-usual, path: items/x, reason: later}\n- {code: accepted-nothing, path: \"accepted/#1\", reason: it comes back}\n")
	if len(twice) != 0 {
		t.Errorf("an entry for later cannot be kept: %v", twice)
	}
}

// TestPropUsualWhileMoving: a preview says the same as reading the text that the change makes.
func TestPropUsualWhileMoving(t *testing.T) {
	f := Read("usual.yaml", []byte(usualHead+"van: {floor: {rear: 5 m}}\nitems:\n- {id: a, at: {x: 2 m}}\n- {id: b, mass: 500 kg}\naccepted:\n- {code: far-from-usual, path: items/b, reason: a safe}\n"))
	if len(f.Diags) > 0 {
		t.Fatal(f.Diags)
	}
	for _, op := range []doc.Op{
		{Kind: doc.Set, Path: "items/a/at/x", Value: "9 m"},
		{Kind: doc.Set, Path: "van/floor/rear", Value: "2.1 m"},
		{Kind: doc.Set, Path: "items/b/mass", Value: "50 kg"},
		{Kind: doc.Unset, Path: "accepted"},
		{Kind: doc.Remove, Path: "accepted/#1"},
		{Kind: doc.Remove, Path: "items/b"},
		{Kind: doc.Insert, Path: "items", Value: "{id: c, at: {x: 9 m}}"},
		{Kind: doc.Set, Path: "accepted/#1/reason", Value: "another"},
	} {
		compareEdits(t, f, doc.Change{Ops: []doc.Op{op}})
	}
	_, list, err := f.Preview(doc.Change{Ops: []doc.Op{{Kind: doc.Set, Path: "items/a/at/x", Value: "9 m"}}})
	if err != nil || len(list) != 1 || list[0].Path != "items/a/at/x" {
		t.Errorf("%v %v", list, err)
	}
}
