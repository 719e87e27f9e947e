package web

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"strconv"
	"sync"
	"time"
)

// How often the book is looked at, and how often a silent line is kept open.
const (
	liveEvery  = 250 * time.Millisecond
	keepOpenBy = 20 * time.Second
)

// live tells the pages that are open when the book or the devices with a key have changed (server-sent events; HTML Living Standard, section 9.2).
type live struct {
	changes Changes
	lan     LAN // nil: no device has a key
	log     *slog.Logger
	mu      sync.Mutex
	last    lately
	open    map[chan lately]bool
}

// lately is what the pages follow, as it stands.
type lately struct{ book, devices int64 }

func newLive(c Changes, lan LAN, log *slog.Logger) *live {
	return &live{changes: c, lan: lan, log: log, open: map[chan lately]bool{}}
}

// now looks at what the pages follow.
func (l *live) now(ctx context.Context) (now lately, err error) {
	if l.lan != nil {
		now.devices = l.lan.Changed()
	}
	now.book, err = l.changes.Changed(ctx)
	return now, err
}

// watch looks at the book while anybody listens, until the context ends.
func (l *live) watch(ctx context.Context) {
	tick := time.NewTicker(liveEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
			l.look(ctx)
		}
	}
}

// look tells every listener if the book has changed.
func (l *live) look(ctx context.Context) {
	l.mu.Lock()
	listened := len(l.open) > 0
	l.mu.Unlock()
	if !listened {
		return
	}
	now, err := l.now(ctx)
	if err != nil {
		if ctx.Err() == nil {
			l.log.Warn("the book cannot be looked at", "error", err)
		}
		return
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if now == l.last {
		return
	}
	l.last = now
	for c := range l.open {
		select {
		case c <- now:
		default: // it has not taken the last one yet, and will look at everything when it does
		}
	}
}

type bookKey struct{}

// asRead notes in a request at which state of the book its page begins to be read, so that the page knows what it is older than.
func (s *Server) asRead(r *http.Request) *http.Request {
	now, err := s.Changes.Changed(r.Context())
	if err != nil {
		return r // whoever reads the book for the page says so
	}
	return r.WithContext(context.WithValue(r.Context(), bookKey{}, strconv.FormatInt(now, 10)))
}

// bookOf is the state that asRead noted; "" if it did not.
func bookOf(r *http.Request) string {
	at, _ := r.Context().Value(bookKey{}).(string)
	return at
}

func (l *live) join(now lately) chan lately {
	c := make(chan lately, 1)
	l.mu.Lock()
	defer l.mu.Unlock()
	if len(l.open) == 0 {
		l.last = now
	}
	l.open[c] = true
	return c
}

func (l *live) leave(c chan lately) {
	l.mu.Lock()
	defer l.mu.Unlock()
	delete(l.open, c)
}

// showLive keeps a line open on which each change is told: of the book, and at the shop's own machine of the devices with a key.
func (s *Server) showLive(w http.ResponseWriter, r *http.Request) error {
	now, err := s.live.now(r.Context())
	if err != nil {
		return err
	}
	c := s.live.join(now)
	defer s.live.leave(c)
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	out := http.NewResponseController(w)
	send := func(format string, args ...any) error {
		_ = out.SetWriteDeadline(time.Now().Add(keepOpenBy))
		if _, err := fmt.Fprintf(w, format, args...); err != nil {
			return err
		}
		return out.Flush()
	}
	here := s.visitor(r).Role == Here
	told := lately{-1, -1}
	tell := func(now lately) (err error) {
		if now.book != told.book {
			err = send("event: changed\ndata: %d\n\n", now.book)
		}
		if err == nil && here && now.devices != told.devices {
			err = send("event: devices\ndata: %d\n\n", now.devices)
		}
		told = now
		return err
	}
	if tell(now) != nil {
		return nil // it has gone away
	}
	still := time.NewTicker(keepOpenBy)
	defer still.Stop()
	for {
		select {
		case <-r.Context().Done():
			return nil
		case now := <-c:
			err = tell(now)
		case <-still.C:
			err = send(": still here\n\n")
		}
		if err != nil {
			return nil
		}
	}
}
