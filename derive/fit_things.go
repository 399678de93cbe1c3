package derive

import (
	"berthwright/doc"
	"berthwright/geom"
	"berthwright/unit"
)

// things gathers berths, seats, holes, uses and fixings.
func (f *Fit) things(b doc.Build, placed map[State][]*Placed, van Van) {
	planned := map[string]bool{}
	for _, id := range b.Loading.Seats {
		planned[id] = true
	}
	f.Fixings = make([]FitFixing, 0, len(b.Items))
	for i := range b.Items {
		it := &b.Items[i]
		if it.Removed.Else(false) {
			continue
		}
		travel, camp, night := placed[Travel][i], placed[Camp][i], placed[Night][i]
		name, path := travel.Name(), travel.Path
		if d, ok := it.Berth.Get(); ok {
			k := FitBerth{ID: it.ID, Path: path + "/berth", Name: name, Berth: d}
			if night.Boxed && !night.Away {
				k.Solid, k.Placed = solidOf(night)
				k.Box = geom.Box3{Min: geom.Vec3{X: night.Min[0], Y: night.Min[1], Z: night.Min[2]}, Max: geom.Vec3{X: night.Max[0], Y: night.Max[1], Z: night.Max[2]}}
			}
			f.Berths = append(f.Berths, k)
		}
		if d, ok := it.Seat.Get(); ok {
			k := FitSeat{ID: it.ID, Path: path + "/seat", Name: name, Seat: d, X: travel.At[0], Driver: d.Driver.Else(false)}
			k.Planned = k.Driver || planned[it.ID] || len(planned) == 0 && d.Belted.Else(false)
			f.Seats = append(f.Seats, k)
		}
		if d, ok := it.Hole.Get(); ok {
			f.Holes = append(f.Holes, holeOf(travel, d, path+"/opening", name))
		}
		if d, ok := it.Use.Get(); ok {
			k := FitUse{ID: it.ID, Path: path + "/use", Name: name, Use: d, High: Val[unit.Length]{Path: path + "/use/height"}}
			if camp.Boxed {
				k.Box = geom.Box3{Min: geom.Vec3{X: camp.Min[0], Y: camp.Min[1], Z: camp.Min[2]}, Max: geom.Vec3{X: camp.Max[0], Y: camp.Max[1], Z: camp.Max[2]}}
				if van.Finished.Known() {
					top := camp.Max[2]
					if h, ok := d.High.Get(); ok {
						top = camp.Min[2] + h
					}
					k.High = derived(top-van.Finished.V, k.High.Path, "in camp, above the finished floor")
				}
			}
			f.Uses = append(f.Uses, k)
		}
		f.fixing(it, travel, name, path)
	}
}

// fixing gathers what has to be held: mass with contents full, and how high it is.
func (f *Fit) fixing(it *doc.Item, p *Placed, name, path string) {
	m, ok := it.Mass.Get()
	if !ok || it.InTicket.Else(false) || it.Allow.Else(false) || p.Away {
		return
	}
	k := FitFixing{ID: it.ID, Path: path + "/fixing", Name: name, Mass: m.Value.Times(float64(it.Count.Else(1))), Group: it.Group, Soft: it.Cover.Else(false)}
	k.Fixing, k.Given = it.Fixing.Get()
	if t, ok := it.Tank.Get(); ok {
		if h, ok := t.Holds.Get(); ok {
			k.Mass += h
		} else if v, ok := t.Volume.Get(); ok {
			d, known := t.Density.Get()
			if !known {
				d, _, known = densityOf(t.For)
			}
			if known {
				k.Mass += d.MassOf(v)
			}
		}
	}
	if p.Centre[2].Known() {
		k.High = p.Centre[2].V
	}
	f.Fixings = append(f.Fixings, k)
}

// holeOf finds the middle and the edges of a hole in its face.
func holeOf(p *Placed, h doc.Hole, path, name string) FitHole {
	k := FitHole{ID: p.Item.ID, Path: path, Name: name, Hole: h}
	along, okA := h.Along.Get()
	up, okU := h.Up.Get()
	if !okA || !okU || !p.Boxed {
		return k
	}
	k.Known = true
	k.At = geom.Vec3{X: p.Min[0] + (p.Max[0] - p.Min[0]).Half(), Y: p.Min[1] + (p.Max[1] - p.Min[1]).Half(), Z: p.Min[2] + (p.Max[2] - p.Min[2]).Half()}
	mid := geom.Vec2{X: k.At.X, Y: k.At.Z}
	switch h.Face {
	case "roof", "floor":
		mid = geom.Vec2{X: k.At.X, Y: k.At.Y}
	case "rear":
		mid = geom.Vec2{X: k.At.Y, Y: k.At.Z}
	}
	k.From = geom.Vec2{X: mid.X - along.Half(), Y: mid.Y - up.Half()}
	k.To = geom.Vec2{X: k.From.X + along, Y: k.From.Y + up}
	return k
}
