package edit

import (
	"berthwright/doc"
)

// Grid is a sheet of rows over one list of the build.
type Grid struct {
	ID      string
	List    string // path of the list
	Noun    string // what one row is, for an id when it has no name
	Columns []Column
	CanAdd  bool
}

// Column is one column of a sheet. Path is the path of its value within the row; columns without one are read and
// written by their own rules (line, far, side, level, fill, stowed).
type Column struct {
	ID, Title string
	Path      string
	Behind    string   // path of a field like the one behind it, for a column that stands in another list
	Words     []string // for a column without a path, or in place of the words of the field
	Width     int      // in characters
	Fixed     bool
	Help      string
	Match     []string // other titles by which a pasted table is understood, in lower case
}

// Field returns the field behind a column, if it has one.
func (g *Grid) Field(c *Column) (*doc.Field, bool) {
	if c.Path == "" {
		return nil, false
	}
	list, ok := g.entry()
	if !ok {
		return nil, false
	}
	return below(list, c.Path)
}

// entry returns the field that describes one row.
func (g *Grid) entry() (*doc.Field, bool) {
	f, ok := FieldAt(g.List)
	return f, ok
}

// Column returns the column with an id.
func (g *Grid) Column(id string) (*Column, bool) {
	for i := range g.Columns {
		if g.Columns[i].ID == id {
			return &g.Columns[i], true
		}
	}
	return nil, false
}

// GridOf returns the sheet with an id: kit, people, zones, tanks, carried.
func GridOf(id string) (*Grid, bool) {
	for i := range grids {
		if grids[i].ID == id {
			return &grids[i], true
		}
	}
	return nil, false
}

// The words of the place columns of the kit sheet.
var (
	lines  = []string{"bulkhead", "rear-door", "wheel-box", "cab-seat", "axle", "cab", "door", "mid", "wheel", "rear"}
	sides  = []string{"left", "middle", "right"}
	levels = []string{"low", "mid", "high"}
)

