package geom

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"berthwright/unit"
)

// sampledOverlap looks along many lines x = const whether both outlines cover a common stretch.
func sampledOverlap(a, b Outline) bool {
	from, to := max(a.min.x, b.min.x), min(a.max.x, b.max.x)
	n := int(to-from) * 700
	for i := range n {
		x := (float64(from) + (float64(i)+0.5)/700) * 1e-6
		for _, s := range across(a, x) {
			for _, t := range across(b, x) {
				if math.Min(s[1], t[1])-math.Max(s[0], t[0]) > 1e-13 {
					return true
				}
			}
		}
	}
	return false
}

func TestPropClashEqualsDenseSampling(t *testing.T) {
	r := random(1)
	counts := map[bool]int{}
	for range 700 {
		a, b := place(r, polygon(r, 9), 5), place(r, polygon(r, 9), 5)
		got, want := a.Overlaps(b), sampledOverlap(a, b)
		counts[got]++
		if got != want {
			t.Fatalf("%v and %v: overlap %v, sampled %v", a.Corners(), b.Corners(), got, want)
		}
		if b.Overlaps(a) != got {
			t.Fatalf("%v and %v: not the same both ways", a.Corners(), b.Corners())
		}
	}
	if counts[true] < 100 || counts[false] < 100 {
		t.Errorf("one-sided sample: %v", counts)
	}
}

// TestPropClearingMove: the move clears, and of all whole moves shorter by a micrometre none does.
func TestPropClearingMove(t *testing.T) {
	r := random(2)
	for i := range 900 {
		a, b := place(r, polygon(r, 9), 3), place(r, polygon(r, 9), 3)
		move, depth, overlap := a.Clear(b)
		if overlap != a.Overlaps(b) {
			t.Fatal("Clear and Overlaps differ")
		}
		if !overlap {
			if move != (Vec2{}) || depth != 0 {
				t.Fatalf("no overlap, yet move %v depth %v", move, depth)
			}
			continue
		}
		if a.Move(move).Overlaps(b) {
			t.Fatalf("%d: %v by %v does not clear %v", i, a.Corners(), move, b.Corners())
		}
		l := math.Sqrt(float64(raw(move).length2()))
		if depth != unit.Length(math.Ceil(l-1e-9)) {
			t.Fatalf("depth %v of move %v", depth, move)
		}
		for x := -unit.Length(l); float64(x) <= l; x++ {
			for y := -unit.Length(l); float64(y) <= l; y++ {
				if v := (Vec2{x, y}); math.Sqrt(float64(raw(v).length2())) <= l-1 && !a.Move(v).Overlaps(b) {
					t.Fatalf("%d: %v clears %v by %v, yet %v of length %g is shorter by a micrometre", i, a.Corners(), b.Corners(), move, v, l)
				}
			}
		}
	}
}

// TestPropClearingMoveAtFullSize tries furniture-sized outlines in 720 directions.
func TestPropClearingMoveAtFullSize(t *testing.T) {
	r := random(3)
	for range 60 {
		a, b := place(r, polygon(r, 900000), 300000), place(r, polygon(r, 900000), 300000)
		move, _, overlap := a.Clear(b)
		if !overlap {
			continue
		}
		if a.Move(move).Overlaps(b) {
			t.Fatalf("%v does not clear", move)
		}
		l := math.Sqrt(float64(raw(move).length2())) - 2
		for k := range 720 {
			s, c := math.Sincos(float64(k) * math.Pi / 360)
			if v := (Vec2{unit.Length(l * c), unit.Length(l * s)}); !a.Move(v).Overlaps(b) {
				t.Fatalf("%v clears %v by %v, yet the shorter %v does too", a.Corners(), b.Corners(), move, v)
			}
		}
	}
}

