package web

import (
	"fmt"
	"strconv"
	"strings"

	"berthwright/check"
	"berthwright/doc"
	"berthwright/edit"
	"berthwright/unit"
)

// former makes forms and sheets of one revision.
type former struct {
	r       *revision
	sys     unit.System
	assumed map[string]string // what stands in for a value that is not given, by path
	marks   map[string]*Marked
	derived map[string]string
	paths   map[string][]string // of what is written, by what holds it
}

func (f *former) prepare(v *BuildView) {
	for _, a := range v.Assumed {
		f.assumed[a.Path] = a.Text + ": " + a.From
	}
	for i := range v.Marks {
		if m := &v.Marks[i]; f.marks[m.Path] == nil {
			f.marks[m.Path] = m
		}
	}
	f.derived = map[string]string{}
	for _, found := range v.Findings {
		switch found.Check {
		case "closing":
			f.derived["van/survey/bulkhead-to-rear-door"] = found.Text
		case "hubs":
			f.derived["van/survey/hubs-right"] = found.Text
		case "wheel-box":
			f.derived["van/survey/wheel-box-rear"] = found.Text
		}
	}
}

// labels are the words of the form where the key of the file does not read well.
var labels = map[string]string{
	"van/class": "Class of van", "van/plated/total": "Total (first line)", "van/plated/train": "Train (second line)", "van/plated/front": "Axle 1", "van/plated/rear": "Axle 2",
	"van/plate-in-use": "Judged by", "van/empty/front": "Front axle", "van/empty/rear": "Rear axle", "van/empty/total": "Whole van", "van/empty/left": "Left side", "van/empty/right": "Right side",
	"van/empty/from": "How it is known", "van/empty/division": "Scale division", "van/empty/slope": "Slope of the plate, nose down", "van/empty/with/driver": "Driver aboard, kg",
	"van/empty/with/fuel": "Fuel", "van/track/front": "Track, front", "van/track/rear": "Track, rear", "van/floor/height": "Bare floor above ground", "van/floor/front": "Bulkhead line behind front axle",
	"van/floor/rear": "Rear door line behind front axle", "van/floor/finished": "Finished floor above bare floor", "van/inside/left": "Lined left wall", "van/inside/right": "Lined right wall",
	"van/inside/ceiling": "Lined ceiling", "van/inside/wheel-box/front": "Wheel-box, front edge", "van/inside/wheel-box/rear": "Wheel-box, rear edge", "van/inside/wheel-box/inner": "Wheel-box, inner face",
	"van/inside/wheel-box/height": "Wheel-box, height", "van/tyres/front": "Load index, front", "van/tyres/rear": "Load index, rear", "van/tyres/twin": "Twin wheels at the rear",
	"van/survey/hubs-left": "S1 Hub to hub, left", "van/survey/hubs-right": "S1 Hub to hub, right", "van/survey/hub-to-pillar": "S2 Front hub back to B-pillar",
	"van/survey/pillar-to-bulkhead": "S3 B-pillar back to bulkhead line", "van/survey/hub-to-rear-door": "S4 Rear hub back to rear door line", "van/survey/bulkhead-to-rear-door": "S5 Bulkhead line to rear door line",
	"van/survey/wheel-box-front": "S6 Wheel-box front edge from rear door line", "van/survey/wheel-box-rear": "S6 Wheel-box rear edge from rear door line",
	"van/survey/floor-to-ground-front": "S7 Bare floor to ground, at the bulkhead line", "van/survey/floor-to-ground-rear": "S7 Bare floor to ground, at the rear door line",
	"van/survey/width-at-floor": "S8 Bare width at the floor", "van/survey/width-at-900": "S8 Bare width 900 mm up", "van/survey/width-at-1500": "S8 Bare width 1 500 mm up",
	"van/survey/floor-build": "S9 Floor build", "van/survey/lining": "S9 Lining, one wall", "van/survey/by": "Tape held by", "van/survey/date": "Taped on", "van/empty/date": "Weighed on", "van/empty/note": "Note on the ticket",
	"build/registered": "Registered before conversion", "build/date": "Judged by the rules of", "job/hold": "Next hold point", "loading/luggage": "All luggage together, at most", "loading/waste-empty": "Waste is emptied before fresh is filled",
	"loading/tow/nose": "Nose weight", "loading/tow/trailer": "Trailer",
}

