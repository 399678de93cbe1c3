package derive

import (
	"math"
	"strings"

	"berthwright/doc"
	"berthwright/unit"
)

// State is a standard state of the van.
type State string

// The standard states.
const (
	Travel State = "travel"
	Camp   State = "camp"
	Night  State = "night"
	Stored State = "stored"
)

// States lists the standard states in the order people use them.
var states = [...]State{Travel, Camp, Night, Stored}

// AllStates returns the standard states in the order people use them.
func AllStates() []State { return states[:] }

// Placed is one item in one state, its place resolved. The paths of its coordinates go on from Path: "/at/x".
type Placed struct {
	Item    *doc.Item
	Path    string              // "items/fridge"
	Number  int                 // on drawings; from 1, in the order of the file
	Away    bool                // not in the van in this state
	Note    string              // of the pose
	At      [3]Val[unit.Length] // middle of the underside
	Size    [3]Val[unit.Length] // before turning
	Turn    unit.Angle
	Min     [3]unit.Length // corner of the turned extents, rounded outwards; meaningful when Boxed
	Max     [3]unit.Length
	Boxed   bool
	Centre  [3]Val[unit.Length] // mass centre, van axes
	XHalf   unit.Length         // 95 % half-width of the place along the van
	Ring    bool                // measured from a neighbour that is measured from it
	Span    [2]unit.Length      // stretch; meaningful when Stretch
	Stretch bool
}

// Name returns what people call the item.
func (p Placed) Name() string {
	if p.Item.Name != "" {
		return p.Item.Name
	}
	return p.Item.ID
}

// Place resolves every item of b in state, in the order of the file.
func Place(b doc.Build, v Van, state State) []Placed {
	out, _ := placeAll(b, v, state)
	return out
}

// cabSeatBack is how far the back of a driver's seat lies behind the reference point of the person, seat against its
// rear stop; ± 30 mm. Common practice, no source.
const cabSeatBack = 130 * unit.Millimetre

// placeAll is Place; it also returns the van with the line of the cab seat, which the driver's seat gives.
func placeAll(b doc.Build, v Van, state State) ([]Placed, Van) {
	for i := range b.Items {
		s, ok := b.Items[i].Seat.Get()
		if x, at := s.R.X.Get(); ok && at && s.Driver.Else(false) && !v.CabSeat.Known() {
			v.CabSeat = assumed(x+cabSeatBack, "items/"+b.Items[i].ID+"/seat/r-point/x", "driver's seat reference point + 130 mm, ± 30 mm, common practice, no source")
		}
	}
	r := placer{b: b, v: v, state: state, done: make([]uint8, len(b.Items)), out: make([]*Placed, len(b.Items)), store: make([]Placed, len(b.Items))}
	for i := range b.Items {
		r.resolve(i)
	}
	v.CabUsed = r.cabSeat
	return r.store, v
}

type placer struct {
	b     doc.Build
	v     Van
	state State
	index map[string]int
	done  []uint8 // 0 new, 1 under way, 2 done
	out   []*Placed
	store []Placed // where out points to; nil: each by itself
	after *placer  // the same build in another state, resolved: what stands as it does there is taken over
	same  []bool   // taken over from after

	cabSeat bool // an item is measured from the cab seat
}

// placeIn resolves every item of b in each state, and tells which stand as they do in the first one: those are the same Placed.
func placeIn(b doc.Build, v Van, all []State) (placed [][]*Placed, same [][]bool) {
	store, v := placeAll(b, v, all[0])
	first := &placer{b: b, v: v, state: all[0], out: make([]*Placed, len(store)), same: make([]bool, len(store))}
	for i := range store {
		first.out[i], first.same[i] = &store[i], true
	}
	placed, same = append(placed, first.out), append(same, first.same)
	for _, s := range all[1:] {
		r := placer{b: b, v: v, state: s, index: first.index, done: make([]uint8, len(b.Items)), out: make([]*Placed, len(b.Items)), after: first, same: make([]bool, len(b.Items))}
		for i := range b.Items {
			r.resolve(i)
		}
		first.index = r.index
		placed, same = append(placed, r.out), append(same, r.same)
	}
	return placed, same
}

