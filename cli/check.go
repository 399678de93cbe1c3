package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"

	"berthwright/check"
	"berthwright/docfile"
	"berthwright/sheet"
)

type checkCmd struct {
	Files  []string `arg:"" name:"file" help:"Build files; - reads one from standard input."`
	Record string   `help:"Record of weighings that belongs to the build." placeholder:"FILE"`
	JSON   bool     `name:"json" xor:"form" help:"Print JSON."`
	Work   string   `xor:"form" help:"Print the working behind one figure: weight.rear, or the key of a finding." placeholder:"FIGURE"`
	Only   string   `enum:"all,weight,fit" default:"all" help:"Judge one concern only: ${enum}."`
	Strict bool     `help:"Exit 1 for tight and unknown too."`
}

// count is how many findings have each verdict that a person should hear of; advice is not counted.
type count struct{ fails, tight, unknown int }

func (c checkCmd) Run(e *env) error {
	if c.Record != "" && len(c.Files) > 1 {
		return usage{"a record belongs to one build, but several files are named", "check them one by one"}
	}
	code := exit(ok)
	report := jsonReport{Builds: []jsonBuild{}}
	for i, path := range c.Files {
		f, s, err := e.sheet(path, c.Record)
		if err != nil {
			code = badInput
			e.complain(err)
			report.Builds = append(report.Builds, jsonUnread(path, f, err))
			continue
		}
		found := findingsOf(s, c.Only)
		n := tally(found)
		switch {
		case f.Diags.HasErrors():
			code = badInput
		case code == ok && (n.fails > 0 || c.Strict && n.tight+n.unknown > 0):
			code = failing
		}
		switch {
		case c.Work != "":
			if err := e.printSlip(s, c.Work); err != nil {
				return err
			}
		case c.JSON:
			report.Builds = append(report.Builds, jsonOf(fileName(path), f, s, found))
		default:
			var b bytes.Buffer
			if i > 0 {
				fmt.Fprintln(&b)
			}
			printCheck(&b, fileName(path), f, s, found)
			e.out.Write(b.Bytes())
		}
		if n.fails+n.tight+n.unknown > 0 && c.Work == "" {
			fmt.Fprintf(e.err, "%s: %s\n", fileName(path), n)
		}
	}
	if c.JSON {
		if err := e.printJSON(report); err != nil {
			return err
		}
	}
	if code != ok && e.out.err == nil {
		return code
	}
	return nil
}

// complain prints an error in the loop over several files; an exit code was explained where it came up.
func (e *env) complain(err error) {
	var code exit
	if !errors.As(err, &code) {
		fmt.Fprintf(e.err, "berthwright: %v\n", err)
	}
}

func tally(findings []check.Finding) (n count) {
	for _, f := range findings {
		switch {
		case f.Advisory:
		case f.Verdict == check.DoesNotHold:
			n.fails++
		case f.Verdict == check.Tight:
			n.tight++
		case f.Verdict == check.Unknown:
			n.unknown++
		}
	}
	return n
}

// String says what was counted: "1 does not hold, 2 unknown".
func (n count) String() string {
	var parts []string
	add := func(n int, one, many string) {
		switch {
		case n == 1:
			parts = append(parts, "1 "+one)
		case n > 1:
			parts = append(parts, fmt.Sprintf("%d %s", n, many))
		}
	}
	add(n.fails, "does not hold", "do not hold")
	add(n.tight, "tight", "tight")
	add(n.unknown, "unknown", "unknown")
	return strings.Join(parts, ", ")
}

// printCheck prints the deciding sentences and every finding, worst first.
func printCheck(w io.Writer, name string, f *docfile.File, s *sheet.Sheet, found []check.Finding) {
	sys := s.System()
	title := s.Build.Head.Name
	if title == "" {
		title = s.Build.Head.ID
	}
	fmt.Fprintf(w, "%s · %s · %s · %s\n\n", title, name, sheet.Hash(f.Text), strings.Join(s.Basis(), ", "))
	for _, t := range s.Weight.Title(sys) {
		fmt.Fprintf(w, "  %s\n", t.Text)
		if t.Detail != "" {
			fmt.Fprintf(w, "      %s\n", t.Detail)
		}
	}
	fmt.Fprintln(w)
	for _, f := range found {
		word := f.Verdict.Says()
		if f.Advisory {
			word = "note"
		}
		fmt.Fprintf(w, "%-14s %s\n", word, f.Says.Text(sys))
		fmt.Fprintf(w, "%-14s   %s\n", "", finePrint(f))
		if f.Verdict == check.Holds {
			continue
		}
		if f.Advice != "" {
			fmt.Fprintf(w, "%-14s   → %s\n", "", f.Advice)
		}
		if f.Caution != "" {
			fmt.Fprintf(w, "%-14s   caution: %s\n", "", f.Caution)
		}
	}
	if mends := s.Clears(); len(mends) > 0 {
		fmt.Fprintf(w, "\nWhat clears it (%s)\n", mends[0].Finding.Title)
		for _, m := range mends {
			fmt.Fprintf(w, "  %s", m.Words.Text(sys))
			if len(m.Reopens) > 0 {
				fmt.Fprintf(w, "; reopens %s", strings.Join(m.Reopens, ", "))
			}
			fmt.Fprintln(w)
		}
	}
	if next := s.Weight.MeasureNext(); len(next) > 0 {
		fmt.Fprintln(w, "\nMeasure next")
		for _, n := range next {
			fmt.Fprintf(w, "  %s\n", n.Says)
		}
	}
	fmt.Fprintf(w, "\n%s, as far as computed here; papers would be %s. Local codes and licensed examiners decide.\n", sheet.Program, paperWords(s))
}

// paperWords tells how far the papers may be relied on: those of the weight, and those of holes where there are any.
func paperWords(s *sheet.Sheet) string {
	all := map[string]string{}
	for _, p := range s.Papers() {
		all[p.File] = p.Status.String()
	}
	weight, holes := all["mass-statement.pdf"], all["hole-register.pdf"]
	if weight == holes {
		return weight
	}
	return weight + " (weight) and " + holes + " (holes)"
}

// finePrint says where a finding comes from.
func finePrint(f check.Finding) string {
	parts := []string{f.Key()}
	if f.Rule != "" {
		parts = append(parts, "rule "+f.Rule+" ("+f.Evidence()+")")
	}
	return strings.Join(parts, " · ")
}

// findingsOf returns the findings of one concern, or of all.
func findingsOf(s *sheet.Sheet, concern string) []check.Finding {
	switch concern {
	case "weight":
		return s.Weight.Findings
	case "fit":
		return s.Fit().Findings
	}
	return s.Findings(false)
}
