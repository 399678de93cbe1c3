package web

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strings"

	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/edit"
	"berthwright/store"
	"berthwright/unit"
)

// The limits of one change.
const (
	mostEdits  = 2500
	mostID     = 100
	mostTitle  = 300
	mostRetry  = 5
	mostClient = 100
)

// done is what is kept of a change beside its text, so that a repeated one gets the same answer.
type done struct {
	Ops     []doc.Op       `json:"ops"`
	Made    []string       `json:"made,omitempty"`
	Refused []edit.Refused `json:"refused,omitempty"`
}

func (s *Server) postChange(_ http.ResponseWriter, r *http.Request) (any, error) {
	in, err := decode[ChangeRequest](r)
	if err != nil {
		return nil, err
	}
	if err := cmp.Or(checkChange(in.ID, in.Client, in.Title), knownState(in.State)); err != nil {
		return nil, err
	}
	id := r.PathValue("id")
	gestures, err := gesturesOf(in.Edits)
	if err != nil {
		return nil, err
	}
	one := s.session(id)
	one.change.Lock()
	defer one.change.Unlock()
	for range mostRetry {
		result, err := s.tryChange(r.Context(), id, in, gestures)
		var stale store.Stale
		if errors.As(err, &stale) { // another program was faster
			continue
		}
		return result, err
	}
	return nil, refuse(http.StatusServiceUnavailable, "busy", "another program keeps changing this build", "try again")
}

func checkChange(id, client, title string) error {
	switch {
	case id == "" || len(id) > mostID:
		return refuse(http.StatusUnprocessableEntity, "bad-change", fmt.Sprintf("the change id %q cannot be used", cut(id)), "")
	case client == "" || len(client) > mostClient:
		return refuse(http.StatusUnprocessableEntity, "bad-change", fmt.Sprintf("the client id %q cannot be used", cut(client)), "")
	case len(title) > mostTitle:
		return refuse(http.StatusUnprocessableEntity, "bad-change", "the title of the change is too long", "")
	}
	return nil
}

func cut(s string) string {
	if len(s) > 40 {
		return strings.ToValidUTF8(s[:40], "") + "…"
	}
	return s
}

func (s *Server) tryChange(ctx context.Context, id string, in ChangeRequest, gestures []edit.Gesture) (any, error) {
	now, err := s.newest(ctx, id)
	if err != nil {
		return nil, err
	}
	if again, ok, err := s.repeated(ctx, now, in.ID, in.Client, stateOf(in.State)); ok || err != nil {
		return again, err
	}
	if in.Base > now.number || in.Base < 1 {
		return nil, refuse(http.StatusUnprocessableEntity, "bad-base", fmt.Sprintf("revision %d is not one of this build", in.Base), "load it again")
	}
	if !now.file.Readable {
		return nil, refuse(http.StatusUnprocessableEntity, "unreadable", "the text of this build cannot be read", "put it right in the text view")
	}
	out, err := edit.Compile(now.file, s.env(ctx, now), gestures)
	if err != nil {
		return nil, asClash(err, now)
	}
	if err := s.conflicts(ctx, now, in.Base, out.Ops); err != nil {
		return nil, err
	}
	made, err := s.apply(ctx, now, out.Ops, in.ID, in.Client, store.Made, 0, in.Title, done{Made: out.Made, Refused: out.Refused})
	if err != nil {
		return nil, err
	}
	return s.result(ctx, made, in.Client, stateOf(in.State), out.Made, out.Refused)
}

// apply does operations on a revision and keeps what comes of them. Where they change nothing, nothing is kept.
func (s *Server) apply(ctx context.Context, now *revision, ops []doc.Op, change, client string, kind store.Kind, undoes int, title string, d done) (*revision, error) {
	if len(ops) == 0 {
		return now, nil
	}
	f, inverse, err := now.file.Apply(doc.Change{ID: change, Base: now.number, Title: title, Ops: ops})
	if err != nil {
		return nil, asClash(err, now)
	}
	if kind == store.Made && bytes.Equal(f.Text, now.file.Text) { // what was typed stands there already
		return now, nil
	}
	if len(f.Text) > mostText {
		return nil, refuse(http.StatusRequestEntityTooLarge, "too-large", "the text would be longer than 2 MB", "")
	}
	d.Ops = ops
	return s.append(ctx, now, f, inverse.Ops, change, client, kind, undoes, title, touched(ops), d)
}

func (s *Server) append(ctx context.Context, now *revision, f *docfile.File, inverse []doc.Op, change, client string, kind store.Kind, undoes int, title string, paths []string, d done) (*revision, error) {
	opsText, err := json.Marshal(d)
	if err != nil {
		return nil, err
	}
	inverseText, err := json.Marshal(inverse)
	if err != nil {
		return nil, err
	}
	kept, err := s.store.Append(ctx, now.id, now.number, head(f), store.Change{ID: change, Client: client, Kind: kind, Undoes: undoes, Title: title,
		Ops: opsText, Inverse: inverseText, Paths: paths, Text: string(f.Text)})
	if err != nil {
		return nil, err
	}
	made := &revision{id: now.id, number: kept.Number, hash: kept.Hash[:12], file: f, shop: now.shop, record: now.record, marks: now.marks, last: now.sheetIfMade()}
	s.keep(now.id, made)
	s.events.tell(Event{Kind: "revision", Build: now.id, Revision: made.number, Client: client})
	return made, nil
}

