package doc

import "berthwright/unit"

// Van is the base van as bought.
type Van struct {
	Class      string           `doc:"class" ref:"class" help:"generic class of van; fills what is not given, marked assumed"`
	Wheelbase  Opt[unit.Length] `doc:"wheelbase" unit:"mm" range:"2 m..6 m" why:"a van's wheelbase is 2 m to 6 m" usual:"2.5 m..4.8 m" help:"front to rear axle"`
	Track      FrontRear        `doc:"track" help:"middle of tyre to middle of tyre, across"`
	Length     Opt[unit.Length] `doc:"length" unit:"mm" range:"3 m..10 m" usual:"4.2 m..8 m" help:"overall length"`
	Width      Opt[unit.Length] `doc:"width" unit:"mm" range:"1.4 m..2.6 m" usual:"1.7 m..2.4 m" help:"overall width without mirrors"`
	Height     Opt[unit.Length] `doc:"height" unit:"mm" range:"1.5 m..4 m" usual:"1.8 m..3.3 m" help:"overall height of the empty van"`
	Overhang   Opt[unit.Length] `doc:"front-overhang" unit:"mm" range:"0.3 m..1.6 m" help:"front end to front axle"`
	Steering   string           `doc:"steering" enum:"left|right" help:"side of the driver"`
	Door       string           `doc:"sliding-door" enum:"left|right|both|none" help:"side of the sliding door"`
	Drive      string           `doc:"driven" enum:"front|rear|all" help:"driven axle"`
	Floor      Floor            `doc:"floor" help:"the load floor and its two lines"`
	Inside     Inside           `doc:"inside" help:"bare and lined inner faces"`
	Plated     Plate            `doc:"plated" help:"the statutory plate, in its own order"`
	Plates     []Plate          `doc:"plates" help:"alternative plated sets: uprated or downplated, with papers"`
	PlateInUse string           `doc:"plate-in-use" ref:"plate" help:"which alternative is judged; absent: the plate as it is"`
	Empty      Ticket           `doc:"empty" help:"the empty van as weighed, or as its papers say"`
	Centre     Opt[unit.Length] `doc:"empty-centre-height" unit:"mm" range:"300 mm..1500 mm" help:"height above ground of the empty van's centre of mass"`
	Tyres      Tyres            `doc:"tyres" help:"load index as written on the wall"`
	RoofLimit  Opt[unit.Mass]   `doc:"roof-limit" unit:"kg" range:"0 kg..500 kg" help:"highest mass on the roof, from the base maker's papers"`
	NoseLimit  Opt[unit.Mass]   `doc:"nose-limit" unit:"kg" range:"0 kg..350 kg" help:"highest nose weight of the tow bar"`
	TowLimit   Opt[unit.Mass]   `doc:"tow-limit" unit:"kg" range:"0 kg..3500 kg" help:"highest braked trailer mass"`
	TowBall    Opt[unit.Length] `doc:"tow-ball" unit:"mm" range:"3 m..12 m" help:"tow ball, rearwards from the front axle"`
	Shell      Shell            `doc:"shell" help:"the real inner shape, measured"`
	Ground     Ground           `doc:"ground" help:"how the van stands on the road"`
	Survey     Survey           `doc:"survey" help:"the tapes as they were read"`
}

// FrontRear is a length at each axle.
type FrontRear struct {
	Front Opt[unit.Length] `doc:"front" unit:"mm" range:"1 m..2.6 m" usual:"1.4 m..2.1 m" help:"at the front axle"`
	Rear  Opt[unit.Length] `doc:"rear" unit:"mm" range:"1 m..2.6 m" usual:"1.4 m..2.1 m" help:"at the rear axle"`
}

// Floor is the bare load floor.
type Floor struct {
	Height   Opt[unit.Length] `doc:"height" unit:"mm" range:"200 mm..1200 mm" usual:"350 mm..900 mm" help:"bare floor above ground, unladen"`
	Front    Opt[unit.Length] `doc:"front" unit:"mm" range:"0.5 m..4 m" help:"bulkhead line, rearwards from the front axle"`
	Rear     Opt[unit.Length] `doc:"rear" unit:"mm" range:"2 m..10 m" help:"rear door line, rearwards from the front axle"`
	Finished Opt[unit.Length] `doc:"finished" unit:"mm" range:"0 mm..300 mm" help:"finished floor above the bare floor"`
}

