package diag

import (
	"encoding/json"
	"strings"
	"testing"
)

// at builds a Diagnostic around the first occurrence of what in text.
func at(t *testing.T, text, what string, d Diagnostic) Diagnostic {
	t.Helper()
	i := strings.Index(text, what)
	if i < 0 {
		t.Fatalf("%q is not in the text", what)
	}
	r := NewText([]byte(text)).Range(i, i+len(what))
	d.Pos, d.End = r.Start, r.End
	return d
}

func printed(t *testing.T, text string, l List) string {
	t.Helper()
	var b strings.Builder
	if err := Fprint(&b, l, func(string) *Text { return NewText([]byte(text)) }); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestFrozenPrint(t *testing.T) {
	long := "items: {" + strings.Repeat("aaaa: 1 kg, ", 20) + "mass: 12.5 Ah, " + strings.Repeat("bbbb: 2 kg, ", 20) + "}"
	for _, c := range []struct {
		name, text, what string
		d                Diagnostic
		want             string
	}{
		{
			"indent is left out", "items:\n  - id: fridge\n    mass: 12.5 Ah\n", "12.5 Ah",
			Diagnostic{File: "curlew.yaml", Severity: Error, Message: "mass {text} is not a mass", Args: Args{"text": `"12.5 Ah"`}, Hint: `write a mass like "12.5 kg"; a capacity goes in "capacity:"`},
			"curlew.yaml:3:11: mass \"12.5 Ah\" is not a mass\n\tmass: 12.5 Ah\n\t      ^~~~~~~\n\thint: write a mass like \"12.5 kg\"; a capacity goes in \"capacity:\"\n",
		},
		{
			"warning, no hint", "wheelbase: 9 m", "9 m",
			Diagnostic{File: "v.yaml", Severity: Warning, Code: FarFromUsual, Args: Args{"key": "wheelbase", "text": `"9 m"`}},
			"v.yaml:1:12: warning: wheelbase \"9 m\" is far from usual\n\twheelbase: 9 m\n\t           ^~~\n",
		},
		{
			"tab is one column", "a:\tb: 5", "5",
			Diagnostic{Severity: Error, Message: "bad"},
			"1:7: bad\n\ta: b: 5\n\t      ^\n",
		},
		{
			"wide characters take two columns", "name: 日本 5 kq", "kq",
			Diagnostic{Severity: Error, Message: "bad"},
			"1:12: bad\n\tname: 日本 5 kq\n\t             ^~\n",
		},
		{
			"the mark on a wide character", "name: 日本", "日本",
			Diagnostic{Severity: Error, Message: "bad"},
			"1:7: bad\n\tname: 日本\n\t      ^~~~\n",
		},
		{
			"combining marks take none", "cafe\u0301: 5", "5",
			Diagnostic{Severity: Error, Message: "bad"},
			"1:8: bad\n\tcafe\u0301: 5\n\t      ^\n",
		},
		{
			"terminal codes are shown as marks", "name: \x1b[31mred\u202e", "red",
			Diagnostic{Severity: Error, Message: "name \x1b[31m"},
			"1:12: name \ufffd[31m\n\tname: \ufffd[31mred\ufffd\n\t           ^~~\n",
		},
		{
			"windows line ends", "a: 1\r\nb: 2\r\n", "2",
			Diagnostic{Severity: Error, Message: "bad"},
			"2:4: bad\n\tb: 2\n\t   ^\n",
		},
		{
			"several lines are marked to the end of the first", "a: [1,\n 2]\n", "[1,\n 2]",
			Diagnostic{Severity: Error, Message: "bad"},
			"1:4: bad\n\ta: [1,\n\t   ^~~\n",
		},
		{
			"long lines are cut around the mark", long, "12.5 Ah",
			Diagnostic{Severity: Error, Message: "bad"},
			"1:255: bad\n\t…, aaaa: 1 kg, aaaa: 1 kg, mass: 12.5 Ah, bbbb: 2 kg, bbbb: 2 kg, bbbb: 2 kg, bbbb: 2 kg, bbbb: 2 k…\n" +
				"\t" + strings.Repeat(" ", 33) + "^~~~~~~\n",
		},
	} {
		if got := printed(t, c.text, List{at(t, c.text, c.what, c.d)}); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

func TestFrozenPrintWithoutPlace(t *testing.T) {
	l := List{{File: "a.yaml", Severity: Error, Code: NotUTF8, Args: Args{"text": "0xff"}}}
	if got, want := printed(t, "x", l), "a.yaml: byte 0xff is not UTF-8\n"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestFrozenPrintAtEnd(t *testing.T) {
	text := NewText([]byte("a: ["))
	l := List{{Severity: Error, Code: Bracket, Pos: text.Pos(4), End: text.Pos(4)}}
	if got, want := printed(t, "a: [", l), "1:5: a bracket is not closed where it should be\n\ta: [\n\t    ^\n"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestFrozenRelatedAndJSON(t *testing.T) {
	text := "- id: tap\n- id: tap\n"
	index := NewText([]byte(text))
	d := Diagnostic{
		File: "b.yaml", Path: "items/tap", Severity: Error, Code: DuplicateID, Args: Args{"text": `"tap"`},
		Pos: index.Pos(16), End: index.Pos(19),
		Related: []Related{{Pos: index.Pos(6), End: index.Pos(9), Says: "first defined here"}},
	}
	want := "b.yaml:2:7: id \"tap\" is used twice\n\t- id: tap\n\t      ^~~\n\tb.yaml:1:7: first defined here\n"
	if got := printed(t, text, List{d}); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	got, err := json.Marshal(List{d})
	wantJSON := `[{"file":"b.yaml","line":2,"column":7,"byte":16,"endLine":2,"endColumn":10,"endByte":19,"path":"items/tap","severity":"error","code":"duplicate-id","text":"id \"tap\" is used twice","args":{"text":"\"tap\""},"related":[{"line":1,"column":7,"byte":6,"says":"first defined here"}]}]`
	if err != nil || string(got) != wantJSON {
		t.Errorf("%s, %v\nwant\n%s", got, err, wantJSON)
	}
}

// Whatever the text and the offsets: no panic, the mark begins below its character, and no
// control character but tabs and line ends reaches the terminal.
func FuzzPrint(f *testing.F) {
	f.Add("a: 1\n\tb: 日本\r\n", 7, 9, "message {x}")
	f.Add("\xff\xfe{", 0, 3, "{")
	f.Add(strings.Repeat("wide 日 ", 80), 200, 300, "m")
	f.Fuzz(func(t *testing.T, text string, start, end int, message string) {
		index := NewText([]byte(text))
		r := index.Range(start, end)
		var b strings.Builder
		d := Diagnostic{Pos: r.Start, End: r.End, Severity: Error, Message: message, Args: Args{"x": text}}
		if err := Fprint(&b, List{d}, func(string) *Text { return index }); err != nil {
			t.Fatal(err)
		}
		for _, c := range b.String() {
			if c < ' ' && c != '\n' && c != '\t' || c >= 0x7f && c < 0xa0 {
				t.Fatalf("control character %q in %q", c, b.String())
			}
		}
		lines := strings.Split(b.String(), "\n")
		if len(lines) != 4 || strings.Count(lines[2], "^") != 1 {
			t.Fatalf("not one message, line and mark: %q", b.String())
		}
		if r.Start.Byte > r.End.Byte || r.Start.Line < 1 || r.Start.Line > index.Lines() {
			t.Fatalf("range %v", r)
		}
	})
}
