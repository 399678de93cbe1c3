package docfile

import (
	"bytes"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"berthwright/diag"
)

// TestHostileTexts: one clear line each, in bounded time and memory.
func TestHostileTexts(t *testing.T) {
	const head = "berthwright: 1\nbuild: {id: x}\n"
	bomb := "a: &a [x, x, x, x, x, x, x, x, x]\n"
	for c := 'b'; c < 'k'; c++ {
		bomb += fmt.Sprintf("%c: &%c [*%c, *%c, *%c, *%c, *%c, *%c, *%c, *%c, *%c]\n", c, c, c-1, c-1, c-1, c-1, c-1, c-1, c-1, c-1, c-1)
	}
	many := head + "items:\n" + strings.Repeat("- {id: a}\n", maxItems+1)
	for _, c := range []struct {
		name, text string
		code       diag.Code
		readable   bool
		says       string // part of the message or hint
	}{
		{"empty", "", diag.Unreadable, false, "empty"},
		{"blank", " \n\n# only a comment\n", diag.Unreadable, false, "empty"},
		{"text", "hello\n", diag.Unreadable, false, "begin with berthwright: 1"},
		{"list", "- a\n- b\n", diag.Unreadable, false, "a list"},
		{"billion laughs", head + bomb, diag.Anchor, false, "not read"},
		{"alias", head + "notes: *a\n", diag.Anchor, false, ""},
		{"tag", head + "notes: !!binary aGVsbG8=\n", diag.Tag, false, "tags"},
		{"own tag", head + "notes: !go/exec rm\n", diag.Tag, false, "tags"},
		{"merge key", head + "van: {<<: {length: 6 m}}\n", diag.Key, false, "merge"},
		{"question mark key", head + "? a\n: b\n", diag.Key, false, "key: value"},
		{"list as key", head + "[a, b]: c\n", diag.Key, false, ""},
		{"two documents", head + "---\nberthwright: 1\n", diag.Documents, false, "second document"},
		{"directive", "%YAML 1.2\n---\n" + head, diag.Unreadable, false, ""},
		{"deep brackets", head + "trips: " + strings.Repeat("[", 40) + strings.Repeat("]", 40) + "\n", diag.TooDeep, false, "32"},
		{"very deep brackets", head + "trips: " + strings.Repeat("[", 100_000) + "\n", diag.TooDeep, false, "32"},
		{"deep braces", head + "trips: " + strings.Repeat("{a: ", 50) + "1" + strings.Repeat("}", 50) + "\n", diag.TooDeep, false, "32"},
		{"deep indents", head + deepIndents(50), diag.TooDeep, false, "32"},
		{"very deep indents", head + deepIndents(1500), diag.TooDeep, false, "32"},
		{"deep dashes", head + "trips:\n" + strings.Repeat("- ", 5000) + "a\n", diag.TooDeep, false, "32"},
		{"not UTF-8", head + "notes: [{id: n, text: caf\xe9}]\n", diag.NotUTF8, false, "UTF-8"},
		{"UTF-16", "\xff\xfeb\x00e\x00r\x00", diag.NotUTF8, false, "UTF-8"},
		{"zero byte", head + "notes: \x00\n", diag.Control, false, "plain text"},
		{"escape byte", head + "notes: \x1b[31m\n", diag.Control, false, "plain text"},
		{"lone carriage return", "berthwright: 1\rbuild: x\r", diag.Control, false, "carriage return"},
		{"line separator", head + "notes: a\u2028b: c\n", diag.Control, false, "invisible"},
		{"tab", head + "van:\n\tlength: 6 m\n", diag.Tab, false, "spaces"},
		{"open bracket", head + "van: {length: 6 m\n", diag.Bracket, false, ""},
		{"open quote", head + "van: \"length\n", diag.Quote, false, ""},
		{"colon in value", head + "notes: a: b\n", diag.Unreadable, false, "quotes"},
		{"crooked indent", head + "van:\n    length: 6 m\n  width: 2 m\n", diag.Indent, false, "same column"},
		{"3 MB", head + "# " + strings.Repeat("x", 3<<20) + "\n", diag.TooLarge, false, "2 MB"},
		{"10 MB scalar", head + "notes: " + strings.Repeat("x", 10<<20), diag.TooLarge, false, "2 MB"},
		{"a million values", head + "trips: [" + strings.Repeat("1,", 900_000) + "1]\n", diag.TooLarge, false, "too many values"},
		{"2,001 items", many, diag.TooManyItems, false, "2001"},
		{"newer", "berthwright: 2\nbuild: {id: x}\nnothing: known\n", diag.NewerVersion, false, "newer program"},
		{"much newer", "berthwright: 99999999\n", diag.NewerVersion, false, "newer program"},
		{"huge version", "berthwright: 99999999999999999999\nbuild: {id: x}\n", diag.NotAWholeNumber, true, ""},
		{"version nought", "berthwright: 0\nbuild: {id: x}\n", diag.OutOfRange, true, "version 1"},
		{"no version", "build: {id: x}\n", diag.MissingKey, true, "berthwright"},
		{"NaN", head + "van: {length: .nan}\n", diag.NotANumber, true, ""},
		{"NaN with unit", head + "van: {length: NaN m}\n", diag.NotANumber, true, ""},
		{"infinite", head + "van: {length: .inf}\n", diag.NotANumber, true, ""},
		{"exponent", head + "van: {length: 1e400 m}\n", diag.NotANumber, true, ""},
		{"huge number", head + "van: {length: " + strings.Repeat("9", 200) + " m}\n", diag.TooLarge, true, ""},
		{"huge count", head + "items: [{id: a, count: 99999999999999999999}]\n", diag.NotAWholeNumber, true, ""},
		{"octal count", head + "items: [{id: a, count: 0o17}]\n", diag.NotAWholeNumber, true, ""},
		{"1 MB name", head + "items: [{id: a, name: " + strings.Repeat("x", 1<<20) + "}]\n", diag.TooLong, true, "20000"},
		{"1 MB mass", head + "items: [{id: a, mass: " + strings.Repeat("x", 1<<20) + "}]\n", diag.TooLarge, true, ""},
		{"1 MB id", head + "items: [{id: " + strings.Repeat("x", 1<<20) + "}]\n", diag.TooLong, true, ""},
		{"id with a slash", head + "items: [{id: a/b}]\n", diag.BadID, true, "letters"},
		{"yes", head + "items: [{id: a, removed: yes}]\n", diag.BadBoolean, true, "true or false"},
		{"on", head + "items: [{id: a, removed: on}]\n", diag.BadBoolean, true, "true or false"},
		{"quoted true", head + "items: [{id: a, removed: \"true\"}]\n", diag.BadBoolean, true, "true or false"},
		{"duplicate key", head + "van: {length: 6 m, length: 7 m}\n", diag.DuplicateKey, true, "keep one"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&before)
			began := time.Now()
			f := Read("hostile.yaml", []byte(c.text))
			took := time.Since(began)
			runtime.ReadMemStats(&after)
			if took > 5*time.Second {
				t.Errorf("took %v", took)
			}
			if used := after.TotalAlloc - before.TotalAlloc; used > 400<<20 {
				t.Errorf("used %d MB", used>>20)
			}
			if len(f.Diags) != 1 {
				t.Fatalf("want one line, got %d: %v", len(f.Diags), f.Diags[:min(3, len(f.Diags))])
			}
			d := f.Diags[0]
			if d.Code != c.code || f.Readable != c.readable || !strings.Contains(d.Text()+" "+d.Hint, c.says) {
				t.Errorf("got %s, readable %v: %s\nhint: %s", d.Code, f.Readable, d.Text(), d.Hint)
			}
			if len(d.Text())+len(d.Hint) > 500 || strings.ContainsAny(d.Text(), "\n\r") {
				t.Errorf("not one clear line: %d bytes %q", len(d.Text()), d.Text()[:100])
			}
			if !d.Pos.Known() || d.Pos.Byte > len(c.text) || d.End.Byte > len(c.text) {
				t.Errorf("place %+v %+v is outside the text", d.Pos, d.End)
			}
			if !f.Readable && len(f.Build.Items)+len(f.Paths()) > 0 {
				t.Error("something was bound")
			}
		})
	}
}

