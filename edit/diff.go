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
	names map[string][]string // entries of each list of mappings, in order
}

func leaves(f *docfile.File) leafValues {
	l := leafValues{at: map[string]string{}, names: map[string][]string{}}
	for _, p := range f.Paths() {
		field, ok := FieldAt(p)
		if ok && field.List && field.Kind == doc.Mapping {
			if v, _ := f.Value(p); strings.HasPrefix(v, "[") {
				if _, there := l.names[p]; !there {
					l.names[p] = nil
				}
				continue
			}
		}
		if cut := strings.LastIndexByte(p, '/'); cut > 0 {
			if names, isList := l.names[p[:cut]]; isList {
				l.names[p[:cut]] = append(names, p[cut+1:])
			}
			if parent, ok := FieldAt(p[:cut]); ok && parent.List && parent.Kind != doc.Mapping {
				continue // a word of a list of words
			}
		}
		v, ok := f.Value(p)
		if field != nil && field.Optional && field.Kind == doc.Mapping && ok {
			l.opts = append(l.opts, p)
		}
		if !ok || strings.HasPrefix(v, "{") && v != "{}" {
			continue
		}
		l.at[p] = v
		l.order = append(l.order, p)
	}
	return l
}

func lists(a, b leafValues) []string {
	var out []string
	for _, p := range listPaths {
		_, inA := a.names[p]
		_, inB := b.names[p]
		if inA || inB {
			out = append(out, p)
		}
	}
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

// listPaths are the lists of mappings whose entries are taken out and put in one by one.
var listPaths = []string{"job/promises", "job/decisions", "van/plates", "items", "loading/party", "loading/zones", "loading/carried",
	"loading/travelling/fills", "loading/travelling/stowed", "notes", "accepted"}
