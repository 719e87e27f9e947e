package core

import (
	"fmt"
	"slices"
	"strings"
)

// Tag is one unit or part that is off, or about to be: where it belongs, what goes with it, and where it lies. Its number is unique in the shop;
// a part that leaves its mates has a child tag, T-014-03 of T-014. Each entry is the whole tag as it then is.
type Tag struct {
	ID        string      `json:"number"`
	Subsystem string      `json:"subsystem,omitempty"`
	Unit      string      `json:"unit,omitempty"`
	Target    Target      `json:"target,omitzero"`    // "" part: a whole unit, or what no sheet names
	What      string      `json:"what"`               // in words
	Position  string      `json:"position,omitempty"` // and side, where no sheet's position says it
	WayRound  string      `json:"way_round,omitempty"`
	Mates     []string    `json:"mates,omitempty"` // tags it was mated with
	Fasteners []Fasteners `json:"fasteners,omitempty"`
	Shims     []Shim      `json:"shims,omitempty"`
	ShimSign  string      `json:"shim_sign,omitempty"` // what a thicker pack does, in words
	Lies      string      `json:"lies,omitempty"`      // rack-shelf-bin, or "out at ..."
	State     string      `json:"state"`               // one of TagStates
	Word      string      `json:"word,omitempty"`      // the owner's written word, for what is scrapped or returned
	Photos    []string    `json:"photos,omitempty"`    // hashes
	Note      string      `json:"note,omitempty"`
	Differing []TagWord   `json:"differing,omitempty"` // what several wrote into one field who did not see each other's, the last last: it stands until one is chosen
	Stamp
}

// TagWord is what somebody wrote into a field of a tag.
type TagWord struct {
	Field string `json:"field"` // as a page names it: lies
	Text  string `json:"text"`
	Stamp
}

// Differ keeps both of what two wrote into a field who did not see each other's. What stood before is known if it differed already.
func (t *Tag) Differ(before, now TagWord) {
	words := slices.Clone(t.Differing)
	if !slices.ContainsFunc(words, func(w TagWord) bool { return w.Field == now.Field }) {
		words = append(words, before)
	}
	t.Differing = append(words, now)
}

// Settle forgets what differed in a field: one was chosen.
func (t *Tag) Settle(field string) {
	t.Differing = slices.DeleteFunc(slices.Clone(t.Differing), func(w TagWord) bool { return w.Field == field })
}

// Fasteners are those of one joint, in one bag. In is counted at strip, Out when they go back.
type Fasteners struct {
	Bag    string `json:"bag,omitempty"`
	In     int    `json:"in"`
	Out    *int   `json:"out,omitempty"` // nil: not used yet
	Thread string `json:"thread,omitempty"`
	Length string `json:"length,omitempty"`
	Head   string `json:"head,omitempty"` // marks on the heads
	Note   string `json:"note,omitempty"` // longest at rear
}

// Short is how many went missing between strip and build.
func (f Fasteners) Short() int {
	if f.Out == nil {
		return 0
	}
	return max(0, f.In-*f.Out)
}

// Shim is one shim of a pack, in its order from the outside.
type Shim struct {
	Thickness Quantity `json:"thickness"`
	Side      string   `json:"side,omitempty"`
}

// The states of a tag, in the words printed.
const (
	TagOnVehicle = "on vehicle"
	TagOff       = "off"
	TagOut       = "out"
	TagBack      = "back"
	TagBuilt     = "built"
	TagFitted    = "fitted"
	TagReturned  = "returned to owner"
	TagScrapped  = "scrapped with owner's word"
)

// TagStates are all of them, in the order of a job.
var TagStates = []string{TagOnVehicle, TagOff, "cleaned", "measured", "decided", TagOut, TagBack, TagBuilt, TagFitted, TagReturned, TagScrapped}

var tagNumber = onFirstUse(`^T-[0-9]{3,}(-[0-9]{2,})*$`)

// Kind is "tag".
func (t *Tag) Kind() string { return "tag" }

