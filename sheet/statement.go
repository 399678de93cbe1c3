package sheet

import (
	"strings"
	"time"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/paper"
	"berthwright/unit"
)

// Issue dates a paper: which revision and text it was made from, and when. The clock is the caller's.
type Issue struct {
	Revision string
	Hash     string
	Made     time.Time
}

// head is what every page of a paper says about itself.
func (s *Sheet) head(i Issue) paper.Head {
	status, _ := s.Weight.Status()
	h := paper.Head{
		Workshop: s.ctx.Shop.Name, Build: s.name(), Customer: s.Build.Head.Customer, Status: status.String(),
		Revision: i.Revision, Hash: i.Hash, Program: Program, Made: i.Made,
	}
	if s.System() != unit.Metric {
		h.MassUnit = "lb"
	}
	if !i.Made.IsZero() {
		h.Date = i.Made.Format("2006-01-02")
	}
	return h
}

func verdict(v check.Verdict) paper.Verdict {
	switch v {
	case check.Holds:
		return paper.Holds
	case check.Tight:
		return paper.Tight
	case check.DoesNotHold:
		return paper.DoesNotHold
	}
	return paper.Unknown
}

// MassStatement sets the mass statement as a PDF.
func (s *Sheet) MassStatement(i Issue) ([]byte, error) {
	w, sys := s.Weight, s.System()
	st := paper.Statement{Head: s.head(i), State: string(derive.Travel)}
	st.Verdict = s.overall()
	for _, t := range w.Title(sys) {
		st.Deciding = append(st.Deciding, paper.Sentence{Text: t.Text, Sub: t.Detail, Verdict: verdict(t.Verdict)})
	}
	st.Basis = append(s.basisPairs(), s.tables(sys)...)
	in := s.Drawing(derive.Travel, nil)
	if scene, ok := largest(in, "plan"); ok {
		st.Plan = paper.Figure{Scene: scene, Caption: "plan, travel; each axle in its own worst case"}
	}
	side := "left"
	if s.van.Door.V == "right" {
		side = "right"
	}
	if scene, ok := largest(in, side); ok {
		st.Side = paper.Figure{Scene: scene, Caption: side + " side, travel"}
	}
	for k := range w.Cases {
		st.Cases = append(st.Cases, s.caseRow(k, sys))
	}
	st.Cases = append(st.Cases, s.standingRows(sys)...)
	for _, f := range w.Findings {
		if f.Advisory && f.Verdict == check.Holds && f.Check != "overload" {
			continue
		}
		st.Findings = append(st.Findings, paper.Finding{Verdict: verdict(f.Verdict), Text: f.Says.Text(sys), Basis: f.Basis, Evidence: evidence(f), Advice: advice(f)})
		if row, ok := s.limitRow(f, sys); ok {
			st.Limits = append(st.Limits, row)
		}
	}
	st.Basis = append(st.Basis, sayOnce(st.Findings)...)
	for _, z := range w.ZoneRooms() {
		row := paper.RoomRow{Place: z.Zone, Reached: z.Ends}
		if !z.Free {
			row.Mass = bare(z.Kg, 0, sys)
		}
		st.Room = append(st.Room, row)
	}
	st.Groups, st.Items = s.groups(sys), s.items(sys)
	st.Spreads = append(s.spreads(sys), s.weighings(sys)...)
	for _, a := range w.In.Assumed {
		st.Assumed = append(st.Assumed, paper.Assumption{What: a.Text(sys), Why: a.From})
	}
	st.Cautions = s.cautions()
	st.Sources = s.sources()
	for _, key := range []string{"weight.total", "weight.rear", "weight.front", "weight.payload", "weight.pay-mass", "weight.occupants", "weight.tyres"} {
		if slip, ok := w.Slip(key); ok {
			st.Slips = append(st.Slips, paperSlips(slip, 1)...)
		}
	}
	st.Sign = []paper.Signature{{Role: "for the workshop"}, {Role: "weighed by"}, {Role: "customer", Name: s.Build.Head.Customer}}
	return paper.MassStatement(st)
}

// sayOnce takes the basis and the evidence that most findings share off their lines, and returns them as pairs said once.
func sayOnce(all []paper.Finding) []paper.Pair {
	var out []paper.Pair
	for _, k := range [...]struct {
		name string
		of   func(*paper.Finding) *string
	}{{"Findings rest on", func(f *paper.Finding) *string { return &f.Basis }}, {"Limits are known as", func(f *paper.Finding) *string { return &f.Evidence }}} {
		n, most := map[string]int{}, ""
		for i := range all {
			if t := *k.of(&all[i]); t != "" {
				if n[t]++; n[t] > n[most] {
					most = t
				}
			}
		}
		if n[most] < 3 {
			continue
		}
		for i := range all {
			if t := k.of(&all[i]); *t == most {
				*t = ""
			}
		}
		out = append(out, paper.Pair{Name: k.name, Value: most, Note: "where a finding says nothing else"})
	}
	return out
}

func (s *Sheet) decidingName() string {
	if s.Weight.Deciding < 0 {
		return "no case decides yet"
	}
	return strings.ToLower(s.Weight.Cases[s.Weight.Deciding].Name)
}

// overall says in one sentence whether the plated limits hold, and in which case.
func (s *Sheet) overall() paper.Sentence {
	w := s.Weight
	worst := check.Holds
	for _, f := range w.Findings {
		if f.Advisory || (f.Check != "weight-total" && f.Check != "axle-front" && f.Check != "axle-rear" && f.Check != "tyres") {
			continue
		}
		if rank(f.Verdict) > rank(worst) {
			worst = f.Verdict
		}
	}
	t := paper.Sentence{Verdict: verdict(worst), Sub: "worst case of the declared loading plan: " + s.decidingName()}
	switch worst {
	case check.DoesNotHold:
		t.Text = "The declared loading plan does not hold the plate."
	case check.Tight:
		t.Text = "The declared loading plan holds the plate, but a margin is smaller than its doubt."
	case check.Holds:
		t.Text = "The declared loading plan holds the plate, as far as computed here."
	default:
		t.Text = "Whether the declared loading plan holds the plate is not known yet."
		t.Sub = "something is missing; see the findings"
	}
	return t
}

func rank(v check.Verdict) int {
	switch v {
	case check.DoesNotHold:
		return 3
	case check.Unknown:
		return 2
	case check.Tight:
		return 1
	}
	return 0
}

func advice(f check.Finding) string {
	if f.Verdict == check.Holds {
		return ""
	}
	return f.Advice
}
