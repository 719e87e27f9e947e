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
type photoFlags struct{ of, tag, finding, mark string }

func (c *command) photoCommand() *cobra.Command {
	var f photoFlags
	cmd := &cobra.Command{
		Use: "photo JOB [FILES...]", Short: "Keep pictures, each tied to a tag, a finding, a mark or a view of the as-found list", Args: cobra.MinimumNArgs(1),
		Long: `A picture of nothing in particular is never found again: say what it is of. --of names a view of the as-found list by its key or its name, and more
after a colon, like "wiring-route: behind the dash"; beside a tag, a finding or a mark it is the picture's title. Without files: the pictures there are.`,
		Example: `  fettle photo J-001 IMG_0412.jpg --of corner/LF
  fettle photo J-001 IMG_0431.jpg IMG_0432.jpg --tag T-014
  fettle photo J-001 IMG_0440.jpg --finding gearbox/gear-pair/third
  fettle photo J-001 IMG_0451.jpg --mark "vehicle frame stamp"
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
	cmd.Flags().StringVar(&f.mark, "mark", "", "the identity `MARK` it shows: what it stands on, then where")
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
	t, err := s.tied(ctx, story, f)
	if err != nil {
		return err
	}
	if t.mark != nil && len(files) > 1 {
		return core.Errorf(core.Invalid, "name the one that shows it best; the others are kept with --of", "a mark has one picture, not %d", len(files))
	}
	if err := readable(files); err != nil {
		return err
	}
	v := keptPhotos{Job: story.Job.Number, View: t.view}
	for _, name := range files {
		kept, err := s.keepPhoto(name, t.photo)
		if err != nil {
			return err
		}
		v.Photos = append(v.Photos, kept)
	}
	if t.tag != nil {
		v.Tag = t.tag.ID
	}
	if err := s.addPhotos(ctx, story.Job.Number, t, v.Photos, c.by(), ""); err != nil {
		return err
	}
	words := "kept: " + t.photo.Title
	if t.view != "" {
		words += "\n\n  " + c.self() + " arrive " + v.Job + "    what is still missing"
	}
	return c.report(v, words)
}

// addPhotos adds pictures that are kept to what they are of. batch is an id of them that was made elsewhere, or "".
func (s *shop) addPhotos(ctx context.Context, job string, t tie, kept []store.Photo, by, batch string) error {
	with := store.Together{Photos: kept, Batch: batch}
	if t.mark != nil {
		with.Change = t.mark(kept[0].SHA256)
	}
	var acts []core.Act
	if t.tag != nil {
		for _, p := range kept {
			if !slices.Contains(t.tag.Photos, p.SHA256) {
				t.tag.Photos = append(slices.Clone(t.tag.Photos), p.SHA256)
			}
		}
		acts = []core.Act{t.tag}
	}
	_, err := s.book.ActTogether(ctx, job, by, with, acts...)
	return err
}

// tied finds what pictures are of.
func (s *shop) tied(ctx context.Context, story core.Story, f photoFlags) (t tie, err error) {
	if f.tag == "" && f.finding == "" && f.of == "" && f.mark == "" {
		return t, core.Errorf(core.Invalid, "say it: --of VIEW, --tag T-014, --finding PART or --mark MARK", "what are the pictures of?")
	}
	var names []string
	if f.tag != "" {
		tag := story.Tag(f.tag)
		if tag == nil {
			return t, core.Errorf(core.NotFound, "see: fettle tag "+story.Job.Number, "%s has no tag %s", story.Job.Number, f.tag)
		}
		copied := *tag
		t.tag = &copied
		if err := t.tag.Check(&story); err != nil {
			return t, err
		}
		names = append(names, strings.TrimSpace(tag.ID+" "+tag.What))
	}
	if f.finding != "" {
		found, err := s.findingsCalled(ctx, story.Job.Number, f.finding)
		if err != nil {
			return t, err
		}
		for _, x := range found {
			t.photo.FindingIDs = append(t.photo.FindingIDs, x.ID)
		}
		names = append(names, found[0].Target.String())
	}
	if f.mark != "" {
		if t.mark, err = markCalled(story.Job, f.mark); err != nil {
			return t, err
		}
		names = append(names, f.mark)
	}
	list, err := s.arrivalList()
	if err != nil {
		return t, err
	}
	return t, t.entitle(list.For(story.Job, story.Arrival), f, names)
}

// entitle gives pictures their title: the view of the as-found list they are of, else what was said, else what they are tied to. The picture of a
// mark belongs to the view that is wanted of each mark.
func (t *tie) entitle(list core.ArrivalList, f photoFlags, names []string) error {
	item, more := list.Item(f.of), ""
	_, more, _ = strings.Cut(f.of, ":")
	if i := slices.IndexFunc(list.Photos, func(p core.PhotoItem) bool { return p.Each == core.EachMark }); f.mark != "" && f.of == "" && i >= 0 {
		item, more = &list.Photos[i], f.mark
	}
	switch {
	case item != nil:
		t.view, t.photo.Title = item.Key, strings.TrimSuffix(item.Name+": "+strings.TrimSpace(more), ": ")
	case f.of != "" && len(names) == 0:
		return noView(list, f.of)
	case f.of != "":
		t.photo.Title = f.of
	default:
		t.photo.Title = strings.Join(names, ", ")
	}
	return nil
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
	return errs.orNil()
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
