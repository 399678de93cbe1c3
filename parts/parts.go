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
	"strings"

	"berthwright/doc"
	"berthwright/docfile"
)

// Edition is the edition of the catalogue built into this program, as it stands behind the @ of a reference.
const Edition = "2026.1"

//go:embed data/*.yaml classes/*.yaml templates/*.yaml
var files embed.FS

// Catalogue holds generic parts, classes of van and templates. The zero value is empty. It is not changed once loaded.
type Catalogue struct {
	parts     []doc.Item
	index     map[string]int
	classes   []Class
	templates []Template
}

// Class is a generic class of van. Its Van fills what a build leaves out, marked assumed; plate and ticket in it are
// typical values, never a substitute for the plate on the van and a weighing.
type Class struct {
	ID   string
	Name string
	Van  doc.Van
	// Allowances are the rows of an enquiry, one for each group: mass with spread over a stretch of this van.
	Allowances []doc.Item
}

// Template is a list of items to start a build from: parts of the catalogue, placed by zone.
type Template struct {
	ID    string
	Name  string
	Class string // class of van it was thought out for
	Items []doc.Item
}

// Load reads the catalogue. An error is a fault of the data built in, and names the file and the first problem.
func Load() (Catalogue, error) {
	c := Catalogue{index: map[string]int{}}
	err := c.each("data", func(b doc.Build) error {
		for _, it := range b.Items {
			if _, twice := c.index[it.ID]; twice {
				return fmt.Errorf("part %q is there twice", it.ID)
			}
			c.index[it.ID] = len(c.parts)
			c.parts = append(c.parts, it)
		}
		return nil
	})
	if err != nil {
		return Catalogue{}, err
	}
	err = c.each("classes", func(b doc.Build) error {
		c.classes = append(c.classes, Class{ID: b.Head.ID, Name: b.Head.Name, Van: b.Van, Allowances: b.Items})
		return nil
	})
	if err != nil {
		return Catalogue{}, err
	}
	err = c.each("templates", func(b doc.Build) error {
		t := Template{ID: b.Head.ID, Name: b.Head.Name, Class: b.Van.Class}
		for _, row := range b.Items {
			it, ok := c.Fit(row.From, row.ID)
			if !ok {
				return fmt.Errorf("no part %q", row.From)
			}
			it.Zone = row.Zone
			t.Items = append(t.Items, it)
		}
		c.templates = append(c.templates, t)
		return nil
	})
	if err != nil {
		return Catalogue{}, err
	}
	return c, nil
}

func (c Catalogue) each(folder string, do func(doc.Build) error) error {
	entries, err := fs.ReadDir(files, folder)
	if err != nil {
		return fmt.Errorf("parts: %w", err)
	}
	for _, e := range entries {
		name := path.Join(folder, e.Name())
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return fmt.Errorf("parts: %w", err)
		}
		f := docfile.Read(name, text)
		if err := firstProblem(f); err != nil {
			return fmt.Errorf("parts: %s: %w", name, err)
		}
		if err := do(f.Build); err != nil {
			return fmt.Errorf("parts: %s: %w", name, err)
		}
	}
	return nil
}

// Ref splits "fridge-compressor-72@2026.1" into the id of the part and the edition; without "@" the edition is "".
func Ref(ref string) (id, edition string) {
	id, edition, _ = strings.Cut(ref, "@")
	return id, edition
}

// Len returns the number of parts.
func (c Catalogue) Len() int { return len(c.parts) }

// Find returns the part that ref names, in this edition, whatever edition ref names; Compare tells the difference.
func (c Catalogue) Find(ref string) (doc.Item, bool) {
	id, _ := Ref(ref)
	i, ok := c.index[id]
	if !ok {
		return doc.Item{}, false
	}
	return c.parts[i], true
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
	for _, p := range c.parts {
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

// Classes returns the classes of van, by id.
func (c Catalogue) Classes() []Class { return append([]Class(nil), c.classes...) }

// Class returns one class of van.
func (c Catalogue) Class(id string) (Class, bool) {
	for _, k := range c.classes {
		if k.ID == id {
			return k, true
		}
	}
	return Class{}, false
}

// Templates returns the templates, by id.
func (c Catalogue) Templates() []Template { return append([]Template(nil), c.templates...) }

// Known reports whether an id outside a build exists: kind is "part" or "class". Other kinds are unknown to it.
func (c Catalogue) Known(kind, id string) bool {
	switch kind {
	case "part":
		_, ok := c.Find(id)
		return ok
	case "class":
		_, ok := c.Class(id)
		return ok
	}
	return false
}

// firstProblem returns the first thing wrong with a file that is built in.
func firstProblem(f *docfile.File) error {
	if len(f.Diags) > 0 {
		return errors.New(f.Diags[0].Text())
	}
	return nil
}
