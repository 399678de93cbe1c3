package geom

import (
	"math"

	"berthwright/unit"
)

// Tolerance is the one tolerance of what is computed in metres: shells, sections, sweeps. Nothing smaller is told apart, and
// a result this close to a whole micrometre is that micrometre.
const Tolerance = 1e-7 // m, a tenth of a micrometre

// pt is a point or a move in a plane, in metres unless said otherwise.
type pt struct{ x, y float64 }

func (a pt) plus(b pt) pt          { return pt{a.x + b.x, a.y + b.y} }
func (a pt) minus(b pt) pt         { return pt{a.x - b.x, a.y - b.y} }
func (a pt) times(f float64) pt    { return pt{a.x * f, a.y * f} }
func (a pt) dot(b pt) float64      { return a.x*b.x + a.y*b.y }
func (a pt) cross(b pt) float64    { return a.x*b.y - a.y*b.x }
func (a pt) length() float64       { return math.Hypot(a.x, a.y) }
func (a pt) normed() pt            { return a.times(1 / a.length()) }
func (a pt) to(b pt, t float64) pt { return pt{lerp(a.x, b.x, t), lerp(a.y, b.y, t)} }
func lerp(a, b, t float64) float64 { return a*(1-t) + b*t }

func (a pt) rotated(about pt, angle float64) pt {
	s, c := math.Sincos(angle)
	d := a.minus(about)
	return pt{about.x + d.x*c - d.y*s, about.y + d.x*s + d.y*c}
}

func metres2(v Vec2) pt { return pt{v.X.Metres(), v.Y.Metres()} }

func metresOf(points []vec) []pt {
	out := make([]pt, len(points))
	for i, p := range points {
		out[i] = metres2(point2(p))
	}
	return out
}

// down and up convert metres, rounding to whole micrometres but for what the tolerance lets pass.
func down(m float64) unit.Length { return unit.Length(math.Floor((m + Tolerance) * 1e6)) }
func up(m float64) unit.Length   { return -down(-m) }

// clipped cuts a convex polygon to the half-plane n·p ≤ c.
func clipped(poly []pt, n pt, c float64) []pt {
	var out []pt
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		dp, dq := n.dot(p)-c, n.dot(q)-c
		if dp <= 0 {
			out = append(out, p)
		}
		if dp < 0 && dq > 0 || dp > 0 && dq < 0 {
			out = append(out, p.to(q, dp/(dp-dq)))
		}
	}
	return out
}

// thin tells whether a polygon has no extent worth telling along x or y.
func thin(poly []pt) bool {
	if len(poly) < 3 {
		return true
	}
	least, most := poly[0], poly[0]
	for _, p := range poly {
		least, most = pt{min(least.x, p.x), min(least.y, p.y)}, pt{max(most.x, p.x), max(most.y, p.y)}
	}
	return most.x-least.x <= Tolerance || most.y-least.y <= Tolerance
}
