package web

import (
	"net/http"
	"regexp"
	"strconv"
	"strings"
)

// byWhom is who writes a form down: named in it, or whoever writes where nobody is named.
func (s *Server) byWhom(r *http.Request) string {
	if by := strings.TrimSpace(r.PostFormValue("by")); by != "" {
		return by
	}
	return s.By
}

// wholeNumber reads a whole number; what is none is 0.
func wholeNumber(text string) int {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil {
		return 0
	}
	return n
}

// command finds where a next step goes over into how it is typed.
var command = regexp.MustCompile(`(?s)(^|(, then)?:)\s*(fettle |--).*`)

// plainNext is a next step without how it would be typed: a page has a button for it.
func plainNext(next string) string {
	next = strings.TrimSpace(command.ReplaceAllString(next, ""))
	if next == "see" {
		return ""
	}
	return plainWhat(next)
}

// flag finds the name of what would be typed after two dashes.
var flag = regexp.MustCompile(`(^|\s)--([a-z])`)

// plainWhat is what is wrong without dashes.
func plainWhat(what string) string { return flag.ReplaceAllString(what, "$1$2") }
