package workshop

import (
	"bytes"
	"encoding"
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"berthwright/diag"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/unit"
)

const (
	version  = 1         // of the file format
	maxText  = 512 << 10 // bytes
	maxDepth = 16
)

// File is the text of a workshop file with what it says.
type File struct {
	Name     string
	Text     []byte
	Readable bool     // false: the text cannot be read at all, Diags has the one reason
	Workshop Workshop // wrong values are absent
	Diags    diag.List
}

// Read reads a workshop file. name is used in messages only. Own parts are bound by docfile, everything else here by the
// same field tags.
func Read(name string, text []byte) *File {
	f := &File{Name: name, Text: text}
	r := reader{file: f, text: diag.NewText(text)}
	root, bad := load(text)
	if bad != nil {
		bad.File = name
		if bad.Pos.Known() {
			bad.Pos = r.at(bad.Pos.Line, bad.Pos.Col)
			bad.End = bad.Pos
		}
		f.Diags.Add(*bad)
		return f
	}
	f.Readable = true
	if strange(root) {
		r.say(root, "", diag.Anchor, nil, "write the value where it belongs")
		f.Readable = false
		return f
	}
	r.mapping(root, "", reflect.ValueOf(&f.Workshop).Elem())
	if v := f.Workshop.Version; v > version {
		f.Workshop, f.Readable, f.Diags = Workshop{}, false, nil
		r.say(root, "berthwright-workshop", diag.NewerVersion, diag.Args{"text": strconv.Quote(strconv.Itoa(v))}, "open it with a newer program")
		return f
	}
	r.parts(root)
	f.Diags.Sort()
	return f
}

func load(text []byte) (root *yaml.Node, bad *diag.Diagnostic) {
	defer func() { // a fault of the library must not take the program down
		if e := recover(); e != nil {
			root, bad = nil, &diag.Diagnostic{Severity: diag.Error, Code: diag.Unreadable}
		}
	}()
	if len(text) > maxText {
		return nil, &diag.Diagnostic{Severity: diag.Error, Code: diag.TooLarge, Args: diag.Args{"text": "the text"}, Hint: "at most 512 kB are read"}
	}
	if !utf8.Valid(text) {
		return nil, &diag.Diagnostic{Severity: diag.Error, Code: diag.Unreadable, Hint: "save the file as UTF-8"}
	}
	var top yaml.Node
	if err := yaml.Load(text, &top, yaml.WithPlugin(loaderlimits.New(loaderlimits.DepthValue(2*maxDepth)))); err != nil {
		d := &diag.Diagnostic{Severity: diag.Error, Code: diag.Unreadable, Hint: "begin with berthwright-workshop: 1"}
		var le *yaml.LoadError
		if errors.As(err, &le) && le.Mark.Line > 0 {
			d.Pos = diag.Pos{Line: le.Mark.Line, Col: max(1, le.Mark.Column)}
			d.Hint = le.Message
		}
		return nil, d
	}
	if len(top.Content) != 1 || top.Content[0].Kind != yaml.MappingNode {
		return nil, &diag.Diagnostic{Severity: diag.Error, Code: diag.Unreadable, Hint: "begin with berthwright-workshop: 1"}
	}
	return top.Content[0], nil
}

// strange reports anchors and aliases, which are not read.
func strange(n *yaml.Node) bool {
	if n.Kind == yaml.AliasNode || n.Anchor != "" {
		return true
	}
	for _, c := range n.Content {
		if strange(c) {
			return true
		}
	}
	return false
}

type reader struct {
	file *File
	text *diag.Text
}

func (r reader) say(n *yaml.Node, path string, code diag.Code, args diag.Args, hint string) {
	at := r.at(n.Line, n.Column)
	r.file.Diags.Add(diag.Diagnostic{File: r.file.Name, Pos: at, End: at, Path: path, Severity: code.Severity(), Code: code, Args: args, Hint: hint})
}

