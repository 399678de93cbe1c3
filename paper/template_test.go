package paper

import (
	"bytes"
	"compress/zlib"
	"io"
	"math"
	"regexp"
	"strconv"
	"testing"

	"berthwright/drawing"
	"berthwright/unit"
)

const testMM = unit.Millimetre

func testHoles() TemplateSet {
	return TemplateSet{Head: Head{Build: "Tern"}, Holes: []TemplateHole{
		{Mark: "H1", Name: "Window", Wide: 710 * testMM, High: 440 * testMM, Radius: 60 * testMM, Frame: 20 * testMM, Left: "front", Right: "rear", Up: "up"},
		{Mark: "H2", Name: "Filler", Wide: 80 * testMM, High: 80 * testMM, Radius: 40 * testMM, Left: "front", Right: "rear", Up: "up"},
		{Mark: "H3", Name: "Vent with square corners", Wide: 166 * testMM, High: 228 * testMM, Left: "front", Right: "rear", Up: "up"},
	}}
}

// The pieces of the edge on all the pages of a hole, laid side by side, are the edge: true in size within 0.01 mm, without gaps.
func TestPropTilesJoinToTheWholeEdge(t *testing.T) {
	for _, h := range testHoles().Holes {
		ring := h.lines()[0].pts
		var box drawing.Box
		length := func(win drawing.Box) float64 {
			sum := 0.0
			s := clipped(ring, win)
			for i, g := range s {
				if g.Op == drawing.Line {
					sum += math.Hypot(g.X-s[i-1].X, g.Y-s[i-1].Y)
				}
			}
			return sum
		}
		whole, pieces := 0.0, 0.0
		for i := 1; i < len(ring); i++ {
			whole += math.Hypot(ring[i][0]-ring[i-1][0], ring[i][1]-ring[i-1][1])
		}
		for _, tl := range h.tiles() {
			s := clipped(ring, tl.win)
			if len(s) > 0 {
				box = box.Union(s.Box())
			}
			// Up to the joints, in the middle of the overlaps.
			w := tl.win
			if tl.col > 0 {
				w.X0 += tileOver / 2
			}
			if tl.col+1 < tl.cols {
				w.X1 -= tileOver / 2
			}
			if tl.row > 0 {
				w.Y0 += tileOver / 2
			}
			if tl.row+1 < tl.rows {
				w.Y1 -= tileOver / 2
			}
			pieces += length(w)
		}
		if math.Abs(box.W()-h.Wide.Millimetres()) > 0.01 || math.Abs(box.H()-h.High.Millimetres()) > 0.01 {
			t.Errorf("%s is %.4f x %.4f mm on paper, want %v x %v", h.Mark, box.W(), box.H(), h.Wide, h.High)
		}
		r := h.Radius.Millimetres()
		want := 2*(h.Wide.Millimetres()+h.High.Millimetres()) - 8*r + 2*math.Pi*r
		if math.Abs(whole-want) > 0.05 || math.Abs(pieces-whole) > 1e-6 {
			t.Errorf("%s: the edge is %.4f mm long, in pieces %.4f, want %.4f", h.Mark, whole, pieces, want)
		}
		for _, p := range ring { // no point of a corner is off its circle by more than 0.01 mm
			x, y := math.Abs(p[0])-(h.Wide.Millimetres()/2-r), math.Abs(p[1])-(h.High.Millimetres()/2-r)
			if x > 1e-9 && y > 1e-9 && math.Abs(math.Hypot(x, y)-r) > 0.01 {
				t.Errorf("%s: corner point %v is off its radius", h.Mark, p)
			}
		}
	}
}

// Each page carries one bar of 100 mm along and one up, and each hole has its middle cross once or more.
func TestPropEveryTemplatePageMeasuresTrueInThePDF(t *testing.T) {
	set := testHoles()
	pdf, err := Templates(set)
	if err != nil {
		t.Fatal(err)
	}
	pages := 0
	for _, h := range set.Holes {
		pages += len(h.tiles())
	}
	seg := regexp.MustCompile(`([0-9.]+) ([0-9.]+) m\n([0-9.]+) ([0-9.]+) l\n`)
	along, up := 0, 0
	for _, part := range bytes.Split(pdf, []byte("stream\n"))[1:] {
		z, err := zlib.NewReader(bytes.NewReader(part))
		if err != nil {
			continue
		}
		b, _ := io.ReadAll(z)
		for _, m := range seg.FindAllSubmatch(b, -1) {
			var v [4]float64
			for i := range v {
				v[i], _ = strconv.ParseFloat(string(m[i+1]), 64)
			}
			w, h := math.Abs(v[2]-v[0])*25.4/72, math.Abs(v[3]-v[1])*25.4/72
			at := v[0] * 25.4 / 72 // where the bars stand
			switch {
			case math.Abs(w-100) < 0.01 && h < 0.01 && math.Abs(at-tileX) < 0.01 && v[1]*25.4/72 < 297-tileY-tileH:
				along++
			case math.Abs(h-100) < 0.01 && w < 0.01 && math.Abs(at-(tileX-6)) < 0.01:
				up++
			}
		}
	}
	if pages < 10 || along != pages || up != pages {
		t.Errorf("%d pages have %d bars along and %d up that are 100 mm long", pages, along, up)
	}
}

func TestPropEveryHoleHasItsTemplate(t *testing.T) {
	k := testHoles().lay()
	seen := map[string]int{}
	for _, s := range k.scenes() {
		marks := map[string]bool{}
		for _, p := range s.Prims {
			if p.Kind == drawing.Group && p.Role == drawing.Heading {
				marks[p.Title[:2]] = true
			}
			for _, b := range [2]drawing.Box{p.Box()} {
				if p.Kind != drawing.Group && !b.Within(drawing.Box{X1: 210, Y1: 297}) {
					t.Errorf("%s: %q stands off the paper", s.ID, p.ID)
				}
			}
		}
		if len(marks) != 1 {
			t.Errorf("%s shows %d holes", s.ID, len(marks))
		}
		for m := range marks {
			seen[m]++
		}
	}
	for _, h := range testHoles().Holes {
		if seen[h.Mark] != len(h.tiles()) || seen[h.Mark] == 0 {
			t.Errorf("%s has %d pages, want %d", h.Mark, seen[h.Mark], len(h.tiles()))
		}
	}
	if n := seen["H2"]; n != 1 {
		t.Errorf("a hole of 80 mm takes %d pages", n)
	}
}
