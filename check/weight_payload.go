package check

import (
	"fmt"

	"berthwright/axle"
	"berthwright/unit"
)

// Payload is what is left for luggage, and which limit ends it.
type Payload struct {
	Known bool
	Left  unit.Mass
	Ends  string
}

// PartyPayload is one row of payload by party and fill.
type PartyPayload struct {
	Who, Fill string
	Payload
}

// fillRows are the fills that payload is told for.
var fillRows = [...]struct {
	says         string
	fresh, waste unit.Ratio
}{{"water empty", 0, 0}, {"water full", 1, 0}, {"water full, waste full", 1, 1}}

// waterFull is the fill row that the title tells.
const waterFull = 1

// planSeats lists the seats used when driving, the driver's first.
func (w *Weight) planSeats() []int {
	seats := make([]int, 0, len(w.In.Seats))
	for _, driver := range [2]bool{true, false} {
		for i := range w.In.Seats {
			if s := &w.In.Seats[i]; s.Planned && s.Driver == driver {
				seats = append(seats, i)
			}
		}
	}
	return seats
}

// payload works out what is left for luggage by party and fill: luggage spread over the zones in proportion to their limits, the
// first of total, front and rear to be reached ends it.
func (w *Weight) payload() {
	if !w.Known || !w.In.Luggage.Known() || len(w.Bounds) == 0 || w.noMass() {
		w.Left = Payload{}
		return
	}
	seats := w.planSeats()
	w.Party = make([]PartyPayload, 0, len(seats)*len(fillRows))
	for n := 1; n <= len(seats); n++ {
		for k := range fillRows {
			w.Party = append(w.Party, PartyPayload{Who: aboardWords(n), Fill: fillRows[k].says, Payload: w.left(w.laden(seats[:n], k))})
		}
	}
}

// leftWithAll returns what is left with every planned seat taken and water full.
func (w *Weight) leftWithAll() Payload {
	if !w.Known {
		return Payload{}
	}
	return w.left(w.laden(w.planSeats(), waterFull))
}

// laden returns people in those seats at the larger of their own mass and the counted one, fuel 90 %, gas and hot water full, and the
// water of one fill row; nothing on the roof.
func (w *Weight) laden(seats []int, fill int) []axle.Load {
	c := w.plan
	aboard := make([]axle.Load, 0, 2*len(seats)+len(w.In.Tanks))
	for _, i := range seats {
		s := &w.In.Seats[i]
		m := w.In.Person
		if s.Person >= 0 {
			own, _ := c.own(&w.In.People[s.Person])
			m = max(m, own)
			if w.In.People[s.Person].Restraint.V > 0 {
				aboard = append(aboard, c.restraint(&w.In.People[s.Person]))
			}
		}
		aboard = append(aboard, person(s.ID, s.Name, s, m))
	}
	for i := range w.In.Tanks {
		t := &w.In.Tanks[i]
		level := t.Driving
		switch t.For {
		case "fresh":
			level = unit.Ratio(fillRows[fill].fresh.Share() * t.Driving.Share())
		case "waste":
			level = unit.Ratio(fillRows[fill].waste.Share() * t.Driving.Share())
		case "toilet":
			level = 0
		case "fuel":
			level = min(0.9, t.Driving)
		}
		aboard = append(aboard, c.tank(i, level))
	}
	return aboard
}

// LadenWords says what payload is told beside: how laden counts people and fills.
func (w *Weight) LadenWords(sys unit.System) string {
	return "people at the larger of " + Kg(w.In.Person).Text(sys) + " and their own mass, fuel 90 %, gas and hot water full, nothing on roof or rack"
}

// left returns what can still be stowed beside what is aboard.
func (w *Weight) left(aboard []axle.Load) Payload {
	s, err := w.Base.With(aboard)
	if err != nil {
		return Payload{}
	}
	best := Payload{}
	for i := range w.limits {
		l := &w.limits[i]
		v, ok := s.Read(l.measure).Get()
		lever := w.luggageLever(l.measure)
		if !ok || !l.plate.Known() || !lever.Given() {
			return Payload{}
		}
		a := lever.Else(0).Share()
		if !(a > 0) {
			continue
		}
		left := (l.plate.V - v).Times(1 / a)
		if !best.Known || left < best.Left {
			best = Payload{Known: true, Left: left, Ends: l.short}
		}
	}
	return best
}

// luggageLever returns what a kilogram of luggage, spread over the zones, adds to a measure; absent where a place is
// missing.
func (w *Weight) luggageLever(m axle.Measure) unit.Opt[unit.Ratio] {
	lever := 0.0
	for _, z := range w.plan.oneKilogram() {
		a, ok := m.Lever(z.At, z.On).Get()
		if !ok {
			return unit.Opt[unit.Ratio]{}
		}
		lever += a.Of(z.Mass).Kilograms()
	}
	return unit.Some(unit.Ratio(lever))
}

func (c *cases) oneKilogram() []axle.Load {
	if c.one == nil {
		c.one = c.spreadPay(unit.Kilogram)
	}
	return c.one
}

func aboardWords(n int) string {
	words := [...]string{"nobody", "driver alone", "two", "three", "four", "five", "six", "seven", "eight", "nine"}
	switch {
	case n <= 1:
		return words[min(max(n, 0), 1)]
	case n < len(words):
		return words[n] + " aboard"
	}
	return fmt.Sprintf("%d aboard", n)
}
