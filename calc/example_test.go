package calc_test

import (
	"fmt"

	"berthwright/calc"
)

// A load of 60 kg stands 1.20 m behind the rear axle of a van with a wheelbase of 4.035 m. Printed
// with whole kilograms, the wheelbase must show its millimetres for the line to recompute.
func ExampleLines() {
	metres, kilograms := calc.Show{Unit: "m", Digits: 2}, calc.Show{Unit: "kg", Digits: 2}
	w := calc.Working{ID: "example", Title: "What a load does to the rear axle", Steps: []calc.Step{
		{Symbol: "m", Says: "mass", Kind: calc.Given, SI: 60, Dim: calc.DimMass, Show: calc.Show{Unit: "kg"}},
		{Symbol: "l", Says: "wheelbase", Kind: calc.Given, SI: 4.035, Dim: calc.DimLength, Show: metres},
		{Symbol: "o", Says: "behind the rear axle", Kind: calc.Given, SI: 1.2, Dim: calc.DimLength, Show: metres},
		{Symbol: "r", Says: "added to the rear axle", Kind: calc.Derived, Formula: "m * (l + o) / l", SI: 60 * 5.235 / 4.035, Dim: calc.DimMass, Show: kilograms},
	}}
	for _, line := range calc.Lines(w) {
		fmt.Println(plain(line.String()))
	}
	// Output:
	// m = 60 kg
	// l = 4.04 m
	// o = 1.20 m
	// r = m × (l + o) / l = 60 kg × (4.035 m + 1.20 m) / 4.035 m = 77.84 kg
}
