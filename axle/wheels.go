package axle

import (
	"math"

	"berthwright/unit"
)

// The share of the side moment that the front axle takes lies between these. It depends on springs
// and anti-roll bars that nobody declares. Common practice, no source.
const (
	RollShareLow  unit.Ratio = 0.35
	RollShareHigh unit.Ratio = 0.65
)

// Band is a mass known to lie between two ends.
type Band struct{ Low, High unit.Mass }

// Wheels is the load on each wheel, as bands.
type Wheels struct{ FrontLeft, FrontRight, RearLeft, RearRight Band }

// Corners is a weighing of each wheel on level ground.
type Corners struct{ FrontLeft, FrontRight, RearLeft, RearRight unit.MassEst }

// Loads returns the four readings as loads at the wheels, so that axles and the side moment of the
// weighed van come out exactly. It needs both tracks.
func (c Corners) Loads(g Geometry) ([]Load, error) {
	f, okF := g.TrackFront.Get()
	r, okR := g.TrackRear.Get()
	if !okF || !okR {
		return nil, MissingError{Measure: "corner weights", IDs: []string{"the tracks"}}
	}
	at := func(id, name string, m unit.MassEst, x, y unit.Length) Load {
		return Load{ID: id, Name: name, Mass: m.Value, Half: m.Half().Else(0), At: Place{X: unit.Some(x), Y: unit.Some(y)}}
	}
	return []Load{
		at("corner-front-left", "front left wheel as weighed", c.FrontLeft, 0, -f.Half()),
		at("corner-front-right", "front right wheel as weighed", c.FrontRight, 0, f.Half()),
		at("corner-rear-left", "rear left wheel as weighed", c.RearLeft, g.Wheelbase, -r.Half()),
		at("corner-rear-right", "rear right wheel as weighed", c.RearRight, g.Wheelbase, r.Half()),
	}, nil
}

// Wheels returns the wheel loads of a split:
//
//	front right = F/2 + λ·M/t_f     rear right = R/2 + (1 − λ)·M/t_r
//
// with M the side moment and λ anywhere from RollShareLow to RollShareHigh; left likewise with minus.
// ok is false when an axle, the side moment or a track is unknown.
func (s Split) Wheels() (w Wheels, ok bool) { return s.wheels(Corners{}, Split{}) }

// WheelsFrom is Wheels when the van was weighed at its four corners: base is the split of the
// corner loads, and only what was added to it is spread by the band.
func (s Split) WheelsFrom(c Corners, base Split) (w Wheels, ok bool) { return s.wheels(c, base) }

func (s Split) wheels(c Corners, base Split) (Wheels, bool) {
	front, rear := s.Geometry.Front(), s.Geometry.Rear()
	side := everywhere("side moment", lever{y: 1})
	f, r, m := s.read(&front)-base.read(&front), s.read(&rear)-base.read(&rear), s.read(&side)-base.read(&side)
	tf, tr := metres(s.Geometry.TrackFront), metres(s.Geometry.TrackRear)
	if math.IsNaN(f + r + m + tf + tr) {
		return Wheels{}, false
	}
	low, high := RollShareLow.Share(), RollShareHigh.Share()
	band := func(at unit.MassEst, half, tilt float64) Band {
		a, b := half+low*tilt, half+high*tilt
		return Band{unit.Kilogram.Times(at.Value.Kilograms() + min(a, b)), unit.Kilogram.Times(at.Value.Kilograms() + max(a, b))}
	}
	return Wheels{
		FrontLeft: band(c.FrontLeft, f/2, -m/tf), FrontRight: band(c.FrontRight, f/2, m/tf),
		RearLeft: band(c.RearLeft, r/2, -m/tr), RearRight: band(c.RearRight, r/2, m/tr),
	}, true
}
