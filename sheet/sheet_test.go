package sheet_test

import (
	"bytes"
	"fmt"
	"os"
	"reflect"
	"sync"
	"testing"
	"time"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/parts"
	"berthwright/sheet"
	"berthwright/unit"
	"berthwright/workshop"
)

var load = sync.OnceValues(parts.Load)

func context(t testing.TB) derive.Context {
	t.Helper()
	c, err := load()
	if err != nil {
		t.Fatal(err)
	}
	return derive.Context{Parts: c, Shop: workshop.Workshop{}}
}

func file(t testing.TB, id string) *docfile.File {
	t.Helper()
	b, err := os.ReadFile("../examples/" + id + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	return docfile.Read(id+".yaml", b)
}

var issue = sheet.Issue{Revision: "1", Hash: "0123456789ab", Made: time.Date(2026, 11, 1, 12, 0, 0, 0, time.UTC)}

// A preview on top of the last sheet says what a full assessment of the same build says.
func TestPropPreviewsEqualFullAssessments(t *testing.T) {
	for _, id := range []string{"curlew", "dunlin", "avocet"} {
		f := file(t, id)
		last := sheet.Assess(f.Build, context(t), nil)
		if same := sheet.After(last, f.Build, context(t), nil); same.Weight != last.Weight {
			t.Errorf("%s: the same input is computed again", id)
		}
		n := 0
		for i := range f.Build.Items {
			it := &f.Build.Items[i]
			x, ok := it.At.X.Get()
			if !ok || it.Removed.Else(false) || n == 12 {
				continue
			}
			n++
			c := doc.Change{ID: "c", Ops: []doc.Op{{Kind: doc.Set, Path: "items/" + it.ID + "/at/x", Value: fmt.Sprintf("%.0f mm", x.Millimetres()-137)}}}
			b, _, err := f.Preview(c)
			if err != nil {
				t.Fatal(err)
			}
			whole, _, err := f.Apply(c)
			if err != nil {
				t.Fatal(err)
			}
			preview, full := sheet.After(last, b, context(t), nil).Weight, sheet.Assess(whole.Build, context(t), nil).Weight
			if !reflect.DeepEqual(preview.Findings, full.Findings) || !reflect.DeepEqual(preview.Title(unit.Metric), full.Title(unit.Metric)) {
				t.Errorf("%s: moving %s says something else in a preview", id, it.ID)
			}
			last = sheet.After(last, b, context(t), nil)
		}
		if n == 0 {
			t.Errorf("%s: nothing was moved", id)
		}
	}
}

// Every paper of every example can be set, in metric and in pounds, and twice alike.
func TestPropPapers(t *testing.T) {
	for _, id := range []string{"curlew", "dunlin", "avocet"} {
		for _, units := range []string{"metric", "imperial"} {
			b := file(t, id).Build
			b.Head.Units = units
			s := sheet.Assess(b, context(t), nil)
			for name, set := range map[string]func(sheet.Issue) ([]byte, error){"mass": s.MassStatement, "placard": s.Placard} {
				one, err := set(issue)
				if err != nil {
					t.Errorf("%s %s %s: %v", id, units, name, err)
					continue
				}
				if two, err := set(issue); err != nil || !bytes.Equal(one, two) {
					t.Errorf("%s %s: the same paper comes out twice in two ways", id, name)
				}
			}
		}
	}
}

// A finished ticket and a question of plates come onto the statement too.
func TestPropPaperOfAWeighedVan(t *testing.T) {
	b := file(t, "curlew").Build
	b.Van.Plates = []doc.Plate{{ID: "heavy", Basis: "uprated", Total: unit.Some(unit.Mass(4100)), Front: unit.Some(unit.Mass(1900)), Rear: unit.Some(unit.Mass(2400))}}
	est := func(kg float64) unit.Opt[unit.MassEst] { return unit.Some(unit.MassEst{Value: unit.Mass(kg)}) }
	rec := &doc.Record{Weighings: []doc.Weighing{{ID: "w", Stage: "finished", Driver: unit.Some(unit.Mass(0)), Front: est(1330), Rear: est(1370),
		Fills: []doc.Fill{{Tank: "fuel-tank", Level: unit.Some(unit.Ratio(0))}}}}}
	if _, err := sheet.Assess(b, context(t), rec).MassStatement(issue); err != nil {
		t.Error(err)
	}
}

// The same items in the same van are the same; in another class the items keep their distance from the bulkhead line,
// and nothing of the van itself is carried over.
func TestPropSwap(t *testing.T) {
	b := file(t, "curlew").Build
	s := sheet.Assess(b, context(t), nil)
	same, _ := s.Swap(b.Van)
	if !reflect.DeepEqual(same.Weight.Findings, s.Weight.Findings) {
		t.Error("the same van gives something else")
	}
	van := b.Van
	van.Floor.Front = unit.Some(1740 * unit.Millimetre)
	van.Floor.Rear = unit.Some(5130 * unit.Millimetre)
	later, notes := s.Swap(van)
	if len(notes) != 0 {
		t.Errorf("100 mm further back: %v", notes)
	}
	was, is := s.Placed(derive.Travel), later.Placed(derive.Travel)
	for i := range was {
		x, y := was[i].Centre[0], is[i].Centre[0]
		if was[i].Item.ID == "fridge" && y.V-x.V != 100*unit.Millimetre {
			t.Errorf("the fridge moved %v", y.V-x.V)
		}
	}
	van.Floor.Rear = unit.Some(4530 * unit.Millimetre)
	if _, notes := s.Swap(van); len(notes) == 0 {
		t.Error("half a metre less, and nothing stands behind the rear door line")
	}
	class, _ := s.Swap(doc.Van{Class: b.Van.Class})
	if f := class.Weight.In.Van.Plate.Total; f.Known() {
		t.Errorf("a class filled the plate in: %v", f)
	}
	d := sheet.Compare(s, class)
	if len(d.Figures) == 0 {
		t.Error("nothing to compare")
	}
}

// What stands out in camp moves no mass in and shifts the sides.
func TestPropStanding(t *testing.T) {
	b := file(t, "curlew").Build
	s := sheet.Assess(b, context(t), nil)
	travel, ok := s.Standing(derive.Travel)
	if !ok || travel.Total != s.Weight.Base.Total {
		t.Errorf("travelling it is %v", travel.Total)
	}
	before, _ := s.Standing(derive.Camp) // the ladder is out
	for i := range b.Items {
		if b.Items[i].ID == "fridge" {
			b.Items[i].States.Camp = unit.Boxed(doc.Pose{At: doc.Point{Y: unit.Some(-2 * unit.Metre)}})
		}
	}
	camp, ok := sheet.Assess(b, context(t), nil).Standing(derive.Camp)
	if !ok || camp.Total != before.Total || camp.Left.Else(0) <= before.Left.Else(0) {
		t.Errorf("in camp %v, left %v after %v", camp.Total, camp.Left.Else(0), before.Left.Else(0))
	}
}

// What the axles carry is judged on the road: no other state prints it as its own.
func TestPropOnlyTravelCarries(t *testing.T) {
	s := sheet.Assess(file(t, "curlew").Build, context(t), nil)
	for _, state := range []derive.State{derive.Travel, derive.Camp, derive.Night, derive.Stored} {
		in := s.Drawing(state, nil)
		if carries := len(in.Axles) > 0 && in.Centre != nil; carries != (state == derive.Travel) {
			t.Errorf("%s: %d axle loads, centre %v", state, len(in.Axles), in.Centre)
		}
	}
}
