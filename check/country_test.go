package check_test

import (
	"strings"
	"testing"

	"berthwright/calc"
	"berthwright/check"
	"berthwright/doc"
	"berthwright/rules"
	"berthwright/unit"
)

// says prints a message with plain spaces.
func says(m check.Message, sys unit.System) string {
	return strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ").Replace(m.Text(sys))
}

func abroad(t testing.TB, country string, s string) *check.Weight {
	t.Helper()
	return assess(t, parse(t, replace(t, s, "country: uk", "country: "+country)), nil)
}

// In the United States every belted seat counts 150 lb in the occupant and cargo capacity, and weight added before the
// first sale above the lesser of 1.5 % and 100 lb goes on the labels (49 CFR 571.110, final rule of 4 December 2007).
func TestPropUnitedStates(t *testing.T) {
	const lb = 0.45359237
	s := plain(4, "6 m", 1500, 1200, tanks)
	w := abroad(t, "us", s)
	f := finding(t, w, "occupant-capacity")
	near(t, "capacity", get(t, "capacity", f.Value).SI, 3500-2700-60-36, 1e-9)
	near(t, "belted seats", get(t, "limit", f.Limit).SI, 4*150*lb, 1e-9)
	if f.Verdict != check.Holds || f.Level != calc.Recalled || !strings.Contains(says(f.Says, unit.US), "150 lb") {
		t.Errorf("%s, %s: %s", f.Verdict.Says(), f.Level, f.Says.Text(unit.US))
	}
	if has(w, "pay-mass") || has(w, "licence") || has(w, "unladen") {
		t.Error("European rules are applied")
	}
	near(t, "people count at least 75 kg in the plan", w.In.Person.Kilograms(), 75, 1e-9)
	if f := finding(t, w, "weight-added"); f.Verdict != check.Unknown {
		t.Errorf("whether the van was sold is not said: %s", f.Verdict.Says())
	}
	unsold := replace(t, s, "build: {id: plain,", "build: {id: plain, registered: false,")
	if f := finding(t, abroad(t, "us", unsold), "weight-added"); f.Verdict != check.Holds {
		t.Errorf("nothing added: %s", f.Says.Text(unit.Metric))
	}
	more := unsold + "  - {id: chest, mass: 50 kg, known: weighed, at: {x: 3 m, y: 0 m, z: 0 m}}\n"
	f = finding(t, abroad(t, "us", more), "weight-added")
	if f.Verdict != check.Tight || !f.Advisory {
		t.Errorf("50 kg added: %s", f.Says.Text(unit.Metric))
	}
	near(t, "lesser of 1.5 % of 3 500 kg and 100 lb", get(t, "limit", f.Limit).SI, 100*lb, 1e-9)
	if has(abroad(t, "us", replace(t, more, "registered: false", "registered: true")), "weight-added") {
		t.Error("a registered van is asked for its labels")
	}
	full := plain(4, "6 m", 1700, 1450, "")
	if f := finding(t, abroad(t, "us", full), "occupant-capacity"); f.Verdict != check.Holds && f.Verdict != check.Tight {
		t.Errorf("350 kg for four belted seats: %s", f.Says.Text(unit.Metric))
	}
	if f := finding(t, abroad(t, "us", plain(6, "6 m", 1700, 1450, "")), "occupant-capacity"); f.Verdict != check.DoesNotHold {
		t.Errorf("350 kg for six belted seats: %s", f.Says.Text(unit.Metric))
	}
}

func TestPropAustraliaAndNewZealand(t *testing.T) {
	s := plain(2, "6 m", 1500, 1200, tanks)
	for _, country := range []string{"au", "nz"} {
		w := abroad(t, country, s)
		f := finding(t, w, "axle-rear")
		if f.Verdict != check.Holds || f.Level != calc.Recalled {
			t.Errorf("%s: %s, %s", country, f.Verdict.Says(), f.Level)
		}
		if has(w, "pay-mass") || has(w, "unladen") || has(w, "occupant") {
			t.Errorf("%s: rules of other countries are applied", country)
		}
		if has(w, "modification") != (country == "au") {
			t.Errorf("%s: who judges the conversion", country)
		}
		caseOf(t, w, "ro-dry")
	}
	if f := finding(t, abroad(t, "au", s), "modification"); f.Verdict != check.Unknown || !strings.Contains(f.Says.Text(unit.Metric), "LH11") {
		t.Errorf("%s: %s", f.Verdict.Says(), f.Says.Text(unit.Metric))
	}
}

