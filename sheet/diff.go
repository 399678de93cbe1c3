package sheet

import (
	"fmt"
	"strings"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/paper"
	"berthwright/unit"
)

// Diff is what changed from one build to another: the deciding figures, then each entry.
type Diff struct {
	Figures []DiffRow
	Entries []DiffRow
	Money   unit.Money // of priced items, after less before
	Hours   unit.Hours
}

// DiffRow is one line of a difference.
type DiffRow struct {
	Path, Name, Kind      string // added, removed, changed, same
	Before, After, Change string
	Verdict               check.Verdict
	Mass                  unit.Opt[unit.Mass] // change of mass, of an item
	Price                 unit.Opt[unit.Money]
}

// Compare tells what changed from a to b.
func Compare(a, b *Sheet) Diff {
	d := Diff{}
	d.figures(a, b)
	d.items(a, b)
	return d
}

func (d *Diff) figures(a, b *Sheet) {
	sys := b.System()
	mass := func(name string, x, y unit.Opt[unit.Mass], v check.Verdict) {
		row := DiffRow{Name: name, Kind: "same", Before: "unknown", After: "unknown", Verdict: v}
		m, okM := x.Get()
		n, okN := y.Get()
		if okM {
			row.Before = kg(m, sys)
		}
		if okN {
			row.After = kg(n, sys)
		}
		if okM && okN {
			row.Change = signed(n-m, sys)
			if row.Change != "±0" {
				row.Kind = "changed"
			}
		} else if okM != okN {
			row.Kind = "changed"
		}
		d.Figures = append(d.Figures, row)
	}
	left := func(s *Sheet) unit.Opt[unit.Mass] {
		if s.Weight.Left.Known {
			return unit.Some(s.Weight.Left.Left)
		}
		return unit.Opt[unit.Mass]{}
	}
	var none unit.Opt[unit.Mass]
	base := func(s *Sheet) (t, f, r unit.Opt[unit.Mass]) {
		if !s.Weight.Known {
			return none, none, none
		}
		return unit.Some(s.Weight.Base.Total), s.Weight.Base.Front, s.Weight.Base.Rear
	}
	at, af, ar := base(a)
	bt, bf, br := base(b)
	mass("finished van, dry", at, bt, check.NotBegun)
	mass("front axle, dry", af, bf, check.NotBegun)
	mass("rear axle, dry", ar, br, check.NotBegun)
	mass("left for luggage, everybody aboard, water full", left(a), left(b), check.NotBegun)
	for _, id := range []string{"weight-total", "axle-front", "axle-rear"} {
		x, _ := find(a, id)
		y, v := find(b, id)
		name := map[string]string{"weight-total": "total in hand, worst case", "axle-front": "front axle in hand, worst case", "axle-rear": "rear axle in hand, worst case"}[id]
		mass(name, x, y, v)
	}
	pa, ha := totals(a.Build)
	pb, hb := totals(b.Build)
	d.Money, d.Hours = pb-pa, unit.Hours(hb.Count()-ha.Count())
	cur := b.Build.Head.Currency
	d.Figures = append(d.Figures,
		DiffRow{Name: "priced parts, before tax", Kind: kindOf(pa == pb), Before: money(pa, cur), After: money(pb, cur), Change: signedMoney(pb-pa, cur), Verdict: check.NotBegun},
		DiffRow{Name: "fitting hours given", Kind: kindOf(ha == hb), Before: fmt.Sprintf("%.1f h", ha.Count()), After: fmt.Sprintf("%.1f h", hb.Count()), Change: fmt.Sprintf("%+.1f h", hb.Count()-ha.Count()), Verdict: check.NotBegun})
}

func kindOf(same bool) string {
	if same {
		return "same"
	}
	return "changed"
}

func find(s *Sheet, id string) (unit.Opt[unit.Mass], check.Verdict) {
	for _, f := range s.Weight.Findings {
		if f.Check == id {
			if m, ok := f.Margin.Get(); ok {
				return unit.Some(unit.Kilogram.Times(m.SI)), f.Verdict
			}
			return unit.Opt[unit.Mass]{}, f.Verdict
		}
	}
	return unit.Opt[unit.Mass]{}, check.Unknown
}

func signed(m unit.Mass, sys unit.System) string {
	t := check.Figure{Kind: unit.KindMass, SI: m.Kilograms(), Digits: 1}.Text(sys)
	switch {
	case m.Kilograms() > 0.05:
		return "+" + t
	case m.Kilograms() < -0.05:
		return t
	}
	return "±0"
}

// totals adds up prices and hours of what is fitted; what has none is left out.
func totals(b doc.Build) (unit.Money, unit.Hours) {
	var m unit.Money
	h := 0.0
	for i := range b.Items {
		it := &b.Items[i]
		if it.Removed.Else(false) || it.InTicket.Else(false) {
			continue
		}
		n := it.Count.Else(1)
		if p, ok := it.Price.Get(); ok {
			m += unit.Money(p.Coins() * int64(n))
		}
		if x, ok := it.Hours.Get(); ok {
			h += x.Count() * float64(n)
		}
	}
	return m, unit.Hours(h)
}

func money(m unit.Money, currency string) string {
	return strings.TrimSpace(fmt.Sprintf("%d.%02d %s", m.Coins()/100, m.Coins()%100, currency))
}

func signedMoney(m unit.Money, currency string) string {
	switch {
	case m > 0:
		return "+" + money(m, currency)
	case m < 0:
		return unit.Minus + money(-m, currency)
	}
	return "±0"
}

