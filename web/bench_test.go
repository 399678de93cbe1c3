package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http/httptest"
	"testing"
)

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
