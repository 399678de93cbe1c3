package check

import (
	"berthwright/calc"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/geom"
	"berthwright/unit"
)

// walkLow and walkHigh bound the band of heights above the finished floor in which something is in a walker's way.
const (
	walkLow  = 100 * unit.Millimetre
	walkHigh = 1400 * unit.Millimetre
)

// runExits looks for a way out at night from each berth: through a door that opens from the inside, over the floor between what stands
// there at night; a rear bed counts the rear doors as its own only where they open from the inside.
func runExits(f *Fit) []Finding {
	st := f.state(derive.Night)
	var out []Finding
	want := unit.Opt[unit.Length]{}
	row := f.Pack.Stricter("living-door", "width")
	if row.Known {
		want = unit.Some(unit.MetresLength(row.Value.SI))
	}
	for i := range f.In.Berths {
		b := &f.In.Berths[i]
		x := Finding{Check: "fit-exit", Title: "Way out: " + b.Name, State: string(derive.Night), Case: "exits", Subject: b.ID, Rule: "way-out", Level: calc.Seen,
			Subjects: []Subject{{Path: b.Path, Name: b.Name}}, Caution: "try each way out in the dark, with the beds made and the garage loaded"}
		if row.Known {
			x.Level, x.Sources = row.Rule.Level, []calc.Cite{row.Rule.Cite, byGeometry}
		}
		if !b.Placed || st == nil || !f.In.Van.Bulkhead.Known() || !f.In.Van.RearDoor.Known() {
			x.Missing = []Subject{{Path: b.Path, Name: "the floor, or the place of " + b.Name}}
			x.Says = say("exit-unknown", b.Name, missingWords(x.Missing))
			out = append(out, x)
			continue
		}
		out = append(out, f.exit(x, b, st, want))
	}
	return out
}

// exit judges the best way out of one berth.
func (f *Fit) exit(x Finding, b *derive.FitBerth, st *derive.FitState, want unit.Opt[unit.Length]) Finding {
	best, name, locked := unit.Length(-1), "", ""
	for i := range f.In.Doors {
		d := &f.In.Doors[i].Opening
		if d.Kind != "sliding-door" && d.Kind != "rear-doors" && d.Kind != "tailgate" && d.Kind != "cab" {
			continue
		}
		if len(b.Berth.Out) > 0 && !contains(b.Berth.Out, d.ID) {
			continue
		}
		inside, said := d.Inside.Get()
		if d.Kind == "cab" {
			inside, said = true, true
		}
		if !said {
			x.Missing = append(x.Missing, Subject{Path: f.In.Doors[i].Path + "/opens-inside", Name: "whether the " + doorWords[d.Kind] + " open from the inside"})
			continue
		}
		if !inside {
			locked = "the " + doorWords[d.Kind] + " cannot be opened from the inside"
			continue
		}
		if wide := f.wayFrom(b, st, d); wide > best {
			best, name = wide, "the "+doorWords[d.Kind]
		}
		if w, asked := want.Get(); asked && best > w+geom.WayError {
			break // wide enough: no need to look at the other doors
		}
	}
	switch {
	case best < 0 && len(x.Missing) > 0:
		x.Says = say("exit-unknown", b.Name, missingWords(x.Missing))
	case best <= 0:
		x.Verdict = DoesNotHold
		x.Missing = nil
		if locked == "" {
			locked = "every door is blocked by what stands there at night"
		}
		x.Says = say("exit-none", b.Name, locked)
		x.Advice = "give the door an inside handle, or clear the way to another"
	default:
		x.Missing = nil
		x.Value = unit.Some(mm(best))
		w, asked := want.Get()
		if !asked {
			w = 300 * unit.Millimetre
		}
		half := geom.WayError
		x.Limit, x.Margin, x.Half = unit.Some(mm(w)), unit.Some(mm(best-w)), unit.Some(mm(half))
		x.Verdict = Judge((best - w).Millimetres(), half.Millimetres())
		x.Says = say("exit-holds", b.Name, name, mm(best))
		if x.Verdict == DoesNotHold {
			x.Says = say("exit-narrow", b.Name, name, mm(best), mm(w))
		}
		if row := f.Pack.Stricter("living-door", "width"); row.Known && !row.Rule.MayHold() && x.Verdict != DoesNotHold {
			x.Verdict = Unknown
		}
	}
	return x
}

var doorWords = map[string]string{"sliding-door": "sliding door", "rear-doors": "rear doors", "tailgate": "tailgate", "cab": "cab doors"}

func contains(all []string, s string) bool {
	for _, t := range all {
		if t == s {
			return true
		}
	}
	return false
}

// reach is how far the floor is taken to run on through an open door, so that the doorway itself is measured.
const reach = 600 * unit.Millimetre

