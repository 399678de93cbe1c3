package check

import (
	"errors"
	"math"
	"slices"
	"strings"

	"berthwright/calc"
	"berthwright/derive"
	"berthwright/geom"
	"berthwright/unit"
)

// What people usually ask of a place to sit, stand and lie (common practice, no source).
const (
	headRoom   = 990 * unit.Millimetre // over the seat reference point
	kneeRoom   = 650 * unit.Millimetre // ahead of it
	aisleWide  = 450 * unit.Millimetre // to walk through by day
	pillowDeep = 400 * unit.Millimetre // of the bed at its head
	pillowFree = 550 * unit.Millimetre // over it, to sit up on an elbow
	tableReach = 650 * unit.Millimetre // from the middle of a place to the edge of its table
	tableLow   = 230 * unit.Millimetre // of a table over the seat
	tableHigh  = 330 * unit.Millimetre //
	standSpare = 20 * unit.Millimetre  // over the tallest head
	standPlace = 0.3                   // m² of floor for one who stands
)

// advice makes a finding of common practice: said, never counted as failing.
func (f *Fit) advice(check, title string, state derive.State, of, subject string, have, want, margin unit.Length, says Message, subjects ...Subject) Finding {
	x := Finding{Check: check, Title: title, State: string(state), Case: of, Subject: subject, Rule: "usual", Advisory: true, Level: calc.Unsourced, Subjects: subjects,
		Value: unit.Some(mm(have)), Limit: unit.Some(mm(want)), Margin: unit.Some(mm(margin)), Basis: "common practice, no source", Says: says}
	x.Verdict = Judge(margin.Millimetres(), 0)
	f.show(&x, func(s *Slip) {
		s.Title = title
		formula := "L - L_0"
		if margin == want-have {
			formula = "L_0 - L"
		}
		if margin != have-want && margin != want-have {
			return
		}
		s.Workings = append(s.Workings, calc.Working{ID: "fit.usual", Title: title, Steps: []calc.Step{known("L", "as it stands", have, ""), usualStep("L_0", "usual", want), follows("d", "to spare", formula, margin)}})
	})
	return x
}

// runHeads looks at the room over the head and before the knees of each travelling seat whose reference point is known. Nothing here
// says that a seat is fit to travel in.
func runHeads(f *Fit) []Finding {
	var out []Finding
	st := f.state(derive.Travel)
	for i := range f.In.Seats {
		s := &f.In.Seats[i]
		x, okX := s.Seat.R.X.Get()
		y, okY := s.Seat.R.Y.Get()
		z, okZ := s.Seat.R.Z.Get()
		if !okX || !okY || !okZ || !s.Planned {
			continue
		}
		subject := Subject{Path: s.Path, Name: s.Name, At: [3]unit.Opt[unit.Length]{unit.Some(x), unit.Some(y), unit.Some(z)}}
		own := st.Body(s.ID)
		mine := func(b *derive.Body) bool { // the seat, and what it stands in or on
			return b.ID == s.ID || b.Soft || b.Shape || b.Outside || own != nil && related(own, b) || b.Box.Min.X <= x && x <= b.Box.Max.X && b.Box.Min.Y <= y && y <= b.Box.Max.Y && b.Box.Min.Z <= z+200*unit.Millimetre
		}
		if f.Shape {
			if over, err := f.in(derive.Travel).CeilingAt(geom.Vec2{X: x, Y: y}); err == nil { // in the cab nothing is measured
				by := "the ceiling"
				for k := range st.Bodies {
					b := &st.Bodies[k]
					if !mine(b) && !b.Wall && b.Box.Min.Z > z && b.Box.Min.Z < over && b.Box.Min.X < x && x < b.Box.Max.X && b.Box.Min.Y < y && y < b.Box.Max.Y {
						over, by = b.Box.Min.Z, b.Name
					}
				}
				if have := over - z; have < headRoom {
					out = append(out, f.advice("fit-head", "Head room", derive.Travel, "seats", s.ID, have, headRoom, have-headRoom, say("head-room", s.Name, mm(have), by, mm(headRoom)), subject))
				}
			}
		}
		if s.Seat.Faces != "forward" && s.Seat.Faces != "rearward" {
			continue
		}
		have, by := unit.Length(math.MaxInt64), ""
		for k := range st.Bodies {
			b := &st.Bodies[k]
			if mine(b) || b.Box.Max.Y <= y-150*unit.Millimetre || b.Box.Min.Y >= y+150*unit.Millimetre || b.Box.Max.Z <= z-50*unit.Millimetre || b.Box.Min.Z >= z+150*unit.Millimetre {
				continue
			}
			d := x - b.Box.Max.X
			if s.Seat.Faces == "rearward" {
				d = b.Box.Min.X - x
			}
			if d > 0 && d < have {
				have, by = d, b.Name
			}
		}
		if have < kneeRoom {
			out = append(out, f.advice("fit-knee", "Knee room", derive.Travel, "seats", s.ID, have, kneeRoom, have-kneeRoom, say("knee-room", s.Name, mm(have), by, mm(kneeRoom)), subject))
		}
	}
	return append(out, f.childSeats()...)
}

