package geom

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"berthwright/unit"
)

// van is a plain inside: 1800 wide to 1600 high, then 45° in to a level roof at 1900.
func van() Shell {
	left := []Corner{{-900 * mm, 0}, {-900 * mm, 1600 * mm}, {-600 * mm, 1900 * mm}}
	return must(NewShell([]Station{{X: 1000 * mm, Left: left}, {X: 3000 * mm, Left: left}}))
}

// randomStations are walls that bulge, lean in and end in a roof, ridged or level.
func randomStations(r *rand.Rand, ridged bool) []Station {
	n := 2 + r.IntN(3)
	out := make([]Station, n)
	for i := range out {
		out[i].X = millimetres(1000 + 1000*i + r.IntN(400))
		wall := func(sign unit.Length) []Corner {
			var c []Corner
			z := 0
			for range 3 + r.IntN(3) {
				c = append(c, Corner{sign.Times(float64(820+r.IntN(120))) * 1000, millimetres(z)})
				z += 150 + r.IntN(350)
			}
			in := 700
			for range 3 {
				c = append(c, Corner{sign.Times(float64(in)) * 1000, millimetres(z)})
				in -= 120 + r.IntN(80)
				z += 20 + r.IntN(90)
			}
			return c
		}
		out[i].Left, out[i].Right = wall(-1), wall(1)
		if ridged {
			top := max(out[i].Left[len(out[i].Left)-1].Z, out[i].Right[len(out[i].Right)-1].Z) + millimetres(10+r.IntN(60))
			ridge := Corner{millimetres(r.IntN(200) - 100), top}
			out[i].Left, out[i].Right = append(out[i].Left, ridge), append(out[i].Right, ridge)
		}
	}
	return out
}

// plainWall is the loft done over again, without patches: distance outwards from the centre line at height z, and the top at x.
func plainWall(st []Station, side int, x, z float64) (w, top float64) {
	at := func(s Station, z float64) float64 {
		c, sign := s.Left, -1.0
		if side == 1 {
			c, sign = s.Right, 1
		}
		for i := 1; i < len(c); i++ {
			if z <= c[i].Z.Metres() || i == len(c)-1 {
				f := min((z-c[i-1].Z.Metres())/(c[i].Z-c[i-1].Z).Metres(), 1)
				return sign * (c[i-1].Y.Metres() + f*(c[i].Y-c[i-1].Y).Metres())
			}
		}
		return 0
	}
	topOf := func(s Station) float64 {
		return min(s.Left[len(s.Left)-1].Z, s.Right[len(s.Right)-1].Z).Metres()
	}
	for i := 1; i < len(st); i++ {
		if x <= st[i].X.Metres() || i == len(st)-1 {
			f := (x - st[i-1].X.Metres()) / (st[i].X - st[i-1].X).Metres()
			return at(st[i-1], z)*(1-f) + at(st[i], z)*f, topOf(st[i-1])*(1-f) + topOf(st[i])*f
		}
	}
	return 0, 0
}

func TestPropLoftPassesThroughItsStations(t *testing.T) {
	r := random(20)
	for i := range 100 {
		st := randomStations(r, i%2 == 0)
		s := must(NewShell(st))
		for _, p := range st {
			top := must(s.Ceiling(p.X))
			near(t, "ceiling", top, min(p.Left[len(p.Left)-1].Z, p.Right[len(p.Right)-1].Z), 0)
			for k, wall := range [2][]Corner{p.Left, p.Right} {
				for _, c := range wall {
					if c.Z <= top {
						near(t, "wall at its corner", must(s.Wall(LeftWall+Face(k), p.X, c.Z)), c.Y, 0)
					}
				}
			}
		}
	}
}

func TestCrossLoftAgainstPlainInterpolation(t *testing.T) {
	r := random(21)
	for i := range 60 {
		st := randomStations(r, i%2 == 0)
		s := must(NewShell(st))
		first, last, _ := s.Stretch()
		for range 200 {
			x := first + unit.Length(r.Int64N((last - first).Micrometres()))
			z := unit.Length(r.Int64N(must(s.Ceiling(x)).Micrometres()))
			for k := range 2 {
				w, _ := plainWall(st, k, x.Metres(), z.Metres())
				y := must(s.Wall(LeftWall+Face(k), x, z))
				near(t, "wall", pick(k == 0, -y, y), down(w), 1)
			}
		}
	}
}

