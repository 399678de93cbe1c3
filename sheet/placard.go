package sheet

import (
	"fmt"
	"strings"

	"berthwright/axle"
	"berthwright/check"
	"berthwright/derive"
	"berthwright/paper"
	"berthwright/unit"
)

// Placard sets the loading placard as a PDF.
func (s *Sheet) Placard(i Issue) ([]byte, error) { return paper.Placard(s.loadingPlacard(i)) }

func (s *Sheet) loadingPlacard(i Issue) paper.LoadingPlacard {
	w, sys := s.Weight, s.System()
	p := paper.LoadingPlacard{Head: s.head(i)}
	for _, z := range w.In.Zones {
		row := paper.PlacardZone{Where: z.Name, Limit: "not declared"}
		if z.Limit.Known() {
			row.Limit = atMost(z.Limit.V, sys)
		}
		p.Zones = append(p.Zones, row)
	}
	for _, k := range w.In.Carried {
		row := paper.PlacardZone{Where: k.Name, Limit: fmt.Sprintf("up to %d", k.UpTo), Apart: true}
		if k.Each.Known() {
			row.Limit = fmt.Sprintf("%d × %s", k.UpTo, atMost(k.Each.V, sys))
		}
		if k.On == axle.Roof {
			row.Note = "on the roof"
		}
		p.Zones = append(p.Zones, row)
	}
	if w.In.Luggage.Known() {
		p.Together = atMost(w.In.Luggage.V, sys)
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
			p.Totals = append(p.Totals, paper.Pair{Name: t.name, Value: atMost(t.v.V, sys)})
		}
	}
	if w.In.Roof.Known() {
		p.Totals = append(p.Totals, paper.Pair{Name: "on the roof", Value: atMost(w.In.Roof.V, sys)})
	}
	if why := s.placardLacks(); len(why) > 0 {
		p.Warning, p.Status = "Not for use: "+strings.Join(why, "; "), check.ForTalk.String()
	} else if s.overall().Verdict == paper.DoesNotHold {
		p.Warning = "Do not load to this plan: it does not hold the plate"
	}
	p.Basis = "Worst case of this plan: " + s.decidingName() + ". " + s.overall().Text
	return p
}

// atMost prints a limit, rounded down.
func atMost(m unit.Mass, sys unit.System) string { return unit.FormatAtMost(m, sys, 0) }

// placardLacks says what is missing for a placard that may hang in a van, three at most.
func (s *Sheet) placardLacks() []string {
	status, why := s.Weight.Status()
	if status != check.ForTalk {
		why = nil
	}
	limits := 0
	for _, z := range s.Weight.In.Zones {
		if !z.Limit.Known() {
			limits++
		}
	}
	if limits > 0 {
		why = append(why, fmt.Sprintf("%d of %d places for luggage have no limit", limits, len(s.Weight.In.Zones)))
	}
	if len(why) == 0 && s.overall().Verdict == paper.Unknown {
		why = []string{"whether the plan holds the plate is not known yet"}
	}
	if n := len(why); n > 3 {
		why = append(why[:2:2], fmt.Sprintf("and %d more", n-2))
	}
	return why
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
			out = append(out, fmt.Sprintf("Drive with the %s at most %s %% full.", strings.ToLower(t.Name), unit.NumberAtMost(t.Driving.Percent(), 0)))
		}
	}
	if over, ok := w.Overload.Get(); ok && over > 0 {
		out = append(out, fmt.Sprintf("With everything full the van can be overloaded by %s: keep to the limits beside.", kg(over, sys)))
	}
	return append(out, "Weigh the laden van. The driver answers for the load.")
}
