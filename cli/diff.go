package cli

import (
	"bytes"
	"fmt"
	"os"

	"berthwright/doc"
	"berthwright/sheet"
)

type diffCmd struct {
	A    string `arg:"" help:"Build before."`
	B    string `arg:"" optional:"" help:"Build after."`
	Van  string `help:"In place of a second build: put the kit of the first into another base van, a class of van or the van of a build file." placeholder:"CLASS|FILE"`
	JSON bool   `name:"json" help:"Print JSON."`
}

// jsonDiff is the form of diff --json.
type jsonDiff struct {
	Figures []jsonDiffRow `json:"figures"`
	Entries []jsonDiffRow `json:"entries"`
	Notes   []string      `json:"notes,omitempty"` // with --van: what has no place in that van
}

type jsonDiffRow struct {
	Path   string        `json:"path"`
	Name   string        `json:"name"`
	Kind   string        `json:"kind"` // same, changed, added, removed
	Before string        `json:"before"`
	After  string        `json:"after"`
	Change string        `json:"change"`
	Mass   *jsonQuantity `json:"mass,omitempty"` // change of mass, of an item
}

func (c diffCmd) Run(e *env) error {
	a, b, notes, err := c.pair(e)
	if err != nil {
		return err
	}
	d := sheet.Compare(a, b)
	if c.JSON {
		rows := func(all []sheet.DiffRow) []jsonDiffRow {
			out := []jsonDiffRow{}
			for _, r := range all {
				row := jsonDiffRow{r.Path, r.Name, r.Kind, r.Before, r.After, r.Change, nil}
				if m, ok := r.Mass.Get(); ok {
					q := jsonMass(m, b.System())
					row.Mass = &q
				}
				out = append(out, row)
			}
			return out
		}
		return e.printJSON(jsonDiff{rows(d.Figures), rows(d.Entries), notes})
	}
	var out bytes.Buffer
	for _, f := range d.Figures {
		fmt.Fprintf(&out, "%-48s %14s → %14s  %s\n", f.Name, f.Before, f.After, f.Change)
	}
	fmt.Fprintln(&out)
	if len(d.Entries) == 0 {
		fmt.Fprintln(&out, "no item differs")
	}
	for _, r := range d.Entries {
		fmt.Fprintf(&out, "%-8s %s  %s\n", r.Kind, r.Name, r.Change)
		if r.Before != "" {
			fmt.Fprintf(&out, "         was: %s\n", r.Before)
		}
		if r.After != "" {
			fmt.Fprintf(&out, "         now: %s\n", r.After)
		}
	}
	for _, n := range notes {
		fmt.Fprintf(&out, "note: %s\n", n)
	}
	_, err = e.out.Write(out.Bytes())
	return err
}

// pair returns the two builds that are compared, or one build in two vans.
func (c diffCmd) pair(e *env) (a, b *sheet.Sheet, notes []string, err error) {
	switch {
	case c.Van == "" && c.B == "":
		return nil, nil, nil, usage{"one build cannot be compared with nothing", "name a second build, or another van with --van"}
	case c.Van == "":
		_, a, b, err = e.sheets(c.A, c.B)
		return a, b, nil, err
	case c.B != "":
		return nil, nil, nil, usage{"a second build and --van were both given", "leave one of them out"}
	}
	if _, a, err = e.sheet(c.A, ""); err != nil {
		return nil, nil, nil, err
	}
	van := doc.Van{Class: c.Van}
	if !e.ctx.Parts.Known("class", c.Van) {
		if _, bad := os.Stat(c.Van); bad != nil && c.Van != "-" {
			hint := "give a class of van or a build file"
			if near, ok := e.ctx.Parts.Near("class", c.Van); ok {
				hint = fmt.Sprintf("did you mean %q?", near)
			}
			return nil, nil, nil, usage{fmt.Sprintf("no van is called %q", c.Van), hint}
		}
		f, err := e.read(c.Van)
		if err != nil {
			return nil, nil, nil, err
		}
		van = f.Build.Van
	}
	b, notes = a.Swap(van)
	return a, b, notes, nil
}
