package geom

import (
	"errors"
	"math"
	"slices"

	"berthwright/unit"
)

// wayGrid is the grid on which ways and standing room are looked for, in metres.
const wayGrid = 0.030

// WayError is by how much, either way, the width of a Way may be wrong.
const WayError = 20 * unit.Millimetre

// ErrShut reports that no way leads from one place to the other.
var ErrShut = errors.New("no way leads there")

// Way is the widest way from one place to another.
type Way struct {
	Width unit.Length // free width where it is narrowest, ± WayError
	At    Vec2        // the middle of the narrowest place
	Path  []Vec2      // the way itself, for drawing
}

// WidestWay returns the widest way over a floor from one place to another, between the solids that reach into the band of
// heights from low to high: NewWalk, then Widest.
func WidestWay(floor Outline, solids []Solid, low, high unit.Length, from, to Vec2) (Way, error) {
	w, err := NewWalk(floor, solids, low, high)
	if err != nil {
		return Way{}, err
	}
	return w.Widest(from, to)
}

// Walk is a floor with what stands on it, on which ways are looked for.
type Walk struct {
	floor Outline
	grid  *grid
	edges [][2]pt
	free  []int32 // squared distance of each point from the nearest taken one
}

// NewWalk takes the solids that reach into the band of heights from low to high off a floor. Let the floor run out through the
// doorways, so that they are measured too.
//
// Method: distance of each free grid point from the nearest taken one, exactly, row by row and then along each column outwards
// until nothing nearer is possible.
func NewWalk(floor Outline, solids []Solid, low, high unit.Length) (*Walk, error) {
	g, err := newGrid(floor)
	if err != nil {
		return nil, err
	}
	w := &Walk{floor: floor, grid: g, edges: edgesOf(nil, floor)}
	for i := range solids {
		s := &solids[i]
		if s.Low >= high || low >= s.High || s.Outline.max.x < floor.min.x || floor.max.x < s.Outline.min.x || s.Outline.max.y < floor.min.y || floor.max.y < s.Outline.min.y {
			continue
		}
		g.take(s.Outline)
		w.edges = edgesOf(w.edges, s.Outline)
	}
	w.free = g.distances()
	return w, nil
}

// Widest returns the widest way from one place to another. Its width is that of the largest disc that can be pushed along. It is
// looked for on a grid of 30 mm, then measured exactly about its narrow places; a passage narrower than 60 mm may be missed.
// A place outside the floor is a ShapeError; when either place is taken or nothing leads there, ErrShut. Both ends count: put
// them where there is room.
//
// Method: points are reached from the first place on, the freest first, until the other is reached (a widest-path search).
func (w *Walk) Widest(from, to Vec2) (Way, error) {
	for _, p := range [2]Vec2{from, to} {
		if !w.floor.Contains(p) {
			return Way{}, ShapeError{"way", -1, "starts or ends outside the floor"}
		}
	}
	a, b := w.grid.index(metres2(from)), w.grid.index(metres2(to))
	limit, ok := w.grid.bottleneck(w.free, a, b)
	if !ok {
		return Way{}, ErrShut
	}
	path := w.grid.path(w.free, limit, a, b)
	way := Way{Path: make([]Vec2, 0, len(path))}
	width, near := math.Inf(1), math.Sqrt(float64(limit))+2
	for _, i := range path {
		p := w.grid.centre(i)
		way.Path = append(way.Path, nearest(p))
		if float64(w.free[i]) > near*near { // freer by more than the grid can err
			continue
		}
		if at, wide := widestNear(w.edges, p, width); wide < width {
			way.At, width = nearest(at), wide
		}
	}
	for _, p := range [2]Vec2{from, to} { // the ends stay where they are
		if r, _ := freeAt(w.edges, metres2(p)); 2*r < width {
			way.At, width = p, 2*r
		}
	}
	way.Width = down(width)
	return way, nil
}

func nearest(p pt) Vec2 { return Vec2{unit.MetresLength(p.x), unit.MetresLength(p.y)} }

func edgesOf(edges [][2]pt, o Outline) [][2]pt {
	pts := metresOf(o.points)
	for i, p := range pts {
		edges = append(edges, [2]pt{p, pts[(i+1)%len(pts)]})
	}
	return edges
}

