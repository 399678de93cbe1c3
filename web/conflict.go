package web

import (
	"context"
	"errors"
	"slices"
	"strings"

	"berthwright/doc"
	"berthwright/docfile"
)

// conflicts refuses operations on what was changed since they were thought of: both values are answered.
func (s *Server) conflicts(ctx context.Context, now *revision, base int, ops []doc.Op) error {
	if base == now.number {
		return nil
	}
	since, err := s.store.History(ctx, now.id, base, 0)
	if err != nil {
		return err
	}
	var theirs []string
	for _, r := range since {
		theirs = append(theirs, r.Paths...)
	}
	c := Conflict{Revision: now.number}
	for _, op := range ops {
		mine := touched([]doc.Op{op})
		if !slices.ContainsFunc(theirs, func(p string) bool { return touches(p, mine[0]) }) {
			continue
		}
		value, _ := now.file.Value(op.Path)
		c.Paths = append(c.Paths, ConflictPath{Path: op.Path, Name: nameOf(now.file, op.Path), Yours: plain(op.Value), Theirs: plain(value)})
	}
	if len(c.Paths) == 0 {
		return nil
	}
	return &clash{c}
}

// asClash turns a conflict found in the text into an answer.
func asClash(err error, now *revision) error {
	var c *docfile.ConflictError
	if !errors.As(err, &c) {
		return err
	}
	return &clash{Conflict{Revision: now.number, Paths: []ConflictPath{{Path: c.Path, Name: nameOf(now.file, c.Path), Yours: plain(c.Found), Theirs: plain(c.Now)}}}}
}

// touched lists the paths that operations write to; an insert touches the entry it makes, not the whole list.
func touched(ops []doc.Op) []string { return docfile.Touches(doc.Change{Ops: ops}) }

// touches reports whether two paths are the same place or one lies in the other. All measures of an item's place are
// one thing: at most one of each way may stand.
func touches(a, b string) bool {
	a, b = placeOf(a)+"/", placeOf(b)+"/"
	return strings.HasPrefix(a, b) || strings.HasPrefix(b, a)
}

func placeOf(path string) string {
	steps := strings.Split(path, "/")
	if len(steps) >= 3 && steps[0] == "items" {
		switch steps[2] {
		case "at", "place", "zone", "span":
			return steps[0] + "/" + steps[1] + "/place"
		}
	}
	return path
}

// nameOf says in words what a path is.
func nameOf(f *docfile.File, path string) string {
	steps := strings.Split(path, "/")
	words := []string{}
	for i, step := range steps {
		if i == 0 && len(steps) > 1 {
			continue
		}
		if name, ok := f.Value(strings.Join(append(steps[:i:i], step, "name"), "/")); ok {
			words = append(words, plain(name))
		} else {
			words = append(words, strings.ReplaceAll(step, "-", " "))
		}
	}
	if len(words) == 0 {
		return path
	}
	return strings.Join(words, ", ")
}
