package axle

import (
	"math"

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
	f, err := newFiller(&base, groups)
	if err != nil {
		return Case{}, err
	}
	if err := f.fill(&m, sense); err != nil {
		return Case{}, err
	}
	c := Case{Measure: m, Sense: sense}
	c.take(f)
	return c, nil
}

// WorstValue returns what Worst would find as its Value, without the case itself.
func WorstValue(base Split, groups []Group, m Measure, sense Sense) (unit.Mass, error) {
	f, err := newFiller(&base, groups)
	if err != nil {
		return 0, err
	}
	if err := f.fill(&m, sense); err != nil {
		return 0, err
	}
	return unit.Kilogram.Times(f.value), nil
}

// WorstShare returns the plan within groups that makes the share m/over largest or smallest, such as
// the front axle over the total. It iterates (W. Dinkelbach, On nonlinear fractional
// programming, Management Science 13 (1967), from memory): fill for m − q·over with q the last
// share, until the fill gains nothing. Each round is exact, so the share found is. The measure
// over must be above 0 kg in every case.
func WorstShare(base Split, groups []Group, m, over Measure, sense Sense) (Case, error) {
	f, err := newFiller(&base, groups)
	if err != nil {
		return Case{}, err
	}
	if err := f.fill(&over, Least); err != nil {
		return Case{}, err
	}
	if !(f.value > 0) {
		return Case{}, RangeError{Name: over.Name, Got: f.value, Want: "more than 0 kg in every case"}
	}
	if err := f.fill(&m, sense); err != nil {
		return Case{}, err
	}
	c := Case{Measure: m, Over: over, Sense: sense}
	name := m.Name + " less the share of " + over.Name
	for range mostRounds {
		q := f.read(&m) / f.read(&over)
		c.Rounds = append(c.Rounds, unit.Ratio(q))
		objective := m.Plus(-q, over, name)
		if err := f.fill(&objective, sense); err != nil {
			return Case{}, err
		}
		if math.Abs(f.value) <= slack {
			break
		}
	}
	c.take(f)
	c.Share = unit.Some(c.Value.Per(unit.Kilogram.Times(c.Split.read(&over))))
	return c, nil
}

// mostRounds is far more than the iteration needs: it gains more digits each round and took at most
// eight in the tests.
const mostRounds = 50

// take fills the case from what was found.
func (c *Case) take(f *filler) {
	c.base, c.groups, c.prices, c.rooms, c.tried = *f.base, f.groups, f.prices, f.rooms, f.tried
	c.Picks = make([]Pick, len(f.picks))
	for i, k := range f.picks {
		g := &f.groups[k.group]
		p := Pick{Group: g.ID, Load: g.Variables[k.index].Load, Mass: unit.Kilogram.Times(k.kg), Lever: unit.Ratio(k.lever),
			Must: k.floor > 0 && k.room <= 0, floor: k.floor, room: k.room, price: f.prices[k.group]}
		if k.piece > 0 {
			p.Pieces = int(math.Round(k.kg / k.piece))
		}
		c.Picks[i] = p
	}
	c.Split = c.base.with(c.Aboard())
	c.Value = unit.Kilogram.Times(c.Split.read(&c.Measure))
}

// Aboard returns what the case carries beside the base, each half-width scaled with its mass.
func (c Case) Aboard() []Load {
	loads := make([]Load, 0, len(c.Picks))
	for i := range c.Picks {
		p := &c.Picks[i]
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
