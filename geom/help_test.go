package geom

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"berthwright/unit"
)

const mm = unit.Millimetre

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// box makes a box from whole millimetres.
func box(x0, y0, z0, x1, y1, z1 int) Solid {
	return must(BoxSolid(Box3{at3(x0, y0, z0), at3(x1, y1, z1)}))
}

func millimetres(n int) unit.Length { return unit.Length(1000 * n) }
func at2(x, y int) Vec2             { return Vec2{millimetres(x), millimetres(y)} }
func at3(x, y, z int) Vec3          { return Vec3{millimetres(x), millimetres(y), millimetres(z)} }

func random(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 7)) }

// starPolygon makes a simple polygon, mostly not convex: directions in order, distances at random.
func starPolygon(r *rand.Rand, n int, size float64) (Outline, bool) {
	angles := make([]float64, n)
	for i := range angles {
		angles[i] = r.Float64() * 2 * math.Pi
	}
	slices.Sort(angles)
	corners := make([]Vec2, n)
	for i, a := range angles {
		d := size * (0.2 + 0.8*r.Float64())
		corners[i] = Vec2{unit.Length(math.Round(d * math.Cos(a))), unit.Length(math.Round(d * math.Sin(a)))}
	}
	o, err := NewOutline(corners)
	return o, err == nil
}

// polygon makes a random outline of that size in micrometres: a rectangle, a turned box or a star.
func polygon(r *rand.Rand, size float64) Outline {
	for {
		var o Outline
		var err error
		side := func() unit.Length { return unit.Length(1 + r.IntN(int(size))) }
		switch r.IntN(4) {
		case 0:
			o, err = TurnedBox(Vec2{}, Vec2{side(), side()}, 0)
		case 1:
			o, err = TurnedBox(Vec2{}, Vec2{side() + 3, side() + 3}, unit.Angle(r.IntN(360))*unit.Degree)
		default:
			var ok bool
			if o, ok = starPolygon(r, 3+r.IntN(7), size); !ok {
				continue
			}
		}
		if err == nil {
			return o
		}
	}
}

func place(r *rand.Rand, o Outline, spread int) Outline {
	return o.Move(Vec2{unit.Length(r.IntN(2*spread+1) - spread), unit.Length(r.IntN(2*spread+1) - spread)})
}

func near(t *testing.T, what string, got, want, by unit.Length) {
	t.Helper()
	if d := got - want; d < -by || d > by {
		t.Errorf("%s is %d µm, want %d ± %d", what, got, want, by)
	}
}

func sq(l unit.Length) float64 { f := float64(l.Micrometres()); return f * f }
