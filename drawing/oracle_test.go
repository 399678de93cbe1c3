package drawing_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"berthwright/drawing"
	"berthwright/drawing/drawingtest"
)

// oracle skips when a foreign reader is absent, unless CI says that it must be there.
func oracle(t *testing.T, name string, probe ...string) {
	t.Helper()
	if err := exec.Command(name, probe...).Run(); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is needed in CI: %v", name, err)
		}
		t.Skipf("%s %s is not installed here", name, strings.Join(probe, " "))
	}
}

func write(t *testing.T, name string, b []byte) string {
	t.Helper()
	f := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(f, b, 0o644); err != nil {
		t.Fatal(err)
	}
	return f
}

func TestCrossDXFIsReadByAnotherProgram(t *testing.T) {
	python := "python3"
	if exec.Command(python, "-c", "import ezdxf").Run() != nil {
		python = "/usr/bin/python3" // Debian's own, which sees Debian's packages
	}
	oracle(t, python, "-c", "import ezdxf")
	in := drawingtest.Curlew()
	for _, s := range views(in, 20) {
		f := write(t, s.ID+".dxf", drawing.DXF(s))
		const script = `
import sys, ezdxf, math
d = ezdxf.readfile(sys.argv[1])
a = d.audit()
assert not a.errors, a.errors
m = d.modelspace()
lines = [math.hypot(e.dxf.end.x-e.dxf.start.x, e.dxf.end.y-e.dxf.start.y) for e in m.query('LINE')]
for want in (6020, 4000, 940, 3390):
    assert any(abs(l-want) < 1e-3 for l in lines), want
print(len(m.query('TEXT')), 'texts', len(d.layers), 'layers')
assert any('bench' in e.dxf.text for e in m.query('TEXT')) or sys.argv[2] == 'left'
`
		out, err := exec.Command(python, "-c", script, f, s.ID).CombinedOutput()
		if err != nil {
			t.Errorf("%s: %v\n%s", s.ID, err, out)
		}
	}
}

func TestCrossPDFIsReadByOtherPrograms(t *testing.T) {
	oracle(t, "qpdf", "--version")
	oracle(t, "pdftotext", "-v")
	oracle(t, "pdfinfo", "-v")
	in := drawingtest.Curlew()
	sheets, err := drawing.Sheets(views(in, 20), drawing.Parts(in), drawing.SheetInfo{Workshop: "Marram Lane", Build: "Curlew", Status: "for talk"})
	if err != nil {
		t.Fatal(err)
	}
	b, err := drawing.PDF(sheets, drawing.Meta{Title: "Curlew, drawings"})
	if err != nil {
		t.Fatal(err)
	}
	f := write(t, "sheets.pdf", b)
	if out, err := exec.Command("qpdf", "--check", f).CombinedOutput(); err != nil {
		t.Errorf("qpdf: %v\n%s", err, out)
	}
	info, err := exec.Command("pdfinfo", f).Output()
	if err != nil || !strings.Contains(string(info), "(A3)") || !strings.Contains(string(info), "Curlew, drawings") {
		t.Errorf("pdfinfo: %v\n%s", err, info)
	}
	text, err := exec.Command("pdftotext", "-layout", f, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"rear axle 1 886 kg of 1 900 kg", "Compressor fridge, 72 L class", "6020", "for talk", "± 16 kg"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the text of the PDF lacks %q", want)
		}
	}
}
