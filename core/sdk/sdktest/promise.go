package sdktest

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
)

// Promise is what an assessor owes whoever relies on it.
type Promise string

// The promises, in the order tried.
const (
	Answers       Promise = "every call is answered, and good facts raise no error"
	Deterministic Promise = "the same input gives the same output, byte for byte"
	Sourced       Promise = "every limit, rule and life has its source"
	Checked       Promise = "every part has a check"
	Resolves      Promise = "every id names something, once"
	Chances       Promise = "the chances of a part's states sum to 1"
	StatesFit     Promise = "a part that was seen has one state; one that straddles its limit has two, by its chance"
	Sane          Promise = "no figure is NaN, negative or out of order"
	BlankNoPass   Promise = "a blank is never a pass"
	NewIsFit      Promise = "a unit that reads as new is fit"
	OnlyWorsens   Promise = "walking a reading from new past its limit only worsens the grade"
	Crosses       Promise = "the grade passes the limit where the reading does, within its uncertainty"
	CanFail       Promise = "every check can be failed"
	Answered      Promise = "a remedy answers every failure"
	GradeCloses   Promise = "a grade that rules out reuse closes it"
	Explained     Promise = "every verdict says why, with its source"
	OneUseIsNew   Promise = "a one-use part is always replaced"
	NoReuse       Promise = "a no-reuse finding never comes back as reuse"
	MissingIsNew  Promise = "a missing part can only be replaced"
	UsedOrNamed   Promise = "every finding is used, or named in a problem"
	WorseGoverns  Promise = "of two readings the worse governs"
	Overridden    Promise = "a limit that is overridden is obeyed"
	OrderIsNought Promise = "the order of findings changes nothing"
	UnitIsNought  Promise = "the unit a reading was typed in changes nothing"
)

// Fault is one broken promise and where it broke.
type Fault struct {
	Promise Promise
	Target  core.Target // the zero Target: the whole sheet
	Check   string      // "" if no check is concerned
	What    string      // what was done and what came of it
}

// String gives the fault on one line.
func (f Fault) String() string {
	where := f.Target.String()
	if f.Check != "" {
		where += " " + f.Check
	}
	if where != "" {
		where += ": "
	}
	return fmt.Sprintf("%s%s (promise: %s)", where, f.What, f.Promise)
}
