package cli

import (
	"bytes"
	"fmt"

	"berthwright/check"
	"berthwright/unit"
)

type reconcileCmd struct {
	File   string `arg:"" help:"Build file."`
	Record string `arg:"" help:"Record of weighings."`
	Work   bool   `xor:"form" help:"Print the certificate too."`
	JSON   bool   `name:"json" xor:"form" help:"Print JSON."`
}

// jsonReconciled is the form of reconcile --json.
type jsonReconciled struct {
	Says     []string      `json:"says"`
	Refused  bool          `json:"refused"` // the misfit is beyond the 99 % point
	Readings []jsonReading `json:"readings"`
	Suspects []jsonSubject `json:"suspects"`
	Totals   []jsonShift   `json:"totals"`
	Shifts   []jsonShift   `json:"shifts"`
}

type jsonReading struct {
	Name     string       `json:"name"`
	Read     jsonQuantity `json:"read"`
	Expected jsonQuantity `json:"expected"`
	Off      jsonQuantity `json:"off"`
	Half     jsonQuantity `json:"half"`
	Verdict  string       `json:"verdict"`
}

type jsonShift struct {
	Path       string       `json:"path"` // "" for a total
	Name       string       `json:"name"`
	Before     jsonQuantity `json:"before"`
	HalfBefore jsonQuantity `json:"halfBefore"`
	After      jsonQuantity `json:"after"`
	Half       jsonQuantity `json:"half"`
}

func (c reconcileCmd) Run(e *env) error {
	_, s, err := e.sheet(c.File, "")
	if err != nil {
		return err
	}
	rec, err := e.record(c.Record)
	if err != nil {
		return err
	}
	r := s.Weight.Reconcile(rec)
	if !r.Known {
		return usage{text: r.Why}
	}
	if c.JSON {
		err = e.printJSON(jsonReconcile(r, s.System()))
	} else {
		err = e.printReconciled(r, s.System())
	}
	if err != nil {
		return err
	}
	if c.Work {
		fmt.Fprintln(e.out)
		e.workings(r.Slip())
	}
	if r.Refused {
		return exit(failing)
	}
	return nil
}

func jsonReconcile(r check.Reconciled, sys unit.System) jsonReconciled {
	out := jsonReconciled{
		Says: []string{}, Refused: r.Refused, Readings: []jsonReading{}, Suspects: jsonSubjects(r.Suspects), Totals: []jsonShift{}, Shifts: []jsonShift{},
	}
	q := func(m unit.Mass) jsonQuantity { return jsonMass(m, sys) }
	for _, m := range r.Says {
		out.Says = append(out.Says, m.Text(sys))
	}
	for _, x := range r.Rows {
		out.Readings = append(out.Readings, jsonReading{x.Name, q(x.Read), q(x.Expected), q(x.Off), q(x.Half), x.Verdict.String()})
	}
	for _, x := range r.Axles {
		out.Totals = append(out.Totals, jsonShift{"", x.Name, q(x.Before), q(x.HalfBefore), q(x.After), q(x.Half)})
	}
	for _, x := range r.Shifts {
		out.Shifts = append(out.Shifts, jsonShift{x.Subject.Path, x.Subject.Name, q(x.Before), q(x.HalfBefore), q(x.After), q(x.Half)})
	}
	return out
}

func (e *env) printReconciled(r check.Reconciled, sys unit.System) error {
	var out bytes.Buffer
	kg := func(m unit.Mass) string { return jsonMass(m, sys).Text }
	for _, m := range r.Says {
		fmt.Fprintln(&out, m.Text(sys))
	}
	fmt.Fprintf(&out, "\n%-44s %12s %12s %12s %12s\n", "reading", "read", "sum of parts", "off", "within ±")
	for _, x := range r.Rows {
		fmt.Fprintf(&out, "%-44s %12s %12s %12s %12s  %s\n", x.Name, kg(x.Read), kg(x.Expected), kg(x.Off), kg(x.Half), x.Verdict.Says())
	}
	if len(r.Suspects) > 0 {
		fmt.Fprintln(&out, "\nLook at these first")
		for _, x := range r.Suspects {
			fmt.Fprintf(&out, "  %s\n", x.Name)
		}
	}
	if len(r.Axles) > 0 {
		fmt.Fprintln(&out, "\nThe dry van")
		for _, x := range r.Axles {
			fmt.Fprintf(&out, "  %-24s %12s ± %-9s → %12s ± %s\n", x.Name, kg(x.Before), kg(x.HalfBefore), kg(x.After), kg(x.Half))
		}
	}
	for i, x := range r.Shifts {
		if i == 0 {
			fmt.Fprintln(&out, "\nWhat the weighings change most")
		}
		if i == 8 {
			fmt.Fprintf(&out, "  and %d more\n", len(r.Shifts)-8)
			break
		}
		fmt.Fprintf(&out, "  %-44s %10s ± %-8s → %10s ± %s\n", x.Subject.Name, kg(x.Before), kg(x.HalfBefore), kg(x.After), kg(x.Half))
	}
	_, err := e.out.Write(out.Bytes())
	return err
}
