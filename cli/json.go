package cli

import (
	"errors"

	"berthwright/check"
	"berthwright/diag"
	"berthwright/docfile"
	"berthwright/sheet"
	"berthwright/unit"
)

// jsonReport is the form of check --json.
type jsonReport struct {
	Builds []jsonBuild `json:"builds"`
}

type jsonBuild struct {
	File        string        `json:"file"`
	Build       string        `json:"build"` // id; "" when the file cannot be read
	Hash        string        `json:"hash"`  // "" when the file cannot be opened
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
	Margin   *jsonQuantity `json:"margin,omitempty"` // positive when it holds
	Half     *jsonQuantity `json:"half,omitempty"`   // 95 % half-width of the margin
	Basis    string        `json:"basis"`
	Evidence string        `json:"evidence"`
	Rule     string        `json:"rule"`
	Subjects []jsonSubject `json:"subjects"`
	Missing  []jsonSubject `json:"missing"`
	Advice   string        `json:"advice"`
	Caution  string        `json:"caution"`
	Advisory bool          `json:"advisory"` // never counted as failing
	Work     string        `json:"work"`     // what check --work takes to show the working; "" for none
}

// jsonQuantity is a value in coherent SI, the SI unit it is in, and its text in the unit that the build is read in.
type jsonQuantity struct {
	SI   float64 `json:"si"`
	Unit string  `json:"unit"`
	Text string  `json:"text"`
}

type jsonSubject struct {
	Path string `json:"path"`
	Name string `json:"name"`
}

func jsonOf(name string, file *docfile.File, s *sheet.Sheet, found []check.Finding) jsonBuild {
	sys := s.System()
	b := jsonBuild{
		File: name, Build: s.Build.Head.ID, Hash: sheet.Hash(file.Text), Program: sheet.Program, Basis: s.Basis(),
		Diagnostics: file.Diags, Findings: []jsonFinding{},
	}
	for _, f := range found {
		b.Findings = append(b.Findings, jsonFinding{
			Key: f.Key(), Verdict: f.Verdict.String(), Says: f.Says.Text(sys),
			Value: jsonFigure(f.Value, sys), Limit: jsonFigure(f.Limit, sys), Margin: jsonFigure(f.Margin, sys), Half: jsonFigure(f.Half, sys),
			Basis: f.Basis, Evidence: f.Evidence(), Rule: f.Rule, Subjects: jsonSubjects(f.Subjects), Missing: jsonSubjects(f.Missing),
			Advice: f.Advice, Caution: f.Caution, Advisory: f.Advisory, Work: f.Slip,
		})
	}
	return b
}

// jsonUnread is the entry of a file that cannot be read; file is nil when there is no text of it at all.
func jsonUnread(path string, file *docfile.File, err error) jsonBuild {
	b := jsonBuild{File: fileName(path), Program: sheet.Program, Basis: []string{}, Findings: []jsonFinding{}}
	if file != nil {
		b.Hash, b.Diagnostics = sheet.Hash(file.Text), file.Diags
	}
	var bad fileError
	if errors.As(err, &bad) {
		b.Diagnostics.Add(diag.Diagnostic{File: b.File, Code: diag.Unreadable, Message: bad.text, Hint: bad.hint})
	}
	return b
}

func jsonFigure(o unit.Opt[check.Figure], sys unit.System) *jsonQuantity {
	f, ok := o.Get()
	if !ok {
		return nil
	}
	return &jsonQuantity{SI: f.SI, Unit: f.Kind.SI(), Text: f.Text(sys)}
}

// jsonMass is a mass as it stands in JSON, to 0.1 kg in its text.
func jsonMass(m unit.Mass, sys unit.System) jsonQuantity {
	return *jsonFigure(unit.Some(check.Figure{Kind: unit.KindMass, SI: m.Kilograms(), Digits: 1}), sys)
}

func jsonSubjects(all []check.Subject) []jsonSubject {
	out := []jsonSubject{}
	for _, s := range all {
		out = append(out, jsonSubject{s.Path, s.Name})
	}
	return out
}
