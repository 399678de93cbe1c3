package paper

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"berthwright/drawing"
	"berthwright/drawing/fonts"
)

// Sentence is a deciding figure said in words, set at twice text size.
type Sentence struct {
	Text string // "148 kg left, four aboard, water full"
	Sub  string // its case, basis or limit
	// Verdict gives the mark before it; Plain sets none.
	Verdict Verdict
	Plain   bool
}

func (k *kit) sentences(ss []Sentence) {
	size, sub, after := sizeBig, sizeBody, 2.2
	if k.f == halfSheet { // half a page has room for three of them only when they are small
		size, sub, after = sizeHead2, sizeNote, 0.6
	}
	for _, s := range ss {
		st := style{size, fonts.SemiBold, drawing.Figure}
		if !s.Plain && s.Verdict == DoesNotHold {
			st.role = drawing.Strong
		}
		ls := k.wrap(st, k.width()-8, s.Text)
		subs := k.wrap(style{sub, fonts.Regular, drawing.Note}, k.width()-8, s.Sub)
		k.need(float64(len(ls))*size*1.18 + float64(len(subs))*sub*lead + 2)
		if !s.Plain {
			k.mark(s.Verdict, k.x0()+2.2, k.y+size*0.66, min(1.9, size*0.36))
		}
		for _, l := range ls {
			k.text(k.x0()+7, k.y+size*0.92, drawing.Start, st, l)
			k.y += size * 1.18
		}
		for _, l := range subs {
			k.text(k.x0()+7, k.y+sub*0.95, drawing.Start, style{sub, fonts.Regular, drawing.Note}, l)
			k.y += sub * lead
		}
		k.y += after
	}
}

// Pair is a name and what it is.
type Pair struct {
	Name, Value string
	Note        string // basis, date
}

// pairs sets names and values in two columns, the note after the value.
func (k *kit) pairs(ps []Pair, name float64) {
	for _, p := range ps {
		if p.Value == "" && p.Note == "" {
			continue
		}
		left := style{sizeBody, fonts.Regular, drawing.Note}
		names := k.wrap(left, name-2, p.Name)
		ls := k.wrap(body, k.width()-name-2, p.Value)
		ns := k.wrap(note, k.width()-name-2, p.Note)
		h := max(float64(len(names))*sizeBody*lead, float64(len(ls))*sizeBody*lead+float64(len(ns))*sizeNote*lead) + 0.8
		k.need(h)
		for i, l := range names {
			k.text(k.x0(), k.y+sizeBody*(0.95+lead*float64(i)), drawing.Start, left, l)
		}
		y := k.y
		for _, l := range ls {
			k.text(k.x0()+name, y+sizeBody*0.95, drawing.Start, body, l)
			y += sizeBody * lead
		}
		for _, l := range ns {
			k.text(k.x0()+name, y+sizeNote*0.95, drawing.Start, note, l)
			y += sizeNote * lead
		}
		k.y += h
	}
}

// figureHeight is what a scene takes with its caption.
func figureHeight(s drawing.Scene) float64 { return s.Extent.H()/s.Scale + 14 }

// figure sets a scene at its own true scale, with a caption and a scale bar.
func (k *kit) figure(s drawing.Scene, caption string) {
	if len(s.Prims) == 0 {
		return
	}
	w, h := s.Extent.W()/s.Scale, s.Extent.H()/s.Scale
	if w > k.width()+0.01 || h > k.floor()-k.f.top-16 {
		k.err = fmt.Errorf("figure \"%s\" at 1:%g needs %.0f x %.0f mm of paper; there is room for %.0f x %.0f", s.ID, s.Scale, w, h, k.width(), k.floor()-k.f.top-16)
		return
	}
	k.need(figureHeight(s))
	dx := k.x0() + (k.width()-w)/2 - s.Extent.X0/s.Scale
	dy := k.y - s.Extent.Y0/s.Scale
	for _, p := range drawing.Place(s, fmt.Sprintf("p%d-%s:", len(k.pages), s.ID), dx, dy) {
		p.Depth += 10
		k.put(p)
	}
	k.y += h + 5
	id := fmt.Sprintf("p%d-%s-bar", len(k.pages), s.ID)
	for _, p := range drawing.ScaleBar("", id, k.x1()-44, k.y+1, s.Scale, 42) {
		k.put(p)
	}
	k.text(k.x0(), k.y+0.6, drawing.Start, slant, join(". ", caption, "Scale 1:"+strconv.FormatFloat(s.Scale, 'f', -1, 64)))
	k.y += 6
}

