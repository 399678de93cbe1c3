package geom

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"berthwright/unit"
)

// convexAround makes a random turned box and a hinge inside it, on its corner, on its edge or beside it.
func convexAround(r *rand.Rand) (Outline, Vec2) {
	size := Vec2{millimetres(20 + r.IntN(700)), millimetres(20 + r.IntN(700))}
	turn := unit.Angle(r.IntN(360)) * unit.Degree
	if r.IntN(3) == 0 {
		turn = unit.Angle(r.IntN(4)) * 90 * unit.Degree
	}
	o := must(TurnedBox(at2(2000, 100), size, turn))
	c := o.Corners()
	switch r.IntN(4) {
	case 0:
		return o, at2(2000, 100)
	case 1:
		return o, c[r.IntN(4)]
	case 2:
		return o, Vec2{(c[0].X + c[1].X).Half(), (c[0].Y + c[1].Y).Half()}
	}
	return o, at2(2000+r.IntN(1200)-600, 100+r.IntN(1200)-600)
}

func distanceTo(poly []pt, p pt) float64 {
	inside, least := true, math.Inf(1)
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		e := b.minus(a)
		inside = inside && e.cross(p.minus(a)) >= 0
		f := math.Max(0, math.Min(1, p.minus(a).dot(e)/e.dot(e)))
		least = math.Min(least, a.plus(e.times(f)).minus(p).length())
	}
	if inside {
		return 0
	}
	return least
}

// TestPropSweepHoldsItsPosesAndNoMore: every sampled pose lies in the outline, and every point of its edge lies within 1 mm of a pose.
func TestPropSweepHoldsItsPosesAndNoMore(t *testing.T) {
	r := random(40)
	for i := range 50 {
		o, hinge := convexAround(r)
		angle := unit.Angle(r.IntN(721)-360) * unit.Degree
		if i%10 == 0 {
			angle = pick[unit.Angle](i%20 == 0, 2*math.Pi, -2*math.Pi)
		}
		s := must(Swing(must(NewSolid(o, 0, 100*mm)), hinge, angle))
		swept, err := s.Outline(mm)
		if err != nil {
			t.Fatalf("%d: %v about %v by %v: %v", i, o.Corners(), hinge, angle, err)
		}
		body, pole := metresOf(o.points), metres2(hinge)
		for k := range 201 {
			a := angle.Radians() * float64(k) / 200
			for j, p := range body {
				q := body[(j+1)%len(body)]
				for f := 0.0; f < 1; f += 0.2 {
					if v := p.to(q, f).rotated(pole, a); !swept.Contains(nearest(v)) {
						t.Fatalf("%d: %v about %v by %v: pose %d has %v outside", i, o.Corners(), hinge, angle, k, nearest(v))
					}
				}
			}
		}
		_, reach := radii(body, pole)
		inner, _ := radii(body, pole)
		if inner > 0 && math.Abs(angle.Radians()) > math.Pi {
			continue // a ring may close: its hole is filled
		}
		poly := metresOf(swept.points)
		for j, p := range poly {
			for f := 0.0; f < 1; f += 0.34 {
				v := p.to(poly[(j+1)%len(poly)], f)
				at := func(a float64) float64 { return distanceTo(body, v.rotated(pole, -a)) }
				best, angleAt := math.Inf(1), 0.0
				n := 600
				for k := range n + 1 {
					if d := at(angle.Radians() * float64(k) / float64(n)); d < best {
						best, angleAt = d, angle.Radians()*float64(k)/float64(n)
					}
				}
				for step := math.Abs(angle.Radians()) / float64(n); step > 1e-7 && best > 0; step /= 2 {
					for _, a := range [2]float64{angleAt - step, angleAt + step} {
						if d := at(a); d < best && a*angle.Radians() >= 0 && math.Abs(a) <= math.Abs(angle.Radians()) {
							best, angleAt = d, a
						}
					}
				}
				if best > 1e-3 {
					t.Fatalf("%d: %v about %v by %v: edge at %v is %g mm from every pose (reach %g)", i, o.Corners(), hinge, angle.Degrees(), nearest(v), best*1e3, reach)
				}
			}
		}
	}
}

