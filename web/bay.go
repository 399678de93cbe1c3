package web

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"slices"
	"strings"
	"time"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/sheet"
	"berthwright/store"
	"berthwright/unit"
)

// bayKind is the kind of a line of the record written in the bay; what it says is in its body.
const bayKind = "bay"

// bayBody is what such a line holds, as JSON.
type bayBody struct {
	Kind string `json:"kind"` // done, not-done, photo
	Item string `json:"item"`
	By   string `json:"by,omitempty"`
	Text string `json:"text,omitempty"` // photo: kind of content
	At   string `json:"at"`
}

func (s *Server) getBay(_ http.ResponseWriter, r *http.Request) (any, error) {
	now, err := s.newest(r.Context(), r.PathValue("id"))
	if err != nil {
		return nil, err
	}
	return s.bay(r.Context(), now)
}

// bay makes one job for each item that is to be fitted.
func (s *Server) bay(ctx context.Context, now *revision) (BayView, error) {
	entries, err := s.store.Entries(ctx, now.id, "")
	if err != nil {
		return BayView{}, err
	}
	b := &now.file.Build
	whole := now.view(string(derive.Travel))
	v := BayView{Build: now.id, Name: whole.Name, Revision: now.number, Status: whole.Status, Hold: b.Job.Hold}
	now.mu.Lock()
	defer now.mu.Unlock()
	m := bayMaker{sh: now.assess(), jobs: map[string]int{}}
	m.sys = m.sh.System()
	v.Scale, _ = unit.KindMass.Shown(m.sys)
	placed := m.sh.Placed(derive.Travel)
	for i := range placed {
		it := placed[i].Item
		if it.Removed.Else(false) || it.InTicket.Else(false) || it.Allow.Else(false) || it.Count.Else(1) == 0 {
			continue
		}
		m.jobs[it.ID] = len(v.Jobs)
		v.Jobs = append(v.Jobs, m.job(&placed[i]))
	}
	slices.SortStableFunc(v.Jobs, func(a, b BayJob) int { return tradeOrder(a.Trade) - tradeOrder(b.Trade) })
	for i := range v.Jobs {
		m.jobs[v.Jobs[i].Item] = i
	}
	m.marks(&v, entries, now.record)
	m.first(&v, b)
	for i := range v.Jobs {
		if n := len(v.Trades); n == 0 || v.Trades[n-1].ID != v.Jobs[i].Trade {
			v.Trades = append(v.Trades, Choice{ID: v.Jobs[i].Trade, Text: check.GroupWords(v.Jobs[i].Trade)})
		}
	}
	return v, nil
}

// tradeOrder is the order in which a van is fitted: what is behind a lining goes in before it.
func tradeOrder(group string) int {
	return slices.Index([]string{"body", "safety", "seats", "lining", "electric", "water", "gas", "heating", "bunks", "kitchen", "washroom", "tall", "overhead", "other", "loose", ""}, group)
}

type bayMaker struct {
	sh   *sheet.Sheet
	sys  unit.System
	jobs map[string]int // by item
}

func (m *bayMaker) job(p *derive.Placed) BayJob {
	it := p.Item
	j := BayJob{Item: it.ID, Number: p.Number, Name: p.Name(), Trade: it.Group}
	if p.Boxed {
		say := func(l unit.Length) string { return unit.Format(l, m.sys, -1) }
		j.Facts = append(j.Facts, fmt.Sprintf("%s along × %s across × %s high", say(p.Size[0].V), say(p.Size[1].V), say(p.Size[2].V)))
		if p.Turn != 0 {
			j.Facts = append(j.Facts, "turned "+unit.Format(p.Turn, m.sys, -1)+", counter-clockwise from above")
		}
	}
	if w, ok := it.Mass.Get(); ok {
		j.Facts = append(j.Facts, unit.Format(w.Value, m.sys, 1))
	}
	if n := it.Count.Else(1); n > 1 {
		j.Facts = append(j.Facts, count(n, "piece", "pieces"))
	}
	if x, ok := it.Fixing.Get(); ok && x.Into != "" {
		words := "fixed into " + x.Into
		if n, ok := x.Count.Get(); ok {
			words = strings.TrimSpace(fmt.Sprintf("%d × %s into %s", n, x.Size, x.Into))
		}
		if x.Torque != "" {
			words += ", torque " + x.Torque
		}
		j.Facts = append(j.Facts, words)
	}
	if it.Remark != "" {
		j.Facts = append(j.Facts, it.Remark)
	}
	for _, t := range m.sh.Tapes(p, derive.Travel) {
		length := unit.Format(max(t.Length, -t.Length), m.sys, -1)
		j.Tapes = append(j.Tapes, BayTape{Length: length, From: t.From, To: t.Edge, Text: t.Text})
	}
	j.Views = []string{"plan", "left"}
	if p.Boxed {
		for _, corner := range [2][3]unit.Length{p.Min, p.Max} {
			for _, l := range corner {
				j.Box = append(j.Box, l.Millimetres())
			}
		}
		if p.Min[1]+p.Max[1] > 0 {
			j.Views[1] = "right"
		}
	}
	return j
}

