package check_test

import (
	"math"
	"testing"

	"berthwright/check"
)

func TestPropJudge(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		margin, half float64
		want         check.Verdict
	}{
		{10, 5, check.Holds}, {5, 5, check.Holds}, {4.999, 5, check.Tight}, {0, 5, check.Tight}, {0, 0, check.Holds},
		{math.Copysign(0, -1), 0, check.Holds}, {-1e-9, 0, check.DoesNotHold}, {-10, 100, check.DoesNotHold}, {inf, 5, check.Holds}, {-inf, 5, check.DoesNotHold},
		{5, inf, check.Tight}, {nan, 5, check.Unknown}, {5, nan, check.Unknown}, {nan, nan, check.Unknown}, {5, -1, check.Unknown},
	} {
		if got := check.Judge(c.margin, c.half); got != c.want {
			t.Errorf("Judge(%v, %v) is %q, want %q", c.margin, c.half, got.Says(), c.want.Says())
		}
	}
	if check.Verdict(0) != check.Unknown {
		t.Error("the zero verdict is not unknown")
	}
}
