package derive

import (
	"berthwright/axle"
	"berthwright/doc"
	"berthwright/unit"
)

// Weight is everything the weight concern needs to know. Lengths along are from the front axle, across from the centre
// line, heights above the ground; a load whose height or side is not known has it missing.
type Weight struct {
	Van      Van
	Country  string
	Date     doc.Opt[doc.Date]
	Ticket   Ticket
	Finished *Finished // the weighing of the finished van, when there is one; it then leads
	Loads    []Load    // fitted, removed (negative), allowances and the unlisted; not the ticket
	Seats    []Seat
	People   []Person // in the order of the file
	Tanks    []Tank
	Zones    []Zone
	Carried  []Carried
	Luggage  Val[unit.Mass]
	Empties  bool // the placard says: empty the waste tank before filling fresh
	Tow      Tow
	Roof     Val[unit.Mass] // limit
	Tyres    [2]Val[int]    // load index, front and rear
	Twin     bool
	Promises []doc.Promise
	Person   unit.Mass // counted at least per person
	Shared   map[string]unit.Ratio
	Unlisted unit.Ratio // share of the fitted mass that nobody lists, where the build leaves it to the default
	Declared *Declared  // papers' empty mass beside a weighing of the empty van
	// Registered tells whether the van was registered before conversion.
	Registered doc.Opt[bool]
	Assumed    []Assumption
	Lacks      []Lack // of loads: masses and places
	Doubles    []Lack // counted twice, or subtracted though it was not in the ticket
}

// Ticket is the empty van, re-based to no fuel and nobody aboard.
type Ticket struct {
	Front, Rear, Total Val[unit.Mass] // as read
	Left, Right        Val[unit.Mass]
	FrontHalf          unit.Mass // 95 % half-widths
	RearHalf           unit.Mass
	HalfFrom           string
	Fuel               Val[unit.Mass] // fuel aboard when it was read
	FuelAt             axle.Place
	Driver             Val[unit.Mass]
	DriverAt           axle.Place
	Slope              Val[unit.Ratio] // of the plate along the van, nose down positive
	From               string          // weighing, papers, catalogue, guess
	Path               string
}

// Finished is the weighing of the finished van with what was aboard. Its axles are known when the ticket gave them, or
// its four corners.
type Finished struct {
	Weighing    doc.Weighing
	Front, Rear Val[unit.Mass]
	FrontHalf   unit.Mass // 95 % half-widths
	RearHalf    unit.Mass
	Corners     [4]unit.MassEst // front left, front right, rear left, rear right
	Cornered    bool            // all four were read
	Left, Right Val[unit.Mass]
	Off         []axle.Load // what was aboard and comes off, as negative masses
	Path        string
}

// Declared is the empty mass of the papers, and as it was weighed later; both without fuel and driver.
type Declared struct {
	Papers, Weighed unit.Mass
	Half            unit.Mass // 95 % half-width of the weighing
	Fuel            unit.Mass // 90 % of the fuel tank
	Path            string
}

// Load is one mass in its travelling place; Ref is its document path. A removed one has a negative mass.
type Load struct {
	axle.Load
	Number    int    // on drawings
	Locked    string // why it is not offered for moving or removal
	Allowance bool
	Unlisted  bool
}

// Seat is one travelling place.
type Seat struct {
	ID, Path, Name string
	At             axle.Place // reference point of the person
	Belted         doc.Opt[bool]
	Faces          string
	Driver         bool
	Row            int
	Planned        bool // may be used when driving
	Person         int  // index into People, or -1
}

// Person is one of the party.
type Person struct {
	ID, Path, Name string
	Mass           Val[unit.Mass]
	Seat           int // index into Seats, or -1
	SeatID         string
	Child          bool
	Restraint      Val[unit.Mass]
	RestraintAt    axle.Place
	Licence        string
}

// Tank holds something with a mass.
type Tank struct {
	ID, Path, Name string
	For            string // fresh, waste, hot, toilet, flush, fuel, gas, other
	Full           Val[unit.Mass]
	At             axle.Place
	In             bool       // the contents are where the item is along the van: they move with it
	Vessels        int        // alike, that the entry stands for; at least 1
	Driving        unit.Ratio // highest fill declared for driving
	DrivingHow     How
	Level          Val[unit.Ratio] // as this party sets out
}

