package edit

import (
	"strings"

	"berthwright/doc"
	"berthwright/docfile"
)

// Diff returns operations that make the values of one text those of another: what goes first, then what is set, then
// what comes in. Comments, the order of entries and how things are written are left alone.
func Diff(from, to *docfile.File) []doc.Op {
	var goes, sets, comes []doc.Op
	whole := map[string]bool{} // lists whose entries have only a number, and are set as one
	before := map[string]string{}
	last := map[string]string{}
	for _, p := range to.Paths() {
		if list, name, ok := entryOf(p); ok {
			before[p] = last[list]
			last[list] = name
		}
	}
	for _, d := range docfile.Diff(from, to) {
		if i := strings.Index(d.Path, "/#"); i >= 0 {
			if list := d.Path[:i]; !whole[list] {
				whole[list] = true
				if v, ok := to.Value(list); ok {
					sets = append(sets, doc.Op{Kind: doc.Set, Path: list, Value: v})
				} else {
					goes = append(goes, doc.Op{Kind: doc.Unset, Path: list})
				}
			}
			continue
		}
		switch d.Kind {
		case doc.Unset, doc.Remove:
			goes = append(goes, doc.Op{Kind: d.Kind, Path: d.Path})
		case doc.Set:
			sets = append(sets, doc.Op{Kind: doc.Set, Path: d.Path, Value: d.After})
		case doc.Insert:
			list, _, _ := entryOf(d.Path)
			comes = append(comes, doc.Op{Kind: doc.Insert, Path: list, Value: d.After, After: before[d.Path]})
		}
	}
	return append(append(goes, sets...), comes...)
}

// entryOf parts the path of an entry of a list into the list and the name of the entry.
func entryOf(path string) (list, name string, ok bool) {
	cut := strings.LastIndexByte(path, '/')
	if cut < 0 {
		return "", "", false
	}
	f, known := FieldAt(path[:cut])
	return path[:cut], path[cut+1:], known && f.List
}
