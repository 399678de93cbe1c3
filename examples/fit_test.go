package examples_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"berthwright/derive"
	"berthwright/doc"
	"berthwright/unit"
)

// widthAt returns the bare width of a section at height z, straight from corner to corner.
func widthAt(t *testing.T, s doc.Section, z unit.Length) unit.Length {
	t.Helper()
	half := func(wall []doc.Corner) unit.Length {
		for i := 1; i < len(wall); i++ {
			a, b := wall[i-1], wall[i]
			za, zb := a.Z.Else(0), b.Z.Else(0)
			if za <= z && z <= zb && za < zb {
				share := (z - za).Metres() / (zb - za).Metres()
				ya, yb := a.Y.Else(0).Metres(), b.Y.Else(0).Metres()
				return unit.MetresLength(ya + (yb-ya)*share)
			}
		}
		t.Fatalf("station %s does not reach %v", s.ID, z)
		return 0
	}
	left := half(s.Left)
	if len(s.Right) == 0 {
		return -left - left
	}
	return half(s.Right) - left
}

// Three tapes of the survey and the sections say the same amidships, and no station is wider than the widest tape.
func TestCrossCurlewSectionsAgainstItsTapes(t *testing.T) {
	v := read(t, "curlew.yaml").Van
	if v.Shell.From != "measured" || !v.Shell.Date.Given() || len(v.Shell.Sections) < 5 {
		t.Fatalf("shell from %q with %d stations", v.Shell.From, len(v.Shell.Sections))
	}
	const within = 5 * unit.Millimetre
	for _, c := range []struct {
		z    unit.Length
		tape unit.Opt[unit.LengthEst]
	}{{0, v.Survey.WidthFloor}, {900 * unit.Millimetre, v.Survey.Width900}, {1500 * unit.Millimetre, v.Survey.Width1500}} {
		tape, ok := c.tape.Get()
		if !ok {
			t.Fatalf("no tape at %v", c.z)
		}
		for i, s := range v.Shell.Sections {
			got := widthAt(t, s, c.z)
			if got > tape.Value+within {
				t.Errorf("%s is %v wide at %v, the tape says %v", s.ID, got, c.z, tape.Value)
			}
			if i > 0 && i < len(v.Shell.Sections)-2 && got < tape.Value-within {
				t.Errorf("%s is %v wide at %v, the tape says %v", s.ID, got, c.z, tape.Value)
			}
		}
	}
	off := map[string]unit.Length{}
	for _, l := range v.Shell.Linings {
		off[l.Face] = l.Insulation.Else(0) + l.Panel.Else(0)
	}
	mid := widthAt(t, v.Shell.Sections[3], 900*unit.Millimetre) - off["left"] - off["right"]
	if mid != v.Inside.Right.Else(0)-v.Inside.Left.Else(0) || off["left"] != v.Survey.Lining.Else(0) || off["floor"] != v.Floor.Finished.Else(0) {
		t.Errorf("lined width %v, linings %v", mid, off)
	}
}

// overlaps lists the pairs of boxes that overlap by more than a millimetre and are neither soft nor one inside the other: the
// simplest way to look for clashes, beside the exact one of package geom.
func overlaps(t *testing.T, b doc.Build, s derive.State) []string {
	t.Helper()
	class, _ := catalogue(t).Class(b.Van.Class)
	inside := map[[2]string]bool{}
	for _, it := range b.Items {
		for _, c := range it.Contents {
			inside[[2]string{it.ID, c}], inside[[2]string{c, it.ID}] = true, true
		}
	}
	var bodies []derive.Placed
	for _, p := range derive.Place(b, derive.ResolveVan(b.Van, class.Van, b.Van.Class), s) {
		if p.Boxed && !p.Away && !p.Item.Removed.Else(false) && !p.Item.Cover.Else(false) {
			bodies = append(bodies, p)
		}
	}
	if len(bodies) < 10 {
		t.Fatalf("%s: %d bodies in %s", b.Head.ID, len(bodies), s)
	}
	var out []string
	for i, p := range bodies {
		for _, q := range bodies[i+1:] {
			hit := !inside[[2]string{p.Item.ID, q.Item.ID}]
			for k := range p.Min {
				hit = hit && min(p.Max[k], q.Max[k])-max(p.Min[k], q.Min[k]) > unit.Millimetre
			}
			if hit {
				out = append(out, p.Item.ID+"+"+q.Item.ID)
			}
		}
	}
	return out
}

func TestPropNothingOverlapsInGoodExamples(t *testing.T) {
	for _, name := range []string{"curlew.yaml", "dunlin.yaml"} {
		b := read(t, name)
		for _, s := range derive.AllStates() {
			for _, pair := range overlaps(t, b, s) {
				t.Errorf("%s, %s: %s", name, s, pair)
			}
		}
	}
}

