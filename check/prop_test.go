package check_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"berthwright/axle"
	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/unit"
)

func inputs(t testing.TB, path string) (derive.Weight, *check.Weight) {
	b := read(t, path)
	in := derive.MakeWeight(b, context(t), nil)
	return in, check.AssessWeight(in, packOf(t, b))
}

// Moving an item along the van changes no total, and what leaves one axle comes to the other.
func TestPropMovingChangesNoTotal(t *testing.T) {
	in, w := inputs(t, "../examples/curlew.yaml")
	r := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		k := r.IntN(len(in.Loads))
		moved := in
		moved.Loads = slices.Clone(in.Loads)
		x, ok := moved.Loads[k].At.X.Get()
		if !ok {
			continue
		}
		moved.Loads[k].At.X = unit.Some(x + unit.Length(r.IntN(4_000_000)-2_000_000))
		v := check.AssessWeight(moved, w.Pack)
		for i, c := range v.Cases {
			if c.Worst != nil && c.Worst.Measure.Name != "total" {
				continue // another plan may now be the worst for that axle
			}
			near(t, c.ID+" total", c.Split.Total.Kilograms(), w.Cases[i].Split.Total.Kilograms(), 1e-9)
			near(t, c.ID+" axles", kgOf(t, "front", c.Split.Front)+kgOf(t, "rear", c.Split.Rear), c.Split.Total.Kilograms(), 1e-9)
		}
	}
}

// Mass added between the axles never leaves more in hand on any plated limit, and never less doubt.
func TestPropAddingNeverHelps(t *testing.T) {
	in, w := inputs(t, "../examples/curlew.yaml")
	r := rand.New(rand.NewPCG(3, 4))
	for range 50 {
		more := in
		x := unit.Length(r.IntN(4_000_000))
		more.Loads = append(slices.Clone(in.Loads), derive.Load{Load: axle.Load{ID: "more", Mass: unit.Kilogram.Times(r.Float64() * 80), Half: unit.Kilogram, At: axle.At(x, 0, unit.Metre)}})
		v := check.AssessWeight(more, w.Pack)
		for i, b := range v.Bounds {
			if b.Margin > w.Bounds[i].Margin+1e-9 {
				t.Errorf("%s gains %v from mass at %v", b.Name, b.Margin-w.Bounds[i].Margin, x)
			}
		}
		for id, d := range v.Doubts {
			if d.Sum < w.Doubts[id].Sum-1e-9 {
				t.Errorf("the doubt on the %s shrinks", id)
			}
		}
	}
}

// The order of the file does not matter: not for cases, findings, margins or what to measure next.
func TestPropOrderDoesNotMatter(t *testing.T) {
	for _, path := range []string{"../examples/curlew.yaml", "../examples/dunlin.yaml", "../examples/avocet.yaml"} {
		b := read(t, path)
		was := assess(t, b, nil)
		r := rand.New(rand.NewPCG(5, 6))
		for range 3 {
			b.Items = slices.Clone(b.Items)
			r.Shuffle(len(b.Items), func(i, j int) { b.Items[i], b.Items[j] = b.Items[j], b.Items[i] })
			is := assess(t, b, nil)
			said := func(w *check.Weight) []string {
				var out []string
				for _, f := range w.Findings {
					out = append(out, f.Key()+" "+f.Verdict.Says()+" "+f.Says.Text(unit.Metric))
				}
				slices.Sort(out)
				return out
			}
			for i, s := range said(was) {
				if got := said(is)[i]; got != s {
					t.Errorf("%s: %q became %q", path, s, got)
				}
			}
			for i, c := range was.Cases {
				near(t, c.ID, caseOf(t, is, c.ID).Split.Total.Kilograms(), was.Cases[i].Split.Total.Kilograms(), 1e-9)
			}
			for i, n := range was.MeasureNext() {
				if got := is.MeasureNext()[i].Says; got != n.Says {
					t.Errorf("%s: measure next %q became %q", path, n.Says, got)
				}
			}
		}
	}
}