// TestPropShellByHand: between a section 1.80 m wide and one 1.60 m wide, a quarter of the way along.
func TestPropShellByHand(t *testing.T) {
	s := must(NewShell([]Station{
		{X: 3000 * mm, Left: []Corner{{-800 * mm, 0}, {-800 * mm, 2000 * mm}}, Right: []Corner{{700 * mm, 0}, {700 * mm, 1900 * mm}}},
		{X: 1000 * mm, Left: []Corner{{-900 * mm, 0}, {-900 * mm, 1000 * mm}, {-700 * mm, 1800 * mm}}},
	}))
	// x = 1500: a quarter of 2000 mm behind the front. Left, z = 500: -900 + 1/4·100 = -875.
	near(t, "left", must(s.Wall(LeftWall, 1500*mm, 500*mm)), -875*mm, 0)
	// Left, z = 1400: front -900 + 200·400/800 = -800; a quarter of the way to -800: -800.
	near(t, "left high", must(s.Wall(LeftWall, 1500*mm, 1400*mm)), -800*mm, 0)
	// Right, z = 500: 900 - 1/4·200 = 850. Width 1725.
	near(t, "right", must(s.Wall(RightWall, 1500*mm, 500*mm)), 850*mm, 0)
	near(t, "width", must(s.WidthAt(1500*mm, 500*mm)), 1725*mm, 0)
	// Ceiling: 1800 in front, min(2000, 1900) = 1900 behind: 1825.
	near(t, "ceiling", must(s.Ceiling(1500*mm)), 1825*mm, 0)
	// Above the front section's top its wall goes on plumb: z = 1820, left -700 + 1/4·(-800+700) = -725.
	near(t, "left above the lower top", must(s.Wall(LeftWall, 1500*mm, 1820*mm)), -725*mm, 0)
	// A bed across at z = 500 from x = 1500 to 2500: widths 1725 and 1800·1/4 + 1500·3/4 = 1575; the left wall comes in
	// from -875 to -825, the right from 850 to 750; a rectangle has 825 + 750 = 1575.
	a := must(s.Across(1500*mm, 2500*mm, 500*mm, 500*mm))
	want := Across{Narrowest: 1575 * mm, Widest: 1725 * mm, Straight: 1575 * mm, Front: 1725 * mm, Rear: 1575 * mm, Left: -50 * mm, Right: -100 * mm, NarrowAt: 2500 * mm}
	if a != want {
		t.Errorf("across: %+v, want %+v", a, want)
	}
	for _, bad := range []struct{ x, z unit.Length }{{999 * mm, 500 * mm}, {3001 * mm, 500 * mm}, {1500 * mm, -1 * mm}, {1500 * mm, 1826 * mm}} {
		var e RangeError
		if _, err := s.Wall(LeftWall, bad.x, bad.z); !errors.As(err, &e) {
			t.Errorf("wall at %v: %v", bad, err)
		}
	}
	if _, err := s.Wall(Roof, 1500*mm, 0); err == nil {
		t.Error("the roof is no wall")
	}
	if _, err := (Shell{}).Wall(LeftWall, 0, 0); err == nil {
		t.Error("the zero shell has a wall")
	}
}

