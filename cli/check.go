package cli

import (
	"encoding/json"
	"fmt"
	"strings"

	"berthwright/check"
	"berthwright/diag"
	"berthwright/sheet"
	"berthwright/unit"
)

type checkCmd struct {
	Files  []string `arg:"" name:"file" help:"Build files." type:"path"`
	Record string   `help:"Record of weighings that belongs to the build." type:"path" placeholder:"FILE"`
	JSON   bool     `name:"json" help:"Print JSON."`
	Strict bool     `help:"Exit 1 for tight and unknown too."`
	Work   string   `help:"Print the working behind one figure, such as weight.rear." placeholder:"FIGURE"`
}

// jsonReport is the form of check --json.
type jsonReport struct {
	Builds []jsonBuild `json:"builds"`
}

type jsonBuild struct {
	File        string        `json:"file"`
	Build       string        `json:"build"`
	Hash        string        `json:"hash"`
	Program     string        `json:"program"`
	Basis       []string      `json:"basis"`
	Diagnostics diag.List     `json:"diagnostics"`
	Findings    []jsonFinding `json:"findings"`
}

type jsonFinding struct {
	Key      string        `json:"key"`
	Verdict  string        `json:"verdict"`
	Says     string        `json:"says"`
	Value    *jsonQuantity `json:"value,omitempty"`
	Limit    *jsonQuantity `json:"limit,omitempty"`
	Margin   *jsonQuantity `json:"margin,omitempty"`
	Half     *jsonQuantity `json:"half,omitempty"`
	Basis    string        `json:"basis,omitempty"`
	Evidence string        `json:"evidence"`
	Rule     string        `json:"rule"`
	Subjects []jsonSubject `json:"subjects"`
	Missing  []jsonSubject `json:"missing"`
	Advice   string        `json:"advice,omitempty"`
	Caution  string        `json:"caution,omitempty"`
	Advisory bool          `json:"advisory,omitempty"`
}

type jsonQuantity struct {
	SI   float64 `json:"si"`
	Unit string  `json:"unit"`
	Text string  `json:"text"`
}

type jsonSubject struct {
	Path string `json:"path"`
	Name string `json:"name"`
}

func (c checkCmd) Run(e *env) error {
	code := exit(ok)
	report := jsonReport{}
	for i, path := range c.Files {
		f, s, err := e.sheet(path, c.Record)
		if err != nil {
			if e.finish(err) != ok {
				code = badInput
			}
			continue
		}
		l := f.Diags
		if l.HasErrors() {
			code = badInput
		}
		fails, tight, unknown := 0, 0, 0
		for _, f := range s.Weight.Findings {
			if f.Advisory {
				continue
			}
			switch f.Verdict {
			case check.DoesNotHold:
				fails++
			case check.Tight:
				tight++
			case check.Unknown:
				unknown++
			}
		}
		if (fails > 0 || c.Strict && tight+unknown > 0) && code == ok {
			code = failing
		}
		switch {
		case c.Work != "":
			if err := e.printSlip(s, c.Work); err != nil {
				return err
			}
			continue
		case c.JSON:
			report.Builds = append(report.Builds, jsonOf(path, f.Text, l, s))
		default:
			if i > 0 {
				fmt.Fprintln(e.out)
			}
			e.printCheck(path, f.Text, s)
		}
		if tight+unknown > 0 {
			fmt.Fprintf(e.err, "%s: %d tight, %d unknown\n", path, tight, unknown)
		}
	}
	if c.JSON {
		enc := json.NewEncoder(e.out)
		enc.SetIndent("", "  ")
		enc.SetEscapeHTML(false)
		if err := enc.Encode(report); err != nil {
			return err
		}
	}
	if code != ok {
		return code
	}
	return nil
}

