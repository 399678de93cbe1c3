package axle_test

import (
	"fmt"
	"testing"

	"berthwright/axle"
	"berthwright/unit"
)

// bigVan is the demo van with rows up to 200.
func bigVan(b testing.TB) []axle.Load {
	loads := append([]axle.Load(nil), curlewBase(b).Loads()...)
	for i := 0; len(loads) < 200; i++ {
		l := loads[5+i]
		l.ID = fmt.Sprint("extra-", i)
		l.Mass = l.Mass.Times(0.1)
		loads = append(loads, l)
	}
	return loads
}

// BenchmarkNamedCases is the science of one weight assessment: the sum of 200 items, the worst case of each
// limit under both water policies, the lowest share, and the spread of each measure.
func BenchmarkNamedCases(b *testing.B) {
	loads := bigVan(b)
	groups := [][]axle.Group{larger(axle.UsedWaterLeavesFresh), larger(axle.RefilledWithoutEmptying)}
	g := curlewGeometry
	ms := []axle.Measure{axle.Total(), g.Front(), g.Rear(), g.Left(), g.Right(), axle.Carried(axle.Roof)}
	shared := []axle.Shared{{Kind: "estimated", Rel: 0.03}}
	b.ReportAllocs()
	for b.Loop() {
		base, err := axle.Sum(g, loads)
		if err != nil {
			b.Fatal(err)
		}
		for _, plan := range groups {
			for _, m := range ms {
				if _, err := axle.Worst(base, plan, m, axle.Most); err != nil {
					b.Fatal(err)
				}
			}
			if _, err := axle.WorstShare(base, plan, g.Front(), axle.Total(), axle.Least); err != nil {
				b.Fatal(err)
			}
		}
		for _, m := range ms[:5] {
			if _, err := axle.Spread(loads, shared, m, 10); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func curlewBounds() []axle.Bound {
	g := curlewGeometry
	return []axle.Bound{
		{Name: "total", Measure: axle.Total(), Margin: 33}, {Name: "front", Measure: g.Front(), Margin: 241}, {Name: "rear", Measure: g.Rear(), Margin: 14.3},
		{Name: "front tyres", Measure: g.Front(), Margin: 500}, {Name: "rear tyres", Measure: g.Rear(), Margin: 230},
		{Name: "front share", Measure: axle.Total().Plus(-1/0.3, g.Front(), "shortfall of front share"), Margin: 900}, {Name: "roof", Measure: axle.Carried(axle.Roof), Margin: 50},
	}
}

func BenchmarkRoomAlong(b *testing.B) {
	bounds := curlewBounds()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := axle.RoomAlong(bounds, mm(-900), mm(5080), 0, axle.Inside); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkClears(b *testing.B) {
	bounds := curlewBounds()
	bounds[2].Margin = -76
	var candidates []axle.Candidate
	for _, l := range bigVan(b) {
		candidates = append(candidates, axle.Candidate{Load: l, CanMove: true, From: mm(1640), To: mm(5030), CanGo: true})
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := axle.Clears(bounds, 2, candidates, 15); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReconcile(b *testing.B) {
	loads := bigVan(b)
	for i := range loads {
		loads[i].HalfX = 20 * unit.Millimetre
	}
	readings := axleReadings(1400, 1500, 10)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := axle.Reconcile(curlewGeometry, loads, []axle.Shared{{Kind: "estimated", Rel: 0.03}}, readings); err != nil {
			b.Fatal(err)
		}
	}
}
