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

	Cuts    []Cut    // cross-sections of the inside, in rising X
	Holes   []Hole   // to be cut
	Members []Member // pillars, ribs and bows
	Doors   []Door   // openings of the van as bought
}

// YZ is a point of a cross-section: y right of the centre line, z above the bare floor.
type YZ struct{ Y, Z unit.Length }

// Cut is the inside at one station. Both curves run from the left end of the floor up the left wall, over the roof and down
// the right wall; between the last point and the first is the floor.
type Cut struct {
	X           unit.Length
	Bare, Lined []YZ
	Floor       []Level // the build-up of the floor, from the bare one up
}

// Level is the top of one layer of the floor.
type Level struct {
	Z    unit.Length
	Text string // "15 mm panel"
}

// Hole is a hole to cut, on the face it is cut in. Lo and Hi are its corners: along and up on a wall, along and across on roof
// and floor, across and up in the rear.
type Hole struct {
	ID, Doc, Name string
	Mark          string // its number in the hole register, "H3"
	Face          string // left, right, roof, floor, rear, inside
	Lo, Hi        [2]unit.Length
	Radius        unit.Length
	Frame         unit.Length // how far the frame stands over the cut
}

// Member is a pillar, rib or bow of the body.
type Member struct {
	ID, Doc, Kind string
	Face          string // left, right, roof, floor, rear
	X, Width      unit.Length
	Low, High     unit.Length // z; both 0: not known
	Text          string      // what is inside it
}

// Door is an opening of the van as bought.
type Door struct {
	ID, Doc, Name       string
	Face                string // left, right, rear, front, roof, floor
	From, To, Low, High unit.Length
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

	Light bool // neither named nor numbered at 1:40 and smaller, unless marked

	Within  []string // ids of what it stands in, nearest first
	Holds   bool     // other things stand in it: hollow where it is cut
	Outside bool     // on the roof, under the floor, behind or on an outer wall
	InSkin  bool     // it sits in a hole through the outer skin
	Fixed   string   // how it is fixed to the wall before the lining: "8 × M6 into ribs"; empty: it is not
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
	Overall    bool    // of the dimensions only those of the van: overall, wheelbase, overhangs, floor
	Labels     bool    // names, numbers, balloons
	Band       bool    // stretches under a plan or a wall, the added-mass curve under a plan
	Hidden     bool    // in plan, draw also what is shut in something lower than the plan is cut
	Fixings    bool    // of a wall: before the lining goes on, only what is fixed to it
}

// Full asks for everything, for paper at the given scale.
func Full(scale float64) Options {
	return Options{Scale: scale, Grid: true, Dimensions: true, Labels: true, Band: true}
}