func TestPropQuarterTurnsAndMirrorsChangeNothing(t *testing.T) {
	r := random(4)
	mirror := func(o Outline) Outline {
		c := o.Corners()
		for i := range c {
			c[i].Y = -c[i].Y
		}
		return must(NewOutline(c))
	}
	for range 200 {
		a, b := place(r, polygon(r, 500000), 300000), place(r, polygon(r, 500000), 300000)
		_, depth, overlap := a.Clear(b)
		gap := a.Distance(b)
		about := Vec2{unit.Length(r.IntN(1000)), unit.Length(r.IntN(1000))}
		pairs := [][2]Outline{{mirror(a), mirror(b)}}
		for q := 1; q < 4; q++ {
			turn := unit.Angle(q) * 90 * unit.Degree
			pairs = append(pairs, [2]Outline{must(a.Turn(about, turn)), must(b.Turn(about, turn))})
		}
		for _, p := range pairs {
			_, d, o := p[0].Clear(p[1])
			if o != overlap || p[0].Distance(p[1]) != gap {
				t.Fatalf("overlap %v, gap %v; before %v, %v", o, p[0].Distance(p[1]), overlap, gap)
			}
			near(t, "depth", d, depth, 1)
		}
		// By any angle, within what rounding outwards adds on both: 2 µm each along an edge, more at sharp corners of stars.
		if a.Convex() && b.Convex() && len(a.points) == 4 && len(b.points) == 4 && overlap {
			turn := unit.Angle(r.IntN(360)) * unit.Degree
			_, d, _ := must(a.Turn(about, turn)).Clear(must(b.Turn(about, turn)))
			near(t, "depth turned", d, depth, 8)
		}
	}
}

func TestPropTurnedBoxHoldsTheExactOne(t *testing.T) {
	r := random(5)
	for degrees := range 360 {
		at := Vec2{unit.Length(r.IntN(5e6)), unit.Length(r.IntN(2e6) - 1e6)}
		size := Vec2{unit.Length(1 + r.IntN(2e6)), unit.Length(1 + r.IntN(8e5))}
		o := must(TurnedBox(at, size, unit.Angle(degrees)*unit.Degree))
		if len(o.points) != 4 || !o.Convex() {
			t.Fatalf("%d corners", len(o.points))
		}
		s, c := math.Sincos(float64(degrees) * math.Pi / 180)
		hx, hy := float64(size.X.Micrometres())/2, float64(size.Y.Micrometres())/2
		odd := 0.0 // a quarter turn of an odd size keeps whole corners
		if degrees%90 == 0 {
			odd = 0.5 + 1e-6
		}
		for _, k := range [4][2]float64{{-hx, -hy}, {hx, -hy}, {hx, hy}, {-hx, hy}} {
			x := float64(at.X.Micrometres()) + k[0]*c - k[1]*s
			y := float64(at.Y.Micrometres()) + k[0]*s + k[1]*c
			for i, p := range o.points {
				q := o.points[(i+1)%4]
				ex, ey := float64(q.x-p.x), float64(q.y-p.y)
				in := (ex*(y-float64(p.y)) - ey*(x-float64(p.x))) / math.Hypot(ex, ey)
				if in < -1e-4-odd {
					t.Fatalf("%d°: corner lies %g µm outside", degrees, -in)
				}
				if in < min(hx, hy) && in > 2 {
					t.Fatalf("%d°: edge lies %g µm outside", degrees, in)
				}
			}
		}
	}
	a := must(TurnedBox(at2(1000, 0), at2(600, 400), 90*unit.Degree))
	if least, most := a.Bounds(); least != at2(800, -300) || most != at2(1200, 300) {
		t.Errorf("a quarter turn is not exact: %v %v", least, most)
	}
}

func TestPropTurnHoldsTheExactOutline(t *testing.T) {
	r := random(6)
	for range 200 {
		o := polygon(r, 400000)
		turn := unit.Angle(r.Float64()*20-10) * unit.Radian
		about := Vec2{unit.Length(r.IntN(1e6)), unit.Length(r.IntN(1e6))}
		turned, err := o.Turn(about, turn)
		if err != nil {
			continue // a spike of a few micrometres
		}
		for i, p := range o.points {
			q := o.points[(i+1)%len(o.points)]
			for k := range 5 {
				e := metres2(point2(p)).to(metres2(point2(q)), float64(k)/5).rotated(metres2(about), turn.Radians())
				// half a micrometre beside it in each direction, for the rounding of the point itself
				if !turned.Contains(Vec2{unit.Length(math.Round(e.x * 1e6)), unit.Length(math.Round(e.y * 1e6))}) {
					v := vec{int64(math.Round(e.x * 1e6)), int64(math.Round(e.y * 1e6))}
					least := int64(math.MaxInt64)
					for j, a := range turned.points {
						least = min(least, toSegment(v, a, turned.points[(j+1)%len(turned.points)]))
					}
					if least > 0 {
						t.Fatalf("%v turned by %v: %v lies outside by %d µm", o.Corners(), turn, v, least)
					}
				}
			}
		}
	}
}

