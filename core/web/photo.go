package web

import (
	"context"
	"errors"
	"io"
	"net/http"
	"regexp"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/paper"
)

// Photos keeps pictures of jobs.
type Photos interface {
	// KeepPhoto keeps a picture with what it is of, and gives the number of the tag it belongs to, or "". What was sent under the same id before is
	// taken already.
	KeepPhoto(ctx context.Context, job string, said PhotoSaid) (tag string, err error)
	// OpenPhoto gives a picture of the book by its hash, with the ending of its file, ".jpg"; the caller closes it. It is NotFound for any other.
	OpenPhoto(ctx context.Context, sum string) (r io.ReadCloser, ext string, err error)
}

// PhotoSaid is a picture as it is kept, and what it is of: at least one of tag, finding, view and mark.
type PhotoSaid struct {
	ID      string // made on the device; "" without one
	By      string
	Tag     string // its number, or the id under which a device sent it
	Finding string // its id, or the part found on
	Of      string // a view of the as-found list; beside the others its title
	Mark    string // what it stands on, then where
	JPEG    []byte
}

// mostPhoto is the most that one photograph may bring; a device makes it smaller before it sends it, where it can.
const mostPhoto = 24 << 20

// bringsPhoto reports whether a request may bring as much as a photograph.
func bringsPhoto(r *http.Request) bool {
	return r.Method == http.MethodPost && strings.HasPrefix(r.URL.Path, "/jobs/") && strings.HasSuffix(r.URL.Path, "/photos")
}

// takePhoto keeps a photograph: read, turned upright, made anew without what the camera wrote beside it.
func (s *Server) takePhoto(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseMultipartForm(mostPhoto); err != nil {
		var tooLarge *http.MaxBytesError
		if errors.As(err, &tooLarge) {
			return core.Errorf(core.Invalid, "take it with fewer points", "a photograph of more than %d MB is not taken", mostPhoto>>20)
		}
		return core.Errorf(core.Invalid, "take it again", "the photograph did not come whole")
	}
	id, err := formID(r)
	if err != nil {
		return err
	}
	f, _, err := r.FormFile("photo")
	if err != nil {
		return core.Errorf(core.Invalid, "take one, or choose one", "no photograph came with it")
	}
	defer func() { _ = f.Close() }()
	raw, err := io.ReadAll(f)
	if err != nil {
		return err
	}
	said := PhotoSaid{ID: id, By: s.byWhom(r), Tag: strings.TrimSpace(r.FormValue("tag")), Finding: r.FormValue("finding"), Of: r.FormValue("of"), Mark: r.FormValue("mark")}
	if said.JPEG, err = s.remade(r.Context(), raw, paper.Kept); err != nil {
		return core.Errorf(core.Invalid, core.ErrorNext(err), "the photograph cannot be kept: %s", err.Error())
	}
	tag, err := s.Photos.KeepPhoto(r.Context(), r.PathValue("job"), said)
	if err != nil {
		return err
	}
	if tag != "" {
		return went(w, r, "/tags/"+tag)
	}
	return went(w, r, "/jobs/"+r.PathValue("job"))
}

// remade makes photographs anew, one at a time: each takes as much memory as all its points.
func (s *Server) remade(ctx context.Context, raw []byte, how func([]byte) ([]byte, error)) ([]byte, error) {
	select {
	case s.darkroom <- struct{}{}:
		defer func() { <-s.darkroom }()
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	return how(raw)
}

// photoTypes are the pictures that a page shows.
var photoTypes = map[string]string{".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".png": "image/png"}

var photoSum = regexp.MustCompile(`^[0-9a-f]{64}$`)

// showPhoto gives a picture as it is kept.
func (s *Server) showPhoto(w http.ResponseWriter, r *http.Request) error { return s.photo(w, r, nil) }

// showSmallPhoto gives a picture small enough to stand beside others.
func (s *Server) showSmallPhoto(w http.ResponseWriter, r *http.Request) error {
	return s.photo(w, r, paper.Shown)
}

func (s *Server) photo(w http.ResponseWriter, r *http.Request, how func([]byte) ([]byte, error)) error {
	sum := r.PathValue("sum")
	if !photoSum.MatchString(sum) {
		return core.Errorf(core.NotFound, "see the tag that it was of", "no picture has this address")
	}
	f, ext, err := s.Photos.OpenPhoto(r.Context(), sum)
	if err != nil {
		return err
	}
	defer func() { _ = f.Close() }()
	kind, ok := photoTypes[ext]
	if !ok {
		return core.Errorf(core.NotFound, "open it from the photos folder of the shop", "a picture ending in %s is not shown here", ext)
	}
	raw, err := io.ReadAll(io.LimitReader(f, mostPhoto+1))
	if err != nil {
		return err
	}
	if how != nil {
		if raw, err = s.remade(r.Context(), raw, how); err != nil {
			return err
		}
		kind = "image/jpeg"
	}
	// The address is the hash of what is there: it never changes.
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Cache-Control", "private, max-age=31536000, immutable")
	_, err = w.Write(raw)
	return err
}
