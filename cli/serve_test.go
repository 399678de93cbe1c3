package cli

import (
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"berthwright/parts"
)

// wire is a buffer that two goroutines may use.
type wire struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (w *wire) Write(b []byte) (int, error) { w.mu.Lock(); defer w.mu.Unlock(); return w.b.Write(b) }
func (w *wire) String() string              { w.mu.Lock(); defer w.mu.Unlock(); return w.b.String() }

func server(t *testing.T, out, errOut io.Writer) *env {
	t.Helper()
	cat, err := parts.Load()
	if err != nil {
		t.Fatal(err)
	}
	e := &env{out: &keeper{w: out}, err: errOut}
	e.ctx.Parts = cat
	return e
}

// start serves until the returned function is called, which returns what serve answered.
func start(t *testing.T, c serveCmd) (address string, stop func() error) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	var out, errOut wire
	done := make(chan error, 1)
	go func() { done <- c.serve(ctx, server(t, &out, &errOut)) }()
	for range 500 {
		if m := regexp.MustCompile(`http://\S+/`).FindString(out.String()); m != "" {
			return m, func() error { cancel(); return <-done }
		}
		select {
		case err := <-done:
			cancel()
			t.Fatalf("the server ended: %v\n%s", err, errOut.String())
		case <-time.After(20 * time.Millisecond):
		}
	}
	cancel()
	t.Fatalf("no address was printed:\n%s%s", out.String(), errOut.String())
	return "", nil
}

func get(t *testing.T, address string) string {
	t.Helper()
	r, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	b, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode != http.StatusOK {
		t.Fatalf("%s: %s %v\n%s", address, r.Status, err, b)
	}
	return string(b)
}

// The demo builds are there after the first start, once after the second, and interrupting ends the server cleanly.
func TestPropServeWithDemos(t *testing.T) {
	data := filepath.Join(t.TempDir(), "new", "data")
	for range 2 {
		address, stop := start(t, serveCmd{Addr: "127.0.0.1:0", Data: data, Demo: true})
		list := get(t, address+"api/builds")
		for _, id := range []string{"curlew", "dunlin", "avocet"} {
			if n := strings.Count(list, `"id":"`+id+`"`) + strings.Count(list, `"id": "`+id+`"`); n != 1 {
				t.Errorf("%s stands %d times in %s", id, n, list)
			}
		}
		if page := get(t, address); !strings.Contains(page, "Berthwright") {
			t.Errorf("no page: %s", page)
		}
		if err := stop(); err != nil {
			t.Errorf("interrupted: %v", err)
		}
	}
}

func TestPropServeWithoutDemosIsEmpty(t *testing.T) {
	address, stop := start(t, serveCmd{Addr: "127.0.0.1:0", Data: t.TempDir()})
	if list := get(t, address+"api/builds"); strings.Contains(list, "curlew") {
		t.Errorf("a build nobody asked for: %s", list)
	}
	if err := stop(); err != nil {
		t.Error(err)
	}
}

func TestPropServeTellsWhatIsInTheWay(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	plain := filepath.Join(t.TempDir(), "plain")
	if err := os.WriteFile(plain, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for says, c := range map[string]serveCmd{
		"--addr 127.0.0.1:0 takes a free port": {Addr: taken.Addr().String(), Data: t.TempDir()},
		`data folder "` + plain + `"`:          {Addr: "127.0.0.1:0", Data: plain, Demo: true},
	} {
		ctx, cancel := context.WithTimeout(t.Context(), 10*time.Second)
		err := c.serve(ctx, server(t, io.Discard, io.Discard))
		cancel()
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("error %v, want %s", err, says)
		}
	}
}

func TestPropOnlyLoopbackIsQuiet(t *testing.T) {
	for addr, want := range map[string]bool{
		"127.0.0.1:8340": true, "localhost:1": true, "[::1]:1": true, ":8340": false, "0.0.0.0:1": false, "192.168.1.4:1": false, "[::]:1": false, "nonsense": false,
	} {
		if loopback(addr) != want {
			t.Errorf("loopback(%q) is not %v", addr, want)
		}
	}
}
