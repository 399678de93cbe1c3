package docfile

import (
	"bytes"
	"flag"
	"os"
	"strings"
	"testing"

	"berthwright/diag"
)

var update = flag.Bool("update", false, "rewrite golden files")

// TestFrozenWrong prints every kind of wrong value as a terminal shows it.
func TestFrozenWrong(t *testing.T) {
	text, err := os.ReadFile("../testdata/docfile/wrong.yaml")
	if err != nil {
		t.Fatal(err)
	}
	f := Read("wrong.yaml", text)
	var b bytes.Buffer
	index := diag.NewText(text)
	if err := diag.Fprint(&b, f.Diags, func(string) *diag.Text { return index }); err != nil {
		t.Fatal(err)
	}
	const golden = "../testdata/docfile/wrong.txt"
	if *update {
		if err := os.WriteFile(golden, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(want, b.Bytes()) {
		t.Errorf("not as in %s:\n%s", golden, lineDiff(want, b.Bytes()))
	}
	for i, d := range f.Diags {
		if !d.Code.Known() || d.Severity != diag.Error || d.Path == "" && d.Code != diag.MissingKey {
			t.Errorf("%+v", d)
		}
		if i > 0 && d.Pos.Byte < f.Diags[i-1].Pos.Byte {
			t.Errorf("%v stands behind %v", d, f.Diags[i-1])
		}
		if strings.HasSuffix(d.Text(), ".") || d.Hint == "" {
			t.Errorf("%v: hint %q", d, d.Hint)
		}
	}
	// what is wrong counts as missing, what is right stays
	van, items := f.Build.Van, f.Build.Items
	if van.Length.Given() || van.Width.Given() || van.Plated.Total.Given() || van.Floor.Front.Given() || !van.Wheelbase.Given() {
		t.Errorf("van %+v", van)
	}
	hob := items[3]
	if hob.At.X.Given() || hob.At.Z.Given() || hob.Place.Bulkhead.Given() || hob.Place.RearDoor.Given() || hob.Removed.Given() || hob.InTicket.Given() || hob.Span.From.Given() {
		t.Errorf("hob %+v", hob)
	}
	if items[0].Mass.Given() || items[0].Group != "" || len(items) != 7 || f.Build.Loading.Party[1].Mass.Given() {
		t.Errorf("items %+v", items[0])
	}
}
