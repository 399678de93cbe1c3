package unit

import "testing"

func TestPropBoxesKeepTheirValuesApart(t *testing.T) {
	var none Box[Mass]
	if v, ok := none.Get(); ok || v != 0 || none.Given() || none.Else(3) != 3 {
		t.Error("the zero Box is present")
	}
	a := Boxed(Mass(0))
	if v, ok := a.Get(); !ok || v != 0 || !a.Given() || a.Else(3) != 0 {
		t.Error("a present zero is absent")
	}
	b := a
	var by Optional = &b
	*by.Fill().(*Mass) = 5
	if a.Else(1) != 0 || b.Else(1) != 5 {
		t.Errorf("filling a copy changed both: %v and %v", a.Else(1), b.Else(1))
	}
	if v, ok := by.Any(); !ok || v != Mass(5) {
		t.Errorf("any: %v, %v", v, ok)
	}
	if by.Clear(); b.Given() {
		t.Error("cleared and still there")
	}
	if v, ok := by.Any(); ok || v != Mass(0) {
		t.Errorf("any of an absent one: %v, %v", v, ok)
	}
}
