package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// findings is what the Go files of the module, tests left out, cite and claim.
type findings struct {
	files  int
	cited  map[string][]string // key of a publication -> packages that cite it, sorted
	values []value             // values with an evidence level, outside package rules
}

// value is a composite literal with an evidence level, such as a calc.Const.
type value struct {
	Package string
	Level   string // "Recalled"
	Says    string
	SI      string // as written in the source
	Cite    string // key and place
}

// scan reads the Go files below root.
func scan(root string) (findings, error) {
	found := findings{cited: map[string][]string{}}
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if base := d.Name(); base == "node_modules" || base == "testdata" || strings.HasPrefix(base, ".") && name != root {
				return filepath.SkipDir
			}
			return nil
		}
		if filepath.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		rel, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		pkg := path.Dir(filepath.ToSlash(rel))
		if pkg == "source" {
			return nil // the register names itself
		}
		return found.read(name, nil, pkg)
	})
	if err != nil {
		return findings{}, err
	}
	if found.files == 0 {
		return findings{}, fmt.Errorf("no Go files below %q", root)
	}
	for key := range found.cited {
		slices.Sort(found.cited[key])
	}
	slices.SortStableFunc(found.values, func(a, b value) int {
		return strings.Compare(a.Package+a.Cite+a.Says, b.Package+b.Cite+b.Says)
	})
	return found, nil
}

// read adds what one file cites. src, when not nil, stands in for the text of the file.
func (f *findings) read(name string, src any, pkg string) error {
	file, err := parser.ParseFile(token.NewFileSet(), name, src, parser.SkipObjectResolution)
	if err != nil {
		return err
	}
	f.files++
	ast.Inspect(file, func(n ast.Node) bool {
		lit, ok := n.(*ast.CompositeLit)
		if !ok {
			return true
		}
		if isCite(lit.Type) {
			f.cite(pkg, lit)
		}
		if list, ok := lit.Type.(*ast.ArrayType); ok && isCite(list.Elt) {
			for _, e := range lit.Elts {
				if elided, ok := e.(*ast.CompositeLit); ok && elided.Type == nil {
					f.cite(pkg, elided)
				}
			}
		}
		if level := levelName(field(lit, "Level")); level != "" && pkg != "rules" && pkg != "calc" {
			v := value{Package: pkg, Level: level, Says: text(field(lit, "Says")), SI: number(field(lit, "SI")), Cite: firstCite(lit)}
			if v.Says+v.SI+v.Cite != "" { // a finding has a level too, but is no value
				f.values = append(f.values, v)
			}
		}
		return true
	})
	return nil
}

func (f *findings) cite(pkg string, lit *ast.CompositeLit) {
	key, _ := citeParts(lit)
	if key != "" && !slices.Contains(f.cited[key], pkg) {
		f.cited[key] = append(f.cited[key], pkg)
	}
}

// isCite reports whether the type is calc.Cite, inside calc or outside.
func isCite(t ast.Expr) bool {
	switch t := t.(type) {
	case *ast.SelectorExpr:
		return t.Sel.Name == "Cite"
	case *ast.Ident:
		return t.Name == "Cite"
	}
	return false
}

// citeParts returns key and place of a Cite with or without field names.
func citeParts(lit *ast.CompositeLit) (key, at string) {
	key, at = text(field(lit, "Key")), text(field(lit, "At"))
	if key == "" && len(lit.Elts) > 0 {
		key = text(lit.Elts[0])
		if len(lit.Elts) > 1 {
			at = text(lit.Elts[1])
		}
	}
	return key, at
}

// firstCite returns the citation of a literal with a field Source.
func firstCite(lit *ast.CompositeLit) string {
	cites, ok := field(lit, "Source").(*ast.CompositeLit)
	if !ok {
		return ""
	}
	if _, list := cites.Type.(*ast.ArrayType); list && len(cites.Elts) > 0 {
		if cites, ok = cites.Elts[0].(*ast.CompositeLit); !ok {
			return ""
		}
	}
	key, at := citeParts(cites)
	return strings.TrimSuffix(key+", "+at, ", ")
}

// field returns the value of a named field of a literal, or nil.
func field(lit *ast.CompositeLit, name string) ast.Expr {
	for _, e := range lit.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			if key, ok := kv.Key.(*ast.Ident); ok && key.Name == name {
				return kv.Value
			}
		}
	}
	return nil
}

// levelName returns the name of a level such as calc.Recalled, or "" for a variable.
func levelName(e ast.Expr) string {
	if s, ok := e.(*ast.SelectorExpr); ok && slices.Contains([]string{"Unsourced", "Recalled", "Secondary", "Seen"}, s.Sel.Name) {
		return s.Sel.Name
	}
	return ""
}

// text returns a string literal.
func text(e ast.Expr) string {
	if b, ok := e.(*ast.BasicLit); ok && b.Kind == token.STRING {
		s, _ := strconv.Unquote(b.Value)
		return s
	}
	return ""
}

// number returns a numeric literal as written.
func number(e ast.Expr) string {
	if b, ok := e.(*ast.BasicLit); ok && b.Kind != token.STRING {
		return b.Value
	}
	return ""
}
