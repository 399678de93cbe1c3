package axle

import (
	"math"
	"slices"
)

// filler finds the plan that makes one linear measure extreme. It is used again for each round of a share.
type filler struct {
	base   *Split
	groups []Group

	picks  []pick    // group by group, in the order of filling
	prices []float64 // by group, see Case
	rooms  []float64
	value  float64 // of the objective, base included
	tried  int

	search search
}

// pick is one variable as the fill has it, in plain numbers.
type pick struct {
	group, index int
	kg, lever    float64
	floor, room  float64 // least, and most above it
	piece        float64
}

func newFiller(base *Split, groups []Group) (*filler, error) {
	if err := checkGroups(groups); err != nil {
		return nil, err
	}
	n := 0
	for i := range groups {
		n += len(groups[i].Variables)
	}
	return &filler{
		base: base, groups: groups, picks: make([]pick, 0, n),
		prices: make([]float64, 0, len(groups)), rooms: make([]float64, 0, len(groups)),
	}, nil
}

// read returns what m reads of base and picks.
func (f *filler) read(m *Measure) float64 {
	v := f.base.read(m)
	for i := range f.picks {
		if p := &f.picks[i]; p.kg != 0 {
			v += p.kg * m.lever(&f.groups[p.group].Variables[p.index].Load)
		}
	}
	return v
}

// fill chooses the picks that make obj extreme.
func (f *filler) fill(obj *Measure, sense Sense) error {
	f.picks, f.prices, f.rooms, f.tried = f.picks[:0], f.prices[:0], f.rooms[:0], 0
	f.value = f.base.read(obj)
	if math.IsNaN(f.value) {
		return MissingError{Measure: obj.Name, IDs: f.base.Missing(*obj)}
	}
	sign := 1.0
	if sense == Least {
		sign = -1
	}
	for i := range f.groups {
		if err := f.fillGroup(i, obj, sign); err != nil {
			return err
		}
	}
	return nil
}

func (f *filler) fillGroup(at int, obj *Measure, sign float64) error {
	g, s := &f.groups[at], &f.search
	s.start(g.cap())
	for i := range g.Variables {
		v := &g.Variables[i]
		k := choice{index: i, gain: sign * obj.lever(&v.Load), floor: v.floor(), most: v.Mass.Kilograms()}
		switch {
		case v.Mass == 0:
			k.gain = 0 // what weighs nothing needs no place
		case math.IsNaN(k.gain):
			return MissingError{Measure: obj.Name, IDs: []string{v.ID}}
		case v.Pieces > 0:
			k.piece = v.piece()
		}
		s.room -= k.floor
		s.vars = append(s.vars, k)
	}
	s.room = max(s.room, 0)
	slices.SortFunc(s.vars, func(a, b choice) int {
		if c := falling(a.gain, b.gain); c != 0 {
			return c
		}
		return a.index - b.index
	})
	extra, price, err := s.run(g.ID)
	if err != nil {
		return err
	}
	f.tried += s.tried
	f.prices, f.rooms = append(f.prices, price), append(f.rooms, s.room)
	for i, k := range s.vars {
		kg := k.floor + extra[i]
		if k.piece > 0 {
			kg = k.piece * math.Round(kg/k.piece)
		}
		f.picks = append(f.picks, pick{at, k.index, kg, sign * k.gain, k.floor, k.most - k.floor, k.piece})
		f.value += kg * sign * k.gain
	}
	return nil
}

// choice is one variable of a group while it is filled: gain per kg, sorted falling.
type choice struct {
	index       int
	gain        float64
	floor, most float64 // kg
	piece       float64 // kg of one whole piece, 0 when any mass will do
}

// search fills one group. With whole pieces under a limit it goes depth first through the counts,
// most first, and drops a branch whose fractional fill cannot beat the best found.
type search struct {
	room  float64
	vars  []choice
	tried int

	extra     []float64 // of the fractional fill
	now, best []float64
	gain      float64
	full      bool // more steps than allowed
}

// start makes the search ready for another group.
func (s *search) start(room float64) {
	s.room, s.vars, s.tried, s.full = room, s.vars[:0], 0, false
}

// mostSteps bounds the search over pieces. It takes about 0.1 s; a plan as people write it takes tens of steps.
const mostSteps = 2_000_000

// run returns the kilograms above each floor, and the gain of the last kilogram under the limit when pieces
// may be broken, nought where the limit does not bind.
func (s *search) run(group string) (extra []float64, price float64, err error) {
	s.extra = append(s.extra[:0], make([]float64, len(s.vars))...)
	extra = s.extra
	price = s.fractional(extra)
	whole := true
	for i, k := range s.vars {
		if k.piece > 0 && math.Abs(extra[i]-k.piece*math.Round(extra[i]/k.piece)) > slack {
			whole = false
		}
	}
	if whole {
		return extra, price, nil
	}
	s.now, s.best, s.gain = make([]float64, len(s.vars)), nil, math.Inf(-1)
	s.branch(0, s.room, 0)
	if s.full {
		return nil, 0, SearchError{Group: group, Steps: mostSteps}
	}
	return s.best, price, nil
}

// fractional fills in order of gain as if nothing came in pieces, and returns what the last kilogram gained if
// the limit was reached.
func (s *search) fractional(extra []float64) (price float64) {
	room := s.room
	for i := 0; i < len(s.vars) && s.vars[i].gain > 0; i++ {
		want := s.vars[i].most - s.vars[i].floor
		extra[i] = min(want, room)
		if room -= extra[i]; extra[i] < want {
			return s.vars[i].gain
		}
	}
	return 0
}

// branch decides the pieces of vars[i:]; what can have any mass is filled last, in order.
func (s *search) branch(i int, room, gain float64) {
	s.tried++
	if s.tried > mostSteps {
		s.full = true
	}
	if s.full || gain+s.rest(i, room) <= s.gain {
		return
	}
	for i < len(s.vars) && s.vars[i].piece == 0 {
		i++
	}
	if i == len(s.vars) {
		s.leaf(room, gain)
		return
	}
	k := s.vars[i]
	n := 0
	if k.gain > 0 {
		n = int(math.Floor(min(k.most-k.floor, room)/k.piece + slack))
	}
	for ; n >= 0; n-- {
		kg := float64(n) * k.piece
		s.now[i] = kg
		s.branch(i+1, max(room-kg, 0), gain+kg*k.gain)
	}
	s.now[i] = 0
}

// rest bounds what everything still undecided can gain: pieces from vars[i:] and all free masses.
func (s *search) rest(i int, room float64) float64 {
	sum := 0.0
	for j, k := range s.vars {
		if k.gain <= 0 || room <= 0 {
			break
		}
		if j < i && k.piece > 0 {
			continue
		}
		kg := min(k.most-k.floor, room)
		sum += kg * k.gain
		room -= kg
	}
	return sum
}

func (s *search) leaf(room, gain float64) {
	for j, k := range s.vars {
		if k.piece > 0 {
			continue
		}
		kg := 0.0
		if k.gain > 0 {
			kg = min(k.most-k.floor, room)
		}
		s.now[j] = kg
		gain += kg * k.gain
		room -= kg
	}
	if gain > s.gain {
		s.gain = gain
		s.best = append(s.best[:0], s.now...)
	}
}
