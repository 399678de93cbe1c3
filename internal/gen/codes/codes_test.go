package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"berthwright/diag"
)

func TestPropPageIsUpToDate(t *testing.T) {
	if err := run("../../..", true); err != nil {
		t.Error(err)
	}
}

func TestPropEveryCodeHasItsRow(t *testing.T) {
	text := page(diag.Codes())
	errors, warnings, ok := strings.Cut(text, "\n## Warnings\n")
	if !ok || len(diag.Codes()) == 0 {
		t.Fatal("no warnings or no codes at all")
	}
	for _, c := range diag.Codes() {
		in := errors
		if c.Severity == diag.Warning {
			in = warnings
		}
		if n := strings.Count(in, "| `"+string(c.Code)+"` | "); n != 1 {
			t.Errorf("%s stands %d times in its table", c.Code, n)
		}
	}
	for i, line := range strings.Split(text, "\n") {
		if strings.HasPrefix(line, "|") && strings.Count(strings.ReplaceAll(line, "\\|", ""), "|") != 4 {
			t.Errorf("line %d is no row of three cells: %s", i+1, line)
		}
	}
}

func TestPropCheckFindsADifference(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "docs"), 0o755); err != nil {
		t.Fatal(err)
	}
	if run(dir, true) == nil {
		t.Error("a missing page is not told")
	}
	if err := run(dir, false); err != nil {
		t.Fatal(err)
	}
	if err := run(dir, true); err != nil {
		t.Error(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "docs", "codes.md"), []byte("changed"), 0o644); err != nil {
		t.Fatal(err)
	}
	if run(dir, true) == nil {
		t.Error("a changed page is not told")
	}
}
