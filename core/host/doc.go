// Package host finds, pins, launches, confines, times out and stops plugin processes, and checks every answer.
//
// A plugin is somebody else's code. It is started by its path, without a shell, with nothing of the shop's
// environment, in a process group of its own, and only if its file has the hash it was pinned with. It is spoken to
// over gRPC with mutual TLS on a socket in a private folder, under a deadline and a bound on every message. Its
// answers are held against its own sheet (check*.go) before anybody uses them. Whatever it does wrong costs its own
// subsystem: the caller gets a *core.Error that says what happened and what to do, and the other plugins go on.
//
// In reading order:
//
//	host.go     Host: what the command wires
//	spec.go     one plugin as pinned
//	plugin.go   the checked Assessor that stands for it
//	life.go     started at the first call, restarted with back-off
//	process.go  one run of it: handshake, first Describe, calls, end
//	runner.go   the operating system's part of a run
//	confiner.go the program that takes a plugin's rights away before it runs
//	folder.go   the private folder of the sockets
//	output.go   what it prints, captured and capped
//	fault.go    what went wrong, in words
//	check.go    what an answer must keep to
//	index.go    the sheet an answer is held against
package host
