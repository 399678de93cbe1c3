package workshop

import (
	"os"
	"strings"
	"testing"

	"berthwright/diag"
	"berthwright/doc"
	"berthwright/rules"
	"berthwright/unit"
)

const small = `berthwright-workshop: 1
name: Test
tax: 20 %
labour: 50.00
parts:
  - id: board
    name: A board
    mass: 4 kg ± 2 %
confirmed:
  - {rule: roof-load, edition: body-builder, clause: "3.2", initials: ab, date: 2026-05-01}
defaults:
  person: 80 kg
  spreads: {guess: 30 %}
`

func TestPropReadsWhatIsWritten(t *testing.T) {
	f := Read("w.yaml", []byte(small))
	for _, d := range f.Diags {
		t.Error(d.Text())
	}
	w := f.Workshop
	if !f.Readable || w.Name != "Test" || w.Tax.Else(0) != 20*unit.Percent || w.Labour.Else(0) != 5000 {
		t.Errorf("head: %+v", w)
	}
	p, ok := w.Part("board")
	m, _ := p.Mass.Get()
	if !ok || m.Value != 4*unit.Kilogram {
		t.Errorf("own part: %+v", p)
	}
	c, ok := w.Confirmation("roof-load", "body-builder")
	if d, given := c.Date.Get(); !ok || !given || d.Year != 2026 || c.Clause != "3.2" {
		t.Errorf("confirmed: %+v", c)
	}
	pack, err := rules.For("uk", doc.Date{Year: 2026, Month: 11, Day: 1})
	if err != nil {
		t.Fatal(err)
	}
	if _, errs := pack.Confirm(w.Confirmations()); len(w.Confirmations()) != 1 || len(errs) != 0 {
		t.Errorf("as the rules take them: %v %v", w.Confirmations(), errs)
	}
	if d := w.Person(); d.V != 80*unit.Kilogram || !d.Written || d.From != "workshop file" {
		t.Errorf("person: %+v", d)
	}
	if d := w.HalfOf("guess"); d.V != 30*unit.Percent || !d.Written {
		t.Errorf("guess: %+v", d)
	}
	if d := w.HalfOf("data-sheet"); d.V != 6*unit.Percent || d.Written || d.From == "" {
		t.Errorf("data sheet: %+v", d)
	}
}

