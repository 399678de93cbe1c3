package web

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"reflect"
	"strings"
	"unicode/utf8"

	"berthwright/docfile"
	"berthwright/store"
)

// refusal is an answer that says no.
type refusal struct {
	status int
	Problem
}

func (r *refusal) Error() string { return r.Text }

func refuse(status int, code, text, hint string) *refusal {
	return &refusal{status, Problem{Code: code, Text: text, Hint: hint}}
}

// clash is a Conflict as an error.
type clash struct{ Conflict }

func (c *clash) Error() string { return fmt.Sprintf("changed meanwhile, revision %d", c.Revision) }

// handle makes a handler of a function that answers a value or an error.
func (s *Server) handle(do func(w http.ResponseWriter, r *http.Request) (any, error)) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cache-Control", "no-store")
		if err := knownState(r.URL.Query().Get("state")); err != nil {
			s.fail(w, r, err)
			return
		}
		v, err := do(w, r)
		if err != nil {
			s.fail(w, r, err)
			return
		}
		if v != nil {
			s.answer(w, r, http.StatusOK, v)
		}
	})
}

func (s *Server) answer(w http.ResponseWriter, r *http.Request, status int, v any) {
	b, err := encode(v)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	if _, err := w.Write(b); err != nil {
		s.cfg.Log.Debug("answer not taken", "path", r.URL.Path, "error", err)
	}
}

// encode writes v as JSON in which a list is never null.
func encode(v any) ([]byte, error) {
	p := reflect.New(reflect.TypeOf(v))
	p.Elem().Set(reflect.ValueOf(v))
	fill(p.Elem())
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(p.Interface()); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// fill puts an empty list where there is none, down through everything v holds.
func fill(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() {
				fill(f)
			}
		}
	case reflect.Pointer:
		if !v.IsNil() && holdsLists(v.Type().Elem()) {
			fill(v.Elem())
		}
	case reflect.Slice:
		if v.IsNil() {
			v.Set(reflect.MakeSlice(v.Type(), 0, 0))
		}
		if holdsLists(v.Type().Elem()) {
			for i := range v.Len() {
				fill(v.Index(i))
			}
		}
	}
}

func holdsLists(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Slice:
		return true
	case reflect.Pointer:
		return holdsLists(t.Elem())
	case reflect.Struct:
		for i := range t.NumField() {
			if holdsLists(t.Field(i).Type) {
				return true
			}
		}
	}
	return false
}

// fail answers an error: what people can do something about in their words, the rest as a fault of the program, whose
// details go to the operator only.
func (s *Server) fail(w http.ResponseWriter, r *http.Request, err error) {
	w.Header().Set("Cache-Control", "no-store")
	var c *clash
	if errors.As(err, &c) {
		s.answer(w, r, http.StatusConflict, c.Conflict)
		return
	}
	p := said(err)
	if p.status >= 500 {
		s.cfg.Log.Error("request failed", "method", r.Method, "path", r.URL.Path, "status", p.status, "error", err)
	}
	s.answer(w, r, p.status, p.Problem)
}

func said(err error) *refusal {
	var p *refusal
	var tooLarge *http.MaxBytesError
	var path *docfile.PathError
	var stale store.Stale
	switch {
	case errors.As(err, &p):
		return p
	case errors.As(err, &tooLarge):
		return refuse(http.StatusRequestEntityTooLarge, "too-large", fmt.Sprintf("more than %d MB were sent", tooLarge.Limit>>20), "")
	case errors.As(err, &path):
		return refuse(http.StatusUnprocessableEntity, "cannot-apply", path.Error(), "")
	case errors.As(err, &stale):
		return refuse(http.StatusConflict, "stale", stale.Error(), "load it again")
	case errors.Is(err, store.ErrNoBuild):
		return refuse(http.StatusNotFound, "no-build", "there is no such build", "it may have another id; look in the list of builds")
	case errors.Is(err, store.ErrDeleted):
		return refuse(http.StatusGone, "deleted", "this build is deleted", "it can be brought back from the list of builds")
	case errors.Is(err, store.ErrNoSuch):
		return refuse(http.StatusNotFound, "no-revision", "there is no such revision, or nothing of that name in the record", "")
	case errors.Is(err, store.ErrNothing):
		return refuse(http.StatusConflict, "nothing-to-undo", "there is nothing of yours to take back", "")
	case errors.Is(err, store.ErrExists):
		return refuse(http.StatusConflict, "exists", "a build with this id is there already", "")
	case errors.Is(err, store.ErrFull), errors.Is(err, store.ErrWrite):
		return refuse(http.StatusInsufficientStorage, "disk-full", "the disk is full or cannot be written, nothing was saved", "make room and try again; what you typed is kept by the page")
	case errors.Is(err, store.ErrBusy):
		return refuse(http.StatusServiceUnavailable, "busy", "another program holds the data file", "close it or wait a moment")
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return refuse(http.StatusServiceUnavailable, "given-up", "the request was given up", "")
	}
	return refuse(http.StatusInternalServerError, "internal", "something went wrong in the program, nothing was changed", "the operator's log tells more")
}

// decode reads a JSON body of a known form.
func decode[T any](r *http.Request) (T, error) {
	var v T
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "application/json" {
		return v, refuse(http.StatusUnsupportedMediaType, "not-json", "the request is not JSON", "send application/json")
	}
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	err := d.Decode(&v)
	if err == nil {
		if _, more := d.Token(); more != io.EOF {
			err = errors.New("more follows the value")
		}
	}
	var tooLarge *http.MaxBytesError
	if err != nil && !errors.As(err, &tooLarge) {
		return v, refuse(http.StatusBadRequest, "bad-json", "the request cannot be read: "+badJSON(err), "")
	}
	return v, err
}

// badJSON says what is wrong with a body in plain words.
func badJSON(err error) string {
	var kind *json.UnmarshalTypeError
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF):
		return "it breaks off"
	case errors.Is(err, io.EOF):
		return "it is empty"
	case errors.As(err, &kind) && kind.Field == "":
		return "it is no object but one " + kind.Value
	case errors.As(err, &kind):
		return fmt.Sprintf("%q cannot be a %s", kind.Field, kind.Value)
	}
	return strings.TrimPrefix(err.Error(), "json: ")
}

// textBody reads a raw text body.
func textBody(r *http.Request) (string, error) {
	b, err := io.ReadAll(r.Body)
	if err != nil {
		return "", err
	}
	return string(b), checkText(string(b))
}

func checkText(text string) error {
	switch {
	case len(text) > mostText:
		return refuse(http.StatusRequestEntityTooLarge, "too-large", fmt.Sprintf("the text is %d bytes long", len(text)), "at most 2 MB are read")
	case !utf8.ValidString(text):
		return refuse(http.StatusUnprocessableEntity, "not-utf8", "the text is not UTF-8", "save the file as UTF-8")
	}
	return nil
}
