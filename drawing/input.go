package drawing

import "berthwright/unit"

// Input is what a view is drawn from. It is not the document: derive makes it.
// What is absent is not drawn.
type Input struct {
	System  unit.System // of the figures made here: dimensions and the scale of the curve
	State   string      // travel, camp, night, stored
	Name    string      // name of the build
	Van     Van
	Things  []Thing
	Axles   []AxleLoad   // in order from the front
	Centre  *CentrePoint // centre of mass, nil when unknown
	Curve   []CurvePoint // what can still be added, by place; in rising X
	Remarks []string     // printed under the view
}

// Van is the base van. All lengths are in van axes: x rearwards from the front axle, y right of the
// centre line, z up from the bare load floor.
type Van struct {
	Length, Width, Height unit.Opt[unit.Length] // overall, without mirrors
	FrontOverhang         unit.Opt[unit.Length] // front axle to the front end, positive
	Wheelbase             unit.Opt[unit.Length]
	TrackFront, TrackRear unit.Opt[unit.Length]
	FloorHeight           unit.Opt[unit.Length] // bare load floor above ground
	FinishedFloor         unit.Opt[unit.Length] // z of the finished floor
	Ceiling               unit.Opt[unit.Length] // z of the lined ceiling
	Bulkhead, RearDoor    unit.Opt[unit.Length] // x of the lines people tape from
	LeftWall, RightWall   unit.Opt[unit.Length] // y of the lined walls; the left one is negative
	WheelDiameter         unit.Opt[unit.Length] // drawn as 0.66 m when absent: part of the schematic outline
	WheelBoxes            []WheelBox
	Door                  string // side of the sliding door: left, right or empty
	Wheel                 string // side of the steering wheel: left, right or empty
}

// WheelBox is the housing of a rear wheel inside the load space.
type WheelBox struct {
	X0, X1, Y0, Y1 unit.Length
	Top            unit.Opt[unit.Length] // z
}

// ThingKind tells how a thing is drawn. The zero value is an item with a size.
type ThingKind uint8

// The kinds of thing.
const (
	Item     ThingKind = iota // Outline, Z0 and Z1 count
	Spread                    // X0 to X1: lining, harness, pipes
	Zone                      // Outline is where it may be
	MassOnly                  // no size: a mark at Centre
)

// At is a point in plan, in van axes.
type At struct{ X, Y unit.Length }

// Thing is one item of the kit list.
type Thing struct {
	ID     string
	Doc    string // path in the document
	Number int    // number on the parts list; 0: none
	Name   string
	Mass   string // as printed, "19.2 kg"
	Layer  string // the trade: kitchen, electric …
	Kind   ThingKind

	Outline []At // turned, in order around, at least 3
	Z0, Z1  unit.Length
	X0, X1  unit.Length // Spread

	Centre struct{ X, Y, Z unit.Length } // centre of mass

	Removed, Ghost, Marked bool
	Measured               bool // dimensioned from the bulkhead line in plan; the six largest are
	Quiet                  bool // drawn, but neither named nor numbered here
}

// AxleLoad is the load on an axle, with its words made by others.
type AxleLoad struct {
	X    unit.Length
	Text string // "rear axle 1 886 kg of 1 900 kg"
	Sub  string // second line: "14 kg in hand, ± 16 kg: tight"
}

// CentrePoint is a centre of mass in van axes.
type CentrePoint struct {
	X, Y, Z unit.Length
	Text    string // "centre of mass, 3 467 kg"
}

// CurvePoint says how much can still be added at X.
type CurvePoint struct {
	X    unit.Length
	Mass unit.Mass
	Text string // a value to write at this point; empty: none
}

// Options says how a view is drawn.
type Options struct {
	Scale      float64 // scene millimetres per millimetre of paper, texts and lines are sized for it; 0: 20
	Grid       bool    // the 100 mm grid
	Dimensions bool    // dimension chains
	Labels     bool    // names, numbers, balloons
	Band       bool    // stretches and the added-mass curve under a plan
}

// Full asks for everything, for paper at the given scale.
func Full(scale float64) Options {
	return Options{Scale: scale, Grid: true, Dimensions: true, Labels: true, Band: true}
}
