package check_test

import (
	"fmt"
	"testing"

	"berthwright/check"
	"berthwright/doc"
	"berthwright/unit"
)

// plain is a van of which everything is known: ticket without driver and fuel, seats, plate and nothing unlisted.
func plain(n int, length string, front, rear float64, more string) string {
	s := fmt.Sprintf(`berthwright: 1
build: {id: plain, country: uk, date: 2026-11-01}
van:
  wheelbase: 4 m
  track: {front: 1.8 m, rear: 1.8 m}
  length: %s
  floor: {height: 560 mm, front: 1600 mm, rear: 5000 mm}
  plated: {total: 3500 kg, train: 6000 kg, front: 1900 kg, rear: 2000 kg}
  empty: {front: %g kg ± 10 kg, rear: %g kg ± 10 kg, with: {driver: 0 kg, fuel: 0 %%}, from: weighing}
  tyres: {front: 112, rear: 112}
loading:
  luggage: 50 kg
  zones: [{id: boot, limit: 50 kg, at: {x: 4000 mm, y: 0 mm, z: 300 mm}}]
items:
  - {id: unlisted, mass: 0 kg, at: {x: 3 m, y: 0 m, z: 0 m}}
`, length, front, rear)
	for i := range n {
		s += fmt.Sprintf("  - {id: seat-%d, in-ticket: true, at: {x: %d mm, y: 0 mm, z: 0 mm}, seat: {belted: true, faces: forward, driver: %v, r-point: {x: %d mm, y: 0 mm, z: 400 mm}}}\n",
			i, 1200+900*(i/2), i == 0, 1200+900*(i/2))
	}
	return s + more
}

// TestRefLeastPayMass: Regulation (EU) 1230/2012, annex I, part A, 2.6.4.1.2, 10 (n + L), with the examples worked in
// texts that quote it (rows M-05 to M-08 of the project's table of published values), and EN 1646-2 as a summary
// quotes it (M-09, M-10: 3 x 75 + 110 = 335 kg).
func TestRefLeastPayMass(t *testing.T) {
	for _, c := range []struct {
		row    string
		n      int
		length string
		pay    float64
	}{{"M-06", 4, "7.45 m", 114.5}, {"M-07", 4, "7.00 m", 110}, {"M-08", 2, "5.99 m", 79.9}} {
		w := assess(t, parse(t, plain(c.n, c.length, 1500, 1200, "")), nil)
		near(t, c.row, get(t, "limit", finding(t, w, "pay-mass").Limit).SI, c.pay, 1e-9)
		load := caseOf(t, w, "approval").Split.Total - caseOf(t, w, "ro-approval").Split.Total
		near(t, c.row+", conventional load", load.Kilograms(), 75*float64(c.n-1)+c.pay, 1e-9)
	}
}

const tanks = `  - {id: fuel, in-ticket: true, at: {x: 1500 mm, y: 0 mm, z: 0 mm}, tank: {for: fuel, holds: 60 kg}}
  - {id: fresh, mass: 0 kg, at: {x: 3500 mm, y: 0 mm, z: 0 mm}, tank: {for: fresh, holds: 100 kg, travel: 20 %}}
  - {id: waste, mass: 0 kg, at: {x: 3600 mm, y: 0 mm, z: 0 mm}, tank: {for: waste, holds: 90 kg}}
  - {id: boiler, mass: 0 kg, at: {x: 3700 mm, y: 0 mm, z: 0 mm}, tank: {for: hot, holds: 8 kg}}
  - {id: flush, mass: 0 kg, at: {x: 3200 mm, y: 0 mm, z: 0 mm}, tank: {for: flush, holds: 5 kg}}
  - {id: gas-one, mass: 0 kg, at: {x: 4700 mm, y: 0 mm, z: 0 mm}, tank: {for: gas, holds: 18 kg}}
  - {id: gas-two, mass: 0 kg, at: {x: 4700 mm, y: 0 mm, z: 0 mm}, tank: {for: gas, holds: 18 kg}}
`

