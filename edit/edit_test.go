package edit

import (
	"os"
	"strings"
	"testing"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/parts"
	"berthwright/unit"
)

const small = `berthwright: 1
build: {id: heron, name: Heron, country: uk}
van:
  wheelbase: 4 m
  floor: {front: 1640 mm, rear: 5030 mm, finished: 37 mm}
  inside: {left: -925 mm, right: 925 mm, ceiling: 1890 mm}
  plated: {total: 3500 kg}
items:
  - id: fridge
    name: Fridge
    mass: 19.2 kg ± 4 %   # from the plate
    size: {x: 480 mm, y: 520 mm, z: 560 mm}
    place: {bulkhead: 1160 mm ± 3 mm, edge: front, left-wall: 30 mm, finished-floor: 0 mm}
  - id: ladder
    name: Ladder
    mass: 3.4 kg
    at: {x: 4300 mm, y: 640 mm, z: 60 mm}
    states: {night: {at: {x: 3700 mm, y: 250 mm, z: 40 mm}}}
  - {id: box, name: Box, mass: 2 kg, place: {behind: fridge, gap: 10 mm, right-wall: 0 mm, finished-floor: 0 mm}}
  - {id: tins, name: Tins, zone: rear left low}
  - {id: cup, name: Cup, mass: 1 kg, size: {x: 80 mm, y: 80 mm, z: 90 mm}, at: {x: 3040 mm, y: -600 mm}, place: {on-top-of: fridge}}
  - {id: tray, name: Tray, mass: 1 kg, size: {x: 80 mm, y: 80 mm, z: 20 mm}, place: {behind: fridge, left-wall: 30 mm, on-top-of: fridge, gap: 5 mm}}
  - {id: tank, name: Fresh tank, mass: 9 kg, zone: wheel left low, tank: {for: fresh, volume: 92 L}}
  - {id: seat, name: Driver's seat, mass: 20 kg, zone: cab right low, seat: {driver: true}}
  - {id: foam, name: Foam, mass: 5 kg, span: {from: 1700 mm, to: 4900 mm}, at: {y: 0 mm, z: 900 mm}}
loading:
  party:
    - {id: ann, name: Ann, mass: 70 kg, seat: seat}
  zones:
    - {id: garage, name: Garage, limit: 80 kg, item: fridge}
  seats: [seat]
  travelling:
    fills:
      - {tank: tank, level: 100 %}
`

func read(t testing.TB, text string) *docfile.File {
	t.Helper()
	f := docfile.Read("heron.yaml", []byte(text))
	if !f.Readable {
		t.Fatalf("unreadable: %v", f)
	}
	return f
}

// did compiles gestures and returns the build they leave.
func did(t testing.TB, f *docfile.File, gestures ...Gesture) (*docfile.File, Result) {
	t.Helper()
	r, err := Compile(f, env, gestures)
	if err != nil {
		t.Fatal(err)
	}
	after, _, err := f.Apply(doc.Change{Ops: r.Ops})
	if err != nil {
		t.Fatalf("%v\n%+v", err, r.Ops)
	}
	return after, r
}

var env = Env{
	Used: func(id string) bool { return id == "heater" },
	Part: func(ref string) (doc.Item, bool) {
		return doc.Item{ID: "pump-a", Name: "Pump", Group: "water", Mass: doc.Opt[unit.MassEst](unit.Some(unit.MassEst{Value: 1.5}))}, ref == "pump-a@2026.1"
	},
	BaseVan: func(text string) (string, error) {
		if text == "panel" {
			return "{class: panel}", nil
		}
		return "", nil
	},
}

func value(t testing.TB, f *docfile.File, path string) string {
	t.Helper()
	v, _ := f.Value(path)
	return strings.Trim(v, `"`)
}

