package check_test

import (
	"path/filepath"
	"strings"
	"testing"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/internal/calctest"
	"berthwright/unit"
)

func assessFit(t testing.TB, b doc.Build) *check.Fit {
	t.Helper()
	return check.AssessFit(derive.MakeFit(b, context(t)), packOf(t, b))
}

// everyFitBuild returns the paths of the builds that have a shape: the examples, and the faults of fit with their twins.
func everyFitBuild(t testing.TB) []string {
	t.Helper()
	all := []string{"../examples/curlew.yaml", "../examples/dunlin.yaml", "../examples/avocet.yaml"}
	found, err := filepath.Glob("../testdata/builds/fit-*.yaml")
	if err != nil || len(found) < 30 {
		t.Fatalf("%d builds of fit: %v", len(found), err)
	}
	return append(all, found...)
}

// fitFinding returns the one finding with the key.
func fitFinding(t testing.TB, f *check.Fit, key string) check.Finding {
	t.Helper()
	for _, x := range f.Findings {
		if x.Key() == key {
			return x
		}
	}
	var have []string
	for _, x := range f.Findings {
		have = append(have, x.Key())
	}
	t.Fatalf("no finding %s among %s", key, strings.Join(have, " "))
	return check.Finding{}
}

// Each figure of a finding can be followed: it has its working, and every working and certificate is borne out by its own text.
func TestPropEveryFitFigureIsWorkedOut(t *testing.T) {
	shown := map[string]int{}
	for _, path := range everyFitBuild(t) {
		f := assessFit(t, read(t, path))
		keys := map[string]bool{}
		for _, x := range f.Findings {
			if keys[x.Key()] {
				t.Errorf("%s: %s is told twice", path, x.Key())
			}
			keys[x.Key()] = true
			if !x.Value.Given() {
				continue
			}
			s, ok := f.Slip(x.Slip)
			if !ok || x.Slip != x.Key() {
				if !without[x.Check] {
					t.Errorf("%s: %s has a figure and no working", path, x.Key())
				}
				continue
			}
			if s.Title == "" || len(s.Workings)+len(s.Certificates) == 0 {
				t.Errorf("%s: %s: an empty working", path, x.Key())
			}
			for _, w := range s.Workings {
				calctest.Recompute(t, w)
			}
			for _, c := range s.Certificates {
				calctest.Check(t, c)
			}
			if t.Failed() {
				t.Fatalf("%s: %s", path, x.Key())
			}
			shown[x.Check]++
		}
	}
	for _, id := range []string{"fit-clash", "fit-sweep", "fit-berth-length", "fit-berth-width", "fit-berth-height", "fit-berth-guard", "fit-berth-load", "fit-exit", "fit-door-awning", "fit-garage", "fit-ladder", "fit-overall", "fit-restraint", "fit-seat-evidence", "fit-hole-frame", "fit-under", "fit-door-size"} {
		if shown[id] == 0 {
			t.Errorf("no working of %s was seen", id)
		}
	}
}

// without lists checks whose figure is a plain count or measure with nothing to work out.
var without = map[string]bool{"fit-berths": true, "fit-behind": true, "fit-standing": true}

// fitBox is the text of one item of a small build.
func fitItem(id, more string) string { return "  - {id: " + id + ", name: " + id + ", " + more + "}\n" }

// smallVan is a build on a plain measured shell, 1 800 mm wide and 1 900 mm high between its walls, without lining.
func smallVan(items string) string {
	return `berthwright: 1
build: {id: small, name: Small, country: uk, date: 2026-11-01}
van:
  class: panel-60-high
  wheelbase: 4.00 m
  length: 6.00 m
  width: 2.05 m
  height: 2.60 m
  front-overhang: 0.95 m
  floor: {height: 560 mm, front: 1640 mm, rear: 5030 mm, finished: 0 mm}
  inside: {left: -900 mm, right: 900 mm, ceiling: 1900 mm, wheel-box: {front: 3655 mm, rear: 4355 mm, inner: 740 mm, height: 260 mm}}
  shell:
    from: measured
    sections:
      - {id: s1, x: 1640 mm, left: [{y: -900 mm, z: 0 mm}, {y: -900 mm, z: 1900 mm}]}
      - {id: s2, x: 5030 mm, left: [{y: -900 mm, z: 0 mm}, {y: -900 mm, z: 1900 mm}]}
    openings:
      - {id: rear-doors, kind: rear-doors, side: rear, from: -790 mm, to: 790 mm, low: 0 mm, high: 1840 mm, opens-inside: true, known: measured}
items:
` + items
}

func metresOf(t testing.TB, o unit.Opt[check.Figure]) float64 {
	t.Helper()
	return get(t, "figure", o).SI
}
