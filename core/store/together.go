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

// ActTogether is Act with changes, findings and pictures in the same batch, before the acts. Errors are those of Act, ChangeJob and AddFindings;
// with one nothing was added.
func (b *Book) ActTogether(ctx context.Context, job, by string, t Together, acts ...core.Act) (s core.Story, err error) {
	es, err := t.entries(b, job, by)
	if err != nil {
		return s, err
	}
	err = b.writing(ctx, func(tx *sql.Tx) error {
		if s, err = storyOf(ctx, tx, job); err != nil {
			return err
		}
		done, err := doAll(ctx, tx, &s, core.Stamp{By: by, At: b.clock().UTC()}, acts)
		if err != nil {
			return err
		}
		if _, err = b.insert(ctx, tx, append(es, done...)); err != nil {
			return err
		}
		s, err = storyOf(ctx, tx, job)
		return err
	})
	return s, err
}
