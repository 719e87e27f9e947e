package paper

import "github.com/fettle-tools/fettle/core"

// competent is said on every paper.
const competent = "Safety work is to be verified by a licensed or otherwise competent person. Figures are rules of thumb unless a source is named; the manual and local law come first."

// fewCautions is how many cautions a scope carries before its signature; more than these stand in its appendix.
const fewCautions = 24

// cautionTexts are the plan's cautions that are wanted, each once.
func (in Input) cautionTexts(want func(text string) bool) []string {
	var items []string
	for _, c := range in.Plan.Cautions {
		if want(c.Text) {
			items = append(items, sentence(c.Text))
		}
	}
	return unique(items)
}

// cautions are the plan's, each once, after the one that always holds.
func (in Input) cautions() []Block {
	items := in.cautionTexts(func(string) bool { return true })
	bs := []Block{Heading{1, "Cautions"}}
	if len(items) <= fewCautions {
		return append(bs, Cautions{append([]string{competent}, items...)})
	}
	items = []string{competent}
	if gs := in.openedGroups(); len(gs) > 0 {
		items = append(items, "This job opens "+and(gs)+": a second, competent person checks the finished work before the vehicle moves. No price and no pin removes this.")
	}
	return append(bs, Cautions{items}, Paragraph{Small: true, Text: "The cautions of each step and of each piece of work stand at the end of the appendix, and on the shop's work order where the step is."})
}

// moreCautions are those of a scope that has too many to stand before its signature.
func (in Input) moreCautions() []Block {
	items := in.cautionTexts(func(string) bool { return true })
	if len(items) <= fewCautions {
		return nil
	}
	return []Block{Heading{1, "Appendix: cautions"}, Cautions{items}}
}

// otherCautions are those that the work order has not told at a step or at a line.
func (in Input) otherCautions() []Block {
	told := in.toldAtWork()
	return []Block{Heading{1, "Cautions"}, Paragraph{Small: true, Text: "Those of a step or of a piece of work stand there."},
		Cautions{append([]string{competent}, in.cautionTexts(func(text string) bool { return !told[text] })...)}}
}

// toldAtWork are the cautions that a step or a line carries.
func (in Input) toldAtWork() map[string]bool {
	told := map[string]bool{}
	add := func(cs []core.Caution) {
		for _, c := range cs {
			told[c.Text] = true
		}
	}
	for _, s := range in.Plan.Steps {
		add(s.Cautions)
	}
	for _, l := range in.Plan.WorkOrder.Lines {
		add(l.Cautions)
	}
	return told
}
