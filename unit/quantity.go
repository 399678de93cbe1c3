package unit

// Mass is a mass in kilograms. What trade papers call a "weight" or an "axle load" in kg is a Mass here.
type Mass float64

// Multiples of Mass.
const (
	Kilogram Mass = 1
	Gram          = Kilogram / 1000
	Tonne         = 1000 * Kilogram
	Pound         = 0.45359237 * Kilogram
	Ounce         = Pound / 16
)

// Kilograms returns m as a plain number of kilograms.
func (m Mass) Kilograms() float64 { return float64(m) }

// Per returns m as a share of whole.
func (m Mass) Per(whole Mass) Ratio { return Ratio(float64(m) / float64(whole)) }

// Times returns m scaled by a plain factor.
func (m Mass) Times(factor float64) Mass { return Mass(float64(m) * factor) }

// Moment returns the moment of m at the signed distance arm.
func (m Mass) Moment(arm Length) MassMoment { return MassMoment(float64(m) * arm.Metres()) }

// Length is a length or a coordinate in whole micrometres, so that fit and overlap are exact.
// Its range is ±9·10^12 m.
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

// Per returns l as a share of whole.
func (l Length) Per(whole Length) Ratio { return Ratio(float64(l) / float64(whole)) }

// Times returns l scaled by a plain factor and rounded once to the micrometre, half away from zero.
func (l Length) Times(factor float64) Length { return MetresLength(l.Metres() * factor) }

// Half returns half of l, rounded once to the micrometre, away from zero.
func (l Length) Half() Length {
	if l < 0 {
		return -((-l + 1) / 2)
	}
	return (l + 1) / 2
}

// MetresLength returns a plain number of metres as a Length, rounded once, half away from zero.
func MetresLength(metres float64) Length { return Length(roundAway(metres * float64(Metre))) }

// MassMoment is a mass times a signed distance, in kg·m. It is not a Moment of force.
type MassMoment float64

// KilogramMetres returns m as a plain number of kg·m.
func (m MassMoment) KilogramMetres() float64 { return float64(m) }

// Over returns the mass that gives m at the distance arm.
func (m MassMoment) Over(arm Length) Mass { return Mass(float64(m) / arm.Metres()) }

// Arm returns the distance at which mass gives m, rounded to the micrometre.
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

// Density is a density in kg/m³.
type Density float64

// KilogramPerCubicMetre is the unit of Density.
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
	Degree       = Radian * 3.14159265358979323846264338327950288 / 180
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

// Current is an electric current in amperes.
type Current float64

// Ampere is the unit of Current.
const Ampere Current = 1

// Amperes returns c as a plain number.
func (c Current) Amperes() float64 { return float64(c) }

// Voltage is an electric potential difference in volts.
type Voltage float64

// Volt is the unit of Voltage.
const Volt Voltage = 1

// Volts returns v as a plain number.
func (v Voltage) Volts() float64 { return float64(v) }

// Power is a power in watts.
type Power float64

// Multiples of Power.
const (
	Watt     Power = 1
	Kilowatt       = 1000 * Watt
)

// Watts returns p as a plain number.
func (p Power) Watts() float64 { return float64(p) }

// Energy is an energy in joules. It is not a Charge: Wh and Ah are different things.
type Energy float64

// Multiples of Energy.
const (
	Joule        Energy = 1
	WattHour            = 3600 * Joule
	KilowattHour        = 1000 * WattHour
)

// Joules returns e as a plain number.
func (e Energy) Joules() float64 { return float64(e) }

// WattHours returns e as a plain number of watt-hours.
func (e Energy) WattHours() float64 { return float64(e) / 3600 }

// Charge is an electric charge in coulombs. It is not an Energy.
type Charge float64

// Multiples of Charge.
const (
	Coulomb    Charge = 1
	AmpereHour        = 3600 * Coulomb
)

// Coulombs returns c as a plain number.
func (c Charge) Coulombs() float64 { return float64(c) }

// AmpereHours returns c as a plain number of ampere-hours.
func (c Charge) AmpereHours() float64 { return float64(c) / 3600 }

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

// Temperature is an absolute temperature in kelvins. The difference of two is a TempDiff (see Minus).
type Temperature float64

// TempDiff is a temperature difference in kelvins.
type TempDiff float64

// Kelvin is the unit of TempDiff.
const Kelvin TempDiff = 1

// Celsius returns the Temperature of a number of degrees Celsius.
func Celsius(degrees float64) Temperature { return Temperature(degrees + 273.15) }

// Celsius returns t as a plain number of degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) - 273.15 }

// Kelvins returns t as a plain number of kelvins.
func (t Temperature) Kelvins() float64 { return float64(t) }

// Minus returns t less other.
func (t Temperature) Minus(other Temperature) TempDiff { return TempDiff(float64(t) - float64(other)) }

// Plus returns t raised by d.
func (t Temperature) Plus(d TempDiff) Temperature { return Temperature(float64(t) + float64(d)) }

// Kelvins returns d as a plain number of kelvins.
func (d TempDiff) Kelvins() float64 { return float64(d) }

// Money is an amount in the smallest coin of the build's currency.
type Money int64

// Coins returns m as a whole number of the smallest coin.
func (m Money) Coins() int64 { return int64(m) }

// Hours is working time in hours, as labour is estimated.
type Hours float64

// Hour is the unit of Hours.
const Hour Hours = 1

// Count returns h as a plain number of hours.
func (h Hours) Count() float64 { return float64(h) }

func roundAway(f float64) float64 {
	if f < 0 {
		return -float64(int64(-f + 0.5))
	}
	return float64(int64(f + 0.5))
}