// childSeats notes that a child's restraint needs its own evidence: one finding for all children.
func (f *Fit) childSeats() []Finding {
	var names []string
	x := Finding{Check: "fit-child-seat", Title: "Child restraints", State: string(derive.Travel), Case: "seats", Subject: "all", Rule: "seat-evidence", Advisory: true, Level: calc.Unsourced,
		Caution: "which restraint a seat takes, and how it is held, stands in the papers of both; a child's height and weight decide"}
	for _, p := range f.In.People {
		if h := p.Height; p.Child || h.Known() && h.V < 1350*unit.Millimetre {
			names = append(names, p.Name)
			x.Missing = append(x.Missing, Subject{Path: p.Path, Name: "the restraint of " + p.Name + " and the seat's evidence for it"})
		}
	}
	if len(names) == 0 {
		return nil
	}
	x.Says = say("child-seat", strings.Join(names, ", "))
	return one(x)
}

// runPillows tells of a low locker over the pillow: the better end of each bed is looked at.
func runPillows(f *Fit) []Finding {
	var out []Finding
	st := f.state(derive.Night)
	for i := range f.In.Berths {
		b := &f.In.Berths[i]
		if !b.Placed {
			continue
		}
		best, by := unit.Length(-1), ""
		for _, end := range f.ends(b) {
			least, what := unit.Length(math.MaxInt64), ""
			for k := range st.Bodies {
				o := &st.Bodies[k]
				if o.ID != b.ID && !o.Soft && !o.Outside && !o.Wall && o.Box.Min.Z >= b.Box.Max.Z && o.Box.Min.Z-b.Box.Max.Z < least &&
					o.Box.Min.X < end.Max.X && end.Min.X < o.Box.Max.X && o.Box.Min.Y < end.Max.Y && end.Min.Y < o.Box.Max.Y {
					least, what = o.Box.Min.Z-b.Box.Max.Z, o.Name
				}
			}
			if least > best {
				best, by = least, what
			}
		}
		if best < pillowFree {
			out = append(out, f.advice("fit-pillow", "Over the pillow", derive.Night, "beds", b.ID, best, pillowFree, best-pillowFree, say("pillow", b.Name, by, mm(best), mm(pillowFree)), Subject{Path: b.Path, Name: b.Name}))
		}
	}
	return out
}

// ends are the two ends of a bed where a head may lie.
func (f *Fit) ends(b *derive.FitBerth) [2]geom.Box3 {
	p, q := b.Box, b.Box
	if b.Berth.Across.Else(false) {
		p.Max.Y, q.Min.Y = p.Min.Y+pillowDeep, q.Max.Y-pillowDeep
	} else {
		p.Max.X, q.Min.X = p.Min.X+pillowDeep, q.Max.X-pillowDeep
	}
	return [2]geom.Box3{p, q}
}

// runTables looks whether each table is within reach of the seats it serves, and as far above them as people find usual.
func runTables(f *Fit) []Finding {
	var out []Finding
	st := f.state(derive.Camp)
	for i := range f.In.Uses {
		u := &f.In.Uses[i]
		table := st.Body(u.ID)
		if u.Use.As != "table" || len(u.Use.Serve) == 0 || table == nil {
			continue
		}
		for _, id := range u.Use.Serve {
			name := f.In.Names[id]
			x, y, ok := f.sits(st, id)
			if !ok {
				continue
			}
			dx, dy := max(table.Box.Min.X-x, x-table.Box.Max.X, 0), max(table.Box.Min.Y-y, y-table.Box.Max.Y, 0)
			if have := unit.MetresLength(math.Hypot(dx.Metres(), dy.Metres())); have > tableReach {
				out = append(out, f.advice("fit-table", "Table and seat", derive.Camp, "use", u.ID+"+"+id, have, tableReach, tableReach-have, say("table-far", u.Name, name, mm(have), mm(tableReach)), bodySubject(table), Subject{Path: "items/" + id, Name: name}))
			}
			if seat, ok := f.seatTop(id); ok && u.High.Known() {
				over := u.High.V - seat
				if off := min(over-tableLow, tableHigh-over); off < 0 {
					x := f.advice("fit-table", "Table and seat", derive.Camp, "use", u.ID+"+"+id+"+height", over, tableLow, off, say("table-high", u.Name, mm(over), name, mm(tableLow), mm(tableHigh)), bodySubject(table))
					x.Limit = unit.Opt[Figure]{}
					out = append(out, x)
				}
			}
		}
	}
	return out
}

