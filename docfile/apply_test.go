package docfile

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"berthwright/diag"
	"berthwright/doc"
)

// texts returns texts in every style that people write.
func texts(t testing.TB) map[string][]byte {
	all := map[string][]byte{}
	for _, glob := range []string{"../examples/*.yaml", "../testdata/docfile/good/*.yaml"} {
		names, err := filepath.Glob(glob)
		if err != nil || len(names) == 0 {
			t.Fatalf("no files match %s", glob)
		}
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			all[filepath.Base(name)] = text
			if glob[:11] == "../examples" {
				continue // large; the styles below are what the line ends matter to
			}
			all["crlf-"+filepath.Base(name)] = bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n"))
			all["cut-"+filepath.Base(name)] = bytes.TrimRight(text, "\n")
		}
	}
	return all
}

// randomOp makes an operation that fits the file, out of what stands in it and the field table.
func randomOp(r *rand.Rand, f *File, n int) doc.Op {
	paths := f.Paths()
	path := paths[r.IntN(len(paths))]
	values := []string{"480 mm", "19.2 kg ± 4 %", "true", "kitchen", `"a, b: c # d"`, "{x: 1 m, y: 20 mm}", "7", "ünïcode °", "{}", "[]", "[a, b]"}
	switch r.IntN(8) {
	case 0, 1:
		return doc.Op{Kind: doc.Set, Path: path, Value: values[r.IntN(len(values))]}
	case 2:
		return doc.Op{Kind: doc.Unset, Path: path}
	case 3:
		return doc.Op{Kind: doc.Remove, Path: path}
	case 4:
		lists := []string{"items", "loading/party", "loading/seats", "loading/zones", "notes", "loading/travelling/fills", "accepted", "van/plates"}
		list := lists[r.IntN(len(lists))]
		value := fmt.Sprintf("{id: new-%d, name: A new thing %d}", n, n)
		switch list {
		case "loading/seats":
			value = fmt.Sprintf("seat-%d", n)
		case "loading/travelling/fills":
			value = fmt.Sprintf("{tank: tank-%d, level: 50 %%}", n)
		}
		after := ""
		if _, l, ft, left := walk(f.root, list); len(left) == 0 && l.kind == list0 && len(l.items) > 0 && r.IntN(2) == 0 {
			after = nameOf(l, ft, r.IntN(len(l.items)))
		}
		return doc.Op{Kind: doc.Insert, Path: list, Value: value, After: after}
	case 5:
		keys := []string{"at/x", "states/night/at/x", "place/bulkhead", "remark", "size", "tank/for"}
		if len(f.Build.Items) > 0 {
			if id := f.Build.Items[r.IntN(len(f.Build.Items))].ID; id != "" {
				return doc.Op{Kind: doc.Set, Path: "items/" + id + "/" + keys[r.IntN(len(keys))], Value: "480 mm"}
			}
		}
		return doc.Op{Kind: doc.Set, Path: "van/tyres/front", Value: "112"}
	case 6:
		return doc.Op{Kind: doc.Set, Path: path + "/" + []string{"x", "name", "electric/circuit", "a~1b"}[r.IntN(4)], Value: values[r.IntN(len(values))]}
	}
	return doc.Op{Kind: doc.Set, Path: []string{"job/brief", "van/plated/total", "loading/luggage", "loading/tow/nose", "trips"}[r.IntN(5)], Value: "75 kg"}
}

const list0 = list

// TestCrossPasteIsOneByOne pastes rows at one go and one by one.
func TestCrossPasteIsOneByOne(t *testing.T) {
	for name, text := range texts(t) {
		f := Read(name, text)
		for _, after := range []string{"", "first", "chain"} {
			var c doc.Change
			for i := range 6 {
				op := doc.Op{Kind: doc.Insert, Path: "items", Value: fmt.Sprintf("{id: row-%d, name: \"Row, %d\", at: {x: 2 m}}", i, i)}
				switch {
				case after == "first" && i == 0, after == "chain" && i == 0:
					_, n, ft, left := walk(f.root, "items")
					if len(left) == 0 && n.kind == list && len(n.items) > 0 {
						op.After = nameOf(n, ft, 0)
					}
				case after == "chain":
					op.After = fmt.Sprintf("row-%d", i-1)
				}
				c.Ops = append(c.Ops, op)
			}
			g, back, err := f.Apply(c)
			if err != nil {
				t.Fatal(name, err)
			}
			one := f
			for _, op := range c.Ops {
				if one, _, err = one.Apply(doc.Change{Ops: []doc.Op{op}}); err != nil {
					t.Fatal(name, err)
				}
			}
			if !bytes.Equal(one.Text, g.Text) {
				t.Fatalf("%s: %s", name, lineDiff(one.Text, g.Text))
			}
			h, _, err := g.Apply(back)
			if err != nil || !bytes.Equal(h.Text, f.Text) {
				t.Fatalf("%s: %v\n%s", name, err, lineDiff(f.Text, h.Text))
			}
			compareEdits(t, f, c)
		}
	}
}