// TestManyProblems: a text that is wrong everywhere takes no longer than it should.
func TestManyProblems(t *testing.T) {
	const n = 40_000
	lines := func(format string) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, format, i)
		}
		return b.String()
	}
	ids := "items:\n"
	for i := range maxItems {
		ids += fmt.Sprintf("- {id: a-rather-long-id-%d}\n", i)
	}
	for name, text := range map[string]string{
		"unknown keys":       "berthwright: 1\nbuild: {id: x}\n" + lines("k%d: 1\n"),
		"keys twice":         "berthwright: 1\nbuild: {id: x}\n" + lines("van: %d\n"),
		"unknown references": "berthwright: 1\nbuild: {id: x}\n" + ids + "loading: {seats: [" + lines("a-rather-long-name-%d, ") + "]}\n",
		"ids twice":          "berthwright: 1\nbuild: {id: x}\nnotes:\n" + strings.Repeat("- {id: a}\n", n),
		"wrong values":       "berthwright: 1\nbuild: {id: x}\nnotes:\n" + lines("- {id: a%d, date: no}\n"),
		"reserved":           "berthwright: 1\nbuild: {id: x}\ntrips:\n" + lines("  k%d: 1\n"),
	} {
		began := time.Now()
		f := Read(name, []byte(text))
		paths := len(f.Paths())
		Diff(f, f)
		if took := time.Since(began); took > 8*time.Second {
			t.Errorf("%s: took %v", name, took)
		}
		if !f.Readable || len(f.Diags) > maxProblems || (len(f.Diags) == 0) != (name == "reserved") || paths < 3 {
			t.Errorf("%s: readable %v, %d diagnostics, %d paths", name, f.Readable, len(f.Diags), paths)
		}
	}
}

