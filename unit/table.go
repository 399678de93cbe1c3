package unit

import (
	"math/big"
	"strings"
)

// kinds is the one table of the kinds of quantity and of the unit spellings that are read.
// Factors are exact by definition of the unit, but for the degree, whose π is good to 60 digits.
// The table is built once and never written.
var kinds = [kindCount]kindRow{
	NoKind: {article: "no", name: "quantity"},
	KindMass: {
		article: "a", name: "mass", usual: "kg", example: "12.5", brand: "Kg", dims: [5]int8{0, 1},
		units: []unitRow{
			u("kg|kgs|Kg|KG|kilo|kilos|kilogram|kilograms", "1"),
			u("g|gr|gram|grams", "0.001"),
			u("t|tonne|tonnes", "1000"),
			u("lb|lbs|LB|pound|pounds", "0.45359237").then("oz"),
			u("oz|ounce|ounces", "0.45359237/16"),
		},
		show: [3]shown{{"kg", 0}, {"lb", 0}, {"lb", 0}},
	},
	KindLength: {
		article: "a", name: "length", usual: "mm", example: "600", brand: "Um", dims: [5]int8{1}, max: 9e9,
		units: []unitRow{
			u("mm|MM|millimetre|millimetres|millimeter|millimeters", "0.001"),
			u("cm|CM|centimetre|centimetres|centimeter|centimeters", "0.01"),
			u("m|M|metre|metres|meter|meters", "1"),
			u("µm|μm|um|micron|microns", "0.000001"),
			u("in|inch|inches|\"|″|”|''|′′|’’", "0.0254"),
			u("ft|foot|feet|'|′|’", "0.3048").then("in"),
			u("yd|yard|yards", "0.9144"),
		},
		show: [3]shown{{"mm", 0}, {"in", 1}, {"in", 1}},
	},
	KindVolume: {
		article: "a", name: "volume", usual: "L", example: "92", brand: "M3", dims: [5]int8{3},
		units: []unitRow{
			u("L|l|ltr|litre|litres|liter|liters", "0.001"),
			u("mL|ml|millilitre|millilitres", "0.000001"),
			u("cL|cl", "0.00001"),
			u("dL|dl", "0.0001"),
			u("m³|m3", "1"),
			u("cm³|cm3|cc", "0.000001"),
			u("US gal|gal(US)|US gallon|US gallons", "0.003785411784"),
			u("imp gal|gal(imp)|UK gal|gal(UK)|imperial gallon|imperial gallons", "0.00454609"),
		},
		show: [3]shown{{"L", 0}, {"imp gal", 1}, {"US gal", 1}},
	},
	KindDensity: {
		article: "a", name: "density", usual: "kg/L", example: "0.835", brand: "KgPerM3", dims: [5]int8{-3, 1},
		units: []unitRow{
			u("kg/L|kg/l", "1000"),
			u("kg/m³|kg/m3", "1"),
			u("g/cm³|g/cm3|g/mL|g/ml", "1000"),
			u("lb/ft³|lb/ft3", "0.45359237/0.028316846592"),
		},
		show: [3]shown{{"kg/L", 3}, {"lb/ft³", 1}, {"lb/ft³", 1}},
	},
	KindArea: {
		article: "an", name: "area", usual: "m²", example: "1.25", brand: "M2", dims: [5]int8{2},
		units: []unitRow{
			u("m²|m2|sqm", "1"),
			u("cm²|cm2", "0.0001"),
			u("mm²|mm2", "0.000001"),
			u("ft²|ft2|sq ft|sqft", "0.09290304"),
			u("in²|in2|sq in", "0.00064516"),
		},
		show: [3]shown{{"m²", 2}, {"ft²", 1}, {"ft²", 1}},
	},
	KindAngle: {
		article: "an", name: "angle", usual: "°", example: "90", brand: "Rad",
		units: []unitRow{
			u("°|deg|degree|degrees", pi+"/180"),
			u("rad|radian|radians", "1"),
			u("turn|turns", pi+"*2"),
		},
		show: [3]shown{{"°", 0}, {"°", 0}, {"°", 0}},
	},
	KindRatio: {
		article: "a", name: "share", usual: "%", example: "50", brand: "Share",
		units: []unitRow{
			u("%|percent|per cent", "0.01"),
			u("tank|full|of a tank|of tank", "1"),
		},
		show: [3]shown{{"%", 0}, {"%", 0}, {"%", 0}},
	},
	KindSpeed: {
		article: "a", name: "speed", usual: "km/h", example: "90", brand: "MPerS", dims: [5]int8{1, 0, -1},
		units: []unitRow{
			u("km/h|kmh|kph", "1/3.6"),
			u("m/s", "1"),
			u("mph", "0.44704"),
		},
		show: [3]shown{{"km/h", 0}, {"mph", 0}, {"mph", 0}},
	},
	KindCurrent: {
		article: "a", name: "current", usual: "A", example: "4.2", brand: "Amp", dims: [5]int8{0, 0, 0, 1},
		units: []unitRow{
			u("A|a|amp|amps|ampere|amperes", "1"),
			u("mA", "0.001"),
			u("kA", "1000"),
		},
		show: [3]shown{{"A", 1}, {"A", 1}, {"A", 1}},
	},
	KindVoltage: {
		article: "a", name: "voltage", usual: "V", example: "12.8", brand: "Volt", dims: [5]int8{2, 1, -3, -1},
		units: []unitRow{
			u("V|v|volt|volts", "1"),
			u("mV", "0.001"),
			u("kV", "1000"),
		},
		show: [3]shown{{"V", 1}, {"V", 1}, {"V", 1}},
	},
	KindPower: {
		article: "a", name: "power", usual: "W", example: "270", brand: "Watt", dims: [5]int8{2, 1, -3},
		units: []unitRow{
			u("W|w|watt|watts", "1"),
			u("kW|kw|KW", "1000"),
			u("BTU/h|Btu/h|btu/h", "1055.05585262/3600"),
		},
		show: [3]shown{{"W", 0}, {"W", 0}, {"W", 0}},
	},
	KindEnergy: {
		article: "an", name: "energy", usual: "Wh", example: "1200", brand: "Joule", dims: [5]int8{2, 1, -2}, max: 1e15,
		units: []unitRow{
			u("Wh|wh|watt-hour|watt-hours", "3600"),
			u("kWh|kwh|KWh", "3600000"),
			u("J", "1"),
			u("kJ", "1000"),
			u("MJ", "1000000"),
		},
		show: [3]shown{{"Wh", 0}, {"Wh", 0}, {"Wh", 0}},
	},
	KindCharge: {
		article: "a", name: "charge", usual: "Ah", example: "190", brand: "Coulomb", dims: [5]int8{0, 0, 1, 1},
		units: []unitRow{
			u("Ah|ah|AH|amp-hour|amp-hours", "3600"),
			u("mAh|mah", "3.6"),
			u("C", "1"),
		},
		show: [3]shown{{"Ah", 0}, {"Ah", 0}, {"Ah", 0}},
	},
	KindPressure: {
		article: "a", name: "pressure", usual: "bar", example: "4.5", brand: "Pa", dims: [5]int8{-1, 1, -2},
		units: []unitRow{
			u("bar", "100000"),
			u("mbar", "100"),
			u("Pa", "1"),
			u("hPa", "100"),
			u("kPa", "1000"),
			u("psi", "0.45359237*9.80665/0.00064516"),
		},
		show: [3]shown{{"bar", 2}, {"psi", 0}, {"psi", 0}},
	},
	KindForce: {
		article: "a", name: "force", usual: "N", example: "250", brand: "Newton", dims: [5]int8{1, 1, -2},
		units: []unitRow{
			u("N|newton|newtons", "1"),
			u("kN", "1000"),
			u("lbf", "0.45359237*9.80665"),
		},
		show: [3]shown{{"N", 0}, {"lbf", 0}, {"lbf", 0}},
	},
	KindMassMoment: {
		article: "a", name: "mass moment", usual: "kg·m", example: "40", brand: "KgM", dims: [5]int8{1, 1},
		units: []unitRow{
			u("kg·m|kg m|kgm|kg*m", "1"),
			u("lb·ft|lb ft", "0.45359237*0.3048"),
		},
		show: [3]shown{{"kg·m", 0}, {"lb·ft", 0}, {"lb·ft", 0}},
	},
	KindTemperature: {
		article: "a", name: "temperature", usual: "°C", example: "20", brand: "Kelvin", dims: [5]int8{0, 0, 0, 0, 1}, max: 1e4,
		units: []unitRow{
			u("°C|C|degC|deg C", "1").from("273.15"),
			u("°F|F|degF|deg F", "5/9").from("459.67"),
			u("K", "1"),
		},
		show: [3]shown{{"°C", 0}, {"°F", 0}, {"°F", 0}},
	},
	KindTempDiff: {
		article: "a", name: "temperature difference", usual: "K", example: "15", brand: "KelvinDiff", dims: [5]int8{0, 0, 0, 0, 1}, max: 1e4,
		units: []unitRow{
			u("K|°C|C", "1"),
			u("°F|F", "5/9"),
		},
		show: [3]shown{{"K", 0}, {"°F", 0}, {"°F", 0}},
	},
	KindHours: {
		article: "a", name: "working time", usual: "h", example: "2.5", brand: "Hrs", dims: [5]int8{0, 0, 1},
		units: []unitRow{
			u("h|hr|hrs|hour|hours", "3600").then("min"),
			u("min|mins|minute|minutes", "60"),
		},
		show: [3]shown{{"h", 1}, {"h", 1}, {"h", 1}},
	},
	KindMoney: {
		article: "an", name: "amount of money", usual: "", example: "249.50", brand: "Coins", max: 9e15,
		units: []unitRow{u("", "100")},
		show:  [3]shown{{"", 2}, {"", 2}, {"", 2}},
	},
}

const pi = "3.14159265358979323846264338327950288419716939937510582097494459"

// u makes a row from spellings parted by "|" and a factor written as decimals with * and /.
func u(spellings, factor string) unitRow {
	times := big.NewRat(1, 1)
	for i, part := range strings.Split(factor, "/") {
		for _, number := range strings.Split(part, "*") {
			f := rat(number)
			if i > 0 {
				f.Inv(f)
			}
			times.Mul(times, f)
		}
	}
	row := unitRow{spellings: strings.Split(spellings, "|"), times: times}
	row.shift, row.decimal = powerOfTen(times)
	for _, s := range row.spellings {
		if strings.Contains(s, " ") { // as printed for people
			row.spellings = append(row.spellings, strings.ReplaceAll(s, " ", Space))
		}
	}
	return row
}

func (u unitRow) then(next string) unitRow { u.next = next; return u }

func (u unitRow) from(plus string) unitRow { u.plus = rat(plus); return u }

func rat(decimal string) *big.Rat {
	r, ok := new(big.Rat).SetString(decimal)
	if !ok {
		panic("unit: bad factor " + decimal)
	}
	return r
}
