package derive

import (
	"cmp"
	"slices"

	"berthwright/doc"
	"berthwright/geom"
	"berthwright/unit"
)

// Fit is everything the fit concern needs to know. All solids are in van axes, heights from the bare load floor.
type Fit struct {
	Van     Van
	Country string
	Date    doc.Opt[doc.Date]
	Begun   bool // somebody has given a body or a shape
	Names   map[string]string
	States  []FitState
	Shell   FitShell
	Berths  []FitBerth
	Seats   []FitSeat
	People  []FitPerson
	Holes   []FitHole
	Frames  []FitFrame
	Allowed []FitAllowed
	Doors   []FitDoor
	Under   []FitUnder
	Uses    []FitUse
	Carried []FitCarried
	Fixings []FitFixing
	Ground  doc.Ground
	Promise []doc.Promise
	Odd     []Lack // outlines and moves that make no shape: their items are not judged
}

// FitState is the van in one state.
type FitState struct {
	State  State
	Bodies []Body
	Sweeps []FitSweep
	Spaces []FitSpace
	index  map[string]int // of bodies, by id
}

// Body is one item with a body, in one state.
type Body struct {
	ID, Path, Name string
	Number         int
	Group          string
	Solid          geom.Solid
	Box            geom.Box3
	Soft           bool // it gives way
	Outside        bool // on the roof, under the floor, behind or on the side
	On             string
	Same           bool // it stands as it does in the first state
	Turned         bool // its outline is not that of its box
	Wall           bool // it sits in a hole through the shell
	Scribe         unit.Length
	Within         []string // ids of what contains it, directly first
	Shape          bool     // a recess or a lifting roof: it changes the shell
	Locked         string
}

// FitSpace is room an item needs beside it.
type FitSpace struct {
	Item  string
	Space doc.Space
	Solid geom.Solid
	Box   geom.Box3
}

// FitShell is the inner shape as it was measured, with its lining.
type FitShell struct {
	Known    bool
	From     string // measured, instruction, class
	Sections []FitSection
	Linings  []doc.Lining
	Recesses []FitRecess
	Raises   []FitRaise
}

// FitSection is one station with its walls from the floor up; Y of the left one is negative.
type FitSection struct {
	X           unit.Length
	Left, Right []geom.Vec2 // X holds y, Y holds z
	Half        unit.Length
}

// FitRecess is a pod in a wall, by its window along and up.
type FitRecess struct {
	ID    string
	Left  bool
	From  geom.Vec2 // x, z
	To    geom.Vec2
	Depth unit.Length
}

// FitRaise is a lifting roof over a window in plan.
type FitRaise struct {
	ID       string
	From, To geom.Vec2 // x, y
	High     unit.Length
	Open     map[State]bool
}

// FitBerth is a sleeping place at night.
type FitBerth struct {
	ID, Path, Name string
	Berth          doc.Berth
	Box            geom.Box3
	Solid          geom.Solid
	Placed         bool
}

// FitSeat is a travelling seat with the evidence named for it.
type FitSeat struct {
	ID, Path, Name string
	Seat           doc.Seat
	X              Val[unit.Length] // where it stands now
	Driver         bool
	Planned        bool
}

// FitPerson is one of the party.
type FitPerson struct {
	ID, Path, Name string
	Height         Val[unit.Length]
	Mass           Val[unit.Mass]
	Child          bool
}

// FitHole is a hole cut for an item.
type FitHole struct {
	ID, Path, Name string
	Hole           doc.Hole
	At             geom.Vec3 // middle of the hole
	From, To       geom.Vec2 // in its face: along and up; on roof and floor along and across; in the rear face across and up
	Known          bool
}

// FitFrame is a pillar, rib or bow.
type FitFrame struct {
	Frame doc.Frame
	Path  string
}

// FitAllowed is what the base maker's instruction or a measurement grants.
type FitAllowed struct {
	Allowed doc.Allowance
	Path    string
}

// FitDoor is an opening of the van.
type FitDoor struct {
	Opening doc.Opening
	Path    string
}

// FitUnder is something under the van that must stay free.
type FitUnder struct {
	Part  doc.UnderPart
	Path  string
	Solid geom.Solid
	Known bool
}

// FitUse is what people do at an item.
type FitUse struct {
	ID, Path, Name string
	Use            doc.Use
	High           Val[unit.Length] // of the used face above the finished floor, in camp
	Box            geom.Box3        // in camp
}

// FitCarried is something that goes through an opening or onto the roof.
type FitCarried struct {
	ID, Path, Name string
	Size           [3]Val[unit.Length]
	In             string
	On             string
}

