package axle_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"berthwright/axle"
	"berthwright/internal/calctest"
	"berthwright/unit"
)

const z95 = 1.959963984540054

func axleReadings(front, rear, half float64) []axle.Reading {
	return []axle.Reading{
		{ID: "front", Measure: curlewGeometry.Front(), Value: unit.Mass(front), Half: unit.Mass(half)},
		{ID: "rear", Measure: curlewGeometry.Rear(), Value: unit.Mass(rear), Half: unit.Mass(half)},
	}
}

// TestRefOneMass: one mass and one scale is the mean weighted by inverse variance, a textbook result.
func TestRefOneMass(t *testing.T) {
	l := load("a", 100, 2, 0, 1)
	l.Half = 8
	r, err := axle.Reconcile(curlewGeometry, []axle.Load{l}, nil, []axle.Reading{{ID: "hook", Measure: axle.Total(), Value: 112, Half: 6, Known: 2}})
	if err != nil {
		t.Fatal(err)
	}
	// Weights 1/64 and 1/36: (100/64 + 110/36) / (1/64 + 1/36) = 106.4; half-width 1/sqrt(1/64 + 1/36) = 4.8.
	near(t, "mass", r.Posteriors[0].Mass.Kilograms(), 106.4, 1e-9)
	near(t, "half-width", r.Posteriors[0].Half.Kilograms(), 4.8, 1e-9)
	near(t, "misfit", r.Misfit, 10*10/(64.0+36)*z95*z95, 1e-9)
	near(t, "misfit half-width", r.Residuals[0].MisfitHalf.Kilograms(), 10, 1e-9)
	// 99 % points of chi-square from the usual table: 1 degree 6.635, 2 degrees 9.210.
	near(t, "99 % point", r.Limit, 6.635, 0.0005)
	r, err = axle.Reconcile(curlewGeometry, []axle.Load{l}, nil, axleReadings(50, 50, 5))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "99 % point", r.Limit, 9.210, 0.0005)
}

// simulate draws true masses and places from the beliefs, and readings of them.
func simulate(rnd *rand.Rand, loads []axle.Load, shared []axle.Shared, readings []axle.Reading) (masses []float64, read []axle.Reading, truth func(m axle.Measure) float64) {
	lean := map[string]float64{}
	for _, s := range shared {
		lean[s.Kind] = s.Rel.Share() / z95 * rnd.NormFloat64()
	}
	type state struct{ kg, mx, my float64 }
	states := make([]state, len(loads))
	for i, l := range loads {
		m := l.Mass.Kilograms()
		states[i] = state{m*(1+lean[l.Kind]) + l.Half.Kilograms()/z95*rnd.NormFloat64(), m * l.HalfX.Metres() / z95 * rnd.NormFloat64(), m * l.HalfY.Metres() / z95 * rnd.NormFloat64()}
		masses = append(masses, states[i].kg)
	}
	lever := func(m axle.Measure, dx, dy unit.Length, o axle.On) float64 {
		return get(nil2{}, m.Lever(axle.At(dx, dy, 0), o)).Share()
	}
	one := func(m axle.Measure, i int) float64 {
		l := loads[i]
		v := states[i].kg * get(nil2{}, m.Lever(l.At, l.On)).Share()
		zero := lever(m, 0, 0, l.On)
		v += states[i].mx * (lever(m, unit.Metre, 0, l.On) - zero)
		return v + states[i].my*(lever(m, 0, unit.Metre, l.On)-zero)
	}
	truth = func(m axle.Measure) float64 {
		sum := 0.0
		for i := range loads {
			sum += one(m, i)
		}
		return sum
	}
	for _, z := range readings {
		v := z.Known.Kilograms() + z.Half.Kilograms()/z95*rnd.NormFloat64()
		for i, l := range loads {
			aboard := z.Of == nil
			for _, id := range z.Of {
				aboard = aboard || id == l.ID
			}
			if aboard {
				v += one(z.Measure, i)
			}
		}
		z.Value = unit.Mass(v)
		read = append(read, z)
	}
	return masses, read, truth
}

// nil2 lets get run outside a test; a failure panics.
type nil2 struct{ testing.TB }

