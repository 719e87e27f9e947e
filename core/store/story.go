package store

import (
	"cmp"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// KindMove is the kind of an entry that takes a job to another state.
const KindMove = "move"

// Act does things to a job in one transaction and one batch, in the order given, and gives the job's story as it then stands. Each act is
// checked against the story with those before it laid over; the first that is refused refuses all, and its error says why. An act without a
// number that needs one gets the shop's next.
func (b *Book) Act(ctx context.Context, job, by string, acts ...core.Act) (s core.Story, err error) {
	err = b.writing(ctx, func(tx *sql.Tx) error {
		if s, err = storyOf(ctx, tx, job); err != nil {
			return err
		}
		es, err := doAll(ctx, tx, &s, core.Stamp{By: by, At: b.clock().UTC()}, acts)
		if err != nil {
			return err
		}
		_, err = b.insert(ctx, tx, es)
		return err
	})
	return s, err
}

// doAll does acts to a story one after the other and gives their entries, with those of the moves that follow from them.
func doAll(ctx context.Context, tx *sql.Tx, s *core.Story, stamp core.Stamp, acts []core.Act) (es []Entry, err error) {
	for _, a := range acts {
		if err := number(ctx, tx, a, es); err != nil {
			return nil, err
		}
		move, err := s.Do(a, stamp)
		if err != nil {
			return nil, err
		}
		if es, err = appendAct(es, s.Job.Number, stamp.By, a); err != nil {
			return nil, err
		}
		if move != nil {
			if es, err = appendAct(es, s.Job.Number, stamp.By, move); err != nil {
				return nil, err
			}
		}
	}
	return es, nil
}

func appendAct(es []Entry, job, by string, a core.Act) ([]Entry, error) {
	body, err := json.Marshal(a)
	return append(es, Entry{Job: job, Kind: a.Kind(), By: by, Body: body}), err
}

// Story gives a job with all that happened to it, as it stands. It is NotFound if no job has the number.
func (b *Book) Story(ctx context.Context, job string) (s core.Story, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		s, err = storyOf(ctx, tx, job)
		return err
	})
	return s, err
}

// Stories gives the stories of all jobs, in the order they were opened.
func (b *Book) Stories(ctx context.Context) (ss []core.Story, err error) {
	ss = []core.Story{}
	err = b.reading(ctx, func(tx *sql.Tx) error {
		numbers, err := jobNumbers(ctx, tx)
		if err != nil {
			return err
		}
		for _, n := range numbers {
			s, err := storyOf(ctx, tx, n)
			if err != nil {
				return err
			}
			ss = append(ss, s)
		}
		return nil
	})
	return ss, err
}

// storyOf folds a job's story.
func storyOf(ctx context.Context, tx *sql.Tx, job string) (s core.Story, err error) {
	all, err := tellings(ctx, tx, job)
	if err != nil {
		return s, err
	}
	s.Papers, s.Parties = []core.Issued{}, []core.Party{}
	for _, t := range all {
		if err := t.lay(&s, false); err != nil {
			return s, err
		}
	}
	if s.Job.Number == "" {
		return s, noJob(job)
	}
	return s, nil
}

// storyKinds are the entries that a story is folded from.
func storyKinds() []string {
	kinds := append([]string{}, jobKinds...)
	for _, k := range core.ActKinds() {
		if k != KindMove {
			kinds = append(kinds, k)
		}
	}
	return kinds
}

// telling is one thing that a story is folded from: a live entry, or a paper as issued.
type telling struct {
	Entry
	paper *core.Issued
}

// tellings reads all that a job's story is folded from, in order of arrival: its own live entries, its issued papers, and what the shop knew
// of parties. What was accepted once is accepted again in this order, whatever came later.
func tellings(ctx context.Context, tx *sql.Tx, job string) ([]telling, error) {
	all, err := issuedOf(ctx, tx, job)
	if err != nil {
		return nil, err
	}
	own, err := liveOf(ctx, tx, job, storyKinds()...)
	if err != nil {
		return nil, err
	}
	parties, err := liveOf(ctx, tx, "", KindParty)
	if err != nil {
		return nil, err
	}
	for _, e := range append(own, parties...) {
		all = append(all, telling{Entry: e})
	}
	slices.SortFunc(all, func(a, b telling) int { return cmp.Compare(a.Seq, b.Seq) })
	return all, nil
}

// lay lays it over a story; with check, what would be refused is an error.
func (t telling) lay(s *core.Story, check bool) error {
	switch {
	case t.paper != nil:
		s.Papers = append(s.Papers, *t.paper)
		return nil
	case t.Kind == KindParty:
		return layParty(&s.Parties, t.Entry)
	case !core.IsAct(t.Kind):
		if err := fold(&s.Job, t.Entry); err != nil {
			return badBody(t.Entry, err)
		}
		return nil
	}
	a, err := core.DecodeAct(t.Kind, t.Body)
	if err != nil {
		return badBody(t.Entry, err)
	}
	if check {
		if err := a.Check(s); err != nil {
			return err
		}
	}
	s.Fold(a, core.Stamp{By: t.By, At: t.At})
	return nil
}

// stands checks that the job's story, as it now is, would be accepted from beginning to end: after something was taken back or brought back.
func stands(ctx context.Context, tx *sql.Tx, job string) error {
	all, err := tellings(ctx, tx, job)
	if err != nil {
		return err
	}
	var s core.Story
	for _, t := range all {
		err := t.lay(&s, true)
		var refused *core.Error
		if errors.As(err, &refused) {
			return core.Errorf(core.Conflict, "see what came after: fettle job show "+job, "the %s of %s rests on it: %s", t.Kind, t.At.Format("2 January 15:04"), refused.What)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// issuedOf reads a job's issued papers once each, whatever their media, with the lines of those that priced some.
func issuedOf(ctx context.Context, tx *sql.Tx, job string) ([]telling, error) {
	rows, err := tx.QueryContext(ctx, `SELECT seq, kind, number, revision, at, work_order, contingency, valid_until FROM issued WHERE job = ? ORDER BY seq`, job)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var papers []telling
	for rows.Next() {
		var p core.Issued
		var seq int64
		var at string
		var order, contingency, valid sql.NullString
		if err := rows.Scan(&seq, &p.Kind, &p.Number, &p.Revision, &at, &order, &contingency, &valid); err != nil {
			return nil, err
		}
		if err := read(&p, at, order, contingency, valid); err != nil {
			return nil, fmt.Errorf("paper %s revision %d: %w", p.Number, p.Revision, err)
		}
		papers = append(papers, telling{Entry: Entry{Seq: seq}, paper: &p})
	}
	return papers, rows.Err()
}

func read(p *core.Issued, at string, order, contingency, valid sql.NullString) (err error) {
	if p.At, err = time.Parse(timeLayout, at); err != nil {
		return err
	}
	if valid.Valid {
		if p.ValidUntil, err = time.Parse(time.RFC3339, valid.String); err != nil {
			return err
		}
	}
	if contingency.Valid {
		if err := json.Unmarshal([]byte(contingency.String), &p.Contingency); err != nil {
			return err
		}
	}
	if !order.Valid {
		return nil
	}
	var o core.WorkOrder
	if err := json.Unmarshal([]byte(order.String), &o); err != nil {
		return err
	}
	p.Lines, p.Total, p.Expected, p.Left = o.Lines, o.Total, o.TotalBeforeTax, o.Left
	return nil
}
