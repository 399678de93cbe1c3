package archtest

import (
	"bufio"
	"go/ast"
	"go/parser"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// TestPropArchitecture loads the module once and holds it against the table and the rules.
func TestPropArchitecture(t *testing.T) {
	l, err := load()
	if err != nil {
		t.Fatal(err)
	}
	if len(l.packages) < 5 {
		t.Fatalf("only %d packages listed", len(l.packages))
	}
	t.Run("imports", func(t *testing.T) {
		for _, p := range l.packages {
			for _, fault := range importFaults(p) {
				t.Error(fault)
			}
		}
	})
	t.Run("quantities", func(t *testing.T) {
		for _, p := range l.packages {
			found, err := l.check(p)
			if err != nil {
				t.Errorf("%s cannot be type-checked: %v", p.ImportPath, err)
			}
			for _, f := range found {
				t.Error(f)
			}
		}
	})
	t.Run("fixture", func(t *testing.T) { fixture(t, l) })
}

// importFaults compares the imports of one package with the table.
func importFaults(p listed) []string {
	path, _ := short(p.ImportPath)
	if strings.HasPrefix(path, generators) {
		return nil
	}
	row, known := allowed[path]
	if !known {
		return []string{path + " is not in the table: add a row to internal/archtest/table.go"}
	}
	var faults []string
	for _, imported := range p.Imports {
		other, ours := short(imported)
		switch {
		case ours && !has(row, other):
			faults = append(faults, path+" imports "+other+", which its row in internal/archtest/table.go does not allow")
		case pure(path) && impureImport(imported):
			faults = append(faults, path+" is a science and imports "+imported)
		}
	}
	if !pure(path) {
		return faults
	}
	for _, imported := range slices.Concat(p.TestImports, p.XTestImports) {
		if other, ours := short(imported); ours && other != path && other != "internal/calctest" && !has(row, other) {
			faults = append(faults, "a test of "+path+" imports "+other+": sciences do not know the document")
		}
	}
	return faults
}

func TestPropForbiddenImportsAreFound(t *testing.T) {
	for _, c := range []struct {
		p    listed
		want string
	}{
		{listed{ImportPath: "berthwright/axle", Imports: []string{"berthwright/doc"}}, "axle imports doc"},
		{listed{ImportPath: "berthwright/doc", Imports: []string{"berthwright/check"}}, "doc imports check"},
		{listed{ImportPath: "berthwright/nothing"}, "nothing is not in the table"},
		{listed{ImportPath: "berthwright/axle", Imports: []string{"os"}}, "axle is a science and imports os"},
		{listed{ImportPath: "berthwright/sun", Imports: []string{"net/http"}}, "sun is a science and imports net/http"},
		{listed{ImportPath: "berthwright/solve", Imports: []string{"math/rand/v2"}}, "solve is a science and imports math/rand/v2"},
		{listed{ImportPath: "berthwright/axle", XTestImports: []string{"berthwright/docfile"}}, "a test of axle imports docfile"},
		{listed{ImportPath: "berthwright/axle", Imports: []string{"math", "time", "berthwright/unit"}, XTestImports: []string{"berthwright/axle", "berthwright/internal/calctest"}}, ""},
		{listed{ImportPath: "berthwright/store", Imports: []string{"os", "berthwright/doc"}}, ""},
		{listed{ImportPath: "berthwright/internal/gen/docs", Imports: []string{"berthwright/rules"}}, ""},
	} {
		got := strings.Join(importFaults(c.p), "\n")
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s: faults %q, want %q", c.p.ImportPath, got, c.want)
		}
	}
}

// TestPropTableHasNoCycleAndNoStranger: each edge of the table leads to a row, and no package may
// import itself round a corner.
func TestPropTableHasNoCycleAndNoStranger(t *testing.T) {
	const entered, left = 1, 2
	state := map[string]int{}
	var visit func(pkg string, trail []string)
	visit = func(pkg string, trail []string) {
		trail = append(slices.Clip(trail), pkg)
		if state[pkg] == entered {
			t.Errorf("the table allows a cycle: %s", strings.Join(trail, " → "))
		}
		if state[pkg] != 0 {
			return
		}
		state[pkg] = entered
		for _, next := range strings.Fields(allowed[pkg]) {
			if _, ok := allowed[next]; !ok {
				t.Errorf("row %s allows %q, which has no row", pkg, next)
			}
			if pure(pkg) && !pure(next) {
				t.Errorf("row %s is a science and allows %s", pkg, next)
			}
			visit(next, trail)
		}
		state[pkg] = left
	}
	for pkg := range allowed {
		visit(pkg, nil)
	}
}

