package geom

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"berthwright/unit"
)

// wayGrid is the grid on which ways and standing room are looked for, in metres.
const wayGrid = 0.020

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
// heights from low to high. Width is that of the largest disc that can be pushed along. It is looked for on a grid of
// 20 mm, then measured exactly about the narrowest place; a passage narrower than 40 mm may be missed. A place outside
// the floor is a ShapeError; when either place is taken or nothing leads there, ErrShut. Both ends count: put them where there is
// room, and let the floor run out through the doorway.
//
// Method: distance of each free grid point from the nearest taken one (P. Felzenszwalb, D. Huttenlocher, Distance
// transforms of sampled functions, 2012, from memory), then points are joined from the freest down until both ends hang together.
func WidestWay(floor Outline, solids []Solid, low, high unit.Length, from, to Vec2) (Way, error) {
	for _, p := range [2]Vec2{from, to} {
		if !floor.Contains(p) {
			return Way{}, ShapeError{"way", -1, "starts or ends outside the floor"}
		}
	}
	g, err := newGrid(floor)
	if err != nil {
		return Way{}, err
	}
	edges := edgesOf(nil, floor)
	for i := range solids {
		if s := &solids[i]; s.Low < high && low < s.High && s.Outline.Distance(floor) == 0 {
			g.take(s.Outline)
			edges = edgesOf(edges, s.Outline)
		}
	}
	a, b := g.index(metres2(from)), g.index(metres2(to))
	d := g.distances()
	if d[a] == 0 || d[b] == 0 {
		return Way{}, ErrShut
	}
	limit, ok := g.bottleneck(d, a, b)
	if !ok {
		return Way{}, ErrShut
	}
	path := g.path(d, limit, a, b)
	var way Way
	narrow := path[0]
	for _, i := range path {
		way.Path = append(way.Path, nearest(g.centre(i)))
		if d[i] < d[narrow] {
			narrow = i
		}
	}
	at, width := widestNear(edges, g.centre(narrow))
	way.At, way.Width = nearest(at), down(width)
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

// widestNear pushes a point away from the nearest edge until another is as near, and returns that place and twice its distance.
func widestNear(edges [][2]pt, p pt) (pt, float64) {
	free := func(p pt) (float64, pt) {
		least, foot := math.Inf(1), p
		for _, e := range edges {
			d := e[1].minus(e[0])
			t := math.Max(0, math.Min(1, p.minus(e[0]).dot(d)/d.dot(d)))
			if f := e[0].plus(d.times(t)); f.minus(p).length() < least {
				least, foot = f.minus(p).length(), f
			}
		}
		return least, foot
	}
	r, foot := free(p)
	if r <= Tolerance {
		return p, 0
	}
	away := p.minus(foot).normed()
	// Along the straight line away from the foot the distance rises as long as that foot is the nearest.
	lo, hi := 0.0, 1.5*wayGrid
	for range 40 {
		mid := (lo + hi) / 2
		if d, _ := free(p.plus(away.times(mid))); d >= r+mid-Tolerance {
			lo = mid
		} else {
			hi = mid
		}
	}
	at := p.plus(away.times(lo))
	r, _ = free(at)
	return at, 2 * r
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
	var cuts []float64
	for i := range g.along {
		x := g.x0 + wayGrid*float64(i)
		cuts = cuts[:0]
		for j, p := range pts {
			q := pts[(j+1)%len(pts)]
			if (p.x > x) != (q.x > x) {
				cuts = append(cuts, lerp(p.y, q.y, (x-p.x)/(q.x-p.x)))
			}
		}
		slices.Sort(cuts)
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
	d := make([]int32, len(g.taken))
	for i := range g.along { // along y first: plain counting both ways
		row := d[i*g.across : (i+1)*g.across]
		run := int32(20000)
		for pass := range 2 {
			for k := range row {
				j := k
				if pass == 1 {
					j = len(row) - 1 - k
				}
				if run++; g.taken[i*g.across+j] {
					run = 0
				}
				if pass == 0 || run < row[j] {
					row[j] = run
				}
			}
		}
	}
	f, v, z := make([]int64, g.along), make([]int, g.along), make([]float64, g.along+1)
	for j := range g.across { // then the lower envelope of parabolas along x
		for i := range f {
			r := int64(d[i*g.across+j])
			f[i] = r * r
		}
		k := 0
		v[0], z[0], z[1] = 0, math.Inf(-1), math.Inf(1)
		for q := 1; q < g.along; q++ {
			for {
				p := v[k]
				s := float64(f[q]+int64(q)*int64(q)-f[p]-int64(p)*int64(p)) / float64(2*(q-p))
				if s > z[k] { // always for k = 0
					k++
					v[k], z[k], z[k+1] = q, s, math.Inf(1)
					break
				}
				k--
			}
		}
		k = 0
		for q := range g.along {
			for z[k+1] < float64(q) {
				k++
			}
			step := int64(q - v[k])
			d[q*g.across+j] = int32(min(step*step+f[v[k]], math.MaxInt32))
		}
	}
	return d
}

// neighbours calls yield for the eight points around i.
func (g *grid) neighbours(i int, yield func(j int)) {
	x, y := i/g.across, i%g.across
	for dx := -1; dx <= 1; dx++ {
		for dy := -1; dy <= 1; dy++ {
			if u, v := x+dx, y+dy; (dx != 0 || dy != 0) && u >= 0 && u < g.along && v >= 0 && v < g.across {
				yield(u*g.across + v)
			}
		}
	}
}

// bottleneck returns the greatest distance such that points at least that free join a and b: points are added from the freest
// down and joined to their neighbours until a and b hang together.
func (g *grid) bottleneck(d []int32, a, b int) (int32, bool) {
	order := make([]int32, 0, len(d))
	for i, r := range d {
		if r > 0 {
			order = append(order, int32(i))
		}
	}
	slices.SortFunc(order, func(i, j int32) int { return cmp.Or(cmp.Compare(d[j], d[i]), cmp.Compare(i, j)) })
	root := make([]int32, len(d))
	for i := range root {
		root[i] = -1
	}
	find := func(i int32) int32 {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	for _, i := range order {
		root[i] = i
		g.neighbours(int(i), func(j int) {
			if root[j] >= 0 {
				root[find(int32(j))] = find(i)
			}
		})
		if root[a] >= 0 && root[b] >= 0 && find(int32(a)) == find(int32(b)) {
			return d[i], true
		}
	}
	return 0, false
}

// path returns the shortest way in steps over points at least that free.
func (g *grid) path(d []int32, limit int32, a, b int) []int {
	before := make([]int32, len(d))
	for i := range before {
		before[i] = -1
	}
	before[b] = int32(b)
	queue := []int{b}
	for len(queue) > 0 && before[a] < 0 {
		i := queue[0]
		queue = queue[1:]
		g.neighbours(i, func(j int) {
			if before[j] < 0 && d[j] >= limit {
				before[j] = int32(i)
				queue = append(queue, j)
			}
		})
	}
	out := []int{a}
	for i := a; i != b; {
		i = int(before[i])
		out = append(out, i)
	}
	return out
}
