package geom

import (
	"errors"
	"math"
	"testing"

	"berthwright/unit"
)

func pokeOf(f Fit, face Face) (Poke, bool) {
	for _, p := range f.Pokes {
		if p.Face == face {
			return p, true
		}
	}
	return Poke{}, false
}

// TestPropFitByHand: the plain van, 1800 wide, slope |y| + z = 2500 from z = 1600, roof at 1900.
func TestPropFitByHand(t *testing.T) {
	s := van()
	for _, c := range []struct {
		name string
		s    Solid
		want []Poke
		far  [2]unit.Length
	}{
		{name: "touches wall, floor, roof", s: box(1000, -600, 0, 3000, 600, 1900)},
		{name: "touches the wall", s: box(1200, -900, 0, 1500, 900, 1600)},
		{name: "through the left wall by 5", s: box(1200, -905, 0, 1500, 0, 900), want: []Poke{{LeftWall, 5 * mm, at3(1500, -905, 0)}}},
		{name: "through both", s: box(1200, -901, 0, 1500, 902, 900), want: []Poke{{LeftWall, 1 * mm, Vec3{}}, {RightWall, 2 * mm, Vec3{}}}},
		// At z = 1700 the slope is at |y| = 800.
		{name: "through the slope by 40", s: box(1200, 0, 500, 1500, 840, 1700), want: []Poke{{RightWall, 40 * mm, at3(1500, 840, 1700)}}},
		{name: "through the roof by 3", s: box(1200, 0, 500, 1500, 300, 1903), want: []Poke{{Roof, 3 * mm, Vec3{}}}},
		{name: "through the floor by 10", s: box(1200, 0, -10, 1500, 300, 500), want: []Poke{{Floor, 10 * mm, Vec3{}}}},
		{name: "beyond both ends", s: box(900, 0, 0, 3250, 300, 500), far: [2]unit.Length{100 * mm, 250 * mm}},
	} {
		f, err := s.Fit(c.s)
		if err != nil {
			t.Fatal(c.name, err)
		}
		if f.Ahead != c.far[0] || f.Behind != c.far[1] || len(f.Pokes) != len(c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, f, c.want)
			continue
		}
		if f.Inside() != (len(c.want) == 0 && c.far == [2]unit.Length{}) {
			t.Errorf("%s: inside %v", c.name, f.Inside())
		}
		for i, p := range f.Pokes {
			if p.Face != c.want[i].Face || p.Depth != c.want[i].Depth {
				t.Errorf("%s: %+v, want %+v", c.name, p, c.want[i])
			}
			if w := c.want[i].At; w != (Vec3{}) && (p.At.Y != w.Y || w.Z != 0 && p.At.Z != w.Z) {
				t.Errorf("%s: at %v, want %v", c.name, p.At, w)
			}
		}
	}
	for _, b := range []Solid{box(3000, 0, 0, 3100, 100, 100), box(500, 0, 0, 1000, 100, 100), {}} {
		var e RangeError
		if _, err := s.Fit(b); !errors.As(err, &e) {
			t.Errorf("outside the stations: %v", err)
		}
	}
	if (Poke{Face: Roof}).Face.String() != "roof" || Face(0).String() != "no face" || Face(9).String() != "no face" {
		t.Error("words for faces")
	}
}

// TestPropRoofIsMeasuredPlumb: a ridge 2000 high over walls of 1700, |y| = 900: the slope rises 300 over 900, so a box 100 wide
// about y = 450..550 finds 1700 + (900 - 550)/3 = 1816.667.
func TestPropRoofIsMeasuredPlumb(t *testing.T) {
	left := []Corner{{-900 * mm, 0}, {-900 * mm, 1700 * mm}, {0, 2000 * mm}}
	s := must(NewShell([]Station{{X: 1000 * mm, Left: left}, {X: 3000 * mm, Left: left}}))
	f := must(s.Fit(box(1200, 450, 0, 1500, 550, 1820)))
	if p, ok := pokeOf(f, Roof); !ok || len(f.Pokes) != 1 || p.Depth != 3334 || p.At.Y != 550*mm {
		t.Errorf("%+v", f)
	}
	near(t, "ceiling", must(s.CeilingAt(at2(1300, 550))), 1816666, 0)
	near(t, "ceiling at the ridge", must(s.CeilingAt(at2(1300, 0))), 2000*mm, 0)
	if _, err := s.CeilingAt(at2(1300, 901)); err == nil {
		t.Error("a ceiling outside the wall")
	}
	// 10 mm through the wall and high: first moved in to y = 900, there the roof is 1700 high.
	f = must(s.Fit(box(1200, 500, 0, 1500, 910, 1705)))
	if len(f.Pokes) != 2 || f.Pokes[0].Depth != 10*mm || f.Pokes[1].Depth != 5*mm {
		t.Errorf("%+v", f)
	}
	// A wall 50 further in at the floor: a box out to 880 stands 30 through it there; moved in to 850 it finds 1700 + 50/3 above.
	lean := []Corner{{-850 * mm, 0}, {-900 * mm, 1700 * mm}, {0, 2000 * mm}}
	s = must(NewShell([]Station{{X: 1000 * mm, Left: lean}, {X: 3000 * mm, Left: lean}}))
	f = must(s.Fit(box(1200, 500, 0, 1500, 880, 1720)))
	if len(f.Pokes) != 2 || f.Pokes[0].Depth != 30*mm || f.Pokes[1].Face != Roof || f.Pokes[1].Depth != 3334 {
		t.Errorf("%+v", f)
	}
}

