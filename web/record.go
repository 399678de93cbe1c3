package web

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	"berthwright/check"
	"berthwright/doc"
	"berthwright/docfile"
	"berthwright/edit"
	"berthwright/store"
	"berthwright/unit"
)

// weighingFields are the fields of a new weighing, in the order in which they are read off.
var weighingFields = []string{"date", "stage", "total", "front", "rear", "left", "right", "front-left", "front-right", "rear-left", "rear-right", "pieces", "items", "missing", "driver", "fills", "division", "by", "note"}

// getRecord answers the weighings and what they say of the sum of parts.
func (s *Server) getRecord(_ http.ResponseWriter, r *http.Request) (any, error) {
	now, err := s.newest(r.Context(), r.PathValue("id"))
	if err != nil {
		return nil, err
	}
	return recordView(now), nil
}

func recordView(now *revision) RecordView {
	sh := now.assessed()
	sys := sh.System()
	v := RecordView{Form: weighingForm(now, sys)}
	if now.record == nil {
		v.Says = []Sentence{{Key: "record", Text: "nothing has been weighed yet", Verdict: check.NotBegun.String()}}
		return v
	}
	for _, w := range now.record.Weighings {
		v.Weighings = append(v.Weighings, weighingRow(w, sys))
	}
	rec := sh.Weight.Reconcile(now.record)
	if !rec.Known {
		v.Says = []Sentence{{Key: "record", Text: rec.Why, Verdict: check.Unknown.String()}}
	}
	for _, m := range rec.Says {
		text := m.Text(sys)
		if rec.Refused {
			v.Refused = text
		}
		v.Says = append(v.Says, Sentence{Key: "record." + m.Code, Text: text, Verdict: rec.Verdict.String()})
	}
	for _, row := range rec.Rows {
		v.Residuals = append(v.Residuals, ResidualRow{Name: row.Name, Read: massQuantity(row.Read, sys), Expected: massQuantity(row.Expected, sys), Off: massQuantity(row.Off, sys),
			Within: "± " + unit.Format(row.Half, sys, -1), Verdict: row.Verdict.String()})
	}
	v.Suspects = viewSubjects(rec.Suspects)
	return v
}

func massQuantity(m unit.Mass, sys unit.System) Quantity {
	return *quantity(unit.Some(check.Kg(m)), sys)
}

// weighingRow says one visit to the scale in a line.
func weighingRow(w doc.Weighing, sys unit.System) WeighingRow {
	row := WeighingRow{ID: w.ID, Stage: w.Stage, By: w.By}
	if d, ok := w.Date.Get(); ok {
		row.Date = fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
	}
	var words []string
	for _, r := range []struct {
		name string
		v    doc.Opt[unit.MassEst]
	}{{"total", w.Total}, {"front", w.Front}, {"rear", w.Rear}, {"left", w.Left}, {"right", w.Right}, {"front left", w.FrontLeft}, {"front right", w.FrontRight}, {"rear left", w.RearLeft}, {"rear right", w.RearRight}, {"pieces", w.Pieces}} {
		if m, ok := r.v.Get(); ok {
			words = append(words, r.name+" "+unit.Format(m.Value, sys, -1))
		}
	}
	for _, l := range w.Fills {
		if level, ok := l.Level.Get(); ok {
			words = append(words, l.Tank+" "+unit.Format(level, sys, -1)+" full")
		}
	}
	row.Text = strings.Join(words, ", ")
	return row
}

