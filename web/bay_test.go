package web

import (
	"bytes"
	"image"
	"image/png"
	"net/http"
	"slices"
	"strings"
	"testing"
)

func get[T any](w *world, path string) T {
	w.t.Helper()
	return must[T](w, "GET", path, nil)
}

func jobOf(t testing.TB, v BayView, item string) BayJob {
	t.Helper()
	i := slices.IndexFunc(v.Jobs, func(j BayJob) bool { return j.Item == item })
	if i < 0 {
		t.Fatalf("no job for %s", item)
	}
	return v.Jobs[i]
}

// A line from the bay that is sent again after a network gap is kept once; a weighing reaches the sum of the build.
func TestPropBayEntriesAreKeptOnce(t *testing.T) {
	w := start(t)
	w.curlew()
	path := "/api/builds/curlew/bay"
	before := get[BayView](w, path)
	if len(before.Jobs) < 20 {
		t.Fatalf("%d jobs", len(before.Jobs))
	}
	for _, j := range before.Jobs {
		if len(j.Tapes) > 6 {
			t.Errorf("%s has %d tapes", j.Item, len(j.Tapes))
		}
	}
	item := before.Jobs[3].Item
	for range 3 {
		status, body, _ := w.ask("POST", path, BayEntry{ID: "press-1", Kind: "done", Item: item, By: "JH", At: "2026-11-03T09:10:00Z"})
		if status != http.StatusOK {
			t.Fatalf("%d %s", status, body)
		}
	}
	after := get[BayView](w, path)
	if d := jobOf(t, after, item).Done; d == nil || d.By != "JH" || d.At != "2026-11-03T09:10:00Z" {
		t.Errorf("done is %+v", d)
	}
	if n := len(after.Kept) - len(before.Kept); n != 1 {
		t.Errorf("%d entries were kept of one", n)
	}
	w.ask("POST", path, BayEntry{ID: "press-2", Kind: "not-done", Item: item})
	for range 2 {
		if status, body, _ := w.ask("POST", path, BayEntry{ID: "scale-1", Kind: "weighed", Item: item, Text: "12.4", By: "JH"}); status != http.StatusOK {
			t.Fatalf("%d %s", status, body)
		}
	}
	j := jobOf(t, get[BayView](w, path), item)
	if j.Done != nil || j.Weight == nil || !strings.Contains(j.Weight.Text, "12.4") {
		t.Errorf("job is %+v, weighed %+v", j, j.Weight)
	}
	if r := get[RecordView](w, "/api/builds/curlew/record"); len(r.Weighings) != 1 {
		t.Errorf("%d weighings", len(r.Weighings))
	}
}

func TestPropBayRefusesWhatIsNothing(t *testing.T) {
	w := start(t)
	w.curlew()
	for _, e := range []BayEntry{
		{ID: "a", Kind: "done", Item: "no-such-item"}, {ID: "a", Kind: "done"}, {ID: "a", Kind: "burnt", Item: "fridge"},
		{ID: "", Kind: "done", Item: "fridge"}, {ID: "a", Kind: "weighed", Item: "fridge", Text: "heavy"}, {ID: "a", Kind: "done", Item: "fridge/at"},
	} {
		if status, body, _ := w.ask("POST", "/api/builds/curlew/bay", e); status != http.StatusUnprocessableEntity && status != http.StatusBadRequest {
			t.Errorf("%+v: %d %s", e, status, body)
		}
	}
	if v := get[BayView](w, "/api/builds/curlew/bay"); len(v.Kept) != 0 {
		t.Errorf("kept %v", v.Kept)
	}
}

