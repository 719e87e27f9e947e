package store

import (
	"context"
	"database/sql"
	"encoding/json"

	"github.com/fettle-tools/fettle/core"
)

// Together is what goes into the book in one batch with acts: one undo takes it all back.
type Together struct {
	Change   Change
	Findings []core.Finding
	Photos   []Photo // kept already: see KeepPhoto
	// Batch is an id made where it was written down, so that what is sent twice is taken once; "" is the book's to give.
	Batch string
}

// entries writes it as entries of a job. Findings get the id and the time they lack.
func (t Together) entries(b *Book, job, by string) ([]Entry, error) {
	es, err := t.Change.entries(job, by)
	if err != nil {
		return nil, err
	}
	for _, f := range b.complete(t.Findings) {
		body, err := json.Marshal(f)
		if err != nil {
			return nil, err
		}
		es = append(es, Entry{ID: f.ID, Job: job, Kind: KindFinding, By: f.By, Body: body, Supersedes: f.Supersedes})
	}
	for _, p := range t.Photos {
		body, err := json.Marshal(p)
		if err != nil {
			return nil, err
		}
		es = append(es, Entry{Job: job, Kind: KindPhoto, By: by, Body: body})
	}
	return es, nil
}

// ActTogether is Act with changes, findings and pictures in the same batch, before the acts. A batch that the job has already is left as it is,
// also if it was taken back since. Errors are those of Act, ChangeJob and AddFindings; with one nothing was added.
func (b *Book) ActTogether(ctx context.Context, job, by string, t Together, acts ...core.Act) (s core.Story, err error) {
	es, err := t.entries(b, job, by)
	if err != nil {
		return s, err
	}
	err = b.writing(ctx, func(tx *sql.Tx) error {
		if s, err = storyOf(ctx, tx, job); err != nil {
			return err
		}
		if there, err := hasBatch(ctx, tx, job, t.Batch); err != nil || there {
			return err
		}
		done, err := doAll(ctx, tx, &s, core.Stamp{By: by, At: b.clock().UTC()}, acts)
		if err != nil {
			return err
		}
		all := append(es, done...)
		for i := range all {
			all[i].Batch = t.Batch
		}
		if _, err = b.insert(ctx, tx, all); err != nil {
			return err
		}
		s, err = storyOf(ctx, tx, job)
		return err
	})
	return s, err
}

// hasBatch reports whether a job has entries that were added together under an id.
func hasBatch(ctx context.Context, tx *sql.Tx, job, batch string) (there bool, err error) {
	if batch == "" {
		return false, nil
	}
	err = tx.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM entries WHERE job = ? AND batch = ?)`, job, batch).Scan(&there)
	return there, err
}

// Batch gives the acts that were added to a job together under an id, live or not, in order of arrival. Without such a batch there is false.
func (b *Book) Batch(ctx context.Context, job, batch string) (acts []core.Act, there bool, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		if there, err = hasBatch(ctx, tx, job, batch); err != nil || !there {
			return err
		}
		rows, err := tx.QueryContext(ctx, `SELECT kind, body FROM entries WHERE job = ? AND batch = ? ORDER BY seq`, job, batch)
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var kind, body string
			if err := rows.Scan(&kind, &body); err != nil {
				return err
			}
			if !core.IsAct(kind) {
				continue
			}
			a, err := core.DecodeAct(kind, []byte(body))
			if err != nil {
				return err
			}
			acts = append(acts, a)
		}
		return rows.Err()
	})
	return acts, there, err
}
