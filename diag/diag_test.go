package diag

import (
	"encoding/json"
	"io"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"berthwright/unit"

	"pgregory.net/rapid"
)

func TestPropText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SliceOf(rapid.SampledFrom([]rune("ab\n\r\tµ日"))).Draw(t, "text")
		index := NewText([]byte(string(text)))
		offset, line, col := 0, 1, 1
		for _, r := range text {
			if got := index.Pos(offset); got != (Pos{line, col, offset}) {
				t.Fatalf("Pos(%d) = %v, want %d:%d", offset, got, line, col)
			}
			offset += len(string(r))
			if col++; r == '\n' {
				line, col = line+1, 1
			}
		}
		if got := index.Pos(offset + 5); got != (Pos{line, col, offset}) || index.Lines() != line {
			t.Fatalf("end %v of %d lines, want %d:%d", got, index.Lines(), line, col)
		}
	})
}

// Columns far along a line agree with counting from its start, also in text that is not UTF-8.
func TestCrossLongLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		piece := rapid.SliceOfN(rapid.SampledFrom([]string{"a", "µ", "日", "\xff", " "}), 1, 7).Draw(t, "piece")
		text := []byte("first\n" + strings.Repeat(strings.Join(piece, ""), 800) + "\nlast")
		index := NewText(text)
		for at, col := 6, 1; at < len(text) && text[at] != '\n'; col++ {
			if got := index.Pos(at); got != (Pos{2, col, at}) {
				t.Fatalf("byte %d is %v, want column %d", at, got, col)
			}
			_, size := utf8.DecodeRune(text[at:])
			at += size
		}
		if got := index.Pos(len(text)); got.Line != 3 || got.Col != 5 {
			t.Fatalf("end is %v", got)
		}
	})
}

// A great many diagnostics in one long line cost no more than their number.
func BenchmarkLongLine(b *testing.B) {
	text := NewText([]byte(strings.Repeat("key: 1, ", 250_000)))
	for b.Loop() {
		at := text.Range(1_900_000, 1_900_003)
		if err := Fprint(io.Discard, List{{Pos: at.Start, End: at.End, Severity: Error, Message: "bad"}}, func(string) *Text { return text }); err != nil {
			b.Fatal(err)
		}
	}
}

func TestTextLine(t *testing.T) {
	index := NewText([]byte("a\r\n\nb"))
	for n, want := range map[int]string{0: "", 1: "a", 2: "", 3: "b", 4: ""} {
		if got := string(index.Line(n)); got != want {
			t.Errorf("line %d is %q, want %q", n, got, want)
		}
	}
}

func TestList(t *testing.T) {
	var l List
	l.Add(Diagnostic{File: "b", Pos: Pos{1, 1, 0}, Code: UnknownKey})
	l.Add(Diagnostic{File: "a", Pos: Pos{2, 1, 9}, Code: FarFromUsual})
	if b, err := json.Marshal(List(nil)); err != nil || string(b) != "[]" {
		t.Errorf("an empty list is %s, %v", b, err)
	}
	if l.HasErrors() != true || l[1].Severity != Warning {
		t.Errorf("severities %v, %v", l[0].Severity, l[1].Severity)
	}
	l.Add(Diagnostic{File: "a", Pos: Pos{2, 1, 9}, Code: UnknownKey})
	l.Add(Diagnostic{File: "a", Pos: Pos{1, 3, 2}, Code: UnknownKey})
	l.Add(Diagnostic{File: "b", Pos: Pos{1, 1, 0}, Code: UnknownKey})
	l.Sort()
	want := []struct {
		file string
		at   int
		code Code
	}{{"a", 2, UnknownKey}, {"a", 9, UnknownKey}, {"a", 9, FarFromUsual}, {"b", 0, UnknownKey}}
	if len(l) != len(want) {
		t.Fatalf("%d left, want %d", len(l), len(want))
	}
	for i, w := range want {
		if l[i].File != w.file || l[i].Pos.Byte != w.at || l[i].Code != w.code {
			t.Errorf("%d is %v, want %v", i, l[i], w)
		}
	}
	if l.Count(Warning) != 1 || l.Count(Error) != 3 || (List{l[2]}).HasErrors() {
		t.Errorf("%d warnings, %d errors", l.Count(Warning), l.Count(Error))
	}
}