func (nil2) Helper()           {}
func (nil2) Fatal(args ...any) { panic(args) }

func weighings(loads []axle.Load) []axle.Reading {
	var half []string
	for i, l := range loads {
		if i%2 == 0 {
			half = append(half, l.ID)
		}
	}
	return []axle.Reading{
		{ID: "front", Measure: curlewGeometry.Front(), Half: 10},
		{ID: "rear", Measure: curlewGeometry.Rear(), Half: 10},
		{ID: "left", Measure: curlewGeometry.Left(), Half: 10},
		{ID: "hook", Measure: axle.Total(), Half: 2, Known: 3, Of: []string{loads[1].ID, loads[2].ID}},
		{ID: "shell stage", Measure: curlewGeometry.Rear(), Half: 10, Of: half},
	}
}

// weighable is a van with fitted and removed loads.
func weighable(rnd *rand.Rand, n int) []axle.Load {
	loads := randomLoads(rnd, n)
	loads[0] = load("van", 1950, 1.58, 0, 0.7)
	loads[0].Half = 14
	for i := 1; i < 3; i++ { // these hang on the hook; what was taken out cannot
		loads[i].Mass = unit.Mass(20 + math.Abs(loads[i].Mass.Kilograms()))
	}
	return loads
}

// TestPropCoverage: truths drawn from the beliefs lie inside the posterior half-widths 95 times in a hundred,
// a sound weighing is refused once in a hundred, and the misfit is on average its degrees of freedom.
func TestPropCoverage(t *testing.T) {
	const runs = 1500
	rnd := rand.New(rand.NewPCG(41, 7))
	shared := []axle.Shared{{Kind: "data-sheet", Rel: 0.05}, {Kind: "estimated", Rel: 0.12}}
	loads := weighable(rnd, 14)
	inside, all, rear, refused, misfit := 0, 0, 0, 0, 0.0
	for range runs {
		masses, read, truth := simulate(rnd, loads, shared, weighings(loads))
		r, err := axle.Reconcile(curlewGeometry, loads, shared, read)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range r.Posteriors {
			all++
			if math.Abs(p.Mass.Kilograms()-masses[i]) <= p.Half.Kilograms() {
				inside++
			}
		}
		// The rear axle as reconciled: Fitted of a reading that reads it.
		if math.Abs(r.Residuals[1].Fitted.Kilograms()-truth(curlewGeometry.Rear())) <= get(t, r.Half(curlewGeometry.Rear())).Kilograms() {
			rear++
		}
		if r.Refused {
			refused++
		}
		misfit += r.Misfit / float64(r.Freedom)
	}
	// Four standard errors; masses of one run depend on each other, so their number counts as the runs only.
	near(t, "masses inside", float64(inside)/float64(all), 0.95, 4*math.Sqrt(0.95*0.05/runs))
	near(t, "rear axle inside", float64(rear)/runs, 0.95, 4*math.Sqrt(0.95*0.05/runs))
	near(t, "refused", float64(refused)/runs, 0.01, 4*math.Sqrt(0.01*0.99/runs))
	near(t, "misfit", misfit/runs, 1, 4*math.Sqrt(2.0/5/runs))
}

