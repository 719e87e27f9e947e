// Package config reads what people of the shop write and edit: the settings (fettle.yaml), packs, strip plans,
// instruments, price files and files of findings.
//
// Reading is strict. An unknown key, a word or a number that cannot be meant, a step that does not exist: every fault
// of a file is told at once, each with its line and column and with what to do. A file of YAML with a fault gives
// nothing; of a CSV file the rows that can be read are given, and the others are told.
//
// The readers take bytes and a name for messages, so that files from a folder and files built into a program are read
// alike. What each file may hold is said at its reader: ReadSettings, ReadPack, ReadStripPlan, ReadInstruments,
// ReadPrices, ReadFindings.
package config
