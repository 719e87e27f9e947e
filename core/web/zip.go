package web

import (
	"compress/gzip"
	"net/http"
	"strings"
	"sync"
)

// zipped sends text compressed to whoever takes it so (RFC 9110, section 8.4.1.3): a phone in a shed has a thin line.
type zipped struct {
	http.ResponseWriter
	to *gzip.Writer // nil until text is written
}

// leastZipped is the least that is worth it: what does not fit into one packet.
const leastZipped = 1400

var zippers = sync.Pool{New: func() any {
	z, _ := gzip.NewWriterLevel(nil, gzip.BestSpeed) // the level is a good one
	return z
}}

// zipping compresses what is written, if the browser takes that. End must be called.
func zipping(w http.ResponseWriter, r *http.Request) (_ http.ResponseWriter, end func()) {
	if !strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		return w, func() {}
	}
	z := &zipped{ResponseWriter: &held{ResponseWriter: w}}
	return z, z.end
}

// held keeps the status back until it is known whether the body is compressed.
type held struct {
	http.ResponseWriter
	status int
}

// Unwrap is what it writes to, for its deadlines.
func (h *held) Unwrap() http.ResponseWriter { return h.ResponseWriter }

// Unwrap is what it writes to, for its deadlines.
func (z *zipped) Unwrap() http.ResponseWriter { return z.ResponseWriter }

func (h *held) WriteHeader(status int) { h.status = status }

func (h *held) Write(b []byte) (int, error) {
	h.release()
	return h.ResponseWriter.Write(b)
}

func (h *held) release() {
	if h.status != 0 {
		h.ResponseWriter.WriteHeader(h.status)
		h.status = 0
	}
}

func (z *zipped) Write(b []byte) (int, error) {
	h := z.Header()
	kind := h.Get("Content-Type")
	text := strings.HasPrefix(kind, "text/") || strings.Contains(kind, "json") || strings.Contains(kind, "svg")
	if z.to == nil && len(b) >= leastZipped && text && h.Get("Content-Encoding") == "" {
		h.Set("Content-Encoding", "gzip")
		h.Add("Vary", "Accept-Encoding")
		h.Del("Content-Length")
		z.to = zippers.Get().(*gzip.Writer)
		z.to.Reset(z.ResponseWriter)
	}
	if z.to == nil {
		return z.ResponseWriter.Write(b)
	}
	return z.to.Write(b)
}

func (z *zipped) end() {
	if z.to != nil {
		_ = z.to.Close() // who does not listen any more needs no end
		zippers.Put(z.to)
	}
	z.ResponseWriter.(*held).release()
}