// TestCrossFirstContactAgainstStepping turns in steps of a tenth of a degree and looks for the first overlap.
func TestCrossFirstContactAgainstStepping(t *testing.T) {
	r := random(41)
	met, passed := 0, 0
	for i := range 400 {
		o, hinge := convexAround(r)
		angle := unit.Angle(r.IntN(721)-360) * unit.Degree
		thing := must(TurnedBox(at2(2000+r.IntN(1600)-800, 100+r.IntN(1600)-800), Vec2{millimetres(10 + r.IntN(300)), millimetres(10 + r.IntN(300))}, unit.Angle(r.IntN(360))*unit.Degree))
		s := must(Swing(must(NewSolid(o, 0, 100*mm)), hinge, angle))
		c, ok := s.Meets(must(NewSolid(thing, 50*mm, 200*mm)))
		body, pole, fixed := metresOf(o.points), metres2(hinge), metresOf(thing.points)
		at := func(a float64) float64 {
			turned := make([]pt, len(body))
			for j, p := range body {
				turned[j] = p.rotated(pole, a)
			}
			return depth(turned, fixed)
		}
		sign := 1.0
		if angle < 0 {
			sign = -1
		}
		first := math.Inf(1)
		const step = math.Pi / 1800
		for a := 0.0; a <= math.Abs(angle.Radians()); a += step {
			if at(sign*a) > 1e-6 {
				first = a
				break
			}
		}
		if ok {
			met++
			got := c.Angle.Radians()
			if got > first+1e-6 {
				t.Errorf("%d: contact at %g°, overlap already at %g°", i, c.Angle.Degrees(), first*180/math.Pi)
			}
			if got < first-step-1e-9 && at(sign*(got+1e-5)) < -1e-8 {
				t.Errorf("%d: contact at %g°, none there", i, c.Angle.Degrees())
			}
		} else {
			passed++
			if !math.IsInf(first, 1) {
				t.Errorf("%d: passes, overlap at %g°", i, first*180/math.Pi)
			}
		}
	}
	if met < 80 || passed < 80 {
		t.Errorf("one-sided sample: %d met, %d passed", met, passed)
	}
}

// TestPropDoorByHand: a leaf 600 by 20 hinged at its corner (0, 0), lying along x, turns towards +y. Its leading face is y = 20.
func TestPropDoorByHand(t *testing.T) {
	leaf := box(0, 0, 100, 600, 20, 1800)
	post := box(300, 300, 0, 400, 400, 1900)
	s := must(Swing(leaf, Vec2{}, 90*unit.Degree))
	// The post's corner (400, 300): distance 500, direction atan(3/4) = 36.8699°. The face 20 off the hinge meets it when
	// 500·sin(36.8699° - a) = 20: a = 36.8699° - asin(0.04) = 36.8699° - 2.2924° = 34.5775°.
	c, ok := s.Meets(post)
	if !ok || math.Abs(c.Angle.Degrees()-34.5775) > 1e-4 {
		t.Errorf("door meets the post at %v", c.Angle.Degrees())
	}
	if _, ok := must(Swing(leaf, Vec2{}, -90*unit.Degree)).Meets(post); ok {
		t.Error("opens away from the post and meets it")
	}
	if _, ok := s.Meets(box(300, 300, 1800, 400, 400, 1900)); ok {
		t.Error("meets what is above it")
	}
	if _, ok := s.Meets(box(100, -200, 0, 600, 0, 1900)); ok {
		t.Error("meets what it leans on")
	}
	if _, ok := must(Swing(leaf, Vec2{}, 34.577*unit.Degree)).Meets(post); ok {
		t.Error("stops before the post and meets it")
	}
	if c, ok := s.Meets(box(500, 10, 0, 700, 30, 1900)); !ok || c.Angle != 0 {
		t.Errorf("in the way at the start: %v", c)
	}
	// What the leaf's far corner (600, 20) just clears: r = √(600² + 20²) = 600.333; at 45° a corner of a box at r/√2 = 424.50.
	if _, ok := s.Meets(box(425, 425, 0, 500, 500, 1900)); ok {
		t.Error("meets a box beyond its reach")
	}
	if _, ok := s.Meets(box(424, 424, 0, 500, 500, 1900)); !ok {
		t.Error("passes through a box within its reach")
	}
	b := must(s.Bounds())
	near(t, "front", b.Min.X, -20*mm, 20)
	near(t, "reach", b.Max.Y, 600*mm, 1500)
	if b.Min.Z != 100*mm || b.Max.Z != 1800*mm {
		t.Errorf("bounds %v", b)
	}
}

