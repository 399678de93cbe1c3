package geom

import (
	"math"

	"berthwright/unit"
)

// Poke is how a solid stands through one face of the shell.
type Poke struct {
	Face  Face
	Depth unit.Length // rounded up: sideways through a wall, plumb through roof and floor
	At    Vec3        // the point of the solid that is furthest out, to the nearest micrometre
}

// Fit is how a solid lies in a shell. The pokes are in the order of the faces, at most one for each.
type Fit struct {
	Pokes         []Poke
	Ahead, Behind unit.Length // how much of the solid lies before the first and behind the last station, where nothing was measured
}

// Inside tells whether the whole solid is known to lie inside; faces may touch.
func (f Fit) Inside() bool { return len(f.Pokes) == 0 && f.Ahead == 0 && f.Behind == 0 }

// furthest is the worst point seen.
type furthest struct {
	depth float64
	at    pt
	z     float64
}

func (f *furthest) see(depth float64, at pt, z float64) {
	if depth > f.depth {
		*f = furthest{depth, at, z}
	}
}

// Fit tells whether b stays inside the shell, and through which face it stands by how much. Through a wall the depth is
// measured sideways at heights below where the wall turns into the roof (it goes inwards more than up); through the roof it is
// measured plumb, after the solid has been moved clear of the walls. It is exact: at one height the walls are straight from
// station to station and at one station straight from corner to corner, so the extremes lie on corners of the outline and on
// its crossings with the lines of stations and corners. A solid wholly outside the stations is a RangeError.
func (s Shell) Fit(b Solid) (Fit, error) {
	first, last, ok := s.Stretch()
	least, most := b.Outline.Bounds()
	if !ok || len(b.Outline.points) == 0 || most.X <= first || least.X >= last {
		return Fit{}, RangeError{"place of a solid along the van", least.X, first, last}
	}
	out := Fit{Ahead: max(first-least.X, 0), Behind: max(most.X-last, 0)}
	low, high := b.Low.Metres(), b.High.Metres()
	var walls [2]furthest
	var floor, roof furthest
	type part struct {
		p    *span
		poly []pt
	}
	var parts []part
	var beside []*span // the spans in which it does not lie inside beyond doubt
	for i := range s.spans {
		if p := &s.spans[i]; least.X.Metres() < p.x1 && most.X.Metres() > p.x0 && !p.holds(b, low, high) {
			beside = append(beside, p)
		}
	}
	if len(beside) == 0 {
		return out, nil
	}
	for _, piece := range b.Outline.pieces {
		poly := metresOf(piece)
		for _, p := range beside {
			cut := clipped(clipped(poly, pt{1, 0}, p.x1), pt{-1, 0}, -p.x0)
			if thin(cut) {
				continue
			}
			parts = append(parts, part{p, cut})
			for _, v := range cut {
				floor.see(p.low(v.x)-low, v, low)
				for k := range walls {
					p.throughWall(&walls[k], k, v, low, high)
				}
			}
		}
	}
	for _, q := range parts {
		if high > q.p.roof[0]+Tolerance || high > q.p.roof[1]+Tolerance {
			q.p.throughRoof(&roof, s.raises, q.poly, high, [2]float64{walls[0].depth, walls[1].depth})
		}
	}
	for i, f := range [4]furthest{walls[0], walls[1], roof, floor} {
		if f.depth > Tolerance {
			out.Pokes = append(out.Pokes, Poke{LeftWall + Face(i), up(f.depth),
				Vec3{unit.MetresLength(f.at.x), unit.MetresLength(f.at.y), unit.MetresLength(f.z)}})
		}
	}
	return out, nil
}

// holds tells whether a solid lies within the least width of every patch it stands beside, above the floor and under the top.
func (p *span) holds(b Solid, low, high float64) bool {
	if low < p.a.low || low < p.b.low || high > p.a.top || high > p.b.top {
		return false
	}
	for k, o := range [2]float64{-float64(b.Outline.min.y) * 1e-6, float64(b.Outline.max.y) * 1e-6} {
		for i := range p.cells[k] {
			if c := &p.cells[k][i]; c.z0 < high && c.z1 > low && o > c.least {
				return false
			}
		}
	}
	return true
}

