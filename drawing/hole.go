package drawing

import (
	"math"
	"strconv"
	"strings"

	"berthwright/drawing/fonts"
	"berthwright/unit"
)

// Rounded returns the closed rectangle b with corners of radius r; at half the shorter side or more it is as round as it can be.
func Rounded(b Box, r float64) Segs {
	r = math.Min(r, math.Min(b.W(), b.H())/2)
	if !(r > 0) {
		return Rect(b)
	}
	return Segs{}.move(b.X0+r, b.Y0).line(b.X1-r, b.Y0).arc(r, false, true, b.X1, b.Y0+r).line(b.X1, b.Y1-r).
		arc(r, false, true, b.X1-r, b.Y1).line(b.X0+r, b.Y1).arc(r, false, true, b.X0, b.Y1-r).line(b.X0, b.Y0+r).
		arc(r, false, true, b.X0+r, b.Y0).close()
}

// sizeText prints a hole's size as it is said: "710 × 440", or "Ø 80".
func (h Hole) sizeText(sys unit.System) string {
	a, c := h.Hi[0]-h.Lo[0], h.Hi[1]-h.Lo[1]
	if a == c && h.Radius >= a.Half() {
		return "Ø " + dimText(a, sys)
	}
	return dimText(a, sys) + " × " + dimText(c, sys)
}

// holes draws the holes of one face, seen square on; across tells where along and up lie on the sheet. In plan they hang over
// everything and are drawn so.
func (b *builder) holes(face string, across func(along, up unit.Length) (float64, float64)) {
	role := HoleEdge
	if b.sc.ID == "plan" {
		role = ItemAbove
	}
	for _, h := range b.in.Holes {
		if h.Face != face || h.Hi[0] <= h.Lo[0] || h.Hi[1] <= h.Lo[1] {
			continue
		}
		x0, y0 := across(h.Lo[0], h.Hi[1])
		x1, y1 := across(h.Hi[0], h.Lo[1])
		box := Box{math.Min(x0, x1), math.Min(y0, y1), math.Max(x0, x1), math.Max(y0, y1)}
		id := "hole:" + h.ID
		words := strings.TrimSpace(h.Mark + " " + h.sizeText(b.in.System))
		g := b.group(Prim{ID: id, Role: HoleEdge, Layer: "holes", Doc: h.Doc, Title: "hole " + words + ", " + h.Name, Focus: true, Depth: depthOver})
		b.path(id+"/edge", g, role, Rounded(box, h.Radius.Millimetres()), NoFill)
		if f := h.Frame.Millimetres(); f > 0 && role == HoleEdge {
			b.path(id+"/frame", g, Thin, Rounded(box.Grow(f), h.Radius.Millimetres()+f), NoFill)
		}
		cx, cy, over := (box.X0+box.X1)/2, (box.Y0+box.Y1)/2, 2*b.k
		b.path(id+"/axes", g, CentreLine, append(LineFrom(box.X0-over, cy, box.X1+over, cy), LineFrom(cx, box.Y0-over, cx, box.Y1+over)...), NoFill)
		w := wish{id: "label:hole-" + h.ID, doc: h.Doc, layer: "holes", words: words, number: h.Mark, home: box, inside: true, cx: cx, cy: cy}
		if w.number == "" {
			w.number = words
		}
		w.poly = [][2]float64{{box.X0, box.Y0}, {box.X1, box.Y0}, {box.X1, box.Y1}, {box.X0, box.Y1}}
		b.want = append(b.want, w)
	}
}

// members draws the pillars and ribs of one wall, and writes how far their middles are from the bulkhead line in a row below y.
// It returns the height below the row.
func (b *builder) members(face string, dir, top, y float64) float64 {
	line, taped := b.in.Van.Bulkhead.Get()
	var row string
	last := [2]float64{math.Inf(-1), math.Inf(-1)} // where the figures so far end, on two rows
	n := 0
	for _, m := range b.in.Members {
		if m.Face != face || taped && m.X < line {
			continue
		}
		x, half := dir*m.X.Millimetres(), m.Width.Millimetres()/2
		z0, z1 := -m.Low.Millimetres(), -m.High.Millimetres()
		if m.High <= m.Low {
			z0, z1 = 0, -top
		}
		id := "member:" + m.ID
		title := m.Kind
		if m.Text != "" {
			title += ": " + m.Text
		}
		g := b.group(Prim{ID: id, Role: MemberEdge, Layer: "body", Doc: m.Doc, Title: title, Depth: depthOver - 10})
		d := append(LineFrom(x-half, z0, x-half, z1), LineFrom(x+half, z0, x+half, z1)...)
		b.path(id+"/edges", g, MemberEdge, d, NoFill)
		if !b.o.Dimensions || !taped {
			continue
		}
		if row == "" {
			row = b.group(Prim{ID: "members", Role: Dimension, Layer: "dimensions", Depth: depthDims})
		}
		words := m.Kind + " " + dimText(m.X-line, b.in.System)
		half = textSmall * b.k * 0.6
		r := 0
		if x-half < last[0] && x+half > last[0]-2*half { // upright figures, side by side
			r = 1
		}
		last[r] = math.Max(last[r], x+half)
		yy := y + 1.5*b.k + float64(r)*17*b.k
		b.path("members/tick-"+strconv.Itoa(n), row, Dimension, LineFrom(x, 0, x, yy-0.5*b.k), NoFill)
		b.text("members/"+strconv.Itoa(n), row, Dimension, x+0.33*textSmall*b.k, yy, textSmall, End, fonts.Regular, -90, words)
		n++
	}
	if row == "" {
		return y
	}
	foot := y
	for _, p := range b.sc.Prims {
		if p.In == row && p.Kind == Text {
			foot = math.Max(foot, p.Box().Y1)
		}
	}
	x := math.Inf(1)
	for _, p := range b.sc.Prims {
		if p.In == row {
			x = math.Min(x, p.Box().X0)
		}
	}
	b.text("members/says", row, Note, x, foot+3.5*b.k, textSmall, Start, fonts.Italic, 0, "Middles of pillars and ribs, from the bulkhead line")
	return foot + 5*b.k
}

// doors draws the openings of the van in one face.
func (b *builder) doors(face string, across func(along, up unit.Length) (float64, float64)) {
	for _, d := range b.in.Doors {
		if d.Face != face || d.To <= d.From || d.High <= d.Low {
			continue
		}
		x0, y0 := across(d.From, d.High)
		x1, y1 := across(d.To, d.Low)
		id := "door:" + d.ID
		g := b.group(Prim{ID: id, Role: Thin, Layer: "van", Doc: d.Doc, Title: d.Name, Depth: depthBody + 5})
		box := Box{math.Min(x0, x1), math.Min(y0, y1), math.Max(x0, x1), math.Max(y0, y1)}
		b.path(id+"/edge", g, Thin, Rounded(box, 60), NoFill)
		if b.o.Labels {
			w := wish{id: "label:door-" + d.ID, doc: d.Doc, layer: "van", words: d.Name, number: d.Name, home: box, inside: true, cx: (box.X0 + box.X1) / 2, cy: (box.Y0 + box.Y1) / 2}
			w.poly = [][2]float64{{box.X0, box.Y0}, {box.X1, box.Y0}, {box.X1, box.Y1}, {box.X0, box.Y1}}
			b.want = append(b.want, w)
		}
	}
}
