package web

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"net/http"

	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/edit"
	"berthwright/store"
)

// postUndo takes back the client's own last change, or does it again. It is refused with both values where somebody
// changed the same places since.
func (s *Server) postUndo(_ http.ResponseWriter, r *http.Request) (any, error) {
	in, err := decode[UndoRequest](r)
	if err != nil {
		return nil, err
	}
	if err := cmp.Or(checkChange(in.ID, in.Client, ""), knownState(in.State)); err != nil {
		return nil, err
	}
	id := r.PathValue("id")
	one := s.session(id)
	one.change.Lock()
	defer one.change.Unlock()
	for range mostRetry {
		result, err := s.tryUndo(r.Context(), id, in)
		var stale store.Stale
		if errors.As(err, &stale) {
			continue
		}
		return result, err
	}
	return nil, refuse(http.StatusServiceUnavailable, "busy", "another program keeps changing this build", "try again")
}

func (s *Server) tryUndo(ctx context.Context, id string, in UndoRequest) (any, error) {
	now, err := s.newest(ctx, id)
	if err != nil {
		return nil, err
	}
	if again, ok, err := s.repeated(ctx, now, in.ID, in.Client, stateOf(in.State)); ok || err != nil {
		return again, err
	}
	find, kind, title := s.store.ToUndo, store.Undone, "undo: "
	if in.Redo {
		find, kind, title = s.store.ToRedo, store.Redone, "redo: "
	}
	back, err := find(ctx, id, in.Client)
	if err != nil {
		return nil, err
	}
	var ops []doc.Op
	if err := json.Unmarshal(back.Inverse, &ops); err != nil {
		return nil, err
	}
	for len(title) > 0 && len(back.Title) > 6 && (back.Title[:6] == "undo: " || back.Title[:6] == "redo: ") {
		back.Title = back.Title[6:]
	}
	made, err := s.takeBack(ctx, now, back, ops, in, kind, title+back.Title)
	if err != nil {
		return nil, err
	}
	return s.result(ctx, made, in.Client, stateOf(in.State), nil, nil)
}

// takeBack applies the inverse of a revision. Where nothing happened since, the text before it comes back to the byte.
func (s *Server) takeBack(ctx context.Context, now *revision, back store.Revision, ops []doc.Op, in UndoRequest, kind store.Kind, title string) (*revision, error) {
	if now.number != back.Number {
		return s.apply(ctx, now, ops, in.ID, in.Client, kind, back.Number, title, done{})
	}
	text, err := s.store.At(ctx, now.id, back.Number-1)
	if err != nil {
		return nil, err
	}
	f := docfile.Read(now.id+".yaml", []byte(text), now.shop.refs)
	return s.append(ctx, now, f, edit.Diff(f, now.file), in.ID, in.Client, kind, back.Number, title, back.Paths, done{Ops: ops})
}
