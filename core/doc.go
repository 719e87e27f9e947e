// Package core holds the nouns of a strip-down and the pure steps between them.
//
// The journey of a finding, in reading order, a file a step:
//
//	job.go         whose vehicle it is, what for, how far it comes apart
//	finding.go     what the mechanic saw, measured, counted or could not reach
//	quantity.go    a reading as typed and in its unit
//	unit.go        the units of measure and their dimensions
//	sheet.go       what a subsystem asks the mechanic to look at, and against which limit
//	strip.go       how the vehicle comes apart: steps, hours, people, hazards
//	pack.go        facts, limits and weights of a vehicle or of one unit
//	assessment.go  what a subsystem says of its parts: grade, remedies, problems
//	choice.go      the choice put as sums, and the answer with its reasons
//	price.go       what an operation or a step costs, from prices and rates
//	budget.go      what the whole may cost: a distribution, not a number
//	order.go       the lines of the work order, each with the findings behind it
//	plan.go        Planner: assess, decide, price, budget, order
//	error.go       one typed error with a code
//
// core imports the standard library and the money library alone. It declares
// three interfaces, Assessor, Decider and Budgeter; Planner holds them and only
// the command wires them.
package core
