package edit

import (
	"fmt"
	"strings"
	"unicode"

	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/unit"
)

// Pasted is how a table was understood.
type Pasted struct {
	Columns  []string // column ids of the sheet; "" for one that is skipped
	Titles   []string // of the table, or made up
	Header   bool     // the first row holds titles
	Sample   [][]string
	Rows     int
	Bad      []Refused // cells that are no value; Path holds "row/column" by number from 1
	Gestures []Gesture // one for each row, to be compiled
	Says     string    // what allowances the rows stand in for; "" when none
}

// Corrected is what the person put right about how a table was understood.
type Corrected struct {
	Columns []string // nil: not corrected
	Header  *bool
}

// Paste reads a table for a sheet. Nothing is changed by it; its gestures do.
func Paste(f *docfile.File, env Env, grid, text, after string, as Corrected) (Pasted, error) {
	g, ok := GridOf(grid)
	if grid == "" {
		g, ok = GridOf("kit")
	}
	if !ok || !g.CanAdd {
		return Pasted{}, fmt.Errorf("no table can be pasted into the sheet %s", quote(grid))
	}
	rows := readTable(text)
	if len(rows) == 0 {
		return Pasted{}, fmt.Errorf("the table is empty")
	}
	if len(rows) > maxRows {
		return Pasted{}, fmt.Errorf("the table has more than %d rows", maxRows)
	}
	width := 0
	for _, r := range rows {
		width = max(width, len(r))
	}
	p := Pasted{Header: looksLikeHeader(g, rows)}
	if as.Header != nil {
		p.Header = *as.Header
	}
	body := rows
	titles := make([]string, width)
	if p.Header {
		copy(titles, rows[0])
		body = rows[1:]
	}
	p.Columns = match(g, titles, body)
	if as.Columns != nil {
		p.Columns = make([]string, width)
		for i := range min(width, len(as.Columns)) {
			if _, ok := g.Column(as.Columns[i]); ok {
				p.Columns[i] = as.Columns[i]
			}
		}
	}
	for i, t := range titles {
		if t == "" {
			t = fmt.Sprintf("column %d", i+1)
		}
		p.Titles = append(p.Titles, t)
	}
	p.Sample = body[:min(len(body), 5)]
	p.Rows = len(body)
	c := &compiler{f: f, env: env, taken: map[string]bool{}}
	for n, cells := range body {
		add := Gesture{Kind: "add", Grid: g.ID, Row: after, Cells: map[string]string{}}
		for i, text := range cells {
			id := p.Columns[i]
			text = strings.TrimSpace(text)
			if id == "" || text == "" || add.Cells[id] != "" {
				continue
			}
			text = withUnit(g, id, titles[i], text)
			add.Cells[id] = text
			if w := c.wrong(g, id, text); w != nil {
				w.Path = fmt.Sprintf("%d/%d", n+1, i+1)
				p.Bad = append(p.Bad, *w)
			}
		}
		add.Text = add.Cells["name"]
		delete(add.Cells, "name")
		p.Gestures = append(p.Gestures, add)
		if after != "" {
			after = Above
		}
	}
	if g.ID == "kit" {
		p.Says = standsFor(f, env, p.Gestures)
	}
	return p, nil
}

// wrong tells what is wrong with a cell of a new row, if anything.
func (c *compiler) wrong(g *Grid, column, text string) *Refused {
	col, ok := g.Column(column)
	if !ok {
		return nil
	}
	r := &row{c: c, grid: g, id: "new", fresh: true, set: values{}}
	r.typeIn(col, text)
	if len(r.wrong) == 0 {
		return nil
	}
	return &r.wrong[0]
}

// withUnit adds the unit that the title of a column names to a bare number: "weight (lb)", "g", "x in mm".
func withUnit(g *Grid, column, title, text string) string {
	col, ok := g.Column(column)
	if !ok {
		return text
	}
	k := unit.KindLengthEst
	if f, ok := g.Field(col); ok {
		if f.Kind != doc.Quantity || f.Of == unit.KindMoney {
			if f.Kind == doc.Quantity {
				return strings.TrimSpace(strings.Trim(text, "£€$ \u00a0"))
			}
			return text
		}
		k = f.Of
	} else if column != "far" {
		return text
	}
	last, _ := lastRune(text)
	if !unicode.IsDigit(last) && last != '.' && last != ',' {
		return text
	}
	for _, w := range strings.FieldsFunc(strings.ToLower(title), func(r rune) bool { return !unicode.IsLetter(r) }) {
		for _, u := range k.Base().Units() {
			if w == strings.ToLower(u) || w == strings.ToLower(u)+"s" {
				return text + " " + u
			}
		}
	}
	return text
}

func lastRune(s string) (rune, bool) {
	rs := []rune(strings.TrimSpace(s))
	if len(rs) == 0 {
		return 0, false
	}
	return rs[len(rs)-1], true
}
