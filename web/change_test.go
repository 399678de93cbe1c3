package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http"
	"reflect"
	"strings"
	"sync"
	"testing"
)

func TestPropChangeIsKeptShownAndTakenBack(t *testing.T) {
	w := start(t)
	v := w.curlew()
	before := must[TextView](w, "GET", "/api/builds/curlew/text", nil).Text
	r := w.change("c1", "page", v.Revision, cellEdit("fridge", "mass", "25,5"), cellEdit("fridge", "remark", "weighed, with shelf"))
	if r.View.Revision != 2 || cellOf(r.View, "fridge", "mass") != "25.5" || r.View.CanUndo != "change c1" {
		t.Errorf("revision %d mass %q undo %q", r.View.Revision, cellOf(r.View, "fridge", "mass"), r.View.CanUndo)
	}
	if reflect.DeepEqual(r.View.Title, v.Title) && reflect.DeepEqual(r.View.Axles, v.Axles) {
		t.Error("a heavier fridge changes no figure")
	}
	if same := w.change("c1-again", "page", 2, cellEdit("fridge", "mass", "25,5")); same.View.Revision != 2 {
		t.Errorf("typing what stands there makes revision %d", same.View.Revision)
	}
	u := must[ChangeResult](w, "POST", "/api/builds/curlew/undo", UndoRequest{ID: "u1", Client: "page", Base: 2})
	if got := must[TextView](w, "GET", "/api/builds/curlew/text", nil).Text; got != before || u.View.Revision != 3 || u.View.CanUndo != "" || u.View.CanRedo != "change c1" {
		t.Errorf("undo: revision %d, undo %q redo %q, same text %v", u.View.Revision, u.View.CanUndo, u.View.CanRedo, got == before)
	}
	refused(w, http.StatusConflict, "nothing-to-undo", "POST", "/api/builds/curlew/undo", UndoRequest{ID: "u2", Client: "page", Base: 3})
	refused(w, http.StatusConflict, "nothing-to-undo", "POST", "/api/builds/curlew/undo", UndoRequest{ID: "u3", Client: "tablet", Base: 3})
	re := must[ChangeResult](w, "POST", "/api/builds/curlew/undo", UndoRequest{ID: "r1", Client: "page", Base: 3, Redo: true})
	if cellOf(re.View, "fridge", "mass") != "25.5" || re.View.CanUndo != "change c1" || re.View.CanRedo != "" {
		t.Errorf("redo: %q undo %q", cellOf(re.View, "fridge", "mass"), re.View.CanUndo)
	}
	h := must[History](w, "GET", "/api/builds/curlew/history", nil)
	if len(h.Rows) != 4 || h.Rows[2].Title != "change c1" || h.Rows[0].Title != "redo: change c1" {
		t.Errorf("history %+v", h)
	}
	d := must[DiffView](w, "GET", "/api/builds/curlew/diff?from=1&to=2", nil)
	if len(d.Entries) == 0 || !strings.Contains(fmt.Sprint(d.Entries), "fridge") {
		t.Errorf("difference %+v", d.Entries)
	}
}

func TestPropRepeatedChangeIsAppliedOnce(t *testing.T) {
	w := start(t)
	v := w.curlew()
	add := Edit{Kind: "add", Grid: "kit", Text: "Heater", Cells: map[string]string{"mass": "warm"}}
	a := w.change("c1", "page", v.Revision, add)
	b := w.change("c1", "page", v.Revision, add)
	if a.View.Revision != 2 || b.View.Revision != 2 || len(b.Made) != 1 || b.Made[0] != a.Made[0] || len(b.Refused) != 1 || !reflect.DeepEqual(a.Refused, b.Refused) {
		t.Errorf("%d %v %v / %d %v %v", a.View.Revision, a.Made, a.Refused, b.View.Revision, b.Made, b.Refused)
	}
	c := w.change("c2", "page", 2, Edit{Kind: "remove", Grid: "kit", Row: a.Made[0]})
	again := w.change("c3", "page", c.View.Revision, Edit{Kind: "add", Grid: "kit", Text: "Heater"})
	if again.Made[0] == a.Made[0] {
		t.Errorf("the id %q is used again", a.Made[0])
	}
}

