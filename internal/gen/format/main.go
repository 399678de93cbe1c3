// Command format writes docs/file-format.md and docs/schema/berthwright.schema.json from the field table of package
// doc.
//
// Usage, at the root of the module:
//
//	go run ./internal/gen/format           writes the files
//	go run ./internal/gen/format -check    exits with 1 when a file differs from what would be written
package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"berthwright/doc"
)

func main() {
	check := flag.Bool("check", false, "compare only")
	root := flag.String("root", ".", "root of the module")
	flag.Parse()
	if err := run(*root, *check); err != nil {
		fmt.Fprintln(os.Stderr, "format:", err)
		os.Exit(1)
	}
}

func run(root string, check bool) error {
	files, err := generate()
	if err != nil {
		return err
	}
	for _, f := range files {
		path := filepath.Join(root, filepath.FromSlash(f.name))
		old, err := os.ReadFile(path)
		if err == nil && bytes.Equal(old, f.text) {
			continue
		}
		if check {
			return fmt.Errorf("%s is not what package doc says; run go run ./internal/gen/format", f.name)
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, f.text, 0o644); err != nil {
			return err
		}
	}
	return nil
}

type file struct {
	name string
	text []byte
}

func generate() ([]file, error) {
	build, err := schema("build", doc.Fields())
	if err != nil {
		return nil, err
	}
	record, err := schema("record", doc.RecordFields())
	if err != nil {
		return nil, err
	}
	return []file{
		{"docs/file-format.md", []byte(page(doc.Fields(), doc.RecordFields()))},
		{"docs/schema/berthwright.schema.json", build},
		{"docs/schema/berthwright-record.schema.json", record},
	}, nil
}