// TestRefRunningOrder: rows M-11 (EN 1646-2: fuel 90 %, driver 75, one cylinder, fresh, flush and boiler full), M-12
// (1230/2012: fuel 90 %, all other fluids but waste full), M-13 (a maker may count the declared driving fill only).
func TestRefRunningOrder(t *testing.T) {
	w := assess(t, parse(t, plain(2, "6 m", 1200, 800, tanks)), nil)
	over := func(id string) float64 { return (caseOf(t, w, id).Split.Total - w.Base.Total).Kilograms() }
	near(t, "M-11", over("ro-en-1646-2"), 75+0.9*60+18+100+5+8, 1e-9)
	near(t, "M-12", over("ro-approval"), 75+0.9*60+100+8+5+36, 1e-9)
	near(t, "M-13", over("ro-travelling-fill"), 75+0.9*60+0.2*100+8+5+36, 1e-9)
	near(t, "dry", over("ro-dry"), 75+0.9*60, 1e-9)
	for _, c := range w.Cases {
		if c.Basis == "" != (c.Source == nil) {
			t.Errorf("%s: basis %q, source %v", c.ID, c.Basis, c.Source)
		}
	}
}

// TestRefDeclaredMass: row M-14, 5 % between declared and weighed running order: 3 050 kg, 2 897.5 to 3 202.5 kg.
func TestRefDeclaredMass(t *testing.T) {
	build := replace(t, plain(2, "6 m", 1575, 1400, ""), "from: weighing", "from: papers") // 2 975 + driver 75
	for _, c := range []struct {
		weighed float64 // running order
		want    check.Verdict
	}{{3050, check.Holds}, {2897.5, check.Tight}, {2897.4, check.DoesNotHold}, {3202.5, check.Tight}, {3202.6, check.DoesNotHold}} {
		x := c.weighed - 75
		rec := &doc.Record{Weighings: []doc.Weighing{{ID: "w1", Stage: "empty", Driver: unit.Some(unit.Mass(0)), Division: unit.Some(10 * unit.Kilogram),
			Front: unit.Some(unit.MassEst{Value: unit.Kilogram.Times(x - 1400)}), Rear: unit.Some(unit.MassEst{Value: unit.Kilogram.Times(1400)})}}}
		f := finding(t, assess(t, parse(t, build), rec), "declared-mass")
		if f.Verdict != c.want {
			t.Errorf("weighed %g: %s, want %s", c.weighed, f.Verdict.Says(), c.want.Says())
		}
		near(t, "papers", get(t, "papers", f.Limit).SI, 3050, 1e-9)
	}
}

// TestRefPayloadSplit: row M-15, 3 500 - 2 900 - 120 - 75 = 405 against 79.9, and with running order + 5 % 260.
func TestRefPayloadSplit(t *testing.T) {
	for _, c := range []struct{ running, left float64 }{{2900, 405}, {3045, 260}} {
		options := "  - {id: options, mass: 120 kg ± 1 kg, known: weighed, at: {x: 3000 mm, y: 0 mm, z: 0 mm}}\n"
		w := assess(t, parse(t, plain(2, "5.99 m", 1500, c.running-75-1500, options)), nil)
		f := finding(t, w, "pay-mass")
		near(t, "left", get(t, "left", f.Value).SI, c.left, 1e-9)
		near(t, "least", get(t, "least", f.Limit).SI, 79.9, 1e-9)
		if f.Verdict != check.Holds {
			t.Errorf("%g: %s", c.running, f.Verdict.Says())
		}
	}
}

// TestRefTyres: axle capacity is twice the index (row M-40: 112 gives 2 240 kg).
func TestRefTyres(t *testing.T) {
	f := finding(t, assess(t, parse(t, plain(2, "6 m", 1500, 1200, "")), nil), "tyres/travel/worst-rear")
	near(t, "two of index 112", get(t, "limit", f.Limit).SI, 2240, 1e-9)
}
