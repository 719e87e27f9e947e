package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"strings"
	"time"
	"unicode"

	"github.com/fettle-tools/fettle/core"
)

// Entry is one line of the book. It is never changed.
type Entry struct {
	Seq        int64           `json:"seq,omitempty"` // order of arrival; the book's to give
	ID         string          `json:"id"`            // "" when added: a UUIDv7 of the time of adding
	Job        string          `json:"job"`           // the job's number; "" for what belongs to the shop
	Kind       string          `json:"kind"`          // one of the Kind constants, or another word
	At         time.Time       `json:"at"`            // UTC; zero when added: now
	By         string          `json:"by"`
	Batch      string          `json:"batch"` // "" when added: one for all of the call
	Body       json.RawMessage `json:"body"`  // its shape is the kind's
	Supersedes []string        `json:"supersedes,omitempty"`
}

// The kinds of entry that this package reads.
const (
	KindJob      = "job"        // core.Job as opened
	KindTitle    = "title"      // text
	KindOwner    = "owner"      // core.Party
	KindVehicle  = "vehicle"    // core.Vehicle
	KindUnit     = "unit"       // core.Unit, by its id
	KindBrief    = "brief"      // core.Brief
	KindExtent   = "extent"     // core.Extent
	KindPin      = "pin"        // core.Pin, by its place; without a remedy it is taken out
	KindLeft     = "left"       // core.Left, by its place; without a reason it is taken out
	KindState    = "state"      // text
	KindOverride = "override"   // core.SubsystemOverride, by its check; without a source it is taken out
	KindFinding  = "finding"    // core.Finding
	KindPrice    = "price"      // core.PriceEntry; of the shop
	KindPaper    = "paper"      // Paper without its bytes
	KindPhoto    = "photo"      // Photo
	KindUndo     = "undo"       // text: what was taken back
	KindRedo     = "redo"       // text: what was brought back
	KindPayer    = "payer"      // []core.Payer: all of them
	KindStages   = "stages"     // []core.StageShare: all of them
	KindSpeaker  = "speaker"    // []string: all of them
	KindLabour   = "labour"     // core.Labour, by its subsystem; without a name it is taken out
	KindMoved    = "moved"      // core.Transplant, by where it goes; without a place it came from it is taken out
	KindParty    = "party"      // core.Party, by its name; of the shop
	KindZero     = "zero check" // core.ZeroCheck, the last of each instrument; of the shop
)

// timeLayout is RFC 3339 with all nine digits, so that times sort as text.
const timeLayout = "2006-01-02T15:04:05.000000000Z"

// Append adds entries in one transaction, in the order given, and says how many were new: an entry whose id the book
// has already is left as it is. An entry may supersede earlier ones of its job, also ones of the same call. Without
// an error everything is on the disk; with one nothing was added. Errors: Invalid for an entry without a kind or with
// a body that is no JSON, NotFound for a job that was never opened, Conflict for a number that is taken or for
// superseding what is not there.
func (b *Book) Append(ctx context.Context, entries ...Entry) (added int, err error) {
	err = b.writing(ctx, func(tx *sql.Tx) error {
		fresh, err := b.insert(ctx, tx, entries)
		for _, f := range fresh {
			if f {
				added++
			}
		}
		return err
	})
	if err != nil {
		return 0, err
	}
	return added, nil
}

// insert adds entries within a transaction and tells which were new. It fills in what the entries leave out.
func (b *Book) insert(ctx context.Context, tx *sql.Tx, entries []Entry) ([]bool, error) {
	if len(entries) == 0 {
		return nil, nil
	}
	line, err := tx.PrepareContext(ctx, `INSERT INTO entries (id, job, kind, at, "by", batch, body) VALUES (?,?,?,?,?,?,?) ON CONFLICT (id) DO NOTHING`)
	if err != nil {
		return nil, err
	}
	defer line.Close()
	edge, err := tx.PrepareContext(ctx, `INSERT INTO supersedes (entry, superseded) VALUES (?,?) ON CONFLICT DO NOTHING`)
	if err != nil {
		return nil, err
	}
	defer edge.Close()
	now := b.clock().UTC()
	batch := newID(now)
	opened := map[string]bool{"": true}
	fresh := make([]bool, len(entries))
	var before int64
	if err := tx.QueryRowContext(ctx, `SELECT coalesce(max(seq), 0) FROM entries`).Scan(&before); err != nil {
		return nil, err
	}
	for i := range entries {
		e := &entries[i]
		e.fill(now, batch)
		if err := e.check(); err != nil {
			return nil, err
		}
		if err := jobThere(ctx, tx, e, opened); err != nil {
			return nil, err
		}
		r, err := line.ExecContext(ctx, e.ID, e.Job, e.Kind, e.At.UTC().Format(timeLayout), e.By, e.Batch, string(e.Body))
		if err != nil {
			return nil, err
		}
		n, err := r.RowsAffected()
		if err != nil {
			return nil, err
		}
		if fresh[i] = n > 0; !fresh[i] {
			continue
		}
		if err := claim(ctx, tx, e); err != nil {
			return nil, err
		}
		for _, s := range e.Supersedes {
			if _, err := edge.ExecContext(ctx, e.ID, s); err != nil {
				return nil, err
			}
		}
	}
	return fresh, keepWords(ctx, tx, before)
}

