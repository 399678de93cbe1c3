package paper

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"berthwright/drawing"
	"berthwright/drawing/fonts"
)

// pageFaults lists what is wrong on the pages: overlapping words, words outside the paper, signs the font lacks.
func pageFaults(k *kit) []string {
	var out []string
	for n, s := range k.scenes() {
		type word struct {
			text string
			box  drawing.Box
		}
		var words []word
		for _, p := range s.Prims {
			if p.Kind != drawing.Text {
				continue
			}
			b := p.Box()
			b.Y0 += 0.1 * p.Size // accents may reach into the line above
			words = append(words, word{p.Text, b.Grow(-0.02)})
			if b.X0 < 5 || b.X1 > s.Extent.X1-5 || b.Y0 < 5 || b.Y1 > s.Extent.Y1-5 {
				out = append(out, fmt.Sprintf("page %d: %q stands outside the paper at %.1f %.1f to %.1f %.1f", n+1, p.Text, b.X0, b.Y0, b.X1, b.Y1))
			}
			for _, r := range p.Text {
				if !fonts.Has(p.Face, r) {
					out = append(out, fmt.Sprintf("page %d: %q has %q, which the font lacks", n+1, p.Text, r))
				}
			}
		}
		for i, a := range words {
			for _, b := range words[:i] {
				if a.box.Overlaps(b.box) {
					out = append(out, fmt.Sprintf("page %d: %q at %.1f %.1f stands on %q at %.1f %.1f", n+1, a.text, a.box.X0, a.box.Y1, b.text, b.box.X0, b.box.Y1))
				}
			}
		}
	}
	return out
}

// printed returns every text of the pages, one a line.
func printed(k *kit) string {
	var b strings.Builder
	for _, s := range k.scenes() {
		for _, p := range s.Prims {
			if p.Kind == drawing.Text {
				b.WriteString(p.Text + "\n")
			}
		}
	}
	return b.String()
}

func TestPropLongTablesLoseNoRowAndRepeatTheirHead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 120).Draw(t, "rows")
		s := Statement{Head: Head{Build: "Curlew", Workshop: "Marram Lane"}}
		word := rapid.StringMatching(`[A-Za-zäöüéß]{1,14}`)
		for i := range n {
			name := strings.Join(rapid.SliceOfN(word, 1, 12).Draw(t, "name"), " ")
			s.Items = append(s.Items, ItemRow{Number: i + 1, Name: fmt.Sprintf("item%d %s", i+1, name), Group: "kitchen",
				Mass: fmt.Sprintf("%d.%d", rapid.IntRange(0, 200).Draw(t, "kg"), i%10), Known: "weighed", Place: "x 1000"})
		}
		k := s.lay()
		pages := k.scenes()
		text := ""
		for i, p := range pages {
			page := ""
			for _, q := range p.Prims {
				if q.Kind == drawing.Text {
					page += q.Text + "\n"
				}
			}
			if strings.Contains(page, "item") && strings.Count(page, "how known\n") != 1 {
				t.Fatalf("page %d of %d has %d table heads", i+1, len(pages), strings.Count(page, "how known\n"))
			}
			if want := fmt.Sprintf("page %d of %d", i+1, len(pages)); !strings.Contains(page, want) {
				t.Fatalf("page %d does not say %q", i+1, want)
			}
			text += strings.ReplaceAll(page, "\u00a0", " ")
		}
		for i := range n {
			if c := strings.Count(text, fmt.Sprintf("item%d ", i+1)) + strings.Count(text, fmt.Sprintf("item%d\n", i+1)); c != 1 {
				t.Fatalf("item %d is printed %d times", i+1, c)
			}
		}
		if f := pageFaults(s.lay()); len(f) > 0 {
			t.Fatal(strings.Join(f, "\n"))
		}
	})
}

func TestPropDecimalSignsStandUnderEachOther(t *testing.T) {
	k := newKit(portrait, Head{}, "t")
	k.table(table{cols: []column{{title: "what"}, {title: "kg", width: 30, align: decimal}}, rows: []row{
		{cells: cells("a", "1.25")}, {cells: cells("b", "12")}, {cells: cells("c", "1 234.5")}, {cells: cells("d", "−0.5")}}})
	at := map[string]float64{}
	for _, s := range k.scenes() {
		for _, p := range s.Prims {
			if p.Kind != drawing.Text {
				continue
			}
			whole, _ := splitDecimal(p.Text)
			at[p.Text] = p.X + fonts.Width(p.Face, p.Size, whole)
		}
	}
	for _, w := range []string{"12", "1\u00a0234.5", "−0.5"} {
		x, ok := at[w]
		if d := x - at["1.25"]; !ok || d > 0.001 || d < -0.001 {
			t.Errorf("the decimal place of %q is %.3f mm off that of \"1.25\"", w, d)
		}
	}
}

func TestPropSignsTheFontLacksAreCountedOnThePaper(t *testing.T) {
	c := Change{Head: Head{Build: "Curlew"}, Number: "1", What: "pipe ⌀ 28, 漢 and 字"}
	k := c.lay()
	text := printed(k)
	if !strings.Contains(text, "pipe dia. ") || !strings.Contains(text, "2 signs of the text") {
		t.Errorf("printed:\n%s", text)
	}
	if f := pageFaults(c.lay()); len(f) > 0 {
		t.Error(strings.Join(f, "\n"))
	}
}

