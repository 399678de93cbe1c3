package unit

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// printSI returns si as the shortest stored text in the usual unit that reads back to si.
func printSI(k Kind, si float64) (string, bool) {
	u := k.unit(k.Unit())
	if k == NoKind || math.IsNaN(si) || math.IsInf(si, 0) {
		return join(strconv.FormatFloat(si, 'g', -1, 64), k.Unit()), false
	}
	if k == KindLength {
		if !(abs(si) <= 9e9) {
			return join(strconv.FormatFloat(si*1e3, 'g', -1, 64), k.Unit()), false
		}
		return printLength(Length(math.Round(si * 1e6)))
	}
	if k == KindMoney && abs(si) <= 9e15 && si == math.Trunc(si) {
		return printMoney(Money(si)), true
	}
	if u.decimal && u.plus == nil {
		text := join(shiftPoint(si, u.shift), k.Unit())
		return text, readsBack(k, text, si)
	}
	times, _ := u.times.Float64()
	about := si / times
	if u.plus != nil {
		plus, _ := u.plus.Float64()
		for _, decimals := range []int{0, 2, 6, 9, 11, 12, 13, 14} {
			text := join(trimZeros(strconv.FormatFloat(about-plus, 'f', decimals, 64)), k.Unit())
			if readsBack(k, text, si) {
				return text, true
			}
		}
	} else {
		for digits := 15; digits <= 17; digits++ {
			if text := join(plain(about, digits), k.Unit()); readsBack(k, text, si) {
				return text, true
			}
		}
	}
	// The division above was rounded: go by the exact number.
	exact := u.number(new(big.Rat).SetFloat64(si))
	text := ""
	for _, decimals := range []int{18, 24, 40, 60, 90, 120, 150} {
		text = join(trimZeros(exact.FloatString(decimals)), k.Unit())
		if readsBack(k, text, si) {
			return text, true
		}
	}
	return text, false
}

func readsBack(k Kind, text string, si float64) bool {
	got, err := k.Parse(text)
	return err == nil && got == si
}

func printLength(l Length) (string, bool) {
	whole, part := l/Millimetre, l%Millimetre
	text := strconv.FormatInt(int64(whole), 10)
	if part != 0 {
		sign := ""
		if l < 0 {
			sign, whole, part = "-", -whole, -part
		}
		digits := strconv.FormatInt(int64(1000+part), 10)[1:]
		text = sign + strconv.FormatInt(int64(whole), 10) + "." + strings.TrimRight(digits, "0")
	}
	return text + " mm", l >= -9e15 && l <= 9e15
}

func printMoney(m Money) string {
	sign := ""
	if m < 0 {
		sign, m = "-", -m
	}
	return fmt.Sprintf("%s%d.%02d", sign, m/100, m%100)
}

// powerOfTen returns the exponent of times where it is a power of ten.
func powerOfTen(times *big.Rat) (int, bool) {
	num, den := times.Num().String(), times.Denom().String()
	switch {
	case den == "1" && strings.Trim(num, "0") == "1":
		return len(num) - 1, true
	case num == "1" && strings.Trim(den, "0") == "1":
		return 1 - len(den), true
	}
	return 0, false
}

// shiftPoint prints f divided by 10^shift, exactly the shortest digits of f.
func shiftPoint(f float64, shift int) string {
	e := strconv.FormatFloat(f, 'e', -1, 64)
	mantissa, exponent, _ := strings.Cut(e, "e")
	sign := ""
	if mantissa[0] == '-' {
		sign, mantissa = "-", mantissa[1:]
	}
	digits := strings.TrimRight(strings.Replace(mantissa, ".", "", 1), "0")
	if digits == "" {
		return "0"
	}
	n, _ := strconv.Atoi(exponent)
	point := n + 1 - shift // digits before the point
	switch {
	case point <= 0:
		return sign + "0." + strings.Repeat("0", -point) + digits
	case point >= len(digits):
		return sign + digits + strings.Repeat("0", point-len(digits))
	}
	return sign + digits[:point] + "." + digits[point:]
}

// plain prints f with so many significant digits and without an exponent.
func plain(f float64, digits int) string {
	e := strconv.FormatFloat(f, 'e', digits-1, 64)
	g, _ := strconv.ParseFloat(e, 64)
	if digits == 17 {
		g = f
	}
	return shiftPoint(g, 0)
}
