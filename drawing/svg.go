package drawing

import (
	"fmt"
	"html"
	"strconv"
	"strings"

	"berthwright/drawing/fonts"
)

// CSS returns the style rules of every role, for line widths in millimetres of paper times scale.
// The page uses the same rules with its own inks (custom properties --ink, --ink-grey, --ink-faint,
// --ink-accent, --paper, --paper-tint).
func CSS(scale float64) string {
	var b strings.Builder
	fmt.Fprintf(&b, ".scene{font-family:%q,\"Source Sans Pro\",\"DejaVu Sans\",sans-serif;font-kerning:none;font-variant-ligatures:none;stroke-linejoin:round}\n", fonts.Family)
	b.WriteString(".scene path{fill:none}.scene text{stroke:none;white-space:pre}\n")
	for _, r := range Roles() {
		p := r.Pen()
		ink := inkVar(p.Ink)
		if p.Width == 0 {
			continue
		}
		fmt.Fprintf(&b, ".scene path.r-%s{stroke:%s;stroke-width:%s", r, ink, trim(p.Width*scale))
		if len(p.Dash) > 0 {
			var d []string
			for _, f := range p.Dash {
				d = append(d, trim(f*scale))
			}
			b.WriteString(";stroke-dasharray:" + strings.Join(d, " "))
		}
		fmt.Fprintf(&b, "}.scene path.r-%s.f-solid{fill:%s;stroke:none}.scene text.r-%s{fill:%s}\n", r, ink, r, ink)
	}
	b.WriteString(".scene path.f-paper{fill:var(--paper,#fff)}.scene path.f-tint{fill:var(--paper-tint," + hex(Tint.RGB()) + ")}\n")
	b.WriteString(".scene .w-semibold{font-weight:600}.scene .w-bold{font-weight:700}.scene .w-italic{font-style:italic}\n")
	return b.String()
}

func inkVar(i Ink) string {
	r, g, b := i.RGB()
	return "var(" + [...]string{"--ink", "--ink-grey", "--ink-faint", "--ink-accent"}[i] + "," + hex(r, g, b) + ")"
}

func hex(r, g, b uint8) string { return fmt.Sprintf("#%02x%02x%02x", r, g, b) }

func trim(f float64) string { return strconv.FormatFloat(round3(f), 'f', -1, 64) }

// SVG writes s as a standalone picture at true size: 1 mm of it is Scale mm of the van. Fonts are
// named, not embedded. Groups carry id, data-doc and title.
func SVG(s Scene) []byte {
	var b strings.Builder
	e := s.Extent
	k := s.Scale
	if !(k > 0) {
		k = 1
	}
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" class="scene" width="%smm" height="%smm" viewBox="%s %s %s %s" role="img" aria-labelledby="title desc">`+"\n",
		trim(e.W()/k), trim(e.H()/k), trim(e.X0), trim(e.Y0), trim(e.W()), trim(e.H()))
	desc := s.Desc
	if desc == "" {
		desc = strings.TrimSpace("scale 1:" + trim(k) + ", state " + s.State)
	}
	fmt.Fprintf(&b, "<title id=\"title\">%s</title>\n<desc id=\"desc\">%s</desc>\n<style>\n%s</style>\n", esc(s.Title), esc(desc), CSS(k))
	open := false
	shut := func() {
		if open {
			b.WriteString("</g>\n")
			open = false
		}
	}
	for _, p := range s.Prims {
		switch p.Kind {
		case Group:
			shut()
			fmt.Fprintf(&b, `<g id="%s" class="r-%s" data-layer="%s"`, esc(p.ID), p.Role, esc(p.Layer))
			if p.Doc != "" {
				fmt.Fprintf(&b, ` data-doc="%s"`, esc(p.Doc))
			}
			b.WriteString(">")
			if p.Title != "" {
				fmt.Fprintf(&b, "<title>%s</title>", esc(p.Title))
			}
			b.WriteString("\n")
			open = true
		case Path:
			if p.In == "" {
				shut()
			}
			fmt.Fprintf(&b, `<path id="%s" class="%s" d="%s"/>`+"\n", esc(p.ID), strings.TrimSuffix("r-"+string(p.Role)+" f-"+p.Fill.String(), " f-"), p.D)
		case Text:
			if p.In == "" {
				shut()
			}
			b.WriteString(`<text id="` + esc(p.ID) + `" class="r-` + string(p.Role) + [...]string{"", " w-semibold", " w-italic", " w-bold"}[p.Face] + `"`)
			fmt.Fprintf(&b, ` x="%s" y="%s" font-size="%s"`, trim(p.X), trim(p.Y), trim(p.Size))
			if w := fonts.Width(p.Face, p.Size, p.Text); w > 0 { // so that any font fills the box that labels were placed by
				fmt.Fprintf(&b, ` textLength="%s" lengthAdjust="spacingAndGlyphs"`, trim(w))
			}
			if p.Anchor != Start {
				b.WriteString([...]string{"", ` text-anchor="middle"`, ` text-anchor="end"`}[p.Anchor])
			}
			if p.Turn != 0 {
				fmt.Fprintf(&b, ` transform="rotate(%s %s %s)"`, trim(p.Turn), trim(p.X), trim(p.Y))
			}
			b.WriteString(">" + esc(p.Text) + "</text>\n")
		}
	}
	shut()
	b.WriteString("</svg>\n")
	return []byte(b.String())
}

// esc escapes for XML and drops what XML 1.0 forbids.
func esc(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < 0x20 && r != '\t' && r != '\n' || r == 0xfffe || r == 0xffff {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
	return html.EscapeString(s)
}
