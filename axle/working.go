package axle

import (
	"fmt"
	"math"

	"berthwright/calc"
	"berthwright/unit"
)

// How masses, lengths and moments are printed.
var (
	showKg  = calc.Show{Unit: "kg", Digits: 1}
	showM   = calc.Show{Unit: "m", Digits: 3}
	showKgm = calc.Show{Unit: "kg·m", Digits: 1}
	showPct = calc.Show{Unit: "%", Factor: 0.01, Digits: 2}
	showOne = calc.Show{Digits: 3}
)

func given(symbol, says string, si float64, dim calc.Dim, show calc.Show) calc.Step {
	return calc.Step{Symbol: symbol, Says: says, Kind: calc.Given, SI: si, Dim: dim, Show: show}
}

func derived(symbol, says, formula string, si float64, dim calc.Dim, show calc.Show) calc.Step {
	return calc.Step{Symbol: symbol, Says: says, Kind: calc.Derived, Formula: formula, SI: si, Dim: dim, Show: show}
}

// Working shows the split step by step; what is unknown is left out with a note.
func (s Split) Working() calc.Working {
	w := calc.Working{ID: "axle.split", Title: "Masses, axles and sides"}
	loads := s.Loads()
	list := func(symbol, says string, dim calc.Dim, show calc.Show, of func(l *Load) float64) {
		st := calc.Step{Symbol: symbol, Says: says, Kind: calc.Given, Dim: dim, Show: show}
		for i := range loads {
			st.Each = append(st.Each, of(&loads[i]))
			st.Rows = append(st.Rows, calc.Row{Label: loads[i].label(), Ref: loads[i].Ref})
		}
		w.Steps = append(w.Steps, st)
	}
	add := func(steps ...calc.Step) { w.Steps = append(w.Steps, steps...) }

	var all sums
	for _, p := range s.sums {
		all = sums{all.m + p.m, all.x + p.x, all.y + p.y, all.z + p.z}
	}
	list("m_i", "mass of each load; what was taken out is negative", calc.DimMass, showKg, func(l *Load) float64 { return l.Mass.Kilograms() })
	add(derived("W", "total mass", "sum(m_i)", all.m, calc.DimMass, showKg))
	centre := all.m > 0

	if math.IsNaN(all.x) {
		w.Notes = append(w.Notes, "The axles are unknown: a load has no place along the van.")
	} else {
		l := s.Geometry.Wheelbase.Metres()
		list("x_i", "mass centre, rearwards from the front axle", calc.DimLength, showM, func(l *Load) float64 { return weightless(l, metres(l.At.X)) })
		add(given("l", "wheelbase", l, calc.DimLength, showM),
			derived("M_x", "moment about the front axle", "sum(m_i * x_i)", all.x, calc.DimMassMoment, showKgm),
			derived("R", "mass on the rear axle", "M_x / l", all.x/l, calc.DimMass, showKg),
			derived("F", "mass on the front axle", "W - R", all.m-all.x/l, calc.DimMass, showKg))
		if centre {
			add(derived("x_c", "mass centre, rearwards from the front axle", "M_x / W", all.x/all.m, calc.DimLength, showM))
			add(derived("f", "share of the front axle", "F / W", 1-all.x/l/all.m, calc.None, showPct))
		}
	}

	t := s.Geometry.track()
	switch {
	case math.IsNaN(all.y):
		w.Notes = append(w.Notes, "The sides are unknown: a load has no place across the van.")
	case math.IsNaN(t):
		w.Notes = append(w.Notes, "The sides are unknown: a track is not given.")
	default:
		list("y_i", "mass centre, right of the centre line", calc.DimLength, showM, func(l *Load) float64 { return weightless(l, metres(l.At.Y)) })
		add(given("t_f", "track at the front axle", metres(s.Geometry.TrackFront), calc.DimLength, showM),
			given("t_r", "track at the rear axle", metres(s.Geometry.TrackRear), calc.DimLength, showM),
			derived("t", "mean track", "(t_f + t_r) / 2", t, calc.DimLength, showM),
			derived("M_y", "moment about the centre line", "sum(m_i * y_i)", all.y, calc.DimMassMoment, showKgm),
			derived("W_r", "mass on the right wheels", "W / 2 + M_y / t", all.m/2+all.y/t, calc.DimMass, showKg),
			derived("W_l", "mass on the left wheels", "W - W_r", all.m/2-all.y/t, calc.DimMass, showKg))
		w.Notes = append(w.Notes, "Sides are taken with the mean of both tracks.")
	}

	if math.IsNaN(all.z) {
		w.Notes = append(w.Notes, "The height of the mass centre is unknown: a load has no height.")
	} else if centre {
		list("z_i", "mass centre, above ground", calc.DimLength, showM, func(l *Load) float64 { return weightless(l, metres(l.At.Z)) })
		add(derived("h", "mass centre, above ground", "sum(m_i * z_i) / W", all.z/all.m, calc.DimLength, showM))
	}
	w.Notes = append(w.Notes, "The van stands level and does not pitch or roll on its springs under load.")
	return w
}