// takenOver takes an item over from the other state where it stands as it does there: it has an exception in neither, and what it
// is measured from stands as it does there too.
func (r *placer) takenOver(i int) bool {
	it := &r.b.Items[i]
	if r.after == nil || r.after.out[i].Ring {
		return false
	}
	if posed(it, r.state) || posed(it, r.after.state) {
		return false
	}
	for _, id := range [...]string{it.Place.Behind, it.Place.Ahead, it.Place.LeftOf, it.Place.RightOf, it.Place.OnTop} {
		if id == "" {
			continue
		}
		k, ok := r.find(id)
		if !ok {
			continue
		}
		if r.done[k] == 1 {
			return false
		}
		if r.resolve(k); !r.same[k] {
			return false
		}
	}
	r.out[i], r.same[i] = r.after.out[i], true
	return true
}

func (r *placer) find(id string) (int, bool) {
	if r.index == nil {
		r.index = make(map[string]int, len(r.b.Items))
		for i := range r.b.Items {
			r.index[r.b.Items[i].ID] = i
		}
	}
	i, ok := r.index[id]
	return i, ok
}

// near resolves the named item first and returns it when its faces on that axis are known; a ring is noted on p.
func (r *placer) near(p *Placed, id string, axis int) (*Placed, bool) {
	if id == "" {
		return nil, false
	}
	i, ok := r.find(id)
	if !ok {
		return nil, false
	}
	if r.done[i] == 1 {
		p.Ring = true
		return nil, false
	}
	r.resolve(i)
	n := r.out[i]
	if !n.At[axis].Known() {
		p.Ring = p.Ring || n.Ring
	}
	return n, n.At[axis].Known() && n.Max[axis] > n.Min[axis]
}

func (r *placer) resolve(i int) {
	if r.done[i] != 0 {
		return
	}
	r.done[i] = 1
	if r.takenOver(i) {
		r.done[i] = 2
		return
	}
	it := &r.b.Items[i]
	p := new(Placed)
	if r.store != nil {
		p = &r.store[i]
	}
	r.out[i] = p
	p.Item, p.Path, p.Number = it, "items/"+it.ID, i+1
	at, size, turn := &it.At, it.Size, it.Turn
	taped := true
	if pose, ok := poseOf(it, r.state); ok {
		p.Away = pose.Away.Else(false)
		p.Note = pose.Note
		posed := over(it.At, pose.At)
		at = &posed
		size = doc.Size{X: first(pose.Size.X, size.X), Y: first(pose.Size.Y, size.Y), Z: first(pose.Size.Z, size.Z)}
		turn = first(pose.Turn, turn)
		taped = !(pose.At.X.Given() || pose.At.Y.Given() || pose.At.Z.Given())
	}
	p.Turn = turn.Else(0)
	for k, o := range [3]doc.Opt[unit.Length]{size.X, size.Y, size.Z} {
		p.Size[k].Path = sizePath[k]
		if l, ok := o.Get(); ok {
			p.Size[k] = given(l, sizePath[k])
		}
	}
	dx, dy := turnedExtent(p.Size[0].V, p.Size[1].V, p.Turn)
	dz := p.Size[2].V
	for k, o := range [3]doc.Opt[unit.Length]{at.X, at.Y, at.Z} {
		p.At[k].Path = atPath[k]
		if l, ok := o.Get(); ok {
			p.At[k] = given(l, atPath[k])
		}
	}
	if taped || !p.At[0].Known() || !p.At[1].Known() || !p.At[2].Known() {
		r.tape(p, &it.Place, dx, dy, dz)
	}
	if from, ok := it.Span.From.Get(); ok {
		if to, ok := it.Span.To.Get(); ok {
			p.Span, p.Stretch = [2]unit.Length{from, to}, true
			if !p.At[0].Known() {
				p.At[0] = derived((from + to).Half(), "/span", "middle of the stretch")
			}
		}
	}
	if it.Zone != "" {
		r.zone(p, it.Zone)
	}
	p.finish(dx, dy, dz)
	r.done[i] = 2
}

