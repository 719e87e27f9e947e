package web

import (
	"regexp"
	"strings"
)

// commandWords is what an advice adds for those who type: ": --people 2", "see: fettle strip J-001".
var commandWords = regexp.MustCompile(`(?s)^\s*fettle .*|(?:( with)?: *|^ *|see: *)+(?:fettle [a-z]|--[a-z])[^,;"]*(?:"[^"]*"[^,;"]*)*|(?s), then:\s*(?:fettle|--).*`)

// spoken leaves the command's words out of an advice: a page has a field or a button where the command has them.
func spoken(next string) string {
	return plainWhat(strings.Trim(commandWords.ReplaceAllString(next, ""), " ,;:"))
}

// flag finds the name of what would be typed after two dashes.
var flag = regexp.MustCompile(`(^|\s)--([a-z])`)

// plainWhat is what is wrong without dashes.
func plainWhat(what string) string { return flag.ReplaceAllString(what, "$1$2") }
