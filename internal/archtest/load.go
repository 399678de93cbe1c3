package archtest

import (
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

const module = "berthwright"

// listed is what `go list` tells of one package.
type listed struct {
	ImportPath   string
	Dir          string
	GoFiles      []string
	Imports      []string
	TestImports  []string
	XTestImports []string
	Export       string
	Error        *struct{ Err string }
}

// short returns the path inside the module; ok is false for packages that are not ours.
func short(importPath string) (path string, ok bool) {
	return strings.CutPrefix(importPath, module+"/")
}

// loader type-checks packages against the export data that the go tool has in its cache.
type loader struct {
	fset     *token.FileSet
	packages []listed // ours
	importer types.Importer
}

// load lists the module and everything it depends on, compiling what is not in the cache yet.
func load() (*loader, error) {
	cmd := exec.Command("go", "list", "-e", "-export", "-deps",
		"-json=ImportPath,Dir,GoFiles,Imports,TestImports,XTestImports,Export,Error", module+"/...")
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	l := &loader{fset: token.NewFileSet()}
	exports := map[string]string{}
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, fmt.Errorf("go list: %w", err)
		}
		exports[p.ImportPath] = p.Export
		if _, ours := short(p.ImportPath); ours {
			l.packages = append(l.packages, p)
		}
	}
	l.importer = importer.ForCompiler(l.fset, "gc", func(path string) (io.ReadCloser, error) {
		if exports[path] == "" {
			return nil, fmt.Errorf("no export data for %q: does it compile?", path)
		}
		return os.Open(exports[path])
	})
	return l, nil
}

// check type-checks one package from its source and returns what inspect finds.
func (l *loader) check(p listed) ([]string, error) {
	var files []*ast.File
	for _, name := range p.GoFiles {
		file, err := parser.ParseFile(l.fset, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		files = append(files, file)
	}
	path, _ := short(p.ImportPath)
	return l.inspect(p.ImportPath, files, pure(path))
}

func (l *loader) inspect(path string, files []*ast.File, isPure bool) ([]string, error) {
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}
	config := types.Config{Importer: l.importer}
	if _, err := config.Check(path, l.fset, files, info); err != nil {
		return nil, err
	}
	return inspect(l.fset, files, info, path, isPure), nil
}
