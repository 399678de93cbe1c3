package rules

import (
	"slices"

	"berthwright/calc"
	"berthwright/doc"
)

// shareRows say how permissible masses and loads are shared between the axles.
var shareRows = slices.Concat(
	approval(Rule{
		ID: "axle-sum-least", Concern: "weight", Title: "Axle limits together",
		Says:   "The permissible masses of all axles together are at least the permissible total.",
		Values: []Value{share("share", 1, AtLeast)}, Level: calc.Secondary,
		Note: "opening words of the clause read in the contents of the publication",
	}, "annex I, part A, 2.1", "annex XIII, part 2", calc.Recalled),
	approval(Rule{
		ID: "front-share-least", Concern: "weight", Title: "Least share of the front axle, laden",
		Says:   "When the permissible total and the permissible rear axle mass are reached together, the front axle still carries 30 % of the total; with a trailer coupled, 20 %.",
		Values: []Value{share("laden", 0.30, AtLeast), share("coupled", 0.20, AtLeast)}, Level: calc.Secondary,
		Note: "sentences read where they are quoted; the numbers of the clauses are from memory",
	}, "annex I, part A, 2.4 and 2.7", "annex XIII, part 2", calc.Recalled),
)

// axleRows limit the plated masses, sides, tyres, roof and nose.
var axleRows = []Rule{
	{
		ID: "plated-limits", Edition: "SI 1986/1078", Countries: uk, Concern: "weight", Title: "Plated masses",
		Says: "Neither the plated total nor any plated axle nor the plated train mass is exceeded when driving.",
		Cite: calc.Cite{Key: "uk-cu-1986", At: "regulation 80"}, Level: calc.Secondary,
		Note: "number of the regulation from memory",
	},
	{
		ID: "plated-limits", Edition: "2021/535", Countries: eu, Concern: "weight", Title: "Plated masses",
		Says: "Laden to the permissible total, no axle carries more than its permissible mass.",
		Cite: calc.Cite{Key: "eu-2021-535", At: "annex XIII, part 2"}, Level: calc.Secondary,
	},
	{
		ID: "side-difference", Edition: "body-builder", Countries: []string{"*"}, Concern: "weight", Advisory: true,
		Title:  "Left and right",
		Says:   "Body-builder guidelines commonly ask that left and right wheel loads of an axle differ by no more than a few per cent of the axle load; about 4 % is usual.",
		Values: []Value{share("share", 0.04, AtMost)},
		Cite:   calc.Cite{Key: "body-builder", At: "wheel load difference"}, Level: calc.Recalled,
	},
	{
		ID: "tyre-capacity", Edition: "ISO 4000-1", Countries: []string{"*"}, Concern: "weight", Title: "Tyres",
		Says: "An axle carries no more than its tyres together: each the mass of its load index; twin tyres go by the second index on the wall.",
		Cite: calc.Cite{Key: "iso-4000-1", At: "load index"}, Level: calc.Secondary,
		Note: "see LoadIndex for the rows and the evidence of each; that the second index is for twins is from memory",
	},
	{
		ID: "roof-load", Edition: "body-builder", Countries: []string{"*"}, Concern: "weight", Care: Structure, Title: "Roof",
		Says: "What is fitted and carried on the roof stays within the roof load that the papers of the base vehicle give.",
		Cite: calc.Cite{Key: "body-builder", At: "roof load"}, Level: calc.Recalled,
	},
	{
		ID: "nose-weight", Edition: "body-builder", Countries: []string{"*"}, Concern: "weight", Care: Structure, Title: "Nose weight",
		Says: "The load on the tow ball stays within the lower limit of tow bar, van and trailer.",
		Cite: calc.Cite{Key: "body-builder", At: "tow bar"}, Level: calc.Recalled,
	},
}

