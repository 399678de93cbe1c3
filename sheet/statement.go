package sheet

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/check"
	"berthwright/derive"
	"berthwright/paper"
	"berthwright/source"
	"berthwright/unit"
)

// Issue dates a paper: which revision and text it was made from, and when. The clock is the caller's.
type Issue struct {
	Revision string
	Hash     string
	Made     time.Time
}

// head is what every page of a paper says about itself.
func (s *Sheet) head(i Issue) paper.Head {
	status, _ := s.Weight.Status()
	h := paper.Head{
		Workshop: s.ctx.Shop.Name, Build: s.name(), Customer: s.Build.Head.Customer, Status: status.String(),
		Revision: i.Revision, Hash: i.Hash, Program: Program, Made: i.Made,
	}
	if s.System() != unit.Metric {
		h.MassUnit = "lb"
	}
	if !i.Made.IsZero() {
		h.Date = i.Made.Format("2006-01-02")
	}
	return h
}

func verdict(v check.Verdict) paper.Verdict {
	switch v {
	case check.Holds:
		return paper.Holds
	case check.Tight:
		return paper.Tight
	case check.DoesNotHold:
		return paper.DoesNotHold
	}
	return paper.Unknown
}

// MassStatement sets the mass statement as a PDF.
func (s *Sheet) MassStatement(i Issue) ([]byte, error) {
	w, sys := s.Weight, s.System()
	st := paper.Statement{Head: s.head(i), State: string(derive.Travel)}
	st.Verdict = s.overall()
	for _, t := range w.Title(sys) {
		st.Deciding = append(st.Deciding, paper.Sentence{Text: t.Text, Sub: t.Detail, Verdict: verdict(t.Verdict)})
	}
	st.Basis = s.basisPairs()
	in := s.Drawing(derive.Travel, nil)
	if scene, ok := fitted(in, "plan"); ok {
		st.Plan = paper.Figure{Scene: scene, Caption: "plan, travel, " + s.decidingName()}
	}
	side := "left"
	if s.van.Door.V == "right" {
		side = "right"
	}
	if scene, ok := fitted(in, side); ok {
		st.Side = paper.Figure{Scene: scene, Caption: side + " side, travel"}
	}
	for k := range w.Cases {
		st.Cases = append(st.Cases, s.caseRow(k, sys))
	}
	for _, f := range w.Findings {
		if f.Advisory && f.Verdict == check.Holds && f.Check != "overload" {
			continue
		}
		st.Findings = append(st.Findings, paper.Finding{Verdict: verdict(f.Verdict), Text: f.Says.Text(sys), Basis: f.Basis, Evidence: f.Level.Says(), Advice: advice(f)})
		if row, ok := s.limitRow(f, sys); ok {
			st.Limits = append(st.Limits, row)
		}
	}
	for _, z := range w.ZoneRooms() {
		row := paper.RoomRow{Place: z.Zone, Reached: z.Ends}
		if !z.Free {
			row.Mass = bare(z.Kg, 0, sys)
		}
		st.Room = append(st.Room, row)
	}
	st.Groups, st.Items = s.groups(sys), s.items(sys)
	st.Spreads = s.spreads(sys)
	for _, a := range w.In.Assumed {
		st.Assumed = append(st.Assumed, paper.Assumption{What: a.Says, Why: a.From})
	}
	st.Cautions = s.cautions()
	st.Sources = s.sources()
	for _, key := range []string{"weight.total", "weight.rear", "weight.front", "weight.payload", "weight.pay-mass", "weight.tyres"} {
		if slip, ok := w.Slip(key); ok {
			st.Slips = append(st.Slips, paperSlips(slip, 1)...)
		}
	}
	st.Sign = []paper.Signature{{Role: "for the workshop"}, {Role: "weighed by"}, {Role: "customer", Name: s.Build.Head.Customer}}
	return paper.MassStatement(st)
}

func (s *Sheet) decidingName() string {
	if s.Weight.Deciding < 0 {
		return "no case decides yet"
	}
	return strings.ToLower(s.Weight.Cases[s.Weight.Deciding].Name)
}

