// Package sdktest is the conformance kit: it puts a subsystem through its promises and says which it breaks. It takes a
// core.Assessor, so the same kit tries a sheet in process, a plugin behind its wire, and one in another language.
//
//	promise.go   the promises, and Fault: one of them broken
//	kit.go       Check: the whole run, in order
//	reading.go   findings made up from a sheet: a unit as new, and one finding changed
//	value.go     values that are as new, worn, past the limit
//	sheet.go     what can be said of the sheet alone
//	answer.go    what must hold of every answer
//	blank.go     a blank is never a pass
//	walk.go      a reading walked from new to twice its limit only worsens
//	condemn.go   no-reuse rules, missing parts, and a way out of each
//	override.go  a limit that is overridden is obeyed
//	finding.go   every finding is used or named; their order, units and number change nothing
//
// It needs no host and no testing.T: plugin check runs it for an author, go test for us.
package sdktest
