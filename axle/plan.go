package axle

import (
	"math"

	"berthwright/unit"
)

// Variable is something that may be aboard: any mass from Least up to Load.Mass, or, when Pieces
// is above 0, that many whole pieces at most, each a Pieces-th part of Load.Mass. Something that is
// always aboard has Least equal to its mass.
type Variable struct {
	Load
	Least  unit.Mass
	Pieces int
}

// Must returns a load that is always aboard, such as the driver.
func Must(l Load) Variable { return Variable{Load: l, Least: l.Mass} }

// Whole returns a load of up to n whole pieces together having the load's mass; a passenger is one.
func Whole(l Load, n int) Variable { return Variable{Load: l, Pieces: n} }

// UpTo returns a load of any mass from nought to the load's mass, such as a tank or a luggage zone.
func UpTo(l Load) Variable { return Variable{Load: l} }

// Group is one independent part of the declared loading plan: a box for each variable and at most
// one limit on their sum. A variable belongs to one group only.
type Group struct {
	ID        string
	Name      string
	Cap       unit.Opt[unit.Mass]
	Variables []Variable
}

// WaterPolicy tells how water is used while travelling.
type WaterPolicy uint8

// The water policies.
const (
	UsedWaterLeavesFresh    WaterPolicy = iota // what is in the waste tank came out of the fresh tank
	RefilledWithoutEmptying                    // the fresh tank is filled again while the waste is still aboard
)

// Water returns the group of fresh and waste tanks. While used water leaves the fresh tank, all of
// it together is never more than the fresh tanks hold; refilled without emptying, every
// tank can be full at once.
func Water(fresh, waste []Variable, policy WaterPolicy) Group {
	g := Group{ID: "water", Name: "fresh and waste water", Variables: append(append([]Variable(nil), fresh...), waste...)}
	if policy == UsedWaterLeavesFresh {
		sum := 0.0
		for _, v := range fresh {
			sum += v.Mass.Kilograms()
		}
		g.Cap = unit.Some(unit.Kilogram.Times(sum))
	}
	return g
}

func (v *Variable) check() error {
	if err := v.Load.check(); err != nil {
		return err
	}
	most, least := v.Mass.Kilograms(), v.Least.Kilograms()
	if !(most >= 0) {
		return RangeError{Name: "most", ID: v.ID, Got: most, Want: "0 kg or more"}
	}
	if !(least >= 0 && least <= most) {
		return RangeError{Name: "least", ID: v.ID, Got: least, Want: "0 kg up to the most"}
	}
	if v.Pieces < 0 || v.Pieces > 1000 {
		return RangeError{Name: "pieces", ID: v.ID, Got: float64(v.Pieces), Want: "0 to 1000"}
	}
	return nil
}

func checkGroups(groups []Group) error {
	// Plans are small: a quadratic scan is faster than a map and allocates nothing.
	for i := range groups {
		g, least := &groups[i], 0.0
		for j := range g.Variables {
			v := &g.Variables[j]
			if err := v.check(); err != nil {
				return err
			}
			least += v.floor()
			for a := 0; a <= i; a++ {
				for b := range groups[a].Variables {
					if a == i && b == j {
						break
					}
					if groups[a].Variables[b].ID == v.ID {
						return DuplicateError{Name: "variable", ID: v.ID}
					}
				}
			}
		}
		c := g.cap()
		if !(c >= 0) {
			return RangeError{Name: "limit of the group", ID: g.ID, Got: c, Want: "0 kg or more"}
		}
		if least > c+slack {
			return CapError{Group: g.ID, Least: least, Cap: c}
		}
	}
	return nil
}

// slack is what rounding in adding kilograms may cost; far below what any scale shows.
const slack = 1e-9

// cap returns the limit in kg, +Inf when there is none.
func (g *Group) cap() float64 {
	c, ok := g.Cap.Get()
	if !ok {
		return math.Inf(1)
	}
	return c.Kilograms()
}

// piece returns the mass of one whole piece in kg.
func (v *Variable) piece() float64 { return v.Mass.Kilograms() / float64(v.Pieces) }

// floor returns the least mass in kg, for whole pieces rounded up to the next piece.
func (v *Variable) floor() float64 {
	least := v.Least.Kilograms()
	if v.Pieces == 0 || least == 0 {
		return least
	}
	return v.piece() * math.Ceil(least/v.piece()-slack)
}
