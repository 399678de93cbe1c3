package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/geom"
	"berthwright/unit"
)

var underWords = map[string]string{"exhaust": "exhaust", "fuel-tank": "fuel tank", "prop-shaft": "propeller shaft", "spare-winch": "spare wheel winch", "jacking-point": "jacking point", "towing-eye": "towing eye", "filler-flap": "filler flap", "brake-line": "brake line", "spring": "spring", "other": "part of the base van"}

// runUnder finds what hangs under the floor, on the sides and behind against what must stay free there, and against the wheels; then
// what it leaves of ground clearance and angles.
func runUnder(f *Fit) []Finding {
	var hung, slung []*derive.Body
	st := f.state(derive.Travel)
	for i := range st.Bodies {
		b := &st.Bodies[i]
		if !b.Outside || b.On == "roof" || b.Wall {
			continue
		}
		hung = append(hung, b)
		if b.Box.Max.Z <= 50*unit.Millimetre {
			slung = append(slung, b)
		}
	}
	var out []Finding
	switch {
	case len(slung) > 0 && len(f.In.Under) == 0:
		out = append(out, Finding{State: string(derive.Travel), Case: "under", Rule: "under-floor", Missing: []Subject{{Path: "van/shell/under", Name: "what is under the floor: exhaust, fuel tank, winch, jacking points"}},
			Says: say("under-unknown", slung[0].Name), Advice: "measure them on this van, or enter them from the base maker's instruction", Caution: "nothing is granted under a floor that nobody has looked at"})
	case len(hung) > 0 && len(f.In.Under) > 0:
		out = f.underParts(hung)
	}
	out = append(out, f.wheelTravel(slung)...)
	if len(slung) > 0 {
		out = append(out, f.ground(slung)...)
	}
	out = append(out, f.angles(hung)...)
	return append(out, f.rearLamps(st)...)
}

func (f *Fit) underParts(hung []*derive.Body) []Finding {
	var out, open []Finding
	for _, b := range hung {
		for i := range f.In.Under {
			u := &f.In.Under[i]
			if !u.Known || b.ID == u.Part.ID {
				continue
			}
			free := u.Part.Free.Else(0)
			box := u.Solid.Bounds()
			grown := geom.Box3{Min: box.Min.Minus(geom.Vec3{X: free, Y: free, Z: free}), Max: box.Max.Plus(geom.Vec3{X: free, Y: free, Z: free})}
			if !grown.Overlaps(b.Box) {
				continue
			}
			solid, err := geom.BoxSolid(grown)
			if err != nil {
				continue // cannot be: it holds a solid
			}
			c, ok := b.Solid.Clash(solid)
			if !ok || c.Depth <= fitSlack {
				continue
			}
			x := Finding{State: string(derive.Travel), Case: "under", Subject: b.ID + "+" + u.Part.ID, Rule: "under-floor", Verdict: DoesNotHold, Level: calc.Seen,
				Value: unit.Some(mm(free - min(c.Depth, free))), Limit: unit.Some(mm(free)), Margin: unit.Some(mm(-c.Depth)), Subjects: []Subject{bodySubject(b), {Path: u.Path, Name: u.Part.ID}},
				Says: say("under", b.Name, underWords[u.Part.Kind], mm(c.Depth))}
			if x.Moves = f.offer(f.state(derive.Travel), b, c.Move); len(x.Moves) > 0 {
				x.Advice = x.Moves[0].Text
			} else {
				x.Advice = "hang it elsewhere: " + vectorWords(c.Move) + " would clear it"
			}
			if u.Part.Hot.Else(false) {
				x.Caution = "keep slung tanks, gas and cables away from hot parts, as their makers ask"
			}
			part := derive.Body{ID: u.Part.ID, Name: "the room around the " + underWords[u.Part.Kind], Path: u.Path, Box: grown, Solid: solid}
			f.show(&x, func(s *Slip) { clashSlip(s, b, &part, c) })
			out = append(out, x)
		}
	}
	for i := range f.In.Under {
		if u := &f.In.Under[i]; !u.Known {
			open = append(open, Finding{State: string(derive.Travel), Case: "under", Subject: u.Part.ID, Rule: "under-floor", Missing: []Subject{{Path: u.Path, Name: "place and size of the " + underWords[u.Part.Kind]}}, Says: say("under-open", underWords[u.Part.Kind])})
		}
	}
	if len(out) == 0 && len(open) == 0 {
		out = append(out, Finding{State: string(derive.Travel), Case: "under", Rule: "under-floor", Verdict: Holds, Level: calc.Seen, Says: say("under-holds", plain(len(hung)), plain(len(f.In.Under))), Basis: "against the parts that are entered"})
	}
	return append(out, open...)
}

