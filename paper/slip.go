package paper

import (
	"strings"
	"unicode"

	"berthwright/drawing"
	"berthwright/drawing/fonts"
)

// Slip is the working of one figure.
type Slip struct {
	ID    string // stable: "axle.split"
	Title string
	Lines []SlipLine
	Notes []string // what the method leaves out
}

// SlipLine is one step: symbol = formula = formula with numbers = result.
type SlipLine struct {
	Symbol  string // "m_r"
	Says    string // "mass on the rear axle"
	Kind    string // "given", "assumed", "limit", "constant"; empty: derived
	Formula string // "sum(m_i * x_i) / l"
	Numbers string // "7 544 kg·m / 4.00 m"
	Result  string // "1 886 kg"
	Source  string // in the margin
}

const marginWidth = 42.0

// slip sets the working, its sources in the margin on the right.
func (k *kit) slip(s Slip) {
	titles := k.wrap(strong, k.width()-marginWidth-4, s.Title)
	high := 8 + float64(len(titles))*sizeBody*lead
	for i, l := range s.Lines {
		if i < 4 { // a slip may break, but not right after its title
			high += k.slipLineHeight(l)
		}
	}
	k.need(min(high, k.floor()-k.f.top))
	k.gap(2)
	k.rule(drawing.Datum, k.x0(), k.x1(), k.y)
	k.y += 1.6
	if len(titles) == 0 {
		titles = []string{""}
	}
	for i, l := range k.wrap(note, marginWidth, s.ID) {
		k.text(k.x1(), k.y+sizeBody*0.95+float64(i)*sizeNote*lead, drawing.End, note, l)
	}
	for _, l := range titles {
		k.text(k.x0(), k.y+sizeBody*0.95, drawing.Start, strong, l)
		k.y += sizeBody * lead
	}
	k.y += 1.4
	for _, l := range s.Lines {
		k.slipLine(l)
	}
	for _, n := range s.Notes {
		k.lines(k.x0(), k.width()-marginWidth-4, slant, n)
	}
	k.y += 3
}

func (k *kit) slipText() (x, w float64) { return k.x0() + 15, k.width() - marginWidth - 19 }

// compact tells that a step is a line of a certificate, not of a chain: it is set on one line.
func (l SlipLine) compact() bool { return l.Symbol == "" }

func (k *kit) slipLineHeight(l SlipLine) float64 {
	if l.compact() {
		return float64(max(1, len(k.wrap(inked, k.compactWidth(l), join("; ", l.Says, l.Source)))))*sizeNote*lead + 1
	}
	_, w := k.slipText()
	n := len(formulaLines(l, w))
	h := float64(n)*sizeBody*1.45 + float64(len(k.wrap(note, w, join(", ", l.Says, l.Kind))))*sizeNote*lead
	if m := float64(len(k.wrap(note, marginWidth, l.Source)))*sizeNote*lead + 1; m > h {
		h = m
	}
	return h + 1.2
}

func (k *kit) slipLine(l SlipLine) {
	h := k.slipLineHeight(l)
	k.need(h)
	if l.compact() {
		k.compactLine(l)
		k.y += h
		return
	}
	x, w := k.slipText()
	k.formula(k.x0(), k.y+sizeBody*0.95, l.Symbol)
	y := k.y + sizeBody*0.95
	for _, f := range formulaLines(l, w) {
		k.formula(x, y, f)
		y += sizeBody * 1.45
	}
	for i, s := range k.wrap(note, w, join(", ", l.Says, l.Kind)) {
		k.text(x, y-sizeBody*0.95+sizeNote*(0.85+lead*float64(i)), drawing.Start, note, s)
	}
	for i, s := range k.wrap(note, marginWidth, l.Source) {
		k.text(k.x1()-marginWidth, k.y+sizeNote*(1.1+lead*float64(i)), drawing.Start, slant, s)
	}
	k.y += h
}

func compactResult(l SlipLine) string { return pretty(join(" = ", l.Formula, l.Numbers, l.Result)) }

func (k *kit) compactWidth(l SlipLine) float64 {
	return max(40, k.width()-fonts.Width(inked.face, inked.size, compactResult(l))-6)
}

