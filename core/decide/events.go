package decide

import "github.com/fettle-tools/fettle/core"

// mostEvents is how many register entries of a block are told apart; beyond, any combination is taken to be possible.
const mostEvents = 10

// possible reports that some combination of a box can be drawn: one draw of each register entry decides it for every
// member that hangs on it.
func (j *joint) possible(b box) bool {
	for _, states := range b {
		if states == 0 {
			return false
		}
	}
	if len(j.events) > mostEvents {
		return true
	}
	for happened := range 1 << len(j.events) {
		if j.drawn(b, happened) {
			return true
		}
	}
	return false
}

// drawn reports that every member has a state of the box that fits these register entries having happened.
func (j *joint) drawn(b box, happened int) bool {
	for m, p := range j.parts {
		fits := false
		for _, s := range valuesOf(b[m]) {
			fits = fits || j.fits(&j.sel.Parts[p], s, happened)
		}
		if !fits {
			return false
		}
	}
	return true
}

func (j *joint) fits(p *core.SelectPart, s, happened int) bool {
	for e, event := range j.events {
		did := happened&(1<<e) != 0
		switch says(p, s, event) {
		case yes:
			if !did {
				return false
			}
		case no:
			if did {
				return false
			}
		}
	}
	return true
}

// saying is what a state tells of a register entry.
type saying int

const (
	nothing saying = iota
	yes
	no
)

// says is what a state of a part tells of an event. Where one state of a part is the event, the others are its not
// happening.
func says(p *core.SelectPart, s, event int) saying {
	state := p.States[s]
	if state.Event == event {
		if state.NotEvent {
			return no
		}
		return yes
	}
	for _, other := range p.States {
		if other.Event == event && !other.NotEvent {
			return no
		}
	}
	return nothing
}
