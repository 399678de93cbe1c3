package geom

import "berthwright/unit"

// Solid is an outline between two heights: a box, a wheel box, a piece of furniture.
type Solid struct {
	Outline   Outline
	Low, High unit.Length // z above the bare load floor
}

// NewSolid makes a solid. It refuses one without height or without an outline.
func NewSolid(o Outline, low, high unit.Length) (Solid, error) {
	if len(o.points) == 0 {
		return Solid{}, ShapeError{"solid", -1, "has no outline"}
	}
	if low < -MaxCoordinate || high > MaxCoordinate || high <= low {
		return Solid{}, RangeError{"height of a solid", high - low, unit.Micrometre, MaxCoordinate}
	}
	return Solid{o, low, high}, nil
}

// BoxSolid makes the solid of a box along the axes.
func BoxSolid(b Box3) (Solid, error) {
	o, err := Rectangle(b.Min.Flat(), b.Max.Flat())
	if err != nil {
		return Solid{}, err
	}
	return NewSolid(o, b.Min.Z, b.Max.Z)
}

// Bounds returns the smallest box along the axes around s.
func (s Solid) Bounds() Box3 {
	least, most := s.Outline.Bounds()
	return Box3{Vec3{least.X, least.Y, s.Low}, Vec3{most.X, most.Y, s.High}}
}

// Move returns s moved by v.
func (s Solid) Move(v Vec3) Solid {
	return Solid{s.Outline.Move(v.Flat()), s.Low + v.Z, s.High + v.Z}
}

// Overlaps tells whether s and t share a volume. It is exact; touching is not overlapping.
func (s Solid) Overlaps(t Solid) bool {
	return s.Low < t.High && t.Low < s.High && s.Outline.Overlaps(t.Outline)
}

// Clash is how two solids overlap.
type Clash struct {
	Depth unit.Length // length of Move, rounded up
	Move  Vec3        // the shortest move of the first that clears; up, down or level
	Plan  Vec2        // the shortest level move
	Up    unit.Length // how far up the first has to go to stand on the second
	Down  unit.Length // how far down it has to go to lie under it
	At    Box3        // a box around where they overlap
}

// Clash tells whether s and t overlap, how deep, and what move of s clears it. As both are upright, the shortest move is
// level or plumb, never slanting; between equals the level one is taken, then up.
func (s Solid) Clash(t Solid) (Clash, bool) {
	if s.Low >= t.High || t.Low >= s.High {
		return Clash{}, false
	}
	plan, depth, overlap := s.Outline.Clear(t.Outline)
	if !overlap {
		return Clash{}, false
	}
	c := Clash{Depth: depth, Move: Vec3{plan.X, plan.Y, 0}, Plan: plan, Up: t.High - s.Low, Down: s.High - t.Low}
	if c.Up < c.Depth {
		c.Depth, c.Move = c.Up, Vec3{Z: c.Up}
	}
	if c.Down < c.Depth {
		c.Depth, c.Move = c.Down, Vec3{Z: -c.Down}
	}
	a, b := s.Bounds(), t.Bounds()
	c.At = Box3{
		Vec3{max(a.Min.X, b.Min.X), max(a.Min.Y, b.Min.Y), max(a.Min.Z, b.Min.Z)},
		Vec3{min(a.Max.X, b.Max.X), min(a.Max.Y, b.Max.Y), min(a.Max.Z, b.Max.Z)},
	}
	return c, true
}

// Distance returns the shortest distance between s and t, rounded down (by less than 2 µm); 0 when they touch or overlap.
func (s Solid) Distance(t Solid) unit.Length {
	level, plumb := s.Outline.Distance(t.Outline), max(s.Low-t.High, t.Low-s.High, 0)
	switch {
	case plumb == 0:
		return level
	case level == 0:
		return plumb
	}
	a, b := level.Micrometres(), plumb.Micrometres()
	return unit.Length(floorRoot(a*a + b*b))
}

// Pairs returns the pairs of indices i < j whose solids overlap, in order.
func Pairs(solids []Solid) [][2]int {
	var out [][2]int
	for i := range solids {
		s := &solids[i]
		for j := i + 1; j < len(solids); j++ {
			t := &solids[j]
			if s.Low >= t.High || t.Low >= s.High ||
				s.Outline.max.x <= t.Outline.min.x || t.Outline.max.x <= s.Outline.min.x ||
				s.Outline.max.y <= t.Outline.min.y || t.Outline.max.y <= s.Outline.min.y {
				continue
			}
			if s.Outline.Overlaps(t.Outline) {
				out = append(out, [2]int{i, j})
			}
		}
	}
	return out
}
