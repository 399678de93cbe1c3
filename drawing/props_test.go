package drawing_test

import (
	"bytes"
	"compress/zlib"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"berthwright/drawing"
	"berthwright/drawing/drawingtest"
	"berthwright/drawing/fonts"
	"berthwright/unit"
)

func views(in drawing.Input, scale float64) []drawing.Scene {
	o := drawing.Full(scale)
	return []drawing.Scene{drawing.Plan(in, o), drawing.SideLeft(in, o), drawing.SideRight(in, o)}
}

// shows tells which things a view should show, said independently of the code.
func shows(view string, t drawing.Thing) bool {
	if view == "plan" {
		return true
	}
	if t.Kind == drawing.Spread {
		return false
	}
	lo, hi := t.Centre.Y, t.Centre.Y
	for i, p := range t.Outline {
		if i == 0 {
			lo, hi = p.Y, p.Y
		}
		lo, hi = min(lo, p.Y), max(hi, p.Y)
	}
	if view == "left" {
		return lo < 0 || lo == 0 && hi == 0
	}
	return hi > 0 || lo == 0 && hi == 0
}

func TestPropEveryItemOnceInEachViewThatShouldShowIt(t *testing.T) {
	in := drawingtest.Curlew()
	for _, s := range views(in, 20) {
		count, label := map[string]int{}, map[string]string{}
		for _, p := range s.Prims {
			if p.Kind == drawing.Group {
				count[p.ID]++
			}
			if p.Kind == drawing.Text && strings.HasPrefix(p.In, "label:") {
				label[p.In] += p.Text + " "
			}
		}
		for _, th := range in.Things {
			want := 0
			if shows(s.ID, th) {
				want = 1
			}
			if got := count["item:"+th.ID]; got != want {
				t.Errorf("%s: %s is drawn %d times, want %d", s.ID, th.ID, got, want)
			}
			if want == 1 && th.Kind != drawing.Spread && !strings.HasPrefix(label["label:"+th.ID], strconv.Itoa(th.Number)+" ") {
				t.Errorf("%s: the label of %s is %q, want its number %d", s.ID, th.ID, label["label:"+th.ID], th.Number)
			}
		}
	}
}

func TestPropIDsAreUniqueAndChildrenFollowTheirGroup(t *testing.T) {
	for _, s := range views(drawingtest.Curlew(), 20) {
		seen := map[string]bool{}
		for _, p := range s.Prims {
			if seen[p.ID] {
				t.Errorf("%s: id %q is used twice", s.ID, p.ID)
			}
			seen[p.ID] = true
			if p.In != "" && !seen[p.In] {
				t.Errorf("%s: %q comes before its group %q", s.ID, p.ID, p.In)
			}
		}
	}
}

func TestPropDimensionTextEqualsDistance(t *testing.T) {
	for _, sys := range []unit.System{unit.Metric, unit.Imperial} {
		in := drawingtest.Curlew()
		in.System = sys
		dimensionsTrue(t, in)
	}
}

func dimensionsTrue(t *testing.T, in drawing.Input) {
	figure := regexp.MustCompile(`[0-9.]+$`)
	for _, s := range views(in, 20) {
		lines, n := map[string]drawing.Segs{}, 0
		for _, p := range s.Prims {
			if strings.HasPrefix(p.ID, "dim:") && strings.HasSuffix(p.ID, "/line") {
				lines[p.In] = p.D
			}
		}
		for _, p := range s.Prims {
			if !strings.HasPrefix(p.ID, "dim:") || p.Kind != drawing.Text {
				continue
			}
			n++
			d := lines[p.In]
			want := math.Hypot(d[1].X-d[0].X, d[1].Y-d[0].Y)
			one, half := 1.0, 0.0005
			if in.System != unit.Metric {
				one, half = 25.4, 25.4*0.05+1e-9
			}
			if got, err := strconv.ParseFloat(figure.FindString(p.Text), 64); err != nil || math.Abs(got*one-want) > half {
				t.Errorf("%s: dimension %q says %q over a line of %.3f mm", s.ID, p.In, p.Text, want)
			}
		}
		if n < 5 {
			t.Errorf("%s: only %d dimensions", s.ID, n)
		}
	}
}

// overlaps returns the pairs of texts and balloons whose boxes share an area.
func overlaps(s drawing.Scene) []string {
	type named struct {
		id  string
		in  string
		box drawing.Box
	}
	var boxes []named
	for _, p := range s.Prims {
		if p.Kind == drawing.Text || p.Kind == drawing.Path && p.Role == drawing.Balloon {
			boxes = append(boxes, named{p.ID, p.In, p.Box().Grow(-0.01)})
		}
	}
	var out []string
	for i, a := range boxes {
		for _, b := range boxes[:i] {
			if a.box.Overlaps(b.box) && (a.in != b.in || a.in == "") {
				out = append(out, a.id+" on "+b.id)
			}
		}
	}
	return out
}

