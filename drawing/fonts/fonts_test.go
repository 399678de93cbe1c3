package fonts

import (
	"bytes"
	"math"
	"testing"

	"codeberg.org/go-pdf/fpdf"
)

// The PDF writer reads the same files by itself: both must agree on every width.
func TestCrossWidthsAreThoseOfThePDFWriter(t *testing.T) {
	for _, f := range Faces() {
		p := fpdf.New("P", "mm", "A4", "")
		p.AddUTF8FontFromBytes("x", "", TTF(f))
		p.SetFont("x", "", 12)
		p.SetFontUnitSize(10)
		for _, s := range []string{"rear axle 1 886 kg of 1 900 kg, ± 16", "Ångström žluťoučký İı", "Σ(m · x) / l ≤ −3,5 m²", "WAVE To, r."} {
			got, want := Width(f, 10, s), p.GetStringWidth(s)
			if math.Abs(got-want) > 0.002*want {
				t.Errorf("%s: %q is %.3f wide, the PDF writer says %.3f", f.File(), s, got, want)
			}
		}
	}
}

func TestPropUprightFiguresAreTabular(t *testing.T) {
	for _, f := range []Face{Regular, SemiBold, Bold} { // the slanted face sets no columns
		for _, d := range "123456789" {
			if Width(f, 1, string(d)) != Width(f, 1, "0") {
				t.Errorf("%s: %c is not as wide as 0", f.File(), d)
			}
		}
	}
}

func TestPropPrintable(t *testing.T) {
	for _, row := range []struct {
		in, out string
		lacking int
	}{{"plain", "plain", 0}, {"", "", 0}, {"± 3 °C, 12 m²", "± 3 °C, 12 m²", 0}, {"⌀ 28", "dia.  28", 0}, {"漢", "?", 1}, {"a\nb\x00c", "a bc", 0}, {"1\u202f886", "1\u202f886", 0}, {"\xff", "?", 1}} {
		out, lacking := Printable(Regular, row.in)
		if out != row.out || len(lacking) != row.lacking {
			t.Errorf("%q: %q lacking %d, want %q lacking %d", row.in, out, len(lacking), row.out, row.lacking)
		}
		for _, r := range out {
			if !Has(Regular, r) {
				t.Errorf("%q: %q is not in the face", row.in, r)
			}
		}
	}
	if !bytes.Contains(Licence(), []byte("SIL OPEN FONT LICENSE")) {
		t.Error("the licence of the fonts is not here")
	}
}
