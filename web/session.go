package web

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"time"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/drawing"
	"berthwright/sheet"
	"berthwright/store"
)

// mostSessions bounds the builds held in memory.
const mostSessions = 8

// sessions holds the builds in use.
type sessions struct {
	mu  sync.Mutex
	all map[string]*session
}

// session is one build in use: its newest text, read and assessed. Changes of a build are made one after the other.
type session struct {
	id     string
	change sync.Mutex // held while a change is made

	mu   sync.Mutex
	now  *revision
	used time.Time
	seqs map[string]int // highest preview of each client
}

// revision is one text of a build, read, and assessed when somebody asks. It does not change; its answers are kept.
type revision struct {
	id     string
	number int
	hash   string
	file   *docfile.File
	shop   *shop
	record *doc.Record
	marks  string // which record it was assessed with

	mu     sync.Mutex // guards what is made when asked for
	last   *sheet.Sheet
	sheet  *sheet.Sheet
	views  map[string]BuildView
	scenes map[string]drawing.Scene
}

// assessed returns the sheet of a revision.
func (r *revision) assessed() *sheet.Sheet {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.assess()
}

func (r *revision) assess() *sheet.Sheet {
	if r.sheet == nil {
		r.sheet = sheet.After(r.last, r.file.Build, r.shop.ctx, r.record)
		r.last = nil
	}
	return r.sheet
}

// scene returns a view of a revision in a state as the page shows it.
func (r *revision) scene(view, state string, o drawing.Options) (drawing.Scene, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	key := fmt.Sprint(view, state, o.Labels)
	if s, ok := r.scenes[key]; ok {
		return s, true
	}
	s, ok := sheet.Scene(r.assess().DrawingOf(view, derive.State(state), nil), view, o)
	if ok {
		if r.scenes == nil {
			r.scenes = map[string]drawing.Scene{}
		}
		r.scenes[key] = s
	}
	return s, ok
}

// screen is how views are drawn for the page; moving is how they are drawn while something moves: labels keep still.
var (
	screen = drawing.Full(20)
	moving = drawing.Options{Scale: 20, Grid: true, Dimensions: true, Band: true}
)

func (s *Server) session(id string) *session {
	s.sessions.mu.Lock()
	defer s.sessions.mu.Unlock()
	one, ok := s.sessions.all[id]
	if !ok {
		if len(s.sessions.all) >= mostSessions {
			var oldest *session
			for _, c := range s.sessions.all {
				if oldest == nil || c.used.Before(oldest.used) {
					oldest = c
				}
			}
			delete(s.sessions.all, oldest.id)
		}
		one = &session{id: id, seqs: map[string]int{}}
		s.sessions.all[id] = one
	}
	one.used = time.Now()
	return one
}

// newest returns the newest revision of a build, also when another program wrote it.
func (s *Server) newest(ctx context.Context, id string) (*revision, error) {
	n, err := s.store.Newest(ctx, id)
	if err != nil {
		return nil, err
	}
	sh := s.currentShop()
	one := s.session(id)
	one.mu.Lock()
	defer one.mu.Unlock()
	record, mark, err := s.record(ctx, id)
	if err != nil {
		return nil, err
	}
	if now := one.now; now != nil && now.number == n && now.shop == sh && now.marks == mark {
		return now, nil
	}
	b, err := s.store.Load(ctx, id)
	if err != nil {
		return nil, err
	}
	one.now = s.read(id, b.Revision, b.Text, record, mark, sh, one.now)
	return one.now, nil
}

// read makes a revision of a text.
func (s *Server) read(id string, number int, text string, record *doc.Record, mark string, sh *shop, before *revision) *revision {
	r := &revision{id: id, number: number, hash: store.Hash(text)[:12], file: docfile.Read(id+".yaml", []byte(text), sh.refs), shop: sh, record: record, marks: mark}
	if before != nil {
		r.last = before.sheetIfMade()
	}
	return r
}

func (r *revision) sheetIfMade() *sheet.Sheet {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.sheet
}

// keep makes a revision that was just kept the newest one.
func (s *Server) keep(id string, r *revision) {
	one := s.session(id)
	one.mu.Lock()
	defer one.mu.Unlock()
	if one.now == nil || one.now.number < r.number {
		one.now = r
	}
}

// at returns an older revision.
func (s *Server) at(ctx context.Context, id string, n int) (*revision, error) {
	now, err := s.newest(ctx, id)
	if err != nil || now.number == n {
		return now, err
	}
	text, err := s.store.At(ctx, id, n)
	if err != nil {
		return nil, err
	}
	return s.read(id, n, text, nil, "", now.shop, nil), nil
}

// record reads the record of a build; mark tells one state of it from another.
func (s *Server) record(ctx context.Context, id string) (*doc.Record, string, error) {
	entries, err := s.store.Entries(ctx, id, "weighing")
	if err != nil || len(entries) == 0 {
		return nil, "", err
	}
	f := docfile.ReadRecord(id+"-record.yaml", []byte(recordText(id, entries)))
	if !f.Readable {
		return nil, "", fmt.Errorf("the record of %q cannot be read: %w", id, errors.New(f.Diags[0].Text()))
	}
	return &f.Record, fmt.Sprint(len(entries)), nil
}

// recordText writes the entries of a record as one file.
func recordText(id string, entries []store.Entry) string {
	var b strings.Builder
	fmt.Fprintf(&b, "berthwright-record: 1\nbuild: %s\nweighings:\n", docfile.Quote(id))
	for _, e := range entries {
		fmt.Fprintf(&b, "  - %s\n", e.Body)
	}
	return b.String()
}

// head is what the list of builds shows of a text.
func head(f *docfile.File) store.Head {
	h := store.Head{Name: f.Build.Head.Name, Customer: f.Build.Head.Customer, Stage: f.Build.Job.Stage, Items: len(f.Build.Items)}
	if h.Name == "" {
		h.Name = f.Build.Head.ID
	}
	return h
}
