package docfile

import (
	"fmt"
	"strings"

	"berthwright/doc"
)

// ConflictError tells that another text stands where a change expected one.
type ConflictError struct {
	Path  string
	Found string // what the change was made on
	Now   string // what stands there
}

func (e *ConflictError) Error() string {
	return fmt.Sprintf("%s is now %s, the change was made on %s", e.Path, quote(e.Now), quote(e.Found))
}

// PathError tells that an operation cannot be done at its path.
type PathError struct {
	Op      doc.OpKind
	Path    string
	Problem string
}

func (e *PathError) Error() string {
	return fmt.Sprintf("cannot %s %s: %s", e.Op, quote(e.Path), e.Problem)
}

func cannot(op doc.Op, format string, args ...any) error {
	return &PathError{op.Kind, op.Path, fmt.Sprintf(format, args...)}
}

// aim is an operation with the place in a tree that it is for. Text and model are both edited from it.
type aim struct {
	op    doc.Op
	steps []step
	n     *node // the node at the path, or the last one on the way to it
	f     *doc.Field
	left  []string // words of the path that lead to nothing yet
	v     *node    // the value carried; a null node for none
	after int      // insert: index of the entry before
}

// last returns the step to n.
func (a *aim) last() step { return a.steps[len(a.steps)-1] }

// aimAt finds the place of an operation and refuses what cannot be done there.
func aimAt(root *node, op doc.Op) (*aim, error) {
	a := &aim{op: op, v: &node{}, after: -1}
	a.steps, a.n, a.f, a.left = walk(root, op.Path)
	if op.Found != "" && op.Kind != doc.Insert {
		now := ""
		if len(a.left) == 0 {
			now = flowText(a.n)
		}
		if !sameValue(now, op.Found) {
			return nil, &ConflictError{op.Path, op.Found, now}
		}
	}
	if (op.Kind == doc.Set || op.Kind == doc.Insert) && !(op.Value == "" && op.Exact != nil) {
		var err error
		if a.v, err = parseValue(op.Value); err != nil {
			return nil, cannot(op, "%v", err)
		}
	}
	if len(a.steps)+len(a.left) == 0 {
		return nil, cannot(op, "the path is empty")
	}
	switch op.Kind {
	case doc.Set:
		return a, a.set()
	case doc.Insert:
		return a, a.insert()
	case doc.Unset, doc.Remove:
		return a, a.take()
	}
	return nil, cannot(op, "there is no such operation")
}

func sameValue(now, found string) bool {
	if now == found {
		return true
	}
	v, err := parseValue(found)
	return err == nil && flowText(v) == now
}

// isName reports whether the value at the path names the entry it stands in.
func (a *aim) isName() bool {
	at := a.last()
	if at.in.kind != mapping || a.n.kind == null {
		return false
	}
	key := at.in.keys[at.i].value
	if at.f == nil {
		return key == idKey(nil) && len(a.steps) > 1 && a.steps[len(a.steps)-2].in.kind == list
	}
	c, ok := at.f.Entry(key)
	return ok && (c.ID || c.KeyField)
}

func (a *aim) set() error {
	if len(a.left) == 0 {
		at := a.last()
		key := idKey(at.f)
		switch {
		case a.isName():
			return cannot(a.op, "an id is made once and never changed")
		case at.in.kind == list && key != "" && a.n.kind == mapping && entryName(a.n, key) != "" && entryName(a.v, key) != entryName(a.n, key):
			return cannot(a.op, "an entry keeps its id")
		}
		return nil
	}
	done := strings.TrimSuffix(a.op.Path[:len(a.op.Path)-len(strings.Join(a.left, "/"))], "/")
	switch a.n.kind {
	case list:
		return cannot(a.op, "there is no entry %s", quote(a.left[0]))
	case scalar:
		return cannot(a.op, "%s is a text, not keys", quote(done))
	}
	if a.n.kind == null && len(a.steps) > 0 && a.last().in.kind == list {
		return cannot(a.op, "%s is empty", quote(done))
	}
	way := done
	if t := fieldAt(done); t != nil && t.List && a.n.kind == null {
		return cannot(a.op, "%s has no entry yet", quote(done))
	}
	for _, word := range a.left[:len(a.left)-1] {
		way = strings.TrimPrefix(way+"/"+word, "/")
		if t := fieldAt(way); t != nil && (t.List || t.Kind != doc.Mapping) {
			return cannot(a.op, "%s has no entry yet", quote(way))
		}
	}
	for _, word := range a.left {
		if word == "" {
			return cannot(a.op, "a key is empty")
		}
	}
	return nil
}

func (a *aim) insert() error {
	if t := fieldAt(a.op.Path); t != nil && !t.List {
		return cannot(a.op, "it is not a list")
	}
	if len(a.left) > 0 || a.n.kind == null {
		if a.op.After != "" && a.op.Exact == nil {
			return cannot(a.op, "there is no entry %s", quote(a.op.After))
		}
		if a.n.kind == null && len(a.left) == 0 && a.last().in.kind == list {
			return cannot(a.op, "it is empty")
		}
		return a.set()
	}
	if a.n.kind != list {
		return cannot(a.op, "it is not a list")
	}
	if name := entryName(a.v, idKey(a.f)); name != "" {
		if i := entryIndex(a.n, a.f, name); i >= 0 {
			return &ConflictError{a.op.Path + "/" + name, "", flowText(a.n.items[i])}
		}
	}
	a.after = len(a.n.items) - 1
	switch {
	case a.op.Exact != nil && a.op.Exact.First:
		a.after = -1
	case a.op.After != "":
		if i := entryIndex(a.n, a.f, a.op.After); i >= 0 {
			a.after = i
		} else if a.op.Exact == nil {
			return cannot(a.op, "there is no entry %s", quote(a.op.After))
		}
	}
	return nil
}

func (a *aim) take() error {
	if len(a.left) > 0 {
		return cannot(a.op, "nothing is written there")
	}
	at := a.last()
	switch {
	case a.op.Kind == doc.Unset && at.in.kind != mapping, a.op.Kind == doc.Remove && at.in.kind != list:
		return cannot(a.op, "unset takes keys out, remove takes entries of lists out")
	case len(a.steps) == 1 && at.in.keys[at.i].value == "berthwright":
		return cannot(a.op, "every file has its version")
	case a.isName():
		return cannot(a.op, "an entry keeps its id")
	}
	return nil
}
