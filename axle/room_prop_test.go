package axle_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"berthwright/axle"
	"berthwright/internal/calctest"
	"berthwright/unit"
)

func randomBounds(r *rand.Rand, least float64) []axle.Bound {
	margin := func() unit.Mass { return unit.Mass(least + (300-least)*r.Float64()) }
	return []axle.Bound{
		{Name: "total", Measure: axle.Total(), Margin: margin()},
		{Name: "front", Measure: curlewGeometry.Front(), Margin: margin()},
		{Name: "rear", Measure: curlewGeometry.Rear(), Margin: margin()},
		{Name: "front share", Measure: axle.Total().Plus(-1/0.3, curlewGeometry.Front(), "shortfall of front share"), Margin: margin()},
		{Name: "roof", Measure: axle.Carried(axle.Roof), Margin: margin()},
		{Name: "right", Measure: curlewGeometry.Right(), Margin: margin()},
	}
}

// TestPropRoom: what can be added brings the first bound exactly to its limit and passes no other; the
// stretches agree with the point formula everywhere.
func TestPropRoom(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 7))
	for range 300 {
		bounds := randomBounds(r, -20)
		carrier := axle.On(r.IntN(4))
		y := mm(math.Round(1600*r.Float64() - 800))
		stretches, err := axle.RoomAlong(bounds, mm(-900), mm(5900), y, carrier)
		if err != nil {
			t.Fatal(err)
		}
		if stretches[0].From != mm(-900) || stretches[len(stretches)-1].To != mm(5900) {
			t.Fatalf("stretches do not span the van: %v", stretches)
		}
		for i, s := range stretches {
			if i > 0 && (s.From != stretches[i-1].To || s.Bound == stretches[i-1].Bound) {
				t.Fatalf("stretches do not join: %v", stretches)
			}
			for k := range 5 {
				x := s.From + (s.To - s.From).Times((float64(k)+0.5)/5)
				if x-s.From < 2 || s.To-x < 2 {
					continue // the ends are rounded to the micrometre
				}
				at := axle.Place{X: unit.Some(x), Y: unit.Some(y)}
				room, err := axle.RoomAt(bounds, at, carrier)
				if err != nil {
					t.Fatal(err)
				}
				added, limited := room.Mass.Get()
				if !limited {
					t.Fatal("the total limits nothing")
				}
				if w, ok := axle.RoomWorking(bounds, at, carrier); !ok {
					t.Error("no working")
				} else if k == 0 {
					calctest.Recompute(t, w)
				}
				if here, err := axle.RoomAt(bounds[s.Bound:s.Bound+1], at, carrier); err != nil || math.Abs((get(t, here.Mass)-added).Kilograms()) > 1e-9 {
					t.Errorf("stretch says %s, point says %s", bounds[s.Bound].Name, bounds[room.Bound].Name)
				}
				for j, b := range bounds {
					left := b.Margin.Kilograms() - added.Kilograms()*get(t, b.Measure.Lever(at, carrier)).Share()
					if b.Margin >= 0 && left < -1e-9 {
						t.Errorf("%s is passed by %v", b.Name, -left)
					}
					if j == room.Bound && added > 0 {
						near(t, "bound reached", left, 0, 1e-9)
					}
				}
			}
		}
	}
	if _, err := axle.RoomAlong(nil, 1, 0, 0, axle.Inside); err == nil {
		t.Error("a stretch that ends ahead of its start")
	}
	if s, err := axle.RoomAlong(nil, 0, 1, 0, axle.Inside); err != nil || len(s) != 1 || s[0].Bound != -1 {
		t.Errorf("no bounds: %v %v", s, err)
	}
	// Behind the rear axle nothing is ever too much for the front one.
	front := []axle.Bound{{Name: "front", Measure: curlewGeometry.Front(), Margin: 100}}
	if s, err := axle.RoomAlong(front, 0, mm(6000), 0, axle.Inside); err != nil || len(s) != 2 || s[0] != (axle.Stretch{From: 0, To: mm(4000), Bound: 0}) || s[1].Bound != -1 {
		t.Errorf("front axle alone: %v %v", s, err)
	}
	if _, err := axle.RoomAt([]axle.Bound{{Measure: axle.Total(), Margin: unit.Mass(math.NaN())}}, axle.Place{}, axle.Inside); err == nil {
		t.Error("a margin that is no number")
	}
	if _, err := axle.RoomAt([]axle.Bound{{Measure: curlewGeometry.Rear(), Margin: 5}}, axle.Place{}, axle.Inside); err == nil {
		t.Error("room at an unknown place on the rear axle")
	}
}

// TestCrossRoomCurlew: 71 kg of rear margin at the rear axle line is 71 kg of load there, and half the way
// along twice as much until the total binds.
func TestCrossRoomCurlew(t *testing.T) {
	bounds := []axle.Bound{{Name: "rear", Measure: curlewGeometry.Rear(), Margin: 71}, {Name: "total", Measure: axle.Total(), Margin: 109}, {Name: "front", Measure: curlewGeometry.Front(), Margin: 298}}
	stretches, err := axle.RoomAlong(bounds, mm(-900), mm(5000), 0, axle.Inside)
	if err != nil {
		t.Fatal(err)
	}
	if len(stretches) != 2 || stretches[0].Bound != 1 || stretches[1].Bound != 0 {
		t.Fatalf("stretches %v", stretches)
	}
	near(t, "change of bound", stretches[0].To.Metres(), 4*71.0/109, 1e-6)
}

