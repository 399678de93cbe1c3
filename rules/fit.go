package rules

import "berthwright/calc"

var millimetres = calc.Show{Unit: "mm", Factor: 0.001}

func length(name string, m float64, bound Bound) Value {
	return Value{Name: name, SI: m, Dim: calc.DimLength, Show: millimetres, Bound: bound}
}

// bunk makes the rows of one edition of the standard's clear space over bunks. Above the plan area the larger space is asked for.
func bunk(edition, key string, area float64) Rule {
	return Rule{
		ID: "bunk-space", Edition: edition, Countries: ukEU, Concern: "fit", Title: "Clear space over a bunk",
		Says: "Above a plan area a bunk is at least 500 mm wide with 500 mm free height over two thirds of it; at or below it 400 mm free height over half of it is enough.",
		Values: []Value{
			{Name: "area", SI: area, Dim: calc.DimArea, Show: calc.Show{Unit: "m²", Digits: 1}},
			length("width", 0.5, AtLeast), length("high", 0.5, AtLeast), share("part", 2.0/3, AtLeast), length("high-small", 0.4, AtLeast), share("part-small", 0.5, AtLeast),
		},
		Cite: calc.Cite{Key: key, At: "clear height over bunks"}, Level: calc.Secondary,
		Note: "as a French page quotes it; the plan area is overall length times width",
	}
}

var fitRows = []Rule{
	bunk("EN 1646-1:2004", "en-1646-1-2004", 12), bunk("EN 1646-1:2012", "en-1646-1-2012", 13.5),
	{
		ID: "bunk-guard", Edition: "EN 1646-1", Countries: ukEU, Concern: "fit", Title: "Guard of a high bunk",
		Says:   "A bunk whose mattress top is more than 1 000 mm above the floor has a guard, at least 100 mm above the mattress, and a warning for children below six.",
		Values: []Value{length("above", 1.0, AtMost), length("guard", 0.1, AtLeast)},
		Cite:   calc.Cite{Key: "en-1646-1-2012", At: "fall protection"}, Level: calc.Secondary,
		Note: "the 1 000 mm and the warning as quoted; the 100 mm from memory",
	},
	{
		ID: "living-door", Edition: "EN 1646-1", Countries: ukEU, Concern: "fit", Care: Exits, Title: "Door of the living space",
		Says:   "Below a plan area of 13.5 m² the way through the door is at least 1 140 mm high and 480 mm wide; above it 1 590 mm by 480 mm.",
		Values: []Value{{Name: "area", SI: 13.5, Dim: calc.DimArea, Show: calc.Show{Unit: "m²", Digits: 1}}, length("high-small", 1.14, AtLeast), length("width", 0.48, AtLeast), length("high", 1.59, AtLeast)},
		Cite:   calc.Cite{Key: "en-1646-1-2012", At: "doors"}, Level: calc.Secondary,
	},
	{
		ID: "registration-bed", Edition: "HMRC", Countries: uk, Concern: "fit", Title: "Bed of a motor caravan for tax",
		Says:   "At least one bed is 1.82 m long or longer; sink, cooking, a seat at a table and at least 10 L of fresh water belong to the same definition.",
		Values: []Value{length("length", 1.82, AtLeast)},
		Cite:   calc.Cite{Key: "uk-hmrc-vit51200", At: "motor caravans"}, Level: calc.Seen,
	},
	{
		ID: "standing-block", Edition: "Netherlands", Countries: eu, Concern: "fit", Advisory: true, Title: "Free block for the Dutch tax",
		Says:   "A block of 200 by 90 cm, 170 cm high, stands free in the living space.",
		Values: []Value{length("long", 2.0, AtLeast), length("wide", 0.9, AtLeast), length("high", 1.7, AtLeast)},
		Cite:   calc.Cite{Key: "nl-camper-tax", At: "dimensions"}, Level: calc.Secondary,
	},
}
