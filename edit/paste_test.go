package edit

import (
	"slices"
	"strings"
	"testing"

	"berthwright/doc"
)

func TestPropTablesAreUnderstood(t *testing.T) {
	for _, c := range []struct {
		name, grid, text string
		header           bool
		columns          string
		rows             int
		first            map[string]string // cells of the first row, "name" its name
	}{
		{"spreadsheet", "kit", "Item\tQty\tWeight (kg)\tCost\tNotes\nSink\t1\t4,5\t£95.00\tround\nTap\t2\t0,6\t30\t\n", true, "name count mass price remark", 2, map[string]string{"name": "Sink", "mass": "4,5 kg", "price": "95.00"}},
		{"pounds in the title", "kit", "Part,Mass lb\nSink,9.9\n", true, "name mass", 1, map[string]string{"mass": "9.9 lb"}},
		{"grams in the title", "kit", "Part;Weight in g\nScrews;450\n", true, "name mass", 1, map[string]string{"mass": "450 g"}},
		{"unit in the cell wins", "kit", "Part;Weight in g\nScrews;2 kg\n", true, "name mass", 1, map[string]string{"mass": "2 kg"}},
		{"no titles", "kit", "Sink\t4.5 kg\t£95\nTap\t0.6 kg\t£30\n", false, "name mass price", 2, map[string]string{"name": "Sink", "price": "95"}},
		{"no titles, bare numbers", "kit", "Sink\t4.5\nTap\t0.6\nHob\t3\n", false, "name mass", 3, map[string]string{"mass": "4.5"}},
		{"places", "kit", "What;kg;from which line;how far;left/middle/right;low/mid/high\nBox;3;bulkhead;1.2 m;left;low\n", true, "name mass line far side level", 1, map[string]string{"far": "1.2 m", "level": "low"}},
		{"quoted cells", "kit", "name,mass\n\"Box, \"\"big\"\"\nwith a lid\",3\n", true, "name mass", 1, map[string]string{"name": "Box, \"big\"\nwith a lid"}},
		{"inches are no quotes", "kit", "name\tmass\n\"24\" shelf\t3\n", true, "name mass", 1, map[string]string{"name": `"24" shelf`}},
		{"one column", "kit", "Sink\nTap\nHob", false, "name", 3, map[string]string{"name": "Sink"}},
		{"strange titles", "kit", "Bezeichnung;Gewicht\nSpüle;4,5\nHahn;0,6\n", true, "name mass", 2, map[string]string{"name": "Spüle", "mass": "4,5"}},
		{"empty lines and ragged rows", "kit", "name;kg;remark\n\n;;\nSink;4\nTap;1;x;y;z\n", true, "name mass remark  ", 2, map[string]string{"name": "Sink"}},
		{"people", "people", "Name\tWeight\nAnn\t70\nBo\t82\n", true, "name mass", 2, map[string]string{"mass": "70"}},
		{"zones", "zones", "Zone\tmax kg\nGarage two\t80\n", true, "name limit", 1, map[string]string{"limit": "80 kg"}},
		{"byte order mark and CRLF", "kit", "\ufeffname;kg\r\nSink;4\r\n", true, "name mass", 1, map[string]string{"mass": "4 kg"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Paste(read(t, small), env, c.grid, c.text, "", Corrected{})
			if err != nil {
				t.Fatal(err)
			}
			if p.Header != c.header || strings.Join(p.Columns, " ") != c.columns || p.Rows != c.rows || len(p.Gestures) != c.rows {
				t.Fatalf("header %v columns %q rows %d", p.Header, strings.Join(p.Columns, " "), p.Rows)
			}
			for id, want := range c.first {
				got := p.Gestures[0].Cells[id]
				if id == "name" {
					got = p.Gestures[0].Text
				}
				if got != want {
					t.Errorf("%s is %q, want %q", id, got, want)
				}
			}
			f, r := did(t, read(t, small), p.Gestures...)
			if len(r.Made) != c.rows || len(f.Diags) != 0 {
				t.Errorf("made %v, %v", r.Made, f.Diags)
			}
		})
	}
}

func TestPropBadCellsAreKeptAndTold(t *testing.T) {
	p, err := Paste(read(t, small), env, "kit", "name\tkg\tfrom\nSink\theavy\tbulkhead\nTap\t1\tthe moon\n", "ladder", Corrected{})
	if err != nil || len(p.Bad) != 2 || p.Bad[0].Path != "1/2" || p.Bad[1].Path != "2/3" {
		t.Fatalf("%+v %v", p.Bad, err)
	}
	f, r := did(t, read(t, small), p.Gestures...)
	if v := value(t, f, "items/sink/mass"); v != "heavy" {
		t.Errorf("the bad cell is %q", v)
	}
	if len(r.Refused) != 2 {
		t.Errorf("%+v", r.Refused)
	}
	var ids []string
	for _, it := range f.Build.Items {
		ids = append(ids, it.ID)
	}
	if i := slices.Index(ids, "ladder"); strings.Join(ids[i:i+3], " ") != "ladder sink tap" {
		t.Errorf("order %v", ids)
	}
}

