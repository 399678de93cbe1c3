package sheet_test

import (
	"math"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/drawing"
	"berthwright/parts"
	"berthwright/sheet"
	"berthwright/unit"
)

var fitParts = sync.OnceValues(parts.Load)

// fitSheet assesses a build of the examples.
func fitSheet(t testing.TB, name string) *sheet.Sheet {
	t.Helper()
	text, err := os.ReadFile("../examples/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	c, err := fitParts()
	if err != nil {
		t.Fatal(err)
	}
	f := docfile.Read(name+".yaml", text, docfile.Refs{Known: c.Known})
	return sheet.Assess(f.Build, derive.Context{Parts: c}, nil)
}

func fitViews(s *sheet.Sheet) []string {
	out := slices.Clone(sheet.Views)
	for _, x := range s.Stations() {
		out = append(out, sheet.SectionView(x))
	}
	return out
}

func TestPropEachViewHasNoTwoLabelsOnOneAnother(t *testing.T) {
	for _, build := range []string{"curlew", "dunlin"} {
		s := fitSheet(t, build)
		for _, state := range []derive.State{derive.Travel, derive.Night} {
			for _, view := range fitViews(s) {
				sc, ok := sheet.Scene(s.DrawingOf(view, state, nil), view, drawing.Full(20))
				if !ok || len(sc.Prims) < 20 {
					t.Fatalf("%s %s: only %d primitives", build, view, len(sc.Prims))
				}
				var texts []drawing.Prim
				for _, p := range sc.Prims {
					if p.Kind == drawing.Text {
						texts = append(texts, p)
					}
				}
				for i, p := range texts {
					for _, q := range texts[:i] {
						if p.Box().Grow(-0.01).Overlaps(q.Box().Grow(-0.01)) && (p.In != q.In || p.In == "") {
							t.Errorf("%s %s %s: %q (%s) stands on %q (%s)", build, state, view, p.Text, p.ID, q.Text, q.ID)
						}
					}
				}
			}
		}
	}
}

func TestPropDimensionsOfWallsAndSectionsAreTrue(t *testing.T) {
	figure := regexp.MustCompile(`[0-9.]+$`)
	s := fitSheet(t, "curlew")
	for _, view := range fitViews(s)[4:] {
		sc, _ := sheet.Scene(s.DrawingOf(view, derive.Night, nil), view, drawing.Full(20))
		lines, n := map[string]drawing.Segs{}, 0
		for _, p := range sc.Prims {
			if strings.HasPrefix(p.ID, "dim:") && strings.HasSuffix(p.ID, "/line") {
				lines[p.In] = p.D
			}
		}
		for _, p := range sc.Prims {
			if !strings.HasPrefix(p.ID, "dim:") || p.Kind != drawing.Text {
				continue
			}
			n++
			d := lines[p.In]
			want := math.Hypot(d[1].X-d[0].X, d[1].Y-d[0].Y)
			if got, err := strconv.ParseFloat(figure.FindString(p.Text), 64); err != nil || math.Abs(got-want) > 0.0005 {
				t.Errorf("%s: dimension %q says %q over a line of %.3f mm", view, p.In, p.Text, want)
			}
		}
		if n < 3 {
			t.Errorf("%s: only %d dimensions", view, n)
		}
	}
}

// A section at a measured station draws the wall corner by corner as it was entered.
func TestPropSectionPassesThroughTheMeasuredStations(t *testing.T) {
	s := fitSheet(t, "curlew")
	stations := s.Build.Van.Shell.Sections
	if len(stations) < 3 {
		t.Fatalf("only %d stations", len(stations))
	}
	for _, st := range stations {
		x := st.X.Else(0)
		view := sheet.SectionView(x)
		sc, _ := sheet.Scene(s.DrawingOf(view, derive.Travel, nil), view, drawing.Full(20))
		on := map[[2]float64]bool{}
		for _, p := range sc.Prims {
			if p.ID == "van/bare" {
				for _, g := range p.D {
					on[[2]float64{g.X, g.Y}] = true
				}
			}
		}
		for _, c := range append(slices.Clone(st.Left), st.Right...) {
			at := [2]float64{c.Y.Else(0).Millimetres(), -c.Z.Else(0).Millimetres() + 0}
			if at[1] == 0 {
				at[1] = 0
			}
			if !on[at] {
				t.Errorf("%s: the curve misses the corner %v that was measured", view, at)
			}
		}
	}
}

// Every item is drawn at most once in the elevation of a wall, and just where it belongs by a rule said anew here.
func TestPropItemsOnceInEachWallThatShouldShowThem(t *testing.T) {
	s := fitSheet(t, "curlew")
	for _, state := range []derive.State{derive.Travel, derive.Camp, derive.Night} {
		both := 0
		for _, view := range []string{"wall-left", "wall-right"} {
			in := s.DrawingOf(view, state, nil)
			sc, _ := sheet.Scene(in, view, drawing.Full(20))
			count := map[string]int{}
			for _, p := range sc.Prims {
				if p.Kind == drawing.Group {
					count[p.ID]++
				}
			}
			for _, th := range in.Things {
				if th.Kind == drawing.Spread {
					continue
				}
				want := 0
				if drawing.AtWall(th, in.Van, view == "wall-left") {
					want = 1
					if drawing.AtWall(th, in.Van, view != "wall-left") {
						both++
					}
				}
				if got := count["item:"+th.ID]; got != want {
					t.Errorf("%s %s: %s is drawn %d times, want %d", state, view, th.ID, got, want)
				}
				if want == 1 && th.Kind == drawing.Item { // it reaches within 450 mm of this wall
					near := unit.Length(1 << 60)
					for _, p := range th.Outline {
						d := p.Y - in.Van.LeftWall.Else(0)
						if view == "wall-right" {
							d = in.Van.RightWall.Else(0) - p.Y
						}
						near = min(near, d)
					}
					if near > 450*unit.Millimetre {
						t.Errorf("%s: %s is %v off this wall", view, th.ID, near)
					}
				}
			}
			for _, h := range in.Holes {
				want := 0
				if "wall-"+h.Face == view {
					want = 1
				}
				if got := count["hole:"+h.ID]; got != want {
					t.Errorf("%s: hole %s is drawn %d times, want %d", view, h.ID, got, want)
				}
			}
		}
		if both == 0 {
			t.Errorf("%s: the bunks reach from wall to wall, and nothing is on both", state)
		}
	}
}

func fitText(t *testing.T, pdf []byte) string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext is not here")
	}
	f := t.TempDir() + "/a.pdf"
	if err := os.WriteFile(f, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", f, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func TestPropEveryHoleIsOnceInTheRegister(t *testing.T) {
	s := fitSheet(t, "curlew")
	pdf, err := s.HoleRegister(sheet.Issue{})
	if err != nil {
		t.Fatal(err)
	}
	words := fitText(t, pdf)
	n := 0
	for i := range s.Build.Items {
		it := &s.Build.Items[i]
		if !it.Hole.Given() {
			continue
		}
		n++
		mark := regexp.MustCompile(`(?m)^\f?\s*H` + strconv.Itoa(n) + `\s`)
		if k := len(mark.FindAllString(words, -1)); k != 1 || !strings.Contains(words, strings.Fields(it.Name)[0]) {
			t.Errorf("H%d %s heads %d blocks, want 1", n, it.Name, k)
		}
	}
	if n < 8 || !strings.Contains(words, "Look and feel behind both faces") || !strings.Contains(words, "nobody is named who looked behind H9") {
		t.Errorf("%d holes; the register lacks its caution or its reason:\n%s", n, words)
	}
}

