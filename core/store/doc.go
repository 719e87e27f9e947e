// Package store keeps the shop's book: one SQLite file in the shop folder, to which entries are only ever added.
//
// A shop folder holds
//
//	fettle.yaml   the shop's settings (not this package's)
//	book.db       the book
//	photos/       pictures, each named by the SHA-256 of its bytes
//	papers/       copies of what was issued, for the reader; the book holds the bytes that count
//
// Nothing in the book is changed or taken out. A later entry may supersede earlier ones, and an entry is live if no
// live entry supersedes it: so an undo is an entry that supersedes with nothing, and undoing the undo brings back
// what it took. What was added in one call is one batch, and an undo takes back the latest batch that still has
// something live: a whole import, or all that was typed on one line.
//
// What Append and the methods built on it have returned without an error is on the disk (write-ahead log, synced at
// each commit). One connection writes; others read beside it; several processes may use one book at a time.
package store
