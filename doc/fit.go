package doc

import "berthwright/unit"

// Shell is the van's real inner shape: measured cross-sections, lofted between, and what stands in the way.
// A generic class grants no cut-out, hard point, pillar content or clear space under the floor: those are unknown until
// they are entered from the base maker's body-building instruction or measured on this van.
type Shell struct {
	Sections []Section   `doc:"sections" help:"inner cross-sections of the bare metal, from front to rear"`
	Linings  []Lining    `doc:"linings" help:"insulation and lining taken off the bare metal, by zone"`
	Openings []Opening   `doc:"openings" help:"doors, cab opening, windows and cut-outs of the van as bought"`
	Frames   []Frame     `doc:"frames" help:"pillars, ribs and roof bows"`
	Allowed  []Allowance `doc:"allowed" help:"where the base maker allows a cut-out, a hard point, or grants clear space"`
	Under    []UnderPart `doc:"under" help:"what is under the floor and must stay free"`
	From     string      `doc:"from" enum:"measured|instruction|class" help:"how the shape is known"`
	Paper    string      `doc:"paper" help:"body-building instruction: document and page"`
	Date     Opt[Date]   `doc:"date" help:"when it was measured, or of the instruction"`
}

// Section is one inner cross-section at a station along the van, bare metal.
type Section struct {
	ID    string           `doc:"id,id,required" help:"id of the station"`
	X     Opt[unit.Length] `doc:"x" unit:"mm" range:"0 m..10 m" help:"station, rearwards from the front axle"`
	Left  []Corner         `doc:"left" help:"left wall from the floor up, corner by corner"`
	Right []Corner         `doc:"right" help:"right wall from the floor up; absent: the left one mirrored"`
	Half  Opt[unit.Length] `doc:"spread" unit:"mm" range:"0 mm..100 mm" help:"95 % half-width of its measures"`
}

// Corner is one corner of a cross-section.
type Corner struct {
	Y Opt[unit.Length] `doc:"y" unit:"mm" range:"-1.5 m..1.5 m" help:"right of the centre line"`
	Z Opt[unit.Length] `doc:"z" unit:"mm" range:"-0.2 m..3.5 m" help:"above the bare load floor"`
}

// Lining is insulation and lining on one face, over a stretch.
type Lining struct {
	ID         string           `doc:"id,id,required" help:"id of the zone"`
	Face       string           `doc:"face" enum:"left|right|roof|floor" help:"the face it is on"`
	From       Opt[unit.Length] `doc:"from" unit:"mm" range:"-1 m..10 m" help:"front end; absent: the bulkhead line"`
	To         Opt[unit.Length] `doc:"to" unit:"mm" range:"-1 m..10 m" help:"rear end; absent: the rear door line"`
	Insulation Opt[unit.Length] `doc:"insulation" unit:"mm" range:"0 mm..200 mm" help:"thickness of insulation"`
	Panel      Opt[unit.Length] `doc:"panel" unit:"mm" range:"0 mm..60 mm" help:"thickness of the panel and its battens"`
}

// Opening is a door, window or cut-out of the van as bought.
type Opening struct {
	ID     string           `doc:"id,id,required" help:"id of the opening"`
	Kind   string           `doc:"kind" enum:"sliding-door|rear-doors|tailgate|cab|window|cut-out|step" help:"what it is"`
	Side   string           `doc:"side" enum:"left|right|rear|front|roof|floor" help:"the face it is in"`
	From   Opt[unit.Length] `doc:"from" unit:"mm" range:"-2 m..10 m" help:"front edge along the van; for the rear face the left edge across"`
	To     Opt[unit.Length] `doc:"to" unit:"mm" range:"-2 m..10 m" help:"rear edge along the van; for the rear face the right edge across"`
	Low    Opt[unit.Length] `doc:"low" unit:"mm" range:"-1 m..3 m" help:"lower edge above the bare floor"`
	High   Opt[unit.Length] `doc:"high" unit:"mm" range:"-1 m..3 m" help:"upper edge above the bare floor"`
	Inside Opt[bool]        `doc:"opens-inside" help:"it can be opened from the inside"`
	Track  Opt[unit.Length] `doc:"track" unit:"mm" range:"0 mm..300 mm" help:"how far a sliding door stands off the side while it runs"`
	Known  string           `doc:"known" enum:"measured|instruction|class" help:"how it is known"`
}

// Frame is a pillar, rib or bow of the body.
type Frame struct {
	ID      string           `doc:"id,id,required" help:"id of the member"`
	Kind    string           `doc:"kind" enum:"pillar|rib|bow|noggin|sill" help:"what it is"`
	Side    string           `doc:"side" enum:"left|right|roof|floor|rear" help:"the face it is in"`
	X       Opt[unit.Length] `doc:"x" unit:"mm" range:"-2 m..10 m" help:"its middle along the van"`
	Width   Opt[unit.Length] `doc:"width" unit:"mm" range:"0 mm..500 mm" help:"its width along the van"`
	Low     Opt[unit.Length] `doc:"low" unit:"mm" range:"-1 m..3 m" help:"lower end above the bare floor"`
	High    Opt[unit.Length] `doc:"high" unit:"mm" range:"-1 m..3 m" help:"upper end above the bare floor"`
	Content string           `doc:"content" help:"what is inside it: air bag, belt, cable"`
	Known   string           `doc:"known" enum:"measured|instruction|class" help:"how it is known"`
}

