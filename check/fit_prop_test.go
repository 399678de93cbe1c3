package check_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/geom"
	"berthwright/unit"
)

// randomItems makes boxes in the aisle of the small van, some turned, some in two states, some with a door, a drawer or a swivel.
func randomItems(r *rand.Rand, n int) string {
	var s strings.Builder
	for i := range n {
		x, y := 1900+r.IntN(1400), -500+r.IntN(1000)
		more := fmt.Sprintf("group: other, mass: 1 kg, known: weighed, size: {x: %d mm, y: %d mm, z: %d mm}, at: {x: %d mm, y: %d mm, z: %d mm}", 100+r.IntN(400), 100+r.IntN(400), 100+r.IntN(500), x, y, r.IntN(700))
		switch r.IntN(6) {
		case 0:
			more += fmt.Sprintf(", turn: %d °", r.IntN(90))
		case 1:
			more += fmt.Sprintf(", states: {camp: {at: {x: %d mm, y: %d mm}}}", x+r.IntN(400)-200, y+r.IntN(300)-150)
		case 2:
			more += fmt.Sprintf(", moves: [{id: m, kind: door, side: left, hinge: %s, angle: %d °}]", []string{"front", "rear"}[r.IntN(2)], 20+r.IntN(150))
		case 3:
			more += fmt.Sprintf(", moves: [{id: m, kind: drawer, side: %s, travel: %d mm}]", []string{"left", "right", "front", "rear"}[r.IntN(4)], 50+r.IntN(500))
		}
		s.WriteString(fitItem(fmt.Sprintf("thing-%c", 'a'+i), more))
	}
	return s.String()
}

// in tells whether a point lies in a turned box, and further within than by so much.
func in(b *derive.Body, p [3]float64, deep float64) bool {
	if p[2] < b.Box.Min.Z.Metres()+deep || p[2] > b.Box.Max.Z.Metres()-deep {
		return false
	}
	c := b.Solid.Outline.Corners()
	for i, a := range c {
		q := c[(i+1)%len(c)]
		dx, dy := (q.X - a.X).Metres(), (q.Y - a.Y).Metres()
		if (dx*(p[1]-a.Y.Metres())-dy*(p[0]-a.X.Metres()))/math.Hypot(dx, dy) < deep {
			return false
		}
	}
	return true
}

// Points thrown into the van say the same as the check: where one lies in two bodies they clash, and every clash deeper than 60 mm is
// hit by some point of a fine lattice.
func TestCrossClashesAgainstSampling(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	told, seen := 0, 0
	for round := range 25 {
		b := parse(t, smallVan(randomItems(r, 7)))
		f := assessFit(t, b)
		has := map[string]bool{}
		for _, x := range f.Findings {
			if x.Check == "fit-clash" && x.Verdict == check.DoesNotHold {
				has[x.State+x.Subject] = true
				told++
			}
		}
		for si := range f.In.States {
			st := &f.In.States[si]
			for i := range st.Bodies {
				for j := i + 1; j < len(st.Bodies); j++ {
					p, q := &st.Bodies[i], &st.Bodies[j]
					lo, hi := [3]float64{}, [3]float64{}
					for k, v := range [3][4]unit.Length{{p.Box.Min.X, q.Box.Min.X, p.Box.Max.X, q.Box.Max.X}, {p.Box.Min.Y, q.Box.Min.Y, p.Box.Max.Y, q.Box.Max.Y}, {p.Box.Min.Z, q.Box.Min.Z, p.Box.Max.Z, q.Box.Max.Z}} {
						lo[k], hi[k] = max(v[0], v[1]).Metres(), min(v[2], v[3]).Metres()
					}
					hit, deep := false, false
					const step = 0.02
					for x := lo[0] + step/2; x < hi[0]; x += step {
						for y := lo[1] + step/2; y < hi[1]; y += step {
							for _, z := range [2]float64{(lo[2] + hi[2]) / 2, hi[2] - 0.002} {
								if z > lo[2] && in(p, [3]float64{x, y, z}, 0.001) && in(q, [3]float64{x, y, z}, 0.001) {
									hit = true
								}
							}
						}
					}
					c, overlap := p.Solid.Clash(q.Solid)
					deep = overlap && c.Depth > 60*unit.Millimetre
					key := p.ID + "+" + q.ID
					first := has["travel"+key] // the same clash of the first state is told there
					if hit && !has[string(st.State)+key] && !first {
						t.Errorf("round %d, %s: %s overlap by sampling and are not told", round, st.State, key)
					}
					if deep && !hit {
						t.Errorf("round %d, %s: %s overlap by %v and no point lies in both", round, st.State, key, c.Depth)
					}
					if hit {
						seen++
					}
				}
			}
		}
	}
	if told < 50 || seen < 100 {
		t.Errorf("%d told, %d seen: too few to say anything", told, seen)
	}
}

