package check

import (
	"slices"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/derive"
	"berthwright/rules"
	"berthwright/unit"
)

// Weight is the weight concern, whole: the named cases, the findings, and what follows from them. It is not changed once
// made.
type Weight struct {
	In       derive.Weight // with the mass of a person as the rules have it, and only the lacks that matter
	Given    derive.Weight // as it came
	Begun    bool
	Pack     rules.Pack
	Geometry axle.Geometry
	Base     axle.Split // finished, dry, no fuel, nobody aboard: the ticket of the finished van where there is one
	Sum      axle.Split // the same by the sum of parts
	Summed   bool       // Sum can be said
	Cases    []LoadCase
	Deciding int // index of the case that leaves least, -1 for none
	Findings []Finding
	Bounds   []axle.Bound   // total, front, rear as far as they are used up
	Party    []PartyPayload // payload by party and fill
	Left     Payload        // with everybody aboard and water full
	Overload unit.Opt[unit.Mass]
	Doubts   map[string]axle.Doubt // "total", "front", "rear", of the case each is judged by
	Known    bool                  // axle loads can be said at all
	Why      []Subject             // what keeps them from being said

	shared []axle.Shared
	limits []limit
	height unit.Opt[unit.Length] // mean height, where the height of the mass centre is not known
	plan   *cases
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
	exact    bool // the floor of the doubt rests on known heights
}

// kindsShared are the ways a mass is known, in the order shared errors are told.
var kindsShared = [...]string{"weighed", "data-sheet", "own-boards", "estimated", "guess"}

// policies are the water policies in the order of a limit's cases.
var policies = [...]axle.WaterPolicy{axle.UsedWaterLeavesFresh, axle.RefilledWithoutEmptying}

// AssessWeight assesses the weight concern. It is a pure function of its inputs.
func AssessWeight(in derive.Weight, pack rules.Pack) *Weight {
	w := &Weight{In: in, Given: in, Pack: pack, Deciding: -1, Doubts: make(map[string]axle.Doubt, 3)}
	w.Begun = len(in.Loads) > 0 || in.Ticket.Front.How == derive.Given || in.Van.Plate.Total.How == derive.Given
	if !w.Begun {
		return w
	}
	w.shared = make([]axle.Shared, 0, len(kindsShared))
	for _, kind := range kindsShared {
		if r, ok := in.Shared[kind]; ok {
			w.shared = append(w.shared, axle.Shared{Kind: kind, Rel: r})
		}
	}
	counted := in.Person
	if p := pack.Stricter("person-mass", "mass"); p.Known {
		counted = unit.Mass(p.Value.SI)
		w.In.Person = max(in.Person, counted)
	}
	if in.Finished != nil {
		w.In.Lacks = w.outweighed()
	}
	w.bases()
	c := &cases{in: &w.In, geo: w.Geometry, pack: &w.Pack, base: w.Base, person: counted}
	c.list = make([]LoadCase, 0, 20)
	w.plan = c
	if w.Known {
		c.named()
		w.worst(c)
		w.share(c)
		w.overload(c)
	}
	w.Cases = c.list
	w.decide()
	w.Left = w.leftWithAll()
	w.Findings = make([]Finding, 0, 32)
	for i := range weightChecks {
		check := &weightChecks[i]
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
			if f.Slip != "" && !w.slips(f.Slip) {
				f.Slip = ""
			}
		}
		w.Findings = append(w.Findings, found...)
	}
	sortFindings(w.Findings)
	w.payload()
	return w
}

// sortFindings orders findings worst first, in place and by index: they are large.
func sortFindings(all []Finding) {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch {
		case Worse(&all[i], &all[j]):
			return -1
		case Worse(&all[j], &all[i]):
			return 1
		}
		return 0
	})
	out := make([]Finding, len(all))
	for i, k := range order {
		out[i] = all[k]
	}
	copy(all, out)
}

// outweighed returns the lacks that still matter once the finished van is weighed: a mass or place of what was on the
// scale does not.
func (w *Weight) outweighed() []derive.Lack {
	var out []derive.Lack
	for _, l := range w.In.Lacks {
		if l.Item != "" && !slices.Contains(w.In.Finished.Weighing.Missing, l.Item) || l.Path == "van/empty/with/fuel" {
			continue
		}
		out = append(out, l)
	}
	return out
}

