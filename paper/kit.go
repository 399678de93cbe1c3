// Package paper answers: what does the printed paper say, page by page?
//
// A paper is a list of pages; a page is a drawing.Scene in millimetres of paper, so that papers and
// drawings share their primitives, fonts and PDF writer. MassStatement, Placard and ChangeSlip
// take texts and figures that others have made: nothing is computed here but places on the page.
package paper

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"berthwright/drawing"
	"berthwright/drawing/fonts"
)

// Head is what every page says about itself.
type Head struct {
	Workshop string
	Build    string
	Customer string
	Status   string // "for talk", "for quotation", "for building"
	Revision string
	Hash     string    // content hash
	Program  string    // program and version
	Date     string    // as printed
	Made     time.Time // for the PDF itself; zero: 2000-01-01
	Language string    // "en" when empty
	MassUnit string    // of masses in columns; "kg" when empty
}

// Lettering, in millimetres of em. Body is 9.5 point.
const (
	sizeNote  = 2.75
	sizeBody  = 3.35
	sizeHead2 = 3.9
	sizeHead1 = 5.0
	sizeBig   = 6.7 // twice the body
	sizeTitle = 9.0
	lead      = 1.32 // line distance over em
)

// format is a sheet of paper and its margins.
type format struct{ w, h, left, right, top, bottom float64 }

var (
	portrait  = format{210, 297, 22, 16, 24, 18}
	halfSheet = format{210, 148, 16, 14, 19, 14.5}
)

// FigureWidth and FigureHeight are the room for a scene on a page of its own, across, in millimetres of paper.
const (
	FigureWidth  = 265.0
	FigureHeight = 148.0
)

// kit lays out a paper from top to bottom.
type kit struct {
	f     format
	head  Head
	title string
	pages []*page
	wait  []func() // pages across that come before the next page
	y     float64  // next free height on the page
	odd   map[rune]bool
	scale float64 // 0 or 1: as laid out; 1.41: A4 printed as A5
	bare  bool    // no common head and foot
	err   error
}

type page struct {
	f     format
	prims []drawing.Prim
	n     int
}

func newKit(f format, h Head, title string) *kit {
	k := &kit{f: f, head: h, title: title, odd: map[rune]bool{}}
	k.page()
	return k
}

// in appends the unit of masses to a column title.
func (k *kit) in(title string) string {
	u := k.head.MassUnit
	if u == "" {
		u = "kg"
	}
	if title == "" {
		return u
	}
	return title + ", " + u
}

func (k *kit) x0() float64    { return k.f.left }
func (k *kit) x1() float64    { return k.f.w - k.f.right }
func (k *kit) width() float64 { return k.x1() - k.x0() }
func (k *kit) floor() float64 { return k.f.h - k.f.bottom }

// page begins a new page, after those across that wait for one.
func (k *kit) page() {
	k.across()
	k.pages = append(k.pages, &page{f: k.f})
	k.y = k.f.top
}

// across sets the pages that wait, each a landscape page of its own.
func (k *kit) across() {
	f, y, wait := k.f, k.y, k.wait
	k.wait = nil
	for _, set := range wait {
		k.f = landscape
		k.page()
		set()
	}
	k.f, k.y = f, y
}

// need begins a new page unless h millimetres are left on this one.
func (k *kit) need(h float64) {
	if k.y+h > k.floor() && k.y > k.f.top {
		k.page()
	}
}

func (k *kit) gap(h float64) {
	if k.y > k.f.top {
		k.y += h
	}
}

func (k *kit) put(p drawing.Prim) string {
	pg := k.pages[len(k.pages)-1]
	if p.ID == "" {
		p.ID = fmt.Sprintf("p%d-%d", len(k.pages), pg.n)
	}
	if p.Depth == 0 {
		p.Depth = pg.n * 10
	}
	pg.n++
	pg.prims = append(pg.prims, p)
	return p.ID
}

// style is how a text is set.
type style struct {
	size float64
	face fonts.Face
	role drawing.Role
}

var (
	body   = style{sizeBody, fonts.Regular, drawing.Cell}
	strong = style{sizeBody, fonts.SemiBold, drawing.Cell}
	note   = style{sizeNote, fonts.Regular, drawing.Note}
	slant  = style{sizeNote, fonts.Italic, drawing.Note}
	inked  = style{sizeNote, fonts.Regular, drawing.Cell}
)

// text sets one line with its writing line at y.
func (k *kit) text(x, y float64, a drawing.Anchor, s style, words string) {
	k.textIn("", x, y, a, s, words)
}

