package axle_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"berthwright/axle"
	"berthwright/internal/calctest"
	"berthwright/unit"
)

func randomLoads(r *rand.Rand, n int) []axle.Load {
	kinds := []string{"", "data-sheet", "estimated"}
	var out []axle.Load
	for i := range n {
		l := load(string(rune('a'+i%26))+string(rune('0'+i/26)), 60*r.Float64(), 6*r.Float64()-0.5, 2*r.Float64()-1, 2.5*r.Float64())
		if r.IntN(6) == 0 {
			l.Mass = -l.Mass
		}
		l.Half = unit.Mass(math.Abs(l.Mass.Kilograms()) * 0.3 * r.Float64())
		l.Kind = kinds[r.IntN(3)]
		l.Group = []string{"", "kitchen", "bunks"}[r.IntN(3)]
		l.On = axle.On(r.IntN(4))
		if r.IntN(2) == 0 {
			l.HalfX, l.HalfY = mm(100*r.Float64()), mm(50*r.Float64())
		}
		out = append(out, l)
	}
	return out
}

// TestPropSplit: parts make the whole; order does not matter; With is Sum; shifting every load along the van
// moves mass from axle to axle and leaves the total.
func TestPropSplit(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 7))
	for range 200 {
		loads := randomLoads(r, 1+r.IntN(40))
		s, err := axle.Sum(curlewGeometry, loads)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "axles", get(t, s.Front).Kilograms()+get(t, s.Rear).Kilograms(), s.Total.Kilograms(), 1e-9)
		near(t, "sides", get(t, s.Left).Kilograms()+get(t, s.Right).Kilograms(), s.Total.Kilograms(), 1e-9)
		if s.Total > 1 {
			x := get(t, s.Centre.X).Metres()
			near(t, "centre", x*s.Total.Kilograms(), get(t, s.Moment).KilogramMetres(), 1e-6*math.Abs(s.Total.Kilograms())+1e-9)
		}
		for i, m := range measures {
			o := measures[(i+2)%len(measures)]
			both := m.Plus(-0.7, o, "both")
			near(t, m.Name+" less "+o.Name, get(t, s.Read(both)).Kilograms(), get(t, s.Read(m)).Kilograms()-0.7*get(t, s.Read(o)).Kilograms(), 1e-9)
			sum := 0.0
			for _, l := range loads {
				sum += l.Mass.Kilograms() * get(t, m.Lever(l.At, l.On)).Share()
			}
			near(t, m.Name, get(t, s.Read(m)).Kilograms(), sum, 1e-9)
		}

		shuffled := slices.Clone(loads)
		r.Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		half := len(shuffled) / 2
		p, err := axle.Sum(curlewGeometry, shuffled[half:])
		if err != nil {
			t.Fatal(err)
		}
		if p, err = p.With(shuffled[:half]); err != nil {
			t.Fatal(err)
		}
		near(t, "other order", get(t, p.Rear).Kilograms(), get(t, s.Rear).Kilograms(), 1e-9)

		shift := mm(math.Round(3000*r.Float64() - 1000))
		for i := range shuffled {
			shuffled[i].At.X = unit.Some(get(t, shuffled[i].At.X) + shift)
		}
		q, err := axle.Sum(curlewGeometry, shuffled)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "shifted total", q.Total.Kilograms(), s.Total.Kilograms(), 1e-9)
		near(t, "shifted rear", get(t, q.Rear).Kilograms(), get(t, s.Rear).Kilograms()+s.Total.Kilograms()*shift.Metres()/4, 1e-9)
		calctest.Recompute(t, s.Working())
	}
}

