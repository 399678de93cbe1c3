package drawing

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"berthwright/drawing/fonts"
	"berthwright/unit"
)

// SheetInfo fills the title block.
type SheetInfo struct {
	Workshop, Build, Title string
	Status                 string // "for talk", "for quotation", "for building"
	Revision, Date, Drawn  string
	Hash, Program          string
	System                 unit.System // says what the dimensions are in
	Notes                  []string    // general notes, each at most a few lines
}

// Part is a row of the parts list.
type Part struct {
	Number           int
	Name, Mass, Note string
}

// Parts returns the parts list of in, by number; what is only a former place is left out.
func Parts(in Input) []Part {
	var out []Part
	for _, t := range in.Things {
		if t.Ghost {
			continue
		}
		p := Part{Number: t.Number, Name: t.Name, Mass: t.Mass}
		switch {
		case t.Removed:
			p.Note = "taken out"
		case t.Kind == Spread:
			p.Note = "spread " + dimText(t.X0, in.System) + " to " + dimText(t.X1, in.System)
		case t.Kind == Zone:
			p.Note = "place not measured"
		}
		out = append(out, p)
	}
	slices.SortStableFunc(out, func(p, q Part) int { return p.Number - q.Number })
	return out
}

// The frame of a sheet, in millimetres of paper (ISO 5457, from memory: 20 mm to bind, 10 mm else).
const (
	bindEdge   = 20.0
	plainEdge  = 10.0
	blockWidth = 64.0
)

