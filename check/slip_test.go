package check_test

import (
	"strings"
	"testing"

	"berthwright/check"
	"berthwright/internal/calctest"
)

// Every figure opens its working, and every working and certificate bears out what it prints.
func TestPropEverySlipRecomputes(t *testing.T) {
	for _, path := range everyBuild(t) {
		w := assess(t, read(t, path), nil)
		keys := map[string]bool{"weight.base": w.Known}
		for _, f := range w.Findings {
			if f.Slip != "" {
				keys[f.Slip] = true
			}
		}
		for _, c := range w.Cases {
			if strings.HasPrefix(path, "../examples") { // the fault builds have the same cases
				keys["case."+c.ID] = true
			}
		}
		if w.Left.Known {
			keys["weight.payload"] = true
		}
		for key, want := range keys {
			s, ok := w.Slip(key)
			if ok != want {
				t.Errorf("%s: slip %s is there: %v, want %v", path, key, ok, want)
				continue
			}
			if !ok {
				continue
			}
			if s.Title == "" || len(s.Workings)+len(s.Certificates) == 0 {
				t.Errorf("%s: slip %s is empty", path, key)
			}
			for _, x := range s.Workings {
				calctest.Recompute(t, x)
			}
			for _, c := range s.Certificates {
				calctest.Check(t, c)
			}
		}
	}
}

func TestPropAnUnknownSlipIsRefused(t *testing.T) {
	w := assess(t, read(t, "../examples/curlew.yaml"), nil)
	for _, key := range []string{"", "weight", "case.", "case.nothing", "weight.nothing"} {
		if _, ok := w.Slip(key); ok {
			t.Errorf("%q has a slip", key)
		}
	}
	if _, ok := (&check.Weight{}).Slip("weight.total"); ok {
		t.Error("nothing assessed has a slip")
	}
}
