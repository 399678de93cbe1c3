package cli

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/sheet"
	"berthwright/unit"
)

// record reads a record file.
func (e *env) record(path string) (*doc.Record, error) {
	text, err := readText(path)
	if err != nil {
		return nil, err
	}
	r := docfile.ReadRecord(path, text)
	e.diagnose(r.Diags, text)
	if !r.Readable || r.Diags.HasErrors() {
		return nil, exit(badInput)
	}
	return &r.Record, nil
}

type diffCmd struct {
	A    string `arg:"" help:"Build before." type:"path"`
	B    string `arg:"" help:"Build after." type:"path"`
	JSON bool   `name:"json" help:"Print JSON."`
}

func (c diffCmd) Run(e *env) error {
	_, a, err := e.sheet(c.A, "")
	if err != nil {
		return err
	}
	_, b, err := e.sheet(c.B, "")
	if err != nil {
		return err
	}
	d := sheet.Compare(a, b)
	if c.JSON {
		return printJSON(e, struct {
			Figures []sheet.DiffRow `json:"figures"`
			Entries []sheet.DiffRow `json:"entries"`
		}{d.Figures, d.Entries})
	}
	for _, f := range d.Figures {
		fmt.Fprintf(e.out, "%-48s %14s → %14s  %s\n", f.Name, f.Before, f.After, f.Change)
	}
	fmt.Fprintln(e.out)
	if len(d.Entries) == 0 {
		fmt.Fprintln(e.out, "no item differs")
	}
	for _, r := range d.Entries {
		fmt.Fprintf(e.out, "%-8s %s  %s\n", r.Kind, r.Name, r.Change)
		if r.Before != "" {
			fmt.Fprintf(e.out, "         was: %s\n", r.Before)
		}
		if r.After != "" {
			fmt.Fprintf(e.out, "         now: %s\n", r.After)
		}
	}
	return nil
}

