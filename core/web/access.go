package web

import (
	"context"
	"net"
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// Role is how far somebody may go. A higher one may all that a lower one may.
type Role int

// The roles.
const (
	Anybody  Role = iota // no key is needed
	Mechanic             // findings, strip, build
	Owner                // prices, papers, agreements
	Here                 // sits at the shop's own machine
)

// String is the role in the words printed.
func (r Role) String() string {
	return [...]string{"anybody", "mechanic", "shop owner", "the shop's own machine"}[r]
}

// visitor is who asks.
type visitor struct {
	Role
	Name   string // who writes where nobody is named
	Device string // the device's id; "" at the shop's own machine
}

type visitorKey struct{}

// asked is a request with who asks it.
func asked(r *http.Request, v visitor) *http.Request {
	return r.WithContext(context.WithValue(r.Context(), visitorKey{}, v))
}

// visitor gives who asks: anybody, unless it was said.
func (s *Server) visitor(r *http.Request) visitor {
	v, _ := r.Context().Value(visitorKey{}).(visitor)
	return v
}

// by is who writes where nobody is named.
func (s *Server) by(r *http.Request) string { return s.visitor(r).Name }

// ServeHTTP answers whoever sits at the shop's own machine: it must not be reached over a network.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	s.handler.ServeHTTP(w, asked(r, visitor{Role: Here, Name: s.By}))
}

// sessionCookie holds a device's token. Its prefix keeps it from any other name or path (RFC 6265bis, section 4.1.3.2).
const sessionCookie = "__Host-fettle"

// KeyHolds is how long a device keeps its key without using it, and KeyTouched how often its use is written down.
const (
	KeyHolds   = 60 * 24 * time.Hour
	KeyTouched = time.Hour
)

// giveKey gives a device its token, for as long as it holds without being used.
func giveKey(w http.ResponseWriter, token string) {
	http.SetCookie(w, &http.Cookie{Name: sessionCookie, Value: token, Path: "/", MaxAge: int(KeyHolds / time.Second), Secure: true, HttpOnly: true, SameSite: http.SameSiteStrictMode})
}

// strictly has a browser ask this name over TLS alone (RFC 6797). Of an address without a name it remembers nothing.
const strictly = "max-age=2592000"

// OnNetwork answers devices on the network: each has a key of its own, or is asked for one. It must be reached over TLS.
func (s *Server) OnNetwork() http.Handler {
	l := newLimits(s.Clock)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		guard(w.Header())
		w.Header().Set("Strict-Transport-Security", strictly)
		if host := hostOf(r); net.ParseIP(host) == nil && !slices.Contains(s.LAN.Names(), host) {
			http.Error(w, "This machine has no such name. Open the bench by the address that fettle printed.", http.StatusMisdirectedRequest)
			return
		}
		v := visitor{}
		if c, err := r.Cookie(sessionCookie); err == nil {
			if d, ok := s.LAN.Holder(c.Value); ok {
				v = visitor{min(d.Role, Owner), d.Name, d.ID}
				if s.Clock().Sub(d.Seen) > KeyTouched {
					giveKey(w, c.Value)
				}
			}
		}
		if !l.allows(v, r) {
			w.Header().Set("Retry-After", "10")
			http.Error(w, "Too much at once. Wait a moment.", http.StatusTooManyRequests)
			return
		}
		s.handler.ServeHTTP(w, asked(r, v))
	})
}

// hostOf is the name or the address that was asked for, without its port.
func hostOf(r *http.Request) string {
	host := r.Host
	if h, _, err := net.SplitHostPort(host); err == nil {
		host = h
	}
	return strings.ToLower(strings.TrimSuffix(strings.Trim(host, "[]"), "."))
}

// refuse tells a visitor that a page is not theirs: who has no key is asked for one.
func (s *Server) refuse(w http.ResponseWriter, r *http.Request, need Role) error {
	v := s.visitor(r)
	w.Header().Set("Cache-Control", "no-store")
	switch {
	case v.Role != Anybody:
		next := "ask the shop owner, or do it at the shop's own machine"
		if need == Here {
			next = "do it at the shop's own machine"
		}
		return s.deny(w, r, http.StatusForbidden, "Not from this device", told{"this is not for a " + v.Role.String() + "’s device", next})
	case byScript(r):
		return s.deny(w, r, http.StatusUnauthorized, "", told{"this device has no key", "pair it: open the bench on it, and type the code that the shop's own machine shows"})
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		return s.deny(w, r, http.StatusUnauthorized, "This device has no key", told{"nothing of it was written down: this device has no key, or has it no longer",
			"open the bench in another tab and pair it there; then go back to what you typed, and send it again"})
	}
	w.Header().Set("Clear-Site-Data", `"cache"`) // pictures, which a browser may keep for a year; what waits to be sent is no cache (Clear Site Data, W3C)
	return s.show(w, http.StatusUnauthorized, "pair", pairPage{frame: s.frame(r, "This device has no key")})
}

// deny answers with one fault and a status.
func (s *Server) deny(w http.ResponseWriter, r *http.Request, status int, title string, fault told) error {
	if byScript(r) {
		writeJSON(w, status, struct {
			Faults []told `json:"faults"`
		}{[]told{fault}})
		return nil
	}
	return s.show(w, status, "fault", faultPage{frame: s.frame(r, title), Faults: []told{fault}})
}

// AtLoopback refuses what asks this machine for another's name: a page of another site that has had its own name pointed here.
func AtLoopback(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		host := hostOf(r)
		if ip := net.ParseIP(host); host != "localhost" && (ip == nil || !ip.IsLoopback()) {
			http.Error(w, "This is the shop's own machine. Open it by the address that fettle printed.", http.StatusMisdirectedRequest)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// noLAN is told where nothing is served on the network.
func noLAN() error {
	return core.Errorf(core.NotFound, "start it with: fettle serve --lan", "the bench is not open on the network")
}
