package sdk

import (
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// CountedWork is work of one remedy whose price goes by what was found: patches by the places rusted through, welds by the
// cracks. The sheet's operation is the price of one.
type CountedWork struct {
	Part, Check, Remedy, Operation string
	Usual                          int    // how many, where nobody counted yet
	Unseen                         string // id of the operation for those, shared by all that name it; "" for one at each position
	Piece                          bool   // once it is seen, or missing, it is paid as the sheet says
	// Count is how many a reading asks for, in the check's unit; nil: as many as were counted.
	Count func(v float64, l core.Limit) int
}

// Price puts the operation into the remedy as many times as was found at each position, under an id of its own, or as often as
// is usual where nobody looked. A part that the unit does not have is passed over.
func (c CountedWork) Price(b *Bench) {
	part := b.Sheet.Part(c.Part)
	i := slices.IndexFunc(b.Sheet.Operations, func(o core.Operation) bool { return o.ID == c.Operation })
	if part == nil || i < 0 {
		return
	}
	for _, t := range part.Targets() {
		r := b.Remedy(t, c.Remedy)
		n, seen := c.found(b, t)
		if r == nil || c.Piece && (seen || b.Condition(t).Grade == core.Missing) {
			continue
		}
		id := c.Operation + "/" + t.Part
		if t.Position != "" {
			id += "-" + t.Position
		}
		where := t.Position
		if !seen {
			if n = c.Usual; c.Unseen != "" {
				id, where = c.Unseen, ""
			}
		}
		if !slices.ContainsFunc(b.Result.Operations, func(o core.Operation) bool { return o.ID == id }) {
			b.AddOperation(c.times(b.Sheet.Operations[i], id, where, n))
		}
		r.Operations = []string{id}
	}
}

// times is the operation n times over, once where nothing was found: it is then not wanted. Its name says where.
func (c CountedWork) times(o core.Operation, id, where string, n int) core.Operation {
	if where != "" {
		o.Name += " (" + where + ")"
	}
	if n > 1 {
		o = Times(o, n)
	}
	o.ID = id
	return o
}

// found counts the work at a target; seen is false while nothing asks for any and something is still unread.
func (c CountedWork) found(b *Bench, t core.Target) (n int, seen bool) {
	l, _ := b.Limit(t, c.Check)
	stations := []string{""}
	if check := b.Sheet.Check(c.Part, c.Check); check != nil && len(check.Stations) > 0 {
		stations = check.Stations
	}
	read := 0
	for _, s := range stations {
		q, _, ok := b.Reading(t, c.Check, s)
		switch {
		case !ok:
			continue
		case c.Count != nil:
			n += c.Count(q.Value, l)
		default:
			n += int(math.Round(q.Value))
		}
		read++
	}
	return n, n > 0 || read == len(stations)
}

// OverClass counts one where a damage class is over the worst allowed.
func OverClass(v float64, l core.Limit) int {
	if l.WorstClass != nil && v > float64(*l.WorstClass) {
		return 1
	}
	return 0
}
