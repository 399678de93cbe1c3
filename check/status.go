package check

import "berthwright/derive"

// Status is how far a paper may be relied on. The zero Status is ForTalk.
type Status uint8

// The statuses of a paper.
const (
	ForTalk Status = iota
	ForQuotation
	ForBuilding
)

// String returns the words printed on a paper.
func (s Status) String() string {
	return [...]string{"for talk", "for quotation", "for building"}[s]
}

// Status returns how far the papers of the weight concern may be relied on, and what keeps them from going further.
func (w *Weight) Status() (Status, []string) {
	var talk, quote []string
	for _, s := range w.lacks() {
		talk = append(talk, s.Name+" is missing")
	}
	if w.Begun && w.open() && !w.In.Luggage.Known() {
		talk = append(talk, "no luggage is declared")
	}
	if p := w.In.Van.Plate; p.Total.How != derive.Given || p.Front.How != derive.Given || p.Rear.How != derive.Given {
		talk = append(talk, "the plate is not entered")
	}
	if !w.Begun {
		talk = []string{"weight is not begun"}
	}
	if t := w.In.Ticket; t.How() != derive.Given || t.From != "weighing" {
		quote = append(quote, "the empty van is not weighed")
	}
	for _, l := range w.In.Loads {
		if l.Allowance && l.Mass > 0 {
			quote = append(quote, "allowances stand in for items")
			break
		}
	}
	for _, v := range []derive.Val[int64]{
		how(w.In.Van.Wheelbase), how(w.In.Van.Bulkhead), how(w.In.Van.RearDoor),
	} {
		if v.How == derive.Assumed {
			quote = append(quote, "a line of the van is assumed, not measured")
			break
		}
	}
	switch {
	case len(talk) > 0:
		return ForTalk, talk
	case len(quote) > 0:
		return ForQuotation, quote
	}
	return ForBuilding, nil
}

func how[T ~int64](v derive.Val[T]) derive.Val[int64] { return derive.Val[int64]{How: v.How} }