// outwardsOf returns the distance of a point outwards from the centre line on one side.
func outwardsOf(side int, p pt) float64 {
	if side == 0 {
		return -p.y
	}
	return p.y
}

// throughWall sees how far the point stands through a wall, between the heights and below the roof.
func (p *span) throughWall(f *furthest, side int, v pt, low, high float64) {
	roof := p.roof[side]
	low, high = math.Min(low, roof), math.Min(high, roof)
	t, o := p.share(v.x), outwardsOf(side, v)
	cells := p.cells[side]
	for i := range cells {
		c := &cells[i]
		if z0, z1, ok := c.within(low, high); ok {
			f.see(o-c.at(t, z0), v, z0)
			f.see(o-c.at(t, z1), v, z1)
		}
	}
}

// throughRoof sees how far a piece of the outline within the span stands through the roof, moved clear of the walls first.
func (p *span) throughRoof(f *furthest, raises []Raise, poly []pt, high float64, moved [2]float64) {
	parts := [][]pt{poly}
	for _, r := range raises {
		x0, x1, y0, y1 := r.From.Metres(), r.To.Metres(), r.Left.Metres(), r.Right.Metres()
		var left [][]pt
		for _, q := range parts {
			mid := clipped(clipped(q, pt{1, 0}, x1), pt{-1, 0}, -x0)
			for _, rest := range [][]pt{clipped(q, pt{1, 0}, x0), clipped(q, pt{-1, 0}, -x1), clipped(mid, pt{0, 1}, y0), clipped(mid, pt{0, -1}, -y1)} {
				if !thin(rest) {
					left = append(left, rest)
				}
			}
			if in := clipped(clipped(mid, pt{0, 1}, y1), pt{0, -1}, -y0); !thin(in) {
				p.underRoof(f, in, high, high-r.High.Metres(), moved)
			}
		}
		parts = left
	}
	for _, q := range parts {
		p.underRoof(f, q, high, high, moved)
	}
}

// underRoof compares the roof over a convex piece with a height; high is the top of the solid itself.
func (p *span) underRoof(f *furthest, poly []pt, high, height float64, moved [2]float64) {
	see := func(v pt) {
		f.see(height-p.ceiling(v, moved), v, high)
	}
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		see(a)
		for k := range p.cells {
			for j := range p.cells[k] {
				c := &p.cells[k][j]
				if c.z0 < p.roof[k] {
					continue
				}
				d0 := outwardsOf(k, a) - moved[k] - c.at(p.share(a.x), c.z0)
				d1 := outwardsOf(k, b) - moved[k] - c.at(p.share(b.x), c.z0)
				if d0*d1 < 0 {
					see(a.to(b, d0/(d0-d1)))
				}
			}
		}
	}
}

// ceiling returns the lowest roof over a point that is first moved inwards; the roof begins at p.roof on each side.
func (p *span) ceiling(v pt, moved [2]float64) float64 {
	t, z := p.share(v.x), p.top(v.x)
	for k := range p.cells {
		z = math.Min(z, p.exit(k, t, outwardsOf(k, v)-moved[k]))
	}
	return z
}

// exit returns the height above the start of the roof where one side comes to stand further in than o.
func (p *span) exit(side int, t, o float64) float64 {
	cells := p.cells[side]
	for i := range cells {
		c := &cells[i]
		if c.z0 < p.roof[side] {
			continue
		}
		w0, w1 := c.at(t, c.z0), c.at(t, c.z1)
		if o > w0+Tolerance {
			return c.z0
		}
		if o > w1+Tolerance {
			return lerp(c.z0, c.z1, math.Max(0, (w0-o)/(w0-w1)))
		}
	}
	return math.Inf(1)
}
