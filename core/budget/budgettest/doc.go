// Package budgettest compares what a simulation of a job expects with what deciding anew would come to, were everything known.
//
// A plan decides once: parts that are known by the optimum over them, parts that are not by the first of their block's ordered options that
// suits what they turn out to be. With perfect knowledge the whole job would be decided together. What that would save is the gap.
//
//	tap.go         what passes between a Planner, its Decider and its Budgeter
//	unseen.go      an Assessor with only some of its unseen parts left open
//	world.go       everything that a few unseen parts may turn out to be, with its chance
//	reoptimise.go  each of these decided anew, and both ways drawn
//
// It is for tests: it imports core alone, and is given the Decider and the Budgeter.
package budgettest
