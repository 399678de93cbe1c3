package docfile

import (
	"os"
	"testing"
)

func TestScratch(t *testing.T) {
	b, _ := os.ReadFile("../examples/curlew.yaml")
	f := Read("curlew.yaml", b)
	for _, p := range f.problems {
		t.Log(p.start, p.path, p.code, p.message, "|", p.hint)
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
