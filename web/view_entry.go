package web

import (
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/edit"
)

// getForm answers every field of one entry, written from the field table.
func (s *Server) getForm(_ http.ResponseWriter, r *http.Request) (any, error) {
	path := strings.Trim(r.URL.Query().Get("path"), "/")
	now, err := s.newest(r.Context(), r.PathValue("id"))
	if err != nil {
		return nil, err
	}
	field, ok := edit.FieldAt(path)
	if !ok || path == "" || field.List || field.Kind != doc.Mapping {
		return nil, refuse(http.StatusNotFound, "no-form", fmt.Sprintf("the file has no entry %q", cut(path)), "such as items/fridge, or van/shell")
	}
	if _, there := now.file.Value(path); !there && strings.Contains(path, "/") && entryPath(path) {
		return nil, refuse(http.StatusNotFound, "no-entry", fmt.Sprintf("nothing has the path %q", cut(path)), "it may have been taken out meanwhile")
	}
	v := now.view(string(derive.Travel)) // what is assumed and marked stands there
	f := &former{r: now, sys: now.assessed().System(), assumed: map[string]string{}, marks: map[string]*Marked{}}
	f.prepare(&v)
	out := FormView{Path: path, Title: f.titleOf(path), Revision: now.number}
	f.entry(&out, field, path, "")
	return out, nil
}

// entryPath tells whether a path ends in the name of an entry of a list.
func entryPath(path string) bool {
	head, _, _ := cutLast(path)
	f, ok := edit.FieldAt(head)
	return ok && f.List
}

func cutLast(path string) (head, last string, ok bool) {
	i := strings.LastIndexByte(path, '/')
	if i < 0 {
		return "", path, false
	}
	return path[:i], path[i+1:], true
}

// titleOf names what a path leads to.
func (f *former) titleOf(path string) string {
	for _, key := range []string{"name", "words", "what", "text"} {
		if t, ok := f.r.file.Value(path + "/" + key); ok && len(t) < 120 {
			return plain(t)
		}
	}
	_, last, _ := cutLast(path)
	if n, ok := strings.CutPrefix(last, "#"); ok {
		return "entry " + n
	}
	return words(last)
}

// words makes a key of the file into words.
func words(key string) string {
	t := strings.ReplaceAll(key, "-", " ")
	if t == "" {
		return t
	}
	return strings.ToUpper(t[:1]) + t[1:]
}

// entry adds the sections of what is at path: its own values first, then what it holds, then its lists.
func (f *former) entry(out *FormView, field *doc.Field, path, title string) {
	own := FormSection{ID: path, Title: title, Says: field.Help}
	if title == "" {
		own.Title, own.Says = "The entry itself", ""
	}
	at := len(out.Sections)
	out.Sections = append(out.Sections, own)
	for i := range field.Fields {
		c := &field.Fields[i]
		if c.ID || c.KeyField || c.Reserved {
			continue
		}
		at1 := path + "/" + c.Key
		name := strings.TrimPrefix(title+" · "+words(c.Key), " · ")
		switch {
		case c.List && c.Kind == doc.Mapping:
			f.list(out, c, at1, name)
		case c.List:
			f.wordList(out, c, at1, name)
		case c.Kind != doc.Mapping:
			out.Sections[at].Fields = append(out.Sections[at].Fields, f.plainField(at1, c, ""))
		case small(c):
			for k := range c.Fields {
				out.Sections[at].Fields = append(out.Sections[at].Fields, f.plainField(at1+"/"+c.Fields[k].Key, &c.Fields[k], words(c.Key)))
			}
		default:
			f.entry(out, c, at1, name)
		}
	}
	if len(out.Sections[at].Fields) == 0 {
		out.Sections = append(out.Sections[:at], out.Sections[at+1:]...)
	}
}

// small tells of a point, a size or a pair: it stands among the fields of its holder.
func small(c *doc.Field) bool {
	if len(c.Fields) > 3 {
		return false
	}
	for i := range c.Fields {
		if f := &c.Fields[i]; f.List || f.Kind == doc.Mapping || f.Reserved {
			return false
		}
	}
	return true
}

func (f *former) plainField(path string, c *doc.Field, of string) FieldView {
	v := f.field(path, c)
	if _, said := labels[path]; !said {
		v.Label = words(c.Key)
		if of != "" {
			v.Label = of + ", " + strings.ToLower(v.Label)
		}
	}
	if use := c.Usually(); use != "" {
		v.Help += "; usually " + use
	}
	return v
}

// list adds the entries of a list of mappings, each a section of its own.
func (f *former) list(out *FormView, c *doc.Field, path, name string) {
	one := *c
	one.List = false
	key := ""
	if id, ok := one.IDField(); ok {
		key = id.Key
	}
	for _, p := range f.children(path) {
		_, last, _ := cutLast(p)
		f.entry(out, &one, p, name+" "+strings.TrimPrefix(last, "#"))
	}
	out.Lists = append(out.Lists, FormList{Path: path, Title: name, Help: c.Help, Key: key})
}

// wordList is a list of words or ids: it is typed as one line.
func (f *former) wordList(out *FormView, c *doc.Field, path, name string) {
	var all []string
	for _, p := range f.children(path) {
		if t, ok := f.r.file.Value(p); ok {
			all = append(all, plain(t))
		}
	}
	out.Lists = append(out.Lists, FormList{Path: path, Title: name, Help: c.Help, Words: true, Text: strings.Join(all, ", ")})
}

// children are the paths of what is written directly under a path.
func (f *former) children(path string) []string {
	if _, ok := f.r.file.Value(path); !ok {
		return nil
	}
	if f.paths == nil {
		f.paths = map[string][]string{}
		for _, p := range f.r.file.Paths() {
			head, _, _ := cutLast(p)
			f.paths[head] = append(f.paths[head], p)
		}
	}
	return f.paths[path]
}

// viewNotes are the notes for people with what they are pinned to.
func viewNotes(now *docfile.File, placed []derive.Placed) []NoteView {
	var out []NoteView
	for i, n := range now.Build.Notes {
		v := NoteView{ID: n.ID, Path: "notes/" + n.ID, Text: n.Text, By: n.By}
		if n.ID == "" {
			v.Path = "notes/#" + strconv.Itoa(i+1)
		}
		if d, ok := n.Date.Get(); ok {
			v.Date = fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
		}
		um := func(l int64) *int64 { return &l }
		for k := range placed {
			p := &placed[k]
			if p.Item.ID != n.Item {
				continue
			}
			v.On = Subject{Path: p.Path, Name: p.Name()}
			if p.Centre[0].Known() && p.Centre[1].Known() && p.Centre[2].Known() {
				v.On.X, v.On.Y, v.On.Z = um(p.Centre[0].V.Micrometres()), um(p.Centre[1].V.Micrometres()), um(p.Centre[2].V.Micrometres())
			}
		}
		if at, ok := n.At.Get(); ok {
			if x, ok := at.X.Get(); ok {
				v.On.X = um(x.Micrometres())
			}
			if y, ok := at.Y.Get(); ok {
				v.On.Y = um(y.Micrometres())
			}
			if z, ok := at.Z.Get(); ok {
				v.On.Z = um(z.Micrometres())
			}
		}
		out = append(out, v)
	}
	return out
}
