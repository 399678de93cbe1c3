package sheet

import (
	"fmt"
	"strings"

	"berthwright/derive"
	"berthwright/paper"
	"berthwright/unit"
)

// feature is something one can touch and tape from on a face.
type feature struct {
	name string
	at   unit.Length
}

// nearest says how far an edge of a hole is from the nearest feature before or behind it.
func nearest(lo, hi unit.Length, fs []feature, near, far string, sys unit.System) string {
	best, words := unit.Length(1<<62), ""
	for _, f := range fs {
		for _, d := range []struct {
			l    unit.Length
			edge string
		}{{lo - f.at, near}, {f.at - hi, far}} {
			if d.l >= 0 && d.l < best {
				best, words = d.l, unit.Format(d.l, sys, -1)+" from the "+f.name+" to the "+d.edge
			}
		}
	}
	return words
}

// holeMeasures are two dimensions of a hole from features one can touch on the face it is marked on.
func (s *Sheet) holeMeasures(h *derive.FitHole) [2]string {
	sys, v, f := s.System(), s.van, s.fitIn()
	outside := h.Hole.CutFrom != "inside"
	var along, up []feature
	line := func(to *[]feature, name string, x derive.Val[unit.Length]) {
		if x.Known() {
			*to = append(*to, feature{name, x.V})
		}
	}
	for _, d := range f.Doors {
		o := d.Opening
		from, okF := o.From.Get()
		to, okT := o.To.Get()
		if o.Side != h.Hole.Face || !okF || !okT || o.Kind == "step" {
			continue
		}
		name := strings.ReplaceAll(o.Kind, "-", " ")
		if h.Hole.Face == "left" || h.Hole.Face == "right" {
			along = append(along, feature{"front edge of the " + name + " opening", from}, feature{"rear edge of the " + name + " opening", to})
		}
		within := h.Hole.Face == "rear" || h.From.X >= from && h.To.X <= to
		if low, ok := o.Low.Get(); ok && within {
			up = append(up, feature{"sill of the " + name, low})
		}
	}
	if !outside {
		for _, m := range f.Frames {
			if x, ok := m.Frame.X.Get(); ok && m.Frame.Side == h.Hole.Face {
				half := m.Frame.Width.Else(0).Half()
				place := unit.Format(x-v.Bulkhead.V, sys, -1) + " behind the bulkhead line"
				along = append(along, feature{"rear face of the " + m.Frame.Kind + " " + place, x + half}, feature{"front face of the " + m.Frame.Kind + " " + place, x - half})
			}
		}
	}
	line(&along, "rear door line", v.RearDoor)
	if !outside || len(along) < 2 {
		line(&along, "bulkhead line", v.Bulkhead)
	}
	if len(up) == 0 || !outside {
		up = append(up, feature{"bare floor, carried through a pilot hole", 0})
		if !outside {
			up[len(up)-1].name = "bare floor"
		}
	}
	middle := []feature{{"centre line (middle of the rear door posts)", 0}}
	across := func(lo, hi unit.Length) string {
		if lo < 0 && hi > 0 {
			mid := lo + (hi - lo).Half()
			if mid == 0 {
				return "its middle on the centre line (middle of the rear door posts)"
			}
			side := "right"
			if mid < 0 {
				side = "left"
			}
			return "its middle " + unit.Format(off(mid), sys, -1) + " " + side + " of the centre line (middle of the rear door posts)"
		}
		return nearest(lo, hi, middle, "left edge", "right edge", sys)
	}
	switch h.Hole.Face {
	case "roof", "floor":
		return [2]string{nearest(h.From.X, h.To.X, along, "front edge", "rear edge", sys), across(h.From.Y, h.To.Y)}
	case "rear":
		return [2]string{across(h.From.X, h.To.X), nearest(h.From.Y, h.To.Y, up, "lower edge", "upper edge", sys)}
	}
	return [2]string{nearest(h.From.X, h.To.X, along, "front edge", "rear edge", sys), nearest(h.From.Y, h.To.Y, up, "lower edge", "upper edge", sys)}
}

var faceWords = map[string]string{"left": "left side", "right": "right side", "roof": "roof", "floor": "floor", "rear": "rear doors", "inside": "inside"}

// holeSize words the size of a hole in its face.
func holeSize(h *derive.FitHole, sys unit.System) string {
	a, okA := h.Hole.Along.Get()
	c, okC := h.Hole.Up.Get()
	if !okA || !okC {
		return ""
	}
	if r, ok := h.Hole.Radius.Get(); ok && a == c && r >= a.Half() {
		return "Ø " + unit.Format(a, sys, -1)
	}
	words := map[string]string{"roof": " across", "floor": " across", "rear": " up"}[h.Hole.Face]
	first := " along"
	if h.Hole.Face == "rear" {
		first = " across"
	}
	if words == "" {
		words = " up"
	}
	return strings.TrimSuffix(unit.Format(a, sys, -1), unit.Space+"mm") + first + " × " + unit.Format(c, sys, -1) + words
}

