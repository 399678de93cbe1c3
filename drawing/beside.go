package drawing

import (
	"strconv"

	"berthwright/drawing/fonts"
)

// SheetRoom is the width that an A3 sheet leaves for a view, in millimetres of paper.
const SheetRoom = 420 - bindEdge - plainEdge - blockWidth

// Beside puts views of one scale side by side, each with its name above it and its feet on one line. Ids get the number of the
// view in front, "1:item:fridge".
func Beside(id, view string, views []Scene) Scene {
	if len(views) == 0 {
		return Scene{ID: id, View: view}
	}
	k := views[0].Scale
	out := Scene{ID: id, View: view, State: views[0].State, Title: view, Scale: k}
	x := 0.0
	for i, v := range views {
		prefix := strconv.Itoa(i+1) + ":"
		dx := x - v.Extent.X0
		for _, p := range v.Prims {
			p.D = p.D.scaled(1, dx, 0)
			if p.Kind == Text {
				p.X = round3(p.X + dx)
			}
			p.ID = prefix + p.ID
			if p.In != "" {
				p.In = prefix + p.In
			} else {
				p.Depth += i * 10000000
			}
			out.Prims = append(out.Prims, p)
		}
		size := fit(v.View, fonts.SemiBold, textNormal*k, v.Extent.W()-4*k)
		t := Prim{ID: prefix + "name", Kind: Text, Role: Cell, Layer: "notes", X: round3(x + 2*k), Y: round3(v.Extent.Y0 - 2*k), Size: size, Face: fonts.SemiBold, Text: v.View, Depth: i*10000000 + 9999999}
		out.Prims = append(out.Prims, t)
		e := v.Extent
		out.Extent = out.Extent.Union(Box{e.X0 + dx, e.Y0, e.X1 + dx, e.Y1}).Union(t.Box())
		x += v.Extent.W() + 4*k
	}
	return out
}
