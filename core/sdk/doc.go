// Package sdk is what the author of a subsystem imports: the sheet format and its engine, the trade's wear rules and
// sums, and Serve.
//
// A subsystem is mostly data. The journey of a sheet, a file a step:
//
//	fault.go       what is wrong in a sheet, and where: all of it at once
//	node.go, keys.go   strict reading of YAML
//	document.go    the sheet as written; document_*.go hold its nouns
//	formula.go, formula_read.go, formula_check.go, formula_work.go, dimension.go   formulas: a part of CEL, with units
//	resolve.go     what in a sheet must agree with something else in it
//	describe.go    the sheet for one unit's facts: positions and limits worked out
//	ask.go         facts that limits and formulas wait for
//	prepare.go     a rule's look at findings and limits before grading
//	override.go    limits in place of the sheet's
//	reading.go     findings sorted to part, check and station, in the check's unit
//	derived.go     values worked out from readings, with their uncertainty
//	grading.go     one check graded against its limit (wear.go)
//	condition.go   a part as bad as its worst check
//	state.go, remedy.go   what it may turn out to be, and what can be done
//	bench.go       a rule's look at the result
//	finish.go      the answer in order, with its operations; findings nobody used
//	plugin.go      New, Describe, Assess
//	plugin_serve.go, serve.go   Serve; serve_again.go and packing.go: with no more in memory than it needs
//
// A sheet that needs more than data has rules in Go beside it. Prepare runs before grading: it may change limits (a
// crankshaft marked and measured at an undersize is graded against that undersize) and supply values that no formula of
// one part can reach (the clearance of two mates). Rules run after it: they close remedies, add remedies, operations,
// facts and problems. Neither can make a grade better or reopen what a grade has closed.
package sdk