// sizePath and atPath are the paths of a coordinate below its item.
var (
	sizePath = [3]string{"/size/x", "/size/y", "/size/z"}
	atPath   = [3]string{"/at/x", "/at/y", "/at/z"}
)

var axisName = [3]string{"x", "y", "z"}

func poseOf(it *doc.Item, s State) (doc.Pose, bool) {
	switch s {
	case Travel:
		return it.States.Travel.Get()
	case Camp:
		return it.States.Camp.Get()
	case Night:
		return it.States.Night.Get()
	case Stored:
		return it.States.Stored.Get()
	}
	return doc.Pose{}, false
}

// posed tells whether an item has an exception in a state.
func posed(it *doc.Item, s State) bool {
	switch s {
	case Travel:
		return it.States.Travel.Given()
	case Camp:
		return it.States.Camp.Given()
	case Night:
		return it.States.Night.Given()
	}
	return it.States.Stored.Given()
}

func first[T any](a, b doc.Opt[T]) doc.Opt[T] {
	if a.Given() {
		return a
	}
	return b
}

func over(base, top doc.Point) doc.Point {
	return doc.Point{X: first(top.X, base.X), Y: first(top.Y, base.Y), Z: first(top.Z, base.Z)}
}

// tape turns the measures as taped into the middle of the underside, where `at` leaves one open.
func (r *placer) tape(p *Placed, t *doc.Place, dx, dy, dz unit.Length) {
	gap := unit.Length(0)
	if g, ok := t.Gap.Get(); ok {
		gap = g.Value
	}
	set := func(k int, v unit.Length, key, from string, line How) {
		if p.At[k].Known() {
			return
		}
		how := Derived
		if line == Assumed {
			how = Assumed
		}
		p.At[k] = Val[unit.Length]{V: v, How: how, From: from, Path: key}
	}
	half := func(e unit.LengthEst) {
		if h, ok := e.Half().Get(); ok && h > p.XHalf {
			p.XHalf = h
		}
	}
	v := r.v
	if a, ok := t.Bulkhead.Get(); ok && v.Bulkhead.Known() {
		set(0, v.Bulkhead.V+a.Value+edgeShift(t.Edge, "front", dx), "/place/bulkhead", "back from the bulkhead line", v.Bulkhead.How)
		half(a)
	}
	if a, ok := t.RearDoor.Get(); ok && v.RearDoor.Known() {
		set(0, v.RearDoor.V-a.Value+edgeShift(t.Edge, "rear", dx), "/place/rear-door", "forward from the rear door line", v.RearDoor.How)
		half(a)
	}
	if a, ok := t.WheelBox.Get(); ok && v.Wheelbase.Known() {
		set(0, v.Wheelbase.V+a.Value+edgeShift(t.Edge, "middle", dx), "/place/wheel-box", "back from the middle of the wheel-box", v.Wheelbase.How)
		half(a)
	}
	if a, ok := t.CabSeat.Get(); ok && v.CabSeat.Known() {
		r.cabSeat = true
		set(0, v.CabSeat.V+a.Value+edgeShift(t.Edge, "front", dx), "/place/cab-seat", "back from the cab seat against its rear stop", v.CabSeat.How)
		half(a)
		if p.XHalf < 30*unit.Millimetre {
			p.XHalf = 30 * unit.Millimetre
		}
	}
	if n, ok := r.near(p, t.Behind, 0); ok {
		set(0, n.Max[0]+gap+dx.Half(), "/place/behind", "behind "+n.Name(), n.At[0].How)
		p.XHalf = max(p.XHalf, n.XHalf)
	}
	if n, ok := r.near(p, t.Ahead, 0); ok {
		set(0, n.Min[0]-gap-dx.Half(), "/place/ahead-of", "ahead of "+n.Name(), n.At[0].How)
		p.XHalf = max(p.XHalf, n.XHalf)
	}
	if a, ok := t.LeftWall.Get(); ok && v.Left.Known() {
		set(1, v.Left.V+a.Value+dy.Half(), "/place/left-wall", "from the lined left wall", v.Left.How)
	}
	if a, ok := t.RightWall.Get(); ok && v.Right.Known() {
		set(1, v.Right.V-a.Value-dy.Half(), "/place/right-wall", "from the lined right wall", v.Right.How)
	}
	if a, ok := t.CentreLine.Get(); ok {
		set(1, a.Value, "/place/centre-line", "from the centre line", Derived)
	}
	if n, ok := r.near(p, t.LeftOf, 1); ok {
		set(1, n.Min[1]-gap-dy.Half(), "/place/left-of", "left of "+n.Name(), Derived)
	}
	if n, ok := r.near(p, t.RightOf, 1); ok {
		set(1, n.Max[1]+gap+dy.Half(), "/place/right-of", "right of "+n.Name(), Derived)
	}
	if a, ok := t.FinishedFloor.Get(); ok && v.Finished.Known() {
		set(2, v.Finished.V+a.Value, "/place/finished-floor", "up from the finished floor", v.Finished.How)
	}
	if a, ok := t.BareFloor.Get(); ok {
		set(2, a.Value, "/place/bare-floor", "up from the bare floor", Derived)
	}
	if a, ok := t.Ceiling.Get(); ok && v.Ceiling.Known() {
		set(2, v.Ceiling.V-a.Value-dz, "/place/ceiling", "down from the lined ceiling", v.Ceiling.How)
	}
	if n, ok := r.near(p, t.OnTop, 2); ok {
		set(2, n.Max[2]+gap, "/place/on-top-of", "on top of "+n.Name(), Derived)
	}
}

