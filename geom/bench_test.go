package geom

import (
	"testing"

	"berthwright/unit"
)

// furnished is 200 solids as in a full van, every third one turned.
func furnished() []Solid {
	r := random(60)
	var out []Solid
	for i := range 200 {
		turn := unit.Angle(0)
		if i%3 == 0 {
			turn = unit.Angle(r.IntN(360)) * unit.Degree
		}
		o := must(TurnedBox(at2(1500+r.IntN(3500), r.IntN(1600)-800), Vec2{millimetres(50 + r.IntN(400)), millimetres(50 + r.IntN(400))}, turn))
		low := millimetres(r.IntN(1500))
		out = append(out, must(NewSolid(o, low, low+millimetres(50+r.IntN(500)))))
	}
	return out
}

func BenchmarkPairs200(b *testing.B) {
	solids := furnished()
	b.ReportAllocs()
	for b.Loop() {
		if len(Pairs(solids)) < 10 {
			b.Fatal("nothing overlaps")
		}
	}
}

func BenchmarkClash(b *testing.B) {
	s, o := furnished()[0], furnished()[0].Move(Vec3{10 * mm, 10 * mm, 10 * mm})
	for b.Loop() {
		s.Clash(o)
	}
}

func benchShell() Shell {
	st := randomStations(random(61), true)
	var all []Station
	for i := range 8 {
		p := st[i%len(st)]
		p.X = millimetres(1000 + 600*i)
		all = append(all, p)
	}
	return must(must(NewShell(all)).Lined(benchLinings()))
}

func benchLinings() []Lining {
	return []Lining{{LeftWall, 0, 3000 * mm, 40 * mm}, {LeftWall, 3000 * mm, 6000 * mm, 60 * mm}, {RightWall, 0, 6000 * mm, 40 * mm}, {Roof, 0, 6000 * mm, 40 * mm}, {Floor, 0, 6000 * mm, 34 * mm}}
}

func BenchmarkLined8Stations(b *testing.B) {
	s := benchShell()
	s.linings = nil
	for b.Loop() {
		if _, err := s.Lined(benchLinings()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFit200(b *testing.B) {
	s, solids := benchShell(), furnished()
	b.ReportAllocs()
	for b.Loop() {
		for _, o := range solids {
			if _, err := s.Fit(o); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkDoorAgainst200(b *testing.B) {
	solids := furnished()
	door := must(Swing(box(3000, 0, 0, 3600, 20, 1500), at2(3000, 0), 90*unit.Degree))
	for b.Loop() {
		for _, o := range solids {
			door.Meets(o)
		}
	}
}

func BenchmarkSweptOutline(b *testing.B) {
	door := must(Swing(box(3000, 0, 0, 3600, 20, 1500), at2(3000, 0), 90*unit.Degree))
	for b.Loop() {
		must(door.Outline(mm))
	}
}

func BenchmarkWidestWay(b *testing.B) {
	floor := must(Rectangle(at2(1000, -850), at2(5000, 850)))
	solids := []Solid{box(2000, -850, 0, 3000, -300, 900), box(2500, 260, 0, 3500, 850, 900)}
	for b.Loop() {
		must(WidestWay(floor, solids, 0, 1900*mm, at2(1500, 0), at2(4500, 0)))
	}
}

func BenchmarkStandingRoom(b *testing.B) {
	s, solids := benchShell(), furnished()
	for b.Loop() {
		must(s.StandingRoom(1300*mm, solids))
	}
}
