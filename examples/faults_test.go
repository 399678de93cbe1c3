package examples_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/rules"
	"berthwright/unit"
	"berthwright/workshop"
)

const builds = "../testdata/builds/"

// faults says which findings each deliberate fault must bring: key up to a subject, and verdict. testdata/builds/faults.md
// tells the same to people.
var faults = map[string]map[string]check.Verdict{
	"rear-over":     {"axle-rear/travel/worst-rear-": check.DoesNotHold, "weight-total/": check.Holds},
	"total-over":    {"weight-total/travel/worst-total-": check.DoesNotHold, "axle-front/": check.Holds, "axle-rear/": check.Holds},
	"front-share":   {"front-share/travel/least-front-share": check.DoesNotHold, "weight-total/": check.Holds, "axle-rear/": check.Holds},
	"tyres":         {"tyres/travel/plate/rear-plate": check.DoesNotHold, "tyres/travel/worst-rear-": check.DoesNotHold, "axle-rear/": check.Holds},
	"roof":          {"roof-load/travel/roof-full": check.DoesNotHold},
	"nose":          {"nose/travel/towing/nose-weight": check.DoesNotHold},
	"train":         {"nose/travel/towing/train": check.DoesNotHold},
	"no-luggage":    {"luggage/travel/plan": check.Unknown, "weight-total/": check.Unknown, "axle-rear/": check.Unknown},
	"no-mass":       {"mass-missing/travel/mass": check.Unknown, "weight-total/": check.Unknown, "axle-rear/": check.Unknown},
	"no-place":      {"mass-missing/travel/place": check.Unknown, "weight-total/": check.Holds, "axle-rear/": check.Unknown},
	"ticket":        {"ticket/travel/empty/sum": check.DoesNotHold},
	"plate-sum":     {"plate-sum/travel/plate": check.DoesNotHold},
	"licence":       {"licence/travel/plate/driver": check.DoesNotHold},
	"unladen":       {"unladen-speed/travel/dry": check.DoesNotHold},
	"belts":         {"belts/travel/party": check.DoesNotHold, "seating/travel/party/child-two": check.DoesNotHold, "promise/travel/party/belts": check.DoesNotHold},
	"sideways":      {"seating/travel/party/child-two": check.DoesNotHold, "belts/travel/party": check.DoesNotHold, "promise/travel/party/belts": check.DoesNotHold},
	"refilled":      {"weight-total/travel/worst-total-refilled": check.DoesNotHold},
	"counted-twice": {"counted-twice/travel/empty": check.DoesNotHold},
	"sides":         {"sides/travel/party": check.DoesNotHold},
	"survey":        {"survey/travel/survey/closing": check.DoesNotHold},
	"pay-mass":      {"pay-mass/travel/approval": check.DoesNotHold},
	"promise":       {"promise/travel/party/payload": check.DoesNotHold, "weight-total/": check.Holds, "axle-rear/": check.Holds},
}

func assess(t *testing.T, b doc.Build) *check.Weight {
	t.Helper()
	cat := catalogue(t)
	day, ok := b.Head.Date.Get()
	if !ok {
		t.Fatal("no date")
	}
	pack, err := rules.For(b.Head.Country, day)
	if err != nil {
		t.Fatal(err)
	}
	return check.AssessWeight(derive.MakeWeight(b, derive.Context{Parts: cat, Shop: workshop.Workshop{}}, nil), pack)
}

// named returns the findings whose key begins with a prefix.
func named(w *check.Weight, prefix string) []check.Finding {
	var out []check.Finding
	for _, f := range w.Findings {
		if strings.HasPrefix(f.Key(), prefix) {
			out = append(out, f)
		}
	}
	return out
}

// expected reports whether a key is one of those that should fail.
func expected(want map[string]check.Verdict, key string) bool {
	for prefix, v := range want {
		if v == check.DoesNotHold && strings.HasPrefix(key, prefix) {
			return true
		}
	}
	return false
}

