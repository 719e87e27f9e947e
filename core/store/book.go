package store

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// The names in a shop folder.
const (
	BookFile  = "book.db"
	PhotosDir = "photos"
	PapersDir = "papers"
)

// readers is how many connections read at a time.
const readers = 4

// Clock gives the time now; tests and demonstrations give their own.
type Clock func() time.Time

// Book is an open shop's book. It may be used by many goroutines at once.
type Book struct {
	dir   string
	path  string
	clock Clock
	write *sql.DB // one connection
	read  *sql.DB
}

// Create makes the folders of a shop in dir and an empty book, and opens it. It is a Conflict if there is a book
// already.
func Create(ctx context.Context, dir string, clock Clock) (*Book, error) {
	for _, d := range []string{dir, filepath.Join(dir, PhotosDir), filepath.Join(dir, PapersDir)} {
		if err := os.MkdirAll(d, 0o755); err != nil {
			return nil, folderError(dir, err)
		}
	}
	path := filepath.Join(dir, BookFile)
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	if errors.Is(err, fs.ErrExist) {
		e := core.Errorf(core.Conflict, "use it as it is, or choose another folder", "there is a shop's book already")
		e.Where = path
		return nil, e
	}
	if err != nil {
		return nil, folderError(dir, err)
	}
	if err := f.Close(); err != nil {
		return nil, folderError(dir, err)
	}
	b, err := open(ctx, dir, clock)
	if err != nil {
		return nil, err
	}
	return b, syncDir(dir)
}

// Open opens the book of the shop in dir, and brings a book of an older program up to date. It is NotFound if there
// is none, Newer if a newer program wrote it, Invalid if the file is no book.
func Open(ctx context.Context, dir string, clock Clock) (*Book, error) {
	path := filepath.Join(dir, BookFile)
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		e := core.Errorf(core.NotFound, "go to the shop folder, name it with -C DIR, or make one with: fettle new", "there is no shop's book here")
		e.Where = path
		return nil, e
	}
	return open(ctx, dir, clock)
}

func open(ctx context.Context, dir string, clock Clock) (*Book, error) {
	path := filepath.Join(dir, BookFile)
	b := &Book{dir: dir, path: path, clock: clock}
	write, err := sql.Open("sqlite", dsn(path, "immediate", ""))
	if err != nil {
		return nil, b.fault(err)
	}
	write.SetMaxOpenConns(1)
	b.write = write
	if err := b.migrate(ctx); err != nil {
		return nil, errors.Join(err, write.Close())
	}
	if b.read, err = sql.Open("sqlite", dsn(path, "deferred", "query_only(1)")); err != nil {
		return nil, errors.Join(b.fault(err), write.Close())
	}
	b.read.SetMaxOpenConns(readers)
	b.read.SetMaxIdleConns(readers)
	return b, nil
}

// dsn names the file and sets what every connection must have: a PRAGMA by Exec would reach one pooled connection
// only. Transactions that write begin as such, because one that reads first fails with BUSY in spite of the timeout.
func dsn(path, lock, more string) string {
	q := url.Values{"_txlock": {lock}, "mode": {"rw"}, "_pragma": {"busy_timeout(10000)", "journal_mode(WAL)",
		"synchronous(FULL)", "foreign_keys(1)"}}
	if more != "" {
		q["_pragma"] = append(q["_pragma"], more)
	}
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path // a drive letter: file:///C:/shop/book.db
	}
	return "file://" + (&url.URL{Path: path}).EscapedPath() + "?" + q.Encode()
}

// Dir is the shop folder.
func (b *Book) Dir() string { return b.dir }

// Close ends the use of the book.
func (b *Book) Close() error { return errors.Join(b.read.Close(), b.write.Close()) }

// writing runs f in one transaction that is on the disk when writing returns nil, and leaves nothing otherwise.
func (b *Book) writing(ctx context.Context, f func(*sql.Tx) error) error {
	return b.fault(within(ctx, b.write, f))
}

// reading runs f on one snapshot of the book.
func (b *Book) reading(ctx context.Context, f func(*sql.Tx) error) error {
	return b.fault(within(ctx, b.read, f))
}

func within(ctx context.Context, db *sql.DB, f func(*sql.Tx) error) error {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	if err := f(tx); err != nil {
		return errors.Join(err, ignoreDone(tx.Rollback()))
	}
	return tx.Commit()
}

// ignoreDone drops the complaint of a rollback that an ended context has made already.
func ignoreDone(err error) error {
	if errors.Is(err, sql.ErrTxDone) {
		return nil
	}
	return err
}

func folderError(dir string, err error) error {
	e := core.Errorf(core.Unavailable, "choose a folder that may be written to", "the shop folder cannot be made")
	e.Where, e.Err = dir, err
	return e
}

// syncDir puts a folder's new names on the disk.
func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return folderError(dir, err)
	}
	defer d.Close()
	if err := d.Sync(); err != nil && !errors.Is(err, errors.ErrUnsupported) && !errors.Is(err, fs.ErrInvalid) && !errors.Is(err, fs.ErrPermission) {
		return folderError(dir, err)
	}
	return nil
}
