package derive

import (
	"testing"

	"berthwright/unit"
)

func TestPropAssumptionFollowsTheReader(t *testing.T) {
	a := Assumption{Says: "%s %s", Args: []any{"100 % wool", 2 * unit.Metre}}
	for sys, want := range map[unit.System]string{unit.Metric: "100 % wool 2\u00a0000\u00a0mm", unit.Imperial: "100 % wool 78.7\u00a0in"} {
		if got := a.Text(sys); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if got := (Assumption{Says: "50 % full"}).Text(unit.US); got != "50 % full" {
		t.Errorf("%q", got)
	}
}
