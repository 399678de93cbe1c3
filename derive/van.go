package derive

import (
	"berthwright/doc"
	"berthwright/unit"
)

// Van is the base van with its lines resolved. Lengths along are from the front axle, across from the centre line,
// heights from the bare load floor unless the name says ground.
type Van struct {
	Class      string
	Wheelbase  Val[unit.Length]
	TrackFront Val[unit.Length]
	TrackRear  Val[unit.Length]
	Length     Val[unit.Length]
	Width      Val[unit.Length]
	Height     Val[unit.Length]
	Overhang   Val[unit.Length] // front end to front axle
	FloorHigh  Val[unit.Length] // bare floor above ground
	Bulkhead   Val[unit.Length] // bulkhead line
	RearDoor   Val[unit.Length] // rear door line
	Finished   Val[unit.Length] // finished floor
	Left       Val[unit.Length] // lined left wall, negative
	Right      Val[unit.Length] // lined right wall
	Ceiling    Val[unit.Length] // lined ceiling
	BoxFront   Val[unit.Length]
	BoxRear    Val[unit.Length]
	BoxInner   Val[unit.Length]
	BoxHigh    Val[unit.Length]
	CabSeat    Val[unit.Length] // back of the cab seat against its rear stop; known once the items are placed
	CabUsed    bool             // an item is measured from it
	EmptyHigh  Val[unit.Length] // centre of mass of the empty van above ground
	Steering   Val[string]
	Door       Val[string]
	Plate      Plate
	AsIs       Plate   // the plate on the van, whichever is in use
	Alternates []Plate // other plated sets
	Survey     Survey
}

// Plate is one plated set resolved.
type Plate struct {
	ID    string
	Basis string
	Paper string
	Path  string
	Total Val[unit.Mass]
	Train Val[unit.Mass]
	Front Val[unit.Mass]
	Rear  Val[unit.Mass]
}

// Survey holds what the tapes close to.
type Survey struct {
	Wheelbase Val[unit.Length]
	HubsApart Val[unit.Length] // left less right
	Bulkhead  Val[unit.Length]
	RearDoor  Val[unit.Length]
	Closing   Val[unit.Length] // rear door line less bulkhead line less the tape between them
	BoxMiddle Val[unit.Length] // middle of the wheel-box less the rear axle
	BoxFront  Val[unit.Length] // edges of the wheel-box
	BoxRear   Val[unit.Length]
	Rake      Val[unit.Length] // floor at the rear less floor at the front, above ground
}

// ResolveVan resolves the lines of v; class holds the defaults of its class and className its name.
func ResolveVan(v doc.Van, class doc.Van, className string) Van {
	from := "class " + className
	pick := func(own, def doc.Opt[unit.Length], path string) Val[unit.Length] {
		if x, ok := own.Get(); ok {
			return given(x, path)
		}
		if x, ok := def.Get(); ok {
			return assumed(x, path, from)
		}
		return Val[unit.Length]{Path: path}
	}
	s := survey(v)
	line := func(own, def doc.Opt[unit.Length], path string, taped Val[unit.Length]) Val[unit.Length] {
		if x, ok := own.Get(); ok {
			return given(x, path)
		}
		if taped.Known() {
			return taped
		}
		return pick(own, def, path)
	}
	wall := linedWall(v.Survey)
	r := Van{
		Class:      v.Class,
		Wheelbase:  line(v.Wheelbase, class.Wheelbase, "van/wheelbase", s.Wheelbase),
		TrackFront: pick(v.Track.Front, class.Track.Front, "van/track/front"),
		TrackRear:  pick(v.Track.Rear, class.Track.Rear, "van/track/rear"),
		Length:     pick(v.Length, class.Length, "van/length"),
		Width:      pick(v.Width, class.Width, "van/width"),
		Height:     pick(v.Height, class.Height, "van/height"),
		Overhang:   pick(v.Overhang, class.Overhang, "van/front-overhang"),
		FloorHigh:  line(v.Floor.Height, class.Floor.Height, "van/floor/height", floorHigh(v.Survey)),
		Bulkhead:   line(v.Floor.Front, class.Floor.Front, "van/floor/front", s.Bulkhead),
		RearDoor:   line(v.Floor.Rear, class.Floor.Rear, "van/floor/rear", s.RearDoor),
		Finished:   line(v.Floor.Finished, class.Floor.Finished, "van/floor/finished", taped(v.Survey.FloorBuild, "van/survey/floor-build")),
		Left:       line(v.Inside.Left, class.Inside.Left, "van/inside/left", mirrored(wall)),
		Right:      line(v.Inside.Right, class.Inside.Right, "van/inside/right", wall),
		Ceiling:    pick(v.Inside.Ceiling, class.Inside.Ceiling, "van/inside/ceiling"),
		BoxFront:   line(v.Inside.WheelBox.Front, class.Inside.WheelBox.Front, "van/inside/wheel-box/front", s.BoxFront),
		BoxRear:    line(v.Inside.WheelBox.Rear, class.Inside.WheelBox.Rear, "van/inside/wheel-box/rear", s.BoxRear),
		BoxInner:   pick(v.Inside.WheelBox.Inner, class.Inside.WheelBox.Inner, "van/inside/wheel-box/inner"),
		BoxHigh:    pick(v.Inside.WheelBox.Height, class.Inside.WheelBox.Height, "van/inside/wheel-box/height"),
		EmptyHigh:  pick(v.Centre, class.Centre, "van/empty-centre-height"),
		Survey:     s,
	}
	r.Steering = word(v.Steering, class.Steering, "van/steering", from)
	r.Door = word(v.Door, class.Door, "van/sliding-door", from)
	r.Plate = plate(v.Plated, "van/plated")
	r.AsIs = r.Plate
	for _, p := range v.Plates {
		alt := plate(p, "van/plates/"+p.ID)
		r.Alternates = append(r.Alternates, alt)
		if p.ID != "" && p.ID == v.PlateInUse {
			r.Plate = alt
		}
	}
	return r
}