// Allowance is what the base maker's instruction or a measurement grants at one place.
type Allowance struct {
	ID    string           `doc:"id,id,required" help:"id of the grant"`
	Kind  string           `doc:"kind" enum:"cut-out|hard-point|clear-under|roof-load" help:"what is granted"`
	Side  string           `doc:"side" enum:"left|right|rear|roof|floor" help:"the face it is in"`
	From  Opt[unit.Length] `doc:"from" unit:"mm" range:"-2 m..10 m" help:"front edge along the van"`
	To    Opt[unit.Length] `doc:"to" unit:"mm" range:"-2 m..10 m" help:"rear edge along the van"`
	Low   Opt[unit.Length] `doc:"low" unit:"mm" range:"-2 m..3 m" help:"lower edge above the bare floor; on roof and floor the left edge across"`
	High  Opt[unit.Length] `doc:"high" unit:"mm" range:"-2 m..3 m" help:"upper edge above the bare floor; on roof and floor the right edge across"`
	Paper string           `doc:"paper,required" help:"document and page of the instruction, or who measured it"`
	Date  Opt[Date]        `doc:"date,required" help:"date of the instruction or of the measurement"`
}

// UnderPart is something under or on the base van that must stay free or be kept clear of.
type UnderPart struct {
	ID   string           `doc:"id,id,required" help:"id of the part"`
	Kind string           `doc:"kind" enum:"exhaust|fuel-tank|prop-shaft|spare-winch|jacking-point|towing-eye|filler-flap|brake-line|spring|other" help:"what it is"`
	At   Point            `doc:"at" help:"middle of its underside"`
	Size Size             `doc:"size" help:"its extent"`
	Hot  Opt[bool]        `doc:"hot" help:"it gets hot"`
	Free Opt[unit.Length] `doc:"free" unit:"mm" range:"0 mm..1 m" help:"space to keep free around it"`
}

// Ground is how the van stands on the road.
type Ground struct {
	Clearance Opt[unit.Length] `doc:"clearance" unit:"mm" range:"50 mm..600 mm" help:"lowest part of the van as bought above ground"`
	Wheel     Opt[unit.Length] `doc:"wheel" unit:"mm" range:"400 mm..1100 mm" help:"outer diameter of the tyre"`
	Travel    Opt[unit.Length] `doc:"bump-travel" unit:"mm" range:"0 mm..300 mm" help:"how far a wheel comes up before its stop"`
}

// Flat is a corner of an outline in plan.
type Flat struct {
	X Opt[unit.Length] `doc:"x" unit:"mm" range:"-5 m..5 m" help:"rearwards from at, before turning"`
	Y Opt[unit.Length] `doc:"y" unit:"mm" range:"-3 m..3 m" help:"right of at, before turning"`
}

// Motion is one way an item moves in use: a door, a drawer, a seat that turns.
type Motion struct {
	ID     string           `doc:"id,id,required" help:"id of the moving part"`
	Kind   string           `doc:"kind" enum:"door|drawer|lid|flap|slide|swivel|fold|lift" help:"how it moves"`
	Side   string           `doc:"side" enum:"front|rear|left|right|top" help:"the face of the item it is in, before turning"`
	Hinge  string           `doc:"hinge" enum:"front|rear|left|right|top|bottom|middle" help:"the edge it turns about"`
	Angle  Opt[unit.Angle]  `doc:"angle" unit:"°" range:"0 °..360 °" help:"how far it turns"`
	Travel Opt[unit.Length] `doc:"travel" unit:"mm" range:"0 m..3 m" help:"how far it slides or lifts"`
	From   Opt[unit.Length] `doc:"from" unit:"mm" range:"-3 m..3 m" help:"start of the moving part along its face, from the near corner; absent: the whole face"`
	To     Opt[unit.Length] `doc:"to" unit:"mm" range:"-3 m..3 m" help:"end of the moving part along its face"`
	Low    Opt[unit.Length] `doc:"low" unit:"mm" range:"0 m..3 m" help:"lower edge above the underside; absent: 0"`
	High   Opt[unit.Length] `doc:"high" unit:"mm" range:"0 m..3 m" help:"upper edge above the underside; absent: the top"`
	In     []string         `doc:"in" help:"states it is used in: travel, camp, night; absent: camp and night"`
	Must   Opt[bool]        `doc:"whole-way" help:"it must go its whole way; absent: true"`
}

// Space is room an item needs beside it: air, a filter to pull, a way to take something out.
type Space struct {
	ID    string           `doc:"id,id,required" help:"id of the space"`
	For   string           `doc:"for" enum:"air|service|drain|access|heat|use" help:"what it is for"`
	Side  string           `doc:"side" enum:"front|rear|left|right|top|bottom" help:"the face it is in front of, before turning"`
	Depth Opt[unit.Length] `doc:"depth" unit:"mm" range:"0 m..3 m" help:"how deep"`
	First []string         `doc:"first" ref:"item" help:"what may stand there because it comes out first"`
	In    []string         `doc:"in" help:"states it is needed in; absent: all"`
	From  string           `doc:"from" help:"where the figure comes from: maker's fitting instruction, page"`
}

