package web

import (
	"context"
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"time"

	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/edit"
	"berthwright/store"
	"berthwright/unit"
)

func (s *Server) getBuilds(_ http.ResponseWriter, r *http.Request) (any, error) {
	all, err := s.store.List(r.Context(), r.URL.Query().Get("deleted") == "1")
	if err != nil {
		return nil, err
	}
	out := BuildList{}
	for _, b := range all {
		row, err := s.buildRow(r.Context(), b)
		if err != nil {
			return nil, err
		}
		out.Builds = append(out.Builds, row)
	}
	return out, nil
}

// summary is what the store keeps beside a revision, so that the list need not assess every build.
type summary struct {
	Program  string     `json:"program"`
	Shop     int        `json:"shop"`
	Deciding []Sentence `json:"deciding"`
}

// buildRow is a row of the list. Its deciding sentences are made when they are not kept, or were made by another
// program or another workshop file.
func (s *Server) buildRow(ctx context.Context, b store.Build) (BuildRow, error) {
	row := BuildRow{ID: b.ID, Name: b.Head.Name, Customer: b.Head.Customer, Stage: b.Head.Stage, Revision: b.Revision,
		Changed: b.Changed.Format(time.RFC3339), Items: b.Head.Items, Draft: b.Draft, Deleted: b.Deleted}
	var kept summary
	sh := s.currentShop()
	if err := json.Unmarshal([]byte(b.Summary), &kept); err == nil && kept.Program == s.program() && kept.Shop == sh.number {
		row.Deciding = kept.Deciding
		return row, nil
	}
	if b.Deleted {
		return row, nil
	}
	now, err := s.newest(ctx, b.ID)
	if err != nil {
		return row, err
	}
	row.Deciding = viewTitle(now.assessed().Weight, now.assessed().System())
	return row, s.summarise(ctx, now, row.Deciding)
}

func (s *Server) summarise(ctx context.Context, r *revision, deciding []Sentence) error {
	text, err := json.Marshal(summary{Program: s.program(), Shop: r.shop.number, Deciding: deciding})
	if err != nil {
		return err
	}
	return s.store.SetSummary(ctx, r.id, r.number, string(text))
}

func (s *Server) getBuild(_ http.ResponseWriter, r *http.Request) (any, error) {
	now, err := s.newest(r.Context(), r.PathValue("id"))
	if err != nil {
		return nil, err
	}
	return s.view(r.Context(), now, stateOf(r.URL.Query().Get("state")), r.URL.Query().Get("client"))
}

func (s *Server) deleteBuild(_ http.ResponseWriter, r *http.Request) (any, error) {
	return s.putAside(r, true)
}

func (s *Server) restoreBuild(_ http.ResponseWriter, r *http.Request) (any, error) {
	return s.putAside(r, false)
}

func (s *Server) putAside(r *http.Request, aside bool) (any, error) {
	id := r.PathValue("id")
	do := s.store.Restore
	if aside {
		do = s.store.Delete
	}
	if err := do(r.Context(), id); err != nil {
		return nil, err
	}
	b, err := s.store.Load(r.Context(), id)
	if err != nil && !errors.Is(err, store.ErrDeleted) {
		return nil, err
	}
	if aside {
		s.events.tell(Event{Kind: "deleted", Build: id, Revision: b.Revision})
	}
	return s.buildRow(r.Context(), b)
}

