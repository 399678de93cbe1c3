package docfile

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"berthwright/doc"
)

// vanOf returns a build with so many items, written as people write them.
func vanOf(items int) []byte {
	var b strings.Builder
	b.WriteString("berthwright: 1\nbuild: {id: bench, name: Bench, country: uk, date: 2026-11-01}\nvan:\n  wheelbase: 4.00 m\n  plated: {total: 3500 kg, front: 1860 kg, rear: 1900 kg}\nitems:\n")
	for i := range items {
		fmt.Fprintf(&b, "  - id: item-%d\n    name: Compressor fridge of row %d, 72 L class\n    group: kitchen\n    mass: %d.%d kg ± 4 %%\n    known: data-sheet\n    size: {x: %d mm, y: 520 mm, z: 560 mm}\n", i, i, 1+i%40, i%10, 300+i%200)
		if i%2 == 0 {
			fmt.Fprintf(&b, "    at: {x: %d mm, y: %d mm, z: 30 mm}   # as drawn\n", 1700+7*i%3000, i%1600-800)
		} else {
			fmt.Fprintf(&b, "    place: {behind: item-%d, left-wall: %d mm, finished-floor: 0 mm}\n", i-1, i%90)
		}
	}
	b.WriteString("loading:\n  luggage: 145 kg\n")
	return []byte(b.String())
}

func BenchmarkRead3000Lines(b *testing.B) {
	text := vanOf(428)
	if n := strings.Count(string(text), "\n"); n < 3000 {
		b.Fatalf("%d lines", n)
	}
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if f := Read("bench.yaml", text); len(f.Diags) > 0 {
			b.Fatal(f.Diags[0])
		}
	}
}

// BenchmarkPreview200Items runs beside 40 MB of other memory, as in a server: a preview makes half a megabyte of
// garbage, and beside an empty heap the collector would be measured.
func BenchmarkPreview200Items(b *testing.B) {
	beside := make([]byte, 40<<20)
	defer runtime.KeepAlive(beside)
	f := Read("bench.yaml", vanOf(200))
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		c := doc.Change{Ops: []doc.Op{
			{Kind: doc.Set, Path: "items/item-100/at/x", Value: fmt.Sprintf("%d mm", 2000+i%500)},
			{Kind: doc.Set, Path: "items/item-100/at/y", Value: fmt.Sprintf("%d mm", i%500)},
		}}
		if _, list, err := f.Preview(c); err != nil || len(list) > 0 {
			b.Fatal(err, list)
		}
	}
}

func BenchmarkApply200Items(b *testing.B) {
	f := Read("bench.yaml", vanOf(200))
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := f.Apply(doc.Change{Ops: []doc.Op{{Kind: doc.Set, Path: "items/item-100/at/x", Value: "2000 mm"}}}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPaste100Rows(b *testing.B) {
	f := Read("bench.yaml", vanOf(100))
	var c doc.Change
	for i := range 100 {
		c.Ops = append(c.Ops, doc.Op{Kind: doc.Insert, Path: "items", Value: fmt.Sprintf("{id: row-%d, name: Row %d, mass: 3.5 kg, at: {x: 2 m, y: 0 mm}}", i, i)})
	}
	for b.Loop() {
		if _, _, err := f.Apply(c); err != nil {
			b.Fatal(err)
		}
	}
}
