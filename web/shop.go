package web

import (
	"context"
	"errors"
	"net/http"
	"slices"
	"strings"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/edit"
	"berthwright/parts"
	"berthwright/sheet"
	"berthwright/store"
	"berthwright/unit"
	"berthwright/workshop"
)

// readShop reads the workshop file as it is kept.
func (s *Server) readShop(ctx context.Context) error {
	text, n, err := s.store.Workshop(ctx)
	if err != nil || n == 0 {
		return err
	}
	f := workshop.Read("workshop.yaml", []byte(text))
	s.mu.Lock()
	defer s.mu.Unlock()
	s.shop = newShop(s.shop.ctx.Parts, f.Workshop, text, n, f.Diags)
	return nil
}

func (s *Server) getWorkshop(http.ResponseWriter, *http.Request) (any, error) {
	return s.workshopView(), nil
}

func (s *Server) workshopView() WorkshopView {
	sh := s.currentShop()
	v := WorkshopView{Text: sh.text, Number: sh.number}
	for _, d := range sh.diags {
		v.Marks = append(v.Marks, markOf(d, []byte(sh.text)))
	}
	return v
}

func (s *Server) putWorkshop(_ http.ResponseWriter, r *http.Request) (any, error) {
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
	f := workshop.Read("workshop.yaml", []byte(in.Text))
	if !f.Readable {
		p := refuse(http.StatusUnprocessableEntity, "unreadable", "the workshop file cannot be read: "+f.Diags[0].Text(), f.Diags[0].Hint)
		for _, d := range f.Diags {
			p.Fields = append(p.Fields, markOf(d, f.Text))
		}
		return nil, p
	}
	if in.Text == s.currentShop().text {
		return s.workshopView(), nil // also the answer to one that is sent twice
	}
	if _, err := s.store.SetWorkshop(r.Context(), in.Base, in.Client, in.Text); err != nil {
		var stale store.Stale
		if errors.As(err, &stale) {
			return nil, refuse(http.StatusConflict, "stale", "somebody else changed the workshop file meanwhile", "load it again")
		}
		return nil, err
	}
	if err := s.readShop(r.Context()); err != nil {
		return nil, err
	}
	return s.workshopView(), nil
}

// getParts searches the plan chest: the workshop's own parts first, then the catalogue.
func (s *Server) getParts(_ http.ResponseWriter, r *http.Request) (any, error) {
	q, group := r.URL.Query().Get("q"), r.URL.Query().Get("group")
	sh := s.currentShop()
	out := PartList{Edition: parts.Edition, Groups: groups()}
	for i := range sh.ctx.Shop.Parts {
		if own := &sh.ctx.Shop.Parts[i]; (group == "" || own.Group == group) && strings.Contains(strings.ToLower(own.Name+" "+own.ID), strings.ToLower(q)) {
			out.Parts = append(out.Parts, viewPart(own, own.ID, true))
		}
	}
	for _, p := range sh.ctx.Parts.Search(q, group) {
		out.Parts = append(out.Parts, viewPart(&p, p.ID+"@"+parts.Edition, false))
	}
	return out, nil
}

func viewPart(it *doc.Item, ref string, own bool) PartView {
	v := PartView{Ref: ref, Name: it.Name, Group: it.Group, Own: own, Basis: it.Source}
	if m, ok := it.Mass.Get(); ok {
		v.Mass = m.String()
	}
	for i, o := range []unit.Opt[unit.Length]{it.Size.X, it.Size.Y, it.Size.Z} {
		if l, ok := o.Get(); ok {
			if i > 0 && v.Size != "" {
				v.Size += " × "
			}
			v.Size += unit.Number(l.Millimetres(), 0)
		}
	}
	if v.Size != "" {
		v.Size += unit.Space + "mm"
	}
	return v
}

func groups() []Choice {
	var out []Choice
	kit, _ := edit.GridOf("kit")
	col, _ := kit.Column("group")
	f, _ := kit.Field(col)
	for _, g := range f.Enum {
		out = append(out, Choice{ID: g, Text: check.GroupWords(g)})
	}
	return out
}

// getChoices is what a new build can start from, and the words of the switches.
func (s *Server) getChoices(http.ResponseWriter, *http.Request) (any, error) {
	out := Choices{Groups: groups()}
	for _, c := range s.currentShop().ctx.Parts.Classes() {
		out.Classes = append(out.Classes, Choice{ID: c.ID, Text: c.Name})
	}
	for _, c := range [...]string{"uk", "eu", "us", "au", "nz"} {
		out.Countries = append(out.Countries, Choice{ID: c, Text: countryWords[c]})
	}
	for _, st := range derive.AllStates() {
		out.States = append(out.States, Choice{ID: string(st), Text: stateWords[string(st)]})
	}
	for _, v := range sheet.Views {
		out.Views = append(out.Views, Choice{ID: v, Text: viewWords[v]})
	}
	for id := range s.cfg.Demos {
		out.Demos = append(out.Demos, Choice{ID: id, Text: id})
	}
	slices.SortFunc(out.Demos, func(a, b Choice) int { return strings.Compare(a.ID, b.ID) })
	return out, nil
}

var stateWords = map[string]string{"travel": "On the road", "camp": "Camp, by day", "night": "Night, beds made", "stored": "Laid up"}

var countryWords = map[string]string{"uk": "United Kingdom", "eu": "European Union", "us": "United States", "au": "Australia", "nz": "New Zealand"}

var viewWords = map[string]string{"plan": "Plan", "left": "From the left", "right": "From the right", "rear": "From behind",
	"wall-left": "Left wall, inside", "wall-right": "Right wall, inside", "section": "Section"}
