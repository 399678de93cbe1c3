package drawing_test

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"berthwright/drawing"
	"berthwright/drawing/drawingtest"
)

var hostile = []string{"<script>alert(1)</script>", "a & b \" ' `", "two\r\nlines\r\n  0\r\nEOF", "漢字 😀", "\x00\x01\x1b", "\xff\xfe", strings.Repeat("long ", 200), ")Tj ET (", "⌀ 28 × ½ ± 3 °", "%%u %%p"}

func TestPropNamesOfPeopleCannotBreakAnyFormat(t *testing.T) {
	in := drawingtest.Curlew()
	for i, h := range hostile {
		in.Things[5+i].Name, in.Things[5+i].Mass = h, h
	}
	in.Name, in.Axles[0].Text, in.Remarks = hostile[0], hostile[2], hostile
	for _, s := range views(in, 20) {
		d := xml.NewDecoder(strings.NewReader(string(drawing.SVG(s))))
		for {
			tok, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: the SVG is not well-formed: %v", s.ID, err)
			}
			if e, ok := tok.(xml.StartElement); ok && e.Name.Local == "script" {
				t.Errorf("%s: a name became an element", s.ID)
			}
		}
		lines := strings.Split(string(drawing.DXF(s)), "\r\n")
		ends := 0
		for i := 0; i+1 < len(lines); i += 2 {
			if code := strings.TrimSpace(lines[i]); code == "" || strings.Trim(code, "0123456789") != "" {
				t.Fatalf("%s: DXF line %d should be a group code, is %q", s.ID, i+1, lines[i])
			}
			if strings.TrimSpace(lines[i]) == "0" && lines[i+1] == "EOF" {
				ends++
			}
		}
		if ends != 1 {
			t.Errorf("%s: the DXF has %d ends", s.ID, ends)
		}
		if _, err := drawing.PDF([]drawing.Scene{s}, drawing.Meta{Title: hostile[3], Author: hostile[4]}); err != nil {
			t.Errorf("%s: %v", s.ID, err)
		}
	}
}
