package main

import (
	"bytes"
	"context"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
	"github.com/fettle-tools/fettle/core/web"
)

func (b *behind) JobOf(ctx context.Context, number string) (string, error) {
	return b.s.book.JobOf(ctx, number)
}

// Tag makes a tag or changes one.
func (b *behind) Tag(ctx context.Context, job string, said web.TagSaid) (core.Tag, error) {
	b.tags.Lock()
	defer b.tags.Unlock()
	story, err := b.s.book.Story(ctx, job)
	if err != nil {
		return core.Tag{}, err
	}
	if number, there, err := b.tagSent(ctx, job, said.ID); err != nil || there {
		if t := story.Tag(number); t != nil {
			return *t, err
		}
		return core.Tag{ID: number}, err
	}
	f := tagFlags{state: core.TagOff}
	if said.Of != "" {
		if f.of, err = b.tagMeant(ctx, story, said.Of); err != nil {
			return core.Tag{}, err
		}
	}
	if err := f.take(said.Given); err != nil {
		return core.Tag{}, err
	}
	given := func(name string) bool {
		if name == "on" {
			name = "what"
		}
		_, is := said.Given[name]
		return is
	}
	return b.s.tag(ctx, story, said.Number, f, given, said.By, fromDevice{said.ID, said.Seen, said.At})
}

// take lays what a page gives over the flags.
func (f *tagFlags) take(given web.TagFields) error {
	for name, values := range given {
		first := strings.Join(values, " ")
		switch name {
		case "what":
			f.on = first
		case "lies":
			f.lies = first
		case "state":
			f.state = first
		case "position":
			f.position = first
		case "way":
			f.way = first
		case "mates":
			f.mates = values
		case "fasteners":
			f.fasteners = values
		case "shims":
			f.shims = values
		case "count-out":
			for _, v := range values {
				n, err := strconv.Atoi(strings.TrimSpace(v))
				if strings.TrimSpace(v) == "" {
					n, err = notCounted, nil
				}
				if err != nil {
					return core.Errorf(core.Invalid, "count each bag", "%q is no count of what went back", v)
				}
				f.countOut = append(f.countOut, n)
			}
		case "sign":
			f.sign = first
		case "word":
			f.word = first
		case "note":
			f.note = first
		}
	}
	return nil
}

// tagSent gives the number of the tag that came under an id before.
func (b *behind) tagSent(ctx context.Context, job, id string) (number string, there bool, err error) {
	acts, there, err := b.s.book.Batch(ctx, job, id)
	for _, a := range acts {
		if t, ok := a.(*core.Tag); ok {
			number = t.ID
		}
	}
	return number, there, err
}

// tagMeant is the number of a tag that is named by its number, or by the id under which a device sent it.
func (b *behind) tagMeant(ctx context.Context, story core.Story, name string) (string, error) {
	if story.Tag(name) != nil {
		return name, nil
	}
	if number, there, err := b.tagSent(ctx, story.Job.Number, name); err != nil || there {
		return number, err
	}
	if strings.HasPrefix(name, "T-") {
		return name, nil // whoever looks for it says that it is not there
	}
	return "", core.Errorf(core.NotFound, "pick another tag", "its tag is not in the book")
}

// CameOff names the steps that took something off, the last first.
func (b *behind) CameOff(ctx context.Context, job string) ([]string, error) {
	return keep(ctx, b, &b.off, job, func() ([]string, error) {
		story, err := b.s.book.Story(ctx, job)
		if err != nil {
			return nil, err
		}
		req, err := b.s.request(ctx, story.Job)
		if err != nil {
			return nil, err
		}
		steps := core.StripSteps(req, nil, story)
		var names []string
		for _, d := range slices.Backward(story.Steps) {
			i := slices.IndexFunc(steps, func(t core.StripStep) bool { return t.ID == d.Step && t.Unit == d.Unit })
			if i >= 0 && steps[i].Is == core.StepIsDone && !steps[i].Free && !slices.Contains(names, steps[i].Name) {
				names = append(names, steps[i].Name)
			}
		}
		return names, nil
	})
}

// Parts are those of the sheets that lie in the job's extent, by the addresses that a tag takes.
func (b *behind) Parts(ctx context.Context, number string) ([]web.Named, error) {
	return keep(ctx, b, &b.parts, number, func() ([]web.Named, error) {
		job, err := b.s.book.Job(ctx, number)
		if err != nil {
			return nil, err
		}
		sheets, err := b.described(ctx, job)
		if err != nil {
			return nil, err
		}
		return parts(job, sheets), nil
	})
}

// Find looks for words in every job.
func (b *behind) Find(ctx context.Context, words string) ([]web.Found, error) {
	found, err := b.s.book.Find(ctx, "", words)
	var out []web.Found
	for _, f := range found {
		out = append(out, web.Found{Job: f.Job, Kind: f.Kind, Name: f.Name, What: f.What, Lies: f.Lies, State: f.State})
	}
	return out, err
}

// KeepPhoto keeps a picture with what it is of.
func (b *behind) KeepPhoto(ctx context.Context, job string, said web.PhotoSaid) (string, error) {
	b.tags.Lock()
	defer b.tags.Unlock()
	story, err := b.s.book.Story(ctx, job)
	if err != nil {
		return "", err
	}
	f := photoFlags{of: said.Of, finding: said.Finding, mark: said.Mark}
	if said.Tag != "" {
		if f.tag, err = b.tagMeant(ctx, story, said.Tag); err != nil {
			return "", err
		}
	}
	if _, there, err := b.s.book.Batch(ctx, job, said.ID); err != nil || there {
		return f.tag, err
	}
	t, err := b.s.tied(ctx, story, f)
	if err != nil {
		return "", err
	}
	kept, err := b.s.book.KeepPhoto("photograph.jpg", t.photo, bytes.NewReader(said.JPEG))
	if err != nil {
		return "", err
	}
	return f.tag, b.s.addPhotos(ctx, job, t, []store.Photo{kept}, said.By, said.ID)
}

// OpenPhoto gives a picture of the book.
func (b *behind) OpenPhoto(ctx context.Context, sum string) (io.ReadCloser, string, error) {
	p, err := b.s.book.Photo(ctx, sum)
	if err != nil {
		return nil, "", err
	}
	r, err := b.s.book.OpenPhoto(p)
	return r, p.Ext, err
}