func TestPropCorrectedColumnsAreTaken(t *testing.T) {
	yes, no := true, false
	table := "4\tSink\n1\tTap\n"
	p, err := Paste(read(t, small), env, "kit", table, "", Corrected{Columns: []string{"", "remark"}, Header: &no})
	if err != nil || strings.Join(p.Columns, ",") != ",remark" || p.Rows != 2 || p.Gestures[0].Cells["remark"] != "Sink" || p.Gestures[0].Text != "" {
		t.Errorf("%+v %v", p, err)
	}
	p, err = Paste(read(t, small), env, "kit", table, "", Corrected{Columns: []string{"mass", "wings", "more"}, Header: &yes})
	if err != nil || p.Rows != 1 || strings.Join(p.Columns, ",") != "mass," {
		t.Errorf("%+v %v", p, err)
	}
}

func TestPropBadTablesAreRefused(t *testing.T) {
	for _, c := range []struct{ grid, text string }{{"kit", ""}, {"kit", " \n\t\n"}, {"tanks", "a\tb"}, {"wings", "a"}, {"kit", strings.Repeat("a\tb\n", maxRows+2)}} {
		if _, err := Paste(read(t, small), env, c.grid, c.text, "", Corrected{}); err == nil {
			t.Errorf("%s %q is taken", c.grid, c.text[:min(len(c.text), 20)])
		}
	}
}

func BenchmarkPasteHundredRows(b *testing.B) {
	f := read(b, curlew(b))
	table := "What\tkg\tfrom\thow far\tside\n" + strings.Repeat("Thing, of some kind\t4,5\tbulkhead\t1200\tleft\n", 100)
	for b.Loop() {
		p, err := Paste(f, env, "kit", table, "", Corrected{})
		if err != nil {
			b.Fatal(err)
		}
		r, err := Compile(f, env, p.Gestures)
		if err != nil {
			b.Fatal(err)
		}
		if _, _, err := f.Apply(doc.Change{Ops: r.Ops}); err != nil {
			b.Fatal(err)
		}
	}
}

func TestPropZonesInOneCellAreUnderstood(t *testing.T) {
	for _, c := range []struct{ text, zone string }{
		{"mid left low", "mid left low"}, {"left mid", "mid left"}, {"low, left, rear zone", "rear left low"}, {"Rear Mid Centre", "rear middle mid"},
		{"mid mid left", "mid left mid"}, {"wheel/right/high", "wheel right high"}, {"left", "left"}, {"door", "door"}, {"left low", "left low"},
	} {
		p, err := Paste(read(t, small), env, "kit", "Item\tkg\tWhere\nSink\t4\t"+c.text+"\n", "", Corrected{})
		if err != nil || len(p.Bad) > 0 {
			t.Fatalf("%q: %+v %v", c.text, p.Bad, err)
		}
		f, r := did(t, read(t, small), p.Gestures...)
		if got := value(t, f, "items/sink/zone"); got != c.zone || written(f, "items/sink/remark") || len(r.Refused) > 0 {
			t.Errorf("%q is the zone %q, want %q (%v)", c.text, got, c.zone, r.Refused)
		}
	}
}

func TestPropPlacesThatAreNotUnderstoodAreKept(t *testing.T) {
	p, err := Paste(read(t, small), env, "kit", "Item\tkg\tWhere\tHow far\tNotes\nSink\t4\tkitchen left\t1200\tround\nTap\t1\trear left rear\t\t\nHob\t5\tunder bench\t\t\n", "", Corrected{})
	if err != nil || len(p.Bad) < 3 {
		t.Fatalf("%+v %v", p.Bad, err)
	}
	before := read(t, small)
	f, _ := did(t, before, p.Gestures...)
	for path, want := range map[string]string{
		"items/sink/remark": "round; place as pasted: kitchen left; how far as pasted: 1200", "items/sink/place/line": "kitchen left",
		"items/tap/remark": "place as pasted: rear left rear", "items/hob/remark": "place as pasted: under bench", "items/hob/place/line": "under bench",
	} {
		if got := value(t, f, path); got != want {
			t.Errorf("%s is %q, want %q", path, got, want)
		}
	}
	marked := 0
	for _, d := range f.Diags {
		if strings.HasSuffix(d.Path, "place/line") {
			marked++
		}
	}
	if marked != 3 {
		t.Errorf("%d cells are marked: %v", marked, f.Diags)
	}
	f, r := did(t, f, Gesture{Kind: "cell", Grid: "kit", Row: "sink", Column: "line", Text: "mid left"})
	if written(f, "items/sink/place/line") || value(t, f, "items/sink/zone") != "mid left" || len(r.Refused) > 0 {
		t.Errorf("put right: %s", f.Text)
	}
}
