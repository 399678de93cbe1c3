package docfile

import (
	"slices"
	"strings"

	"berthwright/diag"
)

// Refs knows the ids that live outside the file: "part", "class", "group" and the like. A nil function leaves
// references of those kinds unchecked.
type Refs struct {
	Known func(kind, id string) bool
	Near  func(kind, id string) (string, bool) // the nearest known id, for the hint
}

// shared are the lists whose ids make one namespace.
var shared = map[string]string{
	"items": "item", "loading/party": "person", "loading/zones": "zone", "loading/carried": "carried", "van/plates": "plate",
}

// words for kinds of id.
var idWords = map[string]string{
	"item": "item", "seat": "seat", "zone": "luggage zone", "person": "person", "plate": "plated set", "part": "catalogue part", "class": "class of van", "carried": "carried piece",
}

// idIndex holds the ids of one file.
type idIndex struct {
	known map[string]idPlace // ids of the shared namespace
	twice []problem          // ids that are there twice
}

type idPlace struct {
	at   *node
	kind string
	seat bool // an item that is a seat
}

// indexIDs gathers the ids of all parts. seats tells which items are seats.
func indexIDs(parts []part, seats func(item int) bool) *idIndex {
	x := &idIndex{known: make(map[string]idPlace, len(parts))}
	own := map[[2]string]*node{} // ids of other lists, by list
	for _, part := range parts {
		for _, d := range part.ids {
			if d.list == "" {
				continue // the id of the build itself
			}
			first := own[[2]string{d.list, d.id}]
			kind, isShared := shared[d.list]
			if p, ok := x.known[d.id]; ok && isShared {
				first = p.at
			}
			switch {
			case first != nil:
				x.twice = append(x.twice, problem{
					start: d.at.start, end: d.at.end, path: d.path, code: diag.DuplicateID,
					args: args("id", d.id), hint: "give one of the two another id",
					related: []related{{first.start, first.end, "first here"}},
				})
			case isShared:
				x.known[d.id] = idPlace{d.at, kind, kind == "item" && part.item >= 0 && seats(part.item)}
			default:
				own[[2]string{d.list, d.id}] = d.at
			}
		}
	}
	return x
}

func (x *idIndex) has(kind, id string) bool {
	p, ok := x.known[id]
	if kind == "seat" {
		return p.seat
	}
	return ok && p.kind == kind
}

// check reports references to ids that are not there. x is nil in a record, whose items are those of its build.
func (x *idIndex) check(refs []refAt, outside Refs) []problem {
	var out []problem
	near := map[string][]string{} // ids by kind
	for _, r := range refs {
		if len(out) >= maxProblems {
			break
		}
		word := idWords[r.kind]
		if word == "" {
			word = r.kind
		}
		if where := listOf(r.kind); where != "" && x != nil {
			if x.has(r.kind, r.id) {
				continue
			}
			all, ok := near[r.kind]
			if !ok {
				for id := range x.known {
					if x.has(r.kind, id) {
						all = append(all, id)
					}
				}
				slices.Sort(all)
				near[r.kind] = all
			}
			hint := article(word) + " is an entry of " + where
			if len(out) < 100 { // the nearest of many ids takes its time
				hint = nearHint(r.id, all, hint)
			}
			if p, ok := x.known[r.id]; ok {
				hint = quote(r.id) + " is " + article(idWords[p.kind])
			}
			out = append(out, unknownID(r, word, hint))
			continue
		}
		if outside.Known == nil || outside.Known(r.kind, r.id) {
			continue
		}
		hint := ""
		if outside.Near != nil {
			if near, ok := outside.Near(r.kind, r.id); ok {
				hint = "did you mean " + quote(near) + "?"
			}
		}
		out = append(out, unknownID(r, word, hint))
	}
	return out
}

// sameIDs reports whether two parts define the same ids.
func sameIDs(a, b *found) bool {
	return slices.EqualFunc(a.ids, b.ids, func(x, y idAt) bool { return x.list == y.list && x.id == y.id })
}

func article(word string) string {
	if strings.IndexByte("aeiou", word[0]) >= 0 {
		return "an " + word
	}
	return "a " + word
}

func unknownID(r refAt, word, hint string) problem {
	return problem{start: r.at.start, end: r.at.end, path: r.path, code: diag.UnknownID, message: "no {kind} has the id {text}", args: diag.Args{"kind": word, "text": quote(r.id)}, hint: hint}
}

// listOf says where ids of a kind are defined in the file, or "" when they live outside it.
func listOf(kind string) string {
	switch kind {
	case "item":
		return "items"
	case "seat":
		return "items with seat:"
	case "zone":
		return "loading: zones:"
	case "person":
		return "loading: party:"
	case "plate":
		return "van: plates:"
	}
	return ""
}
