package geom

import (
	"fmt"
	"math"
	"slices"
)

// lined returns the span with what is lined over its whole length taken off its two sections.
func (s Shell) lined(p span) (span, error) {
	var thick [Floor + 1]float64
	mid, any := (p.x0+p.x1)/2, false
	for _, l := range s.linings {
		if l.From.Metres() < mid && mid < l.To.Metres() && l.Thick > 0 {
			thick[l.Face] += l.Thick.Metres()
			any = true
		}
	}
	if !any {
		return p, nil
	}
	var ok [2]bool
	p.a, ok[0] = p.a.lined(thick)
	p.b, ok[1] = p.b.lined(thick)
	for i, x := range [2]float64{p.x0, p.x1} {
		if !ok[i] {
			return p, ShapeError{"lining", -1, fmt.Sprintf("leaves no room at \"%g mm\"", x*1e3)}
		}
	}
	return p, nil
}

// lined takes the thicknesses off a section: what is left is everything at least as far from each face as its lining is thick.
func (s section) lined(thick [Floor + 1]float64) (section, bool) {
	out := section{low: s.low + thick[Floor], top: s.top}
	if s.width(s.top) > Tolerance {
		out.top -= thick[Roof] // a level roof between the top corners
	}
	if out.top-out.low <= Tolerance {
		return out, false
	}
	for k := range s.side {
		p := s.side[k]
		start := p.roofStart()
		out.side[k] = p.offset(p[0].y, p[len(p)-1].y, func(i int) float64 {
			if i >= start {
				return thick[Roof]
			}
			return thick[LeftWall+Face(k)]
		})
	}
	if out.width(out.low) <= Tolerance {
		return out, false
	}
	// The sides meet where their widths come to nought: that is the ridge.
	zs := heights(out.low, out.top, out.side[0], out.side[1])
	for i := 1; i < len(zs); i++ {
		w0, w1 := out.width(zs[i-1]), out.width(zs[i])
		if w1 < 0 {
			out.top = lerp(zs[i-1], zs[i], w0/(w0-w1))
			break
		}
	}
	return out, out.top-out.low > Tolerance
}

// line is a straight piece of a lining, w over z.
type line struct{ p, q pt }

func (l line) at(z float64) float64 { return lerp(l.p.x, l.q.x, (z-l.p.y)/(l.q.y-l.p.y)) }

// offset moves each piece of the profile inwards along its normal by its thickness and returns the innermost line between two
// heights. Pieces are lengthened to meet where the wall folds inwards; round a corner that stands into the room the lining
// goes in pieces of at most 10° outside the true arc; the first and last piece go on beyond their ends.
func (p profile) offset(low, high float64, thick func(i int) float64) profile {
	n := len(p) - 1
	lines := make([]line, n)
	for i := range lines {
		d := p[i+1].minus(p[i]).normed()
		m := pt{-d.y, d.x}.times(thick(i))
		lines[i] = line{p[i].plus(m), p[i+1].plus(m)}
	}
	all := slices.Clone(lines)
	all[0].p = lines[0].p.to(lines[0].q, -(1+lines[0].p.y-low)/(lines[0].q.y-lines[0].p.y))
	all[n-1].q = lines[n-1].q.to(lines[n-1].p, -1/(lines[n-1].q.y-lines[n-1].p.y))
	for i := 0; i+1 < n; i++ {
		d, e := p[i+1].minus(p[i]).normed(), p[i+2].minus(p[i+1]).normed()
		turn := d.cross(e)
		if turn < 0 {
			all = append(all, rounded(p[i+1], d, e, math.Max(thick(i), thick(i+1)))...)
			continue
		}
		if turn < 1e-9 {
			continue
		}
		between := lines[i+1].p.minus(lines[i].q)
		if t := between.cross(e) / turn; t > 0 { // beyond the end of the lower piece
			all[i].q = lines[i].q.plus(d.times(t))
		}
		if t := between.cross(d) / turn; t < 0 { // before the start of the upper one
			all[i+1].p = lines[i+1].p.plus(e.times(t))
		}
	}
	all = slices.DeleteFunc(all, func(l line) bool { return l.q.y-l.p.y < Tolerance })
	return innermost(all, low, high)
}

// rounded returns tangents around a corner from direction d to e at distance r, lying on the room's side of the arc.
func rounded(corner, d, e pt, r float64) []line {
	angle := math.Asin(math.Max(-1, math.Min(0, d.cross(e))))
	if d.dot(e) < 0 {
		angle = -math.Pi - angle
	}
	steps := int(math.Ceil(-angle / (10 * math.Pi / 180)))
	var out []line
	half := angle / float64(2*steps)
	normal := pt{-d.y, d.x}
	last := corner.plus(normal.times(r))
	for i := range steps {
		mid := normal.rotated(pt{}, half*float64(2*i+1)).times(r / math.Cos(half))
		out = append(out, line{last, corner.plus(mid)})
		last = corner.plus(mid)
	}
	return append(out, line{last, corner.plus(normal.rotated(pt{}, angle).times(r))})
}

// innermost returns the lower envelope of the lines between two heights. Where it jumps, it does so within Tolerance, on the
// outer line's side.
func innermost(lines []line, low, high float64) profile {
	zs := []float64{low, high}
	add := func(z float64) {
		if z > low && z < high {
			zs = append(zs, z)
		}
	}
	for i, a := range lines {
		add(a.p.y)
		add(a.q.y)
		for _, b := range lines[i+1:] {
			from, to := math.Max(a.p.y, b.p.y), math.Min(a.q.y, b.q.y)
			if d0, d1 := a.at(from)-b.at(from), a.at(to)-b.at(to); from < to && d0*d1 < 0 {
				add(lerp(from, to, d0/(d0-d1)))
			}
		}
	}
	slices.Sort(zs)
	var out profile
	on := -1
	from := low
	for _, z := range zs[1:] {
		if z-from < 4*Tolerance && z < high {
			continue
		}
		mid, best := (from+z)/2, -1
		for i, l := range lines {
			if l.p.y <= mid && mid <= l.q.y && (best < 0 || l.at(mid) < lines[best].at(mid)) {
				best = i
			}
		}
		if best < 0 { // a sliver below the tolerance between two pieces
			continue
		}
		l := lines[best]
		switch start := l.at(from); {
		case len(out) == 0:
			out = append(out, pt{start, from})
		case best == on:
			out = out[:len(out)-1]
		case start > out[len(out)-1].x+Tolerance:
			out = append(out, pt{start, from + Tolerance})
		case start < out[len(out)-1].x-Tolerance:
			out[len(out)-1].y -= Tolerance
			out = append(out, pt{start, from})
		}
		out = append(out, pt{l.at(z), z})
		on, from = best, z
	}
	return out
}
