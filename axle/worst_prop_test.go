package axle_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"berthwright/axle"
	"berthwright/internal/calctest"
	"berthwright/unit"
)

// randomPlan makes a base and groups; pieces tells whether some variables come in whole pieces.
func randomPlan(r *rand.Rand, pieces bool) (axle.Split, []axle.Group) {
	base, err := axle.Sum(curlewGeometry, []axle.Load{load("base", 1500+1000*r.Float64(), 1.4+r.Float64(), r.Float64()-0.5, 0.8)})
	if err != nil {
		panic(err)
	}
	var groups []axle.Group
	for g := range 1 + r.IntN(4) {
		group := axle.Group{ID: fmt.Sprint("g", g)}
		least, most := 0.0, 0.0
		for v := range 1 + r.IntN(5) {
			l := on(load(fmt.Sprint("v", g, "-", v), math.Round(100*r.Float64()), 6*r.Float64()-0.5, 2*r.Float64()-1, 1), axle.On(r.IntN(3)))
			x := axle.UpTo(l)
			switch {
			case pieces && r.IntN(2) == 0:
				x = axle.Whole(l, 1+r.IntN(3))
			case r.IntN(4) == 0:
				x.Least = l.Mass.Times(r.Float64())
			case r.IntN(8) == 0:
				x = axle.Must(l)
			}
			least += x.Least.Kilograms()
			most += x.Mass.Kilograms()
			group.Variables = append(group.Variables, x)
		}
		if r.IntN(3) > 0 {
			group.Cap = unit.Some(unit.Mass(least + (most-least)*1.1*r.Float64()))
		}
		groups = append(groups, group)
	}
	return base, groups
}

var measures = []axle.Measure{axle.Total(), curlewGeometry.Front(), curlewGeometry.Rear(), curlewGeometry.Left(), curlewGeometry.Right(),
	axle.Carried(axle.Roof), axle.Total().Plus(-2.1, curlewGeometry.Front(), "shortfall of front share")}

// simplex solves the same plan with gonum's simplex: minimise cᵀx, A·x = b, x ≥ 0, with x the mass above
// each least and slacks.
func simplex(t testing.TB, base axle.Split, groups []axle.Group, m axle.Measure, sense axle.Sense) float64 {
	type variable struct{ cost, room float64 }
	var vars []variable
	value := get(t, base.Read(m)).Kilograms()
	type capRow struct {
		members []int
		room    float64
	}
	var caps []capRow
	sign := -1.0
	if sense == axle.Least {
		sign = 1
	}
	for _, g := range groups {
		row := capRow{}
		for _, v := range g.Variables {
			a := get(t, m.Lever(v.At, v.On)).Share()
			value += v.Least.Kilograms() * a
			row.members = append(row.members, len(vars))
			row.room -= v.Least.Kilograms()
			vars = append(vars, variable{sign * a, v.Mass.Kilograms() - v.Least.Kilograms()})
		}
		if c, ok := g.Cap.Get(); ok {
			row.room = math.Max(row.room+c.Kilograms(), 0)
			caps = append(caps, row)
		}
	}
	n, k := len(vars), len(caps)
	cost := make([]float64, 2*n+k)
	a := mat.NewDense(n+k, 2*n+k, nil)
	b := make([]float64, n+k)
	for i, v := range vars {
		cost[i] = v.cost
		a.Set(i, i, 1)
		a.Set(i, n+i, 1)
		b[i] = v.room
	}
	for j, c := range caps {
		for _, i := range c.members {
			a.Set(n+j, i, 1)
		}
		a.Set(n+j, 2*n+j, 1)
		b[n+j] = c.room
	}
	best, _, err := lp.Simplex(cost, a, b, 1e-10, nil)
	if err != nil {
		return math.NaN()
	}
	return value + sign*best
}

