// Command api writes web/ui/src/api.gen.ts, the page's types, from the structs of web/api*.go.
//
// Usage, at the root of the module:
//
//	go run ./internal/gen/api           writes the file
//	go run ./internal/gen/api -check    exits with 1 when the file differs from what would be written
//
// A number whose JSON name ends in "Um" becomes Um (whole micrometres), one that is "kg" or ends in "Kg" becomes Kg:
// branded numbers, so that two spaces or units cannot be mixed up in the page. A tag ts:"..." names the type as it is.
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
		fmt.Fprintln(os.Stderr, "api:", err)
		os.Exit(1)
	}
}

func run(root string, check bool) error {
	text, err := generate(root)
	if err != nil {
		return err
	}
	path := filepath.Join(root, "web", "ui", "src", "api.gen.ts")
	old, err := os.ReadFile(path)
	if err == nil && bytes.Equal(old, text) {
		return nil
	}
	if check {
		return fmt.Errorf("%s is not what web/api*.go say; run go run ./internal/gen/api", path)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, text, 0o644)
}
