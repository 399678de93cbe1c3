// Package doc answers: what does the workshop say about this build?
//
// Build is the whole description as bound from its text (package docfile). It is a plain value:
// nothing here is computed, and an absent value stays absent. The field tags are the field table:
// the binder, the JSON Schema, the form on the page and docs/file-format.md are all made from it.
//
// Tags: doc:"key[,id][,key][,required][,reserved]" names the key (id: it names the entry; key: it names the entry by
// referring to something else; reserved: kept in the text for later versions, not read); help says what it is; unit is the usual unit,
// used in hints and as the column unit on the page; range and why bound it; usual says what it mostly is (common
// practice, no source), beyond which there is a warning; enum lists words;
// ref names the kind of id a text refers to (item, zone, seat, person, plate, part, class, group).
//
// Axes: x rearwards from the front axle, y to the right of the centre line when facing forward,
// z up from the bare load floor.
package doc

import "berthwright/unit"

// Opt is a value that may be absent.
type Opt[T any] = unit.Opt[T]

// Box is a large value that may be absent.
type Box[T any] = unit.Box[T]

// Build is one van, whole.
type Build struct {
	Version  int        `doc:"berthwright,required" range:"1..1" why:"this program reads version 1" help:"version of this file format"`
	Head     Head       `doc:"build,required" help:"what this build is called and where and when it is judged"`
	Job      Job        `doc:"job" help:"the brief, the promises and where the work stands"`
	Van      Van        `doc:"van" help:"the base van: plate, ticket, tape"`
	Items    []Item     `doc:"items" help:"everything with a mass or a place"`
	Loading  Loading    `doc:"loading" help:"the declared loading plan, printed as the placard"`
	Notes    []Note     `doc:"notes" help:"notes for people"`
	Accepted []Accepted `doc:"accepted" help:"warnings accepted with a reason"`

	// Read by later versions; until then kept in the text, untouched.
	_ struct{} `doc:"electric,reserved" help:"circuits and runs"`
	_ struct{} `doc:"water,reserved" help:"pipes and settings"`
	_ struct{} `doc:"gas,reserved" help:"pipes and settings"`
	_ struct{} `doc:"heating,reserved" help:"ducts and settings"`
	_ struct{} `doc:"trips,reserved" help:"journeys to live through"`
	_ struct{} `doc:"options,reserved" help:"alternatives on offer"`
}

// Head names the build.
type Head struct {
	ID         string    `doc:"id,id,required" help:"short name used in file names and addresses"`
	Name       string    `doc:"name" help:"what people call the build"`
	Country    string    `doc:"country" enum:"uk|eu|us|au|nz" help:"whose rules it is judged by"`
	Date       Opt[Date] `doc:"date" help:"the day whose rule editions apply"`
	Customer   string    `doc:"customer" help:"who it is for"`
	Registered Opt[bool] `doc:"registered" help:"true when the van was registered before conversion"`
	Units      string    `doc:"units" enum:"metric|imperial" help:"the unit system of screens and papers"`
	Currency   string    `doc:"currency" help:"three-letter currency of prices"`
}

// Date is a calendar day, "2026-11-01".
type Date struct{ Year, Month, Day int }

// Job is what was asked and where the work stands.
type Job struct {
	Brief    string     `doc:"brief" help:"what the customer wants, in words"`
	Stage    string     `doc:"stage" enum:"enquiry|base-van|layout|before-cutting|before-lining|first-fix|furniture|weighing|tests|handover|after" help:"the stage the build is in"`
	Hold     string     `doc:"hold" help:"the next hold point"`
	Promises []Promise  `doc:"promises" help:"claims made to the customer that the build must keep"`
	Open     []Decision `doc:"decisions" help:"decisions waiting"`
}

// Promise is a claim made to the customer.
type Promise struct {
	ID    string         `doc:"id,id,required" help:"id of the promise"`
	What  string         `doc:"what" enum:"payload-left|belts|berths|plated-within" help:"what was promised"`
	Least Opt[unit.Mass] `doc:"at-least" unit:"kg" range:"0 kg..5000 kg" help:"the least mass promised"`
	Count Opt[int]       `doc:"count" range:"0..12" help:"the number promised"`
	Words string         `doc:"words" help:"how it was put to the customer"`
}

// Decision is something somebody still has to decide.
type Decision struct {
	ID   string    `doc:"id,id,required" help:"id of the decision"`
	What string    `doc:"what" help:"what is to be decided"`
	Who  string    `doc:"who" help:"who decides"`
	By   Opt[Date] `doc:"by" help:"when it is needed"`
}

// Note is a note for people, pinned to a place or an item.
type Note struct {
	ID   string     `doc:"id,id,required" help:"id of the note"`
	Text string     `doc:"text" help:"the note"`
	Item string     `doc:"item" ref:"item" help:"the item it is about"`
	At   Opt[Point] `doc:"at" help:"where it is pinned"`
	By   string     `doc:"by" help:"who wrote it"`
	Date Opt[Date]  `doc:"date" help:"when"`
}

// Accepted switches a warning off, with a reason. Errors and failed checks have no such switch.
type Accepted struct {
	Code   string `doc:"code,required" help:"the code of the warning"`
	Path   string `doc:"path" help:"the place in this file it is accepted for, with all below it; absent: anywhere"`
	Reason string `doc:"reason,required" help:"why"`
}

// Point is a place or an extent in van axes; what it means stands at the field.
type Point struct {
	X Opt[unit.Length] `doc:"x" unit:"mm" range:"-5 m..15 m" help:"rearwards from the front axle"`
	Y Opt[unit.Length] `doc:"y" unit:"mm" range:"-5 m..5 m" help:"to the right of the centre line"`
	Z Opt[unit.Length] `doc:"z" unit:"mm" range:"-2 m..5 m" help:"up from the bare load floor"`
}

// Size is the extent of an item along x, y and z before turning.
type Size struct {
	X Opt[unit.Length] `doc:"x" unit:"mm" range:"0 mm..15 m" help:"length along the van"`
	Y Opt[unit.Length] `doc:"y" unit:"mm" range:"0 mm..5 m" help:"width across the van"`
	Z Opt[unit.Length] `doc:"z" unit:"mm" range:"0 mm..5 m" help:"height"`
}
