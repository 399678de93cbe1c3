package check

import (
	"berthwright/axle"
	"berthwright/calc"
	"berthwright/doc"
	"berthwright/unit"
)

// licenceRule maps a licence class of the build file to its rule.
var licenceRule = map[string]string{"b": "licence-b", "b-alternative": "licence-b-alternative", "c1": "licence-c1"}

// runLicence compares the plated total with each driver's licence class.
func runLicence(w *Weight, _ *cases) []Finding {
	var out []Finding
	for i := range w.In.People {
		p := &w.In.People[i]
		if p.Licence == "" {
			continue
		}
		f := Finding{Case: "plate", Subject: p.ID, Rule: licenceRule[p.Licence], Subjects: []Subject{{Path: p.Path, Name: p.Name}},
			Caution: "licence law changes and has exceptions: ask the licensing authority"}
		rule := w.Pack.Stricter(f.Rule, "total")
		plate := w.In.Van.Plate.Total
		if !rule.Known || !plate.Known() {
			f.Missing = []Subject{{Path: plate.Path, Name: "plated total, or the rule for this class"}}
			f.Says = say("limit-unknown", "driving licence of "+p.Name, missingWords(f.Missing))
			out = append(out, f)
			continue
		}
		f.Level, f.Sources = rule.Rule.Level, []calc.Cite{rule.Rule.Cite, byPlate}
		lim := unit.Mass(rule.Value.SI)
		m := lim - plate.V
		f.Value, f.Limit, f.Margin = unit.Some(Kg(plate.V)), unit.Some(Kg(lim)), unit.Some(Kg(m))
		f.Verdict = Judge(m.Kilograms(), 0)
		code := "licence-holds"
		if f.Verdict == DoesNotHold {
			code = "licence-fails"
		}
		f.Says = say(code, Kg(plate.V), p.Licence, Kg(lim))
		out = append(out, f)
	}
	return out
}

// runUnladen says whether the unladen mass keeps the speed limits of a car.
func runUnladen(w *Weight, _ *cases) []Finding {
	rule := w.Pack.Stricter("unladen-speed", "unladen")
	if !rule.Known || !w.Known {
		return nil
	}
	lim := unit.Mass(rule.Value.SI)
	f := Finding{Case: "dry", Rule: "unladen-speed", Level: rule.Rule.Level, Sources: []calc.Cite{rule.Rule.Cite, byStatics}, Slip: "weight.base"}
	if w.noMass() {
		f.Missing = w.lacks()
		f.Says = say("limit-unknown", "unladen mass", missingWords(f.Missing))
		return one(f)
	}
	v := w.Base.Total
	half := unit.Mass(0)
	if d, err := axle.Spread(w.Base.Loads(), w.shared, axle.Total(), 0); err == nil {
		half = d.Half
	}
	m := lim - v
	f.Value, f.Limit, f.Margin, f.Half = unit.Some(Kg(v)), unit.Some(Kg(lim)), unit.Some(Kg(m)), unit.Some(Kg(half))
	if f.Verdict = Judge(m.Kilograms(), half.Kilograms()); f.Verdict == DoesNotHold {
		f.Says = say("speed-fails", Kg(v), Kg(lim))
	} else {
		f.Says = say("speed-holds", Kg(v), Kg(lim))
	}
	return one(f)
}

func plain(n int) Figure { return Figure{SI: float64(n)} }

// runBelts counts belted seats that may be used against the party.
func runBelts(w *Weight, _ *cases) []Finding {
	if len(w.In.People) == 0 {
		return nil
	}
	f := Finding{Case: "party", Rule: "belted-seats", Level: calc.Seen,
		Caution: "a belt counts only with the tested evidence for this floor and this place; an examiner decides"}
	n := 0
	for i := range w.In.Seats {
		s := &w.In.Seats[i]
		belt, said := s.Belted.Get()
		if !said && s.Planned {
			f.Missing = append(f.Missing, Subject{Path: s.Path + "/belted", Name: "whether " + s.Name + " has a belt"})
		}
		if belt && s.Faces != "sideways" && (s.Planned || s.Driver) {
			n++
		}
	}
	m := n - len(w.In.People)
	f.Value, f.Limit, f.Margin = unit.Some(plain(n)), unit.Some(plain(len(w.In.People))), unit.Some(plain(m))
	code := "belts-hold"
	switch {
	case m >= 0:
		f.Verdict = Holds
	case len(f.Missing) > 0:
		f.Says = say("limit-unknown", "belted seats", missingWords(f.Missing))
		return one(f)
	default:
		f.Verdict, code = DoesNotHold, "belts-fail"
	}
	f.Says = say(code, plain(n), plain(len(w.In.People)))
	return one(f)
}

