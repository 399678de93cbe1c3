package web

import (
	"fmt"
	"strings"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/edit"
	"berthwright/sheet"
	"berthwright/unit"
)

// grid makes the frame of a sheet with its rows.
func (f *former) grid(id string, rows []RowView) GridView {
	g, ok := edit.GridOf(id)
	if !ok {
		panic("web: no grid " + id)
	}
	v := GridView{ID: id, CanAdd: g.CanAdd, Rows: rows}
	for i := range g.Columns {
		v.Columns = append(v.Columns, f.column(g, &g.Columns[i]))
	}
	return v
}

func (f *former) column(g *edit.Grid, c *edit.Column) ColumnView {
	v := ColumnView{ID: c.ID, Title: c.Title, Width: c.Width, Fixed: c.Fixed, Help: c.Help, Kind: "text"}
	field, ok := g.Field(c)
	if !ok && c.Behind != "" {
		field, ok = edit.FieldAt(c.Behind)
	}
	if ok {
		v.Kind, v.Unit, v.Choices = kindOf(c.Path, field), edit.ColumnUnit(field, f.sys), f.choices(field)
		v.Right = field.Kind == doc.Quantity || field.Kind == doc.Whole
		if v.Help == "" {
			v.Help = field.Help
		}
	}
	for _, w := range c.Words {
		v.Choices = append(v.Choices, Choice{ID: w, Text: lineWords(w)})
	}
	if c.ID == "line" || c.ID == "side" || c.ID == "level" {
		v.Kind = "words" // a choice, or something typed
	}
	return v
}

// lineWords are the words of the place columns as people read them.
func lineWords(w string) string {
	switch w {
	case "bulkhead", "rear-door":
		return strings.ReplaceAll(w, "-", " ") + " line"
	case "axle":
		return "front axle"
	case "cab", "door", "mid", "wheel", "rear":
		return w + " zone"
	}
	return strings.ReplaceAll(w, "-", " ")
}

// cells makes the cells of the columns that have a field behind them.
func (f *former) cells(g *edit.Grid, path string) map[string]Cell {
	out := make(map[string]Cell, len(g.Columns))
	for i := range g.Columns {
		c := &g.Columns[i]
		if field, ok := g.Field(c); ok {
			out[c.ID] = f.cell(field, path+"/"+c.Path)
		}
	}
	return out
}

func (f *former) cell(field *doc.Field, path string) Cell {
	text, ok := f.r.file.Value(path)
	var c Cell
	if ok {
		text = plain(text)
		c.Text = f.shown(field, text)
		if field.Kind == doc.Quantity {
			c.Text = bare(c.Text, field, f.sys)
		}
		if c.Text != text {
			c.Edit = text
		}
	}
	if m := f.marks[path]; m != nil {
		c.Mark = m.Text
	}
	return c
}

// bare leaves out the unit that stands in the title of the column.
func bare(text string, field *doc.Field, sys unit.System) string {
	u := edit.ColumnUnit(field, sys)
	if u == "" {
		return text
	}
	head, spread, has := strings.Cut(text, " ± ")
	head = strings.TrimSuffix(head, unit.Space+u)
	if !has {
		return head
	}
	return head + " ± " + strings.TrimSuffix(spread, unit.Space+u)
}

func (f *former) rowMarks(path string) []Marked {
	var out []Marked
	for p, m := range f.marks {
		if p == path || strings.HasPrefix(p, path+"/") {
			out = append(out, *m)
		}
	}
	sortMarks(out)
	return out
}

// kit makes the kit sheet.
func (f *former) kit(sh *sheet.Sheet) KitView {
	g, _ := edit.GridOf("kit")
	worst := verdicts(sh.Weight)
	placed := sh.Placed(derive.Travel)
	rows := make([]RowView, 0, len(placed))
	for i := range placed {
		p := &placed[i]
		it := p.Item
		row := RowView{ID: it.ID, Number: p.Number, Path: p.Path, Cells: f.cells(g, p.Path), Locked: derive.Locked(it), Kind: "fitted", Verdict: worst[p.Path], Marks: f.rowMarks(p.Path)}
		switch {
		case it.Removed.Else(false):
			row.Kind = "removed"
		case it.InTicket.Else(false):
			row.Kind = "in-ticket"
		case it.Allow.Else(false):
			row.Kind = "allowance"
		}
		f.placeCells(row.Cells, p)
		if c := row.Cells["known"]; c.Text == "" && it.Mass.Given() {
			row.Cells["known"] = Cell{Text: "not said: as a guess", Edit: "", Derived: true}
		}
		rows = append(rows, row)
	}
	return KitView{GridView: f.grid("kit", rows), Total: f.total(sh)}
}

