package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// Paper is one issued paper in one medium. It is frozen: numbered, hashed, kept with its bytes.
type Paper struct {
	Job      string          `json:"job"`      // the job's number
	Kind     string          `json:"kind"`     // scope, work order ...
	Number   string          `json:"number"`   // as printed; one number may have several revisions
	Revision int             `json:"revision"` // from 1
	Media    string          `json:"media"`    // MIME type; "" when issued: application/pdf
	SHA256   string          `json:"sha256"`   // of the bytes, in hexadecimal; the book's to give
	Inputs   json.RawMessage `json:"inputs,omitempty"`
	By       string          `json:"-"`
	At       time.Time       `json:"-"` // UTC
	Bytes    []byte          `json:"-"` // nil in a list
}

// NextRevision is the revision that the number would be issued in next: 1 if it never was.
func (b *Book) NextRevision(ctx context.Context, number string) (n int, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		return tx.QueryRowContext(ctx, `SELECT coalesce(max(revision), 0) + 1 FROM papers WHERE number = ?`, number).Scan(&n)
	})
	return n, err
}

// Issue keeps papers as issued, all or none, and gives them with their hash and time. Papers of one number and
// revision in several media are issued in one call. It is a Conflict if a number and revision was issued before.
func (b *Book) Issue(ctx context.Context, by string, papers ...Paper) ([]Paper, error) {
	issued := make([]Paper, len(papers))
	err := b.writing(ctx, func(tx *sql.Tx) error {
		for _, p := range papers {
			var n int
			err := tx.QueryRowContext(ctx, `SELECT count(*) FROM papers WHERE number = ? AND revision = ?`, p.Number, p.Revision).Scan(&n)
			if err != nil {
				return err
			}
			if n > 0 {
				return core.Errorf(core.Conflict, "issue the next revision", "%s revision %d was issued already and is frozen", p.Number, p.Revision)
			}
		}
		now, batch := b.clock().UTC(), ""
		for i, p := range papers {
			p.By, p.At = by, now
			e, err := p.entry(now, batch)
			if err != nil {
				return err
			}
			batch = e.Batch
			if err := b.insertPaper(ctx, tx, e, &p); err != nil {
				return err
			}
			issued[i] = p
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return issued, nil
}

// entry checks a paper, hashes it and gives its entry.
func (p *Paper) entry(now time.Time, batch string) (Entry, error) {
	if p.Job == "" || p.Kind == "" || p.Number == "" || p.Revision < 1 || len(p.Bytes) == 0 {
		return Entry{}, core.Errorf(core.Invalid, "give job, kind, number, a revision from 1 and the bytes", "the paper %q is not complete", p.Number)
	}
	if p.Media == "" {
		p.Media = "application/pdf"
	}
	if len(p.Inputs) > 0 && !json.Valid(p.Inputs) {
		return Entry{}, core.Errorf(core.Invalid, "give the inputs as JSON", "the inputs of paper %s are no JSON", p.Number)
	}
	p.SHA256 = hash(p.Bytes)
	body, err := json.Marshal(p)
	if err != nil {
		return Entry{}, err
	}
	id := newID(now)
	if batch == "" {
		batch = id
	}
	return Entry{ID: id, Job: p.Job, Kind: KindPaper, At: now, By: p.By, Batch: batch, Body: body}, nil
}

func (b *Book) insertPaper(ctx context.Context, tx *sql.Tx, e Entry, p *Paper) error {
	fresh, err := b.insert(ctx, tx, []Entry{e})
	if err != nil || !fresh[0] {
		return err
	}
	return keepBytes(ctx, tx, e.ID, p, p.Bytes)
}

func keepBytes(ctx context.Context, tx *sql.Tx, entry string, p *Paper, content []byte) error {
	_, err := tx.ExecContext(ctx, `INSERT INTO papers (entry, number, revision, media, sha256, bytes) VALUES (?,?,?,?,?,?)`,
		entry, p.Number, p.Revision, p.Media, p.SHA256, content)
	return err
}

func hash(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// Papers lists what was issued for a job, in the order of issue, without the bytes.
func (b *Book) Papers(ctx context.Context, job string) (ps []Paper, err error) {
	ps = []Paper{}
	err = b.reading(ctx, func(tx *sql.Tx) error {
		es, err := entriesOf(ctx, tx, job, KindPaper)
		if err != nil {
			return err
		}
		if ps, err = decodeAll[Paper](es); err != nil {
			return err
		}
		for i, e := range es {
			ps[i].By, ps[i].At = e.By, e.At
		}
		return nil
	})
	return ps, err
}

// Paper gives an issued paper with its bytes as issued. media "" means application/pdf. It is NotFound if it was
// never issued, Internal if the bytes no longer have the hash they were issued with.
func (b *Book) Paper(ctx context.Context, number string, revision int, media string) (p Paper, err error) {
	if media == "" {
		media = "application/pdf"
	}
	err = b.reading(ctx, func(tx *sql.Tx) error {
		p, err = paperOf(ctx, tx, `p.number = ? AND p.revision = ? AND p.media = ?`, number, revision, media)
		if errors.Is(err, sql.ErrNoRows) {
			return core.Errorf(core.NotFound, "list what was issued", "%s revision %d was never issued as %s", number, revision, media)
		}
		return err
	})
	return p, err
}

func paperOf(ctx context.Context, tx *sql.Tx, where string, args ...any) (p Paper, err error) {
	var at, body string
	var bytes []byte
	err = tx.QueryRowContext(ctx, `SELECT e.at, e."by", e.body, p.bytes FROM papers p JOIN entries e ON e.id = p.entry WHERE `+where, args...).
		Scan(&at, &p.By, &body, &bytes)
	if err != nil {
		return p, err
	}
	if err := json.Unmarshal([]byte(body), &p); err != nil {
		return p, fmt.Errorf("paper %v: %w", args, err)
	}
	p.Bytes = bytes
	if hash(bytes) != p.SHA256 {
		return p, core.Errorf(core.Internal, "restore the latest backup", "the bytes of paper %s are not those that were issued", p.Number)
	}
	p.At, err = time.Parse(timeLayout, at)
	return p, err
}

// Frozen is one issued paper in one medium, without what it was made from.
type Frozen struct {
	Kind     string
	Number   string
	Revision int
	Media    string
	SHA256   string // of the bytes, in hexadecimal
	Size     int    // of the bytes
	By       string
	At       time.Time // UTC
}

// Frozen lists what was issued for a job, in the order of issue. It reads no paper: a list of large ones is quick.
func (b *Book) Frozen(ctx context.Context, job string) (all []Frozen, err error) {
	all = []Frozen{}
	err = b.reading(ctx, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, `SELECT i.kind, p.number, p.revision, p.media, p.sha256, length(p.bytes), e."by", e.at
			FROM entries e JOIN papers p ON p.entry = e.id JOIN issued i ON i.job = e.job AND i.number = p.number AND i.revision = p.revision
			WHERE e.job = ? AND e.kind = ? ORDER BY e.seq`, job, KindPaper)
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var f Frozen
			var at string
			if err := rows.Scan(&f.Kind, &f.Number, &f.Revision, &f.Media, &f.SHA256, &f.Size, &f.By, &at); err != nil {
				return err
			}
			if f.At, err = time.Parse(timeLayout, at); err != nil {
				return err
			}
			all = append(all, f)
		}
		return rows.Err()
	})
	return all, err
}
