package axle_test

import (
	"math"
	"testing"

	"berthwright/axle"
	"berthwright/internal/calctest"
	"berthwright/unit"
)

func mm(v float64) unit.Length { return unit.MetresLength(v / 1000) }

func load(id string, kg, x, y, z float64) axle.Load {
	return axle.Load{ID: id, Mass: unit.Kilogram.Times(kg), At: axle.At(unit.MetresLength(x), unit.MetresLength(y), unit.MetresLength(z))}
}

// get returns a present value or fails.
func get[T any](t testing.TB, o unit.Opt[T]) T {
	t.Helper()
	v, ok := o.Get()
	if !ok {
		t.Fatal("value is absent")
	}
	return v
}

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.6f, want %.6f within %g", what, got, want, within)
	}
}

// van4035 is the wheelbase of the worked rows.
var van4035 = axle.Geometry{Wheelbase: 4035 * unit.Millimetre, TrackFront: unit.Some(mm(1800)), TrackRear: unit.Some(mm(1780))}

// TestRefSingleLoads: statics, moments about the front axle; worked rows M-20, M-21, M-22 of the project's
// table of published values (computed there from the same equation by hand). Tolerance half a unit
// of the last printed digit.
func TestRefSingleLoads(t *testing.T) {
	for _, c := range []struct {
		row         string
		kg, x       float64
		front, rear float64
	}{
		{"M-20 behind the rear axle", 60, 4.035 + 1.20, -17.84, 77.84},
		{"M-21", 100, 3.40, 15.74, 84.26},
		{"M-22 cab seat", 75, 1.15, 53.62, 21.38},
	} {
		s, err := axle.Sum(van4035, []axle.Load{load("m", c.kg, c.x, 0, 1)})
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.row+" front", get(t, s.Front).Kilograms(), c.front, 0.005)
		near(t, c.row+" rear", get(t, s.Rear).Kilograms(), c.rear, 0.005)
		calctest.Recompute(t, s.Working())
	}
}

// TestRefWholeVan: row M-23 with its intermediate moment.
func TestRefWholeVan(t *testing.T) {
	kg := func(v float64) unit.MassEst { return unit.MassEst{Value: unit.Kilogram.Times(v)} }
	ticket := van4035.Ticket(kg(1210), kg(790), unit.Some(unit.Length(0)), unit.Some(mm(700)))
	loads := ticket[:]
	for _, r := range [][2]float64{{75, 1.15}, {75, 1.15}, {82, 2.3}, {95, 3.2}, {30, 4.6}, {28, 5.1}, {100, 3.4}, {21.5, 4.9}, {120, 3.0}, {18, 3.0}} {
		loads = append(loads, load("item", r[0], r[1], 0, 1))
	}
	s, err := axle.Sum(van4035, loads)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "total", s.Total.Kilograms(), 2644.5, 0.05)
	near(t, "moment", get(t, s.Moment).KilogramMetres(), 4992.9, 0.05)
	near(t, "front", get(t, s.Front).Kilograms(), 1407.1, 0.05)
	near(t, "rear", get(t, s.Rear).Kilograms(), 1237.4, 0.05)
	near(t, "centre", get(t, s.Centre.X).Metres(), 4992.9/2644.5, 0.0001)
	calctest.Recompute(t, s.Working())
}

// TestRefCentreHeight: row M-24, T. D. Gillespie, Fundamentals of Vehicle Dynamics (from memory).
func TestRefCentreHeight(t *testing.T) {
	h, err := van4035.CentreHeight(axle.Lift{Total: 3000, Gain: 90, Slope: 10 * unit.Degree, Radius: mm(350)})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "height", h.Metres(), 1.0365, 0.00005)
}

// TestRefStability: row M-25, NHTSA static stability factor.
func TestRefStability(t *testing.T) {
	f, tips, err := axle.Stability(mm(1790), mm(950))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "factor", f.Share(), 0.942, 0.0005)
	near(t, "tip angle", tips.Degrees(), 43.29, 0.005)
}

// TestRefLever: the lever of job map 1.4, 150 kg at 1.0 m behind the rear axle of a 3.0 m wheelbase adds 200 kg to
// the rear and takes 50 kg off the front.
func TestRefLever(t *testing.T) {
	g := axle.Geometry{Wheelbase: 3 * unit.Metre}
	s, err := axle.Sum(g, []axle.Load{load("rack", 150, 4, 0, 1)})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "rear", get(t, s.Rear).Kilograms(), 200, 1e-9)
	near(t, "front", get(t, s.Front).Kilograms(), -50, 1e-9)
	if s.Left.Given() {
		t.Error("sides are known without tracks")
	}
}
