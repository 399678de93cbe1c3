package sheet

import (
	"fmt"

	"berthwright/axle"
	"berthwright/check"
	"berthwright/derive"
	"berthwright/drawing"
	"berthwright/unit"
)

// Drawing returns what the views of one state are drawn from. against, when not nil, is laid under it as ghosts where an
// item was elsewhere or is gone.
func (s *Sheet) Drawing(state derive.State, against *Sheet) drawing.Input {
	sys := s.System()
	in := drawing.Input{System: sys, State: string(state), Name: s.name(), Van: drawVan(s.van)}
	marked := s.marked()
	placed := s.Placed(state)
	for i := range placed {
		if t, ok := thing(&placed[i], s.van, sys); ok {
			t.Marked = marked[placed[i].Path]
			in.Things = append(in.Things, t)
		}
	}
	if against != nil {
		in.Things = append(in.Things, ghosts(placed, against.Placed(state), s.van, sys)...)
	}
	s.fitDrawing(&in, state)
	w := s.Weight
	if state == derive.Travel { // what the axles carry is judged on the road, and said of no other state
		in.Axles = s.axles(sys)
		if w.Deciding >= 0 {
			in.Centre = s.centre(w.Cases[w.Deciding].Split, sys)
		} else if w.Known {
			in.Centre = s.centre(w.Base, sys)
		}
	}
	for _, p := range w.Added() {
		if !p.Free {
			in.Curve = append(in.Curve, drawing.CurvePoint{X: p.X, Mass: p.Kg})
		}
	}
	for i := range in.Curve { // figures at both ends and at the highest point
		top := true
		for j := range in.Curve {
			top = top && in.Curve[i].Mass >= in.Curve[j].Mass
		}
		if i == 0 || i == len(in.Curve)-1 || top {
			in.Curve[i].Text = check.Kg(in.Curve[i].Mass).Text(sys)
		}
	}
	return in
}

func (s *Sheet) name() string {
	if s.Build.Head.Name != "" {
		return s.Build.Head.Name
	}
	return s.Build.Head.ID
}

// marked lists the paths of items that a finding which does not hold, or is tight or unknown, speaks of.
func (s *Sheet) marked() map[string]bool {
	out := map[string]bool{}
	for _, f := range s.Weight.Findings {
		if f.Check != "mass-missing" {
			continue
		}
		for _, m := range f.Missing {
			if p, ok := itemPath(m.Path); ok {
				out[p] = true
			}
		}
	}
	return out
}

// itemPath cuts a path down to its item.
func itemPath(path string) (string, bool) {
	const head = "items/"
	if len(path) <= len(head) || path[:len(head)] != head {
		return "", false
	}
	for i := len(head); i < len(path); i++ {
		if path[i] == '/' {
			return path[:i], true
		}
	}
	return path, true
}

func opt(v derive.Val[unit.Length]) unit.Opt[unit.Length] {
	if v.Known() {
		return unit.Some(v.V)
	}
	return unit.Opt[unit.Length]{}
}

func drawVan(v derive.Van) drawing.Van {
	d := drawing.Van{
		Length: opt(v.Length), Width: opt(v.Width), Height: opt(v.Height), FrontOverhang: opt(v.Overhang), Wheelbase: opt(v.Wheelbase),
		TrackFront: opt(v.TrackFront), TrackRear: opt(v.TrackRear), FloorHeight: opt(v.FloorHigh), FinishedFloor: opt(v.Finished), Ceiling: opt(v.Ceiling),
		Bulkhead: opt(v.Bulkhead), RearDoor: opt(v.RearDoor), LeftWall: opt(v.Left), RightWall: opt(v.Right), Door: v.Door.V, Wheel: v.Steering.V,
	}
	if v.Door.V == "none" || v.Door.V == "both" {
		d.Door = ""
	}
	if v.BoxFront.Known() && v.BoxRear.Known() && v.BoxInner.Known() && v.Left.Known() && v.Right.Known() {
		d.WheelBoxes = []drawing.WheelBox{
			{X0: v.BoxFront.V, X1: v.BoxRear.V, Y0: v.Left.V, Y1: -v.BoxInner.V, Top: opt(v.BoxHigh)},
			{X0: v.BoxFront.V, X1: v.BoxRear.V, Y0: v.BoxInner.V, Y1: v.Right.V, Top: opt(v.BoxHigh)},
		}
	}
	return d
}