func TestPropNoTwoLabelsOverlap(t *testing.T) {
	for _, scale := range []float64{5, 10, 20, 33, 50, 100} {
		for _, s := range views(drawingtest.Curlew(), scale) {
			for _, o := range overlaps(s) {
				t.Errorf("%s 1:%g: %s", s.ID, scale, o)
			}
		}
	}
}

func TestPropNoTwoLabelsOverlapInRandomVans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawingtest.Curlew()
		in.Things = nil
		n := rapid.IntRange(0, 60).Draw(t, "things")
		mm := func(lo, hi int, name string) unit.Length {
			return unit.Length(rapid.IntRange(lo, hi).Draw(t, name)) * unit.Millimetre
		}
		for i := range n {
			th := drawing.Thing{ID: "t" + strconv.Itoa(i), Number: i + 1, Name: rapid.StringMatching(`[A-Z][a-z]{2,9}( [a-z]{2,9}){0,4}`).Draw(t, "name")}
			th.Centre.X, th.Centre.Y, th.Centre.Z = mm(-900, 5000, "x"), mm(-900, 900, "y"), mm(-300, 1900, "z")
			th.Kind = drawing.ThingKind(rapid.IntRange(0, 3).Draw(t, "kind"))
			a, b := mm(10, 900, "a"), mm(10, 700, "b")
			x, y := th.Centre.X, th.Centre.Y
			th.Outline = []drawing.At{{X: x - a, Y: y - b}, {X: x + a, Y: y - b}, {X: x + a, Y: y + b}, {X: x - a, Y: y + b}}
			th.Z0, th.Z1, th.X0, th.X1 = th.Centre.Z, th.Centre.Z+b, x-a, x+a
			th.Measured = rapid.Bool().Draw(t, "measured")
			in.Things = append(in.Things, th)
		}
		for _, s := range views(in, 20) {
			if o := overlaps(s); len(o) > 0 {
				t.Fatalf("%s: %s", s.ID, strings.Join(o, "; "))
			}
		}
	})
}

func TestPropEveryRuneIsInItsFont(t *testing.T) {
	for _, s := range views(drawingtest.Curlew(), 20) {
		for _, p := range s.Prims {
			for _, r := range p.Text {
				if !fonts.Has(p.Face, r) {
					t.Errorf("%s: %q has %q, which the font lacks", s.ID, p.ID, r)
				}
			}
		}
	}
}

func TestPropDiffTurnsOneSceneIntoTheOther(t *testing.T) {
	a := drawingtest.Curlew()
	b := drawingtest.Curlew()
	for i := range b.Things {
		if b.Things[i].ID == "fridge" {
			for j := range b.Things[i].Outline {
				b.Things[i].Outline[j].X += 100 * unit.Millimetre
			}
			b.Things[i].Centre.X += 100 * unit.Millimetre
		}
	}
	b.Things = append(b.Things[:20:20], b.Things[21:]...)
	for i, s := range views(a, 20) {
		to := views(b, 20)[i]
		patch := drawing.Diff(s, to)
		got := map[string]string{}
		for _, p := range s.Prims {
			got[p.ID] = show(t, p)
		}
		for _, id := range patch.Removed {
			delete(got, id)
		}
		for _, p := range patch.Changed {
			if got[p.ID] == show(t, p) {
				t.Errorf("%s: %q is sent without a change", s.ID, p.ID)
			}
			got[p.ID] = show(t, p)
		}
		if len(got) != len(to.Prims) {
			t.Errorf("%s: %d primitives after the patch, want %d", s.ID, len(got), len(to.Prims))
		}
		for _, p := range to.Prims {
			if got[p.ID] != show(t, p) {
				t.Errorf("%s: %q differs after the patch", s.ID, p.ID)
			}
		}
		if n := len(patch.Changed); (n == 0) != (s.ID == "right") || n > len(to.Prims)/2 {
			t.Errorf("%s: %d of %d primitives sent for one move", s.ID, n, len(to.Prims))
		}
	}
	if p := drawing.Diff(views(a, 20)[0], views(a, 20)[0]); len(p.Changed)+len(p.Removed) != 0 {
		t.Errorf("a scene differs from itself: %v", p)
	}
}

