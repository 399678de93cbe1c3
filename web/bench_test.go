package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http/httptest"
	"strings"
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

// pasted is a list of kit as people copy it from a spreadsheet.
func pasted(rows int) string {
	var b strings.Builder
	b.WriteString("Item\tQty\tkg\tLocation\tFar\tSide\tHeight\tPrice\tSupplier\n")
	for i := range rows {
		fmt.Fprintf(&b, "Thing %d\t%d\t%d,5\tbulkhead\t%d\tleft 100\t300\t%d.50\tMerchant\n", i, 1+i%3, 1+i%9, 100+20*i, 5+i)
	}
	return b.String()
}

// BenchmarkPaste is the server's share of a paste of 100 rows into Curlew, from the text to the verdict: at the end of
// the list, and behind a row.
func BenchmarkPaste(b *testing.B) {
	for _, after := range []string{"", "fridge"} {
		b.Run("after "+after, func(b *testing.B) {
			w := start(b)
			v := w.curlew()
			n := 0
			for b.Loop() {
				n++
				id := fmt.Sprint(n)
				p := must[PasteMatch](w, "POST", "/api/builds/curlew/paste", PasteRequest{Grid: "kit", Text: pasted(100), After: after})
				if len(p.Edits) != 100 || len(p.Bad) > 0 {
					b.Fatal(len(p.Edits), p.Bad)
				}
				r := must[ChangeResult](w, "POST", "/api/builds/curlew/changes", ChangeRequest{ID: id, Client: "page", Base: v.Revision, Edits: p.Edits})
				b.StopTimer()
				if len(r.Made) != 100 || len(r.View.Title) == 0 {
					b.Fatal(len(r.Made))
				}
				v = must[ChangeResult](w, "POST", "/api/builds/curlew/undo", UndoRequest{ID: id + "-undo", Client: "page", Base: r.View.Revision}).View
				b.StartTimer()
			}
		})
	}
}
