package edit

import (
	"slices"
	"strings"

	"berthwright/doc"
	"berthwright/docfile"
)

// Diff returns operations that make the values of one text those of another: entries of lists taken out and put in by
// their id, values set and unset. Comments, the order of entries and how things are written are left alone.
func Diff(from, to *docfile.File) []doc.Op {
	a, b := leaves(from), leaves(to)
	d := differ{from: from, to: to, gone: map[string]bool{}, fresh: map[string]bool{}}
	var ops []doc.Op
	for _, list := range lists(a, b) {
		if d.inside(list, d.gone) || d.inside(list, d.fresh) {
			continue
		}
		ops = append(ops, d.entries(list, a, b)...)
	}
	var sets []doc.Op
	for _, p := range a.opts { // a seat, a tank, a pose: there or not, also when empty
		if !slices.Contains(b.opts, p) && !d.inside(p, d.gone) {
			ops = append(ops, doc.Op{Kind: doc.Unset, Path: p})
			d.gone[p] = true
		}
	}
	for _, p := range a.order {
		if _, still := b.at[p]; !still && !d.inside(p, d.gone) {
			if steps := strings.Count(p, "/"); steps > 0 || p != "berthwright" {
				ops = append(ops, doc.Op{Kind: doc.Unset, Path: p})
			}
		}
	}
	for _, p := range b.order {
		if d.inside(p, d.fresh) {
			continue
		}
		if was, ok := a.at[p]; !ok || was != b.at[p] {
			sets = append(sets, doc.Op{Kind: doc.Set, Path: p, Value: b.at[p]})
		}
	}
	return append(append(ops, sets...), d.inserts...)
}

// leafValues holds the values of a text that hold no keys of their own; a list of words counts as one.
type leafValues struct {
	at    map[string]string
	order []string
	opts  []string            // mappings that may be there or not
	names map[string][]string // entries of each list with names, in order
	lists []string            // those lists
	whole string              // the list last taken as one value
}

func leaves(f *docfile.File) leafValues {
	l := leafValues{at: map[string]string{}, names: map[string][]string{}}
	for _, p := range f.Paths() {
		if l.within(p) {
			continue
		}
		v, ok := f.Value(p)
		if !ok {
			continue
		}
		field, known := FieldAt(p)
		switch {
		case known && named(field) && strings.HasPrefix(v, "["):
			l.names[p] = nil
			l.lists = append(l.lists, p)
			continue
		case known && field.Optional && field.Kind == doc.Mapping:
			l.opts = append(l.opts, p)
		}
		if cut := strings.LastIndexByte(p, '/'); cut > 0 {
			if names, isList := l.names[p[:cut]]; isList {
				l.names[p[:cut]] = append(names, p[cut+1:])
			}
		}
		if strings.HasPrefix(v, "{") && v != "{}" {
			continue
		}
		l.at[p] = v
		l.order = append(l.order, p)
		if strings.HasPrefix(v, "[") {
			l.whole = p
		}
	}
	return l
}

// named reports whether a field is a list whose entries have names of their own, so that they are put in and taken out
// one by one. Any other list counts as one value.
func named(f *doc.Field) bool {
	if !f.List || f.Kind != doc.Mapping {
		return false
	}
	_, ok := f.IDField()
	return ok
}

// within reports whether a path lies in the list that was last taken as one value.
func (l *leafValues) within(path string) bool {
	return l.whole != "" && strings.HasPrefix(path, l.whole+"/")
}

// lists returns the lists of both texts, outer ones first.
func lists(a, b leafValues) []string {
	out := slices.Clone(a.lists)
	for _, p := range b.lists {
		if !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(x, y string) int { return strings.Count(x, "/") - strings.Count(y, "/") })
	return out
}

type differ struct {
	from, to    *docfile.File
	gone, fresh map[string]bool
	inserts     []doc.Op
}

func (d *differ) entries(list string, a, b leafValues) (removes []doc.Op) {
	for _, name := range a.names[list] {
		if !slices.Contains(b.names[list], name) {
			d.gone[list+"/"+name] = true
			removes = append(removes, doc.Op{Kind: doc.Remove, Path: list + "/" + name})
		}
	}
	last := ""
	for _, name := range b.names[list] {
		if !slices.Contains(a.names[list], name) {
			v, _ := d.to.Value(list + "/" + name)
			d.fresh[list+"/"+name] = true
			d.inserts = append(d.inserts, doc.Op{Kind: doc.Insert, Path: list, Value: v, After: last})
		}
		last = name
	}
	return removes
}

func (d *differ) inside(path string, entries map[string]bool) bool {
	for i := range path {
		if path[i] == '/' && entries[path[:i]] {
			return true
		}
	}
	return entries[path]
}