// A wheel is taken so wide, with so much room around it (common practice, no source); steering is not in it.
const (
	tyreWide = 240 * unit.Millimetre
	tyreRoom = 30 * unit.Millimetre
)

// wheelTravel looks whether a slung body reaches into the room of a wheel that has come up to its stop.
func (f *Fit) wheelTravel(slung []*derive.Body) []Finding {
	v := f.In.Van
	d, okD := f.In.Ground.Wheel.Get()
	up, okUp := f.In.Ground.Travel.Get()
	if len(slung) == 0 || !okD || !okUp || !v.FloorHigh.Known() || !v.Wheelbase.Known() {
		return nil
	}
	var out []Finding
	for _, axle := range []struct {
		name  string
		x     unit.Length
		track derive.Val[unit.Length]
	}{{"front", 0, v.TrackFront}, {"rear", v.Wheelbase.V, v.TrackRear}} {
		if !axle.track.Known() {
			continue
		}
		for _, side := range [2]string{"left", "right"} {
			mid, reach := axle.track.V.Half(), tyreWide.Half()+tyreRoom
			if side == "left" {
				mid = -mid
			}
			room := geom.Box3{Min: geom.Vec3{X: axle.x - d.Half() - tyreRoom, Y: mid - reach, Z: -v.FloorHigh.V}, Max: geom.Vec3{X: axle.x + d.Half() + tyreRoom, Y: mid + reach, Z: -v.FloorHigh.V + d + up}}
			for _, b := range slung {
				if !room.Overlaps(b.Box) {
					continue
				}
				solid, err := geom.BoxSolid(room)
				if err != nil {
					continue // a box with extent
				}
				c, ok := b.Solid.Clash(solid)
				if !ok || c.Depth <= fitSlack {
					continue
				}
				x := Finding{Check: "fit-wheel", Title: "Wheels", State: string(derive.Travel), Case: "under", Subject: b.ID + "+wheel-" + axle.name + "-" + side, Rule: "wheel-room", Verdict: DoesNotHold, Level: calc.Unsourced,
					Basis: fmt.Sprintf("a tyre %s wide with %s around it, up to the bump stop; common practice, no source", length(tyreWide), length(tyreRoom)),
					Value: unit.Some(mm(-c.Depth)), Limit: unit.Some(mm(0)), Margin: unit.Some(mm(-c.Depth)), Subjects: []Subject{bodySubject(b)},
					Says: say("wheel", b.Name, axle.name+" "+side+" wheel", mm(c.Depth)), Advice: f.moveAdvice(b, c.Move)}
				wheel := derive.Body{ID: "wheel", Name: "the room of the " + axle.name + " " + side + " wheel", Box: room, Solid: solid}
				f.show(&x, func(s *Slip) { clashSlip(s, b, &wheel, c) })
				out = append(out, x)
			}
		}
	}
	return out
}

// ground says how low the lowest slung item hangs; a figure, no limit.
func (f *Fit) ground(slung []*derive.Body) []Finding {
	if !f.In.Van.FloorHigh.Known() {
		return nil
	}
	lowest := slices.MinFunc(slung, func(a, b *derive.Body) int { return cmp.Compare(a.Box.Min.Z, b.Box.Min.Z) })
	floor := f.In.Van.FloorHigh
	clear := floor.V + lowest.Box.Min.Z
	x := Finding{Check: "fit-clearance", Title: "Ground clearance", State: string(derive.Travel), Case: "under", Advisory: true, Rule: "ground-clearance", Verdict: Holds, Level: calc.Unsourced,
		Value: unit.Some(mm(clear)), Subjects: []Subject{bodySubject(lowest)}, Says: say("ground", lowest.Name, mm(clear))}
	if g, ok := f.In.Ground.Clearance.Get(); ok {
		x.Limit, x.Margin = unit.Some(mm(g)), unit.Some(mm(clear-g))
		x.Says = say("ground-lower", lowest.Name, mm(clear), mm(g))
	}
	f.show(&x, func(s *Slip) {
		s.Title = "Ground clearance"
		s.Workings = append(s.Workings, calc.Working{ID: "fit.ground", Title: s.Title, Steps: []calc.Step{
			known("h", "bare floor above ground, unladen", floor.V, floor.Path), known("z", "underside of "+lowest.Name+" over the bare floor", lowest.Box.Min.Z, lowest.Path), follows("c", "clearance", "h + z", clear)}})
	})
	return one(x)
}

