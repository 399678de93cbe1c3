//go:build unix

package store

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// The test program starts itself again as a child that writes until it is killed or its disk is full.
func TestMain(m *testing.M) {
	if path := os.Getenv("STORE_TEST_CHILD"); path != "" {
		if err := child(path); err != nil {
			fmt.Println("error:", err)
			os.Exit(3)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

func child(path string) error {
	var limit uint64
	if _, err := fmt.Sscan(os.Getenv("STORE_TEST_LIMIT"), &limit); err == nil {
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: limit, Max: limit}); err != nil {
			return err
		}
	}
	s, err := Open(context.Background(), path)
	if err != nil {
		return err
	}
	b, err := s.Load(context.Background(), "heron")
	if err != nil {
		return err
	}
	who := os.Getenv("STORE_TEST_NAME")
	for n, text := b.Revision, b.Text; ; n++ {
		text = grown(text, n)
		if _, err := s.Append(context.Background(), "heron", n, Head{Items: n}, change(fmt.Sprint(who, n), "page", text)); err != nil {
			var stale Stale
			if errors.As(err, &stale) { // the other child was faster
				if b, err = s.Load(context.Background(), "heron"); err != nil {
					return err
				}
				n, text = b.Revision-1, b.Text
				continue
			}
			return err
		}
		fmt.Println(n + 1)
	}
}

// grown is what revision n+1 says after text; some revisions are large so that a kill falls into a write.
func grown(text string, n int) string {
	if len(text) > 200_000 {
		text = text[:1000]
	}
	return text + strings.Repeat(fmt.Sprintf("- id: thing-%d\n", n), 1+n%7*100)
}

func start(t *testing.T, path, name, limit string) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^$")
	cmd.Env = append(os.Environ(), "STORE_TEST_CHILD="+path, "STORE_TEST_NAME="+name, "STORE_TEST_LIMIT="+limit)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = cmd.Process.Kill(); _ = cmd.Wait() })
	return cmd, bufio.NewScanner(out)
}

// last reads what the child told and returns the highest revision it said was kept.
func last(t *testing.T, lines *bufio.Scanner, seen int) (highest int, says string) {
	t.Helper()
	highest = seen
	for lines.Scan() {
		var n int
		if _, err := fmt.Sscan(lines.Text(), &n); err != nil {
			says = lines.Text()
			continue
		}
		highest = max(highest, n)
	}
	return highest, says
}

// whole checks the file and every revision in it.
func whole(t *testing.T, path string, atLeast int) int {
	t.Helper()
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if err := s.Check(t.Context()); err != nil {
		t.Fatal(err)
	}
	b, err := s.Load(t.Context(), "heron")
	if err != nil {
		t.Fatal(err)
	}
	if b.Revision < atLeast {
		t.Fatalf("revision %d was told kept, the newest is %d", atLeast, b.Revision)
	}
	for n := 1; n <= b.Revision; n += 1 + b.Revision/20 {
		if _, err := s.At(t.Context(), "heron", n); err != nil {
			t.Fatal(err)
		}
	}
	if text, err := s.At(t.Context(), "heron", b.Revision); err != nil || text != b.Text || Hash(text) != b.Hash {
		t.Fatalf("newest revision differs from the build: %v", err)
	}
	return b.Revision
}

func TestPropKilledInMidWriteLosesNothingTold(t *testing.T) {
	path := filepath.Join(t.TempDir(), "builds.db")
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	create(t, s, "heron", "items:\n")
	s.Close()
	rounds, told := 8, 1
	for round := range rounds {
		cmd, lines := start(t, path, fmt.Sprint("r", round, "-"), "")
		if !lines.Scan() {
			t.Fatal("the child says nothing")
		}
		time.AfterFunc(time.Duration(20+rand.IntN(60))*time.Millisecond, func() { _ = cmd.Process.Signal(syscall.SIGKILL) })
		var says string
		told, says = last(t, lines, told)
		if says != "" {
			t.Fatal(says)
		}
		_ = cmd.Wait()
		told = whole(t, path, told)
	}
	if told < rounds {
		t.Errorf("only %d revisions in %d rounds", told, rounds)
	}
}

func TestPropTwoProcessesShareTheFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "builds.db")
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	create(t, s, "heron", "items:\n")
	s.Close()
	a, linesA := start(t, path, "a", "")
	b, linesB := start(t, path, "b", "")
	type line struct {
		child int
		text  string
	}
	said := make(chan line)
	var readers sync.WaitGroup
	for child, lines := range []*bufio.Scanner{linesA, linesB} {
		readers.Go(func() {
			for lines.Scan() {
				said <- line{child, lines.Text()}
			}
		})
	}
	go func() { readers.Wait(); close(said) }()
	var kept [2]int // revisions each said were kept
	highest, both := 0, false
	for l := range said {
		n, err := strconv.Atoi(l.text)
		if err != nil {
			t.Fatal(l.text)
		}
		kept[l.child]++
		highest = max(highest, n)
		if !both && kept[0] >= 3 && kept[1] >= 3 {
			both = true
			_ = a.Process.Kill()
			_ = b.Process.Kill()
		}
	}
	if !both {
		t.Errorf("they kept %v revisions", kept)
	}
	whole(t, path, highest)
}

func TestPropFullDiskIsToldAndNothingIsLost(t *testing.T) {
	path := filepath.Join(t.TempDir(), "builds.db")
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	create(t, s, "heron", "items:\n")
	s.Close()
	cmd, lines := start(t, path, "a", "400000")
	told, says := last(t, lines, 1)
	if err := cmd.Wait(); err == nil || told < 2 {
		t.Fatalf("the child ended with %v after revision %d", err, told)
	}
	if !strings.Contains(says, ErrWrite.Error()) && !strings.Contains(says, ErrFull.Error()) {
		t.Errorf("the child said %q", says)
	}
	whole(t, path, told)

	// The same in one process, by a limit of pages: the store goes on once there is room.
	s = openAt(t, path)
	b, err := s.Load(t.Context(), "heron")
	if err != nil {
		t.Fatal(err)
	}
	var pages int
	if err := s.write.QueryRow(`PRAGMA page_count`).Scan(&pages); err != nil {
		t.Fatal(err)
	}
	if _, err := s.write.Exec(fmt.Sprintf(`PRAGMA max_page_count = %d`, pages)); err != nil {
		t.Fatal(err)
	}
	big := change("big", "page", strings.Repeat("x", 300_000))
	if _, err := s.Append(t.Context(), "heron", b.Revision, Head{}, big); !errors.Is(err, ErrFull) {
		t.Errorf("full: %v", err)
	}
	if now, err := s.Load(t.Context(), "heron"); err != nil || now.Text != b.Text || now.Revision != b.Revision {
		t.Errorf("after the refusal: revision %d %v", now.Revision, err)
	}
	if _, err := s.write.Exec(`PRAGMA max_page_count = 100000`); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Append(t.Context(), "heron", b.Revision, Head{}, big); err != nil {
		t.Error(err)
	}
}