// weightless lets a load of no mass have no place.
func weightless(l *Load, coordinate float64) float64 {
	if l.Mass == 0 && math.IsNaN(coordinate) {
		return 0
	}
	return coordinate
}

// NoseDownWorking shows what a slope moves to the front axle; ok is false when the height of the
// mass centre is unknown.
func (s Split) NoseDownWorking(slope unit.Angle) (w calc.Working, ok bool) {
	moved, ok := s.NoseDown(slope).Get()
	if !ok {
		return w, false
	}
	degree := calc.Show{Unit: "°", Factor: unit.Degree.Radians(), Digits: 1}
	return calc.Working{ID: "axle.nose-down", Title: "What standing nose-down moves to the front axle", Steps: []calc.Step{
		given("W", "total mass", s.Total.Kilograms(), calc.DimMass, showKg),
		given("h", "mass centre, above ground", metres(s.Centre.Z), calc.DimLength, showM),
		given("l", "wheelbase", s.Geometry.Wheelbase.Metres(), calc.DimLength, showM),
		given("theta", "slope, nose down", slope.Radians(), calc.None, degree),
		derived("D", "moved from the rear axle to the front", "W * h * tan(theta) / l", moved.Kilograms(), calc.DimMass, showKg),
	}, Notes: []string{"The mass centre stays where it is in the van; springs and tanks do not give."}}, true
}

