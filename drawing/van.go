package drawing

import (
	"math"

	"berthwright/drawing/fonts"
	"berthwright/unit"
)

// hull is the van in plain millimetres, as far as it is known.
type hull struct {
	x0, x1     float64 // front and rear end
	half       float64 // half the width
	height     float64 // of the roof above the bare floor
	ground     float64 // z of the ground, negative
	cab        float64 // x where the cab ends: the bulkhead line, or in proportion
	long, wide bool    // x0..x1 and half are known
	tall       bool    // height and ground are known
}

func hullOf(v Van) hull {
	var h hull
	if l, ok := v.Length.Get(); ok {
		if f, ok := v.FrontOverhang.Get(); ok {
			h.long, h.x0, h.x1 = true, -f.Millimetres(), (l - f).Millimetres()
		}
	}
	if w, ok := v.Width.Get(); ok {
		h.wide, h.half = true, w.Millimetres()/2
	}
	if f, ok := v.FloorHeight.Get(); ok {
		h.ground = -f.Millimetres()
		if t, ok := v.Height.Get(); ok {
			h.tall, h.height = true, t.Millimetres()+h.ground
		}
	}
	h.cab = h.x0 + 0.43*(h.x1-h.x0)
	if b, ok := v.Bulkhead.Get(); ok {
		h.cab = b.Millimetres()
	}
	return h
}

// ends returns where the body ends on the sheet, nothing when that is unknown.
func (h hull) ends(dir float64) []float64 {
	if !h.long {
		return nil
	}
	return []float64{dir * h.x0, dir * h.x1}
}

func (v Van) wheelRadius() float64 {
	return v.WheelDiameter.Else(660*unit.Millimetre).Millimetres() / 2
}

func (v Van) axles() []unit.Length {
	out := []unit.Length{0}
	if w, ok := v.Wheelbase.Get(); ok {
		out = append(out, w)
	}
	return out
}

// schematic is printed under every dimensioned view that shows the outline.
const schematic = "The outline of the van is drawn in proportion to its overall sizes; it is not a survey of the body."

// bodyPlan draws the van from above, front at left.
func (b *builder) bodyPlan(h hull) {
	v := b.in.Van
	g := b.group(Prim{ID: "van", Role: Outline, Layer: "van", Doc: "van", Title: "the van", Depth: depthBody})
	if h.long && h.wide {
		x0, x1, w := h.x0, h.x1, h.half
		c := h.cab - x0
		d := Segs{}.move(x0+0.62*c, -w).line(x1-60, -w).cubic(x1-15, -w, x1, -w+15, x1, -w+80).
			line(x1, w-80).cubic(x1, w-15, x1-15, w, x1-60, w).line(x0+0.55*c, w).
			cubic(x0+0.36*c, w, x0+0.2*c, 0.985*w, x0+0.11*c, 0.9*w).cubic(x0+0.03*c, 0.825*w, x0, 0.55*w, x0, 0.3*w).line(x0, -0.3*w).
			cubic(x0, -0.55*w, x0+0.03*c, -0.825*w, x0+0.11*c, -0.9*w).cubic(x0+0.2*c, -0.985*w, x0+0.36*c, -w, x0+0.55*c, -w).close()
		b.path("van/body", g, Outline, d, NoFill)
		base, top := x0+0.27*c, x0+0.56*c
		glass := Segs{}.move(base+0.1*c, -0.88*w).cubic(base+0.02*c, -0.6*w, base, -0.3*w, base, 0).
			cubic(base, 0.3*w, base+0.02*c, 0.6*w, base+0.1*c, 0.88*w).line(top+0.05*c, 0.78*w).
			cubic(top+0.01*c, 0.5*w, top, 0.25*w, top, 0).cubic(top, -0.25*w, top+0.01*c, -0.5*w, top+0.05*c, -0.78*w).close()
		b.path("van/windscreen", g, Thin, glass, NoFill)
		doors := append(LineFrom(x1-70, -w+70, x1-70, w-70), LineFrom(x1-70, 0, x1, 0)...)
		b.path("van/rear-doors", g, Thin, doors, NoFill)
		b.walls(g, h)
	}
	b.wheels(g, v)
	for i, wb := range v.WheelBoxes {
		d := Rect(Box{wb.X0.Millimetres(), -wb.Y1.Millimetres(), wb.X1.Millimetres(), -wb.Y0.Millimetres()})
		b.path(g+"/wheel-box-"+string(rune('1'+i)), g, Hidden, d, NoFill)
	}
	if s := v.Wheel; s != "" && h.long && h.wide {
		y, r := -0.42*h.half, 190.0 // right of the centre line is up on the sheet
		if s == "left" {
			y = -y
		}
		x := h.x0 + 0.6*(h.cab-h.x0)
		b.path("van/steering-wheel", g, Thin, Segs{}.move(x-25, y-r).line(x+25, y-r).line(x+25, y+r).line(x-25, y+r).close().move(x-25, y).line(x-190, y), NoFill)
	}
}

