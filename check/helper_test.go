package check_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/diag"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/parts"
	"berthwright/rules"
	"berthwright/unit"
	"berthwright/workshop"
)

// load is shared by the tests of this package: reading the catalogue takes longer than a check.
var load = sync.OnceValues(parts.Load)

func context(t testing.TB) derive.Context {
	t.Helper()
	c, err := load()
	if err != nil {
		t.Fatal(err)
	}
	return derive.Context{Parts: c, Shop: workshop.Workshop{}}
}

// parse reads a build from its text and refuses any wrong value.
func parse(t testing.TB, text string) doc.Build {
	t.Helper()
	f := docfile.Read("test.yaml", []byte(text), docfile.Refs{Known: context(t).Parts.Known})
	for _, d := range f.Diags {
		if d.Code.Severity() == diag.Error {
			t.Fatal(d.Text())
		}
	}
	return f.Build
}

func text(t testing.TB, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func read(t testing.TB, path string) doc.Build {
	t.Helper()
	return parse(t, text(t, path))
}

func assess(t testing.TB, b doc.Build, rec *doc.Record) *check.Weight {
	t.Helper()
	day, _ := b.Head.Date.Get()
	pack, err := rules.For(b.Head.Country, day)
	if err != nil && b.Head.Country != "" {
		t.Fatal(err)
	}
	return check.AssessWeight(derive.MakeWeight(b, context(t), rec), pack)
}

// everyBuild returns the paths of all example and fault builds.
func everyBuild(t testing.TB) []string {
	t.Helper()
	var all []string
	for _, glob := range []string{"../testdata/builds/avocet-*.yaml", "../examples/*.yaml"} {
		found, err := filepath.Glob(glob)
		if err != nil || len(found) == 0 {
			t.Fatalf("nothing matches %s: %v", glob, err)
		}
		for _, f := range found {
			if filepath.Base(f) != "workshop.yaml" {
				all = append(all, f)
			}
		}
	}
	return all
}

func caseOf(t testing.TB, w *check.Weight, id string) check.LoadCase {
	t.Helper()
	for _, c := range w.Cases {
		if c.ID == id {
			return c
		}
	}
	t.Fatalf("no case %s", id)
	return check.LoadCase{}
}

// finding returns the one finding whose key begins so.
func finding(t testing.TB, w *check.Weight, key string) check.Finding {
	t.Helper()
	for _, f := range w.Findings {
		if strings.HasPrefix(f.Key(), key) {
			return f
		}
	}
	t.Fatalf("no finding %s", key)
	return check.Finding{}
}

func has(w *check.Weight, key string) bool {
	for _, f := range w.Findings {
		if strings.HasPrefix(f.Key(), key) {
			return true
		}
	}
	return false
}

func get[T any](t testing.TB, what string, o unit.Opt[T]) T {
	t.Helper()
	v, ok := o.Get()
	if !ok {
		t.Fatalf("%s is absent", what)
	}
	return v
}

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.4f, want %.4f within %g", what, got, want, within)
	}
}

func kgOf(t testing.TB, what string, o unit.Opt[unit.Mass]) float64 {
	t.Helper()
	return get(t, what, o).Kilograms()
}
