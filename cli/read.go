package cli

import (
	"errors"
	"fmt"
	"io"
	"os"

	"berthwright/diag"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/parts"
	"berthwright/sheet"
	"berthwright/workshop"
)

// mostText bounds the memory; it is more than the binder reads, so that it can say so itself.
const mostText = 8 << 20

// fileError is a file that cannot be read at all.
type fileError struct{ usage }

// readText reads a file as it was named; "-" is standard input.
func (e *env) readText(path string) (text []byte, err error) {
	from := e.in
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return nil, unreadable(path, err)
		}
		defer f.Close()
		from = f
	}
	text, err = io.ReadAll(io.LimitReader(from, mostText))
	if err != nil {
		return nil, unreadable(path, err)
	}
	if len(text) == mostText {
		return nil, fileError{usage{fmt.Sprintf("cannot read %q: it has 8 MB or more", path), "a build text has at most 2 MB"}}
	}
	return text, nil
}

// unreadable says in one line why a file cannot be read.
func unreadable(path string, err error) error {
	u := usage{text: fmt.Sprintf("cannot read %q: %v", path, reason(err))}
	if info, bad := os.Stat(path); bad == nil && info.IsDir() {
		u = usage{fmt.Sprintf("cannot read %q: it is a folder", path), "name the build files in it, such as " + path + "/*.yaml"}
	}
	return fileError{u}
}

// reason takes the path off an error of the operating system: the message names the file itself.
func reason(err error) error {
	var pe *os.PathError
	if errors.As(err, &pe) {
		return pe.Err
	}
	return err
}

// fileName is how a file is called in messages.
func fileName(path string) string {
	if path == "-" {
		return "standard input"
	}
	return path
}

// read reads a build file and prints its diagnostics. A wrong value counts as missing; of a text that cannot be read at
// all the File comes with the exit code.
func (e *env) read(path string) (*docfile.File, error) {
	text, err := e.readText(path)
	if err != nil {
		return nil, err
	}
	f := docfile.Read(fileName(path), text, docfile.Refs{Known: e.known, Near: e.near})
	e.diagnose(f.Diags, text)
	if !f.Readable {
		return f, exit(badInput)
	}
	return f, nil
}

// known tells the ids that a build may refer to outside its own file.
func (e *env) known(kind, id string) bool {
	if kind == "part" {
		name, _ := parts.Ref(id)
		if _, own := e.ctx.Shop.Part(name); own {
			return true
		}
	}
	return e.ctx.Parts.Known(kind, id)
}

// near finds the part or class that was probably meant.
func (e *env) near(kind, id string) (string, bool) {
	return e.ctx.Parts.Near(kind, id, e.ctx.Shop.PartIDs()...)
}

func (e *env) diagnose(l diag.List, text []byte) {
	t := diag.NewText(text)
	if err := diag.Fprint(e.err, l, func(string) *diag.Text { return t }); err != nil {
		fmt.Fprintln(e.err, "berthwright:", err)
	}
}

func (e *env) readWorkshop(path string) error {
	text, err := e.readText(path)
	if err != nil {
		return err
	}
	f := workshop.Read(fileName(path), text)
	e.diagnose(f.Diags, text)
	if !f.Readable || f.Diags.HasErrors() {
		return exit(badInput)
	}
	e.ctx.Shop, e.workshop = f.Workshop, string(text)
	return nil
}

// record reads a record file.
func (e *env) record(path string) (*doc.Record, error) {
	text, err := e.readText(path)
	if err != nil {
		return nil, err
	}
	r := docfile.ReadRecord(fileName(path), text)
	e.diagnose(r.Diags, text)
	if !r.Readable || r.Diags.HasErrors() {
		return nil, exit(badInput)
	}
	return &r.Record, nil
}

// sheet reads and assesses a build, with its record where one is named.
func (e *env) sheet(path, record string) (*docfile.File, *sheet.Sheet, error) {
	f, err := e.read(path)
	if err != nil {
		return f, nil, err
	}
	if record == "" {
		return f, sheet.Assess(f.Build, e.ctx, nil), nil
	}
	rec, err := e.record(record)
	if err != nil {
		return f, nil, err
	}
	return f, sheet.Assess(f.Build, e.ctx, rec), nil
}

// sheets reads and assesses two builds that are compared.
func (e *env) sheets(a, b string) (fb *docfile.File, before, after *sheet.Sheet, err error) {
	if _, before, err = e.sheet(a, ""); err != nil {
		return nil, nil, nil, err
	}
	fb, after, err = e.sheet(b, "")
	return fb, before, after, err
}
