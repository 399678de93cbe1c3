package paper

import (
	"berthwright/drawing"
	"berthwright/drawing/fonts"
)

// Register is the hole register: every hole to cut, with what must be known before it is cut.
type Register struct {
	Head
	Why   []string // what keeps the paper from a higher issue status
	Holes []RegisterHole
	Sign  []Signature
}

// RegisterHole is one hole. What is empty is printed as a line to write on.
type RegisterHole struct {
	Mark, Name string    // "H3", "Opening rooflight"
	Face       string    // "roof"
	Size       string    // "500 × 700 mm, along × across"
	Radius     string    // "R 40"
	CutFrom    string    // "outside"
	From       [2]string // two dimensions from what one can touch
	Behind     string    // what is behind both faces
	Looked     string    // who looked
	Edge       string    // edge treatment
	Sealant    string
	Frame      string // how far the frame stands over the cut
	Granted    string // the grant it lies in
}

// lookBehind is the caution of every paper that somebody cuts or drills from.
const lookBehind = "Look and feel behind both faces before you cut or drill. A drawing does not know what was put there since it was made."

// HoleRegister sets r as a PDF.
func HoleRegister(r Register) ([]byte, error) { return r.lay().finish("Holes to cut") }

func (r Register) lay() *kit {
	k := newKit(portrait, r.Head, "Hole register")
	k.titled("Hole register", r.Build)
	k.cautions([]string{lookBehind, "Mark the hole, drill a pilot through its middle, go round to the other face and look, then cut. Common practice, no source.",
		"Pillars, ribs, bows and rails are cut only as the base maker or an engineer says. Vents and flues of gas appliances go by their fitting instructions, local codes and a licensed gas engineer."})
	k.why(r.Why)
	for i, h := range r.Holes {
		keep := 0.0
		if i+1 == len(r.Holes) {
			keep = signHeight
		}
		k.registerHole(h, keep)
	}
	if len(r.Holes) == 0 {
		k.para(body, "No hole is described in this build.")
	}
	k.signatures(r.Sign)
	return k
}

// titled sets the title of a paper.
func (k *kit) titled(title, build string) {
	g := k.put(drawing.Prim{ID: "title", Kind: drawing.Group, Role: drawing.Heading, Title: k.clean(fonts.Bold, title)})
	k.textIn(g, k.x0(), k.y+sizeTitle*0.8, drawing.Start, style{sizeTitle, fonts.Bold, drawing.Heading}, title)
	k.text(k.x1(), k.y+sizeTitle*0.8, drawing.End, style{sizeHead1, fonts.Regular, drawing.Cell}, build)
	k.y += sizeTitle * 1.2
}

// why says what keeps a paper from a higher issue status.
func (k *kit) why(reasons []string) {
	if len(reasons) == 0 {
		return
	}
	k.lines(k.x0(), k.width(), strong, "Issued "+k.head.Status+", not further, because:")
	for _, w := range reasons {
		k.lines(k.x0()+4, k.width()-4, body, "– "+w)
	}
	k.y += 2
}

// registerHole sets one hole: number and name, two columns of what is known, and a box for the photo, with keep millimetres
// after it on its page.
func (k *kit) registerHole(h RegisterHole, keep float64) {
	const mark, photo, name = 15.0, 33.0, 17.0
	wide := (k.width() - mark - photo - 4) / 2
	type pair struct {
		name, value string
		blank       bool
	}
	columns := [2][]pair{
		{{"size", h.Size, true}, {"corners", h.Radius, true}, {"face", join(", ", h.Face, label("cut from ", h.CutFrom)), true}, {"frame", h.Frame, false}},
		{{"behind it", h.Behind, true}, {"who looked", h.Looked, true}, {"edge", h.Edge, true}, {"sealant", h.Sealant, true}, {"granted by", h.Granted, false}},
	}
	small := style{3.0, fonts.Regular, drawing.Cell}
	var lines [2][][]string
	high := 0.0
	for c, ps := range columns {
		y := 0.0
		for _, p := range ps {
			ls := k.wrap(small, wide-name-2, p.value)
			lines[c] = append(lines[c], ls)
			switch {
			case len(ls) > 0:
				y += float64(len(ls))*small.size*1.25 + 0.8
			case p.blank:
				y += 5.6
			}
		}
		high = max(high, y)
	}
	var measures []string
	for _, m := range h.From {
		if m != "" {
			measures = append(measures, k.wrap(strong, k.width()-mark-photo-4, m)...)
		}
	}
	room := 4.6 * float64(max(2, len(measures)))
	high = max(high+9+room, 36)
	k.need(high + 3 + keep)
	top := k.y
	g := k.put(drawing.Prim{ID: "hole-" + h.Mark, Kind: drawing.Group, Role: drawing.Heading, Title: k.clean(fonts.Bold, join(" ", h.Mark, h.Name)), Depth: k.pages[len(k.pages)-1].n*10 + 1})
	k.rule(drawing.Frame, k.x0(), k.x1(), top)
	k.textIn(g, k.x0()+1, top+8, drawing.Start, style{7, fonts.Bold, drawing.Heading}, h.Mark)
	k.text(k.x0()+mark, top+5, drawing.Start, style{fitSize(fonts.SemiBold, sizeHead2, k.width()-mark-photo-4, h.Name), fonts.SemiBold, drawing.Cell}, h.Name)
	for c, ps := range columns {
		x, y := k.x0()+mark+float64(c)*(wide+2), top+7.6
		for i, p := range ps {
			ls := lines[c][i]
			if len(ls) == 0 && !p.blank {
				continue
			}
			k.text(x, y+small.size*0.95, drawing.Start, style{2.6, fonts.Regular, drawing.Note}, p.name)
			if len(ls) == 0 {
				k.rule(drawing.Datum, x+name, x+wide-2, y+3.8)
				y += 5.6
				continue
			}
			for _, l := range ls {
				k.text(x+name, y+small.size*0.95, drawing.Start, small, l)
				y += small.size * 1.25
			}
			y += 0.8
		}
	}
	for i := range max(2, len(measures)) {
		y := top + high - room + 4.6*float64(i) + 1.6
		if i < len(measures) {
			k.text(k.x0()+mark, y, drawing.Start, style{3.2, fonts.SemiBold, drawing.Cell}, measures[i])
			continue
		}
		k.text(k.x0()+mark, y, drawing.Start, note, "measure")
		k.rule(drawing.Datum, k.x0()+mark+name, k.x1()-photo-6, y+0.6)
	}
	box := drawing.Box{X0: k.x1() - photo, Y0: top + 2, X1: k.x1(), Y1: top + high - 8}
	k.path(drawing.Rule, drawing.Rect(box), drawing.NoFill)
	k.text((box.X0+box.X1)/2, (box.Y0+box.Y1)/2+1, drawing.Middle, note, "photo, both faces")
	for i, w := range []string{"looked behind", "cut", "sealed"} {
		x := box.X0 + float64(i)*photo/3*0.98
		k.path(drawing.Datum, drawing.Rect(drawing.Box{X0: x, Y0: top + high - 6.2, X1: x + 3, Y1: top + high - 3.2}), drawing.NoFill)
		k.text(x+1.5, top+high-0.8, drawing.Middle, style{2.0, fonts.Regular, drawing.Note}, w)
	}
	k.y = top + high + 2
}
