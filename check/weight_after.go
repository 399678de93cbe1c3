package check

import (
	"fmt"
	"slices"

	"berthwright/axle"
	"berthwright/derive"
	"berthwright/unit"
)

// Room is what can still be added at one place along the van.
type Room struct {
	X    unit.Length
	Kg   unit.Mass
	Free bool // no limit is ever reached there
	Ends string
}

// roomStep is how far apart the points of the curve are sent between its exact breaks.
const roomStep = 200 * unit.Millimetre

// Added returns the curve of what can still be added, on the centre line of the floor, from a metre ahead of the bulkhead
// line to where a rack would hang. Points stand at every break, to the micrometre, and between them at most 200 mm apart.
func (w *Weight) Added() []Room {
	v := w.In.Van
	if len(w.Bounds) == 0 || !v.Bulkhead.Known() || !v.RearDoor.Known() || w.open() {
		return nil
	}
	from, to := v.Bulkhead.V-unit.Metre, v.RearDoor.V+700*unit.Millimetre
	stretches, err := axle.RoomAlong(w.Bounds, from, to, 0, axle.Inside)
	if err != nil {
		return nil
	}
	var out []Room
	add := func(x unit.Length, bound int) {
		at := axle.Place{X: unit.Some(x), Y: unit.Some(unit.Length(0))}
		r, err := axle.RoomAt(w.Bounds, at, axle.Inside)
		if err != nil {
			return
		}
		m, ok := r.Mass.Get()
		p := Room{X: x, Kg: m, Free: !ok}
		if bound >= 0 {
			p.Ends = w.Bounds[bound].Name
		}
		out = append(out, p)
	}
	for _, s := range stretches {
		for x := s.From; x < s.To; x += roomStep {
			add(x, s.Bound)
		}
	}
	if n := len(stretches); n > 0 {
		add(stretches[n-1].To, stretches[n-1].Bound)
	}
	return out
}

// open reports whether an input of the plan is missing, so that margins cannot be said.
func (w *Weight) open() bool { return len(w.openLoads("rear")) > 0 }

// ZoneRoom is one row of what can still be added, by zone.
type ZoneRoom struct {
	Zone string
	Room
}

// ZoneRooms returns what can still be added in the middle of each zone along the van, and on a rack behind.
func (w *Weight) ZoneRooms() []ZoneRoom {
	if len(w.Bounds) == 0 || w.open() {
		return nil
	}
	var out []ZoneRoom
	add := func(name string, x unit.Length) {
		r, err := axle.RoomAt(w.Bounds, axle.Place{X: unit.Some(x), Y: unit.Some(unit.Length(0))}, axle.Inside)
		if err != nil {
			return
		}
		m, ok := r.Mass.Get()
		z := ZoneRoom{Zone: name, Room: Room{X: x, Kg: m, Free: !ok}}
		if r.Bound >= 0 {
			z.Ends = w.Bounds[r.Bound].Name
		}
		out = append(out, z)
	}
	for _, z := range [...][2]string{{"cab", "in the cab"}, {"door", "at the sliding door"}, {"mid", "in the middle"}, {"wheel", "over the rear wheels"}, {"rear", "behind the rear wheels"}} {
		if from, to, ok := w.In.Van.ZoneSpan(z[0]); ok {
			add(z[1], (from + to).Half())
		}
	}
	if w.In.Van.RearDoor.Known() {
		add("on a rack behind the doors", w.In.Van.RearDoor.V+500*unit.Millimetre)
	}
	return out
}

// Mend is one way to clear what does not hold, checked by computing the case anew.
type Mend struct {
	Finding Finding
	Subject Subject
	ID      string // of the item
	Says    string
	By      unit.Length // rearwards positive; of a move
	Removal bool
	Gain    unit.Mass
	Clears  bool
	Reopens []string
}

// mendsMost is how many ways are told for one finding.
const mendsMost = 6

