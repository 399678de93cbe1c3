package geom

import (
	"testing"

	"berthwright/unit"
)

const mm = unit.Millimetre

func boxShell(t *testing.T) Shell {
	t.Helper()
	c := func(y, z unit.Length) Corner { return Corner{y * 1, z} }
	left := []Corner{c(-900*mm, 0), c(-900*mm, 1600*mm), c(-600*mm, 1900*mm)}
	s, err := NewShell([]Station{{X: 1000 * mm, Left: left}, {X: 3000 * mm, Left: left}})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestTry(t *testing.T) {
	s := boxShell(t)
	t.Log(s.Wall(LeftWall, 2000*mm, 1700*mm))
	t.Log(s.Section(2000 * mm))
	l, err := s.Lined([]Lining{{LeftWall, 0, 2000 * mm, 50 * mm}, {Roof, 0, 2000 * mm, 40 * mm}, {Floor, 0, 2000 * mm, 30 * mm}})
	t.Log(err)
	t.Log(l.Section(1500 * mm))
	t.Log(l.Across(1200*mm, 1900*mm, 500*mm, 600*mm))
	b, _ := BoxSolid(Box3{Vec3{1100 * mm, -880 * mm, 0}, Vec3{1500 * mm, 0, 1800 * mm}})
	t.Log(l.Fit(b))
	r, err := s.Raised([]Raise{{1200 * mm, 1800 * mm, -500 * mm, 500 * mm, 600 * mm}})
	t.Log(r.Section(1500 * mm))
}