// thing draws one item; ok is false for one that is not in the van in this state, or has neither body nor place.
func thing(p *derive.Placed, v derive.Van, sys unit.System) (drawing.Thing, bool) {
	it := p.Item
	if p.Away {
		return drawing.Thing{}, false
	}
	t := drawing.Thing{ID: it.ID, Doc: p.Path, Number: p.Number, Name: p.Name(), Layer: it.Group, Removed: it.Removed.Else(false)}
	if it.InTicket.Else(false) {
		t.Number = 0
	}
	if m, ok := it.Mass.Get(); ok {
		total := m.Value.Times(float64(it.Count.Else(1)))
		t.Light = total < 3*unit.Kilogram
		t.Mass = check.Figure{Kind: unit.KindMass, SI: total.Kilograms(), Digits: 1}.Text(sys)
	}
	for k, to := range [3]*unit.Length{&t.Centre.X, &t.Centre.Y, &t.Centre.Z} {
		*to = p.Centre[k].V
	}
	place := it.Place
	t.Measured = place.Bulkhead.Given() || place.RearDoor.Given()
	switch {
	case p.Boxed:
		for _, c := range p.Outline() {
			t.Outline = append(t.Outline, drawing.At{X: c[0], Y: c[1]})
		}
		t.Z0, t.Z1 = p.Min[2], p.Max[2]
	case p.Stretch:
		t.Kind, t.X0, t.X1 = drawing.Spread, p.Span[0], p.Span[1]
	case it.Zone != "" && p.At[0].How == derive.Assumed:
		along, side, _ := derive.ZoneWords(it.Zone)
		from, to, ok := v.ZoneSpan(along)
		if !ok {
			return t, false
		}
		left, right := v.Left.V, v.Right.V
		switch side {
		case "left":
			right = left.Times(1.0 / 3)
		case "right":
			left = right.Times(1.0 / 3)
		default:
			left, right = left.Times(1.0/3), right.Times(1.0/3)
		}
		t.Kind = drawing.Zone
		t.Outline = []drawing.At{{X: from, Y: left}, {X: to, Y: left}, {X: to, Y: right}, {X: from, Y: right}}
		t.Z0, t.Z1 = p.Centre[2].V, p.Centre[2].V
	case p.Centre[0].Known():
		t.Kind = drawing.MassOnly
	default:
		return t, false
	}
	return t, true
}

// ghosts draws where items of an earlier build were, when that is elsewhere or they are gone.
func ghosts(now, before []derive.Placed, v derive.Van, sys unit.System) []drawing.Thing {
	at := map[string]*derive.Placed{}
	for i := range now {
		at[now[i].Item.ID] = &now[i]
	}
	var out []drawing.Thing
	for i := range before {
		old := &before[i]
		if p, ok := at[old.Item.ID]; ok && p.Min == old.Min && p.Max == old.Max && p.Turn == old.Turn && p.Away == old.Away {
			continue
		}
		if t, ok := thing(old, v, sys); ok && t.Kind == drawing.Item {
			t.ID, t.Ghost, t.Number = "ghost-"+t.ID, true, 0
			out = append(out, t)
		}
	}
	return out
}