func labelOf(path string) string {
	if l, ok := labels[path]; ok {
		return l
	}
	key := strings.ReplaceAll(path[strings.LastIndexByte(path, '/')+1:], "-", " ")
	if key == "" {
		return path
	}
	return strings.ToUpper(key[:1]) + key[1:]
}

// job is the sheet of the job, in the order in which it is asked.
func (f *former) job() []FormSection {
	out := []FormSection{
		f.section("build", "Build", "", "build/name", "build/customer", "build/country", "build/date", "build/registered", "build/units", "build/currency"),
		f.section("brief", "Brief", "", "job/brief", "job/stage", "job/hold"),
	}
	for _, p := range f.r.file.Build.Job.Promises {
		at := "job/promises/" + p.ID + "/"
		out = append(out, f.section("promise-"+p.ID, "Promise", p.Words, at+"what", at+"at-least", at+"count", at+"words"))
	}
	for _, d := range f.r.file.Build.Job.Open {
		at := "job/decisions/" + d.ID + "/"
		out = append(out, f.section("decision-"+d.ID, "Decision waiting", d.What, at+"what", at+"who", at+"by"))
	}
	return out
}

// van is the sheet of the base van in the order of a converter: class, plate, ticket, what was aboard, sides, tapes.
func (f *former) van() []FormSection {
	under := func(head string, keys ...string) []string {
		for i := range keys {
			keys[i] = head + "/" + keys[i]
		}
		return keys
	}
	out := []FormSection{
		f.section("class", "Class of van", "Fills what is not given below; what it fills is marked as assumed.", "van/class"),
		f.section("plate", "Plate", "In the order of the statutory plate.", under("van/plated", "total", "train", "front", "rear")...),
		f.section("ticket", "Weighbridge ticket", "Total or axles, as read; nothing subtracted.", under("van/empty", "front", "rear", "total", "left", "right", "from", "date", "division", "slope", "note")...),
		f.section("aboard", "Aboard when it was weighed", "", under("van/empty/with", "driver", "fuel", "bulkhead", "passenger-bench", "load-floor", "wall-panels", "spare-wheel", "tools")...),
		f.section("sides", "Sides", "", "van/steering", "van/sliding-door", "van/driven"),
		f.section("survey", "Tapes", "Level ground, unladen, two people, a quarter of an hour. Write ± where you know it.", under("van/survey", "hubs-left", "hubs-right", "hub-to-pillar", "pillar-to-bulkhead",
			"hub-to-rear-door", "bulkhead-to-rear-door", "wheel-box-front", "wheel-box-rear", "floor-to-ground-front", "floor-to-ground-rear", "width-at-floor", "width-at-900", "width-at-1500", "floor-build", "lining", "by", "date")...),
		f.section("lines", "Lines and measures", "From the tapes, the papers, or the class.", under("van", "wheelbase", "track/front", "track/rear", "length", "width", "height", "front-overhang", "floor/height", "floor/front", "floor/rear",
			"floor/finished", "inside/left", "inside/right", "inside/ceiling", "inside/wheel-box/front", "inside/wheel-box/rear", "inside/wheel-box/inner", "inside/wheel-box/height")...),
		f.section("tyres", "Tyres", "The load index as written on the wall.", under("van/tyres", "front", "rear", "twin")...),
		f.section("limits", "Other limits", "From the papers of the base van.", under("van", "roof-limit", "nose-limit", "tow-limit", "tow-ball", "empty-centre-height")...),
	}
	for _, p := range f.r.file.Build.Van.Plates {
		out = append(out, f.section("plate-"+p.ID, "Another plated set: "+p.ID, "", under("van/plates/"+p.ID, "total", "train", "front", "rear", "basis", "paper")...))
	}
	if len(f.r.file.Build.Van.Plates) > 0 {
		out = append(out, f.section("plate-in-use", "Plate in use", "", "van/plate-in-use"))
	}
	return out
}

func (f *former) section(id, title, says string, paths ...string) FormSection {
	s := FormSection{ID: id, Title: title, Says: says}
	for _, p := range paths {
		if field, ok := edit.FieldAt(p); ok {
			s.Fields = append(s.Fields, f.field(p, field))
		}
	}
	return s
}

// kindOf is the kind of a field as the page knows it.
func kindOf(path string, f *doc.Field) string {
	switch {
	case len(f.Enum) > 0 || f.Ref != "":
		return "choice"
	case f.Kind == doc.Whole:
		return "count"
	case f.Kind == doc.YesNo:
		return "yes-no"
	case f.Kind == doc.Day:
		return "date"
	case f.Kind == doc.Quantity:
		switch f.Of {
		case unit.KindRatio:
			return "ratio"
		case unit.KindMoney:
			return "money"
		case unit.KindHours:
			return "hours"
		}
		return f.Of.Base().String()
	case strings.HasSuffix(path, "/brief") || strings.HasSuffix(path, "/note") || strings.HasSuffix(path, "/remark"):
		return "long-text"
	}
	return "text"
}

