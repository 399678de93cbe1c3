package geom

import (
	"fmt"
	"math"

	"berthwright/unit"
)

// maxCorners bounds an outline.
const maxCorners = 512

// Outline is a simple polygon in plan, corners counter-clockwise seen from above, in whole micrometres.
// The zero Outline has no corners: it overlaps and contains nothing.
type Outline struct {
	points   []vec
	pieces   [][]vec // convex; one piece, the points themselves, when the outline is convex
	min, max vec
}

// NewOutline makes an outline of corners in either sense. Corners in the middle of a straight edge are dropped. It refuses
// fewer than 3 or more than 512 corners, a corner beyond MaxCoordinate, and an outline that touches or crosses itself.
func NewOutline(corners []Vec2) (Outline, error) {
	if len(corners) > maxCorners {
		return Outline{}, ShapeError{"outline", -1, fmt.Sprintf("has \"%d\" corners, at most %d", len(corners), maxCorners)}
	}
	points := make([]vec, len(corners))
	for i, c := range corners {
		for _, v := range [2]unit.Length{c.X, c.Y} {
			if v < -MaxCoordinate || v > MaxCoordinate {
				return Outline{}, RangeError{"corner of an outline", v, -MaxCoordinate, MaxCoordinate}
			}
		}
		points[i] = raw(c)
		if i > 0 && points[i] == points[i-1] || i == len(corners)-1 && i > 0 && points[i] == points[0] {
			return Outline{}, ShapeError{"outline", i, "has the same corner twice"}
		}
	}
	points = straightened(points)
	if len(points) < 3 {
		return Outline{}, ShapeError{"outline", -1, fmt.Sprintf("has \"%d\" corners that are not on one line, needs 3", len(points))}
	}
	if i, ok := selfTouch(points); ok {
		return Outline{}, ShapeError{"outline", i, "touches or crosses itself"}
	}
	if area2(points) < 0 {
		for i, j := 0, len(points)-1; i < j; i, j = i+1, j-1 {
			points[i], points[j] = points[j], points[i]
		}
	}
	return outlineOf(points), nil
}

// Rectangle makes the outline of a rectangle along the axes. It refuses one without area.
func Rectangle(from, to Vec2) (Outline, error) {
	return NewOutline([]Vec2{from, {to.X, from.Y}, to, {from.X, to.Y}})
}

// outlineOf finishes an outline known to be simple, counter-clockwise and straightened.
func outlineOf(points []vec) Outline {
	o := Outline{points: points, min: points[0], max: points[0]}
	for _, p := range points {
		o.min = vec{min(o.min.x, p.x), min(o.min.y, p.y)}
		o.max = vec{max(o.max.x, p.x), max(o.max.y, p.y)}
	}
	if convex(points) {
		o.pieces = [][]vec{points}
	} else {
		o.pieces = decompose(points)
	}
	return o
}

// straightened drops corners in the middle of a straight edge; corners where the edge turns straight back stay.
func straightened(points []vec) []vec {
	n := len(points)
	var kept []vec
	for i, p := range points {
		before, after := points[(i+n-1)%n], points[(i+1)%n]
		if turnOf(before, p, after) == 0 && p.minus(before).dot(after.minus(p)) > 0 {
			continue
		}
		kept = append(kept, p)
	}
	return kept
}

// selfTouch looks for edges that meet without being neighbours, or neighbours that fold back.
func selfTouch(points []vec) (int, bool) {
	n := len(points)
	for i := range n {
		a, b, c := points[i], points[(i+1)%n], points[(i+2)%n]
		if turnOf(a, b, c) == 0 {
			return (i + 1) % n, true
		}
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if segmentsMeet(a, b, points[j], points[(j+1)%n]) {
				return i, true
			}
		}
	}
	return 0, false
}

// area2 is twice the signed area; partial sums may wrap, the result does not.
func area2(points []vec) int64 {
	var sum int64
	for i := 1; i+1 < len(points); i++ {
		sum += turnOf(points[0], points[i], points[i+1])
	}
	return sum
}

func convex(points []vec) bool {
	n := len(points)
	for i := range n {
		if turnOf(points[i], points[(i+1)%n], points[(i+2)%n]) <= 0 {
			return false
		}
	}
	return true
}

// Corners returns the corners, counter-clockwise seen from above.
func (o Outline) Corners() []Vec2 {
	corners := make([]Vec2, len(o.points))
	for i, p := range o.points {
		corners[i] = point2(p)
	}
	return corners
}

func point2(p vec) Vec2 { return Vec2{unit.Length(p.x), unit.Length(p.y)} }

// Bounds returns the corners of the smallest rectangle along the axes around o.
func (o Outline) Bounds() (least, most Vec2) { return point2(o.min), point2(o.max) }

// Area returns the area of o.
func (o Outline) Area() unit.Area {
	if len(o.points) == 0 {
		return 0
	}
	return unit.Area(float64(area2(o.points)) / 2e12)
}

// Convex tells whether every corner points outwards.
func (o Outline) Convex() bool { return len(o.pieces) == 1 }

// Contains tells whether p lies in o or on its edge.
func (o Outline) Contains(p Vec2) bool {
	q, inside := raw(p), false
	n := len(o.points)
	for i := range n {
		a, b := o.points[i], o.points[(i+1)%n]
		if onSegment(a, b, q) {
			return true
		}
		if (a.y > q.y) != (b.y > q.y) && (turnOf(a, b, q) > 0) == (b.y > a.y) {
			inside = !inside
		}
	}
	return inside
}

