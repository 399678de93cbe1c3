package unit

import (
	"fmt"
	"math"
)

// Mass is a mass in kilograms. What trade papers call a "weight" or an "axle load" in kg is a Mass here.
type Mass float64

// Multiples of Mass. The pound and the ounce are the avoirdupois ones, exact by definition.
const (
	Kilogram Mass = 1
	Gram          = Kilogram / 1000
	Tonne         = 1000 * Kilogram
	Pound         = 0.45359237 * Kilogram
	Ounce         = Pound / 16
)

// Kilograms returns m as a plain number of kilograms.
func (m Mass) Kilograms() float64 { return float64(m) }

// Per returns m as a share of whole. It is not finite when whole is 0.
func (m Mass) Per(whole Mass) Ratio { return Ratio(float64(m) / float64(whole)) }

// Times returns m scaled by a plain factor.
func (m Mass) Times(factor float64) Mass { return Mass(float64(m) * factor) }

// Moment returns the moment of m at the signed distance arm.
func (m Mass) Moment(arm Length) MassMoment { return MassMoment(float64(m) * arm.Metres()) }

// Length is a length or a coordinate in whole micrometres, so that fit and overlap are exact.
// Its range is ±9·10^12 m; stored text is read up to ±9·10^9 m.
type Length int64

// Multiples of Length.
const (
	Micrometre Length = 1
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Inch              = 25400 * Micrometre
	Foot              = 12 * Inch
	Yard              = 3 * Foot
)

// Metres returns l as a plain number of metres.
func (l Length) Metres() float64 { return float64(l) / float64(Metre) }

// Millimetres returns l as a plain number of millimetres.
func (l Length) Millimetres() float64 { return float64(l) / float64(Millimetre) }

// Micrometres returns l as a whole number of micrometres.
func (l Length) Micrometres() int64 { return int64(l) }

// Per returns l as a share of whole. It is not finite when whole is 0.
func (l Length) Per(whole Length) Ratio { return Ratio(float64(l) / float64(whole)) }

// Times returns l scaled by a plain factor and rounded once to the micrometre, half away from zero.
// It panics like MetresLength.
func (l Length) Times(factor float64) Length { return mustLength(float64(l) * factor) }

// Half returns half of l, rounded once to the micrometre, away from zero.
func (l Length) Half() Length { return l/2 + l%2 }

// MetresLength returns a plain number of metres as a Length, rounded once, half away from zero.
// A number that is not finite or outside ±9·10^12 m is a bug of the caller and panics: it is never
// taken for 0. Where the number comes from data that nobody has checked, use LengthOf.
func MetresLength(metres float64) Length { return mustLength(metres * float64(Metre)) }

// LengthOf is MetresLength for numbers that may be out of range: it returns false instead of panicking.
func LengthOf(metres float64) (Length, bool) { return wholeLength(metres * float64(Metre)) }

func mustLength(micrometres float64) Length {
	l, ok := wholeLength(micrometres)
	if !ok {
		panic(fmt.Sprintf("unit: %g µm is not a length", micrometres))
	}
	return l
}

// maxMicrometres bounds a Length, well inside int64.
const maxMicrometres = 9e18

func wholeLength(micrometres float64) (Length, bool) {
	r := math.Round(micrometres) // half away from zero, exact for every float64
	if !(r >= -maxMicrometres && r <= maxMicrometres) {
		return 0, false
	}
	return Length(r), true
}

// MassMoment is a mass times a signed distance, in kg·m. It is not a moment of force.
type MassMoment float64

// KilogramMetre is the unit of MassMoment.
const KilogramMetre MassMoment = 1

// KilogramMetres returns m as a plain number of kg·m.
func (m MassMoment) KilogramMetres() float64 { return float64(m) }

// Over returns the mass that gives m at the distance arm. It is not finite when arm is 0.
func (m MassMoment) Over(arm Length) Mass { return Mass(float64(m) / arm.Metres()) }

