package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"io/fs"
	"time"

	"github.com/pressly/goose/v3"

	"github.com/fettle-tools/fettle/core"
)

//go:embed migrations/*.sql
var migrations embed.FS

// Schema is the version of the book that this program reads and writes: the number of the last migration, which
// each migration writes to user_version.
const Schema = 4

// applicationID marks the file as a shop's book ("ftll" in ASCII).
const applicationID = 1718905964

// tries is how often a migration is tried while another process may be doing the same.
const tries = 20

// migrate brings the book up to Schema. A book that is up to date costs one small query: goose is not asked.
func (b *Book) migrate(ctx context.Context) error {
	var last error
	for range tries {
		version, err := b.version(ctx)
		switch {
		case core.ErrorCode(err) == core.Unavailable: // another process is just making it
			last = err
		case err != nil:
			return err
		case version == Schema:
			return nil
		case version > Schema:
			return newer(b.path, version)
		default:
			if last = b.up(ctx); last == nil {
				continue
			}
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(50 * time.Millisecond):
		}
	}
	if last == nil {
		last = errors.New("the migrations do not reach the schema")
	}
	return b.fault(last)
}

// header is what the file says of itself.
type header struct{ version, application, tables int }

func (h header) foreign() bool {
	return h.application != applicationID && (h.tables > 0 || h.version > 0)
}

// querier is a connection or a transaction.
type querier interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

func readHeader(ctx context.Context, q querier) (h header, err error) {
	err = q.QueryRowContext(ctx, `SELECT user_version, application_id, (SELECT count(*) FROM sqlite_schema WHERE name NOT LIKE 'goose%' AND name NOT LIKE 'sqlite%')
		FROM pragma_user_version, pragma_application_id`).Scan(&h.version, &h.application, &h.tables)
	return h, err
}

// version is the schema of the file; 0 for an empty one. The pragmas and the list of tables may be read on either side of another process's
// migration, so a file that seems to be no book is read again within a transaction, which waits for the other.
func (b *Book) version(ctx context.Context) (int, error) {
	h, err := readHeader(ctx, b.write)
	if err == nil && h.foreign() {
		err = within(ctx, b.write, func(tx *sql.Tx) error {
			h, err = readHeader(ctx, tx)
			return err
		})
	}
	if err != nil {
		return 0, b.fault(err)
	}
	if h.foreign() {
		e := core.Errorf(core.Invalid, "name the right shop folder, or restore a backup", "the file is a database, but no shop's book")
		e.Where = b.path
		return 0, e
	}
	return h.version, nil
}

// up applies the migrations that the file lacks, each in a transaction of its own.
func (b *Book) up(ctx context.Context) error {
	files, err := fs.Sub(migrations, "migrations")
	if err != nil {
		return err
	}
	p, err := goose.NewProvider(goose.DialectSQLite3, b.write, files, goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return err
	}
	_, err = p.Up(ctx)
	return err
}

func newer(where string, version int) error {
	e := core.Errorf(core.Newer, "use the newer program; this one would not understand what it wrote",
		"written by a newer program (schema %d, this program knows %d)", version, Schema)
	e.Where = where
	return e
}
