// Package budget says what a job may cost and when it may be done: distributions, not numbers.
//
// The journey of a forecast, in reading order, a file a step:
//
//	simulator.go  Simulator, the core.Budgeter: check, compile, draw, sum up
//	check.go      what is wrong with a forecast, all faults at once
//	model.go      the forecast compiled: lines, members, events, groups
//	shape.go      a three-point range as a beta distribution
//	gamma.go      the multiplier of a subsystem's chances
//	normal.go     the normal distribution
//	stream.go     random draws that belong to a line and a trial
//	strata.go     the draws that every line shares
//	chance.go     which state a part is in, in one trial
//	mask.go       sets of trials
//	chunk.go      a run of trials: what falls due, and what it comes to
//	quantile.go   percentiles and their standard errors
//	widest.go     what widens the budget most
//	look.go       what a look at parts would settle
//	finish.go     the core.Timekeeper: compile, draw, sum up
//	network.go    a network of steps, waits and work compiled
//	pace.go       weeks and hours of the bench, other jobs counted
//	keeper.go     a run of trials: when each is done, and what it waits for
//	longest.go    the longest path of one trial
//	closed.go     the same by hand: means, standard deviations, a normal total
//
// A draw belongs to a line's ID and a trial's number and to nothing else, so that the answer does not depend on the
// number of workers, and a new line leaves every other line's draws as they were.
package budget