func TestPropPiecesAreConvexAndCoverAll(t *testing.T) {
	r := random(7)
	shapes := []Outline{comb(9), comb(40)}
	for range 400 {
		shapes = append(shapes, polygon(r, 60))
	}
	for _, o := range shapes {
		var sum int64
		for _, p := range o.pieces {
			if !convex(p) {
				t.Fatalf("piece %v of %v is not convex", p, o.points)
			}
			sum += area2(p)
		}
		if sum != area2(o.points) || sum <= 0 {
			t.Fatalf("pieces of %v add up to %d, want %d", o.points, sum, area2(o.points))
		}
	}
}

// comb is a comb of n teeth, 20 wide and 30 high.
func comb(n int) Outline {
	c := []Vec2{{0, -10}, {unit.Length(20 * n), -10}}
	for i := n - 1; i >= 0; i-- {
		x := unit.Length(20 * i)
		c = append(c, Vec2{x + 15, 0}, Vec2{x + 10, 30}, Vec2{x + 5, 0})
	}
	return must(NewOutline(c))
}

func TestPropDistance(t *testing.T) {
	r := random(8)
	for range 200 {
		a, b := place(r, polygon(r, 300), 600), place(r, polygon(r, 300), 600)
		got := a.Distance(b)
		if got != b.Distance(a) || got != 0 && a.Overlaps(b) {
			t.Fatalf("distance %v of %v and %v", got, a.Corners(), b.Corners())
		}
		if a.Overlaps(b) {
			continue
		}
		if s := math.Sqrt(sampledDistance2(a, b)); float64(got.Micrometres()) > s+1e-9 || float64(got.Micrometres()) < s-7 {
			t.Fatalf("distance %v, sampled %g", got, s)
		}
	}
}

func sampledDistance2(a, b Outline) float64 {
	points := func(o Outline) []pt {
		var out []pt
		for i, p := range o.points {
			q := o.points[(i+1)%len(o.points)]
			for k := range 48 {
				out = append(out, pt{float64(p.x), float64(p.y)}.to(pt{float64(q.x), float64(q.y)}, float64(k)/48))
			}
		}
		return out
	}
	least := math.Inf(1)
	for _, p := range points(a) {
		for _, q := range points(b) {
			least = math.Min(least, p.minus(q).dot(p.minus(q)))
		}
	}
	return least
}

func TestPropContainsEqualsCrossings(t *testing.T) {
	r := random(9)
	for range 200 {
		o := polygon(r, 30)
		for range 50 {
			p := Vec2{unit.Length(r.IntN(70) - 35), unit.Length(r.IntN(70) - 35)}
			want := false // strictly inside, or on the edge
			for _, s := range across(o, (float64(p.X)+1e-4)*1e-6) {
				want = want || s[0]+1e-9 < float64(p.Y)*1e-6 && float64(p.Y)*1e-6 < s[1]-1e-9
			}
			if want && !o.Contains(p) {
				t.Fatalf("%v in %v", p, o.Corners())
			}
		}
		for _, c := range o.Corners() {
			if !o.Contains(c) {
				t.Fatalf("corner %v not in %v", c, o.Corners())
			}
		}
		if o.Contains(Vec2{100, 100}) {
			t.Fatal("far point inside")
		}
	}
}

func TestPropRootsAreExact(t *testing.T) {
	r := random(10)
	for range 20000 {
		n := r.Int64N(4e18)
		if k := floorRoot(n); k*k > n || (k+1)*(k+1) <= n {
			t.Fatalf("root of %d: %d", n, k)
		}
		if k := ceilRoot(n); k*k < n || (k-1)*(k-1) >= n {
			t.Fatalf("root above %d: %d", n, k)
		}
		d := 1 + r.Int64N(4e18)
		c := int64(r.Float64() * 2e9 * math.Sqrt(float64(d)) * 0.99)
		k := floorOver(c, d)
		if k > 0 && !squareTimes(k, d, c) || squareTimes(k+1, d, c) {
			t.Fatalf("%d over root of %d: %d", c, d, k)
		}
		a, b := r.Int64N(4e18)-2e18, 1+r.Int64N(1e9)
		if q := floorDiv(a, b); q*b > a || (q+1)*b <= a {
			t.Fatalf("%d / %d down: %d", a, b, q)
		}
		if q := ceilDiv(a, b); q*b < a || (q-1)*b >= a {
			t.Fatalf("%d / %d up: %d", a, b, q)
		}
	}
}

