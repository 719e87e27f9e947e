package core

import (
	"cmp"
	"slices"
	"strings"
)

// What an identity mark may say.
const (
	MarkAgrees     = "agrees"
	MarkOtherType  = "later or earlier type"
	MarkOtherModel = "from another model"
	MarkUnknown    = "unknown"
	MarkNotFound   = "not found yet" // looked for, so far in vain
	MarkAltered    = "looks altered" // stops orders and the scope until the owner is told in writing
)

// MarkWords are all of them, in the words printed.
var MarkWords = []string{MarkAgrees, MarkOtherType, MarkOtherModel, MarkUnknown, MarkNotFound, MarkAltered}

// Mark is an identity mark as read, and what it says of the unit it stands on.
type Mark struct {
	Where    string `json:"where"`
	Text     string `json:"text"`
	Expected string `json:"expected,omitempty"`
	Says     string `json:"says"` // one of MarkWords
	Note     string `json:"note,omitempty"`
	Photo    string `json:"photo,omitempty"` // hash of its picture
	// Told says how and when the owner was told in writing of a mark that looks altered.
	Told string `json:"told,omitempty"`
}

// Check refuses a mark that says nothing of the unit, or stands nowhere.
func (m Mark) Check() error {
	if blank(m.Where) {
		return Errorf(Invalid, "say where it stands: case front, frame stamp", "the mark stands nowhere")
	}
	if !slices.Contains(MarkWords, m.Says) {
		return Errorf(Invalid, "use one of: "+strings.Join(MarkWords, ", "), "%q is not what a mark says", m.Says)
	}
	return nil
}

// PutMark puts a mark in the place of the one that stood at the same place, whose picture it keeps, or last.
func PutMark(marks []Mark, m Mark) []Mark {
	out := slices.Clone(marks)
	if i := slices.IndexFunc(out, func(n Mark) bool { return n.Where == m.Where }); i >= 0 {
		m.Photo = cmp.Or(m.Photo, out[i].Photo)
		out[i] = m
		return out
	}
	return append(out, m)
}

// Foreign reports that what the mark stands on is not what the vehicle left with.
func (m Mark) Foreign() bool { return m.Says == MarkOtherType || m.Says == MarkOtherModel }

// Marks are all identity marks of a job: its vehicle's, then its units', those taken out too.
func (j Job) Marks() []Mark {
	var all []Mark
	if j.Vehicle != nil {
		all = append(all, j.Vehicle.Marks...)
	}
	for _, u := range j.Units {
		all = append(all, u.Marks...)
	}
	return all
}

// Altered says where a mark stands that looks altered and of which the owner has not been told in writing; "" if there is none. It stops the
// strip-down, orders, agreements and scope.
func (j Job) Altered() string {
	for _, m := range j.Marks() {
		if m.Says == MarkAltered && blank(m.Told) {
			return m.Where
		}
	}
	return ""
}

type markOn struct {
	on string // vehicle, or a unit
	Mark
}

// marksHere are those of the vehicle and of the units that were not taken out.
func (j Job) marksHere() []markOn {
	var all []markOn
	if j.Vehicle != nil {
		for _, m := range j.Vehicle.Marks {
			all = append(all, markOn{"vehicle", m})
		}
	}
	for _, u := range j.Units {
		if u.Role != UnitOut {
			for _, m := range u.Marks {
				all = append(all, markOn{u.ID, m})
			}
		}
	}
	return all
}

// MarksMissing names the identity marks that were looked for and not found yet.
func (j Job) MarksMissing() []string {
	missing := []string{}
	for _, m := range j.marksHere() {
		if m.Says == MarkNotFound {
			missing = append(missing, m.on+": "+m.Where)
		}
	}
	return missing
}

// Unmarked names the vehicle and units of which no mark at all is written down.
func (j Job) Unmarked() []string {
	bare := []string{}
	if j.Vehicle != nil && len(j.Vehicle.Marks) == 0 {
		bare = append(bare, "vehicle")
	}
	for _, u := range j.Units {
		if u.Role != UnitOut && len(u.Marks) == 0 {
			bare = append(bare, u.ID)
		}
	}
	return bare
}
