package geom

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"berthwright/unit"
)

// Face is one face of the van's inside. The zero Face is none.
type Face int

// The faces.
const (
	LeftWall Face = 1 + iota
	RightWall
	Roof
	Floor
)

// String returns the word for f.
func (f Face) String() string {
	if f < LeftWall || f > Floor {
		return "no face"
	}
	return [...]string{"left wall", "right wall", "roof", "floor"}[f-1]
}

// Corner is one corner of a measured cross-section: y right of the centre line, z above the bare floor.
type Corner struct{ Y, Z unit.Length }

// Station is a measured inner cross-section of the bare metal. Left and Right run from the floor up, z rising from corner to
// corner; between corners the wall is straight. They end where they meet, or at the top corners of a level roof; where one
// ends lower, the roof is taken at the lower end. An absent Right is the left wall mirrored.
type Station struct {
	X           unit.Length
	Left, Right []Corner
}

// Lining takes its thickness off one face from x to x, along the normal within each section. Thicknesses of linings that
// overlap on one face add up.
type Lining struct {
	Face     Face
	From, To unit.Length
	Thick    unit.Length
}

// Recess is a pod in a wall: within its window the inside reaches Deep beyond the bare wall, whatever the lining.
type Recess struct {
	Face      Face // LeftWall or RightWall
	From, To  unit.Length
	Low, High unit.Length
	Deep      unit.Length
}

// Raise is an open lifting roof: within its window in plan the ceiling is High higher.
type Raise struct {
	From, To    unit.Length
	Left, Right unit.Length // y
	High        unit.Length
}

// Shell is the van's inside, lofted between stations: between two of them each wall is interpolated linearly at equal
// height, and so is the roof's top. Above the top of the lower of two sections its wall is taken to go on plumb. A Shell is
// immutable; the zero Shell knows no station.
type Shell struct {
	bare     []span
	spans    []span
	linings  []Lining
	recesses []Recess
	raises   []Raise
}

// profile is one wall of a section from the floor up: z rising, w the distance outwards from the centre line.
type profile []pt // x: w, y: z

// at returns w at height z, plumb beyond either end.
func (p profile) at(z float64) float64 {
	if z <= p[0].y {
		return p[0].x
	}
	for i := 1; i < len(p); i++ {
		if z <= p[i].y {
			return lerp(p[i-1].x, p[i].x, (z-p[i-1].y)/(p[i].y-p[i-1].y))
		}
	}
	return p[len(p)-1].x
}

// roofStart returns the index of the corner above which the profile goes inwards more than up.
func (p profile) roofStart() int {
	i := len(p) - 1
	for i > 0 && p[i-1].x-p[i].x > p[i].y-p[i-1].y+Tolerance {
		i--
	}
	return i
}

// section is a cross-section: side 0 is the left wall, 1 the right one. A profile may go on above top.
type section struct {
	side     [2]profile
	low, top float64
}

func (s section) width(z float64) float64 { return s.side[0].at(z) + s.side[1].at(z) }

// span is the inside between two sections.
type span struct {
	x0, x1 float64
	a, b   section
	roof   [2]float64 // height above which a side counts as roof
	cells  [2][]cell
}

// cell is one bilinear patch of a wall: w at the front and the rear section, at its lower and upper edge.
type cell struct {
	z0, z1         float64
	a0, a1, b0, b1 float64
	least          float64 // of the four
}

// at returns w at share t from front to rear and height z within the cell.
func (c *cell) at(t, z float64) float64 {
	f := (z - c.z0) / (c.z1 - c.z0)
	return lerp(lerp(c.a0, c.b0, t), lerp(c.a1, c.b1, t), f)
}

func (s *span) share(x float64) float64 { return min(max((x-s.x0)/(s.x1-s.x0), 0), 1) }
func (s *span) top(x float64) float64   { return lerp(s.a.top, s.b.top, s.share(x)) }
func (s *span) low(x float64) float64   { return lerp(s.a.low, s.b.low, s.share(x)) }

