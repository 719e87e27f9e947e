package main

import (
	"fmt"
	"strings"
)

// firstOf gives the first n of a list, or all.
func firstOf[T any](list []T, n int, all bool) []T {
	if all || len(list) <= n {
		return list
	}
	return list[:n]
}

// shortList names the first n, and says how many more there are.
func shortList(words []string, n int) string {
	if len(words) <= n {
		return strings.Join(words, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(words[:n], ", "), len(words)-n)
}
