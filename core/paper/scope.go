package paper

// The headings that the sum and the lines to sign on stand under.
const (
	summed = "What is agreed by signing"
	signed = "Authority"
)

// Scope is what the customer reads and signs. It opens with one page that says all that matters; then the money by
// subsystem, the work, what was not seen, what is refused and what is left, and the lines to sign on. Numbers and
// photographs stand in its appendix.
func Scope(in Input) Document {
	d := in.document("Scope of work")
	d.Ways = []Fact{{"The sum", summed}, {"Where to sign", signed}}
	as := areas(in.Plan)
	d.Blocks = append(d.Blocks, in.letterhead(d.Title))
	for _, section := range [][]Block{
		in.front(as), {Break{}}, in.price(as), in.certainty(), in.marks(), in.work(as), in.access(), in.notInspected(as), in.closed(as), in.notDone(),
		in.ownersChoices(as), in.waiting(), in.agreement(), in.cautions(), in.sign(), in.appendix(as),
	} {
		d.Blocks = append(d.Blocks, section...)
	}
	return d
}