func TestPropTwoEditors(t *testing.T) {
	w := start(t)
	v := w.curlew()
	w.change("a1", "office", v.Revision, cellEdit("fridge", "mass", "30"))
	// Another place of the same item, made on the older revision, is carried over.
	r := w.change("b1", "tablet", v.Revision, cellEdit("fridge", "remark", "deep one"))
	if cellOf(r.View, "fridge", "mass") != "30" || cellOf(r.View, "fridge", "remark") != "deep one" {
		t.Errorf("%q %q", cellOf(r.View, "fridge", "mass"), cellOf(r.View, "fridge", "remark"))
	}
	// The same place is answered with both values, and nothing is applied.
	status, text, _ := w.ask("POST", "/api/builds/curlew/changes", ChangeRequest{ID: "b2", Client: "tablet", Base: v.Revision, Title: "x",
		Edits: []Edit{cellEdit("fridge", "mass", "40"), cellEdit("hob", "remark", "not applied")}})
	var c Conflict
	if err := json.Unmarshal(text, &c); err != nil || status != http.StatusConflict || len(c.Paths) != 1 || c.Paths[0].Yours != "40 kg" || c.Paths[0].Theirs != "30 kg" || c.Revision != 3 {
		t.Fatalf("%d %s", status, text)
	}
	if !strings.Contains(c.Paths[0].Name, "fridge") {
		t.Errorf("name %q", c.Paths[0].Name)
	}
	now := must[BuildView](w, "GET", "/api/builds/curlew", nil)
	if cellOf(now, "hob", "remark") != "" || now.Revision != 3 {
		t.Error("half of a change was applied")
	}
	// Undo meets what the other did since.
	w.change("b3", "tablet", 3, cellEdit("fridge", "mass", "31"))
	if status, text, _ := w.ask("POST", "/api/builds/curlew/undo", UndoRequest{ID: "u", Client: "office", Base: 4}); status != http.StatusConflict || !bytes.Contains(text, []byte("31 kg")) {
		t.Errorf("undo over another's change: %d %s", status, cut(string(text)))
	}
	// Elsewhere, it takes back one's own and leaves theirs.
	w.change("c1", "bay", 4, cellEdit("hob", "remark", "first"))
	w.change("c2", "tablet", 5, cellEdit("sink", "remark", "second"))
	u := must[ChangeResult](w, "POST", "/api/builds/curlew/undo", UndoRequest{ID: "u-bay", Client: "bay", Base: 6, State: "night"})
	if cellOf(u.View, "hob", "remark") != "" || cellOf(u.View, "sink", "remark") != "second" || u.View.CanRedo != "change c1" || u.View.State != "night" {
		t.Errorf("undo over another's change elsewhere: %q %q", cellOf(u.View, "hob", "remark"), cellOf(u.View, "sink", "remark"))
	}
	u = must[ChangeResult](w, "POST", "/api/builds/curlew/undo", UndoRequest{ID: "r-bay", Client: "bay", Base: 7, Redo: true})
	if cellOf(u.View, "hob", "remark") != "first" || u.View.Revision != 8 {
		t.Errorf("redo: %q, revision %d", cellOf(u.View, "hob", "remark"), u.View.Revision)
	}
	// Many at once: each is applied once and none is lost.
	var wg sync.WaitGroup
	for k := range 8 {
		wg.Go(func() {
			w.change(fmt.Sprint("many", k), fmt.Sprint("client", k), 8, Edit{Kind: "add", Grid: "kit", Text: fmt.Sprint("Thing ", k)})
		})
	}
	wg.Wait()
	now = must[BuildView](w, "GET", "/api/builds/curlew", nil)
	if now.Revision != 16 {
		t.Errorf("revision %d after eight changes on 8", now.Revision)
	}
}

