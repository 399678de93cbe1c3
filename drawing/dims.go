package drawing

import (
	"math"
	"strconv"
	"strings"

	"berthwright/drawing/fonts"
	"berthwright/unit"
)

// dim is one dimension between two points of the same height (or, upright, of the same x).
type dim struct {
	id        string
	a, b      float64 // ends along the dimension line
	at        float64 // where the dimension line lies
	from      float64 // where the extension lines start
	value     unit.Length
	upright   bool
	prefix    string // "floor " before the figure
	extension bool
}

// dimension draws d by ISO 129-1 (from memory): thin lines, slender arrows, figure above the line,
// read from below or from the right.
func (b *builder) dimension(d dim) {
	g := b.group(Prim{ID: "dim:" + d.id, Role: Dimension, Layer: "dimensions", Title: d.prefix + unit.Format(d.value, b.in.System, -1), Depth: depthDims})
	pt := func(along, across float64) [2]float64 {
		if d.upright {
			return [2]float64{across, along}
		}
		return [2]float64{along, across}
	}
	lo, hi := math.Min(d.a, d.b), math.Max(d.a, d.b)
	b.path(g+"/line", g, Dimension, polyline(pt(lo, d.at), pt(hi, d.at)), NoFill)
	if d.extension {
		gap, over := 1*b.k, 1.5*b.k
		if d.at < d.from {
			gap, over = -gap, -over
		}
		e := polyline(pt(lo, d.from+gap), pt(lo, d.at+over))
		e = append(e, polyline(pt(hi, d.from+gap), pt(hi, d.at+over))...)
		b.path(g+"/ext", g, Dimension, e, NoFill)
	}
	words := d.prefix + dimText(d.value, b.in.System)
	wide := fonts.Width(fonts.Regular, textNormal*b.k, words)
	long, half := 2.5*b.k, 0.42*b.k
	dir := 1.0
	outside := hi-lo < 3*long || wide > hi-lo-1*b.k
	if outside {
		dir = -1
		t := polyline(pt(lo-1.6*long, d.at), pt(lo, d.at))
		b.path(g+"/tails", g, Dimension, append(t, polyline(pt(hi, d.at), pt(hi+1.6*long, d.at))...), NoFill)
	}
	heads := Polygon([][2]float64{pt(lo, d.at), pt(lo+dir*long, d.at-half), pt(lo+dir*long, d.at+half)})
	heads = append(heads, Polygon([][2]float64{pt(hi, d.at), pt(hi-dir*long, d.at-half), pt(hi-dir*long, d.at+half)})...)
	b.path(g+"/ends", g, Dimension, heads, Solid)
	mid := (lo + hi) / 2
	if wide > hi-lo-1*b.k && outside {
		mid = hi + 1.8*long + wide/2
		if d.upright {
			mid = lo - 1.8*long - wide/2
		}
	}
	if d.upright {
		b.text(g+"/figure", g, Dimension, d.at-0.9*b.k, mid, textNormal, Middle, fonts.Regular, -90, words)
		return
	}
	b.text(g+"/figure", g, Dimension, mid, d.at-0.9*b.k, textNormal, Middle, fonts.Regular, 0, words)
}

// dimText prints a length without its unit: millimetres, whole when it is; inches to a tenth
// where the reader's system has them.
func dimText(l unit.Length, sys unit.System) string {
	if sys == unit.Metric {
		return strconv.FormatFloat(l.Millimetres(), 'f', -1, 64)
	}
	return strings.TrimSuffix(unit.Format(l, sys, 1), unit.Space+"in")
}
