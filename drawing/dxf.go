package drawing

import (
	"fmt"
	"math"
	"strings"

	"berthwright/drawing/fonts"
)

// DXF writes s as DXF R12 in model space at true size: one drawing unit is one millimetre of the
// van, y upwards. Layers are named role_trade. Cubics become polylines within 0.1 mm.
func DXF(s Scene) []byte {
	d := &dxf{}
	d.header(s)
	d.tables(s)
	d.pair(0, "SECTION")
	d.pair(2, "ENTITIES")
	for _, p := range s.Prims {
		switch p.Kind {
		case Path:
			if p.Role != Plate {
				d.path(p)
			}
		case Text:
			d.text(p)
		}
	}
	d.pair(0, "ENDSEC")
	d.pair(0, "EOF")
	return []byte(d.b.String())
}

type dxf struct{ b strings.Builder }

func (d *dxf) pair(code int, v string)      { fmt.Fprintf(&d.b, "%3d\r\n%s\r\n", code, v) }
func (d *dxf) num(code int, v float64)      { d.pair(code, fmt.Sprintf("%.4f", v)) }
func (d *dxf) whole(code, v int)            { d.pair(code, fmt.Sprintf("%6d", v)) }
func (d *dxf) point(code int, x, y float64) { d.num(code, x); d.num(code+10, -y+0); d.num(code+20, 0) }

// layerName keeps to what R12 allows: capitals, digits, dash, underscore, at most 31.
func layerName(p Prim) string {
	n := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return r - 32
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			return r
		}
		return '_'
	}, string(p.Role)+"_"+p.Layer)
	if len(n) > 31 {
		n = n[:31]
	}
	return strings.Trim(n, "_")
}

func (d *dxf) header(s Scene) {
	d.pair(0, "SECTION")
	d.pair(2, "HEADER")
	d.pair(9, "$ACADVER")
	d.pair(1, "AC1009")
	d.pair(9, "$EXTMIN")
	d.point(10, s.Extent.X0, s.Extent.Y1)
	d.pair(9, "$EXTMAX")
	d.point(10, s.Extent.X1, s.Extent.Y0)
	d.pair(9, "$LTSCALE")
	d.num(40, s.Scale)
	d.pair(0, "ENDSEC")
}

func (d *dxf) tables(s Scene) {
	d.pair(0, "SECTION")
	d.pair(2, "TABLES")
	types := []struct {
		name, says string
		dash       []float64
	}{{"CONTINUOUS", "Solid line", nil}, {"DASHED", "dashed", []float64{1.6, -0.8}}, {"CHAIN", "long dash dot", []float64{6, -1, 0.6, -1}},
		{"CHAIN2", "long dash two dots", []float64{4, -0.8, 0.5, -0.8, 0.5, -0.8}}, {"DOTTED", "short dash", []float64{0.8, -0.9}}}
	d.pair(0, "TABLE")
	d.pair(2, "LTYPE")
	d.whole(70, len(types))
	for _, t := range types {
		d.pair(0, "LTYPE")
		d.pair(2, t.name)
		d.whole(70, 0)
		d.pair(3, t.says)
		d.whole(72, 65)
		d.whole(73, len(t.dash))
		sum := 0.0
		for _, f := range t.dash {
			sum += math.Abs(f)
		}
		d.num(40, sum)
		for _, f := range t.dash {
			d.num(49, f)
		}
	}
	d.pair(0, "ENDTAB")
	var names []string
	seen := map[string]Prim{}
	for _, p := range s.Prims {
		if p.Kind == Group || p.Role == Plate {
			continue
		}
		n := layerName(p)
		if _, ok := seen[n]; !ok {
			names, seen[n] = append(names, n), p
		}
	}
	d.pair(0, "TABLE")
	d.pair(2, "LAYER")
	d.whole(70, len(names)+1)
	layer := func(n string, colour int, lt string) {
		d.pair(0, "LAYER")
		d.pair(2, n)
		d.whole(70, 0)
		d.whole(62, colour)
		d.pair(6, lt)
	}
	layer("0", 7, "CONTINUOUS")
	for _, n := range names {
		r := seen[n].Role
		layer(n, [...]int{7, 8, 9, 1}[r.Pen().Ink], lineType(r))
	}
	d.pair(0, "ENDTAB")
	d.pair(0, "TABLE")
	d.pair(2, "STYLE")
	d.whole(70, 1)
	d.pair(0, "STYLE")
	d.pair(2, "STANDARD")
	d.whole(70, 0)
	d.num(40, 0)
	d.num(41, 1)
	d.num(50, 0)
	d.whole(71, 0)
	d.num(42, 2.5)
	d.pair(3, "txt")
	d.pair(4, "")
	d.pair(0, "ENDTAB")
	d.pair(0, "ENDSEC")
}

