package docfile

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"berthwright/diag"
)

// The limits of one text.
const (
	maxText     = 2 << 20 // bytes
	maxItems    = 2000
	maxDepth    = 32
	maxMarks    = 300_000 // marks that part values, so that memory stays bounded before the text is read
	maxScalar   = 20_000  // bytes of one value
	maxProblems = 1000    // that are told; nobody reads more
	version     = 1       // of the file format
)

// begin is the hint for a text that is not even the beginning of a build.
const begin = "begin with berthwright: 1"

// parse makes the tree of a text, or tells why it cannot be read.
func parse(text []byte) (*node, *refusal) {
	if bad := plainText(text); bad != nil {
		return nil, bad
	}
	if root, ok := quick(text); ok {
		return root, nil
	}
	return parseYAML(text)
}

// parseYAML makes the tree with the library. The text has passed plainText.
func parseYAML(text []byte) (*node, *refusal) {
	g := newGrower(text)
	body := bytes.TrimPrefix(text, []byte("\ufeff"))
	if len(body) < len(text) {
		g.lines[0] = len(text) - len(body)
		g.offset = g.lines[0]
	}
	y, bad := load(body, g)
	if bad != nil {
		return nil, bad
	}
	root := g.grow(y, g.lines[0], -1, 0)
	if g.bad != nil {
		return nil, g.bad
	}
	if root.kind != mapping {
		return nil, &refusal{root.start, root.end, diag.Unreadable, "the file is " + shape(root) + ", not keys with values", begin}
	}
	return root, nil
}

func load(body []byte, g *grower) (y *yaml.Node, bad *refusal) {
	defer func() { // a fault of the library must not take the program down
		if r := recover(); r != nil {
			y, bad = nil, &refusal{code: diag.Unreadable}
		}
	}()
	var top yaml.Node
	err := yaml.Load(body, &top, yaml.WithPlugin(loaderlimits.New(loaderlimits.DepthValue(2*maxDepth))))
	if err != nil {
		return nil, yamlRefusal(err, g)
	}
	if len(top.Content) != 1 {
		return nil, nothing
	}
	return top.Content[0], nil
}

// yamlRefusal words an error of the library in our terms.
func yamlRefusal(err error, g *grower) *refusal {
	var le *yaml.LoadError
	if !errors.As(err, &le) || le.Mark.Line == 0 {
		if strings.Contains(err.Error(), "multiple") {
			at := max(0, bytes.Index(g.text, []byte("\n---"))+1)
			return &refusal{at, min(at+3, len(g.text)), diag.Documents, "", `take out the line "---"`}
		}
		if strings.Contains(err.Error(), "no documents") {
			return nothing
		}
		return &refusal{0, 0, diag.Unreadable, "", ""}
	}
	at := g.at(le.Mark.Line, max(1, le.Mark.Column))
	r := &refusal{at, min(at+1, len(g.text)), diag.Unreadable, "", ""}
	began := ""
	if le.ContextMark.Line > 0 && le.ContextMark.Line != le.Mark.Line {
		began = fmt.Sprintf("it began in line %d", le.ContextMark.Line)
	}
	has := func(word string) bool { return strings.Contains(le.Message+" "+le.ContextMsg, word) }
	switch {
	case at < len(g.text) && g.text[at] == '\t':
		r.code, r.hint = diag.Tab, "indent with spaces"
	case has("depth") || has("nest"):
		r.code, r.hint = diag.TooDeep, "at most 32 levels are read"
	case has("quoted scalar"):
		r.code, r.hint = diag.Quote, began
	case has("flow mapping") || has("flow sequence"):
		r.code, r.hint = diag.Bracket, began
	case has("mapping values are not allowed"):
		r.message, r.hint = "a colon and a space stand inside a value", "put the value in quotes"
	case has("control characters"):
		r.code = diag.Control
	case has("block mapping") || has("block collection") || has("indentation"):
		r.code, r.hint = diag.Indent, "begin the keys of one thing in the same column"
	case has("simple key") || has("expected ':'"):
		r.code, r.hint = diag.Key, "write key: value"
	case has("alias") || has("anchor"):
		r.code, r.hint = diag.Anchor, "put the value in quotes when it begins with & or *"
	case has("cannot start any token"):
		r.message, r.hint = "a value cannot begin with this character", "put the value in quotes"
	}
	return r
}

var nothing = &refusal{code: diag.Unreadable, message: "the text is empty", hint: begin}

// plainText refuses what cannot be a text of ours before anything else looks at it.
func plainText(text []byte) *refusal {
	no := func(at int, code diag.Code, message, hint string) *refusal {
		return &refusal{at, min(at+1, len(text)), code, message, hint}
	}
	if len(text) > maxText {
		return &refusal{0, 0, diag.TooLarge, fmt.Sprintf("the text is too large: %d bytes", len(text)), "at most 2 MB are read"}
	}
	if !utf8.Valid(text) {
		at := 0
		for at < len(text) {
			r, size := utf8.DecodeRune(text[at:])
			if r == utf8.RuneError && size == 1 {
				break
			}
			at += size
		}
		return no(at, diag.NotUTF8, "the text is not UTF-8 from here on", "save the file as UTF-8")
	}
	marks := 0
	for i, c := range text {
		switch {
		case c == ',' || c == ':' || c == '[' || c == '{' || c == '\n' || c == '-' && i+1 < len(text) && text[i+1] <= ' ':
			marks++
		case c == '\t', c >= ' ' && c != 0x7f:
		case c == '\r' && i+1 < len(text) && text[i+1] == '\n':
		case c == '\r':
			return no(i, diag.Control, "a line ends with a lone carriage return", "save the file with the line ends of this machine")
		default:
			return no(i, diag.Control, "", "save the file as plain text")
		}
	}
	if marks > maxMarks {
		return &refusal{0, 0, diag.TooLarge, "the text holds too many values", fmt.Sprintf("at most %d commas, colons, dashes, brackets and lines are read", maxMarks)}
	}
	for _, b := range []string{"\u0085", "\u2028", "\u2029"} {
		if i := bytes.Index(text, []byte(b)); i >= 0 {
			return no(i, diag.Control, "an invisible line break stands here", "put a space or begin a new line")
		}
	}
	if i := bytes.LastIndex(text, []byte("\ufeff")); i > 0 {
		return no(i, diag.Control, "", "take the invisible character out")
	}
	return nil
}