// repeated answers a change that was applied before.
func (s *Server) repeated(ctx context.Context, now *revision, change, client, state string) (any, bool, error) {
	old, ok, err := s.store.Applied(ctx, now.id, change)
	if err != nil || !ok {
		return nil, false, err
	}
	var d done
	if len(old.Ops) > 0 {
		if err := json.Unmarshal(old.Ops, &d); err != nil {
			return nil, false, err
		}
	}
	v, err := s.result(ctx, now, client, state, d.Made, d.Refused)
	return v, true, err
}

func (s *Server) result(ctx context.Context, now *revision, client, state string, made []string, refused []edit.Refused) (any, error) {
	v, err := s.view(ctx, now, state, client)
	if err != nil {
		return nil, err
	}
	return ChangeResult{View: v, Made: made, Refused: refusedOf(now.file, refused)}, nil
}

// env is what gestures may refer to outside the build.
func (s *Server) env(ctx context.Context, now *revision) edit.Env {
	return edit.Env{
		System: now.assessed().System(),
		Derive: now.shop.ctx,
		Used:   s.used(ctx, now.id),
		Part: func(ref string) (doc.Item, bool) {
			if it, ok := now.shop.ctx.Shop.Part(ref); ok {
				return it, true
			}
			return now.shop.ctx.Parts.Find(ref)
		},
		BaseVan: func(text string) (string, error) { return s.baseVan(ctx, now, text) },
	}
}

// baseVan is the van of a class, or of another build.
func (s *Server) baseVan(ctx context.Context, now *revision, text string) (string, error) {
	if now.shop.ctx.Parts.Known("class", text) {
		return "{class: " + docfile.Quote(text) + "}", nil
	}
	other, err := s.newest(ctx, text)
	if errors.Is(err, store.ErrNoBuild) || errors.Is(err, store.ErrDeleted) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	van, _ := other.file.Value("van")
	return van, nil
}

// used reports whether an id was ever used in a build. The history is read once, and only when asked for.
func (s *Server) used(ctx context.Context, id string) func(string) bool {
	var ids map[string]bool
	return func(want string) bool {
		if ids == nil {
			ids = map[string]bool{}
			all, err := s.store.History(ctx, id, 0, 0)
			if err != nil {
				return false // the binder refuses an id that stands twice; an old one only confuses
			}
			for _, r := range all {
				for _, p := range r.Paths {
					steps := strings.Split(p, "/")
					for i, step := range steps {
						if i > 0 && (steps[0] == "items" && i == 1 || steps[0] == "loading" && i == 2) {
							ids[step] = true
						}
					}
				}
			}
		}
		return ids[want]
	}
}

// gesturesOf maps what the page sends to what edit compiles.
func gesturesOf(edits []Edit) ([]edit.Gesture, error) {
	if len(edits) > mostEdits {
		return nil, refuse(http.StatusRequestEntityTooLarge, "too-large", fmt.Sprintf("a change of %d edits is too large", len(edits)), fmt.Sprintf("at most %d at once", mostEdits))
	}
	out := make([]edit.Gesture, len(edits))
	for i, e := range edits {
		for _, d := range []int64{e.DX, e.DY, e.DZ} {
			if !(d >= -20_000_000 && d <= 20_000_000) {
				return nil, refuse(http.StatusUnprocessableEntity, "out-of-range", "nothing is moved by more than 20 m", "")
			}
		}
		g := edit.Gesture{Kind: e.Kind, Grid: e.Grid, Row: e.Row, Column: e.Column, Path: e.Path, Text: e.Text, Part: e.Part, State: e.State,
			DX: unit.Length(e.DX), DY: unit.Length(e.DY), DZ: unit.Length(e.DZ), Cells: e.Cells}
		for _, o := range e.Ops {
			g.Ops = append(g.Ops, doc.Op{Kind: doc.OpKind(o.Op), Path: o.Path, Value: o.Value, After: o.After, Found: o.Found})
		}
		out[i] = g
	}
	return out, nil
}

func refusedOf(f *docfile.File, all []edit.Refused) []Marked {
	var out []Marked
	for _, r := range all {
		m := Marked{Path: r.Path, Severity: "error", Code: r.Code, Text: r.Says, Hint: r.Hint, Found: r.Found}
		if at, ok := f.Range(r.Path); ok && r.Path != "" {
			m.Line, m.Column, m.EndLine, m.EndCol = at.Start.Line, at.Start.Col, at.End.Line, at.End.Col
		}
		out = append(out, m)
	}
	return out
}
