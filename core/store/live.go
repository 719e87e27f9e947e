package store

import (
	"context"
	"database/sql"
	"slices"
)

// Live gives those of a job's entries that no live entry supersedes, in the order given. The entries must be all of
// the job's, in order of arrival: what supersedes always came later, so the question is settled from the end.
func Live(entries []Entry) []Entry {
	dead := map[string]bool{}
	for _, e := range slices.Backward(entries) {
		if dead[e.ID] {
			continue
		}
		for _, s := range e.Supersedes {
			dead[s] = true
		}
	}
	live := make([]Entry, 0, len(entries))
	for _, e := range entries {
		if !dead[e.ID] {
			live = append(live, e)
		}
	}
	return live
}

// liveOf reads a job's live entries, of the kinds named or of all, without reading the bodies of other kinds.
func liveOf(ctx context.Context, tx *sql.Tx, job string, kinds ...string) ([]Entry, error) {
	dead, err := deadOf(ctx, tx, job)
	if err != nil {
		return nil, err
	}
	es, err := entriesOf(ctx, tx, job, kinds...)
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(es, func(e Entry) bool { return dead[e.ID] }), nil
}

// deadOf names the entries of a job that a live one supersedes.
func deadOf(ctx context.Context, tx *sql.Tx, job string) (map[string]bool, error) {
	rows, err := tx.QueryContext(ctx, `SELECT s.entry, s.superseded FROM supersedes s JOIN entries e ON e.id = s.entry
		WHERE e.job = ? ORDER BY e.seq DESC`, job)
	if err != nil {
		return nil, err
	}
	return superseded(rows)
}

// superseded names what is taken back by pairs of an entry and one that it supersedes, the last written first: what is itself taken back takes nothing
// back. It closes the rows.
func superseded(rows *sql.Rows) (map[string]bool, error) {
	defer rows.Close()
	dead := map[string]bool{}
	for rows.Next() {
		var entry, of string
		if err := rows.Scan(&entry, &of); err != nil {
			return nil, err
		}
		if !dead[entry] {
			dead[of] = true
		}
	}
	return dead, rows.Err()
}
