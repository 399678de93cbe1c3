package cli

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"syscall"

	"berthwright/docfile"
	"berthwright/examples"
	"berthwright/store"
	"berthwright/web"
)

type serveCmd struct {
	Addr string   `help:"Address to listen on; port 0 takes a free one." default:"127.0.0.1:8340"`
	Data string   `help:"Folder the builds are kept in; without it one of this user." placeholder:"DIR"`
	UI   string   `name:"ui" help:"Folder to serve the page from, for those who work on it." placeholder:"DIR"`
	Host []string `help:"Host name to answer to beside localhost." placeholder:"NAME"`
	Demo bool     `help:"Put the demo builds into the folder if they are not there."`
}

// Run serves the page until it is interrupted.
func (c serveCmd) Run(e *env) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return c.serve(ctx, e)
}

func (c serveCmd) serve(ctx context.Context, e *env) error {
	data := c.Data
	if data == "" {
		own, err := os.UserConfigDir()
		if err != nil {
			return usage{"this user has no folder for programs' data", "name one with --data DIR"}
		}
		data = filepath.Join(own, "berthwright")
	}
	demos := map[string]string{}
	for _, id := range examples.Builds() {
		text, _ := examples.Text(id)
		demos[id] = string(text)
	}
	if err := c.fill(ctx, e, data, demos); err != nil {
		return fmt.Errorf("data folder %q: %w", data, err)
	}
	if !loopback(c.Addr) {
		fmt.Fprintln(e.err, "caution: everybody on this network can read and change the builds; there are no passwords")
	}
	err := web.Serve(ctx, web.Config{
		Addr: c.Addr, Data: data, UI: c.UI, Hosts: c.Host, Demos: demos, Out: e.out, Log: slog.New(slog.NewTextHandler(e.err, nil)),
	})
	var refused *net.OpError
	if errors.As(err, &refused) && refused.Op == "listen" {
		return usage{fmt.Sprintf("cannot listen on %q: %v", c.Addr, errors.Unwrap(refused)), "--addr 127.0.0.1:0 takes a free port"}
	}
	return err
}

// fill puts the workshop file and the demo builds into the store.
func (c serveCmd) fill(ctx context.Context, e *env, data string, demos map[string]string) (err error) {
	if !c.Demo && e.workshop == "" {
		return nil
	}
	st, err := store.Open(ctx, filepath.Join(data, "builds.db"))
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, st.Close()) }()
	was, number, err := st.Workshop(ctx)
	if err != nil {
		return err
	}
	shop := e.workshop
	if shop == "" && number == 0 {
		text, _ := examples.Text("workshop")
		shop = string(text)
	}
	if shop != "" && shop != was {
		if _, err := st.SetWorkshop(ctx, number, "command line", shop); err != nil {
			return err
		}
	}
	if !c.Demo {
		return nil
	}
	for _, id := range slices.Backward(examples.Builds()) { // the last one put in stands first in the list
		h := docfile.Read(id+".yaml", []byte(demos[id])).Build
		head := store.Head{Name: h.Head.Name, Customer: h.Head.Customer, Stage: h.Job.Stage, Items: len(h.Items)}
		_, err := st.Create(ctx, id, head, store.Change{ID: "demo-" + id, Kind: store.Made, Title: "demo build", Text: demos[id]})
		if err != nil && !errors.Is(err, store.ErrExists) {
			return err
		}
	}
	return nil
}

// loopback reports whether only this machine can reach the address.
func loopback(addr string) bool {
	host, _, err := net.SplitHostPort(addr)
	if err != nil {
		return false
	}
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}
