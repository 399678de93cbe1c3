package rules

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"berthwright/calc"
	"berthwright/doc"
)

// countries are those whose rules are kept.
var countries = []string{"uk", "eu", "us", "au", "nz"}

// Pack is what one build is judged by: the rows of its country that apply on its date.
type Pack struct {
	Country string
	Date    doc.Date
	Rules   []Rule // in the order they are kept
	Pending []Rule // adopted, but not applicable yet: to be told beside the others
}

// For returns the rules of a country on a day. It refuses a country that has no rules and a day
// that was not given: rules are never chosen by today's date.
func For(country string, on doc.Date) (Pack, error) {
	if !slices.Contains(countries, country) {
		return Pack{}, fmt.Errorf("no rules for country %q; there are rules for %s", country, strings.Join(countries, ", "))
	}
	if on == (doc.Date{}) {
		return Pack{}, fmt.Errorf("no date to choose rule editions by")
	}
	pack := Pack{Country: country, Date: on}
	for _, r := range allRows {
		switch {
		case !slices.Contains(r.Countries, country) && !slices.Contains(r.Countries, "*"):
		case r.Until != (doc.Date{}) && compare(r.Until, on) < 0:
		case r.Pending || compare(r.From, on) > 0:
			pack.Pending = append(pack.Pending, r)
		default:
			pack.Rules = append(pack.Rules, r)
		}
	}
	return pack, nil
}

// All returns every row of every country and edition.
func All() []Rule { return slices.Clone(allRows) }

// Find returns the rows on one subject; more than one where sources differ.
func (p Pack) Find(id string) []Rule {
	var found []Rule
	for _, r := range p.Rules {
		if r.ID == id {
			found = append(found, r)
		}
	}
	return found
}

// Choice is the row that is used and those it was chosen from.
type Choice struct {
	Rule  Rule
	Value Value
	Known bool   // false: no row has the figure, and the check is unknown
	Also  []Rule // other rows with another figure; the difference is printed
}

// Stricter returns the row with the strictest figure of the name. Of equal figures the one with
// the better evidence is used.
func (p Pack) Stricter(id, name string) Choice {
	var c Choice
	var others []Rule
	for _, r := range p.Find(id) {
		v, ok := r.Value(name)
		if !ok {
			continue
		}
		if !c.Known || v.stricter(c.Value) || v.SI == c.Value.SI && r.Level > c.Rule.Level {
			if c.Known {
				others = append(others, c.Rule)
			}
			c.Rule, c.Value, c.Known = r, v, true
			continue
		}
		others = append(others, r)
	}
	for _, r := range others {
		if v, _ := r.Value(name); v.SI != c.Value.SI {
			c.Also = append(c.Also, r)
		}
	}
	return c
}

// Confirmation says who compared a row with the workshop's own copy of the publication.
type Confirmation struct {
	Rule     string // Rule.ID
	Edition  string // Rule.Edition, the one that was read
	Clause   string
	Initials string
	Date     doc.Date
}

// Confirm returns the pack with the confirmed rows raised to Confirmed. It refuses a confirmation
// that names no row of any country or lacks clause, initials or date; the others still count.
func (p Pack) Confirm(all []Confirmation) (Pack, []error) {
	var errs []error
	p.Rules = slices.Clone(p.Rules)
	for _, c := range all {
		means := func(r Rule) bool { return r.ID == c.Rule && r.Edition == c.Edition }
		switch {
		case !slices.ContainsFunc(allRows, means):
			errs = append(errs, fmt.Errorf("confirmed rule %q in edition %q is not a rule%s", c.Rule, c.Edition, editions(c.Rule)))
			continue
		case c.Clause == "" || c.Initials == "" || c.Date == (doc.Date{}):
			errs = append(errs, fmt.Errorf("confirmation of rule %q needs clause, initials and date", c.Rule))
			continue
		}
		for i := range p.Rules {
			if means(p.Rules[i]) {
				p.Rules[i].Level, p.Rules[i].Confirmed = calc.Confirmed, c
			}
		}
	}
	return p, errs
}

// editions lists the editions in which a rule is kept, as the end of a message.
func editions(id string) string {
	var kept []string
	for _, r := range allRows {
		if r.ID == id && !slices.Contains(kept, strconv.Quote(r.Edition)) {
			kept = append(kept, strconv.Quote(r.Edition))
		}
	}
	if len(kept) == 0 {
		return ""
	}
	return "; its editions are " + strings.Join(kept, ", ")
}

// compare orders two days.
func compare(a, b doc.Date) int {
	for _, d := range [3]int{a.Year - b.Year, a.Month - b.Month, a.Day - b.Day} {
		if d != 0 {
			return d
		}
	}
	return 0
}
