package sheet

import (
	"slices"
	"strconv"
	"strings"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/drawing"
	"berthwright/paper"
	"berthwright/unit"
)

// fitStatus is how far a paper that touches the shell may be relied on, and why not further. A generic shell grants nothing: at
// most for quotation (design.md 2.8).
func (s *Sheet) fitStatus(holes bool) (check.Status, []string) {
	f := s.fitIn()
	var talk, quote []string
	switch {
	case !f.Shell.Known:
		talk = append(talk, "no inner cross-section of this van is measured, and its class gives none")
	case f.Shell.From == "class" || f.Shell.From == "":
		quote = append(quote, "the inner shape is that of a class of van: no cut-out, no hard point, no pillar and no clear space under the floor is granted by it; measure this van")
	case f.Shell.From == "instruction":
		quote = append(quote, "the inner shape is from the base maker's instruction, not measured on this van")
	}
	for _, l := range []struct {
		v    derive.Val[unit.Length]
		name string
	}{{s.van.Bulkhead, "the bulkhead line"}, {s.van.RearDoor, "the rear door line"}, {s.van.Finished, "the finished floor"}} {
		switch {
		case !l.v.Known():
			talk = append(talk, l.name+" is not known")
		case l.v.How == derive.Assumed:
			quote = append(quote, l.name+" is assumed, not measured")
		}
	}
	if holes {
		for i, h := range f.Holes {
			switch {
			case !h.Known:
				quote = append(quote, holeMark(i)+" "+h.Name+" has no size or no place")
			case h.Hole.Behind == "" || h.Hole.Looked == "":
				quote = append(quote, "nobody is named who looked behind "+holeMark(i)+" "+h.Name)
			}
		}
	}
	switch {
	case len(talk) > 0:
		return check.ForTalk, append(talk, quote...)
	case len(quote) > 0:
		return check.ForQuotation, quote
	}
	return check.ForBuilding, nil
}

// PaperStatus is how far a paper may be relied on, by the name of its file; what touches the shell no further than it is measured.
func (s *Sheet) PaperStatus(file string) check.Status {
	weight, _ := s.Weight.Status()
	shape, _ := s.fitStatus(false)
	holes, _ := s.fitStatus(true)
	name, _, _ := strings.Cut(file, ".")
	switch name {
	case "hole-register", "templates":
		return holes
	case "fixing-map", "states":
		return shape
	case "drawing":
		return min(weight, shape)
	}
	return weight
}

// less tells whether a status goes less far than another, by their words.
func less(a, b string) bool {
	order := []string{check.ForTalk.String(), check.ForQuotation.String(), check.ForBuilding.String()}
	return slices.Index(order, a) < slices.Index(order, b)
}

func (s *Sheet) fitHead(i Issue, holes bool) (paper.Head, []string) {
	h := s.head(i)
	status, why := s.fitStatus(holes)
	h.Status = status.String()
	return h, why
}

// FixingMap sets the fixing map as a PDF: left wall, right wall, then floor and roof.
func (s *Sheet) FixingMap(i Issue) ([]byte, error) {
	head, why := s.fitHead(i, false)
	set := paper.FixingSet{Head: head, Why: why, Sign: []paper.Signature{{Role: "foreman"}, {Role: "electrician, for the wires"}, {Role: "gas engineer, for the pipes"}}}
	for k, w := range []struct{ view, name string }{{"wall-left", "left wall"}, {"wall-right", "right wall"}, {"", "floor, roof and seats"}} {
		p := paper.FixingWall{Name: w.name}
		var ids map[string]bool
		p.Rows, ids = s.fixingRows(w.view)
		high := paper.MapHeight
		if len(p.Rows) == 0 {
			high -= paper.NothingFixed
		}
		if k == 0 && len(why) > 0 {
			high -= paper.WhyLine * float64(1+len(why))
		}
		if w.view == "" {
			p.Scene = s.fixedBelow(ids)
			p.Cautions = []string{"Seats, belts and their fixings go in by the tested evidence for this floor, by nothing else; gas and slung tanks by their fitting instructions. An examiner decides."}
		} else {
			in := s.DrawingOf(w.view, derive.Travel, nil)
			p.Scene = fitInto(paper.MapWidth, high, func(by float64) drawing.Scene {
				sc, _ := Scene(in, w.view, drawing.Options{Scale: by, Grid: true, Dimensions: true, Labels: true, Fixings: true})
				return sc
			})
		}
		set.Walls = append(set.Walls, p)
	}
	return paper.FixingMap(set)
}

// fitInto draws at the largest usual scale at which a scene fits; nothing when none does.
func fitInto(w, h float64, draw func(by float64) drawing.Scene) drawing.Scene {
	for _, by := range scales {
		if s := draw(by); s.Extent.W()/by <= w && s.Extent.H()/by <= h {
			return s
		}
	}
	return drawing.Scene{}
}