// A moving part taken step by step along its way says the same as the check.
func TestCrossSweepsAgainstStepping(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 2))
	met := 0
	for round := range 40 {
		f := assessFit(t, parse(t, smallVan(randomItems(r, 6))))
		for si := range f.In.States {
			st := &f.In.States[si]
			for k := range st.Sweeps {
				s := &st.Sweeps[k]
				const steps = 400
				first, by := math.Inf(1), ""
				for n := 0; n <= steps && by == ""; n++ {
					part, err := s.Sweep.At(float64(n) / steps)
					if err != nil {
						t.Fatal(err)
					}
					for i := range st.Bodies {
						if b := &st.Bodies[i]; b.ID != s.Item {
							if c, ok := part.Clash(b.Solid); ok && c.Depth > 20 {
								first, by = float64(n)/steps, b.Name
							}
						}
					}
				}
				var told *check.Finding
				for i := range f.Findings {
					if x := &f.Findings[i]; x.Check == "fit-sweep" && x.State == string(st.State) && x.Subject == s.Item+"."+s.Motion.ID && x.Value.Given() {
						told = x
					}
				}
				switch {
				case by != "" && told == nil:
					t.Errorf("round %d, %s: %s meets %s after %.3f of its way and nothing is told", round, st.State, s.Item, by, first)
				case told != nil && told.Subjects[1].Path != "van/shell" && by == "" && metresOf(t, told.Value)/metresOf(t, told.Limit) < 0.995:
					t.Errorf("round %d, %s: %s is told to meet %s and steps through", round, st.State, s.Item, told.Subjects[1].Name)
				case told != nil && by != "" && told.Subjects[1].Path != "van/shell":
					met++
					if at := metresOf(t, told.Value) / metresOf(t, told.Limit); !(at <= first+1e-9 && at >= first-2.0/steps) {
						t.Errorf("round %d, %s: %s meets after %.4f of its way, by steps at %.4f", round, st.State, s.Item, at, first)
					}
				}
			}
		}
	}
	if met < 30 {
		t.Errorf("%d meetings: too few to say anything", met)
	}
}

// Moving a body by the offered move, and a millimetre no more than rounding asks, clears the clash it is offered for.
func TestPropOfferedMoveClears(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	cleared := 0
	for range 30 {
		b := parse(t, smallVan(randomItems(r, 6)))
		for _, x := range assessFit(t, b).Findings {
			if x.Check != "fit-clash" || len(x.Moves) == 0 || x.State != "travel" {
				continue
			}
			m := x.Moves[0]
			moved := b
			moved.Items = slices.Clone(b.Items)
			for i := range moved.Items {
				if it := &moved.Items[i]; it.ID == m.Item {
					it.At = doc.Point{X: unit.Some(it.At.X.Else(0) + m.By.X), Y: unit.Some(it.At.Y.Else(0) + m.By.Y), Z: unit.Some(it.At.Z.Else(0) + m.By.Z)}
				}
			}
			for _, y := range assessFit(t, moved).Findings {
				if y.Key() == x.Key() && y.Verdict == check.DoesNotHold {
					t.Errorf("%s by %v leaves %s", m.Text, m.By, y.Says.Text(unit.Metric))
				}
			}
			if d := metresOf(t, x.Value); math.Abs(m.By.X.Metres())+math.Abs(m.By.Y.Metres())+math.Abs(m.By.Z.Metres()) > 1.5*d+0.003 {
				t.Errorf("%s is far for a depth of %v", m.Text, d)
			}
			cleared++
		}
	}
	if cleared < 30 {
		t.Errorf("%d moves: too few to say anything", cleared)
	}
}

