package web

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// Tagging keeps what is off, and where it lies.
type Tagging interface {
	// JobOf is the job that a tag's number belongs to; NotFound if none has it.
	JobOf(ctx context.Context, number string) (string, error)
	// Tag makes a tag or changes one, and gives it as it then stands. What was sent under the same id before is taken already.
	Tag(ctx context.Context, job string, said TagSaid) (core.Tag, error)
	// CameOff names the steps of a job that took something off, the last first.
	CameOff(ctx context.Context, job string) ([]string, error)
	// Parts are those that the sheets of a job's subsystems name, each keyed as a tag takes it: "gearbox/layshaft-cluster".
	Parts(ctx context.Context, job string) ([]Named, error)
	// Find looks for words in every job: tags and all else that has a place or a name.
	Find(ctx context.Context, words string) ([]Found, error)
}

// TagSaid is what a page says of a tag.
type TagSaid struct {
	ID     string // made on the device; "" without one
	By     string
	Number string // of one that is there; "" makes one
	Of     string // a new one is a part of this
	Given  TagFields
	Seen   map[string]string // the fields of one that is there as they were seen where this was typed: by TagTexts
	At     time.Time         // when it was typed
}

// TagFields are what changes, by their names in tagFields, as typed. Fasteners, shims and counts have one value a line, mates one a tag.
type TagFields map[string][]string

// tagFields are the fields of a tag that a page may change.
var tagFields = []string{"what", "lies", "state", "position", "way", "mates", "fasteners", "shims", "count-out", "sign", "word", "note"}

// Found is one thing that has the words looked for.
type Found struct {
	Job, Kind, Name, What, Lies, State string
}

// To is the page of it.
func (f Found) To() string {
	switch f.Kind {
	case "tag":
		return "/tags/" + f.Name
	case "finding":
		bench, _, _ := strings.Cut(f.Name, "/")
		return "/jobs/" + f.Job + "/bench/" + bench
	}
	return "/jobs/" + f.Job
}

// Called is its name in words: of a finding the part, where it sits and what was read of it.
func (f Found) Called() string {
	place, check, read := strings.Cut(f.Name, " ")
	_, part, placed := strings.Cut(place, "/")
	if f.Kind != "finding" || !read || !placed {
		return f.Name
	}
	part, position, _ := strings.Cut(part, "/")
	return core.Capital(strings.TrimSpace(plain(part)+" "+position)) + ", " + plain(check)
}

// mostTags is how many tags a page shows before the parts of an assembly are left to its own page.
const mostTags = 60

// tagsPage is what is off in a job, and where it lies.
type tagsPage struct {
	frame
	Short   []string // bags that came back short
	Tags    []tagLine
	Off     []string // what came off last and has no tag
	Shelves []string // in use
	Parts   []Named
	Typed   map[string]string // where it was not taken
	Faults  []told
	picks   []pictured
}

type tagLine struct {
	core.Tag
	Parts int // that are left to its own page
}

// Depth is how far it is a part of a part.
func (l tagLine) Depth() int { return min(2, strings.Count(l.ID, "-")-1) }

// pictured is a tag that a photograph may be of, for the page's script.
type pictured struct {
	Number string `json:"number"`
	What   string `json:"what"`
}

// Picks are the tags of the job, the last written first.
func (p tagsPage) Picks() []pictured { return p.picks }

// tagPage is one tag.
type tagPage struct {
	frame
	Tag     *core.Tag
	Parts   []core.Tag // its children
	Differ  []differing
	Shelves []string
	Fields  map[string]string // as they stand
	Typed   map[string]string // as they were typed where they were not taken
	Faults  []told
}

// States are those a tag may have.
func (tagPage) States() []string { return core.TagStates }

// differing is a field into which several wrote who did not see each other's words.
type differing struct {
	Field, Name, Stands string
	Words               []core.TagWord // the first first
}

// tagFieldNames are the fields in words.
var tagFieldNames = map[string]string{"what": "What it is", "lies": "Where it lies", "state": "What became of it", "position": "Where it belongs", "way": "Which way round", "mates": "What it is mated with",
	"fasteners": "Its fasteners", "shims": "Its shims", "count-out": "How many went back", "sign": "What a thicker pack does", "word": "The owner's word", "note": "The note"}

