package web

import (
	"net/http"
	"reflect"
	"slices"
	"strings"
)

// operation is what is published of one address.
type operation struct {
	says    string
	in, out any // struct by value; nil for none or not JSON
	query   []string
	body    string // kind of content where it is not JSON
}

// operations describes every address of routes.go.
var operations = map[string]operation{
	"GET /api/builds":                    {"list of builds", nil, BuildList{}, []string{"deleted"}, ""},
	"POST /api/builds":                   {"start a build", NewBuild{}, BuildView{}, nil, ""},
	"GET /api/choices":                   {"what a new build can start from", nil, Choices{}, nil, ""},
	"GET /api/builds/{id}":               {"everything the sheets show", nil, BuildView{}, []string{"state", "client"}, ""},
	"DELETE /api/builds/{id}":            {"put a build aside; it can be brought back", nil, BuildRow{}, nil, ""},
	"POST /api/builds/{id}/restore":      {"bring a deleted build back", nil, BuildRow{}, nil, ""},
	"POST /api/builds/{id}/changes":      {"apply a change whole; 409 with Conflict", ChangeRequest{}, ChangeResult{}, nil, ""},
	"POST /api/builds/{id}/preview":      {"what a change would do; never kept", ChangeRequest{}, Preview{}, nil, ""},
	"POST /api/builds/{id}/undo":         {"take back the client's own last change", UndoRequest{}, ChangeResult{}, nil, ""},
	"POST /api/builds/{id}/paste":        {"read a table; its edits do it", PasteRequest{}, PasteMatch{}, nil, ""},
	"GET /api/builds/{id}/text":          {"the text with its diagnostics", nil, TextView{}, nil, ""},
	"PUT /api/builds/{id}/text":          {"replace the text; 409 with Conflict", TextRequest{}, TextView{}, nil, ""},
	"DELETE /api/builds/{id}/text":       {"drop the draft", nil, TextView{}, nil, ""},
	"GET /api/builds/{id}/scene":         {"a view to draw", nil, Scene{}, []string{"view", "state", "against"}, ""},
	"GET /api/builds/{id}/slip":          {"the working behind a figure", nil, Slip{}, []string{"key", "state"}, ""},
	"GET /api/builds/{id}/history":       {"revisions, newest first", nil, History{}, nil, ""},
	"GET /api/builds/{id}/diff":          {"difference of two revisions or builds", nil, DiffView{}, []string{"from", "to"}, ""},
	"GET /api/builds/{id}/swap":          {"the same items in another base van; not stored", nil, SwapView{}, []string{"van"}, ""},
	"GET /api/builds/{id}/record":        {"weighings and what they say", nil, RecordView{}, nil, ""},
	"POST /api/builds/{id}/record":       {"add a weighing", WeighingRequest{}, RecordView{}, nil, ""},
	"GET /api/builds/{id}/events":        {"server-sent events, each an Event", nil, Event{}, nil, "text/event-stream"},
	"GET /api/builds/{id}/form":          {"every field of one entry", nil, FormView{}, []string{"path"}, ""},
	"GET /api/builds/{id}/solids":        {"the van in space", nil, SolidsView{}, []string{"state"}, ""},
	"GET /api/builds/{id}/bay":           {"one job for each item to fit", nil, BayView{}, nil, ""},
	"POST /api/builds/{id}/bay":          {"add to the record from the bay", BayEntry{}, BayView{}, nil, ""},
	"POST /api/builds/{id}/photos":       {"add a photo to the record, at most 5 MB", nil, BayView{}, []string{"entry", "item", "by", "at"}, "image/jpeg"},
	"GET /api/builds/{id}/photos/{name}": {"a photo of the record", nil, nil, nil, "image/jpeg"},
	"GET /api/builds/{id}/papers/{name}": {"a paper", nil, nil, []string{"view", "state", "from", "to", "title", "hole"}, "application/pdf"},
	"GET /api/builds/{id}/export":        {"the build's text", nil, nil, nil, "application/yaml"},
	"POST /api/import":                   {"a build from a text", nil, BuildView{}, nil, "application/yaml"},
	"GET /api/parts":                     {"search the catalogue", nil, PartList{}, []string{"q", "group"}, ""},
	"GET /api/workshop":                  {"the workshop file", nil, WorkshopView{}, nil, ""},
	"PUT /api/workshop":                  {"replace the workshop file", TextRequest{}, WorkshopView{}, nil, ""},
	"GET /api/health":                    {"is it up", nil, Health{}, nil, ""},
	"GET /openapi.json":                  {"this description", nil, nil, nil, ""},
}