// holds reports whether a finding is at least tight.
func holds(v check.Verdict) bool { return v == check.Holds || v == check.Tight }

// Every deliberate fault is found and named, and its corrected twin has nothing to say.
func TestPropEveryFaultIsFoundAndItsTwinIsClean(t *testing.T) {
	for id, want := range faults {
		w := assess(t, read(t, builds+"avocet-"+id+".yaml"))
		for prefix, verdict := range want {
			all := named(w, prefix)
			hit := false
			for _, f := range all {
				hit = hit || f.Verdict == verdict || verdict == check.Holds && holds(f.Verdict)
			}
			if !hit {
				t.Errorf("%s: %s is not %q", id, prefix, verdict.Says())
				for _, f := range all {
					t.Logf("\t%s %s: %s", f.Key(), f.Verdict.Says(), f.Says.Text(unit.Metric))
				}
			}
		}
		for _, f := range w.Findings {
			if f.Verdict == check.DoesNotHold && !expected(want, f.Key()) {
				t.Errorf("%s: a second fault, %s: %s", id, f.Key(), f.Says.Text(unit.Metric))
			}
		}
		for _, f := range assess(t, read(t, builds+"avocet-"+id+"-fixed.yaml")).Findings {
			if !holds(f.Verdict) {
				t.Errorf("%s, corrected: %s %s: %s", id, f.Key(), f.Verdict.Says(), f.Says.Text(unit.Metric))
			}
		}
	}
}

// A build without an entry here, or an entry without its two builds and its line in faults.md, is a mistake.
func TestPropFaultsAreComplete(t *testing.T) {
	found, err := filepath.Glob(builds + "avocet-*.yaml")
	if err != nil || len(found) == 0 {
		t.Fatal("no builds found", err)
	}
	text, err := os.ReadFile(builds + "faults.md")
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]int{}
	for _, path := range found {
		id := strings.TrimSuffix(strings.TrimSuffix(strings.TrimPrefix(filepath.Base(path), "avocet-"), ".yaml"), "-fixed")
		if faults[id] == nil {
			t.Errorf("%s: no finding is expected of it", path)
		}
		seen[id]++
	}
	for id := range faults {
		if seen[id] != 2 {
			t.Errorf("%s: %d builds, want a bad one and its twin", id, seen[id])
		}
		if !strings.Contains(string(text), "| `"+id+"` |") {
			t.Errorf("%s is not told in faults.md", id)
		}
	}
}

// Avocet has the faults side by side: each is found although the others are there.
func TestPropAvocetShowsEveryKindOfFault(t *testing.T) {
	w := assess(t, read(t, "avocet.yaml"))
	bad := map[string]bool{}
	for _, f := range w.Findings {
		if f.Verdict == check.DoesNotHold {
			bad[f.Check] = true
		}
	}
	for _, name := range []string{
		"weight-total", "axle-rear", "tyres", "plate-sum", "roof-load", "nose", "ticket", "counted-twice", "survey", "pay-mass",
		"belts", "seating", "promise", "sides", "unladen-speed",
	} {
		if !bad[name] {
			t.Errorf("%s is not found", name)
		}
	}
}

// Curlew holds every limit, with the rear axle tight; Dunlin holds all of them.
func TestPropGoodExamplesHold(t *testing.T) {
	for _, name := range []string{"curlew.yaml", "dunlin.yaml"} {
		w := assess(t, read(t, name))
		if len(w.Findings) == 0 {
			t.Errorf("%s: nothing was checked", name)
		}
		for _, f := range w.Findings {
			want := holds(f.Verdict)
			if name == "curlew.yaml" && f.Check == "axle-rear" {
				want = f.Verdict == check.Tight
			}
			if !want {
				t.Errorf("%s: %s %s: %s", name, f.Key(), f.Verdict.Says(), f.Says.Text(unit.Metric))
			}
		}
	}
}
