package core

import (
	"fmt"
	"slices"
)

// addSets adds the sheets' matched sets, the vehicle pack's across subsystems, and the bonds between remedies.
func (b *bench) addSets() {
	at := map[Place]int{}
	for i, p := range b.parts {
		at[p.place] = i
	}
	for _, s := range b.sheets {
		for _, set := range s.Sheet.Sets {
			var ms []int
			for _, t := range set.Members {
				if n, ok := at[Place{s.Subsystem, s.Unit, t}]; ok {
					ms = append(ms, n)
				}
			}
			b.addSet(set.ID, set.Name, ms, set.SameKind, set.AgreeOn)
		}
	}
	if b.req.VehiclePack != nil {
		for _, set := range b.req.VehiclePack.Sets {
			b.addCrossSet(set, at)
		}
	}
	for i, p := range b.parts {
		for k, r := range p.options {
			b.addBonds(i, k, r.Requires, false, at)
			b.addBonds(i, k, r.Excludes, true, at)
		}
	}
}

func (b *bench) addSet(id, name string, members []int, sameKind bool, agreeOn string) {
	members = slices.DeleteFunc(members, func(n int) bool { return b.parts[n].left != nil })
	if len(members) > 1 {
		b.sel.Sets = append(b.sel.Sets, SelectSet{ID: id, Name: name, Members: members, SameKind: sameKind, AgreeOn: agreeOn})
	}
}

func (b *bench) addCrossSet(set CrossSet, at map[Place]int) {
	var ms []int
	var unchecked []Problem
	for _, m := range set.Members {
		found := false
		for i, p := range b.parts {
			if p.place.Subsystem == m.Subsystem && p.place.Part == m.Part && (m.Position == "" || m.Position == p.place.Position) {
				ms, found = append(ms, i), true
			}
		}
		if !found {
			unchecked = append(unchecked, Problem{Severity: SeverityNote, Subsystem: m.Subsystem, Target: m.Target,
				Summary: fmt.Sprintf("%s: not checked, %s is not part of this job", set.Name, m.Subsystem)})
		}
	}
	if len(ms) > 0 { // a set of which nothing is in the job has nothing to be checked against
		b.problems = append(b.problems, unchecked...)
	}
	b.addSet(set.ID, set.Name, ms, set.SameKind, set.AgreeOn)
}

func (b *bench) addBonds(part, option int, refs []RemedyRef, excludes bool, at map[Place]int) {
	p := b.parts[part].place
	for _, r := range refs {
		n, ok := at[Place{p.Subsystem, p.Unit, r.Target}]
		if !ok {
			continue
		}
		k := slices.IndexFunc(b.parts[n].options, func(x Remedy) bool { return x.ID == r.Remedy })
		if k < 0 && !excludes {
			b.closeOption(part, option) // what it requires is closed: so is it
		}
		if k >= 0 {
			b.sel.Bonds = append(b.sel.Bonds, Bond{Part: part, Option: option, OtherPart: n, OtherOption: k, Excludes: excludes})
		}
	}
}

// closeOption takes an option out of every state of its part, unless nothing else is left in one: then the bond is told.
func (b *bench) closeOption(part, option int) {
	states := b.sel.Parts[part].States
	for _, st := range states {
		if len(st.Options) == 1 && st.Options[0] == option {
			p := b.parts[part]
			b.problems = append(b.problems, Problem{Severity: SeverityError, Subsystem: p.place.Subsystem, Unit: p.place.Unit, Target: p.place.Target,
				Summary: fmt.Sprintf("%s: %s needs another remedy that is closed", p.part.Name, p.options[option].Name), Next: "correct the sheet's requires"})
			return
		}
	}
	for i := range states {
		states[i].Options = slices.DeleteFunc(states[i].Options, func(n int) bool { return n == option })
	}
}
