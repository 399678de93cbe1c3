package edit

import (
	"fmt"
	"reflect"
	"strings"

	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/parts"
)

// Enquiry is what is known when somebody first asks.
type Enquiry struct {
	ID      string // of the build
	Name    string
	Country string // uk, eu, us, au, nz
	Class   parts.Class
	People  int // 1 to 12; 0: not said
	Date    doc.Opt[doc.Date]
}

// Text writes the build of an enquiry: the class of van, its allowance rows in place of real items, the party and where
// they sit. Everything in it that nobody measured is a zone, an allowance or left out.
func (e Enquiry) Text() string {
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	say("# Axes: x rearwards from the front axle, y to the right of the centre line (facing forward), z up from the BARE load floor.")
	say("# Allowance rows stand in for their group until real items replace them.")
	say("berthwright: 1")
	say("build:")
	say("  id: %s", docfile.Quote(e.ID))
	say("  name: %s", docfile.Quote(e.Name))
	if e.Country != "" {
		say("  country: %s", docfile.Quote(e.Country))
	}
	if d, ok := e.Date.Get(); ok {
		say("  date: %s", dateText(d))
	}
	if e.Country == "us" {
		say("  units: imperial")
	}
	if c := currency(e.Country); c != "" {
		say("  currency: %s", c)
	}
	say("\njob:\n  stage: enquiry")
	say("\nvan:")
	if e.Class.ID != "" {
		say("  class: %s", docfile.Quote(e.Class.ID))
	}
	driver, other := "right", "left"
	if e.Country == "us" || e.Country == "eu" || e.Country == "" {
		driver, other = other, driver
	}
	if e.Country != "" {
		say("  steering: %s", driver)
	}
	seats := e.seats(driver, other)
	if len(seats)+len(e.Class.Allowances) > 0 {
		say("\nitems:")
	}
	entry, _ := FieldAt("items")
	for _, s := range seats {
		b.WriteString(block(entry, s))
	}
	for _, a := range e.Class.Allowances {
		vals := values{}
		flatten(reflect.ValueOf(a), entry, "", vals)
		b.WriteString(block(entry, vals))
	}
	if len(seats) > 0 {
		say("\nloading:\n  party:")
		var ids []string
		for i, s := range seats {
			ids = append(ids, s["id"])
			id, name := fmt.Sprintf("person-%d", i+1), fmt.Sprintf("Person %d", i+1)
			if i == 0 {
				id, name = "driver", "Driver"
			}
			say("    - {id: %s, name: %s, seat: %s}", id, name, s["id"])
		}
		say("  seats: [%s]", strings.Join(ids, ", "))
	}
	return b.String()
}

// seats places the party by row: two in the cab, then rows of two or three behind it.
func (e Enquiry) seats(driver, other string) []values {
	var all []values
	for i := range max(0, min(e.People, 12)) {
		s := values{"group": "seats", "seat/faces": "forward"}
		switch {
		case i < 2:
			side := driver
			s["id"], s["name"], s["seat/row"], s["in-ticket"] = "driver-seat", docfile.Quote("Driver's seat"), "1", "true"
			s["seat/belted"] = "true"
			if i == 0 {
				s["seat/driver"] = "true"
			} else {
				side = other
				s["id"], s["name"] = "passenger-seat", docfile.Quote("Passenger seat")
			}
			s["zone"] = "cab " + side + " low"
			s["locked"] = docfile.Quote("cab seats and their fixings are changed with their papers only")
		default:
			row, place := 2+(i-2)/3, (i-2)%3
			s["id"] = fmt.Sprintf("seat-%d-%d", row, place+1)
			s["name"] = docfile.Quote(fmt.Sprintf("Seat %d in row %d", place+1, row))
			s["seat/row"] = fmt.Sprint(min(row, 4))
			along := [...]string{"door", "mid", "wheel", "rear"}[min(row-2, 3)]
			s["zone"] = along + " " + [...]string{driver, "middle", other}[place] + " low"
			s["mass"] = docfile.Quote("0 kg")
			s["remark"] = docfile.Quote("its mass is in the allowance for seats; it needs the tested evidence for this floor")
		}
		all = append(all, s)
	}
	return all
}

func currency(country string) string {
	return map[string]string{"uk": "GBP", "eu": "EUR", "us": "USD", "au": "AUD", "nz": "NZD"}[country]
}

// block writes an entry of a list on lines of its own, what it holds in brackets.
func block(f *doc.Field, vals values) string {
	var b strings.Builder
	lead := "  - "
	for i := range f.Fields {
		sub := &f.Fields[i]
		text, ok := vals[sub.Key]
		if !ok && sub.Kind == doc.Mapping && under(vals, sub.Key+"/") {
			text, ok = tree(sub, vals, sub.Key+"/"), true
		}
		if ok {
			b.WriteString(lead + sub.Key + ": " + text + "\n")
			lead = "    "
		}
	}
	return b.String()
}
