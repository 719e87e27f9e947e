package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// jobKinds are the entries a job is folded from.
var jobKinds = []string{KindJob, KindTitle, KindOwner, KindVehicle, KindUnit, KindBrief, KindExtent, KindPin, KindLeft, KindState, KindOverride,
	KindPayer, KindStages, KindSpeaker, KindLabour, KindMoved, KindMove}

// jobNumber is what a job's number may look like: it stands in file names and on labels.
var jobNumber = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]{0,39}$`)

// numbered are the numbers that the book gives by itself.
var numbered = regexp.MustCompile(`^J-([0-9]{1,9})$`)

// OpenJob opens a job and gives it as opened. What it leaves out is filled in: the id (UUIDv7), the next number
// ("J-001"), the time, the state "enquiry", and a seed from the number, so that the same job has the same seed in
// every book. It is a Conflict if the number is taken.
func (b *Book) OpenJob(ctx context.Context, job core.Job, by string) (core.Job, error) {
	err := b.writing(ctx, func(tx *sql.Tx) (err error) {
		if job.Number == "" {
			if job.Number, err = nextNumber(ctx, tx); err != nil {
				return err
			}
		}
		if !jobNumber.MatchString(job.Number) {
			return core.Errorf(core.Invalid, "use letters, digits, dots and dashes, like J-001", "%q cannot be a job's number", job.Number)
		}
		now := b.clock().UTC()
		if job.ID == "" {
			job.ID = newID(now)
		}
		if job.Opened.IsZero() {
			job.Opened = now
		}
		job.Opened = job.Opened.UTC()
		if job.State == "" {
			job.State = core.StateEnquiry
		}
		if !slices.Contains(core.States, job.State) {
			return core.Errorf(core.Invalid, "use one of: "+strings.Join(core.States, ", "), "%q is no state of a job", job.State)
		}
		if job.Seed == 0 {
			job.Seed = seed(job.Number)
		}
		body, err := json.Marshal(job)
		if err != nil {
			return err
		}
		fresh, err := b.insert(ctx, tx, []Entry{{ID: job.ID, Job: job.Number, Kind: KindJob, By: by, Body: body}})
		if err == nil && !fresh[0] {
			err = core.Errorf(core.Conflict, "leave the id to the book", "the book has a job with the id %s", job.ID)
		}
		return err
	})
	if core.ErrorCode(err) == core.Conflict {
		err = numberTaken(job.Number, err)
	}
	return job, err
}

func numberTaken(number string, cause error) error {
	e := core.Errorf(core.Conflict, "leave the number out, and the next free one is taken", "job %s is in the book already", number)
	e.Err = cause
	return e
}

// seed makes a seed of a job's number: the first 53 bits of its SHA-256, so that every reader of JSON keeps it whole.
func seed(number string) uint64 {
	sum := sha256.Sum256([]byte(number))
	return binary.BigEndian.Uint64(sum[:8])>>11 | 1
}

func nextNumber(ctx context.Context, tx *sql.Tx) (string, error) {
	numbers, err := jobNumbers(ctx, tx)
	if err != nil {
		return "", err
	}
	last := 0
	for _, s := range numbers {
		if m := numbered.FindStringSubmatch(s); m != nil {
			n, _ := strconv.Atoi(m[1])
			last = max(last, n)
		}
	}
	return fmt.Sprintf("J-%03d", last+1), nil
}

func jobNumbers(ctx context.Context, tx *sql.Tx) ([]string, error) {
	rows, err := tx.QueryContext(ctx, `SELECT job FROM entries WHERE kind = 'job' ORDER BY seq`)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var numbers []string
	for rows.Next() {
		var s string
		if err := rows.Scan(&s); err != nil {
			return nil, err
		}
		numbers = append(numbers, s)
	}
	return numbers, rows.Err()
}

// Jobs gives all jobs as they stand, in the order they were opened.
func (b *Book) Jobs(ctx context.Context) (jobs []core.Job, err error) {
	jobs = []core.Job{}
	err = b.reading(ctx, func(tx *sql.Tx) error {
		numbers, err := jobNumbers(ctx, tx)
		if err != nil {
			return err
		}
		for _, n := range numbers {
			j, err := jobOf(ctx, tx, n)
			if err != nil {
				return err
			}
			jobs = append(jobs, j)
		}
		return nil
	})
	return jobs, err
}

// Job gives a job as it stands. It is NotFound if no job has the number.
func (b *Book) Job(ctx context.Context, number string) (job core.Job, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		job, err = jobOf(ctx, tx, number)
		return err
	})
	return job, err
}

func jobOf(ctx context.Context, tx *sql.Tx, number string) (core.Job, error) {
	es, err := liveOf(ctx, tx, number, jobKinds...)
	if err != nil {
		return core.Job{}, err
	}
	var job core.Job
	for _, e := range es {
		if err := fold(&job, e); err != nil {
			return core.Job{}, badBody(e, err)
		}
	}
	if job.Number == "" {
		return core.Job{}, noJob(number)
	}
	return job, nil
}

// fold lays one entry over a job: each entry is the whole new value of its piece.
func fold(job *core.Job, e Entry) error {
	switch e.Kind {
	case KindJob:
		return json.Unmarshal(e.Body, job)
	case KindTitle:
		return json.Unmarshal(e.Body, &job.Title)
	case KindState:
		return json.Unmarshal(e.Body, &job.State)
	case KindMove:
		return moved(&job.State, e.Body)
	case KindPayer:
		return replace(&job.Payers, e.Body)
	case KindStages:
		return replace(&job.Stages, e.Body)
	case KindSpeaker:
		return replace(&job.Speakers, e.Body)
	case KindLabour:
		return keyed(&job.Labour, e.Body, func(l core.Labour) string { return l.Subsystem }, func(l core.Labour) bool { return l.Who == "" })
	case KindMoved:
		return keyed(&job.Moved, e.Body, func(t core.Transplant) core.Place { return t.To }, func(t core.Transplant) bool { return t.From == core.Place{} })
	case KindOwner:
		return replace(&job.Owner, e.Body)
	case KindVehicle:
		job.Vehicle = nil
		return json.Unmarshal(e.Body, &job.Vehicle)
	case KindBrief:
		return replace(&job.Brief, e.Body)
	case KindExtent:
		return replace(&job.Extent, e.Body)
	case KindUnit:
		return keyed(&job.Units, e.Body, func(u core.Unit) string { return u.ID }, func(core.Unit) bool { return false })
	case KindPin:
		return keyed(&job.Pins, e.Body, func(p core.Pin) core.Place { return p.Place }, func(p core.Pin) bool { return p.Remedy == "" })
	case KindLeft:
		return keyed(&job.Left, e.Body, func(l core.Left) core.Place { return l.Place }, func(l core.Left) bool { return l.Reason == "" })
	case KindOverride:
		return keyed(&job.Overrides, e.Body, overrideKey, func(o core.SubsystemOverride) bool { return o.Limit.Source == "" })
	}
	return nil
}

// moved reads the state a move leads to.
func moved(state *string, body []byte) error {
	var m core.Move
	err := json.Unmarshal(body, &m)
	*state = m.To
	return err
}

// replace reads a value in place of the old one, of which nothing stays.
func replace[T any](old *T, body []byte) error {
	var v T
	err := json.Unmarshal(body, &v)
	*old = v
	return err
}

// keyed reads one element of a list: it takes the place of the one with its key, or is taken out, or comes last.
func keyed[T any, K comparable](list *[]T, body []byte, key func(T) K, gone func(T) bool) error {
	var v T
	if err := json.Unmarshal(body, &v); err != nil {
		return err
	}
	i := slices.IndexFunc(*list, func(x T) bool { return key(x) == key(v) })
	switch {
	case i < 0 && !gone(v):
		*list = append(*list, v)
	case i >= 0 && gone(v):
		*list = slices.Delete(*list, i, i+1)
	case i >= 0:
		(*list)[i] = v
	}
	return nil
}

func overrideKey(o core.SubsystemOverride) [4]string {
	return [4]string{o.Subsystem, o.Target.Part, o.Target.Position, o.Check}
}