// cautions sets warnings between rules, with the word before them and no pictogram.
func (k *kit) cautions(cs []string) {
	const in = 24.0
	cs = slices.DeleteFunc(slices.Clone(cs), func(c string) bool { // what another one says in full
		return slices.ContainsFunc(cs, func(o string) bool { return o != c && strings.HasPrefix(o, strings.TrimSuffix(c, ".")) })
	})
	for i, c := range cs {
		ls := k.wrap(body, k.width()-in-4, c)
		h := float64(len(ls))*sizeBody*lead + 3
		if i == 0 {
			k.need(h + 2)
			k.gap(1)
		}
		if k.y+h > k.floor() {
			k.rule(drawing.Datum, k.x0(), k.x1(), k.y)
			k.page()
		}
		top := k.y == k.f.top || i == 0
		rule, from := drawing.Rule, k.x0()+in
		if top {
			rule, from = drawing.Datum, k.x0()
			k.text(k.x0()+3, k.y+1.5+sizeBody*0.95, drawing.Start, style{sizeBody, fonts.Bold, drawing.Cell}, "CAUTION")
		}
		k.rule(rule, from, k.x1(), k.y)
		k.path(drawing.Frame, drawing.LineFrom(k.x0(), k.y, k.x0(), k.y+h), drawing.NoFill)
		for j, l := range ls {
			k.text(k.x0()+in, k.y+1.5+sizeBody*(0.95+lead*float64(j)), drawing.Start, body, l)
		}
		k.y += h
	}
	if len(cs) > 0 {
		k.rule(drawing.Datum, k.x0(), k.x1(), k.y)
		k.y += 3
	}
}

// Signature is a line to sign on.
type Signature struct {
	Role string // "for the workshop", "weighed by", "customer"
	Name string // printed under the line when known
}

// signHeight is what a row of signatures takes on a whole sheet.
const signHeight = 21.0

// signatures sets the lines side by side, at most three in a row.
func (k *kit) signatures(ss []Signature) {
	line, high := 12.0, signHeight
	if k.f == halfSheet {
		line, high = 10, 15
	}
	for len(ss) > 0 {
		n := min(3, len(ss))
		k.need(high)
		w := (k.width() - 8*float64(n-1)) / float64(n)
		for i, s := range ss[:n] {
			x := k.x0() + float64(i)*(w+8)
			k.rule(drawing.Datum, x, x+w*0.66, k.y+line)
			k.rule(drawing.Datum, x+w*0.72, x+w, k.y+line)
			for j, l := range k.wrap(inked, w*0.69, join(", ", s.Role, s.Name)) {
				if j < 2 { // a third line would run into the next row
					k.text(x, k.y+line+4+float64(j)*sizeNote*lead, drawing.Start, inked, l)
				}
			}
			k.text(x+w*0.72, k.y+line+4, drawing.Start, note, "date")
		}
		k.y += high
		ss = ss[n:]
	}
}

// Source is a publication and how well it is known.
type Source struct {
	Title    string // number, title, edition
	At       string // clause, table
	Evidence string // "read in the publication", "read in a text that quotes it", "from memory", "confirmed by …"
	For      string // what it is used for
}

func (k *kit) sources(ss []Source) {
	t := table{cols: []column{{title: "source"}, {title: "place in it", width: 38}, {title: "used for", width: 42}, {title: "how known", width: 36}}, size: 3.0}
	for _, s := range ss {
		t.rows = append(t.rows, row{cells: cells(s.Title, s.At, s.For, s.Evidence)})
	}
	k.table(t)
}

// Assumption is a value that nobody has given.
type Assumption struct {
	What, Value, Why string
	Effect           string // how much it could change: "rear axle ± 4 kg"
}

func (k *kit) assumptions(as []Assumption) {
	t := table{cols: []column{{title: "assumed"}, {title: "value", width: 30}, {title: "because", width: 55}, {title: "could change", width: 36}}, size: 3.0}
	for _, a := range as {
		t.rows = append(t.rows, row{cells: cells(a.What, a.Value, a.Why, a.Effect)})
	}
	k.table(t)
}
