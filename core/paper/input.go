package paper

import (
	"time"

	"github.com/fettle-tools/fettle/core"
)

// Shop is who issues the paper.
type Shop struct {
	Name    string
	Address []string
	Contact []string
}

// Input is everything a paper is made from.
type Input struct {
	Plan     core.Plan
	Shop     Shop
	Number   string
	Revision string
	Replaces string // the revision or paper it replaces; "" for none
	Date     time.Time
	Zone     *time.Location // the shop's; nil: UTC
	// ValidUntil is the last day on which the scope may be signed; zero: not stated.
	ValidUntil time.Time
	// ApprovalRule is what the shop may spend without asking, in whole sentences; "": ask before everything.
	ApprovalRule string
	Terms        []string    // each is printed with "have them checked locally"
	Rates        []core.Rate // what an hour costs, as shown
	OldParts     string      // what becomes of old parts unless a box is ticked; "" leaves only the boxes
	Storage      string      // storage, insurance, payment and stopping half way; "": said to be not agreed
	Declined     []Declined
	// Authorised says that there is a recorded agreement to the work; until then the work order prints NOT AUTHORISED.
	Authorised bool
	// NotCovered are the ids of lines that the agreement does not cover; each prints NOT AUTHORISED.
	NotCovered []string
	Letter     bool // US letter instead of A4
	// Photos are those that show a finding or a mark of the job; the papers print them at their end.
	Photos []Photo
}

// Photo is a photograph as it was kept: JPEG or PNG bytes under the hash of its content.
type Photo struct {
	SHA256     string
	Title      string
	FindingIDs []string
	Bytes      []byte
	Fault      string // why there are no bytes; "" if there are
}

// Declined is work that the owner has said no to.
type Declined struct {
	Text   string
	Safety bool // the vehicle then leaves on a trailer
}

// date writes a day as people write it, in the shop's zone.
func (in Input) date(t time.Time) string { return t.In(in.zone()).Format("2 January 2006") }

func (in Input) zone() *time.Location {
	if in.Zone == nil {
		return time.UTC
	}
	return in.Zone
}

// document opens a paper with what all of them share.
func (in Input) document(title string) Document {
	return Document{Title: title, Subject: in.subject(), Author: in.Shop.Name, Number: in.Number, Revision: in.Revision,
		Date: in.Date.In(in.zone()), Letter: in.Letter}
}

// subject is the job in one line.
func (in Input) subject() string {
	j := in.Plan.Job
	s := "Job " + j.Number
	if j.Title != "" {
		s += ": " + j.Title
	}
	return s
}

// letterhead gives the shop and the paper's facts.
func (in Input) letterhead(title string) Letterhead {
	j := in.Plan.Job
	facts := []Fact{{"Number", in.Number}}
	if in.Revision != "" {
		facts = append(facts, Fact{"Revision", in.Revision})
	}
	if in.Replaces != "" {
		facts = append(facts, Fact{"Replaces", in.Replaces})
	}
	facts = append(facts, Fact{"Date", in.date(in.Date)}, Fact{"Job", j.Number}, Fact{"Owner", j.Owner.Name})
	if !in.ValidUntil.IsZero() {
		facts = append(facts, Fact{"Valid until", in.date(in.ValidUntil)})
	}
	return Letterhead{Shop: in.Shop, Title: title, Facts: facts}
}
