// Package drawingtest answers: is there a whole van to try drawings and papers with?
//
// Curlew is invented, like all its figures.
package drawingtest

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"berthwright/drawing"
	"berthwright/unit"
)

//go:embed curlew.csv
var curlew string

const mm = unit.Millimetre

func some(v float64) unit.Opt[unit.Length] { return unit.Some(unit.MetresLength(v / 1000)) }

// Curlew returns the invented four-berth van with its 109 items.
func Curlew() drawing.Input {
	in := drawing.Input{State: "travel", Name: "Curlew"}
	in.Van = drawing.Van{
		Length: some(6020), Width: some(2040), Height: some(2600), FrontOverhang: some(940), Wheelbase: some(4000),
		TrackFront: some(1790), TrackRear: some(1760), FloorHeight: some(560), FinishedFloor: some(37), Ceiling: some(1890),
		Bulkhead: some(1640), RearDoor: some(5030), LeftWall: some(-925), RightWall: some(925),
		WheelBoxes: []drawing.WheelBox{{X0: 3600 * mm, X1: 4400 * mm, Y0: -925 * mm, Y1: -680 * mm, Top: some(300)},
			{X0: 3600 * mm, X1: 4400 * mm, Y0: 680 * mm, Y1: 925 * mm, Top: some(300)}},
		Door: "left", Wheel: "right",
	}
	in.Axles = []drawing.AxleLoad{
		{X: 0, Text: "front axle 1 581 kg of 1 860 kg", Sub: "279 kg in hand: holds"},
		{X: 4000 * mm, Text: "rear axle 1 886 kg of 1 900 kg", Sub: "14 kg in hand, ± 16 kg: tight"},
	}
	in.Centre = &drawing.CentrePoint{X: 2176 * mm, Y: 5 * mm, Z: 360 * mm, Text: "centre of mass, 3 467 kg laden"}
	for i := 0; i <= 40; i++ {
		x := -940 + i*150
		p := drawing.CurvePoint{X: unit.Length(x) * mm, Mass: room(float64(x) / 1000)}
		switch i {
		case 0, 18, 27, 33, 40:
			p.Text = fmt.Sprintf("%.0f", p.Mass.Kilograms())
		}
		in.Curve = append(in.Curve, p)
	}
	for i, row := range rows() {
		in.Things = append(in.Things, thing(i+1, row))
	}
	return in
}

// room is the invented reserve 33.0 kg in all, 14.3 kg on the rear axle, shared by leverage.
func room(x float64) unit.Mass {
	m := 33.0
	if x > 0 {
		m = min(m, 14.3*4/x)
	}
	return unit.Kilogram.Times(m)
}

func rows() [][]string {
	r := csv.NewReader(strings.NewReader(curlew))
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil || len(all) < 100 {
		panic(fmt.Sprintf("drawingtest: %d rows: %v", len(all), err))
	}
	return all[1:]
}

func thing(n int, row []string) drawing.Thing {
	num := func(s string) unit.Length {
		if s == "" {
			return 0
		}
		v, err := strconv.Atoi(s)
		if err != nil {
			panic("drawingtest: " + err.Error())
		}
		return unit.Length(v) * mm
	}
	t := drawing.Thing{ID: row[0], Doc: "items/" + row[0], Number: n, Name: row[1], Mass: row[2] + " kg", Layer: row[3], Removed: row[13] != ""}
	x, y, z := num(row[5]), num(row[6]), num(row[7])
	t.Centre.X, t.Centre.Y, t.Centre.Z = x, y, z
	switch row[4] {
	case "spread":
		t.Kind, t.X0, t.X1 = drawing.Spread, num(row[11]), num(row[12])
	case "mass":
		t.Kind = drawing.MassOnly
	case "item":
		a, b, c := num(row[8]).Half(), num(row[9]).Half(), num(row[10]).Half()
		t.Outline = []drawing.At{{X: x - a, Y: y - b}, {X: x + a, Y: y - b}, {X: x + a, Y: y + b}, {X: x - a, Y: y + b}}
		t.Z0, t.Z1 = z-c, z+c
	default:
		panic("drawingtest: unknown kind " + row[4])
	}
	switch t.ID {
	case "fridge", "battery", "kitchen-carcass", "lower-bunk-frame", "bench-belted":
		t.Measured = true
	}
	return t
}