// overall says in one sentence whether the plated limits hold, and in which case.
func (s *Sheet) overall() paper.Sentence {
	w := s.Weight
	worst := check.Holds
	for _, f := range w.Findings {
		if f.Advisory || (f.Check != "weight-total" && f.Check != "axle-front" && f.Check != "axle-rear" && f.Check != "tyres") {
			continue
		}
		if rank(f.Verdict) > rank(worst) {
			worst = f.Verdict
		}
	}
	t := paper.Sentence{Verdict: verdict(worst), Sub: "worst case of the declared loading plan: " + s.decidingName()}
	switch worst {
	case check.DoesNotHold:
		t.Text = "The declared loading plan does not hold the plate."
	case check.Tight:
		t.Text = "The declared loading plan holds the plate, but a margin is smaller than its doubt."
	case check.Holds:
		t.Text = "The declared loading plan holds the plate, as far as computed here."
	default:
		t.Text = "Whether the declared loading plan holds the plate is not known yet."
		t.Sub = "something is missing; see the findings"
	}
	return t
}

func rank(v check.Verdict) int {
	switch v {
	case check.DoesNotHold:
		return 3
	case check.Unknown:
		return 2
	case check.Tight:
		return 1
	}
	return 0
}

func advice(f check.Finding) string {
	if f.Verdict == check.Holds {
		return ""
	}
	return f.Advice
}

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
	if c.Basis != "" {
		row.Name += ", " + c.Basis
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
	return row
}

