package core

import (
	"fmt"
	"time"
)

// Finding is one thing observed on one part: kept as typed, never changed, only superseded.
type Finding struct {
	ID         string    `json:"id"`
	Subsystem  string    `json:"subsystem"`
	Unit       string    `json:"unit"` // unit id; "" = the job's only unit with that subsystem
	Target     Target    `json:"target"`
	Check      string    `json:"check"`
	Station    string    `json:"station,omitempty"`
	Value      Value     `json:"value"`
	AsTyped    string    `json:"as_typed"`
	Instrument string    `json:"instrument,omitempty"`
	By         string    `json:"by,omitempty"`
	At         time.Time `json:"at"` // UTC
	Note       string    `json:"note,omitempty"`
	Supersedes []string  `json:"supersedes,omitempty"`
}

// Place is where the finding belongs.
func (f Finding) Place() Place { return Place{f.Subsystem, f.Unit, f.Target} }

// ValueKind says which field of a Value holds.
type ValueKind int

// The kinds of value. ValueNone is no value at all: never a pass.
const (
	ValueNone ValueKind = iota
	ValueQuantity
	ValueCount
	ValueClass
	ValuePass
	ValueWord
	ValueNotRead
)

// Value is what a finding or a fact says: exactly one of its fields, by Kind.
type Value struct {
	Kind     ValueKind `json:"kind"`
	Quantity Quantity  `json:"quantity,omitzero"`
	Count    int       `json:"count,omitempty"`
	Class    int       `json:"class,omitempty"` // damage class 0 none .. 3 past repair
	Pass     bool      `json:"pass,omitempty"`
	Word     string    `json:"word,omitempty"`
	NotRead  NotRead   `json:"not_read,omitempty"`
}

// NotRead is why there is no reading. It is an answer; a blank is not.
type NotRead string

// The reasons for no reading, in the words written and read.
const (
	NotMeasured   NotRead = "not measured"
	CouldNotReach NotRead = "could not reach"
	PartMissing   NotRead = "missing"
	ByEye         NotRead = "by eye"
	Lost          NotRead = "lost" // it came already apart: the reading can never be taken
)

// NotReadWords lists every NotRead.
var NotReadWords = []NotRead{NotMeasured, CouldNotReach, PartMissing, ByEye, Lost}

// Number gives the value as a number in the unit it was given: quantity, count, class; ok is false for the others.
func (v Value) Number() (n float64, ok bool) {
	switch v.Kind {
	case ValueQuantity:
		return v.Quantity.Value, true
	case ValueCount:
		return float64(v.Count), true
	case ValueClass:
		return float64(v.Class), true
	}
	return 0, false
}

// String gives the value as a mechanic would read it back.
func (v Value) String() string {
	switch v.Kind {
	case ValueQuantity:
		return v.Quantity.String()
	case ValueCount:
		return fmt.Sprintf("%d", v.Count)
	case ValueClass:
		return fmt.Sprintf("class %d", v.Class)
	case ValuePass:
		if v.Pass {
			return "pass"
		}
		return "fails"
	case ValueWord:
		return v.Word
	case ValueNotRead:
		return string(v.NotRead)
	}
	return "blank"
}

// Fact is something known of a unit: a nominal size, a number of bearings, a word.
type Fact struct {
	Name   string `json:"name"`
	Value  Value  `json:"value"`
	Source string `json:"source"`
}
