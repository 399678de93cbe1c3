package rules

import (
	"slices"

	"berthwright/calc"
	"berthwright/doc"
)

var us, au, nz = []string{"us"}, []string{"au"}, []string{"nz"}

// overseasRows are the weight rules of the United States, Australia and New Zealand.
var overseasRows = []Rule{
	{
		ID: "person-mass", Edition: "571.110", Countries: us, Concern: "weight", Title: "Mass of each occupant",
		Says:   "Each belted seat counts with 150 lb in the occupant and cargo capacity.",
		Values: []Value{inPounds("mass", 150, Plain)},
		Cite:   calc.Cite{Key: "us-fmvss-110", At: "S9 and S10, motor homes"}, Level: calc.Recalled,
	},
	{
		ID: "belted-capacity-least", Edition: "571.110", Countries: us, Concern: "weight", Title: "Occupant and cargo capacity",
		Says:   "The stated occupant and cargo capacity is at least 150 lb for each belted seat.",
		Values: []Value{inPounds("per-seat", 150, AtLeast)},
		Cite:   calc.Cite{Key: "us-fmvss-110", At: "S9 and S10, motor homes"}, Level: calc.Recalled,
	},
	{
		ID: "weight-added", Edition: "72 FR 68442", Countries: us, From: doc.Date{Year: 2008, Month: 6, Day: 2}, Concern: "weight",
		Title:  "Weight added before first retail sale",
		Says:   "Whoever adds more than the lesser of 1.5 % of the rated gross weight and 100 lb before the first retail sale states it on the labels.",
		Values: []Value{share("share", 0.015, AtMost), inPounds("mass", 100, AtMost)},
		Cite:   calc.Cite{Key: "us-fmvss-110", At: "summary of the final rule of 4 December 2007"}, Level: calc.Seen,
	},
	{
		ID: "plated-limits", Edition: "571.110", Countries: us, Concern: "weight", Title: "Rated weights",
		Says: "Neither the gross vehicle rating nor a gross axle rating is exceeded.",
		Cite: calc.Cite{Key: "us-fmvss-110", At: "certification label"}, Level: calc.Recalled,
	},
	{
		ID: "person-mass", Edition: "assumed", Countries: []string{"au", "nz"}, Concern: "weight", Title: "Mass of each person",
		Says:   "Each person is counted with 75 kg, as in Europe.",
		Values: []Value{mass("mass", 75, Plain)},
		Cite:   calc.Cite{Key: "practice", At: "mass of a person"}, Level: calc.Unsourced,
		Note: "no Australian or New Zealand figure was read",
	},
	{
		ID: "plated-limits", Edition: "ADR", Countries: au, Concern: "weight", Title: "Plated masses",
		Says: "Neither the plated gross mass nor a plated axle nor the plated combination mass is exceeded.",
		Cite: calc.Cite{Key: "au-adr", At: "vehicle marking"}, Level: calc.Recalled,
	},
	{
		ID: "modification-code", Edition: "VSB 14", Countries: au, Concern: "weight", Advisory: true, Title: "Motor home conversions",
		Says: "A conversion that changes the mass or the seats is judged by an approved certifier under code LH11.",
		Cite: calc.Cite{Key: "au-vsb14", At: "section LH, code LH11"}, Level: calc.Secondary,
	},
	{
		ID: "plated-limits", Edition: "41001/2016", Countries: nz, Concern: "weight", Title: "Rated masses",
		Says: "Neither the rated gross mass nor a rated axle nor the rated combination mass is exceeded.",
		Cite: calc.Cite{Key: "nz-dimensions-mass-2016", At: "gross mass and axle ratings"}, Level: calc.Recalled,
	},
	{
		ID: "licence-b", Edition: "class C", Countries: au, Concern: "weight", Title: "Car licence",
		Says:   "A car licence serves vehicles with a gross mass up to 4 500 kg.",
		Values: []Value{mass("total", 4500, AtMost)},
		Cite:   calc.Cite{Key: "au-licence-classes", At: "class C"}, Level: calc.Recalled,
	},
	{
		ID: "licence-b", Edition: "class 1", Countries: nz, Concern: "weight", Title: "Car licence",
		Says:   "A class 1 licence serves vehicles with a gross mass up to 6 000 kg.",
		Values: []Value{mass("total", 6000, AtMost)},
		Cite:   calc.Cite{Key: "nz-driver-licensing-1999", At: "class 1"}, Level: calc.Recalled,
	},
}

// allRows is every row in the order packs list them. It is never changed.
var allRows = slices.Concat(massRows, basisRows, shareRows, axleRows, licenceRows, methodRows, overseasRows, fitRows)
