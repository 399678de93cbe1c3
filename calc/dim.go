package calc

import (
	"strconv"
	"strings"
)

// More dimensions, used by formulas with forces, angles of slope and speeds.
var (
	DimTime         = Dim{0, 0, 1}
	DimSpeed        = Dim{1, 0, -1}
	DimAcceleration = Dim{1, 0, -2}
	DimForce        = Dim{1, 1, -2}
	DimTemperature  = Dim{0, 0, 0, 0, 1}
)

// Times returns the dimension of a product.
func (d Dim) Times(other Dim) Dim {
	for i := range d {
		d[i] += other[i]
	}
	return d
}

// Per returns the dimension of a quotient.
func (d Dim) Per(other Dim) Dim {
	for i := range d {
		d[i] -= other[i]
	}
	return d
}

// Power returns the dimension of a power; ok is false when an exponent would not be whole or
// would leave the range of a Dim.
func (d Dim) Power(exponent float64) (power Dim, ok bool) {
	for i := range d {
		e := float64(d[i]) * exponent
		if !(e >= -100 && e <= 100) || e != float64(int8(e)) {
			return Dim{}, false
		}
		d[i] = int8(e)
	}
	return d, true
}

// String returns the dimension in SI base units, "kg·m" or "kg/m³"; "1" for a plain number.
func (d Dim) String() string {
	names := [5]string{"m", "kg", "s", "A", "K"}
	var over, under []string
	for _, i := range [5]int{1, 0, 2, 3, 4} {
		switch e := int(d[i]); {
		case e > 0:
			over = append(over, names[i]+superscript(e))
		case e < 0:
			under = append(under, names[i]+superscript(-e))
		}
	}
	switch {
	case len(over) == 0 && len(under) == 0:
		return "1"
	case len(under) == 0:
		return strings.Join(over, "·")
	case len(over) == 0:
		over = []string{"1"}
	}
	return strings.Join(over, "·") + "/" + strings.Join(under, "/")
}

func superscript(n int) string {
	if n == 1 {
		return ""
	}
	digits := []rune("⁰¹²³⁴⁵⁶⁷⁸⁹")
	var b strings.Builder
	for _, c := range strconv.Itoa(n) {
		b.WriteRune(digits[c-'0'])
	}
	return b.String()
}
