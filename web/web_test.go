package web

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"berthwright/store"
)

// world is a server over a real store, as the page sees it.
type world struct {
	t    testing.TB
	s    *Server
	http *httptest.Server
}

func curlewText(t testing.TB) string {
	t.Helper()
	b, err := os.ReadFile("../examples/curlew.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func start(t testing.TB) *world {
	t.Helper()
	return startAt(t, t.TempDir())
}

func startAt(t testing.TB, data string) *world {
	t.Helper()
	s, err := New(context.Background(), Config{Data: data, Demos: map[string]string{"curlew": curlewText(t)}})
	if err != nil {
		t.Fatal(err)
	}
	h := httptest.NewServer(s)
	t.Cleanup(func() {
		h.CloseClientConnections()
		h.Close()
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return &world{t, s, h}
}

// ask sends a request and returns status and body.
func (w *world) ask(method, path string, body any, head ...string) (int, []byte, http.Header) {
	w.t.Helper()
	var in io.Reader
	kind := "application/json"
	switch b := body.(type) {
	case nil:
	case string:
		in, kind = strings.NewReader(b), "application/yaml"
	case []byte:
		in = bytes.NewReader(b)
	default:
		text, err := json.Marshal(b)
		if err != nil {
			w.t.Fatal(err)
		}
		in = bytes.NewReader(text)
	}
	r, err := http.NewRequest(method, w.http.URL+path, in)
	if err != nil {
		w.t.Fatal(err)
	}
	if body != nil {
		r.Header.Set("Content-Type", kind)
	}
	for i := 0; i+1 < len(head); i += 2 {
		if head[i] == "Host" {
			r.Host = head[i+1]
			continue
		}
		r.Header.Set(head[i], head[i+1])
	}
	a, err := http.DefaultClient.Do(r)
	if err != nil {
		w.t.Fatal(err)
	}
	defer a.Body.Close()
	out, err := io.ReadAll(a.Body)
	if err != nil {
		w.t.Fatal(err)
	}
	return a.StatusCode, out, a.Header
}

// must asks and reads a good answer.
func must[T any](w *world, method, path string, body any) T {
	w.t.Helper()
	status, text, _ := w.ask(method, path, body)
	var v T
	if status != http.StatusOK {
		w.t.Fatalf("%s %s: %d %s", method, path, status, text)
	}
	if err := json.Unmarshal(text, &v); err != nil {
		w.t.Fatalf("%s %s: %v in %s", method, path, err, text)
	}
	return v
}

// refused asks and reads an answer that says no.
func refused(w *world, status int, code, method, path string, body any, head ...string) Problem {
	w.t.Helper()
	got, text, _ := w.ask(method, path, body, head...)
	var p Problem
	if err := json.Unmarshal(text, &p); err != nil || got != status || p.Code != code || p.Text == "" {
		w.t.Errorf("%s %s: %d %s, want %d %s", method, path, got, cut(string(text)), status, code)
	}
	return p
}

func (w *world) curlew() BuildView {
	w.t.Helper()
	return must[BuildView](w, "POST", "/api/builds", NewBuild{Kind: "demo", From: "curlew"})
}

func cellEdit(row, column, text string) Edit {
	return Edit{Kind: "cell", Grid: "kit", Row: row, Column: column, Text: text}
}

func (w *world) change(id, client string, base int, edits ...Edit) ChangeResult {
	w.t.Helper()
	return must[ChangeResult](w, "POST", "/api/builds/curlew/changes", ChangeRequest{ID: id, Client: client, Base: base, Title: "change " + id, Edits: edits})
}

func cellOf(v BuildView, row, column string) string {
	for _, r := range v.Kit.Rows {
		if r.ID == row {
			return r.Cells[column].Text
		}
	}
	return "no row " + row
}

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

func TestPropHostileRequestsAreRefused(t *testing.T) {
	w := start(t)
	v := w.curlew()
	for _, host := range []string{"evil.example", "evil.example:80", "127.0.0.1.evil.example", "", "localhost.evil.example:8340", "[::2]:80"} {
		status, text, _ := w.ask("GET", "/api/builds", nil, "Host", host)
		if host == "" {
			continue // net/http fills in the address
		}
		if status != http.StatusMisdirectedRequest {
			t.Errorf("host %q: %d %s", host, status, cut(string(text)))
		}
	}
	for _, host := range []string{"localhost:1", "127.0.0.1", "[::1]:9", "LOCALHOST"} {
		if status, _, _ := w.ask("GET", "/api/health", nil, "Host", host); status != http.StatusOK {
			t.Errorf("host %q: %d", host, status)
		}
	}
	refused(w, http.StatusForbidden, "cross-origin", "POST", "/api/builds", NewBuild{Kind: "empty", Name: "x"}, "Origin", "http://evil.example")
	refused(w, http.StatusForbidden, "cross-origin", "DELETE", "/api/builds/curlew", nil, "Sec-Fetch-Site", "cross-site")
	refused(w, http.StatusForbidden, "cross-origin", "PUT", "/api/builds/curlew/text", TextRequest{}, "Origin", "null")
	if status, text, _ := w.ask("POST", "/api/builds", NewBuild{Kind: "empty", Name: "mine"}, "Origin", w.http.URL, "Sec-Fetch-Site", "same-origin"); status != 200 {
		t.Errorf("the page's own request: %d %s", status, cut(string(text)))
	}
	refused(w, http.StatusUnsupportedMediaType, "not-json", "POST", "/api/builds", `{"kind":"empty"}`) // a plain form needs no preflight
	refused(w, http.StatusBadRequest, "bad-json", "POST", "/api/builds", []byte(`{"kind":`))
	refused(w, http.StatusBadRequest, "bad-json", "POST", "/api/builds", []byte(`{"kind":"empty","wings":2}`))
	refused(w, http.StatusBadRequest, "bad-json", "POST", "/api/builds", []byte(`{"kind":"empty"} {}`))
	refused(w, http.StatusRequestEntityTooLarge, "too-large", "POST", "/api/builds/curlew/changes", ChangeRequest{ID: "x", Client: "y", Base: 1, Title: "t", Edits: []Edit{cellEdit("fridge", "remark", strings.Repeat("x", mostBody))}})
	refused(w, http.StatusRequestEntityTooLarge, "too-large", "POST", "/api/import", strings.Repeat("# long\n", 400_000))
	refused(w, http.StatusRequestEntityTooLarge, "too-large", "PUT", "/api/builds/curlew/text", TextRequest{ID: "x", Client: "y", Base: 1, Text: strings.Repeat("# long\n", 320_000)})
	refused(w, http.StatusUnprocessableEntity, "unreadable", "POST", "/api/import", "items: [")
	refused(w, http.StatusUnprocessableEntity, "not-utf8", "POST", "/api/import", "berthwright: 1 # \xff")
	refused(w, http.StatusUnprocessableEntity, "bad-change", "POST", "/api/builds/curlew/changes", ChangeRequest{Client: "y", Base: 1})
	refused(w, http.StatusUnprocessableEntity, "bad-change", "POST", "/api/builds/curlew/changes", ChangeRequest{ID: "x", Base: 1})
	refused(w, http.StatusUnprocessableEntity, "bad-base", "POST", "/api/builds/curlew/changes", ChangeRequest{ID: "x", Client: "y", Base: 99})
	refused(w, http.StatusUnprocessableEntity, "out-of-range", "POST", "/api/builds/curlew/changes", ChangeRequest{ID: "x", Client: "y", Base: 1, Edits: []Edit{{Kind: "move", Row: "fridge", DX: 1 << 60}}})
	refused(w, http.StatusUnprocessableEntity, "cannot-apply", "POST", "/api/builds/curlew/changes", ChangeRequest{ID: "x", Client: "y", Base: 1, Edits: []Edit{{Kind: "ops", Ops: []OpView{{Op: "set", Path: "items/nobody/mass", Value: "1 kg"}}}}})
	refused(w, http.StatusNotFound, "no-build", "GET", "/api/builds/nobody", nil)
	refused(w, http.StatusNotFound, "no-build", "POST", "/api/builds/nobody/changes", ChangeRequest{ID: "x", Client: "y", Base: 1})
	refused(w, http.StatusNotFound, "no-address", "GET", "/api/wings", nil)
	refused(w, http.StatusNotFound, "no-view", "GET", "/api/builds/curlew/scene?view=inside", nil)
	refused(w, http.StatusNotFound, "no-slip", "GET", "/api/builds/curlew/slip?key=none", nil)
	refused(w, http.StatusNotFound, "no-paper", "GET", "/api/builds/curlew/papers/none.pdf", nil)
	refused(w, http.StatusNotFound, "no-revision", "GET", "/api/builds/curlew/diff?from=77", nil)
	if now := must[BuildView](w, "GET", "/api/builds/curlew", nil); now.Revision != v.Revision {
		t.Errorf("a refused request made revision %d", now.Revision)
	}
	_, _, head := w.ask("GET", "/", nil)
	for _, h := range []string{"Content-Security-Policy", "X-Content-Type-Options", "Referrer-Policy", "Cross-Origin-Opener-Policy", "X-Frame-Options"} {
		if head.Get(h) == "" {
			t.Errorf("no %s", h)
		}
	}
	if csp := head.Get("Content-Security-Policy"); strings.Contains(csp, "unsafe") || !strings.Contains(csp, "default-src 'none'") {
		t.Errorf("policy %q", csp)
	}
	if status, _, _ := w.ask("GET", "/../../etc/passwd", nil); status == 200 {
		if _, text, _ := w.ask("GET", "/../../etc/passwd", nil); bytes.Contains(text, []byte("root:")) {
			t.Error("a file outside the page was served")
		}
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

func TestPropEventsTellOfChanges(t *testing.T) {
	w := start(t)
	w.curlew()
	a, err := http.Get(w.http.URL + "/api/builds/curlew/events")
	if err != nil {
		t.Fatal(err)
	}
	defer a.Body.Close()
	if a.Header.Get("Content-Type") != "text/event-stream" || a.Header.Get("Content-Encoding") != "" {
		t.Errorf("%v", a.Header)
	}
	events := make(chan Event, 10)
	go func() {
		defer close(events)
		lines := bufio.NewScanner(a.Body)
		for lines.Scan() {
			if text, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				var e Event
				if json.Unmarshal([]byte(text), &e) == nil {
					events <- e
				}
			}
		}
	}()
	next := func(want Event) {
		t.Helper()
		select {
		case e := <-events:
			if e != want {
				t.Errorf("event %+v, want %+v", e, want)
			}
		case <-time.After(5 * time.Second):
			t.Fatalf("no event, want %+v", want)
		}
	}
	next(Event{Kind: "revision", Build: "curlew", Revision: 1})
	w.change("c", "page", 1, cellEdit("hob", "mass", "9"))
	next(Event{Kind: "revision", Build: "curlew", Revision: 2, Client: "page"})
	must[RecordView](w, "POST", "/api/builds/curlew/record", WeighingRequest{ID: "w", Fields: map[string]string{"total": "2700"}})
	next(Event{Kind: "record", Build: "curlew", Revision: 2})
	must[BuildRow](w, "DELETE", "/api/builds/curlew", nil)
	next(Event{Kind: "deleted", Build: "curlew", Revision: 2})
	w.s.events.close()
	if _, open := <-events; open {
		t.Error("the stream does not end with the server")
	}
	refused(w, http.StatusGone, "deleted", "GET", "/api/builds/curlew/events", nil)
}

func TestPropFaultsOfTheProgramAreNotShown(t *testing.T) {
	for _, c := range []struct {
		err    error
		status int
	}{{fmt.Errorf("SELECT: %w", io.ErrUnexpectedEOF), 500}, {fmt.Errorf("x: %w", store.ErrFull), 507}, {store.ErrBusy, 503}, {context.Canceled, 503}} {
		p := said(c.err)
		if p.status != c.status || strings.Contains(p.Text, "SELECT") || p.Text == "" {
			t.Errorf("%v: %+v", c.err, p)
		}
	}
}

func TestPropServeStartsTellsItsAddressAndStops(t *testing.T) {
	out, in := io.Pipe()
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- Serve(ctx, Config{Addr: "127.0.0.1:0", Data: t.TempDir(), Out: in}) }()
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil || !strings.HasPrefix(line, "berthwright: http://127.0.0.1:") || !strings.HasSuffix(line, "/\n") {
		t.Fatalf("%q %v", line, err)
	}
	a, err := http.Get(strings.TrimSpace(strings.TrimPrefix(line, "berthwright: ")) + "api/health")
	if err != nil || a.StatusCode != 200 {
		t.Fatalf("%v %v", a, err)
	}
	a.Body.Close()
	stop()
	select {
	case err := <-done:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("it does not stop")
	}
}

func BenchmarkPreview(b *testing.B) {
	w := start(b)
	w.curlew()
	var edits []Edit
	for i := range 100 { // to 200 items
		edits = append(edits, Edit{Kind: "add", Grid: "kit", Text: fmt.Sprint("Thing ", i), Cells: map[string]string{"mass": "1.5", "line": "bulkhead", "far": fmt.Sprint(100 + 20*i), "side": "left 100", "level": "300"}})
	}
	w.change("fill", "page", 1, edits...)
	seq := 0
	for b.Loop() {
		seq++
		p := must[Preview](w, "POST", "/api/builds/curlew/preview", ChangeRequest{Client: "page", Base: 2, Seq: seq, View: "plan", State: "travel", Edits: []Edit{{Kind: "move", Row: "battery", DX: int64(seq%1000) * 1000}}})
		if p.Seq != seq {
			b.Fatal(p.Seq)
		}
	}
}

func BenchmarkChange(b *testing.B) {
	w := start(b)
	w.curlew()
	n := 1
	for b.Loop() {
		r := w.change(fmt.Sprint(n), "page", n, cellEdit("fridge", "mass", fmt.Sprint(20+n%10)))
		n = r.View.Revision
	}
}

// BenchmarkPreviewAlone is the server's share of a preview: no network, no JSON on the page's side.
func BenchmarkPreviewAlone(b *testing.B) {
	w := start(b)
	w.curlew()
	var edits []Edit
	for i := range 100 {
		edits = append(edits, Edit{Kind: "add", Grid: "kit", Text: fmt.Sprint("Thing ", i), Cells: map[string]string{"mass": "1.5", "line": "bulkhead", "far": fmt.Sprint(100 + 20*i), "side": "left 100", "level": "300"}})
	}
	w.change("fill", "page", 1, edits...)
	seq := 0
	for b.Loop() {
		seq++
		body, err := json.Marshal(ChangeRequest{Client: "page", Base: 2, Seq: seq, View: "plan", State: "travel", Edits: []Edit{{Kind: "move", Row: "battery", DX: int64(seq%1000) * 1000}}})
		if err != nil {
			b.Fatal(err)
		}
		r := httptest.NewRequest("POST", "/api/builds/curlew/preview", bytes.NewReader(body))
		r.Host = "localhost"
		r.Header.Set("Content-Type", "application/json")
		a := httptest.NewRecorder()
		w.s.ServeHTTP(a, r)
		if a.Code != 200 {
			b.Fatal(a.Code, a.Body.String())
		}
	}
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
