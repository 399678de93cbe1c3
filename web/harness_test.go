package web

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
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