func word(own, def, path, from string) Val[string] {
	if own != "" {
		return given(own, path)
	}
	if def != "" {
		return assumed(def, path, from)
	}
	return Val[string]{Path: path}
}

// plate resolves one plated set. A plate is never filled from the class: two vans of one class carry different plates.
func plate(p doc.Plate, path string) Plate {
	pick := func(own doc.Opt[unit.Mass], key string) Val[unit.Mass] {
		if m, ok := own.Get(); ok {
			return given(m, path+"/"+key)
		}
		return Val[unit.Mass]{Path: path + "/" + key}
	}
	return Plate{
		ID: p.ID, Basis: p.Basis, Paper: p.Paper, Path: path,
		Total: pick(p.Total, "total"), Train: pick(p.Train, "train"), Front: pick(p.Front, "front"), Rear: pick(p.Rear, "rear"),
	}
}

// survey works the nine tapes into lines: x_P = S2, x_B = x_P + S3, x_D = L + S4 (docs/methods/survey.md).
func survey(v doc.Van) Survey {
	t := v.Survey
	var s Survey
	l, lok := t.HubsLeft.Get()
	r, rok := t.HubsRight.Get()
	switch {
	case lok && rok:
		s.Wheelbase = derived((l.Value + r.Value).Half(), "van/survey/hubs-left", "tape S1, mean of both sides")
		s.HubsApart = derived(l.Value-r.Value, "van/survey/hubs-left", "tape S1, left less right")
	case lok:
		s.Wheelbase = derived(l.Value, "van/survey/hubs-left", "tape S1, left side only")
	case rok:
		s.Wheelbase = derived(r.Value, "van/survey/hubs-right", "tape S1, right side only")
	}
	axle := s.Wheelbase
	if x, ok := v.Wheelbase.Get(); ok {
		axle = given(x, "van/wheelbase")
	}
	if p, ok := t.HubPillar.Get(); ok {
		if b, ok := t.PillarBulk.Get(); ok {
			s.Bulkhead = derived(p.Value+b.Value, "van/survey/pillar-to-bulkhead", "tapes S2 + S3")
		}
	}
	if d, ok := t.HubDoor.Get(); ok && axle.Known() {
		s.RearDoor = derived(axle.V+d.Value, "van/survey/hub-to-rear-door", "wheelbase + tape S4")
	}
	if f, ok := t.BulkDoor.Get(); ok && s.Bulkhead.Known() && s.RearDoor.Known() {
		s.Closing = derived(s.RearDoor.V-s.Bulkhead.V-f.Value, "van/survey/bulkhead-to-rear-door", "rear door line less bulkhead line less tape S5")
	}
	if f, ok := t.BoxFront.Get(); ok && s.RearDoor.Known() && axle.Known() {
		if b, ok := t.BoxRear.Get(); ok {
			middle := s.RearDoor.V - (f.Value + b.Value).Half()
			s.BoxFront = derived(s.RearDoor.V-f.Value, "van/survey/wheel-box-front", "rear door line less tape S6")
			s.BoxRear = derived(s.RearDoor.V-b.Value, "van/survey/wheel-box-rear", "rear door line less tape S6")
			s.BoxMiddle = derived(middle-axle.V, "van/survey/wheel-box-front", "middle of the wheel-box less the rear axle, tape S6")
		}
	}
	if f, ok := t.FloorFront.Get(); ok {
		if b, ok := t.FloorRear.Get(); ok {
			s.Rake = derived(b.Value-f.Value, "van/survey/floor-to-ground-rear", "tape S7, rear less front")
		}
	}
	return s
}

// linedWall returns the lined right wall at worktop height: half the bare width less the lining, the centre line being the
// middle of the rear door posts. Without the width 900 mm up the nearest one stands in.
func linedWall(t doc.Survey) Val[unit.Length] {
	lining, ok := t.Lining.Get()
	if !ok {
		return Val[unit.Length]{}
	}
	for _, w := range []struct {
		o    doc.Opt[unit.LengthEst]
		path string
	}{{t.Width900, "van/survey/width-at-900"}, {t.Width1500, "van/survey/width-at-1500"}, {t.WidthFloor, "van/survey/width-at-floor"}} {
		if x, ok := w.o.Get(); ok {
			return derived(x.Value.Half()-lining, w.path, "half the bare width, tape S8, less the lining, tape S9")
		}
	}
	return Val[unit.Length]{}
}

func mirrored(v Val[unit.Length]) Val[unit.Length] {
	v.V = -v.V
	return v
}

func floorHigh(t doc.Survey) Val[unit.Length] {
	f, fok := t.FloorFront.Get()
	r, rok := t.FloorRear.Get()
	switch {
	case fok && rok:
		return derived((f.Value + r.Value).Half(), "van/survey/floor-to-ground-front", "tape S7, mean of both ends")
	case fok:
		return derived(f.Value, "van/survey/floor-to-ground-front", "tape S7, front end only")
	case rok:
		return derived(r.Value, "van/survey/floor-to-ground-rear", "tape S7, rear end only")
	}
	return Val[unit.Length]{}
}

func taped(o doc.Opt[unit.Length], path string) Val[unit.Length] {
	if x, ok := o.Get(); ok {
		return derived(x, path, "tape")
	}
	return Val[unit.Length]{}
}