func TestPropCellsMeanWhatPeopleType(t *testing.T) {
	for _, c := range []struct {
		grid, row, column, text string
		path, want              string
	}{
		{"kit", "fridge", "mass", "21", "items/fridge/mass", "21 kg"},
		{"kit", "fridge", "mass", "21,5", "items/fridge/mass", "21.5 kg"},
		{"kit", "fridge", "mass", "1240+30-15", "items/fridge/mass", "1255 kg"},
		{"kit", "fridge", "mass", "45 lb", "items/fridge/mass", "45 lb"},
		{"kit", "fridge", "mass", "21 ± 5 %", "items/fridge/mass", "21 kg ± 5 %"},
		{"kit", "fridge", "mass", "", "items/fridge/mass", ""},
		{"kit", "fridge", "mass", "heavy", "items/fridge/mass", "heavy"},
		{"kit", "fridge", "known", "data sheet", "items/fridge/known", "data-sheet"},
		{"kit", "fridge", "known", "est", "items/fridge/known", "estimated"},
		{"kit", "fridge", "name", "Fridge: 72 L, #2", "items/fridge/name", "Fridge: 72 L, #2"},
		{"kit", "fridge", "name", "yes", "items/fridge/name", "yes"},
		{"kit", "fridge", "count", "2", "items/fridge/count", "2"},
		{"kit", "fridge", "far", "900", "items/fridge/place/bulkhead", "900 mm"},
		{"kit", "fridge", "far", "3 ft 2 in", "items/fridge/place/bulkhead", ""},
		{"kit", "fridge", "line", "rear door", "items/fridge/place/rear-door", "1750 mm"}, // 5030 - (1640 + 1160 + 480)
		{"kit", "fridge", "line", "axle", "items/fridge/at/x", "3040 mm"},
		{"kit", "fridge", "line", "behind Ladder", "items/fridge/place/behind", "ladder"},
		{"kit", "fridge", "line", "rear", "items/fridge/zone", "rear"},
		{"kit", "fridge", "side", "right", "items/fridge/place/right-wall", "30 mm"},
		{"kit", "fridge", "side", "left", "items/fridge/place/left-wall", "30 mm"},
		{"kit", "fridge", "side", "middle", "items/fridge/place/centre-line", "0 mm"},
		{"kit", "fridge", "side", "right 45", "items/fridge/place/right-wall", "45 mm"},
		{"kit", "fridge", "side", "50", "items/fridge/place/left-wall", "50 mm"},
		{"kit", "fridge", "level", "120", "items/fridge/place/finished-floor", "120 mm"},
		{"kit", "fridge", "level", "high", "items/fridge/zone", "high"},
		{"kit", "fridge", "level", "ceiling 50", "items/fridge/place/ceiling", "50 mm"},
		{"kit", "ladder", "side", "left", "items/ladder/at/y", "-640 mm"},
		{"kit", "ladder", "side", "left 300", "items/ladder/at/y", "-300 mm"},
		{"kit", "ladder", "side", "right 300", "items/ladder/at/y", "300 mm"},
		{"kit", "ladder", "side", "middle", "items/ladder/place/centre-line", "0 mm"},
		{"kit", "ladder", "far", "4100", "items/ladder/at/x", "4100 mm"},
		{"kit", "box", "far", "25", "items/box/place/gap", "25 mm"},
		{"kit", "tins", "side", "right", "items/tins/zone", "rear right low"},
		{"kit", "tins", "level", "mid", "items/tins/zone", "rear left mid"},
		{"kit", "tins", "line", "mid", "items/tins/zone", "mid left low"},
		{"kit", "tins", "line", "bulkhead", "items/tins/place/line", "bulkhead"},
		{"kit", "fridge", "far", "", "items/fridge/place/line", "bulkhead"},
		{"kit", "ladder", "far", "", "items/ladder/place/line", "axle"},
		{"kit", "cup", "level", "on Ladder", "items/cup/place/on-top-of", "ladder"},
		{"kit", "tins", "level", "on top of fridge", "items/tins/place/on-top-of", "fridge"},
		{"kit", "cup", "side", "right of Ladder", "items/cup/place/right-of", "ladder"},
		{"kit", "cup", "level", "120", "items/cup/place/finished-floor", "120 mm"},
		{"kit", "cup", "level", "", "items/cup/place/on-top-of", ""},
		{"kit", "tins", "far", "300", "items/tins/place/bulkhead", "300 mm"},
		{"kit", "tins", "line", "", "items/tins/zone", "left low"},
		{"people", "ann", "child", "yes", "loading/party/ann/child", "true"},
		{"people", "ann", "seat", "driver's seat", "loading/party/ann/seat", "seat"},
		{"zones", "garage", "stowed", "12", "loading/travelling/stowed/garage/mass", "12 kg"},
		{"tanks", "tank", "fill", "half", "loading/travelling/fills/tank/level", "50 %"},
		{"tanks", "tank", "fill", "¾", "loading/travelling/fills/tank/level", "75 %"},
		{"tanks", "tank", "volume", "100", "items/tank/tank/volume", "100 L"},
		{"tanks", "tank", "fill", "", "loading/travelling/fills/tank", ""},
	} {
		t.Run(c.column+" "+c.text, func(t *testing.T) {
			f, r := did(t, read(t, small), Gesture{Kind: "cell", Grid: c.grid, Row: c.row, Column: c.column, Text: c.text})
			got := value(t, f, c.path)
			if c.want == "" && c.text != "" {
				if got == "" {
					t.Errorf("nothing at %s", c.path)
				}
			} else if got != c.want {
				t.Errorf("%s is %q, want %q (%+v)", c.path, got, c.want, r)
			}
			if bad := clashes(f); bad != "" {
				t.Errorf("two measures of one way: %s", bad)
			}
		})
	}
}