// A licence class that is adopted but not applied yet is told, never used.
func TestPropLicences(t *testing.T) {
	for _, c := range []struct {
		country, class, plated, more string
		want                         check.Verdict
		says                         string
	}{
		{"uk", "b", "3500 kg", "", check.Holds, "3 500 kg"},
		{"uk", "b", "3501 kg", "", check.DoesNotHold, "more than"},
		{"uk", "b-alternative", "4250 kg", "", check.Holds, "4 250 kg"},
		{"uk", "b-alternative", "4250 kg", tanks, check.DoesNotHold, "3 500 kg"}, // it has a fuel tank
		{"uk", "c1", "7500 kg", "", check.Holds, "7 500 kg"},
		{"eu", "b-alternative", "4250 kg", "", check.Unknown, "not applied here yet"},
		{"eu", "b", "4250 kg", "", check.DoesNotHold, "more than"},
		{"us", "b", "3500 kg", "", check.Unknown, "the rule for class b"},
	} {
		s := replace(t, plain(2, "6 m", 1500, 1200, c.more), "total: 3500 kg", "total: "+c.plated)
		s = insert(t, s, "loading:\n", "  party: [{id: one, name: One, mass: 80 kg, seat: seat-0, licence: "+c.class+"}]\n")
		f := finding(t, abroad(t, c.country, s), "licence")
		if got := says(f.Says, unit.Metric); f.Verdict != c.want || !strings.Contains(got, c.says) {
			t.Errorf("%s %s %s: %s: %s", c.country, c.class, c.plated, f.Verdict.Says(), got)
		}
		if c.country == "eu" && c.class == "b" && !strings.Contains(f.Advice, "4 250 kg") {
			t.Errorf("the pending class is not told: %q", f.Advice)
		}
	}
}

// Without a country or a day the plate still decides, and the silence of the rules is said.
func TestPropNoRules(t *testing.T) {
	b := parse(t, plain(2, "6 m", 1500, 1200, ""))
	b.Head.Country = ""
	w := assess(t, b, nil)
	if f := finding(t, w, "rules"); f.Verdict != check.Unknown {
		t.Error("no rules apply and nobody says so")
	}
	if f := finding(t, w, "axle-rear"); f.Verdict != check.Holds {
		t.Errorf("%s: %s", f.Verdict.Says(), f.Says.Text(unit.Metric))
	}
}

// Alternative plated sets stand side by side under the same plan.
func TestPropPlates(t *testing.T) {
	s := insert(t, plain(4, "6 m", 1700, 1500, ""), "van:\n", "  plates: [{id: heavy, basis: uprated, total: 4100 kg, front: 1900 kg, rear: 2400 kg}, {id: light, basis: downplated, total: 3300 kg, front: 1900 kg, rear: 2000 kg}]\n")
	w := assess(t, parse(t, s), nil)
	rows := w.Plates()
	if len(rows) != 3 || !rows[0].InUse || rows[1].InUse || rows[2].InUse {
		t.Fatalf("%+v", rows)
	}
	near(t, "heavy less as it is", kgOf(t, "total", rows[1].Total)-kgOf(t, "total", rows[0].Total), 600, 1e-9)
	near(t, "the plate in use", kgOf(t, "rear", rows[0].Rear), get(t, "margin", finding(t, w, "axle-rear").Margin).SI, 1e-9)
	if rows[1].Verdict != check.Holds || rows[2].Verdict != check.DoesNotHold {
		t.Errorf("%v %v", rows[1].Verdict.Says(), rows[2].Verdict.Says())
	}
	used := assess(t, parse(t, insert(t, s, "van:\n", "  plate-in-use: heavy\n")), nil)
	if rows := used.Plates(); !rows[1].InUse || rows[0].InUse {
		t.Errorf("%+v", rows)
	}
	near(t, "judged by the set in use", get(t, "limit", finding(t, used, "weight-total").Limit).SI, 4100, 1e-9)
}