// Clears ranks single moves and removals for the plated limit that fails worst, or is tight. Belted seats and their fixings,
// gas, slung tanks and what the build locks are never offered for moving, safety equipment never for removal.
func (w *Weight) Clears(placed []derive.Placed) []Mend {
	target, f := -1, Finding{}
	for i, b := range w.Bounds {
		for _, have := range w.Findings {
			if (have.Verdict == DoesNotHold || have.Verdict == Tight) && have.Check == boundCheck[b.Name] && (target < 0 || Worse(have, f)) {
				target, f = i, have
			}
		}
	}
	if target < 0 || w.In.Finished != nil {
		return nil
	}
	half, _ := f.Half.Get()
	want := unit.Kilogram.Times(half.SI)
	mends, err := axle.Clears(w.Bounds, target, w.candidates(placed), want)
	if err != nil {
		return nil
	}
	var out []Mend
	for _, m := range mends {
		if len(out) == mendsMost {
			break
		}
		if !m.Clears && m.Gain < 2*unit.Kilogram {
			continue
		}
		after := w.recomputed(m)
		gain := after[target] - w.Bounds[target].Margin
		if gain <= 0 {
			continue
		}
		o := Mend{Finding: f, Subject: subject(m.Load), ID: m.Load.ID, By: m.By, Removal: m.Removal, Gain: gain, Clears: after[target] >= want}
		for j := range after {
			if j != target && w.Bounds[j].Margin >= 0 && after[j] < 0 {
				o.Reopens = append(o.Reopens, w.Bounds[j].Name)
			}
		}
		result := "leaves " + Kg(after[target]).Text(unit.Metric) + " in hand on the " + w.Bounds[target].Name
		if after[target] < 0 {
			result = "not enough: still " + Kg(-after[target]).Text(unit.Metric) + " over on the " + w.Bounds[target].Name
		}
		if m.Removal {
			o.Says = fmt.Sprintf("leave out %s: %s", m.Load.Name, result)
		} else {
			way, by := "back", m.By
			if by < 0 {
				way, by = "forward", -by
			}
			o.Says = fmt.Sprintf("move %s %s %s: %s", m.Load.Name, unit.FormatSI(unit.KindLength, by.Metres(), unit.Metric, 0), way, result)
		}
		out = append(out, o)
	}
	slices.SortStableFunc(out, func(a, b Mend) int {
		switch {
		case a.Clears != b.Clears:
			if a.Clears {
				return -1
			}
			return 1
		case !a.Clears && a.Gain > b.Gain:
			return -1
		case !a.Clears && a.Gain < b.Gain:
			return 1
		}
		return 0
	})
	return out
}

var boundCheck = map[string]string{"total": "weight-total", "front axle": "axle-front", "rear axle": "axle-rear"}

// candidates lists what may be offered for moving along the load floor, or for leaving out. The contents of a tank go with it.
func (w *Weight) candidates(placed []derive.Placed) []axle.Candidate {
	v := w.In.Van
	full := map[string]unit.Mass{}
	for i := range w.In.Tanks {
		t := &w.In.Tanks[i]
		full[t.ID] = t.Driving.Of(t.Full.V)
	}
	var out []axle.Candidate
	for i := range w.In.Loads {
		l := &w.In.Loads[i]
		if l.Mass < unit.Kilogram || l.Unlisted || l.Allowance || l.Locked != "" || l.Number < 1 || l.Number > len(placed) {
			continue
		}
		p := &placed[l.Number-1]
		c := axle.Candidate{Load: l.Load, CanGo: l.Group != "body" && l.Group != "lining" && l.Group != "safety" && l.Group != "seats"}
		c.Load.Mass += full[l.ID]
		x, ok := l.At.X.Get()
		if ok && p.Boxed && !p.Stretch && l.On == axle.Inside && v.Bulkhead.Known() && v.RearDoor.Known() {
			c.From, c.To = v.Bulkhead.V+(x-p.Min[0]), v.RearDoor.V-(p.Max[0]-x)
			c.CanMove = c.From <= c.To && x >= c.From && x <= c.To
		}
		if c.CanMove || c.CanGo {
			out = append(out, c)
		}
	}
	return out
}

