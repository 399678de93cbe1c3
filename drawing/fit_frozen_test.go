package drawing

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"berthwright/unit"
)

// smallFit is the small van with a wall at one station, a rib, a hole and a door.
func smallFit() Input {
	const mm = unit.Millimetre
	in := small()
	in.Van.FinishedFloor, in.Van.LeftWall, in.Van.RightWall, in.Van.Ceiling = unit.Some(20*mm), unit.Some(-870*mm), unit.Some(870*mm), unit.Some(1380*mm)
	in.Van.WheelBoxes = []WheelBox{{X0: 2700 * mm, X1: 3300 * mm, Y0: -870 * mm, Y1: -700 * mm, Top: unit.Some(250 * mm)}}
	for _, x := range []unit.Length{1200 * mm, 2000 * mm, 3800 * mm} {
		in.Cuts = append(in.Cuts, Cut{X: x, Floor: []Level{{20 * mm, "20 mm panel"}},
			Bare:  []YZ{{-890 * mm, 0}, {-900 * mm, 900 * mm}, {-700 * mm, 1400 * mm}, {700 * mm, 1400 * mm}, {900 * mm, 900 * mm}, {890 * mm, 0}},
			Lined: []YZ{{-860 * mm, 20 * mm}, {-870 * mm, 890 * mm}, {-680 * mm, 1380 * mm}, {680 * mm, 1380 * mm}, {870 * mm, 890 * mm}, {860 * mm, 20 * mm}}})
	}
	in.Things[0].Fixed = "4 × M6 into rib"
	in.Holes = []Hole{{ID: "window", Doc: "items/window/opening", Name: "Window", Mark: "H1", Face: "left", Lo: [2]unit.Length{2300 * mm, 700 * mm}, Hi: [2]unit.Length{2800 * mm, 1000 * mm}, Radius: 50 * mm, Frame: 20 * mm}}
	in.Members = []Member{{ID: "rib", Doc: "van/shell/frames/rib", Kind: "rib", Face: "left", X: 2200 * mm, Width: 60 * mm, Low: 100 * mm, High: 1200 * mm}}
	in.Doors = []Door{{ID: "slide", Doc: "van/shell/openings/slide", Name: "sliding door", Face: "left", From: 1250 * mm, To: 1900 * mm, High: 1300 * mm}}
	return in
}

func TestFrozenWallAndSection(t *testing.T) {
	o := Options{Scale: 20, Dimensions: true, Labels: true}
	for _, s := range []Scene{WallLeft(smallFit(), o), Section(smallFit(), 2000*unit.Millimetre, o), Rear(smallFit(), o)} {
		var b strings.Builder
		for _, p := range s.Prims {
			j, err := p.MarshalJSON()
			if err != nil {
				t.Fatal(err)
			}
			b.Write(append(j, '\n'))
		}
		file := filepath.Join("testdata", "fit-"+s.ID+".jsonl")
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

// The hatch of a cut thing lies in it, and covers its area as finely as it is drawn.
func TestPropCutThingsAreHatchedWithinTheirOutline(t *testing.T) {
	s := Section(smallFit(), 2000*unit.Millimetre, Full(20))
	var edge Box
	for _, p := range s.Prims {
		if p.ID == "item:box/edge" {
			edge = p.Box()
		}
	}
	for _, p := range s.Prims {
		if p.ID != "item:box/cut" {
			continue
		}
		if !p.Box().Within(edge.Grow(0.001)) || p.Box().W() < 0.9*edge.W() {
			t.Errorf("the hatch %v is not in the outline %v", p.Box(), edge)
		}
		return
	}
	t.Error("the box is cut at 2 000 mm and has no hatch")
}

// The lining between bare and lined wall is hatched by its area.
func TestPropLiningIsHatchedByItsArea(t *testing.T) {
	in := smallFit()
	area := func(ps []YZ) float64 {
		sum := 0.0
		for i, p := range ps {
			q := ps[(i+1)%len(ps)]
			sum += (p.Y.Millimetres()*q.Z.Millimetres() - q.Y.Millimetres()*p.Z.Millimetres()) / 2
		}
		return -sum // the curves run clockwise in y, z
	}
	want := area(in.Cuts[1].Bare) - area(in.Cuts[1].Lined)
	for _, p := range Section(in, in.Cuts[1].X, Options{Scale: 1}).Prims {
		if p.ID != "van/lining" {
			continue
		}
		sum := 0.0
		for i := 0; i+1 < len(p.D); i += 2 {
			b := p.D[i : i+2].Box()
			sum += b.W() * 1.4142135623730951
		}
		if got := sum * 1.4; got < 0.97*want || got > 1.03*want {
			t.Errorf("hatched %.0f mm², the lining has %.0f mm²", got, want)
		}
		return
	}
	t.Error("the lining is not hatched")
}

// What cannot be drawn is left out, and said.
func TestPropASectionWhereNothingWasMeasuredSaysSo(t *testing.T) {
	s := Section(smallFit(), 2500*unit.Millimetre, Full(20))
	said := false
	for _, p := range s.Prims {
		if p.ID == "van/bare" {
			t.Error("a wall is drawn where none was measured")
		}
		said = said || strings.Contains(p.Text, "not known here")
	}
	if !said {
		t.Error("the section does not say that its wall is not known")
	}
	for _, f := range []func(Input, Options) Scene{WallLeft, WallRight, Rear} {
		if _, err := PDF([]Scene{f(Input{}, Full(20))}, Meta{}); err != nil {
			t.Error(err)
		}
	}
}

// What is shut in a locker is not in the plan, and its number is told; what stands in a tall room is.
func TestPropPlanLeavesOutWhatIsShutIn(t *testing.T) {
	const mm = unit.Millimetre
	at := func(id string, n int, top unit.Length) Thing {
		return Thing{ID: id, Number: n, Name: id, Z1: top, Outline: []At{{1500 * mm, 0}, {2000 * mm, 0}, {2000 * mm, 500 * mm}, {1500 * mm, 500 * mm}}}
	}
	for _, tall := range []bool{false, true} {
		in := small()
		locker, tank := at("locker", 5, 500*mm), at("tank", 6, 300*mm)
		if tall {
			locker.Z1 = 1800 * mm
		}
		locker.Holds, tank.Within = true, []string{"locker"}
		in.Things = []Thing{locker, tank}
		drawn, told := false, false
		for _, p := range Plan(in, Full(20)).Prims {
			drawn = drawn || p.ID == "item:tank"
			told = told || strings.Contains(p.Text, "no. 6.")
		}
		if drawn != tall || told == tall {
			t.Errorf("locker tall %v: tank drawn %v, told %v", tall, drawn, told)
		}
		o := Full(20)
		o.Hidden = true
		drawn = false
		for _, p := range Plan(in, o).Prims {
			drawn = drawn || p.ID == "item:tank"
		}
		if !drawn {
			t.Error("asked for the hidden, the tank is not drawn")
		}
	}
}
