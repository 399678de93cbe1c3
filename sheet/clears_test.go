package sheet_test

import (
	"slices"
	"testing"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/sheet"
)

// A move that would stand in other furniture is not offered while a clean way is left; the weight alone would offer it.
func TestPropWhatClearsBringsNoClash(t *testing.T) {
	s := sheet.Assess(file(t, "curlew").Build, context(t), nil)
	move := func(m check.Mend) bool { return !m.Removal }
	if !slices.ContainsFunc(s.Weight.Clears(s.Placed(derive.Travel)), move) {
		t.Fatal("the weight alone offers no move: nothing is tried")
	}
	got := s.Clears()
	if len(got) == 0 {
		t.Fatal("nothing clears the tight axle")
	}
	for _, m := range got {
		if m.ID == "fridge" && move(m) {
			t.Errorf("%s is offered, though the kitchen stands there", m.Says)
		}
		if len(m.Reopens) > 0 {
			t.Errorf("%s reopens %v, beside clean ways", m.Says, m.Reopens)
		}
	}
}