// axles words the load under each axle in that axle's own worst case, as its finding tells it.
func (s *Sheet) axles(sys unit.System) []drawing.AxleLoad {
	w := s.Weight
	var out []drawing.AxleLoad
	for _, a := range [...]struct {
		id, name string
		x        unit.Length
	}{{"front", "front axle", 0}, {"rear", "rear axle", w.Geometry.Wheelbase}} {
		c, ok := w.Judged(a.id)
		f, found := w.Plated(a.id)
		if !ok || !found {
			continue
		}
		l := drawing.AxleLoad{X: a.x, Text: a.name + " " + check.Kg(c.Worst.Value).Text(sys), Sub: "its own worst case"}
		if lim, ok := f.Limit.Get(); ok {
			l.Text += " of " + lim.Text(sys)
		}
		m, ok := f.Margin.Get()
		h, hok := f.Half.Get()
		switch {
		case !ok || !hok:
			l.Sub += ": not known yet"
		case m.SI < 0:
			m.SI = -m.SI
			l.Sub = fmt.Sprintf("%s over, ± %s, %s: %s", m.Text(sys), h.Text(sys), l.Sub, f.Verdict.Says())
		default:
			l.Sub = fmt.Sprintf("%s in hand, ± %s, %s: %s", m.Text(sys), h.Text(sys), l.Sub, f.Verdict.Says())
		}
		out = append(out, l)
	}
	return out
}

// centre words the centre of mass, in van axes.
func (s *Sheet) centre(split axle.Split, sys unit.System) *drawing.CentrePoint {
	x, okX := split.Centre.X.Get()
	y, okY := split.Centre.Y.Get()
	z, okZ := split.Centre.Z.Get()
	if !okX || !okY || !okZ || !s.van.FloorHigh.Known() {
		return nil
	}
	return &drawing.CentrePoint{X: x, Y: y, Z: z - s.van.FloorHigh.V, Text: "centre of mass, " + check.Kg(split.Total).Text(sys)}
}

// Views are the views that can be drawn.
var Views = []string{"plan", "left", "right", "rear", "wall-left", "wall-right", "section"}

// Scene draws one view; ok is false for a view that is not known. "section" cuts half way along the floor, "section@2400" at
// 2 400 mm from the front axle; in must come from DrawingOf for the wall's curve to be known there.
func Scene(in drawing.Input, view string, o drawing.Options) (drawing.Scene, bool) {
	switch view {
	case "plan":
		return drawing.Plan(in, o), true
	case "left":
		return drawing.SideLeft(in, o), true
	case "right":
		return drawing.SideRight(in, o), true
	case "rear":
		return drawing.Rear(in, o), true
	case "wall-left":
		return drawing.WallLeft(in, o), true
	case "wall-right":
		return drawing.WallRight(in, o), true
	case "section":
		b, okB := in.Van.Bulkhead.Get()
		r, okR := in.Van.RearDoor.Get()
		if okB && okR {
			x := b + (r - b).Half()
			view = SectionView(x - x%(10*unit.Millimetre))
		}
	}
	if x, ok := sectionAt(view); ok {
		return drawing.Section(in, x, o), true
	}
	return drawing.Scene{}, false
}

// View draws one view as svg, pdf or dxf; a PDF is a sheet at a true scale with title block and parts list.
func (s *Sheet) View(view string, state derive.State, form string, scale float64, i Issue) ([]byte, error) {
	in := s.DrawingOf(view, state, nil)
	scene, ok := Scene(in, view, drawing.Full(scale))
	if !ok {
		return nil, noView(view)
	}
	switch form {
	case "svg":
		return drawing.SVG(scene), nil
	case "dxf":
		return drawing.DXF(scene), nil
	case "pdf":
		h, why := s.fitHead(i, false)
		if weight := s.head(i).Status; less(weight, h.Status) { // the drawing says what the axles carry, too
			h.Status = weight
		}
		notes := drawingNotes()
		for _, w := range why {
			notes = append(notes, wrapNote("Not for building: "+w)...)
		}
		pages, err := drawing.Sheets([]drawing.Scene{scene}, drawing.Parts(in), drawing.SheetInfo{
			Workshop: h.Workshop, Build: h.Build, Title: view, Status: h.Status, Revision: h.Revision, Date: h.Date, Hash: h.Hash, Program: h.Program, System: in.System,
			Notes: notes,
		})
		if err != nil {
			return nil, err
		}
		return drawing.PDF(pages, drawing.Meta{Title: h.Build + ", " + view, Program: Program, Date: i.Made, Language: "en"})
	}
	return nil, fmt.Errorf("no form %q; end the file name in .svg, .pdf or .dxf", form)
}