// Arm returns the distance at which mass gives m, rounded to the micrometre. A mass of 0 has no
// arm; the caller asks first, as the result panics like MetresLength.
func (m MassMoment) Arm(mass Mass) Length { return MetresLength(float64(m) / float64(mass)) }

// Volume is a volume in cubic metres.
type Volume float64

// Multiples of Volume. A gallon differs between the imperial and the US system; both are exact.
const (
	CubicMetre     Volume = 1
	Litre                 = CubicMetre / 1000
	Millilitre            = Litre / 1000
	ImperialGallon        = 4.54609 * Litre
	USGallon              = 3.785411784 * Litre
)

// CubicMetres returns v as a plain number of cubic metres.
func (v Volume) CubicMetres() float64 { return float64(v) }

// Litres returns v as a plain number of litres.
func (v Volume) Litres() float64 { return float64(v) / float64(Litre) }

// Times returns v scaled by a plain factor.
func (v Volume) Times(factor float64) Volume { return Volume(float64(v) * factor) }

// Density is a density in kg/m³.
type Density float64

// Multiples of Density.
const (
	KilogramPerCubicMetre Density = 1
	KilogramPerLitre              = 1000 * KilogramPerCubicMetre
)

// KilogramsPerCubicMetre returns d as a plain number.
func (d Density) KilogramsPerCubicMetre() float64 { return float64(d) }

// MassOf returns the mass of volume v at density d.
func (d Density) MassOf(v Volume) Mass { return Mass(float64(d) * float64(v)) }

// Area is an area in m².
type Area float64

// Multiples of Area.
const (
	SquareMetre      Area = 1
	SquareCentimetre      = SquareMetre / 1e4
	SquareMillimetre      = SquareMetre / 1e6
)

// SquareMetres returns a as a plain number of m².
func (a Area) SquareMetres() float64 { return float64(a) }

// SquareMillimetres returns a as a plain number of mm².
func (a Area) SquareMillimetres() float64 { return float64(a) * 1e6 }

// Angle is an angle in radians; a turn is counter-clockwise seen from above.
type Angle float64

// Multiples of Angle.
const (
	Radian Angle = 1
	Degree       = Radian * math.Pi / 180
)

// Radians returns a as a plain number of radians.
func (a Angle) Radians() float64 { return float64(a) }

// Degrees returns a as a plain number of degrees.
func (a Angle) Degrees() float64 { return float64(a) / float64(Degree) }

// Ratio is a share: 0.5 is 50 %.
type Ratio float64

// Percent is one hundredth.
const Percent Ratio = 0.01

// Share returns r as a plain number, 1 for the whole.
func (r Ratio) Share() float64 { return float64(r) }

// Percent returns r as a plain number of hundredths.
func (r Ratio) Percent() float64 { return float64(r) * 100 }

// Of returns the share r of m.
func (r Ratio) Of(m Mass) Mass { return Mass(float64(r) * float64(m)) }

// Speed is a speed in m/s.
type Speed float64

// Multiples of Speed.
const (
	MetrePerSecond   Speed = 1
	KilometrePerHour       = MetrePerSecond / 3.6
	MilePerHour            = 0.44704 * MetrePerSecond
)

// MetresPerSecond returns s as a plain number.
func (s Speed) MetresPerSecond() float64 { return float64(s) }

// Pressure is a pressure in pascals.
type Pressure float64

// Multiples of Pressure.
const (
	Pascal   Pressure = 1
	Millibar          = 100 * Pascal
	Bar               = 1e5 * Pascal
)

// Pascals returns p as a plain number.
func (p Pressure) Pascals() float64 { return float64(p) }

// Force is a force in newtons.
type Force float64

// Newton is the unit of Force.
const Newton Force = 1

// Newtons returns f as a plain number.
func (f Force) Newtons() float64 { return float64(f) }
