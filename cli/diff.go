package cli

import (
	"bytes"
	"fmt"

	"berthwright/sheet"
)

type diffCmd struct {
	A    string `arg:"" help:"Build before."`
	B    string `arg:"" help:"Build after."`
	JSON bool   `name:"json" help:"Print JSON."`
}

// jsonDiff is the form of diff --json.
type jsonDiff struct {
	Figures []jsonDiffRow `json:"figures"`
	Entries []jsonDiffRow `json:"entries"`
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
	_, a, b, err := e.sheets(c.A, c.B)
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
		return e.printJSON(jsonDiff{rows(d.Figures), rows(d.Entries)})
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
	_, err = e.out.Write(out.Bytes())
	return err
}
