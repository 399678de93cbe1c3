package web

import (
	"cmp"
	"slices"
	"strings"

	"berthwright/edit"
	"berthwright/sheet"
	"berthwright/unit"
)

// loading makes the load plan.
func (f *former) loading(sh *sheet.Sheet) LoadingView {
	b := &f.r.file.Build
	v := LoadingView{Plan: []FormSection{
		f.section("luggage", "Luggage and water", "One limit for all luggage; payload is not known without it.", "loading/luggage", "loading/waste-empty"),
		f.section("tow", "Trailer", "", "loading/tow/nose", "loading/tow/trailer"),
	}}
	var people, zones, tanks, carried []RowView
	in := &sh.Weight.In
	for i := range b.Loading.Party {
		row := f.row("people", b.Loading.Party[i].ID)
		if in.Person > 0 {
			standIn(row.Cells, "mass", unit.FormatSI(unit.KindMass, in.Person.Kilograms(), f.sys, -1), f.sys)
		}
		people = append(people, row)
	}
	for i := range b.Loading.Zones {
		id := b.Loading.Zones[i].ID
		row := f.row("zones", id)
		row.Cells["stowed"] = f.beside("loading/travelling/stowed/"+id, "mass")
		zones = append(zones, row)
	}
	for i := range b.Items {
		if !b.Items[i].Tank.Given() {
			continue
		}
		id := b.Items[i].ID
		row := f.row("tanks", id)
		row.Number = i + 1
		row.Cells["fill"] = f.beside("loading/travelling/fills/"+id, "level")
		for _, t := range in.Tanks {
			if t.ID != id {
				continue
			}
			if t.Full.Known() {
				standIn(row.Cells, "holds", unit.Format(t.Full.V, f.sys, 1), f.sys)
			}
			if t.Level.Known() {
				standIn(row.Cells, "fill", unit.Format(t.Level.V, f.sys, 0), f.sys)
			}
			standIn(row.Cells, "travel", unit.Format(t.Driving, f.sys, 0), f.sys)
		}
		tanks = append(tanks, row)
	}
	for i := range b.Loading.Carried {
		carried = append(carried, f.row("carried", b.Loading.Carried[i].ID))
	}
	v.People, v.Zones, v.Tanks, v.Carried = f.grid("people", people), f.grid("zones", zones), f.grid("tanks", tanks), f.grid("carried", carried)
	for _, rule := range sh.PlacardRules() {
		v.Placard = append(v.Placard, Sentence{Key: "placard", Text: rule})
	}
	return v
}

// standIn shows what is computed with where nothing is given.
func standIn(cells map[string]Cell, column, text string, sys unit.System) {
	if c := cells[column]; c.Text == "" && c.Mark == "" {
		for _, k := range []unit.Kind{unit.KindMass, unit.KindRatio} {
			if u, _ := k.Shown(sys); u != "" {
				text = strings.TrimSuffix(text, unit.Space+u)
			}
		}
		cells[column] = Cell{Text: text, Derived: true}
	}
}

func (f *former) row(grid, id string) RowView {
	g, _ := edit.GridOf(grid)
	path := g.List + "/" + id
	return RowView{ID: id, Path: path, Cells: f.cells(g, path), Kind: "fitted", Marks: f.rowMarks(path)}
}

// beside is a cell whose value stands in a list of its own.
func (f *former) beside(path, key string) Cell {
	field, ok := edit.FieldAt(path + "/" + key)
	if !ok {
		panic("web: no field " + path)
	}
	return f.cell(field, path+"/"+key)
}

func sortMarks(all []Marked) {
	slices.SortFunc(all, func(a, b Marked) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column), cmp.Compare(a.Path, b.Path))
	})
}
