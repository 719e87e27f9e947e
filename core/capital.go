package core

import (
	"unicode"
	"unicode/utf8"
)

// Capital begins a text with a capital letter, of whatever script.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