// recomputed returns the margins of the bounds with one item moved or left out, contents with it, each worst case filled anew.
func (w *Weight) recomputed(m axle.Mend) []unit.Mass {
	in := w.In
	in.Loads = slices.Clone(in.Loads)
	in.Tanks = slices.Clone(in.Tanks)
	in.Loads = slices.DeleteFunc(in.Loads, func(l derive.Load) bool { return m.Removal && l.ID == m.Load.ID })
	in.Tanks = slices.DeleteFunc(in.Tanks, func(t derive.Tank) bool { return m.Removal && t.ID == m.Load.ID })
	shift := func(o unit.Opt[unit.Length]) unit.Opt[unit.Length] {
		x, ok := o.Get()
		if !ok {
			return o
		}
		return unit.Some(x + m.By)
	}
	for i := range in.Loads {
		if in.Loads[i].ID == m.Load.ID {
			in.Loads[i].At.X = shift(in.Loads[i].At.X)
		}
	}
	for i := range in.Tanks {
		if in.Tanks[i].ID == m.Load.ID {
			in.Tanks[i].At.X = shift(in.Tanks[i].At.X)
		}
	}
	base, err := axle.Sum(w.Geometry, baseLoads(in, w.Geometry))
	if err != nil {
		return nil
	}
	c := &cases{in: in, geo: w.Geometry, pack: w.Pack, base: base}
	out := make([]unit.Mass, len(w.Bounds))
	for i, b := range w.Bounds {
		for _, policy := range []axle.WaterPolicy{axle.UsedWaterLeavesFresh, axle.RefilledWithoutEmptying} {
			if policy == axle.RefilledWithoutEmptying && in.Empties {
				continue
			}
			k, err := axle.Worst(base, c.plan(policy), b.Measure, axle.Most)
			if err != nil {
				continue
			}
			margin := w.plateOf(b.Name) - k.Value
			if policy == axle.UsedWaterLeavesFresh || margin < out[i] {
				out[i] = margin
			}
		}
	}
	return out
}

func (w *Weight) plateOf(name string) unit.Mass {
	for _, l := range w.limits {
		if l.short == name {
			return l.plate.V
		}
	}
	return 0
}

// Next is one thing to measure next, with what it would settle.
type Next struct {
	Says    string
	Share   unit.Opt[unit.Ratio]
	Subject Subject
}

// groupWords names the trades of items.
var groupWords = map[string]string{
	"body": "body and openings", "lining": "insulation and lining", "seats": "seats, bench and table", "kitchen": "kitchen", "overhead": "overhead lockers",
	"washroom": "washroom", "tall": "tall units", "bunks": "bunks and garage", "water": "water system", "gas": "gas system", "heating": "heating", "electric": "electrics",
	"safety": "safety and loose equipment", "loose": "loose equipment", "other": "remaining items",
}

// GroupWords returns what people call a group of items.
func GroupWords(id string) string {
	if t, ok := groupWords[id]; ok {
		return t
	}
	return id
}

// nextMost is how many doubts are told (design: the top five).
const nextMost = 5

// MeasureNext ranks what is missing, then what makes up most of the doubt about the tightest limit.
func (w *Weight) MeasureNext() []Next {
	var out []Next
	seen := map[string]bool{}
	add := func(n Next) {
		if len(out) < nextMost && !seen[n.Says] {
			seen[n.Says] = true
			out = append(out, n)
		}
	}
	if t := w.In.Ticket; t.How() == derive.Missing || t.How() == derive.Assumed {
		add(Next{Says: "weigh both axles of the empty van: every verdict rests on it", Subject: Subject{Path: "van/empty", Name: "empty van"}})
	}
	if !w.In.Luggage.Known() {
		add(Next{Says: "declare the luggage: payload is unknown without it", Subject: Subject{Path: w.In.Luggage.Path, Name: "luggage"}})
	}
	for _, l := range w.In.Lacks {
		add(Next{Says: "find the " + l.What, Subject: Subject{Path: l.Path, Name: l.What}})
	}
	tight, at := "", 0.0
	for _, f := range w.Findings {
		m, okm := f.Margin.Get()
		h, okh := f.Half.Get()
		id := map[string]string{"weight-total": "total", "axle-front": "front", "axle-rear": "rear"}[f.Check]
		if id == "" || !okm || !okh || h.SI == 0 {
			continue
		}
		if r := max(m.SI, -m.SI) / h.SI; tight == "" || r < at {
			tight, at = id, r
		}
	}
	d, ok := w.Doubts[tight]
	if !ok {
		return out
	}
	name := map[string]string{"total": "the total", "front": "the front axle", "rear": "the rear axle"}[tight]
	for _, r := range d.Relief() {
		share := fmt.Sprintf("%.0f %% of the doubt on %s", r.Share.Percent(), name)
		if r.Share < 0.02 {
			break
		}
		n := Next{Share: unit.Some(r.Share), Subject: Subject{Path: "items", Name: GroupWords(r.Group)}}
		switch r.Group {
		case "ticket-front", "ticket-rear":
			n.Subject = Subject{Path: "van/empty", Name: "empty ticket"}
			n.Says = "weigh the empty van again on a finer scale: " + share
		case derive.UnlistedID, "other":
			n.Says = "weigh the finished van, to replace the unlisted and remaining items: " + share
		default:
			n.Says = "weigh the " + GroupWords(r.Group) + ": " + share
		}
		add(n)
	}
	return out
}

