package check

import (
	"berthwright/axle"
	"berthwright/derive"
	"berthwright/unit"
)

// Wheel is the load on one wheel: between two ends, for how the side moment is shared between the axles is not known.
type Wheel struct {
	Name      string
	Low, High unit.Mass
}

// Wheels returns the four wheels of a split and what they rest on; ok is false while an axle, a side or a track is
// unknown. Where the finished van was weighed at its corners, only what was added since is a band.
func (w *Weight) Wheels(s axle.Split) (wheels [4]Wheel, basis string, ok bool) {
	if !w.Known {
		return wheels, "", false
	}
	basis = "the front axle takes 35 % to 65 % of the side moment; common practice, no source"
	x, ok := s.Wheels()
	if c, base, four := w.cornered(); four {
		basis = "four corners as weighed; of what was added the front axle takes 35 % to 65 % of the side moment"
		x, ok = s.WheelsFrom(c, base)
	}
	for i, b := range [4]axle.Band{x.FrontLeft, x.FrontRight, x.RearLeft, x.RearRight} {
		wheels[i] = Wheel{[4]string{"front left", "front right", "rear left", "rear right"}[i], b.Low, b.High}
	}
	return wheels, basis, ok
}

// PlateRow is one plated set with what it leaves in the worst case of the plan.
type PlateRow struct {
	Name, Basis, Paper string
	InUse              bool
	Total, Front, Rear unit.Opt[unit.Mass] // in hand; absent where the plate or the load is not known
	Verdict            Verdict
}

// Plates returns every plated set of the van under the same plan: the plate as it is, then the alternatives. An uprated
// set is a question to the authority, never an answer: its row says what it would leave.
func (w *Weight) Plates() []PlateRow {
	v := &w.In.Van
	rows := []PlateRow{w.plateRow("as it is", &v.AsIs)}
	for i := range v.Alternates {
		p := &v.Alternates[i]
		rows = append(rows, w.plateRow(p.ID, p))
	}
	return rows
}

func (w *Weight) plateRow(name string, p *derive.Plate) PlateRow {
	r := PlateRow{Name: name, Basis: p.Basis, Paper: p.Paper, InUse: p.Path == w.In.Van.Plate.Path, Verdict: Holds}
	margins := [...]*unit.Opt[unit.Mass]{&r.Total, &r.Front, &r.Rear}
	for i, plate := range [...]derive.Val[unit.Mass]{p.Total, p.Front, p.Rear} {
		if i >= len(w.limits) || w.limits[i].judged < 0 || !plate.Known() {
			r.Verdict = worst(r.Verdict, Unknown)
			continue
		}
		l := &w.limits[i]
		left := plate.V - w.Cases[l.judged].Worst.Value
		*margins[i] = unit.Some(left)
		v := Judge(left.Kilograms(), w.Doubts[l.id].Half.Kilograms())
		if len(w.openLoads(nil, l.id == "total")) > 0 && !(v == DoesNotHold && w.grows(l.measure)) {
			v = Unknown
		}
		r.Verdict = worst(r.Verdict, v)
	}
	return r
}

// worst returns the verdict that stands first in a report.
func worst(a, b Verdict) Verdict {
	if b.rank() < a.rank() {
		return b
	}
	return a
}
