package web

import (
	"context"
	"errors"
	"strings"

	"berthwright/derive"
	"berthwright/sheet"
	"berthwright/store"
)

// view is everything the sheets show of a revision in a state.
func (s *Server) view(ctx context.Context, r *revision, state, client string) (BuildView, error) {
	v := r.view(state)
	if client == "" {
		return v, nil
	}
	back, err := s.store.ToUndo(ctx, r.id, client)
	switch {
	case errors.Is(err, store.ErrNothing):
	case err != nil:
		return v, err
	default:
		v.CanUndo = titled(back.Title)
	}
	again, err := s.store.ToRedo(ctx, r.id, client)
	switch {
	case errors.Is(err, store.ErrNothing):
	case err != nil:
		return v, err
	default:
		v.CanRedo = titled(again.Title)
	}
	return v, nil
}

func titled(title string) string {
	for _, p := range []string{"undo: ", "redo: "} {
		title = strings.TrimPrefix(title, p)
	}
	if title == "" {
		return "last change"
	}
	return title
}

// view makes the view of a revision in a state once.
func (r *revision) view(state string) BuildView {
	r.mu.Lock()
	defer r.mu.Unlock()
	if v, ok := r.views[state]; ok {
		return v
	}
	sh := r.assess()
	sys := sh.System()
	b := &r.file.Build
	v := BuildView{ID: r.id, Name: b.Head.Name, Revision: r.number, Hash: r.hash, Program: sheet.Program, Basis: sh.Basis(), State: state, Units: b.Head.Units}
	if v.Name == "" {
		v.Name = r.id
	}
	if v.Units == "" {
		v.Units = "metric"
	}
	viewWeight(&v, sh, sys)
	v.Papers = viewPapers(sh)
	viewTables(&v, sh, sys)
	viewFit(&v, sh, sys)
	v.Concerns = append(v.Concerns, notBegun()...)
	v.Notes = viewNotes(r.file, sh.Placed(derive.Travel))
	v.Marks = viewMarks(r.file)
	f := &former{r: r, sys: sys, assumed: map[string]string{}, marks: map[string]*Marked{}}
	f.prepare(&v)
	v.Job, v.Van = f.job(), f.van()
	v.Loading = f.loading(sh)
	v.Kit = f.kit(sh)
	if r.views == nil {
		r.views = map[string]BuildView{}
	}
	r.views[state] = v
	return v
}

// notBegun lists the concerns that come with their own orders.
func notBegun() []ConcernView {
	var out []ConcernView
	for _, c := range [][2]string{{"electricity", "Electricity"}, {"life-aboard", "Life aboard"}, {"gas", "Gas"}, {"water", "Water"}, {"warmth", "Warmth"},
		{"air", "Fresh air"}, {"joinery", "Joinery"}, {"price", "Price"}, {"plan", "Plan"}, {"record", "Record"}} {
		out = append(out, ConcernView{ID: c[0], Name: c[1], Verdict: "not-begun", Text: "not begun"})
	}
	return out
}
