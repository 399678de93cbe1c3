// Package rules answers: which limits and definitions is this build judged by?
//
// Rules are data. A Rule is one row with country, edition, dates, clause and evidence; a new
// edition is a new row and older rows stay, so that an older build re-computes as before.
//
//	pack, err := rules.For("uk", date)
//	person := pack.Stricter("person-mass", "mass")
//
// Two sources that differ on one thing are two rows with one ID; Stricter takes the stricter and
// tells the other. Nothing here compares a vehicle with a limit: package check does.
// Penalties and roadside allowances are not limits and are not kept.
package rules

import (
	"berthwright/calc"
	"berthwright/doc"
	"berthwright/unit"
)

// Rule is one limit or definition in one edition.
type Rule struct {
	ID        string   // the subject: "pay-mass-least"; the same in every country and edition
	Edition   string   // "1230/2012"; ID, country and edition together are unique
	Countries []string // "uk", "eu", "us", "au", "nz"; "*" for every country
	From      doc.Date // first day it applies; zero: since long
	Until     doc.Date // last day it applies; zero: open
	Pending   bool     // adopted, but no day of application is known: told, never applied
	Advisory  bool     // asked for or useful to know, but no limit
	Concern   string   // "weight"
	Care      Care
	Title     string
	Says      string // in our own words, one or two sentences
	Values    []Value
	Cite      calc.Cite
	Level     calc.Evidence
	Note      string
	Confirmed Confirmation // set when the workshop confirmed the row from its own copy
}

// Value is one figure of a Rule.
type Value struct {
	Name  string // "mass"
	SI    float64
	Dim   calc.Dim
	Show  calc.Show
	Bound Bound
}

// Bound tells on which side of a figure things hold, and so which of two figures is stricter.
type Bound uint8

// The bounds.
const (
	Plain   Bound = iota // a definition or a coefficient: the larger one is the stricter
	AtMost               // the smaller one is the stricter
	AtLeast              // the larger one is the stricter
)

// Care names the fields in which a figure that nobody has read in the publication may not carry
// a verdict. The zero value is no such field.
type Care uint8

// The fields of care.
const (
	NoCare Care = iota
	Gas
	Mains
	Battery
	Ventilation
	Exits
	Seats
	Structure
)

// String returns the word for the field.
func (c Care) String() string {
	return [...]string{"none", "gas", "mains", "battery", "ventilation", "exits", "seats", "structure"}[c]
}

// MayHold reports whether a comparison with this rule may give "holds". In a field of care the
// figure must have been read in the publication, in a text that quotes it, or be confirmed by the
// workshop; elsewhere the evidence is printed beside the verdict.
func (r Rule) MayHold() bool {
	return r.Care == NoCare || r.Level != calc.Recalled && r.Level != calc.Unsourced
}

// Key returns the unique name of the row, "pay-mass-least@1230/2012".
func (r Rule) Key() string { return r.ID + "@" + r.Edition }

// Value returns the figure with the name.
func (r Rule) Value(name string) (Value, bool) {
	for _, v := range r.Values {
		if v.Name == name {
			return v, true
		}
	}
	return Value{}, false
}

// Mass returns the figure with the name when it is a mass.
func (r Rule) Mass(name string) unit.Opt[unit.Mass] {
	if v, ok := r.Value(name); ok && v.Dim == calc.DimMass {
		return unit.Some(unit.Mass(v.SI))
	}
	return unit.Opt[unit.Mass]{}
}

// Share returns the figure with the name when it is a plain number or share.
func (r Rule) Share(name string) unit.Opt[unit.Ratio] {
	if v, ok := r.Value(name); ok && v.Dim == calc.None {
		return unit.Some(unit.Ratio(v.SI))
	}
	return unit.Opt[unit.Ratio]{}
}

// Step returns a figure of the rule as a step of working.
func (r Rule) Step(symbol, name string) (calc.Step, bool) {
	v, ok := r.Value(name)
	if !ok {
		return calc.Step{}, false
	}
	kind := calc.Limit
	if v.Bound == Plain {
		kind = calc.Constant
	}
	return calc.Step{
		Symbol: symbol, Says: r.Title, Kind: kind, SI: v.SI, Dim: v.Dim, Show: v.Show,
		Source: []calc.Cite{r.Cite}, Level: r.Level,
	}, true
}

// stricter reports whether v is stricter than other.
func (v Value) stricter(other Value) bool {
	if v.Bound == AtMost {
		return v.SI < other.SI
	}
	return v.SI > other.SI
}
