package check

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/derive"
	"berthwright/rules"
	"berthwright/unit"
)

// Weight is the weight concern, whole: the named cases, the findings, and what follows from them.
type Weight struct {
	In       derive.Weight // with the mass of a person as the rules have it
	Given    derive.Weight // as it came
	Begun    bool
	Pack     rules.Pack
	Geometry axle.Geometry
	Base     axle.Split
	Cases    []LoadCase
	Deciding int // index of the case that leaves least, -1 for none
	Findings []Finding
	Bounds   []axle.Bound   // total, front, rear as far as they are used up
	Party    []PartyPayload // payload by party and fill
	Left     Payload        // with everybody aboard and water full
	Overload unit.Opt[unit.Mass]
	Doubts   map[string]axle.Doubt // by check id, of its deciding case
	Known    bool                  // axle loads can be said at all
	Why      []Subject             // what keeps them from being said
	shared   []axle.Shared
	limits   []limit
}

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

// limit is one plated limit with the worst of its cases.
type limit struct {
	id, name string
	short    string
	path     string
	measure  axle.Measure
	plate    derive.Val[unit.Mass]
	cases    []int // indices of its worst cases, by policy
	judged   int   // index of the case it is judged by, -1 where unknown
	missing  []string
}

// AssessWeight assesses the weight concern. It is a pure function of its inputs.
func AssessWeight(in derive.Weight, pack rules.Pack) *Weight {
	w := &Weight{In: in, Given: in, Pack: pack, Deciding: -1, Doubts: map[string]axle.Doubt{}}
	w.Begun = len(in.Loads) > 0 || in.Ticket.Front.How == derive.Given || in.Van.Plate.Total.How == derive.Given
	if !w.Begun {
		return w
	}
	for _, kind := range []string{"weighed", "data-sheet", "own-boards", "estimated", "guess"} {
		if r, ok := in.Shared[kind]; ok {
			w.shared = append(w.shared, axle.Shared{Kind: kind, Rel: r})
		}
	}
	if p := pack.Stricter("person-mass", "mass"); p.Known {
		w.In.Person = unit.Mass(p.Value.SI)
	}
	w.bases()
	c := &cases{in: w.In, geo: w.Geometry, pack: pack, base: w.Base}
	if w.Known {
		c.named()
		w.worst(c)
	}
	w.Cases = c.list
	w.decide()
	for _, check := range weightChecks {
		found := check.run(w, c)
		for i := range found {
			f := &found[i]
			f.Check, f.Concern, f.Title = check.ID, "weight", check.Title
			if f.State == "" {
				f.State = string(derive.Travel)
			}
			if len(f.Sources) == 0 {
				f.Sources = []calc.Cite{check.Limit, check.Method}
			}
		}
		w.Findings = append(w.Findings, found...)
	}
	slices.SortStableFunc(w.Findings, func(a, b Finding) int {
		switch {
		case Worse(a, b):
			return -1
		case Worse(b, a):
			return 1
		}
		return 0
	})
	w.payload(c)
	return w
}

// bases works out the finished van without anybody aboard, and says what keeps it from being known.
func (w *Weight) bases() {
	v := w.In.Van
	if !v.Wheelbase.Known() {
		w.Why = append(w.Why, Subject{Path: v.Wheelbase.Path, Name: "wheelbase"})
	}
	if w.In.Ticket.How() == derive.Missing {
		w.Why = append(w.Why, Subject{Path: "van/empty", Name: "axle loads of the empty van"})
	}
	if len(w.Why) > 0 {
		return
	}
	w.Geometry = axle.Geometry{Wheelbase: v.Wheelbase.V}
	if v.TrackFront.Known() {
		w.Geometry.TrackFront = unit.Some(v.TrackFront.V)
	}
	if v.TrackRear.Known() {
		w.Geometry.TrackRear = unit.Some(v.TrackRear.V)
	}
	loads := baseLoads(w.In, w.Geometry)
	if f := w.In.Finished; f != nil {
		if led, ok := finishedLoads(w.In, w.Geometry); ok {
			loads = led
		}
	}
	s, err := axle.Sum(w.Geometry, loads)
	if err != nil {
		w.Why = append(w.Why, Subject{Path: "van", Name: err.Error()})
		return
	}
	w.Base, w.Known = s, true
}

