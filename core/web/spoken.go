package web

import (
	"regexp"
	"strings"
)

// commandWords is what an advice adds for those who type: ": --people 2", "see: fettle strip J-001".
var commandWords = regexp.MustCompile(`(?:( with)?: *|^ *|see: *)+(?:fettle [a-z]|--[a-z])[^,;"]*(?:"[^"]*"[^,;"]*)*`)

// spoken leaves the command's words out of an advice: a page has a field or a button where the command has them.
func spoken(next string) string {
	return strings.Trim(commandWords.ReplaceAllString(next, ""), " ,;:")
}
