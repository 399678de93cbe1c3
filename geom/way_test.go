package geom

import (
	"errors"
	"math"
	"testing"

	"berthwright/unit"
)

// TestPropWayByHand: a floor 4000 by 1700 with two blocks that leave 560 between them.
func TestPropWayByHand(t *testing.T) {
	floor := must(Rectangle(at2(1000, -850), at2(5000, 850)))
	solids := []Solid{box(2000, -850, 0, 3000, -300, 900), box(2500, 260, 0, 3500, 850, 900)}
	w, err := WidestWay(floor, solids, 0, 1900*mm, at2(1500, 0), at2(4500, 0))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "aisle", w.Width, 560*mm, WayError)
	if w.At.X < 2400*mm || w.At.X > 3100*mm || w.At.Y < -60*mm || w.At.Y > 20*mm {
		t.Errorf("narrowest at %v, want between the blocks", w.At)
	}
	if a, b := w.Path[0], w.Path[len(w.Path)-1]; a.Minus(at2(1500, 0)).X > 15*mm || b.Minus(at2(4500, 0)).X > 15*mm {
		t.Errorf("path from %v to %v", a, b)
	}
	// Above 900 nothing stands: as wide as the floor; the ends stand 500 from the floor's ends, so 1000 at most.
	w = must(WidestWay(floor, solids, 900*mm, 1900*mm, at2(1500, 0), at2(4500, 0)))
	near(t, "over the blocks", w.Width, 1000*mm, WayError)
	// Two blocks that stand cornerwise: corners (2000, -300) and (2400, 0) are 500 apart.
	w = must(WidestWay(floor, []Solid{box(1500, -850, 0, 2000, -300, 900), box(2400, 0, 0, 3000, 850, 900), box(2000, -850, 0, 3000, -840, 900)}, 0, mm, at2(1300, 500), at2(4400, -200)))
	near(t, "cornerwise", w.Width, 500*mm, WayError)
	for name, c := range map[string]struct {
		solids   []Solid
		from, to Vec2
	}{
		"walled off":  {[]Solid{box(2000, -900, 0, 2100, 900, 900)}, at2(1500, 0), at2(4500, 0)},
		"end taken":   {solids, at2(1500, 0), at2(2500, -500)},
		"start taken": {solids, at2(2500, -500), at2(1500, 0)},
	} {
		if _, err := WidestWay(floor, c.solids, 0, mm, c.from, c.to); !errors.Is(err, ErrShut) {
			t.Errorf("%s: %v", name, err)
		}
	}
	var s ShapeError
	if _, err := WidestWay(floor, nil, 0, mm, at2(0, 0), at2(1500, 0)); !errors.As(err, &s) {
		t.Errorf("outside the floor: %v", err)
	}
	if _, err := WidestWay(must(Rectangle(Vec2{}, at2(100000, 1000))), nil, 0, mm, at2(10, 10), at2(20, 20)); err == nil {
		t.Error("a floor of 100 m is taken")
	}
}

// TestPropWayThroughTurnedPassages: a passage of a known width at any angle is found within the stated error.
func TestPropWayThroughTurnedPassages(t *testing.T) {
	r := random(50)
	worst := unit.Length(0)
	for range 60 {
		wide := millimetres(120 + r.IntN(700))
		turn := unit.Angle(r.IntN(360)) * unit.Degree
		mid := Vec2{unit.Length(r.IntN(20000)), unit.Length(r.IntN(20000))}
		off := wide.Half() + 700*mm
		long := millimetres(100 + r.IntN(800))
		a := must(TurnedBox(mid.Plus(Vec2{0, off}), Vec2{long, 1400 * mm}, 0))
		b := must(TurnedBox(mid.Plus(Vec2{0, -off}), Vec2{long, 1400 * mm}, 0))
		solids := []Solid{must(NewSolid(must(a.Turn(mid, turn)), 0, mm)), must(NewSolid(must(b.Turn(mid, turn)), 0, mm))}
		s, c := math.Sincos(turn.Radians())
		from := Vec2{mid.X + unit.MetresLength(1.0*c), mid.Y + unit.MetresLength(1.0*s)}
		to := Vec2{mid.X - unit.MetresLength(1.0*c), mid.Y - unit.MetresLength(1.0*s)}
		round := must(TurnedBox(mid, Vec2{3000 * mm, 2000 * mm}, 0))
		floor := must(round.Turn(mid, turn))
		w, err := WidestWay(floor, solids, 0, mm, from, to)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "passage", w.Width, wide, WayError)
		worst = max(worst, w.Width-wide, wide-w.Width)
	}
	t.Logf("worst error %v", worst)
}

// TestCrossDistancesAgainstPlainSearch compares the distance transform with every pair of points.
func TestCrossDistancesAgainstPlainSearch(t *testing.T) {
	r := random(51)
	for range 8 {
		floor := polygon(r, 500000)
		g := must(newGrid(floor))
		for range 3 {
			g.take(polygon(r, 200000).Move(Vec2{unit.Length(r.IntN(4e5) - 2e5), unit.Length(r.IntN(4e5) - 2e5)}))
		}
		for i, got := range g.distances() {
			want := int32(math.MaxInt32)
			for j, taken := range g.taken {
				if dx, dy := int32(i/g.across-j/g.across), int32(i%g.across-j%g.across); taken {
					want = min(want, dx*dx+dy*dy)
				}
			}
			if got != want {
				t.Fatalf("point %d: %d, want %d", i, got, want)
			}
		}
	}
}
