package geom_test

import (
	"fmt"

	"berthwright/geom"
	"berthwright/unit"
)

// A fridge stands 12 mm in the wardrobe beside it and 5 mm in the lined left wall.
func Example() {
	const mm = unit.Millimetre
	body := func(x, y, dx, dy unit.Length) geom.Solid {
		o, err := geom.TurnedBox(geom.Vec2{X: x, Y: y}, geom.Vec2{X: dx, Y: dy}, 0)
		if err != nil {
			panic(err)
		}
		s, err := geom.NewSolid(o, 30*mm, 830*mm)
		if err != nil {
			panic(err)
		}
		return s
	}
	fridge, wardrobe := body(2240*mm, -605*mm, 480*mm, 520*mm), body(2768*mm, -600*mm, 600*mm, 500*mm)
	if c, ok := fridge.Clash(wardrobe); ok {
		fmt.Println("clash", c.Depth, "move along the van by", c.Move.X)
	}
	wall := []geom.Corner{{Y: -900 * mm, Z: 0}, {Y: -900 * mm, Z: 1900 * mm}}
	bare, err := geom.NewShell([]geom.Station{{X: 1600 * mm, Left: wall}, {X: 5000 * mm, Left: wall}})
	if err != nil {
		panic(err)
	}
	lined, err := bare.Lined([]geom.Lining{
		{Face: geom.LeftWall, From: 1600 * mm, To: 5000 * mm, Thick: 40 * mm},
		{Face: geom.Floor, From: 1600 * mm, To: 5000 * mm, Thick: 30 * mm},
	})
	if err != nil {
		panic(err)
	}
	fit, err := lined.Fit(fridge)
	if err != nil {
		panic(err)
	}
	for _, p := range fit.Pokes {
		fmt.Println("through the", p.Face, "by", p.Depth)
	}
	// Output:
	// clash 12 mm move along the van by -12 mm
	// through the left wall by 5 mm
}
