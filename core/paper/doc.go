// Package paper turns a plan into documents that people read and sign, and prints them.
//
// The journey, in reading order:
//
//	input.go       what a paper is made from: the plan, the shop, the number, the date
//	document.go    the document: a title and blocks, nothing of any printer
//	words.go       grades, positions, lists and hours in plain words
//	money.go       amounts as printed
//	found.go       parts gathered for reading: what was found, what will be done
//	spoken.go      parts and positions as said to a customer, and why in few words
//	bundle.go      lines of one piece of work at several positions, read as one with their sum
//	readings.go    readings and limits in rows, members of a part together
//	pictures.go    photographs of findings and marks; shrink.go and orientation.go make them small and upright
//	scope.go       Scope: what the customer signs; scope_*.go its sections
//	order.go       WorkOrder: what the shop works from; order_*.go its sections
//	story.go       what the papers of a job's story are made from: arrival.go, strip_authority.go, weighing.go, labels.go, outwork.go,
//	               buying_list.go, change_note.go, statement.go, build_sheet.go, handover.go, stopped.go, a paper each
//	gauge.go       the wear gauge as shares of its bar, for every printer
//	curve.go       the budget curve, likewise
//	pdf.go         PDF: pages, heads and feet; pdf_*.go a block kind each
//	html.go        HTML: one self-contained page; html.tmpl and html.css
//	screen.go      gauges and curves drawn for a page on a screen
//
// Nothing here reads a clock, a file or a map in its own order: the same input
// gives the same document, and the same document the same bytes.
package paper
