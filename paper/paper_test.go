package paper

import (
	"bytes"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"berthwright/drawing"
)

func all(t *testing.T) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	add := func(name string, b []byte, err error) {
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		out[name] = b
	}
	b, err := MassStatement(statement())
	add("mass", b, err)
	p := placard()
	b, err = Placard(p)
	add("placard", b, err)
	p.Small = true
	b, err = Placard(p)
	add("placard-a5", b, err)
	b, err = ChangeSlip(change())
	add("change", b, err)
	return out
}

// TestFrozenLook writes the papers for looking at, when BERTHWRIGHT_LOOK names a folder.
func TestFrozenLook(t *testing.T) {
	dir := os.Getenv("BERTHWRIGHT_LOOK")
	if dir == "" {
		t.Skip("BERTHWRIGHT_LOOK names no folder to write papers to")
	}
	for name, b := range all(t) {
		if err := os.WriteFile(filepath.Join(dir, name+".pdf"), b, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func TestPropNothingOverlapsAndEverySignIsInTheFont(t *testing.T) {
	small := placard()
	small.Small = true
	for name, k := range map[string]*kit{"mass": statement().lay(), "placard": placard().lay(), "placard-a5": small.lay(), "change": change().lay()} {
		for _, f := range pageFaults(k) {
			t.Errorf("%s, %s", name, f)
		}
	}
}

func TestPropSameInputSameBytes(t *testing.T) {
	a, b := all(t), all(t)
	for name := range a {
		if !bytes.Equal(a[name], b[name]) {
			t.Errorf("%s: two runs gave different bytes", name)
		}
	}
}

func TestPropChangeSlipFillsHalfAPage(t *testing.T) {
	if n := len(change().lay().scenes()); n != 1 {
		t.Errorf("%d pages, want 1", n)
	}
}

func TestPropEmptyPapersAreMade(t *testing.T) {
	if b, err := MassStatement(Statement{}); err != nil || len(b) == 0 {
		t.Errorf("mass statement: %v", err)
	}
	if b, err := Placard(LoadingPlacard{}); err != nil || len(b) == 0 {
		t.Errorf("placard: %v", err)
	}
	if b, err := ChangeSlip(Change{}); err != nil || len(b) == 0 {
		t.Errorf("change slip: %v", err)
	}
}

var update = flag.Bool("update", false, "write the frozen texts anew")

func TestFrozenTexts(t *testing.T) {
	s := statement()
	s.Items, s.Plan, s.Side = s.Items[:3], Figure{}, Figure{}
	p := placard()
	p.Plan = drawing.Scene{}
	for name, k := range map[string]*kit{"mass": s.lay(), "placard": p.lay(), "change": change().lay()} {
		got := printed(k)
		file := filepath.Join("testdata", name+".txt")
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s: the text of the paper changed; run with -update and read the difference", name)
		}
	}
}

func TestCrossPapersAreReadByOtherPrograms(t *testing.T) {
	for _, tool := range []string{"qpdf", "pdftotext", "pdffonts"} {
		if _, err := exec.LookPath(tool); err != nil {
			if os.Getenv("CI") == "true" {
				t.Fatalf("%s is needed in CI", tool)
			}
			t.Skipf("%s is not installed here", tool)
		}
	}
	words := map[string][]string{
		"mass":       {"Mass statement", "rear axle 14 kg in hand, ± 16", "page 1 of", "does not hold", "content 3f9a 2c71 08de", "CAUTION"},
		"placard":    {"Loading Curlew", "145 kg", "Empty the waste tank"},
		"placard-a5": {"85 kg"},
		"change":     {"Change 7", "rear axle 76 kg over", "customer"},
	}
	for name, b := range all(t) {
		f := filepath.Join(t.TempDir(), name+".pdf")
		if err := os.WriteFile(f, b, 0o644); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command("qpdf", "--check", f).CombinedOutput(); err != nil {
			t.Errorf("%s: qpdf: %v\n%s", name, err, out)
		}
		if !bytes.Contains(b, []byte("/Outlines")) {
			t.Errorf("%s: no bookmarks", name)
		}
		text, err := exec.Command("pdftotext", "-layout", f, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		plain := strings.ReplaceAll(string(text), "\u00a0", " ")
		for _, w := range words[name] {
			if !strings.Contains(plain, w) {
				t.Errorf("%s: the text lacks %q", name, w)
			}
		}
		fontList, err := exec.Command("pdffonts", f).Output()
		if err != nil {
			t.Fatal(err)
		}
		for i, l := range strings.Split(strings.TrimSpace(string(fontList)), "\n") {
			if f := strings.Fields(l); i > 1 && (len(f) < 8 || f[len(f)-5] != "yes") {
				t.Errorf("%s: a font is not embedded: %s", name, l)
			}
		}
	}
}