// worst adds the worst cases of the declared plan for each limit, under both water policies.
func (w *Weight) worst(c *cases) {
	p := w.In.Van.Plate
	w.limits = []limit{
		{id: "total", name: "Total mass", short: "total", path: p.Total.Path, measure: axle.Total(), plate: p.Total},
		{id: "front", name: "Front axle", short: "front axle", path: p.Front.Path, measure: w.Geometry.Front(), plate: p.Front},
		{id: "rear", name: "Rear axle", short: "rear axle", path: p.Rear.Path, measure: w.Geometry.Rear(), plate: p.Rear},
	}
	for _, policy := range []axle.WaterPolicy{axle.UsedWaterLeavesFresh, axle.RefilledWithoutEmptying} {
		groups := c.plan(policy)
		for i := range w.limits {
			l := &w.limits[i]
			k, err := c.worst("worst-"+l.id, "Worst for the "+l.short, l.measure, axle.Most, policy, groups)
			if err != nil {
				l.missing = missingOf(err)
				continue
			}
			l.cases = append(l.cases, k)
		}
	}
	for i := range w.limits {
		l := &w.limits[i]
		l.judged = -1
		for n, k := range l.cases {
			if w.In.Empties && n == int(axle.RefilledWithoutEmptying) {
				continue // the placard rules it out; the figure is still printed
			}
			if l.judged < 0 || c.list[k].Worst.Value > c.list[l.judged].Worst.Value {
				l.judged = k
			}
		}
		if l.judged < 0 {
			continue
		}
		split := c.list[l.judged].Split
		floor := unit.Mass(0)
		if l.id != "total" {
			floor = split.NoseDown(unit.Degree).Else(0)
		}
		if d, err := axle.Spread(split.Loads(), w.shared, l.measure, floor); err == nil {
			w.Doubts[l.id] = d
		}
		if l.plate.Known() {
			w.Bounds = append(w.Bounds, axle.Bound{Name: l.short, Ref: l.path, Measure: l.measure, Margin: l.plate.V - c.list[l.judged].Worst.Value})
		}
	}
}

// decide finds the case that leaves least of any limit.
func (w *Weight) decide() {
	least := unit.Mass(0)
	for _, l := range w.limits {
		if l.judged < 0 || !l.plate.Known() {
			continue
		}
		if left := l.plate.V - w.Cases[l.judged].Worst.Value; w.Deciding < 0 || left < least {
			w.Deciding, least = l.judged, left
		}
	}
}

// lacks lists what is missing as subjects.
func (w *Weight) lacks() []Subject {
	out := slices.Clone(w.Why)
	for _, l := range w.In.Lacks {
		out = append(out, Subject{Path: l.Path, Name: l.What})
	}
	return out
}

// noMass reports whether any load has no mass, and noPlace whether any has no place along the van.
func (w *Weight) noMass() bool {
	return slices.ContainsFunc(w.In.Lacks, func(l derive.Lack) bool { return strings.HasPrefix(l.What, "mass") })
}

// subject points at a load.
func subject(l axle.Load) Subject {
	return Subject{Path: l.Ref, Name: l.Name, At: [3]unit.Opt[unit.Length]{l.At.X, l.At.Y, l.At.Z}}
}

// heaviest returns the fitted loads that add most to a measure, for a reader who asks what it is made of.
func (w *Weight) heaviest(m axle.Measure, n int) []Subject {
	type part struct {
		s  Subject
		kg float64
	}
	var parts []part
	for i := range w.In.Loads {
		l := &w.In.Loads[i]
		if a, ok := m.Lever(l.At, l.On).Get(); ok && l.Mass > 0 && !l.Unlisted {
			parts = append(parts, part{subject(l.Load), a.Of(l.Mass).Kilograms()})
		}
	}
	slices.SortStableFunc(parts, func(a, b part) int { return cmp.Compare(b.kg, a.kg) })
	var out []Subject
	for i := 0; i < len(parts) && i < n; i++ {
		out = append(out, parts[i].s)
	}
	return out
}

// finishedLoads returns the weighing of the finished van, re-based to nobody aboard and no fill, plus what was not yet fitted.
func finishedLoads(in derive.Weight, geo axle.Geometry) ([]axle.Load, bool) {
	z := in.Finished.Weighing
	f, fok := z.Front.Get()
	r, rok := z.Rear.Get()
	if !fok || !rok {
		return nil, false
	}
	half := func(e unit.MassEst) unit.MassEst {
		if !e.Half().Given() {
			e.Spread = unit.Spread{Kind: unit.Absolute, Abs: z.Division.Else(10 * unit.Kilogram).Kilograms()}
		}
		return e
	}
	high := unit.Opt[unit.Length]{}
	if sum, err := axle.Sum(geo, baseLoads(in, geo)); err == nil {
		high = sum.Centre.Z
	}
	two := geo.Ticket(half(f), half(r), unit.Some(unit.Length(0)), high)
	two[0].Name, two[1].Name = "front axle of the finished van as weighed", "rear axle of the finished van as weighed"
	loads := []axle.Load{two[0], two[1]}
	levels := map[string]unit.Ratio{}
	for _, l := range z.Fills {
		levels[l.Tank] = l.Level.Else(0)
	}
	for i := range in.Tanks {
		t := &in.Tanks[i]
		if m := levels[t.ID].Of(t.Full.V); m > 0 {
			loads = append(loads, axle.Load{ID: "weighed-" + t.ID, Name: "contents of " + t.Name + " when weighed", Ref: t.Path, Mass: -m, At: t.At})
		}
	}
	if d := z.Driver.Else(0); d > 0 {
		for _, s := range in.Seats {
			if s.Driver {
				loads = append(loads, axle.Load{ID: "weighed-driver", Name: "driver aboard when weighed", Ref: s.Path, Mass: -d, At: s.At})
			}
		}
	}
	for i := range in.Loads {
		if slices.Contains(z.Missing, in.Loads[i].ID) {
			loads = append(loads, in.Loads[i].Load)
		}
	}
	return loads, true
}

