package unit

// Spread is a 95 % half-width as it was written: "± 4 %" is relative, "± 10 kg" absolute.
// The zero Spread means that none was written; "± 0 kg" is an Absolute spread of 0.
type Spread struct {
	Rel  Ratio   // used when Kind is Relative
	Abs  float64 // coherent SI of the quantity it belongs to; used when Kind is Absolute
	Kind SpreadKind
}

// SpreadKind tells how a Spread was written.
type SpreadKind uint8

// The kinds of Spread.
const (
	NoSpread SpreadKind = iota
	Relative
	Absolute
)

// MassEst is a mass with the spread it is known to.
type MassEst struct {
	Value  Mass
	Spread Spread
}

// Half returns the 95 % half-width, or absent when none was written.
func (e MassEst) Half() Opt[Mass] {
	switch e.Spread.Kind {
	case Relative:
		return Some(Mass(abs(float64(e.Spread.Rel) * float64(e.Value))))
	case Absolute:
		return Some(Mass(e.Spread.Abs))
	}
	return Opt[Mass]{}
}

// LengthEst is a length with the spread it is known to. Spread.Abs is in metres.
type LengthEst struct {
	Value  Length
	Spread Spread
}

// Half returns the 95 % half-width rounded to the micrometre, or absent when none was written.
func (e LengthEst) Half() Opt[Length] {
	switch e.Spread.Kind {
	case Relative:
		return Some(mustLength(abs(float64(e.Spread.Rel) * float64(e.Value))))
	case Absolute:
		return Some(MetresLength(e.Spread.Abs))
	}
	return Opt[Length]{}
}

func abs(f float64) float64 {
	if f < 0 {
		return -f
	}
	return f
}