// walls hatches the thickness between the skin and the lined walls, open where the sliding door is.
func (b *builder) walls(g string, h hull) {
	v := b.in.Van
	rear, ok := v.RearDoor.Get()
	front, ok2 := v.Bulkhead.Get()
	if !ok || !ok2 {
		return
	}
	x0, x1 := front.Millimetres(), rear.Millimetres()
	for _, side := range []struct {
		name string
		y    unit.Opt[unit.Length]
		skin float64 // on the sheet
	}{{"left", v.LeftWall, h.half}, {"right", v.RightWall, -h.half}} {
		y, ok := side.y.Get()
		if !ok {
			continue
		}
		in, out := -y.Millimetres(), side.skin
		a := x0
		if v.Door == side.name {
			// The place of the door leaf is in proportion; only its side is known.
			p, q := x0+0.05*(x1-x0), x0+0.42*(x1-x0)
			mid := (in + out) / 2
			leaf := Rect(Box{p, math.Min(mid, out-(out-in)*0.15), q, math.Max(mid, out-(out-in)*0.15)})
			b.path("van/sliding-door", g, Thin, leaf, NoFill)
			b.wall(g, "van/wall-"+side.name+"-front", x0, p, in, out)
			a = q
		}
		b.wall(g, "van/wall-"+side.name, a, x1, in, out)
	}
}

func (b *builder) wall(g, id string, x0, x1, in, out float64) {
	if x1-x0 < 1 {
		return
	}
	poly := [][2]float64{{x0, in}, {x1, in}, {x1, out}, {x0, out}}
	b.path(id+"-hatch", g, Hatch, hatchLines(poly, 2*b.k), NoFill)
	b.path(id, g, Thin, polyline(poly[3], poly[0], poly[1], poly[2]), NoFill)
}

func (b *builder) wheels(g string, v Van) {
	r, half := v.wheelRadius(), 110.0
	for i, tr := range []unit.Opt[unit.Length]{v.TrackFront, v.TrackRear} {
		t, ok := tr.Get()
		ax := v.axles()
		if !ok || i >= len(ax) {
			continue
		}
		x, y := ax[i].Millimetres(), t.Millimetres()/2
		for j, s := range []float64{-y, y} {
			b.path(g+"/wheel-"+string(rune('1'+2*i+j)), g, Hidden, Rect(Box{x - r, s - half, x + r, s + half}), NoFill)
		}
	}
}

