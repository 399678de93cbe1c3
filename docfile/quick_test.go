package docfile

import (
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// compareReaders holds the quick reader to the library.
func compareReaders(t testing.TB, text []byte) (quickly bool) {
	t.Helper()
	if plainText(text) != nil {
		return false
	}
	got, ok := quick(text)
	if !ok {
		return false
	}
	want, bad := parseYAML(text)
	if bad != nil {
		t.Fatalf("%q\nthe library refuses what the quick reader read: %s at %d", text, bad.text(), bad.start)
	}
	if d := cmp.Diff(want, got, cmp.AllowUnexported(node{})); d != "" {
		t.Fatalf("%q\n-library +quick\n%s", text, d)
	}
	return true
}

func TestCrossQuickReader(t *testing.T) {
	quickly := 0
	r := rand.New(rand.NewPCG(3, 3))
	for _, text := range texts(t) {
		if compareReaders(t, text) {
			quickly++
		}
		for range 60 { // cut, doubled and shuffled lines
			s := append([]byte(nil), text[:min(len(text), 3000)]...)
			for range 1 + r.IntN(3) {
				i, j := r.IntN(len(s)), r.IntN(len(s))
				switch r.IntN(4) {
				case 0:
					s[i] = s[j]
				case 1:
					s = append(s[:i:i], s[min(len(s), i+1+r.IntN(4)):]...)
				case 2:
					s = append(append(append([]byte(nil), s[:i]...), s[j:min(len(s), j+1+r.IntN(8))]...), s[i:]...)
				case 3:
					s[i] = []byte(" \n:-,{}[]#'\"|>")[r.IntN(14)]
				}
				if len(s) < 2 {
					break
				}
			}
			compareReaders(t, s)
		}
	}
	if quickly == 0 {
		t.Fatal("no text was read quickly")
	}
}

func FuzzQuickReader(f *testing.F) {
	for _, text := range texts(f) {
		f.Add(text[:min(len(text), 600)])
	}
	for _, s := range []string{"a: b\n", "a:\n- b\n- {c: d, e}\nf: [1, 'x''y', \"z\"] # g\n", "a: |\n  b\n  c\nd: >-\n  e\n  f\n\ng:\n", "a:\n  - b:\n      c\n", "a: {b: [c, {d: e},\n  f]}\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) { compareReaders(t, text) })
}
