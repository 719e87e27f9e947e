package sdktest

import (
	"math/rand/v2"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// finding makes one finding; its id is its place, so that the same finding has the same id in every request.
func (k *kit) finding(t core.Target, check, station string, v core.Value) core.Finding {
	id := t.String() + "#" + check
	if station != "" {
		id += "@" + station
	}
	return core.Finding{ID: id, Subsystem: k.sheet.Subsystem, Unit: unit, Target: t, Check: check, Station: station, Value: v, AsTyped: v.String()}
}

// stationsOf lists where a check is read; a derived check is typed directly.
func stationsOf(c core.Check) []string {
	if len(c.Stations) == 0 || c.Kind == core.Derived {
		return []string{""}
	}
	return c.Stations
}

// asNew reads every check of every part as new. One-use parts and checks need no reading.
func (k *kit) asNew() []core.Finding {
	var fs []core.Finding
	k.each(func(p core.Part, t core.Target, c core.Check) {
		for _, s := range stationsOf(c) {
			fs = append(fs, k.finding(t, c.ID, s, newValue(c)))
		}
	})
	return fs
}

// each visits every check of every target that is read.
func (k *kit) each(visit func(p core.Part, t core.Target, c core.Check)) {
	for _, p := range k.sheet.Parts {
		if p.OneUse {
			continue
		}
		for _, t := range p.Targets() {
			for _, c := range p.Checks {
				if c.Kind != core.OneUse {
					visit(p, t, c)
				}
			}
		}
	}
}

// eachEnd visits every check at the first and the last position of its part.
func (k *kit) eachEnd(visit func(p core.Part, t core.Target, c core.Check)) {
	k.each(func(p core.Part, t core.Target, c core.Check) {
		if k.ctx.Err() == nil && slices.Contains(ends(p), t) {
			visit(p, t, c)
		}
	})
}

// mixed reads every check somehow: as new, worn, past its limit, not read, twice; always the same for one sheet.
func (k *kit) mixed() []core.Finding {
	r := rand.New(rand.NewPCG(1956, 4))
	var fs []core.Finding
	k.each(func(p core.Part, t core.Target, c core.Check) {
		for _, s := range stationsOf(c) {
			draw := r.IntN(10)
			v, ok := mixedValue(c, draw)
			if !ok {
				continue
			}
			fs = append(fs, k.finding(t, c.ID, s, v))
			if again, ok := mixedValue(c, 11-draw); ok && draw > 7 {
				f := k.finding(t, c.ID, s, again)
				f.ID += " again"
				fs = append(fs, f)
			}
		}
	})
	return fs
}

// mixedValue keeps away from edges, where another unit's last digit may decide.
func mixedValue(c core.Check, draw int) (core.Value, bool) {
	switch {
	case draw == 0:
		return core.Value{}, false
	case draw == 1:
		return notRead(core.CouldNotReach), true
	case draw == 2:
		return worstValue(c)
	case draw < 6 && (c.Kind == core.Measured || c.Kind == core.Derived):
		for _, s := range sidesOf(c) {
			if x := s.at(.3 * float64(draw-2)); s.room() > 0 && valid(c, x) {
				return quantity(c, x, s.room()/50), true
			}
		}
	}
	return newValue(c), true
}

// with replaces what was found by a check of a target, at one station or, for "", wherever it is read.
func (k *kit) with(fs []core.Finding, t core.Target, c core.Check, station string, v core.Value) []core.Finding {
	out := slices.Clone(fs)
	found := false
	for i, f := range out {
		if f.Target == t && f.Check == c.ID && (station == "" || f.Station == station) {
			out[i] = k.finding(t, c.ID, f.Station, v)
			found = true
		}
	}
	if !found {
		out = append(out, k.finding(t, c.ID, stationsOf(c)[0], v))
	}
	return out
}

// without leaves out what keep refuses.
func without(fs []core.Finding, drop func(core.Finding) bool) []core.Finding {
	return slices.DeleteFunc(slices.Clone(fs), drop)
}

// of picks the findings of a check of a target, at a station or, for "", at all.
func of(t core.Target, check, station string) func(core.Finding) bool {
	return func(f core.Finding) bool {
		return f.Target == t && f.Check == check && (station == "" || f.Station == station)
	}
}