// fillRows are the fills that payload is told for.
var fillRows = []struct {
	says         string
	fresh, waste unit.Ratio
}{{"water empty", 0, 0}, {"water full", 1, 0}, {"water full, waste full", 1, 1}}

// planSeats lists the seats used when driving, the driver's first.
func (w *Weight) planSeats() []int {
	var seats []int
	for _, driver := range [2]bool{true, false} {
		for i, s := range w.In.Seats {
			if s.Planned && s.Driver == driver {
				seats = append(seats, i)
			}
		}
	}
	return seats
}

// payload works out what is left for luggage by party and fill: luggage spread over the zones in proportion to their limits, the
// first of total, front and rear to be reached ends it.
func (w *Weight) payload(c *cases) {
	if !w.Known || !w.In.Luggage.Known() || len(w.Bounds) == 0 || w.noMass() {
		return
	}
	seats := w.planSeats()
	for n := 1; n <= len(seats); n++ {
		for k := range fillRows {
			w.Party = append(w.Party, PartyPayload{Who: aboardWords(n), Fill: fillRows[k].says, Payload: w.left(c, w.laden(c, seats[:n], k))})
		}
	}
	w.Left = w.leftWithAll(c)
}

// leftWithAll returns what is left with every planned seat taken and water full.
func (w *Weight) leftWithAll(c *cases) Payload {
	if !w.Known {
		return Payload{}
	}
	return w.left(c, w.laden(c, w.planSeats(), 1))
}

// laden returns people in those seats at the larger of their own mass and the counted one, fuel 90 %, gas and hot water full, and the
// water of one fill row; nothing on the roof.
func (w *Weight) laden(c *cases, seats []int, fill int) []axle.Load {
	var aboard []axle.Load
	for _, i := range seats {
		s := w.In.Seats[i]
		m := w.In.Person
		if s.Person >= 0 {
			own, _ := c.own(&w.In.People[s.Person])
			m = max(m, own)
			if w.In.People[s.Person].Restraint.V > 0 {
				aboard = append(aboard, c.restraint(&w.In.People[s.Person]))
			}
		}
		aboard = append(aboard, person("pay-"+s.ID, s.Name, s, m))
	}
	for i := range w.In.Tanks {
		t := &w.In.Tanks[i]
		level := t.Driving
		switch t.For {
		case "fresh":
			level = unit.Ratio(fillRows[fill].fresh.Share() * t.Driving.Share())
		case "waste":
			level = fillRows[fill].waste
		case "toilet":
			level = 0
		case "fuel":
			level = 0.9
		}
		aboard = append(aboard, c.tank(t, level))
	}
	return aboard
}

// left returns what can still be stowed beside what is aboard.
func (w *Weight) left(c *cases, aboard []axle.Load) Payload {
	s, err := w.Base.With(aboard)
	if err != nil {
		return Payload{}
	}
	one := c.spreadPay(unit.Kilogram)
	best := Payload{}
	for _, l := range w.limits {
		v, ok := s.Read(l.measure).Get()
		if !ok || !l.plate.Known() {
			return Payload{}
		}
		lever := 0.0
		for _, z := range one {
			a, ok := l.measure.Lever(z.At, z.On).Get()
			if !ok {
				return Payload{}
			}
			lever += a.Of(z.Mass).Kilograms()
		}
		if !(lever > 0) {
			continue
		}
		left := (l.plate.V - v).Times(1 / lever)
		if !best.Known || left < best.Left {
			best = Payload{Known: true, Left: left, Ends: l.short}
		}
	}
	return best
}

func aboardWords(n int) string {
	words := []string{"nobody", "driver alone", "two", "three", "four", "five", "six", "seven", "eight", "nine"}
	switch {
	case n <= 1:
		return words[min(max(n, 0), 1)]
	case n < len(words):
		return words[n] + " aboard"
	}
	return fmt.Sprintf("%d aboard", n)
}
