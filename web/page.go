package web

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"errors"
	"io/fs"
	"net/http"
	"os"
	"path"
	"strings"
)

// The page is built by make into dist; the repository holds a placeholder only.
//
//go:embed all:dist
var dist embed.FS

// page serves the files of the page. Any other address without a file's ending is the page itself, which reads it.
func (s *Server) page() (http.Handler, error) {
	var files fs.FS
	if s.cfg.UI != "" {
		root, err := os.OpenRoot(s.cfg.UI)
		if err != nil {
			return nil, err
		}
		files = root.FS()
	} else {
		sub, err := fs.Sub(dist, "dist")
		if err != nil {
			return nil, err
		}
		files = sub
	}
	tag := ""
	if b, err := fs.ReadFile(files, "index.html"); err == nil && s.cfg.UI == "" {
		sum := sha256.Sum256(b)
		tag = `"` + hex.EncodeToString(sum[:8]) + `"`
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			w.Header().Set("Allow", "GET, HEAD")
			http.Error(w, "a file is only read", http.StatusMethodNotAllowed)
			return
		}
		name := strings.TrimPrefix(path.Clean("/"+r.URL.Path), "/")
		if name != "" && path.Ext(name) == "" {
			name = ""
		}
		switch {
		case name == "" || name == "index.html":
			name = "index.html"
			if _, err := fs.Stat(files, name); errors.Is(err, fs.ErrNotExist) {
				name = "placeholder.html"
			} else if tag != "" {
				w.Header().Set("ETag", tag)
			}
			w.Header().Set("Cache-Control", "no-cache")
		case strings.HasPrefix(name, "assets/") && s.cfg.UI == "":
			w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
		default:
			w.Header().Set("Cache-Control", "no-cache")
		}
		info, err := fs.Stat(files, name)
		if err != nil || info.IsDir() {
			w.Header().Del("ETag")
			http.Error(w, "there is no such file", http.StatusNotFound)
			return
		}
		http.ServeFileFS(w, r, files, name)
	}), nil
}
