package examples_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/examples"
	"berthwright/parts"
	"berthwright/unit"
)

// row is one line of testdata/vectors/curlew-items.csv: heights above ground.
type row struct {
	id           string
	mass, spread float64
	x, y, z      float64
	removed      bool
}

const floor = 560 // mm, bare floor of Curlew above ground

func rows(t *testing.T) []row {
	t.Helper()
	f, err := os.Open("../testdata/vectors/curlew-items.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(all[0], ","); got != "id,what,mass_kg,spread_pct,x_mm,y_mm,z_mm,state_notes" {
		t.Fatalf("columns: %s", got)
	}
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	var out []row
	for _, c := range all[1:] {
		out = append(out, row{id: c[0], mass: number(c[2]), spread: number(c[3]), x: number(c[4]), y: number(c[5]), z: number(c[6]), removed: strings.HasPrefix(c[7], "REMOVED")})
	}
	return out
}

func read(t *testing.T, name string) doc.Build {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	f := docfile.Read(name, text, docfile.Refs{Known: catalogue(t).Known})
	for _, d := range f.Diags {
		t.Error(d.Text())
	}
	return f.Build
}

// load is shared by the tests of this package: reading the catalogue takes longer than a check.
var load = sync.OnceValues(parts.Load)

func catalogue(t *testing.T) parts.Catalogue {
	t.Helper()
	c, err := load()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// The extra items of Curlew beside the rows of the vector file: in the ticket, or places and fills without a mass.
var extra = map[string]bool{"driver-seat": true, "fuel-tank": true, "bench-seat-left": true, "bench-seat-right": true, "flush-tank": true}

// Every mass, spread and mass centre of the demo build is the one of the vector file, to the millimetre.
func TestCrossCurlewAgainstItsRows(t *testing.T) {
	b := read(t, "curlew.yaml")
	van := derive.ResolveVan(b.Van, doc.Van{}, "")
	at := map[string]derive.Placed{}
	for _, p := range derive.Place(b, van, derive.Travel) {
		at[p.Item.ID] = p
	}
	all := rows(t)
	if len(all) != 109 || len(b.Items) != len(all)+len(extra) {
		t.Fatalf("%d rows, %d items", len(all), len(b.Items))
	}
	for _, r := range all {
		p, ok := at[r.id]
		if !ok {
			t.Errorf("%s is missing", r.id)
			continue
		}
		m, _ := p.Item.Mass.Get()
		if got := m.Value.Kilograms(); math.Abs(got-r.mass) > 1e-9 {
			t.Errorf("%s: %v kg, want %v", r.id, got, r.mass)
		}
		if m.Spread.Kind != unit.Relative || math.Abs(m.Spread.Rel.Percent()-r.spread) > 1e-9 {
			t.Errorf("%s: spread %v, want %v %%", r.id, m.Spread, r.spread)
		}
		if p.Item.Removed.Else(false) != r.removed || p.Item.InTicket.Else(false) {
			t.Errorf("%s: removed %v, want %v", r.id, p.Item.Removed.Else(false), r.removed)
		}
		for k, want := range []float64{r.x, r.y, r.z - floor} {
			if !p.Centre[k].Known() || p.Centre[k].V != unit.Length(math.Round(want*1000)) {
				t.Errorf("%s: mass centre %c %v, want %v mm", r.id, "xyz"[k], p.Centre[k].V, want)
			}
		}
		if p.Item.Known == "" {
			t.Errorf("%s does not say how its mass is known", r.id)
		}
	}
	for id := range extra {
		p := at[id]
		m, ok := p.Item.Mass.Get()
		if !ok || !(p.Item.InTicket.Else(false) || m.Value == 0) {
			t.Errorf("%s adds a mass that the rows do not have", id)
		}
	}
}

// The sums by group were worked out outside the project.
func TestCrossCurlewGroups(t *testing.T) {
	want := map[string]float64{
		"body": 107.8, "lining": 114.6, "seats": 137.4, "kitchen": 91.6, "overhead": 16.4, "washroom": 57.7, "tall": 40.1, "bunks": 99.4,
		"water": 35.0, "gas": 27.4, "heating": 11.3, "electric": 87.6, "safety": 15.5 - 11.3, "loose": 11.3, "other": 24.0,
	}
	got := map[string]float64{}
	roof, fitted, removed := 0.0, 0.0, 0.0
	for _, it := range read(t, "curlew.yaml").Items {
		m, _ := it.Mass.Get()
		kg := m.Value.Kilograms()
		switch {
		case it.InTicket.Else(false):
			continue
		case it.Removed.Else(false):
			removed += kg
			continue
		}
		fitted += kg
		got[it.Group] += kg
		if it.On == "roof" {
			roof += kg
		}
	}
	for g, kg := range want {
		if math.Abs(got[g]-kg) > 0.001 {
			t.Errorf("%s: %.2f kg, want %.1f", g, got[g], kg)
		}
	}
	if len(got) != len(want) {
		t.Errorf("groups: %v", got)
	}
	if math.Abs(fitted-865.8) > 0.001 || math.Abs(removed-98) > 0.001 {
		t.Errorf("fitted %.2f kg, removed %.2f kg", fitted, removed)
	}
	if math.Abs(roof-52.1) > 0.001 {
		t.Errorf("on the roof %.2f kg, want 52", roof)
	}
}

// The finished van and the worst case of the declared plan, summed by hand from the parts of the build.
func TestCrossCurlewTotals(t *testing.T) {
	b := read(t, "curlew.yaml")
	total, rear := 0.0, 0.0 // kg, and kg·m about the front axle
	add := func(kg float64, x float64) { total += kg; rear += kg * x }
	front, _ := b.Van.Empty.Front.Get()
	back, _ := b.Van.Empty.Rear.Get()
	l := b.Van.Wheelbase.Else(0).Metres()
	add(front.Value.Kilograms(), 0)
	add(back.Value.Kilograms(), l)
	van := derive.ResolveVan(b.Van, doc.Van{}, "")
	for _, p := range derive.Place(b, van, derive.Travel) {
		m, _ := p.Item.Mass.Get()
		kg := m.Value.Kilograms()
		switch {
		case p.Item.InTicket.Else(false):
			continue
		case p.Item.Removed.Else(false):
			kg = -kg
		}
		add(kg, p.Centre[0].V.Metres())
	}
	add(-38*0.835, 1.46)
	is := func(what string, wantTotal, wantRear float64) {
		t.Helper()
		if math.Abs(total-wantTotal) > 0.6 || math.Abs(rear/l-wantRear) > 0.6 {
			t.Errorf("%s: total %.1f, rear %.1f kg; want %.0f and %.0f", what, total, rear/l, wantTotal, wantRear)
		}
	}
	is("finished, dry, no fuel, nobody", 2686, 1365)
	// as this party travels: people, child seats, fills, stowed, carried
	seat := map[string]float64{}
	for _, it := range b.Items {
		if s, ok := it.Seat.Get(); ok {
			seat[it.ID] = s.R.X.Else(0).Metres()
		}
		k, ok := it.Tank.Get()
		if !ok {
			continue
		}
		full := k.Holds.Else(0).Kilograms()
		if !k.Holds.Given() {
			full = k.Volume.Else(0).Litres() * k.Density.Else(0).KilogramsPerCubicMetre() / 1000
		}
		level := -1.0
		for _, f := range b.Loading.Travel.Fills {
			if f.Tank == it.ID {
				level = f.Level.Else(-1).Share()
			}
		}
		if level < 0 {
			t.Errorf("no fill of %s", it.ID)
		}
		add(full*level, k.At.X.Else(0).Metres())
	}
	for _, p := range b.Loading.Party {
		add(p.Mass.Else(0).Kilograms(), seat[p.Seat])
		add(p.Restraint.Else(0).Kilograms(), p.RestraintAt.X.Else(0).Metres())
	}
	for _, c := range b.Loading.Carried {
		each, _ := c.Each.Get()
		add(each.Value.Kilograms()*float64(c.Usual.Else(0)), c.At.X.Else(0).Metres())
	}
	zone := map[string]float64{}
	for _, z := range b.Loading.Zones {
		zone[z.ID] = z.At.X.Else(0).Metres()
	}
	for _, s := range b.Loading.Travel.Stowed {
		add(s.Mass.Else(0).Kilograms(), zone[s.Zone])
	}
	is("as this party travels", 3259, 1717)
}

// What is built in is what lies beside this test, and every build of this folder is built in.
func TestPropBuiltInTexts(t *testing.T) {
	found, err := filepath.Glob("*.yaml")
	if err != nil || len(found) != len(examples.Builds())+1 {
		t.Fatalf("%v, built in %v: %v", found, examples.Builds(), err)
	}
	for _, name := range append(examples.Builds(), "workshop") {
		text, ok := examples.Text(name)
		file, err := os.ReadFile(name + ".yaml")
		if !ok || err != nil || string(text) != string(file) {
			t.Errorf("%s: %v %v", name, ok, err)
		}
	}
	if _, ok := examples.Text("../examples/curlew"); ok {
		t.Error("a name is no path")
	}
}
