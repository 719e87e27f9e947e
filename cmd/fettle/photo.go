package main

import (
	"context"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

// photoFlags say what pictures are of.
type photoFlags struct{ of, tag, finding string }

func (c *command) photoCommand() *cobra.Command {
	var f photoFlags
	cmd := &cobra.Command{
		Use: "photo JOB [FILES...]", Short: "Keep pictures, each tied to a tag, a finding or a view of the as-found list", Args: cobra.MinimumNArgs(1),
		Long: `A picture of nothing in particular is never found again: say what it is of. --of names a view of the as-found list by its key or its name, and more
after a colon, like "wiring-route: behind the dash"; beside a tag or a finding it is the picture's title. Without files: the pictures there are.`,
		Example: `  fettle photo J-001 IMG_0412.jpg --of corner/LF
  fettle photo J-001 IMG_0431.jpg IMG_0432.jpg --tag T-014
  fettle photo J-001 IMG_0440.jpg --finding gearbox/gear-pair/third
  fettle photo J-001`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				if len(args) == 1 {
					return c.showPhotos(cmd.Context(), s, story)
				}
				return c.keepPhotos(cmd.Context(), s, story, args[1:], f)
			})
		},
	}
	cmd.Flags().StringVar(&f.of, "of", "", "the `VIEW` of the as-found list; or the title, beside --tag or --finding")
	cmd.Flags().StringVar(&f.tag, "tag", "", "the `TAG` of what it shows")
	cmd.Flags().StringVar(&f.finding, "finding", "", "the finding it shows: its `ID`, or the part found on")
	return cmd
}

// keptPhotos is what photo --json prints after keeping some.
type keptPhotos struct {
	Job    string        `json:"job"`
	Photos []store.Photo `json:"photos"`
	Tag    string        `json:"tag,omitempty"`
	View   string        `json:"view,omitempty"`
}

func (c *command) keepPhotos(ctx context.Context, s *shop, story core.Story, files []string, f photoFlags) error {
	p, tag, view, err := c.tied(ctx, s, story, f)
	if err != nil {
		return err
	}
	if err := readable(files); err != nil {
		return err
	}
	v := keptPhotos{Job: story.Job.Number, View: view}
	for _, name := range files {
		kept, err := s.keepPhoto(name, p)
		if err != nil {
			return err
		}
		v.Photos = append(v.Photos, kept)
	}
	var acts []core.Act
	words := "kept: " + p.Title
	if tag != nil {
		for _, kept := range v.Photos {
			if !slices.Contains(tag.Photos, kept.SHA256) {
				tag.Photos = append(slices.Clone(tag.Photos), kept.SHA256)
			}
		}
		acts, v.Tag = []core.Act{tag}, tag.ID
	}
	if _, err := s.book.ActTogether(ctx, story.Job.Number, c.by(), store.Together{Photos: v.Photos}, acts...); err != nil {
		return err
	}
	if view != "" {
		words += "\n\n  " + c.self() + " arrive " + v.Job + "    what is still missing"
	}
	return c.report(v, words)
}

// tied finds what pictures are of: their title and findings, the tag they belong to, the view of the as-found list.
func (c *command) tied(ctx context.Context, s *shop, story core.Story, f photoFlags) (p store.Photo, tag *core.Tag, view string, err error) {
	if f.tag == "" && f.finding == "" && f.of == "" {
		return p, nil, "", core.Errorf(core.Invalid, "say it: --of VIEW, --tag T-014 or --finding PART", "what are the pictures of?")
	}
	var names []string
	if f.tag != "" {
		t := story.Tag(f.tag)
		if t == nil {
			return p, nil, "", core.Errorf(core.NotFound, "see: fettle tag "+story.Job.Number, "%s has no tag %s", story.Job.Number, f.tag)
		}
		copied := *t
		tag = &copied
		if err := tag.Check(&story); err != nil {
			return p, nil, "", err
		}
		names = append(names, strings.TrimSpace(t.ID+" "+t.What))
	}
	if f.finding != "" {
		found, err := s.findingsCalled(ctx, story.Job.Number, f.finding)
		if err != nil {
			return p, nil, "", err
		}
		for _, x := range found {
			p.FindingIDs = append(p.FindingIDs, x.ID)
		}
		names = append(names, found[0].Target.String())
	}
	list, err := s.arrivalList()
	if err != nil {
		return p, nil, "", err
	}
	list = list.For(story.Job, story.Arrival)
	item := list.Item(f.of)
	switch {
	case item != nil:
		view, p.Title = item.Key, item.Name
		if _, more, ok := strings.Cut(f.of, ":"); ok {
			p.Title += ": " + strings.TrimSpace(more)
		}
	case f.of != "" && len(names) == 0:
		return p, nil, "", noView(list, f.of)
	case f.of != "":
		p.Title = f.of
	default:
		p.Title = strings.Join(names, ", ")
	}
	return p, tag, view, nil
}

