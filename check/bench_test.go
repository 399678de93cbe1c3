package check_test

import (
	"fmt"
	"strings"
	"testing"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/rules"
)

// bigBuild is the demo van with entries up to 200.
func bigBuild(b *testing.B) doc.Build {
	b.Helper()
	s := text(b, "../examples/curlew.yaml")
	var more strings.Builder
	have := len(parse(b, s).Items)
	for i := have; i < 200; i++ {
		fmt.Fprintf(&more, "  - {id: extra-%d, name: Extra %d, group: other, mass: 0.1 kg ± 10 %%, known: estimated, size: {x: 200 mm, y: 200 mm, z: 200 mm}, at: {x: %d mm, y: 100 mm, z: 300 mm}}\n", i, i, 1700+30*(i-have))
	}
	f := docfile.Read("big.yaml", []byte(insert(b, s, "items:\n", more.String())))
	if len(f.Build.Items) != 200 {
		b.Fatalf("%d items", len(f.Build.Items))
	}
	return f.Build
}

func packOf(b testing.TB, build doc.Build) rules.Pack {
	b.Helper()
	day, _ := build.Head.Date.Get()
	pack, err := rules.For(build.Head.Country, day)
	if err != nil {
		b.Fatal(err)
	}
	return pack
}

// BenchmarkAssess derives and assesses the weight of 200 items; the aim is 1 ms.
func BenchmarkAssess(b *testing.B) {
	build, ctx := bigBuild(b), context(b)
	pack := packOf(b, build)
	b.ReportAllocs()
	for b.Loop() {
		check.AssessWeight(derive.MakeWeight(build, ctx, nil), pack)
	}
}

// BenchmarkAssessAndClear adds what clears the tight rear axle; the aim is 2 ms.
func BenchmarkAssessAndClear(b *testing.B) {
	build, ctx := bigBuild(b), context(b)
	pack := packOf(b, build)
	placed := derive.Place(build, ctx.Van(build.Van), derive.Travel)
	b.ReportAllocs()
	for b.Loop() {
		if len(check.AssessWeight(derive.MakeWeight(build, ctx, nil), pack).Clears(placed)) == 0 {
			b.Fatal("nothing clears it")
		}
	}
}

// BenchmarkAddedMass is the curve of what can still be added; the aim is 0.1 ms.
func BenchmarkAddedMass(b *testing.B) {
	build, ctx := bigBuild(b), context(b)
	w := check.AssessWeight(derive.MakeWeight(build, ctx, nil), packOf(b, build))
	b.ReportAllocs()
	for b.Loop() {
		if len(w.Added()) == 0 {
			b.Fatal("no curve")
		}
	}
}

func BenchmarkDerive(b *testing.B) {
	build, ctx := bigBuild(b), context(b)
	b.ReportAllocs()
	for b.Loop() {
		derive.MakeWeight(build, ctx, nil)
	}
}
