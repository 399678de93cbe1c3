package doc

import "berthwright/unit"

// Item is one thing with a mass or a place.
type Item struct {
	ID       string            `doc:"id,id,required" help:"made once, never changed or reused"`
	Name     string            `doc:"name" help:"what people call it"`
	From     string            `doc:"from" ref:"part" help:"the catalogue part it was fitted from, part@edition"`
	Group    string            `doc:"group" enum:"body|lining|seats|kitchen|overhead|washroom|tall|bunks|water|gas|heating|electric|safety|loose|other" help:"the trade it belongs to"`
	Mass     Opt[unit.MassEst] `doc:"mass" unit:"kg" range:"0 kg..3000 kg" usual:"..400 kg" help:"mass of one, with its 95 % half-width"`
	Known    string            `doc:"known" enum:"weighed|data-sheet|own-boards|estimated|guess" help:"how the mass is known"`
	Dated    Opt[Date]         `doc:"dated" help:"when the mass was found"`
	Source   string            `doc:"source" help:"where the mass was found"`
	Count    Opt[int]          `doc:"count" range:"0..999" usual:"..100" help:"how many; absent: one"`
	Size     Size              `doc:"size" help:"extent along x, y, z before turning"`
	Turn     Opt[unit.Angle]   `doc:"turn" unit:"°" range:"-360 °..360 °" help:"counter-clockwise seen from above, whole degrees"`
	Centre   Point             `doc:"centre" help:"mass centre from the middle of the underside, before turning; absent: the middle of the box"`
	At       Point             `doc:"at" help:"middle of the underside; absent when it is taped (place) or in a zone"`
	Place    Place             `doc:"place" help:"the place as it was taped; at is derived from it"`
	Zone     string            `doc:"zone" help:"not yet measured: along, side and level, such as \"rear left low\""`
	Span     Span              `doc:"span" help:"a stretch: from and to along the van"`
	States   States            `doc:"states" help:"exceptions by state"`
	Removed  Opt[bool]         `doc:"removed" help:"taken out of the base van: its mass is subtracted"`
	InTicket Opt[bool]         `doc:"in-ticket" help:"already in the empty van as weighed: adds no mass"`
	Allow    Opt[bool]         `doc:"allowance" help:"stands in for its group until real items replace it"`
	Locked   string            `doc:"locked" help:"why it must not be offered for moving or removal"`
	On       string            `doc:"where" enum:"inside|roof|under|rear|side" help:"where it is carried; side: outside on a wall, as an awning is; absent: inside"`
	Seat     Box[Seat]         `doc:"seat" help:"it is a travelling seat for one person"`
	Tank     Box[Tank]         `doc:"tank" help:"it holds something with a mass"`
	Outline  []Flat            `doc:"outline" help:"outline in plan around at, for a body that is no box; at least three corners"`
	Moves    []Motion          `doc:"moves" help:"what moves in use"`
	Spaces   []Space           `doc:"spaces" help:"room it needs beside it"`
	Berth    Box[Berth]        `doc:"berth" help:"it is a sleeping place"`
	Hole     Box[Hole]         `doc:"opening" help:"a hole is cut for it"`
	Fixing   Box[Fixing]       `doc:"fixing" help:"how it is held"`
	Use      Box[Use]          `doc:"use" help:"what people do at it"`
	Recess   Opt[Recess]       `doc:"recess" help:"it is a pod in the wall"`
	Raise    Opt[Raise]        `doc:"raise" help:"it is a roof that lifts"`
	Scribe   Opt[unit.Length]  `doc:"scribe" unit:"mm" range:"0 mm..400 mm" help:"how far at most it is cut back to the curve of wall and ceiling; absent: not at all"`
	Contents []string          `doc:"contains" ref:"item" help:"items that stand inside it; they are no clash"`
	Cover    Opt[bool]         `doc:"soft" help:"it gives way: cushions, mattress, curtain, hose"`
	Price    Opt[unit.Money]   `doc:"price" usual:"0.01.." help:"price of one, before tax"`
	Supplier string            `doc:"supplier" help:"where it is bought"`
	Hours    Opt[unit.Hours]   `doc:"hours" unit:"h" range:"0 h..500 h" usual:"..80 h" help:"working time to fit it"`
	Remark   string            `doc:"remark" help:"a remark"`

	// Read by later versions; until then kept in the text, untouched.
	_ struct{} `doc:"electric,reserved" help:"circuit, currents, duty"`
	_ struct{} `doc:"water,reserved" help:"connections and flows"`
	_ struct{} `doc:"gas,reserved" help:"connections and rates"`
	_ struct{} `doc:"carcass,reserved" help:"the boards it is made of"`
}