// Working shows the doubt step by step, each cause by itself, then together.
func (d Doubt) Working() calc.Working {
	loads := d.all()
	w := calc.Working{ID: "axle.spread", Title: "How well the " + d.Measure.Name + " is known"}
	list := func(symbol, says string, dim calc.Dim, show calc.Show, keep func(l *Load) bool, of func(l *Load) float64) {
		st := calc.Step{Symbol: symbol, Says: says, Kind: calc.Given, Dim: dim, Show: show}
		for i := range loads {
			if l := &loads[i]; keep(l) {
				st.Each = append(st.Each, of(l))
				st.Rows = append(st.Rows, calc.Row{Label: l.label(), Ref: l.Ref})
			}
		}
		w.Steps = append(w.Steps, st)
	}
	sum := ""
	add := func(symbol, says, formula string, si float64) {
		w.Steps = append(w.Steps, derived(symbol, says, formula, si, calc.DimMass, showKg))
		if sum != "" {
			sum += " + "
		}
		sum += "pow(" + symbol + ", 2)"
	}
	root := func(of func(l *Load) float64) float64 {
		sq := 0.0
		for i := range loads {
			v := of(&loads[i])
			sq += v * v
		}
		return math.Sqrt(sq)
	}

	own := func(l *Load) bool { return l.Half != 0 }
	list("h_i", "95 % half-width of each mass by itself", calc.DimMass, showKg, own, func(l *Load) float64 { return l.Half.Kilograms() })
	list("a_i", "what each kilogram adds", calc.None, showOne, own, d.lever)
	add("H_m", "from the masses, each by itself", "sqrt(sum(pow(h_i * a_i, 2)))", root(func(l *Load) float64 { m, _, _ := d.own(l, d.lever(l)); return m }))

	for _, ax := range []struct {
		symbol, says string
		half         func(l *Load) float64
		per          func(l *Load) float64
	}{
		{"x", "along", func(l *Load) float64 { return l.HalfX.Metres() }, func(l *Load) float64 { return d.Measure.per[l.On].x }},
		{"y", "across", func(l *Load) float64 { return l.HalfY.Metres() }, func(l *Load) float64 { return d.Measure.per[l.On].y }},
	} {
		moved := func(l *Load) float64 {
			if ax.half(l) == 0 || ax.per(l) == 0 {
				return 0
			}
			return l.Mass.Kilograms() * ax.per(l) * ax.half(l)
		}
		placed := func(l *Load) bool { return moved(l) != 0 }
		if root(moved) == 0 {
			continue
		}
		list("p_"+ax.symbol+"_i", "masses whose place "+ax.says+" is in doubt", calc.DimMass, showKg, placed, func(l *Load) float64 { return l.Mass.Kilograms() })
		list("e_"+ax.symbol+"_i", "95 % half-width of that place", calc.DimLength, showM, placed, ax.half)
		list("b_"+ax.symbol+"_i", "what each kilogram adds per metre", calc.Dim{-1}, calc.Show{Unit: "1/m", Digits: 3}, placed, ax.per)
		add("H_"+ax.symbol, "from the places "+ax.says, fmt.Sprintf("sqrt(sum(pow(p_%[1]s_i * b_%[1]s_i * e_%[1]s_i, 2)))", ax.symbol), root(moved))
	}

	for k, sh := range d.shared {
		if d.leans[k] == 0 {
			continue
		}
		of := func(l *Load) bool { return d.kind(l) == k }
		n := k + 1
		list(fmt.Sprintf("m%d_i", n), "masses known by "+sh.Kind, calc.DimMass, showKg, of, func(l *Load) float64 { return l.Mass.Kilograms() })
		list(fmt.Sprintf("a%d_i", n), "what each kilogram of them adds", calc.None, showOne, of, d.lever)
		w.Steps = append(w.Steps, calc.Step{Symbol: fmt.Sprintf("s%d", n), Says: "95 % half-width of the error they share", Kind: calc.Assumed, SI: sh.Rel.Share(), Show: showPct})
		add(fmt.Sprintf("H_%d", n), "from what "+sh.Kind+" masses have in common", fmt.Sprintf("s%[1]d * abs(sum(m%[1]d_i * a%[1]d_i))", n), sh.Rel.Share()*math.Abs(d.leans[k]))
	}
	w.Steps = append(w.Steps, derived("H", "95 % half-width of all causes together", "sqrt("+sum+")", d.Sum.Kilograms(), calc.DimMass, showKg))
	if d.Floor > 0 {
		w.Steps = append(w.Steps, given("H_0", "least half-width: the van stood one degree nose-down", d.Floor.Kilograms(), calc.DimMass, showKg),
			derived("H_a", "95 % half-width used", "max(H, H_0)", d.Half.Kilograms(), calc.DimMass, showKg))
	}
	w.Notes = append(w.Notes, "Errors are taken as normal and, but for what masses of one kind share, as independent.")
	return w
}

// RoomWorking shows how much can be added at a place; ok is false when no bound is ever reached there.
func RoomWorking(bounds []Bound, at Place, on On) (w calc.Working, ok bool) {
	room, err := RoomAt(bounds, at, on)
	mass, reached := room.Mass.Get()
	if err != nil || !reached {
		return w, false
	}
	w = calc.Working{ID: "axle.room", Title: "What can still be added here"}
	margins := calc.Step{Symbol: "M_i", Says: "margin of each limit that feels it, in its own worst case", Kind: calc.Given, Dim: calc.DimMass, Show: showKg}
	levers := calc.Step{Symbol: "a_i", Says: "what each kilogram added here puts on it", Kind: calc.Given, Show: showOne}
	for i := range bounds {
		a := bounds[i].Measure.leverAt(&at, on)
		if !(a > 0) {
			continue
		}
		row := calc.Row{Label: bounds[i].Name, Ref: bounds[i].Ref}
		margins.Each, margins.Rows = append(margins.Each, bounds[i].Margin.Kilograms()), append(margins.Rows, row)
		levers.Each, levers.Rows = append(levers.Each, a), append(levers.Rows, row)
	}
	w.Steps = []calc.Step{margins, levers, derived("m", "can still be added", "max(min(M_i / a_i), 0)", mass.Kilograms(), calc.DimMass, showKg)}
	w.Notes = []string{"Reached first: " + bounds[room.Bound].Name + "."}
	return w, true
}