func TestPropBadStations(t *testing.T) {
	good := []Corner{{-900 * mm, 0}, {-900 * mm, 1900 * mm}}
	for name, st := range map[string][]Station{
		"none":           nil,
		"one":            {{X: 0, Left: good}},
		"two at one x":   {{X: 0, Left: good}, {X: 0, Left: good}},
		"one corner":     {{X: 0, Left: good[:1]}, {X: 1, Left: good}},
		"does not rise":  {{X: 0, Left: []Corner{{-900 * mm, 0}, {-800 * mm, 0}}}, {X: 1, Left: good}},
		"walls cross":    {{X: 0, Left: []Corner{{100 * mm, 0}, {-900 * mm, 1900 * mm}}}, {X: 1, Left: good}},
		"meet half way":  {{X: 0, Left: []Corner{{-900 * mm, 0}, {0, 900 * mm}, {-900 * mm, 1900 * mm}}}, {X: 1, Left: good}},
		"nothing common": {{X: 0, Left: good, Right: []Corner{{900 * mm, 1900 * mm}, {900 * mm, 2000 * mm}}}, {X: 1, Left: good}},
		"far":            {{X: MaxCoordinate + 1, Left: good}, {X: 1, Left: good}},
	} {
		if _, err := NewShell(st); err == nil {
			t.Errorf("%s is taken", name)
		}
	}
	s := van()
	for name, err := range map[string]error{
		"no face":     second(s.Lined([]Lining{{0, 0, 1, 1}})),
		"thick":       second(s.Lined([]Lining{{LeftWall, 0, 1, -1}})),
		"backwards":   second(s.Lined([]Lining{{LeftWall, 2, 1, 1}})),
		"no room":     second(s.Lined([]Lining{{LeftWall, 0, 5000 * mm, 950 * mm}, {RightWall, 0, 5000 * mm, 950 * mm}})),
		"no height":   second(s.Lined([]Lining{{Roof, 0, 5000 * mm, 950 * mm}, {Floor, 0, 5000 * mm, 960 * mm}})),
		"pod in roof": second(s.Recessed([]Recess{{Roof, 0, 1, 0, 1, 1}})),
		"pod window":  second(s.Recessed([]Recess{{LeftWall, 1, 1, 0, 1, 1}})),
		"pod depth":   second(s.Recessed([]Recess{{LeftWall, 0, 1, 0, 1, -1}})),
		"roof window": second(s.Raised([]Raise{{0, 1, 1, 1, 1}})),
		"roof height": second(s.Raised([]Raise{{0, 1, 0, 1, -1}})),
		"across back": second(s.Across(2000*mm, 1000*mm, 0, 0)),
		"across down": second(s.Across(1000*mm, 2000*mm, 100*mm, 0)),
		"across high": second(s.Across(1000*mm, 2000*mm, 0, 1901*mm)),
		"headroom":    second(s.StandingRoom(0, nil)),
	} {
		if err == nil {
			t.Errorf("%s is taken", name)
		}
	}
}

func second[T any](_ T, err error) error { return err }

// TestPropLiningByHand: 50 mm on plumb walls, 50 mm on the slope (45°, it counts as wall), 40 mm under the level roof, 30 mm on the
// floor. The slope's line |y| + z = 2500 moves in by 50·√2 = 70.711: |y| + z = 2429.289. It meets |y| = 850 at z = 1579.289
// and z = 1860 at |y| = 569.289.
func TestPropLiningByHand(t *testing.T) {
	lined := must(van().Lined([]Lining{
		{LeftWall, 0, 9000 * mm, 40 * mm}, {LeftWall, 0, 9000 * mm, 10 * mm}, {RightWall, 0, 9000 * mm, 50 * mm},
		{Roof, 0, 9000 * mm, 40 * mm}, {Floor, 0, 9000 * mm, 30 * mm},
	}))
	got := must(lined.Section(1500 * mm))
	want := []Corner{{-850 * mm, 30 * mm}, {-850 * mm, 1579289}, {-569289, 1860 * mm}, {569289, 1860 * mm}, {850 * mm, 1579289}, {850 * mm, 30 * mm}}
	if len(got) != len(want) {
		t.Fatalf("section %v", got)
	}
	for i := range want {
		near(t, "y", got[i].Y, want[i].Y, 1)
		near(t, "z", got[i].Z, want[i].Z, 1)
	}
	near(t, "floor", must(lined.FloorAt(1500*mm)), 30*mm, 0)
	// A zone ends at x = 2000: in front the inside is 50 mm narrower; on the line the inner side counts.
	zone := must(van().Lined([]Lining{{LeftWall, 1000 * mm, 2000 * mm, 50 * mm}}))
	for x, y := range map[unit.Length]unit.Length{1999 * mm: -850 * mm, 2000 * mm: -850 * mm, 2001 * mm: -900 * mm} {
		near(t, "zone", must(zone.Wall(LeftWall, x, 500*mm)), y, 0)
	}
	a := must(zone.Across(1900*mm, 2100*mm, 500*mm, 500*mm))
	if a.Narrowest != 1750*mm || a.Widest != 1800*mm || a.Straight != 1750*mm || a.Left != 50*mm {
		t.Errorf("across a step: %+v", a)
	}
	if b := must(zone.Across(2000*mm, 2100*mm, 500*mm, 500*mm)); b.Narrowest != 1800*mm || b.Front != 1800*mm {
		t.Errorf("behind a step: %+v", b)
	}
}

