package sheet

import (
	"fmt"
	"slices"
	"strings"

	"berthwright/calc"
	"berthwright/check"
	"berthwright/derive"
	"berthwright/paper"
	"berthwright/source"
	"berthwright/unit"
)

func kg(m unit.Mass, sys unit.System) string { return check.Kg(m).Text(sys) }

// bare prints a mass for a column whose head names the unit.
func bare(m unit.Mass, digits int, sys unit.System) string {
	t := check.Figure{Kind: unit.KindMass, SI: m.Kilograms(), Digits: digits}.Text(sys)
	return strings.TrimSuffix(strings.TrimSuffix(t, unit.Space+"kg"), unit.Space+"lb")
}

func number(o unit.Opt[unit.Mass], sys unit.System) string {
	m, ok := o.Get()
	if !ok {
		return ""
	}
	return bare(m, 0, sys)
}

// column prints a figure of a mass for a column whose head names the unit.
func column(o unit.Opt[check.Figure], sys unit.System) string {
	f, ok := o.Get()
	if !ok {
		return ""
	}
	return bare(unit.Kilogram.Times(f.SI), 0, sys)
}

func (s *Sheet) basisPairs() []paper.Pair {
	w, sys := s.Weight, s.System()
	p, t := s.van.Plate, w.In.Ticket
	out := []paper.Pair{}
	plate := func(v derive.Val[unit.Mass]) string {
		if !v.Known() {
			return "not given"
		}
		return kg(v.V, sys)
	}
	note := p.Paper
	if p.Basis != "" {
		note = strings.TrimSpace(p.Basis + " " + note)
	}
	if p.Total.How == derive.Assumed {
		note = "assumed: " + p.Total.From
	}
	out = append(out, paper.Pair{Name: "Plate", Value: fmt.Sprintf("total %s, front %s, rear %s, train %s", plate(p.Total), plate(p.Front), plate(p.Rear), plate(p.Train)), Note: note})
	if t.Front.Known() && t.Rear.Known() {
		value := fmt.Sprintf("front %s, rear %s", kg(t.Front.V, sys), kg(t.Rear.V, sys))
		from := t.From
		if d, ok := s.Build.Van.Empty.Date.Get(); ok {
			from += fmt.Sprintf(" of %04d-%02d-%02d", d.Year, d.Month, d.Day)
		}
		if t.Fuel.V > 0 {
			from += fmt.Sprintf("; %s of fuel aboard taken off", kg(t.Fuel.V, sys))
		}
		out = append(out, paper.Pair{Name: "Empty van", Value: value, Note: from})
	}
	out = append(out, paper.Pair{Name: "Axes", Value: "lengths from the front axle rearwards, to the right of the centre line, up from the bare load floor"})
	out = append(out, paper.Pair{Name: "Rules and data", Value: strings.Join(s.Basis(), ", ")})
	if _, why := w.Status(); len(why) > 0 {
		out = append(out, paper.Pair{Name: "Why not more", Value: strings.Join(why, "; ")})
	}
	return out
}

func (s *Sheet) caseRow(k int, sys unit.System) paper.CaseRow {
	w := s.Weight
	c := w.Cases[k]
	people, fills, _ := strings.Cut(c.Says.Text(sys), "; ")
	row := paper.CaseRow{Name: c.Name, People: people, Fills: fills, Front: number(c.Split.Front, sys), Rear: number(c.Split.Rear, sys), Total: bare(c.Split.Total, 0, sys), Deciding: k == w.Deciding}
	if c.Basis != "" && !strings.HasSuffix(c.Name, c.Basis) {
		row.Name += ", " + c.Basis
	}
	if strings.HasSuffix(c.ID, "-refilled") && c.Worst != nil && !strings.HasPrefix(c.ID, "brim") {
		row.Name += ", refilled"
	}
	p := s.van.Plate
	worst := check.Holds
	margin := func(m unit.Opt[unit.Mass], limit derive.Val[unit.Mass], doubt string) string {
		v, ok := m.Get()
		if !ok || !limit.Known() {
			return ""
		}
		row.Judged = true
		if x := check.Judge((limit.V - v).Kilograms(), w.Doubts[doubt].Half.Kilograms()); rank(x) > rank(worst) {
			worst = x
		}
		return bare(limit.V-v, 0, sys)
	}
	row.MarginFront, row.MarginRear = margin(c.Split.Front, p.Front, "front"), margin(c.Split.Rear, p.Rear, "rear")
	row.Margins = margin(unit.Some(c.Split.Total), p.Total, "total")
	row.Verdict = verdict(worst)
	if strings.HasPrefix(c.ID, "brim") {
		row.Judged = false
	}
	if w.Unsure() && worst != check.DoesNotHold {
		row.Verdict = paper.Unknown
	}
	return row
}

