// Package fonts answers: what does this text look like, and how wide is it?
//
// It holds the four faces that the page and the papers share, Source Sans 3 (licence in OFL.txt),
// and measures text from the face itself, so that a label box is the same on screen and on paper.
// Kerning is not applied: the SVG and PDF backends switch it off.
package fonts

import (
	"embed"
	"fmt"
	"strings"
	"sync"
	"unicode/utf8"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Face names one of the four cuts. The zero value is Regular.
type Face uint8

// The faces.
const (
	Regular Face = iota
	SemiBold
	Italic
	Bold
)

// Faces lists every face, in order.
func Faces() []Face { return []Face{Regular, SemiBold, Italic, Bold} }

// Family is the name of the family in style sheets and in PDF files.
const Family = "Source Sans 3"

//go:embed SourceSans3-Regular.ttf SourceSans3-SemiBold.ttf SourceSans3-Italic.ttf SourceSans3-Bold.ttf OFL.txt
var files embed.FS

// File returns the name of the font file of f, as served to the page.
func (f Face) File() string {
	switch f {
	case SemiBold:
		return "SourceSans3-SemiBold.ttf"
	case Italic:
		return "SourceSans3-Italic.ttf"
	case Bold:
		return "SourceSans3-Bold.ttf"
	}
	return "SourceSans3-Regular.ttf"
}

// TTF returns the bytes of the font file of f.
func TTF(f Face) []byte {
	b, err := files.ReadFile(f.File())
	if err != nil {
		panic("fonts: embedded file missing: " + err.Error())
	}
	return b
}

// Licence returns the text of the licence of the font files.
func Licence() []byte {
	b, err := files.ReadFile("OFL.txt")
	if err != nil {
		panic("fonts: embedded licence missing: " + err.Error())
	}
	return b
}

// measure holds the advances of one face in em; it is never changed after loading.
type measure struct {
	advance [0x2800]float64 // 0: the face has no such sign
}

var loaded = [4]func() *measure{
	sync.OnceValue(func() *measure { return load(Regular) }),
	sync.OnceValue(func() *measure { return load(SemiBold) }),
	sync.OnceValue(func() *measure { return load(Italic) }),
	sync.OnceValue(func() *measure { return load(Bold) }),
}

// ranges are the blocks a paper may use: Latin, Greek, Cyrillic, punctuation, currency, arrows, operators, boxes.
var ranges = [][2]rune{{0x20, 0x24f}, {0x2b0, 0x52f}, {0x1e00, 0x1eff}, {0x2000, 0x22ff}, {0x2300, 0x25ff}, {0x2600, 0x27bf}}

func load(f Face) *measure {
	face, err := sfnt.Parse(TTF(f))
	if err != nil {
		panic(fmt.Sprintf("fonts: %s: %v", f.File(), err))
	}
	var buf sfnt.Buffer
	em := fixed.I(int(face.UnitsPerEm()))
	m := &measure{}
	for _, r := range ranges {
		for c := r[0]; c <= r[1]; c++ {
			g, err := face.GlyphIndex(&buf, c)
			if err != nil || g == 0 {
				continue
			}
			a, err := face.GlyphAdvance(&buf, g, em, font.HintingNone)
			if err != nil {
				continue
			}
			m.advance[c] = float64(a) / float64(em)
		}
	}
	return m
}

func (m *measure) of(r rune) float64 {
	if r < 0 || int(r) >= len(m.advance) {
		return 0
	}
	return m.advance[r]
}

// Has reports whether face f can show r.
func Has(f Face, r rune) bool {
	return loaded[f]().of(r) > 0
}

// Width returns the width of s set in f at the given size, in the unit of size.
// A sign that the face lacks counts as one em.
func Width(f Face, size float64, s string) float64 {
	m := loaded[f]()
	w := 0.0
	for _, r := range s {
		if a := m.of(r); a > 0 {
			w += a
		} else {
			w++
		}
	}
	return w * size
}

// Missing is written for a sign that a face lacks.
const Missing = '?'

// Printable returns s as face f can show it: the diameter sign in words, other spaces as no-break
// spaces, line breaks as spaces, control characters dropped, and Missing for what the face lacks;
// lacking lists those signs.
func Printable(f Face, s string) (out string, lacking []rune) {
	m := loaded[f]()
	plain := true
	for _, r := range s {
		if r < 0x20 || r == utf8.RuneError || m.of(r) == 0 {
			plain = false
			break
		}
	}
	if plain {
		return s, nil
	}
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '\n', r == '\t':
			b.WriteByte(' ')
		case r < 0x20, r == '\u00ad', r == '\u200b', r == '\ufeff':
		case m.of(r) > 0:
			b.WriteRune(r)
		case r == '⌀', r == '∅':
			b.WriteString("dia. ")
		case r == '\u202f', r == '\u2007', r == '\u2009':
			b.WriteRune('\u00a0')
		case r == '\u2011':
			b.WriteByte('-')
		default:
			lacking = append(lacking, r)
			b.WriteRune(Missing)
		}
	}
	return b.String(), lacking
}

// CapHeight is the height of a capital over its size, the same in all faces.
const CapHeight = 0.66

// Descent is the depth of a descender below the line over the size.
const Descent = 0.2
