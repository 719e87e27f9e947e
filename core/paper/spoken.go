package paper

import (
	"slices"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// corners are the positions at the wheels and the sides, as said to somebody who does not mark parts for a living.
var corners = map[string]string{"LF": "left front", "RF": "right front", "LR": "left rear", "RR": "right rear", "LH": "left", "RH": "right"}

// wholes are positions that have a word together.
var wholes = []struct {
	at    []string
	words string
}{
	{[]string{"LF", "RF", "LR", "RR"}, "all four wheels"}, {[]string{"LF", "RF"}, "both front wheels"}, {[]string{"LR", "RR"}, "both rear wheels"},
	{[]string{"LH", "RH"}, "both sides"},
}

// spokenAt says where parts are in words. all are the positions that the part has; nil: not known.
func spokenAt(ps, all []string) string {
	at := map[string]bool{}
	var named []string
	for _, p := range ps {
		if p != "" && !at[p] {
			at[p], named = true, append(named, p)
		}
	}
	if len(named) == 0 {
		return ""
	}
	for _, x := range wholes {
		if len(x.at) == len(named) && !slices.ContainsFunc(x.at, func(p string) bool { return !at[p] }) {
			return x.words
		}
	}
	if len(named) == len(all) && len(all) > 2 {
		return "all " + strconv.Itoa(len(all))
	}
	for i, p := range named {
		if w, ok := corners[p]; ok {
			named[i] = w
			continue
		}
		words := strings.Split(p, "-")
		for k, w := range words[1:] {
			if c, ok := corners[w]; ok {
				words[k+1] = c
			}
		}
		named[i] = strings.Join(words, " ")
	}
	return positions(named)
}

// Spoken is the name of the part with its positions, as said to a customer: "Brake drums, both rear wheels".
func (g group) Spoken() string {
	var ps []string
	for _, c := range g.Choices {
		ps = append(ps, c.Position)
	}
	name := core.Capital(g.PartName)
	if len(g.Choices) > 1 {
		name = plural(name)
	}
	at := spokenAt(ps, g.All)
	n, whole := strings.CutPrefix(at, "all ")
	switch {
	case at == "":
		return name
	case whole && n != "four wheels" && strings.HasSuffix(name, "s") && !strings.Contains(name, ","):
		return "All " + n + " " + lower(name)
	case len(at) < 4 || strings.ContainsAny(at, "0123456789") && !strings.ContainsAny(at, " ,") || at[0] >= '0' && at[0] <= '9':
		return name + " " + at
	case strings.Contains(name, ",") || strings.Contains(at, ","):
		return name + " (" + at + ")"
	}
	return name + ", " + at
}

// findings says in few words how the members were found, with the positions where they differ. "" where nothing was judged.
func (in Input) findings(g group) string {
	if w, few := in.findingsBy(g, in.finding); few {
		return w
	}
	w, _ := in.findingsBy(g, func(c core.UnitCondition) string { return shortGrades[c.Grade] })
	return w
}

// findingsBy gathers the members by what is said of them; few is false where that are too many things to read.
func (in Input) findingsBy(g group, say func(core.UnitCondition) string) (text string, few bool) {
	var words []string
	at := map[string][]string{}
	for _, c := range g.Conditions {
		w := say(c)
		if at[w] == nil {
			words = append(words, w)
		}
		at[w] = append(at[w], c.Position)
	}
	if len(words) == 1 {
		return words[0], true
	}
	var out []string
	for _, w := range words {
		if w != "" {
			out = append(out, spokenAt(at[w], nil)+": "+w)
		}
	}
	return strings.Join(out, "; "), len(words) <= 2
}

// shortGrades say a grade in the fewest words.
var shortGrades = map[core.Grade]string{
	core.WithinNew:    "within new",
	core.WornFit:      "worn, fit",
	core.NearLimit:    "near the limit",
	core.NotSeen:      "not seen",
	core.MeasureAgain: "at the limit",
	core.TooTight:     "too tight",
	core.PastLimit:    "worn past the limit",
	core.Missing:      "missing",
	core.Failed:       "failed",
}

// finding is how one part was found, by the check that decided it.
func (in Input) finding(c core.UnitCondition) string {
	word := shortGrades[c.Grade]
	if c.GoverningCheck == "" {
		if c.Grade == core.Failed && len(c.Reasons) > 0 {
			word = lower(bareReason(c.Reasons[0], c.Grade))
		}
		return word
	}
	check := lower(strings.Join(in.checkWords(c.Place, []string{c.GoverningCheck}), ""))
	switch c.Grade {
	case core.PastLimit:
		return check + " past the limit"
	case core.NearLimit, core.MeasureAgain:
		return check + " " + word
	case core.Failed:
		return "failed: " + check
	case core.TooTight:
		return check + " too tight"
	}
	return word
}
