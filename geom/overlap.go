package geom

import (
	"berthwright/unit"
)

// Overlaps tells whether o and q share an area. It is exact; touching is not overlapping.
func (o Outline) Overlaps(q Outline) bool {
	if o.max.x <= q.min.x || q.max.x <= o.min.x || o.max.y <= q.min.y || q.max.y <= o.min.y {
		return false
	}
	for _, a := range o.pieces {
		for _, b := range q.pieces {
			if piecesOverlap(a, b) {
				return true
			}
		}
	}
	return false
}

// piecesOverlap looks for a separating edge of one of two convex pieces.
func piecesOverlap(a, b []vec) bool { return !separates(a, b) && !separates(b, a) }

// separates tells whether b lies wholly on the outer side of one edge of a.
func separates(a, b []vec) bool {
	n := len(a)
	p := a[n-1]
edges:
	for _, q := range a {
		ex, ey := q.x-p.x, q.y-p.y
		for _, r := range b {
			if ex*(r.y-p.y)-ey*(r.x-p.x) > 0 { // left of the edge: inside
				p = q
				continue edges
			}
		}
		return true
	}
	return false
}

// Distance returns the shortest distance between o and q, rounded down to the micrometre; 0 when they touch or overlap, or
// when one is the zero Outline.
func (o Outline) Distance(q Outline) unit.Length {
	if len(o.points) == 0 || len(q.points) == 0 || o.Overlaps(q) {
		return 0
	}
	least := int64(-1)
	n, m := len(o.points), len(q.points)
	for i := range n {
		a, b := o.points[i], o.points[(i+1)%n]
		for j := range m {
			c, d := q.points[j], q.points[(j+1)%m]
			for _, k := range [4]int64{toSegment(c, a, b), toSegment(d, a, b), toSegment(a, c, d), toSegment(b, c, d)} {
				if least < 0 || k < least {
					least = k
				}
			}
		}
	}
	return unit.Length(least)
}

// toSegment returns the distance of p from the segment ab, rounded down.
func toSegment(p, a, b vec) int64 {
	ab, ap := b.minus(a), p.minus(a)
	switch s := ab.dot(ap); {
	case s <= 0:
		return floorRoot(ap.length2())
	case s >= ab.length2():
		return floorRoot(p.minus(b).length2())
	}
	c := ab.cross(ap)
	return floorOver(max(c, -c), ab.length2())
}

// Clear returns the shortest move of o, in whole micrometres, after which it no longer overlaps q, and its length rounded up:
// how deep they overlap. A move shorter by a micrometre does not clear. False: they do not overlap.
//
// The shapes may pass through each other on the way. For convex outlines the move is along the normal of one edge; where
// one is not convex the move is the shortest found among the feet on all edges, and the crossings, of the outlines' difference.
func (o Outline) Clear(q Outline) (move Vec2, depth unit.Length, overlap bool) {
	if !o.Overlaps(q) {
		return Vec2{}, 0, false
	}
	v := shortestClear(differences(o.pieces, q.pieces))
	return point2(v), unit.Length(ceilRoot(v.length2())), true
}
