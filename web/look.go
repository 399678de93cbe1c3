package web

import (
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"time"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/drawing"
	"berthwright/parts"
	"berthwright/sheet"
)

func docChange(ops []doc.Op) doc.Change { return doc.Change{Ops: ops} }

// knownState refuses a state that is none; "" is travel.
func knownState(text string) error {
	if text == "" || stateOf(text) == text {
		return nil
	}
	var all []string
	for _, s := range derive.AllStates() {
		all = append(all, string(s))
	}
	return refuse(http.StatusUnprocessableEntity, "unknown-word", fmt.Sprintf("no state is called %q", cut(text)), "one of: "+strings.Join(all, ", "))
}

// stateOf is a state the page asked for; travel unless it is one.
func stateOf(text string) string {
	for _, s := range derive.AllStates() {
		if string(s) == text {
			return text
		}
	}
	return string(derive.Travel)
}

func noView(view string) error {
	return refuse(http.StatusNotFound, "no-view", fmt.Sprintf("no view is called %q", cut(view)), "one of: "+strings.Join(sheet.Views, ", "))
}

func (s *Server) getHealth(http.ResponseWriter, *http.Request) (any, error) {
	return Health{Program: s.program(), Parts: parts.Edition}, nil
}

// getScene draws a view; against lays an older revision or another build under it.
func (s *Server) getScene(_ http.ResponseWriter, r *http.Request) (any, error) {
	q := r.URL.Query()
	view, state := q.Get("view"), stateOf(q.Get("state"))
	if view == "" {
		view = "plan"
	}
	now, err := s.newest(r.Context(), r.PathValue("id"))
	if err != nil {
		return nil, err
	}
	if against := q.Get("against"); against != "" {
		other, err := s.other(r, now, against)
		if err != nil {
			return nil, err
		}
		var in drawing.Input
		s.both(now, other, func(mine, theirs *sheet.Sheet) { in = mine.DrawingOf(view, derive.State(state), theirs) })
		scene, ok := sheet.Scene(in, view, screen)
		if !ok {
			return nil, noView(view)
		}
		return viewScene(scene, now.number), nil
	}
	scene, ok := now.scene(view, state, screen)
	if !ok {
		return nil, noView(view)
	}
	return viewScene(scene, now.number), nil
}

// both does something with two sheets. A sheet makes the places of a state when it is first asked for them, so both are
// held; only here are two held at once.
func (s *Server) both(a, b *revision, do func(a, b *sheet.Sheet)) {
	s.pairs.Lock()
	defer s.pairs.Unlock()
	a.mu.Lock()
	defer a.mu.Unlock()
	if a != b {
		b.mu.Lock()
		defer b.mu.Unlock()
	}
	do(a.assess(), b.assess())
}

// other is what a build is compared with: a revision of its own by number, or another build by id.
func (s *Server) other(r *http.Request, now *revision, name string) (*revision, error) {
	if n, err := strconv.Atoi(name); err == nil {
		return s.at(r.Context(), now.id, n)
	}
	return s.newest(r.Context(), name)
}

func (s *Server) getSlip(_ http.ResponseWriter, r *http.Request) (any, error) {
	now, err := s.newest(r.Context(), r.PathValue("id"))
	if err != nil {
		return nil, err
	}
	key := r.URL.Query().Get("key")
	slip, ok := now.assessed().Slip(key)
	if !ok {
		return nil, refuse(http.StatusNotFound, "no-slip", fmt.Sprintf("there is no working called %q", cut(key)), "")
	}
	v := viewSlip(slip)
	v.Revision, v.Hash = now.number, now.hash
	return v, nil
}

func (s *Server) getHistory(_ http.ResponseWriter, r *http.Request) (any, error) {
	id := r.PathValue("id")
	if _, err := s.store.Newest(r.Context(), id); err != nil {
		return nil, err
	}
	all, err := s.store.History(r.Context(), id, 0, 1000)
	if err != nil {
		return nil, err
	}
	out := History{}
	for _, h := range all {
		paths := h.Paths
		if len(paths) > 50 {
			paths = paths[:50]
		}
		out.Rows = append(out.Rows, HistoryRow{Revision: h.Number, At: h.At.Format(time.RFC3339), Client: h.Client, Title: h.Title, Paths: paths})
	}
	return out, nil
}

// getDiff compares two revisions, or two builds; to is the newest revision unless given.
func (s *Server) getDiff(_ http.ResponseWriter, r *http.Request) (any, error) {
	from, to, err := s.pair(r)
	if err != nil {
		return nil, err
	}
	var d sheet.Diff
	s.both(from, to, func(a, b *sheet.Sheet) { d = sheet.Compare(a, b) })
	return viewDiff(d, label(from), label(to)), nil
}

func label(r *revision) string {
	return fmt.Sprintf("%s, revision %d", r.file.Build.Head.Name, r.number)
}

func diffRow(r sheet.DiffRow) DiffRow {
	return DiffRow{Path: r.Path, Name: r.Name, Kind: r.Kind, Before: r.Before, After: r.After, Change: r.Change}
}

func (s *Server) pair(r *http.Request) (from, to *revision, err error) {
	now, err := s.newest(r.Context(), r.PathValue("id"))
	if err != nil {
		return nil, nil, err
	}
	from, to = now, now
	if name := r.URL.Query().Get("from"); name != "" {
		if from, err = s.other(r, now, name); err != nil {
			return nil, nil, err
		}
	} else if now.number > 1 {
		if from, err = s.at(r.Context(), now.id, now.number-1); err != nil {
			return nil, nil, err
		}
	}
	if name := r.URL.Query().Get("to"); name != "" {
		if to, err = s.other(r, now, name); err != nil {
			return nil, nil, err
		}
	}
	return from, to, nil
}
