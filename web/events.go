package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"sync"
	"time"

	"berthwright/store"
)

// mostStreams bounds the event streams open at once.
const mostStreams = 64

// lookEvery is how often an open stream looks for what another process changed.
const lookEvery = 500 * time.Millisecond

// hub tells everybody who watches a build what happened to it.
type hub struct {
	mu      sync.Mutex
	watched map[string]map[chan Event]bool
	streams int
	closed  bool
}

// watch returns a channel of the events of a build, and how to end it; nil when no more are taken.
func (h *hub) watch(build string) (<-chan Event, func()) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.closed || h.streams >= mostStreams {
		return nil, nil
	}
	if h.watched == nil {
		h.watched = map[string]map[chan Event]bool{}
	}
	if h.watched[build] == nil {
		h.watched[build] = map[chan Event]bool{}
	}
	c := make(chan Event, 16)
	h.watched[build][c] = true
	h.streams++
	return c, func() {
		h.mu.Lock()
		defer h.mu.Unlock()
		if h.watched[build][c] {
			h.drop(build, c)
		}
	}
}

func (h *hub) drop(build string, c chan Event) {
	delete(h.watched[build], c)
	if len(h.watched[build]) == 0 {
		delete(h.watched, build)
	}
	h.streams--
	close(c)
}

// tell sends an event. A watcher that does not keep up is dropped: its page connects again and reads the build anew.
func (h *hub) tell(e Event) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for c := range h.watched[e.Build] {
		select {
		case c <- e:
		default:
			h.drop(e.Build, c)
		}
	}
}

func (h *hub) close() {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.closed = true
	for build, all := range h.watched {
		for c := range all {
			h.drop(build, c)
		}
	}
}

// stream answers server-sent events of one build until either side ends it.
func (s *Server) stream(w http.ResponseWriter, r *http.Request) {
	id := r.PathValue("id")
	if _, err := s.store.Newest(r.Context(), id); err != nil {
		s.fail(w, r, err)
		return
	}
	events, end := s.events.watch(id)
	if events == nil {
		s.fail(w, r, refuse(http.StatusServiceUnavailable, "too-many-streams", "too many pages are open", "close one"))
		return
	}
	defer end()
	told, err := s.store.Pulse(r.Context(), id)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	out := http.NewResponseController(w)
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	send := func(text string) bool {
		if err := out.SetWriteDeadline(time.Now().Add(10 * time.Second)); err != nil {
			s.cfg.Log.Debug("no write deadline", "error", err)
		}
		if _, err := fmt.Fprint(w, text); err != nil {
			return false
		}
		return out.Flush() == nil
	}
	event := func(e Event) bool {
		b, err := json.Marshal(e)
		return err == nil && send("data: "+string(b)+"\n\n")
	}
	if !send("retry: 2000\n\n") || !event(Event{Kind: "revision", Build: id, Revision: told.Revision}) { // what was missed while away
		return
	}
	beat := time.NewTicker(20 * time.Second)
	defer beat.Stop()
	look := time.NewTicker(lookEvery)
	defer look.Stop()
	last := told
	for {
		select {
		case <-r.Context().Done():
			return
		case <-beat.C:
			if !send(": still here\n\n") {
				return
			}
		case e, ok := <-events:
			if !ok || !event(e) {
				return
			}
			switch e.Kind {
			case "revision":
				told.Revision = max(told.Revision, e.Revision)
			case "deleted":
				told.Deleted = true
			default:
				if p, err := s.store.Pulse(r.Context(), id); err == nil {
					told.Entries = p.Entries
				}
			}
		case <-look.C:
			p, err := s.store.Pulse(r.Context(), id)
			if err != nil {
				continue // told by the next call of the page
			}
			if p != last { // of this program's own changes it is told before the next look
				last = p
				continue
			}
			for _, e := range missed(id, told, p) {
				if !event(e) {
					return
				}
			}
			told = p
		}
	}
}

// missed are the events of what another process did.
func missed(build string, told, now store.Pulse) []Event {
	var out []Event
	if now.Revision > told.Revision {
		out = append(out, Event{Kind: "revision", Build: build, Revision: now.Revision})
	}
	if now.Entries > told.Entries {
		out = append(out, Event{Kind: "record", Build: build, Revision: now.Revision})
	}
	if now.Deleted && !told.Deleted {
		out = append(out, Event{Kind: "deleted", Build: build, Revision: now.Revision})
	}
	return out
}