// edgeShift returns how far behind the taped edge the middle of a body of extent d lies; absent: the near edge.
func edgeShift(edge, near string, d unit.Length) unit.Length {
	if edge == "" {
		edge = near
	}
	switch edge {
	case "front":
		return d.Half()
	case "rear":
		return -d.Half()
	}
	return 0
}

// zoneHalf is the 95 % half-width of a place known only by its zone (docs/methods/survey.md; common practice, no source).
const zoneHalf = 300 * unit.Millimetre

// zone puts an item in the middle of its zone, where nothing better is known.
func (r *placer) zone(p *Placed, text string) {
	x, y, z := r.v.ZoneCentre(text)
	for k, c := range [3]Val[unit.Length]{x, y, z} {
		if !p.At[k].Known() && c.Known() {
			p.At[k] = Val[unit.Length]{V: c.V, How: Assumed, From: "middle of the zone, not yet measured", Path: "/zone"}
			if k == 2 {
				p.At[k].V -= p.Size[2].V.Half()
			}
			if k == 0 {
				p.XHalf = zoneHalf
			}
		}
	}
}

// ZoneWords splits a zone text into along, side and level; an absent word is "".
func ZoneWords(text string) (along, side, level string) {
	for _, w := range strings.Fields(text) {
		switch w {
		case "cab", "door", "mid", "wheel", "rear":
			if along == "" {
				along = w
			} else if w == "mid" {
				level = w
			}
		case "left", "middle", "right":
			side = w
		case "low", "high":
			level = w
		}
	}
	return along, side, level
}

// ZoneSpan returns the stretch of one zone word along the van.
func (v Van) ZoneSpan(along string) (from, to unit.Length, ok bool) {
	if !v.Bulkhead.Known() || !v.RearDoor.Known() {
		return 0, 0, false
	}
	front, rear := v.BoxFront.V, v.BoxRear.V
	if !v.BoxFront.Known() || !v.BoxRear.Known() {
		if !v.Wheelbase.Known() {
			return 0, 0, false
		}
		front, rear = v.Wheelbase.V-400*unit.Millimetre, v.Wheelbase.V+400*unit.Millimetre
	}
	half := v.Bulkhead.V + (front - v.Bulkhead.V).Half()
	switch along {
	case "cab":
		return v.Bulkhead.V - unit.Metre, v.Bulkhead.V, true
	case "door":
		return v.Bulkhead.V, half, true
	case "mid":
		return half, front, true
	case "wheel":
		return front, rear, true
	case "rear":
		return rear, v.RearDoor.V, true
	}
	return 0, 0, false
}

