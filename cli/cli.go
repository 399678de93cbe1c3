// Package cli answers: what does a build say on the command line?
//
// It wires commands to the packages below; it decides nothing. Exit codes: 0 nothing fails, 1 something does not hold,
// 2 the input is bad. Answers go to standard output; what a person should also know goes to standard error.
package cli

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/alecthomas/kong"

	"berthwright/derive"
	"berthwright/parts"
	"berthwright/sheet"
)

// Exit codes.
const (
	ok       = 0
	failing  = 1
	badInput = 2
)

// commands is the whole command line.
type commands struct {
	Workshop  string       `help:"Workshop file: own defaults, own parts, confirmed figures." placeholder:"FILE"`
	Serve     serveCmd     `cmd:"" help:"Serve the page on this machine."`
	Check     checkCmd     `cmd:"" help:"Print what holds and what does not."`
	Diff      diffCmd      `cmd:"" help:"Print what changed between two builds, in kilograms, axles and payload."`
	Reconcile reconcileCmd `cmd:"" help:"Hold weighings against the sum of parts."`
	Papers    papersCmd    `cmd:"" help:"Print papers as PDF."`
	Drawing   drawingCmd   `cmd:"" help:"Draw a view as SVG, PDF or DXF."`
	Sum       sumCmd       `cmd:"" help:"Answer one bench question with its working."`
	Version   versionCmd   `cmd:"" help:"Print the version."`
}

// env is what every command gets.
type env struct {
	in       io.Reader
	out      *keeper
	err      io.Writer
	ctx      derive.Context
	workshop string // text of the workshop file, "" for none
}

// exit carries an exit code through kong.
type exit int

func (e exit) Error() string { return fmt.Sprintf("exit %d", int(e)) }

// usage is an error in what was asked for: one line, perhaps a hint, and exit code 2.
type usage struct{ text, hint string }

func (u usage) Error() string {
	if u.hint == "" {
		return u.text
	}
	return u.text + "\n\thint: " + u.hint
}

// keeper remembers the first error of a writer, so that a full disk is not taken for an answer.
type keeper struct {
	w   io.Writer
	err error
}

func (k *keeper) Write(b []byte) (int, error) {
	if k.err != nil {
		return 0, k.err
	}
	n, err := k.w.Write(b)
	k.err = err
	return n, err
}

// Run runs the command line and returns the exit code.
func Run(args []string, in io.Reader, out, errOut io.Writer) int {
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
	e := &env{in: in, out: &keeper{w: out}, err: errOut}
	if err != nil {
		return e.finish(usage{err.Error(), helpFor(err)})
	}
	if e.ctx.Parts, err = parts.Load(); err != nil {
		return e.finish(err)
	}
	if c.Workshop != "" {
		if err := e.readWorkshop(c.Workshop); err != nil {
			return e.finish(err)
		}
	}
	return e.finish(k.Run(e))
}

// helpFor names the help that belongs to what was asked for.
func helpFor(err error) string {
	var pe *kong.ParseError
	if errors.As(err, &pe) && pe.Context != nil && pe.Context.Command() != "" {
		words := strings.Fields(pe.Context.Command())
		for i, w := range words {
			if strings.HasPrefix(w, "<") {
				words = words[:i]
				break
			}
		}
		return "berthwright " + strings.Join(append(words, "--help"), " ") + " tells how it is called"
	}
	return "berthwright --help lists the commands"
}

// finish turns an error into an exit code and one line.
func (e *env) finish(err error) int {
	if err == nil && e.out.err != nil {
		err = fmt.Errorf("cannot write the answer: %w", e.out.err)
	}
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

// printJSON prints one answer for other programs.
func (e *env) printJSON(v any) error {
	enc := json.NewEncoder(e.out)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

type versionCmd struct{}

func (versionCmd) Run(e *env) error {
	fmt.Fprintf(e.out, "%s, parts edition %s\n", sheet.Program, parts.Edition)
	return nil
}
