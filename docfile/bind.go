package docfile

import (
	"fmt"
	"reflect"
	"strings"

	"berthwright/diag"
	"berthwright/doc"
	"berthwright/unit"
)

// found is what binding one part of the text brought to light besides its values. The parts are the entries of
// items, and every other key of the root: they are bound again one by one.
type found struct {
	problems []problem
	ids      []idAt
	refs     []refAt
}

// idAt is an id where it is defined.
type idAt struct {
	path string
	list string // path of the list
	id   string
	at   *node
}

// refAt is an id where it is used.
type refAt struct {
	path string
	kind string
	id   string
	at   *node
}

// binder binds nodes to Go values. A value that is wrong is reported and stays absent.
type binder struct {
	path []string
	list string // path of the innermost list
	out  *found
}

func (b *binder) at(words ...string) string {
	var s strings.Builder
	for i, w := range b.path {
		if i > 0 {
			s.WriteByte('/')
		}
		s.WriteString(w)
	}
	for _, w := range words {
		if s.Len() > 0 {
			s.WriteByte('/')
		}
		s.WriteString(w)
	}
	return s.String()
}

func (b *binder) say(n *node, code diag.Code, args diag.Args, hint string) *problem {
	if len(b.out.problems) >= maxProblems {
		return &problem{args: args}
	}
	b.out.problems = append(b.out.problems, problem{start: n.start, end: n.end, path: b.at(), code: code, args: args, hint: hint})
	return &b.out.problems[len(b.out.problems)-1]
}

// bind binds n to v, which is settable and holds the Go type of f (a slice when f is a list, an Opt when optional).
func (b *binder) bind(n *node, f *doc.Field, v reflect.Value) {
	switch {
	case n.kind == null:
	case f.List:
		b.entries(n, f, v)
	case f.Kind == doc.Mapping:
		b.mapping(n, f, v)
	case n.kind != scalar:
		b.say(n, diag.NotAValue, args(f.Key, shape(n)), "write "+example(f))
	default:
		b.scalar(n, f, v)
	}
}

// target returns where a value of the type of f goes. A binder calls it once it has the value.
func target(f *doc.Field, v reflect.Value) reflect.Value {
	if f.Optional {
		return reflect.ValueOf(v.Addr().Interface().(unit.Optional).Fill()).Elem()
	}
	return v
}

func (b *binder) entries(n *node, f *doc.Field, v reflect.Value) {
	if n.kind != list {
		b.say(n, diag.NotAList, args(f.Key, shape(n)), "begin each entry with -")
		return
	}
	names := entryNames(n, f)
	outer := b.list
	b.list = b.at()
	out := reflect.MakeSlice(v.Type(), len(n.items), len(n.items))
	for i, c := range n.items {
		b.path = append(b.path, names[i])
		b.entry(c, f, out.Index(i))
		b.path = b.path[:len(b.path)-1]
	}
	v.Set(out)
	b.list = outer
}

// entry binds one entry of a list. An entry that is no mapping where one is needed stays empty, so that entries keep
// their numbers.
func (b *binder) entry(n *node, f *doc.Field, v reflect.Value) {
	if n.kind == null {
		b.say(n, diag.EmptyEntry, args(f.Key, ""), "write the entry or take the dash out")
		return
	}
	one := *f
	one.List = false
	b.bind(n, &one, v)
}

func (b *binder) mapping(n *node, f *doc.Field, v reflect.Value) {
	if n.kind != mapping {
		b.say(n, diag.NotAMapping, args(f.Key, shape(n)), "write its keys: "+keyList(f))
		return
	}
	b.keys(n, f)
	into := target(f, v)
	for i := range f.Fields {
		c := &f.Fields[i]
		if c.Reserved {
			continue
		}
		at := n.get(c.Key)
		if at == nil || at.kind == null {
			if c.Required {
				b.missing(n, c)
			}
			continue
		}
		if n.flow && n.split(n.find(c.Key)+1) {
			continue // "1,860 kg": told at the half that is no key
		}
		b.path = append(b.path, escape(c.Key))
		b.bind(at, c, into.Field(c.Index))
		b.path = b.path[:len(b.path)-1]
	}
	b.together(n, f, into)
}