func show(t *testing.T, p drawing.Prim) string {
	b, err := p.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// content returns the page streams of a PDF, inflated.
func content(t *testing.T, pdf []byte) string {
	t.Helper()
	var out strings.Builder
	for _, part := range bytes.Split(pdf, []byte("stream\n"))[1:] {
		z, err := zlib.NewReader(bytes.NewReader(part))
		if err != nil {
			continue
		}
		b, err := io.ReadAll(z)
		if err == nil && bytes.Contains(b, []byte(" re")) || bytes.Contains(b, []byte("BT ")) || bytes.Contains(b, []byte(" l\n")) {
			out.Write(b)
		}
	}
	return out.String()
}

func TestCrossSVGAndPDFHoldTheSamePrimitives(t *testing.T) {
	for _, s := range views(drawingtest.Curlew(), 20) {
		texts, paths := 0, 0
		for _, p := range s.Prims {
			switch p.Kind {
			case drawing.Text:
				texts++
			case drawing.Path:
				paths++
			}
		}
		svg := string(drawing.SVG(s))
		if n := strings.Count(svg, "<text "); n != texts {
			t.Errorf("%s: %d texts in the SVG, %d in the scene", s.ID, n, texts)
		}
		if n := strings.Count(svg, "<path "); n != paths {
			t.Errorf("%s: %d paths in the SVG, %d in the scene", s.ID, n, paths)
		}
		pdf, err := drawing.PDF([]drawing.Scene{s}, drawing.Meta{Title: s.Title})
		if err != nil {
			t.Fatal(err)
		}
		c := content(t, pdf)
		if n := strings.Count(c, ") Tj"); n != texts {
			t.Errorf("%s: %d texts in the PDF, %d in the scene", s.ID, n, texts)
		}
		if n := len(regexp.MustCompile(`(?m)^(S|f|B|b|s|F)$`).FindAllString(c, -1)); n != paths {
			t.Errorf("%s: %d paths in the PDF, %d in the scene", s.ID, n, paths)
		}
	}
}

func TestPropOneToTwentyMeasuresTrueInThePDF(t *testing.T) {
	in := drawingtest.Curlew()
	sheets, err := drawing.Sheets(views(in, 20), drawing.Parts(in), drawing.SheetInfo{Build: "Curlew"})
	if err != nil {
		t.Fatal(err)
	}
	pdf, err := drawing.PDF(sheets[:1], drawing.Meta{})
	if err != nil {
		t.Fatal(err)
	}
	seg := regexp.MustCompile(`([0-9.]+) ([0-9.]+) m\n([0-9.]+) ([0-9.]+) l\n`)
	found := map[float64]bool{}
	for _, m := range seg.FindAllStringSubmatch(content(t, pdf), -1) {
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(m[i+1], 64)
		}
		paper := math.Hypot(v[2]-v[0], v[3]-v[1]) * 25.4 / 72
		for _, van := range []float64{6020, 4000, 940, 1080, 3390, 2040} {
			if math.Abs(paper-van/20) < 0.01 { // a hundredth of a millimetre, what two decimals of a point allow
				found[van] = true
			}
		}
	}
	if len(found) != 6 {
		t.Errorf("only %v measure true of 6020, 4000, 940, 1080, 3390, 2040", found)
	}
}

func TestPropSameInputSameBytes(t *testing.T) {
	make := func() []byte {
		in := drawingtest.Curlew()
		sheets, err := drawing.Sheets(views(in, 20), drawing.Parts(in), drawing.SheetInfo{Build: "Curlew"})
		if err != nil {
			t.Fatal(err)
		}
		b, err := drawing.PDF(sheets, drawing.Meta{Title: "Curlew"})
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	if !bytes.Equal(make(), make()) {
		t.Error("the same sheets gave two different PDF files")
	}
}

func TestPropNothingKnownDrawsNothingAndDoesNotFail(t *testing.T) {
	for _, in := range []drawing.Input{{}, {Things: []drawing.Thing{{ID: "a"}}}, {Van: drawing.Van{Wheelbase: unit.Some(4 * unit.Metre)}},
		{Van: drawing.Van{Length: unit.Some(6 * unit.Metre), Height: unit.Some(2 * unit.Metre), FloorHeight: unit.Some(unit.Length(0))}}} {
		for _, s := range views(in, 20) {
			if _, err := drawing.PDF([]drawing.Scene{s}, drawing.Meta{}); err != nil {
				t.Errorf("%s: %v", s.ID, err)
			}
			for _, p := range s.Prims {
				if strings.Contains(p.ID, "van/body") {
					t.Errorf("%s: a body is drawn from too little", s.ID)
				}
			}
		}
	}
}

func BenchmarkPlan(b *testing.B) {
	in := drawingtest.Curlew()
	for i := range 91 { // 200 in all
		t := in.Things[i+10]
		t.ID, t.Number = t.ID+"-2", 110+i
		in.Things = append(in.Things, t)
	}
	for b.Loop() {
		drawing.Plan(in, drawing.Full(20))
	}
}