// at makes a position of a line and a column, both from 1.
func (r reader) at(line, col int) diag.Pos {
	rest := r.file.Text
	for range min(line-1, r.text.Lines()-1) {
		rest = rest[bytes.IndexByte(rest, '\n')+1:]
	}
	offset := len(r.file.Text) - len(rest)
	for ; col > 1 && len(rest) > 0 && rest[0] != '\n'; col-- {
		_, size := utf8.DecodeRune(rest)
		rest, offset = rest[size:], offset+size
	}
	return r.text.Pos(offset)
}

func key(sf reflect.StructField) (name string, required bool) {
	name, rest, _ := strings.Cut(sf.Tag.Get("doc"), ",")
	return name, strings.Contains(rest, "required")
}

func join(path, word string) string {
	if path == "" {
		return word
	}
	return path + "/" + word
}

func (r reader) mapping(n *yaml.Node, path string, into reflect.Value) {
	if n.Kind != yaml.MappingNode {
		r.say(n, path, diag.NotAMapping, diag.Args{"key": strconv.Quote(path)}, "")
		return
	}
	fields := map[string]int{}
	var names []string
	for i := range into.NumField() {
		name, _ := key(into.Type().Field(i))
		fields[name] = i
		names = append(names, name)
	}
	seen := map[string]bool{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		at, known := fields[k.Value]
		switch {
		case seen[k.Value]:
			r.say(k, join(path, k.Value), diag.DuplicateKey, diag.Args{"text": strconv.Quote(k.Value)}, "keep one of the two")
			continue
		case !known:
			hint := "keys here: " + strings.Join(names, ", ")
			if near, ok := diag.Nearest(k.Value, names, 2); ok {
				hint = "did you mean " + strconv.Quote(near) + "?"
			}
			r.say(k, join(path, k.Value), diag.UnknownKey, diag.Args{"text": strconv.Quote(k.Value)}, hint)
			continue
		}
		seen[k.Value] = true
		if path == "" && k.Value == "parts" || v.Tag == "!!null" {
			continue
		}
		r.value(v, join(path, k.Value), into.Type().Field(at), into.Field(at))
	}
	for i := range into.NumField() {
		if name, required := key(into.Type().Field(i)); required && !seen[name] {
			r.say(n, join(path, name), diag.MissingKey, diag.Args{"text": strconv.Quote(name)}, into.Type().Field(i).Tag.Get("help"))
		}
	}
}

func (r reader) value(n *yaml.Node, path string, sf reflect.StructField, into reflect.Value) {
	if into.Kind() == reflect.Slice {
		if n.Kind != yaml.SequenceNode {
			r.say(n, path, diag.NotAList, diag.Args{"key": strconv.Quote(path)}, "begin each entry with -")
			return
		}
		for i, c := range n.Content {
			one := reflect.New(into.Type().Elem()).Elem()
			before := len(r.file.Diags)
			r.value(c, join(path, "#"+strconv.Itoa(i+1)), sf, one)
			if len(r.file.Diags) == before { // a wrong entry is absent
				into.Set(reflect.Append(into, one))
			}
		}
		return
	}
	opt, optional := into.Addr().Interface().(unit.Optional)
	if into.Kind() == reflect.Struct && !optional {
		r.mapping(n, path, into)
		return
	}
	if n.Kind != yaml.ScalarNode {
		r.say(n, path, diag.NotAValue, diag.Args{"key": strconv.Quote(path)}, "")
		return
	}
	args := diag.Args{"key": strconv.Quote(path), "text": strconv.Quote(clip(n.Value))}
	switch {
	case optional:
		code, hint := fill(opt, n.Value, sf)
		if code != "" {
			opt.Clear()
			r.say(n, path, code, args, hint)
		}
	case into.Kind() == reflect.Int:
		i, err := strconv.Atoi(n.Value)
		if err != nil || i < 1 {
			r.say(n, path, diag.NotAWholeNumber, args, "")
			return
		}
		into.SetInt(int64(i))
	default:
		if words := sf.Tag.Get("enum"); words != "" && !hasWord(words, n.Value) {
			r.say(n, path, diag.UnknownWord, args, "one of: "+strings.ReplaceAll(words, "|", ", "))
			return
		}
		into.SetString(n.Value)
	}
}

