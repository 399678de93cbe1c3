package axle

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"berthwright/calc"
)

// suspects ranks the single readings and loads by how much of the misfit each would explain.
func (r *Reconciled) suspects(readings []Reading, chol *mat.Cholesky, h *mat.Dense, weighted *mat.VecDense) error {
	k := len(readings)
	limit := 0.0
	if k > 1 {
		limit = distuv.ChiSquared{K: float64(k - 1)}.Quantile(0.99)
	}
	column, solved := mat.NewVecDense(k, nil), mat.NewVecDense(k, nil)
	add := func(id string, isReading bool) error {
		if err := chol.SolveVecTo(solved, column); err != nil {
			return errAlike
		}
		power := mat.Dot(column, solved)
		if !(power > 1e-15) {
			return nil // no reading feels it
		}
		pull := mat.Dot(column, weighted)
		left := max(r.Misfit-pull*pull/power, 0)
		r.Suspects = append(r.Suspects, Suspect{
			ID: id, IsReading: isReading, By: kg(pull / power), Strain: pull / math.Sqrt(power), Misfit: left, Explains: left <= limit+slack,
		})
		return nil
	}
	for i := range readings {
		column.Zero()
		column.SetVec(i, 1)
		if err := add(readings[i].ID, true); err != nil {
			return err
		}
	}
	for j := range r.loads {
		for i := range k {
			column.SetVec(i, h.At(i, j))
		}
		if err := add(r.loads[j].ID, false); err != nil {
			return err
		}
	}
	slices.SortStableFunc(r.Suspects, func(a, b Suspect) int { return -falling(a.Misfit, b.Misfit) })
	return nil
}

// Certificate shows the readings as reconciled: what the loads now make of each reading and what is left
// of it make the reading; chi-square stands beside its 99 % point.
func (r Reconciled) Certificate() calc.Certificate {
	c := calc.Certificate{
		ID: "axle.reconcile", Title: "Weighings and masses reconciled",
		Method: "Linear-Gaussian least squares: masses with their own and shared errors and the errors of their places, readings with independent errors.",
	}
	for _, p := range r.Posteriors {
		why := fmt.Sprintf("was %.1f ± %.1f kg, is ± %.1f kg", p.Prior.Kilograms(), p.PriorHalf.Kilograms(), p.Half.Kilograms())
		c.Chosen = append(c.Chosen, calc.Line{Label: p.Load.label(), Ref: p.Load.Ref, SI: p.Mass.Kilograms(), Dim: calc.DimMass, Show: showKg, Why: why})
	}
	c.Inputs = append(c.Inputs,
		given("X", "misfit of the readings, chi-square", r.Misfit, calc.None, showOne),
		given("Q", "99 % point of chi-square", r.Limit, calc.None, showOne),
		given("k", "number of readings", float64(r.Freedom), calc.None, calc.Show{}))
	for i, res := range r.Residuals {
		n, name := i+1, res.Reading.Name
		if name == "" {
			name = res.Reading.ID
		}
		fitted, left := fmt.Sprintf("z%d", n), fmt.Sprintf("r%d", n)
		c.Inputs = append(c.Inputs,
			given(fitted, name+" as the masses now give it", res.Fitted.Kilograms(), calc.DimMass, showKg),
			given(left, "left of the reading", res.Left.Kilograms(), calc.DimMass, showKg))
		read := res.Reading.Value.Kilograms()
		c.Balances = append(c.Balances, calc.Balance{Says: name + ": fitted and left make the reading", Left: res.Fitted.Kilograms() + res.Left.Kilograms(),
			LeftFormula: fitted + " + " + left, Right: read, Within: slack * max(1, read), Show: showKg})
	}
	return c
}
