package main

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"berthwright/calc"
	"berthwright/rules"
	"berthwright/source"
)

const root = "../../.."

func scanModule(t *testing.T) findings {
	t.Helper()
	found, err := scan(root)
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func TestPropPagesAreUpToDate(t *testing.T) {
	if err := run(root, true); err != nil {
		t.Error(err)
	}
}

func TestPropEveryCitedKeyIsRegistered(t *testing.T) {
	found := scanModule(t)
	if len(found.cited) == 0 {
		t.Fatal("no citation found")
	}
	for key, packages := range found.cited {
		if _, ok := source.Find(key); !ok {
			t.Errorf("packages %s cite %q, which is not registered in package source", strings.Join(packages, ", "), key)
		}
	}
}

func TestPropEveryPublicationIsUsed(t *testing.T) {
	found := scanModule(t)
	for _, p := range source.All() {
		if len(citedBy(found, p.Key)) == 0 {
			t.Errorf("%q is registered, but nothing cites it", p.Key)
		}
	}
}

// TestPropNoRecalledValueIsMissing looks each figure from memory up in the page for those who can confirm it.
func TestPropNoRecalledValueIsMissing(t *testing.T) {
	found := scanModule(t)
	page := evidencePage(found)
	_, page, _ = strings.Cut(page, "## From memory")
	page, _, _ = strings.Cut(page, "\n## ")
	recalled := 0
	for _, r := range rules.All() {
		if r.Level == calc.Recalled {
			recalled++
			if !strings.Contains(page, "rule "+r.Key()+" |") {
				t.Errorf("rule %s is from memory and not listed", r.Key())
			}
		}
	}
	for index := 60; index <= 150; index++ {
		c, err := rules.LoadIndex(index)
		if err != nil {
			t.Fatal(err)
		}
		if text := strings.ReplaceAll(c.Show.Text(c.SI), "\u00a0", " "); c.Level == calc.Recalled {
			recalled++
			if entry := strconv.Itoa(index) + ": " + text; !strings.Contains(page, entry) {
				t.Errorf("load index %q is from memory and not listed", entry)
			}
		}
	}
	for _, v := range found.values {
		if v.Level == "Recalled" && !strings.Contains(page, "| "+v.Says+" |") {
			t.Errorf("%q in package %s is from memory and not listed", v.Says, v.Package)
		}
	}
	if recalled == 0 {
		t.Error("nothing is from memory: the test does not test")
	}
}

func TestPropScan(t *testing.T) {
	found := findings{cited: map[string][]string{}}
	err := found.read("fixture.go", `package fixture
var a = calc.Cite{Key: "one", At: "1"}
var b = []calc.Cite{{Key: "two"}, {"three", "3"}, calc.Cite{"four", "4"}}
var c = calc.Const{SI: 0.5, Says: "half", Source: calc.Cite{Key: "five", At: "table 2"}, Level: calc.Recalled}
var d = calc.Step{SI: x, Says: "step", Source: []calc.Cite{{Key: "six", At: "6"}}, Level: calc.Secondary}
var e = other{Key: "seven"}
var f = calc.Step{Level: level}
`, "fixture")
	if err != nil {
		t.Fatal(err)
	}
	var keys []string
	for key := range found.cited {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	if got := strings.Join(keys, " "); got != "five four one six three two" {
		t.Errorf("cited keys %q", got)
	}
	want := []value{
		{"fixture", "Recalled", "half", "0.5", "five, table 2"},
		{"fixture", "Secondary", "step", "", "six, 6"},
	}
	if !slices.Equal(found.values, want) {
		t.Errorf("values %+v, want %+v", found.values, want)
	}
	page := evidencePage(found)
	if !strings.Contains(page, "| half | 0.5 | five | table 2 | package fixture |") {
		t.Error("a recalled constant is not listed")
	}
}

func TestPropCheckFindsADifference(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "a.go"), []byte("package a\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := run(dir, true); err == nil {
		t.Error("missing pages are not reported")
	}
	if err := run(dir, false); err != nil {
		t.Fatal(err)
	}
	if err := run(dir, true); err != nil {
		t.Errorf("pages just written: %v", err)
	}
	if err := os.WriteFile(filepath.Join(dir, "docs", "evidence.md"), []byte("changed"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := run(dir, true); err == nil || !strings.Contains(err.Error(), "evidence.md") {
		t.Errorf("a changed page: %v", err)
	}
	if err := run(t.TempDir(), false); err == nil {
		t.Error("an empty folder is not refused")
	}
}