// licenceRows say up to which plated mass a licence serves, and from which mass speed limits change.
var licenceRows = []Rule{
	{
		ID: "licence-b", Edition: "2025", Countries: uk, Concern: "weight", Title: "Car licence",
		Says:   "Category B serves vehicles plated up to 3 500 kg.",
		Values: []Value{mass("total", 3500, AtMost)},
		Cite:   calc.Cite{Key: "uk-licensing-guidance", At: "category B"}, Level: calc.Secondary,
	},
	{
		ID: "licence-b-alternative", Edition: "2025-06-10", Countries: uk, From: doc.Date{Year: 2025, Month: 6, Day: 10},
		Concern: "weight", Title: "Car licence, zero-emission vehicle",
		Says:   "Category B serves zero-emission vehicles plated up to 4 250 kg, with a trailer up to 7 000 kg together; vehicles with an engine stay at 3 500 kg.",
		Values: []Value{mass("total", 4250, AtMost), mass("train", 7000, AtMost)},
		Cite:   calc.Cite{Key: "uk-licensing-guidance", At: "zero-emission vehicles"}, Level: calc.Secondary,
		Note: "up to 5 000 kg where the added mass is equipment for a disabled passenger",
	},
	{
		ID: "licence-c1", Edition: "2025", Countries: uk, Concern: "weight", Title: "Licence C1",
		Says:   "Category C1 serves vehicles plated up to 7 500 kg; with the older entitlement a combination up to 8 250 kg.",
		Values: []Value{mass("total", 7500, AtMost), mass("train", 8250, AtMost)},
		Cite:   calc.Cite{Key: "uk-licensing-guidance", At: "category C1"}, Level: calc.Secondary,
		Note: "holders of a car licence from before 1997 usually have it",
	},
	{
		ID: "licence-b", Edition: "2006/126", Countries: eu, Concern: "weight", Title: "Car licence",
		Says:   "Category B serves vehicles plated up to 3 500 kg.",
		Values: []Value{mass("total", 3500, AtMost)},
		Cite:   calc.Cite{Key: "eu-2006-126", At: "article 4"}, Level: calc.Secondary,
	},
	{
		ID: "licence-b-alternative", Edition: "2025/2205", Countries: eu, Pending: true, Concern: "weight",
		Title:  "Car licence, motor caravans and alternative fuels",
		Says:   "Category B is to serve motor caravans plated up to 4 250 kg after training or a test, and alternatively fuelled vehicles two years after the licence.",
		Values: []Value{mass("total", 4250, AtMost)},
		Cite:   calc.Cite{Key: "eu-2025-2205", At: "category B"}, Level: calc.Secondary,
		Note: "adopted 22 October 2025; national law is awaited, about three years and one more",
	},
	{
		ID: "licence-c1", Edition: "2006/126", Countries: eu, Concern: "weight", Title: "Licence C1",
		Says:   "Category C1 serves vehicles plated up to 7 500 kg.",
		Values: []Value{mass("total", 7500, AtMost)},
		Cite:   calc.Cite{Key: "eu-2006-126", At: "article 4"}, Level: calc.Recalled,
	},
	{
		ID: "unladen-speed", Edition: "1984", Countries: uk, Concern: "weight", Title: "Unladen mass for speed limits",
		Says:   "A motor caravan of more than 3 050 kg unladen has lower speed limits than a car: 50, 60 and 70 mph on single, dual and motor roads.",
		Values: []Value{mass("unladen", 3050, AtMost)},
		Cite:   calc.Cite{Key: "uk-rtra-1984", At: "schedule 6"}, Level: calc.Secondary,
		Note: "the schedule is from memory; unladen is without people, fuel for driving and load",
	},
}

// methodRows are definitions that the weight sheet uses beside the limits.
var methodRows = []Rule{
	{
		ID: "static-stability", Edition: "2001", Countries: []string{"*"}, Concern: "weight", Advisory: true,
		Title: "Static stability factor",
		Says:  "Half the track over the height of the mass centre; a rigid vehicle tips on a side slope of that tangent, springs and tyres make it tip earlier.",
		Cite:  calc.Cite{Key: "nhtsa-ssf", At: "definition of the factor"}, Level: calc.Seen,
		Note: "a figure to know, not a limit",
	},
	{
		ID: "centre-height-by-lift", Edition: "handbook", Countries: []string{"*"}, Concern: "weight", Advisory: true,
		Title: "Height of the mass centre from an axle-lift weighing",
		Says:  "The gain of the lower axle, the wheelbase and the slope give the height above the wheel centres.",
		Cite:  calc.Cite{Key: "vehicle-dynamics", At: "height of the mass centre"}, Level: calc.Recalled,
		Note: "springs blocked, tanks full or empty",
	},
}