func (f *former) field(path string, field *doc.Field) FieldView {
	v := FieldView{Path: path, Label: labelOf(path), Help: field.Help, Kind: kindOf(path, field), Unit: edit.ColumnUnit(field, f.sys), Choices: f.choices(field), Mark: f.marks[path], Derived: f.derived[path]}
	if text, ok := f.r.file.Value(path); ok {
		v.Text = plain(text)
		v.Shown = f.shown(field, v.Text)
	} else {
		v.Assumed = f.assumed[path]
	}
	return v
}

// choices are the words or the ids that a field may hold, as people read them.
func (f *former) choices(field *doc.Field) []Choice {
	var out []Choice
	for _, w := range field.Enum {
		text := strings.ReplaceAll(w, "-", " ")
		switch {
		case field.Key == "group":
			text = check.GroupWords(w)
		case field.Key == "country":
			text = countryWords[w]
		}
		out = append(out, Choice{ID: w, Text: text})
	}
	b := &f.r.file.Build
	add := func(id, name string) {
		if name == "" {
			name = id
		}
		out = append(out, Choice{ID: id, Text: name})
	}
	switch field.Ref {
	case "class":
		for _, c := range f.r.shop.ctx.Parts.Classes() {
			add(c.ID, c.Name)
		}
	case "plate":
		for _, p := range b.Van.Plates {
			add(p.ID, p.ID)
		}
	case "item", "seat":
		for i := range b.Items {
			if it := &b.Items[i]; field.Ref == "item" || it.Seat.Given() {
				add(it.ID, it.Name)
			}
		}
	case "zone":
		for _, z := range b.Loading.Zones {
			add(z.ID, z.Name)
		}
	}
	return out
}

// shown prints a stored value as people read it; what cannot be read stays as it was typed.
func (f *former) shown(field *doc.Field, text string) string {
	switch field.Kind {
	case doc.Quantity:
		return shownQuantity(field.Of, text, f.sys)
	case doc.YesNo:
		switch text {
		case "true":
			return "yes"
		case "false":
			return "no"
		}
	case doc.Text:
		for _, c := range f.choices(field) {
			if c.ID == text {
				return c.Text
			}
		}
	}
	return text
}

// shownQuantity prints stored text in the reader's units, with its spread as it was written.
func shownQuantity(k unit.Kind, text string, sys unit.System) string {
	si, err := k.Parse(text)
	if err != nil {
		return text
	}
	head, spread, has := strings.Cut(text, "±")
	out := unit.FormatSI(k.Base(), si, sys, digitsOf(head, k, sys))
	if has {
		out += " ± " + shownSpread(k.Base(), strings.TrimSpace(spread), sys)
	}
	return out
}

func shownSpread(k unit.Kind, text string, sys unit.System) string {
	if strings.HasSuffix(text, "%") {
		return strings.ReplaceAll(text, " ", unit.Space)
	}
	si, err := k.Parse(text)
	if err != nil {
		return text
	}
	return unit.FormatSI(k, si, sys, digitsOf(text, k, sys))
}

// digitsOf keeps the digits that were typed where the value is shown in the unit it was typed in.
func digitsOf(text string, k unit.Kind, sys unit.System) int {
	u, usual := k.Base().Shown(sys)
	text = strings.TrimSpace(text)
	if si, err := k.Parse(text); err == nil && k.Base() == unit.KindMass && sys == unit.Metric && !strings.HasSuffix(text, u) && si < 10 {
		usual = max(usual, 1) // something light that was typed in another unit
	}
	if u == "" || !strings.HasSuffix(text, u) {
		return usual
	}
	number := strings.TrimSpace(strings.TrimSuffix(text, u))
	if _, err := strconv.ParseFloat(number, 64); err != nil {
		return usual
	}
	_, part, _ := strings.Cut(number, ".")
	return max(usual, min(len(part), 3))
}

// plain returns the text of a YAML scalar without its quotes.
func plain(yaml string) string {
	if len(yaml) >= 2 && yaml[0] == '"' {
		if s, err := strconv.Unquote(yaml); err == nil {
			return s
		}
	}
	return yaml
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