// bases works out the finished van without anybody aboard, and says what keeps it from being known.
func (w *Weight) bases() {
	v := &w.In.Van
	if !v.Wheelbase.Known() {
		w.Why = append(w.Why, Subject{Path: v.Wheelbase.Path, Name: "wheelbase"})
	}
	ticket := w.In.Ticket.How() != derive.Missing
	if !ticket && w.In.Finished == nil {
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
	if ticket {
		s, err := axle.Sum(w.Geometry, baseLoads(w.In, w.Geometry))
		if err != nil {
			w.Why = append(w.Why, Subject{Path: "van", Name: err.Error()})
			return
		}
		w.Sum, w.Summed = s, true
	}
	w.Base = w.Sum
	if w.In.Finished != nil {
		s, err := axle.Sum(w.Geometry, finishedLoads(w.In, w.Geometry, w.Sum))
		if err != nil {
			w.Why = append(w.Why, Subject{Path: w.In.Finished.Path, Name: err.Error()})
			return
		}
		w.Base = s
	}
	if !w.Base.Centre.Z.Given() {
		if w.height = meanHeight(w.Base.Loads()); !w.height.Given() && w.Summed {
			w.height = meanHeight(w.Sum.Loads())
		}
	}
	w.Known = true
}

// worst adds the worst cases of the declared plan for each limit, under both water policies.
func (w *Weight) worst(c *cases) {
	p := &w.In.Van.Plate
	w.limits = []limit{
		{id: "total", name: "Total mass", short: "total", path: p.Total.Path, measure: axle.Total(), plate: p.Total},
		{id: "front", name: "Front axle", short: "front axle", path: p.Front.Path, measure: w.Geometry.Front(), plate: p.Front},
		{id: "rear", name: "Rear axle", short: "rear axle", path: p.Rear.Path, measure: w.Geometry.Rear(), plate: p.Rear},
	}
	for _, policy := range policies {
		groups := c.plan(policy)
		for i := range w.limits {
			l := &w.limits[i]
			k, err := c.worst("worst-"+l.id+"-"+policyID[policy], "Worst for the "+l.short, l.measure, axle.Most, policy, groups)
			if err != nil {
				l.missing = missingOf(err)
				continue
			}
			l.cases = append(l.cases, k)
		}
	}
	w.Bounds = make([]axle.Bound, 0, len(w.limits))
	for i := range w.limits {
		l := &w.limits[i]
		l.judged = -1
		for n, k := range l.cases {
			if w.In.Empties && policies[n] == axle.RefilledWithoutEmptying {
				continue // the placard rules it out; the figure is still printed
			}
			if l.judged < 0 || c.list[k].Worst.Value > c.list[l.judged].Worst.Value {
				l.judged = k
			}
		}
		if l.judged < 0 {
			continue
		}
		split := &c.list[l.judged].Split
		floor := unit.Mass(0)
		if l.id != "total" {
			floor, l.exact = w.level(*split)
		}
		if d, err := split.Spread(w.shared, l.measure, floor); err == nil {
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
	for i := range w.limits {
		l := &w.limits[i]
		if l.judged < 0 || !l.plate.Known() {
			continue
		}
		if left := l.plate.V - w.Cases[l.judged].Worst.Value; w.Deciding < 0 || left < least {
			w.Deciding, least = l.judged, left
		}
	}
}

// limit returns the plated limit with that id, or nil.
func (w *Weight) limit(id string) *limit {
	for i := range w.limits {
		if w.limits[i].id == id {
			return &w.limits[i]
		}
	}
	return nil
}

// Judged returns the case that a plated limit ("total", "front", "rear") is judged by: its own worst one.
func (w *Weight) Judged(id string) (*LoadCase, bool) {
	l := w.limit(id)
	if l == nil || l.judged < 0 {
		return nil, false
	}
	return &w.Cases[l.judged], true
}

// Plated returns the finding of a plated limit ("total", "front", "rear"): the one figure that is told of it everywhere.
func (w *Weight) Plated(id string) (*Finding, bool) {
	name := map[string]string{"total": "weight-total", "front": "axle-front", "rear": "axle-rear"}[id]
	for i := range w.Findings {
		if w.Findings[i].Check == name {
			return &w.Findings[i], true
		}
	}
	return nil, false
}

// find returns a named case.
func (w *Weight) find(id string) (*LoadCase, bool) {
	for i := range w.Cases {
		if w.Cases[i].ID == id {
			return &w.Cases[i], true
		}
	}
	return nil, false
}

// doubt returns how well a measure of a split is known, and nought where it cannot be said.
func (w *Weight) doubt(s axle.Split, m axle.Measure, floor unit.Mass) unit.Mass {
	d, err := s.Spread(w.shared, m, floor)
	if err != nil {
		return 0
	}
	return d.Half
}

// lacks lists what is missing as subjects.
func (w *Weight) lacks() []Subject {
	out := slices.Clone(w.Why)
	for _, l := range w.In.Lacks {
		out = append(out, Subject{Path: l.Path, Name: l.What})
	}
	return out
}

// noMass reports whether the mass of anything that is or may be aboard is missing.
func (w *Weight) noMass() bool {
	return slices.ContainsFunc(w.In.Lacks, func(l derive.Lack) bool { return l.Need == derive.NeedMass || l.Need == derive.NeedContents })
}

// fittedMass reports whether the mass of anything fitted, or the fuel when it was weighed, is missing.
func (w *Weight) fittedMass() bool {
	return slices.ContainsFunc(w.In.Lacks, func(l derive.Lack) bool { return l.Need == derive.NeedMass || l.Need == derive.NeedOther })
}

// subject points at a load.
func subject(l *axle.Load) Subject {
	return Subject{Path: l.Ref, Name: l.Name, At: [3]unit.Opt[unit.Length]{l.At.X, l.At.Y, l.At.Z}}
}

// heaviest returns the fitted loads that add most to a measure, for a reader who asks what it is made of.
func (w *Weight) heaviest(m axle.Measure, n int) []Subject {
	type part struct {
		at int
		kg float64
	}
	top := make([]part, 0, n+1)
	for i := range w.In.Loads {
		l := &w.In.Loads[i]
		a, ok := m.Lever(l.At, l.On).Get()
		if !ok || !(l.Mass > 0) || l.Unlisted {
			continue
		}
		kg := a.Of(l.Mass).Kilograms()
		at := len(top)
		for at > 0 && top[at-1].kg < kg {
			at--
		}
		if at < n {
			if top = slices.Insert(top, at, part{i, kg}); len(top) > n {
				top = top[:n]
			}
		}
	}
	out := make([]Subject, len(top))
	for i, p := range top {
		out[i] = subject(&w.In.Loads[p.at].Load)
	}
	return out
}
