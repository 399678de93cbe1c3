package axle

import (
	"math"
	"slices"

	"berthwright/unit"
)

// Bound is a limit as far as it is used up: Margin is the limit less what Measure reads in the
// worst case for it. A lower limit is a Bound on the negated measure. What is added to, moved in
// or taken from the base changes every case alike, so the margins move with it exactly.
type Bound struct {
	Name    string
	Ref     string
	Measure Measure
	Margin  unit.Mass
}

// Room is how much can still be added somewhere.
type Room struct {
	Mass  unit.Opt[unit.Mass] // absent: no bound is ever reached
	Bound int                 // index of the first bound reached, -1 for none
}

// RoomAt returns how much can be added at a place before the first bound is reached: the least
// margin per lever over the bounds that feel it. Where a bound is passed already and adding
// makes it worse nothing can be added.
func RoomAt(bounds []Bound, at Place, on On) (Room, error) {
	if err := checkBounds(bounds); err != nil {
		return Room{}, err
	}
	best, which := math.Inf(1), -1
	for i := range bounds {
		a := bounds[i].Measure.leverAt(&at, on)
		if math.IsNaN(a) {
			return Room{}, MissingError{Measure: bounds[i].Measure.Name, IDs: []string{"the place"}}
		}
		if kg := room(bounds[i].Margin.Kilograms(), a); kg < best {
			best, which = kg, i
		}
	}
	if which < 0 {
		return Room{Bound: -1}, nil
	}
	return Room{massOpt(best), which}, nil
}

func room(margin, lever float64) float64 {
	switch {
	case !(lever > 0):
		return math.Inf(1)
	case margin <= 0:
		return 0
	}
	return margin / lever
}

// Stretch is a part of the van along which one bound is reached first.
type Stretch struct {
	From, To unit.Length
	Bound    int // index, -1 for none
}

// RoomAlong returns the stretches from one x to another, at one distance y right of the centre
// line, front to rear. Within a stretch the room is the bound's margin per lever, which is linear in x;
// the ends are where two bounds are reached together, to the micrometre.
func RoomAlong(bounds []Bound, from, to, y unit.Length, on On) ([]Stretch, error) {
	if err := checkBounds(bounds); err != nil {
		return nil, err
	}
	if from > to {
		return nil, RangeError{Name: "end of the stretch", Got: to.Metres(), Want: "behind its start"}
	}
	if on >= ons {
		return nil, RangeError{Name: "carrier", Got: float64(on), Want: "inside, roof, under or behind"}
	}
	lines := make([]line, len(bounds))
	cuts := []unit.Length{from, to}
	cut := func(x float64) {
		if x > from.Metres() && x < to.Metres() {
			cuts = append(cuts, unit.MetresLength(x))
		}
	}
	for i := range bounds {
		l := bounds[i].Measure.per[on]
		a := line{margin: max(bounds[i].Margin.Kilograms(), 0), fixed: l.fixed, slope: l.x}
		if l.y != 0 {
			a.fixed += l.y * y.Metres()
		}
		if math.IsNaN(a.fixed) || math.IsNaN(a.slope) {
			return nil, MissingError{Measure: bounds[i].Measure.Name, IDs: []string{"the tracks"}}
		}
		lines[i] = a
		if a.slope != 0 {
			cut(-a.fixed / a.slope)
		}
		for _, b := range lines[:i] {
			// margin_a / (fixed_a + slope_a·x) = margin_b / (fixed_b + slope_b·x)
			if d := a.margin*b.slope - b.margin*a.slope; d != 0 {
				cut((b.margin*a.fixed - a.margin*b.fixed) / d)
			}
		}
	}
	slices.Sort(cuts)
	var out []Stretch
	for i := 1; i < len(cuts); i++ {
		if cuts[i] == cuts[i-1] && from != to {
			continue
		}
		which := first(lines, (cuts[i-1].Metres()+cuts[i].Metres())/2)
		if n := len(out); n > 0 && out[n-1].Bound == which {
			out[n-1].To = cuts[i]
			continue
		}
		out = append(out, Stretch{cuts[i-1], cuts[i], which})
	}
	return out, nil
}

// line is a bound along x: its margin in kg and its lever fixed + slope·x.
type line struct{ margin, fixed, slope float64 }

func first(lines []line, x float64) int {
	best, which := math.Inf(1), -1
	for i, l := range lines {
		if kg := room(l.margin, l.fixed+l.slope*x); kg < best {
			best, which = kg, i
		}
	}
	return which
}

func checkBounds(bounds []Bound) error {
	for i := range bounds {
		if m := bounds[i].Margin.Kilograms(); !finite(m) {
			return RangeError{Name: "margin", ID: bounds[i].Name, Got: m, Want: "a finite mass"}
		}
	}
	return nil
}
