package store

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/fettle-tools/fettle/core"
)

// Backup writes a whole copy of the book to the file to, while others read and write. The copy is one moment's state,
// is on the disk when Backup returns, and is itself a book. Pictures are files and are copied as such. It is a
// Conflict if the file is there already.
func (b *Book) Backup(ctx context.Context, to string) error {
	if _, err := os.Lstat(to); !errors.Is(err, fs.ErrNotExist) {
		e := core.Errorf(core.Conflict, "choose a new name for the backup", "the file is there already")
		e.Where = to
		return e
	}
	partial := to + ".partial"
	if err := os.Remove(partial); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return folderError(to, err)
	}
	if _, err := b.write.ExecContext(ctx, `VACUUM INTO ?`, partial); err != nil {
		return errors.Join(b.fault(err), ignoreMissing(os.Remove(partial)))
	}
	return settle(partial, to)
}

// Restore makes the book of the shop in dir from a backup. It is a Conflict if dir has a book: nothing is written
// over. It is Invalid if the backup is damaged or no book, Newer if a newer program wrote it.
func Restore(ctx context.Context, backup, dir string, clock Clock) (b *Book, err error) {
	to := filepath.Join(dir, BookFile)
	if _, err := os.Lstat(to); !errors.Is(err, fs.ErrNotExist) {
		e := core.Errorf(core.Conflict, "move the book that is there out of the way first", "there is a shop's book already")
		e.Where = to
		return nil, e
	}
	for _, d := range []string{dir, filepath.Join(dir, PhotosDir), filepath.Join(dir, PapersDir)} {
		if err := os.MkdirAll(d, 0o755); err != nil {
			return nil, folderError(dir, err)
		}
	}
	// The copy is made and looked at in a folder of its own, so that a bad backup leaves no book behind.
	trial, err := os.MkdirTemp(dir, ".restore-*")
	if err != nil {
		return nil, folderError(dir, err)
	}
	defer os.RemoveAll(trial)
	copied := filepath.Join(trial, BookFile)
	if err := copyFile(backup, copied); err != nil {
		return nil, err
	}
	t, err := Open(ctx, trial, clock)
	if err != nil {
		return nil, err
	}
	if err := errors.Join(t.sound(ctx), t.Close()); err != nil {
		return nil, err
	}
	if err := settle(copied, to); err != nil {
		return nil, err
	}
	return Open(ctx, dir, clock)
}

// sound has SQLite read every page and check it.
func (b *Book) sound(ctx context.Context) error {
	var answer string
	if err := b.write.QueryRowContext(ctx, `PRAGMA integrity_check(1)`).Scan(&answer); err != nil {
		return b.fault(err)
	}
	if answer != "ok" {
		e := core.Errorf(core.Invalid, "use another backup", "the backup is damaged: %s", answer)
		e.Where = b.path
		return e
	}
	return nil
}

func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		e := core.Errorf(core.NotFound, "name the backup file", "the backup cannot be read")
		e.Where, e.Err = from, err
		return e
	}
	defer in.Close()
	out, err := os.Create(to)
	if err != nil {
		return folderError(to, err)
	}
	_, err = io.Copy(out, in)
	if err := errors.Join(err, out.Close()); err != nil {
		return folderError(to, err)
	}
	return nil
}

// settle puts a finished file on the disk and gives it its name.
func settle(partial, to string) error {
	f, err := os.OpenFile(partial, os.O_RDWR, 0)
	if err != nil {
		return folderError(to, err)
	}
	if err := errors.Join(f.Sync(), f.Close(), os.Rename(partial, to)); err != nil {
		return folderError(to, err)
	}
	return syncDir(filepath.Dir(to))
}

func ignoreMissing(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}
