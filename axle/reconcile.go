package axle

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"berthwright/unit"
)

// Posterior is a load as the readings leave it.
type Posterior struct {
	Load      Load // as it was believed; with what its kind's shared error adds in PriorHalf
	Prior     unit.Mass
	PriorHalf unit.Mass
	Mass      unit.Mass
	Half      unit.Mass
	Adjusted  unit.Mass // Mass less Prior
	Strain    float64   // Adjusted in standard deviations of such adjustments; 0 when nothing was learnt
}

// Residual is a reading and what the loads make of it.
type Residual struct {
	Reading    Reading
	Expected   unit.Mass // of the masses as believed, Known included
	Misfit     unit.Mass // Value less Expected
	MisfitHalf unit.Mass // 95 % half-width of Misfit, readings and masses together
	Fitted     unit.Mass // of the posterior masses
	Left       unit.Mass // Value less Fitted
}

// Suspect is one reading or load which, if it were simply wrong, would explain the misfit.
type Suspect struct {
	ID        string
	IsReading bool
	By        unit.Mass // how wrong: its true mass less the mass believed, or the value read less the true value
	Strain    float64   // By in standard deviations
	Misfit    float64   // chi-square that would remain
	Explains  bool      // it would then be within the 99 % point
}

// Reconciled is what a set of readings says about a set of loads.
type Reconciled struct {
	Posteriors []Posterior
	Residuals  []Residual
	Misfit     float64 // chi-square of readings against beliefs
	Freedom    int     // number of readings
	Limit      float64 // 99 % point of chi-square
	Refused    bool    // Misfit is beyond Limit: the posterior masses must not be used
	Suspects   []Suspect

	loads []Load
	state []state
	after *mat.SymDense
}

// state is one unknown: the mass of a load, or the moment that the error of its place makes.
type state struct {
	load int
	axis axis
}

type axis uint8

const (
	ofMass axis = iota
	ofX
	ofY
)

// Reconcile compares readings with loads by linear-Gaussian least squares. Beliefs about the loads are their
// masses with own errors, shared errors by kind, and the errors of their places; the readings
// have independent errors. With H the levers, P the covariance of beliefs, R that of readings:
//
//	d = z − H·m     S = H·P·Hᵀ + R     m' = m + P·Hᵀ·S⁻¹·d     P' = P − P·Hᵀ·S⁻¹·H·P     χ² = dᵀ·S⁻¹·d
//
// A single wrong reading or load j with column h of its levers would take (hᵀS⁻¹d)²/(hᵀS⁻¹h) off χ²
// (W. Baarda, A testing procedure for use in geodetic networks, 1968, from memory).
//
// It refuses an empty list of readings, a reading without spread, ids used twice or not among
// the loads, and a reading that needs an unknown place.
func Reconcile(g Geometry, loads []Load, shared []Shared, readings []Reading) (Reconciled, error) {
	if err := g.check(); err != nil {
		return Reconciled{}, err
	}
	aboard, err := checkReadings(loads, shared, readings)
	if err != nil {
		return Reconciled{}, err
	}
	r := Reconciled{Freedom: len(readings), loads: loads, state: states(loads)}
	n, k := len(r.state), len(readings)
	prior := beliefs(loads, shared, r.state)

	h := mat.NewDense(k, n, nil)
	d := mat.NewVecDense(k, nil)
	expected := make([]float64, k)
	for i := range readings {
		z := &readings[i]
		expected[i] = z.Known.Kilograms()
		for j, st := range r.state {
			if !aboard[i][st.load] {
				continue
			}
			a := sensitivity(&z.Measure, &loads[st.load], st.axis)
			if math.IsNaN(a) {
				return Reconciled{}, MissingError{Measure: z.Measure.Name, IDs: []string{loads[st.load].ID}}
			}
			h.Set(i, j, a)
			if st.axis == ofMass {
				expected[i] += a * loads[st.load].Mass.Kilograms()
			}
		}
		d.SetVec(i, z.Value.Kilograms()-expected[i])
	}

	var ph, s mat.Dense
	ph.Mul(prior, h.T())
	s.Mul(h, &ph)
	sym := mat.NewSymDense(k, nil)
	for i := range k {
		for j := i; j < k; j++ {
			v := (s.At(i, j) + s.At(j, i)) / 2
			if i == j {
				sd := readings[i].Half.Kilograms() / z95
				v += sd * sd
			}
			sym.SetSym(i, j, v)
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(sym) {
		return Reconciled{}, errAlike
	}
	var weighted mat.VecDense // S⁻¹·d
	if err := chol.SolveVecTo(&weighted, d); err != nil {
		return Reconciled{}, errAlike
	}
	var step mat.VecDense
	step.MulVec(&ph, &weighted)
	var gain, less mat.Dense // S⁻¹·H·P, P·Hᵀ·S⁻¹·H·P
	if err := chol.SolveTo(&gain, ph.T()); err != nil {
		return Reconciled{}, errAlike
	}
	less.Mul(&ph, &gain)
	r.after = mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			v := prior.At(i, j) - (less.At(i, j)+less.At(j, i))/2
			if i == j {
				v = max(v, 0) // rounding of two equal variances; never below nought by mathematics
			}
			r.after.SetSym(i, j, v)
		}
	}

	r.Misfit = mat.Dot(d, &weighted)
	r.Limit = distuv.ChiSquared{K: float64(k)}.Quantile(0.99)
	r.Refused = !(r.Misfit <= r.Limit)
	r.posteriors(loads, prior, &step)
	for i := range readings {
		fitted := expected[i]
		for j := range n {
			fitted += h.At(i, j) * step.AtVec(j)
		}
		r.Residuals = append(r.Residuals, Residual{
			Reading: readings[i], Expected: kg(expected[i]), Misfit: kg(d.AtVec(i)),
			MisfitHalf: kg(z95 * math.Sqrt(sym.At(i, i))), Fitted: kg(fitted), Left: kg(readings[i].Value.Kilograms() - fitted),
		})
	}
	return r, r.suspects(readings, &chol, h, &weighted)
}