// The order of the items in the file changes nothing that is told.
func TestPropOrderOfItemsDoesNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	for _, path := range everyFitBuild(t) {
		b := read(t, path)
		want := tellings(assessFit(t, b))
		shuffled := b
		shuffled.Items = slices.Clone(b.Items)
		r.Shuffle(len(shuffled.Items), func(i, j int) { shuffled.Items[i], shuffled.Items[j] = shuffled.Items[j], shuffled.Items[i] })
		got := tellings(assessFit(t, shuffled))
		if !slices.Equal(got, want) {
			for _, k := range want {
				if !slices.Contains(got, k) {
					t.Errorf("%s: no longer told: %s", path, k)
				}
			}
			for _, k := range got {
				if !slices.Contains(want, k) {
					t.Errorf("%s: newly told: %s", path, k)
				}
			}
		}
	}
}

func tellings(f *check.Fit) []string {
	var out []string
	for _, x := range f.Findings {
		v := ""
		if y, ok := x.Value.Get(); ok {
			v = fmt.Sprintf("%.4f", y.SI)
		}
		out = append(out, x.Key()+" "+x.Verdict.Says()+" "+v)
	}
	slices.Sort(out)
	return out
}

// A van mirrored left for right has the same clashes, depths and contacts.
func TestPropMirroredBuildTellsTheSame(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	n := 0
	for range 25 {
		b := parse(t, smallVan(randomItems(r, 6)))
		m := mirrored(b)
		want, got := tellings(assessFit(t, b)), tellings(assessFit(t, m))
		keep := func(all []string) []string {
			return slices.DeleteFunc(all, func(s string) bool { return !strings.HasPrefix(s, "fit-clash") && !strings.HasPrefix(s, "fit-sweep") })
		}
		want, got = keep(want), keep(got)
		n += len(want)
		if !slices.Equal(want, got) {
			t.Errorf("told: %v\nmirrored: %v", want, got)
		}
	}
	if n < 100 {
		t.Errorf("%d findings: too few to say anything", n)
	}
}

func mirrored(b doc.Build) doc.Build {
	side := map[string]string{"left": "right", "right": "left"}
	turn := func(s string) string {
		if o, ok := side[s]; ok {
			return o
		}
		return s
	}
	b.Items = slices.Clone(b.Items)
	for i := range b.Items {
		it := &b.Items[i]
		if y, ok := it.At.Y.Get(); ok {
			it.At.Y = unit.Some(-y)
		}
		if a, ok := it.Turn.Get(); ok {
			it.Turn = unit.Some(-a)
		}
		if p, ok := it.States.Camp.Get(); ok {
			if y, ok := p.At.Y.Get(); ok {
				p.At.Y = unit.Some(-y)
			}
			it.States.Camp = unit.Boxed(p)
		}
		it.Moves = slices.Clone(it.Moves)
		for k := range it.Moves {
			it.Moves[k].Side, it.Moves[k].Hinge = turn(it.Moves[k].Side), turn(it.Moves[k].Hinge)
		}
	}
	return b
}

// A solid is what the input holds it to be: the state of a body taken over from travel has the outline of its own place.
func TestPropSharedSolidsAreThoseOfTheirPlace(t *testing.T) {
	b := read(t, "../examples/curlew.yaml")
	f := derive.MakeFit(b, context(t))
	n := 0
	for _, st := range f.States {
		for _, p := range derive.Place(b, f.Van, st.State) {
			if body := st.Body(p.Item.ID); body != nil && !body.Turned {
				want := geom.Box3{Min: geom.Vec3{X: p.Min[0], Y: p.Min[1], Z: p.Min[2]}, Max: geom.Vec3{X: p.Max[0], Y: p.Max[1], Z: p.Max[2]}}
				if body.Box != want {
					t.Errorf("%s, %s: %v, placed at %v", st.State, p.Item.ID, body.Box, want)
				}
				n++
			}
		}
	}
	if n < 200 {
		t.Errorf("%d bodies", n)
	}
}