// Move returns o moved by v. A move beyond MaxCoordinate is a bug of the caller and panics.
func (o Outline) Move(v Vec2) Outline {
	d := raw(v)
	least, most := vec{o.min.x + d.x, o.min.y + d.y}, vec{o.max.x + d.x, o.max.y + d.y}
	if bound := MaxCoordinate.Micrometres(); least.x < -bound || least.y < -bound || most.x > bound || most.y > bound {
		panic(fmt.Sprintf("geom: outline moved by %v beyond the range", v))
	}
	moved := Outline{min: least, max: most, points: shifted(o.points, d)}
	moved.pieces = [][]vec{moved.points}
	if len(o.pieces) != 1 {
		moved.pieces = make([][]vec, len(o.pieces))
		for i, p := range o.pieces {
			moved.pieces[i] = shifted(p, d)
		}
	}
	return moved
}

func shifted(points []vec, d vec) []vec {
	out := make([]vec, len(points))
	for i, p := range points {
		out[i] = vec{p.x + d.x, p.y + d.y}
	}
	return out
}

// TurnedBox makes the outline of a box of that size in plan, standing with its middle at at, turned counter-clockwise.
// Quarter turns are exact; half of an odd size goes to the front and left, as everywhere in the project. Any other
// turn is rounded outwards: the outline contains the exact one and passes it by at most 2 µm along each side.
func TurnedBox(at, size Vec2, turn unit.Angle) (Outline, error) {
	if size.X <= 0 || size.Y <= 0 {
		return Outline{}, RangeError{"size of a box", min(size.X, size.Y), unit.Micrometre, MaxCoordinate}
	}
	quarter, err := quarterTurn(turn)
	if err != nil {
		return Outline{}, err
	}
	if quarter == 1 || quarter == 3 {
		size.X, size.Y = size.Y, size.X
	}
	from := Vec2{at.X - size.X.Half(), at.Y - size.Y.Half()}
	if quarter >= 0 {
		return Rectangle(from, from.Plus(size))
	}
	o, err := Rectangle(from, from.Plus(size))
	if err != nil {
		return o, err
	}
	return o.turned(2*at.X.Micrometres(), 2*at.Y.Micrometres(), turn, size)
}

// Turn returns o turned counter-clockwise about a point. Quarter turns are exact; any other turn is rounded outwards: the
// outline contains the exact one and passes it by at most 2 µm along each edge (more beyond the tip of a corner sharper
// than a right angle). An outline with details of a few micrometres may not survive: that is an error.
func (o Outline) Turn(about Vec2, turn unit.Angle) (Outline, error) {
	quarter, err := quarterTurn(turn)
	if err != nil || quarter == 0 || len(o.points) == 0 {
		return o, err
	}
	if quarter < 0 {
		return o.turned(2*about.X.Micrometres(), 2*about.Y.Micrometres(), turn, Vec2{})
	}
	corners := o.Corners()
	for i, c := range corners {
		d := c.Minus(about)
		for range quarter {
			d.X, d.Y = -d.Y, d.X
		}
		corners[i] = about.Plus(d)
	}
	return NewOutline(corners)
}

// outwards is how far, in micrometres, edges are moved out before corners are rounded: rounding moves a corner by at most
// √½ = 0.708, and the arithmetic errs by less than 0.001.
const outwards = 0.709

// turned turns about twice a point given in micrometres. With a size, o is a box whose exact middle is that point.
func (o Outline) turned(x2, y2 int64, turn unit.Angle, size Vec2) (Outline, error) {
	sin, cos := math.Sincos(turn.Radians())
	cx, cy := float64(x2)/2, float64(y2)/2
	exact := make([]pt, len(o.points))
	for i, p := range o.points {
		x, y := float64(p.x)-cx, float64(p.y)-cy
		if size.X > 0 {
			x, y = math.Copysign(float64(size.X.Micrometres())/2, x), math.Copysign(float64(size.Y.Micrometres())/2, y)
		}
		exact[i] = pt{cx + x*cos - y*sin, cy + x*sin + y*cos}
	}
	return roundedOut(exact, outwards)
}

// roundedOut makes an outline of counter-clockwise corners given in micrometres: its edges are moved out, then its corners rounded.
func roundedOut(exact []pt, out float64) (Outline, error) {
	n := len(exact)
	corners := make([]Vec2, 0, n)
	for i, p := range exact {
		a, b := exact[(i+n-1)%n], exact[(i+1)%n]
		d1, d2 := p.minus(a).normed(), b.minus(p).normed()
		n1, n2 := pt{d1.y, -d1.x}, pt{d2.y, -d2.x}
		// The corner moves to where both edges, moved out, meet: n1·m = n2·m = out.
		m := pt{n1.x + n2.x, n1.y + n2.y}
		k := out / (1 + n1.dot(n2))
		x, y := math.Round(p.x+k*m.x), math.Round(p.y+k*m.y)
		bound := float64(MaxCoordinate.Micrometres())
		if !(math.Abs(x) <= bound && math.Abs(y) <= bound) {
			return Outline{}, ShapeError{"outline", i, "is too sharp or too far out to be turned"}
		}
		c := Vec2{unit.Length(x), unit.Length(y)}
		if len(corners) == 0 || corners[len(corners)-1] != c {
			corners = append(corners, c)
		}
	}
	if len(corners) > 1 && corners[0] == corners[len(corners)-1] {
		corners = corners[1:]
	}
	return NewOutline(corners)
}

// quarterTurn returns 0 to 3 for whole quarter turns and -1 otherwise.
func quarterTurn(turn unit.Angle) (int, error) {
	d := turn.Degrees()
	if !(d >= -36000 && d <= 36000) {
		return 0, AngleError{"turn", turn, "within 100 turns"}
	}
	q := math.Round(d / 90)
	if math.Abs(d-90*q) > 1e-9 {
		return -1, nil
	}
	return (int(q)%4 + 4) % 4, nil
}
