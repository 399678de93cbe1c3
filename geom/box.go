package geom

import "berthwright/unit"

// MaxCoordinate bounds every coordinate of an outline or a solid, so that products of two differences fit 64 bits.
const MaxCoordinate = 500 * unit.Metre

// Vec2 is a point or a move in plan.
type Vec2 struct{ X, Y unit.Length }

// Plus returns v moved by w.
func (v Vec2) Plus(w Vec2) Vec2 { return Vec2{v.X + w.X, v.Y + w.Y} }

// Minus returns the move from w to v.
func (v Vec2) Minus(w Vec2) Vec2 { return Vec2{v.X - w.X, v.Y - w.Y} }

// Vec3 is a point or a move.
type Vec3 struct{ X, Y, Z unit.Length }

// Plus returns v moved by w.
func (v Vec3) Plus(w Vec3) Vec3 { return Vec3{v.X + w.X, v.Y + w.Y, v.Z + w.Z} }

// Minus returns the move from w to v.
func (v Vec3) Minus(w Vec3) Vec3 { return Vec3{v.X - w.X, v.Y - w.Y, v.Z - w.Z} }

// Flat returns v in plan.
func (v Vec3) Flat() Vec2 { return Vec2{v.X, v.Y} }

// Box3 is a box along the axes. A box without extent along an axis overlaps nothing.
type Box3 struct{ Min, Max Vec3 }

// Size returns the extents of b.
func (b Box3) Size() Vec3 { return b.Max.Minus(b.Min) }

// Move returns b moved by v.
func (b Box3) Move(v Vec3) Box3 { return Box3{b.Min.Plus(v), b.Max.Plus(v)} }

// Overlaps tells whether b and c share a volume; touching is not overlapping.
func (b Box3) Overlaps(c Box3) bool {
	return max(b.Min.X, c.Min.X) < min(b.Max.X, c.Max.X) &&
		max(b.Min.Y, c.Min.Y) < min(b.Max.Y, c.Max.Y) &&
		max(b.Min.Z, c.Min.Z) < min(b.Max.Z, c.Max.Z)
}

// Contains tells whether c lies in b; faces may touch.
func (b Box3) Contains(c Box3) bool {
	return b.Min.X <= c.Min.X && c.Max.X <= b.Max.X &&
		b.Min.Y <= c.Min.Y && c.Max.Y <= b.Max.Y &&
		b.Min.Z <= c.Min.Z && c.Max.Z <= b.Max.Z
}

// Union returns the smallest box around b and c.
func (b Box3) Union(c Box3) Box3 {
	return Box3{
		Vec3{min(b.Min.X, c.Min.X), min(b.Min.Y, c.Min.Y), min(b.Min.Z, c.Min.Z)},
		Vec3{max(b.Max.X, c.Max.X), max(b.Max.Y, c.Max.Y), max(b.Max.Z, c.Max.Z)},
	}
}

// Gap returns the free length between b and c along each axis; below 0 it is how far they overlap along it.
// The boxes overlap if and only if all three are below 0.
func (b Box3) Gap(c Box3) Vec3 {
	return Vec3{
		max(b.Min.X, c.Min.X) - min(b.Max.X, c.Max.X),
		max(b.Min.Y, c.Min.Y) - min(b.Max.Y, c.Max.Y),
		max(b.Min.Z, c.Min.Z) - min(b.Max.Z, c.Max.Z),
	}
}
