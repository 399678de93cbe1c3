// Package parts answers: what does a thing of this kind usually weigh, and what does a van of this class usually measure?
//
// Load reads the catalogue that is built into the program; the caller keeps it. The data are build files: a file of parts
// holds only items, a class of van holds a van and the allowance rows of an enquiry, a template holds items to start from.
// So one binder reads them all, and a part has exactly the keys of an item.
//
// Everything is generic: no maker, no model. Masses are typical of the trade with a stated 95 % half-width; each part says
// in its source where the value comes from. What a class of van fills in is assumed, never measured.
package parts

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"berthwright/diag"
	"berthwright/doc"
	"berthwright/docfile"
)

// Edition is the edition of the catalogue built into this program, as it stands behind the @ of a reference.
const Edition = "2026.1"

//go:embed data/*.yaml classes/*.yaml templates/*.yaml
var files embed.FS

// Catalogue holds generic parts, classes of van and templates. The zero value is empty. It never changes; a file of it is
// bound when something in it is first asked for, so that a program that needs one part does not wait for all of them.
// It may be used by several goroutines.
type Catalogue struct {
	ids       []string       // of the parts, in the order of the catalogue
	at        map[string]int // id of a part: index into shelves
	shelves   []shelf
	classes   []shelf
	templates []shelf
}

// shelf is one file of the catalogue.
type shelf struct {
	id   string // of the class or template: the name of its file
	read func() doc.Build
}

// Class is a generic class of van. Its Van fills what a build leaves out, marked assumed; plate and ticket in it are
// typical values, never a substitute for the plate on the van and a weighing.
type Class struct {
	ID   string
	Name string
	Van  doc.Van
	// Allowances are the rows of an enquiry, one for each group: mass with spread over a stretch of this van. They are
	// those of the catalogue itself: read them, do not change them.
	Allowances []doc.Item
}

// Template is a list of items to start a build from: parts of the catalogue, placed by zone.
type Template struct {
	ID    string
	Name  string
	Class string // class of van it was thought out for
	Items []doc.Item
}

// Load lists the catalogue. An error is a fault of the data built in. That every file of it binds without a diagnostic is
// held by a test; a fault there that got past it panics when the file is first needed.
func Load() (Catalogue, error) {
	c := Catalogue{at: map[string]int{}}
	var err error
	if c.shelves, err = open("data"); err != nil {
		return Catalogue{}, err
	}
	for i, s := range c.shelves {
		text, err := files.ReadFile("data/" + s.id + ".yaml")
		if err != nil {
			return Catalogue{}, fmt.Errorf("parts: %w", err)
		}
		for line := range strings.Lines(string(text)) {
			id, ok := strings.CutPrefix(line, "  - id: ")
			if !ok {
				continue
			}
			id = strings.TrimSpace(id)
			if _, twice := c.at[id]; twice {
				return Catalogue{}, fmt.Errorf("parts: part %q is there twice", id)
			}
			c.at[id] = i
			c.ids = append(c.ids, id)
		}
	}
	if c.classes, err = open("classes"); err != nil {
		return Catalogue{}, err
	}
	if c.templates, err = open("templates"); err != nil {
		return Catalogue{}, err
	}
	return c, nil
}

// open lists the files of a folder, none of them read yet.
func open(folder string) ([]shelf, error) {
	entries, err := fs.ReadDir(files, folder)
	if err != nil {
		return nil, fmt.Errorf("parts: %w", err)
	}
	var out []shelf
	for _, e := range entries {
		name := path.Join(folder, e.Name())
		out = append(out, shelf{
			id: strings.TrimSuffix(e.Name(), ".yaml"),
			read: sync.OnceValue(func() doc.Build {
				f, err := bind(name)
				if err != nil {
					panic("parts: " + err.Error())
				}
				return f
			}),
		})
	}
	return out, nil
}

// bind reads one file; anything wrong with it is an error.
func bind(name string) (doc.Build, error) {
	text, err := files.ReadFile(name)
	if err != nil {
		return doc.Build{}, err
	}
	f := docfile.Read(name, text)
	if len(f.Diags) > 0 {
		return doc.Build{}, errors.New(f.Diags[0].Text())
	}
	return f.Build, nil
}