func TestPropAnotherProcessIsSeen(t *testing.T) {
	dir := t.TempDir()
	a, b := startAt(t, dir), startAt(t, dir)
	v := a.curlew()
	b.change("b1", "tablet", v.Revision, cellEdit("fridge", "mass", "33"))
	if got := cellOf(must[BuildView](a, "GET", "/api/builds/curlew", nil), "fridge", "mass"); got != "33" {
		t.Errorf("the other process shows %q", got)
	}
	r := a.change("a1", "page", v.Revision, cellEdit("hob", "remark", "new"))
	if r.View.Revision != 3 {
		t.Errorf("revision %d", r.View.Revision)
	}
}

func TestPropTextDraftAndConflict(t *testing.T) {
	w := start(t)
	w.curlew()
	text := must[TextView](w, "GET", "/api/builds/curlew/text", nil)
	broken := strings.Replace(text.Text, "items:", "items: [", 1)
	d := must[TextView](w, "PUT", "/api/builds/curlew/text", TextRequest{ID: "t1", Client: "page", Base: 1, Text: broken})
	if !d.Draft || len(d.Marks) == 0 || d.Revision != 1 || d.Text != broken || d.Marks[0].Line == 0 {
		t.Errorf("draft %v marks %v revision %d", d.Draft, d.Marks, d.Revision)
	}
	if v := must[BuildView](w, "GET", "/api/builds/curlew", nil); v.Revision != 1 || len(v.Kit.Rows) < 100 {
		t.Error("the good revision is gone")
	}
	if l := must[BuildList](w, "GET", "/api/builds", nil); !l.Builds[0].Draft {
		t.Error("the list does not tell of the draft")
	}
	if d = must[TextView](w, "DELETE", "/api/builds/curlew/text", nil); d.Draft || d.Text != text.Text {
		t.Error("the draft is not dropped")
	}
	// A wrong value is kept, marked with its line, and taken back exactly.
	wrong := strings.Replace(text.Text, "mass: 8.9 kg ± 5 %", "mass: 8.9 Ah   # hm", 1)
	d = must[TextView](w, "PUT", "/api/builds/curlew/text", TextRequest{ID: "t2", Client: "page", Base: 1, Text: wrong})
	if d.Draft || d.Revision != 2 || d.Text != wrong || len(d.Marks) != 1 || d.Marks[0].Found != "Ah" || d.Marks[0].Line == 0 {
		t.Errorf("%+v", d.Marks)
	}
	again := must[TextView](w, "PUT", "/api/builds/curlew/text", TextRequest{ID: "t2", Client: "page", Base: 1, Text: wrong})
	if again.Revision != 2 {
		t.Errorf("a repeated text made revision %d", again.Revision)
	}
	w.change("c", "tablet", 2, cellEdit("hob", "mass", "9"))
	// Typed on revision 1: elsewhere it is carried over, in the same place it is a conflict.
	other := strings.Replace(text.Text, "name: Curlew\n", "name: Curlew the second\n", 1)
	d = must[TextView](w, "PUT", "/api/builds/curlew/text", TextRequest{ID: "t3", Client: "page", Base: 2, Text: strings.Replace(wrong, "name: Curlew\n", "name: Curlew the second\n", 1)})
	if !strings.Contains(d.Text, "Curlew the second") || !strings.Contains(d.Text, "8.9 Ah   # hm") || d.Revision != 4 {
		t.Errorf("revision %d", d.Revision)
	}
	_ = other
	hob := strings.Replace(wrong, "id: hob\n", "id: hob\n    remark: mine\n", 1)
	hob = strings.Replace(hob, hobMass(t, hob), "mass: 77 kg", 1)
	if status, text, _ := w.ask("PUT", "/api/builds/curlew/text", TextRequest{ID: "t4", Client: "page", Base: 2, Text: hob}); status != http.StatusConflict || !bytes.Contains(text, []byte(`"yours":"77 kg"`)) {
		t.Errorf("%d %s", status, cut(string(text)))
	}
	u := must[ChangeResult](w, "POST", "/api/builds/curlew/undo", UndoRequest{ID: "u1", Client: "page", Base: 4})
	if u.View.Name != "Curlew" {
		t.Errorf("after undo the name is %q", u.View.Name)
	}
}