// grids lists the sheets; it is not changed.
var grids = []Grid{
	{ID: "kit", List: "items", Noun: "item", CanAdd: true, Columns: []Column{
		{ID: "name", Title: "What", Path: "name", Width: 34, Match: []string{"item", "name", "description", "part", "article", "thing", "component", "equipment", "kit", "what is it"}},
		{ID: "count", Title: "How many", Path: "count", Width: 5, Match: []string{"qty", "quantity", "count", "number", "no", "pcs", "pieces", "amount", "off", "number off"}},
		{ID: "mass", Title: "kg each", Path: "mass", Width: 12, Match: []string{"kg", "mass", "weight", "weight kg", "mass kg", "kilos", "wt", "lb", "lbs", "each kg", "unit weight", "g", "grams"}},
		{ID: "known", Title: "How known", Path: "known", Width: 11, Match: []string{"known", "basis", "how", "evidence", "source of weight"}},
		{ID: "line", Title: "From which line", Words: lines, Width: 12, Help: "a line that people tape from, a zone while nothing is measured, \"behind\" or \"ahead of\" another item",
			Match: []string{"line", "from", "measured from", "where", "zone", "location", "place", "position", "area"}},
		{ID: "far", Title: "How far", Behind: "items/x/place/bulkhead", Width: 10, Help: "from that line to the near edge",
			Match: []string{"far", "distance", "x", "offset", "mm", "along", "position mm", "from front", "tape"}},
		{ID: "side", Title: "Left, middle, right", Words: sides, Width: 10, Help: "a side, or a measure from a wall: left 30, or \"left of\" or \"right of\" another item",
			Match: []string{"side", "left/middle/right", "left/right", "l/m/r", "across", "y"}},
		{ID: "level", Title: "Low, mid, high", Words: levels, Width: 8, Help: "a level, or a measure up from the finished floor, or \"on\" another item",
			Match: []string{"level", "low/mid/high", "height", "up", "z", "l/m/h"}},
		{ID: "price", Title: "Price each", Path: "price", Width: 9, Match: []string{"price", "cost", "unit price", "each", "gbp", "eur", "usd", "£", "€", "$", "net"}},
		{ID: "group", Title: "Trade", Path: "group", Width: 10, Match: []string{"group", "trade", "category", "system", "section", "type"}},
		{ID: "supplier", Title: "Supplier", Path: "supplier", Width: 14, Match: []string{"supplier", "vendor", "shop", "from whom", "bought from", "merchant"}},
		{ID: "remark", Title: "Remark", Path: "remark", Width: 30, Match: []string{"remark", "remarks", "note", "notes", "comment", "comments"}},
	}},
	{ID: "people", List: "loading/party", Noun: "person", CanAdd: true, Columns: []Column{
		{ID: "name", Title: "Who", Path: "name", Width: 20, Match: []string{"name", "person", "passenger"}},
		{ID: "mass", Title: "kg, clothed", Path: "mass", Width: 9, Match: []string{"kg", "mass", "weight", "lb", "lbs"}},
		{ID: "seat", Title: "Seat", Path: "seat", Width: 22, Match: []string{"sits"}},
		{ID: "child", Title: "Child", Path: "child", Width: 6},
		{ID: "child-seat", Title: "Child seat, kg", Path: "child-seat", Width: 9, Match: []string{"child seat", "restraint"}},
		{ID: "licence", Title: "Licence", Path: "licence", Width: 12, Match: []string{"license"}},
	}},
	{ID: "zones", List: "loading/zones", Noun: "zone", CanAdd: true, Columns: []Column{
		{ID: "name", Title: "Where", Path: "name", Width: 22, Match: []string{"zone", "name", "locker", "place"}},
		{ID: "limit", Title: "At most, kg", Path: "limit", Width: 9, Match: []string{"limit", "max", "kg"}},
		{ID: "stowed", Title: "This party, kg", Behind: "loading/travelling/stowed/x/mass", Width: 9, Match: []string{"stowed", "load", "this party"}},
		{ID: "x", Title: "Behind front axle", Path: "at/x", Width: 10, Match: []string{"x", "mm"}},
		{ID: "y", Title: "Right of centre", Path: "at/y", Width: 10, Match: []string{"y"}},
		{ID: "z", Title: "Above bare floor", Path: "at/z", Width: 10, Match: []string{"z"}},
		{ID: "item", Title: "In item", Path: "item", Width: 18},
		{ID: "where", Title: "Carried", Path: "where", Width: 8},
	}},
	{ID: "tanks", List: "items", Noun: "tank", Columns: []Column{
		{ID: "name", Title: "What", Path: "name", Width: 28},
		{ID: "for", Title: "Holds", Path: "tank/for", Width: 8},
		{ID: "volume", Title: "Usable", Path: "tank/volume", Width: 9},
		{ID: "holds", Title: "Full, kg", Path: "tank/holds", Width: 9},
		{ID: "travel", Title: "Driving, at most", Path: "tank/travel", Width: 9},
		{ID: "fill", Title: "This party", Behind: "loading/travelling/fills/x/level", Width: 9, Help: "how full when this party sets out: 100 %, half, ¾"},
		{ID: "feeds", Title: "Ends up in", Path: "tank/feeds", Width: 16},
	}},
	{ID: "carried", List: "loading/carried", Noun: "carried", CanAdd: true, Columns: []Column{
		{ID: "name", Title: "What", Path: "name", Width: 22, Match: []string{"name", "item"}},
		{ID: "each", Title: "kg each", Path: "each", Width: 9, Match: []string{"kg", "mass", "weight", "lb", "lbs"}},
		{ID: "up-to", Title: "Up to", Path: "up-to", Width: 6, Match: []string{"max", "limit"}},
		{ID: "usual", Title: "This party", Path: "usual", Width: 6, Match: []string{"qty", "count", "number"}},
		{ID: "x", Title: "Behind front axle", Path: "at/x", Width: 10, Match: []string{"x", "mm"}},
		{ID: "y", Title: "Right of centre", Path: "at/y", Width: 10, Match: []string{"y"}},
		{ID: "z", Title: "Above bare floor", Path: "at/z", Width: 10, Match: []string{"z"}},
		{ID: "where", Title: "Carried", Path: "where", Width: 8},
	}},
}

// Grids returns every sheet. They are shared: do not change them.
func Grids() []Grid { return grids }
