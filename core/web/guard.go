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

// guarded refuses what another site's page asks for in a user's name, bounds what is sent, and tells the browser what it may load.
func (s *Server) guarded(next http.Handler) http.Handler {
	sameSite := http.NewCrossOriginProtection()
	return sameSite.Handler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		most := int64(mostSent)
		if bringsPhoto(r) {
			most = mostPhoto
		}
		r.Body = http.MaxBytesReader(w, r.Body, most)
		next.ServeHTTP(w, r)
	}))
}