// fixedBelow draws the things with these ids in plan, and the holes in the roof; nothing when none has a place.
func (s *Sheet) fixedBelow(ids map[string]bool) drawing.Scene {
	in := s.DrawingOf("plan", derive.Travel, nil)
	in.Things = slices.DeleteFunc(in.Things, func(t drawing.Thing) bool { return !ids[t.ID] })
	in.Axles, in.Centre, in.Curve = nil, nil, nil
	if len(in.Things) == 0 {
		return drawing.Scene{}
	}
	return fitInto(paper.MapWidth, paper.MapHeight-10, func(by float64) drawing.Scene {
		return drawing.Plan(in, drawing.Options{Scale: by, Grid: true, Dimensions: true, Overall: true, Labels: true, Hidden: true})
	})
}

// fixingRows lists what is fixed to a wall ("": to floor, roof, or from wall to wall outside), and the ids of those things.
func (s *Sheet) fixingRows(view string) ([]paper.FixingRow, map[string]bool) {
	ids := map[string]bool{}
	sys, f := s.System(), s.fitIn()
	placed := s.Placed(derive.Travel)
	var out []paper.FixingRow
	van := drawVan(s.van)
	for k := range f.Fixings {
		x := &f.Fixings[k]
		at := slices.IndexFunc(placed, func(p derive.Placed) bool { return p.Item.ID == x.ID })
		if !x.Given || at < 0 || fixedWords(placed[at].Item) == "" {
			continue
		}
		p := &placed[at]
		t, ok := thing(p, s.van, sys)
		left, right := ok && drawing.AtWall(t, van, true), ok && drawing.AtWall(t, van, false)
		if p.Item.On != "" && p.Item.On != "inside" || x.Fixing.Into == "floor" || x.Fixing.Into == "rail" {
			left, right = false, false
		}
		switch {
		case view == "wall-left" && !left, view == "wall-right" && !right, view == "" && (left || right):
			continue
		}
		row := paper.FixingRow{Number: strconv.Itoa(p.Number), Name: x.Name, Mass: bare(x.Mass, 1, sys), Size: x.Fixing.Size, Into: x.Fixing.Into, Paper: x.Fixing.Paper}
		if left && right {
			row.Name += " (to both walls)"
		}
		if n, ok := x.Fixing.Count.Get(); ok {
			row.Count = strconv.Itoa(n)
		}
		var words []string
		for j, t := range s.Tapes(p, derive.Travel) {
			if j < 3 {
				words = append(words, t.Text)
			}
		}
		row.Place = strings.Join(words, "; ")
		out = append(out, row)
		ids[x.ID] = true
	}
	return out, ids
}

// StateSheets sets a set of sheets as one PDF: plan, both elevations, both inner walls and three sections in each of the states
// travel, camp and night, at true scale.
func (s *Sheet) StateSheets(i Issue) ([]byte, error) {
	head, why := s.fitHead(i, false)
	var views []drawing.Scene
	var parts []drawing.Part
	for _, state := range [...]derive.State{derive.Travel, derive.Camp, derive.Night} {
		for _, v := range Views {
			if v == "section" {
				continue
			}
			in := s.DrawingOf(v, state, nil)
			if v == "plan" && parts == nil {
				parts = drawing.Parts(in)
			}
			o := drawing.Full(20)
			if state != derive.Travel {
				o.Band = false // what is spread along the van does not move
			}
			sc, _ := Scene(in, v, o)
			views = append(views, sc)
		}
		views = append(views, s.sections(state)...)
	}
	notes := drawingNotes()
	for _, w := range why {
		notes = append(notes, wrapNote("Not for building: "+w)...)
	}
	pages, err := drawing.Sheets(views, parts, drawing.SheetInfo{Workshop: head.Workshop, Build: head.Build, Title: "states", Status: head.Status,
		Revision: head.Revision, Date: head.Date, Hash: head.Hash, Program: head.Program, System: s.System(), Notes: notes})
	if err != nil {
		return nil, err
	}
	return drawing.PDF(pages, drawing.Meta{Title: head.Build + ": states", Subject: "Plan, elevations and sections in each state", Author: head.Workshop, Program: Program, Date: i.Made, Language: "en"})
}

// drawingNotes are the cautions of every drawing sheet.
func drawingNotes() []string {
	out := wrapNote("Look and feel behind both faces before you cut or drill.")
	return append(out, wrapNote("Seats, belts and structure go by tested evidence and the base maker, gas and mains by local codes and licensed people: not by this drawing.")...)
}

// wrapNote breaks a note into lines for the margin of a sheet.
func wrapNote(words string) []string {
	const most = 40
	var out []string
	line := ""
	for _, w := range strings.Fields(words) {
		if line != "" && len(line)+1+len(w) > most {
			out = append(out, line)
			line = ""
		}
		line = strings.TrimSpace(line + " " + w)
	}
	return append(out, line)
}

// sections draws the three sections of a state, each as large as an A3 sheet allows.
func (s *Sheet) sections(state derive.State) []drawing.Scene {
	at := s.Stations()
	in := s.Drawing(state, nil)
	in.Cuts = s.cuts(state, at)
	var out []drawing.Scene
	for _, x := range at {
		var sc drawing.Scene
		for _, by := range [...]float64{10, 20} {
			if sc = drawing.Section(in, x, drawing.Full(by)); drawing.OnA3(sc) {
				break
			}
		}
		out = append(out, sc)
	}
	return out
}
