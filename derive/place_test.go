package derive_test

import (
	"math"
	"strings"
	"testing"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/parts"
	"berthwright/unit"
	"berthwright/workshop"
)

const head = `berthwright: 1
build: {id: test, country: uk, date: 2026-11-01}
van:
  wheelbase: 4000 mm
  track: {front: 1800 mm, rear: 1800 mm}
  floor: {height: 560 mm, front: 1600 mm, rear: 5000 mm, finished: 40 mm}
  inside: {left: -900 mm, right: 900 mm, ceiling: 1900 mm, wheel-box: {front: 3600 mm, rear: 4400 mm}}
  empty: {front: 1200 kg, rear: 800 kg, with: {driver: 0 kg, fuel: 50 %}, from: weighing, division: 20 kg}
items:
`

func build(t testing.TB, text string) doc.Build {
	t.Helper()
	f := docfile.Read("test.yaml", []byte(text))
	for _, d := range f.Diags {
		t.Fatal(d.Text())
	}
	return f.Build
}

func makeOf(t testing.TB, text string) derive.Weight {
	t.Helper()
	c, err := parts.Load()
	if err != nil {
		t.Fatal(err)
	}
	return derive.MakeWeight(build(t, text), derive.Context{Parts: c, Shop: workshop.Workshop{}}, nil)
}

// placed returns where an item is; absent coordinates are NaN, in mm.
func placed(t testing.TB, text, id string, state derive.State) (derive.Placed, [3]float64) {
	t.Helper()
	b := build(t, text)
	for _, p := range derive.Place(b, derive.ResolveVan(b.Van, doc.Van{}, ""), state) {
		if p.Item.ID == id {
			var at [3]float64
			for k := range at {
				at[k] = math.NaN()
				if p.Centre[k].Known() {
					at[k] = p.Centre[k].V.Millimetres()
				}
			}
			return p, at
		}
	}
	t.Fatalf("no item %s", id)
	return derive.Placed{}, [3]float64{}
}

const box = "size: {x: 400 mm, y: 300 mm, z: 200 mm}"

// Every line a fitter can tape from gives the middle of the box; the mass centre is its middle.
func TestPropTapes(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		place string
		want  [3]float64
	}{
		{"place: {bulkhead: 100 mm}", [3]float64{1600 + 100 + 200, nan, nan}},
		{"place: {bulkhead: 100 mm, edge: rear}", [3]float64{1600 + 100 - 200, nan, nan}},
		{"place: {bulkhead: 100 mm, edge: middle}", [3]float64{1600 + 100, nan, nan}},
		{"place: {rear-door: 100 mm}", [3]float64{5000 - 100 - 200, nan, nan}},
		{"place: {rear-door: 100 mm, edge: front}", [3]float64{5000 - 100 + 200, nan, nan}},
		{"place: {wheel-box: -50 mm}", [3]float64{3950, nan, nan}},
		{"place: {left-wall: 30 mm}", [3]float64{nan, -900 + 30 + 150, nan}},
		{"place: {right-wall: 30 mm}", [3]float64{nan, 900 - 30 - 150, nan}},
		{"place: {centre-line: -120 mm}", [3]float64{nan, -120, nan}},
		{"place: {finished-floor: 10 mm}", [3]float64{nan, nan, 40 + 10 + 100}},
		{"place: {bare-floor: 10 mm}", [3]float64{nan, nan, 10 + 100}},
		{"place: {ceiling: 10 mm}", [3]float64{nan, nan, 1900 - 10 - 100}},
		{"turn: 90 °, place: {bulkhead: 100 mm, left-wall: 30 mm}", [3]float64{1600 + 100 + 150, -900 + 30 + 200, nan}},
		{"at: {x: 2 m, y: 0 m, z: 0 m}, centre: {x: 50 mm, y: 20 mm, z: 70 mm}", [3]float64{2050, 20, 70}},
		{"turn: 90 °, at: {x: 2 m, y: 0 m, z: 0 m}, centre: {x: 50 mm, y: 20 mm, z: 70 mm}", [3]float64{1980, 50, 70}},
		{"turn: 180 °, at: {x: 2 m, y: 0 m, z: 0 m}, centre: {x: 50 mm, y: 20 mm, z: 70 mm}", [3]float64{1950, -20, 70}},
	} {
		_, got := placed(t, head+"  - {id: a, "+box+", "+c.place+"}\n", "a", derive.Travel)
		for k := range got {
			if got[k] != c.want[k] && !(math.IsNaN(got[k]) && math.IsNaN(c.want[k])) {
				t.Errorf("%s: %c is %v, want %v", c.place, "xyz"[k], got[k], c.want[k])
			}
		}
	}
}