// TestPropFarthestCoordinates: at the ends of the range nothing wraps.
func TestPropFarthestCoordinates(t *testing.T) {
	m := MaxCoordinate
	a := must(NewOutline([]Vec2{{-m, -m}, {m, -m}, {m, m}}))
	b := must(NewOutline([]Vec2{{-m, -m}, {m, m}, {-m, m}}))
	if a.Overlaps(b) || a.Distance(b) != 0 {
		t.Error("two halves of a square overlap")
	}
	c := must(NewOutline([]Vec2{{-m, -m}, {m, m - 1}, {m, m}, {-m, m}}))
	if !a.Overlaps(c) {
		t.Error("a sliver of half a micrometre is lost")
	}
	if move, depth, ok := a.Clear(a); !ok || depth < m || a.Move(Vec2{}).Area() != a.Area() {
		t.Errorf("clear of itself: %v %v", move, depth)
	}
	if !(math.Abs(a.Area().SquareMetres()-5e5) < 1e-6) {
		t.Errorf("area %v", a.Area())
	}
}

func TestPropSolids(t *testing.T) {
	r := random(11)
	for range 300 {
		s := must(NewSolid(place(r, polygon(r, 9), 4), unit.Length(r.IntN(8)), unit.Length(9+r.IntN(8))))
		o := must(NewSolid(place(r, polygon(r, 9), 4), unit.Length(r.IntN(20)-8), unit.Length(13+r.IntN(8))))
		c, clash := s.Clash(o)
		if clash != s.Overlaps(o) {
			t.Fatal("Clash and Overlaps differ")
		}
		if !clash {
			if g := s.Bounds().Gap(o.Bounds()); g.X < 0 && g.Y < 0 && g.Z < 0 && s.Low < o.High && o.Low < s.High && s.Outline.Overlaps(o.Outline) {
				t.Fatal("boxes and solids differ")
			}
			continue
		}
		if g := s.Bounds().Gap(o.Bounds()); g.X >= 0 || g.Y >= 0 || g.Z >= 0 || !s.Bounds().Overlaps(o.Bounds()) {
			t.Fatal("solids overlap, their boxes do not")
		}
		for _, v := range []Vec3{c.Move, {c.Plan.X, c.Plan.Y, 0}, {Z: c.Up}, {Z: -c.Down}} {
			if s.Move(v).Overlaps(o) {
				t.Fatalf("%v does not clear", v)
			}
		}
		if l := unit.Length(ceilRoot(raw(c.Move.Flat()).length2() + c.Move.Z.Micrometres()*c.Move.Z.Micrometres())); l != c.Depth {
			t.Fatalf("depth %v of move %v", c.Depth, c.Move)
		}
		if c.Depth > 6 {
			continue
		}
		for x := -c.Depth; x <= c.Depth; x++ {
			for y := -c.Depth; y <= c.Depth; y++ {
				for z := -c.Depth; z <= c.Depth; z++ {
					v := Vec3{x, y, z}
					if l := math.Sqrt(sq(x) + sq(y) + sq(z)); l <= float64(c.Depth)-2 && !s.Move(v).Overlaps(o) {
						t.Fatalf("%v is shorter than %v", v, c.Move)
					}
				}
			}
		}
	}
}

func TestPropPairs(t *testing.T) {
	r := random(12)
	var solids []Solid
	for range 60 {
		solids = append(solids, must(NewSolid(place(r, polygon(r, 300), 700), unit.Length(r.IntN(100)), unit.Length(100+r.IntN(100)))))
	}
	var want [][2]int
	for i := range solids {
		for j := i + 1; j < len(solids); j++ {
			if _, ok := solids[i].Clash(solids[j]); ok {
				want = append(want, [2]int{i, j})
			}
		}
	}
	if got := Pairs(solids); fmt.Sprint(got) != fmt.Sprint(want) || len(want) < 10 {
		t.Errorf("pairs %v, want %v", got, want)
	}
	if Pairs(nil) != nil || Pairs(solids[:1]) != nil {
		t.Error("pairs of none or one")
	}
}

