package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// neverUndone are the kinds that an undo passes over: a job once opened and a paper once issued stay, and undoing
// goes back past earlier undoings instead of turning in a circle.
var neverUndone = []string{KindJob, KindPaper, KindUndo, KindRedo}

// Undone is what an undo took back or a redo brought back: one batch, in order of arrival.
type Undone struct {
	Batch   string
	By      string // who had added it
	At      time.Time
	Entries []Entry
}

// Words says what it was, e.g. "2 findings" or "1 brief, 1 unit".
func (u Undone) Words() string {
	var kinds []string
	counts := map[string]int{}
	for _, e := range u.Entries {
		if counts[e.Kind] == 0 {
			kinds = append(kinds, e.Kind)
		}
		counts[e.Kind]++
	}
	for i, k := range kinds {
		s := ""
		if counts[k] != 1 {
			s = "s"
		}
		kinds[i] = fmt.Sprintf("%d %s%s", counts[k], k, s)
	}
	return strings.Join(kinds, ", ")
}

// Undo takes back the latest batch of a job that still has something live, by an entry that supersedes with nothing.
// job "" undoes in the shop's own entries, prices and parties; kinds narrow it to batches of those. It is NotFound if nothing is left to take
// back, Conflict if something that stays rests on it.
func (b *Book) Undo(ctx context.Context, job, by string, kinds ...string) (u Undone, err error) {
	err = b.writing(ctx, func(tx *sql.Tx) error {
		live, err := liveOf(ctx, tx, job)
		if err != nil {
			return err
		}
		live = slices.DeleteFunc(live, func(e Entry) bool { return slices.Contains(neverUndone, e.Kind) || !among(kinds, e.Kind) })
		if len(live) == 0 {
			return core.Errorf(core.NotFound, "", "there is nothing to take back")
		}
		last := live[len(live)-1]
		u = Undone{Batch: last.Batch, By: last.By, At: last.At}
		for _, e := range live {
			if e.Batch == last.Batch {
				u.Entries = append(u.Entries, e)
			}
		}
		if err := b.supersede(ctx, tx, Entry{Job: job, Kind: KindUndo, By: by}, u.Entries, u.Words()); err != nil || job == "" {
			return err
		}
		return stands(ctx, tx, job)
	})
	return u, err
}

// TakeBack takes back one finding of a job, whatever came after it. It is NotFound if there is none that is live.
func (b *Book) TakeBack(ctx context.Context, job, by, finding string) (u Undone, err error) {
	err = b.writing(ctx, func(tx *sql.Tx) error {
		live, err := liveOf(ctx, tx, job, KindFinding)
		if err != nil {
			return err
		}
		i := slices.IndexFunc(live, func(e Entry) bool { return e.ID == finding })
		if i < 0 {
			return core.Errorf(core.NotFound, "", "the reading was taken back or replaced already")
		}
		u = Undone{Batch: live[i].Batch, By: live[i].By, At: live[i].At, Entries: live[i : i+1]}
		return b.supersede(ctx, tx, Entry{Job: job, Kind: KindUndo, By: by}, u.Entries, u.Words())
	})
	return u, err
}

// among reports whether a kind is one of some, or all are meant.
func among(kinds []string, kind string) bool { return len(kinds) == 0 || slices.Contains(kinds, kind) }

// Redo brings back what the latest undo still in force took; kinds narrow it as they do an undo. It is NotFound if no undo is in force,
// Conflict if it does not fit what was done since.
func (b *Book) Redo(ctx context.Context, job, by string, kinds ...string) (u Undone, err error) {
	err = b.writing(ctx, func(tx *sql.Tx) error {
		undos, err := liveOf(ctx, tx, job, KindUndo)
		if err != nil {
			return err
		}
		all, err := entriesOf(ctx, tx, job)
		if err != nil {
			return err
		}
		undos = slices.DeleteFunc(undos, func(e Entry) bool {
			return !slices.ContainsFunc(all, func(o Entry) bool { return slices.Contains(e.Supersedes, o.ID) && among(kinds, o.Kind) })
		})
		if len(undos) == 0 {
			return core.Errorf(core.NotFound, "", "there is nothing to bring back")
		}
		last := undos[len(undos)-1]
		u = Undone{Entries: slices.DeleteFunc(all, func(e Entry) bool { return !slices.Contains(last.Supersedes, e.ID) })}
		if len(u.Entries) > 0 {
			u.Batch, u.By, u.At = u.Entries[0].Batch, u.Entries[0].By, u.Entries[0].At
		}
		if err := b.supersede(ctx, tx, Entry{Job: job, Kind: KindRedo, By: by}, []Entry{last}, u.Words()); err != nil || job == "" {
			return err
		}
		return stands(ctx, tx, job)
	})
	return u, err
}

// supersede adds an entry that supersedes others with nothing, and says in words what they were.
func (b *Book) supersede(ctx context.Context, tx *sql.Tx, e Entry, others []Entry, words string) (err error) {
	for _, o := range others {
		e.Supersedes = append(e.Supersedes, o.ID)
	}
	if e.Body, err = json.Marshal(words); err != nil {
		return err
	}
	_, err = b.insert(ctx, tx, []Entry{e})
	return err
}