// differingOf are the fields of a tag in which words differ, in the order of tagFields.
func differingOf(t core.Tag) []differing {
	var out []differing
	stands := TagTexts(t)
	for _, f := range tagFields {
		d := differing{Field: f, Name: tagFieldNames[f], Stands: stands[f]}
		for _, w := range t.Differing {
			if w.Field == f {
				d.Words = append(d.Words, w)
			}
		}
		if len(d.Words) > 0 {
			out = append(out, d)
		}
	}
	return out
}

// Out are its bags with what was counted out.
func (p tagPage) Out() []bagLine {
	var out []bagLine
	counts := strings.Split(p.Typed["count-out"], "\n")
	for i, f := range p.Tag.Fasteners {
		b := bagLine{Name: f.String(), Was: countOf(f.Out)}
		b.Out = b.Was
		if i < len(counts) && p.Typed["count-out"] != "" {
			b.Out = counts[i]
		}
		out = append(out, b)
	}
	return out
}

type bagLine struct{ Name, Out, Was string }

func countOf(n *int) string {
	if n == nil {
		return ""
	}
	return strconv.Itoa(*n)
}

// Packs are its shims in their order, those of one side together.
func (p tagPage) Packs() []string { return packs(p.Tag.Shims) }

// packs writes shims as they are read, a line a side.
func packs(shims []core.Shim) []string {
	var out []string
	for i := 0; i < len(shims); {
		side, n := shims[i].Side, i
		var sizes []string
		for ; i < len(shims) && shims[i].Side == side; i++ {
			sizes = append(sizes, shims[i].Thickness.String())
		}
		line := strings.Join(sizes, " ")
		if side != "" {
			line = side + ": " + line
		}
		if n < i {
			out = append(out, line)
		}
	}
	return out
}

// TagTexts are a tag's fields as a form has them, by their names in tagFields.
func TagTexts(t core.Tag) map[string]string {
	var bags, counts []string
	for _, f := range t.Fasteners {
		counts = append(counts, countOf(f.Out))
		f.Out = nil
		bags = append(bags, f.String())
	}
	return map[string]string{"what": whatOf(t), "lies": t.Lies, "state": t.State, "position": t.Position, "way": t.WayRound, "mates": strings.Join(t.Mates, ", "),
		"fasteners": strings.Join(bags, "\n"), "shims": strings.Join(packs(t.Shims), "\n"), "count-out": strings.Join(counts, "\n"), "sign": t.ShimSign, "word": t.Word, "note": t.Note}
}

// whatOf is what a tag is on, as it is typed: a part of a sheet by its address, else words.
func whatOf(t core.Tag) string {
	if t.Target.Part == "" {
		return t.What
	}
	return core.Place{Subsystem: t.Subsystem, Unit: t.Unit, Target: t.Target}.String()
}

func (s *Server) showTags(w http.ResponseWriter, r *http.Request) error {
	p, err := s.tagsPage(r)
	if err != nil {
		return err
	}
	p.Typed = map[string]string{"what": r.FormValue("what"), "of": r.FormValue("of")}
	return s.show(w, http.StatusOK, "tags", p)
}

func (s *Server) tagsPage(r *http.Request) (tagsPage, error) {
	ctx := r.Context()
	story, err := s.Stories.Story(ctx, r.PathValue("job"))
	if err != nil {
		return tagsPage{}, err
	}
	p := tagsPage{frame: s.jobFrame(r, "Tags", &story.Job), Short: story.Shortages(), Shelves: placesOf(story.Tags)}
	if p.Parts, err = s.Tagging.Parts(ctx, story.Job.Number); err != nil {
		return p, err
	}
	off, err := s.Tagging.CameOff(ctx, story.Job.Number)
	if err != nil {
		return p, err
	}
	for _, name := range off {
		what := cameOff(name)
		if what != "" && len(p.Off) < 3 && !slices.ContainsFunc(story.Tags, func(t core.Tag) bool { return strings.EqualFold(t.What, what) }) {
			p.Off = append(p.Off, what)
		}
	}
	latest := slices.Clone(story.Tags)
	slices.SortStableFunc(latest, func(a, b core.Tag) int { return b.At.Compare(a.At) })
	for _, t := range latest {
		if !t.Gone() {
			p.picks = append(p.picks, pictured{t.ID, t.What})
		}
	}
	p.Tags = tagLines(story.Tags)
	return p, nil
}