// TestPropLineWithoutDistance: the line that was chosen is kept, nothing is called wrong, and the item stays where its
// zone puts it until the distance is there.
func TestPropLineWithoutDistance(t *testing.T) {
	before := read(t, small)
	f, r := did(t, before, Gesture{Kind: "cell", Grid: "kit", Row: "tins", Column: "line", Text: "rear door"})
	if len(r.Refused) > 0 || len(f.Diags) > len(before.Diags) {
		t.Errorf("%+v %v", r.Refused, f.Diags)
	}
	if spot(f, "tins", derive.Travel) != spot(before, "tins", derive.Travel) {
		t.Error("the item moved")
	}
	f, _ = did(t, f, Gesture{Kind: "cell", Grid: "kit", Row: "tins", Column: "line", Text: "bulkhead"})
	f, _ = did(t, f, Gesture{Kind: "cell", Grid: "kit", Row: "tins", Column: "far", Text: "250"})
	if value(t, f, "items/tins/place/bulkhead") != "250 mm" || written(f, "items/tins/place/line") || clashes(f) != "" {
		t.Errorf("%s", f.Text)
	}
}

// clashes names an item with two measures of one way.
func clashes(f *docfile.File) string {
	for _, it := range f.Build.Items {
		for _, way := range [][]string{along, across, upward} {
			n := 0
			for _, p := range way {
				if written(f, "items/"+it.ID+"/"+p) {
					n++
				}
			}
			if n > 1 {
				return it.ID
			}
		}
	}
	return ""
}

func TestPropWrongTextIsKeptAndTold(t *testing.T) {
	f, r := did(t, read(t, small), Gesture{Kind: "cell", Grid: "kit", Row: "fridge", Column: "mass", Text: "12.5 Ah"})
	if len(r.Refused) != 1 || !r.Refused[0].Kept || r.Refused[0].Path != "items/fridge/mass" || r.Refused[0].Says == "" {
		t.Fatalf("%+v", r.Refused)
	}
	if value(t, f, "items/fridge/mass") != "12.5 Ah" || f.Build.Items[0].Mass.Given() {
		t.Errorf("%q, bound %v", value(t, f, "items/fridge/mass"), f.Build.Items[0].Mass.Given())
	}
	if !strings.Contains(string(f.Text), "# from the plate") {
		t.Error("the comment is gone")
	}
}

