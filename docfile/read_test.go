package docfile

import (
	"os"
	"testing"
)

func TestScratch(t *testing.T) {
	b, _ := os.ReadFile("../examples/curlew.yaml")
	f := Read("curlew.yaml", b)
	for _, p := range f.Diags {
		t.Log(p, p.Path, p.Hint)
	}
	t.Log(f.Readable, len(f.Build.Items))
	if len(f.Build.Items) > 3 {
		t.Logf("%+v", f.Build.Items[30])
	}
}
func BenchmarkCurlew(b *testing.B) {
	t, _ := os.ReadFile("../examples/curlew.yaml")
	for b.Loop() {
		Read("x", t)
	}
}