// floorThrough is the living floor in plan, from the cab seats to the rear door line, running out through one door; to is a place outside it.
func (f *Fit) floorThrough(d *doc.Opening) (floor geom.Outline, to geom.Vec2, ok bool) {
	v := f.In.Van
	if !v.Bulkhead.Known() || !v.RearDoor.Known() || !v.Left.Known() || !v.Right.Known() {
		return floor, to, false
	}
	x0, x1, y0, y1 := v.Bulkhead.V-900*unit.Millimetre, v.RearDoor.V, v.Left.V, v.Right.V
	at := func(x, y unit.Length) geom.Vec2 { return geom.Vec2{X: x, Y: y} }
	from, okF := d.From.Get()
	end, okT := d.To.Get()
	var c []geom.Vec2
	switch d.Kind {
	case "rear-doors", "tailgate":
		if !okF || !okT {
			from, end = y0, y1
		}
		from, end = max(from, y0), min(end, y1)
		c = []geom.Vec2{at(x0, y0), at(x1, y0), at(x1, from), at(x1+reach, from), at(x1+reach, end), at(x1, end), at(x1, y1), at(x0, y1)}
		to = at(x1+reach.Half(), from+(end-from).Half())
	case "cab":
		c = []geom.Vec2{at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}
		to = at(x0+reach.Half(), 0)
	default:
		if !okF || !okT {
			return floor, to, false
		}
		mid := from + (end - from).Half()
		if d.Side == "right" {
			c = []geom.Vec2{at(x0, y0), at(x1, y0), at(x1, y1), at(end, y1), at(end, y1+reach), at(from, y1+reach), at(from, y1), at(x0, y1)}
			to = at(mid, y1+reach.Half())
		} else {
			c = []geom.Vec2{at(x0, y0), at(from, y0), at(from, y0-reach), at(end, y0-reach), at(end, y0), at(x1, y0), at(x1, y1), at(x0, y1)}
			to = at(mid, y0-reach.Half())
		}
	}
	o, err := geom.NewOutline(compact(c))
	return o, to, err == nil
}

// compact drops corners that stand on the one before.
func compact(c []geom.Vec2) []geom.Vec2 {
	out := c[:0]
	for i, p := range c {
		if i == 0 || p != out[len(out)-1] {
			out = append(out, p)
		}
	}
	return out
}

// inTheWay lists what stands on the floor at night. What lies mostly within the bed's own outline belongs to the bed; soft
// things are climbed over.
func (f *Fit) inTheWay(st *derive.FitState, b *derive.FitBerth) []geom.Solid {
	var out []geom.Solid
	for i := range st.Bodies {
		k := &st.Bodies[i]
		if k.ID == b.ID || k.Soft || k.Outside || k.Wall || k.Shape || within(k.Box, b.Box) {
			continue
		}
		out = append(out, k.Solid)
	}
	return append(out, f.wheels...)
}

// within tells whether most of one box lies over another in plan.
func within(a, b geom.Box3) bool {
	x := min(a.Max.X, b.Max.X) - max(a.Min.X, b.Min.X)
	y := min(a.Max.Y, b.Max.Y) - max(a.Min.Y, b.Min.Y)
	if x <= 0 || y <= 0 {
		return false
	}
	return x.Metres()*y.Metres() > 0.8*(a.Max.X-a.Min.X).Metres()*(a.Max.Y-a.Min.Y).Metres()
}

// inset is how far within the edge of a bed its sleeper sits up.
const inset = 250 * unit.Millimetre

// wayFrom returns the width of the widest way from a berth through a door; 0 where none leads there.
func (f *Fit) wayFrom(b *derive.FitBerth, st *derive.FitState, d *doc.Opening) unit.Length {
	floor, to, ok := f.floorThrough(d)
	if !ok {
		return 0
	}
	mid := geom.Vec2{X: b.Box.Min.X + (b.Box.Max.X - b.Box.Min.X).Half(), Y: b.Box.Min.Y + (b.Box.Max.Y - b.Box.Min.Y).Half()}
	from := mid
	switch {
	case to.X < b.Box.Min.X:
		from.X = min(b.Box.Min.X+inset, mid.X)
	case to.X > b.Box.Max.X:
		from.X = max(b.Box.Max.X-inset, mid.X)
	case to.Y < b.Box.Min.Y:
		from.Y = min(b.Box.Min.Y+inset, mid.Y)
	case to.Y > b.Box.Max.Y:
		from.Y = max(b.Box.Max.Y-inset, mid.Y)
	}
	fin := f.In.Van.Finished.V
	w, err := geom.WidestWay(floor, f.inTheWay(st, b), fin+walkLow, fin+walkHigh, from, to)
	if err != nil {
		return 0
	}
	return w.Width
}
