package paper

import "testing"

func BenchmarkMassStatement(b *testing.B) {
	s := statement()
	for b.Loop() {
		if _, err := MassStatement(s); err != nil {
			b.Fatal(err)
		}
	}
}
