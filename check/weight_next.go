package check

import (
	"fmt"

	"berthwright/derive"
	"berthwright/unit"
)

// Next is one thing to measure next, with what it would settle.
type Next struct {
	Says    string
	Share   unit.Opt[unit.Ratio]
	Subject Subject
}

// groupWords names the trades of items.
var groupWords = map[string]string{
	"body": "body and openings", "lining": "insulation and lining", "seats": "seats, bench and table", "kitchen": "kitchen", "overhead": "overhead lockers",
	"washroom": "washroom", "tall": "tall units", "bunks": "bunks and garage", "water": "water system", "gas": "gas system", "heating": "heating", "electric": "electrics",
	"safety": "safety and loose equipment", "loose": "loose equipment", "other": "remaining items",
}

// GroupWords returns what people call a group of items.
func GroupWords(id string) string {
	if t, ok := groupWords[id]; ok {
		return t
	}
	return id
}

// nextMost is how many doubts are told (design: the top five).
const nextMost = 5

// MeasureNext ranks what is missing, then what makes up most of the doubt about the tightest limit.
func (w *Weight) MeasureNext() []Next {
	var out []Next
	seen := map[string]bool{}
	add := func(n Next) {
		if len(out) < nextMost && !seen[n.Says] {
			seen[n.Says] = true
			out = append(out, n)
		}
	}
	if t := w.In.Ticket; t.How() == derive.Missing || t.How() == derive.Assumed {
		add(Next{Says: "weigh both axles of the empty van: every verdict rests on it", Subject: Subject{Path: "van/empty", Name: "empty van"}})
	}
	if !w.In.Luggage.Known() {
		add(Next{Says: "declare the luggage: payload is unknown without it", Subject: Subject{Path: w.In.Luggage.Path, Name: "luggage"}})
	}
	for _, l := range w.In.Lacks {
		add(Next{Says: "find the " + l.What, Subject: Subject{Path: l.Path, Name: l.What}})
	}
	tight, at := "", 0.0
	for _, f := range w.Findings {
		m, okm := f.Margin.Get()
		h, okh := f.Half.Get()
		id := map[string]string{"weight-total": "total", "axle-front": "front", "axle-rear": "rear"}[f.Check]
		if id == "" || !okm || !okh || h.SI == 0 {
			continue
		}
		if r := max(m.SI, -m.SI) / h.SI; tight == "" || r < at {
			tight, at = id, r
		}
	}
	d, ok := w.Doubts[tight]
	if !ok {
		return out
	}
	name := map[string]string{"total": "the total", "front": "the front axle", "rear": "the rear axle"}[tight]
	for _, r := range d.Relief() {
		share := fmt.Sprintf("%.0f %% of the doubt on %s", r.Share.Percent(), name)
		if r.Share < 0.02 {
			break
		}
		n := Next{Share: unit.Some(r.Share), Subject: Subject{Path: "items", Name: GroupWords(r.Group)}}
		switch r.Group {
		case "ticket-front", "ticket-rear":
			n.Subject = Subject{Path: "van/empty", Name: "empty ticket"}
			n.Says = "weigh the empty van again on a finer scale: " + share
		case derive.UnlistedID, "other":
			n.Says = "weigh the finished van, to replace the unlisted and remaining items: " + share
		default:
			n.Says = "weigh the " + GroupWords(r.Group) + ": " + share
		}
		add(n)
	}
	return out
}
