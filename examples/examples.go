// Package examples holds the demo builds of the invented workshop Marram Lane, built into the program so that it can
// show them without a file: Curlew (a family and their kayaks), Dunlin (two who work through the winter) and Avocet
// (deliberately bad). The workshop file is workshop.yaml.
package examples

import "embed"

//go:embed avocet.yaml curlew.yaml dunlin.yaml workshop.yaml
var files embed.FS

// Builds returns the names of the demo builds, best first.
func Builds() []string { return []string{"curlew", "dunlin", "avocet"} }

// Text returns the text of a demo build, or of "workshop"; false for any other name.
func Text(name string) (text []byte, ok bool) {
	text, err := files.ReadFile(name + ".yaml")
	return text, err == nil
}
