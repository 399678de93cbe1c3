package axle

import (
	"cmp"
	"math"
	"slices"

	"berthwright/unit"
)

// Candidate is a load of the base that may be moved along the van, its mass centre between From and
// To, or taken out. The caller leaves out what must never be offered.
type Candidate struct {
	Load     Load
	CanMove  bool
	From, To unit.Length
	CanGo    bool
}

// Mend is one single change and what it does.
type Mend struct {
	Load    Load
	Removal bool
	To      unit.Length // new x of the mass centre; of a move
	By      unit.Length // rearwards positive; of a move
	Gain    unit.Mass   // on the bound to be mended
	Clears  bool        // the bound then has the margin wanted
	Margins []unit.Mass // of every bound afterwards
	Reopens []int       // bounds that held and no longer do
}

// Clears ranks the single changes that mend bounds[target] up to the margin want: first those that
// clear it and reopen nothing, then those that clear it but reopen another, then the most
// effective of the rest; among equals moves before removals, and the least change first.
//
// A move goes no further than it must, in whole millimetres; a change that gains nothing is left out.
func Clears(bounds []Bound, target int, candidates []Candidate, want unit.Mass) ([]Mend, error) {
	if err := checkBounds(bounds); err != nil {
		return nil, err
	}
	if target < 0 || target >= len(bounds) {
		return nil, RangeError{Name: "bound to be mended", Got: float64(target), Want: "the index of a bound"}
	}
	if w := want.Kilograms(); !finite(w) {
		return nil, RangeError{Name: "margin wanted", Got: w, Want: "a finite mass"}
	}
	var mends []*Mend // sorted as pointers: a Mend is large
	for i := range candidates {
		c := &candidates[i]
		if err := c.Load.check(); err != nil {
			return nil, err
		}
		if c.CanMove && c.From > c.To {
			return nil, RangeError{Name: "range of x", ID: c.Load.ID, Got: c.To.Metres(), Want: "to behind from"}
		}
		if m, ok := move(bounds, target, c, want); ok {
			mends = append(mends, &m)
		}
		if m, ok := removal(bounds, target, c, want); ok {
			mends = append(mends, &m)
		}
	}
	slices.SortStableFunc(mends, func(a, b *Mend) int {
		if d := a.class() - b.class(); d != 0 {
			return d
		}
		if !a.Clears {
			return falling(a.Gain, b.Gain)
		}
		if a.Removal != b.Removal {
			if a.Removal {
				return 1
			}
			return -1
		}
		if a.Removal {
			return cmp.Compare(a.Load.Mass, b.Load.Mass)
		}
		return cmp.Compare(max(a.By, -a.By), max(b.By, -b.By))
	})
	out := make([]Mend, len(mends))
	for i, m := range mends {
		out[i] = *m
	}
	return out, nil
}

func (m *Mend) class() int {
	switch {
	case !m.Clears:
		return 2
	case len(m.Reopens) > 0:
		return 1
	}
	return 0
}

func move(bounds []Bound, target int, c *Candidate, want unit.Mass) (Mend, bool) {
	x, known := c.Load.At.X.Get()
	slope := c.Load.Mass.Kilograms() * bounds[target].Measure.per[c.Load.On].x // kg per metre rearwards
	if !c.CanMove || !known || slope == 0 || math.IsNaN(slope) {
		return Mend{}, false
	}
	end := c.To
	if slope > 0 {
		end = c.From
	}
	if reach := (x.Metres() - end.Metres()) * slope; !(reach > 0) {
		return Mend{}, false // it stands at that end, or beyond
	}
	to := end
	if short := want.Kilograms() - bounds[target].Margin.Kilograms(); short > 0 {
		// The distance that just suffices, up to the next whole millimetre.
		by := unit.Length(math.Ceil(short/math.Abs(slope)*1000-slack)) * unit.Millimetre
		if slope > 0 {
			to = max(x-by, end)
		} else {
			to = min(x+by, end)
		}
	}
	m := Mend{Load: c.Load, To: to, By: to - x}
	at := c.Load.At
	at.X = unit.Some(to)
	return m.settle(bounds, target, want, func(b *Bound) float64 {
		return c.Load.Mass.Kilograms() * (b.Measure.leverAt(&at, c.Load.On) - b.Measure.lever(&c.Load))
	})
}

func removal(bounds []Bound, target int, c *Candidate, want unit.Mass) (Mend, bool) {
	if !c.CanGo {
		return Mend{}, false
	}
	m := Mend{Load: c.Load, Removal: true}
	return m.settle(bounds, target, want, func(b *Bound) float64 {
		return -c.Load.Mass.Kilograms() * b.Measure.lever(&c.Load)
	})
}

// settle fills margins from what the change adds to each bound's measure; a bound that needs an
// unknown place keeps its margin only if the change cannot touch it, so such a change is dropped.
func (m Mend) settle(bounds []Bound, target int, want unit.Mass, adds func(b *Bound) float64) (Mend, bool) {
	gain := -adds(&bounds[target])
	if !(gain > 0) {
		return Mend{}, false
	}
	m.Gain = unit.Kilogram.Times(gain)
	m.Margins = make([]unit.Mass, len(bounds))
	for j := range bounds {
		after := bounds[j].Margin.Kilograms() - adds(&bounds[j])
		if math.IsNaN(after) {
			return Mend{}, false
		}
		m.Margins[j] = unit.Kilogram.Times(after)
		if j != target && bounds[j].Margin >= 0 && after < 0 {
			m.Reopens = append(m.Reopens, j)
		}
	}
	m.Clears = m.Margins[target].Kilograms() >= want.Kilograms()-slack
	return m, true
}
