package check_test

import (
	"fmt"
	"strings"
	"testing"

	"berthwright/check"
	"berthwright/derive"
	"berthwright/doc"
	"berthwright/docfile"
)

// fullBuild is the demo van with entries up to 200, those added standing clear of each other in the aisle.
func fullBuild(b *testing.B) doc.Build {
	b.Helper()
	s := text(b, "../examples/curlew.yaml")
	var more strings.Builder
	for i := range 200 - len(parse(b, s).Items) {
		fmt.Fprintf(&more, "  - {id: extra-%d, name: Extra %d, group: other, mass: 0.1 kg ± 10 %%, known: estimated, size: {x: 90 mm, y: 90 mm, z: 90 mm}, at: {x: %d mm, y: %d mm, z: 1250 mm}}\n", i, i, 1700+100*(i%20), -300+100*(i/20))
	}
	f := docfile.Read("full.yaml", []byte(insert(b, s, "items:\n", more.String())))
	if len(f.Build.Items) != 200 {
		b.Fatalf("%d items", len(f.Build.Items))
	}
	return f.Build
}

// BenchmarkAssessFit derives and judges the fit of 200 items in every state; the aim is 6 ms.
func BenchmarkAssessFit(b *testing.B) {
	build, ctx := fullBuild(b), context(b)
	pack := packOf(b, build)
	b.ReportAllocs()
	for b.Loop() {
		check.AssessFit(derive.MakeFit(build, ctx), pack)
	}
}

// BenchmarkAssessFitMoving is what is told while something moves; the aim is 2 ms.
func BenchmarkAssessFitMoving(b *testing.B) {
	build, ctx := fullBuild(b), context(b)
	pack := packOf(b, build)
	b.ReportAllocs()
	for b.Loop() {
		check.AssessFitMoving(derive.MakeFit(build, ctx), pack)
	}
}

func BenchmarkMakeFit(b *testing.B) {
	build, ctx := fullBuild(b), context(b)
	b.ReportAllocs()
	for b.Loop() {
		derive.MakeFit(build, ctx)
	}
}