func (e *Entry) fill(now time.Time, batch string) {
	if e.At.IsZero() {
		e.At = now
	}
	if e.ID == "" {
		e.ID = newID(now)
	}
	if e.Batch == "" {
		e.Batch = batch
	}
	if e.Body == nil {
		e.Body = json.RawMessage("{}")
	}
}

func (e *Entry) check() error {
	plain := func(s string) bool { return !strings.ContainsFunc(s, unicode.IsSpace) }
	switch {
	case e.Kind == "":
		return core.Errorf(core.Invalid, "give the entry a kind", "an entry has no kind")
	case !plain(e.ID) || !plain(e.Batch):
		return core.Errorf(core.Invalid, "leave the id to the book", "%q is no id of an entry", e.ID)
	case !json.Valid(e.Body):
		return core.Errorf(core.Invalid, "give a body that is JSON", "the body of a %s entry is no JSON", e.Kind)
	}
	return nil
}

// jobThere checks that the entry's job was opened, in the book or earlier in the call.
func jobThere(ctx context.Context, tx *sql.Tx, e *Entry, opened map[string]bool) error {
	if e.Kind == KindJob {
		opened[e.Job] = true
	}
	if opened[e.Job] {
		return nil
	}
	var n int
	if err := tx.QueryRowContext(ctx, `SELECT count(*) FROM entries WHERE job = ? AND kind = 'job'`, e.Job).Scan(&n); err != nil {
		return err
	}
	if n == 0 {
		return noJob(e.Job)
	}
	opened[e.Job] = true
	return nil
}

func noJob(number string) error {
	return core.Errorf(core.NotFound, "list the jobs with: fettle job list", "there is no job %q in the book", number)
}

// Changed is a number that is larger after every change of the book, by whatever program.
func (b *Book) Changed(ctx context.Context) (n int64, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		return tx.QueryRowContext(ctx, `SELECT COALESCE(MAX(seq), 0) FROM entries`).Scan(&n)
	})
	return n, err
}

// Entries gives all entries of a job ("" for the shop's own) in order of arrival, live or not.
func (b *Book) Entries(ctx context.Context, job string) (es []Entry, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		es, err = entriesOf(ctx, tx, job)
		return err
	})
	return es, err
}

// entriesOf reads a job's entries, of the kinds named or of all.
func entriesOf(ctx context.Context, tx *sql.Tx, job string, kinds ...string) ([]Entry, error) {
	where, args := "e.job = ?", []any{job}
	if len(kinds) > 0 {
		where += " AND e.kind IN (?" + strings.Repeat(",?", len(kinds)-1) + ")"
		for _, k := range kinds {
			args = append(args, k)
		}
	}
	rows, err := tx.QueryContext(ctx, `SELECT e.seq, e.id, e.job, e.kind, e.at, e."by", e.batch, e.body,
		(SELECT group_concat(s.superseded, ' ') FROM supersedes s WHERE s.entry = e.id)
		FROM entries e WHERE `+where+` ORDER BY e.seq`, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	es := []Entry{}
	for rows.Next() {
		var e Entry
		var at, body string
		var supersedes sql.NullString
		if err := rows.Scan(&e.Seq, &e.ID, &e.Job, &e.Kind, &at, &e.By, &e.Batch, &body, &supersedes); err != nil {
			return nil, err
		}
		if e.At, err = time.Parse(timeLayout, at); err != nil {
			return nil, fmt.Errorf("entry %s: %w", e.ID, err)
		}
		e.Body = json.RawMessage(body)
		if supersedes.Valid {
			e.Supersedes = strings.Fields(supersedes.String)
		}
		es = append(es, e)
	}
	return es, rows.Err()
}