// TestPropMoreReadings: no reading widens any half-width; what is read of the posterior masses is what
// Fitted says; without learning nothing changes.
func TestPropMoreReadings(t *testing.T) {
	rnd := rand.New(rand.NewPCG(42, 7))
	shared := []axle.Shared{{Kind: "data-sheet", Rel: 0.05}}
	for range 40 {
		loads := weighable(rnd, 5+rnd.IntN(20))
		_, read, _ := simulate(rnd, loads, shared, weighings(loads))
		var last axle.Reconciled
		for n := 1; n <= len(read); n++ {
			r, err := axle.Reconcile(curlewGeometry, loads, shared, read[:n])
			if err != nil {
				t.Fatal(err)
			}
			for i, p := range r.Posteriors {
				if p.Half > p.PriorHalf+1e-6 || n > 1 && p.Half > last.Posteriors[i].Half+1e-6 {
					t.Errorf("reading %s widens %s", read[n-1].ID, p.Load.ID)
				}
			}
			for _, m := range measures {
				prior, err := axle.Spread(loads, shared, m, 0)
				if err != nil {
					t.Fatal(err)
				}
				now := get(t, r.Half(m))
				if now > prior.Half+1e-6 || n > 1 && now > get(t, last.Half(m))+1e-6 {
					t.Errorf("reading %s widens %s", read[n-1].ID, m.Name)
				}
			}
			calctest.Check(t, r.Certificate())
			for _, res := range r.Residuals {
				near(t, "residual", (res.Fitted + res.Left).Kilograms(), res.Reading.Value.Kilograms(), 1e-9)
				near(t, "misfit", (res.Expected + res.Misfit).Kilograms(), res.Reading.Value.Kilograms(), 1e-9)
				if math.Abs(res.Left.Kilograms()) > math.Abs(res.Misfit.Kilograms())+10 {
					t.Errorf("%s fits worse afterwards: %v, was %v", res.Reading.ID, res.Left, res.Misfit)
				}
			}
			last = r
		}
		// A scale that reads to a tonne teaches nothing: the beliefs stand, and their half-width is Spread's.
		r, err := axle.Reconcile(curlewGeometry, loads, shared, []axle.Reading{{ID: "rough", Measure: axle.Total(), Value: 2500, Half: 1e7}})
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range measures {
			d, err := axle.Spread(loads, shared, m, 0)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "half-width before, "+m.Name, get(t, r.Half(m)).Kilograms(), d.Half.Kilograms(), 1e-3)
		}
		near(t, "mass before", r.Posteriors[0].Mass.Kilograms(), loads[0].Mass.Kilograms(), 1e-3)
	}
}

// TestPropSumOfPosteriors: without doubts about places, the posterior loads add up to what Fitted says.
func TestPropSumOfPosteriors(t *testing.T) {
	rnd := rand.New(rand.NewPCG(43, 7))
	loads := weighable(rnd, 25)
	for i := range loads {
		loads[i].HalfX, loads[i].HalfY = 0, 0
	}
	_, read, _ := simulate(rnd, loads, nil, weighings(loads)[:3])
	r, err := axle.Reconcile(curlewGeometry, loads, nil, read)
	if err != nil {
		t.Fatal(err)
	}
	s, err := axle.Sum(curlewGeometry, r.Loads())
	if err != nil {
		t.Fatal(err)
	}
	for i, z := range read {
		near(t, z.ID, get(t, s.Read(z.Measure)).Kilograms(), r.Residuals[i].Fitted.Kilograms(), 1e-6)
	}
}

// TestPropGrossErrors: a reading misread by 200 kg, or a load that is 150 kg heavier than anybody thought, is
// refused, named first among its kind with about its size, and explains the misfit.
func TestPropGrossErrors(t *testing.T) {
	rnd := rand.New(rand.NewPCG(44, 7))
	shared := []axle.Shared{{Kind: "data-sheet", Rel: 0.05}}
	misread, wrongLoad := 0, 0
	const runs = 60
	for range runs {
		loads := weighable(rnd, 12)
		for i := range loads[1:] {
			loads[i+1].Half = min(loads[i+1].Half, 2)
		}
		_, read, _ := simulate(rnd, loads, shared, weighings(loads))
		// The total is read too, so that a wrong axle can be told from a wrong van.
		k := rnd.IntN(2)
		read[k].Value += 200
		r, err := axle.Reconcile(curlewGeometry, loads, shared, read)
		if err != nil {
			t.Fatal(err)
		}
		if !r.Refused {
			t.Errorf("200 kg too much on %s is not refused", read[k].ID)
		}
		for _, s := range r.Suspects {
			if s.IsReading {
				if s.ID == read[k].ID && s.Explains && math.Abs(s.By.Kilograms()-200) < 80 {
					misread++
				}
				break
			}
		}

		masses, _, _ := simulate(rnd, loads, shared, nil)
		_ = masses
		wrong := append([]axle.Load(nil), loads...)
		wrong[1].Mass += 150
		_, read, _ = simulate(rnd, wrong, shared, weighings(loads))
		r, err = axle.Reconcile(curlewGeometry, loads, shared, read)
		if err != nil {
			t.Fatal(err)
		}
		if !r.Refused {
			t.Error("a load 150 kg heavier is not refused")
		}
		for _, s := range r.Suspects {
			if !s.IsReading {
				if (s.ID == loads[1].ID || s.ID == loads[2].ID) && math.Abs(s.By.Kilograms()-150) < 20 {
					wrongLoad++ // the two hang on the hook together and can be told apart by the axles only
				}
				break
			}
		}
	}
	if misread < runs*9/10 || wrongLoad < runs*9/10 {
		t.Errorf("found %d misread scales and %d wrong loads of %d", misread, wrongLoad, runs)
	}
}

