// Package archtest answers: does the code still keep the shape it was given?
//
// One table says which package of ours may import which; a test compares it with `go list`. A
// second test type-checks the module once and refuses the ways in which quantities lose their
// unit, clocks, files and goroutines in the sciences, and init functions. All of it is read from
// source; nothing here runs.
package archtest

import "strings"

// allowed maps each package to the packages of ours it may import. Adding an edge is a reviewed
// line. The order is the order of the layers: nothing imports from below its own line.
// Packages that are planned but not there yet are listed as well.
var allowed = map[string]string{
	// quantities, diagnostics, working
	"unit":  "",
	"diag":  "unit",
	"calc":  "",
	"table": "unit calc",
	"geom":  "unit",
	"solve": "",
	"flow":  "unit calc table solve",

	// sciences
	"axle":      "unit calc solve",
	"restraint": "unit calc",
	"conductor": "unit calc table",
	"network":   "unit calc solve conductor",
	"protect":   "unit calc table conductor network",
	"mains":     "unit calc table conductor protect",
	"battery":   "unit calc table",
	"sun":       "unit calc solve",
	"climate":   "unit calc table sun",
	"gas":       "unit calc table flow",
	"water":     "unit calc table flow",
	"heat":      "unit calc table solve",
	"air":       "unit calc table",
	"board":     "unit calc geom",
	"nest":      "unit calc geom",
	"price":     "unit calc",
	"bays":      "unit calc",
	"aboard":    "unit calc table solve network battery sun climate gas water heat air",
	"route":     "unit calc geom",

	// the description
	"doc":      "unit",
	"docfile":  "unit diag doc",
	"source":   "",
	"parts":    "unit calc diag doc docfile",
	"rules":    "unit calc doc",
	"workshop": "unit calc diag doc docfile rules",
	"derive":   "unit calc geom doc parts rules workshop " + sciences,
	"edit":     "unit diag doc docfile parts workshop derive",
	"check":    "unit calc geom doc rules source derive " + sciences,

	// outputs, keeping, faces
	"drawing/fonts":       "",
	"drawing":             "unit geom drawing/fonts",
	"drawing/drawingtest": "unit drawing",
	"paper":               "unit calc axle doc rules source derive check drawing drawing/fonts",
	"sheet":               "unit calc geom axle doc source parts rules workshop derive check drawing paper", // joins description and outputs for every face
	"store":               "unit diag doc docfile",
	"web":                 faces + " axle", // reads the result structs that check hands on
	"cli":                 faces + " axle web examples",
	"cmd/berthwright":     "cli",

	"examples": "",

	"internal/archtest": "",
	"internal/calctest": "calc",
}

const (
	leaves   = "unit diag calc table geom solve flow"
	sciences = "axle restraint conductor network protect mains battery sun climate gas water heat air board nest price bays aboard route"
	faces    = "unit diag calc doc docfile source parts rules workshop derive edit check drawing paper sheet store"
)

// generators may import what they generate from.
const generators = "internal/gen/"

// pure reports whether the package is one of the sciences or the leaves they stand on: no clock,
// no files, no network, no randomness without a seed, no goroutines.
func pure(pkg string) bool { return has(leaves+" "+sciences, pkg) }

func has(list, word string) bool {
	for _, w := range strings.Fields(list) {
		if w == word {
			return true
		}
	}
	return false
}

// impure lists imports that no pure package may have, also by a package below them. bufio, io and
// time stay free; the clock itself is refused by name.
const impure = "os net log math/rand math/rand/v2 sync syscall database/sql"

// impureImport reports whether the path is one of the impure packages or below one of them.
func impureImport(path string) bool {
	for _, w := range strings.Fields(impure) {
		if path == w || strings.HasPrefix(path, w+"/") {
			return true
		}
	}
	return false
}
