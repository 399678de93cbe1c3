package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"

	"berthwright/docfile"
	"berthwright/edit"
	"berthwright/store"
)

// getText answers the text: the draft that could not be read, where there is one.
func (s *Server) getText(_ http.ResponseWriter, r *http.Request) (any, error) {
	return s.textView(r.Context(), r.PathValue("id"))
}

func (s *Server) textView(ctx context.Context, id string) (any, error) {
	now, err := s.newest(ctx, id)
	if err != nil {
		return nil, err
	}
	d, kept, err := s.store.Draft(ctx, id)
	if err != nil {
		return nil, err
	}
	if kept {
		f := docfile.Read(id+".yaml", []byte(d.Text), now.shop.refs)
		return TextView{Revision: now.number, Text: d.Text, Draft: true, Marks: viewMarks(f)}, nil
	}
	return TextView{Revision: now.number, Text: string(now.file.Text), Marks: viewMarks(now.file)}, nil
}

// putText replaces the text. What cannot be read is kept as a draft beside the last good revision.
func (s *Server) putText(_ http.ResponseWriter, r *http.Request) (any, error) {
	in, err := decode[TextRequest](r)
	if err != nil {
		return nil, err
	}
	if err := checkChange(in.ID, in.Client, ""); err != nil {
		return nil, err
	}
	if err := checkText(in.Text); err != nil {
		return nil, err
	}
	id := r.PathValue("id")
	one := s.session(id)
	one.change.Lock()
	defer one.change.Unlock()
	for range mostRetry {
		result, err := s.tryText(r.Context(), id, in)
		var stale store.Stale
		if errors.As(err, &stale) {
			continue
		}
		return result, err
	}
	return nil, refuse(http.StatusServiceUnavailable, "busy", "another program keeps changing this build", "try again")
}

func (s *Server) tryText(ctx context.Context, id string, in TextRequest) (any, error) {
	now, err := s.newest(ctx, id)
	if err != nil {
		return nil, err
	}
	if _, ok, err := s.store.Applied(ctx, id, in.ID); err != nil || ok {
		if err != nil {
			return nil, err
		}
		return s.textView(ctx, id)
	}
	if in.Base > now.number || in.Base < 1 {
		return nil, refuse(http.StatusUnprocessableEntity, "bad-base", fmt.Sprintf("revision %d is not one of this build", in.Base), "load it again")
	}
	f := docfile.Read(id+".yaml", []byte(in.Text), now.shop.refs)
	if !f.Readable {
		if err := s.store.SaveDraft(ctx, id, store.Draft{Base: in.Base, Client: in.Client, Text: in.Text}); err != nil {
			return nil, err
		}
		return s.textView(ctx, id)
	}
	if in.Text != string(now.file.Text) {
		base, err := s.at(ctx, id, in.Base)
		if err != nil {
			return nil, err
		}
		ops := edit.Diff(base.file, f)
		if in.Base != now.number {
			// Somebody changed the build while it was typed: what was typed is carried over where they do not meet.
			if err := s.conflicts(ctx, now, in.Base, ops); err != nil {
				return nil, err
			}
			if f, _, err = now.file.Apply(docChange(ops)); err != nil {
				return nil, asClash(err, now)
			}
		}
		if _, err := s.append(ctx, now, f, edit.Diff(f, now.file), in.ID, in.Client, store.Typed, 0, "text edited", touched(ops), done{Ops: ops}); err != nil {
			return nil, err
		}
	}
	if err := s.store.DropDraft(ctx, id); err != nil {
		return nil, err
	}
	return s.textView(ctx, id)
}

func (s *Server) dropDraft(_ http.ResponseWriter, r *http.Request) (any, error) {
	id := r.PathValue("id")
	if err := s.store.DropDraft(r.Context(), id); err != nil {
		return nil, err
	}
	return s.textView(r.Context(), id)
}