// FitFixing is how an item is held, with the mass it holds.
type FitFixing struct {
	ID, Path, Name string
	Fixing         doc.Fixing
	Given          bool
	Mass           unit.Mass // contents full
	High           unit.Length
	Group          string
	Soft           bool
}

// MakeFit derives the fit input of b.
func MakeFit(b doc.Build, c Context) Fit {
	van := c.Van(b.Van)
	f := Fit{Van: van, Country: b.Head.Country, Date: b.Head.Date, Ground: b.Van.Ground, Promise: b.Job.Promises, Names: map[string]string{}}
	within := containment(b)
	for i := range b.Items {
		name := b.Items[i].Name
		if name == "" {
			name = b.Items[i].ID
		}
		f.Names[b.Items[i].ID] = name
	}
	each, same := placeIn(b, van, AllStates())
	placed := map[State][]*Placed{}
	for k, s := range AllStates() {
		placed[s] = each[k]
		f.state(s, each[k], same[k], within)
	}
	f.Begun = len(f.States[0].Bodies) > 1 || len(b.Van.Shell.Sections) > 0
	f.shell(b, c, placed)
	f.things(b, placed, van)
	f.people(b)
	for i := range b.Van.Shell.Frames {
		f.Frames = append(f.Frames, FitFrame{b.Van.Shell.Frames[i], "van/shell/frames/" + b.Van.Shell.Frames[i].ID})
	}
	for i := range b.Van.Shell.Allowed {
		f.Allowed = append(f.Allowed, FitAllowed{b.Van.Shell.Allowed[i], "van/shell/allowed/" + b.Van.Shell.Allowed[i].ID})
	}
	openings := b.Van.Shell.Openings
	if len(openings) == 0 {
		openings = c.Class(b.Van.Class).Van.Shell.Openings
	}
	for i := range openings {
		f.Doors = append(f.Doors, FitDoor{openings[i], "van/shell/openings/" + openings[i].ID})
	}
	for i := range b.Van.Shell.Under {
		u := &b.Van.Shell.Under[i]
		k := FitUnder{Part: *u, Path: "van/shell/under/" + u.ID}
		if box, ok := boxOf(u.At, u.Size); ok {
			if s, err := geom.BoxSolid(box); err == nil {
				k.Solid, k.Known = s, true
			}
		}
		f.Under = append(f.Under, k)
	}
	return f
}

// boxOf returns the box of a size standing on a point.
func boxOf(at doc.Point, size doc.Size) (geom.Box3, bool) {
	var a, s [3]unit.Length
	for k, o := range [3]doc.Opt[unit.Length]{at.X, at.Y, at.Z} {
		v, ok := o.Get()
		if !ok {
			return geom.Box3{}, false
		}
		a[k] = v
	}
	for k, o := range [3]doc.Opt[unit.Length]{size.X, size.Y, size.Z} {
		v, ok := o.Get()
		if !ok || v <= 0 {
			return geom.Box3{}, false
		}
		s[k] = v
	}
	low := geom.Vec3{X: a[0] - s[0].Half(), Y: a[1] - s[1].Half(), Z: a[2]}
	return geom.Box3{Min: low, Max: low.Plus(geom.Vec3{X: s[0], Y: s[1], Z: s[2]})}, true
}

// containment tells for each item what contains it: directly first, then what contains those.
func containment(b doc.Build) map[string][]string {
	parents := map[string][]string{}
	for i := range b.Items {
		for _, id := range b.Items[i].Contents {
			if id != b.Items[i].ID {
				parents[id] = append(parents[id], b.Items[i].ID)
			}
		}
	}
	out := map[string][]string{}
	for id, direct := range parents {
		all := slices.Clone(direct)
		for k := 0; k < len(all); k++ {
			for _, up := range parents[all[k]] {
				if up != id && !slices.Contains(all, up) {
					all = append(all, up)
				}
			}
		}
		out[id] = all
	}
	return out
}