func TestPropInverseRestoresBytes(t *testing.T) {
	for name, text := range texts(t) {
		t.Run(name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(1, uint64(len(text))))
			f := Read(name, text)
			if !f.Readable {
				t.Fatal(f.Diags)
			}
			done := 0
			for i := range 50 {
				var c doc.Change
				for j := range 1 + r.IntN(3) {
					c.Ops = append(c.Ops, randomOp(r, f, 10*i+j))
				}
				g, back, err := f.Apply(c)
				if err != nil {
					continue
				}
				done++
				h, again, err := g.Apply(back)
				if err != nil {
					t.Fatalf("%+v\nback %+v\n%v", c.Ops, back.Ops, err)
				}
				if !bytes.Equal(h.Text, f.Text) {
					t.Fatalf("%+v\nback %+v\n%s", c.Ops, back.Ops, lineDiff(f.Text, h.Text))
				}
				k, _, err := h.Apply(again)
				if err != nil || !bytes.Equal(k.Text, g.Text) {
					t.Fatalf("redo: %v %+v\nagain %+v\n%s", err, c.Ops, again.Ops, lineDiff(g.Text, k.Text))
				}
				if r.IntN(3) == 0 {
					f = g
				}
			}
			if done < 15 {
				t.Fatalf("only %d changes were possible", done)
			}
		})
	}
}

func lineDiff(a, b []byte) string {
	x, y := strings.SplitAfter(string(a), "\n"), strings.SplitAfter(string(b), "\n")
	i := 0
	for i < len(x) && i < len(y) && x[i] == y[i] {
		i++
	}
	return fmt.Sprintf("line %d\nwant %q\ngot  %q", i+1, x[max(0, i-1):min(len(x), i+4)], y[max(0, i-1):min(len(y), i+4)])
}

// problems tells what a list says without saying where.
func said(l diag.List) []string {
	var all []string
	for _, d := range l {
		all = append(all, fmt.Sprint(d.Code, " ", d.Path, " ", d.Text(), " ", d.Hint))
	}
	slices.Sort(all)
	return slices.Compact(all)
}

func TestCrossTextEditEqualsModelEdit(t *testing.T) {
	for name, text := range texts(t) {
		t.Run(name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(2, uint64(len(text))))
			f := Read(name, text)
			for i := range 50 {
				var c doc.Change
				for j := range 1 + r.IntN(3) {
					c.Ops = append(c.Ops, randomOp(r, f, 10*i+j))
				}
				compareEdits(t, f, c)
				if g, back, err := f.Apply(c); err == nil {
					compareEdits(t, g, back)
					if r.IntN(3) == 0 {
						f = g
					}
				}
			}
		})
	}
}

// compareEdits does c on the text and on the model of f.
func compareEdits(t testing.TB, f *File, c doc.Change) {
	t.Helper()
	build, list, errModel := f.Preview(c)
	g, _, errText := f.Apply(c)
	if (errModel == nil) != (errText == nil) {
		t.Fatalf("%+v\nmodel: %v\ntext: %v", c.Ops, errModel, errText)
	}
	if errText != nil {
		return
	}
	if !reflect.DeepEqual(build, g.Build) {
		t.Fatalf("%+v\n%s", c.Ops, cmp.Diff(g.Build, build, cmp.Exporter(func(reflect.Type) bool { return true })))
	}
	if d := cmp.Diff(said(g.Diags), said(list)); d != "" {
		t.Fatalf("%+v\n-text +model\n%s", c.Ops, d)
	}
}
