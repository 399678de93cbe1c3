package unit

import "fmt"

// The text forms of each type: Kind and SI make it a Quantity, String gives stored text (for NaN,
// Inf and sizes out of the limits a text for people who look for a fault), MarshalText and
// UnmarshalText are the same for encoders and refuse what does not read back.

// ParseMass reads a mass from stored text: "12.5 kg".
func ParseMass(text string) (Mass, error) { f, err := KindMass.Parse(text); return Mass(f), err }

// Kind returns KindMass.
func (Mass) Kind() Kind { return KindMass }

// SI returns the plain number in coherent SI units.
func (q Mass) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Mass) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Mass) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Mass) UnmarshalText(b []byte) error { return unmarshal(q, ParseMass, b) }

// ParseVolume reads a volume from stored text: "92 L".
func ParseVolume(text string) (Volume, error) {
	f, err := KindVolume.Parse(text)
	return Volume(f), err
}

// Kind returns KindVolume.
func (Volume) Kind() Kind { return KindVolume }

// SI returns the plain number in coherent SI units.
func (q Volume) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Volume) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Volume) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Volume) UnmarshalText(b []byte) error { return unmarshal(q, ParseVolume, b) }

// ParseDensity reads a density from stored text: "0.835 kg/L".
func ParseDensity(text string) (Density, error) {
	f, err := KindDensity.Parse(text)
	return Density(f), err
}

// Kind returns KindDensity.
func (Density) Kind() Kind { return KindDensity }

// SI returns the plain number in coherent SI units.
func (q Density) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Density) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Density) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Density) UnmarshalText(b []byte) error { return unmarshal(q, ParseDensity, b) }

// ParseArea reads an area from stored text: "1.25 m²".
func ParseArea(text string) (Area, error) { f, err := KindArea.Parse(text); return Area(f), err }

// Kind returns KindArea.
func (Area) Kind() Kind { return KindArea }

// SI returns the plain number in coherent SI units.
func (q Area) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Area) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Area) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Area) UnmarshalText(b []byte) error { return unmarshal(q, ParseArea, b) }

// ParseAngle reads an angle from stored text: "90 °".
func ParseAngle(text string) (Angle, error) { f, err := KindAngle.Parse(text); return Angle(f), err }

// Kind returns KindAngle.
func (Angle) Kind() Kind { return KindAngle }

// SI returns the plain number in coherent SI units.
func (q Angle) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Angle) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Angle) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Angle) UnmarshalText(b []byte) error { return unmarshal(q, ParseAngle, b) }

// ParseRatio reads a share from stored text: "50 %".
func ParseRatio(text string) (Ratio, error) { f, err := KindRatio.Parse(text); return Ratio(f), err }

// Kind returns KindRatio.
func (Ratio) Kind() Kind { return KindRatio }

// SI returns the plain number in coherent SI units.
func (q Ratio) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Ratio) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Ratio) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Ratio) UnmarshalText(b []byte) error { return unmarshal(q, ParseRatio, b) }

// ParseSpeed reads a speed from stored text: "90 km/h".
func ParseSpeed(text string) (Speed, error) { f, err := KindSpeed.Parse(text); return Speed(f), err }

// Kind returns KindSpeed.
func (Speed) Kind() Kind { return KindSpeed }

// SI returns the plain number in coherent SI units.
func (q Speed) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Speed) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Speed) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Speed) UnmarshalText(b []byte) error { return unmarshal(q, ParseSpeed, b) }

// ParseCurrent reads a current from stored text: "4.2 A".
func ParseCurrent(text string) (Current, error) {
	f, err := KindCurrent.Parse(text)
	return Current(f), err
}

// Kind returns KindCurrent.
func (Current) Kind() Kind { return KindCurrent }

// SI returns the plain number in coherent SI units.
func (q Current) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Current) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Current) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Current) UnmarshalText(b []byte) error { return unmarshal(q, ParseCurrent, b) }

// ParseVoltage reads a voltage from stored text: "12.8 V".
func ParseVoltage(text string) (Voltage, error) {
	f, err := KindVoltage.Parse(text)
	return Voltage(f), err
}

// Kind returns KindVoltage.
func (Voltage) Kind() Kind { return KindVoltage }

// SI returns the plain number in coherent SI units.
func (q Voltage) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Voltage) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Voltage) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Voltage) UnmarshalText(b []byte) error { return unmarshal(q, ParseVoltage, b) }

// ParsePower reads a power from stored text: "270 W".
func ParsePower(text string) (Power, error) { f, err := KindPower.Parse(text); return Power(f), err }

