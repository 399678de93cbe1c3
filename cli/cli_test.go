package cli

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew")

// answer is what a command line gave back.
type answer struct {
	code     int
	out, err string
}

func ask(args ...string) answer { return askWith("", args...) }

func askWith(input string, args ...string) answer {
	var out, errOut bytes.Buffer
	code := Run(args, strings.NewReader(input), &out, &errOut)
	return answer{code, out.String(), errOut.String()}
}

// want fails the test when the command did not end with the code.
func (a answer) want(t *testing.T, code int) answer {
	t.Helper()
	if a.code != code {
		t.Fatalf("exit code %d, want %d\n%s%s", a.code, code, a.out, a.err)
	}
	return a
}

func decode[T any](t *testing.T, text string) T {
	t.Helper()
	var v T
	d := json.NewDecoder(strings.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(&v); err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	return v
}

func file(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func read(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

const (
	curlew = "../examples/curlew.yaml"
	faulty = "../testdata/builds/avocet-rear-over.yaml"
	mended = "../testdata/builds/avocet-rear-over-fixed.yaml"
)

// Each wrong call ends with 2, says nothing on standard output, and one line with a hint on standard error.
func TestPropBadInputIsOneClearLine(t *testing.T) {
	folder := t.TempDir()
	wrong := file(t, "wrong.yaml", "berthwright: 1\nbuild: {id: x\nvan: {}\n")
	huge := file(t, "huge.yaml", strings.Repeat("# a line of a very long file\n", 300_000))
	for _, c := range []struct {
		name string
		args []string
		says string
	}{
		{"no such command", []string{"chek"}, `did you mean "check"`},
		{"no file", []string{"check"}, `hint: berthwright check --help`},
		{"missing file", []string{"check", "nowhere.yaml"}, `cannot read "nowhere.yaml": no such file`},
		{"folder", []string{"check", folder}, `it is a folder`},
		{"huge file", []string{"check", huge}, `at most 2 MB`},
		{"not closed", []string{"check", wrong}, "wrong.yaml:3:"},
		{"no such flag", []string{"check", "--jsn", curlew}, "--jsn"},
		{"two forms", []string{"check", "--json", "--work", "weight.rear", curlew}, "can't be used together"},
		{"no such working", []string{"check", "--work", "weight.nose-ring", curlew}, `no working "weight.nose-ring"`},
		{"one record, two builds", []string{"check", "--record", "r.yaml", curlew, faulty}, "belongs to one build"},
		{"missing record", []string{"check", "--record", "nowhere.yaml", curlew}, `"nowhere.yaml"`},
		{"missing workshop", []string{"--workshop", "nowhere.yaml", "check", curlew}, `"nowhere.yaml"`},
		{"drawing without form", []string{"drawing", curlew, "-o", filepath.Join(folder, "x.png")}, "end its name in .svg"},
		{"scale of nought", []string{"drawing", curlew, "--scale", "0", "-o", filepath.Join(folder, "x.svg")}, "outside 1 … 200"},
		{"scale that is none", []string{"drawing", curlew, "--scale", "NaN", "-o", filepath.Join(folder, "x.svg")}, "outside 1 … 200"},
		{"no such view", []string{"drawing", curlew, "--view", "below", "-o", "x.svg"}, "below"},
		{"no such day", []string{"papers", "mass", curlew, "--date", "1.11.2026", "-o", "x.pdf"}, "write it like 2026-11-25"},
		{"nowhere to write", []string{"papers", "placard", curlew, "-o", filepath.Join(folder, "no", "x.pdf")}, "cannot write"},
		{"no unit", []string{"sum", "axle", "--wheelbase", "4.035", "60 kg@1 m"}, `write masses like "60 kg"`},
		{"wrong unit", []string{"sum", "axle", "--wheelbase", "4.035 m", "60 Ah@1 m"}, `"Ah"`},
		{"no place", []string{"sum", "axle", "--wheelbase", "4.035 m", "60 kg"}, "has no place"},
		{"no wheelbase", []string{"sum", "axle", "--wheelbase", "0 m", "60 kg@1 m"}, "wheelbase"},
		{"not a number", []string{"sum", "axle", "--wheelbase", "NaN m", "60 kg@1 m"}, "NaN"},
		{"not weighed", []string{"reconcile", curlew, file(t, "empty.yaml", "berthwright-record: 1\nbuild: curlew\n")}, "nothing has been weighed"},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := ask(c.args...).want(t, badInput)
			if a.out != "" {
				t.Errorf("standard output is not empty: %q", a.out)
			}
			if !strings.Contains(a.err, c.says) {
				t.Errorf("standard error lacks %q:\n%s", c.says, a.err)
			}
			first, _, _ := strings.Cut(a.err, "\n")
			if first == "" || strings.HasSuffix(first, ".") || strings.Contains(a.err, "goroutine") {
				t.Errorf("not one clear line:\n%s", a.err)
			}
		})
	}
}

func TestPropHelpNamesEveryCommand(t *testing.T) {
	a := ask().want(t, ok)
	for _, word := range []string{"serve", "check", "diff", "reconcile", "papers mass", "papers placard", "papers change", "drawing", "sum axle"} {
		if !strings.Contains(a.out, "\n  "+word+" ") {
			t.Errorf("help does not list %q:\n%s", word, a.out)
		}
	}
	if b := ask("--help").want(t, ok); b.out != a.out {
		t.Error("no arguments and --help say different things")
	}
}

// full refuses every write.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, os.ErrClosed }

func TestPropAnAnswerThatCannotBeWrittenIsNoAnswer(t *testing.T) {
	for _, args := range [][]string{
		{"check", curlew}, {"check", faulty}, {"check", "--json", curlew}, {"check", "--work", "weight.rear", curlew}, {"diff", faulty, mended}, {"version"},
		{"sum", "axle", "--wheelbase", "4 m", "60 kg@1 m"},
	} {
		var errOut bytes.Buffer
		if code := Run(args, nil, full{}, &errOut); code != badInput {
			t.Errorf("%v: exit code %d, %s", args, code, errOut.String())
		}
	}
}