// TestPropSwivelByHand: a seat 500 by 500 about its middle reaches 250·√2 = 353.55.
func TestPropSwivelByHand(t *testing.T) {
	s := must(Swing(box(1000, 0, 0, 1500, 500, 900), at2(1250, 250), 180*unit.Degree))
	for x, want := range map[int]bool{1604: false, 1603: true, 1600: true} {
		if c, ok := s.Meets(box(x, 0, 0, x+100, 500, 100)); ok != want {
			t.Errorf("wall at %d: %v %v", x, c, ok)
		}
	}
	// A wall along y at 300 from the middle: a corner starts at 45° and reaches x = 300 when 353.55·cos b = 300, b = 31.9481°;
	// the corner at -45° turns up to it and arrives after 45° - 31.9481° = 13.0519°.
	if c, ok := s.Meets(box(1550, 0, 0, 1560, 500, 100)); !ok || math.Abs(c.Angle.Degrees()-13.0519) > 1e-4 {
		t.Errorf("wall at 300: %v", c.Angle.Degrees())
	}
	o := must(s.Outline(mm))
	if a := o.Area().SquareMetres(); a < math.Pi*0.35355*0.35355 || a > math.Pi*0.3546*0.3546 {
		t.Errorf("swept area %v", a)
	}
}

// TestPropLidByHand: a lid 500 deep and 20 thick over a locker, its axis along the rear edge of its underside at 900, looking from
// x = 0 to x = 800, so its left (+y) side goes up.
func TestPropLidByHand(t *testing.T) {
	lid := Panel{From: at2(0, 0), To: at2(800, 0), Axis: 900 * mm, Near: 0, Far: 500 * mm, Low: 900 * mm, High: 920 * mm}
	s := must(Tip(lid, 90*unit.Degree))
	// A shelf 300 above the axis whose edge is 400 out: the corner (400, 300) is 500 away at 36.8699°; the lid's upper face is
	// 20 off the axis: as for the door, 34.5775°. (The far upper corner is 500.4 away and would reach z = 1200 at 34.55°: first!)
	// 500.4·sin(2.2906° + a) = 300: a = 36.8357° - 2.2906° = 34.5451°, at 500.4·cos 36.8357° = 400.50 out: just beside the edge
	// at 400, so the face it is.
	c, ok := s.Meets(box(100, 0, 1200, 200, 400, 1500))
	if !ok || math.Abs(c.Angle.Degrees()-34.5775) > 1e-3 {
		t.Errorf("lid meets the shelf at %v", c.Angle.Degrees())
	}
	c, ok = s.Meets(box(100, 0, 1200, 200, 450, 1500))
	if !ok || math.Abs(c.Angle.Degrees()-34.5451) > 1e-3 {
		t.Errorf("lid meets the deeper shelf at %v", c.Angle.Degrees())
	}
	for name, b := range map[string]Solid{
		"beside":  box(800, 0, 1000, 900, 400, 1300),
		"under":   box(0, 0, 0, 800, 500, 900),
		"behind":  box(0, -300, 0, 800, -20, 2000),
		"too far": box(0, 501, 0, 800, 600, 2000),
	} {
		if c, ok := s.Meets(b); ok {
			t.Errorf("lid meets what is %s at %v", name, c.Angle.Degrees())
		}
	}
	down := must(Tip(lid, -90*unit.Degree))
	if _, ok := down.Meets(box(0, 100, 0, 800, 200, 880)); !ok {
		t.Error("hangs through what is under it")
	}
	b := must(s.Bounds())
	near(t, "back", b.Min.Y, -20*mm, 1000)
	near(t, "out", b.Max.Y, 500*mm, 1500)
	near(t, "up", b.Max.Z, 1400*mm, 1500)
	near(t, "low", b.Min.Z, 900*mm, 1000)
}