func TestPropRecessByHand(t *testing.T) {
	s := must(must(van().Lined([]Lining{{RightWall, 0, 9000 * mm, 30 * mm}})).Recessed([]Recess{{RightWall, 1500 * mm, 2100 * mm, 500 * mm, 900 * mm, 80 * mm}}))
	fill := box(1500, 0, 500, 2100, 980, 900)
	if f := must(s.Fit(fill)); !f.Inside() {
		t.Errorf("the recess does not hold what fills it: %+v", f)
	}
	for name, c := range map[string]struct {
		move Vec3
		deep unit.Length
	}{
		"out": {Vec3{Y: 1}, 1}, "up": {Vec3{Z: 1}, 110 * mm}, "down": {Vec3{Z: -1}, 110 * mm}, "back": {Vec3{X: 1}, 110 * mm}, "ahead": {Vec3{X: -1}, 110 * mm},
	} {
		if p, ok := pokeOf(must(s.Fit(fill.Move(c.move))), RightWall); !ok || p.Depth != c.deep {
			t.Errorf("one micrometre %s: %+v, want %v", name, p, c.deep)
		}
	}
	near(t, "beside", must(s.Wall(RightWall, 1400*mm, 700*mm)), 870*mm, 0)
	near(t, "within", must(s.Wall(RightWall, 1600*mm, 700*mm)), 980*mm, 0)
	near(t, "on its edge", must(s.Wall(RightWall, 1600*mm, 900*mm)), 870*mm, 0)
	if a := must(s.Across(1500*mm, 2100*mm, 500*mm, 900*mm)); a.Straight != 1880*mm {
		t.Errorf("bed into the recess: %+v", a)
	}
	if a := must(s.Across(1500*mm, 2101*mm, 500*mm, 900*mm)); a.Straight != 1770*mm || a.Widest != 1880*mm {
		t.Errorf("bed beyond the recess: %+v", a)
	}
	sec := must(s.Section(1600 * mm))
	want := []Corner{{-900 * mm, 0}, {-900 * mm, 1600 * mm}, {-600 * mm, 1900 * mm}, {}, {}, {870 * mm, 900 * mm}, {980 * mm, 900 * mm}, {980 * mm, 500 * mm}, {870 * mm, 500 * mm}, {870 * mm, 0}}
	if len(sec) != len(want) {
		t.Fatalf("section %v", sec)
	}
	for i, c := range want {
		if c != (Corner{}) && c != sec[i] {
			t.Errorf("corner %d: %v, want %v", i, sec[i], c)
		}
	}
}

