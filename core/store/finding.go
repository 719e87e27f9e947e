package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Added says what became of things added: ids in the order given.
type Added struct {
	New       []string // now in the book
	There     []string // already in the book, unchanged
	TakenBack []string // already in the book, but undone or superseded since: still so
}

// AddFindings adds findings to a job in one transaction and one batch. A finding without an id gets a UUIDv7; imported
// rows come with their ImportID, so that importing twice changes nothing. A finding whose note has the word "again",
// and that names nothing it supersedes, supersedes every live finding of the same check, station and place before it.
func (b *Book) AddFindings(ctx context.Context, job string, findings []core.Finding) (added Added, err error) {
	err = b.writing(ctx, func(tx *sql.Tx) error {
		fs := b.complete(findings)
		if slices.ContainsFunc(fs, again) {
			if err := resolveAgain(ctx, tx, job, fs); err != nil {
				return err
			}
		}
		entries := make([]Entry, len(fs))
		for i, f := range fs {
			body, err := json.Marshal(f)
			if err != nil {
				return err
			}
			entries[i] = Entry{ID: f.ID, Job: job, Kind: KindFinding, By: f.By, Body: body, Supersedes: f.Supersedes}
		}
		added, err = b.add(ctx, tx, job, entries)
		return err
	})
	return added, err
}

// complete gives findings the id and the time they lack.
func (b *Book) complete(findings []core.Finding) []core.Finding {
	now := b.clock().UTC()
	fs := slices.Clone(findings)
	for i := range fs {
		f := &fs[i]
		if f.ID == "" {
			f.ID = newID(now)
		}
		if f.At.IsZero() {
			f.At = now
		}
		f.At = f.At.UTC()
	}
	return fs
}

// add inserts entries of one job and sorts out what was there before.
func (b *Book) add(ctx context.Context, tx *sql.Tx, job string, entries []Entry) (a Added, err error) {
	fresh, err := b.insert(ctx, tx, entries)
	if err != nil {
		return Added{}, err
	}
	var dead map[string]bool
	for i, e := range entries {
		switch {
		case fresh[i]:
			a.New = append(a.New, e.ID)
			continue
		case dead == nil:
			if dead, err = deadOf(ctx, tx, job); err != nil {
				return Added{}, err
			}
		}
		if dead[e.ID] {
			a.TakenBack = append(a.TakenBack, e.ID)
		} else {
			a.There = append(a.There, e.ID)
		}
	}
	return a, nil
}

func again(f core.Finding) bool {
	return len(f.Supersedes) == 0 && slices.Contains(strings.FieldsFunc(strings.ToLower(f.Note), func(r rune) bool {
		return !('a' <= r && r <= 'z')
	}), "again")
}

// asked is the question that a finding answers.
type asked struct {
	place          core.Place
	check, station string
}

// resolveAgain fills in what each finding "again" supersedes: the live ones that answer the same question, and earlier
// ones of the same call. Findings that the book has already count only as what they are there.
func resolveAgain(ctx context.Context, tx *sql.Tx, job string, findings []core.Finding) error {
	es, err := entriesOf(ctx, tx, job, KindFinding)
	if err != nil {
		return err
	}
	dead, err := deadOf(ctx, tx, job)
	if err != nil {
		return err
	}
	all, err := decodeAll[core.Finding](es)
	if err != nil {
		return err
	}
	there := map[string]bool{}
	standing := map[asked][]string{}
	for _, f := range all {
		there[f.ID] = true
		if q := question(f); !dead[f.ID] {
			standing[q] = append(standing[q], f.ID)
		}
	}
	for i := range findings {
		f := &findings[i]
		if there[f.ID] {
			continue
		}
		q := question(*f)
		if again(*f) {
			f.Supersedes, standing[q] = standing[q], nil
		}
		there[f.ID] = true
		standing[q] = append(standing[q], f.ID)
	}
	return nil
}

func question(f core.Finding) asked { return asked{f.Place(), f.Check, f.Station} }

// Findings gives a job's live findings in order of arrival.
func (b *Book) Findings(ctx context.Context, job string) (fs []core.Finding, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		fs, err = findingsOf(ctx, tx, job)
		return err
	})
	return fs, err
}

// AllFindings gives every finding ever added to a job, also those superseded or undone, in order of arrival.
func (b *Book) AllFindings(ctx context.Context, job string) (fs []core.Finding, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		es, err := entriesOf(ctx, tx, job, KindFinding)
		if err != nil {
			return err
		}
		fs, err = decodeAll[core.Finding](es)
		return err
	})
	return fs, err
}

func findingsOf(ctx context.Context, tx *sql.Tx, job string) ([]core.Finding, error) {
	es, err := liveOf(ctx, tx, job, KindFinding)
	if err != nil {
		return nil, err
	}
	return decodeAll[core.Finding](es)
}

// decodeAll reads the bodies of entries of one kind.
func decodeAll[T any](es []Entry) ([]T, error) {
	out := make([]T, len(es))
	for i, e := range es {
		if err := json.Unmarshal(e.Body, &out[i]); err != nil {
			return nil, badBody(e, err)
		}
	}
	return out, nil
}

func badBody(e Entry, err error) error {
	x := core.Errorf(core.Internal, "restore the latest backup", "entry %s (%s) of job %q cannot be read", e.ID, e.Kind, e.Job)
	x.Err = err
	return x
}
