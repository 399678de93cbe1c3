// Package web answers: how does the page see and change a build?
//
// Serve runs the server over a data folder; New gives its handler for a caller that listens itself. The contract with the
// page is api.go. A change goes: gestures (package edit) are compiled to operations, applied to the text (package
// docfile), kept (package store), assessed (package sheet) and shown (view_*.go). Previews go the same way and are never
// kept.
//
// The server listens on the loopback unless told otherwise, and answers only to host names it knows, so that no other
// page in the browser can reach it.
package web

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"path/filepath"
	"sync"
	"time"

	"berthwright/derive"
	"berthwright/diag"
	"berthwright/docfile"
	"berthwright/parts"
	"berthwright/sheet"
	"berthwright/store"
	"berthwright/workshop"
)

// Config is what a server is started with.
type Config struct {
	Addr  string            // "127.0.0.1:8340" when empty; port 0 takes a free one
	Data  string            // folder of the store
	UI    string            // folder the page is read from; "" for the one built in
	Hosts []string          // host names answered to beside the loopback ones, without port
	Demos map[string]string // texts of demo builds by id, offered to a new build
	Out   io.Writer         // the address is printed here, on the first line; nil for nowhere
	Log   *slog.Logger      // for the operator; nil for nowhere
}

// Server answers the page. It is closed by Close.
type Server struct {
	cfg      Config
	store    *store.Store
	sessions sessions
	events   hub
	handler  http.Handler
	pairs    sync.Mutex // held while two sheets are compared

	mu   sync.Mutex // guards what follows
	shop *shop
}

// shop is what builds are read with: the catalogue and the workshop file in one version.
type shop struct {
	ctx    derive.Context
	refs   docfile.Refs
	text   string
	number int // of the workshop file
	diags  diag.List
}

// New opens the store under cfg.Data and returns a server on it.
func New(ctx context.Context, cfg Config) (*Server, error) {
	if cfg.Log == nil {
		cfg.Log = slog.New(slog.DiscardHandler)
	}
	if cfg.Out == nil {
		cfg.Out = io.Discard
	}
	cat, err := parts.Load()
	if err != nil {
		return nil, err
	}
	st, err := store.Open(ctx, filepath.Join(cfg.Data, "builds.db"))
	if err != nil {
		return nil, err
	}
	s := &Server{cfg: cfg, store: st, shop: newShop(cat, workshop.Workshop{}, "", 0, nil)}
	s.sessions.all = map[string]*session{}
	if err := s.readShop(ctx); err != nil {
		return nil, errors.Join(err, st.Close())
	}
	if s.handler, err = s.routes(); err != nil {
		return nil, errors.Join(err, st.Close())
	}
	return s, nil
}

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.handler.ServeHTTP(w, r) }

// Close ends the event streams and closes the store.
func (s *Server) Close() error {
	s.events.close()
	return s.store.Close()
}

// Serve runs a server until ctx ends, then lets what is under way finish.
func Serve(ctx context.Context, cfg Config) error {
	if cfg.Addr == "" {
		cfg.Addr = "127.0.0.1:8340"
	}
	s, err := New(ctx, cfg)
	if err != nil {
		return err
	}
	listen, err := (&net.ListenConfig{}).Listen(ctx, "tcp", cfg.Addr)
	if err != nil {
		return errors.Join(fmt.Errorf("listen: %w", err), s.Close())
	}
	h := &http.Server{
		Handler:           s,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       30 * time.Second,
		WriteTimeout:      60 * time.Second,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    32 << 10,
		ErrorLog:          slog.NewLogLogger(s.cfg.Log.Handler(), slog.LevelWarn),
	}
	h.RegisterOnShutdown(s.events.close)
	fmt.Fprintf(s.cfg.Out, "berthwright: %s\nberthwright: builds are kept in %s; Ctrl-C ends the server\n", address(listen.Addr()), cfg.Data)
	done := make(chan error, 1)
	go func() { done <- h.Serve(listen) }()
	select {
	case err = <-done:
	case <-ctx.Done():
		last, cancel := context.WithTimeout(context.WithoutCancel(ctx), 5*time.Second)
		defer cancel()
		if err = h.Shutdown(last); err != nil {
			err = errors.Join(err, h.Close())
		}
		if e := <-done; !errors.Is(e, http.ErrServerClosed) {
			err = errors.Join(err, e)
		}
	}
	return errors.Join(err, s.Close())
}

// address is what people open in their browser.
func address(a net.Addr) string {
	host, port, err := net.SplitHostPort(a.String())
	if err != nil {
		return "http://" + a.String() + "/"
	}
	if ip := net.ParseIP(host); ip == nil || ip.IsUnspecified() {
		host = "127.0.0.1"
	}
	return "http://" + net.JoinHostPort(host, port) + "/"
}

func newShop(cat parts.Catalogue, w workshop.Workshop, text string, number int, diags diag.List) *shop {
	known := func(kind, id string) bool {
		if kind == "part" {
			name, _ := parts.Ref(id)
			if _, own := w.Part(name); own {
				return true
			}
		}
		return kind != "part" && kind != "class" || cat.Known(kind, id)
	}
	near := func(kind, id string) (string, bool) { return cat.Near(kind, id, w.PartIDs()...) }
	return &shop{ctx: derive.Context{Parts: cat, Shop: w}, refs: docfile.Refs{Known: known, Near: near}, text: text, number: number, diags: diags}
}

func (s *Server) currentShop() *shop {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.shop
}

func (s *Server) program() string { return sheet.Program }
