package web

import (
	"net/http"
	"strings"
)

// mostSent is the most that a request may bring, photographs apart.
const mostSent = 1 << 20

// policy lets a page use what this server gives and nothing else (Content Security Policy Level 3, W3C).
var policy = strings.Join([]string{
	"default-src 'none'", "script-src 'self'", "style-src 'self'", "img-src 'self' data: blob:", "connect-src 'self'", "manifest-src 'self'", "worker-src 'self'",
	"form-action 'self'", "base-uri 'none'", "frame-ancestors 'none'",
}, "; ")

// mostByAnybody is the most that somebody without a key may bring: a code and a name.
const mostByAnybody = 4 << 10

// guard tells the browser what a page may load, and who may show it.
func guard(h http.Header) {
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "same-origin")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
}

// guarded refuses what another site's page asks for in a user's name, and bounds what is sent.
func (s *Server) guarded(next http.Handler) http.Handler {
	sameSite := http.NewCrossOriginProtection()
	sameSite.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		_ = s.deny(w, r, http.StatusForbidden, "Not from another page", told{"another site's page asked for this, not the bench", "do it on the bench's own page"})
	}))
	inner := sameSite.Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		guard(w.Header())
		most := int64(mostSent)
		switch {
		case s.visitor(r).Role == Anybody:
			most = mostByAnybody
		case bringsPhoto(r):
			most = mostPhoto
		}
		r.Body = http.MaxBytesReader(w, r.Body, most)
		inner.ServeHTTP(w, r)
	})
}