// Ref splits "fridge-compressor-72@2026.1" into the id of the part and the edition; without "@" the edition is "".
func Ref(ref string) (id, edition string) {
	id, edition, _ = strings.Cut(ref, "@")
	return id, edition
}

// Len returns the number of parts.
func (c Catalogue) Len() int { return len(c.ids) }

// Find returns the part that ref names, in this edition, whatever edition ref names; Compare tells the difference.
func (c Catalogue) Find(ref string) (doc.Item, bool) {
	id, _ := Ref(ref)
	i, ok := c.at[id]
	if !ok {
		return doc.Item{}, false
	}
	for _, it := range c.shelves[i].read().Items {
		if it.ID == id {
			return it, true
		}
	}
	return doc.Item{}, false
}

// Fit returns a copy of a part as an item of a build: with the id given, and From naming the part and this edition.
func (c Catalogue) Fit(ref, id string) (doc.Item, bool) {
	it, ok := c.Find(ref)
	if !ok {
		return doc.Item{}, false
	}
	it.From = it.ID + "@" + Edition
	it.ID = id
	return it, true
}

// Search returns the parts of a group ("" for all) in which every word of text occurs, in name or id, in the order of the
// catalogue; parts whose name begins with text come first.
func (c Catalogue) Search(text, group string) []doc.Item {
	words := strings.Fields(strings.ToLower(text))
	whole := strings.Join(words, " ")
	var first, rest []doc.Item
next:
	for _, p := range c.all() {
		if group != "" && p.Group != group {
			continue
		}
		name := strings.ToLower(p.Name)
		for _, w := range words {
			if !strings.Contains(name, w) && !strings.Contains(p.ID, w) {
				continue next
			}
		}
		if strings.HasPrefix(name, whole) {
			first = append(first, p)
		} else {
			rest = append(rest, p)
		}
	}
	return append(first, rest...)
}

func (c Catalogue) all() []doc.Item {
	out := make([]doc.Item, 0, len(c.ids))
	for _, s := range c.shelves {
		out = append(out, s.read().Items...)
	}
	return out
}

// Classes returns the classes of van, by id.
func (c Catalogue) Classes() []Class {
	var out []Class
	for _, s := range c.classes {
		out = append(out, s.class())
	}
	return out
}

// Class returns one class of van.
func (c Catalogue) Class(id string) (Class, bool) {
	for _, s := range c.classes {
		if s.id == id {
			return s.class(), true
		}
	}
	return Class{}, false
}

func (s shelf) class() Class {
	b := s.read()
	return Class{ID: s.id, Name: b.Head.Name, Van: b.Van, Allowances: slices.Clip(b.Items)}
}

// Templates returns the templates, by id.
func (c Catalogue) Templates() []Template {
	var out []Template
	for _, s := range c.templates {
		b := s.read()
		t := Template{ID: s.id, Name: b.Head.Name, Class: b.Van.Class}
		for _, row := range b.Items {
			it, ok := c.Fit(row.From, row.ID)
			if !ok {
				panic("parts: template " + s.id + ": no part " + row.From)
			}
			it.Zone = row.Zone
			t.Items = append(t.Items, it)
		}
		out = append(out, t)
	}
	return out
}

// Known reports whether an id outside a build exists: kind is "part" or "class". Other kinds are unknown to it.
func (c Catalogue) Known(kind, id string) bool {
	switch kind {
	case "part":
		id, _ = Ref(id)
		_, ok := c.at[id]
		return ok
	case "class":
		return slices.ContainsFunc(c.classes, func(s shelf) bool { return s.id == id })
	}
	return false
}

// Near returns the known id that was probably meant, with the edition as it was written. kind and id are as for Known;
// own are ids of parts that are known besides, such as those of a workshop.
func (c Catalogue) Near(kind, id string, own ...string) (string, bool) {
	switch kind {
	case "part":
		name, edition := Ref(id)
		near, ok := diag.Nearest(name, slices.Concat(own, c.ids), 3)
		if ok && edition != "" {
			near += "@" + edition
		}
		return near, ok
	case "class":
		var all []string
		for _, s := range c.classes {
			all = append(all, s.id)
		}
		return diag.Nearest(id, all, 3)
	}
	return "", false
}