func TestPropEdgeRows(t *testing.T) {
	if a, b := box(0, 0, 0, 10, 10, 10), box(10, 0, 0, 20, 10, 10); a.Overlaps(b) || a.Distance(b) != 0 {
		t.Error("touching boxes overlap")
	}
	if a, b := box(0, 0, 0, 10, 10, 10), box(0, 0, 10, 10, 10, 20); a.Overlaps(b) || a.Distance(b) != 0 {
		t.Error("a box stands in the one below")
	}
	if (Outline{}).Overlaps(Outline{}) || (Outline{}).Contains(Vec2{}) || (Outline{}).Area() != 0 {
		t.Error("the zero outline covers something")
	}
	for _, c := range []struct {
		name    string
		corners []Vec2
	}{
		{"none", nil}, {"two", []Vec2{{0, 0}, {1, 1}}}, {"in line", []Vec2{{0, 0}, {1, 1}, {2, 2}}},
		{"twice", []Vec2{{0, 0}, {0, 0}, {5, 0}, {5, 5}}}, {"closed by hand", []Vec2{{0, 0}, {5, 0}, {5, 5}, {0, 0}}},
		{"bow tie", []Vec2{{0, 0}, {4, 4}, {4, 0}, {0, 4}}}, {"spike", []Vec2{{0, 0}, {4, 0}, {2, 0}, {2, 4}}},
		{"touches itself", []Vec2{{0, 0}, {8, 0}, {8, 8}, {4, 0}, {0, 8}}}, {"far", []Vec2{{0, 0}, {MaxCoordinate + 1, 0}, {0, 1}}},
		{"many", make([]Vec2, maxCorners+1)},
	} {
		if o, err := NewOutline(c.corners); err == nil {
			t.Errorf("%s: taken as %v", c.name, o.Corners())
		}
	}
	for _, a := range []unit.Angle{unit.Angle(math.NaN()), unit.Angle(math.Inf(1)), 1e6} {
		var e AngleError
		if _, err := TurnedBox(Vec2{}, at2(1, 1), a); !errors.As(err, &e) {
			t.Errorf("turn %v: %v", a, err)
		}
	}
	for _, size := range []Vec2{{0, 5}, {5, 0}, {-1, 5}} {
		if _, err := TurnedBox(Vec2{}, size, 0); err == nil {
			t.Errorf("size %v is taken", size)
		}
	}
	if _, err := NewSolid(Outline{}, 0, 1); err == nil {
		t.Error("a solid without outline")
	}
	if _, err := BoxSolid(Box3{Vec3{}, Vec3{1, 1, 0}}); err == nil {
		t.Error("a solid without height")
	}
	if o := must(TurnedBox(Vec2{}, Vec2{1, 1}, 0)); o.Area() != 1e-12 {
		t.Errorf("one micrometre square: %v", o.Area())
	}
	if o := must(NewOutline([]Vec2{{0, 0}, {0, 8}, {8, 8}, {8, 4}, {8, 0}})); len(o.points) != 4 || area2(o.points) <= 0 {
		t.Errorf("clockwise with a corner too many: %v", o.Corners())
	}
	b, c := Box3{at3(0, 0, 0), at3(4, 4, 4)}, Box3{at3(1, 1, 0), at3(4, 3, 9)}
	if b.Contains(c) || !b.Union(c).Contains(c) || b.Union(c).Size() != at3(4, 4, 9) || b.Gap(c.Move(at3(10, 0, 0))).X != 7*mm {
		t.Error("boxes")
	}
}

// FuzzOutline: whatever the corners, an outline is refused or sound.
func FuzzOutline(f *testing.F) {
	f.Add([]byte{0, 0, 9, 0, 9, 9, 5, 3, 0, 9}, 37)
	f.Add([]byte{0, 0, 4, 4, 4, 0, 0, 4}, 90)
	f.Add([]byte{0, 0, 8, 0, 8, 2, 2, 2, 2, 6, 8, 6, 8, 8, 0, 8}, 181)
	f.Fuzz(func(t *testing.T, data []byte, degrees int) {
		var corners []Vec2
		for i := 0; i+1 < len(data) && i < 48; i += 2 {
			corners = append(corners, Vec2{unit.Length(int8(data[i])), unit.Length(int8(data[i+1]))})
		}
		o, err := NewOutline(corners)
		if err != nil {
			return
		}
		var sum int64
		for _, p := range o.pieces {
			sum += area2(p)
			if !convex(p) {
				t.Fatalf("piece %v", p)
			}
		}
		if sum != area2(o.points) || sum <= 0 {
			t.Fatalf("pieces of %v", corners)
		}
		if _, err := o.Turn(corners[0], unit.Angle(degrees%360)*unit.Degree); err == nil && degrees%90 == 0 {
			if _, err := o.Turn(corners[0], unit.Angle(90*unit.Degree)); err != nil {
				t.Fatal(err)
			}
		}
		b := must(TurnedBox(Vec2{}, Vec2{40, 30}, 0))
		if move, _, ok := o.Clear(b); ok && o.Move(move).Overlaps(b) {
			t.Fatalf("%v by %v", corners, move)
		}
		if o.Overlaps(b) && o.Distance(b) != 0 {
			t.Fatal("overlap at a distance")
		}
	})
}
