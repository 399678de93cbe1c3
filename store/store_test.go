package store

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

func open(t testing.TB) *Store {
	t.Helper()
	return openAt(t, filepath.Join(t.TempDir(), "builds.db"))
}

func openAt(t testing.TB, path string) *Store {
	t.Helper()
	s, err := Open(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

func change(id, client, text string) Change {
	return Change{ID: id, Client: client, Title: "change " + id, Ops: json.RawMessage(`["` + id + `"]`), Inverse: json.RawMessage(`["back ` + id + `"]`),
		Paths: []string{"items/" + id}, Text: text}
}

func create(t testing.TB, s *Store, id, text string) {
	t.Helper()
	if _, err := s.Create(t.Context(), id, Head{Name: "Heron", Items: 2}, change("first", "page", text)); err != nil {
		t.Fatal(err)
	}
}

func TestPropSettingsHoldOnEveryConnection(t *testing.T) {
	s := open(t)
	check := func(query func(string) (string, error)) {
		t.Helper()
		for pragma, want := range map[string]string{"busy_timeout": "10000", "journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "trusted_schema": "0"} {
			got, err := query("PRAGMA " + pragma)
			if err != nil || got != want {
				t.Errorf("%s is %q (%v), want %q", pragma, got, err, want)
			}
		}
	}
	// Every connection the pools may hold is open at once, so each of them is a new one.
	for range 3 {
		c, err := s.read.Conn(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		check(func(q string) (out string, err error) {
			return out, c.QueryRowContext(t.Context(), q).Scan(&out)
		})
	}
	c, err := s.write.Conn(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	check(func(q string) (out string, err error) {
		return out, c.QueryRowContext(t.Context(), q).Scan(&out)
	})
}

func TestPropAnyTextComesBackToTheByte(t *testing.T) {
	s := open(t)
	texts := []string{"berthwright: 1\nitems: []\n"}
	create(t, s, "heron", texts[0])
	rng := rand.New(rand.NewPCG(1, 2))
	alphabet := []string{"a", "é", "\n", "- id: x\n", "±", ""}
	for n := 1; n < 230; n++ {
		text := texts[n-1]
		at := rng.IntN(len(text) + 1)
		end := min(len(text), at+rng.IntN(4))
		text = text[:at] + alphabet[rng.IntN(len(alphabet))] + text[end:]
		texts = append(texts, text)
		r, err := s.Append(t.Context(), "heron", n, Head{Items: n}, change(fmt.Sprint("c", n), "page", text))
		if err != nil || r.Number != n+1 || r.Repeated {
			t.Fatalf("revision %d: %+v %v", n+1, r, err)
		}
	}
	for n, want := range texts {
		got, err := s.At(t.Context(), "heron", n+1)
		if err != nil || got != want {
			t.Fatalf("revision %d: %q %v, want %q", n+1, got, err, want)
		}
	}
	b, err := s.Load(t.Context(), "heron")
	if err != nil || b.Text != texts[229] || b.Revision != 230 || b.Hash != Hash(texts[229]) || b.Head.Items != 229 {
		t.Errorf("load: %+v %v", b, err)
	}
	for _, n := range []int{-1, 0, 231} {
		if _, err := s.At(t.Context(), "heron", n); !errors.Is(err, ErrNoSuch) {
			t.Errorf("revision %d: %v", n, err)
		}
	}
	h, err := s.History(t.Context(), "heron", 220, 5)
	if err != nil || len(h) != 5 || h[0].Number != 230 || h[4].Number != 226 || h[0].Paths[0] != "items/c229" || len(h[0].Ops) > 0 {
		t.Errorf("history: %+v %v", h, err)
	}
	if r, err := s.Revision(t.Context(), "heron", 230); err != nil || string(r.Inverse) != `["back c229"]` || string(r.Ops) != `["c229"]` {
		t.Errorf("revision: %+v %v", r, err)
	}
}

func TestPropRepeatedChangeIsAppliedOnce(t *testing.T) {
	s := open(t)
	create(t, s, "heron", "a")
	first, err := s.Append(t.Context(), "heron", 1, Head{}, change("x", "page", "ab"))
	if err != nil {
		t.Fatal(err)
	}
	for _, base := range []int{1, 2, 99} {
		again, err := s.Append(t.Context(), "heron", base, Head{}, change("x", "page", "something else"))
		if err != nil || !again.Repeated || again.Number != first.Number || again.Hash != first.Hash {
			t.Errorf("base %d: %+v %v", base, again, err)
		}
	}
	if r, err := s.Create(t.Context(), "heron", Head{}, change("first", "page", "a")); err != nil || !r.Repeated {
		t.Errorf("create again: %+v %v", r, err)
	}
	b, _ := s.Load(t.Context(), "heron")
	if b.Text != "ab" || b.Revision != 2 {
		t.Errorf("after: %+v", b)
	}
}

func TestPropStaleBaseIsRefused(t *testing.T) {
	s := open(t)
	create(t, s, "heron", "a")
	if _, err := s.Append(t.Context(), "heron", 1, Head{}, change("x", "page", "ab")); err != nil {
		t.Fatal(err)
	}
	_, err := s.Append(t.Context(), "heron", 1, Head{}, change("y", "tablet", "ac"))
	var stale Stale
	if !errors.As(err, &stale) || stale.Now != 2 || stale.Base != 1 {
		t.Errorf("%v", err)
	}
	if b, _ := s.Load(t.Context(), "heron"); b.Text != "ab" {
		t.Errorf("text %q", b.Text)
	}
}

func TestPropOneOfManyWritersWinsEachRevision(t *testing.T) {
	path := filepath.Join(t.TempDir(), "builds.db")
	s := openAt(t, path)
	create(t, s, "heron", "")
	const writers, each = 4, 12
	var wg sync.WaitGroup
	for w := range writers {
		other := openAt(t, path) // as a second process would
		wg.Go(func() {
			for i := range each {
				for {
					b, err := other.Load(t.Context(), "heron")
					if err != nil {
						t.Error(err)
						return
					}
					_, err = other.Append(t.Context(), "heron", b.Revision, Head{}, change(fmt.Sprintf("%d-%d", w, i), "page", b.Text+"x"))
					if errors.As(err, &Stale{}) {
						continue
					}
					if err != nil {
						t.Error(err)
						return
					}
					break
				}
			}
		})
	}
	wg.Wait()
	b, err := s.Load(t.Context(), "heron")
	if err != nil || b.Revision != writers*each+1 || b.Text != strings.Repeat("x", writers*each) {
		t.Errorf("%+v %v", b, err)
	}
}

func TestPropUndoTakesBackOwnLastChange(t *testing.T) {
	s := open(t)
	create(t, s, "heron", "0")
	n := 1
	do := func(client string, kind Kind, undoes int) int {
		t.Helper()
		c := change(fmt.Sprint("n", n), client, fmt.Sprint(n))
		c.Kind, c.Undoes = kind, undoes
		r, err := s.Append(t.Context(), "heron", n, Head{}, c)
		if err != nil {
			t.Fatal(err)
		}
		n = r.Number
		return n
	}
	next := func(client string, wantUndo, wantRedo int) {
		t.Helper()
		u, err := s.ToUndo(t.Context(), "heron", client)
		if wantUndo == 0 && !errors.Is(err, ErrNothing) || wantUndo != 0 && u.Number != wantUndo {
			t.Errorf("%s undo: %d %v, want %d", client, u.Number, err, wantUndo)
		}
		r, err := s.ToRedo(t.Context(), "heron", client)
		if wantRedo == 0 && !errors.Is(err, ErrNothing) || wantRedo != 0 && r.Number != wantRedo {
			t.Errorf("%s redo: %d %v, want %d", client, r.Number, err, wantRedo)
		}
	}
	next("page", 0, 0) // the first revision stays
	a := do("page", Made, 0)
	b := do("page", Made, 0)
	other := do("tablet", Made, 0)
	next("page", b, 0)
	next("tablet", other, 0)
	ub := do("page", Undone, b)
	next("page", a, ub)
	ua := do("page", Undone, a)
	next("page", 0, ua)
	ra := do("page", Redone, ua)
	next("page", ra, ub)
	rb := do("page", Redone, ub)
	next("page", rb, 0)
	do("page", Undone, rb)
	c := do("page", Made, 0)
	next("page", c, 0)
	next("tablet", other, 0)
}

func TestPropDeletedBuildComesBack(t *testing.T) {
	s := open(t)
	create(t, s, "heron", "a")
	create(t, s, "curlew", "b")
	if err := s.Delete(t.Context(), "heron"); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Load(t.Context(), "heron"); !errors.Is(err, ErrDeleted) {
		t.Errorf("load: %v", err)
	}
	if _, err := s.Newest(t.Context(), "heron"); !errors.Is(err, ErrDeleted) {
		t.Errorf("newest: %v", err)
	}
	if _, err := s.Append(t.Context(), "heron", 1, Head{}, change("x", "page", "b")); !errors.Is(err, ErrDeleted) {
		t.Errorf("append: %v", err)
	}
	if _, err := s.Create(t.Context(), "heron", Head{}, change("other", "page", "b")); !errors.Is(err, ErrExists) {
		t.Errorf("create: %v", err)
	}
	live, _ := s.List(t.Context(), false)
	all, _ := s.List(t.Context(), true)
	if len(live) != 1 || live[0].ID != "curlew" || len(all) != 2 {
		t.Errorf("live %+v all %+v", live, all)
	}
	if err := s.Restore(t.Context(), "heron"); err != nil {
		t.Fatal(err)
	}
	if b, err := s.Load(t.Context(), "heron"); err != nil || b.Text != "a" {
		t.Errorf("%+v %v", b, err)
	}
	if err := s.Delete(t.Context(), "dunlin"); !errors.Is(err, ErrNoBuild) {
		t.Errorf("delete: %v", err)
	}
}

func TestPropDraftRecordPapersWorkshop(t *testing.T) {
	s := open(t)
	create(t, s, "heron", "a")
	if _, found, err := s.Draft(t.Context(), "heron"); found || err != nil {
		t.Errorf("draft: %v %v", found, err)
	}
	for _, text := range []string{"items: [", "items: [}"} {
		if err := s.SaveDraft(t.Context(), "heron", Draft{Base: 1, Client: "page", Text: text}); err != nil {
			t.Fatal(err)
		}
	}
	d, found, err := s.Draft(t.Context(), "heron")
	if err != nil || !found || d.Text != "items: [}" || d.Base != 1 || d.At.IsZero() {
		t.Errorf("draft: %+v %v %v", d, found, err)
	}
	if b, _ := s.Load(t.Context(), "heron"); !b.Draft {
		t.Error("the build does not tell of its draft")
	}
	if err := s.DropDraft(t.Context(), "heron"); err != nil {
		t.Fatal(err)
	}
	if b, _ := s.Load(t.Context(), "heron"); b.Draft {
		t.Error("the draft is still told of")
	}
	if err := s.SaveDraft(t.Context(), "dunlin", Draft{}); !errors.Is(err, ErrNoBuild) {
		t.Errorf("draft of no build: %v", err)
	}

	for _, e := range []Entry{{ID: "w1", Kind: "weighing", Revision: 1, Body: "one"}, {ID: "w1", Kind: "weighing", Revision: 1, Body: "again"}, {ID: "p1", Kind: "photo", Revision: 1, Body: "two"}} {
		if err := s.AddEntry(t.Context(), "heron", e); err != nil {
			t.Fatal(err)
		}
	}
	es, err := s.Entries(t.Context(), "heron", "weighing")
	if err != nil || len(es) != 1 || es[0].Body != "one" {
		t.Errorf("entries: %+v %v", es, err)
	}
	if es, _ := s.Entries(t.Context(), "heron", ""); len(es) != 2 || es[1].ID != "p1" {
		t.Errorf("entries: %+v", es)
	}
	for _, q := range []string{`UPDATE records SET body = 'x'`, `DELETE FROM records`, `UPDATE revisions SET title = 'x'`, `DELETE FROM revisions`, `INSERT INTO drafts VALUES ('nobody', 1, '', '', '')`} {
		if _, err := s.write.ExecContext(t.Context(), q); err == nil {
			t.Errorf("%s went through", q)
		}
	}

	n, err := s.Issue(t.Context(), "heron", Paper{Name: "mass-statement.pdf", Status: "for talk", Revision: 1, Hash: Hash("a"), Bytes: []byte("%PDF")})
	if err != nil || n != 1 {
		t.Fatalf("issue: %d %v", n, err)
	}
	if n, _ := s.Issue(t.Context(), "heron", Paper{Name: "placard.pdf", Bytes: []byte("%PDF2")}); n != 2 {
		t.Errorf("second paper is %d", n)
	}
	p, err := s.Paper(t.Context(), "heron", 1)
	if err != nil || string(p.Bytes) != "%PDF" || p.Status != "for talk" {
		t.Errorf("paper: %+v %v", p, err)
	}
	if ps, err := s.Papers(t.Context(), "heron"); err != nil || len(ps) != 2 || ps[0].Hash != Hash("a") {
		t.Errorf("papers: %+v %v", ps, err)
	}

	if text, n, err := s.Workshop(t.Context()); text != "" || n != 0 || err != nil {
		t.Errorf("workshop: %q %d %v", text, n, err)
	}
	if n, err := s.SetWorkshop(t.Context(), 0, "page", "parts: []\n"); n != 1 || err != nil {
		t.Errorf("workshop: %d %v", n, err)
	}
	if _, err := s.SetWorkshop(t.Context(), 0, "tablet", "parts: [x]\n"); !errors.As(err, &Stale{}) {
		t.Errorf("workshop: %v", err)
	}
	if text, n, _ := s.Workshop(t.Context()); text != "parts: []\n" || n != 1 {
		t.Errorf("workshop: %q %d", text, n)
	}
}

func TestPropSummaryBelongsToItsRevision(t *testing.T) {
	s := open(t)
	create(t, s, "heron", "a")
	if err := s.SetSummary(t.Context(), "heron", 1, "148 kg left"); err != nil {
		t.Fatal(err)
	}
	if l, _ := s.List(t.Context(), false); l[0].Summary != "148 kg left" {
		t.Errorf("summary %q", l[0].Summary)
	}
	if _, err := s.Append(t.Context(), "heron", 1, Head{}, change("x", "page", "b")); err != nil {
		t.Fatal(err)
	}
	if err := s.SetSummary(t.Context(), "heron", 1, "late"); err != nil {
		t.Fatal(err)
	}
	if l, _ := s.List(t.Context(), false); l[0].Summary != "" {
		t.Errorf("summary of an older revision is shown: %q", l[0].Summary)
	}
}

func TestPropBackupIsWhole(t *testing.T) {
	s := open(t)
	create(t, s, "heron", "a")
	copied := filepath.Join(t.TempDir(), "copy.db")
	if err := s.Backup(t.Context(), copied); err != nil {
		t.Fatal(err)
	}
	if err := s.Backup(t.Context(), copied); !errors.Is(err, fs.ErrExist) {
		t.Errorf("over an existing file: %v", err)
	}
	c := openAt(t, copied)
	if b, err := c.Load(t.Context(), "heron"); err != nil || b.Text != "a" {
		t.Errorf("%+v %v", b, err)
	}
	if err := c.Check(t.Context()); err != nil {
		t.Error(err)
	}
}

func TestPropForeignAndNewerFilesAreRefused(t *testing.T) {
	dir := t.TempDir()
	text := filepath.Join(dir, "text.db")
	if err := os.WriteFile(text, []byte(strings.Repeat("no database at all\n", 300)), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(t.Context(), text); !errors.Is(err, ErrNotStore) {
		t.Errorf("text file: %v", err)
	}
	path := filepath.Join(dir, "a.db")
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.write.Exec(`PRAGMA user_version = 99`); err != nil {
		t.Fatal(err)
	}
	s.Close()
	if _, err := Open(t.Context(), path); err == nil || !strings.Contains(err.Error(), "newer program") {
		t.Errorf("newer: %v", err)
	}
	other := filepath.Join(dir, "b.db")
	db, err := connect(other, "immediate")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec(`CREATE TABLE cats (name TEXT)`); err != nil {
		t.Fatal(err)
	}
	db.Close()
	if _, err := Open(t.Context(), other); err == nil || !strings.Contains(err.Error(), "another program") {
		t.Errorf("foreign: %v", err)
	}
}

func TestPropCommonLeavesNoOverlap(t *testing.T) {
	for _, c := range []struct {
		a, b       string
		head, tail int
	}{{"", "", 0, 0}, {"aa", "aaa", 2, 0}, {"aaa", "aa", 2, 0}, {"abc", "abc", 3, 0}, {"abc", "axc", 1, 1}, {"abc", "", 0, 0}, {"xyz", "abc", 0, 0}, {"ab", "ba", 0, 0}} {
		h, tl := common(c.a, c.b)
		if h != c.head || tl != c.tail || h+tl > min(len(c.a), len(c.b)) {
			t.Errorf("%q %q: %d %d", c.a, c.b, h, tl)
		}
	}
}

func BenchmarkAppend(b *testing.B) {
	s := open(b)
	text := strings.Repeat("- id: something\n  mass: 12.5 kg\n", 1500)
	create(b, s, "heron", text)
	n := 1
	for b.Loop() {
		at := (n * 37) % len(text)
		text = text[:at] + "1" + text[at+1:]
		if _, err := s.Append(context.Background(), "heron", n, Head{}, change(fmt.Sprint(n), "page", text)); err != nil {
			b.Fatal(err)
		}
		n++
	}
}

func TestPropHistoryIsNewestFirst(t *testing.T) {
	s := open(t)
	create(t, s, "heron", "a")
	for n := 1; n < 5; n++ {
		if _, err := s.Append(t.Context(), "heron", n, Head{}, change(fmt.Sprint(n), "page", fmt.Sprint(n))); err != nil {
			t.Fatal(err)
		}
	}
	h, err := s.History(t.Context(), "heron", 0, 0)
	if err != nil || len(h) != 5 || !slices.IsSortedFunc(h, func(a, b Revision) int { return b.Number - a.Number }) {
		t.Errorf("%+v %v", h, err)
	}
	r, found, err := s.Applied(t.Context(), "heron", "3")
	if err != nil || !found || r.Number != 4 {
		t.Errorf("%+v %v %v", r, found, err)
	}
	if _, found, _ := s.Applied(t.Context(), "heron", "never"); found {
		t.Error("found what never was")
	}
}