// TestPropSimplex: on random plans without whole pieces the fill equals a general simplex.
func TestPropSimplex(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 7))
	solved := 0
	for i := range 400 {
		base, groups := randomPlan(r, false)
		m, sense := measures[i%len(measures)], axle.Sense(r.IntN(2))
		w, err := axle.Worst(base, groups, m, sense)
		if err != nil {
			t.Fatal(err)
		}
		calctest.Check(t, w.Certificate())
		if want := simplex(t, base, groups, m, sense); !math.IsNaN(want) {
			solved++
			near(t, m.Name, w.Value.Kilograms(), want, 1e-6)
		}
	}
	if solved < 300 {
		t.Errorf("the simplex solved only %d of 400 plans", solved)
	}
}

// brute tries every combination of pieces; what is left is filled in every order of variables, which
// meets every corner of the box under its limit.
func brute(g axle.Group, value func(v axle.Variable) float64) float64 {
	limit := math.Inf(1)
	if c, ok := g.Cap.Get(); ok {
		limit = c.Kilograms()
	}
	best := math.Inf(-1)
	amounts := make([]float64, len(g.Variables))
	var free func(used, sum float64, rest []int)
	free = func(used, sum float64, rest []int) {
		best = math.Max(best, sum) // all further ones at their least
		for k, i := range rest {
			v := g.Variables[i]
			room := math.Min(v.Mass.Kilograms()-v.Least.Kilograms(), limit-used)
			others := append(append([]int(nil), rest[:k]...), rest[k+1:]...)
			free(used+room, sum+room*value(v), others)
		}
	}
	var pieces func(i int, used, sum float64, rest []int)
	pieces = func(i int, used, sum float64, rest []int) {
		if used > limit+1e-9 {
			return
		}
		if i == len(g.Variables) {
			free(used, sum, rest)
			return
		}
		v := g.Variables[i]
		if v.Pieces == 0 {
			pieces(i+1, used+v.Least.Kilograms(), sum+v.Least.Kilograms()*value(v), append(rest, i))
			return
		}
		for n := range v.Pieces + 1 {
			amounts[i] = v.Mass.Kilograms() * float64(n) / float64(v.Pieces)
			pieces(i+1, used+amounts[i], sum+amounts[i]*value(v), rest)
		}
	}
	pieces(0, 0, 0, nil)
	return best
}

// TestPropBruteForce: with whole pieces under limits the search equals trying everything.
func TestPropBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 7))
	searched := 0
	for i := range 600 {
		base, groups := randomPlan(r, true)
		m, sense := measures[i%len(measures)], axle.Sense(r.IntN(2))
		w, err := axle.Worst(base, groups, m, sense)
		if err != nil {
			t.Fatal(err)
		}
		calctest.Check(t, w.Certificate())
		sign := 1.0
		if sense == axle.Least {
			sign = -1
		}
		want := get(t, base.Read(m)).Kilograms()
		for _, g := range groups {
			want += sign * brute(g, func(v axle.Variable) float64 { return sign * get(t, m.Lever(v.At, v.On)).Share() })
		}
		near(t, m.Name, w.Value.Kilograms(), want, 1e-6)
		for _, p := range w.Picks {
			if p.Load.Mass > 0 && p.Mass < 0 || p.Mass > p.Load.Mass+1e-9 {
				t.Errorf("%s is %v of %v", p.Load.ID, p.Mass, p.Load.Mass)
			}
			if p.Pieces > 0 {
				searched++
			}
		}
	}
	if searched < 100 {
		t.Errorf("only %d picks in pieces", searched)
	}
}

// randomAboard draws one plan within the groups.
func randomAboard(r *rand.Rand, groups []axle.Group) []axle.Load {
	var out []axle.Load
	for _, g := range groups {
		for {
			sum, loads := 0.0, []axle.Load(nil)
			for _, v := range g.Variables {
				kg := v.Least.Kilograms() + (v.Mass.Kilograms()-v.Least.Kilograms())*math.Min(1, 1.3*r.Float64())
				switch {
				case v.Pieces > 0 && v.Least == 0:
					kg = v.Mass.Kilograms() / float64(v.Pieces) * float64(r.IntN(v.Pieces+1))
				case r.IntN(2) == 0:
					kg = v.Least.Kilograms()
				}
				l := v.Load
				l.Mass = unit.Mass(kg)
				loads = append(loads, l)
				sum += kg
			}
			if c, ok := g.Cap.Get(); ok && sum > c.Kilograms() {
				continue
			}
			out = append(out, loads...)
			break
		}
	}
	return out
}

