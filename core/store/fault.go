package store

import (
	"context"
	"errors"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"github.com/fettle-tools/fettle/core"
)

// fault turns a failure of the driver into a core.Error, by its result code and never by its text. Errors that are
// already core's, and a context's end, pass as they are.
func (b *Book) fault(err error) error {
	var known *core.Error
	if err == nil || errors.As(err, &known) || errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	e := core.Errorf(core.Internal, "look in the log; if it stays, restore the latest backup", "the book could not be read or written")
	var s *sqlite.Error
	if errors.As(err, &s) {
		e = described(s.Code())
	}
	e.Where, e.Err = b.path, err
	return e
}

// described says in words what an SQLite result code means for the book. The low byte is the primary code, see
// https://www.sqlite.org/rescode.html.
func described(code int) *core.Error {
	switch code {
	case sqlite3.SQLITE_CONSTRAINT_UNIQUE, sqlite3.SQLITE_CONSTRAINT_PRIMARYKEY:
		return core.Errorf(core.Conflict, "list what is there and use another number", "the book already has this")
	case sqlite3.SQLITE_CONSTRAINT_FOREIGNKEY, sqlite3.SQLITE_CONSTRAINT_TRIGGER:
		return core.Errorf(core.Conflict, "supersede only an earlier entry of the same job", "the book refuses this entry")
	}
	switch code & 0xff {
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		return core.Errorf(core.Unavailable, "try again; if it stays, close the other program", "another program is writing in the book")
	case sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB:
		return core.Errorf(core.Invalid, "restore the latest backup", "the file is damaged or is not a shop's book")
	case sqlite3.SQLITE_FULL:
		return core.Errorf(core.Unavailable, "make room on the disk; nothing of this was kept", "the disk is full")
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_IOERR:
		return core.Errorf(core.Unavailable, "check that the shop folder is there and may be written to", "the book cannot be opened or written")
	}
	return core.Errorf(core.Internal, "look in the log; if it stays, restore the latest backup", "the book could not be read or written")
}