// getOpenAPI publishes the addresses as OpenAPI 3.1, made from the same structs.
func (s *Server) getOpenAPI(http.ResponseWriter, *http.Request) (any, error) {
	schemas := map[string]any{}
	paths := map[string]map[string]any{}
	for _, pattern := range sortedKeys(operations) {
		op := operations[pattern]
		method, path, _ := strings.Cut(pattern, " ")
		params := []any{}
		for _, step := range strings.Split(path, "/") {
			if strings.HasPrefix(step, "{") {
				params = append(params, map[string]any{"name": strings.Trim(step, "{}"), "in": "path", "required": true, "schema": map[string]any{"type": "string"}})
			}
		}
		for _, q := range op.query {
			params = append(params, map[string]any{"name": q, "in": "query", "schema": map[string]any{"type": "string"}})
		}
		o := map[string]any{"summary": op.says, "parameters": params, "responses": map[string]any{
			"200":     map[string]any{"description": "done", "content": content(schemas, op.out, op.body, method == "GET")},
			"default": map[string]any{"description": "refused", "content": content(schemas, Problem{}, "", false)},
		}}
		if op.in != nil || op.body != "" && method == "POST" {
			o["requestBody"] = map[string]any{"required": true, "content": content(schemas, op.in, op.body, true)}
		}
		if paths[path] == nil {
			paths[path] = map[string]any{}
		}
		paths[path][strings.ToLower(method)] = o
	}
	content(schemas, Conflict{}, "", false)
	return map[string]any{
		"openapi": "3.1.0",
		"info": map[string]any{"title": "Berthwright", "version": s.program(),
			"description": "The server of the page. It listens on this machine and answers to its own page only."},
		"paths": paths, "components": map[string]any{"schemas": schemas},
	}, nil
}

func content(schemas map[string]any, v any, kind string, raw bool) map[string]any {
	if kind != "" && raw || v == nil {
		if kind == "" {
			kind = "application/json"
		}
		return map[string]any{kind: map[string]any{}}
	}
	return map[string]any{"application/json": map[string]any{"schema": schema(schemas, reflect.TypeOf(v))}}
}

// schema describes a type; structs are put among schemas under their name.
func schema(schemas map[string]any, t reflect.Type) map[string]any {
	switch t.Kind() {
	case reflect.Pointer:
		return schema(schemas, t.Elem())
	case reflect.String:
		return map[string]any{"type": "string"}
	case reflect.Bool:
		return map[string]any{"type": "boolean"}
	case reflect.Int, reflect.Int64:
		return map[string]any{"type": "integer"}
	case reflect.Float64:
		return map[string]any{"type": "number"}
	case reflect.Slice:
		return map[string]any{"type": "array", "items": schema(schemas, t.Elem())}
	case reflect.Map:
		return map[string]any{"type": "object", "additionalProperties": schema(schemas, t.Elem())}
	case reflect.Struct:
		ref := map[string]any{"$ref": "#/components/schemas/" + t.Name()}
		if _, ok := schemas[t.Name()]; ok {
			return ref
		}
		schemas[t.Name()] = nil // it may hold itself
		props, required := map[string]any{}, []string{}
		fieldsOf(schemas, t, props, &required)
		schemas[t.Name()] = map[string]any{"type": "object", "properties": props, "required": required}
		return ref
	}
	return map[string]any{}
}

func fieldsOf(schemas map[string]any, t reflect.Type, props map[string]any, required *[]string) {
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous {
			fieldsOf(schemas, f.Type, props, required)
			continue
		}
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		props[name] = schema(schemas, f.Type)
		if !strings.Contains(options, "omitempty") {
			*required = append(*required, name)
		}
	}
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
