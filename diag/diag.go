// Package diag answers: what is wrong in this text, where, and what should stand there instead?
//
// A reader of people's text collects Diagnostics in a List (Add), sorts it once (Sort), and a face
// prints it: Fprint for a terminal, encoding/json for the page. Text turns byte offsets into lines
// and columns; Nearest finds the word that was meant. Codes is the declared list of what can be
// wrong, each with its message and its explanation.
//
// Positions count lines and columns from 1; a column counts characters (code points), a Byte
// counts bytes from the start of the text. The zero Pos is no position: such a Diagnostic speaks
// of the whole file. Nothing here reads a file or knows the document.
package diag

import (
	"cmp"
	"encoding/json"
	"slices"
	"strings"
)

// Pos is a place in a text.
type Pos struct {
	Line int `json:"line"`   // from 1
	Col  int `json:"column"` // in characters, from 1
	Byte int `json:"byte"`   // from 0
}

// Known reports whether p is a place.
func (p Pos) Known() bool { return p.Line > 0 }

// Range is the text from Start up to, not including, End.
type Range struct{ Start, End Pos }

// Severity tells how bad a Diagnostic is. The zero Severity is invalid.
type Severity uint8

// The severities. An Error makes a value count as missing; a Warning can be accepted by its code.
const (
	_ Severity = iota
	Error
	Warning
)

// String returns "error" or "warning".
func (s Severity) String() string {
	switch s {
	case Error:
		return "error"
	case Warning:
		return "warning"
	}
	return "invalid severity"
}

// Args fill the template of a message.
type Args map[string]string

// Diagnostic is one thing that is wrong.
type Diagnostic struct {
	File     string // as the user named it; "" for text that has no file
	Pos, End Pos    // the offending text; End equal to Pos for a place without extent
	Path     string // document path, "items/fridge/mass"
	Severity Severity
	Code     Code
	Message  string // template with {name} for each of Args; "" takes that of Code. Lower case, no full stop
	Args     Args
	Hint     string // what to write instead; "" for none
	Related  []Related
}

// Related is another place that has to do with a Diagnostic.
type Related struct {
	File     string // "" is the file of the Diagnostic
	Pos, End Pos
	Says     string // "first defined here"
}

// Text returns the message with its arguments filled in.
func (d Diagnostic) Text() string {
	template := d.Message
	if template == "" {
		template = d.Code.Template()
	}
	if len(d.Args) == 0 {
		return template
	}
	var b strings.Builder
	for {
		before, rest, open := strings.Cut(template, "{")
		name, after, closed := strings.Cut(rest, "}")
		value, known := d.Args[name]
		if !open || !closed {
			b.WriteString(template)
			return b.String()
		}
		b.WriteString(before)
		if known {
			b.WriteString(value)
			template = after
		} else { // not ours: keep the bracket and go on behind it
			b.WriteByte('{')
			template = rest
		}
	}
}

// MarshalJSON writes d flat, with the rendered text beside the template and its arguments.
func (d Diagnostic) MarshalJSON() ([]byte, error) {
	type related struct {
		File   string `json:"file,omitempty"`
		Line   int    `json:"line"`
		Column int    `json:"column"`
		Byte   int    `json:"byte"`
		Says   string `json:"says"`
	}
	flat := struct {
		File      string    `json:"file,omitempty"`
		Line      int       `json:"line,omitempty"`
		Column    int       `json:"column,omitempty"`
		Byte      int       `json:"byte"`
		EndLine   int       `json:"endLine,omitempty"`
		EndColumn int       `json:"endColumn,omitempty"`
		EndByte   int       `json:"endByte"`
		Path      string    `json:"path,omitempty"`
		Severity  string    `json:"severity"`
		Code      Code      `json:"code"`
		Text      string    `json:"text"`
		Hint      string    `json:"hint,omitempty"`
		Args      Args      `json:"args,omitempty"`
		Related   []related `json:"related,omitempty"`
	}{d.File, d.Pos.Line, d.Pos.Col, d.Pos.Byte, d.End.Line, d.End.Col, d.End.Byte, d.Path, d.Severity.String(), d.Code, d.Text(), d.Hint, d.Args, nil}
	for _, r := range d.Related {
		flat.Related = append(flat.Related, related{r.File, r.Pos.Line, r.Pos.Col, r.Pos.Byte, r.Says})
	}
	return json.Marshal(flat)
}

// List is the diagnostics of one or more texts.
type List []Diagnostic

// MarshalJSON writes an empty list as [].
func (l List) MarshalJSON() ([]byte, error) {
	return json.Marshal(append([]Diagnostic{}, l...))
}

// Add appends d. A Diagnostic without a Severity takes that of its code.
func (l *List) Add(d Diagnostic) {
	if d.Severity == 0 {
		d.Severity = d.Code.Severity()
	}
	*l = append(*l, d)
}

// Sort orders l by file and position, errors before warnings at one place, and drops repetitions.
func (l *List) Sort() {
	slices.SortStableFunc(*l, func(a, b Diagnostic) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Pos.Byte, b.Pos.Byte),
			cmp.Compare(a.Severity, b.Severity), cmp.Compare(a.Code, b.Code), cmp.Compare(a.Text(), b.Text()))
	})
	*l = slices.CompactFunc(*l, func(a, b Diagnostic) bool {
		return a.File == b.File && a.Pos == b.Pos && a.Code == b.Code && a.Path == b.Path && a.Text() == b.Text()
	})
}

// HasErrors reports whether l holds an Error.
func (l List) HasErrors() bool { return l.Count(Error) > 0 }

// Count returns how many of l have severity s.
func (l List) Count(s Severity) int {
	n := 0
	for _, d := range l {
		if d.Severity == s {
			n++
		}
	}
	return n
}
