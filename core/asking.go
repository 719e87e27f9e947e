package core

import (
	"regexp"
	"slices"
	"strings"
	"sync"
)

var (
	plainNumber   = onFirstUse(`^[-+]?[0-9][0-9.,]*$|^[-+]?[.,][0-9]+$|^[-+]?[0-9]+/[0-9]+$`)
	wholeNumber   = onFirstUse(`^[-+]?[0-9]+$`)
	startsNumeric = onFirstUse(`^[-+]?[.,]?[0-9]`)
)

// onFirstUse compiles a pattern when it is first asked for: a plugin that reads no typed words pays nothing for it.
func onFirstUse(pattern string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(pattern) })
}

// ReadAsked reads what outwork must come back to: a range and its unit after what is measured, "M1 diameter 2.4790..2.4795 in", one end of
// which may be left open, "runout ..0.002 in"; or a condition in words, judged when it is back. Errors are of code Invalid.
func ReadAsked(text string) (Asked, error) {
	text = strings.TrimSpace(text)
	before, after, ranged := strings.Cut(text, "..")
	if !ranged {
		return readCondition(text)
	}
	bad := func(why string) (Asked, error) {
		return Asked{}, Errorf(Invalid, `write it like "M1 diameter 2.4790..2.4795 in"`, "%q: %s", text, why)
	}
	what, low := lastNumber(before)
	if what == "" {
		return bad("it does not say what is measured")
	}
	a := Asked{What: what}
	unit := ""
	if after = strings.TrimSpace(after); startsNumeric().MatchString(after) {
		r, err := ParseReading(after)
		if err != nil {
			return Asked{}, err
		}
		a.High, unit = &r.Value, r.Unit
	} else if u, ok := FindUnit(after); ok && after != "" {
		unit = u.Name
	}
	if unit == "" {
		return bad("it has no unit")
	}
	a.Unit = unit
	if low != "" {
		r, err := ParseReading(low)
		if err != nil {
			return Asked{}, err
		}
		a.Low = &r.Value
	}
	switch {
	case a.Low == nil && a.High == nil:
		return bad("it has no size")
	case a.Low != nil && a.High != nil && *a.Low > *a.High:
		return bad("it goes from more to less")
	}
	return a, nil
}

// readCondition is what is asked in words. A size without a range would be met by nothing: no two readings are equal.
func readCondition(text string) (Asked, error) {
	if text == "" {
		return Asked{}, Errorf(Invalid, `write it like "M1 diameter 2.4790..2.4795 in", or in words`, "nothing is asked")
	}
	words := strings.Fields(text)
	for i := range words {
		if !startsNumeric().MatchString(words[i]) {
			continue
		}
		if r, err := ParseReading(strings.Join(words[i:], " ")); err == nil && r.Unit != "" {
			return Asked{}, Errorf(Invalid, "say from where to where: 2.4790..2.4795 in, or ..0.002 in", "%q is one size: no piece can be held to it", text)
		}
	}
	return Asked{What: text}, nil
}

// lastNumber parts a text before the number it ends with: "M1 diameter 2.4790", "width 1 1/2".
func lastNumber(text string) (what, number string) {
	words := strings.Fields(text)
	n := len(words)
	if n == 0 || strings.HasSuffix(text, " ") || !plainNumber().MatchString(words[n-1]) {
		return strings.Join(words, " "), ""
	}
	from := n - 1
	if strings.Contains(words[n-1], "/") && n > 1 && wholeNumber().MatchString(words[n-2]) {
		from--
	}
	return strings.Join(words[:from], " "), strings.Join(words[from:], " ")
}

// ReadResult reads what was measured of one thing that was asked, "M1 diameter 2.4792 in", and holds it against what was asked. What is judged
// in words is answered by pass or fails, with words after it if need be. A size without a unit is in the unit asked. Errors are of code Invalid.
func ReadResult(text string, asked []Asked) (Result, error) {
	text = strings.TrimSpace(text)
	at, all := -1, []string{}
	for i, a := range asked {
		all = append(all, a.What)
		if len(text) >= len(a.What) && strings.EqualFold(text[:len(a.What)], a.What) && (at < 0 || len(a.What) > len(asked[at].What)) {
			at = i
		}
	}
	if at < 0 {
		next := "asked were: " + strings.Join(all, ", ")
		if len(all) == 0 {
			next = "leave --size out"
		}
		return Result{}, Errorf(Invalid, next, "%q answers nothing that was asked", text)
	}
	a := asked[at]
	as := strings.TrimLeft(strings.TrimSpace(text[len(a.What):]), ": ")
	if a.Unit == "" {
		return judged(a, as)
	}
	r, err := ParseReading(as)
	if err != nil {
		return Result{}, err
	}
	q := Quantity{Value: r.Value, Unit: r.Unit}
	if q.Unit == "" {
		q.Unit, as = a.Unit, as+" "+a.Unit
	}
	ok, err := a.Meets(q)
	return Result{What: a.What, Got: q, As: as, OK: ok}, err
}

func judged(a Asked, as string) (Result, error) {
	first, _, _ := strings.Cut(strings.ToLower(as), " ")
	first = strings.TrimRight(first, ",.:;")
	switch {
	case slices.Contains([]string{"pass", "passes", "passed", "yes"}, first):
		return Result{What: a.What, As: as, OK: true}, nil
	case slices.Contains([]string{"fails", "fail", "failed", "no"}, first):
		return Result{What: a.What, As: as}, nil
	}
	return Result{}, Errorf(Invalid, "write: "+a.What+" pass, or: "+a.What+" fails", "%q neither passes nor fails", a.What)
}
