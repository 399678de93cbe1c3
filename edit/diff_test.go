package edit

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/unit"
)

func TestPropDiffMakesOneTextTheOther(t *testing.T) {
	for _, c := range [][2]string{
		{small, small},
		{small, strings.Replace(small, "mass: 19.2 kg ± 4 %", "mass: 20 kg", 1)},
		{small, strings.Replace(small, "    mass: 19.2 kg ± 4 %   # from the plate\n", "", 1)},
		{small, strings.Replace(small, "  - {id: tins, name: Tins, zone: rear left low}\n", "", 1)},
		{small, strings.Replace(small, "  - {id: tins,", "  - {id: jar, mass: 1 kg}\n  - {id: pot, name: \"a, b\"}\n  - {id: tins,", 1)},
		{small, strings.Replace(small, "  seats: [seat]\n", "", 1)},
		{small, strings.Replace(small, "level: 100 %", "level: 50 %", 1)},
		{small, strings.Replace(small, "plated: {total: 3500 kg}", "plated: {total: 3500 kg, front: 1800 kg}\n  tyres: {front: 110}", 1)},
		{small, curlew(t)},
	} {
		for _, dir := range [][2]string{c, {c[1], c[0]}} {
			from, to := read(t, dir[0]), read(t, dir[1])
			ops := Diff(from, to)
			ops = slices.DeleteFunc(ops, func(op doc.Op) bool { return op.Path == "build/id" }) // two builds
			got, _, err := from.Apply(doc.Change{Ops: ops})
			if err != nil {
				t.Fatalf("%+v: %v", ops, err)
			}
			want, have := to.Build, got.Build
			want.Head.ID, have.Head.ID = "", ""
			sortItems(&want)
			sortItems(&have)
			if d := cmp.Diff(want, have, cmpopts.EquateEmpty(), cmp.Exporter(func(reflect.Type) bool { return true })); d != "" {
				t.Error(d)
			}
		}
	}
	if ops := Diff(read(t, small), read(t, small)); len(ops) != 0 {
		t.Errorf("no difference gives %+v", ops)
	}
}

func sortItems(b *doc.Build) {
	slices.SortFunc(b.Items, func(x, y doc.Item) int { return strings.Compare(x.ID, y.ID) })
	slices.SortFunc(b.Loading.Party, func(x, y doc.Person) int { return strings.Compare(x.ID, y.ID) })
	slices.SortFunc(b.Loading.Zones, func(x, y doc.StowZone) int { return strings.Compare(x.ID, y.ID) })
	slices.SortFunc(b.Loading.Travel.Fills, func(x, y doc.Fill) int { return strings.Compare(x.Tank, y.Tank) })
	slices.SortFunc(b.Loading.Travel.Stowed, func(x, y doc.Stow) int { return strings.Compare(x.Zone, y.Zone) })
}

func FuzzPaste(f *testing.F) {
	for _, s := range []string{"What\tkg\tfrom\nFridge\t19,2\tbulkhead\nHob\t\"a \"\"b\"\"\nc\"\t", "a;b;c\n1;2;3", "Fridge 19 kg\nHob 4 kg", "x,y\n\"a,b\",1.5", "\xff\xfe\t1", "|a|b|\n|1|2|", "name,weight (lb),price\nsink,4.5,£20"} {
		f.Add(s, "kit")
	}
	f.Add("Ann\t70\nBo\t80", "people")
	base := docfile.Read("heron.yaml", []byte(small))
	f.Fuzz(func(t *testing.T, text, grid string) {
		if len(text) > 4000 {
			return
		}
		p, err := Paste(base, env, grid, text, "", Corrected{})
		if err != nil {
			return
		}
		r, err := Compile(base, env, p.Gestures)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		after, inverse, err := base.Apply(doc.Change{Ops: r.Ops})
		if err != nil {
			t.Fatalf("%q: %v\n%+v", text, err, r.Ops)
		}
		if !after.Readable {
			t.Fatalf("%q makes the text unreadable", text)
		}
		back, _, err := after.Apply(inverse)
		if err != nil || string(back.Text) != small {
			t.Fatalf("%q: the inverse does not restore: %v", text, err)
		}
	})
}

func FuzzCompile(f *testing.F) {
	f.Add("cell", "kit", "fridge", "mass", "21 kg", "van/plated/total", int64(1000))
	f.Add("cell", "kit", "fridge", "line", "behind ladder", "", int64(0))
	f.Add("cell", "kit", "box", "side", "right 1' 2\"", "", int64(0))
	f.Add("move", "", "foam", "", "", "", int64(-5))
	f.Add("copy", "kit", "ladder", "", "", "", int64(0))
	f.Add("remove", "kit", "fridge", "", "", "", int64(0))
	f.Add("add", "kit", "fridge", "far", "x: {y: [", "", int64(0))
	f.Add("field", "", "", "", "- a\n# b", "build/name", int64(0))
	f.Add("turn", "", "fridge", "", "-90", "", int64(0))
	base := docfile.Read("heron.yaml", []byte(small))
	f.Fuzz(func(t *testing.T, kind, grid, row, column, text, path string, d int64) {
		if kind == "ops" || len(text) > 2000 {
			return
		}
		g := Gesture{Kind: kind, Grid: grid, Row: row, Column: column, Text: text, Path: path, DX: 1, Cells: map[string]string{column: text}}
		g.DX, g.DY, g.DZ = unitLength(d), unitLength(d/3), unitLength(-d)
		r, err := Compile(base, env, []Gesture{g, {Kind: "cell", Grid: "kit", Row: "tins", Column: "mass", Text: "1"}})
		if err != nil {
			t.Fatalf("%+v: %v", g, err)
		}
		after, inverse, err := base.Apply(doc.Change{Ops: r.Ops})
		if err != nil {
			t.Fatalf("%+v: %v\n%+v", g, err, r.Ops)
		}
		back, _, err := after.Apply(inverse)
		if err != nil || string(back.Text) != small {
			t.Fatalf("%+v: the inverse does not restore: %v", g, err)
		}
	})
}

// unitLength keeps fuzzed distances within what the server lets through.
func unitLength(d int64) unit.Length { return unit.Length(d % 20_000_000) }
