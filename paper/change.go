package paper

import (
	"berthwright/drawing"
	"berthwright/drawing/fonts"
)

// Change is a change slip: what a change does, to be signed before the work goes on.
type Change struct {
	Head
	Number   string // "7"
	What     string // "battery 1.2 m forward, awning added"
	Asked    string // who asked for it, and when
	Deciding []Sentence
	Lines    []ChangeLine
	Compare  []CompareRow
	Price    string // "+ 1 240.00 GBP before tax"; empty: nothing said
	Delay    string // "two days later"; empty: nothing said
	Reopens  []string
	Cautions []string
	Sign     []Signature
}

// ChangeLine is one thing that changes.
type ChangeLine struct{ What, From, To, Mass, Price string }

// CompareRow is a figure before and after.
type CompareRow struct {
	What, Before, After, Difference string
	Verdict                         Verdict // after
	Judged                          bool
}

// ChangeSlip sets c on half a page (A5 across), more when it is long.
func ChangeSlip(c Change) ([]byte, error) {
	return c.lay().finish("A change for signature")
}

func (c Change) lay() *kit {
	k := newKit(halfSheet, c.Head, join(" ", "Change", c.Number))
	st := style{sizeBig, fonts.Bold, drawing.Heading}
	g := k.put(drawing.Prim{ID: "title", Kind: drawing.Group, Role: drawing.Heading, Title: k.title})
	k.y -= 1
	k.textIn(g, k.x0(), k.y+sizeBig*0.8, drawing.Start, st, k.title)
	k.text(k.x1(), k.y+sizeBig*0.8, drawing.End, style{sizeHead1, fonts.Regular, drawing.Cell}, c.Build)
	k.y += sizeBig * 1.15
	k.lines(k.x0(), k.width(), strong, c.What)
	k.lines(k.x0(), k.width(), note, label("asked by ", c.Asked)) // the customer is named where he signs
	k.y += 1.5
	k.sentences(c.Deciding)
	if len(c.Lines) > 0 {
		t := table{size: 3.0, tight: true, cols: []column{{title: "what changes"}, {title: "from", width: 48}, {title: "to", width: 48},
			{title: k.in(""), width: 16, align: decimal}, {title: "price", width: 20, align: right}}}
		for _, l := range c.Lines {
			t.rows = append(t.rows, row{cells: cells(l.What, l.From, l.To, l.Mass, l.Price)})
		}
		k.table(t)
	}
	if len(c.Compare) > 0 {
		t := table{size: 3.0, tight: true, cols: []column{{title: "figure"}, {title: "before", width: 27, align: right}, {title: "after", width: 27, align: right},
			{title: "difference", width: 27, align: right}, {title: "after, as computed here", width: 36}}}
		for _, l := range c.Compare {
			r := cells(l.What, l.Before, l.After, l.Difference)
			r[2].strong = true
			if l.Judged {
				r = append(r, verdictCell(l.Verdict))
			}
			t.rows = append(t.rows, row{cells: r})
		}
		k.table(t)
	}
	k.lines(k.x0(), k.width(), strong, join(" · ", label("price: ", c.Price), label("time: ", c.Delay)))
	for _, r := range c.Reopens {
		k.lines(k.x0(), k.width(), note, "opens again: "+r)
	}
	k.cautions(c.Cautions)
	k.signatures(c.Sign)
	return k
}
