package axle

import (
	"math"

	"berthwright/unit"
)

// Geometry is the wheel pattern. Tracks are from middle of tyre to middle of tyre; they are needed
// for sides and wheels only.
type Geometry struct {
	Wheelbase  unit.Length
	TrackFront unit.Opt[unit.Length]
	TrackRear  unit.Opt[unit.Length]
}

// Place is the mass centre of a load. X is rearwards from the front axle (ahead of it is negative),
// Y to the right of the centre line, facing forward, Z above ground. An absent coordinate is
// unknown, and so is every figure that needs it.
type Place struct {
	X, Y, Z unit.Opt[unit.Length]
}

// At returns a Place with all three coordinates known.
func At(x, y, z unit.Length) Place {
	return Place{X: unit.Some(x), Y: unit.Some(y), Z: unit.Some(z)}
}

// On tells what carries a load. It matters to the roof and rack limits only.
type On uint8

// What can carry a load.
const (
	Inside On = iota
	Roof
	Under
	Behind // a rack or the tow ball
	ons
)

// Load is a mass at a place. What was taken out of the weighed van is a Load of negative mass.
//
// Half is the 95 % half-width of the mass by its own, independent of all others; HalfX and HalfY
// are those of its place. Kind names the evidence whose shared error it leans with ("" for none).
// Name and Ref are echoed for people and faces; nothing is computed from them.
type Load struct {
	ID    string
	Name  string
	Ref   string
	Group string // what would be weighed together: "kitchen"
	Kind  string // "data-sheet"
	Mass  unit.Mass
	Half  unit.Mass
	At    Place
	HalfX unit.Length
	HalfY unit.Length
	On    On
}

// Ticket returns a weighing of both axles as two loads, one on each axle line, so that the spread
// of each reading acts on its own axle. Side is how far right of the centre line the mass
// centre of the weighed van lies, Height how far above ground; absent when unknown.
func (g Geometry) Ticket(front, rear unit.MassEst, side, height unit.Opt[unit.Length]) [2]Load {
	return [2]Load{
		{ID: "ticket-front", Name: "front axle as weighed", Mass: front.Value, Half: front.Half().Else(0), At: Place{unit.Some(unit.Length(0)), side, height}},
		{ID: "ticket-rear", Name: "rear axle as weighed", Mass: rear.Value, Half: rear.Half().Else(0), At: Place{unit.Some(g.Wheelbase), side, height}},
	}
}

func (g Geometry) check() error {
	if !(g.Wheelbase > 0) {
		return RangeError{Name: "wheelbase", Got: g.Wheelbase.Metres(), Want: "more than 0 m"}
	}
	for _, t := range []struct {
		name  string
		track unit.Opt[unit.Length]
	}{{"front track", g.TrackFront}, {"rear track", g.TrackRear}} {
		if v, ok := t.track.Get(); ok && !(v > 0) {
			return RangeError{Name: t.name, Got: v.Metres(), Want: "more than 0 m"}
		}
	}
	return nil
}

// track returns the mean track in metres, NaN when a track is unknown.
func (g Geometry) track() float64 {
	f, okF := g.TrackFront.Get()
	r, okR := g.TrackRear.Get()
	if !okF || !okR {
		return math.NaN()
	}
	return (f.Metres() + r.Metres()) / 2
}

func (l *Load) check() error {
	switch m, h := l.Mass.Kilograms(), l.Half.Kilograms(); {
	case !finite(m):
		return RangeError{Name: "mass", ID: l.ID, Got: m, Want: "a finite mass"}
	case !(h >= 0 && h <= math.MaxFloat64):
		return RangeError{Name: "half-width of the mass", ID: l.ID, Got: h, Want: "0 kg or more"}
	case l.HalfX < 0:
		return RangeError{Name: "half-width of x", ID: l.ID, Got: l.HalfX.Metres(), Want: "0 m or more"}
	case l.HalfY < 0:
		return RangeError{Name: "half-width of y", ID: l.ID, Got: l.HalfY.Metres(), Want: "0 m or more"}
	case l.On >= ons:
		return RangeError{Name: "carrier", ID: l.ID, Got: float64(l.On), Want: "inside, roof, under or behind"}
	}
	return nil
}

// label returns what people call the load.
func (l *Load) label() string {
	if l.Name != "" {
		return l.Name
	}
	return l.ID
}

func finite(f float64) bool { return math.Abs(f) <= math.MaxFloat64 }

// metres returns a coordinate as a plain number, NaN when it is unknown.
func metres(l unit.Opt[unit.Length]) float64 {
	v, ok := l.Get()
	if !ok {
		return math.NaN()
	}
	return v.Metres()
}

// massOpt returns a plain number of kilograms as a mass, absent when it is NaN.
func massOpt(kg float64) unit.Opt[unit.Mass] {
	if math.IsNaN(kg) {
		return unit.Opt[unit.Mass]{}
	}
	return unit.Some(unit.Kilogram.Times(kg))
}

func lengthOpt(m float64) unit.Opt[unit.Length] {
	if !(math.Abs(m) < 1e6) {
		return unit.Opt[unit.Length]{}
	}
	return unit.Some(unit.MetresLength(m))
}
