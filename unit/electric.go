package unit

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

// Money is an amount in the smallest coin of the build's currency, a hundredth of its unit.
type Money int64

// Coins returns m as a whole number of the smallest coin.
func (m Money) Coins() int64 { return int64(m) }

// Hours is working time in hours, as labour is estimated. Its SI value is in seconds.
type Hours float64

// Hour is the unit of Hours.
const Hour Hours = 1

// Count returns h as a plain number of hours.
func (h Hours) Count() float64 { return float64(h) }