func TestPropMoveKeepsTheKindOfMeasure(t *testing.T) {
	mm := unit.Millimetre
	for _, c := range []struct {
		row, state string
		d          [3]unit.Length
		path, want string
	}{
		{"fridge", "", [3]unit.Length{100 * mm, 0, 0}, "place/bulkhead", "1260 mm ± 3 mm"},
		{"fridge", "", [3]unit.Length{0, 20 * mm, 0}, "place/left-wall", "50 mm"},
		{"fridge", "", [3]unit.Length{0, 0, 15 * mm}, "place/finished-floor", "15 mm"},
		{"ladder", "", [3]unit.Length{-300 * mm, 0, 0}, "at/x", "4000 mm"},
		{"ladder", "night", [3]unit.Length{10 * mm, 0, 0}, "states/night/at/x", "3710 mm"},
		{"ladder", "camp", [3]unit.Length{10 * mm, 0, 0}, "at/x", "4310 mm"},
		{"box", "", [3]unit.Length{5 * mm, 0, 0}, "place/gap", "15 mm"},
		{"box", "", [3]unit.Length{0, 5 * mm, 0}, "place/right-wall", "-5 mm"},
		{"cup", "", [3]unit.Length{0, 0, 12 * mm}, "place/gap", "12 mm"},
		{"cup", "", [3]unit.Length{0, 7 * mm, 0}, "at/y", "-593 mm"},
		{"tray", "", [3]unit.Length{0, 0, 12 * mm}, "at/z", ""}, // one gap for two neighbours
		{"tins", "", [3]unit.Length{5 * mm, 0, 0}, "at/x", ""},
		{"foam", "", [3]unit.Length{50 * mm, 0, 0}, "span/to", "4950 mm"},
	} {
		t.Run(c.row+" "+c.path, func(t *testing.T) {
			before := read(t, small)
			f, r := did(t, before, Gesture{Kind: "move", Row: c.row, State: c.state, DX: c.d[0], DY: c.d[1], DZ: c.d[2]})
			got := value(t, f, "items/"+c.row+"/"+c.path)
			if c.want != "" && got != c.want || got == "" {
				t.Errorf("%q, want %q (%+v)", got, c.want, r)
			}
			state := derive.State(c.state)
			if state == "" {
				state = derive.Travel
			}
			was, is := spot(before, c.row, state), spot(f, c.row, state)
			for k := range 3 {
				if is[k]-was[k] != c.d[k] {
					t.Errorf("axis %d moved by %v, want %v", k, is[k]-was[k], c.d[k])
				}
			}
		})
	}
}

func spot(f *docfile.File, id string, state derive.State) (at [3]unit.Length) {
	for _, p := range derive.Place(f.Build, derive.Context{}.Van(f.Build.Van), state) {
		if p.Item.ID == id {
			return [3]unit.Length{p.At[0].V, p.At[1].V, p.At[2].V}
		}
	}
	return at
}

