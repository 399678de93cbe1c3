package cli

import (
	"strings"
	"testing"
)

func TestPropDiffOfTwoVans(t *testing.T) {
	out := ask("diff", curlew, "--van", "panel-53-low").want(t, ok).out
	if !strings.Contains(out, "behind the rear door line") || !strings.Contains(out, "finished van, dry") {
		t.Error(out)
	}
	if out := ask("diff", curlew, "--van", curlew).want(t, ok).out; !strings.Contains(out, "no item differs") {
		t.Errorf("a van swapped with itself differs:\n%s", out)
	}
	for _, c := range []struct{ args, says string }{
		{"--van panel-64-hihg", `did you mean "panel-64-high"`}, {"--van nothing.yaml", `no van is called "nothing.yaml"`}, {"", "with --van"}, {curlew + " --van x", "leave one of them out"},
	} {
		a := ask(append([]string{"diff", curlew}, strings.Fields(c.args)...)...).want(t, badInput)
		if !strings.Contains(a.err, c.says) {
			t.Errorf("%q: %s", c.args, a.err)
		}
	}
}
