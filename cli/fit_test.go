package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestPropFitPapersAndViewsAreWritten(t *testing.T) {
	dir := t.TempDir()
	const build = "../examples/dunlin.yaml"
	for _, args := range [][]string{
		{"papers", "holes"}, {"papers", "templates"}, {"papers", "fixing"}, {"papers", "states"},
		{"drawing", "--view", "wall-left"}, {"drawing", "--view", "wall-right"}, {"drawing", "--view", "rear"}, {"drawing", "--view", "section"},
		{"drawing", "--view", "section", "--at", "2.4 m", "--state", "night"},
	} {
		out := filepath.Join(dir, "a.pdf")
		ask(append(append(args, build), "-o", out)...).want(t, 0)
		if b, err := os.ReadFile(out); err != nil || !bytes.HasPrefix(b, []byte("%PDF")) || len(b) < 10000 {
			t.Errorf("%v wrote %d bytes, %v", args, len(b), err)
		}
	}
	for _, form := range []string{"svg", "dxf"} {
		out := filepath.Join(dir, "a."+form)
		ask("drawing", build, "--view", "section", "--at", "2400 mm", "-o", out).want(t, 0)
		b, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		for _, layer := range map[string][]string{"svg": {"r-section-hatch", "r-item-cut"}, "dxf": {"SECTION-HATCH_VAN", "OUTLINE_VAN", "ITEM-CUT_"}}[form] {
			if !strings.Contains(string(b), layer) {
				t.Errorf("the %s of a section has no %q", form, layer)
			}
		}
	}
}

func TestPropSectionPlacesAreRead(t *testing.T) {
	out := filepath.Join(t.TempDir(), "a.svg")
	for _, c := range [][2]string{{"plan", "2.4 m"}, {"section", "2400"}, {"section", "40 m"}, {"section", "-3 m"}, {"section", "NaN m"}, {"section", "left"}} {
		a := ask("drawing", "../examples/dunlin.yaml", "--view", c[0], "--at="+c[1], "-o", out).want(t, 2)
		if a.out != "" || strings.Count(strings.TrimSpace(a.err), "\n") > 1 {
			t.Errorf("--view %s --at %q answers %q %q", c[0], c[1], a.out, a.err)
		}
	}
	if _, err := os.Stat(out); err == nil {
		t.Error("a drawing was written")
	}
}

// The templates of one hole are those of the whole set, fewer pages; a hole that is not there is named with those that are.
func TestPropTemplatesOfOneHole(t *testing.T) {
	dir := t.TempDir()
	pages := func(args ...string) int {
		out := filepath.Join(dir, "a.pdf")
		ask(append(append([]string{"papers", "templates", "../examples/curlew.yaml"}, args...), "-o", out)...).want(t, 0)
		b, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		return bytes.Count(b, []byte("/Type /Page\n"))
	}
	all, sum := pages(), 0
	for _, h := range []string{"h1", "H2", "H3", "H4", "H5", "H6", "H7", "H8", "H9", "H10", "H11"} {
		n := pages("--hole", h)
		if n == 0 || n >= all {
			t.Errorf("%s takes %d of %d pages", h, n, all)
		}
		sum += n
	}
	if sum != all {
		t.Errorf("the holes one by one take %d pages, all of them %d", sum, all)
	}
	a := ask("papers", "templates", "../examples/curlew.yaml", "--hole", "H99", "-o", filepath.Join(dir, "b.pdf")).want(t, 2)
	if !strings.Contains(a.err, `"H99"`) || !strings.Contains(a.err, "H11") {
		t.Errorf("a hole that is not there: %q", a.err)
	}
}
