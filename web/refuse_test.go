package web

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"berthwright/store"
)

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
	refused(w, http.StatusForbidden, "cross-origin", "GET", "/api/builds/curlew/papers/placard.pdf", nil, "Sec-Fetch-Site", "cross-site")
	refused(w, http.StatusForbidden, "cross-origin", "GET", "/api/builds", nil, "Sec-Fetch-Site", "same-site") // another port of this machine
	refused(w, http.StatusUnprocessableEntity, "too-long", "GET", "/api/builds/curlew/papers/change.pdf?title="+strings.Repeat("x", 301), nil)
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

// listen opens the events of curlew; next wants one to come, and it is this one.
func (w *world) listen(t *testing.T) (events chan Event, next func(Event)) {
	t.Helper()
	a, err := http.Get(w.http.URL + "/api/builds/curlew/events")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { a.Body.Close() })
	if a.Header.Get("Content-Type") != "text/event-stream" || a.Header.Get("Content-Encoding") != "" {
		t.Errorf("%v", a.Header)
	}
	events = make(chan Event, 10)
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
	next = func(want Event) {
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
	return events, next
}

func TestPropEventsTellOfChanges(t *testing.T) {
	w := start(t)
	w.curlew()
	events, next := w.listen(t)
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

// TestPropEventsTellOfOtherProcesses: two servers on one store; the page of one is told what the other did.
func TestPropEventsTellOfOtherProcesses(t *testing.T) {
	data := t.TempDir()
	w, other := startAt(t, data), startAt(t, data)
	w.curlew()
	_, next := w.listen(t)
	next(Event{Kind: "revision", Build: "curlew", Revision: 1})
	other.change("c", "page", 1, cellEdit("hob", "mass", "9"))
	next(Event{Kind: "revision", Build: "curlew", Revision: 2})
	must[RecordView](other, "POST", "/api/builds/curlew/record", WeighingRequest{ID: "w", Fields: map[string]string{"total": "2700"}})
	next(Event{Kind: "record", Build: "curlew", Revision: 2})
	w.change("d", "page", 2, cellEdit("hob", "mass", "8"))
	next(Event{Kind: "revision", Build: "curlew", Revision: 3, Client: "page"})
	must[BuildRow](other, "DELETE", "/api/builds/curlew", nil)
	next(Event{Kind: "deleted", Build: "curlew", Revision: 3})
}

func TestPropRefusalsAreInPlainWords(t *testing.T) {
	w := start(t)
	w.curlew()
	for _, c := range []struct{ body, says string }{
		{`{"kind":"empty"`, "it breaks off"}, {"", "it is empty"}, {"[]", "it is no object but one array"}, {`{"kind":"empty","name":5}`, `"name" cannot be a number`}, {`{"wings":1}`, `unknown field "wings"`},
	} {
		p := refused(w, 400, "bad-json", "POST", "/api/builds", []byte(c.body))
		if !strings.Contains(p.Text, c.says) || strings.Contains(p.Text, "struct") {
			t.Errorf("%q: %q", c.body, p.Text)
		}
	}
	refused(w, 405, "no-method", "PUT", "/api/builds", []byte("{}"))
	refused(w, 405, "no-method", "DELETE", "/api/builds/curlew/scene", nil)
	refused(w, 404, "no-address", "GET", "/api/wings", nil)
	refused(w, 422, "unknown-word", "GET", "/api/builds/curlew?state=flying", nil)
	refused(w, 422, "unknown-word", "POST", "/api/builds/curlew/changes", ChangeRequest{ID: "x", Client: "page", Base: 1, State: "flying"})
	r := w.change("y", "page", 1, Edit{Kind: "ops", Ops: []OpView{{Op: "set", Path: "../../etc", Value: "1"}}})
	if r.View.Revision != 1 || len(r.Refused) != 1 || r.Refused[0].Code != "no-field" {
		t.Errorf("revision %d, %+v", r.View.Revision, r.Refused)
	}
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
