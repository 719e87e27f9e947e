package core

import "strings"

// Instrument is what a reading was taken with, and how far it may be off.
type Instrument struct {
	Name      string   `json:"name"`
	Aliases   []string `json:"aliases,omitempty"`
	Unit      string   `json:"unit"`       // of a bare number read off it
	Bound     float64  `json:"bound"`      // +/-, a limit of error
	BoundUnit string   `json:"bound_unit"` // a unit, or "%" of the reading
}

// FindInstrument returns the instrument of a name or an alias, without regard to case.
func FindInstrument(list []Instrument, name string) (Instrument, bool) {
	name = strings.Join(strings.Fields(name), " ")
	for _, i := range list {
		if strings.EqualFold(i.Name, name) {
			return i, true
		}
		for _, a := range i.Aliases {
			if strings.EqualFold(a, name) {
				return i, true
			}
		}
	}
	return Instrument{}, false
}
