package drawing

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"berthwright/drawing/fonts"
)

// Meta is what a PDF says about itself. The same Meta and pages give the same bytes.
type Meta struct {
	Title, Subject, Author string
	Program                string    // program and version
	Date                   time.Time // of making; zero: 2000-01-01
	Language               string    // "en"
}

// PDF writes each scene on a page of its own, at true scale, the page as large as its extent.
// Groups of role Heading become bookmarks; their Depth modulo 10 is the level. Fonts are embedded;
// each trade is a layer.
func PDF(pages []Scene, m Meta) ([]byte, error) {
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: 210, Ht: 297}})
	f.SetCatalogSort(true)
	date := m.Date
	if date.IsZero() {
		date = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	f.SetCreationDate(date.UTC())
	f.SetModificationDate(date.UTC())
	f.SetTitle(m.Title, true)
	f.SetSubject(m.Subject, true)
	f.SetAuthor(m.Author, true)
	f.SetCreator(m.Program, true)
	f.SetProducer(m.Program, true)
	if m.Language != "" {
		f.SetLang(m.Language)
	}
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCellMargin(0)
	used := [4]bool{}
	for _, s := range pages {
		for _, p := range s.Prims {
			if p.Kind == Text {
				used[p.Face] = true
			}
		}
	}
	for _, face := range fonts.Faces() {
		if used[face] {
			f.AddUTF8FontFromBytes(fontName(face), "", fonts.TTF(face))
		}
	}
	layers := map[string]int{}
	for _, s := range pages {
		for _, p := range s.Prims {
			if _, ok := layers[p.Layer]; !ok && p.Layer != "" {
				layers[p.Layer] = f.AddLayer(p.Layer, true)
			}
		}
	}
	for _, s := range pages {
		w := &pdfPage{f: f, k: s.Scale, layers: layers}
		if !(w.k > 0) {
			w.k = 1
		}
		w.dx, w.dy = -s.Extent.X0/w.k, -s.Extent.Y0/w.k
		f.AddPageFormat("P", fpdf.SizeType{Wd: s.Extent.W() / w.k, Ht: s.Extent.H() / w.k})
		for i, p := range s.Prims {
			w.prim(p, s.Prims[i+1:])
		}
		w.layer("")
	}
	var out bytes.Buffer
	if err := f.Output(&out); err != nil {
		return nil, fmt.Errorf("write pdf: %w", err)
	}
	return out.Bytes(), nil
}

// pdfPage draws scene coordinates on a page in millimetres of paper.
type pdfPage struct {
	f      *fpdf.Fpdf
	k      float64
	dx, dy float64
	layers map[string]int // numbers of the layers, by trade
	open   string         // the layer that is being written
}

// layer goes on in the layer of a trade; the empty name belongs to none.
func (w *pdfPage) layer(name string) {
	if name == w.open {
		return
	}
	if w.open != "" {
		w.f.EndLayer()
	}
	if name != "" {
		w.f.BeginLayer(w.layers[name])
	}
	w.open = name
}

func (w *pdfPage) x(v float64) float64 { return v/w.k + w.dx }
func (w *pdfPage) y(v float64) float64 { return v/w.k + w.dy }

func (w *pdfPage) prim(p Prim, after []Prim) {
	switch p.Kind {
	case Group:
		if p.Role == Heading && p.Title != "" {
			y := 0.0
			for _, c := range after {
				if c.In == p.ID {
					y = w.y(c.Y) - 6
					break
				}
			}
			w.f.Bookmark(p.Title, p.Depth%10, math.Max(0, y))
		}
	case Path:
		w.layer(p.Layer)
		w.path(p)
	case Text:
		w.layer(p.Layer)
		w.text(p)
	}
}

func (w *pdfPage) path(p Prim) {
	pen := p.Role.Pen()
	style := ""
	r, g, b := pen.Ink.RGB()
	switch p.Fill {
	case Solid:
		style = "F"
		w.f.SetFillColor(int(r), int(g), int(b))
	case Paper, Tint:
		style = "DF"
		fr, fg, fb := p.Fill.RGB()
		w.f.SetFillColor(int(fr), int(fg), int(fb))
		if pen.Width == 0 {
			style = "F"
		}
	default:
		if pen.Width == 0 {
			return
		}
		style = "D"
	}
	w.f.SetDrawColor(int(r), int(g), int(b))
	w.f.SetLineWidth(pen.Width)
	w.f.SetLineJoinStyle("round")
	if len(pen.Dash) > 0 {
		w.f.SetDashPattern(pen.Dash, 0)
	} else {
		w.f.SetDashPattern([]float64{}, 0)
	}
	var x, y float64
	for _, s := range p.D {
		switch s.Op {
		case Move:
			w.f.MoveTo(w.x(s.X), w.y(s.Y))
		case Line:
			w.f.LineTo(w.x(s.X), w.y(s.Y))
		case Cubic:
			w.f.CurveBezierCubicTo(w.x(s.X1), w.y(s.Y1), w.x(s.X2), w.y(s.Y2), w.x(s.X), w.y(s.Y))
		case Arc:
			w.arc(x, y, s)
		case Close:
			w.f.ClosePath()
			continue
		}
		x, y = s.X, s.Y
	}
	w.f.DrawPath(style)
}

// arc draws a circular arc as cubics of at most 45°.
func (w *pdfPage) arc(x, y float64, s Seg) {
	cx, cy, r, a, sweep := arcCentre(x, y, s)
	n := math.Max(1, math.Ceil(math.Abs(sweep)/(math.Pi/4)))
	step := sweep / n
	h := 4.0 / 3 * math.Tan(step/4) * r
	for range int(n) {
		s0, c0 := math.Sincos(a)
		s1, c1 := math.Sincos(a + step)
		w.f.CurveBezierCubicTo(w.x(cx+r*c0-h*s0), w.y(cy+r*s0+h*c0), w.x(cx+r*c1+h*s1), w.y(cy+r*s1-h*c1), w.x(cx+r*c1), w.y(cy+r*s1))
		a += step
	}
}

// text places the words by our own measure, so that the box is the one the labels were placed by.
func (w *pdfPage) text(p Prim) {
	size := p.Size / w.k
	words, _ := fonts.Printable(p.Face, p.Text)
	w.f.SetFont(fontName(p.Face), "", 12)
	w.f.SetFontUnitSize(size)
	r, g, b := p.Role.Pen().Ink.RGB()
	w.f.SetTextColor(int(r), int(g), int(b))
	x, y := w.x(p.X), w.y(p.Y)
	wide := fonts.Width(p.Face, size, words)
	off := 0.0
	switch p.Anchor {
	case Middle:
		off = -wide / 2
	case End:
		off = -wide
	}
	if p.Turn != 0 {
		w.f.TransformBegin()
		w.f.TransformRotate(-p.Turn, x, y)
		w.f.Text(x+off, y, words)
		w.f.TransformEnd()
		return
	}
	w.f.Text(x+off, y, words)
}

func fontName(f fonts.Face) string { return strings.TrimSuffix(f.File(), ".ttf") }
