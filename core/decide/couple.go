package decide

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// agreed is what a set compares of an option: its kind, or what it yields for the set's key. An option without the
// key has a word of its own, so it agrees only with its like.
func agreed(set *core.SelectSet, o *core.SelectOption) string {
	if set.SameKind {
		return string(o.Kind)
	}
	for _, y := range o.Yields {
		if y.Key == set.AgreeOn {
			return "=" + y.Value
		}
	}
	return ""
}

// addSets makes the members of each set agree, through a variable for what they agree on.
func (m *model) addSets() {
	variable := m.variables()
	for i := range m.sel.Sets {
		set := &m.sel.Sets[i]
		var members []int
		for _, p := range set.Members {
			if v := variable[p]; v >= 0 && !slices.Contains(members, v) {
				members = append(members, v)
			}
		}
		if len(members) > 1 {
			m.addSet(set, members)
		}
	}
}

func (m *model) addSet(set *core.SelectSet, members []int) {
	var words []string // that the first member offers; others can only take fewer
	for k := range m.option[members[0]] {
		if w := agreed(set, m.at(members[0], k)); !slices.Contains(words, w) {
			words = append(words, w)
		}
	}
	s := m.net.variable(make([]int64, len(words))...)
	for _, v := range members {
		for k, w := range words {
			with := m.where(v, func(o *core.SelectOption) bool { return agreed(set, o) == w })
			m.net.require(false, literal{s, all(len(words)) &^ (1 << k)}, literal{v, with})
		}
	}
}

// addBonds adds what one remedy requires or excludes of another.
func (m *model) addBonds() {
	variable := m.variables()
	for _, b := range m.sel.Bonds {
		v, w := variable[b.Part], variable[b.OtherPart]
		if v < 0 || w < 0 {
			continue
		}
		this, that := m.mask(v, b.Option), m.mask(w, b.OtherOption)
		if b.Excludes {
			if v == w && this != that {
				continue // one option a part: they never meet
			}
			that = all(len(m.option[w])) &^ that
		}
		m.net.require(false, literal{v, all(len(m.option[v])) &^ this}, literal{w, that})
	}
}

// variables gives the variable of each part of the Selection; -1 if it is not in the model.
func (m *model) variables() []int {
	of := slices.Repeat([]int{-1}, len(m.sel.Parts))
	for v, p := range m.parts {
		of[p] = v
	}
	return of
}

// mask is the value of a part's variable that stands for an option; 0 if its state does not allow it.
func (m *model) mask(variable, option int) uint64 {
	if k := slices.Index(m.option[variable], option); k >= 0 {
		return 1 << k
	}
	return 0
}