// Berth is a sleeping place.
type Berth struct {
	People   Opt[int]         `doc:"people" range:"1..4" help:"for how many"`
	Across   Opt[bool]        `doc:"across" help:"people lie across the van"`
	Length   Opt[unit.Length] `doc:"length" unit:"mm" range:"0.5 m..3 m" help:"promised clear length"`
	Width    Opt[unit.Length] `doc:"width" unit:"mm" range:"0.3 m..3 m" help:"promised clear width"`
	Mattress Opt[unit.Length] `doc:"mattress" unit:"mm" range:"0 mm..400 mm" help:"thickness of the mattress, not laden"`
	Load     Opt[unit.Mass]   `doc:"load" unit:"kg" range:"0 kg..500 kg" help:"what the bed is said to carry"`
	Guard    Opt[unit.Length] `doc:"guard" unit:"mm" range:"0 mm..1 m" help:"height of the guard above the mattress"`
	Ladder   string           `doc:"ladder" ref:"item" help:"how one gets up"`
	Out      []string         `doc:"out" help:"ways out at night: ids of openings"`
	Child    Opt[bool]        `doc:"child" help:"meant for children"`
}

// Hole is an opening that is cut for an item: window, roof light, vent, flue, filler.
type Hole struct {
	Face    string           `doc:"face" enum:"left|right|roof|floor|rear|inside" help:"the face it is cut in"`
	Along   Opt[unit.Length] `doc:"along" unit:"mm" range:"0 mm..3 m" help:"size along the van (across, in the rear face)"`
	Up      Opt[unit.Length] `doc:"up" unit:"mm" range:"0 mm..3 m" help:"size up (across, in roof and floor)"`
	Radius  Opt[unit.Length] `doc:"radius" unit:"mm" range:"0 mm..2 m" help:"corner radius; half the size: a round hole"`
	CutFrom string           `doc:"cut-from" enum:"outside|inside" help:"the face it is marked on and cut from"`
	Behind  string           `doc:"behind" help:"what is behind both faces, as somebody has seen"`
	Looked  string           `doc:"looked" help:"who looked, and when"`
	Edge    string           `doc:"edge" help:"edge treatment"`
	Sealant string           `doc:"sealant" help:"sealant"`
	Frame   Opt[unit.Length] `doc:"frame" unit:"mm" range:"0 mm..300 mm" help:"how far the frame stands over the cut"`
	Opens   string           `doc:"opens" enum:"no|out|in|up|slides" help:"how it opens"`
	Exit    Opt[bool]        `doc:"exit" help:"it counts as a way out"`
}

// Fixing is how an item is held.
type Fixing struct {
	Into   string          `doc:"into" enum:"steel|rib|floor|noggin|furniture|rail" help:"what it is fixed into"`
	Count  Opt[int]        `doc:"count" range:"0..200" help:"how many fixings"`
	Size   string          `doc:"size" help:"size, such as M6 or 5 mm screw"`
	Each   Opt[unit.Force] `doc:"each" unit:"N" range:"0 N..100000 N" help:"what one fixing is taken to hold in the direction of the load, from its maker's sheet"`
	Paper  string          `doc:"paper" help:"where that figure comes from"`
	Torque string          `doc:"torque" help:"torque and who marked it"`
}

// Use is what people do at an item, and the height they do it at.
type Use struct {
	As    string           `doc:"as" enum:"worktop|table|seat|bed-step|desk|hob|sink|door|garage|hatch|ladder" help:"what it is used as"`
	High  Opt[unit.Length] `doc:"height" unit:"mm" range:"0 mm..3 m" help:"height of the used face above its underside; absent: the top"`
	Serve []string         `doc:"serves" ref:"item" help:"seats it serves"`
	Wide  Opt[unit.Length] `doc:"clear-width" unit:"mm" range:"0 mm..3 m" help:"clear width of a hatch or garage opening"`
	Tall  Opt[unit.Length] `doc:"clear-height" unit:"mm" range:"0 mm..3 m" help:"clear height of a hatch or garage opening"`
	Angle Opt[unit.Angle]  `doc:"angle" unit:"°" range:"0 °..90 °" help:"angle of a ladder to the floor"`
}

// Recess is a pod in the wall that gains room outwards.
type Recess struct {
	Side string           `doc:"side" enum:"left|right" help:"the wall it is in"`
	Deep Opt[unit.Length] `doc:"deep" unit:"mm" range:"0 mm..300 mm" help:"how far it goes out beyond the bare wall"`
}

// Raise is a roof that lifts.
type Raise struct {
	High Opt[unit.Length] `doc:"high" unit:"mm" range:"0 mm..2 m" help:"how far the ceiling goes up under it when open"`
	Load Opt[unit.Mass]   `doc:"load" unit:"kg" range:"0 kg..400 kg" help:"what may lie on it while it lifts"`
}