// TestPropSumRefuses: each edge of a load and of the wheel pattern, one row.
func TestPropSumRefuses(t *testing.T) {
	nan, inf := unit.Mass(math.NaN()), unit.Mass(math.Inf(1))
	good := curlewGeometry
	one := func(l axle.Load) []axle.Load { return []axle.Load{l} }
	place := axle.At(mm(1000), 0, 0)
	for _, c := range []struct {
		what  string
		g     axle.Geometry
		loads []axle.Load
		bad   bool
	}{
		{"on the front axle line", good, one(load("a", 5, 0, 0, 0)), false},
		{"ahead of the front axle", good, one(load("a", 5, -0.9, 0, 0)), false},
		{"mass nought", good, one(axle.Load{ID: "a", At: place}), false},
		{"mass negative", good, one(load("a", -5, 1, 0, 0)), false},
		{"mass NaN", good, one(axle.Load{ID: "a", Mass: nan, At: place}), true},
		{"mass infinite", good, one(axle.Load{ID: "a", Mass: inf, At: place}), true},
		{"mass minus infinite", good, one(axle.Load{ID: "a", Mass: -inf, At: place}), true},
		{"half-width NaN", good, one(axle.Load{ID: "a", Half: nan, At: place}), true},
		{"half-width negative", good, one(axle.Load{ID: "a", Half: -1, At: place}), true},
		{"half-width infinite", good, one(axle.Load{ID: "a", Half: inf, At: place}), true},
		{"half-width of x negative", good, one(axle.Load{ID: "a", HalfX: -1, At: place}), true},
		{"half-width of y negative", good, one(axle.Load{ID: "a", HalfY: -1, At: place}), true},
		{"unknown carrier", good, one(axle.Load{ID: "a", On: 9, At: place}), true},
		{"wheelbase nought", axle.Geometry{}, one(load("a", 5, 0, 0, 0)), true},
		{"wheelbase negative", axle.Geometry{Wheelbase: -1}, one(load("a", 5, 0, 0, 0)), true},
		{"wheelbase of a micrometre", axle.Geometry{Wheelbase: 1}, one(load("a", 5, 0, 0, 0)), false},
		{"track nought", axle.Geometry{Wheelbase: 1, TrackFront: unit.Some(unit.Length(0))}, one(load("a", 5, 0, 0, 0)), true},
		{"track negative", axle.Geometry{Wheelbase: 1, TrackRear: unit.Some(unit.Length(-1))}, one(load("a", 5, 0, 0, 0)), true},
	} {
		s, err := axle.Sum(c.g, c.loads)
		var want axle.RangeError
		if bad := errors.As(err, &want); bad != c.bad || (err != nil) != c.bad {
			t.Errorf("%s: %v", c.what, err)
		}
		if err == nil {
			calctest.Recompute(t, s.Working())
		}
	}
	if _, err := axle.Sum(good, nil); !errors.Is(err, axle.ErrEmpty) {
		t.Errorf("no loads: %v", err)
	}
	s, err := axle.Sum(good, one(load("a", 5, 1, 0, 0)))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.With(one(axle.Load{ID: "b", Mass: nan})); err == nil {
		t.Error("With takes NaN")
	}
}

// TestPropUnknownPlaces: what needs an unknown coordinate is absent and says whose; the rest stands.
func TestPropUnknownPlaces(t *testing.T) {
	whole := load("a", 100, 2, 0.2, 1)
	for _, c := range []struct {
		what                 string
		change               func(l *axle.Load)
		axles, sides, height bool
	}{
		{"all known", func(*axle.Load) {}, true, true, true},
		{"no x", func(l *axle.Load) { l.At.X = unit.Opt[unit.Length]{} }, false, true, true},
		{"no y", func(l *axle.Load) { l.At.Y = unit.Opt[unit.Length]{} }, true, false, true},
		{"no z", func(l *axle.Load) { l.At.Z = unit.Opt[unit.Length]{} }, true, true, false},
		{"no place, no mass", func(l *axle.Load) { l.At, l.Mass = axle.Place{}, 0 }, true, true, true},
	} {
		odd := load("odd", 10, 3, 0, 1)
		c.change(&odd)
		s, err := axle.Sum(curlewGeometry, []axle.Load{whole, odd})
		if err != nil {
			t.Fatal(err)
		}
		if s.Front.Given() != c.axles || s.Rear.Given() != c.axles || s.Left.Given() != c.sides || s.Centre.Z.Given() != c.height {
			t.Errorf("%s: %+v", c.what, s)
		}
		if miss := s.Missing(curlewGeometry.Rear()); (len(miss) == 0) != c.axles || len(miss) == 1 && miss[0] != "odd" {
			t.Errorf("%s: missing %q", c.what, miss)
		}
		if s.NoseDown(unit.Degree).Given() != c.height {
			t.Errorf("%s: nose-down", c.what)
		}
		if w, ok := s.NoseDownWorking(unit.Degree); ok {
			calctest.Recompute(t, w)
		}
		calctest.Recompute(t, s.Working())
		if _, err := axle.Worst(s, nil, curlewGeometry.Rear(), axle.Most); (err == nil) != c.axles {
			t.Errorf("%s: worst %v", c.what, err)
		}
	}
	// A negative total has no mass centre.
	s, err := axle.Sum(curlewGeometry, []axle.Load{load("a", -5, 1, 0, 0)})
	if err != nil {
		t.Fatal(err)
	}
	if s.Centre.X.Given() {
		t.Error("a negative total has a mass centre")
	}
}

