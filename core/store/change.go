package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Change is what is to be different in a job: what is nil or empty stays as it is. Units, pins, left parts and
// overrides replace those of the same id, place or check, and come last otherwise. A pin without a remedy, a left part
// without a reason and an override without a source take out what was there.
type Change struct {
	Title     *string
	Owner     *core.Party
	Vehicle   *core.Vehicle
	Brief     *core.Brief
	Extent    *core.Extent
	Units     []core.Unit
	Pins      []core.Pin
	Left      []core.Left
	Overrides []core.SubsystemOverride
	Payers    []core.Payer      // all of them, if not nil
	Stages    []core.StageShare // all of them, if not nil; none: the usual ones
	Speakers  []string          // all of them, if not nil
	Labour    []core.Labour     // by subsystem; without a name it is taken out
	Moved     []core.Transplant // by where it goes; without a place it came from it is taken out
}

// ChangeJob records a change as one batch, and gives the job as it then stands. A pin must say why and who says so;
// so must a left part. What was decided of a job that is handed over stands: to change it is a Conflict.
func (b *Book) ChangeJob(ctx context.Context, number, by string, c Change) (job core.Job, err error) {
	entries, err := c.entries(number, by)
	if err != nil {
		return core.Job{}, err
	}
	err = b.writing(ctx, func(tx *sql.Tx) error {
		if c.decides() {
			was, err := jobOf(ctx, tx, number)
			if err != nil {
				return err
			}
			if was.State == core.StateHandedOver {
				return core.Errorf(core.Conflict, "open a new job for it", "%s is handed over: what was decided of it stands", number)
			}
		}
		if _, err := b.insert(ctx, tx, entries); err != nil {
			return err
		}
		job, err = jobOf(ctx, tx, number)
		return err
	})
	return job, err
}

// decides reports whether the change is of what a plan is made from by somebody's word.
func (c Change) decides() bool {
	return c.Brief != nil || c.Extent != nil || len(c.Pins)+len(c.Left) > 0
}

// entries writes the change as entries, in the order of its fields.
func (c Change) entries(number, by string) (es []Entry, err error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	add := func(kind string, v any) {
		body, bad := json.Marshal(v)
		if bad != nil {
			err = bad
		}
		es = append(es, Entry{Job: number, Kind: kind, By: by, Body: body})
	}
	if c.Title != nil {
		add(KindTitle, *c.Title)
	}
	if c.Owner != nil {
		add(KindOwner, c.Owner)
	}
	if c.Vehicle != nil {
		add(KindVehicle, c.Vehicle)
	}
	if c.Brief != nil {
		add(KindBrief, c.Brief)
	}
	if c.Extent != nil {
		add(KindExtent, c.Extent)
	}
	for _, u := range c.Units {
		add(KindUnit, u)
	}
	for _, p := range c.Pins {
		add(KindPin, p)
	}
	for _, l := range c.Left {
		add(KindLeft, l)
	}
	for _, o := range c.Overrides {
		add(KindOverride, o)
	}
	if c.Payers != nil {
		add(KindPayer, c.Payers)
	}
	if c.Stages != nil {
		add(KindStages, c.Stages)
	}
	if c.Speakers != nil {
		add(KindSpeaker, c.Speakers)
	}
	for _, l := range c.Labour {
		add(KindLabour, l)
	}
	for _, t := range c.Moved {
		add(KindMoved, t)
	}
	return es, err
}

func (c Change) check() error {
	for _, p := range c.Pins {
		if p.Remedy != "" && (blank(p.Reason) || blank(p.By)) {
			return core.Errorf(core.Invalid, "say why, and who says so", "a pin has no reason or no name")
		}
	}
	for _, l := range c.Left {
		if !blank(l.Reason) && blank(l.By) {
			return core.Errorf(core.Invalid, "say whose word it is", "a part is left, but nobody's name stands by it")
		}
	}
	for _, u := range c.Units {
		if blank(u.ID) || blank(u.Kind) {
			return core.Errorf(core.Invalid, "give the unit an id and a kind, like engine", "a unit has no id or no kind")
		}
	}
	return nil
}

func blank(s string) bool { return strings.TrimSpace(s) == "" }