// Neighbours: each face plus the gap, in whatever order the file has them; one axis is enough.
func TestPropNeighbours(t *testing.T) {
	first := "  - {id: n, " + box + ", at: {x: 3000 mm, y: 100 mm, z: 0 mm}}\n"
	flat := "  - {id: n, " + box + ", at: {x: 3000 mm}}\n"
	item := func(place string) string { return "  - {id: a, " + box + ", place: {" + place + ", gap: 20 mm}}\n" }
	for _, c := range []struct {
		place string
		axis  int
		want  float64
	}{
		{"behind: n", 0, 3200 + 20 + 200}, {"ahead-of: n", 0, 2800 - 20 - 200}, {"left-of: n", 1, -50 - 20 - 150}, {"right-of: n", 1, 250 + 20 + 150},
	} {
		for _, text := range []string{head + first + item(c.place), head + item(c.place) + first} {
			if _, got := placed(t, text, "a", derive.Travel); got[c.axis] != c.want {
				t.Errorf("%s: %v, want %v", c.place, got[c.axis], c.want)
			}
		}
	}
	if _, got := placed(t, head+flat+item("behind: n"), "a", derive.Travel); got[0] != 3420 {
		t.Errorf("behind a neighbour of which only the place along is known: %v", got[0])
	}
}

// A ring of neighbours has no place, and is told as missing, never taken as nought.
func TestPropRingIsMissing(t *testing.T) {
	w := makeOf(t, head+"  - {id: a, name: A, mass: 10 kg, "+box+", place: {behind: b}}\n  - {id: b, name: B, mass: 10 kg, "+box+", place: {behind: a}}\n")
	n := 0
	for _, l := range w.Lacks {
		if l.Need == derive.NeedPlace {
			n++
			if !strings.Contains(l.What, "ring") {
				t.Errorf("%q does not say why", l.What)
			}
		}
	}
	if n != 2 {
		t.Errorf("%d of 2 places are missing: %v", n, w.Lacks)
	}
}

// States are exceptions: what a pose leaves open stays as it is elsewhere.
func TestPropStates(t *testing.T) {
	text := head + "  - {id: a, " + box + ", at: {x: 2000 mm, y: 100 mm, z: 50 mm}, states: {night: {at: {x: 2500 mm}}, stored: {away: true}}}\n"
	if _, got := placed(t, text, "a", derive.Travel); got != [3]float64{2000, 100, 150} {
		t.Errorf("travel: %v", got)
	}
	if _, got := placed(t, text, "a", derive.Night); got != [3]float64{2500, 100, 150} {
		t.Errorf("night: %v", got)
	}
	if p, _ := placed(t, text, "a", derive.Stored); !p.Away {
		t.Error("stored: it is not away")
	}
}

// A zone is its middle with the spread that a zone implies; a stretch is its middle.
func TestPropZoneAndStretch(t *testing.T) {
	p, got := placed(t, head+"  - {id: a, mass: 60 kg, zone: rear left low}\n", "a", derive.Travel)
	if got[0] != (4400+5000)/2 || got[1] != -600 || p.XHalf != 300*unit.Millimetre || p.At[0].How != derive.Assumed {
		t.Errorf("%v ± %v", got, p.XHalf)
	}
	p, got = placed(t, head+"  - {id: a, mass: 60 kg, span: {from: 2000 mm, to: 3000 mm}}\n", "a", derive.Travel)
	if got[0] != 2500 || !p.Stretch || !math.IsNaN(got[1]) {
		t.Errorf("%v", got)
	}
}

// The cab seat gives a line when the driver's seat has its reference point: + 130 mm, ± 30 mm, said to be assumed.
func TestPropCabSeat(t *testing.T) {
	driver := "  - {id: seat, in-ticket: true, seat: {driver: true, belted: true, r-point: {x: 1200 mm}}}\n"
	item := "  - {id: a, mass: 10 kg, " + box + ", place: {cab-seat: 400 mm}}\n"
	p, got := placed(t, head+driver+item, "a", derive.Travel)
	if got[0] != 1200+130+400+200 || p.XHalf != 30*unit.Millimetre || p.At[0].How != derive.Assumed {
		t.Errorf("%v ± %v, %v", got[0], p.XHalf, p.At[0].How)
	}
	told := false
	for _, a := range makeOf(t, head+driver+item).Assumed {
		told = told || strings.Contains(a.Text(unit.Metric), "cab seat")
	}
	if !told {
		t.Error("the line of the cab seat is not told as assumed")
	}
	if _, got := placed(t, head+item, "a", derive.Travel); !math.IsNaN(got[0]) {
		t.Errorf("without a driver's seat: %v", got[0])
	}
}

