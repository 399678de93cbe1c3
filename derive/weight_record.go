package derive

import (
	"math"

	"berthwright/axle"
	"berthwright/doc"
	"berthwright/unit"
)

// weighed reads the record: the last weighing of the finished van leads; one of the empty van stands beside its papers.
func (m *maker) weighed(rec *doc.Record) {
	for i := range rec.Weighings {
		switch z := &rec.Weighings[i]; z.Stage {
		case "finished":
			if f := m.finished(z); f.Front.Known() && f.Rear.Known() {
				m.w.Finished = f
			}
		case "empty":
			m.declared(z)
		}
	}
	if f := m.w.Finished; f != nil {
		m.came(f)
	}
}

// finished reads axles from the ticket: as read, from the total, or from the corners.
func (m *maker) finished(z *doc.Weighing) *Finished {
	f := &Finished{Weighing: *z, Path: "weighings/" + z.ID}
	division := z.Division.Else(10 * unit.Kilogram)
	read := func(o doc.Opt[unit.MassEst], key string) (Val[unit.Mass], unit.Mass) {
		x, ok := o.Get()
		if !ok {
			return Val[unit.Mass]{Path: f.Path + "/" + key}, 0
		}
		return given(x.Value, f.Path+"/"+key), x.Half().Else(division)
	}
	f.Front, f.FrontHalf = read(z.Front, "front")
	f.Rear, f.RearHalf = read(z.Rear, "rear")
	f.Left, _ = read(z.Left, "left")
	f.Right, _ = read(z.Right, "right")
	total, _ := read(z.Total, "total")
	f.Cornered = true
	for i, o := range [4]doc.Opt[unit.MassEst]{z.FrontLeft, z.FrontRight, z.RearLeft, z.RearRight} {
		x, ok := o.Get()
		f.Cornered = f.Cornered && ok
		if !x.Half().Given() {
			x.Spread = unit.Spread{Kind: unit.Absolute, Abs: division.Kilograms()}
		}
		f.Corners[i] = x
	}
	if f.Cornered {
		pair := func(a, b unit.MassEst, v *Val[unit.Mass], half *unit.Mass, from string) {
			if v.Known() {
				return
			}
			*v = derived(a.Value+b.Value, f.Path, from)
			*half = unit.Kilogram.Times(math.Hypot(a.Half().Else(0).Kilograms(), b.Half().Else(0).Kilograms()))
		}
		var side unit.Mass
		pair(f.Corners[0], f.Corners[1], &f.Front, &f.FrontHalf, "both front wheels")
		pair(f.Corners[2], f.Corners[3], &f.Rear, &f.RearHalf, "both rear wheels")
		pair(f.Corners[0], f.Corners[2], &f.Left, &side, "both left wheels")
		pair(f.Corners[1], f.Corners[3], &f.Right, &side, "both right wheels")
	}
	switch {
	case total.Known() && f.Front.Known() && !f.Rear.Known():
		f.Rear, f.RearHalf = derived(total.V-f.Front.V, f.Path, "total less front as read"), f.FrontHalf
	case total.Known() && f.Rear.Known() && !f.Front.Known():
		f.Front, f.FrontHalf = derived(total.V-f.Rear.V, f.Path, "total less rear as read"), f.RearHalf
	}
	return f
}

// came finds what was aboard of the finished van and has to come off. A level that is not written is empty, but nobody
// drains a fuel tank: that one is missing.
func (m *maker) came(f *Finished) {
	z := &f.Weighing
	levels := map[string]doc.Opt[unit.Ratio]{}
	for _, l := range z.Fills {
		levels[l.Tank] = l.Level
	}
	for i := range m.w.Tanks {
		t := &m.w.Tanks[i]
		level, ok := levels[t.ID].Get()
		if !ok && t.For == "fuel" {
			m.w.Lacks = append(m.w.Lacks, Lack{What: "level of " + t.Name + " when the finished van was weighed", Path: f.Path + "/fills", Takes: true})
		}
		if off := level.Of(t.Full.V); off > 0 {
			f.Off = append(f.Off, axle.Load{ID: "weighed-" + t.ID, Name: "contents of " + t.Name + " when weighed", Ref: t.Path, Mass: -off, Half: off.Times(0.03), At: t.At})
		}
	}
	d, ok := z.Driver.Get()
	if !ok {
		m.assume("nobody aboard when the finished van was weighed", "not written on the ticket", f.Path+"/driver")
	}
	for _, s := range m.w.Seats {
		if s.Driver && d > 0 {
			f.Off = append(f.Off, axle.Load{ID: "weighed-driver", Name: "driver aboard when weighed", Ref: s.Path, Mass: -d, Half: unit.Kilogram, At: s.At})
		}
	}
}

// declared sets a weighing of the empty van beside its papers.
func (m *maker) declared(z *doc.Weighing) {
	t := &m.w.Ticket
	if t.From != "papers" || t.How() == Missing || t.How() == Assumed {
		return
	}
	f := m.finished(z)
	if !f.Front.Known() || !f.Rear.Known() {
		return
	}
	m.came(f)
	d := &Declared{Papers: t.Front.V + t.Rear.V - t.Fuel.V - t.Driver.V, Weighed: f.Front.V + f.Rear.V, Path: f.Path,
		Half: unit.Kilogram.Times(math.Hypot(f.FrontHalf.Kilograms(), f.RearHalf.Kilograms()))}
	for i := range f.Off {
		d.Weighed += f.Off[i].Mass
	}
	for i := range m.w.Tanks {
		if m.w.Tanks[i].For == "fuel" {
			d.Fuel = m.w.Tanks[i].Full.V.Times(0.9)
		}
	}
	m.w.Declared = d
	m.assume("empty mass of the papers %s, weighed %s",
		"the sum still starts from the papers: write the weighing into the van", "van/empty", d.Papers, d.Weighed)
}
