package check_test

import (
	"testing"

	"berthwright/axle"
	"berthwright/check"
	"berthwright/derive"
	"berthwright/rules"
	"berthwright/unit"
)

// TestCrossCurlewCases holds the case table of the demo van, worked out outside the project by scripts of others, against
// the build file read, derived and assessed. Tolerance: half of the last printed digit, and where it is more the reason.
func TestCrossCurlewCases(t *testing.T) {
	b := read(t, "../examples/curlew.yaml")
	w := assess(t, b, nil)
	in := derive.MakeWeight(b, context(t), nil)
	in.Person = 0 // people at their own masses, which no rule asks for
	own := check.AssessWeight(in, rules.Pack{})
	for _, c := range []struct {
		row                string
		w                  *check.Weight
		id                 string
		front, rear, total float64
		within             float64
	}{
		{"finished, dry, no fuel, nobody", w, "dry", 1321, 1365, 2686, 0.5},
		{"running order: driver 75, fuel 90 %", w, "ro-dry", 1410, 1409, 2818, 0.5},
		{"ditto + fresh, hot, gas, flush full", w, "ro-approval", 1412, 1519, 2931, 0.5},
		// The table does not say where the pay-mass lies; spread over the zones behind the cab the rear is 1 715.53.
		{"ditto + 3 x 75 + pay-mass 100.2", w, "approval", 1541, 1715, 3256, 0.55},
		{"as this party travels", w, "party", 1542, 1717, 3259, 0.5},
		{"worst rear, normal water, larger", w, "worst-rear-used", 1562, 1829, 3391, 0.5},
		{"worst rear, refilled, own masses", own, "worst-rear-refilled", 1546, 1847, 3393, 0.5},
		{"worst rear, refilled, larger", w, "worst-rear-refilled", 1581, 1886, 3467, 0.5},
		{"worst front, refilled, larger", w, "worst-front-refilled", 1619, 1805, 3424, 0.5},
	} {
		s := caseOf(t, c.w, c.id).Split
		near(t, c.row+": front", kgOf(t, "front", s.Front), c.front, c.within)
		near(t, c.row+": rear", kgOf(t, "rear", s.Rear), c.rear, c.within)
		near(t, c.row+": total", s.Total.Kilograms(), c.total, c.within)
	}
	margin := func(key string) float64 { return get(t, key, finding(t, w, key).Margin).SI }
	near(t, "rear in hand", margin("axle-rear"), 14.3, 0.05)
	near(t, "total in hand", margin("weight-total"), 33.0, 0.05)
	near(t, "front in hand", margin("axle-front"), 241, 0.5)
	near(t, "left after three more people", get(t, "pay-mass", finding(t, w, "pay-mass").Value).SI, 344, 0.5)
	near(t, "lowest front share, %", 100*get(t, "share", finding(t, w, "front-share").Value).SI, 44.7, 0.05)
	near(t, "roof", get(t, "roof", finding(t, w, "roof-load").Value).SI, 100, 0.5)
	near(t, "height of the mass centre", get(t, "height", caseOf(t, w, "worst-rear-refilled").Split.Centre.Z).Metres(), 0.92, 0.005)
	// The table's sides rest on places of the luggage across the van, which it does not give; ours are in the build.
	s := caseOf(t, own, "worst-rear-refilled").Split
	near(t, "left", kgOf(t, "left", s.Left), 1686, 5)
	near(t, "right", kgOf(t, "right", s.Right), 1706, 5)
	if v := finding(t, w, "axle-rear").Verdict; v != check.Tight {
		t.Errorf("the rear axle is %q, want tight", v.Says())
	}
}