// compactLine sets what it is on the left and its figure on the right, over a hairline.
func (k *kit) compactLine(l SlipLine) {
	words := join("; ", l.Says, l.Source)
	y := k.y + sizeNote*0.95
	k.text(k.x1(), y, drawing.End, inked, compactResult(l))
	for i, s := range k.wrap(inked, k.compactWidth(l), words) {
		k.text(k.x0(), y+float64(i)*sizeNote*lead, drawing.Start, inked, s)
	}
	k.rule(drawing.Rule, k.x0(), k.x1(), k.y+k.slipLineHeight(l)-0.4)
}

// formulaLines breaks "= formula = numbers = result" where it must.
func formulaLines(l SlipLine, width float64) []string {
	var out []string
	line := ""
	for _, p := range []string{l.Formula, l.Numbers, l.Result} {
		if p == "" {
			continue
		}
		p = "= " + pretty(p)
		try := join(" ", line, p)
		if line == "" || runsWidth(runs(try)) <= width {
			line = try
			continue
		}
		out = append(out, line)
		line = p
	}
	if line != "" {
		out = append(out, line)
	}
	var cut []string
	for _, f := range out {
		cut = append(cut, breakFormula(f, width)...)
	}
	return cut
}

// breakFormula breaks a line before an operator, where it is wider than width.
func breakFormula(f string, width float64) []string {
	if runsWidth(runs(f)) <= width {
		return []string{f}
	}
	var out []string
	line := ""
	for _, w := range strings.Split(f, " ") {
		if try := join(" ", line, w); line == "" || runsWidth(runs(try)) <= width {
			line = try
			continue
		}
		out = append(out, line)
		line = "   " + w
	}
	return append(out, line)
}

// pretty writes the operators of a formula as people write them.
func pretty(s string) string {
	return strings.NewReplacer(" * ", " · ", "*", " · ", " - ", " − ", "sum(", "Σ(", "sqrt(", "√(", "<=", "≤", ">=", "≥").Replace(s)
}

// unitAt reports whether the word that begins at i stands for a unit: behind a figure, or joined to
// another unit by a dot or a stroke without a space.
func unitAt(rs []rune, i int) bool {
	if i > 0 && (rs[i-1] == '·' || rs[i-1] == '/') {
		return true
	}
	for i--; i >= 0; i-- {
		if rs[i] != ' ' && rs[i] != '\u00a0' {
			return unicode.IsDigit(rs[i])
		}
	}
	return false
}

// run is a piece of a formula in one face at one height.
type run struct {
	text string
	face fonts.Face
	size float64
	down float64
}

// runs splits a formula into upright signs, slanted symbols and lowered indices.
func runs(s string) []run {
	var out []run
	add := func(text string, f fonts.Face, size, down float64) {
		if text == "" {
			return
		}
		if n := len(out); n > 0 && out[n-1].face == f && out[n-1].size == size && out[n-1].down == down {
			out[n-1].text += text
			return
		}
		out = append(out, run{text, f, size, down})
	}
	rs := []rune(s)
	for i := 0; i < len(rs); {
		j := i
		for j < len(rs) && (unicode.IsLetter(rs[j]) || j > i && (rs[j] == '_' || unicode.IsDigit(rs[j]))) {
			j++
		}
		if j == i {
			add(string(rs[i]), fonts.Regular, sizeBody, 0)
			i++
			continue
		}
		word := string(rs[i:j])
		name, index, has := strings.Cut(word, "_")
		switch {
		case has:
			add(name, fonts.Italic, sizeBody, 0)
			add(strings.ReplaceAll(index, "_", ","), fonts.Italic, sizeBody*0.72, sizeBody*0.22)
		case j == i+1 && word != "Σ" && !unitAt(rs, i):
			add(word, fonts.Italic, sizeBody, 0)
		default:
			add(word, fonts.Regular, sizeBody, 0)
		}
		i = j
	}
	return out
}

func runsWidth(rs []run) float64 {
	w := 0.0
	for _, r := range rs {
		w += fonts.Width(r.face, r.size, r.text)
	}
	return w
}

func (k *kit) formula(x, y float64, s string) {
	for _, r := range runs(s) {
		k.text(x, y+r.down, drawing.Start, style{r.size, r.face, drawing.Cell}, r.text)
		x += fonts.Width(r.face, r.size, r.text)
	}
}
