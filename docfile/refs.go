package docfile

import (
	"fmt"
	"slices"

	"berthwright/diag"
	"berthwright/doc"
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

// references reports ids that are there twice and references to ids that are not there. seats tells which items are
// seats; nil in a record, whose items are those of its build.
func references(parts []*found, seats func(id string) bool, outside Refs) []problem {
	var out []problem
	type place struct {
		idAt
		kind string
	}
	known := map[string]place{}  // shared ids
	own := map[[2]string]*node{} // ids of other lists, by list
	for _, part := range parts {
		for _, d := range part.ids {
			if d.list == "" {
				continue // the id of the build itself
			}
			first := own[[2]string{d.list, d.id}]
			kind, isShared := shared[d.list]
			if p, ok := known[d.id]; ok && isShared {
				first = p.at
			}
			if first != nil {
				out = append(out, problem{
					start: d.at.start, end: d.at.end, path: d.path, code: diag.DuplicateID,
					args: args("id", d.id), hint: "give one of the two another id",
					related: []related{{first.start, first.end, "first here"}},
				})
				continue
			}
			if isShared {
				known[d.id] = place{d, kind}
			} else {
				own[[2]string{d.list, d.id}] = d.at
			}
		}
	}
	isKnown := func(kind, id string) bool {
		p, ok := known[id]
		switch {
		case !ok:
			return false
		case kind == "seat":
			return p.kind == "item" && seats(id)
		}
		return p.kind == kind
	}
	for _, part := range parts {
		for _, r := range part.refs {
			word := idWords[r.kind]
			if word == "" {
				word = r.kind
			}
			if where := listOf(r.kind); where != "" && seats != nil {
				if isKnown(r.kind, r.id) {
					continue
				}
				var all []string
				for id := range known {
					if isKnown(r.kind, id) {
						all = append(all, id)
					}
				}
				slices.Sort(all)
				hint := fmt.Sprintf("a %s is an entry of %s", word, where)
				if p, ok := known[r.id]; ok {
					hint = fmt.Sprintf("%s is a %s", quote(r.id), idWords[p.kind])
				} else {
					hint = nearHint(r.id, all, hint)
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
	}
	return out
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

// seatsOf returns a test for ids of items that are seats.
func seatsOf(b *doc.Build) func(string) bool {
	return func(id string) bool {
		for i := range b.Items {
			if b.Items[i].ID == id {
				return b.Items[i].Seat.Given()
			}
		}
		return false
	}
}