// postBuild makes a new build: from an enquiry, empty, a duplicate or a demo.
func (s *Server) postBuild(_ http.ResponseWriter, r *http.Request) (any, error) {
	in, err := decode[NewBuild](r)
	if err != nil {
		return nil, err
	}
	ctx := r.Context()
	name := strings.TrimSpace(in.Name)
	if len(name) > 200 {
		return nil, refuse(http.StatusUnprocessableEntity, "too-long", "the name is longer than 200 letters", "")
	}
	switch in.Kind {
	case "enquiry", "empty":
		e := edit.Enquiry{Name: name, Country: in.Country, Date: today()}
		if in.Country != "" && countryWords[in.Country] == "" {
			return nil, refuse(http.StatusUnprocessableEntity, "unknown-word", fmt.Sprintf("%q is no country known here", in.Country), "")
		}
		class, ok := s.currentShop().ctx.Parts.Class(in.Class)
		if !ok && in.Class != "" {
			return nil, refuse(http.StatusUnprocessableEntity, "unknown-id", fmt.Sprintf("no class of van is called %q", in.Class), "")
		}
		if !(in.People >= 0 && in.People <= 12) {
			return nil, refuse(http.StatusUnprocessableEntity, "out-of-range", fmt.Sprintf("%d people is outside 0 to 12", in.People), "")
		}
		if in.Kind == "empty" {
			class.Allowances = nil // the van and its people as chosen, and nothing in it
		}
		e.Class, e.People = class, in.People
		return s.create(ctx, name, func(id string) string { e.ID = id; return e.Text() })
	case "duplicate":
		now, err := s.newest(ctx, in.From)
		if err != nil {
			return nil, err
		}
		if name == "" {
			name = now.file.Build.Head.Name + ", copy"
		}
		return s.create(ctx, name, func(id string) string { return renamed(string(now.file.Text), id, name) })
	case "demo":
		text, ok := s.cfg.Demos[in.From]
		if !ok {
			return nil, refuse(http.StatusNotFound, "no-demo", fmt.Sprintf("no demo build is called %q", in.From), "")
		}
		if name == "" {
			return s.create(ctx, in.From, func(id string) string { return renamed(text, id, "") })
		}
		return s.create(ctx, name, func(id string) string { return renamed(text, id, name) })
	}
	return nil, refuse(http.StatusUnprocessableEntity, "unknown-word", fmt.Sprintf("a build cannot be started from %q", in.Kind), "enquiry, empty, duplicate or demo")
}

func today() doc.Opt[doc.Date] {
	y, m, d := time.Now().Date()
	return unit.Some(doc.Date{Year: y, Month: int(m), Day: d})
}

// renamed gives a text another id and, unless it is "", another name.
func renamed(text, id, name string) string {
	f := docfile.Read("", []byte(text))
	if !f.Readable {
		return text
	}
	// An id in a file is never changed; a copy is another build, so its head is written anew.
	out := text
	if was, ok := f.Range("build/id"); ok {
		out = text[:was.Start.Byte] + docfile.Quote(id) + text[was.End.Byte:]
	}
	if name != "" {
		if again, _, err := docfile.Read("", []byte(out)).Apply(doc.Change{Ops: []doc.Op{{Kind: doc.Set, Path: "build/name", Value: docfile.Quote(name)}}}); err == nil {
			out = string(again.Text)
		}
	}
	return out
}

// create keeps a new build under an id made from its name.
func (s *Server) create(ctx context.Context, name string, text func(id string) string) (any, error) {
	base := edit.Slug(name)
	if base == "" {
		base = "build"
	}
	change := rand.Text()
	for n := 1; ; n++ {
		id := base
		if n > 1 {
			id = fmt.Sprintf("%s-%d", base, n)
		}
		t := text(id)
		f := docfile.Read(id+".yaml", []byte(t), s.currentShop().refs)
		_, err := s.store.Create(ctx, id, head(f), store.Change{ID: change, Kind: store.Made, Title: "new build", Text: t})
		if errors.Is(err, store.ErrExists) && n < 1000 {
			continue
		}
		if err != nil {
			return nil, err
		}
		now, err := s.newest(ctx, id)
		if err != nil {
			return nil, err
		}
		return s.view(ctx, now, "travel", "")
	}
}

func (s *Server) postImport(_ http.ResponseWriter, r *http.Request) (any, error) {
	text, err := textBody(r)
	if err != nil {
		return nil, err
	}
	f := docfile.Read("import.yaml", []byte(text), s.currentShop().refs)
	if !f.Readable {
		p := refuse(http.StatusUnprocessableEntity, "unreadable", "the file cannot be read: "+f.Diags[0].Text(), f.Diags[0].Hint)
		p.Fields = viewMarks(f)
		return nil, p
	}
	name := f.Build.Head.ID
	if name == "" {
		name = f.Build.Head.Name
	}
	return s.create(r.Context(), name, func(id string) string {
		if id == f.Build.Head.ID {
			return text
		}
		return renamed(text, id, "")
	})
}

func (s *Server) getExport(w http.ResponseWriter, r *http.Request) (any, error) {
	now, err := s.newest(r.Context(), r.PathValue("id"))
	if err != nil {
		return nil, err
	}
	w.Header().Set("Content-Type", "application/yaml; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="`+now.id+`.yaml"`)
	_, err = w.Write(now.file.Text)
	return nil, err
}
