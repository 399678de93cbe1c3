package geom

import (
	"testing"

	"berthwright/unit"
)

// The box around a way holds every pose, and each of its faces is touched by one.
func TestPropBoundsHoldEveryPoseAndNoMore(t *testing.T) {
	r := random(77)
	for i := range 60 {
		x, y := r.IntN(600), r.IntN(600)-300
		start := box(x, y, 100, x+10+r.IntN(500), y+10+r.IntN(40), 900)
		angle := unit.Angle(r.IntN(721)-360) * unit.Degree
		s := must(Swing(start, at2(r.IntN(400)-200, r.IntN(400)-200), angle))
		b := must(s.Bounds())
		var seen Box3
		for k := range 721 {
			p := must(s.At(float64(k) / 720)).Bounds()
			if k == 0 {
				seen = p
			}
			seen = seen.Union(p)
		}
		const within = 8 * unit.Millimetre / 10 // half a degree of a turn at 0.8 m, its sagitta, and rounding outwards
		d := [6]unit.Length{seen.Min.X - b.Min.X, seen.Min.Y - b.Min.Y, seen.Min.Z - b.Min.Z, b.Max.X - seen.Max.X, b.Max.Y - seen.Max.Y, b.Max.Z - seen.Max.Z}
		for k, v := range d {
			if v < -4 || v > within {
				t.Errorf("way %d, face %d: %v beyond what was seen", i, k, v)
			}
		}
	}
}
