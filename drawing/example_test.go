package drawing_test

import (
	"fmt"
	"strings"

	"berthwright/drawing"
	"berthwright/unit"
)

// A van of 5.4 m with a wardrobe behind the bulkhead line, taken 300 mm further back.
func ExampleDiff() {
	const mm = unit.Millimetre
	in := drawing.Input{Name: "Tern", Van: drawing.Van{Length: unit.Some(5400 * mm), Width: unit.Some(2000 * mm), FrontOverhang: unit.Some(900 * mm),
		Wheelbase: unit.Some(3500 * mm), Bulkhead: unit.Some(1500 * mm), RearDoor: unit.Some(4400 * mm)}}
	wardrobe := func(x unit.Length) drawing.Thing {
		return drawing.Thing{ID: "wardrobe", Number: 7, Name: "Wardrobe", Mass: "14 kg", Z1: 1800 * mm,
			Outline: []drawing.At{{X: x, Y: 400 * mm}, {X: x + 500*mm, Y: 400 * mm}, {X: x + 500*mm, Y: 900 * mm}, {X: x, Y: 900 * mm}}}
	}
	in.Things = []drawing.Thing{wardrobe(1600 * mm)}
	before := drawing.Plan(in, drawing.Options{Scale: 20, Labels: true})
	in.Things = []drawing.Thing{wardrobe(1900 * mm)}
	for _, p := range drawing.Diff(before, drawing.Plan(in, drawing.Options{Scale: 20, Labels: true})).Changed {
		fmt.Println(strings.TrimSpace(p.ID + " " + p.D.String() + p.Text))
	}
	// Output:
	// item:wardrobe/edge M1900-400L2400-400L2400-900L1900-900Z
	// label:wardrobe/plate M2024.498-669.906L2275.502-669.906L2275.502-622.44L2024.498-622.44Z
	// label:wardrobe/0 7 Wardrobe
}