// Measure next ranks by share, and a weighed group leaves what its share says.
func TestPropMeasureNextShares(t *testing.T) {
	in, w := inputs(t, "../examples/curlew.yaml")
	last, n := 1.0, 0
	for _, next := range w.MeasureNext() {
		share, ok := next.Share.Get()
		if !ok {
			continue
		}
		n++
		if !(share.Share() > 0 && share.Share() <= last) {
			t.Errorf("%s: share %v after %v", next.Says, share, last)
		}
		last = share.Share()
	}
	if n < 3 {
		t.Fatalf("%d doubts are told", n)
	}
	d := w.Doubts["rear"]
	for _, r := range d.Relief() {
		if strings.HasPrefix(r.Group, "ticket") || r.Group == derive.UnlistedID || r.Group == "other" {
			continue
		}
		sure := in
		sure.Loads = slices.Clone(in.Loads)
		found := false
		for i := range sure.Loads {
			if l := sure.Loads[i]; l.Group == r.Group || l.Group == "" && l.ID == r.Group {
				found = true
				sure.Loads[i].Half, sure.Loads[i].HalfX, sure.Loads[i].Kind = 0, 0, ""
			}
		}
		if !found {
			continue // not fitted: a piece that is carried
		}
		v := check.AssessWeight(sure, w.Pack).Doubts["rear"]
		near(t, "the doubt without "+r.Group, v.Sum.Kilograms(), r.Half.Kilograms(), 1e-6)
		near(t, "the share of "+r.Group, 1-v.Sum.Kilograms()*v.Sum.Kilograms()/(d.Sum.Kilograms()*d.Sum.Kilograms()), r.Share.Share(), 1e-6)
	}
}

// What is left for luggage really is: spread as said, it reaches one limit and passes none.
func TestPropPayloadReachesItsLimit(t *testing.T) {
	for _, path := range everyBuild(t) {
		in, w := inputs(t, path)
		if !w.Left.Known || w.Left.Left < 0 {
			continue
		}
		sum := unit.Mass(0)
		for _, z := range in.Zones {
			if x, ok := z.At.X.Get(); ok && x >= in.Van.Bulkhead.V {
				sum += z.Limit.V
			}
		}
		row := w.Party[len(w.Party)-2] // everybody aboard, water full
		near(t, path+": the last party", row.Left.Kilograms(), w.Left.Left.Kilograms(), 1e-9)
		s := payloadSplit(t, w, in, sum)
		over := 1e9
		for _, l := range []struct {
			m     axle.Measure
			plate unit.Mass
		}{{axle.Total(), in.Van.Plate.Total.V}, {w.Geometry.Front(), in.Van.Plate.Front.V}, {w.Geometry.Rear(), in.Van.Plate.Rear.V}} {
			over = min(over, (l.plate - get(t, "reading", s.Read(l.m))).Kilograms())
		}
		near(t, path+": in hand with the luggage aboard", over, 0, 1e-6)
	}
}

