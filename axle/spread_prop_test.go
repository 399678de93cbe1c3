package axle_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"berthwright/axle"
	"berthwright/internal/calctest"
	"berthwright/unit"
)

// TestPropMonteCarlo draws masses, places and shared errors and compares the spread of each measure with
// Spread, within the sampling error of the draw (four standard errors of a standard deviation).
func TestPropMonteCarlo(t *testing.T) {
	const draws, z = 20_000, 1.959964
	r := rand.New(rand.NewPCG(21, 7))
	shared := []axle.Shared{{Kind: "data-sheet", Rel: 0.04}, {Kind: "estimated", Rel: 0.10}}
	loads := randomLoads(r, 30)
	ms := []axle.Measure{axle.Total(), curlewGeometry.Front(), curlewGeometry.Rear(), curlewGeometry.Left(), curlewGeometry.Right()}
	sum, square := make([]float64, len(ms)), make([]float64, len(ms))
	for range draws {
		lean := map[string]float64{}
		for _, s := range shared {
			lean[s.Kind] = s.Rel.Share() / z * r.NormFloat64()
		}
		v := make([]float64, len(ms))
		for _, l := range loads {
			kg := l.Mass.Kilograms()*(1+lean[l.Kind]) + l.Half.Kilograms()/z*r.NormFloat64()
			x := get(t, l.At.X).Metres() + l.HalfX.Metres()/z*r.NormFloat64()
			y := get(t, l.At.Y).Metres() + l.HalfY.Metres()/z*r.NormFloat64()
			for i, a := range []float64{1, 1 - x/4, x / 4, 0.5 - y/1.775, 0.5 + y/1.775} {
				v[i] += kg * a
			}
		}
		for i := range ms {
			sum[i] += v[i]
			square[i] += v[i] * v[i]
		}
	}
	for i, m := range ms {
		mean := sum[i] / draws
		half := z * math.Sqrt(square[i]/draws-mean*mean)
		d, err := axle.Spread(loads, shared, m, 0)
		if err != nil {
			t.Fatal(err)
		}
		near(t, m.Name, d.Half.Kilograms()/half, 1, 4/math.Sqrt(2*draws)+0.002) // 0.002: products of two errors are left out
		calctest.Recompute(t, d.Working())
	}
}

// TestPropSpreadParts: shares add up to one, are ranked, and weighing a group leaves what Relief says.
func TestPropSpreadParts(t *testing.T) {
	r := rand.New(rand.NewPCG(22, 7))
	shared := []axle.Shared{{Kind: "data-sheet", Rel: 0.04}, {Kind: "estimated", Rel: 0.10}}
	for range 100 {
		loads := randomLoads(r, 2+r.IntN(20))
		m := measures[r.IntN(5)]
		d, err := axle.Spread(loads, shared, m, unit.Mass(3*r.Float64()))
		if err != nil {
			t.Fatal(err)
		}
		calctest.Recompute(t, d.Working())
		if d.Half < d.Floor || d.Half < d.Sum {
			t.Errorf("half-width %v below %v or %v", d.Half, d.Sum, d.Floor)
		}
		sum, last := 0.0, math.Inf(1)
		for _, p := range d.Parts() {
			sum += p.Share.Share()
			if p.Share.Share() > last {
				t.Error("parts are not ranked")
			}
			last = p.Share.Share()
		}
		near(t, "shares", sum, 1, 1e-9)
		for _, relief := range d.Relief() {
			weighed := append([]axle.Load(nil), loads...)
			for i := range weighed {
				name := weighed[i].Group
				if name == "" {
					name = weighed[i].ID
				}
				if name == relief.Group {
					weighed[i].Half, weighed[i].HalfX, weighed[i].HalfY, weighed[i].Kind = 0, 0, 0, ""
				}
			}
			after, err := axle.Spread(weighed, shared, m, 0)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "after weighing "+relief.Group, after.Sum.Kilograms(), relief.Half.Kilograms(), 1e-6)
		}
	}
}

func TestPropSpreadRefuses(t *testing.T) {
	loads := []axle.Load{load("a", 5, 1, 0, 0)}
	nan := math.NaN()
	for _, c := range []struct {
		what   string
		shared []axle.Shared
		floor  float64
	}{
		{"shared NaN", []axle.Shared{{Kind: "k", Rel: unit.Ratio(nan)}}, 0},
		{"shared negative", []axle.Shared{{Kind: "k", Rel: -0.01}}, 0},
		{"shared above one", []axle.Shared{{Kind: "k", Rel: 1.01}}, 0},
		{"kind twice", []axle.Shared{{Kind: "k"}, {Kind: "k"}}, 0},
		{"floor NaN", nil, nan},
		{"floor negative", nil, -1},
		{"floor infinite", nil, math.Inf(1)},
	} {
		if _, err := axle.Spread(loads, c.shared, axle.Total(), unit.Mass(c.floor)); err == nil {
			t.Errorf("%s is accepted", c.what)
		}
	}
	if _, err := axle.Spread([]axle.Load{{ID: "a", Mass: 5}}, nil, curlewGeometry.Rear(), 0); err == nil {
		t.Error("a load without a place has a spread on an axle")
	}
	d, err := axle.Spread(nil, nil, axle.Total(), 0)
	if err != nil || d.Half != 0 {
		t.Errorf("no loads: %v %v", d, err)
	}
	for _, c := range []struct{ margin, half float64 }{{1, 0}, {1, nan}, {nan, 1}, {1, -1}, {1, math.Inf(1)}} {
		if axle.Probability(unit.Mass(c.margin), unit.Mass(c.half)).Given() {
			t.Errorf("probability of %v is given", c)
		}
	}
	// A margin of one half-width holds with 97.5 %, of nought with a half, from the normal table.
	near(t, "one half-width", get(t, axle.Probability(10, 10)).Share(), 0.975, 1e-6)
	near(t, "nought", get(t, axle.Probability(0, 10)).Share(), 0.5, 1e-12)
	near(t, "minus one", get(t, axle.Probability(-10, 10)).Share(), 0.025, 1e-6)
}