// placeCells says where an item is in the words people tape with.
func (f *former) placeCells(cells map[string]Cell, p *derive.Placed) {
	get := func(key string) (string, bool) {
		v, ok := f.r.file.Value(p.Path + "/" + key)
		return plain(v), ok
	}
	length := func(key, text string) Cell {
		c := Cell{Text: bareLength(text, f.sys), Edit: text}
		if m := f.marks[p.Path+"/"+key]; m != nil {
			c.Mark = m.Text
		}
		return c
	}
	zone, _ := get("zone")
	along, side, level := derive.ZoneWords(zone)
	set := func(id string, c Cell) { cells[id] = c }
	for _, way := range []struct {
		key, line string
		neighbour bool
	}{{"at/x", "axle", false}, {"place/bulkhead", "bulkhead", false}, {"place/rear-door", "rear-door", false}, {"place/wheel-box", "wheel-box", false}, {"place/cab-seat", "cab-seat", false},
		{"place/behind", "behind ", true}, {"place/ahead-of", "ahead of ", true}} {
		text, ok := get(way.key)
		if !ok {
			continue
		}
		if way.neighbour {
			set("line", Cell{Text: way.line + f.nameOf(text), Edit: way.line + text})
			gap, _ := get("place/gap")
			set("far", length("place/gap", gap))
			break
		}
		set("line", Cell{Text: lineWords(way.line), Edit: way.line})
		set("far", length(way.key, text))
		break
	}
	if _, ok := cells["line"]; !ok {
		line, chosen := get("place/line")
		switch {
		case chosen:
			c := Cell{Text: lineWords(line), Edit: line}
			if m := f.marks[p.Path+"/place/line"]; m != nil {
				c.Mark = m.Text
			}
			set("line", c)
		case along != "":
			set("line", Cell{Text: lineWords(along), Edit: along})
		case p.Stretch:
			set("line", Cell{Text: "stretch", Derived: true})
			set("far", Cell{Text: unit.FormatSI(unit.KindLength, p.Span[0].Metres(), f.sys, -1) + " to " + unit.FormatSI(unit.KindLength, p.Span[1].Metres(), f.sys, -1), Derived: true})
		}
	}
	for _, way := range []struct{ key, word string }{{"at/y", ""}, {"place/left-wall", "left"}, {"place/right-wall", "right"}, {"place/centre-line", "middle"}, {"place/left-of", "left of "}, {"place/right-of", "right of "}} {
		text, ok := get(way.key)
		if !ok {
			continue
		}
		c := length(way.key, text)
		switch {
		case way.word == "":
			if y := p.At[1]; y.Known() {
				c.Text, c.Edit = sideWord(y.V)+" "+strings.TrimPrefix(c.Text, unit.Minus), sideWord(y.V)+" "+strings.TrimPrefix(text, "-")
				if y.V == 0 {
					c.Text, c.Edit = "middle", ""
				}
			}
		case strings.HasSuffix(way.word, " "):
			c = Cell{Text: way.word + f.nameOf(text), Edit: way.word + text}
		default:
			c.Text, c.Edit = way.word+" "+c.Text, way.word+" "+text
		}
		set("side", c)
		break
	}
	if _, ok := cells["side"]; !ok && side != "" {
		set("side", Cell{Text: side})
	}
	for _, way := range []struct{ key, word string }{{"at/z", ""}, {"place/finished-floor", ""}, {"place/bare-floor", "bare floor "}, {"place/ceiling", "ceiling "}, {"place/on-top-of", "on "}} {
		text, ok := get(way.key)
		if !ok {
			continue
		}
		c := length(way.key, text)
		if way.key == "place/on-top-of" {
			c = Cell{Text: way.word + f.nameOf(text), Edit: way.word + text}
		} else if way.word != "" {
			c.Text, c.Edit = way.word+c.Text, way.word+text
		}
		set("level", c)
		break
	}
	if _, ok := cells["level"]; !ok && (level != "" || zone != "") {
		c := Cell{Text: level}
		if level == "" {
			c = Cell{Text: "mid", Derived: true}
		}
		set("level", c)
	}
}

func sideWord(y unit.Length) string {
	switch {
	case y < 0:
		return "left"
	case y > 0:
		return "right"
	}
	return "middle"
}

// bareLength prints a length, perhaps with its spread, without the unit of the column.
func bareLength(text string, sys unit.System) string {
	out := shownQuantity(unit.KindLengthEst, text, sys)
	u, _ := unit.KindLength.Shown(sys)
	head, spread, has := strings.Cut(out, " ± ")
	head = strings.TrimSuffix(head, unit.Space+u)
	if has {
		return head + " ± " + strings.TrimSuffix(spread, unit.Space+u)
	}
	return head
}

func (f *former) nameOf(id string) string {
	for i := range f.r.file.Build.Items {
		if it := &f.r.file.Build.Items[i]; it.ID == id && it.Name != "" {
			return it.Name
		}
	}
	return id
}

// total says what the kit comes to.
func (f *former) total(sh *sheet.Sheet) string {
	var fitted, removed, allowed unit.Mass
	rows := 0
	for _, l := range sh.Weight.In.Loads {
		switch {
		case l.Mass < 0:
			removed -= l.Mass
		case l.Allowance:
			allowed += l.Mass
		default:
			fitted += l.Mass
		}
		rows++
	}
	kg := func(m unit.Mass) string { return unit.Format(m, f.sys, 1) }
	out := fmt.Sprintf("%s: fitted %s", count(len(f.r.file.Build.Items), "row", "rows"), kg(fitted))
	if allowed > 0 {
		out += ", allowed for " + kg(allowed)
	}
	if removed > 0 {
		out += ", taken out " + kg(removed)
	}
	return out
}

// verdicts is the worst verdict of the findings that speak of each path.
func verdicts(w *check.Weight) map[string]string {
	out := map[string]string{}
	rank := map[string]int{"does-not-hold": 3, "unknown": 2, "tight": 1}
	for _, fi := range w.Findings {
		if fi.Advisory {
			continue
		}
		v := fi.Verdict.String()
		note := func(s check.Subject) {
			path := s.Path
			if parts := strings.SplitN(path, "/", 3); len(parts) == 3 && parts[0] == "items" {
				path = parts[0] + "/" + parts[1]
			}
			if rank[v] > rank[out[path]] {
				out[path] = v
			}
		}
		for _, s := range fi.Subjects {
			note(s)
		}
		for _, s := range fi.Missing {
			note(s)
		}
	}
	return out
}