// TestPropLidSolidsHoldItsPoses in many directions and with several excesses.
func TestPropLidSolidsHoldItsPoses(t *testing.T) {
	r := random(42)
	for i := range 25 {
		from := at2(1000, 0)
		to := from.Plus(at2(100+r.IntN(600), r.IntN(900)-450))
		p := Panel{From: from, To: to, Axis: millimetres(700 + r.IntN(300)), Near: millimetres(r.IntN(40) - 20), Low: 850 * mm, High: 850*mm + millimetres(10+r.IntN(60))}
		p.Far = p.Near + millimetres(100+r.IntN(500))
		angle := unit.Angle(r.IntN(361)-180) * unit.Degree
		s := must(Tip(p, angle))
		excess := millimetres(1 + 20*(i%3))
		solids := must(s.Solids(excess))
		bounds := must(s.Bounds())
		for k := range 41 {
			a := angle.Radians() * float64(k) / 40
			for j, c := range s.body {
				d := s.body[(j+1)%4]
				for _, f := range []float64{0, 0.3, 0.7} {
					v := c.to(d, f).rotated(s.hinge, a)
					for _, w := range []float64{0, 0.5, 1} {
						q := s.axis.plan(v.x, w*s.high)
						point, z := nearest(q), unit.MetresLength(v.y)
						found := false
						for _, b := range solids {
							found = found || b.Low <= z && z <= b.High && holdsNearly(b.Outline, point)
						}
						if !found {
							t.Fatalf("%d: pose %d lies outside the %d solids: u %g z %g", i, k, len(solids), v.x, v.y)
						}
						if z < bounds.Min.Z || z > bounds.Max.Z {
							t.Fatalf("%d: pose outside the bounds", i)
						}
					}
				}
			}
		}
		// The slabs pass the swept side by no more than the excess.
		side := sweptOutline(s.body, s.hinge, s.angle, excess.Metres()/2)
		for _, b := range slabs(side, excess.Metres()/2) {
			for _, v := range []pt{{b.u0, b.z0}, {b.u0, b.z1}, {b.u1, b.z0}, {b.u1, b.z1}} {
				if d := distanceToSimple(side, v); d > excess.Metres()/2+1e-9 {
					t.Fatalf("%d: a slab stands %g mm out", i, d*1e3)
				}
			}
		}
	}
}

// holdsNearly allows for the rounding of the point: one micrometre.
func holdsNearly(o Outline, p Vec2) bool {
	if o.Contains(p) {
		return true
	}
	for i, a := range o.points {
		if toSegment(raw(p), a, o.points[(i+1)%len(o.points)]) <= 1 {
			return true
		}
	}
	return false
}

// distanceToSimple is the distance of a point from a simple polygon, 0 inside.
func distanceToSimple(poly []pt, p pt) float64 {
	inside, least := false, math.Inf(1)
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a.y > p.y) != (b.y > p.y) && p.x < lerp(a.x, b.x, (p.y-a.y)/(b.y-a.y)) {
			inside = !inside
		}
		e := b.minus(a)
		f := math.Max(0, math.Min(1, p.minus(a).dot(e)/e.dot(e)))
		least = math.Min(least, a.plus(e.times(f)).minus(p).length())
	}
	if inside {
		return 0
	}
	return least
}

func TestPropSlideByHand(t *testing.T) {
	drawer := box(0, 0, 200, 500, 400, 400)
	s := must(Slide(drawer, at3(0, 450, 0)))
	for name, c := range map[string]struct {
		thing  Solid
		meets  bool
		travel unit.Length
	}{
		"in front":     {box(100, 700, 0, 200, 800, 900), true, 300 * mm},
		"at the end":   {box(100, 850, 0, 200, 900, 900), false, 0},
		"a little in":  {must(BoxSolid(Box3{Vec3{0, 849999, 0}, at3(100, 900, 900)})), true, 449999},
		"beside":       {box(500, 0, 0, 600, 900, 900), false, 0},
		"under":        {box(0, 0, 0, 500, 900, 200), false, 0},
		"at the start": {box(0, 300, 0, 500, 500, 300), true, 0},
		"behind":       {box(0, -100, 0, 500, 0, 900), false, 0},
	} {
		got, ok := s.Meets(c.thing)
		if ok != c.meets {
			t.Errorf("%s: meets %v", name, ok)
		}
		near(t, name, got.Travel, c.travel, 1)
	}
	if b := must(s.Bounds()); b != (Box3{at3(0, 0, 200), at3(500, 850, 400)}) {
		t.Errorf("bounds %v", b)
	}
	lift := must(Slide(drawer, at3(0, 0, 900)))
	if c, ok := lift.Meets(box(0, 0, 1000, 50, 50, 1100)); !ok || c.Travel != 600*mm {
		t.Errorf("bed meets the locker after %v", c.Travel)
	}
	if _, ok := lift.Meets(box(0, 0, 1300, 50, 50, 1400)); ok {
		t.Error("bed meets what it only reaches")
	}
	if _, ok := lift.Meets(box(0, 0, 0, 50, 50, 200)); ok {
		t.Error("bed meets what is under it")
	}
	lower := must(Slide(drawer, at3(0, 0, -150)))
	if c, ok := lower.Meets(box(0, 0, 0, 50, 50, 100)); !ok || c.Travel != 100*mm {
		t.Errorf("lowered bed meets the box after %v", c.Travel)
	}
	if b := must(lower.Bounds()); b.Min.Z != 50*mm || b.Max.Z != 400*mm {
		t.Errorf("bounds %v", b)
	}
	if c, ok := lift.Meets(drawer); !ok || c.Travel != 0 {
		t.Error("in itself")
	}
}

