package check

import (
	"slices"

	"berthwright/axle"
	"berthwright/calc"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/rules"
	"berthwright/unit"
)

// licenceRule maps a licence class of the build file to its rule.
var licenceRule = map[string]string{"b": "licence-b", "b-alternative": "licence-b-alternative", "c1": "licence-c1"}

// runLicence compares the plated masses with each driver's licence class.
func runLicence(w *Weight, _ *cases) []Finding {
	var out []Finding
	for i := range w.In.People {
		p := &w.In.People[i]
		if p.Licence == "" {
			continue
		}
		f := Finding{Case: "plate", Subject: p.ID, Rule: licenceRule[p.Licence], Subjects: []Subject{{Path: p.Path, Name: p.Name}},
			Caution: "licence law changes and has exceptions: ask the licensing authority"}
		plate := w.In.Van.Plate.Total
		rule := w.Pack.Stricter(f.Rule, "total")
		class := p.Licence
		if class == "b-alternative" && rule.Known && w.hasFuel() {
			rule = w.Pack.Stricter("licence-b", "total") // an engine aboard: the wider class does not serve
			f.Basis = "the van has a fuel tank, so the wider class for vehicles without an engine does not apply"
		}
		pending := w.pending(f.Rule)
		switch {
		case !plate.Known():
			f.Missing = []Subject{{Path: plate.Path, Name: "plated total"}}
			f.Says = say("limit-unknown", "driving licence of "+p.Name, missingWords(f.Missing))
		case !rule.Known && pending != nil:
			f.Missing = []Subject{{Path: p.Path + "/licence", Name: "the day from which class " + class + " applies"}}
			f.Level, f.Sources = pending.Level, []calc.Cite{pending.Cite}
			f.Says = say("licence-pending", Kg(plate.V), class, pending.Says)
		case !rule.Known:
			f.Missing = []Subject{{Path: p.Path + "/licence", Name: "the rule for class " + class}}
			f.Says = say("limit-unknown", "driving licence of "+p.Name, missingWords(f.Missing))
		default:
			f = w.licensed(f, rule, class)
		}
		out = append(out, f)
	}
	return out
}

// licensed judges a licence class by the plated total, and the plated train where a trailer is drawn.
func (w *Weight) licensed(f Finding, rule rules.Choice, class string) Finding {
	plate := w.In.Van.Plate.Total.V
	f.rests(rule, byPlate)
	lim := unit.Mass(rule.Value.SI)
	f.Value, f.Limit, f.Margin = unit.Some(Kg(plate)), unit.Some(Kg(lim)), unit.Some(Kg(lim-plate))
	f.Verdict, f.Says = Judge((lim-plate).Kilograms(), 0), say("licence-holds", Kg(plate), class, Kg(lim))
	if together, ok := rule.Rule.Mass("train").Get(); ok && w.In.Tow.Trailer.V > 0 && w.In.Van.Plate.Train.V > together {
		f.Verdict, f.Says = DoesNotHold, say("licence-train-fails", Kg(plate), class, Kg(together), Kg(w.In.Van.Plate.Train.V))
	}
	if plate > lim {
		f.Says = say("licence-fails", Kg(plate), class, Kg(lim))
		if p := w.pending("licence-b-alternative"); p != nil {
			f.Advice = "adopted and not applied here yet: " + p.Says
		}
	}
	return f
}

// pending returns the row of a rule that is adopted but not applied yet, or nil.
func (w *Weight) pending(id string) *rules.Rule {
	for i := range w.Pack.Pending {
		if w.Pack.Pending[i].ID == id {
			return &w.Pack.Pending[i]
		}
	}
	return nil
}

func (w *Weight) hasFuel() bool {
	return slices.ContainsFunc(w.In.Tanks, func(t derive.Tank) bool { return t.For == "fuel" })
}

// runUnladen says whether the unladen mass keeps the speed limits of a car.
func runUnladen(w *Weight, _ *cases) []Finding {
	rule := w.Pack.Stricter("unladen-speed", "unladen")
	if !rule.Known || !w.Known {
		return nil
	}
	lim := unit.Mass(rule.Value.SI)
	f := Finding{Case: "dry", Rule: "unladen-speed", Slip: "weight.base"}
	f.rests(rule, byStatics)
	if w.fittedMass() {
		for i := range w.In.Lacks {
			if l := &w.In.Lacks[i]; l.Need == derive.NeedMass || l.Need == derive.NeedOther {
				f.Missing = append(f.Missing, Subject{Path: l.Path, Name: l.What})
			}
		}
		f.Says = say("limit-unknown", "unladen mass", missingWords(f.Missing))
		return one(f)
	}
	v := w.Base.Total
	half := w.doubt(w.Base, axle.Total(), 0)
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
func runPromises(w *Weight, _ *cases) []Finding {
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
			f = w.promisedPayload(f, p, words)
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

func (w *Weight) promisedPayload(f Finding, p *doc.Promise, words string) Finding {
	least, ok := p.Least.Get()
	left := w.Left
	if !ok || !left.Known || w.open() {
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
	f.Says = say(code, words, say("promise-payload", Kg(left.Left), left.Ends))
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
	f.Says = say(code, words, say("promise-plated", Kg(plate.V)))
	return f
}
