package web

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"encoding/json"
	"io/fs"
	"net/http"
	"path"

	"github.com/fettle-tools/fettle/core"
)

//go:embed static
var staticFiles embed.FS

// staticVersion stands in the address of every static file: a file that a browser keeps is never out of date.
var staticVersion = sumOf(staticFiles)

func sumOf(files fs.FS) string {
	sum := sha256.New()
	_ = fs.WalkDir(files, ".", func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			b, _ := fs.ReadFile(files, p)
			sum.Write(append([]byte(p), b...))
		}
		return err
	})
	return hex.EncodeToString(sum.Sum(nil))[:12]
}

// types of the static files; a file of any other kind is not given out.
var staticTypes = map[string]string{".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".svg": "image/svg+xml", ".png": "image/png"}

func (s *Server) showStatic(w http.ResponseWriter, r *http.Request) error {
	file := r.PathValue("file")
	b, err := staticFiles.ReadFile("static/" + file)
	kind := staticTypes[path.Ext(file)]
	if err != nil || kind == "" {
		return core.Errorf(core.NotFound, "load the page again", "no such file")
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
	_, err = w.Write(b)
	return err
}

// showWorker gives the script that answers without a signal. It must stand at the root to answer for every page (Service Workers, W3C).
func (s *Server) showWorker(w http.ResponseWriter, _ *http.Request) error {
	b, err := staticFiles.ReadFile("static/worker.js")
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", staticTypes[".js"])
	w.Header().Set("Cache-Control", "no-cache")
	_, err = w.Write(append([]byte("const version = \""+staticVersion+"\";\n"), b...))
	return err
}

// showManifest lets a phone keep the bench as a program of its own (Web Application Manifest, W3C).
func (s *Server) showManifest(w http.ResponseWriter, _ *http.Request) error {
	type icon struct {
		Source string `json:"src"`
		Sizes  string `json:"sizes"`
		Type   string `json:"type"`
	}
	w.Header().Set("Content-Type", "application/manifest+json")
	return json.NewEncoder(w).Encode(struct {
		Name    string `json:"name"`
		Short   string `json:"short_name"`
		Start   string `json:"start_url"`
		Display string `json:"display"`
		Back    string `json:"background_color"`
		Theme   string `json:"theme_color"`
		Icons   []icon `json:"icons"`
	}{s.Name, "fettle", "/", "standalone", "#ffffff", "#6e2a12", []icon{{"/static/" + staticVersion + "/icon.svg", "any", "image/svg+xml"}}})
}

// offlinePage stands where a page was never seen on this device and there is no signal.
type offlinePage struct{ frame }

func (s *Server) showOffline(w http.ResponseWriter, r *http.Request) error {
	return s.show(w, http.StatusOK, "offline", offlinePage{s.frame(r, "No signal")})
}