// fill reads a quantity or a date; code is "" when it could be read.
func fill(opt unit.Optional, text string, sf reflect.StructField) (code diag.Code, hint string) {
	switch p := opt.Fill().(type) {
	case *doc.Date:
		t, err := time.Parse(time.DateOnly, text)
		if err != nil {
			return diag.BadDate, `write year, month and day like "2026-11-01"`
		}
		*p = doc.Date{Year: t.Year(), Month: int(t.Month()), Day: t.Day()}
		return "", ""
	case encoding.TextUnmarshaler:
		if err := p.UnmarshalText([]byte(text)); err != nil {
			return diag.NotANumber, err.Error()
		}
		lo, hi, ranged := strings.Cut(sf.Tag.Get("range"), "..")
		q, _ := opt.Any()
		if have, ok := q.(unit.Quantity); ok && ranged {
			low, err1 := have.Kind().Parse(lo)
			high, err2 := have.Kind().Parse(hi)
			if err := errors.Join(err1, err2); err != nil {
				panic("workshop: range of " + sf.Name + ": " + err.Error())
			}
			if !(have.SI() >= low && have.SI() <= high) {
				return diag.OutOfRange, "from " + lo + " to " + hi
			}
		}
		return "", ""
	default:
		panic(fmt.Sprintf("workshop: no reader for %T", p))
	}
}

func hasWord(words, word string) bool {
	for _, w := range strings.Split(words, "|") {
		if w == word {
			return true
		}
	}
	return false
}

func clip(s string) string {
	if len(s) > 80 {
		return s[:80] + "…"
	}
	return s
}

// parts binds the own parts: the lines of that key are read as the items of a build, at the same line numbers.
func (r reader) parts(root *yaml.Node) {
	from, to := 0, r.text.Lines()+1 // lines of the key and behind it
	for i := 0; i+1 < len(root.Content); i += 2 {
		k, v := root.Content[i], root.Content[i+1]
		switch {
		case k.Value == "parts" && from == 0:
			if v.Tag == "!!null" {
				return
			}
			if v.Kind != yaml.SequenceNode || v.Style&yaml.FlowStyle != 0 || v.Line == k.Line {
				r.say(v, "parts", diag.NotAList, diag.Args{"key": `"parts"`}, "begin each part with - on a line of its own")
				return
			}
			from = k.Line
		case from > 0 && k.Line < to:
			to = k.Line
		}
	}
	if from == 0 {
		return
	}
	head := "berthwright: 1\nbuild: {id: workshop}\n"
	shift := 0
	if n := from - 1 - strings.Count(head, "\n"); n >= 0 {
		head += strings.Repeat("\n", n)
	} else {
		shift = -n
	}
	var b strings.Builder
	b.WriteString(head + "items:\n")
	for n := from + 1; n < to; n++ {
		b.Write(r.text.Line(n))
		b.WriteByte('\n')
	}
	f := docfile.Read(r.file.Name, []byte(b.String()))
	r.file.Workshop.Parts = f.Build.Items
	for _, d := range f.Diags {
		d.Path = strings.Replace(d.Path, "items", "parts", 1)
		d.Pos, d.End = r.at(d.Pos.Line-shift, d.Pos.Col), r.at(d.End.Line-shift, d.End.Col)
		for i, o := range d.Related {
			d.Related[i].Pos, d.Related[i].End = r.at(o.Pos.Line-shift, o.Pos.Col), r.at(o.End.Line-shift, o.End.Col)
		}
		r.file.Diags.Add(d)
	}
}
