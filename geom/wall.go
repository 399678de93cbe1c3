package geom

import (
	"math"

	"berthwright/unit"
)

// Stretch returns the first and last measured station; false: the zero Shell.
func (s Shell) Stretch() (from, to unit.Length, ok bool) {
	if len(s.spans) == 0 {
		return 0, 0, false
	}
	return unit.MetresLength(s.spans[0].x0), unit.MetresLength(s.spans[len(s.spans)-1].x1), true
}

// around returns the spans that hold x, two where x is on a border, front first.
func (s Shell) around(x unit.Length) ([]span, error) {
	m := x.Metres()
	from, to := -1, -1
	for i, p := range s.spans {
		if p.x0 <= m+Tolerance && m <= p.x1+Tolerance {
			if from < 0 {
				from = i
			}
			to = i + 1
		}
	}
	if from < 0 {
		first, last, _ := s.Stretch()
		return nil, RangeError{"station", x, first, last}
	}
	return s.spans[from:to], nil
}

// heightOver returns the lowest and highest point at x over the spans that hold it.
func heightOver(spans []span, x float64) (low, top float64) {
	low, top = math.Inf(-1), math.Inf(1)
	for i := range spans {
		low, top = math.Max(low, spans[i].low(x)), math.Min(top, spans[i].top(x))
	}
	return low, top
}

// least returns the smallest w of one side at x over a band of heights (which may have no height).
func (p *span) least(side int, x, low, high float64) float64 {
	t, w := p.share(x), math.Inf(1)
	cells := p.cells[side]
	for i := range cells {
		c := &cells[i]
		if z0, z1, ok := c.within(low, high); ok {
			w = math.Min(w, math.Min(c.at(t, z0), c.at(t, z1)))
		}
	}
	return w
}

// within returns the part of the band in the cell. A band with height does not touch a cell it shares only an edge with.
func (c *cell) within(low, high float64) (z0, z1 float64, ok bool) {
	z0, z1 = math.Max(c.z0, low), math.Min(c.z1, high)
	if high-low > Tolerance {
		return z0, z1, z1-z0 > Tolerance
	}
	if z0 > z1 && z0-z1 <= Tolerance { // beside the cell by no more than the tolerance
		z0 = math.Min(math.Max(low, c.z0), c.z1)
		z1 = z0
	}
	return z0, z1, z0 <= z1
}

// Wall returns y of a wall at station x and height z, rounded inwards. Where it steps, the inner side counts. Outside the
// stations, below the lowest measured corner and above the top it returns a RangeError.
func (s Shell) Wall(face Face, x, z unit.Length) (unit.Length, error) {
	if face != LeftWall && face != RightWall {
		return 0, ShapeError{"wall", -1, "is neither left nor right"}
	}
	spans, err := s.around(x)
	if err != nil {
		return 0, err
	}
	m, h := x.Metres(), z.Metres()
	if low, top := heightOver(spans, m); !(h >= low-Tolerance && h <= top+Tolerance) {
		return 0, RangeError{"height", z, up(low), down(top)}
	}
	w := math.Inf(1)
	for i := range spans {
		w = math.Min(w, spans[i].least(int(face-LeftWall), m, h, h))
	}
	if face == LeftWall {
		return -down(w), nil
	}
	return down(w), nil
}

// WidthAt returns the free width between the walls at station x and height z, rounded down.
func (s Shell) WidthAt(x, z unit.Length) (unit.Length, error) {
	a, err := s.Across(x, x, z, z)
	return a.Narrowest, err
}

// Across is the free length across the van over a stretch and a band of heights, as a bed between the walls meets it.
type Across struct {
	Narrowest, Widest unit.Length // free width where it is least and most over the stretch
	Straight          unit.Length // length of a rectangle that passes everywhere: right wall's least less left wall's least
	Front, Rear       unit.Length // free width at either end of the stretch
	Left, Right       unit.Length // how much further out each wall is at the rear end than at the front end (below 0: further in)
	NarrowAt          unit.Length // x where it is narrowest
}

