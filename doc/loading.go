package doc

import "berthwright/unit"

// Loading is the declared loading plan: who may sit where, what may be filled, what may be stowed.
type Loading struct {
	Party      []Person       `doc:"party" help:"the people of this build and where they sit"`
	Seats      []string       `doc:"seats" ref:"seat" help:"seats that may be used when driving; absent: every belted seat"`
	Zones      []StowZone     `doc:"zones" help:"luggage zones, each with its limit"`
	Luggage    Opt[unit.Mass] `doc:"luggage" unit:"kg" range:"0 kg..2000 kg" usual:"..500 kg" help:"one limit for all luggage together"`
	Carried    []Carried      `doc:"carried" help:"bicycles, boats, dogs and the like, whole pieces"`
	WasteEmpty Opt[bool]      `doc:"waste-empty" help:"rule on the placard: empty the waste tank before filling fresh"`
	Tow        Tow            `doc:"tow" help:"the trailer"`
	Travel     Travel         `doc:"travelling" help:"what is aboard when this party sets out"`
}

// Person is one of the party.
type Person struct {
	ID          string           `doc:"id,id,required" help:"id of the person"`
	Name        string           `doc:"name" help:"what they are called on papers"`
	Mass        Opt[unit.Mass]   `doc:"mass" unit:"kg" range:"2 kg..250 kg" usual:"..150 kg" help:"own mass, clothed"`
	Height      Opt[unit.Length] `doc:"height" unit:"mm" range:"400 mm..2.3 m" help:"how tall they are; berths are judged by the tallest"`
	Seat        string           `doc:"seat" ref:"seat" help:"the seat they travel in"`
	Child       Opt[bool]        `doc:"child" help:"a child"`
	Restraint   Opt[unit.Mass]   `doc:"child-seat" unit:"kg" range:"0 kg..40 kg" help:"mass of the child restraint used"`
	RestraintAt Point            `doc:"child-seat-at" help:"mass centre of the restraint; absent: the seat's reference point"`
	Licence     string           `doc:"licence" enum:"b|b-alternative|c1" help:"driving licence class of a driver"`
}

// StowZone is a place for luggage.
type StowZone struct {
	ID    string         `doc:"id,id,required" help:"id of the zone"`
	Name  string         `doc:"name" help:"what it is called on the placard"`
	At    Point          `doc:"at" help:"mass centre of what is stowed there"`
	Limit Opt[unit.Mass] `doc:"limit" unit:"kg" range:"0 kg..1000 kg" help:"highest mass there"`
	Item  string         `doc:"item" ref:"item" help:"the item it is in; gives the place when at is absent"`
	On    string         `doc:"where" enum:"inside|roof|under|rear" help:"where it is; absent: inside"`
}

// Carried is something carried in whole pieces that is not fitted.
type Carried struct {
	ID    string            `doc:"id,id,required" help:"id"`
	Name  string            `doc:"name" help:"what it is"`
	Each  Opt[unit.MassEst] `doc:"each" unit:"kg" range:"0 kg..500 kg" usual:"..200 kg" help:"mass of one"`
	UpTo  Opt[int]          `doc:"up-to" range:"0..20" help:"highest number carried"`
	At    Point             `doc:"at" help:"mass centre"`
	On    string            `doc:"where" enum:"inside|roof|under|rear" help:"where it is carried; absent: inside"`
	Size  Size              `doc:"size" help:"extent of one, as carried"`
	In    string            `doc:"in" ref:"item" help:"the garage or locker it goes through the opening of"`
	Usual Opt[int]          `doc:"usual" range:"0..20" help:"how many this party takes"`
}

// Tow is the trailer drawn.
type Tow struct {
	Nose    Opt[unit.Mass] `doc:"nose" unit:"kg" range:"0 kg..350 kg" help:"nose weight on the ball"`
	Trailer Opt[unit.Mass] `doc:"trailer" unit:"kg" range:"0 kg..3500 kg" help:"actual mass of the trailer"`
}

// Travel is what is aboard when this party sets out.
type Travel struct {
	Fills  []Fill `doc:"fills" help:"fill of each tank; absent: as declared for driving, waste and toilet empty"`
	Stowed []Stow `doc:"stowed" help:"luggage in each zone"`
}

// Fill is how full one tank is.
type Fill struct {
	Tank  string          `doc:"tank,key,required" ref:"item" help:"the tank"`
	Level Opt[unit.Ratio] `doc:"level" unit:"%" range:"0 %..100 %" help:"how full"`
}

// Stow is what lies in one zone.
type Stow struct {
	Zone string         `doc:"zone,key,required" ref:"zone" help:"the zone"`
	Mass Opt[unit.Mass] `doc:"mass" unit:"kg" range:"0 kg..1000 kg" help:"what lies there"`
}