// The nine tapes give the lines, the walls and the wheel-box; what is written wins.
func TestPropSurveyLines(t *testing.T) {
	b := build(t, `berthwright: 1
build: {id: test}
van:
  survey: {hubs-left: 4002 mm, hubs-right: 3998 mm, hub-to-pillar: 1392 mm, pillar-to-bulkhead: 248 mm, hub-to-rear-door: 1030 mm, bulkhead-to-rear-door: 3387 mm,
    wheel-box-front: 1375 mm, wheel-box-rear: 675 mm, floor-to-ground-front: 556 mm, floor-to-ground-rear: 564 mm, width-at-900: 1916 mm, floor-build: 37 mm, lining: 33 mm}
`)
	v := derive.ResolveVan(b.Van, doc.Van{}, "")
	for _, c := range []struct {
		what string
		v    derive.Val[unit.Length]
		want float64
	}{
		{"wheelbase", v.Wheelbase, 4000}, {"left less right", v.Survey.HubsApart, 4}, {"bulkhead line", v.Bulkhead, 1640}, {"rear door line", v.RearDoor, 5030},
		{"closing error", v.Survey.Closing, 3}, {"middle of the wheel-box", v.Survey.BoxMiddle, 5}, {"floor", v.FloorHigh, 560}, {"rake", v.Survey.Rake, 8},
		{"finished floor", v.Finished, 37}, {"right wall", v.Right, 925}, {"left wall", v.Left, -925}, {"box front", v.BoxFront, 3655}, {"box rear", v.BoxRear, 4355},
	} {
		if !c.v.Known() || c.v.V.Millimetres() != c.want || c.v.How != derive.Derived {
			t.Errorf("%s: %v (%s), want %v", c.what, c.v.V.Millimetres(), c.v.How, c.want)
		}
	}
	b.Van.Inside.Right = unit.Some(900 * unit.Millimetre)
	if w := derive.ResolveVan(b.Van, doc.Van{}, ""); w.Right.V != 900*unit.Millimetre || w.Right.How != derive.Given {
		t.Errorf("the wall as written: %v", w.Right)
	}
}

func loadOf(t testing.TB, w derive.Weight, id string) derive.Load {
	t.Helper()
	for _, l := range w.Loads {
		if l.ID == id {
			return l
		}
	}
	t.Fatalf("no load %s", id)
	return derive.Load{}
}

// Allowances shrink as real items of their group arrive, one after the other, and never below nothing.
func TestPropAllowances(t *testing.T) {
	allow := "  - {id: al, name: Kitchen, group: kitchen, allowance: true, mass: 50 kg ± 20 %, zone: mid left low}\n  - {id: al2, name: More kitchen, group: kitchen, allowance: true, mass: 30 kg ± 20 %, zone: mid left low}\n"
	for _, c := range []struct{ real, first, second float64 }{{0, 50, 30}, {20, 30, 30}, {60, 0, 20}, {100, 0, 0}} {
		text := head + allow
		if c.real > 0 {
			text += "  - {id: real, group: kitchen, mass: " + unit.FormatSI(unit.KindMass, c.real, unit.Metric, 0) + ", at: {x: 3 m, y: 0 m, z: 0 m}}\n"
		}
		w := makeOf(t, text)
		a, b := loadOf(t, w, "al"), loadOf(t, w, "al2")
		if a.Mass.Kilograms() != c.first || b.Mass.Kilograms() != c.second {
			t.Errorf("%g kg real: %v and %v left, want %v and %v", c.real, a.Mass, b.Mass, c.first, c.second)
		}
		if math.Abs(a.Half.Kilograms()-0.2*c.first) > 1e-9 {
			t.Errorf("%g kg real: ± %v", c.real, a.Half)
		}
		u := loadOf(t, w, derive.UnlistedID)
		if want := 0.04 * (c.real + c.first + c.second); math.Abs(u.Mass.Kilograms()-want) > 1e-9 || math.Abs(u.Half.Kilograms()-want/2) > 1e-9 {
			t.Errorf("unlisted %v ± %v, want %v", u.Mass, u.Half, want)
		}
	}
}

// Counts multiply, none is nothing, what is removed is negative, and what the ticket holds adds nothing.
func TestPropCounts(t *testing.T) {
	w := makeOf(t, head+`  - {id: four, mass: 2 kg ± 10 %, count: 4, at: {x: 3 m, y: 0 m, z: 0 m}}
  - {id: none, mass: 2 kg, count: 0}
  - {id: no-mass, count: 0}
  - {id: gone, mass: 5 kg ± 1 kg, count: 2, removed: true, at: {x: 3 m, y: 0 m, z: 0 m}}
  - {id: inside, mass: 30 kg, in-ticket: true, at: {x: 3 m, y: 0 m, z: 0 m}}
  - {id: unlisted, mass: 9 kg ± 4 kg, at: {x: 3 m, y: 0 m, z: 0 m}}
`)
	for id, want := range map[string][2]float64{"four": {8, 0.8}, "gone": {-10, 2}, "none": {0, 0}, "unlisted": {9, 4}} {
		if l := loadOf(t, w, id); math.Abs(l.Mass.Kilograms()-want[0]) > 1e-9 || id != "none" && math.Abs(l.Half.Kilograms()-want[1]) > 1e-9 {
			t.Errorf("%s: %v ± %v, want %v", id, l.Mass, l.Half, want)
		}
	}
	n := 0
	for _, l := range w.Loads {
		if l.ID == "inside" {
			t.Error("what is in the ticket is counted again")
		}
		if l.Unlisted {
			n++
		}
	}
	if n != 1 || w.Unlisted != 0 {
		t.Errorf("%d unlisted, default share %v", n, w.Unlisted)
	}
	if len(w.Lacks) != 0 {
		t.Errorf("missing: %v", w.Lacks)
	}
}