// sits is where somebody on a seat sits in camp: the middle of the seat, or its reference point where it has no body.
func (f *Fit) sits(st *derive.FitState, id string) (x, y unit.Length, ok bool) {
	if b := st.Body(id); b != nil {
		return b.Box.Min.X + (b.Box.Max.X - b.Box.Min.X).Half(), b.Box.Min.Y + (b.Box.Max.Y - b.Box.Min.Y).Half(), true
	}
	for i := range f.In.Seats {
		if s := &f.In.Seats[i]; s.ID == id {
			x, okX := s.Seat.R.X.Get()
			y, okY := s.Seat.R.Y.Get()
			return x, y, okX && okY
		}
	}
	return 0, 0, false
}

// seatTop is the height of the used face of a seat, or of what it is part of, above the finished floor.
func (f *Fit) seatTop(id string) (unit.Length, bool) {
	st := f.state(derive.Camp)
	for i := range f.In.Uses {
		u := &f.In.Uses[i]
		if u.Use.As != "seat" || !u.High.Known() {
			continue
		}
		if u.ID == id {
			return u.High.V, true
		}
		if b := st.Body(id); b != nil && slices.Contains(b.Within, u.ID) {
			return u.High.V, true
		}
	}
	return 0, false
}

// runAisle finds the narrowest place by day between the living door and the washroom and bed, and where somebody can stand upright.
func runAisle(f *Fit) []Finding {
	out := f.standing()
	st := f.state(derive.Camp)
	floor, why := f.floorPlan()
	if why != "" || len(f.In.Doors) == 0 {
		return out
	}
	var door string
	for i := range f.In.Doors {
		if d := &f.In.Doors[i].Opening; d.Kind == "sliding-door" || door == "" && (d.Kind == "rear-doors" || d.Kind == "tailgate") {
			door = d.ID
			if d.Kind == "sliding-door" {
				break
			}
		}
	}
	to, ok := floor.outside[door]
	if !ok {
		return out
	}
	fin := f.In.Van.Finished.V
	var walk *geom.Walk
	for k := range st.Sweeps {
		s := &st.Sweeps[k]
		own := st.Body(s.Item)
		if own == nil || own.Group != "washroom" || s.Motion.Kind != "door" && s.Motion.Kind != "slide" || own.Outside {
			continue
		}
		from, ok := before(own, s.Motion.Side)
		if !ok {
			continue
		}
		if walk == nil {
			var err error
			if walk, err = geom.NewWalk(floor.outline, f.inTheWay(st, nil), fin+walkLow, fin+walkHigh); err != nil {
				return out
			}
		}
		way, err := walk.Widest(from, to)
		if errors.Is(err, geom.ErrShut) {
			out = append(out, f.advice("fit-aisle", "Aisle", derive.Camp, "aisle", own.ID, 0, aisleWide, -aisleWide, say("aisle-none", own.Name), bodySubject(own)))
			continue
		}
		if err != nil {
			continue
		}
		out = append(out, f.advice("fit-aisle", "Aisle", derive.Camp, "aisle", own.ID, way.Width, aisleWide, way.Width-aisleWide, say("aisle", own.Name, mm(way.Width), mm(aisleWide)),
			bodySubject(own), Subject{Path: own.Path, Name: "narrowest place", At: [3]unit.Opt[unit.Length]{unit.Some(way.At.X), unit.Some(way.At.Y), unit.Some(fin)}}))
	}
	return out
}

// before is a place 300 mm before the middle of a face of a body that is not turned, or turned by quarters.
func before(b *derive.Body, side string) (geom.Vec2, bool) {
	const off = 300 * unit.Millimetre
	if b.Turned {
		return geom.Vec2{}, false
	}
	p := geom.Vec2{X: b.Box.Min.X + (b.Box.Max.X - b.Box.Min.X).Half(), Y: b.Box.Min.Y + (b.Box.Max.Y - b.Box.Min.Y).Half()}
	switch side {
	case "front":
		p.X = b.Box.Min.X - off
	case "rear":
		p.X = b.Box.Max.X + off
	case "left":
		p.Y = b.Box.Min.Y - off
	case "right":
		p.Y = b.Box.Max.Y + off
	default:
		return p, false
	}
	return p, true
}

