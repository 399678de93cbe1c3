package geom

import (
	"math"
	"slices"
)

// firstTurn returns the angle, from 0 up to |angle|, at which a convex body turning about a hinge first overlaps a convex thing.
//
// A first overlap begins where a corner of the body meets an edge of the thing or a corner of the thing meets an edge of the
// body. All such angles are computed (a circle against a straight edge); between two neighbours nothing changes, so one test
// in the middle of each interval decides.
func firstTurn(body []pt, hinge pt, angle float64, thing []pt) (float64, bool) {
	if angle < 0 {
		body, thing, hinge, angle = mirrored(body), mirrored(thing), pt{hinge.x, -hinge.y}, -angle
	}
	b0, b1 := radii(body, hinge)
	t0, t1 := radii(thing, hinge)
	if b1 <= t0+Tolerance || t1 <= b0+Tolerance {
		return 0, false
	}
	at := []float64{0, angle}
	add := func(from, to float64) {
		if a := math.Mod(to-from+4*math.Pi, 2*math.Pi); a > 0 && a < angle {
			at = append(at, a)
		}
	}
	for i, p := range body {
		q := body[(i+1)%len(body)]
		for j, f := range thing {
			g := thing[(j+1)%len(thing)]
			for _, m := range circleMeets(f, g, hinge, p.minus(hinge).length()) {
				add(directionFrom(hinge, p), directionFrom(hinge, m))
			}
			for _, m := range circleMeets(p, q, hinge, f.minus(hinge).length()) {
				add(directionFrom(hinge, m), directionFrom(hinge, f))
			}
		}
	}
	slices.Sort(at)
	turned := make([]pt, len(body))
	for i := 1; i < len(at); i++ {
		if at[i]-at[i-1] < 1e-12 {
			continue
		}
		mid := (at[i-1] + at[i]) / 2
		for k, p := range body {
			turned[k] = p.rotated(hinge, mid)
		}
		if depth(turned, thing) > Tolerance {
			return at[i-1], true
		}
	}
	return 0, false
}

func directionFrom(o, p pt) float64 { d := p.minus(o); return math.Atan2(d.y, d.x) }

func mirrored(poly []pt) []pt {
	out := make([]pt, len(poly))
	for i, p := range poly {
		out[len(poly)-1-i] = pt{p.x, -p.y}
	}
	return out
}

// radii returns the least and the greatest distance of a convex polygon from a point.
func radii(poly []pt, o pt) (least, most float64) {
	least, inside := math.Inf(1), true
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		d := q.minus(p)
		if d.cross(o.minus(p)) < 0 {
			inside = false
		}
		t := math.Max(0, math.Min(1, o.minus(p).dot(d)/d.dot(d)))
		least = math.Min(least, p.plus(d.times(t)).minus(o).length())
		most = math.Max(most, p.minus(o).length())
	}
	if inside {
		least = 0
	}
	return least, most
}

// circleMeets returns where a circle about o meets the segment ab; an edge that all but touches the circle is taken to touch.
func circleMeets(a, b, o pt, r float64) []pt {
	d, f := b.minus(a), a.minus(o)
	l := d.length()
	e := d.times(1 / l)
	foot := -f.dot(e)
	h2 := r*r - f.cross(e)*f.cross(e)
	if h2 < -Tolerance*r {
		return nil
	}
	h := math.Sqrt(math.Max(0, h2))
	var out []pt
	for _, t := range [2]float64{foot - h, foot + h} {
		if t >= -Tolerance && t <= l+Tolerance {
			out = append(out, a.plus(e.times(t)))
		}
	}
	return out
}

// depth returns how far two convex counter-clockwise polygons overlap along the edge normal where it is least; below 0: how far
// they are apart along one of them.
func depth(a, b []pt) float64 { return math.Min(depthOver(a, b), depthOver(b, a)) }

func depthOver(a, b []pt) float64 {
	least := math.Inf(1)
	for i, p := range a {
		d := a[(i+1)%len(a)].minus(p)
		n := pt{d.y, -d.x}.times(1 / d.length())
		in := math.Inf(-1)
		for _, q := range b {
			in = math.Max(in, n.dot(p.minus(q)))
		}
		least = math.Min(least, in)
	}
	return least
}

// firstMove returns the share of a straight move at which a convex body first overlaps a convex thing: on each edge normal of
// either the shadows overlap during one interval, and the shapes overlap while all do.
func firstMove(body []pt, move pt, thing []pt) (float64, bool) {
	from, to := 0.0, 1.0
	for _, poly := range [2][]pt{body, thing} {
		for i, p := range poly {
			d := poly[(i+1)%len(poly)].minus(p)
			n := pt{d.y, -d.x}.times(1 / d.length())
			b0, b1 := shadow(body, n)
			t0, t1 := shadow(thing, n)
			t0, t1 = t0+Tolerance, t1-Tolerance
			v := n.dot(move)
			switch { // overlap while b0 + s·v < t1 and b1 + s·v > t0
			case math.Abs(v) < 1e-15:
				if b0 >= t1 || b1 <= t0 {
					return 0, false
				}
			case v > 0:
				from, to = math.Max(from, (t0-b1)/v), math.Min(to, (t1-b0)/v)
			default:
				from, to = math.Max(from, (t1-b0)/v), math.Min(to, (t0-b1)/v)
			}
		}
	}
	if from >= to {
		return 0, false
	}
	if from > 0 { // the tolerance has let it go too far
		from = math.Max(0, from-2*Tolerance/move.length())
	}
	return from, true
}

// shadow returns the extent of a polygon along a direction.
func shadow(poly []pt, n pt) (least, most float64) {
	least, most = math.Inf(1), math.Inf(-1)
	for _, p := range poly {
		d := n.dot(p)
		least, most = math.Min(least, d), math.Max(most, d)
	}
	return least, most
}