// granted names the grant of the base maker that a hole lies in.
func (s *Sheet) granted(h *derive.FitHole) string {
	for _, g := range s.fitIn().Allowed {
		a := g.Allowed
		if a.Kind == "cut-out" && a.Side == h.Hole.Face && h.Known && a.From.Else(0) <= h.From.X && a.To.Else(0) >= h.To.X && a.Low.Else(0) <= h.From.Y && a.High.Else(0) >= h.To.Y {
			return a.Paper
		}
	}
	return ""
}

// HoleRegister sets the hole register as a PDF.
func (s *Sheet) HoleRegister(i Issue) ([]byte, error) {
	sys := s.System()
	head, why := s.fitHead(i, true)
	r := paper.Register{Head: head, Why: why}
	holes := s.fitIn().Holes
	for k := range holes {
		h := &holes[k]
		row := paper.RegisterHole{Mark: holeMark(k), Name: h.Name, Face: faceWords[h.Hole.Face], Size: holeSize(h, sys), CutFrom: h.Hole.CutFrom,
			Behind: h.Hole.Behind, Looked: h.Hole.Looked, Edge: h.Hole.Edge, Sealant: h.Hole.Sealant, Granted: s.granted(h)}
		if l, ok := h.Hole.Radius.Get(); ok {
			row.Radius = "radius " + unit.Format(l, sys, -1)
		}
		if l, ok := h.Hole.Frame.Get(); ok {
			row.Frame = unit.Format(l, sys, -1) + " all round"
		}
		if h.Known {
			row.From = s.holeMeasures(h)
		}
		r.Holes = append(r.Holes, row)
	}
	r.Sign = []paper.Signature{{Role: "marked by"}, {Role: "looked behind, second person"}, {Role: "cut by"}}
	return paper.HoleRegister(r)
}

// NoHole says that a build has no hole that can be drawn by that name.
type NoHole struct {
	Asked string
	Has   []string // marks of the holes that can be drawn
}

func (e NoHole) Error() string {
	return fmt.Sprintf("no hole with a size and a place is called %q", e.Asked)
}

// Hint names the holes there are.
func (e NoHole) Hint() string {
	if len(e.Has) == 0 {
		return "no hole of this build has a size and a place"
	}
	return "its mark in the hole register or its id: " + strings.Join(e.Has, ", ")
}

// Templates sets the templates of holes at true size as a PDF: of the one called by its mark in the hole register ("H9", as
// written or in small letters) or by its id, or of all of them for "". A name that no hole has is a NoHole.
func (s *Sheet) Templates(i Issue, hole string) ([]byte, error) {
	sys := s.System()
	head, _ := s.fitHead(i, true)
	t := paper.TemplateSet{Head: head}
	holes := s.fitIn().Holes
	var has []string
	for k := range holes {
		h := &holes[k]
		if !h.Known {
			continue
		}
		has = append(has, holeMark(k))
		if hole != "" && !strings.EqualFold(hole, holeMark(k)) && hole != h.ID {
			continue
		}
		m := s.holeMeasures(h)
		row := paper.TemplateHole{Mark: holeMark(k), Name: h.Name, Wide: h.Hole.Along.Else(0), High: h.Hole.Up.Else(0), Radius: h.Hole.Radius.Else(0), Frame: h.Hole.Frame.Else(0),
			Size: holeSize(h, sys), Measure: m[:]}
		row.Left, row.Right, row.Up, row.Seen = templateWays(h.Hole.Face, h.Hole.CutFrom == "inside")
		t.Holes = append(t.Holes, row)
	}
	if hole != "" && len(t.Holes) == 0 {
		return nil, NoHole{hole, has}
	}
	return paper.Templates(t)
}

// templateWays says what lies to the left, to the right and at the top of a template, seen from where it is marked.
func templateWays(face string, inside bool) (left, right, up, seen string) {
	left, right, up = "front", "rear", "up"
	flip := inside
	switch face {
	case "right":
		flip = !inside
	case "roof":
		up = "right side of the van"
		if inside {
			up = "left side of the van"
		}
		flip = false
	case "floor":
		up, flip = "right side of the van", false
	case "rear":
		left, right = "left side of the van", "right side of the van"
	}
	if flip {
		left, right = right, left
	}
	seen = faceWords[face] + ", marked and cut from outside"
	if inside {
		seen = faceWords[face] + ", marked and cut from inside"
	}
	return left, right, up, seen
}