// standing finds where the tallest of the party can stand in camp, and the free block that a country's tax asks for.
func (f *Fit) standing() []Finding {
	if !f.Shape {
		return nil
	}
	st := f.state(derive.Camp)
	sh := f.in(derive.Camp)
	var solids []geom.Solid
	for i := range st.Bodies {
		if b := &st.Bodies[i]; !b.Outside && !b.Wall && !b.Shape {
			solids = append(solids, b.Solid)
		}
	}
	solids = append(solids, f.wheels...)
	var out []Finding
	tallest, who := unit.Length(0), ""
	for _, p := range f.In.People {
		if p.Height.Known() && p.Height.V > tallest {
			tallest, who = p.Height.V, p.Name
		}
	}
	if tallest > 0 {
		if room, err := sh.StandingRoom(tallest+standSpare, solids); err == nil {
			area := room.Area.SquareMetres()
			x := Finding{Check: "fit-standing", Title: "Standing room", State: string(derive.Camp), Case: "standing", Subject: "tallest", Rule: "usual", Advisory: true, Level: calc.Unsourced, Basis: "common practice, no source",
				Value: unit.Some(Figure{Kind: unit.KindArea, SI: area, Digits: 2}), Limit: unit.Some(Figure{Kind: unit.KindArea, SI: standPlace, Digits: 2}), Margin: unit.Some(Figure{Kind: unit.KindArea, SI: area - standPlace, Digits: 2})}
			x.Verdict = Judge(area-standPlace, 0)
			x.Says = say("standing", who, mm(tallest), Figure{Kind: unit.KindArea, SI: area, Digits: 2})
			out = append(out, x)
		}
	}
	return append(out, f.standingBlock(sh, solids)...)
}

// standingBlock looks for the free block of a rule: the longest stretch in which a strip of its width stays free to its height.
func (f *Fit) standingBlock(sh geom.Shell, solids []geom.Solid) []Finding {
	long, wide, high := f.Pack.Stricter("standing-block", "long"), f.Pack.Stricter("standing-block", "wide"), f.Pack.Stricter("standing-block", "high")
	if !long.Known || !wide.Known || !high.Known {
		return nil
	}
	room, err := sh.StandingRoom(unit.MetresLength(high.Value.SI), solids)
	if err != nil {
		return nil
	}
	want := unit.MetresLength(long.Value.SI)
	have := longest(room.Ways, unit.MetresLength(wide.Value.SI))
	x := Finding{Check: "fit-registration", Title: "Registration", State: string(derive.Camp), Case: "standing", Subject: "standing-block", Rule: "standing-block", Advisory: long.Rule.Advisory, Level: long.Rule.Level,
		Sources: []calc.Cite{long.Rule.Cite, byGeometry}, Caution: "the authority decides; rules change"}
	x = atLeast(x, "block", "free block", have, want, "block of the Dutch tax", 2*geom.WayError)
	if f.assumedShape() && x.Verdict != DoesNotHold {
		x.Verdict = Unknown
		x.Missing = []Subject{{Path: "van/shell/sections", Name: "the inner shape of this van; that of its class is assumed"}}
	}
	f.show(&x, lengthSlip("Free block", have, want, "longest stretch that stays free as wide and as high as asked, in strips of 20 mm across the van", "block of the rule", ""))
	return one(x)
}

// longest is the length of the longest run of strips across, 20 mm apart, that have so much of their free width in common.
func longest(strips [][2]geom.Vec2, wide unit.Length) unit.Length {
	const step = 20 * unit.Millimetre
	best := unit.Length(0)
	for i := range strips {
		low, high, at := strips[i][0].Y, strips[i][1].Y, strips[i][0].X
		first := at
		if high-low < wide {
			continue
		}
		for j := i; j < len(strips); {
			x, found := strips[j][0].X, false
			if x-at > step+step.Half() {
				break
			}
			for ; j < len(strips) && strips[j][0].X == x; j++ { // the strips at one station: the one that leaves most
				l, h := max(low, strips[j][0].Y), min(high, strips[j][1].Y)
				if !found && h-l >= wide {
					low, high, found = l, h, true
				}
			}
			if !found {
				break
			}
			at = x
			best = max(best, at-first+step)
		}
	}
	return best
}