// Inside is the living space between its faces.
type Inside struct {
	Left     Opt[unit.Length] `doc:"left" unit:"mm" range:"-1.4 m..0 m" help:"lined left wall at worktop height (negative y)"`
	Right    Opt[unit.Length] `doc:"right" unit:"mm" range:"0 m..1.4 m" help:"lined right wall at worktop height"`
	Ceiling  Opt[unit.Length] `doc:"ceiling" unit:"mm" range:"1 m..3 m" help:"lined ceiling above the bare floor"`
	WheelBox WheelBox         `doc:"wheel-box" help:"the boxes over the rear wheels"`
}

// WheelBox is one of two mirrored boxes over the rear wheels.
type WheelBox struct {
	Front  Opt[unit.Length] `doc:"front" unit:"mm" range:"1 m..10 m" help:"front edge, rearwards from the front axle"`
	Rear   Opt[unit.Length] `doc:"rear" unit:"mm" range:"1 m..10 m" help:"rear edge, rearwards from the front axle"`
	Inner  Opt[unit.Length] `doc:"inner" unit:"mm" range:"0.2 m..1.2 m" help:"inner face from the centre line"`
	Height Opt[unit.Length] `doc:"height" unit:"mm" range:"0 mm..800 mm" help:"top above the bare floor"`
}

// Plate is one plated set, in the order of the statutory plate.
type Plate struct {
	ID    string         `doc:"id,id" help:"id of an alternative plated set"`
	Total Opt[unit.Mass] `doc:"total" unit:"kg" range:"1000 kg..12000 kg" usual:"2500 kg..5000 kg" help:"permissible total mass (first line of the plate)"`
	Train Opt[unit.Mass] `doc:"train" unit:"kg" range:"1000 kg..20000 kg" help:"permissible train mass (second line)"`
	Front Opt[unit.Mass] `doc:"front" unit:"kg" range:"500 kg..6000 kg" help:"permissible mass on axle 1"`
	Rear  Opt[unit.Mass] `doc:"rear" unit:"kg" range:"500 kg..8000 kg" help:"permissible mass on axle 2"`
	Basis string         `doc:"basis" enum:"as-is|uprated|downplated" help:"how this set came about"`
	Paper string         `doc:"paper" help:"the paper that grants it"`
}

// Ticket is a weighing of the empty van.
type Ticket struct {
	Front    Opt[unit.MassEst] `doc:"front" unit:"kg" range:"200 kg..6000 kg" help:"front axle as read"`
	Rear     Opt[unit.MassEst] `doc:"rear" unit:"kg" range:"200 kg..6000 kg" help:"rear axle as read"`
	Total    Opt[unit.MassEst] `doc:"total" unit:"kg" range:"500 kg..9000 kg" help:"whole van as read"`
	Left     Opt[unit.MassEst] `doc:"left" unit:"kg" range:"200 kg..6000 kg" help:"left side as read"`
	Right    Opt[unit.MassEst] `doc:"right" unit:"kg" range:"200 kg..6000 kg" help:"right side as read"`
	With     Aboard            `doc:"with" help:"what was aboard or fitted when it was read"`
	From     string            `doc:"from" enum:"weighing|papers|catalogue|guess" help:"how it is known"`
	Date     Opt[Date]         `doc:"date" help:"when"`
	Division Opt[unit.Mass]    `doc:"division" unit:"kg" range:"0.1 kg..100 kg" help:"scale division of the weighbridge"`
	Slope    Opt[unit.Ratio]   `doc:"slope" unit:"%" range:"-20 %..20 %" help:"slope of the plate along the van, nose down positive"`
	Note     string            `doc:"note" help:"anything else about the ticket"`
}