const fixtureSource = `package fixture

import (
	"time"

	"berthwright/unit"
)

type alias = unit.Mass
type own float64

func init() {} // init function

func bad(m, n unit.Mass, l unit.Length, a, b unit.Temperature, o alias) {
	_ = m * n               // "*" between
	_ = l / l               // "/" between
	_ = m * o               // "*" between
	m *= n                  // "*" between
	l /= l                  // "/" between
	_ = a - b               // between two temperatures
	a -= b                  // between two temperatures
	_ = float64(m)          // conversion of unit.Mass to float64
	_ = int64(l)            // conversion of unit.Length to int64
	_ = int(l)              // conversion of unit.Length to int
	_ = own(m)              // conversion of unit.Mass to berthwright/fixture.own
	_ = unit.Mass(l)        // conversion of unit.Length to unit.Mass
	_ = float64(unit.Metre) // conversion of unit.Length to float64
	_ = time.Now()          // time.Now in a science
	f := time.Since         // time.Since in a science
	_ = f
	go bad(m, n, l, a, b, o) // goroutine in a science
}

func good(m, n unit.Mass, l unit.Length, a, b unit.Temperature, at time.Time) {
	_ = m + n - m
	_ = 2 * m
	_ = 12.5 * unit.Kilogram
	_ = l / 2
	_ = a.Minus(b)
	_ = m.Kilograms() * n.Kilograms()
	_ = unit.Mass(m.Kilograms())
	_ = unit.Mass(n)
	_ = at.After(at)
	_ = float64(3)
}
`

// fixture checks that each line of the fixture with a comment is found for that reason, and no other.
func fixture(t *testing.T, l *loader) {
	file, err := parser.ParseFile(l.fset, "fixture.go", fixtureSource, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	found, err := l.inspect("berthwright/fixture", []*ast.File{file}, true)
	if err != nil {
		t.Fatal(err)
	}
	comments := 0
	for i, line := range strings.Split(fixtureSource, "\n") {
		_, want, marked := strings.Cut(line, "// ")
		if marked {
			comments++
		}
		at := regexp.MustCompile(`^fixture\.go:` + strconv.Itoa(i+1) + `: `)
		n := slices.IndexFunc(found, func(f string) bool { return at.MatchString(f) })
		if marked != (n >= 0) || marked && !strings.Contains(found[n], want) {
			t.Errorf("fixture line %d %q: found %v", i+1, strings.TrimSpace(line), found)
		}
	}
	if len(found) != comments || comments == 0 {
		t.Errorf("%d findings for %d marked lines", len(found), comments)
	}
}

// generatedName matches files that are generated by their name.
var generatedName = regexp.MustCompile(`(_gen\.go|\.gen\.(go|ts|md))$|^docs/(sources|evidence)\.md$`)

// generatedLine is the exact header; the comment signs are those of Go, Markdown and shell.
var generatedLine = regexp.MustCompile(`^(// Code generated .+ DO NOT EDIT\.|<!-- Code generated .+ DO NOT EDIT\. -->|# Code generated .+ DO NOT EDIT\.)$`)

// headerFault says what is wrong with the first lines of a file, or "".
func headerFault(name string, first []string) string {
	exact := slices.ContainsFunc(first, generatedLine.MatchString)
	claims := slices.ContainsFunc(first, func(l string) bool {
		return strings.Contains(strings.ToUpper(l), "DO NOT EDIT") || strings.Contains(l, "Code generated")
	})
	switch {
	case generatedName.MatchString(name) && !exact:
		return name + " is generated, but its first lines are not the exact generated header"
	case claims && !exact:
		return name + " claims to be generated, but not with the exact header"
	}
	return ""
}

// TestPropGeneratedHeaders reads the first lines of every source and document of the module.
func TestPropGeneratedHeaders(t *testing.T) {
	root := filepath.Join("..", "..")
	if _, err := os.Stat(filepath.Join(root, "go.mod")); err != nil {
		t.Fatal(err)
	}
	read, generated := 0, 0
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if name := d.Name(); name == "node_modules" || name == "dist" || strings.HasPrefix(name, ".") && path != root {
				return filepath.SkipDir
			}
			return nil
		}
		rel, err := filepath.Rel(root, path)
		if err != nil || !slices.Contains([]string{".go", ".ts", ".tsx", ".md"}, filepath.Ext(path)) {
			return err
		}
		first, err := firstLines(path, 3)
		if err != nil {
			return err
		}
		read++
		if slices.ContainsFunc(first, generatedLine.MatchString) {
			generated++
		}
		if fault := headerFault(filepath.ToSlash(rel), first); fault != "" {
			t.Error(fault)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if read == 0 || generated == 0 {
		t.Errorf("%d files read, %d generated ones found", read, generated)
	}
}

func firstLines(path string, n int) ([]string, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var lines []string
	for s := bufio.NewScanner(f); len(lines) < n && s.Scan(); {
		lines = append(lines, s.Text())
	}
	return lines, nil
}

func TestPropWrongHeadersAreFound(t *testing.T) {
	for _, c := range []struct {
		name, first string
		ok          bool
	}{
		{"a/b_gen.go", "// Code generated by gen; DO NOT EDIT.", true},
		{"docs/sources.md", "<!-- Code generated by internal/gen/docs; DO NOT EDIT. -->", true},
		{"a/b.go", "package b", true},
		{"a/b_gen.go", "package b", false},
		{"docs/evidence.md", "# Evidence", false},
		{"a/b.go", "// Code generated by gen. Do not edit.", false},
		{"a/b.go", "//Code generated by gen; DO NOT EDIT.", false},
		{"a/b.go", "// DO NOT EDIT.", false},
		{"web/ui/src/api.gen.ts", "/* generated */", false},
	} {
		if fault := headerFault(c.name, []string{c.first}); (fault == "") != c.ok {
			t.Errorf("%s with %q: fault %q", c.name, c.first, fault)
		}
	}
}