func weighingForm(now *revision, sys unit.System) []FormSection {
	f := &former{r: now, sys: sys}
	entry, ok := doc.RecordFields().Entry("weighings")
	if !ok {
		panic("web: the record has no weighings")
	}
	out := FormSection{ID: "weighing", Title: "New weighing", Says: "What the scale showed; nothing subtracted. It is added to the record and never changed."}
	for _, key := range weighingFields {
		field, ok := entry.Entry(key)
		if !ok {
			continue
		}
		if key == "fills" {
			out.Fields = append(out.Fields, f.levels(field)...)
			continue
		}
		one := *field
		one.List = false
		v := FieldView{Path: key, Label: labelOf("weighing/" + key), Help: field.Help, Kind: kindOf(key, field), Unit: edit.ColumnUnit(field, sys), Choices: f.choices(&one)}
		if field.List {
			v.Kind, v.Choices = "text", nil
			v.Help += "; names or ids parted by commas"
		}
		out.Fields = append(out.Fields, v)
	}
	return []FormSection{out}
}

// levels is one field for each tank: how full it was on the scale.
func (f *former) levels(fills *doc.Field) []FieldView {
	var out []FieldView
	level, ok := fills.Entry("level")
	if !ok {
		panic("web: a fill has no level")
	}
	for i := range f.r.file.Build.Items {
		it := &f.r.file.Build.Items[i]
		if !it.Tank.Given() || it.Removed.Else(false) {
			continue
		}
		name := it.Name
		if name == "" {
			name = it.ID
		}
		out = append(out, FieldView{Path: "fills/" + it.ID, Label: "How full: " + name, Help: "how full it was on the scale; left out: empty, and fuel unknown", Kind: kindOf("level", level), Unit: edit.ColumnUnit(level, f.sys)})
	}
	return out
}

// postRecord adds a weighing to the record. A value that cannot be read is refused: the record is never changed, so
// nothing wrong may get into it.
func (s *Server) postRecord(_ http.ResponseWriter, r *http.Request) (any, error) {
	in, err := decode[WeighingRequest](r)
	if err != nil {
		return nil, err
	}
	if err := checkChange(in.ID, "record", ""); err != nil {
		return nil, err
	}
	now, err := s.weigh(r.Context(), r.PathValue("id"), in)
	if err != nil {
		return nil, err
	}
	return recordView(now), nil
}

// weigh adds a weighing to the record and answers the build as it is judged with it.
func (s *Server) weigh(ctx context.Context, id string, in WeighingRequest) (*revision, error) {
	now, err := s.newest(ctx, id)
	if err != nil {
		return nil, err
	}
	entries, err := s.store.Entries(ctx, id, "weighing")
	if err != nil {
		return nil, err
	}
	if slices.ContainsFunc(entries, func(e store.Entry) bool { return e.ID == in.ID }) {
		return now, nil
	}
	body, bad := edit.Weighing(now.file, now.assessed().System(), fmt.Sprintf("weighing-%d", len(entries)+1), fmt.Sprint(now.number), in.Fields)
	if len(bad) > 0 {
		p := refuse(http.StatusUnprocessableEntity, "bad-weighing", "the weighing was not added: "+bad[0].Says, bad[0].Hint)
		p.Fields = refusedOf(now.file, bad)
		return nil, p
	}
	entry := store.Entry{ID: in.ID, Kind: "weighing", Revision: now.number, Body: body, At: time.Now()}
	test := docfile.ReadRecord("record.yaml", []byte(recordText(id, append(slices.Clone(entries), entry))), docfile.Refs{Known: func(kind, ref string) bool {
		_, there := now.file.Value("items/" + ref)
		return kind != "item" || there
	}})
	if len(test.Diags) > 0 {
		d := test.Diags[0]
		p := refuse(http.StatusUnprocessableEntity, "bad-weighing", "the weighing was not added: "+d.Text(), d.Hint)
		p.Fields = []Marked{{Path: d.Path[strings.LastIndexByte(d.Path, '/')+1:], Severity: "error", Code: string(d.Code), Text: d.Text(), Hint: d.Hint}}
		return nil, p
	}
	if err := s.store.AddEntry(ctx, id, entry); err != nil {
		return nil, err
	}
	s.events.tell(Event{Kind: "record", Build: id, Revision: now.number})
	return s.newest(ctx, id)
}
