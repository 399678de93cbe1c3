// Package workshop answers: what does this workshop take for granted, and which figures has it confirmed?
//
// The workshop file holds what builds share: name and address for papers, prices, own parts, rule figures read in the
// workshop's own copy of a publication, and the defaults for what a build leaves open. It is read by the binder of the
// build file, from the field tags below. A default is always returned as a Default with its basis, so that whoever uses
// it can print it as assumed.
package workshop

import (
	"berthwright/doc"
	"berthwright/unit"
)

// Workshop is the workshop file as bound from its text. Absent values stay absent; the methods fill them from Standard.
type Workshop struct {
	Version   int                 `doc:"berthwright-workshop,required" range:"1..1" why:"this program reads version 1" help:"version of this file format"`
	Name      string              `doc:"name" help:"name of the workshop, as papers print it"`
	Address   []string            `doc:"address" help:"address, line by line"`
	Country   string              `doc:"country" enum:"uk|eu|us|au|nz" help:"whose rules a new build starts with"`
	Units     string              `doc:"units" enum:"metric|imperial" help:"the unit system of screens and papers"`
	Currency  string              `doc:"currency" help:"three-letter currency of prices"`
	Tax       doc.Opt[unit.Ratio] `doc:"tax" unit:"%" range:"0 %..50 %" help:"tax added to prices"`
	Labour    doc.Opt[unit.Money] `doc:"labour" help:"price of one working hour, before tax"`
	Parts     []doc.Item          `doc:"parts" help:"own parts, with the keys of an item"`
	Confirmed []Confirmed         `doc:"confirmed" help:"rule figures read in the workshop's own copy of the publication"`
	Defaults  Defaults            `doc:"defaults" help:"what is taken where a build says nothing"`
	Accepted  []doc.Accepted      `doc:"accepted" help:"warnings accepted with a reason"`
}

// Confirmed is one figure of a rule that somebody of the workshop has read in the publication itself.
type Confirmed struct {
	Rule     string            `doc:"rule,required" help:"id of the rule"`
	Edition  string            `doc:"edition,required" help:"edition of the publication that was read"`
	Clause   string            `doc:"clause,required" help:"clause, table or page"`
	Initials string            `doc:"initials,required" help:"who read it"`
	Date     doc.Opt[doc.Date] `doc:"date,required" help:"when it was read"`
	Note     string            `doc:"note" help:"anything else"`
}

// Defaults are what is taken where a build says nothing.
type Defaults struct {
	FillPolicy   string              `doc:"fill-policy" enum:"refilled|used-leaves-fresh" help:"which water policy decides: fresh refilled without emptying the waste, or used water leaves the fresh tank"`
	Person       doc.Opt[unit.Mass]  `doc:"person" unit:"kg" range:"40 kg..150 kg" help:"counted at least for each person"`
	Unlisted     doc.Opt[unit.Ratio] `doc:"unlisted" unit:"%" range:"0 %..20 %" help:"screws, glue, cable and the like, as a share of the fitted mass"`
	UnlistedHalf doc.Opt[unit.Ratio] `doc:"unlisted-spread" unit:"%" range:"0 %..20 %" help:"95 % half-width of that share, in points of the fitted mass"`
	Spreads      ByKnown             `doc:"spreads" help:"95 % half-width of a mass that was written without one, by how it is known"`
	Shared       ByKnown             `doc:"shared" help:"error that all masses of one kind share, 95 % half-width"`
}

// ByKnown is a share for each way a mass is known.
type ByKnown struct {
	Weighed   doc.Opt[unit.Ratio] `doc:"weighed" unit:"%" range:"0 %..100 %" help:"weighed on a scale"`
	DataSheet doc.Opt[unit.Ratio] `doc:"data-sheet" unit:"%" range:"0 %..100 %" help:"net mass of a data sheet or catalogue"`
	OwnBoards doc.Opt[unit.Ratio] `doc:"own-boards" unit:"%" range:"0 %..100 %" help:"own boards, by area"`
	Estimated doc.Opt[unit.Ratio] `doc:"estimated" unit:"%" range:"0 %..100 %" help:"worked out from parts or lengths"`
	Guess     doc.Opt[unit.Ratio] `doc:"guess" unit:"%" range:"0 %..100 %" help:"a guess"`
}

// of returns the share for one word of known; any other word counts as a guess.
func (s ByKnown) of(known string) doc.Opt[unit.Ratio] {
	switch known {
	case "weighed":
		return s.Weighed
	case "data-sheet":
		return s.DataSheet
	case "own-boards":
		return s.OwnBoards
	case "estimated":
		return s.Estimated
	}
	return s.Guess
}
