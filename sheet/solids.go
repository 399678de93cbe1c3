package sheet

import (
	"berthwright/derive"
	"berthwright/drawing"
	"berthwright/geom"
	"berthwright/unit"
)

// Solids is the van in space in one state: what stands in it, and its inside as far as it is known.
type Solids struct {
	Bodies   []derive.Body
	Cuts     []drawing.Cut // lined inside from front to rear: at the stations, and half way between them
	Boxes    []drawing.WheelBox
	Openings [][][3]unit.Length // edges of doors and windows on the lined inside, closed
	Van      drawing.Van
}

// Solids returns the van in space in a state.
func (s *Sheet) Solids(state derive.State) Solids {
	out := Solids{Van: drawVan(s.van)}
	out.Boxes = out.Van.WheelBoxes
	f := s.fitIn()
	for i := range f.States {
		if f.States[i].State == state {
			out.Bodies = f.States[i].Bodies
		}
	}
	var xs []unit.Length
	for i, k := range f.Shell.Sections {
		if i > 0 {
			before := f.Shell.Sections[i-1].X
			xs = append(xs, before+(k.X-before).Half())
		}
		xs = append(xs, k.X)
	}
	out.Cuts = s.cuts(state, xs)
	_, lined, ok := shells(s.shape(), state)
	if !ok {
		return out
	}
	for _, d := range f.Doors {
		o := d.Opening
		from, okF := o.From.Get()
		to, okT := o.To.Get()
		low, okL := o.Low.Get()
		high, okH := o.High.Get()
		face, on := map[string]geom.Face{"left": geom.LeftWall, "right": geom.RightWall}[o.Side]
		if !okF || !okT || !okL || !okH || !on {
			continue
		}
		ring := wallRing(lined, face, from, to, low, high)
		if len(ring) > 0 {
			out.Openings = append(out.Openings, ring)
		}
	}
	return out
}

// wallRing is the edge of a window in a wall, following its curve; nil where the wall is not known.
func wallRing(s geom.Shell, face geom.Face, from, to, low, high unit.Length) [][3]unit.Length {
	const steps = 6
	var up, down [][3]unit.Length
	for k := 0; k <= steps; k++ {
		z := low + (high - low).Times(float64(k)/steps)
		a, err := s.Wall(face, from, z)
		b, err2 := s.Wall(face, to, z)
		if err != nil || err2 != nil {
			continue // above the wall's top or outside the stations
		}
		up = append(up, [3]unit.Length{from, a, z})
		down = append([][3]unit.Length{{to, b, z}}, down...)
	}
	if len(up) < 2 {
		return nil
	}
	return append(up, down...)
}
