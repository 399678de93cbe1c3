package web

import (
	"fmt"
	"strings"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/check"
	"berthwright/derive"
	"berthwright/sheet"
	"berthwright/source"
	"berthwright/unit"
)

// notesMost is how many margin notes a drawing shows (design: at most seven).
const notesMost = 7

// viewWeight fills what the weight concern answers into v.
func viewWeight(v *BuildView, sh *sheet.Sheet, sys unit.System) {
	w := sh.Weight
	status, why := w.Status()
	v.Status, v.Why = status.String(), list(why)
	v.Title = viewTitle(w, sys)
	v.Axles = viewAxles(w, sys)
	v.Cases = viewCases(w, sys)
	v.Party = viewParty(w, sys)
	v.Added = viewAdded(w, sys)
	v.Clears = viewClears(sh, sys)
	v.Measure = viewNext(w)
	v.Assumed = viewAssumed(w, sys)
	v.Sources, v.Cautions = viewSources(w)
	v.Concerns = append(v.Concerns, viewConcern(w))
}

func list(s []string) []string {
	if s == nil {
		return []string{}
	}
	return s
}

func quantity(o unit.Opt[check.Figure], sys unit.System) *Quantity {
	f, ok := o.Get()
	if !ok {
		return nil
	}
	return &Quantity{SI: f.SI, Unit: f.Kind.SI(), Text: f.Text(sys)}
}

func viewTitle(w *check.Weight, sys unit.System) []Sentence {
	out := []Sentence{}
	for _, s := range w.Title(sys) {
		out = append(out, Sentence{Key: s.Key, Text: s.Text, Detail: s.Detail, Verdict: s.Verdict.String(), Slip: s.Slip})
	}
	return out
}

func viewSubject(s check.Subject) Subject {
	um := func(o unit.Opt[unit.Length]) *int64 {
		l, ok := o.Get()
		if !ok {
			return nil
		}
		n := l.Micrometres()
		return &n
	}
	return Subject{Path: s.Path, Name: s.Name, X: um(s.At[0]), Y: um(s.At[1]), Z: um(s.At[2])}
}

func viewSubjects(all []check.Subject) []Subject {
	out := make([]Subject, 0, len(all))
	for _, s := range all {
		out = append(out, viewSubject(s))
	}
	return out
}

func viewFinding(f *check.Finding, sys unit.System) FindingView {
	return FindingView{
		Key: f.Key(), Check: f.Check, Concern: f.Concern, Title: f.Title, Text: f.Says.Text(sys), Verdict: f.Verdict.String(), State: f.State, Case: f.Case,
		Value: quantity(f.Value, sys), Limit: quantity(f.Limit, sys), Margin: quantity(f.Margin, sys), Half: quantity(f.Half, sys),
		Basis: f.Basis, Evidence: f.EvidenceSays(), Rule: f.Rule, Subjects: viewSubjects(f.Subjects), Missing: viewSubjects(f.Missing),
		Advice: f.Advice, Caution: f.Caution, Slip: f.Slip, Moves: viewMoves(f.Moves), Advisory: f.Advisory,
	}
}

// axleNames names the readings under a case.
var axleNames = [...]struct{ id, name string }{{"front", "front axle"}, {"rear", "rear axle"}, {"total", "total"}, {"left", "left side"}, {"right", "right side"}}

// viewLines gives the readings of one case, with limits where there are any.
func viewLines(w *check.Weight, s axle.Split, deciding bool, sys unit.System) []AxleLine {
	p := w.In.Van.Plate
	values := [...]unit.Opt[unit.Mass]{s.Front, s.Rear, unit.Some(s.Total), s.Left, s.Right}
	limits := [...]derive.Val[unit.Mass]{p.Front, p.Rear, p.Total, {}, {}}
	out := make([]AxleLine, 0, len(axleNames))
	for i, n := range axleNames {
		l := AxleLine{ID: n.id, Name: n.name, Verdict: check.Unknown.String()}
		m, ok := values[i].Get()
		if ok {
			l.Value = quantity(unit.Some(check.Kg(m)), sys)
			l.Verdict = check.Holds.String()
		}
		if lim := limits[i]; lim.Known() {
			l.Limit = quantity(unit.Some(check.Kg(lim.V)), sys)
			if ok {
				margin := lim.V - m
				l.Margin, l.Share = quantity(unit.Some(check.Kg(margin)), sys), m.Per(lim.V).Share()
				half := unit.Mass(0)
				if d, ok := w.Doubts[n.id]; ok {
					half = d.Half
					if deciding {
						l.Half = quantity(unit.Some(check.Kg(half)), sys)
					}
				}
				l.Verdict = check.Judge(margin.Kilograms(), half.Kilograms()).String()
			}
		}
		if limits[i].Known() {
			l.Slip = "weight." + n.id
		}
		out = append(out, l)
	}
	return out
}

