package geom

import (
	"cmp"
	"math"
	"slices"

	"berthwright/unit"
)

// Ceiling returns the greatest height at station x, without lifting roofs, rounded down: where the walls meet, or the level
// between their top corners.
func (s Shell) Ceiling(x unit.Length) (unit.Length, error) {
	spans, err := s.around(x)
	if err != nil {
		return 0, err
	}
	_, top := heightOver(spans, x.Metres())
	return down(top), nil
}

// FloorAt returns the height of the floor at station x, rounded up.
func (s Shell) FloorAt(x unit.Length) (unit.Length, error) {
	spans, err := s.around(x)
	if err != nil {
		return 0, err
	}
	low, _ := heightOver(spans, x.Metres())
	return up(low), nil
}

// CeilingAt returns the height of the roof over a point in plan, with lifting roofs open, rounded down. A point outside the
// walls where the roof begins is a RangeError.
func (s Shell) CeilingAt(p Vec2) (unit.Length, error) {
	spans, err := s.around(p.X)
	if err != nil {
		return 0, err
	}
	v, z := metres2(p), math.Inf(1)
	for i := range spans {
		t := spans[i].share(v.x)
		for k := range spans[i].roof {
			if w := spans[i].least(k, v.x, spans[i].roof[k], spans[i].roof[k]); outwardsOf(k, v) > w+Tolerance {
				return 0, RangeError{"place across the van", p.Y, -down(spans[i].least(0, v.x, spans[i].roof[0], spans[i].roof[0])),
					down(spans[i].least(1, v.x, spans[i].roof[1], spans[i].roof[1]))}
			}
			z = math.Min(z, spans[i].exit(k, t, outwardsOf(k, v)))
		}
		z = math.Min(z, spans[i].top(v.x))
	}
	return down(z) + s.raisedBy(p), nil
}

// raisedBy returns how much higher the ceiling is over p with lifting roofs open.
func (s Shell) raisedBy(p Vec2) unit.Length {
	var high unit.Length
	for _, r := range s.raises {
		if r.From <= p.X && p.X <= r.To && r.Left <= p.Y && p.Y <= r.Right {
			high = max(high, r.High)
		}
	}
	return high
}

// Section returns the inside at station x as a closed outline, to be drawn: from the left end of the floor up the left
// wall, over the roof, down the right wall, to the nearest micrometre. Recesses and open lifting roofs are in it. Where
// the inside steps at x, the part behind x is shown.
func (s Shell) Section(x unit.Length) ([]Corner, error) {
	spans, err := s.around(x)
	if err != nil {
		return nil, err
	}
	p, m := &spans[len(spans)-1], x.Metres()
	left, right := p.contour(0, m), p.contour(1, m)
	for i := range left {
		left[i].x = -left[i].x
	}
	slices.Reverse(right)
	chain := append(left, right...)
	for _, r := range s.raises {
		if r.From <= x && x <= r.To {
			chain = raised(chain, math.Max(p.roof[0], p.roof[1]), r)
		}
	}
	out := make([]Corner, 0, len(chain))
	for _, c := range chain {
		k := Corner{unit.MetresLength(c.x), unit.MetresLength(c.y)}
		if len(out) == 0 || out[len(out)-1] != k {
			out = append(out, k)
		}
	}
	return out, nil
}

// contour returns one side at x from the floor to the top, w over z.
func (p *span) contour(side int, x float64) []pt {
	t, low, top := p.share(x), p.low(x), p.top(x)
	var out []pt
	for i := range p.cells[side] {
		c := &p.cells[side][i]
		z0, z1 := math.Max(c.z0, low), math.Min(c.z1, top)
		if z1-z0 <= Tolerance {
			continue
		}
		out = append(out, pt{c.at(t, z0), z0}, pt{c.at(t, z1), z1})
	}
	return thinned(out)
}

// thinned drops points that lie on the straight line between their neighbours.
func thinned(points []pt) []pt {
	var out []pt
	for _, p := range points {
		if n := len(out); n > 0 && p.minus(out[n-1]).length() <= Tolerance {
			continue
		}
		if n := len(out); n > 1 {
			d, e := out[n-1].minus(out[n-2]), p.minus(out[n-1])
			if math.Abs(d.cross(e)) <= Tolerance*e.length() && d.dot(e) > 0 {
				out = out[:n-1]
			}
		}
		out = append(out, p)
	}
	return out
}

// raised lifts the part of the roof within the window; the roof is what lies above a height, from left to right.
func raised(chain []pt, above float64, r Raise) []pt {
	from := slices.IndexFunc(chain, func(p pt) bool { return p.y >= above-Tolerance })
	to := len(chain)
	for to > from && chain[to-1].y < above-Tolerance {
		to--
	}
	roof := chain[from:to]
	y0, y1 := math.Max(r.Left.Metres(), roof[0].x), math.Min(r.Right.Metres(), roof[len(roof)-1].x)
	if !(y0 < y1) {
		return chain
	}
	high := r.High.Metres()
	var before, in, after []pt
	for _, p := range roof {
		switch {
		case p.x < y0:
			before = append(before, p)
		case p.x > y1:
			after = append(after, p)
		default:
			in = append(in, pt{p.x, p.y + high})
		}
	}
	ends := [2]pt{{y0, over(roof, y0)}, {y1, over(roof, y1)}}
	out := append(slices.Clone(chain[:from]), before...)
	out = append(out, ends[0], pt{y0, ends[0].y + high})
	out = append(out, in...)
	out = append(out, pt{y1, ends[1].y + high}, ends[1])
	out = append(out, after...)
	return append(out, chain[to:]...)
}

// over returns the height of the roof at y.
func over(roof []pt, y float64) float64 {
	i, found := slices.BinarySearchFunc(roof, y, func(p pt, y float64) int { return cmp.Compare(p.x, y) })
	if found || i == 0 {
		return roof[min(i, len(roof)-1)].y
	}
	if i == len(roof) {
		return roof[i-1].y
	}
	a, b := roof[i-1], roof[i]
	return lerp(a.y, b.y, (y-a.x)/(b.x-a.x))
}
