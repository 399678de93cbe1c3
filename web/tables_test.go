package web

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestPropTablesOfCurlew(t *testing.T) {
	w := start(t)
	v := w.curlew()
	if v.Wheels == nil || len(v.Wheels.Rows) != 4 || v.Wheels.Basis == "" {
		t.Fatalf("wheels %+v", v.Wheels)
	}
	var low, high float64
	for _, r := range v.Wheels.Rows {
		if !(r.Low.SI > 0 && r.High.SI >= r.Low.SI) || r.Low.Text == "" {
			t.Errorf("%+v", r)
		}
		low, high = low+r.Low.SI, high+r.High.SI
	}
	var total float64
	for _, l := range v.Axles.Lines {
		if l.ID == "total" {
			total = l.Value.SI
		}
	}
	if !(low <= total && total <= high) {
		t.Errorf("wheels from %.0f to %.0f kg under a van of %.0f kg", low, high, total)
	}
	if len(v.Plates) == 0 || !v.Plates[0].InUse || v.Plates[0].Name != "as it is" || v.Plates[0].Total == nil {
		t.Errorf("plates %+v", v.Plates)
	}
	r := w.change("plate", "page", v.Revision, Edit{Kind: "ops", Ops: []OpView{{Op: "set", Path: "van/plates", Value: "[{id: down, total: 3300 kg, front: 1860 kg, rear: 1900 kg, basis: downplated}]"}}})
	if len(r.View.Plates) != 2 || r.View.Plates[1].InUse || r.View.Plates[1].Total == nil || r.View.Plates[1].Total.SI >= r.View.Plates[0].Total.SI {
		t.Errorf("plates %+v", r.View.Plates)
	}
}

// TestCrossSwapIsWhatItShows: what the swap shows is what the change then does.
func TestCrossSwapIsWhatItShows(t *testing.T) {
	w := start(t)
	w.curlew()
	must[BuildView](w, "POST", "/api/builds", NewBuild{Kind: "duplicate", Name: "Other", From: "curlew"})
	must[ChangeResult](w, "POST", "/api/builds/other/changes", ChangeRequest{ID: "a", Client: "page", Base: 1, Edits: []Edit{
		{Kind: "field", Path: "van/floor/front", Text: "1720"}, {Kind: "field", Path: "van/plated/rear", Text: "2100"}}})
	for i, van := range []string{"panel-64-high", "panel-53-low", "other"} {
		made := must[BuildView](w, "POST", "/api/builds", NewBuild{Kind: "demo", From: "curlew", Name: "Try " + van})
		at := "/api/builds/" + made.ID
		shown := must[SwapView](w, "GET", at+"/swap?van="+van, nil)
		if len(shown.Diff.Figures) == 0 || len(shown.After) == 0 {
			t.Fatalf("%s: %+v", van, shown)
		}
		did := must[ChangeResult](w, "POST", at+"/changes", ChangeRequest{ID: "swap", Client: "page", Base: 1, Edits: []Edit{{Kind: "van", Text: van}}})
		if d := cmp.Diff(shown.After, did.View.Title); d != "" {
			t.Errorf("%s: shown and done differ\n%s", van, d)
		}
		then := must[DiffView](w, "GET", at+"/diff?from=1", nil)
		if d := cmp.Diff(shown.Diff.Figures, then.Figures); d != "" {
			t.Errorf("%s: shown and done differ\n%s", van, d)
		}
		if d := cmp.Diff(shown.Diff.Entries, then.Entries); d != "" {
			t.Errorf("%s: shown and done differ\n%s", van, d)
		}
		if i == 1 && !strings.Contains(strings.Join(shown.Notes, "\n"), "behind the rear door line") {
			t.Errorf("a van that is too short is not told of: %v", shown.Notes)
		}
	}
	refused(w, 404, "no-van", "GET", "/api/builds/curlew/swap?van=none", nil)
	refused(w, 404, "no-van", "GET", "/api/builds/curlew/swap", nil)
}
