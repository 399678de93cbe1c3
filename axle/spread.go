package axle

import (
	"math"
	"slices"
	"strings"

	"berthwright/unit"
)

// z95 is how many standard deviations a 95 % half-width holds.
const z95 = 1.959963984540054

// Shared is a relative error that all masses of one kind of evidence have together, as a 95 %
// half-width: data sheets lean the same way.
type Shared struct {
	Kind string
	Rel  unit.Ratio
}

// Doubt is how well a measure of a set of loads is known.
//
//	half² = Σ (hᵢ·aᵢ)² + Σ (mᵢ·∂aᵢ/∂x·hxᵢ)² + Σ (mᵢ·∂aᵢ/∂y·hyᵢ)² + Σ_k (s_k · Σ_{i in k} mᵢ·aᵢ)²
//
// a is the lever of the measure. Own errors are independent of each other, a shared error moves all
// masses of its kind at once; errors are taken as normal. Floor is what the pose of the
// van on the scale costs: the half-width is never below it.
type Doubt struct {
	Measure Measure
	Half    unit.Mass // 95 % half-width: the larger of Sum and Floor
	Sum     unit.Mass // of all contributions
	Floor   unit.Mass

	parts  [][]Load
	shared []Shared
	leans  []float64 // kg per unit of the shared error, by kind
	square float64
}

// Spread returns the doubt about m over loads. Floor is NoseDown of the same van for an axle, nought
// for other measures. It refuses negative shared errors, kinds given twice and unknown places.
func Spread(loads []Load, shared []Shared, m Measure, floor unit.Mass) (Doubt, error) {
	return spread([][]Load{loads}, shared, m, floor)
}

// Spread is the doubt about m over the loads of s, without copying them.
func (s Split) Spread(shared []Shared, m Measure, floor unit.Mass) (Doubt, error) {
	return spread(s.parts, shared, m, floor)
}

func spread(parts [][]Load, shared []Shared, m Measure, floor unit.Mass) (Doubt, error) {
	if err := checkShared(shared); err != nil {
		return Doubt{}, err
	}
	if f := floor.Kilograms(); !(f >= 0 && finite(f)) {
		return Doubt{}, RangeError{Name: "floor of the half-width", Got: f, Want: "0 kg or more"}
	}
	d := Doubt{Measure: m, Floor: floor, parts: parts, shared: shared, leans: make([]float64, len(shared))}
	for _, loads := range parts {
		if err := d.add(loads); err != nil {
			return Doubt{}, err
		}
	}
	for k, s := range shared {
		h := s.Rel.Share() * d.leans[k]
		d.square += h * h
	}
	d.Sum = unit.Kilogram.Times(math.Sqrt(d.square))
	d.Half = max(d.Sum, d.Floor)
	return d, nil
}

// add takes in what the loads contribute.
func (d *Doubt) add(loads []Load) error {
	for i := range loads {
		l := &loads[i]
		if err := l.check(); err != nil {
			return err
		}
		a := d.Measure.lever(l)
		if math.IsNaN(a) {
			if l.Mass == 0 && l.Half == 0 {
				continue
			}
			return MissingError{Measure: d.Measure.Name, IDs: []string{l.ID}}
		}
		own, x, y := d.own(l, a)
		d.square += own*own + x*x + y*y
		if k := d.kind(l); k >= 0 {
			d.leans[k] += l.Mass.Kilograms() * a
		}
	}
	return nil
}

// all returns the loads, in order.
func (d *Doubt) all() []Load {
	if len(d.parts) == 1 {
		return d.parts[0]
	}
	return slices.Concat(d.parts...)
}

// own returns what the errors of one load do to the measure, as half-widths in kg.
func (d *Doubt) own(l *Load, a float64) (mass, x, y float64) {
	per := &d.Measure.per[l.On]
	mass = l.Half.Kilograms() * a
	if l.HalfX != 0 && per.x != 0 {
		x = l.Mass.Kilograms() * per.x * l.HalfX.Metres()
	}
	if l.HalfY != 0 && per.y != 0 {
		y = l.Mass.Kilograms() * per.y * l.HalfY.Metres()
	}
	return mass, x, y
}

func (d *Doubt) kind(l *Load) int {
	if l.Kind == "" {
		return -1
	}
	for k := range d.shared {
		if d.shared[k].Kind == l.Kind {
			return k
		}
	}
	return -1
}