// freeAt returns the distance of a point from the nearest edge, and the nearest point on it.
func freeAt(edges [][2]pt, p pt) (float64, pt) {
	least, foot := math.Inf(1), p
	for _, e := range edges {
		d, v := e[1].minus(e[0]), p.minus(e[0])
		t := math.Max(0, math.Min(1, v.dot(d)/d.dot(d)))
		w := v.minus(d.times(t))
		if l := w.dot(w); l < least {
			least, foot = l, p.minus(w)
		}
	}
	return math.Sqrt(least), foot
}

// widestNear pushes a point away from the nearest edge until another is as near, and returns that place and twice its distance.
// What is not below most is not looked at closely.
func widestNear(edges [][2]pt, p pt, most float64) (pt, float64) {
	r, foot := freeAt(edges, p)
	if r <= Tolerance || 2*r >= most {
		return p, 2 * r
	}
	near := make([][2]pt, 0, 16) // nothing else can come to be the nearest
	for _, e := range edges {
		if d, _ := freeAt([][2]pt{e}, p); d <= r+3.1*wayGrid {
			near = append(near, e)
		}
	}
	away := p.minus(foot).normed()
	// Along the straight line away from the foot the distance rises as long as that foot is the nearest.
	lo, hi := 0.0, 1.5*wayGrid
	for range 15 { // to a micrometre
		mid := (lo + hi) / 2
		if d, _ := freeAt(near, p.plus(away.times(mid))); d >= r+mid-Tolerance {
			lo = mid
		} else {
			hi = mid
		}
	}
	r, _ = freeAt(near, p.plus(away.times(lo)))
	return p.plus(away.times(lo)), 2 * r
}

// grid is a raster of the floor; a point is taken where its middle lies outside the floor or in a solid.
type grid struct {
	x0, y0        float64
	across, along int // points along y and x
	taken         []bool
}

func newGrid(floor Outline) (*grid, error) {
	least, most := floor.Bounds()
	g := &grid{x0: least.X.Metres() - wayGrid, y0: least.Y.Metres() - wayGrid}
	g.along = int((most.X-least.X).Metres()/wayGrid) + 4
	g.across = int((most.Y-least.Y).Metres()/wayGrid) + 4
	if g.along > 2000 || g.across > 1000 {
		return nil, RangeError{"floor", max(most.X-least.X, most.Y-least.Y), 0, 20 * unit.Metre}
	}
	g.taken = make([]bool, g.along*g.across)
	for i := range g.taken {
		g.taken[i] = true
	}
	g.fill(floor, false)
	return g, nil
}

func (g *grid) take(o Outline) { g.fill(o, true) }

// fill sets the points whose middle lies in an outline, row by row.
func (g *grid) fill(o Outline, taken bool) {
	pts := metresOf(o.points)
	first := max(0, int(math.Ceil((float64(o.min.x)*1e-6-g.x0)/wayGrid)))
	last := min(g.along-1, int(math.Floor((float64(o.max.x)*1e-6-g.x0)/wayGrid)))
	var cuts []float64
	for i := first; i <= last; i++ {
		x := g.x0 + wayGrid*float64(i)
		cuts = cuts[:0]
		for j, p := range pts {
			q := pts[0]
			if j+1 < len(pts) {
				q = pts[j+1]
			}
			if (p.x > x) != (q.x > x) {
				cuts = append(cuts, lerp(p.y, q.y, (x-p.x)/(q.x-p.x)))
			}
		}
		if len(cuts) > 2 {
			slices.Sort(cuts)
		} else if len(cuts) == 2 && cuts[0] > cuts[1] {
			cuts[0], cuts[1] = cuts[1], cuts[0]
		}
		for k := 0; k+1 < len(cuts); k += 2 {
			from := max(0, int(math.Ceil((cuts[k]-g.y0)/wayGrid)))
			to := min(g.across-1, int(math.Floor((cuts[k+1]-g.y0)/wayGrid)))
			for j := from; j <= to; j++ {
				g.taken[i*g.across+j] = taken
			}
		}
	}
}

func (g *grid) index(p pt) int {
	return int(math.Round((p.x-g.x0)/wayGrid))*g.across + int(math.Round((p.y-g.y0)/wayGrid))
}