// payloadSplit loads the van anew as the payload row says, from the input alone.
func payloadSplit(t *testing.T, w *check.Weight, in derive.Weight, limits unit.Mass) axle.Split {
	t.Helper()
	var more []axle.Load
	for i, s := range in.Seats {
		if !s.Planned {
			continue
		}
		m := 75.0
		if s.Person >= 0 {
			p := in.People[s.Person]
			m = max(m, p.Mass.V.Kilograms())
			more = append(more, axle.Load{ID: fmt.Sprint("r", i), Mass: p.Restraint.V, At: p.RestraintAt})
		}
		more = append(more, axle.Load{ID: s.ID, Mass: unit.Kilogram.Times(m), At: s.At})
	}
	for _, k := range in.Tanks {
		level := k.Driving.Share()
		switch k.For {
		case "waste", "toilet":
			level = 0
		case "fuel":
			level = min(level, 0.9)
		}
		more = append(more, axle.Load{ID: k.ID, Mass: k.Full.V.Times(level), At: k.At})
	}
	for _, z := range in.Zones {
		if x, ok := z.At.X.Get(); ok && x >= in.Van.Bulkhead.V {
			more = append(more, axle.Load{ID: z.ID, Mass: z.Limit.V.Per(limits).Of(w.Left.Left), At: z.At, On: z.On})
		}
	}
	s, err := w.Base.With(more)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// "Already over with what is listed" stays true whatever the missing mass is.
func TestPropAtLeastIsSound(t *testing.T) {
	n := 0
	for _, fault := range []string{"rear-over", "total-over"} {
		whole := text(t, "../testdata/builds/avocet-"+fault+".yaml")
		b := parse(t, whole)
		for i := range b.Items {
			it := b.Items[i]
			if !it.Mass.Given() {
				continue
			}
			with := func(m doc.Opt[unit.MassEst]) *check.Weight {
				c := b
				c.Items = slices.Clone(b.Items)
				c.Items[i].Mass = m
				return assess(t, c, nil)
			}
			missing := with(doc.Opt[unit.MassEst]{})
			for _, key := range []string{"weight-total", "axle-front", "axle-rear"} {
				if finding(t, missing, key).Verdict != check.DoesNotHold {
					continue
				}
				n++
				for _, kg := range []float64{0, 5, 60, 400} {
					if f := finding(t, with(unit.Some(unit.MassEst{Value: unit.Kilogram.Times(kg)})), key); f.Verdict != check.DoesNotHold {
						t.Errorf("%s: with %s of %g kg %s is %q, without its mass it was already over", fault, it.ID, kg, key, f.Verdict.Says())
					}
				}
			}
		}
	}
	if n == 0 {
		t.Error("no verdict survives a missing mass")
	}
}

// Every way that is told to clear a limit does what it says when it is written into the file.
func TestCrossClearsByEditingTheFile(t *testing.T) {
	told := 0
	for _, path := range append(everyBuild(t), "rack") {
		whole := ""
		if path == "rack" {
			whole = insert(t, text(t, "../examples/curlew.yaml"), "items:\n", "  - {id: rack, name: Rack with two bicycles, mass: 64 kg, known: weighed, where: rear, at: {x: 5620 mm, y: 0 mm, z: 300 mm}}\n")
		} else {
			whole = text(t, path)
		}
		b := parse(t, whole)
		w := assess(t, b, nil)
		placed := derive.Place(b, w.In.Van, derive.Travel)
		f := docfile.Read("x.yaml", []byte(whole))
		for _, m := range w.Clears(placed) {
			told++
			c := doc.Change{ID: "c", Ops: []doc.Op{{Kind: doc.Remove, Path: "items/" + m.ID}}}
			if !m.Removal {
				at := derive.Placed{}
				for _, p := range placed {
					if p.Item.ID == m.ID {
						at = p
					}
				}
				c.Ops[0] = doc.Op{Kind: doc.Set, Path: "items/" + m.ID + "/at/x", Value: fmt.Sprintf("%.3f mm", (at.At[0].V + m.By).Millimetres())}
			}
			after, _, err := f.Apply(c)
			if err != nil {
				t.Errorf("%s: %s: %v", path, m.Says, err)
				continue
			}
			v := assess(t, after.Build, nil)
			for i, b := range v.Bounds {
				near(t, path+": "+m.Says+": "+b.Name, b.Margin.Kilograms(), m.Margins[i].Kilograms(), 0.002)
			}
		}
	}
	if told < 10 {
		t.Errorf("only %d ways are told", told)
	}
}

// Nothing that the design forbids is offered.
func TestPropNoGoList(t *testing.T) {
	for _, path := range everyBuild(t) {
		b := read(t, path)
		w := assess(t, b, nil)
		for _, m := range w.Clears(derive.Place(b, w.In.Van, derive.Travel)) {
			for i := range b.Items {
				it := &b.Items[i]
				if it.ID != m.ID {
					continue
				}
				tank, _ := it.Tank.Get()
				switch {
				case it.Seat.Given(), it.Locked != "", it.Group == "gas", tank.For == "gas", tank.For != "" && it.On == "under", it.Group == "safety" && m.Removal:
					t.Errorf("%s: %s is offered: %s", path, it.ID, m.Says)
				}
			}
		}
	}
}