func (s *Sheet) limitRow(f check.Finding, sys unit.System) (paper.LimitRow, bool) {
	v, ok := f.Value.Get()
	if !ok || !f.Limit.Given() || v.Kind != unit.KindMass || f.Advisory {
		return paper.LimitRow{}, false
	}
	in := f.Case
	for k := range s.Weight.Cases {
		if c := &s.Weight.Cases[k]; c.ID == f.Case {
			in = c.Name
		}
	}
	return paper.LimitRow{What: f.Title, Case: in, Load: column(f.Value, sys), Limit: column(f.Limit, sys), Margin: column(f.Margin, sys), Spread: column(f.Half, sys), From: ruleWords(f), Verdict: verdict(f.Verdict)}, true
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

// sources lists each place in a publication that a finding rests on, with what it is used for.
func (s *Sheet) sources() []paper.Source {
	var out []paper.Source
	index := map[calc.Cite]int{}
	for _, f := range s.Weight.Findings {
		for i, c := range f.Sources {
			p, ok := source.Find(c.Key)
			if !ok {
				continue
			}
			if k, have := index[c]; have {
				if !strings.Contains(out[k].For, f.Title) {
					out[k].For += ", " + f.Title
				}
				continue
			}
			row := paper.Source{Title: p.Name(), At: c.At, For: f.Title}
			if i == 0 {
				row.Evidence = f.Level.Says()
			}
			index[c] = len(out)
			out = append(out, row)
		}
	}
	return out
}

// paperSlips turns a slip into blocks for paper, at most n of its workings; certificates follow as lines.
func paperSlips(slip check.Slip, n int) []paper.Slip {
	var out []paper.Slip
	for i, w := range slip.Workings {
		if i == n {
			break
		}
		b := paper.Slip{ID: w.ID, Title: w.Title, Notes: w.Notes}
		if i == 0 {
			b.Title = slip.Title
		}
		for _, l := range calc.Lines(w) {
			kind := l.Kind.String()
			if l.Kind == calc.Derived {
				kind = ""
			}
			b.Lines = append(b.Lines, paper.SlipLine{Symbol: l.Symbol, Says: l.Says, Kind: kind, Formula: l.Formula, Numbers: l.Numbers, Result: l.Result, Source: citeWords(l.Cites, l.Level)})
		}
		out = append(out, b)
	}
	for _, c := range slip.Certificates {
		b := paper.Slip{ID: c.ID, Title: c.Title, Notes: []string{c.Method}}
		for _, l := range c.Chosen {
			if l.SI == 0 {
				continue
			}
			b.Lines = append(b.Lines, paper.SlipLine{Says: l.Label + ": " + l.Why, Kind: "given", Result: l.Show.Text(l.SI)})
		}
		for _, x := range c.Balances {
			b.Lines = append(b.Lines, paper.SlipLine{Says: "balance: " + x.Says, Kind: "given", Result: x.Show.Text(x.Left) + " = " + x.Show.Text(x.Right)})
		}
		out = append(out, b)
	}
	return out
}

func citeWords(all []calc.Cite, level calc.Evidence) string {
	var parts []string
	for _, c := range all {
		p, ok := source.Find(c.Key)
		if !ok {
			continue
		}
		t := p.Number
		if t == "" {
			t = p.Title
		}
		if c.At != "" {
			t += ", " + c.At
		}
		parts = append(parts, t)
	}
	if len(parts) == 0 {
		return ""
	}
	return strings.Join(parts, "; ") + " (" + level.String() + ")"
}

// Placard sets the loading placard as a PDF.
func (s *Sheet) Placard(i Issue) ([]byte, error) {
	w, sys := s.Weight, s.System()
	p := paper.LoadingPlacard{Head: s.head(i)}
	for _, z := range w.In.Zones {
		row := paper.PlacardZone{Where: z.Name, Limit: "not declared"}
		if z.Limit.Known() {
			row.Limit = kg(z.Limit.V, sys)
		}
		p.Zones = append(p.Zones, row)
	}
	for _, k := range w.In.Carried {
		row := paper.PlacardZone{Where: k.Name, Limit: fmt.Sprintf("up to %d", k.UpTo), Apart: true}
		if k.Each.Known() {
			row.Limit = fmt.Sprintf("%d × %s", k.UpTo, kg(k.Each.V, sys))
		}
		if k.On == axle.Roof {
			row.Note = "on the roof"
		}
		p.Zones = append(p.Zones, row)
	}
	if w.In.Luggage.Known() {
		p.Together = kg(w.In.Luggage.V, sys)
	}
	for _, x := range w.In.Seats {
		if !x.Planned {
			continue
		}
		who := "counted as " + kg(w.In.Person, sys)
		if x.Person >= 0 {
			if own := w.In.People[x.Person].Mass; own.V > w.In.Person {
				who = "counted as " + kg(own.V, sys)
			}
		}
		p.Seats = append(p.Seats, paper.Pair{Name: x.Name, Value: who})
	}
	p.Rules = s.PlacardRules()
	plate := s.van.Plate
	for _, t := range []struct {
		name string
		v    derive.Val[unit.Mass]
	}{{"whole van", plate.Total}, {"front axle", plate.Front}, {"rear axle", plate.Rear}} {
		if t.v.Known() {
			p.Totals = append(p.Totals, paper.Pair{Name: t.name, Value: kg(t.v.V, sys)})
		}
	}
	if w.In.Roof.Known() {
		p.Totals = append(p.Totals, paper.Pair{Name: "on the roof", Value: kg(w.In.Roof.V, sys)})
	}
	if o := s.overall(); o.Verdict == paper.DoesNotHold {
		p.Warning = "Do not load to this plan: it does not hold the plate"
	}
	p.Basis = "Worst case of this plan: " + s.decidingName() + ". " + s.overall().Text
	return paper.Placard(p)
}

// PlacardRules says the loading rules in words, largest first.
func (s *Sheet) PlacardRules() []string {
	w, sys := s.Weight, s.System()
	var out []string
	if w.In.Empties {
		out = append(out, "Empty the waste tank before you fill the fresh tank.")
	} else {
		out = append(out, "Drive with the waste tank empty where you can.")
	}
	for _, t := range w.In.Tanks {
		if t.DrivingHow == derive.Given && t.Driving < 1 {
			out = append(out, fmt.Sprintf("Drive with the %s at most %.0f %% full.", strings.ToLower(t.Name), t.Driving.Percent()))
		}
	}
	if over, ok := w.Overload.Get(); ok && over > 0 {
		out = append(out, fmt.Sprintf("With everything full the van can be overloaded by %s: keep to the limits beside.", kg(over, sys)))
	}
	return append(out, "Weigh the laden van. The driver answers for the load.")
}