// TestPropRandomPlansNeverPass: no plan drawn within the declared plan of the demo van passes its worst
// cases, shares included.
func TestPropRandomPlansNeverPass(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 7))
	base := curlewBase(t)
	for _, policy := range []axle.WaterPolicy{axle.UsedWaterLeavesFresh, axle.RefilledWithoutEmptying} {
		groups := larger(policy)
		type end struct{ most, least float64 }
		ends := make([]end, len(measures))
		for i, m := range measures {
			for _, sense := range []axle.Sense{axle.Most, axle.Least} {
				w, err := axle.Worst(base, groups, m, sense)
				if err != nil {
					t.Fatal(err)
				}
				if sense == axle.Most {
					ends[i].most = w.Value.Kilograms()
				} else {
					ends[i].least = w.Value.Kilograms()
				}
			}
		}
		share := [2]float64{}
		for i, sense := range []axle.Sense{axle.Most, axle.Least} {
			w, err := axle.WorstShare(base, groups, curlewGeometry.Front(), axle.Total(), sense)
			if err != nil {
				t.Fatal(err)
			}
			calctest.Check(t, w.Certificate())
			share[i] = get(t, w.Share).Share()
		}
		for range 10_000 {
			s, err := base.With(randomAboard(r, groups))
			if err != nil {
				t.Fatal(err)
			}
			for i, m := range measures {
				v := get(t, s.Read(m)).Kilograms()
				if v > ends[i].most+1e-6 || v < ends[i].least-1e-6 {
					t.Fatalf("%s is %v, outside %v", m.Name, v, ends[i])
				}
			}
			if f := get(t, s.Front).Per(s.Total).Share(); f > share[0]+1e-9 || f < share[1]-1e-9 {
				t.Fatalf("front share %v outside %v", f, share)
			}
		}
	}
}

// TestPropShareByGrid: the share found by iteration equals the best of all corners of small plans.
func TestPropShareByGrid(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 7))
	for range 200 {
		base, groups := randomPlan(r, false)
		for i := range groups { // corners of a box without limit are its 2^n ends
			groups[i].Cap = unit.Opt[unit.Mass]{}
		}
		var vars []axle.Variable
		for _, g := range groups {
			vars = append(vars, g.Variables...)
		}
		if len(vars) > 12 {
			continue
		}
		w, err := axle.WorstShare(base, groups, curlewGeometry.Front(), axle.Total(), axle.Least)
		if err != nil {
			t.Fatal(err)
		}
		calctest.Check(t, w.Certificate())
		best := math.Inf(1)
		for corner := range 1 << len(vars) {
			f, total := get(t, base.Front).Kilograms(), base.Total.Kilograms()
			for i, v := range vars {
				kg := v.Least.Kilograms()
				if corner>>i&1 == 1 {
					kg = v.Mass.Kilograms()
				}
				total += kg
				f += kg * get(t, curlewGeometry.Front().Lever(v.At, v.On)).Share()
			}
			best = math.Min(best, f/total)
		}
		near(t, "lowest share", get(t, w.Share).Share(), best, 1e-10)
		for i := 1; i < len(w.Rounds); i++ {
			if w.Rounds[i] > w.Rounds[i-1]+1e-12 {
				t.Errorf("the share rises from round to round: %v", w.Rounds)
			}
		}
		if len(w.Rounds) > 8 {
			t.Errorf("%d rounds: %v", len(w.Rounds), w.Rounds)
		}
	}
}

