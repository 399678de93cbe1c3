package geom

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// vec is a point or a move in plan in whole micrometres. With coordinates up to MaxCoordinate (5·10^8) a difference is at
// most 10^9 and a move of one outline past another at most 2·10^9, so a sum of two of their products is at most
// 4·10^18 and fits int64.
type vec struct{ x, y int64 }

func (a vec) minus(b vec) vec    { return vec{a.x - b.x, a.y - b.y} }
func (a vec) dot(b vec) int64    { return a.x*b.x + a.y*b.y }
func (a vec) cross(b vec) int64  { return a.x*b.y - a.y*b.x }
func (a vec) length2() int64     { return a.dot(a) }
func (a vec) negative() vec      { return vec{-a.x, -a.y} }
func raw(v Vec2) vec             { return vec{v.X.Micrometres(), v.Y.Micrometres()} }
func turnOf(a, b, c vec) int64   { return b.minus(a).cross(c.minus(a)) } // above 0: left turn
func between(a, b, p int64) bool { return min(a, b) <= p && p <= max(a, b) }
func onSegment(a, b, p vec) bool {
	return turnOf(a, b, p) == 0 && between(a.x, b.x, p.x) && between(a.y, b.y, p.y)
}

// segmentsMeet tells whether the closed segments ab and cd have a point in common.
func segmentsMeet(a, b, c, d vec) bool {
	t1, t2 := sign(turnOf(a, b, c)), sign(turnOf(a, b, d))
	t3, t4 := sign(turnOf(c, d, a)), sign(turnOf(c, d, b))
	if t1*t2 < 0 && t3*t4 < 0 {
		return true
	}
	return onSegment(a, b, c) || onSegment(a, b, d) || onSegment(c, d, a) || onSegment(c, d, b)
}

func sign(v int64) int {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// floorRoot returns the largest k with k² ≤ n.
func floorRoot(n int64) int64 {
	k := int64(math.Sqrt(float64(n)))
	for k*k > n {
		k--
	}
	for (k+1)*(k+1) <= n {
		k++
	}
	return k
}

// ceilRoot returns the smallest k with k² ≥ n.
func ceilRoot(n int64) int64 {
	k := floorRoot(n)
	if k*k < n {
		k++
	}
	return k
}

// floorOver returns the largest k with k ≤ c/√n, for c ≥ 0 and n > 0 and a result up to 2·10^9: k²·n ≤ c², compared in 128 bits.
func floorOver(c, n int64) int64 {
	k := int64(float64(c) / math.Sqrt(float64(n)))
	for k > 0 && !squareTimes(k, n, c) {
		k--
	}
	for squareTimes(k+1, n, c) {
		k++
	}
	return k
}

// squareTimes tells whether k²·n ≤ c².
func squareTimes(k, n, c int64) bool {
	h1, l1 := bits.Mul64(uint64(k)*uint64(k), uint64(n))
	h2, l2 := bits.Mul64(uint64(c), uint64(c))
	return h1 < h2 || h1 == h2 && l1 <= l2
}

// floorDiv and ceilDiv divide by b > 0, rounding down and up.
func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

func ceilDiv(a, b int64) int64 { return -floorDiv(-a, b) }

// hull returns the convex hull, counter-clockwise, without corners in the middle of an edge.
func hull(points []vec) []vec {
	slices.SortFunc(points, func(a, b vec) int { return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.y, b.y)) })
	points = slices.Compact(points)
	var out []vec
	chain := func(least int, p vec) {
		for len(out) >= least+2 && turnOf(out[len(out)-2], out[len(out)-1], p) <= 0 {
			out = out[:len(out)-1]
		}
		out = append(out, p)
	}
	for _, p := range points {
		chain(0, p)
	}
	least := len(out) - 1
	for i := len(points) - 2; i >= 0; i-- {
		chain(least, points[i])
	}
	return out[:len(out)-1]
}
