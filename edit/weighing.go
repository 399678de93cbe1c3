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
// or ids of items parted by commas; "fills/" and the id of a tank holds how full that was. Nothing is written when a text is no value of its field: a record is never put right
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
	var fills []string
	for _, key := range keys {
		text := strings.TrimSpace(typed[key])
		if tank, ok := strings.CutPrefix(key, "fills/"); ok {
			fill, wrong := c.fill(entry, tank, text)
			switch {
			case wrong != nil:
				bad = append(bad, *wrong)
			case fill != "":
				fills = append(fills, fill)
			}
			continue
		}
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
	if len(fills) > 0 {
		vals["fills"] = "[" + strings.Join(fills, ", ") + "]"
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

// fill writes how full one tank was; "" where nothing was typed.
func (c *compiler) fill(weighing *doc.Field, tank, text string) (yaml string, wrong *Refused) {
	if !slices.ContainsFunc(c.f.Build.Items, func(it doc.Item) bool { return it.ID == tank && it.Tank.Given() }) {
		return "", &Refused{Path: "fills/" + tank, Code: "unknown-id", Says: fmt.Sprintf("no tank is called %s", quote(tank)), Found: text}
	}
	if text == "" {
		return "", nil
	}
	entry, _ := weighing.Entry("fills")
	level, _ := entry.Entry("level")
	t := c.value(level, text)
	if t.wrong != nil {
		w := *t.wrong
		w.Path = "fills/" + tank
		return "", &w
	}
	return fmt.Sprintf("{tank: %s, level: %s}", docfile.Quote(tank), t.yaml), nil
}