// TestPropWorstRefuses: every edge of a plan, one row each.
func TestPropWorstRefuses(t *testing.T) {
	base := curlewBase(t)
	nan := unit.Mass(math.NaN())
	place := axle.At(mm(2000), 0, 0)
	group := func(capacity unit.Opt[unit.Mass], vs ...axle.Variable) []axle.Group {
		return []axle.Group{{ID: "g", Cap: capacity, Variables: vs}}
	}
	v := func(id string, most, least unit.Mass, pieces int) axle.Variable {
		return axle.Variable{Load: axle.Load{ID: id, Mass: most, At: place}, Least: least, Pieces: pieces}
	}
	none := unit.Opt[unit.Mass]{}
	var rangeErr axle.RangeError
	var twice axle.DuplicateError
	var capErr axle.CapError
	var missing axle.MissingError
	for _, c := range []struct {
		what   string
		groups []axle.Group
		want   any // nil: accepted
	}{
		{"no groups", nil, nil},
		{"empty group", group(none), nil},
		{"nothing", group(none, v("a", 0, 0, 0)), nil},
		{"pieces of nothing", group(none, v("a", 0, 0, 2)), nil},
		{"cap nought", group(unit.Some(unit.Mass(0)), v("a", 5, 0, 0)), nil},
		{"most NaN", group(none, v("a", nan, 0, 0)), &rangeErr},
		{"most negative", group(none, v("a", -1, 0, 0)), &rangeErr},
		{"most infinite", group(none, v("a", unit.Mass(math.Inf(1)), 0, 0)), &rangeErr},
		{"least NaN", group(none, v("a", 5, nan, 0)), &rangeErr},
		{"least above most", group(none, v("a", 5, 5.001, 0)), &rangeErr},
		{"pieces negative", group(none, v("a", 5, 0, -1)), &rangeErr},
		{"cap NaN", group(unit.Some(nan), v("a", 5, 0, 0)), &rangeErr},
		{"cap negative", group(unit.Some(unit.Mass(-1)), v("a", 5, 0, 0)), &rangeErr},
		{"cap below least", group(unit.Some(unit.Mass(4.9)), v("a", 5, 5, 0)), &capErr},
		{"cap at least", group(unit.Some(unit.Mass(5)), v("a", 5, 5, 0)), nil},
		{"id twice", group(none, v("a", 5, 0, 0), v("a", 5, 0, 0)), &twice},
		{"id in two groups", append(group(none, v("a", 5, 0, 0)), group(none, v("a", 5, 0, 0))...), &twice},
		{"no place", group(none, axle.UpTo(axle.Load{ID: "a", Mass: 5})), &missing},
	} {
		w, err := axle.Worst(base, c.groups, curlewGeometry.Rear(), axle.Most)
		switch want := c.want.(type) {
		case nil:
			if err != nil {
				t.Errorf("%s: %v", c.what, err)
				continue
			}
			calctest.Check(t, w.Certificate())
		default:
			if !errors.As(err, want) {
				t.Errorf("%s: got %v, want %T", c.what, err, want)
			}
		}
	}
	// The total needs no place.
	if _, err := axle.Worst(base, group(none, axle.UpTo(axle.Load{ID: "a", Mass: 5})), axle.Total(), axle.Most); err != nil {
		t.Error(err)
	}
	// Too many equal-looking pieces under one limit are refused, not guessed.
	var many []axle.Variable
	r := rand.New(rand.NewPCG(5, 7))
	for i := range 60 {
		many = append(many, axle.Whole(axle.Load{ID: fmt.Sprint(i), Mass: unit.Mass(2*10 + r.IntN(3)), At: place}, 1))
	}
	var search axle.SearchError
	if _, err := axle.Worst(base, group(unit.Some(unit.Mass(611.5)), many...), axle.Total(), axle.Most); !errors.As(err, &search) {
		t.Errorf("sixty unlike pieces: got %v, want a SearchError", err)
	}
}

// The value alone is that of the case.
func TestPropWorstValue(t *testing.T) {
	base := curlewBase(t)
	for _, policy := range []axle.WaterPolicy{axle.UsedWaterLeavesFresh, axle.RefilledWithoutEmptying} {
		for _, m := range []axle.Measure{axle.Total(), curlewGeometry.Front(), curlewGeometry.Rear()} {
			for _, sense := range []axle.Sense{axle.Most, axle.Least} {
				w, err := axle.Worst(base, larger(policy), m, sense)
				if err != nil {
					t.Fatal(err)
				}
				v, err := axle.WorstValue(base, larger(policy), m, sense)
				if err != nil {
					t.Fatal(err)
				}
				near(t, m.Name, v.Kilograms(), w.Value.Kilograms(), 1e-9)
			}
		}
	}
}
