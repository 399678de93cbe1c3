package rules

import (
	"slices"
	"strings"

	"berthwright/calc"
	"berthwright/doc"
)

// How figures of weight rules are printed.
var (
	kilograms = calc.Show{Unit: "kg"}
	percent   = calc.Show{Unit: "%", Factor: 0.01}
	perMetre  = calc.Show{Unit: "kg/m"}
	pounds    = calc.Show{Unit: "lb", Factor: 0.45359237}
)

const pound = 0.45359237 // kg, exact

func mass(name string, kg float64, bound Bound) Value {
	return Value{Name: name, SI: kg, Dim: calc.DimMass, Show: kilograms, Bound: bound}
}

func share(name string, of float64, bound Bound) Value {
	return Value{Name: name, SI: of, Show: percent, Bound: bound}
}

func inPounds(name string, lb float64, bound Bound) Value {
	return Value{Name: name, SI: lb * pound, Dim: calc.DimMass, Show: pounds, Bound: bound}
}

var (
	lastOf1230 = doc.Date{Year: 2022, Month: 7, Day: 5}
	firstOf535 = doc.Date{Year: 2022, Month: 7, Day: 6}
	ukEU       = []string{"uk", "eu"}
	uk, eu     = []string{"uk"}, []string{"eu"}
)

// approval makes the rows of one type-approval rule: the UK's retained regulation, the EU's same
// regulation until it was repealed, and the EU's next one, whose text was read less well.
func approval(r Rule, at1230, at535 string, level535 calc.Evidence) []Rule {
	gb, old, now := r, r, r
	gb.Edition, gb.Countries, gb.Cite = "1230/2012", uk, calc.Cite{Key: "eu-1230-2012", At: at1230}
	gb.Note = strings.Trim(r.Note+"; Great Britain keeps its own amended version", "; ")
	old.Edition, old.Countries, old.Cite, old.Until = "1230/2012 EU", eu, gb.Cite, lastOf1230
	now.Edition, now.Countries, now.Cite, now.From = "2021/535", eu, calc.Cite{Key: "eu-2021-535", At: at535}, firstOf535
	now.Level = level535
	return []Rule{gb, old, now}
}

// massRows define what counts: people, running order, pay-mass.
var massRows = slices.Concat(
	approval(Rule{
		ID: "person-mass", Concern: "weight", Title: "Mass of each passenger",
		Says:   "Each passenger is counted with 75 kg, acting at the reference point of the seat.",
		Values: []Value{mass("mass", 75, Plain)}, Level: calc.Seen,
	}, "annex I, part A, 2.6.2.1", "annex XIII, part 2", calc.Recalled),
	approval(Rule{
		ID: "pay-mass-least", Concern: "weight", Title: "Least pay-mass of a motor caravan",
		Says:   "At least 10 kg for each person, driver counted, and 10 kg for each metre of overall length stay free for luggage.",
		Values: payMass, Level: calc.Secondary,
	}, "annex I, part A, 2.6.4.1.2", "annex XIII, part 2", calc.Secondary),
	[]Rule{
		{
			ID: "person-mass", Edition: "EN 1646-2", Countries: ukEU, Concern: "weight", Title: "Conventional load of each person",
			Says:   "Each person beside the driver is a conventional load of 75 kg.",
			Values: []Value{mass("mass", 75, Plain)},
			Cite:   calc.Cite{Key: "en-1646-2-2004", At: "conventional load"}, Level: calc.Secondary,
		},
		{
			ID: "personal-effects", Edition: "EN 1646-2", Countries: ukEU, Concern: "weight", Title: "Personal effects",
			Says:   "Personal effects are 10 kg for each person, driver counted, and 10 kg for each metre of overall length.",
			Values: payMass, Cite: calc.Cite{Key: "en-1646-2-2004", At: "personal effects"}, Level: calc.Secondary,
		},
		{
			ID: "running-order-tolerance", Edition: "2021/535", Countries: ukEU, Concern: "weight", Title: "Declared against weighed running order",
			Says:   "A declared mass in running order and the weighed one may differ by 5 %.",
			Values: []Value{share("share", 0.05, AtMost)},
			Cite:   calc.Cite{Key: "eu-2021-535", At: "annex XIII, part 2"}, Level: calc.Secondary,
		},
	},
)

var payMass = []Value{
	mass("per-person", 10, AtLeast),
	{Name: "per-metre", SI: 10, Dim: calc.DimMass.Per(calc.DimLength), Show: perMetre, Bound: AtLeast},
}

// runningOrder makes the figures of one basis: driver, and how full each kind of tank is.
func runningOrder(driver, fuel, fresh, hot, flush, gas, waste float64) []Value {
	return []Value{
		mass("driver", driver, Plain), share("fuel", fuel, Plain), share("fresh", fresh, Plain), share("hot", hot, Plain),
		share("flush", flush, Plain), share("gas", gas, Plain), share("waste", waste, Plain),
	}
}

// basisRows are the bases on which a mass in running order is published. They are not limits: a
// figure in running order is printed with its basis.
var basisRows = append(
	approval(Rule{
		ID: "running-order", Concern: "weight", Title: "Running order, approval basis",
		Says:   "Driver 75 kg, fuel 90 %, all other fluids 100 %, waste empty.",
		Values: runningOrder(75, 0.9, 1, 1, 1, 1, 0), Level: calc.Secondary,
	}, "article 2(4)", "annex XIII, part 2, A", calc.Secondary),
	Rule{
		ID: "running-order", Edition: "EN 1646-2", Countries: ukEU, Concern: "weight",
		Title:  "Running order, older standard for motor caravans",
		Says:   "Driver 75 kg, fuel 90 %, one gas cylinder full, fresh water, flush water and boiler full, waste empty.",
		Values: append(runningOrder(75, 0.9, 1, 1, 1, 1, 0), Value{Name: "gas-cylinders", SI: 1}),
		Cite:   calc.Cite{Key: "en-1646-2-2004", At: "mass in running order"}, Level: calc.Secondary,
		Note: "the quoted example counts one aluminium cylinder of 18 kg gross; commentaries differ on 90 % or 100 % of water and gas",
	},
	Rule{
		ID: "running-order", Edition: "travelling fill", Countries: ukEU, Concern: "weight",
		Title: "Running order, travelling fill of water",
		Says:  "As the approval basis, but fresh water only as far as the declared fill for driving, for example 20 L through an overflow valve.",
		Values: []Value{
			mass("driver", 75, Plain), share("fuel", 0.9, Plain), share("hot", 1, Plain), share("flush", 1, Plain),
			share("gas", 1, Plain), share("waste", 0, Plain),
		},
		Cite: calc.Cite{Key: "practice", At: "travelling fill"}, Level: calc.Unsourced,
		Note: "fresh water is the fill that the build declares for driving",
	},
	Rule{
		ID: "running-order", Edition: "dry", Countries: []string{"*"}, Concern: "weight",
		Title: "Running order, dry", Says: "Driver 75 kg and fuel 90 %, no other fluid aboard.",
		Values: runningOrder(75, 0.9, 0, 0, 0, 0, 0),
		Cite:   calc.Cite{Key: "practice", At: "dry running order"}, Level: calc.Unsourced,
	},
)