// TestPropCorners: four corner readings give axles and side moment back, and the wheels from them are
// the readings when nothing is added; what is added stays within the band of the van weighed at its axles.
func TestPropCorners(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 7))
	for range 100 {
		mass := func() unit.MassEst { return unit.MassEst{Value: unit.Mass(400 + 300*r.Float64())} }
		c := axle.Corners{FrontLeft: mass(), FrontRight: mass(), RearLeft: mass(), RearRight: mass()}
		loads, err := c.Loads(curlewGeometry)
		if err != nil {
			t.Fatal(err)
		}
		base, err := axle.Sum(curlewGeometry, loads)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "front", get(t, base.Front).Kilograms(), c.FrontLeft.Value.Kilograms()+c.FrontRight.Value.Kilograms(), 1e-9)
		w, ok := base.WheelsFrom(c, base)
		if !ok {
			t.Fatal("no wheels")
		}
		near(t, "front left", w.FrontLeft.Low.Kilograms(), c.FrontLeft.Value.Kilograms(), 1e-9)
		near(t, "rear right", w.RearRight.High.Kilograms(), c.RearRight.Value.Kilograms(), 1e-9)

		s, err := base.With([]axle.Load{load("x", 100, 3, 0.6, 1)})
		if err != nil {
			t.Fatal(err)
		}
		from, _ := s.WheelsFrom(c, base)
		plain, _ := s.Wheels()
		for _, v := range []axle.Wheels{from, plain} {
			for _, ends := range [][2]float64{{0, 1}, {1, 0}} { // one end of the roll share at all wheels
				pick := func(b axle.Band, high float64) float64 {
					return b.Low.Kilograms() + high*(b.High-b.Low).Kilograms()
				}
				m := get(t, s.SideMoment).KilogramMetres()
				if v == from {
					m -= get(t, base.SideMoment).KilogramMetres()
				}
				right := ends[0]
				if m < 0 {
					right = ends[1]
				}
				// At the highest front share the front right wheel is at its heavy end and the rear right at its light one.
				sum := pick(v.FrontRight, right) + pick(v.FrontLeft, 1-right) + pick(v.RearRight, 1-right) + pick(v.RearLeft, right)
				near(t, "all wheels", sum, s.Total.Kilograms(), 1e-6)
			}
		}
		near(t, "width of the band, front", (from.FrontRight.High - from.FrontRight.Low).Kilograms(), 0.30*100*0.6/1.79, 1e-9)
	}
	if _, err := (axle.Corners{}).Loads(axle.Geometry{Wheelbase: 1}); err == nil {
		t.Error("corners without tracks")
	}
}

// TestPropHeights: the axle-lift weighing gives the height that made it; edges are refused.
func TestPropHeights(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 7))
	for range 200 {
		h, radius, w, deg := 0.5+r.Float64(), 0.3+0.1*r.Float64(), 1500+2500*r.Float64(), 2+20*r.Float64()
		gain := w * math.Max(h-radius, 0) * math.Tan(deg*math.Pi/180) / 4
		got, err := curlewGeometry.CentreHeight(axle.Lift{Total: unit.Mass(w), Gain: unit.Mass(gain), Slope: unit.Angle(deg) * unit.Degree, Radius: unit.MetresLength(radius)})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "height", got.Metres(), math.Max(h, radius), 2e-6)
	}
	nan := math.NaN()
	for _, v := range []axle.Lift{
		{Total: 0, Gain: 0, Slope: unit.Degree}, {Total: unit.Mass(nan), Gain: 1, Slope: unit.Degree}, {Total: 100, Gain: -1, Slope: unit.Degree},
		{Total: 100, Gain: 100, Slope: unit.Degree}, {Total: 100, Gain: unit.Mass(nan), Slope: unit.Degree}, {Total: 100, Gain: 5}, {Total: 100, Gain: 5, Slope: 45 * unit.Degree},
		{Total: 100, Gain: 5, Slope: unit.Angle(nan)}, {Total: 100, Gain: 5, Slope: unit.Degree, Radius: -1},
	} {
		if _, err := curlewGeometry.CentreHeight(v); err == nil {
			t.Errorf("%+v is accepted", v)
		}
	}
	for _, v := range [][2]unit.Length{{0, 1}, {1, 0}, {-1, 1}, {1, -1}} {
		if _, _, err := axle.Stability(v[0], v[1]); err == nil {
			t.Errorf("track and height %v are accepted", v)
		}
	}
	// One degree on the demo van: W·h·tan 1° / l.
	s := curlewBase(t)
	near(t, "nose-down", get(t, s.NoseDown(unit.Degree)).Kilograms(), s.Total.Kilograms()*get(t, s.Centre.Z).Metres()*0.017455/4, 0.01)
}