// angles says how far what is carried outside lowers the angles of approach and departure; figures, no limit. The van's own parts
// are not in them.
func (f *Fit) angles(hung []*derive.Body) []Finding {
	v := f.In.Van
	d, ok := f.In.Ground.Wheel.Get()
	if !ok || !v.FloorHigh.Known() || !v.Wheelbase.Known() {
		return nil
	}
	type end struct {
		check, title, word string
		out                func(b *derive.Body) unit.Length // beyond the axle
	}
	var found []Finding
	for _, e := range []end{
		{"fit-approach", "Angle of approach", "approach", func(b *derive.Body) unit.Length { return -b.Box.Min.X }},
		{"fit-departure", "Angle of departure", "departure", func(b *derive.Body) unit.Length { return b.Box.Max.X - v.Wheelbase.V }},
	} {
		least, by := math.Inf(1), (*derive.Body)(nil)
		for _, b := range hung {
			if out := e.out(b); out > d.Half() {
				if a := tangent(out, v.FloorHigh.V+b.Box.Min.Z, d.Half()); a < least && a < radians(anglesBelow) {
					least, by = a, b
				}
			}
		}
		if by == nil {
			continue
		}
		a := Figure{Kind: unit.KindAngle, SI: least}
		x := Finding{Check: e.check, Title: e.title, State: string(derive.Travel), Case: "under", Advisory: true, Rule: "ground-clearance", Verdict: Holds, Level: calc.Unsourced, Value: unit.Some(a),
			Subjects: []Subject{bodySubject(by)}, Says: say("angle", e.word, by.Name, a), Basis: "unladen; the van's own parts are not in it"}
		out, high, name := e.out(by), v.FloorHigh.V+by.Box.Min.Z, by.Name
		f.show(&x, func(s *Slip) {
			s.Title = e.title
			r := d.Half()
			sin := (math.Sin(least) * (out.Metres())) - (high-r).Metres()*math.Cos(least)
			s.Certificates = append(s.Certificates, calc.Certificate{ID: "fit.angle", Title: e.title, Method: "The line from the lowest point of what is carried, touching the tyre from below.",
				Inputs:   []calc.Step{known("x", name+" beyond the axle", out, by.Path), known("h", "its lowest point above ground", high, by.Path), known("r", "radius of the tyre", r, "van/ground/wheel")},
				Chosen:   []calc.Line{{Label: "angle to the ground", SI: least, Show: showDeg}},
				Balances: []calc.Balance{{Says: "the line passes the middle of the wheel at the tyre's radius", Left: sin, Right: r.Metres(), RightFormula: "r", Within: 1e-6, Show: showMM}}})
		})
		found = append(found, x)
	}
	return found
}

// anglesBelow is where an angle stops being of interest, in degrees (common practice, no source).
const anglesBelow = 40

// tangent returns the angle to the ground of the line from a point, so far beyond the axle and so high, that touches a wheel of
// that radius from below.
func tangent(out, high, radius unit.Length) float64 {
	x, y, r := out.Metres(), (high - radius).Metres(), radius.Metres()
	return math.Atan2(y, x) + math.Asin(math.Min(1, r/math.Hypot(x, y)))
}

// lampsHigh is up to where over the bare floor lamps and number plates of panel vans are found (common practice, no source).
const lampsHigh = 1200 * unit.Millimetre