func (s *Sheet) limitRow(f check.Finding, sys unit.System) (paper.LimitRow, bool) {
	v, ok := f.Value.Get()
	if !ok || !f.Limit.Given() || v.Kind != unit.KindMass || f.Advisory || f.Check == "licence" || f.Check == "promise" {
		return paper.LimitRow{}, false
	}
	in := f.Case
	for k := range s.Weight.Cases {
		if c := &s.Weight.Cases[k]; c.ID == f.Case {
			in = c.Name
		}
	}
	return paper.LimitRow{What: limitName(f), Case: in, Load: column(f.Value, sys), Limit: column(f.Limit, sys), Margin: column(f.Margin, sys), Spread: column(f.Half, sys), From: ruleWords(f), Verdict: verdict(f.Verdict)}, true
}

// limitName tells limits of one check apart.
func limitName(f check.Finding) string {
	switch {
	case f.Check == "tyres" && f.Case == "plate":
		return f.Title + ", plated axle"
	case f.Check == "tyres":
		return f.Title + ", " + f.Subject
	case f.Check == "plate-sum":
		return "Axle plates together"
	case f.Check == "nose":
		return strings.ToUpper(first(f.Subject)) + strings.ReplaceAll(rest(f.Subject), "-", " ")
	}
	return f.Title
}

// evidence says how the limit of a finding is known; what rests on the build alone needs no publication.
func evidence(f check.Finding) string {
	if f.Advisory || len(f.Sources) == 0 || f.Sources[0].Key == "practice" {
		return ""
	}
	if k := f.Sources[0].Key; f.Level == calc.Seen && (k == "plate" || k == "body-builder") {
		return "" // a reading of this very van
	}
	return "limit " + f.EvidenceSays()
}

func ruleWords(f check.Finding) string {
	if len(f.Sources) == 0 {
		return f.Rule
	}
	p, ok := source.Find(f.Sources[0].Key)
	if !ok {
		return f.Rule
	}
	if p.Number != "" {
		return p.Number
	}
	return p.Title
}

// groups sums the fitted and removed mass of each trade and where it goes.
func (s *Sheet) groups(sys unit.System) []paper.GroupRow {
	w := s.Weight
	type sum struct{ fitted, removed, front, rear unit.Mass }
	sums := map[string]*sum{}
	var order []string
	for i := range w.In.Loads {
		l := &w.In.Loads[i]
		g := l.Group
		if l.Unlisted {
			g = "unlisted"
		}
		if sums[g] == nil {
			sums[g] = &sum{}
			order = append(order, g)
		}
		t := sums[g]
		if l.Mass < 0 {
			t.removed -= l.Mass
		} else {
			t.fitted += l.Mass
		}
		if w.Known {
			if a, ok := w.Geometry.Rear().Lever(l.At, l.On).Get(); ok {
				t.rear += a.Of(l.Mass)
				t.front += l.Mass - a.Of(l.Mass)
			}
		}
	}
	var out []paper.GroupRow
	all := sum{}
	add := func(name string, t *sum) {
		out = append(out, paper.GroupRow{Name: name, Fitted: bare(t.fitted, 1, sys), Removed: bare(t.removed, 1, sys), Front: bare(t.front, 1, sys), Rear: bare(t.rear, 1, sys)})
	}
	for _, g := range order {
		t := sums[g]
		name := check.GroupWords(g)
		switch {
		case name == "" && t.fitted == 0:
			name = "taken out of the base van"
		case name == "":
			name = "without a trade"
		}
		add(name, t)
		all = sum{all.fitted + t.fitted, all.removed + t.removed, all.front + t.front, all.rear + t.rear}
	}
	add("together", &all)
	return out
}