func printJSON(e *env, v any) error {
	enc := json.NewEncoder(e.out)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

type reconcileCmd struct {
	File   string `arg:"" help:"Build file." type:"path"`
	Record string `arg:"" help:"Record of weighings." type:"path"`
	Work   bool   `help:"Print the certificate."`
	JSON   bool   `name:"json" help:"Print JSON."`
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
	sys := s.System()
	if !r.Known {
		return usage{r.Why}
	}
	if c.JSON {
		if err := printJSON(e, r.Rows); err != nil {
			return err
		}
	} else {
		e.printReconciled(r, sys)
	}
	if c.Work {
		e.workings(r.Slip())
	}
	if r.Refused {
		return exit(failing)
	}
	return nil
}

func (e *env) printReconciled(r check.Reconciled, sys unit.System) {
	kg := func(m unit.Mass) string {
		return check.Figure{Kind: unit.KindMass, SI: m.Kilograms(), Digits: 1}.Text(sys)
	}
	for _, m := range r.Says {
		fmt.Fprintln(e.out, m.Text(sys))
	}
	fmt.Fprintf(e.out, "\n%-44s %12s %12s %12s %12s\n", "reading", "read", "sum of parts", "off", "within ±")
	for _, x := range r.Rows {
		fmt.Fprintf(e.out, "%-44s %12s %12s %12s %12s  %s\n", x.Name, kg(x.Read), kg(x.Expected), kg(x.Off), kg(x.Half), x.Verdict.Says())
	}
	if len(r.Suspects) > 0 {
		fmt.Fprintln(e.out, "\nLook at these first")
		for _, x := range r.Suspects {
			fmt.Fprintf(e.out, "  %s\n", x.Name)
		}
	}
	if len(r.Axles) > 0 {
		fmt.Fprintln(e.out, "\nThe dry van")
		for _, x := range r.Axles {
			fmt.Fprintf(e.out, "  %-24s %12s ± %-9s → %12s ± %s\n", x.Name, kg(x.Before), kg(x.HalfBefore), kg(x.After), kg(x.Half))
		}
	}
	for i, x := range r.Shifts {
		if i == 0 {
			fmt.Fprintln(e.out, "\nWhat the weighings change most")
		}
		if i == 8 {
			fmt.Fprintf(e.out, "  and %d more\n", len(r.Shifts)-8)
			break
		}
		fmt.Fprintf(e.out, "  %-44s %10s ± %-8s → %10s ± %s\n", x.Subject.Name, kg(x.Before), kg(x.HalfBefore), kg(x.After), kg(x.Half))
	}
}

type papersCmd struct {
	Mass    massCmd    `cmd:"" help:"Mass statement."`
	Placard placardCmd `cmd:"" help:"Loading placard."`
	Change  changeCmd  `cmd:"" help:"Change slip, for signature."`
}

// out holds what every paper needs.
type paperFlags struct {
	Out    string `short:"o" help:"File to write." type:"path" required:"" placeholder:"FILE"`
	Date   string `help:"Date printed on the paper, 2026-11-25; absent: none, and the same build gives the same bytes." placeholder:"DATE"`
	Record string `help:"Record of weighings." type:"path" placeholder:"FILE"`
}

type massCmd struct {
	File string `arg:"" help:"Build file." type:"path"`
	paperFlags
}

type placardCmd struct {
	File string `arg:"" help:"Build file." type:"path"`
	paperFlags
}

func (c massCmd) Run(e *env) error { return c.print(e, c.File, (*sheet.Sheet).MassStatement) }

func (c placardCmd) Run(e *env) error { return c.print(e, c.File, (*sheet.Sheet).Placard) }

func (p paperFlags) print(e *env, path string, set func(*sheet.Sheet, sheet.Issue) ([]byte, error)) error {
	f, s, err := e.sheet(path, p.Record)
	if err != nil {
		return err
	}
	made, err := day(p.Date)
	if err != nil {
		return err
	}
	pdf, err := set(s, sheet.Issue{Hash: sheet.Hash(f.Text), Made: made})
	if err != nil {
		return err
	}
	return e.write(p.Out, pdf)
}

type changeCmd struct {
	A     string `arg:"" help:"Build before." type:"path"`
	B     string `arg:"" help:"Build after." type:"path"`
	Title string `help:"What the change is called." default:""`
	paperFlags
}

func (c changeCmd) Run(e *env) error {
	_, a, err := e.sheet(c.A, "")
	if err != nil {
		return err
	}
	f, b, err := e.sheet(c.B, "")
	if err != nil {
		return err
	}
	made, err := day(c.Date)
	if err != nil {
		return err
	}
	pdf, err := sheet.ChangeSlip(a, b, sheet.Issue{Hash: sheet.Hash(f.Text), Made: made}, c.Title)
	if err != nil {
		return err
	}
	return e.write(c.Out, pdf)
}

type drawingCmd struct {
	File  string  `arg:"" help:"Build file." type:"path"`
	View  string  `help:"View to draw: ${enum}." enum:"plan,left,right" default:"plan"`
	State string  `help:"State to draw: ${enum}." enum:"travel,camp,night,stored" default:"travel"`
	Scale float64 `help:"Scale denominator of the PDF." default:"20"`
	Out   string  `short:"o" help:"File to write; its ending says the form: svg, pdf or dxf." type:"path" required:"" placeholder:"FILE"`
}

func (c drawingCmd) Run(e *env) error {
	f, s, err := e.sheet(c.File, "")
	if err != nil {
		return err
	}
	if !(c.Scale >= 1 && c.Scale <= 200) {
		return usage{fmt.Sprintf("scale %g is outside 1 … 200", c.Scale)}
	}
	form := strings.TrimPrefix(filepath.Ext(c.Out), ".")
	b, err := s.View(c.View, derive.State(c.State), form, c.Scale, sheet.Issue{Hash: sheet.Hash(f.Text)})
	if err != nil {
		return usage{err.Error()}
	}
	return e.write(c.Out, b)
}

// write puts a file in place whole, or not at all.
func (e *env) write(path string, b []byte) error {
	tmp, err := os.CreateTemp(filepath.Dir(path), ".berthwright-*")
	if err != nil {
		return usage{fmt.Sprintf("cannot write %q: %v", path, err)}
	}
	defer os.Remove(tmp.Name())
	_, err = tmp.Write(b)
	if cerr := tmp.Close(); err == nil {
		err = cerr
	}
	if err == nil {
		err = os.Chmod(tmp.Name(), 0o644)
	}
	if err == nil {
		err = os.Rename(tmp.Name(), path)
	}
	if err != nil {
		return usage{fmt.Sprintf("cannot write %q: %v", path, err)}
	}
	fmt.Fprintf(e.err, "wrote %s (%d bytes)\n", path, len(b))
	return nil
}

// day reads a date for a paper; "" is none.
func day(text string) (time.Time, error) {
	if text == "" {
		return time.Time{}, nil
	}
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return t, usage{fmt.Sprintf("date %q is not a day like 2026-11-25", text)}
	}
	return t, nil
}