func (g *grid) centre(i int) pt {
	return pt{g.x0 + wayGrid*float64(i/g.across), g.y0 + wayGrid*float64(i%g.across)}
}

// distances returns for each point the square of its distance from the nearest taken point, in steps of the grid.
func (g *grid) distances() []int32 {
	f := make([]int32, len(g.taken)) // along y first: plain counting both ways
	for i := range g.along {
		row, taken := f[i*g.across:(i+1)*g.across], g.taken[i*g.across:(i+1)*g.across]
		run := int32(20000)
		for k := range row {
			if run++; taken[k] {
				run = 0
			}
			row[k] = run
		}
		run = 20000
		for k := len(row) - 1; k >= 0; k-- {
			if run++; row[k] == 0 {
				run = 0
			}
			row[k] = min(row[k], run)
		}
	}
	d := make([]int32, len(f))
	for i := range g.along { // then outwards along x
		for k := range g.across {
			at := i*g.across + k
			best := f[at] * f[at]
			for s := int32(1); s*s < best; s++ {
				if u := i - int(s); u >= 0 {
					v := f[at-int(s)*g.across]
					best = min(best, v*v+s*s)
				}
				if u := i + int(s); u < g.along {
					v := f[at+int(s)*g.across]
					best = min(best, v*v+s*s)
				}
			}
			d[at] = best
		}
	}
	return d
}

// around returns the steps to the eight points around one. A point on the rim of the grid is never free, so no step leaves it.
func (g *grid) around() [8]int {
	return [8]int{-g.across - 1, -g.across, -g.across + 1, -1, 1, g.across - 1, g.across, g.across + 1}
}

// bottleneck returns the greatest distance such that points at least that free join a and b: points are reached from a on, the
// freest first, until b is.
func (g *grid) bottleneck(d []int32, a, b int) (int32, bool) {
	if d[a] == 0 || d[b] == 0 {
		return 0, false
	}
	seen := make([]bool, len(d))
	limit := d[a]
	seen[a] = true
	reached := freest{{d[a], int32(a)}}
	steps := g.around()
	for len(reached) > 0 {
		at := reached.pop()
		limit = min(limit, at.free)
		if int(at.point) == b {
			return limit, true
		}
		for _, s := range steps {
			j := int(at.point) + s
			if !seen[j] && d[j] > 0 {
				seen[j] = true
				reached.push(reachedPoint{d[j], int32(j)})
			}
		}
	}
	return 0, false
}

// reachedPoint is a point with its squared distance from what is taken.
type reachedPoint struct{ free, point int32 }

// freest is a heap of points, the freest first.
type freest []reachedPoint

func (h *freest) push(p reachedPoint) {
	*h = append(*h, p)
	q := *h
	for i := len(q) - 1; i > 0; {
		up := (i - 1) / 2
		if q[up].free >= q[i].free {
			return
		}
		q[up], q[i] = q[i], q[up]
		i = up
	}
}

func (h *freest) pop() reachedPoint {
	q := *h
	first, last := q[0], q[len(q)-1]
	q = q[:len(q)-1]
	for i := 0; len(q) > 0; {
		q[i] = last
		k := 2*i + 1
		if k+1 < len(q) && q[k+1].free > q[k].free {
			k++
		}
		if k >= len(q) || q[k].free <= last.free {
			break
		}
		q[i] = q[k]
		i = k
	}
	*h = q
	return first
}

// path returns the shortest way in steps over points at least that free.
func (g *grid) path(d []int32, limit int32, a, b int) []int {
	before := make([]int32, len(d))
	before[b] = int32(b) + 1
	queue := make([]int32, 1, 1024)
	queue[0] = int32(b)
	steps := g.around()
	for k := 0; k < len(queue) && before[a] == 0; k++ {
		i := int(queue[k])
		for _, s := range steps {
			if j := i + s; before[j] == 0 && d[j] >= limit {
				before[j] = int32(i) + 1
				queue = append(queue, int32(j))
			}
		}
	}
	out := []int{a}
	for i := a; i != b; {
		i = int(before[i]) - 1
		out = append(out, i)
	}
	return out
}