// Kind returns KindPower.
func (Power) Kind() Kind { return KindPower }

// SI returns the plain number in coherent SI units.
func (q Power) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Power) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Power) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Power) UnmarshalText(b []byte) error { return unmarshal(q, ParsePower, b) }

// ParseEnergy reads an energy from stored text: "1200 Wh".
func ParseEnergy(text string) (Energy, error) {
	f, err := KindEnergy.Parse(text)
	return Energy(f), err
}

// Kind returns KindEnergy.
func (Energy) Kind() Kind { return KindEnergy }

// SI returns the plain number in coherent SI units.
func (q Energy) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Energy) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Energy) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Energy) UnmarshalText(b []byte) error { return unmarshal(q, ParseEnergy, b) }

// ParseCharge reads a charge from stored text: "190 Ah".
func ParseCharge(text string) (Charge, error) {
	f, err := KindCharge.Parse(text)
	return Charge(f), err
}

// Kind returns KindCharge.
func (Charge) Kind() Kind { return KindCharge }

// SI returns the plain number in coherent SI units.
func (q Charge) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Charge) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Charge) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Charge) UnmarshalText(b []byte) error { return unmarshal(q, ParseCharge, b) }

// ParsePressure reads a pressure from stored text: "4.5 bar".
func ParsePressure(text string) (Pressure, error) {
	f, err := KindPressure.Parse(text)
	return Pressure(f), err
}

// Kind returns KindPressure.
func (Pressure) Kind() Kind { return KindPressure }

// SI returns the plain number in coherent SI units.
func (q Pressure) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Pressure) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Pressure) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Pressure) UnmarshalText(b []byte) error { return unmarshal(q, ParsePressure, b) }

// ParseForce reads a force from stored text: "250 N".
func ParseForce(text string) (Force, error) { f, err := KindForce.Parse(text); return Force(f), err }

// Kind returns KindForce.
func (Force) Kind() Kind { return KindForce }

// SI returns the plain number in coherent SI units.
func (q Force) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Force) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Force) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Force) UnmarshalText(b []byte) error { return unmarshal(q, ParseForce, b) }

// ParseMassMoment reads a mass moment from stored text: "40 kg·m".
func ParseMassMoment(text string) (MassMoment, error) {
	f, err := KindMassMoment.Parse(text)
	return MassMoment(f), err
}

// Kind returns KindMassMoment.
func (MassMoment) Kind() Kind { return KindMassMoment }

// SI returns the plain number in coherent SI units.
func (q MassMoment) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q MassMoment) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q MassMoment) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *MassMoment) UnmarshalText(b []byte) error { return unmarshal(q, ParseMassMoment, b) }

// ParseTemperature reads a temperature from stored text: "20 °C".
func ParseTemperature(text string) (Temperature, error) {
	f, err := KindTemperature.Parse(text)
	return Temperature(f), err
}

// Kind returns KindTemperature.
func (Temperature) Kind() Kind { return KindTemperature }

// SI returns the plain number in coherent SI units.
func (q Temperature) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q Temperature) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q Temperature) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *Temperature) UnmarshalText(b []byte) error { return unmarshal(q, ParseTemperature, b) }

// ParseTempDiff reads a temperature difference from stored text: "15 K".
func ParseTempDiff(text string) (TempDiff, error) {
	f, err := KindTempDiff.Parse(text)
	return TempDiff(f), err
}

// Kind returns KindTempDiff.
func (TempDiff) Kind() Kind { return KindTempDiff }

// SI returns the plain number in coherent SI units.
func (q TempDiff) SI() float64 { return float64(q) }

// String returns q as stored text.
func (q TempDiff) String() string { return text(q) }

// MarshalText returns q as stored text.
func (q TempDiff) MarshalText() ([]byte, error) { return marshal(q) }

// UnmarshalText reads stored text.
func (q *TempDiff) UnmarshalText(b []byte) error { return unmarshal(q, ParseTempDiff, b) }

func text(q Quantity) string { s, _ := printSI(q.Kind(), q.SI()); return s }

func marshal(q Quantity) ([]byte, error) {
	s, ok := printSI(q.Kind(), q.SI())
	if !ok {
		return nil, fmt.Errorf("%s %q cannot be stored", q.Kind(), s)
	}
	return []byte(s), nil
}

// unmarshal leaves q as it is when b cannot be read.
func unmarshal[Q any](q *Q, parse func(string) (Q, error), b []byte) error {
	v, err := parse(string(b))
	if err == nil {
		*q = v
	}
	return err
}
