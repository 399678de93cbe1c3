package rules

import (
	"fmt"

	"berthwright/calc"
	"berthwright/unit"
)

// The load indices that the table covers.
const (
	firstIndex = 60
	lastIndex  = 150
)

// loadIndex is the mass in kg that one tyre carries, from index 60 to 150, ten to a line.
var loadIndex = [lastIndex - firstIndex + 1]float64{
	250, 257, 265, 272, 280, 290, 300, 307, 315, 325, // 60
	335, 345, 355, 365, 375, 387, 400, 412, 425, 437, // 70
	450, 462, 475, 487, 500, 515, 530, 545, 560, 580, // 80
	600, 615, 630, 650, 670, 690, 710, 730, 750, 775, // 90
	800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030, // 100
	1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360, // 110
	1400, 1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850, // 120
	1900, 1950, 2000, 2060, 2120, 2180, 2240, 2300, 2360, 2430, // 130
	2500, 2575, 2650, 2725, 2800, 2900, 3000, 3075, 3150, 3250, // 140
	3350, // 150
}

// LoadIndex returns the mass that one tyre with the load index carries, with its basis. It refuses
// indices outside 60 … 150 and does not interpolate: indices are whole.
//
// Source: ISO 4000-1, load index. Rows 91, 95, 97 and 99 to 126 were read in charts that quote it,
// the others are from memory.
func LoadIndex(index int) (calc.Const, error) {
	if index < firstIndex || index > lastIndex {
		return calc.Const{}, fmt.Errorf("load index %d is outside %d … %d", index, firstIndex, lastIndex)
	}
	level := calc.Recalled
	if index == 91 || index == 95 || index == 97 || index >= 99 && index <= 126 {
		level = calc.Secondary
	}
	return calc.Const{
		SI: loadIndex[index-firstIndex], Dim: calc.DimMass, Show: kilograms,
		Says:   fmt.Sprintf("one tyre of load index %d", index),
		Source: calc.Cite{Key: "iso-4000-1", At: fmt.Sprintf("load index %d", index)}, Level: level,
	}, nil
}

// TyreMass returns what the tyres of one axle carry together: two tyres, or four when twin.
func TyreMass(index int, twin bool) (unit.Mass, error) {
	c, err := LoadIndex(index)
	if err != nil {
		return 0, err
	}
	if twin {
		return unit.Mass(4 * c.SI), nil
	}
	return unit.Mass(2 * c.SI), nil
}
