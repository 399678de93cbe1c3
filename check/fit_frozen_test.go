package check_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"berthwright/unit"
)

// TestFrozenFitFindings keeps what is said about the fit of the two good examples, so that a changed result is seen: it says nothing
// about being right.
func TestFrozenFitFindings(t *testing.T) {
	for _, id := range []string{"curlew", "dunlin"} {
		var s strings.Builder
		fmt.Fprintf(&s, "# findings of fit of examples/%s.yaml; written by go test ./check -update\n", id)
		for _, f := range assessFit(t, read(t, "../examples/"+id+".yaml")).Findings {
			word := f.Verdict.Says()
			if f.Advisory {
				word += ", advice"
			}
			fmt.Fprintf(&s, "%s: %s | %s | %s | %s | %s\n", f.Key(), word, f.Says.Text(unit.Metric), f.Basis, f.Level, f.Advice)
		}
		path := filepath.Join("../testdata/golden", "fit-"+id+".txt")
		if *update {
			if err := os.WriteFile(path, []byte(s.String()), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want := strings.Split(text(t, path), "\n")
		for i, line := range strings.Split(s.String(), "\n") {
			if i >= len(want) || line != want[i] {
				t.Errorf("%s line %d is %s", path, i+1, line)
			}
		}
		if n := strings.Count(s.String(), "\n") + 1; n < len(want) {
			t.Errorf("%s has %d lines more", path, len(want)-n)
		}
	}
}