func TestPropRowsAreMadeTakenOutAndCopied(t *testing.T) {
	f, r := did(t, read(t, small),
		Gesture{Kind: "add", Grid: "kit", Text: "Heater", Row: "fridge", Cells: map[string]string{"mass": "3,2", "line": "rear-door", "far": "400", "side": "left 20", "known": "guess"}},
		Gesture{Kind: "add", Grid: "kit", Part: "pump-a@2026.1"},
		Gesture{Kind: "add", Grid: "people", Text: "Bo", Cells: map[string]string{"mass": "80", "seat": "Driver's seat"}},
		Gesture{Kind: "copy", Grid: "kit", Row: "fridge"},
		Gesture{Kind: "add", Grid: "zones", Text: "Under bed", Cells: map[string]string{"limit": "20", "stowed": "7"}},
	)
	if strings.Join(r.Made, " ") != "heater-2 pump bo fridge-2 under-bed" {
		t.Errorf("made %v", r.Made) // heater was used before
	}
	for path, want := range map[string]string{
		"items/heater-2/mass": "3.2 kg", "items/heater-2/place/rear-door": "400 mm", "items/heater-2/place/left-wall": "20 mm", "items/heater-2/known": "guess",
		"items/pump/from": "pump-a@2026.1", "items/pump/mass": "1.5 kg", "items/pump/name": "Pump",
		"loading/party/bo/seat": "seat", "items/fridge-2/mass": "19.2 kg ± 4 %", "items/fridge-2/place/bulkhead": "1160 mm ± 3 mm",
		"loading/travelling/stowed/under-bed/mass": "7 kg",
	} {
		if got := value(t, f, path); got != want {
			t.Errorf("%s is %q, want %q", path, got, want)
		}
	}
	var ids []string
	for _, it := range f.Build.Items[:3] {
		ids = append(ids, it.ID)
	}
	if strings.Join(ids, " ") != "fridge fridge-2 heater-2" {
		t.Errorf("order %v", ids)
	}
	f, r = did(t, read(t, small), Gesture{Kind: "remove", Grid: "kit", Row: "tank"}, Gesture{Kind: "remove", Grid: "kit", Row: "seat"}, Gesture{Kind: "remove", Grid: "kit", Row: "fridge"})
	for _, gone := range []string{"items/tank", "items/seat", "items/fridge", "loading/travelling/fills/tank", "loading/party/ann/seat", "loading/seats/seat", "loading/zones/garage/item", "items/box/place/behind"} {
		if v, ok := f.Value(gone); ok {
			t.Errorf("%s is still %q", gone, v)
		}
	}
	if got := value(t, f, "items/box/at/x"); got == "" {
		t.Errorf("the neighbour lost its place: %+v", r)
	}
}

func TestPropNothingIsDoneByWhatMeansNothing(t *testing.T) {
	for _, g := range []Gesture{
		{Kind: "cell", Grid: "kit", Row: "nobody", Column: "mass", Text: "1"},
		{Kind: "cell", Grid: "kit", Row: "fridge", Column: "colour", Text: "red"},
		{Kind: "cell", Grid: "cats", Row: "fridge", Column: "mass", Text: "1"},
		{Kind: "cell", Grid: "kit", Row: "fridge", Column: "line", Text: "the moon"},
		{Kind: "move", Row: "nobody", DX: 1}, {Kind: "turn", Row: "nobody", Text: "90"}, {Kind: "remove", Row: "nobody"}, {Kind: "copy", Row: "nobody"},
		{Kind: "add", Grid: "tanks", Text: "x"}, {Kind: "add", Grid: "kit", Part: "none@1"},
		{Kind: "field", Path: "van/wings", Text: "2"}, {Kind: "field", Path: "items/fridge/id", Text: "x"}, {Kind: "field", Path: "van", Text: "x"},
		{Kind: "van", Text: "unicorn"}, {Kind: "dance"}, {Kind: "ops"},
	} {
		r, err := Compile(read(t, small), env, []Gesture{g})
		if err != nil || len(r.Ops) > 0 || len(r.Refused) == 0 && g.Kind != "ops" {
			t.Errorf("%+v: %+v %v", g, r, err)
		}
	}
}

func TestPropFieldsAndVan(t *testing.T) {
	f, _ := did(t, read(t, small),
		Gesture{Kind: "field", Path: "van/plated/front", Text: "1860"},
		Gesture{Kind: "field", Path: "van/plated/total", Text: ""},
		Gesture{Kind: "field", Path: "van/empty/date", Text: "2 Mar 2026"},
		Gesture{Kind: "field", Path: "job/brief", Text: "two lines\nof text"},
		Gesture{Kind: "turn", Row: "fridge", Text: "450"})
	for path, want := range map[string]string{"van/plated/front": "1860 kg", "van/plated/total": "", "van/empty/date": "2026-03-02", "items/fridge/turn": "90 °"} {
		if got := value(t, f, path); got != want {
			t.Errorf("%s is %q, want %q", path, got, want)
		}
	}
	if f.Build.Job.Brief != "two lines\nof text" {
		t.Errorf("brief %q", f.Build.Job.Brief)
	}
	f, _ = did(t, f, Gesture{Kind: "van", Text: "panel"})
	if f.Build.Van.Class != "panel" || f.Build.Van.Wheelbase.Given() || len(f.Build.Items) != 9 {
		t.Errorf("van %+v", f.Build.Van)
	}
}

