package drawing

import (
	"math"
	"strconv"
)

// Seg is one step of a path. Coordinates are absolute.
type Seg struct {
	Op             Op
	X, Y           float64 // end point
	X1, Y1, X2, Y2 float64 // Cubic: control points
	R              float64 // Arc: radius of the circle
	Large, CW      bool    // Arc: the longer way; clockwise on the sheet
}

// Op tells what a Seg does.
type Op byte

// The steps of a path.
const (
	Move  Op = 'M'
	Line  Op = 'L'
	Cubic Op = 'C'
	Arc   Op = 'A'
	Close Op = 'Z'
)

// Segs is a path.
type Segs []Seg

// round3 keeps a thousandth of a millimetre, which is the whole micrometre of a Length.
func round3(f float64) float64 {
	r := math.Round(f*1000) / 1000
	if r == 0 {
		return 0 // no minus nought
	}
	return r
}

func (s Segs) move(x, y float64) Segs { return append(s, Seg{Op: Move, X: round3(x), Y: round3(y)}) }
func (s Segs) line(x, y float64) Segs { return append(s, Seg{Op: Line, X: round3(x), Y: round3(y)}) }
func (s Segs) close() Segs            { return append(s, Seg{Op: Close}) }
func (s Segs) cubic(x1, y1, x2, y2, x, y float64) Segs {
	return append(s, Seg{Op: Cubic, X1: round3(x1), Y1: round3(y1), X2: round3(x2), Y2: round3(y2), X: round3(x), Y: round3(y)})
}
func (s Segs) arc(r float64, large, cw bool, x, y float64) Segs {
	return append(s, Seg{Op: Arc, R: round3(r), Large: large, CW: cw, X: round3(x), Y: round3(y)})
}

// LineFrom returns the straight line between two points.
func LineFrom(x0, y0, x1, y1 float64) Segs { return Segs{}.move(x0, y0).line(x1, y1) }

// Rect returns the closed rectangle b.
func Rect(b Box) Segs {
	return Segs{}.move(b.X0, b.Y0).line(b.X1, b.Y0).line(b.X1, b.Y1).line(b.X0, b.Y1).close()
}

// Circle returns the closed circle about x, y.
func Circle(x, y, r float64) Segs {
	return Segs{}.move(x-r, y).arc(r, false, true, x+r, y).arc(r, false, true, x-r, y).close()
}

// Polygon returns the closed path through pts.
func Polygon(pts [][2]float64) Segs {
	var s Segs
	for i, p := range pts {
		if i == 0 {
			s = s.move(p[0], p[1])
		} else {
			s = s.line(p[0], p[1])
		}
	}
	return s.close()
}

func polyline(pts ...[2]float64) Segs {
	var s Segs
	for i, p := range pts {
		if i == 0 {
			s = s.move(p[0], p[1])
		} else {
			s = s.line(p[0], p[1])
		}
	}
	return s
}

// Box returns the extent of the path; control points count, arcs count with their quadrants.
func (s Segs) Box() Box {
	b := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	add := func(x, y float64) {
		b = Box{math.Min(b.X0, x), math.Min(b.Y0, y), math.Max(b.X1, x), math.Max(b.Y1, y)}
	}
	var x, y float64
	for _, g := range s {
		switch g.Op {
		case Close:
			continue
		case Cubic:
			add(g.X1, g.Y1)
			add(g.X2, g.Y2)
		case Arc:
			cx, cy, r, a, sweep := arcCentre(x, y, g)
			for q := range 4 { // the outermost points that the arc passes
				at := float64(q) * math.Pi / 2
				turn := math.Mod(math.Mod((at-a)*sign(sweep), 2*math.Pi)+2*math.Pi, 2*math.Pi)
				if turn <= math.Abs(sweep) {
					add(cx+r*[4]float64{1, 0, -1, 0}[q], cy+r*[4]float64{0, 1, 0, -1}[q])
				}
			}
		}
		add(g.X, g.Y)
		x, y = g.X, g.Y
	}
	if math.IsInf(b.X0, 0) {
		return Box{}
	}
	return b
}

// Scaled returns the path times k, then moved by dx, dy.
func (s Segs) scaled(k, dx, dy float64) Segs {
	out := make(Segs, len(s))
	for i, g := range s {
		if g.Op != Close {
			g.X, g.Y = round3(g.X*k+dx), round3(g.Y*k+dy)
		}
		if g.Op == Cubic {
			g.X1, g.Y1, g.X2, g.Y2 = round3(g.X1*k+dx), round3(g.Y1*k+dy), round3(g.X2*k+dx), round3(g.Y2*k+dy)
		}
		g.R = round3(g.R * k)
		out[i] = g
	}
	return out
}

// arcCentre returns the centre of the circle of an arc from x, y and its start and sweep in radians,
// positive clockwise on the sheet (y down).
func arcCentre(x, y float64, g Seg) (cx, cy, r, start, sweep float64) {
	dx, dy := g.X-x, g.Y-y
	d := math.Hypot(dx, dy)
	r = math.Max(g.R, d/2)
	if d == 0 {
		return x, y, r, 0, 0
	}
	h := math.Sqrt(math.Max(0, float64(r*r)-float64(d*d/4)))
	if g.Large == g.CW {
		h = -h
	}
	cx, cy = (x+g.X)/2-h*dy/d, (y+g.Y)/2+h*dx/d
	start = math.Atan2(y-cy, x-cx)
	sweep = math.Atan2(g.Y-cy, g.X-cx) - start
	if g.CW && sweep <= 0 {
		sweep += 2 * math.Pi
	}
	if !g.CW && sweep >= 0 {
		sweep -= 2 * math.Pi
	}
	return cx, cy, r, start, sweep
}

func sign(f float64) float64 { return math.Copysign(1, f) }

// String returns the path as SVG path data.
func (s Segs) String() string { return string(s.append(nil)) }

func (s Segs) append(b []byte) []byte {
	num := func(f float64) {
		if n := len(b); n > 0 && b[n-1] >= '0' && b[n-1] <= '9' && f >= 0 {
			b = append(b, ' ')
		}
		b = strconv.AppendFloat(b, f, 'f', -1, 64)
	}
	for _, g := range s {
		b = append(b, byte(g.Op))
		switch g.Op {
		case Close:
			continue
		case Cubic:
			num(g.X1)
			num(g.Y1)
			num(g.X2)
			num(g.Y2)
		case Arc:
			num(g.R)
			num(g.R)
			num(0)
			num(bit(g.Large))
			num(bit(g.CW))
		}
		num(g.X)
		num(g.Y)
	}
	return b
}

func bit(v bool) float64 {
	if v {
		return 1
	}
	return 0
}