// The usual 300 to 400 kg are told for four seats and 3.5 t, and are no limit.
func TestPropTypical(t *testing.T) {
	for _, c := range []struct {
		front, rear float64
		want        check.Verdict
	}{{1400, 1450, check.Holds}, {1400, 1600, check.Tight}, {1200, 1200, check.Tight}} {
		f := finding(t, assess(t, parse(t, plain(4, "6 m", c.front, c.rear, "")), nil), "typical-left")
		if f.Verdict != c.want || !f.Advisory || f.Level != calc.Unsourced {
			t.Errorf("%v: %s", c, f.Says.Text(unit.Metric))
		}
	}
	if has(assess(t, parse(t, plain(2, "6 m", 1400, 1450, "")), nil), "typical-left") {
		t.Error("two seats are told what four usually leave")
	}
}

// The roof limit is the workshop's own reading; without one the figure is unknown, and the rows of care need no figure
// of their own.
func TestPropCare(t *testing.T) {
	on := "  - {id: rack, mass: 40 kg ± 1 kg, known: weighed, where: roof, at: {x: 3 m, y: 0 m, z: 2 m}}\n"
	s := plain(2, "6 m", 1500, 1200, on)
	if f := finding(t, assess(t, parse(t, s), nil), "roof-load"); f.Verdict != check.Unknown || len(f.Missing) != 1 {
		t.Errorf("no roof limit: %s", f.Says.Text(unit.Metric))
	}
	f := finding(t, assess(t, parse(t, insert(t, s, "van:\n", "  roof-limit: 100 kg\n")), nil), "roof-load")
	if f.Verdict != check.Holds || !strings.Contains(f.Basis, "workshop") || f.Caution == "" {
		t.Errorf("%s: %s", f.Basis, f.Says.Text(unit.Metric))
	}
	open := strings.Replace(s, "mass: 40 kg ± 1 kg, ", "", 1)
	if f := finding(t, assess(t, parse(t, insert(t, open, "van:\n", "  roof-limit: 100 kg\n")), nil), "roof-load"); f.Verdict != check.Unknown {
		t.Errorf("a rack without a mass: %s", f.Says.Text(unit.Metric))
	}
	for _, r := range rules.All() {
		if r.Care != rules.NoCare && len(r.Values) > 0 && r.Level == calc.Recalled && r.MayHold() {
			t.Errorf("%s may hold though nobody read it", r.Key())
		}
	}
}

// A trailer: nose weight with its lever, train, and a front share of its own; solo the van is judged without it.
func TestPropTrailer(t *testing.T) {
	s := insert(t, plain(2, "6 m", 1700, 1100, ""), "van:\n", "  tow-ball: 5200 mm\n  nose-limit: 100 kg\n  tow-limit: 2000 kg\n")
	solo := assess(t, parse(t, s), nil)
	w := assess(t, parse(t, insert(t, s, "loading:\n", "  tow: {nose: 80 kg, trailer: 1500 kg}\n")), nil)
	rear := func(w *check.Weight) float64 { return get(t, "value", finding(t, w, "axle-rear").Value).SI }
	near(t, "80 kg at 5.2 m on a wheelbase of 4 m", rear(w)-rear(solo), 80*5.2/4, 1e-9)
	train := finding(t, w, "nose/travel/towing/train")
	near(t, "train: the nose weight counts once", get(t, "train", train.Value).SI, get(t, "total", finding(t, w, "weight-total").Value).SI+1500-80, 1e-9)
	for key, want := range map[string]check.Verdict{"nose/travel/towing/nose-weight": check.Holds, "nose/travel/towing/trailer": check.Holds, "nose/travel/towing/train": check.Holds} {
		if f := finding(t, w, key); f.Verdict != want {
			t.Errorf("%s: %s", key, f.Says.Text(unit.Metric))
		}
	}
	alone, coupled := finding(t, w, "front-share/travel/least-front-share"), check.Finding{}
	for _, f := range w.Findings {
		if f.Case == "least-front-share-coupled" {
			coupled = f
		}
	}
	if alone.Case == coupled.Case {
		alone = finding(t, solo, "front-share")
	}
	near(t, "laden", get(t, "limit", alone.Limit).SI, 0.30, 1e-9)
	near(t, "coupled", get(t, "limit", coupled.Limit).SI, 0.20, 1e-9)
	if !(get(t, "coupled", coupled.Value).SI < get(t, "alone", alone.Value).SI) {
		t.Error("the nose weight does not lower the front share")
	}
}

