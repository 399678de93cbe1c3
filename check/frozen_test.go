package check_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"berthwright/derive"
	"berthwright/unit"
)

var update = flag.Bool("update", false, "write testdata/golden anew")

// TestFrozenFindings keeps what we say about the three examples, so that a changed result is seen: it says nothing about
// being right.
func TestFrozenFindings(t *testing.T) {
	for _, id := range []string{"curlew", "dunlin", "avocet"} {
		b := read(t, "../examples/"+id+".yaml")
		w := assess(t, b, nil)
		var s strings.Builder
		line := func(format string, args ...any) { fmt.Fprintf(&s, format+"\n", args...) }
		line("# findings, cases and what follows of examples/%s.yaml; kg rounded; written by go test ./check -update", id)
		for _, x := range w.Title(unit.Metric) {
			line("title: %s | %s | %s", x.Verdict.Says(), x.Text, x.Detail)
		}
		for _, f := range w.Findings {
			line("%s: %s | %s | %s | %s", f.Key(), f.Verdict.Says(), f.Says.Text(unit.Metric), f.Basis, f.Level)
		}
		for _, c := range w.Cases {
			line("case %s: %.0f / %.0f / %.0f | %s", c.ID, kgOf(t, "front", c.Split.Front), kgOf(t, "rear", c.Split.Rear), c.Split.Total.Kilograms(), c.Says.Text(unit.Metric))
		}
		for _, p := range w.Party {
			line("payload: %s, %s: %.0f, %s", p.Who, p.Fill, p.Left.Kilograms(), p.Ends)
		}
		for _, z := range w.ZoneRooms() {
			line("room %s: %.0f, %s", z.Zone, z.Kg.Kilograms(), z.Ends)
		}
		for _, m := range w.Clears(derive.Place(b, w.In.Van, derive.Travel)) {
			line("clears: %s", m.Says)
		}
		for _, n := range w.MeasureNext() {
			line("next: %s", n.Says)
		}
		for _, a := range w.In.Assumed {
			line("assumed: %s, %s", a.Text(unit.Metric), a.From)
		}
		path := filepath.Join("../testdata/golden", "findings-"+id+".txt")
		if *update {
			if err := os.MkdirAll("../testdata/golden", 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, []byte(s.String()), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want := text(t, path)
		if want == s.String() {
			continue
		}
		was, is := strings.Split(want, "\n"), strings.Split(s.String(), "\n")
		for i := range max(len(was), len(is)) {
			a, b := "", ""
			if i < len(was) {
				a = was[i]
			}
			if i < len(is) {
				b = is[i]
			}
			if a != b {
				t.Errorf("%s line %d:\n  was %s\n  is  %s", path, i+1, a, b)
			}
		}
	}
}