func checkShared(shared []Shared) error {
	for i, s := range shared {
		if r := s.Rel.Share(); !(r >= 0 && r <= 1) {
			return RangeError{Name: "shared error", ID: s.Kind, Got: r, Want: "0 to 1"}
		}
		if slices.ContainsFunc(shared[:i], func(o Shared) bool { return o.Kind == s.Kind }) {
			return DuplicateError{Name: "kind of evidence", ID: s.Kind}
		}
	}
	return nil
}

// Cause tells what a part of a doubt comes from.
type Cause uint8

// The causes.
const (
	OwnMass     Cause = iota // the mass of one load
	OwnPlace                 // the place of one load
	SharedError              // all masses of one kind of evidence
)

// Part is one contribution to a doubt.
type Part struct {
	Cause Cause
	ID    string // of the load or the kind of evidence
	Name  string
	Ref   string
	Half  unit.Mass  // what it alone would leave
	Share unit.Ratio // of the squared half-width
}

// Parts returns the contributions, largest first.
func (d Doubt) Parts() []Part {
	var parts []Part
	add := func(c Cause, id, name, ref string, h float64) {
		if h != 0 {
			parts = append(parts, Part{c, id, name, ref, unit.Kilogram.Times(math.Abs(h)), unit.Ratio(h * h / d.square)})
		}
	}
	loads := d.all()
	for i := range loads {
		l := &loads[i]
		own, x, y := d.own(l, d.lever(l))
		add(OwnMass, l.ID, l.label(), l.Ref, own)
		add(OwnPlace, l.ID, l.label(), l.Ref, math.Hypot(x, y))
	}
	for k, s := range d.shared {
		add(SharedError, s.Kind, s.Kind, "", s.Rel.Share()*d.leans[k])
	}
	slices.SortStableFunc(parts, func(a, b Part) int { return falling(a.Share, b.Share) })
	return parts
}

// lever is that of the measure, nought for a load without mass and place.
func (d *Doubt) lever(l *Load) float64 {
	a := d.Measure.lever(l)
	if math.IsNaN(a) {
		return 0
	}
	return a
}

// Relief tells how much of the doubt would go if one group were weighed and its place taped.
type Relief struct {
	Group string
	Share unit.Ratio // of the squared half-width
	Half  unit.Mass  // Sum afterwards
}

// Relief ranks the groups by what measuring one of them would take off the doubt. Loads without a
// group count by themselves. A weighed group leaves the shared errors of its kinds too.
func (d Doubt) Relief() []Relief {
	type account struct {
		name  string
		own   float64
		leans []float64
	}
	var groups []*account
	index := map[string]*account{}
	loads := d.all()
	for i := range loads {
		l := &loads[i]
		name := l.Group
		if name == "" {
			name = l.ID
		}
		g := index[name]
		if g == nil {
			g = &account{name: name, leans: make([]float64, len(d.shared))}
			index[name] = g
			groups = append(groups, g)
		}
		a := d.lever(l)
		own, x, y := d.own(l, a)
		g.own += own*own + x*x + y*y
		if k := d.kind(l); k >= 0 {
			g.leans[k] += l.Mass.Kilograms() * a
		}
	}
	var out []Relief
	for _, g := range groups {
		gone := g.own
		for k, s := range d.shared {
			whole, rest := s.Rel.Share()*d.leans[k], s.Rel.Share()*(d.leans[k]-g.leans[k])
			gone += whole*whole - rest*rest
		}
		if gone > 0 {
			out = append(out, Relief{g.name, unit.Ratio(gone / d.square), unit.Kilogram.Times(math.Sqrt(max(d.square-gone, 0)))})
		}
	}
	slices.SortStableFunc(out, func(a, b Relief) int {
		if c := falling(a.Share, b.Share); c != 0 {
			return c
		}
		return strings.Compare(a.Group, b.Group)
	})
	return out
}

// Probability returns how likely a margin is not below 0 when it is known to a 95 % half-width,
// taking the error as normal. It is for the calc slip, never a verdict. It needs a half-width above 0.
func Probability(margin, half unit.Mass) unit.Opt[unit.Ratio] {
	m, h := margin.Kilograms(), half.Kilograms()
	if !(h > 0 && finite(h) && finite(m)) {
		return unit.Opt[unit.Ratio]{}
	}
	return unit.Some(unit.Ratio(0.5 * math.Erfc(-m/h*z95/math.Sqrt2)))
}

func falling[T ~float64 | ~int64](a, b T) int {
	switch {
	case a > b:
		return -1
	case a < b:
		return 1
	}
	return 0
}