// tagLines are tags in the order of their numbers; of very many, the parts of an assembly are left to its own page.
func tagLines(tags []core.Tag) []tagLine {
	tags = slices.Clone(tags)
	slices.SortStableFunc(tags, func(a, b core.Tag) int { return strings.Compare(a.ID, b.ID) })
	var lines []tagLine
	for _, t := range tags {
		if len(tags) <= mostTags || t.Parent() == "" {
			lines = append(lines, tagLine{Tag: t})
		} else if n := len(lines); n > 0 && strings.HasPrefix(t.ID, lines[n-1].ID+"-") {
			lines[n-1].Parts++
		}
	}
	return lines
}

// placesOf are the places where something lies.
func placesOf(tags []core.Tag) []string {
	var places []string
	for _, t := range tags {
		if t.Lies != "" && t.Apart() && t.State != core.TagOut {
			places = append(places, t.Lies)
		}
	}
	slices.Sort(places)
	return slices.Compact(places)
}

// makeTag makes a tag.
func (s *Server) makeTag(w http.ResponseWriter, r *http.Request) error {
	id, err := formID(r)
	if err != nil {
		return err
	}
	typed := typedFields(r)
	typed["of"] = strings.TrimSpace(r.FormValue("of"))
	said := TagSaid{ID: id, By: s.byWhom(r), Of: typed["of"], Given: given(typed, map[string]string{})}
	t, err := s.Tagging.Tag(r.Context(), r.PathValue("job"), said)
	if err == nil {
		return went(w, r, "/tags/"+t.ID)
	}
	if code := core.ErrorCode(err); byScript(r) || code == core.Internal || code == core.Unavailable {
		return err
	}
	p, pageErr := s.tagsPage(r)
	if pageErr != nil {
		return err
	}
	p.Typed, p.Faults = typed, faultsOf(err)
	return s.show(w, statuses[core.ErrorCode(err)], "tags", p)
}

// tagNumber is a tag's number as somebody or a scanner types it: T-014, t14, 014, T-014-03.
var tagNumber = regexp.MustCompile(`^[Tt]?-?([0-9]{1,6})((?:-[0-9]{1,2})*)$`)

// asTag writes what was typed as a tag's number; "" if it is none.
func asTag(typed string) string {
	typed = strings.TrimSpace(typed)
	if _, number, ok := strings.Cut(typed, "/tags/"); ok { // the address of its page
		typed = number
	}
	m := tagNumber.FindStringSubmatch(typed)
	if m == nil {
		return ""
	}
	n, _ := strconv.Atoi(m[1]) // six digits at most
	number := fmt.Sprintf("T-%03d", n)
	for part := range strings.SplitSeq(strings.TrimPrefix(m[2], "-"), "-") {
		if part != "" {
			k, _ := strconv.Atoi(part)
			number += fmt.Sprintf("-%02d", k)
		}
	}
	return number
}

func (s *Server) showTag(w http.ResponseWriter, r *http.Request) error {
	number := asTag(r.PathValue("tag"))
	if number != "" && number != r.PathValue("tag") {
		http.Redirect(w, r, "/tags/"+number, http.StatusSeeOther)
		return nil
	}
	p, err := s.tagPage(r, r.PathValue("tag"))
	if err != nil {
		return err
	}
	return s.show(w, http.StatusOK, "tag", p)
}

func (s *Server) tagPage(r *http.Request, number string) (tagPage, error) {
	none := core.Errorf(core.NotFound, "look for it by a word: what it is, or where it lies", "nothing has the tag %s", number)
	job, err := s.Tagging.JobOf(r.Context(), number)
	if core.ErrorCode(err) == core.NotFound {
		return tagPage{}, none
	}
	if err != nil {
		return tagPage{}, err
	}
	story, err := s.Stories.Story(r.Context(), job)
	if err != nil {
		return tagPage{}, err
	}
	t := story.Tag(number)
	if t == nil {
		return tagPage{}, none
	}
	p := tagPage{frame: s.jobFrame(r, "Tags", &story.Job), Tag: t, Shelves: placesOf(story.Tags), Fields: TagTexts(*t), Differ: differingOf(*t)}
	p.Title, p.Typed = t.ID+" "+t.What, p.Fields
	for _, c := range story.Tags {
		if c.Parent() == t.ID {
			p.Parts = append(p.Parts, c)
		}
	}
	slices.SortFunc(p.Parts, func(a, b core.Tag) int { return strings.Compare(a.ID, b.ID) })
	return p, nil
}

