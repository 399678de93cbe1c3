package check

import (
	"berthwright/derive"
	"berthwright/docfile"
	"berthwright/parts"
	"berthwright/rules"
	"berthwright/unit"
	"berthwright/workshop"
	"fmt"
	"os"
	"testing"
)

func TestTry(t *testing.T) {
	b, _ := os.ReadFile("../examples/curlew.yaml")
	f := docfile.Read("curlew.yaml", b)
	cat, err := parts.Load()
	if err != nil {
		t.Fatal(err)
	}
	in := derive.MakeWeight(f.Build, derive.Context{Parts: cat, Shop: workshop.Workshop{}}, nil)
	d, _ := f.Build.Head.Date.Get()
	pack, err := rules.For("uk", d)
	if err != nil {
		t.Fatal(err)
	}
	w := AssessWeight(in, pack)
	for _, c := range w.Cases {
		fr, _ := c.Split.Front.Get()
		r, _ := c.Split.Rear.Get()
		fmt.Printf("%-24s %8.2f %8.2f %8.2f  %s\n", c.ID, fr.Kilograms(), r.Kilograms(), c.Split.Total.Kilograms(), c.Says)
	}
	for _, x := range w.Findings {
		fmt.Printf("%-14s %-40s %s\n", x.Verdict.Says(), x.Key(), x.Says.Text(unit.Metric))
	}
	for _, p := range w.Party {
		fmt.Println(p)
	}
	for _, p := range in.Assumed {
		fmt.Println(p)
	}
	fmt.Println(w.Left, in.Lacks)
}
func BenchmarkTry(t *testing.B) {
	b, _ := os.ReadFile("../examples/curlew.yaml")
	f := docfile.Read("curlew.yaml", b)
	cat, _ := parts.Load()
	d, _ := f.Build.Head.Date.Get()
	pack, _ := rules.For("uk", d)
	ctx := derive.Context{Parts: cat, Shop: workshop.Workshop{}}
	for t.Loop() {
		AssessWeight(derive.MakeWeight(f.Build, ctx, nil), pack)
	}
}
