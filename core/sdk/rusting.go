package sdk

import "github.com/fettle-tools/fettle/core"

// NoteRusting adds the degree of rusting (ISO 4628-3, DegreeOfRusting) of a painted surface to its part, from a check that
// reads the rusted share in percent. Where nothing was read, or the share is beyond the standard's last degree, it adds nothing.
func (b *Bench) NoteRusting(t core.Target, check string) {
	q, _, ok := b.Reading(t, check, "")
	if !ok || q.Unit != "%" {
		return
	}
	if degree, ok := DegreeOfRusting(q.Value); ok {
		b.AddFact(t, core.Fact{Name: "degree-of-rusting", Value: core.Value{Kind: core.ValueWord, Word: degree}, Source: "ISO 4628-3, from memory"})
	}
}