// changeTag changes what was changed in the form, and nothing else of the tag.
func (s *Server) changeTag(w http.ResponseWriter, r *http.Request) error {
	number := r.PathValue("tag")
	id, err := formID(r)
	if err != nil {
		return err
	}
	job, err := s.Tagging.JobOf(r.Context(), number)
	if err != nil {
		return err
	}
	typed, was := typedFields(r), map[string]string{}
	for _, f := range tagFields {
		if seen, sent := r.Form["was-"+f]; sent {
			was[f] = typedText(seen)
		}
	}
	said := TagSaid{ID: id, By: s.byWhom(r), Number: number, Given: given(typed, was), Seen: was, At: s.typedAt(r.FormValue("typed-at"))}
	if f := r.FormValue("settles"); slices.Contains(tagFields, f) { // what stands may be what was chosen
		said.Given[f] = partsOf(f, typed[f])
	}
	if len(said.Given) > 0 {
		_, err = s.Tagging.Tag(r.Context(), job, said)
	}
	if err == nil {
		return went(w, r, "/tags/"+number)
	}
	if code := core.ErrorCode(err); byScript(r) || code == core.Internal || code == core.Unavailable {
		return err
	}
	p, pageErr := s.tagPage(r, number)
	if pageErr != nil {
		return err
	}
	for k, v := range typed {
		if _, sent := r.Form[k]; !sent {
			typed[k] = p.Fields[k]
		} else {
			typed[k] = v
		}
	}
	p.Typed, p.Faults = typed, faultsOf(err)
	return s.show(w, statuses[core.ErrorCode(err)], "tag", p)
}

// typedFields are the fields of a tag as they came with a form.
func typedFields(r *http.Request) map[string]string {
	_ = r.FormValue("") // reads the form; one that cannot be read has no fields, and the act says what is missing
	typed := map[string]string{}
	for _, f := range tagFields {
		typed[f] = typedText(r.Form[f])
	}
	return typed
}

// typedText puts the values of one field under one another, as a browser's line ends are not ours.
func typedText(values []string) string {
	return strings.TrimRight(strings.ReplaceAll(strings.Join(values, "\n"), "\r\n", "\n"), " ")
}

// given are the fields that differ from what they were, each parted as it is read.
func given(typed, was map[string]string) TagFields {
	out := TagFields{}
	for f, v := range typed {
		if f != "of" && v != was[f] {
			out[f] = partsOf(f, v)
		}
	}
	return out
}

// partsOf parts a field as it is read.
func partsOf(field, text string) []string {
	switch field {
	case "mates":
		return names(text)
	case "fasteners", "shims":
		return slices.DeleteFunc(strings.Split(text, "\n"), func(l string) bool { return strings.TrimSpace(l) == "" })
	case "count-out":
		return strings.Split(text, "\n")
	}
	return []string{strings.TrimSpace(text)}
}

// findPage is what has the words looked for.
type findPage struct {
	frame
	Words string
	Found []Found
}

// find looks for a tag by its number, or for anything by words.
func (s *Server) find(w http.ResponseWriter, r *http.Request) error {
	p := findPage{frame: s.frame(r, "Find"), Words: strings.TrimSpace(r.FormValue("q"))}
	if number := asTag(p.Words); number != "" {
		if _, err := s.Tagging.JobOf(r.Context(), number); err == nil {
			http.Redirect(w, r, "/tags/"+url.PathEscape(number), http.StatusSeeOther)
			return nil
		}
	}
	if p.Words != "" {
		var err error
		if p.Found, err = s.Tagging.Find(r.Context(), p.Words); err != nil {
			return err
		}
	}
	return s.show(w, http.StatusOK, "find", p)
}
