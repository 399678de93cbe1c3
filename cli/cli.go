// Package cli answers: what does a build say on the command line?
//
// It wires commands to the packages below; it decides nothing. Exit codes: 0 nothing fails, 1 something does not hold,
// 2 the input is bad. Findings go to standard output; what a person should also know goes to standard error.
package cli

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/alecthomas/kong"

	"berthwright/derive"
	"berthwright/diag"
	"berthwright/docfile"
	"berthwright/parts"
	"berthwright/sheet"
	"berthwright/workshop"
)

// Exit codes.
const (
	ok       = 0
	failing  = 1
	badInput = 2
)

// env is what every command gets.
type env struct {
	out, err io.Writer
	ctx      derive.Context
	shop     string // path of the workshop file
}

// commands is the whole command line.
type commands struct {
	Workshop  string       `help:"Workshop file: own defaults, own parts, confirmed figures." type:"path" placeholder:"FILE"`
	Serve     serveCmd     `cmd:"" help:"Serve the page on this machine."`
	Check     checkCmd     `cmd:"" help:"Print what holds and what does not."`
	Diff      diffCmd      `cmd:"" help:"Print what changed between two builds, in kilograms, axles and payload."`
	Reconcile reconcileCmd `cmd:"" help:"Hold weighings against the sum of parts."`
	Papers    papersCmd    `cmd:"" help:"Print papers as PDF."`
	Drawing   drawingCmd   `cmd:"" help:"Draw a view as SVG, PDF or DXF."`
	Sum       sumCmd       `cmd:"" help:"Answer one bench question with its working."`
	Version   versionCmd   `cmd:"" help:"Print the version."`
}

// exit carries an exit code through kong.
type exit int

func (e exit) Error() string { return fmt.Sprintf("exit %d", int(e)) }

// usage is an error in what was asked for: one line, exit code 2.
type usage struct{ text string }

func (u usage) Error() string { return u.text }

// Run runs the command line and returns the exit code.
func Run(args []string, out, errOut io.Writer) int {
	var c commands
	code := -1
	p, err := kong.New(&c,
		kong.Name("berthwright"),
		kong.Description("One description of a campervan build; every answer computed from it, with the working shown."),
		kong.Writers(out, errOut),
		kong.Exit(func(n int) { code = n }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
	)
	if err != nil {
		fmt.Fprintln(errOut, "berthwright:", err)
		return badInput
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	k, err := p.Parse(args)
	if code >= 0 { // help was printed
		return code
	}
	if err != nil {
		fmt.Fprintf(errOut, "berthwright: %v\n\thint: berthwright --help lists the commands\n", err)
		return badInput
	}
	cat, err := parts.Load()
	if err != nil {
		fmt.Fprintln(errOut, "berthwright:", err)
		return badInput
	}
	e := &env{out: out, err: errOut, ctx: derive.Context{Parts: cat}, shop: c.Workshop}
	if c.Workshop != "" {
		if err := e.readWorkshop(c.Workshop); err != nil {
			return e.finish(err)
		}
	}
	return e.finish(k.Run(e))
}

// finish turns an error into an exit code and one line.
func (e *env) finish(err error) int {
	var code exit
	switch {
	case err == nil:
		return ok
	case errors.As(err, &code):
		return int(code)
	}
	fmt.Fprintf(e.err, "berthwright: %v\n", err)
	return badInput
}

// read reads a build file and prints its diagnostics. An unreadable one is an error; a wrong value counts as missing.
func (e *env) read(path string) (*docfile.File, error) {
	text, err := readText(path)
	if err != nil {
		return nil, err
	}
	f := docfile.Read(path, text, docfile.Refs{Known: e.ctx.Parts.Known})
	e.diagnose(f.Diags, text)
	if !f.Readable {
		return nil, exit(badInput)
	}
	return f, nil
}

// mostText is more than the binder reads, so that it can say so itself.
const mostText = 8 << 20

func readText(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		var pe *os.PathError
		if errors.As(err, &pe) {
			return nil, usage{fmt.Sprintf("cannot read %q: %v", path, pe.Err)}
		}
		return nil, usage{fmt.Sprintf("cannot read %q", path)}
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, mostText))
	if err != nil {
		return nil, usage{fmt.Sprintf("cannot read %q: %v", path, err)}
	}
	return text, nil
}

func (e *env) diagnose(l diag.List, text []byte) {
	t := diag.NewText(text)
	if err := diag.Fprint(e.err, l, func(string) *diag.Text { return t }); err != nil {
		fmt.Fprintln(e.err, "berthwright:", err)
	}
}

func (e *env) readWorkshop(path string) error {
	text, err := readText(path)
	if err != nil {
		return err
	}
	f := workshop.Read(path, text)
	e.diagnose(f.Diags, text)
	if !f.Readable || f.Diags.HasErrors() {
		return exit(badInput)
	}
	e.ctx.Shop = f.Workshop
	return nil
}

// sheet reads and assesses a build, with its record where one is named.
func (e *env) sheet(path, record string) (*docfile.File, *sheet.Sheet, error) {
	f, err := e.read(path)
	if err != nil {
		return nil, nil, err
	}
	if record == "" {
		return f, sheet.Assess(f.Build, e.ctx, nil), nil
	}
	rec, err := e.record(record)
	if err != nil {
		return nil, nil, err
	}
	return f, sheet.Assess(f.Build, e.ctx, rec), nil
}

type versionCmd struct{}

func (versionCmd) Run(e *env) error {
	fmt.Fprintf(e.out, "%s, parts edition %s\n", sheet.Program, parts.Edition)
	return nil
}