// TestPropLiningKeepsItsDistance: every point of the lined section lies as far from each face as its lining is thick, and with one
// thickness all round a point 1 % further out does not.
func TestPropLiningKeepsItsDistance(t *testing.T) {
	r := random(22)
	for i := range 200 {
		st := randomStations(r, i%2 == 0)
		s := must(NewShell(st))
		wall, roof := 1e-3*float64(10+r.IntN(80)), 1e-3*float64(10+r.IntN(60))
		if i%3 == 0 {
			roof = wall
		}
		sec := s.spans[0].a
		lined, ok := sec.lined([Floor + 1]float64{LeftWall: wall, RightWall: wall, Roof: roof})
		if !ok {
			t.Fatal("no room")
		}
		for k := range 2 {
			p := sec.side[k]
			start := p.roofStart()
			// clear tells by how much a point keeps its distances, at least.
			clear := func(q pt) float64 {
				least := math.Inf(1)
				for j := 1; j < len(p); j++ {
					a, b, d := p[j-1], p[j], wall
					if j-1 >= start {
						d = roof
					}
					e := b.minus(a)
					f := q.minus(a).dot(e) / e.dot(e)
					if j > 1 {
						f = math.Max(0, f)
					}
					if j < len(p)-1 {
						f = math.Min(1, f)
					}
					least = math.Min(least, a.plus(e.times(f)).minus(q).length()-d)
					if e.cross(q.minus(a)) < 0 && f > 0 && f < 1 {
						least = math.Min(least, -1)
					}
				}
				return least
			}
			for range 100 {
				z := lined.low + r.Float64()*(lined.top-lined.low)
				w := lined.side[k].at(z)
				if c := clear(pt{w - 2*Tolerance, z}); c < -Tolerance {
					t.Fatalf("%d: lined wall at w=%g z=%g is %g too near (wall %g roof %g)\n%v\n%v", i, w, z, -c, wall, roof, p, lined.side[k])
				}
				if wall == roof {
					if c := clear(pt{w + 0.01*wall + 2*Tolerance, z}); c >= 0.005*wall {
						t.Fatalf("%d: lined wall at w=%g z=%g stands %g too far in (wall %g)\n%v\n%v", i, w, z, c, wall, p, lined.side[k])
					}
				}
			}
		}
	}
}

func TestPropNoLiningChangesNothing(t *testing.T) {
	r := random(23)
	for i := range 40 {
		s := must(NewShell(randomStations(r, i%2 == 0)))
		first, last, _ := s.Stretch()
		mid := first + (last - first).Half()
		l := must(s.Lined([]Lining{{LeftWall, first, mid, 0}, {Roof, mid, last, 0}, {RightWall, 0, first, 50 * mm}}))
		for range 100 {
			x := first + unit.Length(r.Int64N((last - first).Micrometres()))
			z := unit.Length(r.Int64N(must(s.Ceiling(x)).Micrometres()))
			near(t, "wall", must(l.Wall(LeftWall, x, z)), must(s.Wall(LeftWall, x, z)), 1)
		}
	}
}

func TestPropAcrossEqualsSampling(t *testing.T) {
	r := random(24)
	for i := range 60 {
		st := randomStations(r, i%2 == 0)
		s := must(NewShell(st))
		first, last, _ := s.Stretch()
		from := first + unit.Length(r.Int64N((last - first).Micrometres()))
		to := from + unit.Length(r.Int64N((last - from).Micrometres()))
		low := millimetres(r.IntN(700))
		high := low + millimetres(r.IntN(3)*100)
		a := must(s.Across(from, to, low, high))
		narrow, wide, left, right := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(1)
		const n = 400
		for k := range n + 1 {
			x := lerp(from.Metres(), to.Metres(), float64(k)/n)
			least := math.Inf(1)
			for m := range 101 {
				z := lerp(low.Metres(), high.Metres(), float64(m)/100)
				l, _ := plainWall(st, 0, x, z)
				q, _ := plainWall(st, 1, x, z)
				least, left, right = math.Min(least, l+q), math.Min(left, l), math.Min(right, q)
			}
			narrow, wide = math.Min(narrow, least), math.Max(wide, least)
		}
		for _, c := range []struct {
			what  string
			got   unit.Length
			want  float64
			above bool
		}{{"narrowest", a.Narrowest, narrow, false}, {"widest", a.Widest, wide, true}, {"straight", a.Straight, left + right, false}} {
			// Sampling misses the extreme by no more than a step of the steepest wall: 3 mm.
			got := c.got.Metres()
			if c.above {
				got, c.want = -got, -c.want
			}
			if got > c.want+pick(c.above, 5e-4, 2e-6) || got < c.want-3e-3 {
				t.Errorf("%s is %v, sampled %g", c.what, c.got, c.want)
			}
		}
	}
}
