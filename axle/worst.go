package axle

import (
	"math"
	"slices"

	"berthwright/unit"
)

// Sense tells which end of a measure is sought.
type Sense uint8

// The senses.
const (
	Most Sense = iota
	Least
)

// Pick is one variable of the plan as the case has it.
type Pick struct {
	Group  string // id
	Load   Load   // as it may be: Load.Mass is the most
	Mass   unit.Mass
	Lever  unit.Ratio // kg on the measure per kg; for a share, of its numerator less the share of its denominator
	Pieces int        // whole pieces aboard, when it comes in pieces
	Must   bool       // aboard whatever the lever

	floor, room float64 // kg: least, and most above it
	price       float64 // what a kilogram under the limit of its group is worth
}

// Case is the plan at its worst for one measure or share.
type Case struct {
	Measure Measure
	Over    Measure // the denominator of a share
	Sense   Sense
	Picks   []Pick // every variable, group by group, in the order of filling
	Split   Split  // base and picks
	Value   unit.Mass
	Share   unit.Opt[unit.Ratio]
	Rounds  []unit.Ratio // the share after each round of the iteration

	base   Split
	groups []Group
	prices []float64 // by group: what a kilogram more under its limit would gain
	rooms  []float64 // by group: limit less the least of its loads, kg
	value  float64   // of the objective that was filled last, base included
	tried  int       // steps of the search over whole pieces
}

// Worst returns the plan within groups that makes m largest or smallest, with base always
// aboard. The groups are independent, so each is filled by itself in the order of leverage; in a
// group with whole pieces under one limit the combinations are searched with the
// fractional fill as bound. Both are exact.
//
// It refuses a plan that no van can have, and a measure that needs an unknown place
// (MissingError).
func Worst(base Split, groups []Group, m Measure, sense Sense) (Case, error) {
	if err := checkGroups(groups); err != nil {
		return Case{}, err
	}
	c := Case{Measure: m, Sense: sense, base: base, groups: groups}
	if err := c.fill(m); err != nil {
		return Case{}, err
	}
	c.close()
	c.Value = unit.Kilogram.Times(c.Split.read(&m))
	return c, nil
}

// WorstShare returns the plan within groups that makes the share m/over largest or smallest, such as
// the front axle over the total. It iterates (W. Dinkelbach, On nonlinear fractional
// programming, Management Science 13 (1967), from memory): fill for m − q·over with q the last
// share, until the fill gains nothing. Each round is exact, so the share found is.
func WorstShare(base Split, groups []Group, m, over Measure, sense Sense) (Case, error) {
	if err := checkGroups(groups); err != nil {
		return Case{}, err
	}
	c := Case{Measure: m, Over: over, Sense: sense, base: base, groups: groups}
	if err := c.fill(m); err != nil {
		return Case{}, err
	}
	low := Case{Sense: Least, base: base, groups: groups}
	if err := low.fill(over); err != nil {
		return Case{}, err
	}
	if !(low.value > 0) {
		return Case{}, RangeError{Name: over.Name, Got: low.value, Want: "more than 0 kg in every case"}
	}
	for range 100 {
		q := c.tally(&m) / c.tally(&over)
		c.Rounds = append(c.Rounds, unit.Ratio(q))
		if err := c.fill(m.Plus(-q, over, m.Name+" share of "+over.Name)); err != nil {
			return Case{}, err
		}
		if math.Abs(c.value) <= slack {
			break
		}
	}
	c.close()
	c.Value = unit.Kilogram.Times(c.Split.read(&m))
	c.Share = unit.Some(c.Value.Per(unit.Kilogram.Times(c.Split.read(&over))))
	return c, nil
}

// tally returns what m reads of base and picks.
func (c *Case) tally(m *Measure) float64 {
	v := c.base.read(m)
	for i := range c.Picks {
		if kg := c.Picks[i].Mass.Kilograms(); kg != 0 {
			v += kg * m.lever(c.Picks[i].Load.At, c.Picks[i].Load.On)
		}
	}
	return v
}

// close adds the picks to the base.
func (c *Case) close() { c.Split = c.base.with(c.Aboard()) }

// Aboard returns what the case carries beside the base, each half-width scaled with its mass.
func (c Case) Aboard() []Load {
	loads := make([]Load, 0, len(c.Picks))
	for _, p := range c.Picks {
		if p.Mass == 0 {
			continue
		}
		l := p.Load
		l.Half = l.Half.Times(p.Mass.Per(l.Mass).Share())
		l.Mass = p.Mass
		loads = append(loads, l)
	}
	return loads
}

// fill chooses the picks that make obj extreme.
func (c *Case) fill(obj Measure) error {
	c.Picks = c.Picks[:0]
	c.value, c.tried = c.base.read(&obj), 0
	if math.IsNaN(c.value) {
		return MissingError{Measure: obj.Name, IDs: c.base.Missing(obj)}
	}
	c.prices, c.rooms = c.prices[:0], c.rooms[:0]
	for i := range c.groups {
		if err := c.fillGroup(&c.groups[i], &obj); err != nil {
			return err
		}
	}
	return nil
}

func (c *Case) fillGroup(g *Group, obj *Measure) error {
	sign := 1.0
	if c.Sense == Least {
		sign = -1
	}
	s := search{room: g.cap(), vars: make([]choice, len(g.Variables))}
	for i := range g.Variables {
		v := &g.Variables[i]
		k := choice{index: i, gain: sign * obj.lever(v.At, v.On), floor: v.floor(), most: v.Mass.Kilograms()}
		if math.IsNaN(k.gain) {
			if v.Mass == 0 {
				k.gain = 0
			} else {
				return MissingError{Measure: obj.Name, IDs: []string{v.ID}}
			}
		}
		if v.Pieces > 0 && k.most > 0 {
			k.piece = v.piece()
		}
		s.room -= k.floor
		s.vars[i] = k
	}
	s.room = max(s.room, 0)
	slices.SortStableFunc(s.vars, func(a, b choice) int {
		switch {
		case a.gain > b.gain:
			return -1
		case a.gain < b.gain:
			return 1
		}
		return a.index - b.index
	})
	extra, price, err := s.run(g.ID)
	if err != nil {
		return err
	}
	c.tried += s.tried
	c.prices, c.rooms = append(c.prices, price), append(c.rooms, s.room)
	for i, k := range s.vars {
		v := &g.Variables[k.index]
		kg := k.floor + extra[i]
		if k.piece > 0 {
			kg = k.piece * math.Round(kg/k.piece)
		}
		p := Pick{Group: g.ID, Load: v.Load, Mass: unit.Kilogram.Times(kg), Lever: unit.Ratio(sign * k.gain), Must: k.floor > 0 && k.floor >= k.most,
			floor: k.floor, room: k.most - k.floor, price: price}
		if k.piece > 0 {
			p.Pieces = int(math.Round(kg / k.piece))
		}
		c.Picks = append(c.Picks, p)
		c.value += kg * sign * k.gain
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

	now, best []float64
	gain      float64
	full      bool // more steps than allowed
}

const mostSteps = 2_000_000 // about 0.1 s

// run returns the kilograms above each floor, and the gain of the last kilogram under the limit when pieces
// may be broken, nought where the limit does not bind.
func (s *search) run(group string) (extra []float64, price float64, err error) {
	extra = make([]float64, len(s.vars))
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
