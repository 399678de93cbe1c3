package web

import (
	"fmt"
	"net/http"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/sheet"
	"berthwright/unit"
)

// viewTables fills the tables that stand beside the cases: wheels, plated sets, the van standing.
func viewTables(v *BuildView, sh *sheet.Sheet, sys unit.System) {
	v.Wheels, v.Plates, v.Standing = viewWheels(sh.Weight, sys), viewPlates(sh.Weight, sys), viewStanding(sh, sys)
}

func viewWheels(w *check.Weight, sys unit.System) *WheelsView {
	if w.Deciding < 0 {
		return nil
	}
	c := &w.Cases[w.Deciding]
	wheels, basis, ok := w.Wheels(c.Split)
	if !ok {
		return nil
	}
	out := &WheelsView{Case: c.Name, Basis: basis}
	for _, x := range wheels {
		out.Rows = append(out.Rows, WheelLoad{Name: x.Name, Low: massQuantity(x.Low, sys), High: massQuantity(x.High, sys)})
	}
	return out
}

func viewPlates(w *check.Weight, sys unit.System) []PlateView {
	out := []PlateView{}
	mass := func(o unit.Opt[unit.Mass]) *Quantity {
		m, ok := o.Get()
		if !ok {
			return nil
		}
		return quantity(unit.Some(check.Kg(m)), sys)
	}
	for _, p := range w.Plates() {
		out = append(out, PlateView{Name: p.Name, Basis: p.Basis, Paper: p.Paper, InUse: p.InUse, Total: mass(p.Total), Front: mass(p.Front), Rear: mass(p.Rear), Verdict: p.Verdict.String()})
	}
	return out
}

func viewStanding(sh *sheet.Sheet, sys unit.System) []StandingView {
	out := []StandingView{}
	for _, state := range derive.AllStates() {
		if state == derive.Travel || !sh.Poses(state) {
			continue
		}
		split, ok := sh.Standing(state)
		if !ok {
			continue
		}
		v := StandingView{State: string(state), Name: stateWords[string(state)]}
		for i, o := range [...]unit.Opt[unit.Mass]{split.Front, split.Rear, unit.Some(split.Total), split.Left, split.Right} {
			if m, ok := o.Get(); ok {
				v.Lines = append(v.Lines, NamedMass{Name: axleNames[i].name, Value: massQuantity(m, sys)})
			}
		}
		out = append(out, v)
	}
	return out
}

// getSwap shows the same items in another base van, a class or the van of another build, beside the one they are in.
func (s *Server) getSwap(_ http.ResponseWriter, r *http.Request) (any, error) {
	now, err := s.newest(r.Context(), r.PathValue("id"))
	if err != nil {
		return nil, err
	}
	name := r.URL.Query().Get("van")
	van, says := doc.Van{Class: name}, ""
	if class, ok := now.shop.ctx.Parts.Class(name); ok {
		says = class.Name
	} else {
		other, err := s.newest(r.Context(), name)
		if err != nil {
			return nil, refuse(http.StatusNotFound, "no-van", fmt.Sprintf("no van is called %q", cut(name)), "give a class of van or the id of another build")
		}
		van, says = other.file.Build.Van, "the van of "+other.file.Build.Head.Name
	}
	now.mu.Lock()
	defer now.mu.Unlock()
	sh := now.assess()
	other, notes := sh.Swap(van)
	sys := sh.System()
	out := SwapView{Diff: viewDiff(sheet.Compare(sh, other), now.file.Build.Head.Name+", as it is", says), Before: viewTitle(sh.Weight, sys), After: viewTitle(other.Weight, sys), Notes: list(notes)}
	return out, nil
}

func viewDiff(d sheet.Diff, from, to string) DiffView {
	out := DiffView{From: from, To: to}
	for _, f := range d.Figures {
		out.Figures = append(out.Figures, diffRow(f))
	}
	for _, e := range d.Entries {
		out.Entries = append(out.Entries, diffRow(e))
	}
	return out
}
