// Package edit answers: what did the person mean?
//
// A Gesture is what somebody did to a sheet, a form or a drawing: typed into a cell, dragged an item, pasted a table.
// Compile turns gestures into the operations of package doc on the text of a build. Paste reads a table from a
// spreadsheet and offers it as gestures; Enquiry writes the text of a new build.
//
// Nothing typed is lost. A text that is no value of its field is written into the build as it was typed and told of
// (Refused); it then counts as missing until it is put right. A gesture that means nothing (a row that is not there)
// is told of and does nothing.
//
// Lengths are in van axes: x rearwards from the front axle, y to the right, z up from the bare load floor.
package edit

import (
	"fmt"
	"strings"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/unit"
)

// Gesture is one thing that a person did. Which fields count depends on Kind:
//
//	cell    Grid, Row, Column, Text    type into a sheet; "" empties the cell
//	field   Path, Text                 type into a form; "" empties the field
//	move    Row, DX, DY, DZ, State     move an item; a taped item keeps its kind of measure
//	turn    Row, Text, State           turn an item to so many degrees
//	add     Grid, Text, Row, Part, Cells   a new row after Row (Above: the row added just before), named Text, fitted from
//	                                       Part, with cells typed by column
//	remove  Grid, Row
//	copy    Grid, Row
//	van     Text                       put another base van under the same items
//	ops     Ops                        plain operations
type Gesture struct {
	Kind       string
	Grid       string
	Row        string
	Column     string
	Path       string
	Text       string
	Part       string
	State      string
	DX, DY, DZ unit.Length
	Cells      map[string]string
	Ops        []doc.Op
}

// Above stands for the row added just before, in the Row of an add: the rows of a table follow each other.
const Above = "^"

// Env is what a gesture may refer to outside the build. Nil functions know nothing.
type Env struct {
	System  unit.System
	Derive  derive.Context                    // resolves places for moves
	Used    func(id string) bool              // ids of earlier revisions, never used again
	Part    func(ref string) (doc.Item, bool) // a catalogue part as an item without id and place
	BaseVan func(text string) (string, error) // the van of a class or of another build as YAML on one line; "" for none
}

// Refused tells of a text that could not be taken as it was meant.
type Refused struct {
	Gesture int    // index of the gesture
	Path    string // where it was written, or would have been
	Code    string
	Says    string // lower case, without a full stop, the text in quotes
	Hint    string
	Found   string // the text
	Kept    bool   // it stands in the build as a wrong value
}

// Result is what gestures compile to.
type Result struct {
	Ops     []doc.Op
	Made    []string // ids of new rows, in order
	Refused []Refused
}

// Compile compiles gestures on f, each on what the ones before it leave.
func Compile(f *docfile.File, env Env, gestures []Gesture) (Result, error) {
	c := &compiler{f: f, env: env, taken: map[string]bool{}}
	c.takeIDs()
	for i, g := range gestures {
		c.gesture = i
		if c.stale && needsBuild(g) {
			if err := c.settle(); err != nil {
				return c.out, err
			}
		}
		if err := c.compile(g); err != nil {
			return c.out, err
		}
	}
	return c.out, nil
}

type compiler struct {
	f       *docfile.File // the build with every operation before settled
	settled int           // operations of out.Ops that f holds
	stale   bool          // f lacks rows or values that a later gesture may speak of
	env     Env
	taken   map[string]bool // ids in use
	gesture int
	out     Result

	places   map[derive.State][]derive.Placed // of placesOf
	placesOf *docfile.File
}

func needsBuild(g Gesture) bool { return g.Kind != "add" || g.Row != "" && g.Row != Above }

// settle brings f up to the operations compiled so far.
func (c *compiler) settle() error {
	f, _, err := c.f.Apply(doc.Change{Ops: c.out.Ops[c.settled:]})
	if err != nil {
		return err
	}
	c.f, c.settled, c.stale = f, len(c.out.Ops), false
	return nil
}

func (c *compiler) op(ops ...doc.Op) {
	c.out.Ops = append(c.out.Ops, ops...)
	c.stale = true
}

func (c *compiler) refuse(path, code, says, hint, found string, kept bool) {
	c.out.Refused = append(c.out.Refused, Refused{Gesture: c.gesture, Path: path, Code: code, Says: says, Hint: hint, Found: found, Kept: kept})
}

func (c *compiler) build() *doc.Build { return &c.f.Build }

func (c *compiler) compile(g Gesture) error {
	switch g.Kind {
	case "cell":
		c.cell(g)
	case "field":
		c.field(g)
	case "move":
		c.move(g)
	case "turn":
		c.turn(g)
	case "add":
		c.add(g)
	case "remove":
		c.remove(g)
	case "copy":
		c.copy(g)
	case "van":
		return c.van(g)
	case "ops":
		for _, op := range g.Ops {
			if _, ok := FieldAt(op.Path); !ok && (op.Kind == doc.Set || op.Kind == doc.Insert) {
				c.refuse(op.Path, "no-field", fmt.Sprintf("the file has no place %s", quote(op.Path)), "", op.Value, false)
				continue
			}
			c.op(op)
		}
	default:
		c.refuse("", "unknown-gesture", fmt.Sprintf("nothing is done by %s", quote(g.Kind)), "", g.Kind, false)
	}
	return nil
}

// takeIDs notes every id of the build: they share one namespace.
func (c *compiler) takeIDs() {
	b := c.build()
	for i := range b.Items {
		c.taken[b.Items[i].ID] = true
	}
	l := &b.Loading
	for i := range l.Party {
		c.taken[l.Party[i].ID] = true
	}
	for i := range l.Zones {
		c.taken[l.Zones[i].ID] = true
	}
	for i := range l.Carried {
		c.taken[l.Carried[i].ID] = true
	}
	for i := range b.Van.Plates {
		c.taken[b.Van.Plates[i].ID] = true
	}
}

func quote(s string) string {
	if len(s) > 80 {
		s = strings.ToValidUTF8(s[:80], "") + "…"
	}
	return `"` + s + `"`
}
