package paper

import (
	"fmt"

	"berthwright/drawing"
	"berthwright/drawing/fonts"
)

// LoadingPlacard is the notice inside a door: what may be loaded where. Figures carry their units.
type LoadingPlacard struct {
	Head
	Small    bool          // A5 instead of A4, both across
	Zones    []PlacardZone // luggage by place
	Together string        // "145 kg": all luggage at once; empty: not declared
	Seats    []Pair        // "driver, front passenger" and who they are counted as
	Rules    []string      // water rule and the like, set large
	Totals   []Pair        // "whole van" "3 500 kg"
	Basis    string        // the case it was computed for
	Warning  string        // stands across the page in the accent, and the page is struck through: not to be used; optional
	Plan     drawing.Scene // small plan, drawn when it fits; optional
}

// PlacardZone is one place for luggage.
type PlacardZone struct {
	Where, Limit string // "garage", "85 kg"
	Note         string // "heavy things low and forward"
	Apart        bool   // not luggage: stands after the sum and is not in it
}

var across = format{297, 210, 15, 15, 14, 12}

// Placard sets p as one page.
func Placard(p LoadingPlacard) ([]byte, error) {
	return p.lay().finish("What may be loaded where")
}

func (p LoadingPlacard) lay() *kit {
	k := newKit(across, p.Head, "Loading placard")
	if p.Small {
		k.scale = 1.4142135623730951
	}
	x0, x1 := k.x0(), k.x1()
	title := "Loading " + p.Build
	g := k.put(drawing.Prim{ID: "title", Kind: drawing.Group, Role: drawing.Heading, Title: k.title})
	k.textIn(g, x0, k.y+10, drawing.Start, style{14, fonts.Bold, drawing.Heading}, title)
	top0 := style{7, fonts.SemiBold, drawing.Cell}
	words := "Read before you drive"
	if p.Warning != "" {
		words, top0.role = "Not a placard", drawing.Strong
	}
	top0.size = fitSize(top0.face, top0.size, x1-x0-fonts.Width(fonts.Bold, 14, title)-8, words)
	k.text(x1, k.y+10, drawing.End, top0, words)
	k.y += 15
	k.rule(drawing.Outline, x0, x1, k.y)
	if p.Warning != "" {
		k.warn(p.Warning, x0, x1)
	}
	mid := x0 + 152
	top := k.y + 3
	bottom := k.floor() - 9
	k.zones(p, x0, mid-8, top, bottom)
	k.rightSide(p, mid, x1, top, bottom)
	k.path(drawing.Rule, drawing.LineFrom(mid-4, top, mid-4, bottom), drawing.NoFill)
	k.rule(drawing.Outline, x0, x1, k.floor()-7)
	foot := style{3.1, fonts.Regular, drawing.Note}
	ls := k.wrap(foot, x1-x0, p.Basis)
	if len(ls) > 1 {
		ls = ls[:1]
	}
	for _, l := range ls {
		k.text(x0, k.floor()-3, drawing.Start, foot, l)
	}
	k.text(x0, k.floor()+1.5, drawing.Start, foot, join(" · ", p.Workshop, p.Status, p.Date, label("revision ", p.Revision)))
	k.text(x1, k.floor()+1.5, drawing.End, foot, join(" · ", label("content ", p.Hash), p.Program))
	k.bare = true
	return k
}

// warn sets a band of words as wide as the page and strikes out what stands below it.
func (k *kit) warn(words string, x0, x1 float64) {
	st := style{8, fonts.Bold, drawing.Strong}
	ls := k.wrap(st, x1-x0-8, words)
	for len(ls) > 2 && st.size > 3 {
		st.size -= 0.25
		ls = k.wrap(st, x1-x0-8, words)
	}
	h := float64(len(ls))*st.size*1.2 + 4
	k.path(drawing.Frame, drawing.Rect(drawing.Box{X0: x0, Y0: k.y + 2, X1: x1, Y1: k.y + 2 + h}), drawing.NoFill)
	for i, l := range ls {
		k.text((x0+x1)/2, k.y+3+st.size*(0.95+1.2*float64(i)), drawing.Middle, st, l)
	}
	k.y += h + 2
	k.path(drawing.Frame, drawing.LineFrom(x0, k.y, x1, k.floor()-7), drawing.NoFill)
	k.path(drawing.Frame, drawing.LineFrom(x0, k.floor()-7, x1, k.y), drawing.NoFill)
}

