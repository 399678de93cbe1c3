package sheet

import (
	"fmt"
	"strings"

	"berthwright/axle"
	"berthwright/derive"
	"berthwright/paper"
	"berthwright/unit"
)

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
