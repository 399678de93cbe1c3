package web

import (
	"fmt"
	"net/http"
	"strings"

	"github.com/klauspost/compress/gzhttp"
)

// routes lists every address, in the order of api.go.
func (s *Server) routes() (http.Handler, error) {
	mux := http.NewServeMux()
	for pattern, do := range s.answers() {
		mux.Handle(pattern, s.handle(do))
	}
	mux.Handle("/api/", s.handle(func(w http.ResponseWriter, r *http.Request) (any, error) {
		if allowed := methodsAt(mux, r); len(allowed) > 0 {
			w.Header().Set("Allow", strings.Join(allowed, ", "))
			return nil, refuse(http.StatusMethodNotAllowed, "no-method", fmt.Sprintf("%s does nothing at this address", cut(r.Method)), "it takes "+strings.Join(allowed, ", "))
		}
		return nil, refuse(http.StatusNotFound, "no-address", "there is nothing at this address", "")
	}))
	page, err := s.page()
	if err != nil {
		return nil, err
	}
	mux.Handle("/", page)
	zip, err := gzhttp.NewWrapper(gzhttp.MinSize(2048), gzhttp.CompressionLevel(1))
	if err != nil {
		return nil, err
	}
	top := http.NewServeMux() // event streams go round the compression
	top.Handle("GET /api/builds/{id}/events", http.HandlerFunc(s.stream))
	top.Handle("/", zip(mux))
	return s.guard(top), nil
}

// methodsAt lists what may be done at the address of a request.
func methodsAt(mux *http.ServeMux, r *http.Request) []string {
	var out []string
	for _, m := range [...]string{http.MethodGet, http.MethodPost, http.MethodPut, http.MethodDelete} {
		if _, pattern := mux.Handler(&http.Request{Method: m, URL: r.URL, Host: r.Host}); strings.HasPrefix(pattern, m+" ") {
			out = append(out, m)
		}
	}
	return out
}

type answerer = func(w http.ResponseWriter, r *http.Request) (any, error)

func (s *Server) answers() map[string]answerer {
	return map[string]answerer{
		"GET /api/builds":                    s.getBuilds,
		"POST /api/builds":                   s.postBuild,
		"GET /api/choices":                   s.getChoices,
		"GET /api/builds/{id}":               s.getBuild,
		"DELETE /api/builds/{id}":            s.deleteBuild,
		"POST /api/builds/{id}/restore":      s.restoreBuild,
		"POST /api/builds/{id}/changes":      s.postChange,
		"POST /api/builds/{id}/preview":      s.postPreview,
		"POST /api/builds/{id}/undo":         s.postUndo,
		"POST /api/builds/{id}/paste":        s.postPaste,
		"GET /api/builds/{id}/text":          s.getText,
		"PUT /api/builds/{id}/text":          s.putText,
		"DELETE /api/builds/{id}/text":       s.dropDraft,
		"GET /api/builds/{id}/scene":         s.getScene,
		"GET /api/builds/{id}/slip":          s.getSlip,
		"GET /api/builds/{id}/history":       s.getHistory,
		"GET /api/builds/{id}/diff":          s.getDiff,
		"GET /api/builds/{id}/swap":          s.getSwap,
		"GET /api/builds/{id}/record":        s.getRecord,
		"POST /api/builds/{id}/record":       s.postRecord,
		"GET /api/builds/{id}/form":          s.getForm,
		"GET /api/builds/{id}/solids":        s.getSolids,
		"GET /api/builds/{id}/bay":           s.getBay,
		"POST /api/builds/{id}/bay":          s.postBay,
		"POST /api/builds/{id}/photos":       s.postPhoto,
		"GET /api/builds/{id}/photos/{name}": s.getPhoto,
		"GET /api/builds/{id}/papers/{name}": s.getPaper,
		"GET /api/builds/{id}/export":        s.getExport,
		"POST /api/import":                   s.postImport,
		"GET /api/parts":                     s.getParts,
		"GET /api/workshop":                  s.getWorkshop,
		"PUT /api/workshop":                  s.putWorkshop,
		"GET /api/health":                    s.getHealth,
		"GET /openapi.json":                  s.getOpenAPI,
	}
}
