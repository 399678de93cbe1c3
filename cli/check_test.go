package cli

import (
	"bytes"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// rows of testdata/builds/faults.md: the fault and the cell that names the findings expected.
func faults(t *testing.T) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, m := range regexp.MustCompile("(?m)^\\| `([a-z-]+)` \\|[^|]*\\|([^|]*)\\|").FindAllStringSubmatch(read(t, "../testdata/builds/faults.md"), -1) {
		out[m[1]] = m[2]
	}
	files, err := filepath.Glob("../testdata/builds/avocet-*-fixed.yaml")
	if err != nil || len(files) == 0 || len(files) != len(out) {
		t.Fatalf("%d faults described, %d corrected twins, %v", len(out), len(files), err)
	}
	return out
}

// Every deliberate fault ends with 1 (with --strict, where it is something unknown), its corrected twin with 0.
func TestPropExitCodesOfFaultsAndTwins(t *testing.T) {
	advice := map[string]bool{"sides": true} // said, never counted as failing
	for id, expected := range faults(t) {
		build := "../testdata/builds/avocet-" + id + ".yaml"
		fixed := strings.TrimSuffix(build, ".yaml") + "-fixed.yaml"
		first, _, _ := strings.Cut(expected, ";")
		switch {
		case advice[id]:
			ask("check", "--only", "weight", "--only", "weight", build).want(t, ok)
		case strings.Contains(first, "is unknown"):
			ask("check", "--only", "weight", "--only", "weight", build).want(t, ok)
			ask("check", "--only", "weight", "--only", "weight", "--strict", build).want(t, failing)
		default:
			a := ask("check", "--only", "weight", "--only", "weight", build).want(t, failing)
			if !regexp.MustCompile(`(?m)^does not hold  `).MatchString(a.out) {
				t.Errorf("%s: no finding fails:\n%s", id, a.out)
			}
			if !regexp.MustCompile(`\d (does not hold|do not hold)`).MatchString(a.err) {
				t.Errorf("%s: what fails is not counted: %q", id, a.err)
			}
		}
		ask("check", "--only", "weight", "--only", "weight", fixed).want(t, ok)
	}
}

func TestPropSeveralFilesEachGetTheirAnswer(t *testing.T) {
	a := ask("check", "--only", "weight", curlew, "nowhere.yaml", faulty).want(t, badInput)
	for _, name := range []string{curlew, faulty} {
		if strings.Count(a.out, " · "+name+" · ") != 1 {
			t.Errorf("%s has no answer of its own", name)
		}
	}
	if !strings.Contains(a.err, `"nowhere.yaml"`) {
		t.Errorf("the missing file is not told: %s", a.err)
	}
	if one := ask("check", "--only", "weight", faulty).want(t, failing); !strings.HasSuffix(a.out, "\n"+one.out) {
		t.Error("a build is answered differently beside others")
	}
	ask("check", "--only", "weight", mended, faulty).want(t, failing)
	ask("check", "--only", "weight", faulty, mended).want(t, failing)
}

func TestPropStandardInputIsAFile(t *testing.T) {
	a := askWith(read(t, faulty), "check", "--only", "weight", "-").want(t, failing)
	if b := ask("check", "--only", "weight", faulty); strings.Replace(a.out, "standard input", faulty, 1) != b.out {
		t.Error("standard input is answered differently")
	}
	bad := askWith("berthwright: 1\nbuild: {id: a}\nvan: {wheelbase: 4 kg}\n", "check", "--only", "weight", "-").want(t, badInput)
	if !strings.HasPrefix(bad.err, "standard input:3:20: ") {
		t.Errorf("no place: %s", bad.err)
	}
}

// A wrong value is told with its place and a hint, counts as missing, and only then is the exit code 2.
func TestPropWrongValueCountsAsMissing(t *testing.T) {
	was, wrong := "mass: 61 kg ± 4 %", "mass: 61 Ah ± 4 %"
	text := read(t, mended)
	if strings.Count(text, was) != 1 {
		t.Fatalf("%q is not in %s once", was, mended)
	}
	path := file(t, "wrong.yaml", strings.Replace(text, was, wrong, 1))
	a := ask("check", "--only", "weight", path).want(t, badInput)
	if !regexp.MustCompile(regexp.QuoteMeta(path) + `:\d+:\d+: .*"61 Ah ± 4 %"[^\n]*\n\tmass: 61 Ah ± 4 %\n\t *\^~*\n\thint: `).MatchString(a.err) {
		t.Errorf("not told as file:line:column with line, mark and hint:\n%s", a.err)
	}
	if !strings.Contains(a.out, "unknown") || regexp.MustCompile(`(?m)^holds +rear axle`).MatchString(a.out) {
		t.Errorf("the rear axle is judged without that mass:\n%s", a.out)
	}
}

