// Command docs writes docs/sources.md and docs/evidence.md from the register of publications, the
// rules and the citations and evidence levels in the Go files of the module.
//
// Usage, at the root of the module:
//
//	go run ./internal/gen/docs           writes the files
//	go run ./internal/gen/docs -check    exits with 1 when a file differs from what would be written
package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
)

func main() {
	check := flag.Bool("check", false, "compare only")
	root := flag.String("root", ".", "root of the module")
	flag.Parse()
	if err := run(*root, *check); err != nil {
		fmt.Fprintln(os.Stderr, "docs:", err)
		os.Exit(1)
	}
}

func run(root string, check bool) error {
	found, err := scan(root)
	if err != nil {
		return err
	}
	for name, text := range map[string]string{"sources.md": sourcesPage(found), "evidence.md": evidencePage(found)} {
		path := filepath.Join(root, "docs", name)
		old, err := os.ReadFile(path)
		switch {
		case err == nil && bytes.Equal(old, []byte(text)):
			continue
		case check:
			return fmt.Errorf("%s is not what the code says; run go run ./internal/gen/docs", path)
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			return err
		}
	}
	return nil
}
