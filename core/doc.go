// Package core holds the nouns of a strip-down and the pure steps between them.
//
// The journey of a finding, in reading order, a file a step:
//
//	job.go         whose vehicle it is, what for, how far it comes apart
//	finding.go     what the mechanic saw, measured, counted or could not reach
//	quantity.go    a reading as typed and in its unit
//	unit.go        the units of measure and their dimensions
//	instrument.go  what it was read with, and how far that may be off
//	line.go        many findings on one line, as mechanics write them
//	recording.go   words looked up against the sheets
//	sheet.go       what a subsystem asks the mechanic to look at, and against which limit
//	strip.go       how the vehicle comes apart: steps, hours, people, hazards
//	pack.go        facts, limits and weights of a vehicle or of one unit
//	assessment.go  what a subsystem says of its parts: grade, remedies, problems
//	assessing.go   every subsystem asked about every unit, side by side
//	access.go      the graph of steps of one job, priced
//	chance.go      hidden damage: history, and what this job has shown
//	redo.go        wear to come, and what opening it again would cost
//	choice.go      the choice put as sums, and the answer
//	selecting.go   assessments and prices laid out as those sums
//	certain.go     what is opened in any case is open for all
//	matching.go    matched sets, and remedies bound to one another
//	settling.go    the choice made: the cheapest, or the least risk within what may be spent
//	waiting.go     the longest wait weighed against money
//	choosing.go    the answer put in words, with the reason for each
//	sharing.go     the labour that is done once, and with which part
//	price.go       what an operation or a step costs, from prices and rates
//	outcomes.go    what the parts not yet seen may turn out to take
//	due.go         how likely each operation and step falls due
//	order.go       the lines of the work order, each with the findings behind it
//	ordering.go    the lines written, and their sums
//	budget.go      what the whole may cost: a distribution, not a number
//	enough.go      the chance that a sum is enough
//	forecasting.go the forecast laid out for the Budgeter
//	finish.go      when the job may be done: a distribution, not a date
//	networking.go  how long all of it takes and what it waits for, laid out for the Timekeeper
//	looking.go     what to look at next: what settles most of it for its minutes
//	comparing.go   two plans, line by line
//	weighing.go    what more money buys: less risk, or a shorter wait
//	lifting.go     the steps in order, what they destroy, what they lift
//	envelope.go    what is asked of a whole job whose sums are far from usual
//	showing.go     what is shown beside: gauges, not seen, cautions, marks
//	plan.go        Planner: assess, decide, price, order, budget
//	error.go       one typed error with a code
//
// What lies on both sides of a plan, from arrival to handover, is a Story: acts in the order they were done, each of which
// says what must have gone before it.
//
//	story.go       the job with all that happened to it; an act, checked and laid over it
//	state.go       the states of a job, and what may follow what
//	party.go       who owns, pays, speaks, supplies
//	agreement.go   the gates: who agreed to what, and which lines that covers
//	gate.go        what a gate still needs
//	arrival.go     what came
//	arrival_list.go what is photographed as found, and what is asked
//	underway.go    what has happened laid over what a plan is made from
//	begun.go       what is out, on order or worked on, and the hours left
//	tag.go         what is off, where it lies, what goes with it
//	tag_words.go   fasteners and shims as they are written
//	stripping.go   steps done, undone, skipped
//	nextsteps.go   what can be done next, and what keeps a step back
//	unread.go      readings that a step would destroy, or that only exist before strip-down
//	hours.go       time spent
//	outwork.go     sent out, and measured when it comes back
//	asking.go      a size asked, and the reading that answers it
//	sending.go     what goes out together, and what waits for its group
//	purchase.go    bought, arrived, wrong, returned
//	buying.go      what the order needs and nobody ordered yet
//	surprise.go    what the scope did not price
//	note.go        change notes and their answers
//	changing.go    what a plan does to what was agreed
//	commitment.go  what is authorised, and what is promised against it
//	contingency.go what is held back for what could not be known: drawn and left
//	fit.go         sizes and torques as built
//	fitting.go     a size judged against new; the build sheet
//	roadtest.go    first start, runs, snags
//	payment.go     money asked, paid, owed
//	stage.go       the payments a job is usually parted into
//	standing.go    what a job waits for, what it came to, what is owed
//	handover.go    what must be accounted for before it goes
//	closing.go     what was done and what was not, against what was agreed
//	taught.go      what a closed job has shown of hours, hidden damage and money
//	learned.go     what closed jobs together have taught: the labour ratio, the registers' chances
//	tally.go       hours expected and taken, by work, by skill, by subsystem
//	held.go        how often scopes held, and
//	interval.go    how sure that is
//
// core imports the standard library and the money library alone. It declares
// three interfaces, Assessor, Decider and Budgeter, and a fourth, Timekeeper, for
// those who ask for the finish; Planner holds them and only the command wires them.
package core
