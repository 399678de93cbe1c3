package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"berthwright/derive"
	"berthwright/sheet"
	"berthwright/store"
)

// papers are the papers that can be had, with their kind of content.
var papers = map[string]string{
	"mass-statement.pdf": "application/pdf", "placard.pdf": "application/pdf", "change.pdf": "application/pdf",
	"hole-register.pdf": "application/pdf", "templates.pdf": "application/pdf", "fixing-map.pdf": "application/pdf", "states.pdf": "application/pdf",
	"drawing.pdf": "application/pdf", "drawing.svg": "image/svg+xml", "drawing.dxf": "image/vnd.dxf",
}

// getPaper issues a paper. It is kept as bytes with its revision, and the same paper is answered from there ever after.
func (s *Server) getPaper(w http.ResponseWriter, r *http.Request) (any, error) {
	name := r.PathValue("name")
	kind, ok := papers[name]
	if !ok {
		return nil, refuse(http.StatusNotFound, "no-paper", fmt.Sprintf("no paper is called %q", cut(name)),
			"mass-statement.pdf, placard.pdf, change.pdf, hole-register.pdf, templates.pdf, fixing-map.pdf, states.pdf, drawing.pdf, drawing.svg or drawing.dxf")
	}
	view, state := r.URL.Query().Get("view"), stateOf(r.URL.Query().Get("state"))
	if view == "" {
		view = sheet.Views[0]
	}
	if !sheet.HasView(view) {
		return nil, noView(view)
	}
	from, now, err := s.pair(r)
	if err != nil {
		return nil, err
	}
	asked := url.Values{"shop": {strconv.Itoa(now.shop.number)}, "record": {now.marks}, "program": {s.program()}}
	switch {
	case name == "change.pdf":
		asked.Set("from", from.id+"@"+strconv.Itoa(from.number))
		title := r.URL.Query().Get("title")
		if len(title) > mostTitle || !utf8.ValidString(title) {
			return nil, refuse(http.StatusUnprocessableEntity, "too-long", "the title of the change is too long", "")
		}
		asked.Set("title", title)
	case name == "templates.pdf":
		if hole := r.URL.Query().Get("hole"); hole != "" {
			asked.Set("hole", hole)
		}
	case strings.HasPrefix(name, "drawing."):
		asked.Set("view", view)
		asked.Set("state", state)
	}
	b, err := s.issued(r.Context(), now, name+"?"+asked.Encode(), func(i sheet.Issue) (out []byte, err error) {
		s.both(now, from, func(after, before *sheet.Sheet) {
			switch name {
			case "mass-statement.pdf":
				out, err = after.MassStatement(i)
			case "placard.pdf":
				out, err = after.Placard(i)
			case "hole-register.pdf":
				out, err = after.HoleRegister(i)
			case "templates.pdf":
				out, err = after.Templates(i, asked.Get("hole"))
			case "fixing-map.pdf":
				out, err = after.FixingMap(i)
			case "states.pdf":
				out, err = after.StateSheets(i)
			case "change.pdf":
				out, err = sheet.ChangeSlip(before, after, i, asked.Get("title"))
			default:
				out, err = after.View(view, derive.State(state), strings.TrimPrefix(name, "drawing."), 20, i)
			}
		})
		return out, err
	})
	if no, ok := errors.AsType[sheet.NoHole](err); ok {
		return nil, refuse(http.StatusNotFound, "no-hole", fmt.Sprintf("no hole with a size and a place is called %q", cut(no.Asked)), no.Hint())
	}
	if err != nil {
		return nil, err
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", `inline; filename="`+now.id+"-"+name+`"`)
	_, err = w.Write(b)
	return nil, err
}

// issued answers a paper from the store, or makes and keeps it.
func (s *Server) issued(ctx context.Context, now *revision, key string, set func(sheet.Issue) ([]byte, error)) ([]byte, error) {
	full := store.Hash(string(now.file.Text))
	all, err := s.store.Papers(ctx, now.id)
	if err != nil {
		return nil, err
	}
	for _, p := range all {
		if p.Name == key && p.Revision == now.number && p.Hash == full {
			kept, err := s.store.Paper(ctx, now.id, p.Number)
			return kept.Bytes, err
		}
	}
	b, err := set(sheet.Issue{Revision: strconv.Itoa(now.number), Hash: now.hash, Made: time.Now()})
	if err != nil {
		return nil, fmt.Errorf("set %s: %w", key, err)
	}
	status := now.assessed().PaperStatus(key)
	if _, err := s.store.Issue(ctx, now.id, store.Paper{Name: key, Status: status.String(), Revision: now.number, Hash: full, Bytes: b}); err != nil {
		return nil, errors.Join(fmt.Errorf("keep %s", key), err)
	}
	return b, nil
}
