package paper

import (
	"slices"
	"strconv"

	"berthwright/drawing"
	"berthwright/drawing/fonts"
)

// Statement is what a mass statement says. Every text and figure is ready to print; masses without
// their unit where the column names it (Head.MassUnit).
type Statement struct {
	Head
	State    string     // "travel"
	Verdict  Sentence   // the first sentence: does it hold, in which case
	Deciding []Sentence // at most four
	Basis    []Pair     // plate, ticket, datum, rules with edition: what it rests on
	Plan     Figure     // plan and elevation at a true scale, at most FigureWidth by FigureHeight
	Side     Figure
	Cases    []CaseRow
	Limits   []LimitRow
	Findings []Finding
	Room     []RoomRow // what can still be added, by place
	Groups   []GroupRow
	Items    []ItemRow
	Spreads  []Pair // how sure: what makes up the ±
	Assumed  []Assumption
	Cautions []string
	Sources  []Source
	Slips    []Slip
	Sign     []Signature
}

// Figure is a scene with its caption; a scene without primitives is left out.
type Figure struct {
	Scene   drawing.Scene
	Caption string
}

// CaseRow is one load case.
type CaseRow struct {
	Name, People, Fills              string
	Front, Rear, Total               string
	MarginFront, MarginRear, Margins string // in hand on each axle and in all; "" where there is none
	Verdict                          Verdict
	Judged                           bool // false: a case that is not compared with limits
	Deciding                         bool
}

// LimitRow compares the worst case of one limit.
type LimitRow struct {
	What, Case, Load, Limit, Margin, Spread, From string
	Verdict                                       Verdict
}

// Finding is one finding in words.
type Finding struct {
	Verdict                 Verdict
	Text                    string
	Basis, Evidence, Advice string
}

// RoomRow is what can still be added at a place.
type RoomRow struct{ Place, Mass, Reached string }

// GroupRow is the mass of one trade.
type GroupRow struct{ Name, Fitted, Removed, Front, Rear string }

// ItemRow is one item of the annex.
type ItemRow struct {
	Number                     int
	Name, Group                string
	Mass, Spread, Known, Place string
	Removed                    bool
}

// MassStatement sets s as a PDF.
func MassStatement(s Statement) ([]byte, error) {
	return s.lay().finish("Masses, axle loads and margins")
}

func (s Statement) lay() *kit {
	k := newKit(portrait, s.Head, "Mass statement")
	k.titleBlock(join(", ", s.State))
	if s.Verdict.Text != "" {
		k.sentences([]Sentence{s.Verdict})
		k.rule(drawing.Rule, k.x0(), k.x1(), k.y)
		k.y += 3
	}
	k.sentences(s.Deciding)
	k.section("Limits, each at its worst case", len(s.Limits) > 0, func() { k.limits(s.Limits) })
	k.cautions(s.Cautions)
	k.section("Findings", len(s.Findings) > 0, func() { k.findings(s.Findings) })
	k.section("Load cases", len(s.Cases) > 0, func() { k.cases(s.Cases) })
	k.section("What this rests on", len(s.Basis) > 0, func() { k.pairs(s.Basis, 42) })
	for _, f := range []Figure{s.Plan, s.Side} { // each waits for the end of the page that is being written
		if len(f.Scene.Prims) > 0 {
			k.wait = append(k.wait, func() {
				k.heading(0, "The van as drawn: "+f.Scene.View, 0)
				k.figure(f.Scene, f.Caption)
			})
		}
	}
	k.section("What can still be added, by place", len(s.Room) > 0, func() {
		t := table{cols: []column{{title: "place"}, {title: k.in("at most"), width: 26, align: right}, {title: "what is reached first", width: 90}}}
		for _, r := range s.Room {
			t.rows = append(t.rows, row{cells: cells(r.Place, r.Mass, r.Reached)})
		}
		k.table(t)
	})
	k.section("Mass by group", len(s.Groups) > 0, func() {
		t := table{cols: []column{{title: "group"}, {title: k.in("fitted"), width: 26, align: decimal}, {title: k.in("taken out"), width: 26, align: decimal},
			{title: k.in("to the front axle"), width: 32, align: decimal}, {title: k.in("to the rear axle"), width: 32, align: decimal}}}
		for i, g := range s.Groups {
			t.rows = append(t.rows, row{cells: cells(g.Name, g.Fitted, g.Removed, g.Front, g.Rear), total: i+1 == len(s.Groups)})
		}
		k.table(t)
	})
	k.section("How sure", len(s.Spreads) > 0, func() { k.pairs(s.Spreads, 60) })
	k.section("Assumed", len(s.Assumed) > 0, func() { k.assumptions(s.Assumed) })
	k.section("Signed", len(s.Sign) > 0, func() { k.signatures(s.Sign) })
	k.section("Working", len(s.Slips) > 0, func() {
		for _, sl := range s.Slips {
			k.slip(sl)
		}
	})
	k.section("Sources", len(s.Sources) > 0, func() { k.sources(s.Sources) })
	k.section("Annex: items", len(s.Items) > 0, func() { k.items(s.Items) })
	return k
}

func (k *kit) section(name string, any bool, set func()) {
	if any {
		k.heading(0, name, 0)
		set()
	}
}

