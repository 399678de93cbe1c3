package parts

import "testing"

// What a check of one build needs: the list of ids and one class of van.
func BenchmarkLoadAndOneClass(b *testing.B) {
	for b.Loop() {
		c, err := Load()
		if err != nil {
			b.Fatal(err)
		}
		if _, ok := c.Class("panel-60-high"); !ok {
			b.Fatal("no class")
		}
	}
}

func BenchmarkSearchFirst(b *testing.B) {
	for b.Loop() {
		c, err := Load()
		if err != nil {
			b.Fatal(err)
		}
		if len(c.Search("fridge", "")) == 0 {
			b.Fatal("nothing found")
		}
	}
}
