package sdk

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// parted reports that an entry is several events, one for each position or group of positions: a drum cracked, by the axle.
func (e *registerDoc) parted() bool { return e.each || len(e.groups) > 0 }

// event is the id of the event that an entry is at a position: "H32/front".
func (e *registerDoc) event(position string) string {
	for _, g := range e.groups {
		if slices.ContainsFunc(g.members, func(m word) bool { return m.text == position }) {
			return e.id.text + "/" + g.name.text
		}
	}
	if !e.parted() || position == "" {
		return e.id.text
	}
	return e.id.text + "/" + position
}

// chance is that of an unseen part to be past its limit, and the register entry it comes from; nil if it is the outlook's own.
func (d *document) chance(p *partDoc) (past float64, from *registerDoc) {
	for i := range d.register {
		e := &d.register[i]
		if slices.ContainsFunc(e.parts, func(w word) bool { id, _, _ := strings.Cut(w.text, "/"); return id == p.id.text }) {
			return e.chance, e
		}
	}
	if p.outlook != nil {
		return p.outlook.past, nil
	}
	return 0, nil
}

// hidden lists the events of an entry, in the order of its parts.
func (r *described) hidden(e *registerDoc) []core.Hidden {
	whole := core.Hidden{ID: e.id.text, Name: e.name, Chance: e.chance, Operations: plain(e.operations), Times: e.times, HistoryKeys: slices.Clone(e.history)}
	var hs []core.Hidden
	for _, m := range e.parts {
		for _, t := range r.members(m.text) {
			id := e.event(t.Position)
			i := slices.IndexFunc(hs, func(h core.Hidden) bool { return h.ID == id })
			if i < 0 {
				h := whole
				if h.ID = id; e.parted() {
					_, at, _ := strings.Cut(id, "/")
					h.Name += " (" + at + ")"
				}
				h.HistoryKeys = slices.Clone(e.history)
				i, hs = len(hs), append(hs, h)
			}
			hs[i].Parts = append(hs[i].Parts, t)
		}
	}
	if len(hs) == 0 {
		return []core.Hidden{whole}
	}
	return hs
}
