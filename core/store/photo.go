package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Photo is a picture of a job. Its bytes lie in the shop folder under the hash of its content.
type Photo struct {
	SHA256     string   `json:"sha256"`
	Ext        string   `json:"ext"` // with its dot, lower case: ".jpg"
	Title      string   `json:"title"`
	FindingIDs []string `json:"finding_ids,omitempty"`
}

// photoExt is what a picture's name may end in.
var photoExt = regexp.MustCompile(`^\.[a-z0-9]{1,8}$`)

// AddPhoto keeps a picture: its bytes on the disk first, then the entry. name gives the ending and, if there is no
// title, the title.
func (b *Book) AddPhoto(ctx context.Context, job, by, name string, p Photo, r io.Reader) (Photo, error) {
	p, err := b.KeepPhoto(name, p, r)
	if err != nil {
		return Photo{}, err
	}
	body, err := json.Marshal(p)
	if err != nil {
		return Photo{}, err
	}
	_, err = b.Append(ctx, Entry{Job: job, Kind: KindPhoto, By: by, Body: body})
	return p, err
}

// KeepPhoto writes a picture's bytes on the disk and fills in its hash, its ending and, if there is none, its title from name. The book
// knows of it once it is added: see ActTogether.
func (b *Book) KeepPhoto(name string, p Photo, r io.Reader) (Photo, error) {
	p.Ext = strings.ToLower(filepath.Ext(name))
	if !photoExt.MatchString(p.Ext) {
		return Photo{}, core.Errorf(core.Invalid, "give the file an ending like .jpg", "%q does not end like a picture", name)
	}
	if p.Title == "" {
		p.Title = strings.TrimSuffix(filepath.Base(name), filepath.Ext(name))
	}
	var err error
	p.SHA256, err = b.keep(p.Ext, r)
	return p, err
}

// keep writes bytes under their hash, whole or not at all.
func (b *Book) keep(ext string, r io.Reader) (sum string, err error) {
	root := filepath.Join(b.dir, PhotosDir)
	if err := os.MkdirAll(root, 0o755); err != nil {
		return "", folderError(root, err)
	}
	f, err := os.CreateTemp(root, ".new-*")
	if err != nil {
		return "", folderError(root, err)
	}
	defer os.Remove(f.Name())
	h := sha256.New()
	_, err = io.Copy(io.MultiWriter(f, h), r)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return "", folderError(root, err)
	}
	sum = hex.EncodeToString(h.Sum(nil))
	if err := os.Rename(f.Name(), filepath.Join(root, sum+ext)); err != nil {
		return "", folderError(root, err)
	}
	return sum, syncDir(root)
}

// Photos lists a job's pictures in order of arrival.
func (b *Book) Photos(ctx context.Context, job string) (ps []Photo, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		es, err := liveOf(ctx, tx, job, KindPhoto)
		if err != nil {
			return err
		}
		ps, err = decodeAll[Photo](es)
		return err
	})
	return ps, err
}

// Photo gives a picture of any job by its hash, as it was last written down. It is NotFound if no live entry has it.
func (b *Book) Photo(ctx context.Context, sum string) (p Photo, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		jobs, err := jobsWithPhoto(ctx, tx, sum)
		if err != nil {
			return err
		}
		for _, job := range jobs {
			es, err := liveOf(ctx, tx, job, KindPhoto)
			if err != nil {
				return err
			}
			ps, err := decodeAll[Photo](es)
			if err != nil {
				return err
			}
			for _, p = range slices.Backward(ps) {
				if p.SHA256 == sum {
					return nil
				}
			}
		}
		return core.Errorf(core.NotFound, "see the tag or the finding that it was of", "the book has no such picture")
	})
	return p, err
}

func jobsWithPhoto(ctx context.Context, tx *sql.Tx, sum string) (jobs []string, err error) {
	rows, err := tx.QueryContext(ctx, `SELECT DISTINCT job FROM entries WHERE kind = 'photo' AND json_extract(body, '$.sha256') = ?`, sum)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var job string
		if err := rows.Scan(&job); err != nil {
			return nil, err
		}
		jobs = append(jobs, job)
	}
	return jobs, rows.Err()
}

// OpenPhoto gives a picture's bytes; the caller closes it. It is NotFound if the file is not in the shop folder.
func (b *Book) OpenPhoto(p Photo) (io.ReadCloser, error) {
	path := filepath.Join(b.dir, PhotosDir, p.SHA256+p.Ext)
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		e := core.Errorf(core.NotFound, "copy it back from a backup of the photos folder", "the picture %q is not in the shop folder", p.Title)
		e.Where = path
		return nil, e
	}
	if err != nil {
		return nil, folderError(path, err)
	}
	return f, nil
}