// Zone is a luggage zone.
type Zone struct {
	ID, Path, Name string
	At             axle.Place
	In             string // id of the item that gives its place along the van
	Limit          Val[unit.Mass]
	On             axle.On
	Stowed         Val[unit.Mass]
}

// Carried is something carried in whole pieces.
type Carried struct {
	ID, Path, Name string
	Each           Val[unit.Mass]
	Half           unit.Mass // 95 % half-width of one, as written
	At             axle.Place
	UpTo           int
	Usual          int
	On             axle.On
}

// Tow is the trailer drawn.
type Tow struct {
	Nose      Val[unit.Mass]
	Trailer   Val[unit.Mass]
	NoseLimit Val[unit.Mass]
	TowLimit  Val[unit.Mass]
	Ball      Val[unit.Length]
}

// maker gathers a Weight.
type maker struct {
	c   Context
	b   doc.Build
	w   Weight
	pos []Placed
}

// MakeWeight derives the weight input of b in its travelling state. rec may be nil.
func MakeWeight(b doc.Build, c Context, rec *doc.Record) Weight {
	return MakeWeightIn(b, c, rec, Travel)
}

// MakeWeightIn is MakeWeight with every item where it is in that state.
func MakeWeightIn(b doc.Build, c Context, rec *doc.Record, state State) Weight {
	van := c.Van(b.Van)
	m := maker{c: c, b: b}
	m.pos, van = placeAll(b, van, state)
	m.w = Weight{
		Van: van, Country: b.Head.Country, Date: b.Head.Date, Registered: b.Head.Registered,
		Empties:  b.Loading.WasteEmpty.Else(c.Shop.FillPolicy().V == "used-leaves-fresh"),
		Twin:     b.Van.Tyres.Twin.Else(false),
		Promises: b.Job.Promises,
		Person:   c.Shop.Person().V,
		Shared:   c.Shared(),
	}
	m.w.Loads = make([]Load, 0, len(b.Items)+1)
	m.loads()
	m.tanks()
	m.seats()
	m.zones()
	m.ticket()
	m.limits()
	if rec != nil {
		m.weighed(rec)
	}
	m.w.Assumed = append(van.assumptions(), m.w.Assumed...)
	return m.w
}

func (m *maker) assume(says, from, path string, args ...any) {
	m.w.Assumed = append(m.w.Assumed, Assumption{Says: says, Args: args, From: from, Path: path})
}

func (m *maker) lack(need Need, what, path string) {
	m.w.Lacks = append(m.w.Lacks, Lack{What: what, Path: path, Need: need})
}

// ground turns a point in van axes into a place above the ground.
func (m *maker) ground(c [3]Val[unit.Length]) axle.Place {
	var p axle.Place
	for k, to := range [3]*unit.Opt[unit.Length]{&p.X, &p.Y, &p.Z} {
		switch {
		case !c[k].Known():
		case k < 2:
			*to = unit.Some(c[k].V)
		case m.w.Van.FloorHigh.Known():
			*to = unit.Some(c[k].V + m.w.Van.FloorHigh.V)
		}
	}
	return p
}

func (m *maker) point(p doc.Point) axle.Place {
	var c [3]Val[unit.Length]
	for k, o := range [3]doc.Opt[unit.Length]{p.X, p.Y, p.Z} {
		if l, ok := o.Get(); ok {
			c[k] = given(l, "")
		}
	}
	return m.ground(c)
}

// place takes a where it is known and b elsewhere, axis by axis.
func place(a, b axle.Place) axle.Place {
	return axle.Place{X: first(a.X, b.X), Y: first(a.Y, b.Y), Z: first(a.Z, b.Z)}
}

// carrier turns the document's word into the science's.
func carrier(word string) axle.On {
	switch word {
	case "roof":
		return axle.Roof
	case "under":
		return axle.Under
	case "rear":
		return axle.Behind
	}
	return axle.Inside
}