// state adds one state. What stands as it does in the first one keeps its solids.
func (f *Fit) state(s State, placed []*Placed, same []bool, within map[string][]string) {
	out := FitState{State: s, Bodies: make([]Body, 0, len(placed)), index: make(map[string]int, len(placed))}
	var before *FitState
	if len(f.States) > 0 {
		before = &f.States[0]
	}
	for i := range placed {
		p := placed[i]
		it := p.Item
		if !p.Boxed || p.Away || it.Removed.Else(false) || it.Count.Else(1) == 0 {
			continue
		}
		if before != nil && same[i] {
			if b := before.Body(it.ID); b != nil {
				out.add(*b)
				out.Bodies[len(out.Bodies)-1].Same = true
				out.moves(p, s)
			}
			continue
		}
		solid, ok := solidOf(p)
		if !ok {
			f.Odd = append(f.Odd, Lack{What: "outline of " + p.Name(), Path: p.Path + "/outline", Item: it.ID})
			continue
		}
		b := Body{
			ID: it.ID, Path: p.Path, Name: p.Name(), Number: p.Number, Group: it.Group, Solid: solid, Box: solid.Bounds(), Soft: it.Cover.Else(false),
			Outside: it.On != "" && it.On != "inside", On: it.On, Within: within[it.ID], Scribe: it.Scribe.Else(0), Locked: Locked(it),
			Shape: it.Recess.Given() || it.Raise.Given(), Turned: len(it.Outline) >= 3 || quarter(p.Turn) < 0,
		}
		if h, ok := it.Hole.Get(); ok && h.Face != "inside" {
			b.Wall = true
		}
		out.add(b)
		out.moves(p, s)
	}
	f.States = append(f.States, out)
}

func (s *FitState) add(b Body) {
	s.index[b.ID] = len(s.Bodies)
	s.Bodies = append(s.Bodies, b)
}

// moves adds what of an item moves in a state, and the room it needs.
func (s *FitState) moves(p *Placed, state State) {
	for k := range p.Item.Moves {
		m := &p.Item.Moves[k]
		if used(m.In, state, Camp, Night) {
			s.Sweeps = append(s.Sweeps, sweepOf(p, m))
		}
	}
	for k := range p.Item.Spaces {
		sp := &p.Item.Spaces[k]
		if !used(sp.In, state, Travel, Camp, Night, Stored) {
			continue
		}
		if solid, ok := spaceOf(p, sp); ok {
			s.Spaces = append(s.Spaces, FitSpace{Item: p.Item.ID, Space: *sp, Solid: solid, Box: solid.Bounds()})
		}
	}
}

// used tells whether a list of states, or its default, has s.
func used(in []string, s State, otherwise ...State) bool {
	if len(in) == 0 {
		return slices.Contains(otherwise, s)
	}
	return slices.Contains(in, string(s))
}

// solidOf makes the solid of a placed item: its outline, or its box.
func solidOf(p *Placed) (geom.Solid, bool) {
	at := geom.Vec2{X: p.At[0].V, Y: p.At[1].V}
	var o geom.Outline
	var err error
	if len(p.Item.Outline) >= 3 {
		corners := make([]geom.Vec2, 0, len(p.Item.Outline))
		for _, c := range p.Item.Outline {
			corners = append(corners, geom.Vec2{X: at.X + c.X.Else(0), Y: at.Y + c.Y.Else(0)})
		}
		if o, err = geom.NewOutline(corners); err == nil && p.Turn != 0 {
			o, err = o.Turn(at, p.Turn)
		}
	} else {
		o, err = geom.TurnedBox(at, geom.Vec2{X: p.Size[0].V, Y: p.Size[1].V}, p.Turn)
	}
	if err != nil {
		return geom.Solid{}, false
	}
	s, err := geom.NewSolid(o, p.Min[2], p.Max[2])
	return s, err == nil
}

// local makes the solid of a box given in the item's own axes: x and y from the middle, z from the underside, before turning.
func local(p *Placed, b geom.Box3) (geom.Solid, bool) {
	size := b.Size()
	mx, my := turned(b.Min.X+size.X.Half(), b.Min.Y+size.Y.Half(), p.Turn)
	o, err := geom.TurnedBox(geom.Vec2{X: p.At[0].V + mx, Y: p.At[1].V + my}, geom.Vec2{X: size.X, Y: size.Y}, p.Turn)
	if err != nil {
		return geom.Solid{}, false
	}
	s, err := geom.NewSolid(o, p.At[2].V+b.Min.Z, p.At[2].V+b.Max.Z)
	return s, err == nil
}

// beside returns the box in front of a face, so deep, in the item's own axes.
func beside(p *Placed, side string, depth unit.Length) (geom.Box3, bool) {
	hx, hy, h := p.Size[0].V.Half(), p.Size[1].V.Half(), p.Size[2].V
	b := geom.Box3{Min: geom.Vec3{X: -hx, Y: -hy}, Max: geom.Vec3{X: hx, Y: hy, Z: h}}
	switch side {
	case "front":
		b.Min.X, b.Max.X = -hx-depth, -hx
	case "rear":
		b.Min.X, b.Max.X = hx, hx+depth
	case "left":
		b.Min.Y, b.Max.Y = -hy-depth, -hy
	case "right":
		b.Min.Y, b.Max.Y = hy, hy+depth
	case "top":
		b.Min.Z, b.Max.Z = h, h+depth
	case "bottom":
		b.Min.Z, b.Max.Z = -depth, 0
	default:
		return b, false
	}
	return b, depth > 0
}