func TestPropPhotosComeBackToTheByte(t *testing.T) {
	w := start(t)
	w.curlew()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 30))); err != nil {
		t.Fatal(err)
	}
	at := "/api/builds/curlew/photos"
	for range 2 {
		if status, body := w.bytes("POST", at+"?entry=shot-1&item=fridge&by=JH", "image/png", b.Bytes()); status != http.StatusOK {
			t.Fatalf("%d %s", status, body)
		}
	}
	if p := jobOf(t, get[BayView](w, "/api/builds/curlew/bay"), "fridge").Photos; len(p) != 1 {
		t.Fatalf("%d photos", len(p))
	}
	status, body, head := w.ask("GET", at+"/shot-1", nil)
	if status != http.StatusOK || !bytes.Equal(body, b.Bytes()) || head.Get("Content-Type") != "image/png" {
		t.Errorf("%d, %d bytes, %s", status, len(body), head.Get("Content-Type"))
	}
	if status, _ := w.bytes("POST", at+"?entry=shot-2&item=fridge", "image/png", []byte("<html>no picture</html>")); status != http.StatusUnsupportedMediaType {
		t.Errorf("a text was taken as a photo: %d", status)
	}
	if status, _ := w.bytes("POST", at+"?entry=shot-3&item=fridge", "image/png", append(b.Bytes(), make([]byte, mostPhoto)...)); status != http.StatusRequestEntityTooLarge {
		t.Errorf("more than 5 MB were taken: %d", status)
	}
}

// bytes sends a body as it is.
func (w *world) bytes(method, path, kind string, body []byte) (int, []byte) {
	w.t.Helper()
	r, err := http.NewRequest(method, w.http.URL+path, bytes.NewReader(body))
	if err != nil {
		w.t.Fatal(err)
	}
	r.Header.Set("Content-Type", kind)
	a, err := http.DefaultClient.Do(r)
	if err != nil {
		w.t.Fatal(err)
	}
	defer a.Body.Close()
	var out bytes.Buffer
	if _, err := out.ReadFrom(a.Body); err != nil {
		w.t.Fatal(err)
	}
	return a.StatusCode, out.Bytes()
}

// Every field of every entry can be reached by a form, and typing into it sets it.
func TestPropFormsHoldEveryField(t *testing.T) {
	w := start(t)
	w.curlew()
	v := get[FormView](w, "/api/builds/curlew/form?path=items/fridge")
	have := map[string]bool{}
	for _, s := range v.Sections {
		for _, f := range s.Fields {
			if have[f.Path] {
				t.Errorf("%s stands twice", f.Path)
			}
			if f.Label == "" || f.Help == "" {
				t.Errorf("%s has no words", f.Path)
			}
			have[f.Path] = true
		}
	}
	for _, key := range []string{"name", "mass", "at/x", "size/z", "place/bulkhead", "states/night/at/y", "berth/length", "opening/radius", "fixing/into", "use/height", "recess/deep", "scribe", "price", "tank/volume", "seat/r-point/x"} {
		if !have["items/fridge/"+key] {
			t.Errorf("no field %s", key)
		}
	}
	lists := map[string]bool{}
	for _, l := range v.Lists {
		lists[l.Path] = true
	}
	for _, key := range []string{"moves", "spaces", "outline", "contains", "use/serves"} {
		if !lists["items/fridge/"+key] {
			t.Errorf("no list %s", key)
		}
	}
	for _, path := range []string{"van", "van/shell", "loading", "job", "build"} {
		if v := get[FormView](w, "/api/builds/curlew/form?path="+path); len(v.Sections)+len(v.Lists) == 0 {
			t.Errorf("%s has no form", path)
		}
	}
	for _, path := range []string{"", "items", "items/nobody", "nothing", "items/fridge/mass"} {
		if status, _, _ := w.ask("GET", "/api/builds/curlew/form?path="+path, nil); status != http.StatusNotFound {
			t.Errorf("%q: %d", path, status)
		}
	}
}

// The van in space holds every body of a state at its place: the plan of a body is that of the drawing.
func TestPropSolidsHoldEveryBody(t *testing.T) {
	w := start(t)
	w.curlew()
	v := get[SolidsView](w, "/api/builds/curlew/solids?state=night")
	if len(v.Bodies) < 10 || v.State != "night" {
		t.Fatalf("%d bodies in %s", len(v.Bodies), v.State)
	}
	for _, b := range v.Bodies {
		if len(b.Outline) < 6 || len(b.Outline)%2 != 0 || !(b.High > b.Low) {
			t.Errorf("%s is no body: %+v", b.ID, b)
		}
	}
	for i := 1; i < len(v.Cuts); i++ {
		if !(v.Cuts[i].X > v.Cuts[i-1].X) || len(v.Cuts[i].Line) < 8 {
			t.Errorf("cut %d: %+v", i, v.Cuts[i])
		}
	}
}
