package geom

import (
	"cmp"
	"math"
	"slices"
)

// exit is one way out of the difference of two convex pieces: the moves v with n·v ≥ c do not overlap.
type exit struct {
	n vec
	c int64
}

// differences returns, for each pair of convex pieces, the exits of its difference: a moved by v keeps clear of b if
// and only if one of them holds (separating axes).
func differences(as, bs [][]vec) [][]exit {
	var all [][]exit
	for _, a := range as {
		for _, b := range bs {
			all = append(all, exits(a, b))
		}
	}
	return all
}

func exits(a, b []vec) []exit {
	out := make([]exit, 0, len(a)+len(b))
	for i, p := range b { // out over an edge of b: the least of a comes to lie beyond it
		e := b[(i+1)%len(b)].minus(p)
		n := vec{e.y, -e.x}
		c := int64(math.MinInt64)
		for _, r := range a {
			c = max(c, n.dot(p.minus(r)))
		}
		out = append(out, exit{n, c})
	}
	for i, p := range a { // out over an edge of a, backwards
		e := a[(i+1)%len(a)].minus(p)
		n := vec{e.y, -e.x}
		c := int64(math.MinInt64)
		for _, r := range b {
			c = max(c, n.dot(p.minus(r)))
		}
		out = append(out, exit{n.negative(), c})
	}
	return out
}

// holds tells whether v is clear of every difference. The products fit: v is bounded by the size of the differences.
func holds(all [][]exit, v vec) bool {
	for _, d := range all {
		if !slices.ContainsFunc(d, func(e exit) bool { return e.n.dot(v) >= e.c }) {
			return false
		}
	}
	return true
}

// candidate is a place on the edge of the differences, in micrometres, with its squared length.
type candidate struct {
	at      pt
	length2 float64
	on      *exit // nil: a crossing of two edges
}

// shortestClear returns the shortest whole move that is clear of all.
func shortestClear(all [][]exit) vec {
	var best vec
	found, least := false, math.Inf(1)
	try := func(v vec) {
		if max(v.x, -v.x) > reach || max(v.y, -v.y) > reach {
			return
		}
		if l := float64(v.x)*float64(v.x) + float64(v.y)*float64(v.y); l < least && holds(all, v) {
			best, least, found = v, l, true
		}
	}
	for _, c := range candidates(all) {
		if found && math.Sqrt(c.length2)-2 > math.Sqrt(least) {
			break
		}
		for dx := int64(-window); dx <= window; dx++ {
			x := int64(math.Round(c.at.x)) + dx
			y := int64(math.Round(c.at.y)) + dx
			if c.on != nil {
				if c.on.n.y != 0 {
					try(vec{x, beyond(*c.on, x)})
				}
				if c.on.n.x != 0 {
					w := beyond(exit{vec{c.on.n.y, c.on.n.x}, c.on.c}, y)
					try(vec{w, y})
				}
				continue
			}
			for dy := int64(-window); dy <= window; dy++ {
				try(vec{x, int64(math.Round(c.at.y)) + dy})
			}
		}
	}
	if !found {
		panic("geom: no move clears")
	}
	return best
}

// window is how many micrometres around a place whole moves are looked for.
const window = 3

// reach bounds the moves looked at, so that their products fit 64 bits; no difference of two outlines goes beyond it.
const reach = 2e9

// beyond returns the y nearest the edge of e with n·(x, y) ≥ c.
func beyond(e exit, x int64) int64 {
	rest := e.c - e.n.x*x
	if e.n.y > 0 {
		return ceilDiv(rest, e.n.y)
	}
	return -ceilDiv(rest, -e.n.y)
}

// candidates returns the feet on all edges, and where several differences meet the crossings of their edges, shortest first.
func candidates(all [][]exit) []candidate {
	var out []candidate
	for i, d := range all {
		for k := range d {
			e := &d[k]
			nx, ny := float64(e.n.x), float64(e.n.y)
			f := float64(e.c) / (nx*nx + ny*ny)
			out = append(out, candidateAt(pt{nx * f, ny * f}, e))
			for _, other := range all[i+1:] {
				for _, g := range other {
					det := nx*float64(g.n.y) - ny*float64(g.n.x)
					if det == 0 {
						continue
					}
					x := (float64(e.c)*float64(g.n.y) - ny*float64(g.c)) / det
					y := (nx*float64(g.c) - float64(e.c)*float64(g.n.x)) / det
					if math.Abs(x) < reach && math.Abs(y) < reach {
						out = append(out, candidateAt(pt{x, y}, nil))
					}
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b candidate) int { return cmp.Compare(a.length2, b.length2) })
	return out
}

func candidateAt(p pt, on *exit) candidate { return candidate{p, p.dot(p), on} }
