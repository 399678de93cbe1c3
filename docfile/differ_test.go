package docfile

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"berthwright/doc"
)

func TestPropDiffLeadsFromOneToTheOther(t *testing.T) {
	compiled, tried := 0, 0
	for name, text := range texts(t) {
		r := rand.New(rand.NewPCG(4, uint64(len(text))))
		f := Read(name, text)
		if d := Diff(f, f); len(d) > 0 {
			t.Fatalf("%s differs from itself: %+v", name, d)
		}
		for i := range 12 {
			c := doc.Change{Ops: []doc.Op{randomOp(r, f, 2*i), randomOp(r, f, 2*i+1)}}
			g, _, err := f.Apply(c)
			if err != nil {
				continue
			}
			for _, d := range Diff(f, g) {
				path, _, _ := strings.Cut(d.Path, "/#") // numbers shift with what is taken out before them
				if !touched(path, Touches(c)) {
					t.Fatalf("%s: %+v\nchanged %+v, which it does not touch", name, c.Ops, d)
				}
			}
			if len(Diff(g, f)) != len(Diff(f, g)) {
				t.Fatalf("%+v\nthere %+v\nback %+v", c.Ops, Diff(f, g), Diff(g, f))
			}
			tried++
			ops, ok := Compile(f, g)
			if !ok {
				continue
			}
			compiled++
			h, _, err := f.Apply(doc.Change{Ops: ops})
			if err != nil || !reflect.DeepEqual(sorted(h), sorted(g)) {
				t.Fatalf("%+v\ncompiled %+v\n%v\n%+v", c.Ops, ops, err, Diff(h, g))
			}
		}
	}
	if compiled*10 < tried*9 {
		t.Fatalf("only %d of %d changes compiled", compiled, tried)
	}
}

// sorted lists every path with its value, in order of path.
func sorted(f *File) []string {
	all := f.Paths()
	for i, p := range all {
		if v, _ := f.Value(p); !strings.HasPrefix(v, "{") && !strings.HasPrefix(v, "[") {
			all[i] += " " + v
		}
	}
	slices.Sort(all)
	return all
}

func touched(path string, by []string) bool {
	for _, t := range by {
		if path == t || strings.HasPrefix(path, t+"/") || strings.HasPrefix(t, path+"/") {
			return true
		}
	}
	return false
}

func TestConflicts(t *testing.T) {
	set := func(path string) doc.Change {
		return doc.Change{Ops: []doc.Op{{Kind: doc.Set, Path: path, Value: "1 m"}}}
	}
	add := func(id string) doc.Change {
		return doc.Change{Ops: []doc.Op{{Kind: doc.Insert, Path: "items", Value: "{id: " + id + "}"}}}
	}
	for _, c := range []struct {
		mine, theirs doc.Change
		want         int
	}{
		{set("items/fridge/at/x"), set("items/fridge/at/x"), 1},
		{set("items/fridge/at/x"), set("items/fridge/at/y"), 0},
		{set("items/fridge/at"), set("items/fridge/at/y"), 1},
		{set("items/fridge/at/x"), doc.Change{Ops: []doc.Op{{Kind: doc.Remove, Path: "items/fridge"}}}, 1},
		{set("items/fridge/at/x"), set("items/fridge-2/at/x"), 0},
		{add("a"), add("b"), 0},
		{add("a"), add("a"), 1},
		{set("accepted/#2/reason"), doc.Change{Ops: []doc.Op{{Kind: doc.Remove, Path: "accepted/#1"}}}, 1},
		{doc.Change{Ops: []doc.Op{{Kind: doc.Insert, Path: "loading/travelling/fills", Value: "{tank: fresh, level: 50 %}"}}}, set("loading/travelling/fills/waste/level"), 0},
	} {
		if got := Conflicts(c.mine, []doc.Change{c.theirs}); len(got) != c.want {
			t.Errorf("%+v\n%+v\ngot %+v, want %d", c.mine.Ops, c.theirs.Ops, got, c.want)
		}
		if got := Conflicts(c.theirs, []doc.Change{c.mine}); len(got) != c.want {
			t.Errorf("the other way: %+v, want %d", got, c.want)
		}
	}
}

// TestPropOneBuildBecomesAnother compiles whole builds into each other.
func TestPropOneBuildBecomesAnother(t *testing.T) {
	all := texts(t)
	files := map[string]*File{}
	for _, name := range []string{"curlew.yaml", "dunlin.yaml", "avocet.yaml"} {
		id := strings.TrimSuffix(name, ".yaml")
		files[name] = Read(name, []byte(strings.Replace(string(all[name]), "id: "+id, "id: same", 1))) // the id of a build is never changed
	}
	for from, a := range files {
		for to, b := range files {
			ops, ok := Compile(a, b)
			if same := Diff(a, b); !ok || len(ops) != len(same) {
				g, _, err := a.Apply(doc.Change{Ops: ops})
				if err == nil {
					t.Fatalf("%s to %s: %+v", from, to, Diff(g, b)[0])
				}
				t.Fatalf("%s to %s: %v", from, to, err)
			}
		}
	}
}
