// Package calc answers: how was this figure found, and can it be checked from what is printed?
//
// A science returns its result struct and, when asked, a Working beside it: the closed chain of
// Steps that a reader can recompute. A method with search or iteration shows a Certificate
// instead: inputs, the chosen case, and balances that close. Both are data.
//
//	lines := calc.Lines(split.Working())   // what screen, paper and terminal print
//	calctest.Recompute(t, split.Working()) // the test that the print is the calculation
//
// A Formula is text in a small language (Expr) over the symbols of earlier steps; Parse reads it,
// Eval and EvalDim compute value and dimension. All values are in coherent SI; Show tells how one
// is printed. Evidence and Cite say how a published value is known and where it stands.
package calc

// Evidence tells how a published value came to us. The zero value is Unsourced.
type Evidence uint8

// The levels of evidence.
const (
	Unsourced Evidence = iota // a default of ours or common practice; no publication
	Recalled                  // from memory of a publication that was not read
	Secondary                 // read in a text that quotes the publication
	Seen                      // read in the publication itself
	Confirmed                 // confirmed by the workshop from its own copy
)

// Cite points into a publication registered in package source.
type Cite struct {
	Key string // "eu-2021-535"
	At  string // "annex XIII, part 2, 4.2"
}

// Kind tells what a Step is. The zero value is invalid.
type Kind uint8

// The kinds of Step.
const (
	_        Kind = iota
	Given         // read from the build
	Constant      // a published or physical constant
	Assumed       // a default that the build did not give
	Derived       // computed by Formula
	Limit         // a limit from a rule or a plate
	Choice        // a branch taken; Says tells why; has no value
)

// Dim holds the exponents of metre, kilogram, second, ampere, kelvin.
type Dim [5]int8

// The dimensions in use.
var (
	None           = Dim{}
	DimLength      = Dim{1}
	DimArea        = Dim{2}
	DimVolume      = Dim{3}
	DimMass        = Dim{0, 1}
	DimMassMoment  = Dim{1, 1}
	DimDensity     = Dim{-3, 1}
	DimMassPerArea = Dim{-2, 1}
)

// Show tells how a value is printed.
type Show struct {
	Unit   string  // "kg", "mm", "%", ""
	Factor float64 // SI value of one Unit: 0.001 for mm; 0 means 1
	Digits int     // digits after the point
}

// Row names one entry of a list step.
type Row struct {
	Label string
	Ref   string // opaque label set by derive; only faces read it as a document path
}

// Step is one line of a Working.
type Step struct {
	Symbol  string // "m_r"; unique in the record; ends in _i for a list
	Says    string // "mass on the rear axle"
	Kind    Kind
	Formula string    // Derived: "sum(m_i * x_i) / l", Go expression syntax, + - * / sum min max sqrt pow abs
	SI      float64   // value in coherent SI
	Each    []float64 // one value per row, for symbols ending in _i
	Rows    []Row     // labels of Each, same length
	Dim     Dim
	Show    Show
	Numeric bool   // an empirical formula in fixed units: values are checked, dimensions are not
	Ref     string // Given: opaque label set by derive
	Source  []Cite // Constant, Limit, and the formula itself
	Level   Evidence
}

// Working is the closed chain of steps that leads to one figure.
type Working struct {
	ID    string // stable: "axle.split"
	Title string
	Steps []Step
	Notes []string // what the method leaves out
}

// Balance is one line of a Certificate that a reader can check: Left equals Right within Within.
//
// A formula, where one is given, tells how its side follows from the symbols of the inputs and
// from ChosenSymbol, the values of the chosen lines; a test re-computes it.
type Balance struct {
	Says         string
	Left, Right  float64 // coherent SI
	LeftFormula  string  // "F_0 + R_0 + sum(c_i)"
	RightFormula string
	Within       float64 // highest difference, coherent SI
	Show         Show
}

// ChosenSymbol stands for the values of the chosen lines in the formulas of a Balance.
const ChosenSymbol = "c_i"

// Certificate shows what a method with search or iteration found.
type Certificate struct {
	ID       string
	Title    string
	Method   string
	Inputs   []Step
	Base     Line // with a Sum: what is there whatever is chosen; it is not in ChosenSymbol
	Chosen   []Line
	Sum      Line // of Base and Chosen, all in one unit; without a label: the lines do not add up to anything
	Balances []Balance
}

// Line is one row of the case that a method chose, in the order it chose it.
type Line struct {
	Label string
	Ref   string
	SI    float64
	Dim   Dim
	Show  Show
	Why   string // "highest leverage on the rear axle: 1.09 kg per kg"
}

// Const is a published or assumed constant with its basis.
type Const struct {
	SI     float64
	Dim    Dim
	Show   Show
	Says   string
	Source Cite
	Level  Evidence
}