func TestPropLiftingRoofByHand(t *testing.T) {
	s := must(van().Raised([]Raise{{1200 * mm, 1800 * mm, -500 * mm, 500 * mm, 600 * mm}}))
	tall := box(1200, -500, 0, 1800, 500, 2500)
	if f := must(s.Fit(tall)); !f.Inside() {
		t.Errorf("what fills the lifting roof: %+v", f)
	}
	for name, c := range map[string]struct {
		move Vec3
		deep unit.Length
	}{"up": {Vec3{Z: 1}, 1}, "right": {Vec3{Y: 1}, 600 * mm}, "left": {Vec3{Y: -1}, 600 * mm}, "back": {Vec3{X: 1}, 600 * mm}, "ahead": {Vec3{X: -1}, 600 * mm}} {
		if p, ok := pokeOf(must(s.Fit(tall.Move(c.move))), Roof); !ok || p.Depth != c.deep {
			t.Errorf("one micrometre %s: %+v", name, p)
		}
	}
	near(t, "raised", must(s.CeilingAt(at2(1500, 0))), 2500*mm, 0)
	near(t, "beside", must(s.CeilingAt(at2(1500, 550))), 1900*mm, 0)
	want := []Corner{{-900 * mm, 0}, {-900 * mm, 1600 * mm}, {-600 * mm, 1900 * mm}, {-500 * mm, 1900 * mm}, {-500 * mm, 2500 * mm},
		{500 * mm, 2500 * mm}, {500 * mm, 1900 * mm}, {600 * mm, 1900 * mm}, {900 * mm, 1600 * mm}, {900 * mm, 0}}
	got := must(s.Section(1500 * mm))
	if len(got) != len(want) {
		t.Fatalf("section %v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("corner %d: %v, want %v", i, got[i], want[i])
		}
	}
	// Standing room at 2.00 m: only under the open roof, 600 by 1000; a box of 100 by 1000 takes a sixth.
	st := must(s.StandingRoom(2000*mm, nil))
	if math.Abs(st.Area.SquareMetres()-0.6) > 1e-9 || st.First != 1200*mm || st.Last != 1800*mm {
		t.Errorf("standing %v from %v to %v", st.Area, st.First, st.Last)
	}
	st = must(s.StandingRoom(2000*mm, []Solid{box(1200, -600, 0, 1300, 600, 400), box(1400, -600, 2000, 1800, 600, 2400)}))
	if math.Abs(st.Area.SquareMetres()-0.5) > 1e-9 {
		t.Errorf("standing beside a box %v, want 0.5", st.Area)
	}
	// At 1.85 m between the slopes: |y| ≤ 650 over 2 m: 2.6 m².
	if st = must(s.StandingRoom(1850*mm, nil)); math.Abs(st.Area.SquareMetres()-2.6) > 1e-9 {
		t.Errorf("standing at 1.85 m %v, want 2.6", st.Area)
	}
	if st = must(s.StandingRoom(2501*mm, nil)); st.Area != 0 || st.Ways != nil || st.First != 0 {
		t.Errorf("standing at 2.501 m %+v", st)
	}
}

// roofOver is the roof over a point by search: from start upwards the height at which a wall comes to stand further in.
func roofOver(st []Station, x, y, start float64) float64 {
	_, top := plainWall(st, 0, x, 0)
	for z := start; z < top; z += 1e-3 {
		l, _ := plainWall(st, 0, x, z)
		r, _ := plainWall(st, 1, x, z)
		if -y > l || y > r {
			return z
		}
	}
	return top
}

// TestPropFitEqualsDenseSampling puts boxes and stars at random into random shells.
func TestPropFitEqualsDenseSampling(t *testing.T) {
	r := random(30)
	inside, walls, roofs := 0, 0, 0
	for i := range 140 {
		st := randomStations(r, i%2 == 0)
		s := must(NewShell(st))
		first, last, _ := s.Stretch()
		o := polygon(r, 500000)
		o = o.Move(Vec2{(first + last).Half() + millimetres(r.IntN(400)-200), millimetres(r.IntN(1000) - 500)})
		low := millimetres(r.IntN(600))
		b := must(NewSolid(o, low, low+millimetres(200+r.IntN(1100))))
		f, err := s.Fit(b)
		if err != nil || f.Ahead > 0 || f.Behind > 0 {
			continue
		}
		if f.Inside() {
			inside++
		}
		// The heights at which the roof starts, by span and side, are a choice of reporting: taken as they are.
		var worst [2]float64
		pts := metresOf(o.points)
		each := func(see func(x, y float64, p *span)) {
			for j, p := range pts {
				q := pts[(j+1)%len(pts)]
				for k := range 40 {
					v := p.to(q, (float64(k)+0.5)/40)
					for m := range s.spans {
						if sp := &s.spans[m]; sp.x0 <= v.x && v.x <= sp.x1 {
							see(v.x, v.y, sp)
							break
						}
					}
				}
			}
		}
		z0, z1 := b.Low.Metres(), b.High.Metres()
		each(func(x, y float64, sp *span) {
			for k := range worst {
				for m := range 41 {
					z := lerp(math.Min(z0, sp.roof[k]), math.Min(z1, sp.roof[k]), float64(m)/40)
					w, _ := plainWall(st, k, x, z)
					worst[k] = math.Max(worst[k], outwardsOf(k, pt{x, y})-w)
				}
			}
		})
		for k, w := range worst {
			p, _ := pokeOf(f, LeftWall+Face(k))
			if d := p.Depth.Metres(); d < w-2e-6 || d > w+12e-3 {
				t.Errorf("%d: %v by %g, sampled %g", i, LeftWall+Face(k), d, w)
			}
			if w > 0 {
				walls++
			}
		}
		roof := 0.0
		left, _ := pokeOf(f, LeftWall)
		right, _ := pokeOf(f, RightWall)
		if left.Depth == 0 && right.Depth == 0 {
			each(func(x, y float64, sp *span) {
				roof = math.Max(roof, z1-roofOver(st, x, y, math.Min(sp.roof[0], sp.roof[1])))
			})
			p, _ := pokeOf(f, Roof)
			if d := p.Depth.Metres(); d < roof-1.1e-3 || d > roof+6e-3 {
				t.Errorf("%d: roof by %g, sampled %g", i, d, roof)
			}
			if roof > 0 {
				roofs++
			}
		}
		// Moved in by as much as it stands out, it no longer does; by a micrometre less, it does.
		if left.Depth > 0 && right.Depth == 0 {
			if p, ok := pokeOf(must(s.Fit(b.Move(Vec3{Y: left.Depth}))), LeftWall); ok {
				t.Errorf("%d: still out by %v", i, p.Depth)
			}
			if _, ok := pokeOf(must(s.Fit(b.Move(Vec3{Y: left.Depth - 1}))), LeftWall); !ok {
				t.Errorf("%d: already in", i)
			}
		}
		if p, ok := pokeOf(f, Roof); ok && left.Depth == 0 && right.Depth == 0 {
			if q, ok := pokeOf(must(s.Fit(b.Move(Vec3{Z: -p.Depth}))), Roof); ok {
				t.Errorf("%d: still through the roof by %v", i, q.Depth)
			}
			if _, ok := pokeOf(must(s.Fit(b.Move(Vec3{Z: 1 - p.Depth}))), Roof); !ok {
				t.Errorf("%d: already under the roof", i)
			}
		}
	}
	if inside < 20 || walls < 20 || roofs < 20 {
		t.Errorf("one-sided sample: %d inside, %d through walls, %d through roofs", inside, walls, roofs)
	}
}

