package check

import (
	"berthwright/axle"
	"berthwright/unit"
)

// plan returns the declared loading plan as groups. People count at the larger of their own mass and the counted one.
// While no luggage is declared none is counted, so that what is found is the least it can be.
func (c *cases) plan(policy axle.WaterPolicy) []axle.Group {
	if c.groups == nil {
		c.groups, c.fresh, c.waste = c.makePlan(false)
	}
	out := make([]axle.Group, len(c.groups))
	copy(out, c.groups)
	out[0] = axle.Water(c.fresh, c.waste, policy)
	return out
}

// brim returns everything that could be stuffed in, whatever the plan allows: every seat taken, every tank full, every
// luggage zone to its limit.
func (c *cases) brim() []axle.Group {
	groups, fresh, waste := c.makePlan(true)
	groups[0] = axle.Water(fresh, waste, axle.RefilledWithoutEmptying)
	return groups
}

// makePlan returns the groups; the first is kept for the water, whose policy differs.
func (c *cases) makePlan(brim bool) (groups []axle.Group, fresh, waste []axle.Variable) {
	people := make([]axle.Variable, 0, len(c.in.Seats))
	fluids := make([]axle.Variable, 0, len(c.in.Tanks))
	luggage := make([]axle.Variable, 0, len(c.in.Zones))
	groups = make([]axle.Group, 4, 8+len(c.in.Carried))
	for i := range c.in.Seats {
		s := &c.in.Seats[i]
		if !s.Planned && !brim {
			continue
		}
		m, name := c.in.Person, s.Name
		if s.Person >= 0 {
			p := &c.in.People[s.Person]
			own, _ := c.own(p)
			m, name = max(m, own), p.Name
			if p.Restraint.V > 0 {
				groups = append(groups, axle.Group{ID: "restraint-" + p.ID, Name: "child restraint", Variables: []axle.Variable{axle.Whole(c.restraint(p), 1)}})
			}
		}
		v := axle.Whole(person("seat-"+s.ID, name, s, m), 1)
		if s.Driver {
			v.Least = v.Mass
		}
		people = append(people, v)
	}
	for i := range c.in.Tanks {
		t := &c.in.Tanks[i]
		level := t.Driving
		if brim {
			level = 1
		}
		v := axle.UpTo(c.tank(i, level))
		switch t.For {
		case "fresh":
			fresh = append(fresh, v)
		case "waste":
			waste = append(waste, v)
		default:
			fluids = append(fluids, v)
		}
	}
	for i := range c.in.Zones {
		z := &c.in.Zones[i]
		luggage = append(luggage, axle.UpTo(axle.Load{ID: z.ID, Name: z.Name, Ref: z.Path, Group: "luggage", Mass: z.Limit.V, At: z.At, On: z.On}))
	}
	lug := axle.Group{ID: "luggage", Name: "luggage", Variables: luggage}
	if !brim {
		lug.Cap = unit.Some(c.in.Luggage.V)
	}
	groups[1] = axle.Group{ID: "people", Name: "people", Variables: people}
	groups[2] = axle.Group{ID: "fluids", Name: "fuel, hot water, toilet, gas", Variables: fluids}
	groups[3] = lug
	for i := range c.in.Carried {
		k := &c.in.Carried[i]
		if k.UpTo > 0 {
			groups = append(groups, axle.Group{ID: "carried-" + k.ID, Name: k.Name, Variables: []axle.Variable{axle.Whole(c.carried(k), k.UpTo)}})
		}
	}
	for _, l := range c.nose() {
		groups = append(groups, axle.Group{ID: "nose", Name: "nose weight", Variables: []axle.Variable{axle.UpTo(l)}})
	}
	return groups, fresh, waste
}

// solo returns groups without the trailer's nose weight.
func solo(groups []axle.Group) []axle.Group {
	for i := range groups {
		if groups[i].ID == "nose" {
			return append(groups[:i:i], groups[i+1:]...)
		}
	}
	return groups
}

// policyWords names the water policies as people say them.
var policyWords = [...]string{
	axle.UsedWaterLeavesFresh:    "used water leaves the fresh tank",
	axle.RefilledWithoutEmptying: "fresh refilled without emptying the waste",
}

var policyID = [...]string{axle.UsedWaterLeavesFresh: "used", axle.RefilledWithoutEmptying: "refilled"}

// worst adds the worst case of groups for m; it returns the index in the list, or an error that names the places that
// are missing.
func (c *cases) worst(id, name string, m axle.Measure, sense axle.Sense, policy axle.WaterPolicy, groups []axle.Group) (int, error) {
	w, err := axle.Worst(c.base, groups, m, sense)
	if err != nil {
		return -1, err
	}
	code := "case-worst"
	if !c.in.Luggage.Known() {
		code = "case-worst-no-luggage"
	}
	c.list = append(c.list, LoadCase{ID: id, Name: name, Worst: &w, Split: w.Split, Says: say(code, Kg(c.in.Person), policyWords[policy])})
	return len(c.list) - 1, nil
}

// hardest is the value of the worst case.
func hardest(base axle.Split, groups []axle.Group, m axle.Measure) (unit.Mass, bool) {
	v, err := axle.WorstValue(base, groups, m, axle.Most)
	return v, err == nil
}