// rearLamps tells what is carried behind the doors, which may hide lamps and number plate: one finding for all.
func (f *Fit) rearLamps(st *derive.FitState) []Finding {
	var on []Subject
	names := ""
	for i := range st.Bodies {
		if b := &st.Bodies[i]; b.On == "rear" && b.Box.Min.Z < lampsHigh && !b.Wall {
			on = append(on, bodySubject(b))
		}
	}
	if len(on) == 0 {
		return nil
	}
	names = some(on, func(s Subject) string { return s.Name })
	return one(Finding{Check: "fit-rear-lamps", Title: "Lamps and number plate", State: string(derive.Travel), Case: "rear", Subject: "all", Rule: "usual", Advisory: true, Level: calc.Unsourced, Subjects: on,
		Missing: []Subject{{Path: on[0].Path, Name: "whether lamps and number plate can be seen past it, loaded"}}, Says: say("rear-lamps", names), Advice: "look from behind with everything on; a lighting board with a number plate is carried where they are hidden"})
}

// runOverall says how long, wide and high the van is with everything on, by state; figures, no limit.
func runOverall(f *Fit) []Finding {
	v := f.In.Van
	if !v.Length.Known() || !v.Width.Known() || !v.Height.Known() || !v.FloorHigh.Known() || !v.Overhang.Known() {
		return nil
	}
	var out []Finding
	last := ""
	for si := range f.In.States {
		st := &f.In.States[si]
		ends := [5]unit.Length{-v.Overhang.V, v.Length.V - v.Overhang.V, -v.Width.V.Half(), v.Width.V.Half(), v.Height.V}
		var by [5]*derive.Body
		for i := range st.Bodies {
			b := &st.Bodies[i]
			for k, at := range [5]unit.Length{b.Box.Min.X, b.Box.Max.X, b.Box.Min.Y, b.Box.Max.Y, b.Box.Max.Z + v.FloorHigh.V} {
				if (k == 0 || k == 2) && at < ends[k] || k != 0 && k != 2 && at > ends[k] {
					ends[k], by[k] = at, b
				}
			}
		}
		var on []Subject
		for _, b := range by {
			if b != nil && !slices.ContainsFunc(on, func(s Subject) bool { return s.Path == b.Path }) {
				on = append(on, bodySubject(b))
			}
		}
		says := fmt.Sprintf("%s long, %s wide, %s high", length(ends[1]-ends[0]), length(ends[3]-ends[2]), length(ends[4]))
		if says == last {
			continue
		}
		last = says
		x := Finding{State: string(st.State), Case: "overall", Rule: "overall-size", Advisory: true, Verdict: Holds, Level: calc.Unsourced, Value: unit.Some(mm(ends[4])), Subjects: on,
			Says: say("overall", string(st.State), says), Caution: "height limits of car parks, ferries and tolls are for the van as loaded: measure it"}
		f.show(&x, func(s *Slip) { overallSlip(s, ends, by, v) })
		out = append(out, x)
	}
	return out
}

func overallSlip(s *Slip, ends [5]unit.Length, by [5]*derive.Body, v derive.Van) {
	s.Title = "Overall size"
	whose := func(k int, own string) (string, string) {
		if by[k] == nil {
			return own, "van"
		}
		return by[k].Name, by[k].Path
	}
	var steps []calc.Step
	for k, n := range [4]struct{ symbol, says, own string }{{"x_0", "front end: ", "the van"}, {"x_1", "rear end: ", "the van"}, {"y_0", "left end: ", "the van"}, {"y_1", "right end: ", "the van"}} {
		name, path := whose(k, n.own)
		steps = append(steps, known(n.symbol, n.says+name, ends[k], path))
	}
	if by[4] != nil {
		steps = append(steps, known("f", "bare floor above ground", v.FloorHigh.V, v.FloorHigh.Path), known("z", "top of "+by[4].Name+" over the bare floor", by[4].Box.Max.Z, by[4].Path), follows("H", "height", "f + z", ends[4]))
	} else {
		steps = append(steps, known("H", "height of the van as bought", ends[4], v.Height.Path))
	}
	steps = append(steps, follows("L", "length", "x_1 - x_0", ends[1]-ends[0]), follows("B", "width", "y_1 - y_0", ends[3]-ends[2]))
	s.Workings = append(s.Workings, calc.Working{ID: "fit.overall", Title: s.Title, Steps: steps})
}