// viewAxles gives the readings under the drawing: each plated one in its own worst case, as its finding tells it; the sides in the
// case that leaves least.
func viewAxles(w *check.Weight, sys unit.System) AxleView {
	v := AxleView{Lines: []AxleLine{}}
	k := w.Deciding
	if k < 0 {
		for i := range w.Cases {
			if w.Cases[i].ID == "party" {
				k = i
			}
		}
	}
	if k < 0 {
		return v
	}
	v.Case, v.Known = "each axle in its own worst case", true
	v.Lines = viewLines(w, w.Cases[k].Split, false, sys)
	for i := range v.Lines {
		l := &v.Lines[i]
		l.Case = w.Cases[k].Name
		c, ok := w.Judged(l.ID)
		f, found := w.Plated(l.ID)
		if !ok || !found {
			continue
		}
		l.Case, l.Verdict, l.Slip = c.Name, f.Verdict.String(), f.Slip
		l.Value, l.Margin, l.Half, l.Share = quantity(unit.Some(check.Kg(c.Worst.Value)), sys), quantity(f.Margin, sys), quantity(f.Half, sys), 0
		if lim, ok := f.Limit.Get(); ok && lim.SI > 0 {
			l.Share = c.Worst.Value.Kilograms() / lim.SI
		}
	}
	return v
}

func viewCases(w *check.Weight, sys unit.System) []CaseView {
	out := make([]CaseView, 0, len(w.Cases))
	rank := map[string]int{"does-not-hold": 3, "tight": 2, "unknown": 1}
	for i, c := range w.Cases {
		v := CaseView{ID: c.ID, Name: c.Name, Says: c.Says.Text(sys), Lines: viewLines(w, c.Split, i == w.Deciding, sys), Deciding: i == w.Deciding,
			Slip: "case." + c.ID, Order: []string{}, Verdict: check.Holds.String()}
		if c.Basis != "" {
			v.Name += " · " + c.Basis
		}
		for _, l := range v.Lines {
			if l.Limit != nil && rank[l.Verdict] > rank[v.Verdict] {
				v.Verdict = l.Verdict
			}
		}
		if c.Worst != nil {
			for _, p := range c.Worst.Picks {
				if p.Mass > 0 {
					v.Order = append(v.Order, fmt.Sprintf("%s %s", check.Kg(p.Mass).Text(sys), p.Load.Name))
				}
			}
		}
		out = append(out, v)
	}
	return out
}

func viewParty(w *check.Weight, sys unit.System) []PartyRow {
	out := make([]PartyRow, 0, len(w.Party))
	for _, p := range w.Party {
		r := PartyRow{Who: p.Who, Fill: p.Fill, Ends: p.Ends, Verdict: check.Unknown.String()}
		if p.Known {
			r.Left = quantity(unit.Some(check.Kg(p.Left)), sys)
			r.Verdict = check.Judge(p.Left.Kilograms(), 0).String()
		}
		out = append(out, r)
	}
	return out
}

func viewAdded(w *check.Weight, sys unit.System) AddedView {
	v := AddedView{Points: []AddedPoint{}, Zones: []AddedZone{}}
	for _, p := range w.Added() {
		if p.Free {
			continue
		}
		v.Points = append(v.Points, AddedPoint{X: p.X.Micrometres(), Kg: p.Kg.Kilograms(), Text: check.Kg(p.Kg).Text(sys), Ends: p.Ends})
	}
	for _, z := range w.ZoneRooms() {
		row := AddedZone{Zone: z.Zone, Ends: z.Ends}
		if !z.Free {
			row.Kg = quantity(unit.Some(check.Kg(z.Kg)), sys)
		}
		v.Zones = append(v.Zones, row)
	}
	van := &w.In.Van
	for _, m := range [...]struct {
		x    derive.Val[unit.Length]
		text string
	}{{derive.Val[unit.Length]{}, "front axle"}, {van.Bulkhead, "bulkhead line"}, {van.Wheelbase, "rear axle"}, {van.RearDoor, "rear door line"}} {
		if m.x.Known() || m.text == "front axle" {
			v.Marks = append(v.Marks, AddedMark{X: m.x.V.Micrometres(), Text: m.text})
		}
	}
	v.Known = len(v.Points) > 0
	if !v.Known {
		v.Why = "what can still be added is not known while the plate, the ticket, a mass, a place or the luggage is missing"
	}
	return v
}

func viewClears(sh *sheet.Sheet, sys unit.System) []ClearView {
	out := []ClearView{}
	for _, m := range sh.Clears() {
		v := ClearView{Text: m.Words.Text(sys), Clears: m.Clears, Gain: *quantity(unit.Some(check.Kg(m.Gain)), sys), Reopens: list(m.Reopens), Subject: viewSubject(m.Subject), Finding: m.Finding.Key()}
		if m.Removal {
			v.Edits = []Edit{{Kind: "remove", Grid: "kit", Row: m.ID}}
		} else {
			v.Edits = []Edit{{Kind: "move", Row: m.ID, DX: m.By.Micrometres()}}
		}
		out = append(out, v)
	}
	return out
}

