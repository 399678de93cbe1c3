package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/drawing"
	"berthwright/geom"
	"berthwright/unit"
)

// outlines holds what drawings take from the fit concern, made when it is first asked for.
type outlines struct {
	inOnce, shapeOnce sync.Once
	in                derive.Fit
	shape             *check.Fit
}

// fitIn is the input of the fit concern.
func (s *Sheet) fitIn() *derive.Fit {
	s.outlines.inOnce.Do(func() { s.outlines.in = derive.MakeFit(s.Build, s.ctx) })
	return &s.outlines.in
}

// shape is the van's inside, bare and lined, without the slower checks.
func (s *Sheet) shape() *check.Fit {
	s.outlines.shapeOnce.Do(func() { s.outlines.shape = check.AssessFitMoving(*s.fitIn(), s.Pack) })
	return s.outlines.shape
}

// fitDrawing adds to in what the fit concern knows in a state: holes, pillars and ribs, doors; and to each thing what it stands
// in and how it is fixed.
func (s *Sheet) fitDrawing(in *drawing.Input, state derive.State) {
	f := s.fitIn()
	in.Holes = s.holes()
	for _, m := range f.Frames {
		x, ok := m.Frame.X.Get()
		if !ok {
			continue
		}
		in.Members = append(in.Members, drawing.Member{ID: m.Frame.ID, Doc: m.Path, Kind: m.Frame.Kind, Face: m.Frame.Side, X: x, Width: m.Frame.Width.Else(0),
			Low: m.Frame.Low.Else(0), High: m.Frame.High.Else(0), Text: m.Frame.Content})
	}
	for _, d := range f.Doors {
		o := d.Opening
		from, ok := o.From.Get()
		to, ok2 := o.To.Get()
		if !ok || !ok2 {
			continue
		}
		in.Doors = append(in.Doors, drawing.Door{ID: o.ID, Doc: d.Path, Name: strings.ReplaceAll(o.Kind, "-", " "), Face: o.Side, From: from, To: to, Low: o.Low.Else(0), High: o.High.Else(0)})
	}
	s.enrich(in, f, state)
}

// enrich fills what a thing stands in, where it is carried and how it is fixed.
func (s *Sheet) enrich(in *drawing.Input, f *derive.Fit, state derive.State) {
	index := make(map[string]int, len(in.Things))
	for i := range in.Things {
		if !in.Things[i].Ghost {
			index[in.Things[i].ID] = i
		}
	}
	for i := range s.Build.Items {
		it := &s.Build.Items[i]
		k, ok := index[it.ID]
		if !ok {
			continue
		}
		t := &in.Things[k]
		t.Holds = len(it.Contents) > 0
		t.Outside = it.On != "" && it.On != "inside"
		if h, ok := it.Hole.Get(); ok && h.Face != "inside" {
			t.InSkin = true
		}
		t.Fixed = fixedWords(it)
	}
	for si := range f.States {
		if f.States[si].State != state {
			continue
		}
		for i := range f.States[si].Bodies {
			b := &f.States[si].Bodies[i]
			if k, ok := index[b.ID]; ok {
				in.Things[k].Within = b.Within
				if it := s.item(b.ID); it != nil && len(it.Outline) > 2 && in.Things[k].Kind == drawing.Item {
					in.Things[k].Outline = in.Things[k].Outline[:0]
					for _, c := range b.Solid.Outline.Corners() {
						in.Things[k].Outline = append(in.Things[k].Outline, drawing.At{X: c.X, Y: c.Y})
					}
				}
			}
		}
	}
}

func (s *Sheet) item(id string) *doc.Item {
	for i := range s.Build.Items {
		if s.Build.Items[i].ID == id {
			return &s.Build.Items[i]
		}
	}
	return nil
}

// fixedWords says how an item is fixed into wall, roof or floor; "" when it is not, or only into furniture.
func fixedWords(it *doc.Item) string {
	x, ok := it.Fixing.Get()
	if !ok || x.Into == "" || x.Into == "furniture" {
		return ""
	}
	size := x.Size
	if n, ok := x.Count.Get(); ok {
		size = strings.TrimSpace(strconv.Itoa(n) + " × " + size)
	}
	return strings.TrimSpace(size + " into " + x.Into)
}

// shells returns the bare inside and the lined one in a state; ok is false when they are not known.
func shells(f *check.Fit, state derive.State) (bare, lined geom.Shell, ok bool) {
	if !f.Shape {
		return bare, lined, false
	}
	lined = f.Lined
	var up []geom.Raise
	for _, r := range f.In.Shell.Raises {
		if r.Open[state] {
			up = append(up, geom.Raise{From: r.From.X, To: r.To.X, Left: r.From.Y, Right: r.To.Y, High: r.High})
		}
	}
	if raised, err := lined.Raised(up); err == nil {
		lined = raised
	}
	return f.Bare, lined, true
}

