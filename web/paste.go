package web

import (
	"net/http"

	"berthwright/edit"
)

// postPaste reads a table; nothing is kept. Its edits, sent as a change, do what it says.
func (s *Server) postPaste(_ http.ResponseWriter, r *http.Request) (any, error) {
	in, err := decode[PasteRequest](r)
	if err != nil {
		return nil, err
	}
	now, err := s.newest(r.Context(), r.PathValue("id"))
	if err != nil {
		return nil, err
	}
	p, err := edit.Paste(now.file, s.env(r.Context(), now), in.Grid, in.Text, in.After, edit.Corrected{Columns: in.Columns, Header: in.Header})
	if err != nil {
		return nil, refuse(http.StatusUnprocessableEntity, "bad-table", err.Error(), "copy the cells from a spreadsheet, or a text with tabs, semicolons or commas between them")
	}
	out := PasteMatch{Columns: p.Columns, Titles: p.Titles, Header: p.Header, Sample: p.Sample, Rows: p.Rows, Bad: refusedOf(now.file, p.Bad), Says: p.Says}
	for _, g := range p.Gestures {
		out.Edits = append(out.Edits, Edit{Kind: g.Kind, Grid: g.Grid, Row: g.Row, Text: g.Text, Cells: g.Cells})
	}
	return out, nil
}
