package core

import (
	"slices"
	"strings"
)

// Says says how it was fitted, one thing a line.
func (p FittedPart) Says() []string {
	var says []string
	for _, r := range p.Readings {
		says = append(says, r.words())
	}
	for _, x := range p.Torques {
		again := ""
		if x.Again {
			again = ", a second time"
		}
		says = append(says, x.Fastener+" "+x.Value.String()+again)
	}
	if len(p.Shims) > 0 {
		says = append(says, shimWords(p.Shims))
	}
	if len(p.OneUse) > 0 {
		says = append(says, "new: "+strings.Join(p.OneUse, ", "))
	}
	if len(p.Why) > 0 {
		says = append(says, "why it will do: "+strings.Join(p.Why, "; "))
	}
	if p.Safety && p.Second != "" {
		says = append(says, "looked over by "+p.Second)
	}
	return says
}

// words say a reading with its limits of new.
func (r Fitted) words() string {
	what := strings.TrimSpace(strings.TrimSpace(r.Check+" "+r.Station) + " " + r.As)
	switch {
	case !r.New && r.Range() != "":
		return what + ", NOT NEW: new is " + r.Range()
	case !r.New:
		return what + ", NOT NEW"
	case r.Source == "":
		return what + ", no limit of new is known"
	case r.Range() == "":
		return what
	}
	return what + ", within " + r.Range()
}

// shimWords writes packs by side, each in its order.
func shimWords(shims []Shim) string {
	var sides []string
	by := map[string][]string{}
	for _, x := range shims {
		if !slices.Contains(sides, x.Side) {
			sides = append(sides, x.Side)
		}
		by[x.Side] = append(by[x.Side], x.Thickness.String())
	}
	var says []string
	for _, side := range sides {
		says = append(says, strings.TrimSpace(side+" "+strings.Join(by[side], " + ")))
	}
	return "shims " + strings.Join(says, "; ")
}
