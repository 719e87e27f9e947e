package sdk

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
)

// sizeWords writes a value and its unit.
func sizeWords(x float64, unit string) string { return core.Quantity{Value: x, Unit: unit}.String() }

// LimitWords writes a limit in the trade's words: "new 2.4995 to 2.5 in, not under 2.4985 in".
func LimitWords(l core.Limit) string {
	s := ""
	switch {
	case l.NewLow != nil && l.NewHigh != nil && *l.NewLow == *l.NewHigh:
		s = "new " + sizeWords(*l.NewLow, l.Unit)
	case l.NewLow != nil && l.NewHigh != nil:
		s = fmt.Sprintf("new %s to %s", core.FormatNumber(*l.NewLow), sizeWords(*l.NewHigh, l.Unit))
	case l.NewLow != nil:
		s = fmt.Sprintf("new %s or more", sizeWords(*l.NewLow, l.Unit))
	case l.NewHigh != nil:
		s = fmt.Sprintf("new %s or less", sizeWords(*l.NewHigh, l.Unit))
	}
	join := func(word string, v float64) {
		if s != "" {
			s += ", "
		}
		s += word + " " + sizeWords(v, l.Unit)
	}
	if l.WearLow != nil {
		join("not under", *l.WearLow)
	}
	if l.WearHigh != nil {
		join("not over", *l.WearHigh)
	}
	if l.WorstClass != nil {
		join("worst allowed class", float64(*l.WorstClass))
	}
	return s
}
