package frame

import (
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// counted is work whose price goes by a count that was found.
type counted struct {
	part, check, remedy, operation string
	usual                          int                               // how many, where nobody counted yet
	unseen                         string                            // the operation for those; one for all parts that share its id
	piece                          bool                              // once seen, it is paid by the piece as the sheet says
	count                          func(v float64, l core.Limit) int // how many a reading asks for; nil: as many as it counts
}

// countedWork lists it. Three patches on the mean where outriggers and rails were not seen; the other usual counts are
// common practice, no source.
var countedWork = []counted{
	{"outrigger", "corrosion", "let-in", "let-in-plate", 3, "let-in-plates-to-be-found", false, overClass},
	{"outrigger", "corrosion", "new-outrigger", "replace-outrigger", 3, "outriggers-to-be-found", true, overClass},
	{"side-rail", "wall-thickness", "let-in", "let-in-plate", 3, "let-in-plates-to-be-found", false, underNew},
	{"frame-perforations", "perforations", "let-in", "let-in-plate", 3, "let-in-plates-to-be-found", false, nil},
	{"frame-cracks", "cracks", "weld", "weld-crack", 2, "cracks-to-be-found", false, nil},
	{"frame-rivets", "loose-rivets", "re-rivet", "re-rivet", 6, "rivets-to-be-found", false, nil},
	{"frame-rivets", "loose-rivets", "fitted-bolts", "fit-bolt", 6, "bolts-to-be-found", false, nil},
	{"flange-holes", "added-holes", "weld-up", "weld-hole", 3, "holes-to-be-found", false, nil},
	{"old-repairs", "welds", "redo", "redo-repair", 2, "repairs-to-be-found", false, overClass},
}

// overClass asks for one piece of work where the class is over the worst allowed.
func overClass(v float64, l core.Limit) int {
	if l.WorstClass != nil && v > float64(*l.WorstClass) {
		return 1
	}
	return 0
}

// underNew asks for a patch where a rail is nearer to its limit than to new: so thin it is not used again.
func underNew(v float64, l core.Limit) int {
	if l.WearLow != nil && l.NewLow != nil && v < *l.NewLow-sdk.NearShare*(*l.NewLow-*l.WearLow) {
		return 1
	}
	return 0
}

// price puts the operation into the remedy as many times as was found, or as often as is usual where nobody looked.
func (c counted) price(b *sdk.Bench) {
	one, ok := operation(b, c.operation)
	if !ok {
		return
	}
	for _, t := range b.Sheet.Part(c.part).Targets() {
		r := b.Remedy(t, c.remedy)
		if r == nil {
			continue
		}
		id, n := c.unseen, c.usual
		switch found, seen := c.found(b, t); {
		case c.piece && (seen || b.Condition(t).Grade == core.Missing):
			continue
		case seen:
			id, n = c.operation+"/"+t.Part+suffix(t.Position), found
		}
		if !slices.ContainsFunc(b.Result.Operations, func(o core.Operation) bool { return o.ID == id }) {
			b.AddOperation(times(one, id, n))
		}
		r.Operations = []string{id}
	}
}

// times is the operation n times over under an id of its own, once where nothing was found: it is then not wanted.
func times(one core.Operation, id string, n int) core.Operation {
	if n > 1 {
		one = sdk.Times(one, n)
	}
	one.ID = id
	return one
}

func suffix(position string) string {
	if position == "" {
		return ""
	}
	return "-" + position
}

// found counts the work that was found at a target; seen is false while nothing asks for any and something is still unread.
func (c counted) found(b *sdk.Bench, t core.Target) (n int, seen bool) {
	l, _ := b.Limit(t, c.check)
	check := b.Sheet.Check(c.part, c.check)
	stations := check.Stations
	if len(stations) == 0 {
		stations = []string{""}
	}
	read := 0
	for _, s := range stations {
		q, _, ok := b.Reading(t, c.check, s)
		if !ok {
			continue
		}
		read++
		if c.count != nil {
			n += c.count(q.Value, l)
		} else {
			n += int(math.Round(q.Value))
		}
	}
	return n, n > 0 || read == len(stations)
}

// operation finds an operation of the sheet.
func operation(b *sdk.Bench, id string) (core.Operation, bool) {
	for _, o := range b.Sheet.Operations {
		if o.ID == id {
			return o, true
		}
	}
	return core.Operation{}, false
}