// marks puts what the record says beside the jobs.
func (m *bayMaker) marks(v *BayView, entries []store.Entry, record *doc.Record) {
	for _, e := range entries {
		v.Kept = append(v.Kept, e.ID)
		if e.Kind != bayKind {
			continue
		}
		var b bayBody
		if err := json.Unmarshal([]byte(e.Body), &b); err != nil {
			continue // written by a later version
		}
		k, ok := m.jobs[b.Item]
		if !ok {
			continue
		}
		j := &v.Jobs[k]
		mark := BayMark{ID: e.ID, By: b.By, At: b.At}
		switch b.Kind {
		case "done":
			mark.Text = "done"
			j.Done = &mark
		case "not-done":
			j.Done = nil
		case "photo":
			mark.Text = b.Text
			j.Photos = append(j.Photos, mark)
		}
	}
	if record == nil {
		return
	}
	for _, w := range record.Weighings {
		p, ok := w.Pieces.Get()
		if !ok || len(w.Items) != 1 {
			continue
		}
		if k, ok := m.jobs[w.Items[0]]; ok {
			at := ""
			if d, ok := w.Date.Get(); ok {
				at = fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
			}
			v.Jobs[k].Weight = &BayMark{ID: w.ID, Text: unit.Format(p.Value, m.sys, 1), By: w.By, At: at}
		}
	}
}

// first lists what must be true before each item goes in.
func (m *bayMaker) first(v *BayView, b *doc.Build) {
	needs := func(j *BayJob, id, words string) {
		if k, ok := m.jobs[id]; ok && id != j.Item {
			done := v.Jobs[k].Done != nil
			j.First = append(j.First, BayFirst{Text: fmt.Sprintf(words, v.Jobs[k].Name), Item: id, Done: done})
		}
	}
	for i := range b.Items {
		it := &b.Items[i]
		k, ok := m.jobs[it.ID]
		if !ok {
			continue
		}
		j := &v.Jobs[k]
		for _, t := range []struct{ id, words string }{{it.Place.OnTop, "%s stands: this goes on top of it"}, {it.Place.Behind, "%s stands: this is taped from it"}, {it.Place.Ahead, "%s stands: this is taped from it"},
			{it.Place.LeftOf, "%s stands: this is taped from it"}, {it.Place.RightOf, "%s stands: this is taped from it"}} {
			needs(j, t.id, t.words)
		}
		for n := range b.Items {
			if slices.Contains(b.Items[n].Contents, it.ID) {
				needs(j, b.Items[n].ID, "%s stands: this goes into it")
			}
		}
		for _, s := range it.Spaces {
			for _, id := range s.First {
				needs(j, id, "%s is still out of the way: it has to come out first for "+strings.TrimSpace(s.For+" of this"))
			}
		}
		if h, ok := it.Hole.Get(); ok {
			text := "look and feel behind both faces before you cut"
			if h.Looked != "" {
				text += "; written down: " + h.Looked
			}
			j.First = append(j.First, BayFirst{Text: text, Care: true}) // a thing to do each time, never a tick
		}
		if it.Locked != "" {
			j.First = append(j.First, BayFirst{Text: it.Locked, Care: true})
		}
		if x, ok := it.Fixing.Get(); ok && (x.Into == "rib" || x.Into == "noggin" || x.Into == "steel") {
			j.First = append(j.First, BayFirst{Text: "its fixing points are photographed before the lining goes over them", Done: len(j.Photos) > 0})
		}
		if !it.Mass.Given() || it.Known == "guess" || it.Known == "estimated" || it.Known == "" {
			j.First = append(j.First, BayFirst{Text: "weigh it before it goes in: its mass is not known by weighing", Done: j.Weight != nil})
		}
	}
	for _, f := range m.sh.Fit().Findings {
		if f.Verdict != check.DoesNotHold || f.Advisory {
			continue
		}
		for _, sub := range f.Subjects {
			p, ok := strings.CutPrefix(sub.Path, "items/")
			id, _, _ := strings.Cut(p, "/")
			if k, there := m.jobs[id]; ok && there {
				v.Jobs[k].First = append(v.Jobs[k].First, BayFirst{Text: "settle first: " + f.Says.Text(m.sys), Care: true})
			}
		}
	}
}

