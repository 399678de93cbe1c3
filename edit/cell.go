package edit

import (
	"fmt"
	"strings"

	"berthwright/doc"
	"berthwright/docfile"
)

// row is one entry of a sheet while its cells are typed into.
type row struct {
	c     *compiler
	grid  *Grid
	id    string
	fresh bool      // it is not in the build yet
	order []string  // paths assigned, in order
	set   values    // assigned values; "" empties
	wrong []Refused // texts that are no value

	pasted []string // of a new row: places that were not understood, for its remark
}

func (r *row) assign(path, yaml string) {
	if _, again := r.set[path]; !again {
		r.order = append(r.order, path)
	}
	r.set[path] = yaml
}

// get returns the value at a path of the row as YAML text, right or wrong.
func (r *row) get(path string) (string, bool) {
	if v, ok := r.set[path]; ok {
		return v, v != ""
	}
	if r.fresh {
		return "", false
	}
	return r.c.f.Value(r.path(path))
}

func (r *row) path(rel string) string {
	if rel == "" {
		return r.grid.List + "/" + escape(r.id)
	}
	return r.grid.List + "/" + escape(r.id) + "/" + rel
}

func (r *row) refuse(rel string, w Refused) {
	w.Gesture = r.c.gesture
	w.Path = r.path(rel)
	r.wrong = append(r.wrong, w)
}

// typeIn types text into a column of the row.
func (r *row) typeIn(col *Column, text string) {
	if col.Fixed {
		r.refuse("", Refused{Code: "fixed", Says: fmt.Sprintf("%s cannot be typed into", quote(col.Title)), Found: text})
		return
	}
	if f, ok := r.grid.Field(col); ok {
		r.typeField(col.Path, f, text)
		return
	}
	switch col.ID {
	case "line":
		r.line(text)
	case "far":
		r.far(text)
	case "side":
		r.side(text)
	case "level":
		r.level(text)
	}
}

func (r *row) typeField(path string, f *doc.Field, text string) {
	t := r.c.value(f, text)
	if t.wrong != nil {
		w := *t.wrong
		w.Kept = t.yaml != ""
		r.refuse(path, w)
	}
	if t.empty {
		r.assign(path, "")
	} else if t.yaml != "" {
		r.assign(path, t.yaml)
	}
}

// find returns a row of the build.
func (c *compiler) find(grid *Grid, id string) (*row, bool) {
	r := &row{c: c, grid: grid, id: id, set: values{}}
	return r, id != "" && !strings.HasPrefix(id, "#") && written(c.f, r.path(""))
}

func written(f *docfile.File, path string) bool {
	_, ok := f.Value(path)
	return ok
}

// cell types into a cell of a row that is there.
func (c *compiler) cell(g Gesture) {
	grid, col, ok := c.column(g.Grid, g.Column, g.Text)
	if !ok {
		return
	}
	r, ok := c.find(grid, g.Row)
	if !ok {
		c.noRow(g)
		return
	}
	switch col.ID {
	case "fill":
		c.beside("loading/travelling/fills", "tank", "level", g.Row, g.Text)
		return
	case "stowed":
		c.beside("loading/travelling/stowed", "zone", "mass", g.Row, g.Text)
		return
	}
	r.typeIn(col, g.Text)
	c.emit(r)
}

func (c *compiler) noRow(g Gesture) {
	c.refuse("", "no-row", fmt.Sprintf("no row has the id %s", quote(g.Row)), "it may have been taken out meanwhile", g.Row, false)
}

func (c *compiler) column(grid, column, text string) (*Grid, *Column, bool) {
	if grid == "" {
		grid = "kit"
	}
	g, ok := GridOf(grid)
	if !ok {
		c.refuse("", "no-grid", fmt.Sprintf("no sheet is called %s", quote(grid)), "", text, false)
		return nil, nil, false
	}
	col, ok := g.Column(column)
	if !ok {
		c.refuse("", "no-column", fmt.Sprintf("the sheet %s has no column %s", quote(grid), quote(column)), "", text, false)
	}
	return g, col, ok
}

// emit writes what was typed into an existing row as operations: what goes first, so that no two measures of one way
// stand beside each other meanwhile.
func (c *compiler) emit(r *row) {
	c.out.Refused = append(c.out.Refused, r.wrong...)
	for _, p := range r.order {
		if r.set[p] == "" {
			c.unset(r.path(p))
		}
	}
	for _, p := range r.order {
		if v := r.set[p]; v != "" {
			c.op(doc.Op{Kind: doc.Set, Path: r.path(p), Value: v})
		}
	}
}

// unset empties a value where something is written.
func (c *compiler) unset(path string) {
	if written(c.f, path) {
		c.op(doc.Op{Kind: doc.Unset, Path: path})
	}
}

// field types into a form.
func (c *compiler) field(g Gesture) {
	f, ok := FieldAt(g.Path)
	if !ok {
		c.refuse(g.Path, "no-field", fmt.Sprintf("the file has no place %s", quote(g.Path)), "", g.Text, false)
		return
	}
	if f.ID || f.KeyField {
		c.refuse(g.Path, "fixed", "an id is never changed", "", g.Text, false)
		return
	}
	t := c.value(f, g.Text)
	if t.wrong != nil {
		c.refuse(g.Path, t.wrong.Code, t.wrong.Says, t.wrong.Hint, t.wrong.Found, t.yaml != "")
	}
	switch {
	case t.empty:
		c.unset(g.Path)
	case t.yaml != "":
		c.op(doc.Op{Kind: doc.Set, Path: g.Path, Value: t.yaml})
	}
}

// beside sets a value in a list that is keyed by something of another list: the fill of a tank, the luggage of a zone.
func (c *compiler) beside(list, key, value, id, text string) {
	entry, ok := FieldAt(list)
	if !ok {
		return
	}
	f, ok := below(entry, value)
	if !ok {
		return
	}
	path := list + "/" + escape(id)
	t := c.value(f, text)
	if t.wrong != nil {
		c.refuse(path+"/"+value, t.wrong.Code, t.wrong.Says, t.wrong.Hint, t.wrong.Found, t.yaml != "")
	}
	there := written(c.f, path)
	switch {
	case t.empty && there:
		c.op(doc.Op{Kind: doc.Remove, Path: path})
	case t.empty:
	case there:
		c.op(doc.Op{Kind: doc.Set, Path: path + "/" + value, Value: t.yaml})
	default:
		c.op(doc.Op{Kind: doc.Insert, Path: list, Value: "{" + strings.Join([]string{key + ": " + docfile.Quote(id), value + ": " + t.yaml}, ", ") + "}"})
	}
}
