package sheet_test

import (
	"testing"

	"berthwright/derive"
	"berthwright/drawing"
	"berthwright/sheet"
)

func BenchmarkSection(b *testing.B) {
	s := fitSheet(b, "curlew")
	view := sheet.SectionView(s.Stations()[1])
	for b.Loop() {
		sheet.Scene(s.DrawingOf(view, derive.Night, nil), view, drawing.Full(20))
	}
}

func BenchmarkWall(b *testing.B) {
	s := fitSheet(b, "curlew")
	for b.Loop() {
		sheet.Scene(s.DrawingOf("wall-right", derive.Night, nil), "wall-right", drawing.Full(20))
	}
}

// BenchmarkMovingPlan draws a plan as it is drawn while something moves, from nothing.
func BenchmarkMovingPlan(b *testing.B) {
	o := drawing.Options{Scale: 20, Grid: true, Dimensions: true, Band: true}
	s := fitSheet(b, "curlew")
	c, err := fitParts()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		fresh := sheet.After(s, s.Build, derive.Context{Parts: c}, nil)
		sheet.Scene(fresh.DrawingOf("plan", derive.Travel, nil), "plan", o)
	}
}