// cuts makes the cross-sections at the measured stations and at xs, in rising x.
func (s *Sheet) cuts(state derive.State, xs []unit.Length) []drawing.Cut {
	f := s.shape()
	bare, lined, ok := shells(f, state)
	if !ok {
		return nil
	}
	var out []drawing.Cut
	for _, x := range xs {
		b, err := bare.Section(x)
		l, err2 := lined.Section(x)
		if err != nil || err2 != nil {
			continue
		}
		out = append(out, drawing.Cut{X: x, Bare: curve(b), Lined: curve(l), Floor: floorLayers(f, x, s.System())})
	}
	return out
}

func curve(cs []geom.Corner) []drawing.YZ {
	out := make([]drawing.YZ, len(cs))
	for i, c := range cs {
		out[i] = drawing.YZ{Y: c.Y, Z: c.Z}
	}
	return out
}

// floorLayers is the build-up of the floor at x.
func floorLayers(f *check.Fit, x unit.Length, sys unit.System) []drawing.Level {
	var out []drawing.Level
	var z unit.Length
	for _, l := range f.In.Shell.Linings {
		from, okF := l.From.Get()
		to, okT := l.To.Get()
		if l.Face != "floor" || okF && x < from || okT && x > to {
			continue
		}
		for _, p := range []struct {
			name string
			t    doc.Opt[unit.Length]
		}{{"insulation", l.Insulation}, {"panel", l.Panel}} {
			if t, ok := p.t.Get(); ok && t > 0 {
				z += t
				out = append(out, drawing.Level{Z: z, Text: unit.Format(t, sys, -1) + " " + p.name})
			}
		}
	}
	return out
}

// holes lists the holes to cut, numbered in the order of the file.
func (s *Sheet) holes() []drawing.Hole {
	var out []drawing.Hole
	for i, h := range s.fitIn().Holes {
		if !h.Known {
			continue
		}
		out = append(out, drawing.Hole{ID: h.ID, Doc: h.Path, Name: h.Name, Mark: holeMark(i), Face: h.Hole.Face,
			Lo: [2]unit.Length{h.From.X, h.From.Y}, Hi: [2]unit.Length{h.To.X, h.To.Y}, Radius: h.Hole.Radius.Else(0), Frame: h.Hole.Frame.Else(0)})
	}
	return out
}

// holeMark is the number of a hole on drawings and in the register, from 0.
func holeMark(i int) string { return "H" + strconv.Itoa(i+1) }

// Stations are the stations of the three sections of a set of drawings: a sixth, a half and five sixths of the way from the
// bulkhead line to the rear door line, to whole centimetres; none when a line is not known.
func (s *Sheet) Stations() []unit.Length {
	v := s.van
	if !v.Bulkhead.Known() || !v.RearDoor.Known() {
		return nil
	}
	var out []unit.Length
	for _, f := range [3]float64{1.0 / 6, 1.0 / 2, 5.0 / 6} {
		x := v.Bulkhead.V + (v.RearDoor.V - v.Bulkhead.V).Times(f)
		out = append(out, x-x%(10*unit.Millimetre))
	}
	return out
}

// sectionAt reads the station of a section view, "section@2400": millimetres from the front axle.
func sectionAt(view string) (unit.Length, bool) {
	text, ok := strings.CutPrefix(view, "section@")
	if !ok {
		return 0, false
	}
	n, err := strconv.ParseFloat(text, 64)
	if err != nil || !(n >= -2000 && n <= 12000) {
		return 0, false
	}
	return unit.MetresLength(n / 1000), true
}

// SectionView is the name of the section at x, in millimetres from the front axle.
func SectionView(x unit.Length) string {
	return "section@" + strconv.FormatFloat(x.Millimetres(), 'f', -1, 64)
}

// DrawingOf is Drawing with the cross-sections that a view asks for: of "section@2400" the one there, of a wall those at the
// measured stations.
func (s *Sheet) DrawingOf(view string, state derive.State, against *Sheet) drawing.Input {
	in := s.Drawing(state, against)
	switch x, ok := sectionAt(view); {
	case ok:
		in.Cuts = s.cuts(state, []unit.Length{x})
	case view == "section":
		if at := s.Stations(); len(at) == 3 {
			in.Cuts = s.cuts(state, at[1:2])
		}
	case view == "wall-left" || view == "wall-right":
		var xs []unit.Length
		for _, k := range s.fitIn().Shell.Sections {
			xs = append(xs, k.X)
		}
		in.Cuts = s.cuts(state, xs)
	}
	return in
}

// HasView tells whether Scene knows a view.
func HasView(view string) bool {
	_, at := sectionAt(view)
	return at || slices.Contains(Views, view)
}

// noView says which views there are.
func noView(view string) error {
	return fmt.Errorf("no view %q; there are %s, and section@ with millimetres from the front axle", view, strings.Join(Views, ", "))
}