// Sentence is one deciding figure said in words.
type Sentence struct {
	Key, Text, Detail string
	Verdict           Verdict
	Slip              string
}

// Title returns the deciding figures as sentences: payload left, the tighter axle, the total.
func (w *Weight) Title(sys unit.System) []Sentence {
	if !w.Begun {
		return []Sentence{{Key: "weight", Text: "weight not begun", Detail: "enter the plate and the empty ticket", Verdict: NotBegun}}
	}
	var out []Sentence
	n := len(w.planSeats())
	switch {
	case w.Left.Known && !w.open():
		s := Sentence{Key: "payload-left", Verdict: Holds, Slip: "weight.payload", Text: fmt.Sprintf("%s left, %s, water full", Kg(w.Left.Left).Text(sys), aboardWords(n)),
			Detail: "for luggage; the " + w.Left.Ends + " ends it"}
		if w.Left.Left < 0 {
			s.Verdict = DoesNotHold
			s.Text = fmt.Sprintf("%s too much, %s, water full", Kg(-w.Left.Left).Text(sys), aboardWords(n))
			s.Detail = "before any luggage; the " + w.Left.Ends + " is passed"
		} else if w.In.Luggage.Known() && w.Left.Left < w.In.Luggage.V {
			s.Verdict = DoesNotHold
			s.Detail = "less than the " + Kg(w.In.Luggage.V).Text(sys) + " of luggage declared"
		}
		out = append(out, s)
	default:
		out = append(out, Sentence{Key: "payload-left", Text: "payload not known yet", Detail: firstMissing(append(w.openLoads("total"), w.lacks()...)), Verdict: Unknown})
	}
	var axles []Finding
	for _, f := range w.Findings {
		switch f.Check {
		case "axle-front", "axle-rear":
			axles = append(axles, f)
		}
	}
	slices.SortStableFunc(axles, func(a, b Finding) int {
		if Worse(a, b) {
			return -1
		}
		return 1
	})
	if len(axles) > 0 {
		out = append(out, limitSentence(axles[0], sys))
	}
	for _, f := range w.Findings {
		if f.Check == "weight-total" {
			out = append(out, limitSentence(f, sys))
		}
	}
	return out
}

func firstMissing(s []Subject) string {
	if len(s) == 0 {
		return "the plate, the ticket or the plan is not complete"
	}
	return s[0].Name + " missing"
}

func limitSentence(f Finding, sys unit.System) Sentence {
	s := Sentence{Key: f.Key(), Verdict: f.Verdict, Slip: f.Slip}
	name := map[string]string{"axle-front": "front axle", "axle-rear": "rear axle", "weight-total": "total"}[f.Check]
	m, ok := f.Margin.Get()
	h, hok := f.Half.Get()
	v, _ := f.Value.Get()
	lim, limOK := f.Limit.Get()
	switch {
	case f.Verdict == Unknown || !ok:
		s.Text = name + " not known yet"
		s.Detail = firstMissing(f.Missing)
		return s
	case m.SI < 0:
		s.Text = fmt.Sprintf("%s %s over", name, Figure{m.Kind, -m.SI, 0}.Text(sys))
	default:
		s.Text = fmt.Sprintf("%s %s in hand", name, m.Text(sys))
	}
	if hok {
		s.Text += ", ± " + h.Text(sys)
	}
	if limOK {
		s.Detail = v.Text(sys) + " of " + lim.Text(sys) + ", worst of the plan"
	}
	return s
}