// TestCrossSlideAgainstItsHull: a level slide meets something if and only if the hull of both ends overlaps it, exactly.
func TestCrossSlideAgainstItsHull(t *testing.T) {
	r := random(43)
	for range 300 {
		o, _ := convexAround(r)
		travel := Vec3{millimetres(r.IntN(800) - 400), millimetres(r.IntN(800) - 400), 0}
		s := must(Slide(must(NewSolid(o, 0, mm)), travel))
		thing := polygon(r, 300000).Move(at2(1500+r.IntN(1000), r.IntN(1000)-400))
		hull := must(s.Outline(mm))
		c, ok := s.Meets(must(NewSolid(thing, 0, mm)))
		if ok != hull.Overlaps(thing) {
			if _, deep, _ := hull.Clear(thing); deep > 1 {
				t.Errorf("meets %v, hull %v", ok, !ok)
			}
			continue
		}
		if ok && c.Travel > 0 { // just before, it does not overlap; just after, it does
			f := c.Travel.Metres()/metres2(travel.Flat()).length() - 5e-6
			v := Vec2{travel.X.Times(f), travel.Y.Times(f)}
			if moved := o.Move(v); moved.Overlaps(thing) {
				if _, deep, _ := moved.Clear(thing); deep > 4 {
					t.Errorf("overlap by %v before contact", deep)
				}
			}
		}
	}
}

func TestPropBadSweeps(t *testing.T) {
	part := box(0, 0, 0, 100, 100, 100)
	ell := must(NewSolid(must(NewOutline([]Vec2{{0, 0}, {9, 0}, {9, 2}, {2, 2}, {2, 9}, {0, 9}})), 0, 1))
	for _, a := range []unit.Angle{unit.Angle(math.NaN()), unit.Angle(math.Inf(-1)), 361 * unit.Degree, -361 * unit.Degree} {
		var e AngleError
		if _, err := Swing(part, Vec2{}, a); !errors.As(err, &e) {
			t.Errorf("swing %v: %v", a, err)
		}
		if _, err := Tip(Panel{To: at2(1, 0), Far: 1, High: 1}, a); !errors.As(err, &e) {
			t.Errorf("tip %v: %v", a, err)
		}
	}
	for name, err := range map[string]error{
		"L swings":   second(Swing(ell, Vec2{}, 1)),
		"L slides":   second(Slide(ell, Vec3{X: 1})),
		"slanting":   second(Slide(part, Vec3{X: 1, Z: 1})),
		"far":        second(Slide(part, Vec3{X: 11 * unit.Metre})),
		"no axis":    second(Tip(Panel{Far: 1, High: 1}, 1)),
		"no depth":   second(Tip(Panel{To: at2(1, 0), High: 1}, 1)),
		"no solid":   second(Swing(Solid{}, Vec2{}, 1)),
		"far panel":  second(Tip(Panel{To: Vec2{MaxCoordinate, 0}, Far: 1, High: 1}, 1)),
		"too exact":  second(must(Swing(part, Vec2{}, 1)).Outline(1)),
		"too exact ": second(must(Tip(Panel{To: at2(1, 0), Far: mm, High: mm}, 1)).Solids(1)),
	} {
		if err == nil {
			t.Errorf("%s is taken", name)
		}
	}
	if o := must(must(Swing(part, Vec2{}, 0)).Outline(mm)); !o.Contains(at2(50, 50)) || o.Contains(at2(50, 101)) {
		t.Error("a door that does not move")
	}
}
