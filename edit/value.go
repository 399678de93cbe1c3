package edit

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/unit"
)

// typed is what a text means in a field.
type typed struct {
	yaml  string
	empty bool     // the field is emptied
	wrong *Refused // the text is no value of the field; yaml then holds it as typed
}

// ColumnUnit returns the unit that a bare number has in a field; "" where there is none.
func ColumnUnit(f *doc.Field, system unit.System) string {
	if f.Kind != doc.Quantity || f.Of == unit.KindMoney {
		return ""
	}
	if system == unit.Metric && f.Unit != "" {
		return f.Unit
	}
	u, _ := f.Of.Base().Shown(system)
	return u
}

// value reads what a person typed into field f.
func (c *compiler) value(f *doc.Field, text string) typed {
	text = strings.TrimSpace(text)
	if text == "" {
		return typed{empty: true}
	}
	if f.List || f.Kind == doc.Mapping || f.Kind == doc.Anything {
		return typed{wrong: &Refused{Code: "not-a-field", Says: fmt.Sprintf("%s is not one value", f.Key), Found: text}}
	}
	switch f.Kind {
	case doc.Text:
		return c.word(f, text)
	case doc.Whole:
		return whole(f, text)
	case doc.YesNo:
		return yesNo(f, text)
	case doc.Day:
		return day(f, text, c.build().Head.Country == "us")
	}
	e, err := unit.Typed(f.Of, ColumnUnit(f, c.env.System), text)
	if err != nil {
		w := &Refused{Code: "not-a-number", Says: fmt.Sprintf("%s cannot be read", quote(text)), Found: text}
		var p *unit.ParseError
		if errors.As(err, &p) {
			w.Code, w.Says, w.Hint = string(p.Code), p.Problem, p.Hint
		}
		return typed{yaml: docfile.Quote(text), wrong: w}
	}
	return typed{yaml: docfile.Quote(e.Text)}
}

// word reads a text, one of a list of words, or the id or name of something in the build.
func (c *compiler) word(f *doc.Field, text string) typed {
	if len(f.Enum) > 0 {
		if w, ok := chosen(f.Enum, text); ok {
			return typed{yaml: w}
		}
		return typed{yaml: docfile.Quote(text), wrong: &Refused{Code: "unknown-word", Says: fmt.Sprintf("%s is not one of the words for it", quote(text)),
			Hint: "one of: " + strings.Join(f.Enum, ", "), Found: text}}
	}
	if f.Ref != "" {
		if id, ok := c.named(f.Ref, text); ok {
			return typed{yaml: docfile.Quote(id)}
		}
	}
	return typed{yaml: docfile.Quote(text)} // an unknown id is told by the binder
}

// synonyms are words of the trade for words of the file.
var synonyms = map[string]string{
	"measured": "weighed", "scale": "weighed", "datasheet": "data-sheet", "data sheet": "data-sheet", "catalogue": "data-sheet", "spec": "data-sheet",
	"estimate": "estimated", "est": "estimated", "guessed": "guess", "l": "left", "r": "right", "lhd": "left", "rhd": "right",
}

// chosen finds the word of a list that text means: itself, with spaces for hyphens, a synonym, or the one it begins.
func chosen(words []string, text string) (string, bool) {
	want := strings.ToLower(strings.Join(strings.Fields(text), "-"))
	loose := strings.ReplaceAll(want, "-", " ")
	match := ""
	for _, w := range words {
		switch {
		case w == want, w == synonyms[loose]:
			return w, true
		case strings.HasPrefix(w, want):
			if match != "" {
				return "", false
			}
			match = w
		}
	}
	return match, match != ""
}

// named finds the id of something by its id or its name. Two things of one name are told apart by id only.
func (c *compiler) named(ref, text string) (string, bool) {
	b := c.build()
	match, several := "", false
	try := func(id, name string) bool {
		if id == text {
			match, several = id, false
			return true
		}
		if name != "" && strings.EqualFold(name, text) {
			several = match != ""
			match = id
		}
		return false
	}
	switch ref {
	case "item", "seat":
		for i := range b.Items {
			it := &b.Items[i]
			if (ref == "item" || it.Seat.Given()) && try(it.ID, it.Name) {
				break
			}
		}
	case "zone":
		for _, z := range b.Loading.Zones {
			if try(z.ID, z.Name) {
				break
			}
		}
	case "person":
		for _, p := range b.Loading.Party {
			if try(p.ID, p.Name) {
				break
			}
		}
	}
	return match, match != "" && !several
}

func whole(f *doc.Field, text string) typed {
	digits := strings.TrimSuffix(strings.TrimSuffix(strings.ToLower(text), "x"), "×")
	digits = strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(digits, "x"), "×"))
	if i, err := strconv.Atoi(strings.TrimPrefix(digits, "+")); err == nil {
		return typed{yaml: strconv.Itoa(i)}
	}
	if sum, rest, ok := strings.Cut(digits, ".0"); ok && strings.Trim(rest, "0") == "" { // spreadsheets write 2.0
		if i, err := strconv.Atoi(sum); err == nil {
			return typed{yaml: strconv.Itoa(i)}
		}
	}
	return typed{yaml: docfile.Quote(text), wrong: &Refused{Code: "not-a-whole-number", Says: fmt.Sprintf("%s %s is not a whole number", f.Key, quote(text)), Hint: "write a number like 2", Found: text}}
}

func yesNo(f *doc.Field, text string) typed {
	switch strings.ToLower(text) {
	case "yes", "y", "true", "x", "1", "✓", "✔", "on":
		return typed{yaml: "true"}
	case "no", "n", "false", "0", "-", "–", "off":
		return typed{yaml: "false"}
	}
	return typed{yaml: docfile.Quote(text), wrong: &Refused{Code: "not-true-or-false", Says: fmt.Sprintf("%s %s is neither yes nor no", f.Key, quote(text)), Hint: "write yes or no", Found: text}}
}

// day reads a date in the usual ways of writing; with figures alone the day comes first unless monthFirst.
func day(f *doc.Field, text string, monthFirst bool) typed {
	layouts := []string{"2006-01-02", "2006/1/2", "2 Jan 2006", "2 January 2006", "Jan 2 2006", "January 2 2006", "Jan 2, 2006", "January 2, 2006", "2.1.2006", "2. 1. 2006"}
	if monthFirst {
		layouts = append(layouts, "1/2/2006", "1-2-2006")
	} else {
		layouts = append(layouts, "2/1/2006", "2-1-2006")
	}
	for _, l := range layouts {
		if t, err := time.Parse(l, strings.Join(strings.Fields(text), " ")); err == nil {
			return typed{yaml: t.Format(time.DateOnly)}
		}
	}
	return typed{yaml: docfile.Quote(text), wrong: &Refused{Code: "not-a-date", Says: fmt.Sprintf("%s %s is not a day", f.Key, quote(text)), Hint: `write year, month and day like "2026-11-01"`, Found: text}}
}
