// Package decide chooses a remedy for each part: the choice that is provably cheapest, and what every other one
// would cost.
//
// The sum is that of paid operations, open steps and the risk of the options taken. Reading order, a file a step:
//
//	check.go       is the Selection well formed
//	group.go       which parts are decided now, and which wait for what is not seen
//	model.go       the choice as a network of variables and clauses, with
//	steps.go         what opens what
//	operations.go    what is paid once, and what includes what
//	couple.go        sets, requires and excludes
//	network.go     the network itself: unit propagation, components
//	order.go       in which order its variables are summed out; the width is known before a table is allocated
//	tree.go        the optimum and all min-marginals in one pass up and one down, and ties
//	bill.go        what a choice comes to, added up from the Selection
//	branch.go      branch and bound where the tables would be too wide, with
//	sweep.go         every branch where they are few,
//	linear.go        a lower bound by what each clause says,
//	copies.go        a better one by what they say together,
//	rounding.go      a first choice from the bound, or
//	greedy.go        without one, and how it is improved
//	capped.go      the least of one sum while another is capped, and
//	undercap.go      the least risk for a given money
//	joint.go       the joint options of parts that are not seen, and
//	events.go        which of their states can meet
//	conflict.go    which parts cannot agree
//	decide.go      Solver: all of it together
//
// The method is variable elimination (Dechter, "Bucket elimination: a unifying framework for reasoning", Artificial
// Intelligence 113, 1999). It is exponential in the induced width alone, which is small where couplings are local,
// as they are between the units of a vehicle. Where they are not, the linear relaxation over the clauses nearly always comes
// within some thousandths of the optimum, and what it rules out leaves little to branch on.
package decide
