package axle

import (
	"math"

	"berthwright/unit"
)

// NoseDown returns how much moves from the rear axle to the front when the van stands nose-down:
//
//	Δ = W · h · tan θ / l
//
// h is the height of the mass centre above ground. Nobody reads an axle closer than the level of
// the plate is known, so the shift of one degree is a floor under the half-width of each axle. It is
// absent when the height is unknown. Source: statics; T. D. Gillespie, Fundamentals of Vehicle
// Dynamics (from memory).
func (s Split) NoseDown(slope unit.Angle) unit.Opt[unit.Mass] {
	w, h, l := s.Total.Kilograms(), metres(s.Centre.Z), s.Geometry.Wheelbase.Metres()
	return massOpt(w * h * math.Tan(slope.Radians()) / l)
}

// Lift is a weighing with one axle raised, for the height of the mass centre.
type Lift struct {
	Total  unit.Mass   // W, of the whole van
	Gain   unit.Mass   // ΔF, of the axle left on the scale
	Slope  unit.Angle  // θ, of the van
	Radius unit.Length // r, loaded radius of the wheels
}

// CentreHeight returns the height of the mass centre above ground from an axle-lift weighing:
//
//	h = r + ΔF · l / (W · tan θ)
//
// The slope must be above 0° and below 45°, the gain not negative; springs and tanks must be blocked and full or empty.
// Source: T. D. Gillespie, Fundamentals of Vehicle Dynamics (from memory).
func (g Geometry) CentreHeight(v Lift) (unit.Length, error) {
	if err := g.check(); err != nil {
		return 0, err
	}
	w, df, l, th, r := v.Total.Kilograms(), v.Gain.Kilograms(), g.Wheelbase.Metres(), v.Slope.Radians(), v.Radius.Metres()
	switch {
	case !(w > 0 && finite(w)):
		return 0, RangeError{Name: "total", Got: w, Want: "more than 0 kg"}
	case !(df >= 0 && df < w):
		return 0, RangeError{Name: "gain of the lower axle", Got: df, Want: "0 kg up to the total"}
	case !(v.Slope.Degrees() > 0 && v.Slope.Degrees() < 45):
		return 0, RangeError{Name: "slope", Got: v.Slope.Degrees(), Want: "above 0° and below 45°"}
	case !(r >= 0):
		return 0, RangeError{Name: "loaded radius", Got: r, Want: "0 m or more"}
	}
	return unit.MetresLength(r + df*l/(w*math.Tan(th))), nil
}

// Stability returns the static stability factor and the angle of a side slope at which a rigid
// van would tip:
//
//	SSF = T / (2·h)     angle = atan(SSF)
//
// T is the track, h the height of the mass centre above ground; both must be above 0. Springs and
// tyres tip earlier. Source: NHTSA, static stability factor.
func Stability(track, height unit.Length) (factor unit.Ratio, tips unit.Angle, err error) {
	t, h := track.Metres(), height.Metres()
	if !(t > 0) {
		return 0, 0, RangeError{Name: "track", Got: t, Want: "more than 0 m"}
	}
	if !(h > 0) {
		return 0, 0, RangeError{Name: "height of the mass centre", Got: h, Want: "more than 0 m"}
	}
	f := t / (2 * h)
	return unit.Ratio(f), unit.Angle(math.Atan(f)), nil
}