// Number is the tag's.
func (t *Tag) Number() string { return t.ID }

// Prefix is "T-".
func (t *Tag) Prefix() string { return "T-" }

// SetNumber gives it a number.
func (t *Tag) SetNumber(n string) { t.ID = n }

// Parent is the number of the tag it is a child of, or "".
func (t *Tag) Parent() string {
	if strings.Count(t.ID, "-") < 2 {
		return ""
	}
	return t.ID[:strings.LastIndexByte(t.ID, '-')]
}

// Gone reports that the thing is no longer in the shop's keeping.
func (t *Tag) Gone() bool { return t.State == TagReturned || t.State == TagScrapped }

// Check refuses a tag that says too little to find the thing again, and throwing away without the owner's written word.
func (t *Tag) Check(s *Story) error {
	if s.Job.State == StateHandedOver {
		return s.working("tag")
	}
	was := s.Tag(t.ID)
	switch {
	case t.ID != "" && !tagNumber().MatchString(t.ID):
		return Errorf(Invalid, "write T-014, or T-014-03 for a part of it", "%q is no tag number", t.ID)
	case t.Parent() != "" && s.Tag(t.Parent()) == nil:
		return Errorf(NotFound, "tag the assembly first: fettle tag "+s.Job.Number, "there is no tag %s in %s for %s to be part of", t.Parent(), s.Job.Number, t.ID)
	case blank(t.What) && t.Target.Part == "":
		return Errorf(Invalid, "say what it is", "the tag says nothing of the thing")
	case !slices.Contains(TagStates, t.State):
		return Errorf(Invalid, "use one of: "+strings.Join(TagStates, ", "), "%q is no state of a tag", t.State)
	case t.State == TagScrapped && blank(t.Word):
		return Errorf(Conflict, `record it: --word "released in writing, 3 May"`, "nothing is thrown away without the owner's written word")
	case was != nil && was.Gone():
		return Errorf(Conflict, "tag another thing with a new number", "%s is %s", t.ID, was.State)
	case t.Apart() && blank(t.Lies):
		return Errorf(Invalid, "say where: --lies \"rack 2, shelf 3\"", "%s is off the vehicle and nobody could find it", t.words())
	}
	for _, m := range t.Mates {
		if s.Tag(m) == nil {
			return Errorf(NotFound, "tag it first", "there is no tag %s in %s to be mated with", m, s.Job.Number)
		}
	}
	for _, f := range t.Fasteners {
		if f.In < 0 || f.Out != nil && (*f.Out < 0 || *f.Out > f.In) {
			return Errorf(Invalid, "count them again", "of %d fasteners in the bag %s cannot go back", f.In, fmt.Sprint(*f.Out))
		}
	}
	return nil
}

func (t *Tag) fold(s *Story, at Stamp) {
	u := *t
	u.Stamp = at
	if !u.Apart() { // it lies nowhere any more
		u.Lies = ""
	}
	s.Tags = standing(s.Tags, u, func(t Tag) string { return t.ID })
}

// Apart reports that it must lie somewhere in the shop or with somebody.
func (t *Tag) Apart() bool {
	return t.State != TagOnVehicle && t.State != TagFitted && !t.Gone()
}

func (t *Tag) words() string { return strings.TrimSpace(t.ID + " " + t.What) }

// Tag finds a tag of the job, or nil.
func (s *Story) Tag(number string) *Tag {
	if number == "" {
		return nil
	}
	return named(s.Tags, number, func(t Tag) string { return t.ID })
}

// Shortages names the bags that held fewer fasteners when they went back than when they were bagged.
func (s *Story) Shortages() []string {
	var short []string
	for _, t := range s.Tags {
		for _, f := range t.Fasteners {
			if n := f.Short(); n > 0 {
				short = append(short, strings.TrimSpace(fmt.Sprintf("%s: %d of %d missing %s %s", t.words(), n, f.In, f.Thread, f.Length)))
			}
		}
	}
	return short
}