// A shape that is only that of a class is never for building (design 2.8), and the paper says why.
func TestPropAGenericShellIsAtMostForQuotation(t *testing.T) {
	s := fitSheet(t, "curlew")
	b := s.Build
	b.Van.Shell.Sections = nil
	c, err := fitParts()
	if err != nil {
		t.Fatal(err)
	}
	generic := sheet.Assess(b, derive.Context{Parts: c}, nil)
	for name, paper := range map[string]func(sheet.Issue) ([]byte, error){"register": generic.HoleRegister, "fixing map": generic.FixingMap} {
		pdf, err := paper(sheet.Issue{})
		if err != nil {
			t.Fatal(err)
		}
		words := strings.Join(strings.Fields(fitText(t, pdf)), " ")
		if strings.Contains(words, "for building") || !strings.Contains(words, "not further, because") {
			t.Errorf("%s of a generic shell: %.600s", name, words)
		}
	}
	pdf, err := s.FixingMap(sheet.Issue{})
	if err != nil {
		t.Fatal(err)
	}
	if words := fitText(t, pdf); !strings.Contains(words, "for building") || strings.Count(words, "HOLD POINT") != 3 {
		t.Errorf("the fixing map of a measured van: %.400s", words)
	}
}

// Tapes add up: from the bulkhead line to the front edge, the item, and from its rear edge to the rear door line make the floor.
func TestPropTapesCloseOnTheFloor(t *testing.T) {
	s := fitSheet(t, "curlew")
	v, n := s.Van(), 0
	for _, p := range s.Placed(derive.Travel) {
		ts := sheet.Tapes(&p, v, unit.Metric)
		if len(ts) > 6 {
			t.Errorf("%s has %d tapes", p.Item.ID, len(ts))
		}
		if len(ts) == 0 {
			continue
		}
		n++
		var along unit.Length
		seen := map[string]bool{}
		for _, x := range ts {
			if seen[x.From] {
				t.Errorf("%s is measured twice from the %s", p.Item.ID, x.From)
			}
			seen[x.From] = true
			if x.From == "bulkhead line" || x.From == "rear door line" {
				along += x.Length
			}
		}
		if want := v.RearDoor.V - v.Bulkhead.V - (p.Max[0] - p.Min[0]); along != want {
			t.Errorf("%s: both tapes along make %v, want %v", p.Item.ID, along, want)
		}
	}
	if n < 50 {
		t.Errorf("only %d items have tapes", n)
	}
}

