package sheet

import (
	"os"
	"strings"
	"testing"

	"berthwright/derive"
	"berthwright/docfile"
	"berthwright/parts"
	"berthwright/unit"
	"berthwright/workshop"
)

func placardOf(t *testing.T, path string, change func(*docfile.File)) (p [3]string, limits string) {
	t.Helper()
	c, err := parts.Load()
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	f := docfile.Read(path, text)
	change(f)
	l := Assess(f.Build, derive.Context{Parts: c, Shop: workshop.Workshop{}}, nil).loadingPlacard(Issue{})
	if b, err := Assess(f.Build, derive.Context{Parts: c, Shop: workshop.Workshop{}}, nil).Placard(Issue{}); err != nil || len(b) == 0 {
		t.Errorf("%s: %v", path, err)
	}
	for _, z := range l.Zones {
		limits += z.Where + " " + z.Limit + "; "
	}
	limits += "together " + l.Together
	for _, x := range l.Totals {
		limits += "; " + x.Name + " " + x.Value
	}
	return [3]string{l.Warning, l.Status, l.Basis}, strings.ReplaceAll(limits, unit.Space, " ")
}

// A placard of a build in which something is missing says so across the page, and one in which nothing is does not.
func TestPropIncompleteBuildsHaveNoPlacard(t *testing.T) {
	same := func(*docfile.File) {}
	if p, _ := placardOf(t, "../examples/curlew.yaml", same); p[0] != "" || p[1] == "for talk" {
		t.Errorf("Curlew: %q", p)
	}
	for _, c := range []struct {
		path, want string
		change     func(*docfile.File)
	}{
		{"../testdata/builds/avocet-no-luggage.yaml", "no luggage is declared", same},
		{"../examples/curlew.yaml", "the plate is not entered", func(f *docfile.File) { f.Build.Van.Plated.Total = unit.Opt[unit.Mass]{} }},
	} {
		if p, _ := placardOf(t, c.path, c.change); !strings.HasPrefix(p[0], "Not for use: ") || !strings.Contains(p[0], c.want) || p[1] != "for talk" {
			t.Errorf("%s: %q, want %q and for talk", c.path, p, c.want)
		}
	}
}

// By hand: 8 kg is 17.64 lb, 145 kg 319.67 lb, 3 500 kg 7 716.18 lb, 1 860 kg 4 100.6 lb.
func TestRefPlacardLimitsRoundDown(t *testing.T) {
	for units, want := range map[string][]string{"imperial": {" 17 lb", "together 319 lb", "whole van 7 716 lb", "front axle 4 100 lb"}, "metric": {" 8 kg", "together 145 kg", "whole van 3 500 kg"}} {
		_, limits := placardOf(t, "../examples/curlew.yaml", func(f *docfile.File) { f.Build.Head.Units = units })
		for _, w := range want {
			if !strings.Contains(limits, w) {
				t.Errorf("%s: %q is not in %q", units, w, limits)
			}
		}
	}
}