func (d *Diff) items(a, b *Sheet) {
	sys := b.System()
	before, after := a.Placed(derive.Travel), b.Placed(derive.Travel)
	old := map[string]*derive.Placed{}
	for i := range before {
		old[before[i].Item.ID] = &before[i]
	}
	massOf := func(p *derive.Placed) unit.Mass {
		m, _ := p.Item.Mass.Get()
		v := m.Value.Times(float64(p.Item.Count.Else(1)))
		if p.Item.Removed.Else(false) {
			v = -v
		}
		if p.Item.InTicket.Else(false) || p.Away {
			return 0
		}
		return v
	}
	words := func(s *Sheet, p *derive.Placed) string {
		place := PlaceWords(p, s.van, sys)
		if p.Centre[0].Known() && !p.Stretch && !(p.Item.Zone != "" && p.At[0].How == derive.Assumed) {
			place = "mass centre " + place // not an edge: what the fixing map gives from a line is to the edge
		}
		return kg1(massOf(p), sys) + ", " + place
	}
	// in another base van everything stands elsewhere behind the front axle: there a place counts as said
	moved := func(p, q *derive.Placed) bool {
		return p.Centre != q.Centre && (a.van.Bulkhead.V == b.van.Bulkhead.V || words(a, q) != words(b, p))
	}
	seen := map[string]bool{}
	for i := range after {
		p := &after[i]
		seen[p.Item.ID] = true
		q, was := old[p.Item.ID]
		switch {
		case !was:
			d.Entries = append(d.Entries, DiffRow{Path: p.Path, Name: p.Name(), Kind: "added", After: words(b, p), Change: signed(massOf(p), sys), Mass: unit.Some(massOf(p)), Price: priceOf(p, 1)})
		case massOf(p) != massOf(q) || moved(p, q) || p.Size != q.Size || p.Turn != q.Turn || p.Name() != q.Name() || p.Item.Price != q.Item.Price:
			before, after := words(a, q), words(b, p)
			if p.Centre == q.Centre && massOf(p) != massOf(q) { // where it stays needs no words
				before, after = kg1(massOf(q), sys), kg1(massOf(p), sys)
			}
			row := DiffRow{Path: p.Path, Name: p.Name(), Kind: "changed", Before: before, After: after, Change: signed(massOf(p)-massOf(q), sys), Mass: unit.Some(massOf(p) - massOf(q))}
			d.Entries = append(d.Entries, row)
		}
	}
	for i := range before {
		p := &before[i]
		if !seen[p.Item.ID] {
			d.Entries = append(d.Entries, DiffRow{Path: p.Path, Name: p.Name(), Kind: "removed", Before: words(a, p), Change: signed(-massOf(p), sys), Mass: unit.Some(-massOf(p)), Price: priceOf(p, -1)})
		}
	}
}

func priceOf(p *derive.Placed, sign int64) unit.Opt[unit.Money] {
	if m, ok := p.Item.Price.Get(); ok {
		return unit.Some(unit.Money(sign * m.Coins() * int64(p.Item.Count.Else(1))))
	}
	return unit.Opt[unit.Money]{}
}

func kg1(m unit.Mass, sys unit.System) string {
	return check.Figure{Kind: unit.KindMass, SI: m.Kilograms(), Digits: 1}.Text(sys)
}

// ChangeSlip sets half a page for signature: what changes from a to b.
func ChangeSlip(a, b *Sheet, i Issue, title string) ([]byte, error) {
	d := Compare(a, b)
	sys := b.System()
	c := paper.Change{Head: b.head(i), What: title}
	for _, t := range b.Weight.Title(sys) {
		c.Deciding = append(c.Deciding, paper.Sentence{Text: t.Text, Verdict: verdict(t.Verdict)})
	}
	for _, e := range d.Entries {
		line := paper.ChangeLine{What: e.Name, From: e.Before, To: e.After, Mass: strings.TrimSuffix(e.Change, unit.Space+"kg")}
		if e.Kind == "added" {
			line.From = "new"
		}
		if e.Kind == "removed" {
			line.To = "taken out"
		}
		if p, ok := e.Price.Get(); ok {
			line.Price = signedMoney(p, "")
		}
		c.Lines = append(c.Lines, line)
	}
	for _, f := range d.Figures {
		if f.Kind == "same" {
			continue
		}
		c.Compare = append(c.Compare, paper.CompareRow{What: f.Name, Before: f.Before, After: f.After, Difference: f.Change, Verdict: verdict(f.Verdict), Judged: f.Verdict != check.NotBegun})
	}
	if d.Money != 0 {
		c.Price = signedMoney(d.Money, b.Build.Head.Currency) + " before tax, of the parts that carry a price"
	}
	held := map[string]bool{}
	for _, f := range a.Weight.Findings {
		held[f.Check+f.Subject] = f.Verdict == check.Holds || f.Verdict == check.Tight
	}
	for _, f := range b.Weight.Findings {
		if f.Verdict == check.DoesNotHold && held[f.Check+f.Subject] {
			c.Reopens = append(c.Reopens, f.Says.Text(sys))
		}
	}
	c.Cautions = []string{"As computed here: weigh the laden van; local codes and licensed examiners decide."}
	c.Sign = []paper.Signature{{Role: "for the workshop"}, {Role: "customer", Name: b.Build.Head.Customer}}
	return paper.ChangeSlip(c)
}
