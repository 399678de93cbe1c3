package docfile

import (
	"strconv"
	"strings"

	"berthwright/doc"
)

// step is one step on the way from the root to a node: the entry i of in.
type step struct {
	in *node
	f  *doc.Field // of in; nil in reserved keys. For a list, of its entries
	i  int
}

// walk follows path as far as the text goes. It returns the steps taken, the node reached, its field, and the words
// of the path that are left.
func walk(root *node, path string) (steps []step, n *node, f *doc.Field, left []string) {
	n, f = root, doc.Fields()
	if path == "" {
		return nil, n, f, nil
	}
	words := strings.Split(path, "/")
	steps = make([]step, 0, len(words))
	for w, word := range words {
		if word == "" {
			return steps, n, f, words[w:]
		}
		i := -1
		next := f
		switch n.kind {
		case mapping:
			key := unescape(word)
			i = n.find(key)
			if next = nil; f != nil {
				next, _ = f.Entry(key)
			}
			if next != nil && next.Reserved {
				next = nil
			}
		case list:
			i = entryIndex(n, f, word)
		}
		if i < 0 {
			return steps, n, f, words[w:]
		}
		steps = append(steps, step{n, f, i})
		n, f = n.items[i], next
	}
	return steps, n, f, nil
}

// fieldAt returns the row of the field table for a path, whether or not anything is written there.
func fieldAt(path string) *doc.Field {
	f := doc.Fields()
	inList := false
	for word := range strings.SplitSeq(path, "/") {
		if inList {
			inList = false
			continue
		}
		var ok bool
		if f, ok = f.Entry(unescape(word)); !ok || f.Reserved {
			return nil
		}
		inList = f.List
	}
	return f
}

// idKey returns the key that names the entries of a list.
func idKey(f *doc.Field) string {
	if f == nil {
		return "id"
	}
	if id, ok := f.IDField(); ok {
		return id.Key
	}
	return ""
}

// entryIndex returns the index of the entry with a name (see entryNames), or -1.
func entryIndex(n *node, f *doc.Field, name string) int {
	if name == "" {
		return -1
	}
	if name[0] == '#' {
		if i, err := strconv.Atoi(name[1:]); err == nil && i >= 1 && i <= len(n.items) {
			return i - 1
		}
		return -1
	}
	key, at, word := idKey(f), -1, unescape(name)
	for i, c := range n.items {
		if entryWord(c, key) == word {
			if at >= 0 {
				return -1
			}
			at = i
		}
	}
	return at
}

// nameOf returns the name of entry i of a list.
func nameOf(n *node, f *doc.Field, i int) string {
	if name := entryName(n.items[i], idKey(f)); name != "" && entryIndex(n, f, name) == i {
		return name
	}
	return "#" + strconv.Itoa(i+1)
}

// Value returns what is written at path, on one line without comments, and whether anything is.
func (f *File) Value(path string) (string, bool) {
	if f.root == nil {
		return "", false
	}
	_, n, _, left := walk(f.root, path)
	if len(left) > 0 || n.kind == null {
		return "", false
	}
	return flowText(n), true
}

// Paths returns the path of every value written in the file, in the order of the text.
func (f *File) Paths() []string {
	if f.root == nil {
		return nil
	}
	var all []string
	var visit func(path string, n *node, t *doc.Field)
	visit = func(path string, n *node, t *doc.Field) {
		if path != "" && n.kind != null {
			all = append(all, path)
		}
		if path != "" {
			path += "/"
		}
		switch n.kind {
		case mapping:
			firsts := n.first()
			for i, k := range n.keys {
				if firsts[i] < i || k.value == "" {
					continue // no path leads there
				}
				var c *doc.Field
				if t != nil {
					c, _ = t.Entry(k.value)
				}
				if c != nil && c.Reserved {
					c = nil
				}
				visit(path+escape(k.value), n.items[i], c)
			}
		case list:
			for i, name := range entryNames(n, t) {
				visit(path+name, n.items[i], t)
			}
		}
	}
	visit("", f.root, doc.Fields())
	return all
}
