// Package web is the bench: the shop's own screen in a browser, on a phone in the shed or a laptop at the desk.
//
// Reading order, a file a step:
//
//	server.go    what the bench asks of the shop behind it; the handler
//	routes.go    every address on one page, with who may go there
//	guard.go     what is refused before a page is asked: other sites, too much at once, no key
//	page.go      a typed page, written by its template
//	fault.go     what went wrong, in the same words as the command
//	zip.go       what is sent is made small for a thin line
//	live.go      pages that follow the book: another device's entry shows within a second
//	words.go     sums, days and grades as a page says them
//	opening.go   the one page of a folder that is no shop yet
//	NOUN.go      one page, or one thing that may be done: yard.go, vehicle.go, bench.go, reading.go ...
//
// Pages are made on the server; the script beside them (static/) keeps what is typed without a signal and sends it when there is one.
// Nothing is fetched from anywhere but this server.
package web