func TestPropReconcileRefuses(t *testing.T) {
	nan := unit.Mass(math.NaN())
	l := load("a", 100, 2, 0, 1)
	l.Half = 5
	z := axle.Reading{ID: "z", Measure: axle.Total(), Value: 100, Half: 5}
	var dup axle.DuplicateError
	var unknown axle.UnknownError
	var rangeErr axle.RangeError
	var missing axle.MissingError
	change := func(f func(*axle.Reading)) []axle.Reading { c := z; f(&c); return []axle.Reading{c} }
	for _, c := range []struct {
		what     string
		loads    []axle.Load
		shared   []axle.Shared
		readings []axle.Reading
		want     any
	}{
		{"load twice", []axle.Load{l, l}, nil, []axle.Reading{z}, &dup},
		{"reading twice", []axle.Load{l}, nil, []axle.Reading{z, z}, &dup},
		{"unknown id", []axle.Load{l}, nil, change(func(z *axle.Reading) { z.Of = []string{"b"} }), &unknown},
		{"reading NaN", []axle.Load{l}, nil, change(func(z *axle.Reading) { z.Value = nan }), &rangeErr},
		{"reading negative", []axle.Load{l}, nil, change(func(z *axle.Reading) { z.Value = -1 }), &rangeErr},
		{"half-width nought", []axle.Load{l}, nil, change(func(z *axle.Reading) { z.Half = 0 }), &rangeErr},
		{"half-width NaN", []axle.Load{l}, nil, change(func(z *axle.Reading) { z.Half = nan }), &rangeErr},
		{"known NaN", []axle.Load{l}, nil, change(func(z *axle.Reading) { z.Known = nan }), &rangeErr},
		{"mass NaN", []axle.Load{{ID: "a", Mass: nan}}, nil, []axle.Reading{z}, &rangeErr},
		{"shared NaN", []axle.Load{l}, []axle.Shared{{Kind: "k", Rel: unit.Ratio(math.NaN())}}, []axle.Reading{z}, &rangeErr},
		{"no place on an axle", []axle.Load{{ID: "a", Mass: 5}}, nil, axleReadings(1, 1, 1), &missing},
	} {
		if _, err := axle.Reconcile(curlewGeometry, c.loads, c.shared, c.readings); !errors.As(err, c.want) {
			t.Errorf("%s: got %v, want %T", c.what, err, c.want)
		}
	}
	for _, c := range []struct {
		loads    []axle.Load
		readings []axle.Reading
	}{{nil, []axle.Reading{z}}, {[]axle.Load{l}, nil}} {
		if _, err := axle.Reconcile(curlewGeometry, c.loads, nil, c.readings); !errors.Is(err, axle.ErrEmpty) {
			t.Errorf("got %v, want ErrEmpty", err)
		}
	}
	// The same weight read twice is two readings: narrower by the root of two against a vague belief.
	vague := l
	vague.Half = 1e5
	again := z
	again.ID = "again"
	r, err := axle.Reconcile(curlewGeometry, []axle.Load{vague}, nil, []axle.Reading{z, again})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "two readings", r.Posteriors[0].Half.Kilograms(), 5/math.Sqrt2, 1e-6)
	// An empty subset reads only what is known.
	r, err = axle.Reconcile(curlewGeometry, []axle.Load{l}, nil, change(func(z *axle.Reading) { z.Of, z.Value, z.Known = []string{}, 3, 3 }))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "empty scale", r.Misfit, 0, 1e-12)
	if len(r.Suspects) != 1 || !r.Suspects[0].IsReading {
		t.Errorf("suspects %v", r.Suspects)
	}
}