func (s *Sheet) items(sys unit.System) []paper.ItemRow {
	placed := s.Placed(derive.Travel)
	var out []paper.ItemRow
	for i := range s.Weight.In.Loads {
		l := &s.Weight.In.Loads[i]
		row := paper.ItemRow{Number: l.Number, Name: l.Name, Group: check.GroupWords(l.Group), Mass: bare(l.Mass, 1, sys), Spread: bare(l.Half, 1, sys), Known: l.Kind, Removed: l.Mass < 0}
		if l.Number > 0 && l.Number <= len(placed) {
			row.Place = PlaceWords(&placed[l.Number-1], s.van, sys)
		}
		out = append(out, row)
	}
	return out
}

// PlaceWords says where an item is, from lines a fitter can see.
func PlaceWords(p *derive.Placed, v derive.Van, sys unit.System) string {
	if !p.Centre[0].Known() {
		return "not placed"
	}
	length := func(l unit.Length) string { return unit.FormatSI(unit.KindLength, l.Metres(), sys, -1) }
	var parts []string
	switch {
	case p.Item.Zone != "" && p.At[0].How == derive.Assumed:
		return "zone " + p.Item.Zone + ", not yet measured"
	case p.Stretch:
		parts = append(parts, fmt.Sprintf("from %s to %s back of the front axle", length(p.Span[0]), length(p.Span[1])))
	case v.Bulkhead.Known():
		d := p.Centre[0].V - v.Bulkhead.V
		if d < 0 {
			parts = append(parts, length(-d)+" ahead of the bulkhead line")
		} else {
			parts = append(parts, length(d)+" back from the bulkhead line")
		}
	default:
		parts = append(parts, length(p.Centre[0].V)+" back of the front axle")
	}
	if p.Centre[1].Known() {
		switch y := p.Centre[1].V; {
		case y < 0:
			parts = append(parts, length(-y)+" left")
		case y > 0:
			parts = append(parts, length(y)+" right")
		default:
			parts = append(parts, "on the centre line")
		}
	}
	if p.Centre[2].Known() {
		parts = append(parts, length(p.Centre[2].V)+" up")
	}
	return strings.Join(parts, ", ")
}

// spreads says what makes up the doubt on the tightest limit.
func (s *Sheet) spreads(sys unit.System) []paper.Pair {
	var out []paper.Pair
	for _, id := range []string{"rear", "front", "total"} {
		d, ok := s.Weight.Doubts[id]
		if !ok {
			continue
		}
		var parts []string
		for i, r := range d.Relief() {
			if i == 3 {
				break
			}
			parts = append(parts, fmt.Sprintf("%s %.0f %%", check.GroupWords(strings.ReplaceAll(r.Group, "ticket-", "empty ticket ")), r.Share.Percent()))
		}
		note := "mostly " + strings.Join(parts, ", ")
		if d.Floor > d.Sum {
			note = "one degree of nose-down on the scale is the floor; " + note
		}
		out = append(out, paper.Pair{Name: d.Measure.Name, Value: "± " + kg(d.Half, sys), Note: note})
	}
	return out
}

func (s *Sheet) cautions() []string {
	out := []string{"Computed from the description named here. It does not replace a weighing of the laden van, local codes, or licensed vehicle, gas and electrical examiners."}
	for _, f := range s.Weight.Findings {
		if c := strings.ToUpper(first(f.Caution)) + rest(f.Caution) + "."; f.Caution != "" && !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	return out
}

func first(s string) string {
	if s == "" {
		return ""
	}
	return s[:1]
}

func rest(s string) string {
	if s == "" {
		return ""
	}
	return s[1:]
}