// zones sets the places and their limits as large as the height allows.
func (k *kit) zones(p LoadingPlacard, x0, x1, top, bottom float64) {
	k.text(x0, top+5, drawing.Start, style{5, fonts.Regular, drawing.Note}, "Luggage and equipment")
	k.text(x1, top+5, drawing.End, style{5, fonts.Regular, drawing.Note}, "at most")
	y := top + 8
	k.rule(drawing.Outline, x0, x1, y)
	n := float64(len(p.Zones))
	if p.Together != "" {
		n += 1.5
	}
	step := min(15.5, (bottom-y)/max(1, n))
	size := step * 0.5
	zone := func(z PlacardZone) {
		f := style{step * 0.68, fonts.Bold, drawing.Figure}
		fw := fonts.Width(f.face, f.size, z.Limit)
		k.text(x1, y+step*0.74, drawing.End, f, z.Limit)
		name := style{fitSize(fonts.SemiBold, size, x1-x0-fw-6, z.Where), fonts.SemiBold, drawing.Cell}
		base := y + step*0.68
		if z.Note != "" {
			base = y + step*0.5
			nt := style{fitSize(fonts.Regular, size*0.58, x1-x0-fw-6, z.Note), fonts.Regular, drawing.Note}
			k.text(x0, y+step*0.86, drawing.Start, nt, z.Note)
		}
		k.text(x0, base, drawing.Start, name, z.Where)
		y += step
		k.rule(drawing.Rule, x0, x1, y)
	}
	for _, z := range p.Zones {
		if !z.Apart {
			zone(z)
		}
	}
	if p.Together != "" {
		k.rule(drawing.Outline, x0, x1, y)
		f := style{step * 0.95, fonts.Bold, drawing.Strong}
		fw := fonts.Width(f.face, f.size, p.Together)
		k.text(x1, y+step*1.05, drawing.End, f, p.Together)
		k.text(x0, y+step*0.98, drawing.Start, style{fitSize(fonts.Bold, size*1.15, x1-x0-fw-6, "all luggage together"), fonts.Bold, drawing.Cell}, "all luggage together")
		y += step * 1.5
		k.rule(drawing.Outline, x0, x1, y)
	}
	for _, z := range p.Zones {
		if z.Apart {
			zone(z)
		}
	}
}

// rightSide sets seats, rules and totals.
func (k *kit) rightSide(p LoadingPlacard, x0, x1, top, bottom float64) {
	w := x1 - x0
	small := style{5, fonts.Regular, drawing.Note}
	y := top
	if len(p.Seats) > 0 {
		k.text(x0, y+5, drawing.Start, small, "Seats")
		y += 8
		k.rule(drawing.Datum, x0, x1, y)
		for _, s := range p.Seats {
			v := style{5.4, fonts.SemiBold, drawing.Cell}
			vw := fonts.Width(v.face, v.size, s.Value)
			k.seatName(x0, y, w-vw-4, s.Name)
			k.text(x1, y+6, drawing.End, v, s.Value)
			y += 8.2
			k.rule(drawing.Rule, x0, x1, y)
		}
		y += 5
	}
	ty := bottom - 8.2*float64(len(p.Totals)) - 8
	st := style{6.0, fonts.SemiBold, drawing.Figure}
	high := func() float64 {
		sum := 0.0
		for _, r := range p.Rules {
			sum += float64(len(k.wrap(st, w-6, r)))*st.size*1.22 + 8
		}
		return sum
	}
	for y+high() > ty-1 && st.size > 2.8 {
		st.size -= 0.2
	}
	if y+high() > ty-1 && len(p.Rules) > 0 {
		k.err = fmt.Errorf("placard: %d rules and %d seats do not fit on one page", len(p.Rules), len(p.Seats))
		return
	}
	for _, r := range p.Rules {
		ls := k.wrap(st, w-6, r)
		h := float64(len(ls))*st.size*1.22 + 5
		k.path(drawing.Frame, drawing.Rect(drawing.Box{X0: x0, Y0: y, X1: x1, Y1: y + h}), drawing.NoFill)
		for i, l := range ls {
			k.text(x0+3, y+2.2+st.size*(0.95+1.22*float64(i)), drawing.Start, st, l)
		}
		y += h + 3
	}
	if s := p.Plan; len(s.Prims) > 0 && s.Scale > 0 {
		pw, ph := s.Extent.W()/s.Scale, s.Extent.H()/s.Scale
		if pw <= w+0.01 && ph <= ty-y {
			for _, q := range drawing.Place(s, "plan:", x0+(w-pw)/2-s.Extent.X0/s.Scale, y+(ty-y-ph)/2-s.Extent.Y0/s.Scale) {
				k.put(q)
			}
		}
	}
	if len(p.Totals) == 0 {
		return
	}
	y = max(y, ty)
	k.text(x0, y+5, drawing.Start, small, "Never more than")
	y += 8
	k.rule(drawing.Datum, x0, x1, y)
	for _, s := range p.Totals {
		k.text(x0, y+6, drawing.Start, style{5.4, fonts.Regular, drawing.Cell}, s.Name)
		k.text(x1, y+6, drawing.End, style{6, fonts.Bold, drawing.Figure}, s.Value)
		y += 8.2
		k.rule(drawing.Rule, x0, x1, y)
	}
}

// seatName sets a name on one line or, when it is long, on two small ones.
func (k *kit) seatName(x, y, w float64, name string) {
	st := style{fitSize(fonts.Regular, 5.4, w, name), fonts.Regular, drawing.Cell}
	if st.size >= 4 {
		k.text(x, y+6, drawing.Start, st, name)
		return
	}
	st.size = 3.3
	ls := k.wrap(st, w, name)
	if len(ls) > 2 {
		k.text(x, y+6, drawing.Start, style{fitSize(fonts.Regular, 3.3, w, name), fonts.Regular, drawing.Cell}, name)
		return
	}
	for i, l := range ls {
		k.text(x, y+3.4+3.6*float64(i), drawing.Start, st, l)
	}
}

// fitSize returns size, or the smaller size at which s is no wider than room.
func fitSize(f fonts.Face, size, room float64, s string) float64 {
	if w := fonts.Width(f, size, s); w > room && w > 0 {
		return size * room / w
	}
	return size
}
