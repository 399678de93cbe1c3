package edit

import (
	"fmt"
	"strconv"
	"strings"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/unit"
)

var axes = [3]string{"x", "y", "z"}

// signs of the measures: +1 where the measure grows with the axis. The gap to a neighbour carries the sign of its side.
var signs = map[string]int64{
	"at/x": 1, "place/bulkhead": 1, "place/rear-door": -1, "place/wheel-box": 1, "place/cab-seat": 1, "place/behind": 1, "place/ahead-of": -1,
	"at/y": 1, "place/left-wall": 1, "place/right-wall": -1, "place/centre-line": 1, "place/left-of": -1, "place/right-of": 1,
	"at/z": 1, "place/finished-floor": 1, "place/bare-floor": 1, "place/ceiling": -1, "place/on-top-of": 1,
}

// move moves an item. A measure as taped grows or shrinks by the distance; an item that is only in a zone, or beside
// more than one neighbour, gets a position. What is locked, a belted seat, gas and what is slung under the floor is refused.
func (c *compiler) move(g Gesture) {
	kit, _ := GridOf("kit")
	r, ok := c.find(kit, g.Row)
	if !ok {
		c.noRow(g)
		return
	}
	at := c.placed(g.Row, g.State)
	if at == nil {
		c.noRow(g)
		return
	}
	if why := derive.Locked(at.Item); why != "" {
		c.refuse(r.path(""), "locked", fmt.Sprintf("%s stays where it is: %s", quote(at.Name()), why), "its place is typed on the kit sheet once that is settled", "", false)
		return
	}
	for k, d := range [3]unit.Length{g.DX, g.DY, g.DZ} {
		if d == 0 {
			continue
		}
		if !at.At[k].Known() {
			c.refuse(r.path(""), "no-place", fmt.Sprintf("%s has no place to be moved from", quote(at.Name())), "choose a line or a zone for it", "", false)
			continue
		}
		to := at.At[k].V + d
		if g.State != "" && poseHas(at.Item, g.State, k) {
			r.assign("states/"+g.State+"/at/"+axes[k], length(to))
			continue
		}
		r.shift(k, d, to)
	}
	c.emit(r)
}

// shift moves the measure of one way by d, or else sets the position.
func (r *row) shift(k int, d, to unit.Length) {
	way := [3][]string{along, across, upward}[k]
	path, yaml, ok := r.given(way)
	if k == 0 {
		for _, end := range []string{"span/from", "span/to"} {
			if text, ok := r.get(end); ok {
				if l, err := unit.ParseLength(text); err == nil {
					r.assign(end, length(l+d))
				}
			}
		}
	}
	if ok {
		if signs[path] < 0 {
			d = -d
		}
		switch {
		case strings.HasPrefix(path, "at/"):
			r.assign(path, length(to))
			return
		case isNeighbour(path):
			if r.neighbours() == 1 {
				gap, _ := r.get("place/gap")
				if moved, ok := moved(gap, d); ok {
					r.assign("place/gap", moved)
					return
				}
			}
		default:
			if moved, ok := moved(yaml, d); ok {
				r.assign(path, moved)
				return
			}
		}
	}
	r.only(way, "at/"+axes[k])
	r.assign("at/"+axes[k], length(to))
}

func isNeighbour(path string) bool {
	switch path {
	case "place/behind", "place/ahead-of", "place/left-of", "place/right-of", "place/on-top-of":
		return true
	}
	return false
}

// neighbours counts the neighbours that the one gap of the row belongs to.
func (r *row) neighbours() (n int) {
	for _, way := range [][]string{along, across, upward} {
		if path, _, ok := r.given(way); ok && isNeighbour(path) {
			n++
		}
	}
	return n
}

// moved returns a measure changed by d; its spread stays.
func moved(yaml string, d unit.Length) (string, bool) {
	var e unit.LengthEst
	if yaml != "" {
		var err error
		if e, err = unit.ParseLengthEst(strings.Trim(yaml, `"`)); err != nil {
			return "", false
		}
	}
	e.Value += d
	return docfile.Quote(e.String()), true
}

func length(l unit.Length) string { return docfile.Quote(l.String()) }

// placed returns an item with its place resolved in a state; nil when it is not there.
func (c *compiler) placed(id, state string) *derive.Placed {
	if state == "" {
		state = string(derive.Travel)
	}
	key := derive.State(state)
	all, ok := c.places[key]
	if !ok || c.placesOf != c.f {
		if c.placesOf != c.f {
			c.places, c.placesOf = map[derive.State][]derive.Placed{}, c.f
		}
		all = derive.Place(*c.build(), c.env.Derive.Van(c.build().Van), key)
		c.places[key] = all
	}
	for i := range all {
		if all[i].Item.ID == id {
			return &all[i]
		}
	}
	return nil
}

func poseHas(it *doc.Item, state string, k int) bool {
	pose, ok := map[string]doc.Box[doc.Pose]{"travel": it.States.Travel, "camp": it.States.Camp, "night": it.States.Night, "stored": it.States.Stored}[state].Get()
	return ok && [3]doc.Opt[unit.Length]{pose.At.X, pose.At.Y, pose.At.Z}[k].Given()
}

// resolve returns the measure from another line at which the item stays where it is. An item only known by its zone,
// or not at all, has none.
func (r *row) resolve(path string) (string, bool) {
	if r.fresh {
		return "", false
	}
	p := r.c.placed(r.id, "")
	if p == nil || !p.At[0].Known() || strings.HasSuffix(p.At[0].Path, "/zone") {
		return "", false
	}
	van := r.c.env.Derive.Van(r.c.build().Van)
	from := func(line derive.Val[unit.Length], d unit.Length) (string, bool) {
		if !line.Known() {
			return "", false
		}
		return length(d), true
	}
	switch path {
	case "at/x":
		return length(p.At[0].V), true
	case "place/bulkhead":
		return from(van.Bulkhead, p.Min[0]-van.Bulkhead.V)
	case "place/rear-door":
		return from(van.RearDoor, van.RearDoor.V-p.Max[0])
	case "place/wheel-box":
		return from(van.Wheelbase, p.At[0].V-van.Wheelbase.V)
	case "place/cab-seat":
		return from(van.CabSeat, p.Min[0]-van.CabSeat.V)
	}
	return "", false
}

// turn turns an item to so many whole degrees, counter-clockwise seen from above.
func (c *compiler) turn(g Gesture) {
	kit, _ := GridOf("kit")
	r, ok := c.find(kit, g.Row)
	if !ok {
		c.noRow(g)
		return
	}
	path := "turn"
	if at := c.placed(g.Row, g.State); at != nil && g.State != "" {
		if written(c.f, r.path("states/"+g.State+"/turn")) {
			path = "states/" + g.State + "/turn"
		}
	}
	text := strings.TrimSpace(g.Text)
	if n, err := strconv.Atoi(text); err == nil {
		text = strconv.Itoa(n % 360)
	}
	f, ok := below(mustEntry(kit), path)
	if !ok {
		return
	}
	r.typeField(path, f, text)
	c.emit(r)
}

func mustEntry(g *Grid) *doc.Field {
	f, ok := g.entry()
	if !ok {
		panic("edit: no list " + g.List)
	}
	return f
}
