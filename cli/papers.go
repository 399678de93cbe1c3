package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"berthwright/derive"
	"berthwright/sheet"
)

type papersCmd struct {
	Mass      massCmd      `cmd:"" help:"Mass statement."`
	Placard   placardCmd   `cmd:"" help:"Loading placard."`
	Change    changeCmd    `cmd:"" help:"Change slip, for signature."`
	Holes     holesCmd     `cmd:"" help:"Hole register: every hole to cut, with what must be known first."`
	Templates templatesCmd `cmd:"" help:"Templates of the holes at true size, on tiled A4 pages."`
	Fixing    fixingCmd    `cmd:"" help:"Fixing map of each wall, before the lining goes on."`
	States    statesCmd    `cmd:"" help:"Plan, elevations and sections in each state."`
}

// paperFlags holds what every paper needs.
type paperFlags struct {
	Out  string `short:"o" help:"File to write." required:"" placeholder:"FILE"`
	Date string `help:"Date printed on the paper, such as 2026-11-25; without it the paper bears none, and the same build gives the same bytes." placeholder:"DATE"`
}

// made reads the date of the paper; "" is none.
func (p paperFlags) made() (time.Time, error) {
	if p.Date == "" {
		return time.Time{}, nil
	}
	t, err := time.Parse(time.DateOnly, p.Date)
	if err != nil {
		return t, usage{fmt.Sprintf("date %q is not a day", p.Date), "write it like 2026-11-25"}
	}
	return t, nil
}

// onePaper is a paper of one build.
type onePaper struct {
	File   string `arg:"" help:"Build file."`
	Record string `help:"Record of weighings." placeholder:"FILE"`
	paperFlags
}

type massCmd struct{ onePaper }

type placardCmd struct{ onePaper }

func (c massCmd) Run(e *env) error { return c.print(e, (*sheet.Sheet).MassStatement) }

func (c placardCmd) Run(e *env) error { return c.print(e, (*sheet.Sheet).Placard) }

func (p onePaper) print(e *env, paper func(*sheet.Sheet, sheet.Issue) ([]byte, error)) error {
	made, err := p.made()
	if err != nil {
		return err
	}
	f, s, err := e.sheet(p.File, p.Record)
	if err != nil {
		return err
	}
	pdf, err := paper(s, sheet.Issue{Hash: sheet.Hash(f.Text), Made: made})
	if err != nil {
		return err
	}
	return e.write(p.Out, pdf)
}

type changeCmd struct {
	A     string `arg:"" help:"Build before."`
	B     string `arg:"" help:"Build after."`
	Title string `help:"What the change is called."`
	paperFlags
}

func (c changeCmd) Run(e *env) error {
	made, err := c.made()
	if err != nil {
		return err
	}
	f, a, b, err := e.sheets(c.A, c.B)
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
	File  string  `arg:"" help:"Build file."`
	View  string  `help:"View to draw: ${enum}." enum:"plan,left,right,rear,wall-left,wall-right,section" default:"plan"`
	At    string  `help:"Where a section is cut, from the front axle, such as 2400 mm; without it half way along the floor." placeholder:"LENGTH"`
	State string  `help:"State to draw: ${enum}." enum:"travel,camp,night,stored" default:"travel"`
	Scale float64 `help:"Scale denominator of the PDF." default:"20"`
	Out   string  `short:"o" help:"File to write; its ending says the form: svg, pdf or dxf." required:"" placeholder:"FILE"`
}

func (c drawingCmd) Run(e *env) error {
	if !(c.Scale >= 1 && c.Scale <= 200) {
		return usage{fmt.Sprintf("scale %g is outside 1 … 200", c.Scale), "1:20 is --scale 20"}
	}
	form := strings.ToLower(strings.TrimPrefix(filepath.Ext(c.Out), "."))
	switch form {
	case "svg", "pdf", "dxf":
	default:
		return usage{fmt.Sprintf("file %q does not say what it should hold", c.Out), "end its name in .svg, .pdf or .dxf"}
	}
	f, s, err := e.sheet(c.File, "")
	if err != nil {
		return err
	}
	view, err := c.viewAt()
	if err != nil {
		return err
	}
	b, err := s.View(view, derive.State(c.State), form, c.Scale, sheet.Issue{Hash: sheet.Hash(f.Text)})
	if err != nil {
		return usage{text: err.Error()}
	}
	return e.write(c.Out, b)
}

// write puts a file in place whole, or not at all. What is no plain file, such as /dev/stdout, is written to as it is.
func (e *env) write(path string, b []byte) error {
	if err := put(path, b); err != nil {
		return usage{text: fmt.Sprintf("cannot write %q: %v", path, reason(err))}
	}
	fmt.Fprintf(e.err, "wrote %s (%d bytes)\n", path, len(b))
	return nil
}

func put(path string, b []byte) error {
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return os.WriteFile(path, b, 0o644)
	}
	tmp, err := os.CreateTemp(filepath.Dir(path), ".berthwright-*")
	if err != nil {
		return err
	}
	defer os.Remove(tmp.Name())
	_, err = tmp.Write(b)
	if bad := tmp.Close(); err == nil {
		err = bad
	}
	if err == nil {
		err = os.Chmod(tmp.Name(), 0o644)
	}
	if err == nil {
		err = os.Rename(tmp.Name(), path)
	}
	return err
}
