package main

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"slices"
	"sync"
	"time"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
	"github.com/fettle-tools/fettle/core/web"
)

// desk holds the papers that are being made, and those that were made last and may be issued.
type desk struct {
	mu       sync.Mutex
	on       []*onDesk // the last first
	compared map[string]core.Comparison
}

// onDesk is one of them. Its fields are under the desk's lock.
type onDesk struct {
	web.Draft
	at   int64 // the book's state that it was made at
	from [sha256.Size]byte
	done chan struct{}
}

// mostOnDesk is how many papers are held; one of a whole vehicle is a megabyte.
const mostOnDesk = 4

// mostOfPaper is how long a paper may take.
const mostOfPaper = time.Minute

// Sorts lists what can be made of a job.
func (b *behind) Sorts(story core.Story) []web.Sort {
	job := story.Job.Number
	sorts := []web.Sort{{Job: job, Kind: scopePaper.name, Title: scopePaper.title}, {Job: job, Kind: workOrderPaper.name, Title: workOrderPaper.title}}
	for _, k := range storyPapers {
		if k.about == nil {
			sorts = append(sorts, web.Sort{Job: job, Kind: k.kind, Title: k.title})
			continue
		}
		for _, n := range k.about(story) {
			sorts = append(sorts, web.Sort{Job: job, Kind: k.kind, About: n, Title: k.title})
		}
	}
	return sorts
}

// find gives what is on the desk of a sort, or nil.
func (d *desk) find(s web.Sort) *onDesk {
	i := slices.IndexFunc(d.on, func(x *onDesk) bool { return x.Job == s.Job && x.Kind == s.Kind && x.About == s.About })
	if i < 0 {
		return nil
	}
	return d.on[i]
}

// Begin makes a draft.
func (b *behind) Begin(ctx context.Context, s web.Sort) error {
	now, err := b.Changed(ctx)
	if err != nil {
		return err
	}
	return b.desk.begin(b.life, s, func(was *onDesk) bool { return was != nil && was.Err == nil && !was.Issued && was.at == now }, func(ctx context.Context, _ *onDesk, told teller) (onDesk, error) {
		m, err := b.print(ctx, s, false, told)
		if err != nil {
			return onDesk{}, err
		}
		made, err := asDraft(m)
		made.at, made.At = now, b.s.c.clock()
		return made, err
	})
}

// Issue issues a draft, if it would be made the same again.
func (b *behind) Issue(ctx context.Context, s web.Sort, by string) error {
	return b.desk.begin(b.life, s, func(was *onDesk) bool { return was != nil && was.Issued }, func(ctx context.Context, was *onDesk, told teller) (onDesk, error) {
		if was == nil || was.HTML == nil {
			return onDesk{}, core.Errorf(core.Conflict, "make it, and look at it", "there is no draft to issue")
		}
		m, err := b.print(ctx, s, true, told)
		if err != nil {
			return onDesk{}, err
		}
		made, err := asDraft(m)
		if err != nil {
			return onDesk{}, err
		}
		if made.from != was.from {
			return onDesk{}, core.Errorf(core.Conflict, "make it again, and look at it", "what it is made from has changed since it was looked at")
		}
		_, err = b.s.put(ctx, m, by, "")
		return made, err
	})
}

// begin lets a paper be made in the background, unless what is on the desk of its sort will do or is being made; it
// waits for a moment. Life is how long the work may live at most.
func (d *desk) begin(life context.Context, s web.Sort, does func(*onDesk) bool, work func(context.Context, *onDesk, teller) (onDesk, error)) error {
	d.mu.Lock()
	was := d.find(s)
	if was != nil && was.Doing != "" || does(was) {
		d.mu.Unlock()
		return nil
	}
	x := &onDesk{Draft: web.Draft{Sort: s, Step: 0, Of: 4, Doing: "planning the job"}, done: make(chan struct{})}
	d.on = slices.DeleteFunc(d.on, func(o *onDesk) bool { return o == was })
	d.on = append([]*onDesk{x}, d.on...)
	d.on = d.on[:min(len(d.on), mostOnDesk)]
	d.mu.Unlock()
	background, stop := context.WithTimeout(life, mostOfPaper)
	go func() {
		defer stop()
		var made onDesk
		err := safely(func() (err error) {
			made, err = work(background, was, func(n, of int, doing string) { d.change(func() { x.Step, x.Of, x.Doing = n, of, doing }) })
			return err
		})
		d.change(func() {
			if done := x.done; err == nil {
				*x, x.Draft.Sort = made, s
				x.done = done
			}
			x.Err, x.Doing = err, ""
		})
		close(x.done)
	}()
	select {
	case <-x.done:
	case <-time.After(atFirst):
	}
	return nil
}

func (d *desk) change(f func()) {
	d.mu.Lock()
	defer d.mu.Unlock()
	f()
}

// asDraft is a printed paper as it lies on the desk.
func asDraft(m printed) (onDesk, error) {
	from, err := m.from(time.Time{})
	return onDesk{Draft: web.Draft{Number: m.Number, Revision: m.Revision, Issued: m.Issued, PDF: m.pdf, HTML: m.html}, from: sha256.Sum256(from)}, err
}