// Curlew has every facet that the fit concern reads, one hole nobody has looked behind, and a paper for each grant;
// Dunlin has no grant.
func TestPropCurlewHasEveryFacet(t *testing.T) {
	b := read(t, "curlew.yaml")
	n := map[string]int{}
	for _, it := range b.Items {
		for _, m := range it.Moves {
			n["move "+m.Kind]++
		}
		for _, s := range it.Spaces {
			n["space "+s.For]++
		}
		if u, ok := it.Use.Get(); ok {
			n["use "+u.As]++
		}
		if h, ok := it.Hole.Get(); ok {
			n["hole"]++
			if h.Looked == "" {
				n["not looked"]++
			}
			if h.CutFrom == "" || !h.Along.Given() || !h.Up.Given() {
				t.Errorf("%s: the hole is not described", it.ID)
			}
		}
		if s, ok := it.Seat.Get(); ok {
			n["seat"]++
			x, placed := it.At.X.Get()
			if at, ok := s.Tested.Get(); !ok || !placed || at != x || s.Floor == "" || s.Rail == "" || s.Torque == "" || s.Paper == "" {
				t.Errorf("%s: its evidence is not whole, or it was moved", it.ID)
			}
		}
		if d, ok := it.Berth.Get(); ok {
			n["berth"]++
			n["people"] += d.People.Else(0)
			if len(d.Out) == 0 || !d.Load.Given() || !it.Cover.Else(false) {
				t.Errorf("%s: not a whole berth", it.ID)
			}
		}
		if it.Fixing.Given() {
			n["fixing"]++
		}
	}
	for what, least := range map[string]int{
		"move door": 4, "move drawer": 1, "move flap": 6, "move lid": 1, "move swivel": 2, "move slide": 1, "move lift": 1,
		"space air": 3, "space service": 3, "space access": 3, "space drain": 1, "space heat": 1,
		"use worktop": 1, "use table": 1, "use seat": 1, "use hob": 1, "use sink": 1, "use garage": 1, "use hatch": 1, "use ladder": 1,
		"hole": 10, "seat": 4, "berth": 2, "people": 4, "fixing": 15,
	} {
		if n[what] < least {
			t.Errorf("%s: %d, want %d", what, n[what], least)
		}
	}
	if n["not looked"] != 1 {
		t.Errorf("%d holes that nobody looked behind, want 1", n["not looked"])
	}
	for _, a := range b.Van.Shell.Allowed {
		if a.Paper == "" || !a.Date.Given() {
			t.Errorf("grant %s has no paper or date", a.ID)
		}
	}
	content := 0
	for _, f := range b.Van.Shell.Frames {
		if f.Content != "" {
			content++
		}
	}
	if content != 1 || len(b.Van.Shell.Allowed) < 8 || len(b.Van.Shell.Under) < 6 {
		t.Errorf("%d pillars with contents, %d grants, %d parts under the floor", content, len(b.Van.Shell.Allowed), len(b.Van.Shell.Under))
	}
	if d := read(t, "dunlin.yaml"); len(d.Van.Shell.Allowed) != 0 || len(d.Van.Shell.Sections) < 5 {
		t.Error("Dunlin has a measured shell and no grant yet")
	}
}

// Every fault of fit has its build, its twin and its line; each reads without a word, and no twin has bodies that overlap.
func TestPropFitFaultsArePaired(t *testing.T) {
	found, err := filepath.Glob(builds + "fit-*.yaml")
	if err != nil || len(found) < 28 {
		t.Fatal(len(found), err)
	}
	text, err := os.ReadFile(builds + "fit-faults.md")
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]bool{}
	for _, path := range found {
		id := strings.TrimSuffix(filepath.Base(path), ".yaml")
		names[id] = true
		b := read(t, path)
		if b.Head.ID != id || len(b.Van.Shell.Sections) < 5 || b.Van.Shell.From != "measured" {
			t.Errorf("%s: holds %q, shell from %q", path, b.Head.ID, b.Van.Shell.From)
		}
		for _, s := range derive.AllStates() {
			got := overlaps(t, b, s)
			if id == "fit-clash-camp" && s == derive.Camp {
				if !slices.Equal(got, []string{"bench+table"}) {
					t.Errorf("%s, %s: %v", id, s, got)
				}
				continue
			}
			for _, pair := range got {
				t.Errorf("%s, %s: %s", id, s, pair)
			}
		}
	}
	rows := 0
	for id := range names {
		base := strings.TrimSuffix(id, "-fixed")
		if !names[base] || !names[base+"-fixed"] {
			t.Errorf("%s has no twin", id)
		}
		if base == id {
			rows++
			if !strings.Contains(string(text), "| `"+strings.TrimPrefix(id, "fit-")+"` |") {
				t.Errorf("%s is not told in fit-faults.md", id)
			}
		}
	}
	if n := strings.Count(string(text), "\n| `"); n != rows {
		t.Errorf("%d rows of fit-faults.md, %d faults", n, rows)
	}
}
