package geom

import (
	"cmp"
	"math"
	"slices"
)

// sweptOutwards is how far, in micrometres, the edges of a swept outline are moved out before corners are rounded: what
// outwards does, and what dropping corners closer than tinyEdge takes.
const (
	sweptOutwards = outwards + 5
	tinyEdge      = 4e-6 // m
)

// arc is a curve about the hinge seen as distance over direction: a circle (radius above 0) or a straight edge from a to b.
type arc struct {
	from, to float64 // directions, to ≥ from
	radius   float64
	a, b     pt // about the hinge as origin
}

// at returns the distance in direction φ.
func (c *arc) at(phi float64) float64 {
	if c.radius > 0 {
		return c.radius
	}
	d := c.b.minus(c.a)
	s, k := math.Sincos(phi)
	return c.a.cross(d) / (k*d.y - s*d.x)
}

// sweptOutline returns the outline, counter-clockwise, of what a convex body sweeps when it turns about a hinge; it is never
// inside the true one and at most excess outside.
//
// Seen from the hinge the body covers, in each direction, one stretch of distances; so does what it sweeps. The outer edge is
// the upper envelope of: the edges at the start, the edges at the end, and the circles of the corners; the inner edge is their
// lower envelope, with the circles of the feet of the edges. Circles become tangents outside and chords inside.
func sweptOutline(body []pt, hinge pt, angle, excess float64) []pt {
	flip := angle < 0
	if flip {
		body, hinge, angle = mirrored(body), pt{hinge.x, -hinge.y}, -angle
	}
	local := make([]pt, len(body))
	for i, p := range body {
		local[i] = p.minus(hinge)
	}
	poly := sweptAbout(local, angle, excess)
	for i := range poly {
		poly[i] = poly[i].plus(hinge)
	}
	if flip {
		poly = mirrored(poly)
	}
	return poly
}

// sweptAbout does it about the origin, counter-clockwise.
func sweptAbout(body []pt, angle, excess float64) []pt {
	if angle < 1e-9 {
		return slices.Clone(body)
	}
	inside := math.Inf(1) // how deep the hinge lies in the body
	for i, p := range body {
		d := body[(i+1)%len(body)].minus(p)
		inside = math.Min(inside, d.cross(p.times(-1))/d.length())
	}
	arcs, first, last := arcsOf(body, angle, inside)
	if inside > Tolerance || last-first >= 2*math.Pi-1e-9 {
		return outer(folded(arcs), -math.Pi, math.Pi, excess)
	}
	poly := outer(arcs, first, last, excess)
	if inside > -Tolerance {
		return thinnedRing(append(poly, pt{}))
	}
	rim := inner(arcs, first, last, excess)
	slices.Reverse(rim)
	return thinnedRing(append(poly, rim...))
}

// arcsOf returns the curves of a body that turns, and the directions it covers altogether.
func arcsOf(body []pt, angle, inside float64) (arcs []arc, first, last float64) {
	var centre pt
	for _, p := range body {
		centre = centre.plus(p.times(1 / float64(len(body))))
	}
	middle := math.Atan2(centre.y, centre.x)
	first, last = math.Inf(1), math.Inf(-1)
	direction := func(p pt) float64 { // within half a turn of the middle
		return middle + math.Remainder(math.Atan2(p.y, p.x)-middle, 2*math.Pi)
	}
	for i, p := range body {
		q := body[(i+1)%len(body)]
		if r := p.length(); r > Tolerance {
			phi := direction(p)
			arcs = append(arcs, arc{from: phi, to: phi + angle, radius: r})
			first, last = math.Min(first, phi), math.Max(last, phi+angle)
		}
		d := q.minus(p)
		if math.Abs(p.cross(d))/d.length() <= Tolerance { // the hinge is on the line of this edge
			continue
		}
		a, b := p, q
		if a.cross(b) < 0 {
			a, b = b, a
		}
		from := direction(a)
		to := from + math.Atan2(a.cross(b), a.dot(b))
		arcs = append(arcs, arc{from: from, to: to, a: a, b: b},
			arc{from: from + angle, to: to + angle, a: a.rotated(pt{}, angle), b: b.rotated(pt{}, angle)})
		if t := -p.dot(d) / d.dot(d); t > 0 && t < 1 && inside < 0 {
			foot := p.plus(d.times(t))
			phi := direction(foot)
			arcs = append(arcs, arc{from: phi, to: phi + angle, radius: foot.length()})
		}
	}
	return arcs, first, last
}

// folded returns the curves with their copies one turn before and after.
func folded(arcs []arc) []arc {
	var out []arc
	for _, c := range arcs {
		for k := -2.0; k <= 2; k++ {
			d := c
			d.from, d.to = c.from+2*math.Pi*k, c.to+2*math.Pi*k
			out = append(out, d)
		}
	}
	return out
}

// outer returns the upper envelope from direction to direction.
func outer(arcs []arc, first, last, excess float64) []pt {
	var out []pt
	envelope(arcs, first, last, 1, func(c *arc, from, to float64) {
		out = append(out, polar(from, c.at(from)))
		if c.radius > 0 {
			n := steps(to-from, c.radius, excess/2)
			half := (to - from) / float64(2*n)
			for i := range n {
				out = append(out, polar(from+half*float64(2*i+1), c.radius/math.Cos(half)))
			}
		}
		out = append(out, polar(to, c.at(to)))
	})
	return thinnedRing(out)
}