func spaceOf(p *Placed, s *doc.Space) (geom.Solid, bool) {
	d, ok := s.Depth.Get()
	if !ok {
		return geom.Solid{}, false
	}
	b, ok := beside(p, s.Side, d)
	if !ok {
		return geom.Solid{}, false
	}
	return local(p, b)
}

// shell gathers the sections, or those of the class.
func (f *Fit) shell(b doc.Build, c Context, placed map[State][]*Placed) {
	s := b.Van.Shell
	f.Shell.From = s.From
	if len(s.Sections) == 0 {
		s = c.Class(b.Van.Class).Van.Shell
		f.Shell.From = "class"
	}
	f.Shell.Linings = s.Linings
	for i := range s.Sections {
		k := &s.Sections[i]
		x, ok := k.X.Get()
		if !ok {
			continue
		}
		left := wall(k.Left)
		right := wall(k.Right)
		if len(right) == 0 {
			for _, v := range left {
				right = append(right, geom.Vec2{X: -v.X, Y: v.Y})
			}
		}
		if len(left) < 2 || len(right) < 2 {
			continue
		}
		f.Shell.Sections = append(f.Shell.Sections, FitSection{X: x, Left: left, Right: right, Half: k.Half.Else(0)})
	}
	slices.SortStableFunc(f.Shell.Sections, func(a, b FitSection) int { return cmp.Compare(a.X, b.X) })
	f.Shell.Known = len(f.Shell.Sections) >= 2
	for i := range placed[Travel] {
		p := placed[Travel][i]
		if r, ok := p.Item.Recess.Get(); ok && p.Boxed {
			if d, ok := r.Deep.Get(); ok {
				f.Shell.Recesses = append(f.Shell.Recesses, FitRecess{ID: p.Item.ID, Left: r.Side == "left", From: geom.Vec2{X: p.Min[0], Y: p.Min[2]}, To: geom.Vec2{X: p.Max[0], Y: p.Max[2]}, Depth: d})
			}
		}
		if r, ok := p.Item.Raise.Get(); ok && p.Boxed {
			if h, ok := r.High.Get(); ok {
				f.Shell.Raises = append(f.Shell.Raises, FitRaise{ID: p.Item.ID, From: geom.Vec2{X: p.Min[0], Y: p.Min[1]}, To: geom.Vec2{X: p.Max[0], Y: p.Max[1]}, High: h, Open: map[State]bool{Camp: true, Night: true}})
			}
		}
	}
}

func wall(corners []doc.Corner) []geom.Vec2 {
	out := make([]geom.Vec2, 0, len(corners))
	for _, c := range corners {
		y, okY := c.Y.Get()
		z, okZ := c.Z.Get()
		if okY && okZ {
			out = append(out, geom.Vec2{X: y, Y: z})
		}
	}
	return out
}

// people gathers the party.
func (f *Fit) people(b doc.Build) {
	for i := range b.Loading.Party {
		d := &b.Loading.Party[i]
		p := FitPerson{ID: d.ID, Path: "loading/party/" + d.ID, Name: d.Name, Child: d.Child.Else(false)}
		if p.Name == "" {
			p.Name = d.ID
		}
		p.Height.Path, p.Mass.Path = p.Path+"/height", p.Path+"/mass"
		if h, ok := d.Height.Get(); ok {
			p.Height = given(h, p.Height.Path)
		}
		if m, ok := d.Mass.Get(); ok {
			p.Mass = given(m, p.Mass.Path)
		}
		f.People = append(f.People, p)
	}
	for i := range b.Loading.Carried {
		d := &b.Loading.Carried[i]
		k := FitCarried{ID: d.ID, Path: "loading/carried/" + d.ID, Name: d.Name, In: d.In, On: d.On}
		if k.Name == "" {
			k.Name = d.ID
		}
		for j, o := range [3]doc.Opt[unit.Length]{d.Size.X, d.Size.Y, d.Size.Z} {
			k.Size[j].Path = k.Path + "/size/" + axisName[j]
			if l, ok := o.Get(); ok {
				k.Size[j] = given(l, k.Size[j].Path)
			}
		}
		f.Carried = append(f.Carried, k)
	}
}

// Body returns the body of an item in the state, nil when it has none.
func (s *FitState) Body(id string) *Body {
	if i, ok := s.index[id]; ok {
		return &s.Bodies[i]
	}
	return nil
}