// bodySide draws the van from its left side, front at left; dir −1 mirrors it.
func (b *builder) bodySide(h hull, dir float64) {
	v := b.in.Van
	g := b.group(Prim{ID: "van", Role: Outline, Layer: "van", Doc: "van", Title: "the van", Depth: depthBody})
	r := v.wheelRadius()
	if h.long && h.tall {
		p := func(x, z float64) (float64, float64) { return dir * x, -z }
		var d Segs
		mv := func(x, z float64) { X, Y := p(x, z); d = d.move(X, Y) }
		ln := func(x, z float64) { X, Y := p(x, z); d = d.line(X, Y) }
		cu := func(x1, z1, x2, z2, x, z float64) {
			A, B := p(x1, z1)
			C, D := p(x2, z2)
			X, Y := p(x, z)
			d = d.cubic(A, B, C, D, X, Y)
		}
		H := h.height - h.ground
		z := func(f float64) float64 { return h.ground + f*H } // share of the overall height
		c := h.cab - h.x0
		X := func(f float64) float64 { return h.x0 + f*c } // share of the cab
		x1 := h.x1
		sill := 0.115
		mv(x1, z(0.17))
		ln(x1, z(0.9))
		cu(x1, z(0.97), x1-25, z(1), x1-130, z(1))
		ln(X(0.92), z(1))
		cu(X(0.76), z(1), X(0.66), z(0.94), X(0.585), z(0.845)) // brow of the high roof
		cu(X(0.565), z(0.82), X(0.56), z(0.81), X(0.545), z(0.79))
		ln(X(0.265), z(0.5)) // windscreen
		cu(X(0.18), z(0.475), X(0.07), z(0.44), X(0.028), z(0.36))
		cu(X(0.002), z(0.311), X(0), z(0.26), X(0), z(0.2))
		cu(X(0), z(0.13), X(0.01), z(sill), X(0.05), z(sill))
		arch := r * 1.14
		for _, ax := range v.axles() {
			cx, cz := ax.Millimetres(), h.ground+r
			dz := z(sill) - cz
			w := math.Sqrt(math.Max(0, float64(arch*arch)-float64(dz*dz)))
			ln(cx-w, z(sill))
			X2, Y2 := p(cx+w, z(sill))
			d = d.arc(arch, true, dir > 0, X2, Y2)
		}
		ln(x1-40, z(sill))
		cu(x1-10, z(sill), x1, z(sill+0.02), x1, z(0.17))
		d = d.close()
		b.path("van/body", g, Outline, d, NoFill)
		line := func(id string, role Role, pts ...[2]float64) {
			var q [][2]float64
			for _, t := range pts {
				A, B := p(t[0], t[1])
				q = append(q, [2]float64{A, B})
			}
			b.path(id, g, role, polyline(q...), NoFill)
		}
		line("van/cab-window", Thin, [2]float64{X(0.335), z(0.515)}, [2]float64{X(0.575), z(0.775)}, [2]float64{X(0.8), z(0.775)},
			[2]float64{X(0.8), z(0.515)}, [2]float64{X(0.335), z(0.515)})
		line("van/cab-door", Thin, [2]float64{X(0.86), z(0.81)}, [2]float64{X(0.86), z(0.16)}, [2]float64{X(0.6), z(0.16)})
		if s := v.Door; s != "" && (s == "left") == (dir > 0) && v.RearDoor.Given() {
			rear := v.RearDoor.Else(0).Millimetres()
			a, e := h.cab+0.05*(rear-h.cab), h.cab+0.42*(rear-h.cab)
			line("van/sliding-door", Hidden, [2]float64{a, z(0.16)}, [2]float64{a, z(0.88)}, [2]float64{e, z(0.88)}, [2]float64{e, z(0.16)}, [2]float64{a, z(0.16)})
		}
	}
	if !v.FloorHeight.Given() {
		return
	}
	for i, ax := range v.axles() {
		x, y := dir*ax.Millimetres(), -h.ground-r
		id := "van/wheel-" + string(rune('1'+i))
		b.path(id, g, Outline, Circle(x, y, r), Paper)
		b.path(id+"-rim", g, Thin, Circle(x, y, 0.62*r), NoFill)
	}
	if h.long {
		b.path("van/ground", g, Datum, LineFrom(dir*(h.x0-100), -h.ground, dir*(h.x1+100), -h.ground), NoFill)
	}
}

// datums draws the lines that people tape from, across the view from y0 to y1, and names them above
// the height at, when that is finite.
func (b *builder) datums(y0, y1 float64, dir float64, at float64) {
	v := b.in.Van
	g := ""
	for _, l := range []struct {
		id, name string
		x        unit.Opt[unit.Length]
	}{{"bulkhead", "bulkhead line", v.Bulkhead}, {"rear-door", "rear door line", v.RearDoor}} {
		x, ok := l.x.Get()
		if !ok {
			continue
		}
		if g == "" {
			g = b.group(Prim{ID: "datums", Role: Datum, Layer: "datum", Depth: depthBody + 1})
		}
		X := dir * x.Millimetres()
		b.path("datum:"+l.id, g, Datum, LineFrom(X, y0, X, y1), NoFill)
		if !math.IsInf(at, 0) && b.o.Labels {
			b.path("datum:"+l.id+"/tail", g, Dimension, LineFrom(X, at-4*b.k, X, y0), NoFill)
			b.text("datum:"+l.id+"/name", g, Note, X-0.8*b.k, at-2*b.k, textSmall, End, fonts.Italic, 0, l.name)
		}
	}
}

// mass draws the centre of mass: a circle with two opposite quarters filled.
func (b *builder) mass(x, y float64, words string) {
	r := 2.2 * b.k
	g := b.group(Prim{ID: "centre-of-mass", Role: CentreOfMass, Layer: "loads", Title: words, Focus: true, Depth: depthLoads + 1})
	b.path(g+"/ring", g, CentreOfMass, Circle(x, y, r), Paper)
	q := Segs{}.move(x, y).line(x, y-r).arc(r, false, true, x+r, y).close().
		move(x, y).line(x, y+r).arc(r, false, true, x-r, y).close()
	b.path(g+"/quarters", g, CentreOfMass, q, Solid)
	b.path(g+"/cross", g, CentreOfMass, append(LineFrom(x-1.5*r, y, x+1.5*r, y), LineFrom(x, y-1.5*r, x, y+1.5*r)...), NoFill)
	b.taken = append(b.taken, Box{x - 1.5*r, y - 1.5*r, x + 1.5*r, y + 1.5*r})
}
