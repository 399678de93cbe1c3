package drawing

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"berthwright/unit"
)

func TestPropArcEndsAndExtent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-100, 100)
		cx, cy, r := x.Draw(t, "cx"), x.Draw(t, "cy"), rapid.Float64Range(1, 100).Draw(t, "r")
		a, sweep := rapid.Float64Range(-3, 3).Draw(t, "start"), rapid.Float64Range(0.1, 6).Draw(t, "sweep")
		if rapid.Bool().Draw(t, "back") {
			sweep = -sweep
		}
		at := func(f float64) (float64, float64) { return cx + r*math.Cos(a+f*sweep), cy + r*math.Sin(a+f*sweep) }
		x0, y0 := at(0)
		x1, y1 := at(1)
		g := Seg{Op: Arc, R: r, X: x1, Y: y1, Large: math.Abs(sweep) > math.Pi, CW: sweep > 0}
		gx, gy, _, _, gs := arcCentre(x0, y0, g)
		if math.Hypot(gx-cx, gy-cy) > 1e-4*r || math.Abs(gs-sweep) > 1e-4 {
			t.Fatalf("centre %g %g sweep %g, want %g %g %g", gx, gy, gs, cx, cy, sweep)
		}
		got := Segs{{Op: Move, X: x0, Y: y0}, g}.Box()
		want := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
		for i := range 2001 {
			px, py := at(float64(i) / 2000)
			want = Box{math.Min(want.X0, px), math.Min(want.Y0, py), math.Max(want.X1, px), math.Max(want.Y1, py)}
		}
		for _, d := range []float64{got.X0 - want.X0, got.Y0 - want.Y0, got.X1 - want.X1, got.Y1 - want.Y1} {
			if math.Abs(d) > 1e-3*r {
				t.Fatalf("extent %v, want %v", got, want)
			}
		}
	})
}

func TestPropHatchFillsTheArea(t *testing.T) {
	// The length of the lines times their distance is the area, as finely as they are drawn.
	poly := [][2]float64{{0, 0}, {400, 30}, {350, 300}, {200, 120}, {20, 280}}
	area := 0.0
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		area += (p[0]*q[1] - q[0]*p[1]) / 2
	}
	sum := 0.0
	d := hatchLines(poly, 0.5)
	for i := 0; i+1 < len(d); i += 2 {
		sum += math.Hypot(d[i+1].X-d[i].X, d[i+1].Y-d[i].Y)
	}
	if got := sum * 0.5; math.Abs(got-area) > 0.005*area {
		t.Errorf("hatched %.0f, area %.0f", got, area)
	}
}

var update = flag.Bool("update", false, "write the frozen scenes anew")

// small is a van of three things, one of each kind that has a place.
func small() Input {
	mm := unit.Millimetre
	in := Input{State: "travel", Name: "Small", Van: Van{Length: unit.Some(5 * unit.Metre), Width: unit.Some(1900 * mm), Height: unit.Some(2 * unit.Metre),
		FrontOverhang: unit.Some(900 * mm), Wheelbase: unit.Some(3 * unit.Metre), FloorHeight: unit.Some(500 * mm), Bulkhead: unit.Some(1200 * mm), RearDoor: unit.Some(3800 * mm)}}
	box := Thing{ID: "box", Doc: "items/box", Number: 1, Name: "Box", Mass: "12 kg", Layer: "loose", Z1: 400 * mm, Measured: true,
		Outline: []At{{1500 * mm, -800 * mm}, {2100 * mm, -800 * mm}, {2100 * mm, -400 * mm}, {1500 * mm, -400 * mm}}}
	mark := Thing{ID: "tap", Number: 2, Name: "Tap", Kind: MassOnly}
	mark.Centre.X, mark.Centre.Y, mark.Centre.Z = 2500*mm, -600*mm, 900*mm
	pipe := Thing{ID: "pipe", Number: 3, Name: "Pipe", Kind: Spread, X0: 1300 * mm, X1: 3300 * mm}
	pipe.Centre.X = 2300 * mm
	in.Things = []Thing{box, mark, pipe}
	return in
}

func TestFrozenSmallScenes(t *testing.T) {
	for _, s := range []Scene{Plan(small(), Options{Scale: 20, Dimensions: true, Labels: true, Band: true}), SideLeft(small(), Options{Scale: 20, Labels: true})} {
		var b strings.Builder
		for _, p := range s.Prims {
			j, err := p.MarshalJSON()
			if err != nil {
				t.Fatal(err)
			}
			b.Write(append(j, '\n'))
		}
		file := filepath.Join("testdata", "small-"+s.ID+".jsonl")
		if *update {
			if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if b.String() != string(want) {
			t.Errorf("%s: the scene changed; run with -update and read the difference", s.ID)
		}
	}
}
