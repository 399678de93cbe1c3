package check

import (
	"slices"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/geom"
	"berthwright/unit"
)

// slidingWay is the room a sliding door runs in: beside the van, from its opening back by its own width, as far out as it stands off.
type slidingWay struct {
	door    *derive.FitDoor
	solid   geom.Solid
	missing []Subject
}

func (f *Fit) slidingWay(d *derive.FitDoor) slidingWay {
	w := slidingWay{door: d}
	o := &d.Opening
	half := f.In.Van.Width
	for _, need := range []struct {
		have      doc.Opt[unit.Length]
		key, name string
	}{{o.From, "from", "front edge"}, {o.To, "to", "rear edge"}, {o.Low, "low", "lower edge"}, {o.High, "high", "upper edge"}, {o.Track, "track", "stand-off"}} {
		if !need.have.Given() {
			w.missing = append(w.missing, Subject{Path: d.Path + "/" + need.key, Name: need.name + " of the sliding door"})
		}
	}
	if !half.Known() {
		w.missing = append(w.missing, Subject{Path: "van/width", Name: "overall width"})
	}
	if len(w.missing) > 0 {
		return w
	}
	from, to := o.From.Else(0), o.To.Else(0)
	skin := half.V.Half()
	b := geom.Box3{Min: geom.Vec3{X: from, Y: skin, Z: o.Low.Else(0)}, Max: geom.Vec3{X: to + (to - from), Y: skin + o.Track.Else(0), Z: o.High.Else(0)}}
	if o.Side != "right" {
		b.Min.Y, b.Max.Y = -skin-o.Track.Else(0), -skin
	}
	s, err := geom.BoxSolid(b)
	if err != nil {
		w.missing = append(w.missing, Subject{Path: d.Path, Name: "the extent of the sliding door (" + err.Error() + ")"})
	}
	w.solid = s
	return w
}

// runDoors sends each sliding door along the outside of the van in camp and at night, past awning, step and table, past windows that open
// outwards, and over what is got at from outside.
func runDoors(f *Fit) []Finding {
	var out []Finding
	for i := range f.In.Doors {
		if f.In.Doors[i].Opening.Kind != "sliding-door" {
			continue
		}
		d := &f.In.Doors[i]
		w := f.slidingWay(d)
		base := Finding{State: string(derive.Camp), Case: "doors", Subject: d.Opening.ID, Rule: "door-way", Level: calc.Seen, Subjects: []Subject{{Path: d.Path, Name: "the sliding door"}}}
		near := f.beside(d)
		if len(near) == 0 {
			continue
		}
		if len(w.missing) > 0 {
			base.Missing = w.missing
			base.Says = say("slides-unknown", missingWords(w.missing))
			out = append(out, base)
			continue
		}
		hits := f.slidingHits(base, w)
		out = append(out, hits...)
		if !slices.ContainsFunc(hits, func(x Finding) bool { return !x.Advisory }) {
			base.Verdict = Holds
			base.Says = say("slides-hold", plain(len(near)))
			if d.Opening.Known == "class" || d.Opening.Known == "" {
				base.Verdict = Unknown
				base.Missing = []Subject{{Path: d.Path, Name: "the measured edges of the sliding door; those of the class are assumed"}}
			}
			out = append(out, base)
		}
	}
	return out
}

// beside names what stands outside on the side of a sliding door in camp or at night.
func (f *Fit) beside(d *derive.FitDoor) []string {
	var out []string
	for _, s := range [2]derive.State{derive.Camp, derive.Night} {
		st := f.state(s)
		for i := range st.Bodies {
			if b := &st.Bodies[i]; f.outsideOf(d, b) && !slices.Contains(out, b.ID) {
				out = append(out, b.ID)
			}
		}
	}
	return out
}

// outsideOf tells whether a body reaches beyond the skin on the side of a door; what sits in a hole of the skin does not count.
func (f *Fit) outsideOf(d *derive.FitDoor, b *derive.Body) bool {
	if !f.In.Van.Width.Known() || b.Wall || b.On == "roof" || b.On == "rear" {
		return false
	}
	skin := f.In.Van.Width.V.Half()
	if d.Opening.Side == "right" {
		return b.Box.Max.Y > skin
	}
	return b.Box.Min.Y < -skin
}

func (f *Fit) slidingHits(base Finding, w slidingWay) []Finding {
	var out []Finding
	told := map[string]bool{}
	box := w.solid.Bounds()
	tell := func(st *derive.FitState, key string, by Subject, c geom.Clash, says Message, advisory bool) {
		if told[key] || c.Depth <= fitSlack {
			return
		}
		told[key] = true
		x := base
		x.State, x.Subject, x.Verdict, x.Advisory = string(st.State), w.door.Opening.ID+"+"+key, DoesNotHold, advisory
		x.Value, x.Limit, x.Margin = unit.Some(mm(c.Depth)), unit.Some(mm(0)), unit.Some(mm(-c.Depth))
		x.Subjects, x.Says = []Subject{base.Subjects[0], by}, says
		x.Advice = "move " + by.Name + " " + vectorWords(c.Move)
		if advisory {
			x.Advice = "one at a time"
		}
		a := derive.Body{Name: "the sliding door", Path: w.door.Path, Box: box, Solid: w.solid}
		f.show(&x, func(s *Slip) { doorSlip(s, &a, by, c) })
		out = append(out, x)
	}
	for _, state := range [2]derive.State{derive.Camp, derive.Night} {
		st := f.state(state)
		for i := range st.Bodies {
			b := &st.Bodies[i]
			if !b.Box.Overlaps(box) || b.Wall || b.Shape {
				continue
			}
			if c, ok := b.Solid.Clash(w.solid); ok {
				tell(st, b.ID, bodySubject(b), c, say("slides-into", b.Name, mm(c.Depth)), false)
			}
		}
		for k := range st.Sweeps {
			s := &st.Sweeps[k]
			own := st.Body(s.Item)
			if own == nil || !s.Known || !own.Wall && !own.Outside || own.Box.Min.X < w.door.Opening.To.Else(0) && own.Box.Max.X > w.door.Opening.From.Else(0) {
				continue // what sits in the door goes with it
			}
			if _, ok := s.Sweep.Meets(w.solid); ok {
				open, err := s.Sweep.At(1)
				if err != nil {
					continue
				}
				if k, hit := open.Clash(w.solid); hit {
					tell(st, own.ID, bodySubject(own), k, say("slides-window", own.Name), true)
				}
			}
		}
		for _, sp := range st.Spaces {
			if own := st.Body(sp.Item); own == nil || !own.Wall && !own.Outside || !sp.Box.Overlaps(box) {
				continue
			}
			if c, ok := sp.Solid.Clash(w.solid); ok {
				tell(st, sp.Item+"."+sp.Space.ID, Subject{Path: "items/" + sp.Item, Name: f.In.Names[sp.Item]}, c, say("slides-over", f.In.Names[sp.Item]), true)
			}
		}
	}
	return out
}

