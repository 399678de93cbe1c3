package axle

import (
	"math"
	"slices"

	"berthwright/unit"
)

// Split is where a set of loads goes. What needs an unknown coordinate or track is absent.
//
//	R = Σ mᵢ·xᵢ / l     F = Σ mᵢ − R     right = Σ mᵢ/2 + Σ mᵢ·yᵢ / t     left = Σ mᵢ − right
//
// l is the wheelbase, t the mean of both tracks. Source: statics, moments about the front axle
// and about the centre line.
type Split struct {
	Geometry    Geometry
	Total       unit.Mass
	Moment      unit.Opt[unit.MassMoment] // about the front axle
	SideMoment  unit.Opt[unit.MassMoment] // about the centre line, right positive
	Front, Rear unit.Opt[unit.Mass]
	Left, Right unit.Opt[unit.Mass]
	Roof        unit.Mass
	Centre      Place // mass centre; absent coordinates also when the total is not above 0

	parts [][]Load
	sums  [ons]sums
}

// sums holds Σm, Σm·x, Σm·y, Σm·z in kg and kg·m; NaN when a coordinate is unknown.
type sums struct{ m, x, y, z float64 }

func (s *sums) add(m float64, at *Place) {
	if m == 0 {
		return
	}
	s.m += m
	s.x += m * metres(at.X)
	s.y += m * metres(at.Y)
	s.z += m * metres(at.Z)
}

// Sum adds loads up. It refuses a wheelbase or track that is not above 0, a mass that is not
// finite, a negative half-width, and an empty list. It keeps loads: do not change them afterwards.
func Sum(g Geometry, loads []Load) (Split, error) {
	if err := g.check(); err != nil {
		return Split{}, err
	}
	if len(loads) == 0 {
		return Split{}, ErrEmpty
	}
	s := Split{Geometry: g, parts: [][]Load{loads}}
	for i := range loads {
		if err := loads[i].check(); err != nil {
			return Split{}, err
		}
		s.sums[loads[i].On].add(loads[i].Mass.Kilograms(), &loads[i].At)
	}
	s.settle()
	return s, nil
}

// settle fills the exported figures from the sums.
func (s *Split) settle() {
	var all sums
	for _, p := range s.sums {
		all = sums{all.m + p.m, all.x + p.x, all.y + p.y, all.z + p.z}
	}
	l, t := s.Geometry.Wheelbase.Metres(), s.Geometry.track()
	s.Total = unit.Kilogram.Times(all.m)
	s.Moment, s.SideMoment = momentOpt(all.x), momentOpt(all.y)
	s.Rear, s.Front = massOpt(all.x/l), massOpt(all.m-all.x/l)
	s.Right, s.Left = massOpt(all.m/2+all.y/t), massOpt(all.m/2-all.y/t)
	s.Roof = unit.Kilogram.Times(s.sums[Roof].m)
	s.Centre = Place{}
	if all.m > 0 {
		s.Centre = Place{lengthOpt(all.x / all.m), lengthOpt(all.y / all.m), lengthOpt(all.z / all.m)}
	}
}

// with returns the split with more loads aboard.
func (s Split) with(more []Load) Split {
	s.parts = append(s.parts[:len(s.parts):len(s.parts)], more)
	for i := range more {
		s.sums[more[i].On].add(more[i].Mass.Kilograms(), &more[i].At)
	}
	s.settle()
	return s
}

// With returns the split with more loads aboard, such as one party and its fills.
func (s Split) With(more []Load) (Split, error) {
	for i := range more {
		if err := more[i].check(); err != nil {
			return Split{}, err
		}
	}
	return s.with(more), nil
}

// Loads returns the loads that were added up, in order.
func (s Split) Loads() []Load { return slices.Concat(s.parts...) }

// Read returns what m reads; absent when it needs an unknown coordinate or track.
func (s Split) Read(m Measure) unit.Opt[unit.Mass] { return massOpt(s.read(&m)) }

func (s *Split) read(m *Measure) float64 {
	v := 0.0
	for i, l := range m.per {
		if l.fixed != 0 {
			v += l.fixed * s.sums[i].m
		}
		if l.x != 0 {
			v += l.x * s.sums[i].x
		}
		if l.y != 0 {
			v += l.y * s.sums[i].y
		}
	}
	return v
}

// Missing returns the ids of the loads whose place m needs and does not know.
func (s Split) Missing(m Measure) []string {
	var ids []string
	for _, loads := range s.parts {
		for i := range loads {
			if loads[i].Mass != 0 && math.IsNaN(m.lever(&loads[i])) {
				ids = append(ids, loads[i].ID)
			}
		}
	}
	return ids
}

func momentOpt(kgm float64) unit.Opt[unit.MassMoment] {
	if math.IsNaN(kgm) {
		return unit.Opt[unit.MassMoment]{}
	}
	return unit.Some(unit.Kilogram.Times(kgm).Moment(unit.Metre))
}
