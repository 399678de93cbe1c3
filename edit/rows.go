package edit

import (
	"fmt"
	"reflect"
	"regexp"
	"strconv"
	"strings"

	"berthwright/doc"
	"berthwright/docfile"
)

// add makes a new row. Cells are typed in the order of the columns.
func (c *compiler) add(g Gesture) {
	if g.Grid == "" {
		g.Grid = "kit"
	}
	grid, ok := GridOf(g.Grid)
	if !ok || !grid.CanAdd {
		c.refuse("", "no-grid", fmt.Sprintf("no row can be added to the sheet %s", quote(g.Grid)), "", g.Text, false)
		return
	}
	vals := values{}
	name := strings.TrimSpace(g.Text)
	if g.Part != "" {
		item, ok := doc.Item{}, false
		if c.env.Part != nil && grid.List == "items" {
			item, ok = c.env.Part(g.Part)
		}
		if !ok {
			c.refuse("", "unknown-id", fmt.Sprintf("no catalogue part is called %s", quote(g.Part)), "", g.Part, false)
			return
		}
		flatten(reflect.ValueOf(item), mustEntry(grid), "", vals)
		delete(vals, "id")
		vals["from"] = docfile.Quote(g.Part)
		if name == "" {
			name = item.Name
		}
	}
	if typed := strings.TrimSpace(g.Cells["name"]); typed != "" {
		name = typed
	}
	id := c.newID(name, grid.Noun)
	if name != "" {
		vals["name"] = docfile.Quote(name)
	}
	r := &row{c: c, grid: grid, id: id, fresh: true, set: vals}
	var besides []Gesture
	for i := range grid.Columns {
		col := &grid.Columns[i]
		text, ok := g.Cells[col.ID]
		if !ok || strings.TrimSpace(text) == "" || col.ID == "name" {
			continue
		}
		if col.ID == "stowed" || col.ID == "fill" {
			besides = append(besides, Gesture{Kind: "cell", Grid: grid.ID, Row: id, Column: col.ID, Text: text})
			continue
		}
		r.typeIn(col, text)
	}
	for id := range g.Cells {
		if _, ok := grid.Column(id); !ok {
			c.refuse("", "no-column", fmt.Sprintf("the sheet %s has no column %s", quote(grid.ID), quote(id)), "", g.Cells[id], false)
		}
	}
	if len(r.pasted) > 0 {
		remark := vals["remark"]
		if s, err := strconv.Unquote(remark); err == nil {
			remark = s
		}
		vals["remark"] = docfile.Quote(strings.TrimPrefix(remark+"; "+strings.Join(r.pasted, "; "), "; "))
	}
	if grid.ID == "kit" && vals["group"] == "" {
		vals["group"] = trade(name)
	}
	vals["id"] = docfile.Quote(id)
	for p, v := range vals {
		if v == "" {
			delete(vals, p)
		}
	}
	after := ""
	switch n := len(c.out.Made); {
	case g.Row == Above && n > 0:
		after = escape(c.out.Made[n-1])
	case g.Row != "":
		if _, ok := c.find(grid, g.Row); ok {
			after = escape(g.Row)
		}
	}
	c.out.Refused = append(c.out.Refused, r.wrong...)
	c.op(doc.Op{Kind: doc.Insert, Path: grid.List, Value: tree(mustEntry(grid), vals, ""), After: after})
	c.out.Made = append(c.out.Made, id)
	for _, b := range besides {
		c.beside("loading/travelling/stowed", "zone", "mass", b.Row, b.Text)
	}
}

var idAtStart = regexp.MustCompile(`^\{(.*?)\bid: ("[^"]*"|[^,}]+)`)

// copy puts the same again behind a row, with an id of its own.
func (c *compiler) copy(g Gesture) {
	if g.Grid == "" {
		g.Grid = "kit"
	}
	grid, ok := GridOf(g.Grid)
	if !ok {
		return
	}
	r, ok := c.find(grid, g.Row)
	if !ok {
		c.noRow(g)
		return
	}
	text, _ := c.f.Value(r.path(""))
	id := c.newID(strings.TrimRight(strings.TrimRight(g.Row, "0123456789"), "-"), grid.Noun)
	if m := idAtStart.FindStringSubmatch(text); m == nil || strings.Trim(m[2], `"`) != g.Row {
		c.refuse(r.path(""), "no-row", "the row has no id of its own", "", g.Row, false)
		return
	}
	text = idAtStart.ReplaceAllString(text, "{${1}id: "+strings.ReplaceAll(docfile.Quote(id), "$", "$$"))
	c.op(doc.Op{Kind: doc.Insert, Path: grid.List, Value: text, After: escape(g.Row)})
	c.out.Made = append(c.out.Made, id)
}

// remove takes a row out, and with it what other lists say of it. Neighbours that were measured from it keep their
// place as a position.
func (c *compiler) remove(g Gesture) {
	if g.Grid == "" {
		g.Grid = "kit"
	}
	grid, ok := GridOf(g.Grid)
	if !ok {
		return
	}
	r, ok := c.find(grid, g.Row)
	if !ok {
		c.noRow(g)
		return
	}
	if grid.List == "items" {
		c.freeNeighbours(g.Row)
	}
	c.dropRefs(r.path(""), g.Row)
	c.op(doc.Op{Kind: doc.Remove, Path: r.path("")})
}

// dropRefs takes out what the rest of the build says of an id that goes: a value that names it is emptied, an entry that
// is named by it goes with it.
func (c *compiler) dropRefs(path, id string) {
	gone := map[string]bool{}
	for _, p := range c.f.Paths() {
		f, ok := FieldAt(p)
		if !ok || f.Ref == "" || strings.HasPrefix(p, path+"/") || strings.Contains(p, "/place/") {
			continue
		}
		parent := p[:strings.LastIndexByte(p, '/')]
		in, _ := FieldAt(parent)
		switch {
		case f.List, unquote(c.f, p) != id, gone[parent]:
		case in != nil && in.List && in.Kind != doc.Mapping: // a word of a list
			c.op(doc.Op{Kind: doc.Remove, Path: p})
		case f.KeyField:
			gone[parent] = true
			c.op(doc.Op{Kind: doc.Remove, Path: parent})
		default:
			c.op(doc.Op{Kind: doc.Unset, Path: p})
		}
	}
}

// unquote returns the text written at a path without its quotes.
func unquote(f *docfile.File, path string) string {
	v, _ := f.Value(path)
	if len(v) > 1 && v[0] == '"' {
		if s, err := strconv.Unquote(v); err == nil {
			return s
		}
	}
	return v
}

func (c *compiler) freeNeighbours(id string) {
	b := c.build()
	kit, _ := GridOf("kit")
	for i := range b.Items {
		it := &b.Items[i]
		pl := &it.Place
		if it.ID == id {
			continue
		}
		r := &row{c: c, grid: kit, id: it.ID, set: values{}}
		for k, names := range [3][2]string{{pl.Behind, pl.Ahead}, {pl.LeftOf, pl.RightOf}, {pl.OnTop, ""}} {
			if names[0] != id && names[1] != id {
				continue
			}
			way := [3][]string{along, across, upward}[k]
			r.only(way, "")
			if p := c.placed(it.ID, ""); p != nil && p.At[k].Known() {
				r.assign("at/"+axes[k], length(p.At[k].V))
			}
		}
		c.emit(r)
	}
}