// sameQuantity tells whether the text of a metric quantity says its SI value in its SI unit, to the digits printed.
func sameQuantity(q jsonQuantity) bool {
	text := strings.NewReplacer("\u00a0", "", "\u202f", "", "\u2009", "", " ", "", "−", "-", "+", "").Replace(q.Text)
	for _, shown := range []struct {
		si, unit string
		per      float64
	}{{"kg", "kg", 1}, {"m", "mm", 1000}, {"1", "%", 100}, {"", "", 1}} {
		number, ok := strings.CutSuffix(text, shown.unit)
		if !ok || shown.si != q.Unit {
			continue
		}
		v, err := strconv.ParseFloat(number, 64)
		return err == nil && math.Abs(v-q.SI*shown.per) <= 0.5001
	}
	return false
}

func TestPropJSONIsTheSameAnswer(t *testing.T) {
	unreadable := file(t, "unreadable.yaml", "build: {id: x\n")
	a := ask("check", "--only", "weight", "--json", curlew, faulty, unreadable, "nowhere.yaml").want(t, badInput)
	r := decode[struct {
		Builds []struct {
			File, Build, Hash, Program string
			Basis                      []string
			Diagnostics                []map[string]any
			Findings                   []jsonFinding
		}
	}](t, a.out)
	if len(r.Builds) != 4 {
		t.Fatalf("%d builds", len(r.Builds))
	}
	for i, b := range r.Builds[:2] {
		path := []string{curlew, faulty}[i]
		if b.File != path || b.Build == "" || len(b.Hash) != 12 || b.Program == "" || len(b.Basis) == 0 || len(b.Findings) < 10 || b.Diagnostics == nil {
			t.Errorf("head of %s: %+v", path, b)
		}
		text := ask("check", "--only", "weight", path).out
		seen := map[string]bool{}
		for _, f := range b.Findings {
			if seen[f.Key] || strings.Count(f.Key, "/") < 2 {
				t.Errorf("%s: key %q", path, f.Key)
			}
			seen[f.Key] = true
			if !strings.Contains(text, f.Says+"\n") || !strings.Contains(text, "  "+f.Key+" ") && !strings.Contains(text, "  "+f.Key+"\n") {
				t.Errorf("%s: %s is not in the text", path, f.Key)
			}
			if !slices.Contains([]string{"holds", "tight", "does-not-hold", "unknown", "not-begun"}, f.Verdict) {
				t.Errorf("%s: verdict %q", f.Key, f.Verdict)
			}
			if m := f.Margin; m != nil && !f.Advisory && (m.SI < 0) != (f.Verdict == "does-not-hold") {
				t.Errorf("%s: %s with a margin of %s", f.Key, f.Verdict, m.Text)
			}
			if m, h := f.Margin, f.Half; m != nil && h != nil && f.Verdict == "holds" && m.SI < h.SI {
				t.Errorf("%s holds, but %s is less than its half-width %s", f.Key, m.Text, h.Text)
			}
			for _, q := range []*jsonQuantity{f.Value, f.Limit, f.Margin, f.Half} {
				if q != nil && !sameQuantity(*q) {
					t.Errorf("%s: quantity %+v", f.Key, *q)
				}
			}
		}
	}
	for _, b := range r.Builds[2:] {
		if len(b.Diagnostics) != 1 || len(b.Findings) != 0 || b.Findings == nil {
			t.Errorf("%s: %d diagnostics, findings %v", b.File, len(b.Diagnostics), b.Findings)
		}
	}
	if d := r.Builds[2].Diagnostics; len(d) == 1 && (d[0]["line"] == nil || d[0]["code"] == "" || d[0]["file"] != unreadable) {
		t.Errorf("diagnostic without a place: %v", d)
	}
}

