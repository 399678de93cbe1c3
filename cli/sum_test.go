package cli

import (
	"math"
	"strings"
	"testing"
)

// Worked sums by statics, moments about the front axle; wheelbase 4.035 m. They were worked out apart from this program,
// to the digits printed here.
func TestRefSumAxle(t *testing.T) {
	for _, c := range []struct {
		name  string
		loads string
		want  map[string]float64
		half  float64 // half a unit of the last digit
	}{
		{"behind the rear axle", "60 kg@5.235 m", map[string]float64{"total": 60, "front": -17.84, "rear": 77.84}, 0.005},
		{"between the axles", "100 kg@3.40 m", map[string]float64{"total": 100, "front": 15.74, "rear": 84.26}, 0.005},
		{"a cab seat", "75 kg@1.15 m", map[string]float64{"total": 75, "front": 53.62, "rear": 21.38}, 0.005},
		{
			"a van and ten items",
			"1210 kg@0 m|790 kg@4.035 m|75 kg@1.15 m|75 kg@1.15 m|82 kg@2.3 m|95 kg@3.2 m|30 kg@4.6 m|28 kg@5.1 m|100 kg@3.4 m|21.5 kg@4.9 m|120 kg@3.0 m|18 kg@3.0 m",
			map[string]float64{"total": 2644.5, "front": 1407.1, "rear": 1237.4, "moment": 4992.9}, 0.05,
		},
	} {
		args := append([]string{"sum", "axle", "--json", "--wheelbase", "4.035 m"}, strings.Split(c.loads, "|")...)
		a := decode[sumAnswer](t, ask(args...).want(t, ok).out)
		for name, want := range c.want {
			got, given := a.Results[name]
			if !given || !(math.Abs(got.SI-want) <= c.half+1e-9) {
				t.Errorf("%s: %s %v, want %v ± %v", c.name, name, got.SI, want, c.half)
			}
		}
		if len(a.Inputs) != strings.Count(c.loads, "|")+2 || len(a.Working) == 0 {
			t.Errorf("%s: %d inputs, %d lines of working", c.name, len(a.Inputs), len(a.Working))
		}
	}
}

// What lies ahead of the axle has a minus, in the place only.
func TestPropSumAheadOfTheAxle(t *testing.T) {
	a := decode[sumAnswer](t, ask("sum", "axle", "--json", "--wheelbase", "4 m", "--", "20 kg@-1 m").want(t, ok).out)
	if f, r := a.Results["front"].SI, a.Results["rear"].SI; !(math.Abs(f-25) < 1e-9 && math.Abs(r+5) < 1e-9) {
		t.Errorf("front %v, rear %v; want 25 and -5", f, r)
	}
}
