package axle

import (
	"math"

	"berthwright/unit"
)

// Measure is a linear reading of a set of loads, in kg: each load adds its mass times a lever that
// depends on its place alone. A weighbridge, a plated limit and a body-maker's share are all
// of this form.
type Measure struct {
	Name string
	per  [ons]lever
}

// lever is kg per kg: fixed + x·X + y·Y, coordinates in metres.
type lever struct{ fixed, x, y float64 }

// everywhere returns a measure with one lever wherever the load is carried.
func everywhere(name string, l lever) Measure {
	m := Measure{Name: name}
	for i := range m.per {
		m.per[i] = l
	}
	return m
}

// Total reads the whole van: lever 1.
func Total() Measure { return everywhere("total", lever{fixed: 1}) }

// Front reads the front axle: lever 1 − x/l.
func (g Geometry) Front() Measure {
	return everywhere("front axle", lever{fixed: 1, x: -1 / g.Wheelbase.Metres()})
}

// Rear reads the rear axle: lever x/l.
func (g Geometry) Rear() Measure {
	return everywhere("rear axle", lever{x: 1 / g.Wheelbase.Metres()})
}

// Left reads the left wheels: lever 1/2 − y/t with t the mean of both tracks. It is exact when the
// tracks are equal; else what the side moment moves is in doubt by half the difference of the
// tracks over a track, about one part in a hundred of it. It is unknown without tracks.
func (g Geometry) Left() Measure {
	return everywhere("left side", lever{fixed: 0.5, y: -1 / g.track()})
}

// Right reads the right wheels: lever 1/2 + y/t, see Left.
func (g Geometry) Right() Measure {
	return everywhere("right side", lever{fixed: 0.5, y: 1 / g.track()})
}

// Carried reads what is carried there, whatever its place.
func Carried(on On) Measure {
	m := Measure{Name: [...]string{"inside", "roof", "under the floor", "behind"}[on]}
	m.per[on] = lever{fixed: 1}
	return m
}

// Plus returns m + factor · other under a new name, such as a shortfall of front share:
// Total times 0.30 less Front.
func (m Measure) Plus(factor float64, other Measure, name string) Measure {
	m.Name = name
	for i, l := range other.per {
		m.per[i].fixed += factor * l.fixed
		m.per[i].x += factor * l.x
		m.per[i].y += factor * l.y
	}
	return m
}

// Lever returns how many kilograms one kilogram there adds to the reading; absent when a
// coordinate that matters is unknown.
func (m Measure) Lever(at Place, on On) unit.Opt[unit.Ratio] {
	v := m.leverAt(&at, on)
	if math.IsNaN(v) {
		return unit.Opt[unit.Ratio]{}
	}
	return unit.Some(unit.Ratio(v))
}

func (m *Measure) lever(l *Load) float64 { return m.leverAt(&l.At, l.On) }

// leverAt returns kg per kg, NaN when a coordinate that matters is unknown.
func (m *Measure) leverAt(at *Place, on On) float64 {
	l := &m.per[on]
	v := l.fixed
	if l.x != 0 {
		v += l.x * metres(at.X)
	}
	if l.y != 0 {
		v += l.y * metres(at.Y)
	}
	return v
}