func TestPropEnquiryReadsBackWithoutAProblem(t *testing.T) {
	cat, err := parts.Load()
	if err != nil {
		t.Fatal(err)
	}
	class, ok := cat.Class("panel-60-high")
	if !ok {
		t.Fatal("no class")
	}
	for people := range 7 {
		for _, country := range []string{"", "uk", "eu", "us"} {
			text := Enquiry{ID: "a-b", Name: "A: b, #c", Country: country, Class: class, People: people, Date: unit.Some(doc.Date{Year: 2026, Month: 11, Day: 1})}.Text()
			f := docfile.Read("a.yaml", []byte(text))
			if !f.Readable || len(f.Diags) > 0 {
				t.Fatalf("%d %s: %v\n%s", people, country, f.Diags, text)
			}
			if len(f.Build.Loading.Party) != people || len(f.Build.Items) != people+len(class.Allowances) || f.Build.Head.Name != "A: b, #c" {
				t.Errorf("%d people: %d in the party, %d items", people, len(f.Build.Loading.Party), len(f.Build.Items))
			}
		}
	}
}

func TestPropSlugsAreIDs(t *testing.T) {
	for name, want := range map[string]string{"Compressor fridge, 72 L": "compressor-fridge-72-l", "Kühlbox groß": "kuhlbox-gross", "  ": "", "Driver's seat": "drivers-seat", "½ tank": "1-2-tank", "漢字": ""} {
		if got := Slug(name); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
	if n := len(Slug(strings.Repeat("word ", 100))); n > 64 || n == 0 {
		t.Errorf("length %d", n)
	}
}

func curlew(t testing.TB) string {
	t.Helper()
	b, err := os.ReadFile("../examples/curlew.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// What must not be moved stays where it is, in words, whoever asks: the page does not offer it either.
func TestPropLockedIsNotMoved(t *testing.T) {
	for _, c := range []struct{ line, says string }{
		{"{id: it, name: Plinth, size: {x: 300 mm, y: 300 mm, z: 300 mm}, at: {x: 2000 mm, y: 0 mm, z: 0 mm}, locked: waits for the customer}", `"Plinth" stays where it is: waits for the customer`},
		{"{id: it, name: Bench, size: {x: 300 mm, y: 300 mm, z: 300 mm}, at: {x: 2000 mm, y: 0 mm, z: 0 mm}, seat: {belted: true}}", "tested evidence"},
		{"{id: it, name: Bottle, group: gas, size: {x: 300 mm, y: 300 mm, z: 300 mm}, at: {x: 2000 mm, y: 0 mm, z: 0 mm}}", "gas and safety"},
		{"{id: it, name: Slung, where: under, size: {x: 300 mm, y: 300 mm, z: 200 mm}, at: {x: 2000 mm, y: 0 mm, z: -200 mm}, tank: {for: waste, volume: 40 L}}", "slung tanks"},
	} {
		f := read(t, "berthwright: 1\nbuild: {id: b}\nitems:\n  - "+c.line+"\n")
		if f.Build.Items == nil || len(f.Diags) > 0 {
			t.Fatalf("%s: %v", c.line, f.Diags)
		}
		for _, state := range []string{"", "camp"} {
			r, err := Compile(f, env, []Gesture{{Kind: "move", Row: "it", State: state, DX: 50 * unit.Millimetre}})
			if err != nil || len(r.Ops) > 0 || len(r.Refused) != 1 || r.Refused[0].Code != "locked" || !strings.Contains(r.Refused[0].Says, c.says) {
				t.Errorf("%s: %+v", c.line, r)
			}
		}
		if r, err := Compile(f, env, []Gesture{{Kind: "cell", Grid: "kit", Row: "it", Column: "name", Text: "Other"}}); err != nil || len(r.Ops) == 0 {
			t.Errorf("%s: its name cannot be typed: %+v", c.line, r)
		}
	}
}
