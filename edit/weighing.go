package edit

import (
	"fmt"
	"slices"
	"strings"

	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/unit"
)

// Weighing writes one weighing of the record, on one line, from what was typed into its fields by key. Lists hold names
// or ids of items parted by commas. Nothing is written when a text is no value of its field: a record is never put right
// afterwards.
func Weighing(f *docfile.File, system unit.System, id, revision string, typed map[string]string) (yaml string, bad []Refused) {
	entry, ok := doc.RecordFields().Entry("weighings")
	if !ok {
		panic("edit: the record has no weighings")
	}
	c := &compiler{f: f, env: Env{System: system}, taken: map[string]bool{}}
	vals := values{"id": docfile.Quote(id), "revision": docfile.Quote(revision)}
	keys := make([]string, 0, len(typed))
	for key := range typed {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	for _, key := range keys {
		text := strings.TrimSpace(typed[key])
		field, ok := entry.Entry(key)
		if !ok || field.ID || key == "revision" || field.Kind == doc.Mapping {
			bad = append(bad, Refused{Path: key, Code: "no-field", Says: fmt.Sprintf("a weighing has no field %s", quote(key)), Found: text})
			continue
		}
		if text == "" {
			continue
		}
		if field.List {
			var ids []string
			for part := range strings.SplitSeq(text, ",") {
				if part = strings.TrimSpace(part); part == "" {
					continue
				}
				name, ok := c.named("item", part)
				if !ok {
					bad = append(bad, Refused{Path: key, Code: "unknown-id", Says: fmt.Sprintf("no item is called %s", quote(part)), Found: part})
					continue
				}
				ids = append(ids, docfile.Quote(name))
			}
			vals[key] = "[" + strings.Join(ids, ", ") + "]"
			continue
		}
		t := c.value(field, text)
		if t.wrong != nil {
			w := *t.wrong
			w.Path = key
			bad = append(bad, w)
			continue
		}
		vals[key] = t.yaml
	}
	readings := 0
	for _, key := range []string{"total", "front", "rear", "left", "right", "front-left", "front-right", "rear-left", "rear-right", "pieces"} {
		if vals[key] != "" {
			readings++
		}
	}
	if readings == 0 && len(bad) == 0 {
		bad = append(bad, Refused{Path: "total", Code: "nothing-read", Says: "nothing was read off the scale", Hint: "write at least one reading"})
	}
	if len(bad) > 0 {
		return "", bad
	}
	return tree(entry, vals, ""), nil
}
