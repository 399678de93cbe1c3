package drawing

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"berthwright/unit"
)

// cutWidths draws the lined width at the floor and 900 and 1 500 mm above the finished floor, one under the other.
func (b *builder) cutWidths(c Cut, y float64) float64 {
	if len(c.Lined) < 3 {
		return y
	}
	floor := c.Lined[0].Z
	for _, w := range []struct {
		id, says string
		up       unit.Length
	}{{"width-floor", "lined, at the floor ", 0}, {"width-900", "lined, " + dimText(900*unit.Millimetre, b.in.System) + " up ", 900 * unit.Millimetre},
		{"width-1500", "lined, " + dimText(1500*unit.Millimetre, b.in.System) + " up ", 1500 * unit.Millimetre}} {
		l, r, ok := across(c.Lined, floor+w.up)
		if w.up == 0 {
			l, r, ok = c.Lined[0].Y, c.Lined[len(c.Lined)-1].Y, true
		}
		if !ok {
			continue
		}
		l, r = inwards(l, r)
		y += 6 * b.k
		b.dimension(dim{id: w.id, a: l.Millimetres(), b: r.Millimetres(), at: y, from: y - 3*b.k, value: r - l, prefix: w.says, extension: true})
	}
	return y
}

// cutHeights draws floor to ceiling, and the tops of what is cut, above the finished floor on the side it stands.
func (b *builder) cutHeights(c Cut, parts []part, room Box) {
	floor, ok := b.in.Van.FinishedFloor.Get()
	if len(c.Lined) > 2 {
		floor, ok = c.Lined[0].Z, true
	}
	if !ok {
		return
	}
	type height struct {
		id string
		z  unit.Length
	}
	var sides [2][]height
	for _, p := range b.largest(parts) {
		side := int(bit(p.y0+p.y1 > 0))
		z := p.s.t.Z1
		if p.s.t.Outside || z <= floor || len(sides[side]) == 3 || slices.ContainsFunc(sides[side], func(h height) bool { return abs(h.z-z) < 5*unit.Millimetre }) {
			continue
		}
		sides[side] = append(sides[side], height{"top-" + p.s.t.ID, z})
	}
	ceiling := b.in.Van.Ceiling.Else(0)
	if len(c.Lined) > 2 {
		ceiling = 0
		for _, p := range c.Lined {
			ceiling = max(ceiling, p.Z)
		}
	}
	for k, hs := range sides {
		slices.SortStableFunc(hs, func(p, q height) int { return cmp.Compare(p.z, q.z) })
		if k == 1 && ceiling > floor {
			hs = slices.DeleteFunc(hs, func(h height) bool { return abs(h.z-ceiling) < 25*unit.Millimetre })
			hs = append(hs, height{"ceiling", trunc(ceiling)})
		}
		at, from, step := room.X0-4*b.k, room.X0, -6*b.k
		if k == 1 {
			at, from, step = room.X1+7*b.k, room.X1, 6*b.k
		}
		for _, h := range hs {
			b.dimension(dim{id: h.id, a: -floor.Millimetres(), b: -h.z.Millimetres(), at: at, from: from, value: h.z - floor, upright: true, extension: true})
			at += step
		}
	}
}

// largest lists at most six cut things, largest in the cut first.
func (b *builder) largest(parts []part) []part {
	out := slices.Clone(parts)
	slices.SortStableFunc(out, func(p, q part) int {
		return cmp.Compare(q.s.box.W()*q.s.box.H(), p.s.box.W()*p.s.box.H())
	})
	return out[:min(len(out), mostMeasured)]
}

// cutItems draws how far what is cut reaches from the nearer lined wall, at its middle height, above the section.
func (b *builder) cutItems(c Cut, parts []part, top float64) {
	y := [2]float64{top, top}
	n := [2]int{}
	for _, p := range b.largest(parts) {
		t := p.s.t
		l, r, ok := across(c.Lined, (t.Z0 + t.Z1).Half())
		if !ok || t.Outside || t.InSkin {
			continue
		}
		k, from, to := 0, l, p.y1
		if r-p.y1 < p.y0-l {
			k, from, to = 1, r, p.y0
		}
		if n[k] == 3 || k == 0 && to <= from || k == 1 && to >= from || abs(to-from) > (r-l).Times(0.75) {
			continue
		}
		from, to = trunc(from), trunc(to)
		words := ""
		if t.Number > 0 {
			words = "no. " + strconv.Itoa(t.Number) + ": "
		}
		n[k]++
		y[k] -= 6 * b.k
		b.dimension(dim{id: "item-" + t.ID, a: from.Millimetres(), b: to.Millimetres(), at: y[k], from: top, value: abs(to - from), prefix: words, extension: true})
	}
}

// floorBuild says what the floor is made of.
func (b *builder) floorBuild(c Cut, room Box, y float64) float64 {
	if len(c.Floor) == 0 || !b.o.Dimensions {
		return y
	}
	var words []string
	for _, l := range c.Floor {
		words = append(words, l.Text)
	}
	b.in.Remarks = append(b.in.Remarks, "Floor, from the metal up: "+strings.Join(words, ", ")+"; together "+dimText(c.Floor[len(c.Floor)-1].Z, b.in.System)+".")
	b.in.Remarks = append(b.in.Remarks, "Widths and heights are from the lining and the finished floor.", "Thin: up to 1.5 m ahead of the cut.")
	return y
}