func hobMass(t *testing.T, text string) string {
	t.Helper()
	_, rest, ok := strings.Cut(text, "id: hob\n")
	if !ok {
		t.Fatal("no hob")
	}
	_, rest, _ = strings.Cut(rest, "mass: ")
	line, _, _ := strings.Cut(rest, "\n")
	return "mass: " + line
}

func TestPropPreviewTellsWhatAChangeWouldDo(t *testing.T) {
	w := start(t)
	v := w.curlew()
	move := Edit{Kind: "move", Row: "battery", DX: 1_200_000}
	p := must[Preview](w, "POST", "/api/builds/curlew/preview", ChangeRequest{Client: "page", Base: 1, Seq: 5, View: "plan", State: "travel", Edits: []Edit{move}})
	if p.Seq != 5 || p.Base != 1 || len(p.Changed) == 0 || len(p.Findings) == 0 {
		t.Fatalf("%+v", p)
	}
	if reflect.DeepEqual(p.Axles, v.Axles) {
		t.Error("the axles do not follow")
	}
	full := must[Scene](w, "GET", "/api/builds/curlew/scene?view=plan", nil)
	if len(p.Changed) > len(full.Prims)/2 {
		t.Errorf("%d of %d primitives changed", len(p.Changed), len(full.Prims))
	}
	refused(w, http.StatusConflict, "superseded", "POST", "/api/builds/curlew/preview", ChangeRequest{Client: "page", Base: 1, Seq: 4, Edits: []Edit{move}})
	if now := must[BuildView](w, "GET", "/api/builds/curlew", nil); now.Revision != 1 {
		t.Error("a preview was kept")
	}
	r := w.change("m", "page", 1, move)
	if !reflect.DeepEqual(r.View.Axles, p.Axles) || !reflect.DeepEqual(r.View.Title, p.Title) {
		t.Errorf("the change shows other figures than its preview:\n%+v\n%+v", r.View.Axles, p.Axles)
	}
}

func TestPropPasteIsUnderstoodThenDone(t *testing.T) {
	w := start(t)
	w.curlew()
	table := "Item;Weight (lb);Zone;Qty\n\"Box; \"\"big\"\"\";4,5;rear;2\nStove;heavy;mid;1\n"
	m := must[PasteMatch](w, "POST", "/api/builds/curlew/paste", PasteRequest{Grid: "kit", Text: table})
	if !m.Header || strings.Join(m.Columns, " ") != "name mass line count" || m.Rows != 2 || len(m.Bad) != 1 || m.Bad[0].Found != "heavy" {
		t.Fatalf("%+v", m)
	}
	r := w.change("p", "page", 1, m.Edits...)
	if len(r.Made) != 2 || cellOf(r.View, r.Made[0], "name") != `Box; "big"` || cellOf(r.View, r.Made[0], "count") != "2" || cellOf(r.View, r.Made[1], "mass") != "heavy" || len(r.Refused) != 1 {
		t.Errorf("%v %q %q %+v", r.Made, cellOf(r.View, r.Made[0], "name"), cellOf(r.View, r.Made[1], "mass"), r.Refused)
	}
	for _, row := range r.View.Kit.Rows {
		if row.ID == r.Made[1] && (row.Cells["mass"].Mark == "" || len(row.Marks) == 0) {
			t.Error("the bad cell is not marked")
		}
	}
	refused(w, http.StatusUnprocessableEntity, "bad-table", "POST", "/api/builds/curlew/paste", PasteRequest{Grid: "tanks", Text: "a"})
	refused(w, http.StatusUnprocessableEntity, "bad-table", "POST", "/api/builds/curlew/paste", PasteRequest{Grid: "kit", Text: " \n"})
}