func viewNext(w *check.Weight) []MeasureNext {
	out := []MeasureNext{}
	for _, n := range w.MeasureNext() {
		m := MeasureNext{Text: n.Says, Subject: viewSubject(n.Subject)}
		if r, ok := n.Share.Get(); ok {
			m.Share = unit.FormatSI(unit.KindRatio, r.Share(), unit.Metric, 0)
		}
		out = append(out, m)
	}
	return out
}

func viewAssumed(w *check.Weight, sys unit.System) []AssumedView {
	out := []AssumedView{}
	for _, a := range w.In.Assumed {
		out = append(out, AssumedView{Text: a.Text(sys), From: a.From, Path: a.Path})
	}
	return out
}

// viewSources lists every publication the findings rest on, once for each place in it, and every caution once.
func viewSources(w *check.Weight) ([]SourceView, []string) {
	out, cautions := []SourceView{}, []string{}
	seen := map[calc.Cite]bool{}
	said := map[string]bool{}
	for _, f := range w.Findings {
		for i, c := range f.Sources {
			if seen[c] {
				continue
			}
			seen[c] = true
			p, ok := source.Find(c.Key)
			if !ok {
				continue
			}
			s := SourceView{Key: c.Key, Title: strings.TrimSpace(p.Name()), At: c.At}
			if i == 0 {
				s.Evidence = f.Level.Says()
			}
			out = append(out, s)
		}
		if f.Caution != "" && !said[f.Caution] {
			said[f.Caution] = true
			cautions = append(cautions, f.Caution)
		}
	}
	return out, cautions
}

func viewPapers(sh *sheet.Sheet) []PaperView {
	var out []PaperView
	for _, p := range sh.Papers() {
		out = append(out, PaperView{Name: p.Name, File: p.File, Status: p.Status.String(), Why: list(p.Why)})
	}
	return out
}

func viewConcern(w *check.Weight) ConcernView {
	v := ConcernView{ID: "weight", Name: "Weight", Verdict: check.NotBegun.String(), Text: "not begun"}
	if !w.Begun {
		return v
	}
	v.Verdict, v.Text = tally(w.Findings)
	return v
}

// viewSlip renders the working behind a figure.
func viewSlip(s check.Slip) Slip {
	v := Slip{Key: s.Key, Title: s.Title, Lines: []SlipLine{}, Tables: []SlipTable{}, Notes: []string{}}
	for _, work := range s.Workings {
		if work.Title != s.Title {
			v.Lines = append(v.Lines, SlipLine{Kind: "head", Says: work.Title})
		}
		for _, l := range calc.Lines(work) {
			v.Lines = append(v.Lines, SlipLine{Symbol: l.Symbol, Says: l.Says, Kind: l.Kind.String(), Formula: l.Formula, Numbers: l.Numbers, Result: l.Result, Source: cites(l.Cites, l.Level), Path: l.Ref})
		}
		if t, ok := viewLists(work); ok {
			v.Tables = append(v.Tables, t)
		}
		v.Notes = append(v.Notes, work.Notes...)
	}
	for _, c := range s.Certificates {
		v.Lines = append(v.Lines, SlipLine{Kind: "head", Says: c.Title}, SlipLine{Kind: "choice", Says: c.Method})
		t := SlipTable{Title: "The case chosen, in the order of filling", Heads: []string{"", "mass", "why"}, Rows: [][]string{}}
		for _, l := range c.Lines() {
			t.Rows = append(t.Rows, []string{l.Label, l.Show.Text(l.SI), l.Why})
		}
		v.Tables = append(v.Tables, t)
		for _, b := range c.Balances {
			v.Lines = append(v.Lines, SlipLine{Kind: "balance", Says: b.Says, Numbers: b.Show.Text(b.Left) + " = " + b.Show.Text(b.Right), Result: "off by " + b.Show.Text(b.Left-b.Right)})
		}
	}
	return v
}

// viewLists puts the list steps of a working side by side, one row a load.
func viewLists(work calc.Working) (SlipTable, bool) {
	t := SlipTable{Title: work.Title + ": row by row", Heads: []string{""}}
	var cols []calc.Step
	for _, s := range work.Steps {
		if s.Each != nil && (len(cols) == 0 || len(cols[0].Rows) == len(s.Each)) && s.Rows != nil {
			cols = append(cols, s)
			t.Heads = append(t.Heads, s.Symbol)
		}
	}
	if len(cols) == 0 {
		return t, false
	}
	for i, r := range cols[0].Rows {
		row := []string{r.Label}
		for _, c := range cols {
			row = append(row, c.Show.Text(c.Each[i]))
		}
		t.Rows = append(t.Rows, row)
	}
	return t, true
}

func cites(all []calc.Cite, level calc.Evidence) string {
	var parts []string
	for _, c := range all {
		p, ok := source.Find(c.Key)
		if !ok {
			continue
		}
		t := p.Name()
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