// print makes a paper of a sort in both media.
func (b *behind) print(ctx context.Context, s web.Sort, issue bool, told teller) (printed, error) {
	story, err := b.s.book.Story(ctx, s.Job)
	if err != nil {
		return printed{}, err
	}
	for _, k := range []paperKind{scopePaper, workOrderPaper} {
		if k.name != s.Kind {
			continue
		}
		told.tell(0, 4, "planning the job")
		p, err := b.plan(ctx, s.Job)
		if err != nil {
			return printed{}, err
		}
		told.tell(1, 4, "drawing it up")
		return b.s.make(ctx, k, p, issue, told)
	}
	for _, k := range storyPapers {
		if k.kind == s.Kind {
			told.tell(1, 4, "drawing it up")
			return b.s.makeStory(ctx, k, story, s.About, issue, told)
		}
	}
	return printed{}, core.Errorf(core.Invalid, "use one of: "+paperKinds(), "%q is no kind of paper", s.Kind)
}

// Draft gives what is on the desk.
func (b *behind) Draft(_ context.Context, s web.Sort) (web.Draft, error) {
	b.desk.mu.Lock()
	defer b.desk.mu.Unlock()
	if x := b.desk.find(s); x != nil {
		return x.Draft, nil
	}
	return web.Draft{}, core.Errorf(core.NotFound, "make it, on the page of papers", "no draft of it is kept any more")
}

// Frozen lists what was issued, each paper once.
func (b *behind) Frozen(ctx context.Context, job string) ([]web.Frozen, error) {
	all, err := b.s.book.Frozen(ctx, job)
	if err != nil {
		return nil, err
	}
	var out []web.Frozen
	for _, f := range all {
		i := slices.IndexFunc(out, func(x web.Frozen) bool { return x.Number == f.Number && x.Revision == f.Revision })
		if i < 0 {
			i = len(out)
			out = append(out, web.Frozen{Kind: f.Kind, Number: f.Number, Revision: f.Revision, By: f.By, At: f.At})
		}
		out[i].Media = append(out[i].Media, web.Medium{Type: f.Media, SHA256: f.SHA256, Size: f.Size})
	}
	return out, nil
}

// issuedFor gives an issued paper of a job, and refuses those of others.
func (b *behind) issuedFor(ctx context.Context, job, number string, revision int, media string) (store.Paper, error) {
	p, err := b.s.book.Paper(ctx, number, revision, media)
	if err == nil && p.Job != job {
		return p, core.Errorf(core.NotFound, "choose one of those on the page of papers", "%s has no issued paper %s revision %d", job, number, revision)
	}
	return p, err
}

// AsIssued gives the bytes of an issued paper.
func (b *behind) AsIssued(ctx context.Context, job, number string, revision int, media string) ([]byte, error) {
	p, err := b.issuedFor(ctx, job, number, revision, media)
	return p.Bytes, err
}

// Compare puts two revisions beside one another. Issued papers do not change: what was compared once is kept.
func (b *behind) Compare(ctx context.Context, job, number string, was, now int) (core.Comparison, error) {
	key := fmt.Sprintf("%s %s %d %d", job, number, was, now)
	b.desk.mu.Lock()
	c, known := b.desk.compared[key]
	b.desk.mu.Unlock()
	if known {
		return c, nil
	}
	var plans [2]core.Plan
	for i, revision := range []int{was, now} {
		p, err := b.issuedFor(ctx, job, number, revision, "")
		if err != nil {
			return c, err
		}
		if plans[i], err = pricedBy(p); err != nil {
			return c, err
		}
	}
	c = core.Compare(plans[0], plans[1])
	b.desk.mu.Lock()
	defer b.desk.mu.Unlock()
	if b.desk.compared == nil {
		b.desk.compared = map[string]core.Comparison{}
	}
	b.desk.compared[key] = c
	return c, nil
}

// pricedBy is what an issued paper keeps of the plan that it priced.
func pricedBy(p store.Paper) (core.Plan, error) {
	var in struct {
		Order   *core.WorkOrder `json:"order"`
		Budget  core.Budget     `json:"budget"`
		Choices []core.Choice   `json:"choices"`
	}
	if err := json.Unmarshal(p.Inputs, &in); err != nil {
		return core.Plan{}, err
	}
	if in.Order == nil {
		return core.Plan{}, core.Errorf(core.Conflict, "compare revisions of a scope or a work order", "%s revision %d prices nothing", p.Number, p.Revision)
	}
	return core.Plan{WorkOrder: *in.Order, Budget: in.Budget, Choices: in.Choices}, nil
}

// Answer writes the answer to a change note down.
func (b *behind) Answer(ctx context.Context, job, by string, a core.Answer) error {
	_, err := b.s.book.Act(ctx, job, by, &a)
	return err
}

// Agree writes an agreement down.
func (b *behind) Agree(ctx context.Context, job, by string, a core.Agreement, sum string) (err error) {
	story, err := b.s.book.Story(ctx, job)
	if err != nil {
		return err
	}
	if err := b.s.agreement(story, a.Gate, sum, &a); err != nil {
		return err
	}
	_, err = b.s.book.Act(ctx, job, by, &a)
	return err
}
