package web

import (
	"net/http"
	"strings"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/drawing"
	"berthwright/sheet"
	"berthwright/unit"
)

// getSolids answers the van in space in one state.
func (s *Server) getSolids(_ http.ResponseWriter, r *http.Request) (any, error) {
	now, err := s.newest(r.Context(), r.PathValue("id"))
	if err != nil {
		return nil, err
	}
	state := stateOf(r.URL.Query().Get("state"))
	now.mu.Lock()
	defer now.mu.Unlock()
	sh := now.assess()
	v := viewSolids(sh.Solids(derive.State(state)), sh.Fit(), state)
	v.Revision, v.State = now.number, state
	return v, nil
}

func viewSolids(in sheet.Solids, fit *check.Fit, state string) SolidsView {
	noted := map[string]string{}
	for i := range fit.Findings { // worst first
		f := &fit.Findings[i]
		if f.Advisory || f.Verdict == check.Holds || f.Verdict == check.NotBegun || f.State != state && f.State != "all" && f.State != "" {
			continue
		}
		for _, sub := range f.Subjects {
			if p, ok := strings.CutPrefix(sub.Path, "items/"); ok {
				id, _, _ := strings.Cut(p, "/")
				if noted[id] == "" {
					noted[id] = f.Verdict.String()
				}
			}
		}
	}
	var v SolidsView
	for i := range in.Bodies {
		b := &in.Bodies[i]
		if b.Shape {
			continue
		}
		one := SolidView{ID: b.ID, Path: b.Path, Name: b.Name, Number: b.Number, Group: b.Group, Low: b.Solid.Low.Millimetres(), High: b.Solid.High.Millimetres(),
			Soft: b.Soft, Outside: b.Outside, Within: len(b.Within) > 0, Locked: b.Locked != "", Noted: noted[b.ID]}
		for _, c := range b.Solid.Outline.Corners() {
			one.Outline = append(one.Outline, c.X.Millimetres(), c.Y.Millimetres())
		}
		v.Bodies = append(v.Bodies, one)
	}
	for _, c := range in.Cuts {
		line := CutView{X: c.X.Millimetres()}
		for _, p := range c.Lined {
			line.Line = append(line.Line, p.Y.Millimetres(), p.Z.Millimetres())
		}
		v.Cuts = append(v.Cuts, line)
	}
	if len(v.Cuts) < 2 {
		v.Why = "the inside of this van is not measured; only what stands in it is shown"
	}
	for _, b := range in.Boxes {
		high, ok := b.Top.Get()
		if !ok {
			continue
		}
		v.Boxes = append(v.Boxes, boxSolid(b, high))
	}
	for _, ring := range in.Openings {
		v.Openings = append(v.Openings, RingView{Points: points(ring)})
	}
	van := in.Van
	v.Finished = van.FinishedFloor.Else(0).Millimetres()
	v.Ground = -van.FloorHeight.Else(0).Millimetres()
	v.Floor = floorOf(van)
	return v
}

func boxSolid(b drawing.WheelBox, high unit.Length) SolidView {
	x0, x1, y0, y1 := b.X0.Millimetres(), b.X1.Millimetres(), b.Y0.Millimetres(), b.Y1.Millimetres()
	return SolidView{ID: "wheel-box", Name: "wheel box", Outline: []float64{x0, y0, x1, y0, x1, y1, x0, y1}, High: high.Millimetres()}
}

func points(ring [][3]unit.Length) []float64 {
	out := make([]float64, 0, 3*len(ring))
	for _, p := range ring {
		out = append(out, p[0].Millimetres(), p[1].Millimetres(), p[2].Millimetres())
	}
	return out
}

// floorOf is the load floor between the lines that are known.
func floorOf(v drawing.Van) *Box {
	x0, ok0 := v.Bulkhead.Get()
	x1, ok1 := v.RearDoor.Get()
	y0, ok2 := v.LeftWall.Get()
	y1, ok3 := v.RightWall.Get()
	if !ok0 || !ok1 || !ok2 || !ok3 {
		return nil
	}
	return &Box{X0: x0.Millimetres(), Y0: y0.Millimetres(), X1: x1.Millimetres(), Y1: y1.Millimetres()}
}