// Aboard is what was in or on the empty van when it was weighed, as tick boxes.
type Aboard struct {
	Driver   Opt[unit.Mass]  `doc:"driver" unit:"kg" range:"0 kg..250 kg" usual:"..150 kg" help:"mass of the driver aboard; 0 when nobody"`
	Fuel     Opt[unit.Ratio] `doc:"fuel" unit:"%" range:"0 %..100 %" help:"fuel level"`
	Bulkhead Opt[bool]       `doc:"bulkhead" help:"bulkhead still in"`
	Bench    Opt[bool]       `doc:"passenger-bench" help:"passenger bench still in"`
	Floor    Opt[bool]       `doc:"load-floor" help:"load floor still in"`
	Panels   Opt[bool]       `doc:"wall-panels" help:"wall panels still in"`
	Spare    Opt[bool]       `doc:"spare-wheel" help:"spare wheel still in"`
	Tools    Opt[bool]       `doc:"tools" help:"tools still in"`
}

// Tyres holds the load indices written on the tyre walls.
type Tyres struct {
	Front Opt[int]  `doc:"front" range:"60..150" usual:"90..125" help:"load index, front"`
	Rear  Opt[int]  `doc:"rear" range:"60..150" usual:"90..125" help:"load index, rear"`
	Twin  Opt[bool] `doc:"twin" help:"twin wheels at the rear; the index is then the second one on the wall"`
}

// Survey holds the tapes as they were read (docs/methods/survey.md).
type Survey struct {
	HubsLeft   Opt[unit.LengthEst] `doc:"hubs-left" unit:"mm" range:"2 m..6 m" help:"S1 hub to hub, left side"`
	HubsRight  Opt[unit.LengthEst] `doc:"hubs-right" unit:"mm" range:"2 m..6 m" help:"S1 hub to hub, right side"`
	HubPillar  Opt[unit.LengthEst] `doc:"hub-to-pillar" unit:"mm" range:"0 m..4 m" help:"S2 front hub back to the rear edge of the B-pillar, outside"`
	PillarBulk Opt[unit.LengthEst] `doc:"pillar-to-bulkhead" unit:"mm" range:"-1 m..2 m" help:"S3 B-pillar edge back to the bulkhead line, inside"`
	HubDoor    Opt[unit.LengthEst] `doc:"hub-to-rear-door" unit:"mm" range:"0 m..4 m" help:"S4 rear hub back to the rear door line"`
	BulkDoor   Opt[unit.LengthEst] `doc:"bulkhead-to-rear-door" unit:"mm" range:"1 m..8 m" help:"S5 bulkhead line to rear door line along the floor"`
	BoxFront   Opt[unit.LengthEst] `doc:"wheel-box-front" unit:"mm" range:"0 m..4 m" help:"S6 wheel-box front edge from the rear door line"`
	BoxRear    Opt[unit.LengthEst] `doc:"wheel-box-rear" unit:"mm" range:"0 m..4 m" help:"S6 wheel-box rear edge from the rear door line"`
	FloorFront Opt[unit.LengthEst] `doc:"floor-to-ground-front" unit:"mm" range:"200 mm..1200 mm" help:"S7 bare floor to ground at the bulkhead line"`
	FloorRear  Opt[unit.LengthEst] `doc:"floor-to-ground-rear" unit:"mm" range:"200 mm..1200 mm" help:"S7 bare floor to ground at the rear door line"`
	WidthFloor Opt[unit.LengthEst] `doc:"width-at-floor" unit:"mm" range:"1 m..2.6 m" help:"S8 bare width between ribs at the floor"`
	Width900   Opt[unit.LengthEst] `doc:"width-at-900" unit:"mm" range:"1 m..2.6 m" help:"S8 bare width between ribs 900 mm up"`
	Width1500  Opt[unit.LengthEst] `doc:"width-at-1500" unit:"mm" range:"1 m..2.6 m" help:"S8 bare width between ribs 1 500 mm up"`
	FloorBuild Opt[unit.Length]    `doc:"floor-build" unit:"mm" range:"0 mm..300 mm" help:"S9 thickness of the floor build"`
	Lining     Opt[unit.Length]    `doc:"lining" unit:"mm" range:"0 mm..200 mm" help:"S9 thickness of insulation and lining, one wall"`
	By         string              `doc:"by" help:"who held the tape"`
	Date       Opt[Date]           `doc:"date" help:"when"`
}