// errAlike reports readings whose spread is lost in rounding beside that of the loads.
var errAlike = RangeError{Name: "spread of the readings", Got: 0, Want: "large enough beside that of the loads"}

func kg(v float64) unit.Mass { return unit.Kilogram.Times(v) }

// states lists the unknowns: every mass, then every place that is in doubt.
func states(loads []Load) []state {
	var out []state
	for i := range loads {
		out = append(out, state{i, ofMass})
	}
	for i := range loads {
		if loads[i].HalfX > 0 {
			out = append(out, state{i, ofX})
		}
		if loads[i].HalfY > 0 {
			out = append(out, state{i, ofY})
		}
	}
	return out
}

// beliefs returns the covariance of the states, in kg² and (kg·m)².
func beliefs(loads []Load, shared []Shared, all []state) *mat.SymDense {
	p := mat.NewSymDense(len(all), nil)
	lean := make([]float64, len(loads))
	for i := range loads {
		for _, s := range shared {
			if s.Kind == loads[i].Kind && s.Kind != "" {
				lean[i] = s.Rel.Share() / z95 * loads[i].Mass.Kilograms()
			}
		}
	}
	for j, st := range all {
		l := &loads[st.load]
		sd := 0.0
		switch st.axis {
		case ofMass:
			sd = l.Half.Kilograms() / z95
		case ofX:
			sd = l.Mass.Kilograms() * l.HalfX.Metres() / z95
		case ofY:
			sd = l.Mass.Kilograms() * l.HalfY.Metres() / z95
		}
		p.SetSym(j, j, sd*sd)
		if st.axis != ofMass || lean[st.load] == 0 {
			continue
		}
		for i := 0; i <= j; i++ {
			o := all[i]
			if o.axis == ofMass && loads[o.load].Kind == l.Kind {
				p.SetSym(i, j, p.At(i, j)+lean[o.load]*lean[st.load])
			}
		}
	}
	return p
}

// sensitivity is what one kilogram of a load, or one kg·m of the error of its place, adds to a reading.
func sensitivity(m *Measure, l *Load, a axis) float64 {
	switch a {
	case ofX:
		return m.per[l.On].x
	case ofY:
		return m.per[l.On].y
	}
	v := m.lever(l)
	if math.IsNaN(v) && l.Mass == 0 && l.Half == 0 {
		return 0
	}
	return v
}

func (r *Reconciled) posteriors(loads []Load, prior *mat.SymDense, step *mat.VecDense) {
	for i := range loads {
		before, after := prior.At(i, i), r.after.At(i, i)
		p := Posterior{
			Load: loads[i], Prior: loads[i].Mass, PriorHalf: kg(z95 * math.Sqrt(before)),
			Mass: kg(loads[i].Mass.Kilograms() + step.AtVec(i)), Half: kg(z95 * math.Sqrt(after)), Adjusted: kg(step.AtVec(i)),
		}
		if learnt := before - after; learnt > 1e-12*before {
			p.Strain = step.AtVec(i) / math.Sqrt(learnt)
		}
		r.Posteriors = append(r.Posteriors, p)
	}
}

// Loads returns the loads with their posterior masses and half-widths, for Sum. Their errors now
// depend on each other, so the doubt about a measure is Half, not Spread.
func (r Reconciled) Loads() []Load {
	out := slices.Clone(r.loads)
	for i, p := range r.Posteriors {
		out[i].Mass, out[i].Half = p.Mass, p.Half
	}
	return out
}

// Half returns the 95 % half-width of a measure of all loads after the readings; absent when it
// needs an unknown place.
func (r Reconciled) Half(m Measure) unit.Opt[unit.Mass] {
	a := make([]float64, len(r.state))
	for j, st := range r.state {
		a[j] = sensitivity(&m, &r.loads[st.load], st.axis)
		if math.IsNaN(a[j]) {
			return unit.Opt[unit.Mass]{}
		}
	}
	v := mat.NewVecDense(len(a), a)
	return massOpt(z95 * math.Sqrt(max(mat.Inner(v, r.after, v), 0)))
}
