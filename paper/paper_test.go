package paper_test

import (
	"os"
	"path/filepath"
	"testing"

	"berthwright/paper"
)

func all(t *testing.T) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	add := func(name string, b []byte, err error) {
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		out[name] = b
	}
	b, err := paper.MassStatement(statement())
	add("mass", b, err)
	p := placard()
	b, err = paper.Placard(p)
	add("placard", b, err)
	p.Small = true
	b, err = paper.Placard(p)
	add("placard-a5", b, err)
	b, err = paper.ChangeSlip(change())
	add("change", b, err)
	return out
}

// TestFrozenLook writes the papers for looking at, when BERTHWRIGHT_LOOK names a folder.
func TestFrozenLook(t *testing.T) {
	dir := os.Getenv("BERTHWRIGHT_LOOK")
	if dir == "" {
		t.Skip("BERTHWRIGHT_LOOK names no folder to write papers to")
	}
	for name, b := range all(t) {
		if err := os.WriteFile(filepath.Join(dir, name+".pdf"), b, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