// printCheck prints the deciding sentences and every finding, worst first.
func (e *env) printCheck(path string, text []byte, s *sheet.Sheet) {
	sys := s.System()
	status, _ := s.Weight.Status()
	fmt.Fprintf(e.out, "%s · %s · %s · %s\n\n", s.Build.Head.Name, path, sheet.Hash(text), strings.Join(s.Basis(), ", "))
	for _, t := range s.Weight.Title(sys) {
		fmt.Fprintf(e.out, "  %s\n", t.Text)
		if t.Detail != "" {
			fmt.Fprintf(e.out, "      %s\n", t.Detail)
		}
	}
	fmt.Fprintln(e.out)
	for _, f := range s.Weight.Findings {
		word := f.Verdict.Says()
		if f.Advisory {
			word = "note"
		}
		fmt.Fprintf(e.out, "%-14s %s\n", word, f.Says.Text(sys))
		fmt.Fprintf(e.out, "%-14s   %s\n", "", finePrint(f))
		if f.Verdict != check.Holds {
			if f.Advice != "" {
				fmt.Fprintf(e.out, "%-14s   → %s\n", "", f.Advice)
			}
			if f.Caution != "" {
				fmt.Fprintf(e.out, "%-14s   caution: %s\n", "", f.Caution)
			}
		}
	}
	if mends := s.Weight.Clears(s.Placed("travel")); len(mends) > 0 {
		fmt.Fprintf(e.out, "\nWhat clears it (%s)\n", mends[0].Finding.Title)
		for _, m := range mends {
			fmt.Fprintf(e.out, "  %s", m.Says)
			if len(m.Reopens) > 0 {
				fmt.Fprintf(e.out, "; reopens %s", strings.Join(m.Reopens, ", "))
			}
			fmt.Fprintln(e.out)
		}
	}
	if next := s.Weight.MeasureNext(); len(next) > 0 {
		fmt.Fprintln(e.out, "\nMeasure next")
		for _, n := range next {
			fmt.Fprintf(e.out, "  %s\n", n.Says)
		}
	}
	fmt.Fprintf(e.out, "\n%s, as far as computed here; papers would be %s. Local codes and licensed examiners decide.\n", sheet.Program, status)
}

// finePrint says where a finding comes from.
func finePrint(f check.Finding) string {
	parts := []string{f.Key()}
	if f.Rule != "" {
		parts = append(parts, "rule "+f.Rule+" ("+f.Level.String()+")")
	}
	return strings.Join(parts, " · ")
}

func jsonOf(path string, text []byte, l diag.List, s *sheet.Sheet) jsonBuild {
	sys := s.System()
	b := jsonBuild{File: path, Build: s.Build.Head.ID, Hash: sheet.Hash(text), Program: sheet.Program, Basis: s.Basis(), Diagnostics: l, Findings: []jsonFinding{}}
	if b.Diagnostics == nil {
		b.Diagnostics = diag.List{}
	}
	q := func(o unit.Opt[check.Figure]) *jsonQuantity {
		f, ok := o.Get()
		if !ok {
			return nil
		}
		v := &jsonQuantity{SI: f.SI, Text: f.Text(sys)}
		if f.Kind != unit.NoKind {
			v.Unit, _ = f.Kind.Shown(sys)
		}
		return v
	}
	subjects := func(all []check.Subject) []jsonSubject {
		out := []jsonSubject{}
		for _, s := range all {
			out = append(out, jsonSubject{s.Path, s.Name})
		}
		return out
	}
	for _, f := range s.Weight.Findings {
		b.Findings = append(b.Findings, jsonFinding{
			Key: f.Key(), Verdict: f.Verdict.String(), Says: f.Says.Text(sys), Value: q(f.Value), Limit: q(f.Limit), Margin: q(f.Margin), Half: q(f.Half),
			Basis: f.Basis, Evidence: f.Level.String(), Rule: f.Rule, Subjects: subjects(f.Subjects), Missing: subjects(f.Missing), Advice: f.Advice, Caution: f.Caution, Advisory: f.Advisory,
		})
	}
	return b
}
