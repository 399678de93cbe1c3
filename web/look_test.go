package web

import (
	"bytes"
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"
)

func TestPropEveryAddressAnswers(t *testing.T) {
	w := start(t)
	v := w.curlew()
	if v.Revision != 1 || v.ID != "curlew" || len(v.Kit.Rows) < 100 || len(v.Title) == 0 || len(v.Findings) == 0 || len(v.Van) == 0 || len(v.Loading.Zones.Rows) != 8 {
		t.Errorf("view: revision %d, %d rows, %d title, %d findings", v.Revision, len(v.Kit.Rows), len(v.Title), len(v.Findings))
	}
	for _, c := range []struct{ method, path string }{
		{"GET", "/api/builds"}, {"GET", "/api/builds?deleted=1"}, {"GET", "/api/choices"}, {"GET", "/api/builds/curlew?state=night"}, {"GET", "/api/builds/curlew/text"},
		{"GET", "/api/builds/curlew/scene?view=plan&state=travel"}, {"GET", "/api/builds/curlew/scene?view=left&state=camp&against=1"}, {"GET", "/api/builds/curlew/slip?key=" + v.Title[0].Slip},
		{"GET", "/api/builds/curlew/history"}, {"GET", "/api/builds/curlew/diff?from=1&to=1"}, {"GET", "/api/builds/curlew/record"}, {"GET", "/api/parts?q=fridge"}, {"GET", "/api/workshop"},
		{"GET", "/api/health"}, {"GET", "/openapi.json"},
	} {
		status, text, head := w.ask(c.method, c.path, nil)
		if status != http.StatusOK || !json.Valid(text) || head.Get("Content-Type") != "application/json" || bytes.Contains(text, []byte(":null")) {
			t.Errorf("%s %s: %d %s", c.method, c.path, status, cut(string(text)))
		}
	}
	for path, magic := range map[string]string{
		"papers/mass-statement.pdf": "%PDF", "papers/placard.pdf": "%PDF", "papers/change.pdf?from=1": "%PDF", "papers/drawing.pdf?view=left": "%PDF", "papers/drawing.svg": "<", "papers/drawing.dxf": "", "export": "# Curlew",
	} {
		status, text, _ := w.ask("GET", "/api/builds/curlew/"+path, nil)
		if status != http.StatusOK || !bytes.HasPrefix(text, []byte(magic)) || len(text) < 500 {
			t.Errorf("%s: %d %s", path, status, cut(string(text)))
		}
		_, again, _ := w.ask("GET", "/api/builds/curlew/"+path, nil)
		if !bytes.Equal(text, again) {
			t.Errorf("%s: the same paper has other bytes the second time", path)
		}
	}
	list := must[BuildList](w, "GET", "/api/builds", nil)
	if len(list.Builds) != 1 || len(list.Builds[0].Deciding) == 0 || list.Builds[0].Items < 100 {
		t.Errorf("list %+v", list)
	}
	if page, text, _ := w.ask("GET", "/", nil); page != 200 || !bytes.Contains(text, []byte("<!doctype html")) && !bytes.Contains(text, []byte("<!DOCTYPE html")) {
		t.Errorf("page: %d %s", page, cut(string(text)))
	}
}