func TestPropFitMirrored(t *testing.T) {
	r := random(31)
	for i := range 100 {
		st := randomStations(r, i%2 == 0)
		other := make([]Station, len(st))
		flip := func(c []Corner) []Corner {
			out := make([]Corner, len(c))
			for i, k := range c {
				out[i] = Corner{-k.Y, k.Z}
			}
			return out
		}
		for i, p := range st {
			other[i] = Station{p.X, flip(p.Right), flip(p.Left)}
		}
		o := polygon(r, 600000).Move(Vec2{1700 * mm, millimetres(r.IntN(800) - 400)})
		c := o.Corners()
		for i := range c {
			c[i].Y = -c[i].Y
		}
		high := millimetres(900 + r.IntN(1000))
		f, err := must(NewShell(st)).Fit(must(NewSolid(o, 0, high)))
		g, err2 := must(NewShell(other)).Fit(must(NewSolid(must(NewOutline(c)), 0, high)))
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		for _, p := range [3][2]Face{{LeftWall, RightWall}, {RightWall, LeftWall}, {Roof, Roof}} {
			a, _ := pokeOf(f, p[0])
			b, _ := pokeOf(g, p[1])
			near(t, "mirrored poke", a.Depth, b.Depth, 1)
		}
	}
}

func TestPropStandingRoomEqualsSampling(t *testing.T) {
	r := random(32)
	for i := range 20 {
		st := randomStations(r, i%2 == 0)
		s := must(NewShell(st))
		first, last, _ := s.Stretch()
		solids := []Solid{
			must(NewSolid(polygon(r, 500000).Move(Vec2{(first + last).Half(), -400 * mm}), 0, 900*mm)),
			must(NewSolid(polygon(r, 500000).Move(Vec2{first, 300 * mm}), 1200*mm, 1500*mm)),
		}
		h := millimetres(1300 + r.IntN(300))
		got := must(s.StandingRoom(h, solids)).Area.SquareMetres()
		want := 0.0
		const step = 10000
		for x := first + step/2; x < last; x += step {
			for y := -1100 * mm; y < 1100*mm; y += step {
				ok := true
				for _, b := range solids {
					ok = ok && !(b.Low < h && b.Outline.Contains(Vec2{x, y + step/2}))
				}
				for m := 0; m <= 20 && ok; m++ {
					z := h.Metres() * float64(m) / 20
					l, top := plainWall(st, 0, x.Metres(), z)
					q, _ := plainWall(st, 1, x.Metres(), z)
					ok = z <= top && -(y+step/2).Metres() <= l && (y+step/2).Metres() <= q
				}
				if ok {
					want += 1e-4
				}
			}
		}
		if math.Abs(got-want) > 0.03 {
			t.Errorf("%d: standing room %g m², sampled %g m²", i, got, want)
		}
	}
}