// Sheets puts each view on a sheet of its own at its own true scale, in the smallest of A3 to A0
// that holds it, with title block, line key and scale bar, and the parts list on sheets after them.
// Where a plan is too large for A3, its stretches and its curve go on the next sheet.
func Sheets(views []Scene, parts []Part, info SheetInfo) ([]Scene, error) {
	const rows, blocks = 54, 3
	var split []Scene
	for _, v := range views {
		if !fits(v, sheetSizes[0]) {
			main, band := cutBand(v)
			split = append(split, main)
			if len(band.Prims) > 0 {
				split = append(split, band)
			}
			continue
		}
		split = append(split, v)
	}
	views = split
	lists := (len(parts) + rows*blocks - 1) / (rows * blocks)
	total := len(views) + lists
	var out []Scene
	for i, v := range views {
		s, err := viewSheet(v, info, i+1, total)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	for i := range lists {
		lo, hi := i*rows*blocks, min((i+1)*rows*blocks, len(parts))
		out = append(out, listSheet(parts[lo:hi], (hi-lo+blocks-1)/blocks, info, len(views)+i+1, total))
	}
	return out, nil
}

// sheetSizes are A3 to A0 across, in millimetres.
var sheetSizes = [...][2]float64{{420, 297}, {594, 420}, {841, 594}, {1189, 841}}

// roomOn is what a sheet leaves beside the title block, in millimetres of paper.
func roomOn(size [2]float64) (w, h float64) {
	return size[0] - bindEdge - plainEdge - blockWidth, size[1] - 2*plainEdge
}

func fits(v Scene, size [2]float64) bool {
	w, h := roomOn(size)
	return v.Extent.W()/v.Scale <= w && v.Extent.H()/v.Scale <= h
}

// OnA3 tells whether a view at its scale fits the smallest sheet.
func OnA3(v Scene) bool { return fits(v, sheetSizes[0]) }

// cutBand takes the stretches and the added-mass curve out of a plan.
func cutBand(v Scene) (main, band Scene) {
	main, band = v, v
	main.Prims, band.Prims = nil, nil
	main.Extent, band.Extent = Box{}, Box{}
	band.ID, band.View = v.ID+"-along", "masses along the van"
	group := map[string]bool{"stretches": true, "added-mass": true}
	for _, p := range v.Prims {
		if p.In == "" && p.Role == Stretch {
			group[p.ID] = true
		}
		to := &main
		if group[p.ID] || group[p.In] {
			to = &band
		}
		to.Prims = append(to.Prims, p)
		to.Extent = to.Extent.Union(p.Box())
	}
	main.Extent, band.Extent = main.Extent.Grow(2*v.Scale), band.Extent.Grow(2*v.Scale)
	return main, band
}

func viewSheet(v Scene, info SheetInfo, n, total int) (Scene, error) {
	k := v.Scale
	w, h := v.Extent.W()/k, v.Extent.H()/k
	for _, size := range sheetSizes {
		if !fits(v, size) {
			continue
		}
		roomW, roomH := roomOn(size)
		b := sheetFrame("sheet-"+v.ID, size, v.View, "1:"+trim(k), v.State, info, n, total)
		dx := bindEdge + (roomW-w)/2 - v.Extent.X0/k
		dy := plainEdge + (roomH-h)/2 - v.Extent.Y0/k
		b.sc.Prims = append(b.sc.Prims, Place(v, "", dx, dy)...)
		b.key(size, v)
		s := b.finish(0)
		s.Extent = Box{0, 0, size[0], size[1]}
		return s, nil
	}
	return Scene{}, fmt.Errorf("view \"%s\" at 1:%s needs %.0f x %.0f mm and fits on no sheet up to A0", v.ID, trim(k), w, h)
}

// Place returns the primitives of v on paper: divided by its scale, then moved by millimetres of
// paper. Every id gets the prefix.
func Place(v Scene, prefix string, dx, dy float64) []Prim {
	k := v.Scale
	out := make([]Prim, len(v.Prims))
	for i, p := range v.Prims {
		p.D = p.D.scaled(1/k, dx, dy)
		if p.Kind == Text {
			p.X, p.Y, p.Size = round3(p.X/k+dx), round3(p.Y/k+dy), p.Size/k
		}
		p.ID = prefix + p.ID
		if p.In == "" {
			p.Depth = i
		} else {
			p.In = prefix + p.In
		}
		out[i] = p
	}
	return out
}

func sheetFrame(id string, size [2]float64, view, scale, state string, info SheetInfo, n, total int) *builder {
	b := newBuilder(id, view, Input{State: state, Name: info.Build, Remarks: info.Notes}, Options{Scale: 1})
	x1, y1 := size[0]-plainEdge, size[1]-plainEdge
	x0 := x1 - blockWidth
	g := b.group(Prim{ID: "frame", Role: Frame, Layer: "sheet", Depth: depthLabels * 2})
	b.path("frame/edge", g, Frame, Rect(Box{bindEdge, plainEdge, x1, y1}), NoFill)
	b.path("frame/block", g, Frame, LineFrom(x0, plainEdge, x0, y1), NoFill)
	h := b.group(Prim{ID: "title", Role: Heading, Layer: "sheet", Title: strings.TrimSpace(view), Depth: depthLabels * 20})
	y := y1 - 82
	b.path("title/top", h, Frame, LineFrom(x0, y, x1, y), NoFill)
	field := func(id, name, value string, x, y, size float64, f fonts.Face) {
		b.text("title/"+id+"-name", h, Note, x, y+3.4, 2.2, Start, fonts.Regular, 0, name)
		if value == "" {
			value = "–"
		}
		b.text("title/"+id, h, Cell, x, y+4.4+size*0.9, size, Start, f, 0, value)
	}
	rule := func(y float64) {
		b.path("title/rule-"+trim(y), h, Rule, LineFrom(x0, y, x1, y), NoFill)
	}
	left, mid := x0+3, x0+35
	field("workshop", "workshop", info.Workshop, left, y, 4, fonts.SemiBold)
	rule(y + 10)
	field("build", "build", info.Build, left, y+10, 6, fonts.Bold)
	rule(y + 22)
	if head, tail := halves(view); fit(view, fonts.SemiBold, 4, blockWidth-6) < 3 && tail != "" {
		long := head
		if len(tail) > len(head) {
			long = tail
		}
		size := fit(long, fonts.SemiBold, 3, blockWidth-6)
		field("drawing", "drawing", head, left, y+21.5, size, fonts.SemiBold)
		b.text("title/drawing2", h, Cell, left, y+25.9+size*1.9, size, Start, fonts.SemiBold, 0, tail)
	} else {
		field("drawing", "drawing", view, left, y+22, fit(view, fonts.SemiBold, 4, blockWidth-6), fonts.SemiBold)
	}
	rule(y + 32)
	field("state", "state", state, left, y+32, 4, fonts.Regular)
	field("scale", "scale", scale, mid, y+32, 4, fonts.SemiBold)
	rule(y + 42)
	field("status", "issue", info.Status, left, y+42, 4, fonts.SemiBold)
	field("sheet", "sheet", fmt.Sprintf("%d of %d", n, total), mid, y+42, 4, fonts.Regular)
	rule(y + 52)
	field("revision", "revision", info.Revision, left, y+52, 4, fonts.Regular)
	field("date", "date", info.Date, mid, y+52, 4, fonts.Regular)
	rule(y + 62)
	field("hash", "content", info.Hash, left, y+62, 3, fonts.Regular)
	field("program", "program", info.Program, mid, y+62, 3, fonts.Regular)
	rule(y + 71)
	b.text("title/units", h, Note, left, y+75.5, 2.6, Start, fonts.Italic, 0, dimensionsIn(info.System)+". Do not scale from a copy:")
	b.text("title/units2", h, Note, left, y+79, 2.6, Start, fonts.Italic, 0, "measure the bar first.")
	return b
}

func dimensionsIn(sys unit.System) string {
	if sys == unit.Metric {
		return "Dimensions in mm"
	}
	return "Dimensions in inches"
}

// halves splits words at the space nearest the middle.
func halves(s string) (head, tail string) {
	at := -1
	for i, r := range s {
		if r == ' ' && (at < 0 || math.Abs(float64(2*i-len(s))) < math.Abs(float64(2*at-len(s)))) {
			at = i
		}
	}
	if at < 0 {
		return s, ""
	}
	return s[:at], s[at+1:]
}

// fit returns size, or the smaller size at which s is no wider than room.
func fit(s string, f fonts.Face, size, room float64) float64 {
	if w := fonts.Width(f, size, s); w > room {
		return size * room / w
	}
	return size
}

// key explains the lines used in v and draws the scale bar, above the title block.
func (b *builder) key(size [2]float64, v Scene) {
	x0 := size[0] - plainEdge - blockWidth + 3
	y := plainEdge + 6
	g := b.group(Prim{ID: "key", Role: Note, Layer: "sheet", Depth: depthLabels * 20})
	used := map[Role]bool{}
	for _, p := range v.Prims {
		used[p.Role] = used[p.Role] || p.Kind == Path
	}
	said := false
	title := func() { // none over nothing
		if !said {
			said = true
			b.text("key/title", g, Cell, x0, y, 3.4, Start, fonts.SemiBold, 0, "Lines")
		}
	}
	for _, l := range []struct {
		r Role
		s string
	}{{Outline, "the van"}, {ItemEdge, "item seen from here"}, {ItemHidden, "item under or behind another"}, {ItemAbove, "item above 1.4 m"},
		{ItemCut, "item cut here, hatched"}, {ItemBeyond, "behind the cut"}, {HoleEdge, "hole to cut, with its frame"}, {MemberEdge, "pillar, rib"},
		{ItemRemoved, "taken out of the base van"}, {ItemGhost, "former place"}, {ItemMarked, "picked out"}, {ZoneArea, "place not yet measured"},
		{CentreLine, "axles, centre line"}, {Datum, "line to tape from"}, {Hidden, "hidden edge of the van"}} {
		if !used[l.r] {
			continue
		}
		title()
		y += 5
		b.path("key/"+string(l.r), g, l.r, LineFrom(x0, y-1, x0+16, y-1), NoFill)
		b.text("key/"+string(l.r)+"-says", g, Cell, x0+19, y, 2.8, Start, fonts.Regular, 0, l.s)
	}
	if used[Mark] {
		y += 5
		b.path("key/mark", g, Mark, append(LineFrom(x0+7.2, y-1.8, x0+8.8, y-0.2), LineFrom(x0+7.2, y-0.2, x0+8.8, y-1.8)...), NoFill)
		b.text("key/mark-says", g, Cell, x0+19, y, 2.8, Start, fonts.Regular, 0, "mass without a size")
	}
	if used[CentreOfMass] {
		y += 6
		x, r := x0+8.0, 1.8
		q := Segs{}.move(x, y-1).line(x, y-1-r).arc(r, false, true, x+r, y-1).close().move(x, y-1).line(x, y-1+r).arc(r, false, true, x-r, y-1).close()
		b.path("key/com", g, CentreOfMass, Circle(x, y-1, r), NoFill)
		b.path("key/com-quarters", g, CentreOfMass, q, Solid)
		b.text("key/com-says", g, Cell, x0+19, y, 2.8, Start, fonts.Regular, 0, "centre of mass")
	}
	y += 11
	b.sc.Prims = append(b.sc.Prims, ScaleBar(g, "key/bar", x0, y, v.Scale, blockWidth-8)...)
	y += 9
	for i, n := range b.in.Remarks {
		b.text("key/note-"+strconv.Itoa(i), g, Note, x0, y+4*float64(i), 2.6, Start, fonts.Regular, 0, n)
	}
}

// ScaleBar returns a bar of whole 500 mm of the van at 1:scale, at most room millimetres of paper
// long, its left end at x and its foot at y. The primitives belong to the group in, their ids begin with id.
func ScaleBar(in, id string, x, y, scale, room float64) []Prim {
	b := &builder{k: 1}
	step := 500.0
	for step/scale > room/2 {
		step /= 5
	}
	n := min(4, int(math.Floor(room*scale/step)))
	w := step / scale
	for i := range n {
		fill := NoFill
		if i%2 == 0 {
			fill = Solid
		}
		b.path(id+"-"+strconv.Itoa(i), in, Thin, Rect(Box{x + float64(i)*w, y - 1.2, x + float64(i+1)*w, y}), fill)
	}
	b.path(id+"-box", in, Thin, Rect(Box{x, y - 1.2, x + float64(n)*w, y}), NoFill)
	for i := 0; i <= n; i += 2 {
		s, a := trim(float64(i)*step), Middle
		if i == 0 {
			a = Start
		}
		if i+2 > n {
			s += " mm"
		}
		b.text(id+"-t"+strconv.Itoa(i), in, Note, x+float64(i)*w, y-2.1, 2.6, a, fonts.Regular, 0, s)
	}
	return b.sc.Prims
}

func listSheet(parts []Part, rows int, info SheetInfo, n, total int) Scene {
	size := [2]float64{420, 297}
	b := sheetFrame("sheet-parts-"+strconv.Itoa(n), size, "parts list", "–", "", info, n, total)
	g := b.group(Prim{ID: "parts", Role: Cell, Layer: "parts", Depth: depthLabels})
	wide := (size[0] - bindEdge - plainEdge - blockWidth) / 3
	const row = 4.7
	for i, p := range parts {
		x, y := bindEdge+float64(i/rows)*wide+3, plainEdge+16+float64(i%rows)*row
		id := "part-" + strconv.Itoa(p.Number) + "-" + strconv.Itoa(i)
		if i%rows == 0 {
			b.text(id+"-h1", g, Note, x+7, y-row-0.6, 2.6, End, fonts.Regular, 0, "no.")
			b.text(id+"-h2", g, Note, x+9.5, y-row-0.6, 2.6, Start, fonts.Regular, 0, "what")
			b.text(id+"-h3", g, Note, x+wide-5, y-row-0.6, 2.6, End, fonts.Regular, 0, "mass")
			b.path(id+"-hr", g, Frame, LineFrom(x, y-row+1, x+wide-5, y-row+1), NoFill)
		}
		b.text(id+"-no", g, Cell, x+7, y, 2.9, End, fonts.SemiBold, 0, strconv.Itoa(p.Number))
		name := p.Name
		if p.Note != "" {
			name += " (" + p.Note + ")"
		}
		b.text(id+"-name", g, Cell, x+9.5, y, fit(name, fonts.Regular, 2.9, wide-32), Start, fonts.Regular, 0, name)
		b.text(id+"-kg", g, Cell, x+wide-5, y, 2.9, End, fonts.Regular, 0, p.Mass)
		b.path(id+"-r", g, Rule, LineFrom(x, y+1.3, x+wide-5, y+1.3), NoFill)
	}
	s := b.finish(0)
	s.Extent = Box{0, 0, size[0], size[1]}
	return s
}