// TestPropClears applies each change to real loads and adds them up again.
func TestPropClears(t *testing.T) {
	r := rand.New(rand.NewPCG(32, 7))
	cleared, reopened := 0, 0
	for range 200 {
		loads := randomLoads(r, 20)
		for i := range loads {
			loads[i].Mass = unit.Mass(math.Abs(loads[i].Mass.Kilograms()))
		}
		before, err := axle.Sum(curlewGeometry, loads)
		if err != nil {
			t.Fatal(err)
		}
		bounds := randomBounds(r, 0)
		target := r.IntN(4)
		bounds[target].Margin = unit.Mass(-10 * r.Float64())
		want := unit.Mass(5 * r.Float64())
		var candidates []axle.Candidate
		for _, l := range loads {
			candidates = append(candidates, axle.Candidate{Load: l, CanMove: r.IntN(3) > 0, From: mm(1700), To: mm(5000), CanGo: r.IntN(3) > 0})
		}
		mends, err := axle.Clears(bounds, target, candidates, want)
		if err != nil {
			t.Fatal(err)
		}
		class := 0
		for _, m := range mends {
			after := append([]axle.Load(nil), loads...)
			for i := range after {
				if after[i].ID != m.Load.ID {
					continue
				}
				if m.Removal {
					after[i].Mass = 0
				} else {
					after[i].At.X = unit.Some(get(t, after[i].At.X) + m.By)
					if m.To != get(t, after[i].At.X) || m.To < mm(1700) && m.By < 0 || m.To > mm(5000) && m.By > 0 {
						t.Errorf("%s moves to %v by %v", m.Load.ID, m.To, m.By)
					}
				}
			}
			s, err := axle.Sum(curlewGeometry, after)
			if err != nil {
				t.Fatal(err)
			}
			reopens := 0
			for j, b := range bounds {
				left := b.Margin.Kilograms() - (get(t, s.Read(b.Measure)) - get(t, before.Read(b.Measure))).Kilograms()
				near(t, b.Name, m.Margins[j].Kilograms(), left, 1e-6)
				if j != target && b.Margin >= 0 && m.Margins[j] < 0 {
					reopens++
				}
			}
			if reopens != len(m.Reopens) {
				t.Errorf("%d bounds reopened, told %v", reopens, m.Reopens)
			}
			if m.Clears != (m.Margins[target] >= want-1e-9) || m.Gain <= 0 {
				t.Errorf("clears %v with margin %v, gain %v", m.Clears, m.Margins[target], m.Gain)
			}
			if !m.Clears && !m.Removal && m.To != mm(1700) && m.To != mm(5000) {
				t.Errorf("%s stops at %v before it clears", m.Load.ID, m.To)
			}
			now := 2
			if m.Clears {
				now, cleared = 0, cleared+1
				if reopens > 0 {
					now, reopened = 1, reopened+1
				}
				if !m.Removal { // a millimetre less would not do
					per := m.Gain.Kilograms() / math.Abs(m.By.Metres())
					if m.Margins[target].Kilograms()-per/1000 >= want.Kilograms()+1e-6 {
						t.Errorf("%s moves further than it must", m.Load.ID)
					}
				}
			}
			if now < class {
				t.Error("not ranked")
			}
			class = now
		}
	}
	if cleared < 100 || reopened < 10 {
		t.Errorf("%d changes cleared, %d reopened: too few to tell", cleared, reopened)
	}
}

func TestPropClearsRefuses(t *testing.T) {
	bounds := []axle.Bound{{Name: "rear", Measure: curlewGeometry.Rear(), Margin: -5}}
	for _, c := range []struct {
		what   string
		target int
		want   float64
		cand   axle.Candidate
	}{
		{"no such bound", 1, 0, axle.Candidate{}},
		{"bound before the first", -1, 0, axle.Candidate{}},
		{"margin wanted NaN", 0, math.NaN(), axle.Candidate{}},
		{"range turned round", 0, 0, axle.Candidate{Load: load("a", 5, 1, 0, 0), CanMove: true, From: 2, To: 1}},
		{"mass NaN", 0, 0, axle.Candidate{Load: axle.Load{ID: "a", Mass: unit.Mass(math.NaN())}}},
	} {
		if _, err := axle.Clears(bounds, c.target, []axle.Candidate{c.cand}, unit.Mass(c.want)); err == nil {
			t.Errorf("%s is accepted", c.what)
		}
	}
	// Without a place a load can neither be moved nor judged, so nothing is offered.
	mends, err := axle.Clears(bounds, 0, []axle.Candidate{{Load: axle.Load{ID: "a", Mass: 5}, CanMove: true, To: 1, CanGo: true}}, 0)
	if err != nil || len(mends) != 0 {
		t.Errorf("%v %v", mends, err)
	}
}