// NewShell lofts a shell through stations, given in any order. It refuses fewer than two, two at one x, a wall with fewer
// than two corners or one that does not rise, and walls that cross.
func NewShell(stations []Station) (Shell, error) {
	if len(stations) < 2 {
		return Shell{}, ShapeError{"shell", -1, fmt.Sprintf("has \"%d\" stations, needs 2", len(stations))}
	}
	sorted := slices.Clone(stations)
	slices.SortStableFunc(sorted, func(a, b Station) int { return cmp.Compare(a.X, b.X) })
	sections := make([]section, len(sorted))
	for i, st := range sorted {
		if st.X < -MaxCoordinate || st.X > MaxCoordinate {
			return Shell{}, RangeError{"station", st.X, -MaxCoordinate, MaxCoordinate}
		}
		if i > 0 && st.X == sorted[i-1].X {
			return Shell{}, ShapeError{"shell", -1, fmt.Sprintf("has two stations at \"%g mm\"", st.X.Millimetres())}
		}
		var err error
		if sections[i], err = newSection(st); err != nil {
			return Shell{}, err
		}
	}
	var s Shell
	for i := range len(sorted) - 1 {
		s.bare = append(s.bare, span{x0: sorted[i].X.Metres(), x1: sorted[i+1].X.Metres(), a: sections[i], b: sections[i+1]})
	}
	return s.built()
}

func newSection(st Station) (section, error) {
	var s section
	var err error
	at := fmt.Sprintf(" at station \"%g mm\"", st.X.Millimetres())
	if s.side[0], err = newProfile("left wall"+at, st.Left, -1); err != nil {
		return s, err
	}
	s.side[1] = s.side[0]
	if len(st.Right) > 0 {
		if s.side[1], err = newProfile("right wall"+at, st.Right, 1); err != nil {
			return s, err
		}
	}
	l, r := s.side[0], s.side[1]
	s.low, s.top = max(l[0].y, r[0].y), min(l[len(l)-1].y, r[len(r)-1].y)
	if s.top-s.low <= Tolerance {
		return s, ShapeError{"section" + at, -1, "has no height in common left and right"}
	}
	for _, z := range heights(s.low, s.top, l, r) {
		if w := s.width(z); w < -Tolerance || w < Tolerance && z < s.top-Tolerance {
			return s, ShapeError{"section" + at, -1, fmt.Sprintf("has its left wall right of the right one at height \"%g mm\"", z*1e3)}
		}
	}
	return s, nil
}

func newProfile(name string, corners []Corner, sign float64) (profile, error) {
	if len(corners) < 2 {
		return nil, ShapeError{name, -1, fmt.Sprintf("has \"%d\" corners, needs 2", len(corners))}
	}
	p := make(profile, len(corners))
	for i, c := range corners {
		if max(c.Y, -c.Y) > MaxCoordinate || max(c.Z, -c.Z) > MaxCoordinate {
			return nil, ShapeError{name, i, "is out of range"}
		}
		if i > 0 && c.Z <= corners[i-1].Z {
			return nil, ShapeError{name, i, fmt.Sprintf("is at height \"%g mm\", not above the one before", c.Z.Millimetres())}
		}
		p[i] = pt{sign * c.Y.Metres(), c.Z.Metres()}
	}
	return p, nil
}

// heights returns the corner heights of the profiles from low to high, ends included, rising.
func heights(low, high float64, profiles ...profile) []float64 {
	zs := []float64{low, high}
	for _, p := range profiles {
		for _, c := range p {
			if c.y > low && c.y < high {
				zs = append(zs, c.y)
			}
		}
	}
	slices.Sort(zs)
	return slices.Compact(zs)
}

// blend returns the section a share t of the way from a to b.
func blend(a, b section, t float64) section {
	s := section{low: lerp(a.low, b.low, t), top: lerp(a.top, b.top, t)}
	for k := range s.side {
		p, q := a.side[k], b.side[k]
		for _, z := range heights(min(p[0].y, q[0].y), max(p[len(p)-1].y, q[len(q)-1].y), p, q) {
			s.side[k] = append(s.side[k], pt{lerp(p.at(z), q.at(z), t), z})
		}
	}
	return s
}

// Lined returns s with linings taken off.
func (s Shell) Lined(linings []Lining) (Shell, error) {
	for _, l := range linings {
		if l.Face < LeftWall || l.Face > Floor {
			return s, ShapeError{"lining", -1, "is on no face"}
		}
		if l.Thick < 0 || l.Thick > unit.Metre {
			return s, RangeError{"thickness of a lining", l.Thick, 0, unit.Metre}
		}
		if l.To < l.From {
			return s, RangeError{"rear end of a lining", l.To, l.From, MaxCoordinate}
		}
	}
	s.linings = slices.Concat(s.linings, linings)
	return s.built()
}