func noView(list core.ArrivalList, typed string) error {
	var keys, names []string
	for _, p := range list.Photos {
		head, _, _ := strings.Cut(p.Key, "/")
		keys, names = append(keys, p.Key), append(names, p.Name, head)
		if strings.EqualFold(head, typed) {
			return core.Errorf(core.Invalid, "say which: "+strings.Join(list.Keys(head), ", "), "%q is several views of the as-found list", typed)
		}
	}
	next := "name one of: " + strings.Join(keys, ", ") + "; or tie it with --tag or --finding"
	if near := core.Nearest(typed, append(keys, names...)); near != "" {
		next = "did you mean \"" + near + "\"?"
	}
	return core.Errorf(core.Invalid, next, "the as-found list has no view %q", typed)
}

// findingsCalled gives the live finding of an id, or those on a part.
func (s *shop) findingsCalled(ctx context.Context, job, name string) ([]core.Finding, error) {
	all, err := s.book.Findings(ctx, job)
	if err != nil {
		return nil, err
	}
	var found []core.Finding
	var places []string
	for _, f := range all {
		short := core.Place{Subsystem: f.Subsystem, Target: f.Target}
		for _, word := range []string{f.ID, f.Place().String(), short.String(), f.Target.String(), f.Target.Part, f.Subsystem + "/" + f.Target.Part} {
			if strings.EqualFold(word, name) {
				found = append(found, f)
				break
			}
		}
		places = append(places, short.String())
	}
	if len(found) == 0 {
		next := "record it first: fettle record " + job + " ..."
		if near := core.Nearest(name, places); near != "" {
			next = "did you mean \"" + near + "\"?"
		}
		return nil, core.Errorf(core.NotFound, next, "nothing is found on %q in %s", name, job)
	}
	for _, f := range found {
		if f.Place().Subsystem != found[0].Subsystem || f.Unit != found[0].Unit || f.Target.Part != found[0].Target.Part {
			return nil, core.Errorf(core.Invalid, "say which: "+found[0].Place().String()+" or "+f.Place().String(), "%q is more than one part", name)
		}
	}
	return found, nil
}

// readable tells every file that cannot be kept, before any is.
func readable(files []string) error {
	var errs faults
	for _, name := range files {
		info, err := os.Stat(name)
		switch {
		case err != nil:
			errs = append(errs, &core.Error{Code: core.NotFound, What: "the picture cannot be read", Where: name, Next: "check its name", Err: err})
		case !info.Mode().IsRegular() || info.Size() == 0:
			errs = append(errs, &core.Error{Code: core.Invalid, What: "this is no picture", Where: name, Next: "name a file with something in it"})
		}
	}
	if len(errs) > 0 {
		return errs
	}
	return nil
}

func (s *shop) keepPhoto(name string, p store.Photo) (store.Photo, error) {
	f, err := os.Open(name)
	if err != nil {
		return p, &core.Error{Code: core.NotFound, What: "the picture cannot be read", Where: name, Next: "check who may read it", Err: err}
	}
	defer func() { _ = f.Close() }()
	return s.book.KeepPhoto(name, p, f)
}

// showPhotos lists the pictures of a job with what each is tied to.
func (c *command) showPhotos(ctx context.Context, s *shop, story core.Story) error {
	photos, err := s.book.Photos(ctx, story.Job.Number)
	if err != nil {
		return err
	}
	if c.asJSON() {
		return writeJSON(c.out, photos)
	}
	if len(photos) == 0 {
		c.print("There are no pictures yet.\n\n  " + c.self() + " arrive " + story.Job.Number + "    the as-found list")
		return nil
	}
	t := newTable("of", "file")
	for _, p := range photos {
		t.add(p.Title, store.PhotosDir+"/"+p.SHA256+p.Ext)
	}
	t.print(c.out, "", screen)
	return nil
}