func TestMessage(t *testing.T) {
	for _, c := range []struct {
		message string
		args    Args
		want    string
	}{
		{"plain", nil, "plain"},
		{"a {x} b {y}", Args{"x": "1", "y": "2"}, "a 1 b 2"},
		{"{x}{x}", Args{"x": "{x}"}, "{x}{x}"},
		{"items: {id: {x}}", Args{"x": "1"}, "items: {id: 1}"},
		{"open { only", Args{"x": "1"}, "open { only"},
	} {
		if got := (Diagnostic{Message: c.message, Args: c.args}).Text(); got != c.want {
			t.Errorf("%q gives %q, want %q", c.message, got, c.want)
		}
	}
	if got := (Diagnostic{Code: "made-up"}).Text(); got != "made-up" {
		t.Errorf("undeclared code says %q", got)
	}
	if Severity(0).String() != "invalid severity" {
		t.Error("the zero severity is not invalid")
	}
}

func TestNearest(t *testing.T) {
	keys := []string{"mass", "size", "place", "states", "wheelbase", "x", "count"}
	for _, c := range []struct{ word, want string }{
		{"mas", "mass"}, {"masss", "mass"}, {"mess", "mass"}, {"amss", "mass"}, {"Mass", "mass"}, {"MASS", "mass"},
		{"weelbsae", "wheelbase"}, {"palce", "place"}, {"state", "states"}, {"coutn", "count"},
		{"weight", ""}, {"", ""}, {"kg", ""}, {"plaque-board", ""}, {"sz", ""},
	} {
		got, ok := Nearest(c.word, keys, 2)
		if got != c.want || ok != (c.want != "") {
			t.Errorf("%q: %q, %v, want %q", c.word, got, ok, c.want)
		}
	}
	if _, ok := Nearest("mas", keys, 0); ok {
		t.Error("distance 0 finds a different word")
	}
}

// The distance is compared with the plain recursive definition.
func TestCrossSlips(t *testing.T) {
	var plain func(a, b []rune) int
	plain = func(a, b []rune) int {
		if len(a) == 0 || len(b) == 0 {
			return len(a) + len(b)
		}
		i, j := len(a)-1, len(b)-1
		cost := 1
		if a[i] == b[j] {
			cost = 0
		}
		d := min(plain(a[:i], b)+1, plain(a, b[:j])+1, plain(a[:i], b[:j])+cost)
		if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
			d = min(d, plain(a[:i-1], b[:j-1])+1)
		}
		return d
	}
	word := rapid.SliceOfN(rapid.SampledFrom([]rune("abc")), 0, 6)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		if got, want := slips(a, b, 99), plain(a, b); got != want {
			t.Fatalf("slips(%q, %q) = %d, want %d", string(a), string(b), got, want)
		}
	})
}

func TestCodes(t *testing.T) {
	name := regexp.MustCompile(`^[a-z]+(-[a-z0-9]+)*$`)
	holes := regexp.MustCompile(`\{[^}]*\}`)
	seen := map[Code]bool{}
	for _, c := range Codes() {
		if seen[c.Code] || !name.MatchString(string(c.Code)) {
			t.Errorf("code %q is repeated or badly spelled", c.Code)
		}
		seen[c.Code] = true
		if c.Severity != Error && c.Severity != Warning {
			t.Errorf("%s has no severity", c.Code)
		}
		if c.Template == "" || c.Template[len(c.Template)-1] == '.' || c.Help == "" || c.Help[len(c.Help)-1] != '.' {
			t.Errorf("%s: message %q, help %q", c.Code, c.Template, c.Help)
		}
		for _, hole := range holes.FindAllString(c.Template, -1) {
			if hole != "{text}" && hole != "{key}" {
				t.Errorf("%s has an argument %s that nobody fills", c.Code, hole)
			}
		}
	}
	if len(seen) < 40 || !UnknownKey.Known() || Code("made-up").Known() {
		t.Errorf("%d codes", len(seen))
	}
}

func TestCrossUnitCodesAreDeclared(t *testing.T) {
	for _, c := range []unit.Code{
		unit.CodeNotANumber, unit.CodeAmbiguous, unit.CodeMissingUnit, unit.CodeWrongUnit, unit.CodeUnknownUnit,
		unit.CodeExtraText, unit.CodeBadSpread, unit.CodeTooLarge, unit.CodeOutOfRange, unit.CodeBadSum,
	} {
		if !Code(c).Known() {
			t.Errorf("code %q of package unit is not declared", c)
		}
	}
}
