package drawing

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"berthwright/drawing/fonts"
	"berthwright/unit"
)

// Depths of the strata of a view; things lie between things and over, by height or nearness.
const (
	depthGrid   = 0
	depthBody   = 100
	depthThings = 10000
	depthOver   = 1000000
	depthDims   = 1100000
	depthLoads  = 1200000
	depthLabels = 1300000
)

// Heights of lettering in millimetres of paper: the em, not the capital.
const (
	textSmall  = 2.6
	textNormal = 3.0
	textLarge  = 4.4
)

// builder collects the primitives of one view.
type builder struct {
	sc    Scene
	in    Input
	o     Options
	k     float64 // scene millimetres per millimetre of paper
	at    func(x, y, z unit.Length) (float64, float64)
	taken []Box // where no further label may go
	want  []wish
	tops  []Box     // boxes of the things seen, for labels to stay off
	ends  []float64 // where the body ends on the sheet: extension lines run down from there
}

func newBuilder(id, view string, in Input, o Options) *builder {
	if !(o.Scale > 0) {
		o.Scale = 20
	}
	b := &builder{in: in, o: o, k: o.Scale}
	b.sc = Scene{ID: id, View: view, State: in.State, Scale: o.Scale}
	b.sc.Title = strings.TrimSpace(in.Name + " " + view)
	return b
}

func (b *builder) group(p Prim) string {
	p.Kind = Group
	b.sc.Prims = append(b.sc.Prims, p)
	return p.ID
}

func (b *builder) path(id, in string, r Role, d Segs, f Fill) {
	if len(d) == 0 {
		return
	}
	b.sc.Prims = append(b.sc.Prims, Prim{ID: id, In: in, Kind: Path, Role: r, D: d, Fill: f, Depth: len(b.sc.Prims)})
}

// text writes s in capitals of size millimetres of paper and keeps labels away from it.
func (b *builder) text(id, in string, r Role, x, y, size float64, a Anchor, face fonts.Face, turn float64, s string) Box {
	if s == "" {
		return Box{}
	}
	p := Prim{ID: id, In: in, Kind: Text, Role: r, X: round3(x), Y: round3(y), Size: size * b.k, Anchor: a, Face: face,
		Turn: turn, Text: s, Depth: len(b.sc.Prims)}
	b.sc.Prims = append(b.sc.Prims, p)
	box := p.Box()
	b.taken = append(b.taken, box)
	return box
}

// finish sorts the primitives into paint order, numbers the depth of children anew (so that an
// unrelated insertion changes nobody's depth), and measures the scene.
func (b *builder) finish(margin float64) Scene {
	prims := b.sc.Prims
	kids := map[string][]int{}
	var tops []int
	for i := range prims {
		if prims[i].In == "" {
			tops = append(tops, i)
		} else {
			kids[prims[i].In] = append(kids[prims[i].In], i)
		}
	}
	slices.SortFunc(tops, func(i, j int) int {
		return cmp.Or(cmp.Compare(prims[i].Depth, prims[j].Depth), strings.Compare(prims[i].ID, prims[j].ID), cmp.Compare(i, j))
	})
	out := make([]Prim, 0, len(prims))
	for _, i := range tops {
		out = append(out, prims[i])
		for n, j := range kids[prims[i].ID] {
			c := prims[j]
			c.Depth, c.Layer = n, prims[i].Layer
			out = append(out, c)
		}
	}
	var ext Box
	for i := range out {
		ext = ext.Union(out[i].Box())
	}
	b.sc.Prims = out
	if ext != (Box{}) {
		ext = ext.Grow(margin * b.k)
		b.sc.Extent = Box{round3(ext.X0), round3(ext.Y0), round3(ext.X1), round3(ext.Y1)}
	}
	return b.sc
}

// grid draws the 100 mm grid over box, on whole hundreds of van axes.
func (b *builder) grid(box Box) {
	if !b.o.Grid || box == (Box{}) {
		return
	}
	const pitch = 100.0
	g := b.group(Prim{ID: "grid", Role: Grid, Layer: "grid", Depth: depthGrid})
	var d Segs
	x0, x1 := math.Ceil(box.X0/pitch)*pitch, math.Floor(box.X1/pitch)*pitch
	y0, y1 := math.Ceil(box.Y0/pitch)*pitch, math.Floor(box.Y1/pitch)*pitch
	for x := x0; x <= x1; x += pitch {
		d = append(d, LineFrom(x, y0, x, y1)...)
	}
	for y := y0; y <= y1; y += pitch {
		d = append(d, LineFrom(x0, y, x1, y)...)
	}
	b.path("grid/lines", g, Grid, d, NoFill)
}

// hatchLines returns 45° lines inside the polygon, pitch apart, measured across.
func hatchLines(poly [][2]float64, pitch float64) Segs {
	// Rotated axes: u along the line, v across; a line is v = const.
	const s = math.Sqrt2 / 2
	uv := make([][2]float64, len(poly))
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, p := range poly {
		uv[i] = [2]float64{(p[0] - p[1]) * s, (p[0] + p[1]) * s}
		lo, hi = math.Min(lo, uv[i][1]), math.Max(hi, uv[i][1])
	}
	var out Segs
	if !(pitch > 0) {
		return nil
	}
	for v := math.Ceil(lo/pitch) * pitch; v < hi; v += pitch {
		var cuts []float64
		for i, p := range uv {
			q := uv[(i+1)%len(uv)]
			if (p[1] <= v) != (q[1] <= v) {
				cuts = append(cuts, p[0]+(v-p[1])/(q[1]-p[1])*(q[0]-p[0]))
			}
		}
		slices.Sort(cuts)
		for i := 0; i+1 < len(cuts); i += 2 {
			out = append(out, LineFrom((cuts[i]+v)*s, (v-cuts[i])*s, (cuts[i+1]+v)*s, (v-cuts[i+1])*s)...)
		}
	}
	return out
}