// Across returns the free lengths across from x to x over a band of heights, low and high may be the same. It is exact: over a
// patch the width is bilinear, so extremes lie on corners and on crossings of its straight lines. Lengths are rounded down.
func (s Shell) Across(from, to, low, high unit.Length) (Across, error) {
	if to < from {
		return Across{}, RangeError{"rear end", to, from, MaxCoordinate}
	}
	if high < low {
		return Across{}, RangeError{"upper edge", high, low, MaxCoordinate}
	}
	front, err := s.around(from)
	if err != nil {
		return Across{}, err
	}
	rear, err := s.around(to)
	if err != nil {
		return Across{}, err
	}
	x0, x1, z0, z1 := from.Metres(), to.Metres(), low.Metres(), high.Metres()
	narrow, wide := math.Inf(1), math.Inf(-1)
	least, narrowAt := [2]float64{math.Inf(1), math.Inf(1)}, x0
	see := func(p *span, x float64) error {
		if !(z0 >= p.low(x)-Tolerance && z1 <= p.top(x)+Tolerance) {
			return RangeError{"height", pick(z0 < p.low(x)-Tolerance, low, high), up(p.low(x)), down(p.top(x))}
		}
		w := p.width(x, z0, z1)
		if w < narrow {
			narrow, narrowAt = w, x
		}
		wide = math.Max(wide, w)
		for k := range least {
			least[k] = math.Min(least[k], p.least(k, x, z0, z1))
		}
		return nil
	}
	for i := range s.spans {
		p := &s.spans[i]
		a, b := math.Max(x0, p.x0), math.Min(x1, p.x1)
		if x1-x0 > Tolerance && b-a <= Tolerance || a > b+Tolerance {
			continue
		}
		for _, x := range append(p.crossings(a, b, z0, z1), a, b) {
			if err := see(p, x); err != nil {
				return Across{}, err
			}
		}
	}
	if x1-x0 > Tolerance { // what only touches an end is not under the bed
		front, rear = front[len(front)-1:], rear[:1]
	}
	out := Across{
		Narrowest: down(narrow), Widest: down(wide), NarrowAt: unit.MetresLength(narrowAt),
		Straight: down(least[0] + least[1]),
	}
	at := func(spans []span, x float64, f func(p *span) float64) float64 {
		w := math.Inf(1)
		for i := range spans {
			w = math.Min(w, f(&spans[i]))
		}
		return w
	}
	out.Front = down(at(front, x0, func(p *span) float64 { return p.width(x0, z0, z1) }))
	out.Rear = down(at(rear, x1, func(p *span) float64 { return p.width(x1, z0, z1) }))
	taper := func(k int) unit.Length {
		return unit.MetresLength(at(rear, x1, func(p *span) float64 { return p.least(k, x1, z0, z1) }) -
			at(front, x0, func(p *span) float64 { return p.least(k, x0, z0, z1) }))
	}
	out.Left, out.Right = taper(0), taper(1)
	return out, nil
}

func pick[T any](first bool, a, b T) T {
	if first {
		return a
	}
	return b
}

// lineOver is the width at one height of the band, linear from x to x.
type lineOver struct{ a, b float64 }

// over returns the widths at the corners of the patches in the band, at both ends of a stretch.
func (p *span) over(a, b, low, high float64) []lineOver {
	ta, tb := p.share(a), p.share(b)
	var out []lineOver
	for i := range p.cells[0] {
		l := &p.cells[0][i]
		z0, z1, ok := l.within(low, high)
		if !ok {
			continue
		}
		for j := range p.cells[1] {
			r := &p.cells[1][j]
			y0, y1, ok := r.within(z0, z1)
			if !ok {
				continue
			}
			for _, z := range [2]float64{y0, y1} {
				out = append(out, lineOver{l.at(ta, z) + r.at(ta, z), l.at(tb, z) + r.at(tb, z)})
			}
		}
	}
	return out
}

// width returns the least free width at x over the band.
func (p *span) width(x, low, high float64) float64 {
	w := math.Inf(1)
	for _, o := range p.over(x, x, low, high) {
		w = math.Min(w, o.a)
	}
	return w
}

// crossings returns where between a and b two of the widths are equal: there the least of them may be widest.
func (p *span) crossings(a, b, low, high float64) []float64 {
	over := p.over(a, b, low, high)
	var xs []float64
	for i, o := range over {
		for _, q := range over[i+1:] {
			if d0, d1 := o.a-q.a, o.b-q.b; d0*d1 < 0 {
				xs = append(xs, lerp(a, b, d0/(d0-d1)))
			}
		}
	}
	return xs
}
