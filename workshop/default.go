package workshop

import (
	"berthwright/doc"
	"berthwright/rules"
	"berthwright/unit"
)

// Default is a value taken where a build says nothing, with its basis. It is printed as assumed.
type Default[T any] struct {
	V       T
	Written bool   // the workshop file says so; false: it is the default built into the program
	From    string // "workshop file", or where the built-in value comes from
}

// Standard returns the defaults built into the program. Person: the mass that type approval counts for one person. The
// other figures are common practice, no source.
func Standard() Defaults {
	return Defaults{
		FillPolicy:   "refilled",
		Person:       unit.Some(75 * unit.Kilogram),
		Unlisted:     unit.Some(unit.Ratio(0.04)),
		UnlistedHalf: unit.Some(unit.Ratio(0.02)),
		Spreads: ByKnown{
			Weighed: unit.Some(unit.Ratio(0.01)), DataSheet: unit.Some(unit.Ratio(0.06)), OwnBoards: unit.Some(unit.Ratio(0.08)),
			Estimated: unit.Some(unit.Ratio(0.15)), Guess: unit.Some(unit.Ratio(0.25)),
		},
		Shared: ByKnown{
			Weighed: unit.Some(unit.Ratio(0.002)), DataSheet: unit.Some(unit.Ratio(0.03)), OwnBoards: unit.Some(unit.Ratio(0.03)),
			Estimated: unit.Some(unit.Ratio(0.05)), Guess: unit.Some(unit.Ratio(0.10)),
		},
	}
}

const (
	fromFile     = "workshop file"
	fromPractice = "common practice, no source"
)

func pick[T any](own, std doc.Opt[T], from string) Default[T] {
	if v, ok := own.Get(); ok {
		return Default[T]{V: v, Written: true, From: fromFile}
	}
	v, _ := std.Get()
	return Default[T]{V: v, From: from}
}

// HalfOf returns the 95 % half-width, as a share of the mass, of a mass known in that way; an unknown word counts as a guess.
func (w Workshop) HalfOf(known string) Default[unit.Ratio] {
	return pick(w.Defaults.Spreads.of(known), Standard().Spreads.of(known), fromPractice)
}

// SharedOf returns the 95 % half-width of the error that all masses known in that way share.
func (w Workshop) SharedOf(known string) Default[unit.Ratio] {
	return pick(w.Defaults.Shared.of(known), Standard().Shared.of(known), fromPractice)
}

// Unlisted returns what screws, glue and cable come to, as a share of the fitted mass, and its half-width in points of it.
func (w Workshop) Unlisted() (share, half Default[unit.Ratio]) {
	return pick(w.Defaults.Unlisted, Standard().Unlisted, fromPractice), pick(w.Defaults.UnlistedHalf, Standard().UnlistedHalf, fromPractice)
}

// Person returns the mass counted at least for each person.
func (w Workshop) Person() Default[unit.Mass] {
	return pick(w.Defaults.Person, Standard().Person, "75 kg a person, the figure of European type approval")
}

// FillPolicy returns "refilled" (fresh refilled without emptying the waste) or "used-leaves-fresh".
func (w Workshop) FillPolicy() Default[string] {
	if w.Defaults.FillPolicy != "" {
		return Default[string]{V: w.Defaults.FillPolicy, Written: true, From: fromFile}
	}
	return Default[string]{V: Standard().FillPolicy, From: fromPractice + "; the unkind one of the two"}
}

// Confirmation returns the entry by which the workshop confirmed a rule in that edition.
func (w Workshop) Confirmation(rule, edition string) (Confirmed, bool) {
	for _, c := range w.Confirmed {
		if c.Rule == rule && c.Edition == edition {
			return c, true
		}
	}
	return Confirmed{}, false
}

// Part returns an own part.
func (w Workshop) Part(id string) (doc.Item, bool) {
	for _, p := range w.Parts {
		if p.ID == id {
			return p, true
		}
	}
	return doc.Item{}, false
}

// PartIDs returns the ids of the own parts.
func (w Workshop) PartIDs() []string {
	out := make([]string, len(w.Parts))
	for i := range w.Parts {
		out[i] = w.Parts[i].ID
	}
	return out
}

// Confirmations returns the confirmed figures as the rules take them. One without a date is left out: the file was
// reported as wrong when it was read.
func (w Workshop) Confirmations() []rules.Confirmation {
	var out []rules.Confirmation
	for _, c := range w.Confirmed {
		if d, ok := c.Date.Get(); ok {
			out = append(out, rules.Confirmation{Rule: c.Rule, Edition: c.Edition, Clause: c.Clause, Initials: c.Initials, Date: d})
		}
	}
	return out
}