// ZoneCentre returns the middle of a zone such as "rear left low".
func (v Van) ZoneCentre(text string) (x, y, z Val[unit.Length]) {
	along, side, level := ZoneWords(text)
	if from, to, ok := v.ZoneSpan(along); ok {
		x = derived((from + to).Half(), "", "middle of the zone")
	}
	switch {
	case side == "left" && v.Left.Known():
		y = derived(v.Left.V.Times(2.0/3), "", "middle of the zone")
	case side == "right" && v.Right.Known():
		y = derived(v.Right.V.Times(2.0/3), "", "middle of the zone")
	default:
		y = derived(unit.Length(0), "", "middle of the zone")
	}
	if v.Ceiling.Known() {
		share := 1.0 / 2
		switch level {
		case "low":
			share = 1.0 / 6
		case "high":
			share = 5.0 / 6
		}
		z = derived(v.Ceiling.V.Times(share), "", "middle of the zone")
	}
	return x, y, z
}

// finish works out extents and mass centre from what was resolved.
func (p *Placed) finish(dx, dy, dz unit.Length) {
	for k, d := range [3]unit.Length{dx, dy, dz} {
		switch k {
		case 2:
			p.Min[k], p.Max[k] = p.At[k].V, p.At[k].V+d
		default:
			p.Min[k] = p.At[k].V - d.Half()
			p.Max[k] = p.Min[k] + d
		}
	}
	p.Boxed = p.At[0].Known() && p.At[1].Known() && p.At[2].Known() && dx > 0 && dy > 0 && dz > 0
	c := p.Item.Centre
	ox, oy := turned(c.X.Else(0), c.Y.Else(0), p.Turn)
	off := [3]unit.Length{ox, oy, c.Z.Else(dz.Half())}
	for k := range p.Centre {
		if p.At[k].Known() {
			p.Centre[k] = p.At[k]
			p.Centre[k].V += off[k]
		}
	}
}

// turned rotates a plan offset counter-clockwise seen from above: a quarter turn takes +x (rearwards) to +y (right).
func turned(x, y unit.Length, a unit.Angle) (unit.Length, unit.Length) {
	switch quarter(a) {
	case 0:
		return x, y
	case 1:
		return -y, x
	case 2:
		return -x, -y
	case 3:
		return y, -x
	}
	s, c := math.Sincos(a.Radians())
	return unit.MetresLength(x.Metres()*c - y.Metres()*s), unit.MetresLength(x.Metres()*s + y.Metres()*c)
}

// turnedExtent returns the extents of a turned box, rounded outwards.
func turnedExtent(x, y unit.Length, a unit.Angle) (unit.Length, unit.Length) {
	switch quarter(a) {
	case 0, 2:
		return x, y
	case 1, 3:
		return y, x
	}
	s, c := math.Sincos(a.Radians())
	s, c = math.Abs(s), math.Abs(c)
	out := func(m float64) unit.Length { return unit.Length(math.Ceil(m * 1e6)) }
	return out(x.Metres()*c + y.Metres()*s), out(x.Metres()*s + y.Metres()*c)
}

// Outline returns the four corners of the turned box in plan, counter-clockwise from the front left one before turning.
func (p Placed) Outline() [4][2]unit.Length {
	hx, hy := p.Size[0].V.Half(), p.Size[1].V.Half()
	var o [4][2]unit.Length
	for i, c := range [4][2]unit.Length{{-hx, -hy}, {hx, -hy}, {hx, hy}, {-hx, hy}} {
		x, y := turned(c[0], c[1], p.Turn)
		o[i] = [2]unit.Length{p.At[0].V + x, p.At[1].V + y}
	}
	return o
}

// quarter returns 0..3 for whole quarter turns and -1 otherwise.
func quarter(a unit.Angle) int {
	d := math.Mod(a.Degrees(), 360)
	if d < 0 {
		d += 360
	}
	n := math.Round(d / 90)
	if math.Abs(d-90*n) > 1e-9 {
		return -1
	}
	return int(n) % 4
}
