package geom

import "slices"

// decompose cuts a simple counter-clockwise polygon into convex pieces: ears are cut off, then neighbours joined again
// while the joint stays convex (S. Hertel, K. Mehlhorn, Fast triangulation of simple polygons, 1983, from memory).
func decompose(points []vec) [][]vec {
	pieces := ears(points)
	for merged := true; merged; {
		merged = false
	search:
		for i := range pieces {
			for j := i + 1; j < len(pieces); j++ {
				if joint, ok := joined(pieces[i], pieces[j]); ok {
					pieces[i] = joint
					pieces = slices.Delete(pieces, j, j+1)
					merged = true
					break search
				}
			}
		}
	}
	return pieces
}

// ears cuts the polygon into triangles.
func ears(points []vec) [][]vec {
	rest := slices.Clone(points)
	var cut [][]vec
	for len(rest) > 3 {
		i := findEar(rest)
		n := len(rest)
		a, b, c := rest[(i+n-1)%n], rest[i], rest[(i+1)%n]
		if turnOf(a, b, c) > 0 { // a flat corner that cutting has left is dropped
			cut = append(cut, []vec{a, b, c})
		}
		rest = slices.Delete(rest, i, i+1)
	}
	if len(rest) == 3 && turnOf(rest[0], rest[1], rest[2]) > 0 {
		cut = append(cut, rest)
	}
	return cut
}

// findEar returns a corner whose triangle holds no other corner. Every simple polygon has one (G. Meisters, 1975).
func findEar(p []vec) int {
	n := len(p)
	for i := range n {
		a, b, c := p[(i+n-1)%n], p[i], p[(i+1)%n]
		t := turnOf(a, b, c)
		if t == 0 && onSegment(a, c, b) {
			return i
		}
		if t > 0 && emptyEar(p, a, b, c) {
			return i
		}
	}
	panic("geom: no ear in a simple polygon")
}

func emptyEar(p []vec, a, b, c vec) bool {
	for _, q := range p {
		if q == a || q == b || q == c {
			continue
		}
		if turnOf(a, b, q) >= 0 && turnOf(b, c, q) >= 0 && turnOf(c, a, q) >= 0 {
			return false
		}
	}
	return true
}

// joined joins two convex pieces along a common edge if the result is convex.
func joined(p, q []vec) ([]vec, bool) {
	n, m := len(p), len(q)
	for i := range n {
		a, b := p[i], p[(i+1)%n]
		for j := range m {
			if q[j] != b || q[(j+1)%m] != a {
				continue
			}
			var all []vec
			for k := range n { // from b round to a
				all = append(all, p[(i+1+k)%n])
			}
			for k := 2; k < m; k++ { // from behind a round to before b
				all = append(all, q[(j+k)%m])
			}
			if all = straightened(all); convex(all) {
				return all, true
			}
		}
	}
	return nil, false
}
