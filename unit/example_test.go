package unit_test

import (
	"errors"
	"fmt"
	"strings"

	"berthwright/unit"
)

func ExampleParseMassEst() {
	fridge, err := unit.ParseMassEst("19.2 kg ± 4 %")
	half, _ := fridge.Half().Get()
	fmt.Println(fridge.Value, half, err)

	_, err = unit.ParseMassEst("12.5 Ah")
	var wrong *unit.ParseError
	if errors.As(err, &wrong) {
		fmt.Println(wrong, "at byte", wrong.At)
		fmt.Println("hint:", wrong.Hint)
	}
	// Output:
	// 19.2 kg 0.768 kg <nil>
	// "12.5 Ah" is not a mass: "Ah" is a charge at byte 5
	// hint: write a mass like "12.5 kg"
}

func ExampleTyped() {
	for _, text := range []string{"1240+30-15", "620,5", `5' 10"`} {
		e, _ := unit.Typed(unit.KindLength, "mm", text)
		fmt.Println(e.Text, e.SI)
	}
	e, _ := unit.Typed(unit.KindRatio, "%", "1/2")
	fmt.Println(e.Text, e.SI)
	// Output:
	// 1255 mm 1.255
	// 620.5 mm 0.6205
	// 5' 10" 1.778
	// 50 % 0.5
}

func ExampleFormatPair() {
	value, limit := unit.FormatPair(1849.6*unit.Kilogram, 1850*unit.Kilogram, unit.Metric, -1)
	fmt.Println(strings.ReplaceAll(value+" of "+limit, unit.Space, " "))
	// Output: 1 849.6 kg of 1 850.0 kg
}