// A cupboard worked by hand: 1 640 to 5 030 mm of floor, walls at 925 mm, finished floor at 37 mm, ceiling at 1 890 mm; it stands
// from 2 800 to 3 280 mm, 30 mm off the left wall, on the floor.
func TestRefTapesOfACupboard(t *testing.T) {
	const mm = unit.Millimetre
	at := func(l unit.Length) derive.Val[unit.Length] { return derive.Val[unit.Length]{V: l, How: derive.Given} }
	v := derive.Van{Bulkhead: at(1640 * mm), RearDoor: at(5030 * mm), Left: at(-925 * mm), Right: at(925 * mm), Finished: at(37 * mm), Ceiling: at(1890 * mm)}
	p := derive.Placed{Item: &doc.Item{ID: "cupboard"}, Boxed: true, Min: [3]unit.Length{2800 * mm, -895 * mm, 37 * mm}, Max: [3]unit.Length{3280 * mm, -375 * mm, 597 * mm}}
	var out []string
	for _, x := range sheet.Tapes(&p, v, unit.Metric) {
		out = append(out, strings.ReplaceAll(x.Text, unit.Space, " "))
	}
	want := "back from the bulkhead line 1 160 mm to the front edge\nfrom the left wall 30 mm to the left edge\nup from the finished floor 0 mm to the underside\n" +
		"forward from the rear door line 1 750 mm to the rear edge\nfrom the right wall 1 300 mm to the right edge\ndown from the ceiling 1 293 mm to the top"
	if got := strings.Join(out, "\n"); got != want {
		t.Errorf("tapes are\n%s\nwant\n%s", got, want)
	}
	p.Item.Place.RearDoor = unit.Some(unit.LengthEst{Value: 1750 * mm}) // as it was taped leads
	if ts := sheet.Tapes(&p, v, unit.Metric); ts[0].From != "rear door line" {
		t.Errorf("the first tape is from the %s", ts[0].From)
	}
}

// TestFrozenLookAtFitPapers writes the papers for looking at, when BERTHWRIGHT_LOOK names a folder.
func TestFrozenLookAtFitPapers(t *testing.T) {
	dir := os.Getenv("BERTHWRIGHT_LOOK")
	if dir == "" {
		t.Skip("BERTHWRIGHT_LOOK names no folder to write papers to")
	}
	for _, build := range []string{"curlew", "dunlin", "avocet"} {
		s := fitSheet(t, build)
		for name, set := range map[string]func(sheet.Issue) ([]byte, error){"holes": s.HoleRegister, "templates": allTemplates(s), "fixing": s.FixingMap, "states": s.StateSheets} {
			pdf, err := set(sheet.Issue{})
			if err == nil {
				err = os.WriteFile(dir+"/"+build+"-"+name+".pdf", pdf, 0o600)
			}
			if err != nil {
				t.Errorf("%s %s: %v", build, name, err)
			}
		}
		for _, view := range sheet.Views {
			pdf, err := s.View(view, derive.Camp, "pdf", 20, sheet.Issue{})
			if err == nil {
				err = os.WriteFile(dir+"/"+build+"-view-"+view+".pdf", pdf, 0o600)
			}
			if err != nil {
				t.Errorf("%s %s: %v", build, view, err)
			}
		}
	}
}

func allTemplates(s *sheet.Sheet) func(sheet.Issue) ([]byte, error) {
	return func(i sheet.Issue) ([]byte, error) { return s.Templates(i, "") }
}
