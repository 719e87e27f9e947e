package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// kindHandover is the kind of the act that ends a job.
const kindHandover = "handover"

// Closed gives what the shop's closed jobs have taught, in the order they were handed over. It reads the handovers alone, not the jobs nor the
// reckonings of their hours: every plan asks for it.
func (b *Book) Closed(ctx context.Context) (closed []core.Closed, err error) {
	closed = []core.Closed{}
	err = b.reading(ctx, func(tx *sql.Tx) error {
		es, err := handovers(ctx, tx)
		if err != nil {
			return err
		}
		dead, err := takenBack(ctx, tx)
		if err != nil {
			return err
		}
		for _, e := range es {
			if dead[e.ID] {
				continue
			}
			var h struct {
				Taught *core.Taught `json:"taught"`
			}
			if err := json.Unmarshal(e.Body, &h); err != nil {
				return badBody(e, err)
			}
			closed = append(closed, core.Closed{Job: e.Job, At: e.At, Taught: h.Taught})
		}
		return nil
	})
	return closed, err
}

// handovers reads the handovers of all jobs, taken back or not, in order of arrival.
func handovers(ctx context.Context, tx *sql.Tx) ([]Entry, error) {
	rows, err := tx.QueryContext(ctx, `SELECT e.seq, e.id, e.job, e.at, e.body FROM entries j CROSS JOIN entries e
		WHERE j.kind = 'job' AND e.job = j.job AND e.kind = ? ORDER BY e.seq`, kindHandover)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var es []Entry
	for rows.Next() {
		e := Entry{Kind: kindHandover}
		var at, body string
		if err := rows.Scan(&e.Seq, &e.ID, &e.Job, &at, &body); err != nil {
			return nil, err
		}
		if e.At, err = time.Parse(timeLayout, at); err != nil {
			return nil, fmt.Errorf("entry %s: %w", e.ID, err)
		}
		e.Body = json.RawMessage(body)
		es = append(es, e)
	}
	return es, rows.Err()
}

// takenBack names what undos in force have taken back since a job was handed over. Nothing but an undo takes a handover back, so that of each job
// only what came after it is read for undos, and for what took those back.
func takenBack(ctx context.Context, tx *sql.Tx) (map[string]bool, error) {
	rows, err := tx.QueryContext(ctx, `SELECT s.entry, s.superseded FROM entries j CROSS JOIN entries u CROSS JOIN supersedes s
		WHERE j.kind = 'job' AND u.job = j.job AND u.kind IN (?, ?) AND s.entry = u.id
		AND u.seq > (SELECT min(h.seq) FROM entries h WHERE h.job = j.job AND h.kind = ?) ORDER BY u.seq DESC`, KindUndo, KindRedo, kindHandover)
	if err != nil {
		return nil, err
	}
	return superseded(rows)
}

// ScopeBudgets gives the issued scopes of a job with their budgets, oldest first. What was issued without a budget is left out.
func (b *Book) ScopeBudgets(ctx context.Context, job string) (scopes []core.ScopeBudget, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, `SELECT i.number, i.revision, json_extract(e.body, '$.inputs.budget') FROM issued i JOIN entries e ON e.seq = i.seq
			WHERE i.job = ? AND i.kind = 'scope' ORDER BY i.seq`, job)
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var s core.ScopeBudget
			var budget sql.NullString
			if err := rows.Scan(&s.Number, &s.Revision, &budget); err != nil {
				return err
			}
			if !budget.Valid {
				continue
			}
			if err := json.Unmarshal([]byte(budget.String), &s.Budget); err != nil {
				return fmt.Errorf("paper %s revision %d: %w", s.Number, s.Revision, err)
			}
			scopes = append(scopes, s)
		}
		return rows.Err()
	})
	return scopes, err
}