func TestPropSameFileSameAnswer(t *testing.T) {
	for _, args := range [][]string{{"check", "--only", "weight", curlew}, {"check", "--only", "weight", "--json", faulty}, {"check", "--work", "weight.rear", curlew}, {"diff", faulty, mended}} {
		if a, b := ask(args...), ask(args...); a != b {
			t.Errorf("%v answers differently the second time", args)
		}
	}
}

// The workings named in the hint are there, and each shows a formula or a certificate.
func TestPropEveryWorkingNamedCanBePrinted(t *testing.T) {
	a := ask("check", "--only", "weight", "--work", "nothing", curlew).want(t, badInput)
	_, list, _ := strings.Cut(a.err, "hint: there are ")
	list, _, _ = strings.Cut(list, ", and ")
	names := append(strings.Split(list, ", "), "axle-rear", "weight-total/travel/worst-total-refilled")
	if len(names) < 15 {
		t.Fatalf("few names in %q", a.err)
	}
	for _, name := range names {
		w := ask("check", "--only", "weight", "--work", name, curlew).want(t, ok)
		if !strings.Contains(w.out, "         = ") && !strings.Contains(w.out, "balance: ") {
			t.Errorf("%s shows no working:\n%s", name, w.out)
		}
	}
}

// Our own output, not a reference: read the difference like code, then -update.
func TestFrozenCheck(t *testing.T) {
	for name, args := range map[string][]string{
		"curlew-check":    {"check", "--only", "weight", "../examples/curlew.yaml"},
		"dunlin-check":    {"check", "--only", "weight", "../examples/dunlin.yaml"},
		"avocet-check":    {"check", "--only", "weight", "../examples/avocet.yaml"},
		"curlew-rear":     {"check", "--work", "weight.rear", "../examples/curlew.yaml"},
		"rear-over-check": {"check", "--only", "weight", faulty},
		"rear-over-diff":  {"diff", faulty, mended},
	} {
		a := ask(args...)
		got := a.out + "-- standard error\n" + a.err
		path := "../testdata/golden/" + name + ".txt"
		if *update {
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if want := read(t, path); got != want {
			t.Errorf("%s is not as frozen; run go test ./cli -update and read the difference\n%s", path, firstDifference(want, got))
		}
	}
}

func firstDifference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range min(len(w), len(g)) {
		if w[i] != g[i] {
			return "want " + w[i] + "\ngot  " + g[i]
		}
	}
	return "one is longer"
}

// check answers within 60 ms as a whole process; the limit here leaves room for a busy machine.
func TestPropCheckIsQuickAsAProcess(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the program")
	}
	program := filepath.Join(t.TempDir(), "berthwright")
	if out, err := exec.Command("go", "build", "-o", program, "../cmd/berthwright").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	var took []time.Duration
	for range 5 {
		began := time.Now()
		out, err := exec.Command(program, "check", curlew).Output()
		took = append(took, time.Since(began))
		var ended *exec.ExitError // what does not hold ends with 1
		if err != nil && (!errors.As(err, &ended) || ended.ExitCode() != failing) || !bytes.Contains(out, []byte("rear axle")) {
			t.Fatalf("%v\n%s", err, out)
		}
	}
	slices.Sort(took)
	t.Logf("check of curlew as a whole process: median %v, best %v, worst %v", took[2], took[0], took[4])
	if took[2] > 500*time.Millisecond {
		t.Errorf("median of five runs %v is above 500 ms", took[2])
	}
}

// The README shows what the program prints: each line of its transcript stands in the answer, in that order.
func TestFrozenReadmeTranscript(t *testing.T) {
	const command = "$ go run ./cmd/berthwright "
	_, block, ok := strings.Cut(read(t, "../README.md"), "```\n"+command)
	if !ok {
		t.Fatal("no transcript")
	}
	block, _, _ = strings.Cut(block, "\n```")
	lines := strings.Split(block, "\n")
	t.Chdir("..")
	left := ask(strings.Fields(lines[0])...).want(t, failing).out
	for _, line := range lines[1:] {
		if line == "…" || line == "" {
			continue
		}
		_, rest, ok := strings.Cut(left, line+"\n")
		if !ok {
			t.Fatalf("not printed, or not in this order: %s", line)
		}
		left = rest
	}
}