func TestPropFormulaSymbolsSlantAndUnitsDoNot(t *testing.T) {
	slanted := func(s string) string {
		out := ""
		for _, r := range runs(pretty(s)) {
			if r.face == fonts.Italic {
				out += r.text + " "
			}
		}
		return strings.TrimSpace(out)
	}
	for in, want := range map[string]string{"M / l": "M l", "sum(m_i * x_i) / l": "m i x i l", "7 542.8 kg·m / 4.000 m": "", "6.02 m": "",
		"10 * (n + L)": "n L", "10 * (4 + 6.02)": "", "12\u00a0V": "", "5 kg/m": ""} {
		if got := slanted(in); got != want {
			t.Errorf("%q: slanted %q, want %q", in, got, want)
		}
	}
}

func TestPropAFigureTooLargeForThePageIsRefused(t *testing.T) {
	big := drawing.Scene{ID: "plan", Scale: 10, Extent: drawing.Box{X1: 6000, Y1: 2000}, Prims: []drawing.Prim{{ID: "a", Kind: drawing.Group}}}
	_, err := MassStatement(Statement{Plan: Figure{Scene: big}})
	if err == nil || !strings.Contains(err.Error(), `"plan" at 1:10 needs 600 x 200 mm`) {
		t.Errorf("error %v", err)
	}
}

// TestPropAnyWordsFindTheirPlace lays out statements and slips of random words, some very long.
func TestPropAnyWordsFindTheirPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.Custom(func(t *rapid.T) string {
			return strings.Join(rapid.SliceOfN(rapid.StringMatching(`[A-Za-z0-9äµ²±()]{1,20}`), 0, 12).Draw(t, "w"), " ")
		})
		number := rapid.StringMatching(`[−]?[0-9]{1,4}([.][0-9])?`)
		w := func() string { return words.Draw(t, "words") }
		s := Statement{Head: Head{Build: "Curlew"}, Verdict: Sentence{Text: w(), Sub: w()}, Deciding: []Sentence{{Text: w(), Sub: w()}, {Text: w(), Plain: true}}}
		for range rapid.IntRange(0, 3).Draw(t, "n") {
			v := Verdict(rapid.IntRange(0, 3).Draw(t, "verdict"))
			s.Basis = append(s.Basis, Pair{w(), w(), w()})
			s.Cautions = append(s.Cautions, w())
			s.Limits = append(s.Limits, LimitRow{What: w(), Case: w(), Load: number.Draw(t, "l"), Limit: number.Draw(t, "m"), Margin: number.Draw(t, "g"), Verdict: v})
			s.Cases = append(s.Cases, CaseRow{Name: w(), People: w(), Front: number.Draw(t, "f"), Margins: number.Draw(t, "g"), Judged: true, Verdict: v, Deciding: true})
			s.Findings = append(s.Findings, Finding{Verdict: v, Text: w(), Basis: w(), Advice: w()})
			s.Assumed = append(s.Assumed, Assumption{w(), w(), w(), w()})
			s.Sources = append(s.Sources, Source{w(), w(), w(), w()})
			s.Slips = append(s.Slips, Slip{ID: "a.b", Title: w(), Notes: []string{w()}, Lines: []SlipLine{{Symbol: "m_r", Says: w(), Formula: "sum(m_i * x_i) / l", Numbers: w(), Result: w(), Source: w()}, {Says: w(), Result: number.Draw(t, "r")}}})
		}
		if f := pageFaults(s.lay()); len(f) > 0 {
			t.Fatal(strings.Join(f, "\n"))
		}
	})
}

func TestPropPlacardWordsFindTheirPlaceOrAreRefused(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.Custom(func(t *rapid.T) string {
			return strings.Join(rapid.SliceOfN(rapid.StringMatching(`[A-Za-z0-9ä]{1,14}`), 1, 14).Draw(t, "w"), " ")
		})
		p := LoadingPlacard{Head: Head{Build: "Curlew"}, Together: "145 kg", Basis: words.Draw(t, "basis")}
		for range rapid.IntRange(0, 14).Draw(t, "zones") {
			p.Zones = append(p.Zones, PlacardZone{Where: words.Draw(t, "where"), Limit: "85 kg", Note: words.Draw(t, "note"), Apart: rapid.Bool().Draw(t, "apart")})
		}
		for range rapid.IntRange(0, 9).Draw(t, "seats") {
			p.Seats = append(p.Seats, Pair{Name: words.Draw(t, "seat"), Value: "75 kg"})
		}
		p.Rules = rapid.SliceOfN(words, 0, 5).Draw(t, "rules")
		p.Totals = []Pair{{Name: "whole van", Value: "3 500 kg"}}
		k := p.lay()
		if k.err != nil {
			if _, err := Placard(p); err == nil {
				t.Fatal("a placard that does not fit was printed")
			}
			return
		}
		if f := pageFaults(k); len(f) > 0 {
			t.Fatal(strings.Join(f, "\n"))
		}
	})
}

// What is not for use says so in a band across the page, in one or two lines, and in place of the usual words.
func TestPropAWarningStandsAcrossThePlacard(t *testing.T) {
	p := placard()
	p.Warning = "Not for use: no luggage is declared; the plate is not entered; 4 of 9 places for luggage have no limit"
	k := p.lay()
	if n := len(k.scenes()); k.err != nil || n != 1 {
		t.Fatalf("%d pages, %v", n, k.err)
	}
	got := strings.ReplaceAll(printed(k), "\n", " ")
	if !strings.Contains(got, p.Warning) || strings.Contains(got, "Read before you drive") {
		t.Errorf("%s", got)
	}
}
