package parts

import (
	"strings"
	"testing"

	"berthwright/doc"
	"berthwright/unit"
)

// halfAt returns how far a wall stands from the centre line at height z, straight from corner to corner.
func halfAt(wall []doc.Corner, z unit.Length) (unit.Length, bool) {
	for i := 1; i < len(wall); i++ {
		a, b := wall[i-1], wall[i]
		za, zb := a.Z.Else(0), b.Z.Else(0)
		if !(za <= z && z <= zb) || za == zb {
			continue
		}
		ya, yb := a.Y.Else(0).Metres(), b.Y.Else(0).Metres()
		share := (z - za).Metres() / (zb - za).Metres()
		y := ya + (yb-ya)*share
		if y < 0 {
			y = -y
		}
		return unit.MetresLength(y), true
	}
	return 0, false
}

// A generic shell is whole enough to draw, and grants nothing: no cut-out, no hard point, no pillar content, no clear
// space under the floor.
func TestPropClassShellsAreWholeAndGrantNothing(t *testing.T) {
	for _, k := range load(t).Classes() {
		s := k.Van.Shell
		if s.From != "class" || s.Paper != "" || s.Date.Given() {
			t.Errorf("%s: a class has no instruction and no measurement", k.ID)
		}
		if len(s.Allowed) != 0 || len(s.Under) != 0 {
			t.Errorf("%s: a generic shell grants %d places and knows %d parts under the floor", k.ID, len(s.Allowed), len(s.Under))
		}
		if len(s.Sections) < 5 {
			t.Fatalf("%s: %d stations, want at least 5", k.ID, len(s.Sections))
		}
		before := unit.Length(0)
		for _, c := range s.Sections {
			x, ok := c.X.Get()
			if !ok || !(x > before) {
				t.Errorf("%s: station %s does not lie behind the one before", k.ID, c.ID)
			}
			before = x
			if len(c.Left) < 6 || len(c.Right) != 0 {
				t.Errorf("%s: %s has %d corners left, %d right", k.ID, c.ID, len(c.Left), len(c.Right))
			}
			floor, _ := halfAt(c.Left, 0)
			top := c.Left[len(c.Left)-1]
			wide, wideAt, last := unit.Length(0), unit.Length(0), unit.Length(-1)
			for _, p := range c.Left {
				y, z := -p.Y.Else(0), p.Z.Else(-1)
				if !(z > last && y > 0) {
					t.Errorf("%s: corners of %s do not climb on the left", k.ID, c.ID)
				}
				last = z
				if y > wide {
					wide, wideAt = y, z
				}
			}
			if !(floor < wide && -top.Y.Else(0) < wide) || !(wideAt >= 600*unit.Millimetre && wideAt <= 1100*unit.Millimetre) {
				t.Errorf("%s: %s does not bulge: floor %v, widest %v at %v", k.ID, c.ID, floor, wide, wideAt)
			}
		}
		first, end := s.Sections[0].X.Else(0), before
		if first != k.Van.Floor.Front.Else(0) || end != k.Van.Floor.Rear.Else(0) {
			t.Errorf("%s: the stations run from %v to %v", k.ID, first, end)
		}
		off := map[string]unit.Length{}
		for _, l := range s.Linings {
			off[l.Face] = l.Insulation.Else(0) + l.Panel.Else(0)
		}
		mid := s.Sections[len(s.Sections)/2].Left
		half, _ := halfAt(mid, 900*unit.Millimetre)
		if got := half - off["left"]; got != -k.Van.Inside.Left.Else(0) || got != k.Van.Inside.Right.Else(0) || off["left"] != off["right"] {
			t.Errorf("%s: lined wall at worktop height %v, the line says %v", k.ID, got, k.Van.Inside.Right.Else(0))
		}
		if got := mid[len(mid)-1].Z.Else(0) - off["roof"]; got != k.Van.Inside.Ceiling.Else(0) {
			t.Errorf("%s: lined ceiling %v", k.ID, got)
		}
		if off["floor"] != k.Van.Floor.Finished.Else(0) {
			t.Errorf("%s: floor build %v", k.ID, off["floor"])
		}
		kinds := map[string]int{}
		for _, o := range s.Openings {
			kinds[o.Kind]++
			if o.Known != "class" || !(o.From.Else(0) < o.To.Else(0) && o.Low.Else(0) < o.High.Else(0)) {
				t.Errorf("%s: opening %s", k.ID, o.ID)
			}
		}
		for _, f := range s.Frames {
			kinds[f.Kind]++
			if f.Content != "" || f.Known != "class" || !f.X.Given() || !(f.Width.Else(0) > 0) {
				t.Errorf("%s: frame %s", k.ID, f.ID)
			}
		}
		for kind, n := range map[string]int{"sliding-door": 1, "rear-doors": 1, "cab": 1, "step": 1, "pillar": 6, "rib": 6, "bow": 5} {
			if kinds[kind] < n {
				t.Errorf("%s: %d of %s", k.ID, kinds[kind], kind)
			}
		}
		if g := k.Van.Ground; !g.Clearance.Given() || !g.Wheel.Given() || !(g.Clearance.Else(0) < k.Van.Floor.Height.Else(0)) {
			t.Errorf("%s: how it stands on the road", k.ID)
		}
	}
}

// A part that opens, breathes, is slept on or needs a hole says so: fridges have a door and air, mattresses are soft berths of
// their own size, windows have a hole no larger than themselves, awnings hang outside.
func TestPropPartsSayHowTheyAreUsed(t *testing.T) {
	holes, berths, fridges := 0, 0, 0
	for _, p := range load(t).Search("", "") {
		x, y, z := p.Size.X.Else(0), p.Size.Y.Else(0), p.Size.Z.Else(0)
		if h, ok := p.Hole.Get(); ok {
			holes++
			across := z
			if h.Face == "roof" {
				across = y
			}
			along := x
			if h.Face == "rear" {
				along = y
			}
			if a, u := h.Along.Else(0), h.Up.Else(0); !(a > 0 && a <= along && u > 0 && u <= across) || h.CutFrom == "" {
				t.Errorf("%s: a hole of %v by %v", p.ID, h.Along.Else(0), h.Up.Else(0))
			}
		}
		if b, ok := p.Berth.Get(); ok {
			berths++
			l, w := max(x, y), min(x, y)
			if b.Length.Else(0) != l || b.Width.Else(0) != w || b.Mattress.Else(0) != z || !p.Cover.Else(false) || b.Load.Given() {
				t.Errorf("%s: a berth of %v by %v in a mattress of %v by %v", p.ID, b.Length.Else(0), b.Width.Else(0), l, w)
			}
		}
		if strings.HasPrefix(p.ID, "fridge-") {
			fridges++
			air := false
			for _, s := range p.Spaces {
				air = air || s.For == "air" && s.Depth.Else(0) > 0 && s.From != ""
			}
			if len(p.Moves) == 0 || !air {
				t.Errorf("%s: no door or no air", p.ID)
			}
		}
		if strings.HasPrefix(p.ID, "awning-") && p.On != "side" {
			t.Errorf("%s is carried %q", p.ID, p.On)
		}
		if strings.HasPrefix(p.ID, "locker-overhead") && (len(p.Moves) == 0 || !p.Scribe.Given()) {
			t.Errorf("%s has no flap or no scribe", p.ID)
		}
	}
	if holes < 12 || berths < 3 || fridges < 6 {
		t.Errorf("%d holes, %d berths, %d fridges", holes, berths, fridges)
	}
}
