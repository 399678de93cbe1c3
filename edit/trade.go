package edit

import (
	"slices"
	"strings"
	"unicode"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/unit"
)

// trades are the words that tell the trade of an item; where an item is called two things the last one is what it is.
// Common practice, no source.
var trades = map[string]string{
	"body":     "window, roof window, rooflight, roof light, skylight, awning, roof rack, rack, roof rail, tow bar, bike carrier, step, pop top, elevating roof, roof vent, roof fan",
	"lining":   "lining, insulation, floor, subfloor, wall panel, panelling, cladding, ceiling, carpet, vinyl, felt, ply lining, batten",
	"seats":    "seat, bench, dinette, table, swivel, seat belt, belt",
	"kitchen":  "fridge, refrigerator, freezer, cool box, hob, stove, cooker, oven, grill, microwave, sink, worktop, kitchen, galley, kitchen unit, mixer tap, extractor",
	"overhead": "overhead, locker, overhead locker, overhead cupboard, roof locker",
	"washroom": "toilet, shower, washroom, bathroom, cassette toilet, shower tray, basin, washbasin, shower door, toilet door, washroom door",
	"tall":     "wardrobe, drying locker, tall cupboard, tall unit, larder",
	"bunks":    "mattress, bed, bunk, bed frame, slat, bed base, pillow, bunk ladder, bed board",
	"water":    "tank, water tank, pump, water, tap, faucet, water filter, accumulator, filler, drain, hose, waste water, fresh water, grey water, waste tank",
	"gas":      "gas, cylinder, gas locker, gas box, gas pipe, regulator, gas bottle, gas tank, gas hose",
	"heating":  "heater, boiler, heating, heater duct, diesel tank, fuel tank, fuel pump, water heater, gas heater",
	"electric": "battery, battery box, solar, solar panel, inverter, charger, cable, wiring, loom, harness, fuse, fuse box, lamp, light, led, socket, switch, shunt, relay, fan, alternator, mains inlet, switch panel, control panel, television, tv",
	"safety":   "fire extinguisher, extinguisher, smoke alarm, alarm, fire blanket, detector, gas alarm, gas detector, first aid",
}

// trade guesses the trade of an item by what it is called; "" when no word tells.
func trade(name string) string {
	name = strings.ToLower(name)
	for _, cut := range [...]string{",", "(", ";", " with ", " under ", " for ", " in ", " on ", " behind ", " beside ", " below ", " above ", " over ", " at ", " of ", " and ", " incl"} {
		if i := strings.Index(name, cut); i > 0 {
			name = name[:i]
		}
	}
	words := strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) })
	for end := len(words); end > 0; end-- {
		for from := max(0, end-2); from < end; from++ { // two words tell more than one
			want := strings.Join(words[from:end], " ")
			for _, w := range [...]string{want, strings.TrimSuffix(want, "s"), strings.TrimSuffix(want, "es"), strings.TrimSuffix(want, "ies") + "y"} {
				for _, group := range tradeOrder() {
					if slices.Contains(strings.Split(trades[group], ", "), w) {
						return group
					}
				}
			}
		}
	}
	return ""
}

// tradeOrder is the words of the field group in the order of the file.
func tradeOrder() []string {
	f, _ := FieldAt("items/x/group")
	return f.Enum
}

// standsFor says what allowances the rows of a table take the place of.
func standsFor(f *docfile.File, env Env, rows []Gesture) string {
	before := allowed(f, env)
	if len(before) == 0 {
		return ""
	}
	made, err := Compile(f, env, rows)
	if err != nil {
		return ""
	}
	then, _, err := f.Apply(doc.Change{Ops: made.Ops})
	if err != nil {
		return ""
	}
	after := allowed(then, env)
	var less, left unit.Mass
	var names, still []string
	for _, g := range tradeOrder() {
		if d := before[g] - after[g]; d > 0 {
			less += d
			names = append(names, g)
		}
		if after[g] > 0 {
			left += after[g]
			still = append(still, g)
		}
	}
	kg := func(m unit.Mass) string { return unit.Format(m, env.System, 0) }
	says := "these stand in for no allowance"
	if len(names) > 0 {
		says = "these stand in for: " + strings.Join(names, ", ") + " (" + unit.Minus + kg(less) + " of allowances)"
	}
	if left > 0 {
		says += "; " + kg(left) + " of allowances still stand"
		if len(still) <= 3 {
			says += ": " + strings.Join(still, ", ")
		}
	}
	return says
}

// allowed is what is left of the allowances of each trade.
func allowed(f *docfile.File, env Env) map[string]unit.Mass {
	out := map[string]unit.Mass{}
	for _, l := range derive.MakeWeight(f.Build, env.Derive, nil).Loads {
		if l.Allowance {
			out[l.Group] += l.Mass
		}
	}
	return out
}
