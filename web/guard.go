package web

import (
	"net"
	"net/http"
	"slices"
	"strings"
)

// The largest bodies read.
const (
	mostText = 2 << 20 // a build text
	mostBody = 1 << 20 // anything else

	mostPhoto = 5 << 20
)

// policy lets the page run its own scripts and styles and talk to its own server; nothing else.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; " +
	"manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; object-src 'none'"

// guard refuses what does not come from the page and marks every answer.
func (s *Server) guard(next http.Handler) http.Handler {
	origins := http.NewCrossOriginProtection()
	origins.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.fail(w, r, refuse(http.StatusForbidden, "cross-origin", "another page asked for this", "open Berthwright itself and do it there"))
	}))
	inner := origins.Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()")
		h.Set("X-Frame-Options", "DENY")
		if !s.knownHost(r.Host) {
			s.fail(w, r, refuse(http.StatusMisdirectedRequest, "unknown-host", "this server does not answer to that host name", "open it by the address it printed when it started"))
			return
		}
		if site := r.Header.Get("Sec-Fetch-Site"); strings.HasPrefix(r.URL.Path, "/api/") && site != "" && site != "same-origin" && site != "none" {
			// Reading is refused too: a paper that is asked for is kept.
			s.fail(w, r, refuse(http.StatusForbidden, "cross-origin", "another page asked for this", "open Berthwright itself and do it there"))
			return
		}
		if r.Body != nil {
			most := int64(mostBody)
			if strings.HasSuffix(r.URL.Path, "/text") || r.URL.Path == "/api/import" || r.URL.Path == "/api/workshop" {
				most = 2*mostText + 4096 // JSON escapes may double a text; its own length is checked when it is read
			}
			if strings.HasSuffix(r.URL.Path, "/photos") {
				most = mostPhoto
			}
			r.Body = http.MaxBytesReader(w, r.Body, most)
		}
		inner.ServeHTTP(w, r)
	})
}

// knownHost reports whether a Host header names this server: a page of another name that resolves to this machine
// (rebinding) does not.
func (s *Server) knownHost(host string) bool {
	name, _, err := net.SplitHostPort(host)
	if err != nil {
		name = host
	}
	name = strings.TrimSuffix(strings.TrimPrefix(strings.TrimSuffix(name, "]"), "["), ".")
	switch strings.ToLower(name) {
	case "localhost", "127.0.0.1", "::1":
		return true
	}
	return slices.ContainsFunc(s.cfg.Hosts, func(h string) bool { return strings.EqualFold(h, name) })
}