// postBay adds a line to the record. A repeated id is kept once, so that the page may send again what got no answer.
func (s *Server) postBay(_ http.ResponseWriter, r *http.Request) (any, error) {
	in, err := decode[BayEntry](r)
	if err != nil {
		return nil, err
	}
	ctx, id := r.Context(), r.PathValue("id")
	now, err := s.bayEntry(ctx, id, in.ID, in.Item, in.By, in.Text)
	if err != nil {
		return nil, err
	}
	switch in.Kind {
	case "done", "not-done":
		err = s.keepBay(ctx, now, in.ID, bayBody{Kind: in.Kind, Item: in.Item, By: in.By, At: when(in.At)}, nil)
	case "weighed":
		_, err = s.weigh(ctx, id, WeighingRequest{ID: in.ID, Fields: map[string]string{"stage": "part", "pieces": in.Text, "items": in.Item, "by": in.By, "date": when(in.At)[:10]}})
	default:
		err = refuse(http.StatusUnprocessableEntity, "no-kind", fmt.Sprintf("nothing is called %q in the bay", cut(in.Kind)), "one of: done, not-done, weighed")
	}
	if err != nil {
		return nil, err
	}
	if now, err = s.newest(ctx, id); err != nil {
		return nil, err
	}
	return s.bay(ctx, now)
}

// bayEntry checks what every line from the bay has.
func (s *Server) bayEntry(ctx context.Context, id, entry, item, by, text string) (*revision, error) {
	if err := checkChange(entry, "bay", ""); err != nil {
		return nil, err
	}
	now, err := s.newest(ctx, id)
	if err != nil {
		return nil, err
	}
	if _, there := now.file.Value("items/" + item); !there || item == "" || strings.Contains(item, "/") {
		return nil, refuse(http.StatusUnprocessableEntity, "no-item", fmt.Sprintf("no item has the id %q", cut(item)), "it may have been taken out meanwhile")
	}
	if len(by) > 100 || len(text) > 100 {
		return nil, refuse(http.StatusUnprocessableEntity, "too-long", "that is longer than 100 letters", "")
	}
	return now, nil
}

func (s *Server) keepBay(ctx context.Context, now *revision, entry string, b bayBody, bytes []byte) error {
	body, err := json.Marshal(b)
	if err != nil {
		return err
	}
	if err := s.store.AddEntry(ctx, now.id, store.Entry{ID: entry, Kind: bayKind, Revision: now.number, Body: string(body), Bytes: bytes}); err != nil {
		return err
	}
	s.events.tell(Event{Kind: "record", Build: now.id, Revision: now.number})
	return nil
}

// when is the time a button was pressed, or now where it was not said or is no time.
func when(text string) string {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil || t.After(time.Now().Add(time.Hour)) {
		t = time.Now()
	}
	return t.Format(time.RFC3339)
}

// photoKinds are the pictures that are kept, as their own bytes tell.
var photoKinds = map[string]bool{"image/jpeg": true, "image/png": true, "image/webp": true}

// postPhoto adds a picture to the record.
func (s *Server) postPhoto(_ http.ResponseWriter, r *http.Request) (any, error) {
	q := r.URL.Query()
	ctx, entry, item := r.Context(), q.Get("entry"), q.Get("item")
	now, err := s.bayEntry(ctx, r.PathValue("id"), entry, item, q.Get("by"), "")
	if err != nil {
		return nil, err
	}
	bytes, err := io.ReadAll(r.Body)
	if err != nil {
		return nil, err
	}
	kind := http.DetectContentType(bytes)
	if !photoKinds[kind] {
		return nil, refuse(http.StatusUnsupportedMediaType, "no-photo", "this is no picture that can be kept", "send a JPEG, PNG or WebP")
	}
	if err := s.keepBay(ctx, now, entry, bayBody{Kind: "photo", Item: item, By: q.Get("by"), Text: kind, At: when(q.Get("at"))}, bytes); err != nil {
		return nil, err
	}
	return s.bay(ctx, now)
}

func (s *Server) getPhoto(w http.ResponseWriter, r *http.Request) (any, error) {
	bytes, err := s.store.EntryBytes(r.Context(), r.PathValue("id"), r.PathValue("name"))
	if err != nil {
		return nil, err
	}
	w.Header().Set("Content-Type", http.DetectContentType(bytes))
	_, err = w.Write(bytes)
	return nil, err
}
