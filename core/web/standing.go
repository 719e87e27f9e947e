package web

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// The patterns that say with the words how something stands: no colour alone does.
const (
	patternOut  = "out"  // it does not lie in the job
	patternNone = "none" // nothing of it is seen: an empty outline
	patternFit  = "fit"
	patternNear = "near"
	patternPast = "past"
)

// standing is how a subsystem, or the parts of it at a corner, stands: by its worst part that was seen.
type standing struct {
	Worst   core.Grade // of those seen; GradeNone: none was
	Pattern string
	NotSeen int // parts
	Past    int // parts that are past a limit, or not fit for another reason
	Near    int // parts near a limit, or to be measured again
	Parts   int
	Failed  bool // it cannot be assessed at present
}

// Words say the worst of what was seen.
func (s standing) Words() string {
	switch {
	case s.Failed:
		return "not assessed"
	case s.Worst == core.GradeNone:
		return core.NotSeen.String()
	}
	return s.Worst.String()
}

// Rest says how many parts are not seen, where some are.
func (s standing) Rest() string {
	if s.NotSeen == 0 || s.Worst == core.GradeNone {
		return ""
	}
	return count(s.NotSeen, "not seen", "not seen")
}

// Counts say the worst, then how many parts are how.
func (s standing) Counts() string {
	words := []string{s.Words()}
	for _, x := range []struct {
		n  int
		is string
	}{{s.Past, "not fit"}, {s.Near, "near"}, {s.NotSeen, "not seen"}} {
		if x.n > 0 {
			words = append(words, count(x.n, x.is, x.is))
		}
	}
	return strings.Join(words, " · ") + " · of " + count(s.Parts, "part", "parts")
}

// standingOf looks at the parts of a subsystem, or at those at a corner (LF, RF, LR, RR) where it has any there.
func standingOf(us core.UnitSheet, corner string) standing {
	s := standing{Pattern: patternNone, Failed: us.Failed}
	all := us.Assessment.Conditions
	if corner != "" {
		var here []core.Condition
		for _, c := range all {
			if strings.Contains(c.Target.Position, corner) {
				here = append(here, c)
			}
		}
		if len(here) > 0 {
			all = here
		}
	}
	for _, c := range all {
		if alwaysNew(us, c) {
			continue
		}
		s.Parts++
		if c.Grade == core.NotSeen {
			s.NotSeen++
			continue
		}
		s.Worst = max(s.Worst, c.Grade)
		switch patternOf(c.Grade) {
		case patternNear:
			s.Near++
		case patternPast:
			s.Past++
		}
	}
	s.Pattern = patternOf(s.Worst)
	return s
}

// alwaysNew reports that a part is thrown away whatever is read of it, and that nothing was: how it stands says nothing of how worn the rest is.
func alwaysNew(us core.UnitSheet, c core.Condition) bool {
	if c.ReadingsTaken > 0 || patternOf(c.Grade) != patternFit {
		return false
	}
	part := us.Sheet.Part(c.Target.Part)
	return c.ReadingsNeeded == 0 || part != nil && slices.ContainsFunc(part.Checks, func(k core.Check) bool { return k.Kind == core.OneUse })
}

// patternOf draws a grade; GradeNone is nothing seen.
func patternOf(g core.Grade) string {
	switch g {
	case core.GradeNone:
		return patternNone
	case core.WithinNew, core.WornFit:
		return patternFit
	case core.NearLimit, core.MeasureAgain:
		return patternNear
	}
	return patternPast
}
