package geom

import (
	"cmp"
	"math"
	"slices"

	"berthwright/unit"
)

// standStep is the width of a strip across the van, in metres.
const standStep = 0.020

// Standing is where somebody of a height can stand.
type Standing struct {
	Area  unit.Area // of the free floor under a ceiling high enough, ± about 20 mm along its edges across the van
	First unit.Length
	Last  unit.Length // where along the van it begins and ends; both 0 when there is none
	Ways  [][2]Vec2   // for drawing: free strips across the van, every 20 mm
}

// StandingRoom returns where the free height over the shell's floor is at least height and no solid that reaches into it
// stands. Across the van it is exact, along the van it goes in strips of 20 mm, each judged in its middle. Ask the lined shell
// for headroom over the finished floor.
func (s Shell) StandingRoom(height unit.Length, solids []Solid) (Standing, error) {
	first, last, ok := s.Stretch()
	if !ok || height <= 0 {
		return Standing{}, RangeError{"headroom", height, unit.Micrometre, MaxCoordinate}
	}
	x0, x1 := first.Metres(), last.Metres()
	n := max(1, int(math.Round((x1-x0)/standStep)))
	step := (x1 - x0) / float64(n)
	solids = slices.Clone(solids)
	slices.SortStableFunc(solids, func(a, b Solid) int { return cmp.Compare(a.Outline.min.x, b.Outline.min.x) })
	out := Standing{}
	area := 0.0
	for i := range n {
		x := x0 + step*(float64(i)+0.5)
		for _, f := range s.standingAt(x, height.Metres(), solids) {
			area += (f[1] - f[0]) * step
			a, b := nearest(pt{x, f[0]}), nearest(pt{x, f[1]})
			if len(out.Ways) == 0 {
				out.First = unit.MetresLength(x - step/2)
			}
			out.Last = unit.MetresLength(x + step/2)
			out.Ways = append(out.Ways, [2]Vec2{a, b})
		}
	}
	out.Area = unit.Area(area)
	return out, nil
}

// standingAt returns the free stretches of y at x.
func (s Shell) standingAt(x, height float64, solids []Solid) [][2]float64 {
	var free [][2]float64
	at := int64(x * 1e6)
	for i := range s.spans {
		p := &s.spans[i]
		if x < p.x0 || x >= p.x1 {
			continue
		}
		low := p.low(x)
		head := low + height
		room := [][2]float64{p.clearAcross(x, low, head)}
		for _, r := range s.raises {
			if r.From.Metres() <= x && x <= r.To.Metres() {
				in := p.clearAcross(x, low, head-r.High.Metres())
				room = append(room, [2]float64{math.Max(in[0], r.Left.Metres()), math.Min(in[1], r.Right.Metres())})
			}
		}
		var taken [][2]float64
		for j := range solids {
			if solids[j].Outline.min.x > at { // sorted by where they begin
				break
			}
			if b := &solids[j]; b.Outline.max.x > at && b.Low.Metres() < head-Tolerance && b.High.Metres() > low+Tolerance {
				taken = append(taken, across(b.Outline, x)...)
			}
		}
		free = append(free, without(joinedUp(room), joinedUp(taken))...)
	}
	return free
}

// clearAcross returns the stretch of y at x that is free from the floor up to a height; empty when the roof is lower.
func (p *span) clearAcross(x, low, head float64) [2]float64 {
	if head > p.top(x)+Tolerance || head <= low {
		return [2]float64{0, 0}
	}
	return [2]float64{-p.least(0, x, low, head), p.least(1, x, low, head)}
}

// across returns the stretches of y that an outline covers at x.
func across(o Outline, x float64) [][2]float64 {
	if len(o.points) == 0 {
		return nil
	}
	var cuts []float64
	v := o.points[len(o.points)-1]
	p := pt{float64(v.x) * 1e-6, float64(v.y) * 1e-6}
	for _, v := range o.points {
		q := pt{float64(v.x) * 1e-6, float64(v.y) * 1e-6}
		if (p.x > x) != (q.x > x) {
			cuts = append(cuts, lerp(p.y, q.y, (x-p.x)/(q.x-p.x)))
		}
		p = q
	}
	slices.Sort(cuts)
	var out [][2]float64
	for i := 0; i+1 < len(cuts); i += 2 {
		out = append(out, [2]float64{cuts[i], cuts[i+1]})
	}
	return out
}

// joinedUp sorts stretches and joins those that overlap; empty ones go.
func joinedUp(all [][2]float64) [][2]float64 {
	slices.SortFunc(all, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	var out [][2]float64
	for _, s := range all {
		if !(s[0] < s[1]) {
			continue
		}
		if n := len(out); n > 0 && s[0] <= out[n-1][1] {
			out[n-1][1] = math.Max(out[n-1][1], s[1])
			continue
		}
		out = append(out, s)
	}
	return out
}

// without takes stretches out of others; both are joined up.
func without(room, taken [][2]float64) [][2]float64 {
	var out [][2]float64
	for _, r := range room {
		from := r[0]
		for _, t := range taken {
			if t[1] <= from || t[0] >= r[1] {
				continue
			}
			if t[0] > from {
				out = append(out, [2]float64{from, t[0]})
			}
			from = math.Max(from, t[1])
		}
		if from < r[1] {
			out = append(out, [2]float64{from, r[1]})
		}
	}
	return out
}