func (k *kit) textIn(group string, x, y float64, a drawing.Anchor, s style, words string) {
	words = k.clean(s.face, words)
	if strings.TrimSpace(words) == "" {
		return
	}
	k.put(drawing.Prim{In: group, Kind: drawing.Text, Role: s.role, X: x, Y: y, Size: s.size, Anchor: a, Face: s.face, Text: words})
}

func (k *kit) path(r drawing.Role, d drawing.Segs, f drawing.Fill) {
	k.put(drawing.Prim{Kind: drawing.Path, Role: r, D: d, Fill: f})
}

func (k *kit) rule(r drawing.Role, x0, x1, y float64) {
	k.path(r, drawing.LineFrom(x0, y, x1, y), drawing.NoFill)
}

// lines sets words over as many lines as they need in width, and moves down.
func (k *kit) lines(x, width float64, s style, words string) {
	for _, l := range k.wrap(s, width, words) {
		k.need(s.size * lead)
		k.text(x, k.y+s.size*0.95, drawing.Start, s, l)
		k.y += s.size * lead
	}
}

// heading begins a part: level 0 or 1. It becomes a bookmark and stays with what follows, of which
// it keeps at least follow millimetres on its page.
func (k *kit) heading(level int, words string, follow float64) {
	s := style{sizeHead1, fonts.SemiBold, drawing.Cell}
	before := 8.0
	if level > 0 {
		s.size, before = sizeHead2, 5
	}
	k.gap(before)
	k.need(s.size*lead + 1.2 + max(24, follow))
	pg := k.pages[len(k.pages)-1]
	g := k.put(drawing.Prim{ID: "h" + strconv.Itoa(len(k.pages)) + "-" + strconv.Itoa(pg.n), Kind: drawing.Group, Role: drawing.Heading,
		Title: k.clean(s.face, words), Depth: pg.n*10 + level})
	k.textIn(g, k.x0(), k.y+s.size*0.95, drawing.Start, s, words)
	k.y += s.size*lead + 1.2
}

// para sets a paragraph of running text.
func (k *kit) para(s style, words string) {
	if words == "" {
		return
	}
	k.lines(k.x0(), min(k.width(), 150), s, words)
	k.y += 1.5
}

// finish writes the PDF.
func (k *kit) finish(subject string) ([]byte, error) {
	out := k.scenes()
	if k.err != nil {
		return nil, k.err
	}
	lang := k.head.Language
	if lang == "" {
		lang = "en"
	}
	return drawing.PDF(out, drawing.Meta{Title: k.head.Build + ": " + k.title, Subject: subject, Author: k.head.Workshop,
		Program: k.head.Program, Date: k.head.Made, Language: lang})
}

// scenes writes heads and feet and returns the pages.
func (k *kit) scenes() []drawing.Scene {
	if n := len(k.odd); n > 0 {
		k.gap(3)
		k.para(slant, fmt.Sprintf("%d signs of the text are not in the font of this paper and are printed as %c.", n, fonts.Missing))
	}
	k.across()
	var out []drawing.Scene
	for i, p := range k.pages {
		if !k.bare {
			k.furnish(i)
		}
		out = append(out, drawing.Scene{ID: "page-" + strconv.Itoa(i+1), View: "page", Title: k.title, Scale: max(1, k.scale),
			Extent: drawing.Box{X1: p.f.w, Y1: p.f.h}, Prims: p.prims})
	}
	return out
}

// furnish draws head and foot of page i.
func (k *kit) furnish(i int) {
	all := k.pages
	n, p := len(all), all[i]
	k.pages, k.f = append(all[:i:i], p), p.f
	y := k.f.top - 8
	bold := style{sizeNote, fonts.SemiBold, drawing.Cell}
	k.text(k.x0(), y, drawing.Start, bold, k.head.Workshop)
	mid := k.title + ", " + k.head.Build
	if i == 0 {
		mid = ""
	}
	k.text((k.x0()+k.x1())/2, y, drawing.Middle, inked, mid)
	k.text(k.x1(), y, drawing.End, bold, k.head.Status)
	k.rule(drawing.Frame, k.x0(), k.x1(), y+2)
	y = k.floor() + 4
	k.rule(drawing.Rule, k.x0(), k.x1(), y)
	k.text(k.x0(), y+4, drawing.Start, inked, fmt.Sprintf("page %d of %d", i+1, n))
	k.text((k.x0()+k.x1())/2, y+4, drawing.Middle, note, join(" · ", label("revision ", k.head.Revision), label("content ", k.head.Hash)))
	k.text(k.x1(), y+4, drawing.End, note, join(" · ", k.head.Program, k.head.Date))
	k.pages = all
}

func label(name, s string) string {
	if s == "" {
		return ""
	}
	return name + s
}

func join(sep string, parts ...string) string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, sep)
}