// TestCrossCurlewGroups: 104 fitted rows of 865.8 kg, 5 removed of 98.0 kg, and the mass of each group.
func TestCrossCurlewGroups(t *testing.T) {
	w := assess(t, read(t, "../examples/curlew.yaml"), nil)
	sums, fitted, removed, n, out := map[string]float64{}, 0.0, 0.0, 0, 0
	front, rear := 0.0, 0.0
	for i := range w.In.Loads {
		l := &w.In.Loads[i]
		m := l.Mass.Kilograms()
		if a, ok := w.Geometry.Rear().Lever(l.At, l.On).Get(); ok {
			rear += m * a.Share()
			front += m * (1 - a.Share())
		}
		switch {
		case m < 0:
			removed, out = removed-m, out+1
		case m > 0:
			fitted, n = fitted+m, n+1
			if l.Unlisted {
				sums["unlisted"] += m
			} else {
				sums[l.Group] += m
			}
		}
	}
	if n != 104 || out != 5 {
		t.Errorf("%d fitted and %d removed rows, want 104 and 5", n, out)
	}
	near(t, "fitted", fitted, 865.8, 0.05)
	near(t, "removed", removed, 98.0, 0.05)
	near(t, "net on the front axle", front, 160.8, 0.05)
	near(t, "net on the rear axle", rear, 607.0, 0.05)
	for group, want := range map[string]float64{"body": 107.8, "lining": 114.6, "seats": 137.4, "kitchen": 91.6, "overhead": 16.4, "washroom": 57.7, "tall": 40.1,
		"bunks": 99.4, "water": 35.0, "gas": 27.4, "heating": 11.3, "electric": 87.6, "unlisted": 24.0} {
		near(t, "group "+group, sums[group], want, 0.05)
	}
	near(t, "safety and loose", sums["safety"]+sums["loose"], 15.5, 0.05)
}

// TestCrossCurlewSpread uses the assumptions of the table: each row's own error, one shared error of all listed rows.
func TestCrossCurlewSpread(t *testing.T) {
	w := assess(t, read(t, "../examples/curlew.yaml"), nil)
	loads := w.Base.Loads()
	for i := range loads {
		switch {
		case loads[i].Kind == "ticket" || loads[i].Kind == "" || loads[i].ID == derive.UnlistedID || loads[i].ID == "old-steel-cutouts":
			loads[i].Kind = "" // the ticket, the unlisted, and steel known by area times gauge
		default:
			loads[i].Kind = "listed"
		}
	}
	for _, c := range []struct {
		m            axle.Measure
		shared       unit.Ratio
		half, within float64
	}{
		{w.Geometry.Rear(), 0, 15.8, 0.05}, {w.Geometry.Rear(), 0.03, 23.9, 0.05}, {w.Geometry.Rear(), 0.05, 33.7, 0.05},
		{axle.Total(), 0, 21.1, 0.05}, {axle.Total(), 0.03, 30.8, 0.1}, // which rows the table lets lean is not written
	} {
		d, err := axle.Spread(loads, []axle.Shared{{Kind: "listed", Rel: c.shared}}, c.m, 0)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.m.Name, d.Half.Kilograms(), c.half, c.within)
	}
}

// TestCrossCurlewLessons: what the demo says late changes do, through the build file.
func TestCrossCurlewLessons(t *testing.T) {
	whole := text(t, "../examples/curlew.yaml")
	before := assess(t, parse(t, whole), nil)
	margin := func(w *check.Weight, key string) float64 { return get(t, key, finding(t, w, key).Margin).SI }
	rack := assess(t, parse(t, insert(t, whole, "items:\n", "  - {id: rack, name: Rack with two bicycles, mass: 64 kg, known: weighed, where: rear, at: {x: 5620 mm, y: 0 mm, z: 300 mm}}\n")), nil)
	near(t, "rear with a rack", margin(rack, "axle-rear"), -76, 0.5)
	near(t, "total with a rack", margin(rack, "weight-total"), -31, 0.5)
	if finding(t, rack, "axle-rear").Verdict != check.DoesNotHold || finding(t, rack, "weight-total").Verdict != check.DoesNotHold {
		t.Error("a late rack with two heavy bicycles is not found")
	}
	empty := assess(t, parse(t, replace(t, whole, "waste-empty: false", "waste-empty: true")), nil)
	near(t, "waste-empty rule", margin(empty, "axle-rear")-margin(before, "axle-rear"), 57, 0.5)
}
