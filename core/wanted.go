package core

import (
	"fmt"
	"strings"
)

// Wanted says in words what a check is held against: "new 1.9995 to 2 in, fails under 1.9985 in".
func (c Check) Wanted(l Limit) string {
	n := FormatNumber
	unit := " " + c.Unit
	var s string
	switch c.Kind {
	case OneUse:
		return "always new"
	case GoNoGo:
		return "pass or fails"
	case Judged:
		if l.WorstClass != nil {
			s = fmt.Sprintf("class 0 to 3, fails over class %d", *l.WorstClass)
		}
		return s
	case Counted:
		unit = ""
	}
	if l.NewLow != nil && l.NewHigh != nil {
		s = fmt.Sprintf("new %s to %s%s", n(*l.NewLow), n(*l.NewHigh), unit)
		if *l.NewLow == *l.NewHigh {
			s = fmt.Sprintf("new %s%s", n(*l.NewLow), unit)
		}
	}
	if l.WearLow != nil {
		s += fmt.Sprintf(", fails under %s%s", n(*l.WearLow), unit)
	}
	if l.WearHigh != nil {
		s += fmt.Sprintf(", fails over %s%s", n(*l.WearHigh), unit)
	}
	if s == "" {
		s = "no limit yet: a nominal size is missing"
	}
	return strings.TrimPrefix(s, ", ")
}