func (b *binder) missing(n *node, c *doc.Field) {
	b.path = append(b.path, escape(c.Key))
	b.say(n.head(), diag.MissingKey, args(c.Key, c.Key), "write "+example(c)+" ("+c.Help+")")
	b.path = b.path[:len(b.path)-1]
}

// keys reports keys that are unknown or there twice.
func (b *binder) keys(n *node, f *doc.Field) {
	firsts := n.first()
	for i, k := range n.keys {
		if len(b.out.problems) >= maxProblems {
			return
		}
		if first := firsts[i]; first < i {
			p := b.say(k, diag.DuplicateKey, args(k.value, k.value), "keep one of the two; the first is read")
			p.related = append(p.related, related{n.keys[first].start, n.keys[first].end, "first here"})
			continue
		}
		if _, ok := f.Entry(k.value); ok {
			continue
		}
		hint := ""
		if n.split(i) {
			hint = "a comma parts keys inside brackets: write the number without it, or put the value in quotes"
		} else {
			hint = nearHint(k.value, keysOf(f), "keys here: "+keyList(f))
		}
		b.path = append(b.path, escape(k.value))
		b.say(k, diag.UnknownKey, args(k.value, k.value), hint)
		b.path = b.path[:len(b.path)-1]
	}
}

// split reports whether entry i of a mapping in brackets is the rest of a number that a comma parted: {a: 1,860 kg}.
func (n *node) split(i int) bool {
	return n.flow && i > 0 && i < len(n.keys) && n.items[i].kind == null && n.keys[i].value != "" &&
		n.keys[i].value[0] >= '0' && n.keys[i].value[0] <= '9' && n.items[i-1].kind == scalar
}

// head returns a node for the place where something is missing: the first key, or the brackets.
func (n *node) head() *node {
	if len(n.keys) > 0 && !n.flow {
		return n.keys[0]
	}
	return &node{start: n.start, end: min(n.start+1, n.end)}
}

func keysOf(f *doc.Field) []string {
	var all []string
	for i := range f.Fields {
		all = append(all, f.Fields[i].Key)
	}
	return all
}

func keyList(f *doc.Field) string { return strings.Join(keysOf(f), ", ") }

func shape(n *node) string {
	switch n.kind {
	case scalar:
		return "the text " + quote(n.value)
	case mapping:
		return "keys with values"
	case list:
		return "a list"
	}
	return "nothing"
}

// entryNames returns the names of the entries of a list in paths: the id or key field where it is there and only
// once, else "#" and the number from 1.
func entryNames(n *node, f *doc.Field) []string {
	names := make([]string, len(n.items))
	times := make(map[string]int, len(n.items))
	key := idKey(f)
	for i, c := range n.items {
		names[i] = entryName(c, key)
		times[names[i]]++
	}
	for i := range names {
		if names[i] == "" || times[names[i]] > 1 {
			names[i] = fmt.Sprintf("#%d", i+1)
		}
	}
	return names
}

// entryName returns the word that names an entry as it stands in paths, or "".
func entryName(n *node, key string) string { return escape(entryWord(n, key)) }

// entryWord returns the word that names an entry, or "".
func entryWord(n *node, key string) string {
	if n.kind == mapping {
		if n = n.get(key); n == nil {
			return ""
		}
	}
	if n.kind != scalar || n.value == "" || n.value[0] == '#' {
		return ""
	}
	return n.value
}

func escape(word string) string {
	if strings.IndexByte(word, '/') < 0 && strings.IndexByte(word, '~') < 0 {
		return word
	}
	return strings.ReplaceAll(strings.ReplaceAll(word, "~", "~0"), "/", "~1")
}

func unescape(word string) string {
	return strings.ReplaceAll(strings.ReplaceAll(word, "~1", "/"), "~0", "~")
}
