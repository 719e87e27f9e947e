package main

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// amount writes money without its currency, thousands parted by a thin blank: "9 742.00".
func amount(m core.Money) string { return group(m.Round().Number()) }

// near writes money rounded to five whole units, for ranges that people read.
func near(m core.Money) string {
	scale := int64(1)
	for range digits(m) {
		scale *= 10
	}
	n := core.Minor(m)
	step := 5 * scale
	half := step / 2
	if n < 0 {
		half = -half
	}
	return group(fmt.Sprint((n + half) / step * 5))
}

func digits(m core.Money) int {
	_, frac, _ := strings.Cut(m.Round().Number(), ".")
	return len(frac)
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
