package web

import (
	"cmp"
	"fmt"
	"net/http"

	"berthwright/derive"
	"berthwright/diag"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/drawing"
	"berthwright/edit"
	"berthwright/sheet"
)

// postPreview tells what a change would do, without keeping it. Of one client the newest wins: an older one that comes
// late is told so.
func (s *Server) postPreview(_ http.ResponseWriter, r *http.Request) (any, error) {
	in, err := decode[ChangeRequest](r)
	if err != nil {
		return nil, err
	}
	if err := cmp.Or(checkChange("preview", in.Client, in.Title), knownState(in.State)); err != nil {
		return nil, err
	}
	gestures, err := gesturesOf(in.Edits)
	if err != nil {
		return nil, err
	}
	ctx, id := r.Context(), r.PathValue("id")
	now, err := s.newest(ctx, id)
	if err != nil {
		return nil, err
	}
	if !s.session(id).isNewest(in.Client, in.Seq) {
		return nil, refuse(http.StatusConflict, "superseded", fmt.Sprintf("preview %d is older than one answered before", in.Seq), "")
	}
	out, err := edit.Compile(now.file, s.env(ctx, now), gestures)
	if err != nil {
		return nil, asClash(err, now)
	}
	build, diags, err := now.file.Preview(doc.Change{Ops: out.Ops})
	if err != nil {
		return nil, asClash(err, now)
	}
	then := sheet.After(now.assessed(), build, now.shop.ctx, now.record)
	sys := then.System()
	p := Preview{Seq: in.Seq, Base: now.number, Title: viewTitle(then.Weight, sys), Axles: viewAxles(then.Weight, sys),
		Findings: viewAll(then.Findings(true), sys), Added: viewAdded(then.Weight, sys), Marks: newMarks(now.file.Diags, diags)}
	if in.View != "" {
		before, ok := now.scene(in.View, stateOf(in.State), moving)
		after, _ := sheet.Scene(then.DrawingOf(in.View, derive.State(stateOf(in.State)), nil), in.View, moving)
		if !ok {
			return nil, noView(in.View)
		}
		patch := drawing.Diff(before, after)
		for _, c := range patch.Changed {
			p.Changed = append(p.Changed, viewPrim(c))
		}
		p.Gone = patch.Removed
	}
	return p, nil
}

// isNewest notes a preview and reports whether none with a higher number was seen of that client.
func (s *session) isNewest(client string, seq int) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if seq < s.seqs[client] {
		return false
	}
	if len(s.seqs) > 200 {
		clear(s.seqs)
	}
	s.seqs[client] = seq
	return true
}

// newMarks lists what a change would make wrong that is not wrong now.
func newMarks(now, then diag.List) []Marked {
	had := map[string]bool{}
	for _, d := range now {
		had[d.Path+string(d.Code)+d.Text()] = true
	}
	var out []Marked
	for _, d := range then {
		if !had[d.Path+string(d.Code)+d.Text()] {
			out = append(out, markOf(d, nil))
		}
	}
	return out
}

func viewMarks(f *docfile.File) []Marked {
	out := make([]Marked, 0, len(f.Diags))
	for _, d := range f.Diags {
		out = append(out, markOf(d, f.Text))
	}
	return out
}

func markOf(d diag.Diagnostic, text []byte) Marked {
	m := Marked{Path: d.Path, Line: d.Pos.Line, Column: d.Pos.Col, EndLine: d.End.Line, EndCol: d.End.Col, Severity: d.Severity.String(), Code: string(d.Code), Text: d.Text(), Hint: d.Hint}
	if from, to := d.Pos.Byte, d.End.Byte; 0 <= from && from < to && to <= len(text) && to-from <= 200 {
		m.Found = string(text[from:to])
	}
	return m
}