// inner returns the lower envelope from direction to direction.
func inner(arcs []arc, first, last, excess float64) []pt {
	var out []pt
	envelope(arcs, first, last, -1, func(c *arc, from, to float64) {
		out = append(out, polar(from, c.at(from)))
		if c.radius > 0 {
			n := steps(to-from, c.radius, excess/2)
			for i := 1; i < n; i++ {
				out = append(out, polar(lerp(from, to, float64(i)/float64(n)), c.radius))
			}
		}
		out = append(out, polar(to, c.at(to)))
	})
	return thinnedRing(out)
}

func polar(phi, r float64) pt { s, c := math.Sincos(phi); return pt{r * c, r * s} }

// steps returns into how many pieces an arc is cut so that tangents and chords are off it by at most excess.
func steps(angle, radius, excess float64) int {
	half := math.Min(math.Acos(1/(1+excess/radius)), math.Pi/12)
	return max(1, int(math.Ceil(angle/(2*half))))
}

// envelope calls yield for each piece of the upper (sign 1) or lower (-1) envelope, in order of direction.
func envelope(arcs []arc, first, last, sign float64, yield func(c *arc, from, to float64)) {
	at := []float64{first, last}
	add := func(phi float64) {
		if phi > first && phi < last {
			at = append(at, phi)
		}
	}
	for i := range arcs {
		add(arcs[i].from)
		add(arcs[i].to)
		for j := range i {
			for _, phi := range crossing(&arcs[i], &arcs[j]) {
				for k := -3.0; k <= 3; k++ {
					add(phi + 2*math.Pi*k)
				}
			}
		}
	}
	slices.SortFunc(at, cmp.Compare[float64])
	var on *arc
	from := first
	for i := 1; i < len(at); i++ {
		if at[i]-at[i-1] < 1e-12 {
			continue
		}
		mid := (at[i-1] + at[i]) / 2
		var best *arc
		for k := range arcs {
			if c := &arcs[k]; c.from <= mid && mid <= c.to && (best == nil || sign*(c.at(mid)-best.at(mid)) > 0) {
				best = c
			}
		}
		if best == on {
			continue
		}
		if on != nil {
			yield(on, from, at[i-1])
		}
		on, from = best, at[i-1]
	}
	if on != nil {
		yield(on, from, last)
	}
}

// crossing returns directions in which two curves may be equally far.
func crossing(c, d *arc) []float64 {
	switch {
	case c.radius > 0 && d.radius > 0:
		return nil
	case c.radius > 0:
		c, d = d, c
		fallthrough
	case d.radius > 0:
		var out []float64
		for _, m := range circleMeets(c.a, c.b, pt{}, d.radius) {
			out = append(out, math.Atan2(m.y, m.x))
		}
		return out
	}
	e, f := c.b.minus(c.a), d.b.minus(d.a)
	den := e.cross(f)
	if math.Abs(den) < 1e-15 {
		return nil
	}
	m := c.a.plus(e.times(d.a.minus(c.a).cross(f) / den))
	return []float64{math.Atan2(m.y, m.x)}
}

// thinnedRing drops corners closer than tinyEdge to the one before.
func thinnedRing(points []pt) []pt {
	var out []pt
	for _, p := range points {
		if n := len(out); n > 0 && p.minus(out[n-1]).length() < tinyEdge {
			continue
		}
		out = append(out, p)
	}
	for len(out) > 1 && out[0].minus(out[len(out)-1]).length() < tinyEdge {
		out = out[:len(out)-1]
	}
	return out
}

func areaOf(poly []pt) float64 {
	var sum float64
	for i, p := range poly {
		sum += p.cross(poly[(i+1)%len(poly)])
	}
	return sum / 2
}

func reversed(poly []pt) []pt {
	out := slices.Clone(poly)
	slices.Reverse(out)
	return out
}

// slab is a stretch of u between two heights.
type slab struct{ u0, u1, z0, z1 float64 }

// slabs covers a simple polygon in u and z with level slabs that pass it by at most excess.
func slabs(poly []pt, excess float64) []slab {
	var zs []float64
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		d := q.minus(p)
		n := 1 // slanting edges are cut until each slab's corner is near enough
		if l := d.length(); l > 0 {
			n = max(1, int(math.Ceil(math.Abs(d.x*d.y)/l/excess)))
		}
		for k := range n {
			zs = append(zs, lerp(p.y, q.y, float64(k)/float64(n)))
		}
	}
	slices.Sort(zs)
	var out []slab
	for i := 1; i < len(zs); i++ {
		z0, z1 := zs[i-1], zs[i]
		if z1-z0 < Tolerance {
			zs[i] = z0
			continue
		}
		out = append(out, slabsBetween(poly, z0, z1)...)
	}
	return out
}

// slabsBetween covers the polygon between two heights with no corner between them.
func slabsBetween(poly []pt, z0, z1 float64) []slab {
	type edge struct{ mid, least, most float64 }
	var edges []edge
	mid := (z0 + z1) / 2
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		if (p.y > mid) == (q.y > mid) {
			continue
		}
		at := func(z float64) float64 { return lerp(p.x, q.x, math.Max(0, math.Min(1, (z-p.y)/(q.y-p.y)))) }
		edges = append(edges, edge{at(mid), math.Min(at(z0), at(z1)), math.Max(at(z0), at(z1))})
	}
	slices.SortFunc(edges, func(a, b edge) int { return cmp.Compare(a.mid, b.mid) })
	var out []slab
	for i := 0; i+1 < len(edges); i += 2 {
		s := slab{edges[i].least, edges[i+1].most, z0, z1}
		if n := len(out); n > 0 && s.u0 <= out[n-1].u1 {
			out[n-1].u1 = math.Max(out[n-1].u1, s.u1)
			continue
		}
		out = append(out, s)
	}
	return out
}