func deepIndents(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

// TestPlainThings reads what looks odd and is fine.
func TestPlainThings(t *testing.T) {
	const text = "berthwright: 1\nbuild: {id: x}\nitems:\n- {id: 12}\n- {id: 1e3, name: no}\n- {id: true, remark: off}\n- {id: null, mass: 0, at: {x: 0, y: , z: 0 mm}}\n- id: 0x1F\n  remark: \"tab\\tand\\nline\"\n"
	for name, text := range map[string]string{
		"as it is":        text,
		"byte order mark": "\ufeff" + text,
		"carriage return": strings.ReplaceAll(text, "\n", "\r\n"),
		"no last line":    strings.TrimSuffix(text, "\n"),
		"start marker":    "---\n" + text,
		"end marker":      text + "...\n",
		"comment first":   "# a\n\n" + text,
	} {
		f := Read(name, []byte(text))
		if len(f.Diags) > 0 {
			t.Errorf("%s: %v", name, f.Diags)
			continue
		}
		var ids []string
		for _, it := range f.Build.Items {
			ids = append(ids, it.ID)
		}
		if got := strings.Join(ids, " "); got != "12 1e3 true null 0x1F" {
			t.Errorf("%s: ids %s", name, got)
		}
		zero := f.Build.Items[3]
		if m, ok := zero.Mass.Get(); !ok || m.Value != 0 {
			t.Errorf("%s: mass of nought is %v %v", name, m, ok)
		}
		if zero.At.Y.Given() || !zero.At.X.Given() {
			t.Errorf("%s: at %+v", name, zero.At)
		}
		if f.Build.Items[4].Remark != "tab\tand\nline" || f.Build.Items[2].Remark != "off" || f.Build.Items[1].Name != "no" {
			t.Errorf("%s: texts %+v", name, f.Build.Items)
		}
		if r, ok := f.Range("items/true/remark"); !ok || !bytes.Equal(f.Text[r.Start.Byte:r.End.Byte], []byte("off")) {
			t.Errorf("%s: place of the remark %+v", name, r)
		}
	}
}

// TestPropIDsAsTheHelpSays holds the binder to what the reference page says of an id.
func TestPropIDsAsTheHelpSays(t *testing.T) {
	const says = "An id has letters, digits, - _ and ., begins with a letter or digit, and has at most 64 characters."
	if at := slices.IndexFunc(diag.Codes(), func(c diag.CodeInfo) bool { return c.Code == diag.BadID }); diag.Codes()[at].Help != says {
		t.Fatalf("the reference page says otherwise: %s", diag.Codes()[at].Help)
	}
	for id, good := range map[string]bool{
		"a": true, "A": true, "7": true, "a-b_c.d": true, "a--b": true, "a-": true, "72L": true, strings.Repeat("x", 64): true,
		strings.Repeat("x", 65): false, "-a": false, "_a": false, ".a": false, "a b": false, "a/b": false, "a~b": false, "é": false, "a@1": false,
	} {
		f := Read("ids.yaml", []byte("berthwright: 1\nbuild: {id: x}\nitems:\n- id: \""+id+"\"\n"))
		if !f.Readable || (len(f.Diags) == 0) != good || !good && f.Diags[0].Code != diag.BadID || good && f.Build.Items[0].ID != id {
			t.Errorf("%q: %v", id, f.Diags)
		}
	}
}