func lineType(r Role) string {
	switch r {
	case Hidden, ItemHidden, ItemGhost:
		return "DASHED"
	case CentreLine, MemberEdge:
		return "CHAIN"
	case ItemAbove:
		return "CHAIN2"
	case ItemRemoved, ZoneArea:
		return "DOTTED"
	}
	return "CONTINUOUS"
}

// vertex is a corner with the bulge of the side that follows it.
type vertex struct{ x, y, bulge float64 }

func (d *dxf) path(p Prim) {
	var run []vertex
	flush := func(closed bool) {
		d.run(layerName(p), run, closed)
		run = nil
	}
	for _, g := range p.D {
		var at vertex
		if len(run) > 0 {
			at = run[len(run)-1]
		}
		switch g.Op {
		case Move:
			flush(false)
			run = append(run, vertex{x: g.X, y: g.Y})
		case Line:
			run = append(run, vertex{x: g.X, y: g.Y})
		case Arc:
			_, _, _, _, sweep := arcCentre(at.x, at.y, g)
			run[len(run)-1].bulge = -math.Tan(sweep / 4) // clockwise on the sheet is negative with y up
			run = append(run, vertex{x: g.X, y: g.Y})
		case Cubic:
			for _, q := range cubicPoints(at.x, at.y, g, 24) {
				run = append(run, vertex{x: q[0], y: q[1]})
			}
		case Close:
			flush(true)
		}
	}
	flush(false)
}

func (d *dxf) run(layer string, v []vertex, closed bool) {
	if len(v) < 2 {
		return
	}
	if closed && math.Hypot(v[0].x-v[len(v)-1].x, v[0].y-v[len(v)-1].y) < 1e-6 {
		v = v[:len(v)-1]
	}
	if len(v) == 2 && !closed && v[0].bulge == 0 {
		d.pair(0, "LINE")
		d.pair(8, layer)
		d.point(10, v[0].x, v[0].y)
		d.point(11, v[1].x, v[1].y)
		return
	}
	d.pair(0, "POLYLINE")
	d.pair(8, layer)
	d.whole(66, 1)
	d.point(10, 0, 0)
	d.whole(70, int(bit(closed)))
	for _, p := range v {
		d.pair(0, "VERTEX")
		d.pair(8, layer)
		d.point(10, p.x, p.y)
		if p.bulge != 0 {
			d.num(42, p.bulge)
		}
	}
	d.pair(0, "SEQEND")
	d.pair(8, layer)
}

func cubicPoints(x, y float64, g Seg, n int) [][2]float64 {
	out := make([][2]float64, 0, n)
	for i := 1; i <= n; i++ {
		t := float64(i) / float64(n)
		u := 1 - t
		a, b, c, e := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		out = append(out, [2]float64{a*x + b*g.X1 + c*g.X2 + e*g.X, a*y + b*g.Y1 + c*g.Y2 + e*g.Y})
	}
	return out
}

func (d *dxf) text(p Prim) {
	d.pair(0, "TEXT")
	d.pair(8, layerName(p))
	d.point(10, p.X, p.Y)
	d.num(40, p.Size*fonts.CapHeight)
	d.pair(1, dxfText(p.Text))
	if p.Turn != 0 {
		d.num(50, -p.Turn)
	}
	if p.Anchor != Start {
		d.whole(72, int(p.Anchor))
		d.point(11, p.X, p.Y)
	}
}

// dxfText writes s in ASCII: the three old signs by their codes, the rest as \U+XXXX.
func dxfText(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '±':
			b.WriteString("%%p")
		case r == '°':
			b.WriteString("%%d")
		case r == '⌀':
			b.WriteString("%%c")
		case r == '%':
			b.WriteString("%%%")
		case r >= 0x20 && r < 0x7f:
			b.WriteRune(r)
		case r < 0x20 || r > 0xffff:
			b.WriteByte('?')
		default:
			fmt.Fprintf(&b, `\U+%04X`, r)
		}
	}
	return b.String()
}
