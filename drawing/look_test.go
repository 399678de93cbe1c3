package drawing_test

import (
	"os"
	"path/filepath"
	"testing"

	"berthwright/drawing"
	"berthwright/drawing/drawingtest"
)

// TestFrozenLook writes the pictures for looking at, when BERTHWRIGHT_LOOK names a folder.
func TestFrozenLook(t *testing.T) {
	dir := os.Getenv("BERTHWRIGHT_LOOK")
	if dir == "" {
		t.Skip("BERTHWRIGHT_LOOK names no folder to write pictures to")
	}
	in := drawingtest.Curlew()
	views := []drawing.Scene{drawing.Plan(in, drawing.Full(20)), drawing.SideLeft(in, drawing.Full(20)), drawing.SideRight(in, drawing.Full(20))}
	sheets, err := drawing.Sheets(views, drawing.Parts(in), drawing.SheetInfo{Workshop: "Marram Lane", Build: "Curlew", Status: "for talk",
		Revision: "14", Date: "2026-11-01", Hash: "3f9a 2c71 08de", Program: "berthwright 0.1"})
	if err != nil {
		t.Fatal(err)
	}
	b, err := drawing.PDF(sheets, drawing.Meta{Title: "Curlew"})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "sheets.pdf"), b, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, s := range []drawing.Scene{drawing.Plan(in, drawing.Full(20)), drawing.SideLeft(in, drawing.Full(20)), drawing.SideRight(in, drawing.Full(20))} {
		pdf, err := drawing.PDF([]drawing.Scene{s}, drawing.Meta{Title: s.Title})
		if err != nil {
			t.Fatal(err)
		}
		for ext, b := range map[string][]byte{"pdf": pdf, "svg": drawing.SVG(s), "dxf": drawing.DXF(s)} {
			if err := os.WriteFile(filepath.Join(dir, s.ID+"."+ext), b, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