// A dog in its crate and a child restraint are aboard where they are said to be; an unknown own mass is counted as 75 kg
// and said to be assumed.
func TestPropAboard(t *testing.T) {
	s := insert(t, plain(2, "6 m", 1500, 1200, ""), "loading:\n", `  party: [{id: one, name: One, seat: seat-0}, {id: two, name: Two, mass: 30 kg, seat: seat-1, child: true, child-seat: 8 kg, child-seat-at: {x: 2000 mm, y: 0 mm, z: 500 mm}}]
  carried: [{id: dog, name: Dog in its crate, each: 40 kg, up-to: 1, usual: 1, at: {x: 4500 mm, y: 0 mm, z: 300 mm}}]
`)
	w := assess(t, parse(t, s), nil)
	c := caseOf(t, w, "party")
	near(t, "party", (c.Split.Total - w.Base.Total).Kilograms(), 75+30+8+40, 1e-9)
	near(t, "party on the rear axle", kgOf(t, "rear", c.Split.Rear)-kgOf(t, "rear", w.Base.Rear), (75*1.2+30*1.2+8*2.0+40*4.5)/4, 1e-9)
	said := says(c.Says, unit.Metric)
	if !strings.Contains(said, "One 75 kg (assumed)") || !strings.Contains(said, "Dog in its crate") {
		t.Errorf("the case says %q", said)
	}
	said = ""
	for _, a := range w.In.Assumed {
		said += a.Text(unit.Metric) + "\n"
	}
	if !strings.Contains(said, "One: counted as 75"+unit.Space+"kg") {
		t.Errorf("not told as assumed:\n%s", said)
	}
	near(t, "worst total", (caseOf(t, w, "worst-total-used").Split.Total - w.Base.Total).Kilograms(), 75+75+8+40+50, 1e-9)
}

// Each missing input makes its checks unknown, and is named once.
func TestPropMissingIsUnknown(t *testing.T) {
	whole := plain(2, "6 m", 1500, 1200, tanks)
	for _, c := range []struct{ cut, key, name string }{
		{"  wheelbase: 4 m\n", "axle-rear", "wheelbase"}, {"rear: 2000 kg}", "axle-rear", "plated rear axle"}, {"  luggage: 50 kg\n", "weight-total", "luggage"},
		{"fuel: 0 %", "axle-front", "fuel level"}, {"limit: 50 kg, ", "weight-total", "limit of the luggage zone"}, {", rear: 112", "tyres/travel/worst-rear", "load index"},
		{"  length: 6 m\n", "pay-mass", "overall length"}, {"holds: 60 kg", "weight-total", "contents"}, {", rear: 1.8 m", "sides", "track"},
	} {
		s := replace(t, whole, c.cut, map[string]string{"rear: 2000 kg}": "}", "fuel: 0 %": "bulkhead: true", "holds: 60 kg": "travel: 100 %"}[c.cut])
		s = strings.Replace(s, ", }", "}", 1)
		f := finding(t, assess(t, parse(t, s), nil), c.key)
		n := 0
		for _, m := range f.Missing {
			if strings.Contains(m.Name, c.name) {
				n++
			}
		}
		if f.Verdict != check.Unknown || n != 1 {
			t.Errorf("without %q %s is %s and names %v", strings.TrimSpace(c.cut), c.key, f.Verdict.Says(), f.Missing)
		}
	}
	w := check.AssessWeight(assess(t, doc.Build{}, nil).Given, rules.Pack{})
	if w.Begun || len(w.Findings) != 0 || w.Title(unit.Metric)[0].Verdict != check.NotBegun {
		t.Error("an empty build is begun")
	}
}