// doorSlip shows where a sliding door's room and another thing overlap.
func doorSlip(s *Slip, door *derive.Body, by Subject, c geom.Clash) {
	s.Title = "The sliding door and " + by.Name
	size := c.At.Size()
	p := door.Box
	s.Workings = append(s.Workings, calc.Working{ID: "fit.door", Title: s.Title, Steps: []calc.Step{
		known("y_0", "outer skin, or where the door stands off to, right of the centre line", p.Min.Y, door.Path), known("y_1", "the other of the two", p.Max.Y, door.Path),
		known("z_0", "lower edge of the door", p.Min.Z, door.Path), known("z_1", "upper edge of the door", p.Max.Z, door.Path),
		known("u_0", "underside of the overlap", c.At.Min.Z, by.Path), known("u_1", "top of the overlap", c.At.Max.Z, by.Path),
		follows("o", "overlap in height", "min(z_1, u_1) - max(z_0, u_0)", size.Z),
		known("d", "shortest move of it that clears", c.Depth, by.Path),
	}, Notes: []string{"The door runs back by its own width, as far out as its track holds it off the side. The move that clears is " + vectorWords(c.Move) + "."}})
}

// behindDeep is how far in from the lining something is in the way of a window, a roof light or a vent (common practice, no source).
const behindDeep = 60 * unit.Millimetre

// runBehind tells what stands behind windows, roof lights and vents inside.
func runBehind(f *Fit) []Finding {
	v := f.In.Van
	if !v.Left.Known() || !v.Right.Known() || !v.Ceiling.Known() {
		return nil
	}
	var out []Finding
	st := f.state(derive.Camp)
	for i := range f.In.Holes {
		h := &f.In.Holes[i]
		if !h.Known || h.Hole.Opens == "" { // fillers, flues and flaps have something behind them on purpose
			continue
		}
		var b geom.Box3
		switch h.Hole.Face {
		case "left":
			b = geom.Box3{Min: geom.Vec3{X: h.From.X, Y: v.Left.V, Z: h.From.Y}, Max: geom.Vec3{X: h.To.X, Y: v.Left.V + behindDeep, Z: h.To.Y}}
		case "right":
			b = geom.Box3{Min: geom.Vec3{X: h.From.X, Y: v.Right.V - behindDeep, Z: h.From.Y}, Max: geom.Vec3{X: h.To.X, Y: v.Right.V, Z: h.To.Y}}
		case "roof":
			b = geom.Box3{Min: geom.Vec3{X: h.From.X, Y: h.From.Y, Z: v.Ceiling.V - behindDeep}, Max: geom.Vec3{X: h.To.X, Y: h.To.Y, Z: v.Ceiling.V}}
		default:
			continue
		}
		own := st.Body(h.ID)
		for k := range st.Bodies {
			o := &st.Bodies[k]
			if o.ID == h.ID || o.Group == "washroom" && o.Box.Size().Z > 1500*unit.Millimetre { // a room, not a thing in the way
				continue
			}
			if o.Soft || o.Wall || o.Shape || o.Outside || !o.Box.Overlaps(b) || own != nil && related(own, o) {
				continue
			}
			over := o.Box.Gap(b)
			share := min(-over.X, b.Size().X).Metres() * min(-over.Z, b.Size().Z).Metres() / (b.Size().X.Metres() * b.Size().Z.Metres())
			if h.Hole.Face == "roof" {
				share = min(-over.X, b.Size().X).Metres() * min(-over.Y, b.Size().Y).Metres() / (b.Size().X.Metres() * b.Size().Y.Metres())
			}
			if share < 0.05 {
				continue
			}
			out = append(out, Finding{Check: "fit-behind", State: string(st.State), Case: "holes", Subject: h.ID + "+" + o.ID, Rule: "behind", Advisory: true, Verdict: DoesNotHold, Level: calc.Unsourced,
				Value: unit.Some(Figure{Kind: unit.KindRatio, SI: share}), Subjects: []Subject{{Path: h.Path, Name: h.Name, At: [3]unit.Opt[unit.Length]{unit.Some(h.At.X), unit.Some(h.At.Y), unit.Some(h.At.Z)}}, bodySubject(o)},
				Says: say("behind", o.Name, h.Name, Figure{Kind: unit.KindRatio, SI: share}), Advice: "can it be opened, cleaned and shaded where that stands?"})
		}
	}
	return out
}