// Recessed returns s with pods in its walls.
func (s Shell) Recessed(recesses []Recess) (Shell, error) {
	for _, r := range recesses {
		if r.Face != LeftWall && r.Face != RightWall {
			return s, ShapeError{"recess", -1, "is in no wall"}
		}
		if r.Deep < 0 || r.Deep > unit.Metre {
			return s, RangeError{"depth of a recess", r.Deep, 0, unit.Metre}
		}
		if r.To <= r.From || r.High <= r.Low {
			return s, ShapeError{"recess", -1, "has no window"}
		}
	}
	s.recesses = slices.Concat(s.recesses, recesses)
	return s.built()
}

// Raised returns s with lifting roofs open.
func (s Shell) Raised(raises []Raise) (Shell, error) {
	for _, r := range raises {
		if r.High < 0 || r.High > 10*unit.Metre {
			return s, RangeError{"height of a lifting roof", r.High, 0, 10 * unit.Metre}
		}
		if r.To <= r.From || r.Right <= r.Left {
			return s, ShapeError{"lifting roof", -1, "has no window"}
		}
	}
	s.raises = slices.Concat(s.raises, raises)
	return s.built()
}

// built works out the spans: the bare ones cut at the ends of linings and recesses, lined, with their patches.
func (s Shell) built() (Shell, error) {
	var cuts []float64
	for _, l := range s.linings {
		cuts = append(cuts, l.From.Metres(), l.To.Metres())
	}
	for _, r := range s.recesses {
		cuts = append(cuts, r.From.Metres(), r.To.Metres())
	}
	slices.Sort(cuts)
	s.spans = nil
	for _, b := range s.bare {
		from, front := b.x0, b.a
		for _, x := range append(slices.Clone(cuts), b.x1) {
			if x <= from+Tolerance || x > b.x1 {
				continue
			}
			rear := b.b
			if x < b.x1 {
				rear = blend(b.a, b.b, b.share(x))
			}
			part := span{x0: from, x1: x, a: front, b: rear}
			lined, err := s.lined(part)
			if err != nil {
				return s, err
			}
			lined.finish(part, s.recesses)
			s.spans = append(s.spans, lined)
			from, front = x, rear
		}
	}
	return s, nil
}

// finish works out where the roof begins and the patches; bare is the same span without lining.
func (s *span) finish(bare span, recesses []Recess) {
	lowest, highest := min(s.a.low, s.b.low), max(s.a.top, s.b.top)
	mid := (s.x0 + s.x1) / 2
	for k := range s.cells {
		p, q := s.a.side[k], s.b.side[k]
		s.roof[k] = min(max(p[p.roofStart()].y, q[q.roofStart()].y), s.a.top, s.b.top)
		var pods []Recess
		zs := heights(lowest, highest, p, q, profile{{0, s.roof[k]}, {0, s.a.top}, {0, s.b.top}, {0, s.a.low}, {0, s.b.low}})
		for _, r := range recesses {
			if r.Face != LeftWall+Face(k) || r.From.Metres() > mid || r.To.Metres() < mid {
				continue
			}
			pods = append(pods, r)
			window := profile{{0, r.Low.Metres()}, {0, r.High.Metres()}}
			zs = append(zs, heights(lowest, highest, window, bare.a.side[k], bare.b.side[k])...)
		}
		slices.Sort(zs)
		s.cells[k] = nil
		for i := 1; i < len(zs); i++ {
			if zs[i]-zs[i-1] < Tolerance*1e-3 {
				zs[i] = zs[i-1]
				continue
			}
			c := cell{z0: zs[i-1], z1: zs[i]}
			deep, in := 0.0, false
			for _, r := range pods {
				if m := (c.z0 + c.z1) / 2; m > r.Low.Metres() && m < r.High.Metres() {
					deep, in = math.Max(deep, r.Deep.Metres()), true
				}
			}
			f, g := p, q
			if in {
				f, g = bare.a.side[k], bare.b.side[k]
			}
			c.a0, c.a1, c.b0, c.b1 = f.at(c.z0)+deep, f.at(c.z1)+deep, g.at(c.z0)+deep, g.at(c.z1)+deep
			c.least = min(c.a0, c.a1, c.b0, c.b1)
			s.cells[k] = append(s.cells[k], c)
		}
	}
}
