// Package derive answers: what do the sciences need to know of this build?
//
// It is the only translator. It reads a doc.Build with the catalogue and the workshop's defaults, resolves lines,
// places and masses, and makes one plain input value per concern. It compares nothing and computes no physics beyond
// turning a tape reading into a coordinate. Every value says how it came about; a missing one stays missing.
package derive

import (
	"fmt"

	"berthwright/axle"
	"berthwright/unit"
)

// How tells how a value came about. The zero value is Missing.
type How uint8

// The ways a value comes about.
const (
	Missing How = iota
	Given       // written in the build
	Derived     // worked out from values written in the build
	Assumed     // a default: of the class of van, of the workshop, of common practice
)

// String returns the word for h.
func (h How) String() string {
	return [...]string{"missing", "given", "derived", "assumed"}[h]
}

// Val is a value with how it came about.
type Val[T any] struct {
	V    T
	How  How
	From string // where it comes from, in words
	Path string // document path it is, or would be, written at
}

// Known reports whether there is a value.
func (v Val[T]) Known() bool { return v.How != Missing }

func given[T any](v T, path string) Val[T] { return Val[T]{V: v, How: Given, Path: path} }

func assumed[T any](v T, path, from string) Val[T] {
	return Val[T]{V: v, How: Assumed, From: from, Path: path}
}

func derived[T any](v T, path, from string) Val[T] {
	return Val[T]{V: v, How: Derived, From: from, Path: path}
}

// Assumption is one default in use.
type Assumption struct {
	Says string // "wheelbase %s"; Text puts the amounts in
	Args []any  // names and quantities in the order of Says
	From string // "class panel van 6.0 m high roof"
	Path string
}

// Text says the assumption with its amounts in the reader's units: "wheelbase 4 000 mm".
func (a Assumption) Text(sys unit.System) string {
	if len(a.Args) == 0 {
		return a.Says
	}
	args := make([]any, len(a.Args))
	for i, x := range a.Args {
		args[i] = x
		if q, ok := x.(unit.Quantity); ok {
			args[i] = unit.Format(q, sys, -1)
		}
	}
	return fmt.Sprintf(a.Says, args...)
}

// Need tells what kind of input is missing.
type Need uint8

// The kinds of missing input.
const (
	NeedOther    Need = iota
	NeedMass          // of something fitted or taken out
	NeedContents      // mass of what the plan may carry: the contents of a tank, a limit, a piece
	NeedPlace         // along the van
)

// Lack is one input that is missing. Of a fitted mass it says where that mass would be, so that a reader can tell which
// way a figure would go.
type Lack struct {
	What  string // "mass of the fridge"
	Path  string
	Need  Need
	At    axle.Place // of a fitted mass, as far as it is known
	On    axle.On
	Group string
	Item  string // id, of a fitted mass and its place
	Takes bool   // what is missing would be taken off
}
