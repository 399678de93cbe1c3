package check

import (
	"berthwright/calc"
	"berthwright/derive"
	"berthwright/unit"
)

// runSeatEvidence asks for the tested evidence of each belted seat: nothing here computes a seat, a belt or a floor.
func runSeatEvidence(f *Fit) []Finding {
	var out []Finding
	for i := range f.In.Seats {
		s := &f.In.Seats[i]
		if !s.Seat.Belted.Else(false) || !s.Planned {
			continue
		}
		x := Finding{State: string(derive.Travel), Case: "seats", Subject: s.ID, Rule: "seat-evidence", Level: calc.Seen, Subjects: []Subject{{Path: s.Path, Name: s.Name}},
			Caution: "seats, belts and their fixings need the tested evidence for this floor; an examiner decides"}
		if at, ok := s.Seat.Tested.Get(); ok && s.X.Known() {
			if d := s.X.V - at; d > 10*unit.Millimetre || d < -10*unit.Millimetre {
				x.Verdict, x.Value, x.Limit = DoesNotHold, unit.Some(mm(s.X.V)), unit.Some(mm(at))
				x.Margin = unit.Some(mm(-max(d, -d)))
				x.Says = say("seat-moved", s.Name, mm(max(d, -d)))
				f.show(&x, func(sl *Slip) { seatSlip(sl, s, at) })
				x.Advice = "put it back, or bring evidence for the new place"
				out = append(out, x)
				continue
			}
		}
		for _, need := range []struct{ have, key, name string }{
			{s.Seat.Paper, "paper", "test paper"}, {s.Seat.Floor, "floor", "floor it was tested on"}, {s.Seat.Torque, "torque", "torque record"},
		} {
			if s.Driver || s.Seat.Row.Else(2) == 1 {
				continue // a seat of the base van in its own place
			}
			if need.have == "" {
				x.Missing = append(x.Missing, Subject{Path: s.Path + "/" + need.key, Name: need.name + " of " + s.Name})
			}
		}
		x.Verdict = Unknown
		switch {
		case len(x.Missing) > 0:
			x.Says = say("seat-evidence-missing", s.Name, missingWords(x.Missing))
		default:
			x.Says = say("seat-evidence", s.Name)
			x.Advisory = true
		}
		out = append(out, x)
	}
	return folded(out, map[string]string{"seat-evidence-missing": "seat-evidence-missing-all", "seat-evidence": "seat-evidence-all"})
}

// seatSlip shows how far a seat stands from where its evidence was given.
func seatSlip(sl *Slip, s *derive.FitSeat, at unit.Length) {
	sl.Title = s.Name + ": moved since its evidence was given"
	sl.Workings = append(sl.Workings, calc.Working{ID: "fit.seat", Title: sl.Title, Steps: []calc.Step{
		known("x", "where it stands, back from the front axle", s.X.V, s.Path), known("x_0", "where the evidence was given for", at, s.Path+"/tested-at"),
		follows("d", "moved by", "abs(x - x_0)", max(s.X.V-at, at-s.X.V)),
	}, Notes: []string{"Nothing here says whether a seat, a belt, a fixing or a floor is strong enough."}})
}