// Place is a place as it was taped: at most one measure along, one across and one up.
type Place struct {
	Bulkhead      Opt[unit.LengthEst] `doc:"bulkhead" unit:"mm" range:"-3 m..8 m" help:"back from the bulkhead line"`
	RearDoor      Opt[unit.LengthEst] `doc:"rear-door" unit:"mm" range:"-3 m..8 m" help:"forward from the rear door line"`
	WheelBox      Opt[unit.LengthEst] `doc:"wheel-box" unit:"mm" range:"-4 m..4 m" help:"back from the middle of the wheel-box"`
	CabSeat       Opt[unit.LengthEst] `doc:"cab-seat" unit:"mm" range:"0 m..8 m" help:"back from the cab seat against its rear stop; ± 30 mm"`
	Behind        string              `doc:"behind" ref:"item" help:"behind this item"`
	Ahead         string              `doc:"ahead-of" ref:"item" help:"ahead of this item"`
	Line          string              `doc:"line" enum:"bulkhead|rear-door|wheel-box|cab-seat|axle" help:"the line it is to be taped from, while the distance is still to be measured"`
	Edge          string              `doc:"edge" enum:"front|middle|rear" help:"which edge the measure along was taken to; absent: the near one"`
	LeftWall      Opt[unit.LengthEst] `doc:"left-wall" unit:"mm" range:"-0.5 m..2.5 m" help:"from the lined left wall"`
	RightWall     Opt[unit.LengthEst] `doc:"right-wall" unit:"mm" range:"-0.5 m..2.5 m" help:"from the lined right wall"`
	CentreLine    Opt[unit.LengthEst] `doc:"centre-line" unit:"mm" range:"-1.5 m..1.5 m" help:"right of the centre line, to the middle"`
	LeftOf        string              `doc:"left-of" ref:"item" help:"to the left of this item"`
	RightOf       string              `doc:"right-of" ref:"item" help:"to the right of this item"`
	FinishedFloor Opt[unit.LengthEst] `doc:"finished-floor" unit:"mm" range:"-1 m..3 m" help:"underside above the finished floor"`
	BareFloor     Opt[unit.LengthEst] `doc:"bare-floor" unit:"mm" range:"-1 m..3 m" help:"underside above the bare floor"`
	Ceiling       Opt[unit.LengthEst] `doc:"ceiling" unit:"mm" range:"-1 m..3 m" help:"top down from the lined ceiling"`
	OnTop         string              `doc:"on-top-of" ref:"item" help:"on top of this item"`
	Gap           Opt[unit.LengthEst] `doc:"gap" unit:"mm" range:"-1 m..5 m" help:"gap to the neighbour named; absent: none"`
}

// Span is a stretch along the van.
type Span struct {
	From Opt[unit.Length] `doc:"from" unit:"mm" range:"-2 m..12 m" help:"front end, rearwards from the front axle"`
	To   Opt[unit.Length] `doc:"to" unit:"mm" range:"-2 m..12 m" help:"rear end, rearwards from the front axle"`
}

// States are the exceptions of an item in each standard state.
type States struct {
	Travel Box[Pose] `doc:"travel" help:"on the road"`
	Camp   Box[Pose] `doc:"camp" help:"by day, parked"`
	Night  Box[Pose] `doc:"night" help:"beds made"`
	Stored Box[Pose] `doc:"stored" help:"laid up"`
}

// Pose is where and how an item is in one state; what is absent stays as it is elsewhere.
type Pose struct {
	At   Point           `doc:"at" help:"middle of the underside in this state"`
	Size Size            `doc:"size" help:"extent in this state"`
	Turn Opt[unit.Angle] `doc:"turn" unit:"°" range:"-360 °..360 °" help:"turn in this state"`
	Away Opt[bool]       `doc:"away" help:"not in the van in this state"`
	Note string          `doc:"note" help:"what to do: latched, folded, wound in"`
}

// Seat is a travelling place for one person.
type Seat struct {
	R      Point            `doc:"r-point" help:"seat reference point of the person, in van axes; travelling position, rearmost"`
	Belted Opt[bool]        `doc:"belted" help:"it has a belt"`
	Faces  string           `doc:"faces" enum:"forward|rearward|sideways" help:"which way it faces when travelling"`
	Driver Opt[bool]        `doc:"driver" help:"it is the driver's seat"`
	Row    Opt[int]         `doc:"row" range:"1..4" help:"row, from the front"`
	Paper  string           `doc:"paper" help:"the test evidence for this floor"`
	Floor  string           `doc:"floor" help:"the floor and its build that the evidence is for"`
	Rail   string           `doc:"rail" help:"the rail position it was tested in"`
	Roof   Opt[bool]        `doc:"roof-cut" help:"the evidence covers a cut roof"`
	Torque string           `doc:"torque" help:"torque record: value, who, when"`
	Tested Opt[unit.Length] `doc:"tested-at" unit:"mm" range:"0 m..10 m" help:"place along the van the evidence was given for; a move voids it"`
}

// Tank holds something with a mass.
type Tank struct {
	For     string            `doc:"for" enum:"fresh|waste|hot|toilet|flush|fuel|gas|other" help:"what it holds"`
	Volume  Opt[unit.Volume]  `doc:"volume" unit:"L" range:"0 L..1000 L" usual:"..300 L" help:"usable volume"`
	Holds   Opt[unit.Mass]    `doc:"holds" unit:"kg" range:"0 kg..500 kg" help:"mass of the contents when full; absent: volume times density"`
	Density Opt[unit.Density] `doc:"density" unit:"kg/L" range:"0.3 kg/L..2 kg/L" help:"density of the contents"`
	At      Point             `doc:"at" help:"mass centre of the contents, in van axes; absent: that of the item"`
	Feeds   string            `doc:"feeds" ref:"item" help:"the tank that its contents end up in"`
	Vessels Opt[int]          `doc:"vessels" range:"1..20" help:"how many vessels alike this entry stands for, as two gas cylinders; absent: the count of the item"`
	Travel  Opt[unit.Ratio]   `doc:"travel" unit:"%" range:"0 %..100 %" help:"highest fill declared for driving; absent: full"`
}
