package geom

import (
	"testing"

	"berthwright/unit"
)

// FuzzShell: whatever the corners, a shell is refused or sound; what is lined lies inside the bare, and its section closes.
func FuzzShell(f *testing.F) {
	f.Add([]byte{90, 0, 90, 160, 60, 30, 85, 0, 80, 170, 50, 20}, byte(40), byte(30))
	f.Add([]byte{90, 0, 60, 20, 90, 20, 60, 20, 90, 20, 10, 9, 80, 0, 70, 1, 80, 1, 70, 90, 0, 60}, byte(200), byte(0))
	f.Fuzz(func(t *testing.T, data []byte, wall, roof byte) {
		var st []Station
		for i := range 2 {
			half := data[len(data)/2*i : len(data)/2*(i+1)]
			s := Station{X: millimetres(1000 + 500*i)}
			z := unit.Length(0)
			for k := 0; k+1 < len(half) && k < 24; k += 2 {
				z += millimetres(10 * int(half[k+1]))
				s.Left = append(s.Left, Corner{-millimetres(10 * int(half[k])), z})
			}
			st = append(st, s)
		}
		s, err := NewShell(st)
		if err != nil {
			return
		}
		l, err := s.Lined([]Lining{{LeftWall, 0, 1200 * mm, millimetres(int(wall))}, {RightWall, 0, 2000 * mm, millimetres(int(wall))}, {Roof, 0, 2000 * mm, millimetres(int(roof))}, {Floor, 1100 * mm, 2000 * mm, 20 * mm}})
		if err != nil {
			return
		}
		for _, x := range []unit.Length{1000 * mm, 1050 * mm, 1100 * mm, 1200 * mm, 1300 * mm, 1500 * mm} {
			low, top := must(l.FloorAt(x)), must(l.Ceiling(x))
			bare := must(s.Ceiling(x))
			if top > bare+1 || low >= top {
				t.Fatalf("at %v from %v to %v, bare %v", x, low, top, bare)
			}
			for k := range 9 {
				z := low + (top - low).Times(float64(k)/8)
				a, err := l.Wall(LeftWall, x, z)
				if err != nil {
					t.Fatal(err)
				}
				if b, err := s.Wall(LeftWall, x, min(z, bare)); err != nil || a < b-1 {
					t.Fatalf("lined left wall %v outside the bare %v at x %v z %v (%v)", a, b, x, z, err)
				}
			}
			if sec, err := l.Section(x); err != nil || len(sec) < 3 {
				t.Fatalf("section at %v: %v %v", x, sec, err)
			}
		}
		if _, err := l.Fit(must(BoxSolid(Box3{at3(1010, -300, 100), at3(1400, 500, 900)}))); err != nil {
			t.Fatal(err)
		}
	})
}