// titleBlock opens the first page.
func (k *kit) titleBlock(sub string) {
	st := style{sizeTitle, fonts.Bold, drawing.Heading}
	g := k.put(drawing.Prim{ID: "title", Kind: drawing.Group, Role: drawing.Heading, Title: k.title})
	k.textIn(g, k.x0(), k.y+sizeTitle*0.8, drawing.Start, st, k.title)
	k.text(k.x1(), k.y+sizeTitle*0.8, drawing.End, style{sizeBig, fonts.Regular, drawing.Cell}, k.head.Build)
	k.y += sizeTitle * 1.1
	k.text(k.x0(), k.y+sizeBody, drawing.Start, style{sizeBody, fonts.Regular, drawing.Note}, join(" · ", label("for ", k.head.Customer), label("state: ", sub)))
	k.text(k.x1(), k.y+sizeBody, drawing.End, style{sizeBody, fonts.Regular, drawing.Note}, join(" · ", k.head.Date, label("revision ", k.head.Revision)))
	k.y += sizeBody + 3
	k.rule(drawing.Datum, k.x0(), k.x1(), k.y)
	k.y += 5
}

func (k *kit) limits(ls []LimitRow) {
	t := table{cols: []column{{title: "limit"}, {title: k.in("load"), width: 19, align: right}, {title: k.in("limit"), width: 19, align: right},
		{title: k.in("in hand"), width: 19, align: decimal}, {title: k.in("±"), width: 15, align: decimal}, {title: "as computed here", width: 32}}}
	for _, l := range ls {
		c := cells(l.What, l.Load, l.Limit, l.Margin, l.Spread)
		c[0].sub = join("; ", l.Case, l.From)
		c[3].strong = true
		c = append(c, verdictCell(l.Verdict))
		t.rows = append(t.rows, row{cells: c})
	}
	k.table(t)
}

func (k *kit) cases(cs []CaseRow) {
	const n = 14.5
	t := table{cols: []column{{title: "case"}, {title: "front", group: k.in("load"), width: n, align: right}, {title: "rear", group: k.in("load"), width: n, align: right},
		{title: "total", group: k.in("load"), width: n, align: right}, {title: "front", group: k.in("in hand"), width: n, align: right},
		{title: "rear", group: k.in("in hand"), width: n, align: right}, {title: "total", group: k.in("in hand"), width: n, align: right}, {title: "", width: 27}}}
	for _, c := range cs {
		r := cells(c.Name, c.Front, c.Rear, c.Total, c.MarginFront, c.MarginRear, c.Margins)
		r[0].sub = join("; ", c.People, c.Fills)
		if c.Judged {
			r = append(r, verdictCell(c.Verdict))
		}
		if c.Deciding {
			for i := range r {
				r[i].strong = true
			}
		}
		t.rows = append(t.rows, row{cells: r})
	}
	k.table(t)
}

func (k *kit) findings(fs []Finding) {
	for _, f := range fs {
		k.findingBlock(f)
	}
}

func (k *kit) findingBlock(f Finding) {
	const in = 7.0
	w := k.width() - in
	sub := join(" · ", f.Basis, f.Evidence)
	ls, subs, adv := k.wrap(strong, w, f.Text), k.wrap(note, w, sub), k.wrap(body, w, f.Advice)
	h := float64(len(ls)+len(adv))*sizeBody*lead + float64(len(subs))*sizeNote*lead + 2.4
	k.need(h)
	k.mark(f.Verdict, k.x0()+1.6, k.y+sizeBody*0.66, 1.15)
	for _, l := range ls {
		s := strong
		if f.Verdict == DoesNotHold {
			s.role = drawing.Strong
		}
		k.text(k.x0()+in, k.y+sizeBody*0.95, drawing.Start, s, l)
		k.y += sizeBody * lead
	}
	for _, l := range adv {
		k.text(k.x0()+in, k.y+sizeBody*0.95, drawing.Start, body, l)
		k.y += sizeBody * lead
	}
	for _, l := range subs {
		k.text(k.x0()+in, k.y+sizeNote*0.95, drawing.Start, note, l)
		k.y += sizeNote * lead
	}
	k.y += 2.4
}

func (k *kit) items(is []ItemRow) {
	t := table{size: 2.9, tight: true, cols: []column{{title: "no.", width: 9, align: right}, {title: "what"}, {title: k.in(""), width: 13, align: decimal},
		{title: k.in("±"), width: 12, align: decimal}, {title: "how known", width: 19}, {title: "where", width: 64}}}
	is = slices.Clone(is)
	first := map[string]int{}
	for i, it := range is {
		if _, ok := first[it.Group]; !ok {
			first[it.Group] = i
		}
	}
	slices.SortStableFunc(is, func(a, b ItemRow) int { return first[a.Group] - first[b.Group] })
	last := ""
	for _, it := range is {
		if it.Group != last {
			last = it.Group
			t.rows = append(t.rows, row{cells: []cell{{text: last}}, group: true})
		}
		name := it.Name
		if it.Removed {
			name += " (taken out)"
		}
		no := ""
		if it.Number > 0 {
			no = strconv.Itoa(it.Number)
		}
		t.rows = append(t.rows, row{cells: cells(no, name, it.Mass, it.Spread, it.Known, it.Place)})
	}
	k.table(t)
}
