// Package bottomend is the engine bottom end as a subsystem: crankshaft, bearings, connecting rods, main bearing
// tunnel, oil pump and sump.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it: mains and pins each take one undersize
// (groups.go, journals.go), a crank at a step already is graded against that step (present.go), and thrust washers are
// chosen from what is to be had (thrust.go).
package bottomend
