package main

import (
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// amount writes money without its currency, thousands parted by a thin blank: "9 742.00".
func amount(m core.Money) string { return group(m.Round().Number()) }

// near writes money rounded to five whole units, for ranges that people read.
func near(m core.Money) string {
	whole, _, _ := strings.Cut(m.Near(5).Number(), ".")
	return group(whole)
}

func group(s string) string {
	sign := ""
	if strings.HasPrefix(s, "-") {
		sign, s = "-", s[1:]
	}
	whole, frac, dot := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + " " + whole[i:]
	}
	if dot {
		whole += "." + frac
	}
	return sign + whole
}
