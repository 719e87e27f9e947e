package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// number gives an act that needs a number, and has none, the shop's next: the one after the highest of its prefix, in the book or among the
// entries about to be added.
func number(ctx context.Context, tx *sql.Tx, a core.Act, pending []Entry) error {
	n, ok := a.(core.Numbering)
	if !ok || n.Number() != "" {
		return nil
	}
	highest, err := highestNumber(ctx, tx, n.Prefix())
	if err != nil {
		return err
	}
	for _, e := range pending {
		highest = max(highest, plainNumber(n.Prefix(), numberOf(e)))
	}
	n.SetNumber(fmt.Sprintf("%s%03d", n.Prefix(), highest+1))
	return nil
}

func highestNumber(ctx context.Context, tx *sql.Tx, prefix string) (highest int, err error) {
	rows, err := tx.QueryContext(ctx, `SELECT coalesce(max(CAST(substr(number, ?2) AS INTEGER)), 0) FROM numbers
		WHERE number >= ?1 AND number < ?1 || ':' AND substr(number, ?2) NOT GLOB '*[^0-9]*'`, prefix, len(prefix)+1)
	if err != nil {
		return 0, err
	}
	defer rows.Close()
	for rows.Next() {
		if err := rows.Scan(&highest); err != nil {
			return 0, err
		}
	}
	return highest, rows.Err()
}

// plainNumber reads the digits after a prefix; 0 if it is another sort of number, or a child's.
func plainNumber(prefix, number string) int {
	digits, ok := strings.CutPrefix(number, prefix)
	if !ok {
		return 0
	}
	n, err := strconv.Atoi(digits)
	if err != nil {
		return 0
	}
	return n
}

// numberOf gives the number that an entry of a numbered kind bears, or "".
func numberOf(e Entry) string {
	if !core.IsAct(e.Kind) {
		return ""
	}
	a, err := core.DecodeAct(e.Kind, e.Body)
	if err != nil {
		return ""
	}
	n, ok := a.(core.Numbering)
	if !ok {
		return ""
	}
	return n.Number()
}

// claim keeps an entry's number for its job. It is a Conflict if the number is another job's.
func claim(ctx context.Context, tx *sql.Tx, e *Entry) error {
	n := numberOf(*e)
	if n == "" {
		return nil
	}
	if _, err := tx.ExecContext(ctx, `INSERT INTO numbers (number, job) VALUES (?, ?) ON CONFLICT (number) DO NOTHING`, n, e.Job); err != nil {
		return err
	}
	var job string
	if err := tx.QueryRowContext(ctx, `SELECT job FROM numbers WHERE number = ?`, n).Scan(&job); err != nil {
		return err
	}
	if job != e.Job {
		return core.Errorf(core.Conflict, "leave the number out, and the next free one is taken", "%s is in use in %s", n, job)
	}
	return nil
}

// JobOf gives the job that has a number, like T-014. It is NotFound if none has.
func (b *Book) JobOf(ctx context.Context, number string) (job string, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, `SELECT job FROM numbers WHERE number = ?`, number).Scan(&job)
		if errors.Is(err, sql.ErrNoRows) {
			return core.Errorf(core.NotFound, "look for it by a word: fettle find WORDS", "nothing has the number %q", number)
		}
		return err
	})
	return job, err
}