// The example writes out the built-in defaults: both say the same.
func TestCrossExampleAgainstStandard(t *testing.T) {
	text, err := os.ReadFile("../examples/workshop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	f := Read("workshop.yaml", text)
	for _, d := range f.Diags {
		t.Error(d.String())
	}
	if f.Workshop.Defaults != Standard() {
		t.Errorf("example %+v, standard %+v", f.Workshop.Defaults, Standard())
	}
	if len(f.Workshop.Parts) != 2 || len(f.Workshop.Address) != 3 {
		t.Errorf("%d parts, %d lines of address", len(f.Workshop.Parts), len(f.Workshop.Address))
	}
}

func TestPropAnEmptyWorkshopHasEveryDefault(t *testing.T) {
	var w Workshop
	for _, k := range []string{"weighed", "data-sheet", "own-boards", "estimated", "guess", "", "something else"} {
		for _, d := range []Default[unit.Ratio]{w.HalfOf(k), w.SharedOf(k)} {
			if !(d.V > 0 && d.V < 1) || d.Written || d.From == "" {
				t.Errorf("%q: %+v", k, d)
			}
		}
		if !(w.SharedOf(k).V < w.HalfOf(k).V) {
			t.Errorf("%q: what masses share is smaller than what one is off", k)
		}
	}
	share, half := w.Unlisted()
	if share.V != 4*unit.Percent || half.V != 2*unit.Percent || w.Person().V != 75*unit.Kilogram || w.FillPolicy().V != "refilled" {
		t.Error("built-in defaults")
	}
}

func TestPropWrongValuesAreNamedAndAbsent(t *testing.T) {
	text := `berthwright-workshop: 1
name: Test
taxx: 20 %
tax: 20 kg
labour: lots
units: old
confirmed:
  - {rule: roof-load, edition: x, clause: "1", initials: ab, date: yesterday}
  - {rule: roof-load}
defaults:
  person: 400 kg
  person: 75 kg
  spreads: [1 %]
parts:
  - id: board
    mass: 4 Ah
`
	f := Read("w.yaml", []byte(text))
	if !f.Readable || f.Workshop.Tax.Given() || f.Workshop.Labour.Given() || f.Workshop.Units != "" || len(f.Workshop.Confirmed) != 0 {
		t.Errorf("wrong values are absent: %+v", f.Workshop)
	}
	if f.Workshop.Person().Written {
		t.Error("400 kg is no person")
	}
	want := map[diag.Code][]int{
		diag.UnknownKey: {3}, diag.WrongUnit: {4, 16}, diag.NotANumber: {5}, diag.UnknownWord: {6}, diag.BadDate: {8}, diag.MissingKey: {9, 9, 9, 9},
		diag.OutOfRange: {11}, diag.DuplicateKey: {12}, diag.NotAMapping: {13},
	}
	got := map[diag.Code][]int{}
	for _, d := range f.Diags {
		got[d.Code] = append(got[d.Code], d.Pos.Line)
	}
	for code, lines := range want {
		if len(got[code]) != len(lines) {
			t.Errorf("%s: lines %v, want %v", code, got[code], lines)
			continue
		}
		for i := range lines {
			if got[code][i] != lines[i] {
				t.Errorf("%s: lines %v, want %v", code, got[code], lines)
			}
		}
	}
	if len(got) != len(want) {
		t.Errorf("codes: %v", got)
	}
}

func TestPropUnreadable(t *testing.T) {
	for name, text := range map[string]string{
		"empty": "", "list": "- a", "broken": "a: [1", "not utf-8": "name: \xff", "newer": "berthwright-workshop: 9\nname: x",
		"anchor": "berthwright-workshop: 1\nname: &a x\n", "large": "name: " + strings.Repeat("x", 3<<20), "deep": "a: " + strings.Repeat("[", 100) + strings.Repeat("]", 100),
	} {
		f := Read("w.yaml", []byte(text))
		if f.Readable || len(f.Diags) != 1 || f.Workshop.Name != "" && name != "anchor" {
			t.Errorf("%s: readable %v, %v", name, f.Readable, f.Diags)
		}
	}
}

// Own parts are read wherever and however they stand in the file.
func TestPropPartsAnywhere(t *testing.T) {
	for name, text := range map[string]string{
		"first lines": "parts:\n  - id: board\n    mass: 4 Ah\nberthwright-workshop: 1\n",
		"brackets":    "berthwright-workshop: 1\nname: x\nparts: [{id: board, mass: 4 Ah}]\n",
	} {
		f := Read("w.yaml", []byte(text))
		if len(f.Diags) != 1 || f.Diags[0].Pos.Line != 3 || f.Diags[0].Path != "parts/board/mass" || len(f.Workshop.Parts) != 1 || f.Workshop.Parts[0].ID != "board" {
			t.Errorf("%s: %v", name, f.Diags)
		}
	}
	f := Read("w.yaml", []byte("berthwright-workshop: 1\nparts:\n- {id: a}\n- {id: a}\n- {id: a b}\n"))
	if len(f.Diags) != 2 || f.Diags[0].Code != diag.DuplicateID || f.Diags[0].Path != "parts/#2/id" || f.Diags[1].Code != diag.BadID {
		t.Errorf("%v", f.Diags)
	}
}

// What is far from usual is told, and can be accepted as in a build.
func TestPropUnusualParts(t *testing.T) {
	text := "berthwright-workshop: 1\nparts: [{id: safe, mass: 500 kg}]\n"
	f := Read("w.yaml", []byte(text))
	if len(f.Diags) != 1 || f.Diags[0].Code != diag.FarFromUsual || f.Diags.HasErrors() || !f.Workshop.Parts[0].Mass.Given() {
		t.Errorf("%v", f.Diags)
	}
	f = Read("w.yaml", []byte(text+"accepted: [{code: far-from-usual, path: parts/safe/mass, reason: it is one}]\n"))
	if len(f.Diags) != 0 {
		t.Errorf("%v", f.Diags)
	}
}

// A figure that is confirmed by half confirms nothing.
func TestPropHalfAConfirmationIsNone(t *testing.T) {
	whole := "rule: roof-load, edition: x, clause: c, initials: ab, date: 2026-05-01"
	read := func(entry string) int {
		return len(Read("w.yaml", []byte("berthwright-workshop: 1\nconfirmed: [{"+entry+"}]\n")).Workshop.Confirmations())
	}
	if read(whole) != 1 {
		t.Error("a whole one does not count")
	}
	for _, one := range strings.Split(whole, ", ") {
		key, _, _ := strings.Cut(one, ":")
		if read(strings.Replace(whole, one, key+":", 1)) != 0 {
			t.Errorf("counts without %s", key)
		}
	}
	if read(strings.Replace(whole, "2026-05-01", "May", 1)) != 0 {
		t.Error("counts with a wrong date")
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(small))
	f.Add([]byte("berthwright-workshop: 1\nparts:\n  - {id: a, mass: 1 kg}\nname: x\n"))
	f.Add([]byte("parts: [a\n"))
	f.Add([]byte("{parts: [{id: a}], berthwright-workshop: 1}"))
	f.Fuzz(func(t *testing.T, text []byte) {
		r := Read("w.yaml", text)
		lines := strings.Count(string(text), "\n") + 1
		for _, d := range r.Diags {
			if d.Pos.Line < 0 || d.Pos.Line > lines {
				t.Errorf("line %d of %d: %s", d.Pos.Line, lines, d.Text())
			}
		}
		if !r.Readable && len(r.Diags) != 1 {
			t.Errorf("unreadable for %d reasons", len(r.Diags))
		}
	})
}
