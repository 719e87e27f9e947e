package sdk

import (
	"github.com/fettle-tools/fettle/core"
	"go.yaml.in/yaml/v3"
)

// stepDoc is a bench step as written. Its public id is "subsystem:id".
type stepDoc struct {
	id       word
	step     core.Step
	allOf    []word
	anyOf    [][]word
	destroys []word
	place    place
}

func (f *faults) stepDoc(n *yaml.Node, currency string) stepDoc {
	k := f.keys(n, "a step", "id name strip_hours skill", "refit_hours people all_of any_of destroys one_use cautions")
	s := stepDoc{id: k.id("id"), allOf: k.texts("all_of"), destroys: k.texts("destroys"), place: k.at}
	s.step = core.Step{Name: k.text("name").text, People: k.whole("people", 1, 20, 1), Skill: k.text("skill").text}
	s.step.StripHours, s.step.RefitHours = f.range3(k.node["strip_hours"]), f.range3(k.node["refit_hours"])
	s.step.NoRefit = k.has("refit_hours") && s.step.RefitHours == core.Range3{} // written as nothing: nothing goes back
	for _, e := range k.entries("any_of") {
		clause := f.texts(e)
		if len(clause) == 0 {
			f.add(at(e), "write lists: [[a, b]]", "of an empty clause nothing can be open")
		}
		s.anyOf = append(s.anyOf, clause)
	}
	for _, e := range k.entries("one_use") {
		s.step.OneUse = append(s.step.OneUse, f.itemDoc(e, currency))
	}
	for _, e := range k.entries("cautions") {
		s.step.Cautions = append(s.step.Cautions, f.cautionDoc(e).core(s.id.text))
	}
	return s
}
