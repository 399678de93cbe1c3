package parts

import (
	"strings"
	"testing"

	"berthwright/doc"
	"berthwright/unit"
)

func load(t *testing.T) Catalogue {
	t.Helper()
	c, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// dense lists parts whose box says little about them, with the reason.
var dense = map[string]string{}

// Every file of the catalogue binds without a diagnostic, is named after what it holds, and lists the ids that were found.
func TestPropEveryFileBinds(t *testing.T) {
	c := load(t)
	n := 0
	for folder, shelves := range map[string][]shelf{"data": c.shelves, "classes": c.classes, "templates": c.templates} {
		if len(shelves) == 0 {
			t.Errorf("no files in %s", folder)
		}
		for _, s := range shelves {
			b, err := bind(folder + "/" + s.id + ".yaml")
			if err != nil {
				t.Fatalf("%s: %v", s.id, err)
			}
			if want := map[string]string{"data": "parts-"}[folder] + s.id; b.Head.ID != want {
				t.Errorf("file %s holds %q", s.id, b.Head.ID)
			}
			if folder != "data" {
				continue
			}
			for _, it := range b.Items {
				if n == len(c.ids) || c.ids[n] != it.ID {
					t.Fatalf("%s was not listed in its place", it.ID)
				}
				n++
				if it.Group != s.id {
					t.Errorf("%s: group %q in the file of %s", it.ID, it.Group, s.id)
				}
			}
		}
	}
	if n != c.Len() {
		t.Errorf("%d parts bound, %d listed", n, c.Len())
	}
}

func TestPropEveryPartIsWhole(t *testing.T) {
	c := load(t)
	if c.Len() < 150 {
		t.Fatalf("%d parts, want at least 150", c.Len())
	}
	boxed := 0
	for _, p := range c.Search("", "") {
		m, ok := p.Mass.Get()
		if !ok || !(m.Value > 0) {
			t.Errorf("%s: no mass", p.ID)
			continue
		}
		half, ok := m.Half().Get()
		if !ok || !(half > 0 && half < m.Value) {
			t.Errorf("%s: no spread, or one as large as the mass", p.ID)
		}
		if p.Known == "" || len(p.Source) < 8 {
			t.Errorf("%s: no evidence", p.ID)
		}
		if p.Known == "weighed" {
			t.Errorf("%s: nobody weighed a generic part", p.ID)
		}
		if p.Name == "" || p.Group == "" {
			t.Errorf("%s: no name or no group", p.ID)
		}
		if p.From != "" || p.At != (doc.Point{}) || p.Zone != "" {
			t.Errorf("%s: a part has no place and no origin", p.ID)
		}
		x, okx := p.Size.X.Get()
		y, oky := p.Size.Y.Get()
		z, okz := p.Size.Z.Get()
		if okx != oky || oky != okz {
			t.Errorf("%s: half a size", p.ID)
		}
		if !okx {
			continue
		}
		boxed++
		density := m.Value.Kilograms() / (x.Metres() * y.Metres() * z.Metres())
		if !(density >= 2 && density <= 3000) && dense[p.ID] == "" {
			t.Errorf("%s: %.0f kg/m³ in its box", p.ID, density)
		}
		if cz, ok := p.Centre.Z.Get(); ok && !(cz > 0 && cz < z) {
			t.Errorf("%s: mass centre outside the box", p.ID)
		}
	}
	if boxed < 100 {
		t.Errorf("only %d parts have a size", boxed)
	}
}

// The ranges are those collected for this project (common practice, no source).
func TestCrossMassesInCommonRanges(t *testing.T) {
	c := load(t)
	for _, r := range []struct {
		id     string
		lo, hi float64
	}{
		{"awning-31", 18, 25}, {"cycle-rack-2", 8, 15}, {"solar-rigid-100", 6, 8}, {"solar-flexible-100", 1.5, 2.5},
		{"battery-agm-100", 27, 32}, {"battery-lfp-100", 11, 14}, {"fridge-compressor-72", 17, 24}, {"fridge-compressor-90", 17, 24},
		{"fridge-absorption-90", 25, 35}, {"hob-2-gas", 3, 5}, {"hob-sink-combi", 7, 10}, {"toilet-bench-cassette", 8, 10},
		{"air-heater-diesel-22", 3, 5}, {"heater-combi-gas-4", 15, 17}, {"tank-fresh-70", 5, 7}, {"swivel-base", 8, 12},
		{"bench-belted-2", 45, 75}, {"bench-bed-belted-2", 75, 110}, {"roof-lifting", 60, 90}, {"roof-high-grp", 60, 110},
		{"window-acrylic-700", 4, 6}, {"window-hinged-900", 8, 12}, {"microwave", 12, 15}, {"inverter-2000", 5, 9},
	} {
		p, ok := c.Find(r.id)
		if !ok {
			t.Errorf("no part %q", r.id)
			continue
		}
		m, _ := p.Mass.Get()
		if kg := m.Value.Kilograms(); !(kg >= r.lo && kg <= r.hi) {
			t.Errorf("%s: %.1f kg, want %.1f to %.1f", r.id, kg, r.lo, r.hi)
		}
	}
}

// Birch plywood 680 kg/m³, sheet 2440 x 1220: 18 mm 36.44 kg, 12 mm 24.29 kg (worked from the density, from memory).
func TestCrossSheetsFromDensity(t *testing.T) {
	c := load(t)
	for _, r := range []struct {
		id      string
		density float64
	}{{"ply-birch-6", 680}, {"ply-birch-9", 680}, {"ply-birch-12", 680}, {"ply-birch-15", 680}, {"ply-birch-18", 680}, {"ply-poplar-15", 426}, {"mdf-18", 750}} {
		p, _ := c.Find(r.id)
		m, _ := p.Mass.Get()
		want := r.density * p.Size.X.Else(0).Metres() * p.Size.Y.Else(0).Metres() * p.Size.Z.Else(0).Metres()
		if got := m.Value.Kilograms(); !(got > want-0.06 && got < want+0.06) {
			t.Errorf("%s: %.2f kg, density gives %.2f", r.id, got, want)
		}
	}
}

func TestPropClassesAreWhole(t *testing.T) {
	c := load(t)
	if len(c.Classes()) < 4 {
		t.Fatalf("%d classes, want at least 4", len(c.Classes()))
	}
	for _, k := range c.Classes() {
		v := k.Van
		start, rear := v.Floor.Front.Else(0), v.Floor.Rear.Else(0)
		if k.Name == "" || !v.Wheelbase.Given() || !(start > 0 && rear > start) || !v.Inside.Ceiling.Given() {
			t.Errorf("%s: lines are missing", k.ID)
		}
		if end := v.Length.Else(0) - v.Overhang.Else(0); !(rear < end) {
			t.Errorf("%s: the rear door line lies behind the van", k.ID)
		}
		middle := (v.Inside.WheelBox.Front.Else(0) + v.Inside.WheelBox.Rear.Else(0)).Half()
		if d := middle - v.Wheelbase.Else(0); !(d >= -30*unit.Millimetre && d <= 30*unit.Millimetre) {
			t.Errorf("%s: the wheel-box is not at the axle", k.ID)
		}
		if sum := v.Plated.Front.Else(0) + v.Plated.Rear.Else(0); !(sum >= v.Plated.Total.Else(0)) {
			t.Errorf("%s: the axle plates are below the total", k.ID)
		}
		if v.Empty.From != "catalogue" {
			t.Errorf("%s: the ticket of a class is a catalogue figure", k.ID)
		}
		seen := map[string]bool{}
		var total unit.Mass
		for _, a := range k.Allowances {
			seen[a.Group] = true
			m, _ := a.Mass.Get()
			total += m.Value
			from, to := a.Span.From.Else(0), a.Span.To.Else(0)
			if !a.Allow.Else(false) || !m.Half().Given() || !(from < to && to <= rear) {
				t.Errorf("%s: allowance %s is not whole", k.ID, a.ID)
			}
		}
		if len(seen) < 6 {
			t.Errorf("%s: allowances for %d groups, want at least 6", k.ID, len(seen))
		}
		if kg := total.Kilograms(); !(kg > 350 && kg < 1000) {
			t.Errorf("%s: allowances come to %.0f kg", k.ID, kg)
		}
		front, _ := v.Empty.Front.Get()
		back, _ := v.Empty.Rear.Get()
		left := (v.Plated.Total.Else(0) - front.Value - back.Value - total).Kilograms()
		if !(left > 300 && left < 900) { // people, water and luggage; a finished 3.5 t van usually has 300 to 400 kg after its driver (common practice, no source)
			t.Errorf("%s: %.0f kg left of the typical plate", k.ID, left)
		}
	}
}

func TestPropTemplatesAreOfTheCatalogue(t *testing.T) {
	c := load(t)
	if len(c.Templates()) < 3 {
		t.Fatal("want at least 3 templates")
	}
	for _, tp := range c.Templates() {
		if _, ok := c.Class(tp.Class); !ok {
			t.Errorf("%s: no class %q", tp.ID, tp.Class)
		}
		for _, it := range tp.Items {
			if !it.Mass.Given() || it.Zone == "" || !strings.HasSuffix(it.From, "@"+Edition) {
				t.Errorf("%s: item %s is not whole", tp.ID, it.ID)
			}
		}
	}
}

// A full water tank weighs what its volume of water does, 1 kg/L.
func TestCrossTanksHoldTheirVolume(t *testing.T) {
	n := 0
	for _, p := range load(t).Search("", "") {
		k, ok := p.Tank.Get()
		if !ok {
			continue
		}
		n++
		holds, full := k.Holds.Get()
		if !full || k.For == "" {
			t.Errorf("%s: what it holds is not said", p.ID)
		}
		v, ok := k.Volume.Get()
		if ok && k.For != "gas" && holds != (1*unit.KilogramPerLitre).MassOf(v) {
			t.Errorf("%s: holds %v in %v", p.ID, holds, v)
		}
		x, boxed := p.Size.X.Get()
		if box := x.Metres() * p.Size.Y.Else(0).Metres() * p.Size.Z.Else(0).Metres(); ok && boxed && !(v.CubicMetres() <= box) {
			t.Errorf("%s: %v in a box of %.0f L", p.ID, v, 1000*box)
		}
	}
	if n < 15 {
		t.Errorf("%d tanks", n)
	}
}

func TestPropSearch(t *testing.T) {
	c := load(t)
	got := c.Search("fridge compressor", "kitchen")
	if len(got) < 4 {
		t.Fatalf("%d fridges", len(got))
	}
	for _, p := range got {
		if !strings.Contains(p.ID, "fridge-compressor") && !strings.Contains(p.ID, "coolbox") && !strings.Contains(strings.ToLower(p.Name), "fridge") {
			t.Errorf("%s is no fridge", p.ID)
		}
	}
	if n := len(c.Search("fridge", "gas")); n != 0 {
		t.Errorf("%d fridges among the gas parts", n)
	}
	if first := c.Search("roof fan", ""); len(first) == 0 || first[0].ID != "roof-fan-400" {
		t.Error("a part whose name begins with the text comes first")
	}
	if n := len(c.Search("", "")); n != c.Len() {
		t.Errorf("everything: %d of %d", n, c.Len())
	}
	if n := len(c.Search("no such thing", "")); n != 0 {
		t.Errorf("found %d of nothing", n)
	}
}

func TestPropFitAndCompare(t *testing.T) {
	c := load(t)
	it, ok := c.Fit("fridge-compressor-72@2025.2", "fridge")
	if !ok || it.ID != "fridge" || it.From != "fridge-compressor-72@"+Edition {
		t.Fatalf("fitted as %q from %q", it.ID, it.From)
	}
	if _, ok := c.Compare(it); ok {
		t.Error("fitted from this edition: nothing to accept")
	}
	it.From = "fridge-compressor-72@2025.2"
	if diff, ok := c.Compare(it); !ok || len(diff) != 0 {
		t.Errorf("an older edition with the same values: %v %v", diff, ok)
	}
	it.Mass = unit.Some(unit.MassEst{Value: 17 * unit.Kilogram})
	it.Size.X = unit.Opt[unit.Length]{}
	diff, ok := c.Compare(it)
	if !ok || len(diff) != 2 || diff[0] != (Difference{"mass", "17 kg", "19.2 kg ± 4 %"}) || diff[1] != (Difference{"size/x", "", "480 mm"}) {
		t.Errorf("difference: %v %v", diff, ok)
	}
	it.From = "no-such-part@2025.2"
	if _, ok := c.Compare(it); ok {
		t.Error("a part nobody knows has no difference")
	}
	if !c.Known("part", "fridge-compressor-72@2026.1") || c.Known("part", "fridge") || !c.Known("class", "panel-60-high") || c.Known("group", "kitchen") {
		t.Error("known ids")
	}
}

func TestPropNearTellsWhatWasMeant(t *testing.T) {
	c := load(t)
	for _, r := range []struct{ kind, id, want string }{
		{"part", "fridge-compresor-72@2026.1", "fridge-compressor-72@2026.1"},
		{"part", "Fridge-compressor-72", "fridge-compressor-72"},
		{"part", "own-bord@1", "own-board@1"},
		{"part", "something quite different", ""},
		{"class", "panel-60-hihg", "panel-60-high"},
		{"class", "fridge-compressor-72", ""},
		{"item", "fridge-compressor-72", ""},
		{"part", "", ""},
	} {
		got, ok := c.Near(r.kind, r.id, "own-board")
		if got != r.want || ok != (r.want != "") {
			t.Errorf("%s %q: %q, want %q", r.kind, r.id, got, r.want)
		}
	}
}