// runSeating checks where each of the party travels.
func runSeating(w *Weight, _ *cases) []Finding {
	var out []Finding
	taken := map[int]string{}
	for i := range w.In.People {
		p := &w.In.People[i]
		f := Finding{Case: "party", Subject: p.ID, Rule: "seating", Level: calc.Seen, Subjects: []Subject{{Path: p.Path, Name: p.Name}},
			Caution: "side-facing places are never counted as belted seats here; seats and belts need the tested evidence for this floor"}
		if p.Seat < 0 {
			f.Missing = []Subject{{Path: p.Path + "/seat", Name: "the seat of " + p.Name}}
			f.Says = say("seat-none", p.Name)
			if p.SeatID != "" {
				f.Says = say("seat-unknown-id", p.Name, p.SeatID)
			}
			out = append(out, f)
			continue
		}
		s := &w.In.Seats[p.Seat]
		f.Subjects = append(f.Subjects, Subject{Path: s.Path, Name: s.Name, At: [3]unit.Opt[unit.Length]{s.At.X, s.At.Y}})
		belt, said := s.Belted.Get()
		other, twice := taken[p.Seat]
		switch {
		case twice:
			f.Verdict, f.Says = DoesNotHold, say("seat-twice", other, p.Name)
		case s.Faces == "sideways":
			f.Verdict, f.Says = DoesNotHold, say("seat-side", p.Name, s.Name)
		case !said:
			f.Missing, f.Says = []Subject{{Path: s.Path + "/belted", Name: "whether " + s.Name + " has a belt"}}, say("seat-belt-open", p.Name, s.Name)
		case !belt:
			f.Verdict, f.Says = DoesNotHold, say("seat-unbelted", p.Name, s.Name)
		case !s.Planned && !s.Driver:
			f.Verdict, f.Says = DoesNotHold, say("seat-unplanned", p.Name, s.Name)
		default:
			taken[p.Seat] = p.Name
			continue
		}
		taken[p.Seat] = p.Name
		out = append(out, f)
	}
	return out
}

// runPromises holds what was said to the customer against what is computed. Berths belong to the fit concern.
func runPromises(w *Weight, c *cases) []Finding {
	var out []Finding
	for i := range w.In.Promises {
		p := &w.In.Promises[i]
		f := Finding{Case: "party", Subject: p.ID, Rule: "promise", Level: calc.Seen, Subjects: []Subject{{Path: "job/promises/" + p.ID, Name: p.Words}}}
		words := p.Words
		if words == "" {
			words = p.What
		}
		switch p.What {
		case "payload-left":
			f = w.promisedPayload(f, p, words, c)
		case "belts":
			f = w.promisedBelts(f, p, words)
		case "plated-within":
			f = w.promisedPlate(f, p, words)
		default:
			continue
		}
		out = append(out, f)
	}
	return out
}

func (w *Weight) promisedPayload(f Finding, p *doc.Promise, words string, c *cases) Finding {
	least, ok := p.Least.Get()
	left := w.leftWithAll(c)
	if !ok || !left.Known || len(w.openLoads("rear")) > 0 {
		f.Missing = append(w.lacks(), Subject{Path: "loading", Name: "payload left"})
		f.Says = say("promise-unknown", words)
		return f
	}
	half := w.Doubts["total"].Half
	if d, ok := w.Doubts[map[string]string{"total": "total", "front axle": "front", "rear axle": "rear"}[left.Ends]]; ok {
		half = d.Half
	}
	m := left.Left - least
	f.Value, f.Limit, f.Margin, f.Half = unit.Some(Kg(left.Left)), unit.Some(Kg(least)), unit.Some(Kg(m)), unit.Some(Kg(half))
	code := "promise-holds"
	if f.Verdict = Judge(m.Kilograms(), half.Kilograms()); f.Verdict == DoesNotHold {
		code = "promise-fails"
	}
	f.Says = say(code, words, Kg(left.Left).Text(unit.Metric)+" left for luggage, the "+left.Ends+" ends it")
	return f
}

func (w *Weight) promisedBelts(f Finding, p *doc.Promise, words string) Finding {
	want, ok := p.Count.Get()
	if !ok {
		f.Missing = []Subject{{Path: "job/promises/" + p.ID + "/count", Name: "the number promised"}}
		f.Says = say("promise-unknown", words)
		return f
	}
	n := 0
	for i := range w.In.Seats {
		s := &w.In.Seats[i]
		if s.Belted.Else(false) && s.Faces != "sideways" && (s.Planned || s.Driver) {
			n++
		}
	}
	f.Value, f.Limit, f.Margin = unit.Some(plain(n)), unit.Some(plain(want)), unit.Some(plain(n-want))
	f.Verdict = Judge(float64(n-want), 0)
	code := "promise-holds"
	if f.Verdict == DoesNotHold {
		code = "promise-fails"
	}
	f.Caution = "a belt counts only with the tested evidence for this floor and this place"
	f.Says = say(code, words, count(n, "belted seat", "belted seats")+" in the plan")
	return f
}

func (w *Weight) promisedPlate(f Finding, p *doc.Promise, words string) Finding {
	lim, ok := p.Least.Get()
	plate := w.In.Van.Plate.Total
	if !ok || !plate.Known() {
		f.Missing = []Subject{{Path: plate.Path, Name: "plated total"}}
		f.Says = say("promise-unknown", words)
		return f
	}
	m := lim - plate.V
	f.Value, f.Limit, f.Margin = unit.Some(Kg(plate.V)), unit.Some(Kg(lim)), unit.Some(Kg(m))
	code := "promise-holds"
	if f.Verdict = Judge(m.Kilograms(), 0); f.Verdict == DoesNotHold {
		code = "promise-fails"
	}
	f.Says = say(code, words, "plated "+Kg(plate.V).Text(unit.Metric))
	return f
}