func TestPropPublishedAddressesAreThoseAnswered(t *testing.T) {
	s := &Server{}
	have := s.answers()
	have["GET /api/builds/{id}/events"] = nil
	for p := range have {
		if _, ok := operations[p]; !ok {
			t.Errorf("%s is not published", p)
		}
	}
	for p := range operations {
		if _, ok := have[p]; !ok {
			t.Errorf("%s is published and not answered", p)
		}
	}
	doc, err := s.getOpenAPI(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	schemas := doc.(map[string]any)["components"].(map[string]any)["schemas"].(map[string]any)
	for _, name := range []string{"BuildView", "Conflict", "Problem", "Prim"} {
		if schemas[name] == nil {
			t.Errorf("no schema %s", name)
		}
	}
	for part := range strings.SplitSeq(string(text), `"#/components/schemas/`) {
		name, _, _ := strings.Cut(part, `"`)
		if strings.HasPrefix(part, "{") {
			continue
		}
		if schemas[name] == nil {
			t.Errorf("reference to %q, which is not there", name)
		}
	}
}

func TestPropBuildsAreMadeCopiedDeletedAndBroughtBack(t *testing.T) {
	w := start(t)
	e := must[BuildView](w, "POST", "/api/builds", NewBuild{Kind: "enquiry", Name: "Sand Martin", Class: "panel-60-high", Country: "uk", People: 4})
	if e.ID != "sand-martin" || len(e.Marks) != 0 || len(e.Loading.People.Rows) != 4 || len(e.Assumed) == 0 {
		t.Errorf("enquiry %s: marks %v people %d", e.ID, e.Marks, len(e.Loading.People.Rows))
	}
	second := must[BuildView](w, "POST", "/api/builds", NewBuild{Kind: "enquiry", Name: "Sand Martin", Class: "panel-54-high"})
	if second.ID != "sand-martin-2" {
		t.Errorf("second %q", second.ID)
	}
	empty := must[BuildView](w, "POST", "/api/builds", NewBuild{Kind: "empty", Name: "漢字"})
	if empty.ID != "build" || empty.Name != "漢字" || len(empty.Kit.Rows) != 0 {
		t.Errorf("empty %q %q", empty.ID, empty.Name)
	}
	w.curlew()
	c := must[BuildView](w, "POST", "/api/builds", NewBuild{Kind: "duplicate", From: "curlew", Name: "Curlew: b"})
	if c.ID != "curlew-b" || c.Name != "Curlew: b" || len(c.Kit.Rows) < 100 || len(c.Marks) != 0 {
		t.Errorf("copy %q %q %v", c.ID, c.Name, c.Marks)
	}
	im := must[BuildView](w, "POST", "/api/import", curlewText(t))
	if im.ID != "curlew-2" || im.Kit.Total == "" {
		t.Errorf("import %q", im.ID)
	}
	_, text, _ := w.ask("GET", "/api/builds/curlew-2/export", nil)
	if !bytes.Contains(text, []byte("id: curlew-2")) || len(text) < 10000 {
		t.Errorf("export %s", cut(string(text)))
	}
	must[BuildRow](w, "DELETE", "/api/builds/curlew", nil)
	refused(w, http.StatusGone, "deleted", "GET", "/api/builds/curlew", nil)
	if l := must[BuildList](w, "GET", "/api/builds", nil); len(l.Builds) != 5 {
		t.Errorf("%d builds", len(l.Builds))
	}
	must[BuildRow](w, "POST", "/api/builds/curlew/restore", nil)
	must[BuildView](w, "GET", "/api/builds/curlew", nil)
	v := w.change("v1", "page", 1, Edit{Kind: "van", Text: "panel-64-high"})
	if len(v.View.Kit.Rows) < 100 || len(v.Refused) != 0 {
		t.Errorf("swap of the van: %+v", v.Refused)
	}
	refused(w, http.StatusUnprocessableEntity, "unknown-id", "POST", "/api/builds", NewBuild{Kind: "enquiry", Class: "unicorn"})
	refused(w, http.StatusUnprocessableEntity, "unknown-word", "POST", "/api/builds", NewBuild{Kind: "guess"})
	refused(w, http.StatusUnprocessableEntity, "out-of-range", "POST", "/api/builds", NewBuild{Kind: "enquiry", Class: "panel-60-high", People: 99})
}

func TestPropRecordIsOnlyAdded(t *testing.T) {
	w := start(t)
	w.curlew()
	good := WeighingRequest{ID: "w1", Fields: map[string]string{"date": "2026-09-01", "stage": "finished", "front": "1320 ± 10 kg", "rear": "1365", "by": "bay 1", "driver": "0", "missing": "battery"}}
	v := must[RecordView](w, "POST", "/api/builds/curlew/record", good)
	if len(v.Weighings) != 1 || v.Weighings[0].Date != "2026-09-01" || !strings.Contains(v.Weighings[0].Text, "front") || len(v.Form) == 0 {
		t.Errorf("%+v", v)
	}
	if v = must[RecordView](w, "POST", "/api/builds/curlew/record", good); len(v.Weighings) != 1 {
		t.Error("a repeated weighing was added twice")
	}
	p := refused(w, http.StatusUnprocessableEntity, "bad-weighing", "POST", "/api/builds/curlew/record", WeighingRequest{ID: "w2", Fields: map[string]string{"front": "12 Ah"}})
	if len(p.Fields) != 1 || p.Fields[0].Path != "front" {
		t.Errorf("%+v", p)
	}
	refused(w, http.StatusUnprocessableEntity, "bad-weighing", "POST", "/api/builds/curlew/record", WeighingRequest{ID: "w3", Fields: map[string]string{"note": "nothing"}})
	refused(w, http.StatusUnprocessableEntity, "bad-weighing", "POST", "/api/builds/curlew/record", WeighingRequest{ID: "w4", Fields: map[string]string{"front": "1", "items": "nobody"}})
	refused(w, http.StatusUnprocessableEntity, "bad-weighing", "POST", "/api/builds/curlew/record", WeighingRequest{ID: "w5", Fields: map[string]string{"front": "99999"}})
}

func TestPropWorkshopFile(t *testing.T) {
	w := start(t)
	w.curlew()
	text := "berthwright-workshop: 1\nname: Marram Lane\nparts:\n  - {id: own-shelf, name: Own shelf of ours, group: kitchen, mass: 2 kg}\n"
	v := must[WorkshopView](w, "PUT", "/api/workshop", TextRequest{ID: "a", Client: "page", Base: 0, Text: text})
	if v.Text != text || v.Number != 1 || len(v.Marks) != 0 {
		t.Errorf("%+v", v)
	}
	if p := must[PartList](w, "GET", "/api/parts?q=own+shelf", nil); len(p.Parts) != 1 || !p.Parts[0].Own {
		t.Errorf("parts %+v", p.Parts)
	}
	r := w.change("c", "page", 1, Edit{Kind: "add", Grid: "kit", Part: "own-shelf"})
	if len(r.Refused) != 0 || cellOf(r.View, r.Made[0], "mass") != "2" || len(r.View.Marks) != 0 {
		t.Errorf("%+v %+v", r.Refused, r.View.Marks)
	}
	refused(w, http.StatusConflict, "stale", "PUT", "/api/workshop", TextRequest{ID: "b", Client: "page", Base: 0, Text: text + "country: uk\n"})
	refused(w, http.StatusUnprocessableEntity, "unreadable", "PUT", "/api/workshop", TextRequest{ID: "b", Client: "page", Base: 1, Text: "parts: ["})
}

func TestPropImperialReaderTypesAndReadsPounds(t *testing.T) {
	w := start(t)
	v := must[BuildView](w, "POST", "/api/builds", NewBuild{Kind: "enquiry", Name: "Oystercatcher", Country: "us", Class: "panel-60-high", People: 2})
	if v.Units != "imperial" {
		t.Fatalf("units %q", v.Units)
	}
	for _, c := range v.Kit.Columns {
		if c.ID == "mass" && c.Unit != "lb" {
			t.Errorf("the mass column is in %q", c.Unit)
		}
	}
	r := must[ChangeResult](w, "POST", "/api/builds/oystercatcher/changes", ChangeRequest{ID: "a", Client: "p", Base: 1, Title: "add", Edits: []Edit{
		{Kind: "add", Grid: "kit", Text: "Stove", Cells: map[string]string{"mass": "11", "line": "bulkhead", "far": "3 ft 6 in"}},
		{Kind: "field", Path: "van/plated/total", Text: "9350"},
	}})
	if len(r.Refused) != 0 || cellOf(r.View, "stove", "mass") != "11" || !strings.Contains(cellOf(r.View, "stove", "far"), "42") {
		t.Errorf("%q %q %+v", cellOf(r.View, "stove", "mass"), cellOf(r.View, "stove", "far"), r.Refused)
	}
	text := must[TextView](w, "GET", "/api/builds/oystercatcher/text", nil).Text
	if !strings.Contains(text, "mass: 11 lb") || !strings.Contains(text, "9350 lb") {
		t.Errorf("stored text:\n%s", text)
	}
}

// A finished van is weighed with what is in its tanks: the form asks for each, and the sum reckons with it.
func TestPropWeighingWithItsTanks(t *testing.T) {
	expected := func(fields map[string]string) string {
		w := start(t)
		w.curlew()
		fields["stage"], fields["total"], fields["driver"] = "finished", "2800", "0"
		v := must[RecordView](w, "POST", "/api/builds/curlew/record", WeighingRequest{ID: "w1", Fields: fields})
		if len(v.Residuals) == 0 {
			t.Fatalf("%+v", v)
		}
		return v.Residuals[0].Expected.Text
	}
	dry := expected(map[string]string{"fills/fuel-tank": "50 %"})
	wet := expected(map[string]string{"fills/fuel-tank": "50 %", "fills/fresh-tank": "100"})
	if dry == wet {
		t.Errorf("%s with and without water", dry)
	}
	w := start(t)
	w.curlew()
	var asked []string
	for _, f := range get[RecordView](w, "/api/builds/curlew/record").Form[0].Fields {
		asked = append(asked, f.Path)
	}
	if !slices.Contains(asked, "fills/fuel-tank") || !slices.Contains(asked, "fills/fresh-tank") {
		t.Errorf("asked for %v", asked)
	}
	for _, bad := range []map[string]string{{"total": "2800", "fills/fridge": "50"}, {"total": "2800", "fills/fuel-tank": "much"}, {"total": "2800", "fills/fuel-tank": "140 %"}} {
		refused(w, http.StatusUnprocessableEntity, "bad-weighing", "POST", "/api/builds/curlew/record", WeighingRequest{ID: "w9", Fields: bad})
	}
}
