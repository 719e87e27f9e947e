package sdk

import (
	"fmt"
	"strconv"
	"strings"
)

// expression is a part of a formula: a number, a name, a list, or an operator or function with its arguments.
type expression struct {
	kind  expressionKind
	word  string  // the name, the operator or the function
	value float64 // of a number; 1 is true, 0 false
	args  []*expression
	index int       // of a name: which of the formula's names it is
	at    int       // byte of the text where it starts
	sign  int       // byte of its operator, or of its function's bracket
	apply operation // of an operator or function, once checked
}

type expressionKind int

const (
	aNumber expressionKind = iota
	aTruth                 // true or false
	aName
	aList
	aCall // an operator or a function
)

// The operators, the loosest first. All of a level are taken from left to right.
var operatorLevels = [][]string{{"||"}, {"&&"}, {"<=", ">=", "<", ">"}, {"+", "-"}, {"*", "/"}}

// Names of what is not written as a name.
const (
	ifElse = "?:"
	negate = "-x"
	not    = "!"
)

// formulaReader reads the text of a formula: the Common Expression Language's numbers, names, arithmetic, comparisons,
// && || !, the choice ?:, lists and functions. Nothing else of that language has a place in a sheet.
type formulaReader struct {
	text  string
	at    int
	depth int
}

// maxDepth bounds brackets within brackets.
const maxDepth = 60

// unreadable is what stops the reading of a formula, and where.
type unreadable struct {
	at   int
	what string
}

// readExpression reads a whole formula; the fault is nil if it could be read.
func readExpression(text string) (e *expression, fault *unreadable) {
	defer func() {
		if p := recover(); p != nil {
			u, ours := p.(unreadable)
			if !ours {
				panic(p)
			}
			e, fault = nil, &u
		}
	}()
	r := &formulaReader{text: text}
	e = r.choice()
	if r.space(); r.at < len(r.text) {
		r.stop("nothing fits before %s", r.next())
	}
	return e, nil
}

func (r *formulaReader) stop(format string, args ...any) {
	panic(unreadable{r.at, fmt.Sprintf(format, args...)})
}

func (r *formulaReader) space() {
	for r.at < len(r.text) && strings.IndexByte(" \t\r\n", r.text[r.at]) >= 0 {
		r.at++
	}
}

// next gives what stands next, for a message.
func (r *formulaReader) next() string {
	if r.at >= len(r.text) {
		return "the end"
	}
	end := r.at
	for end < len(r.text) && isNameByte(r.text[end]) {
		end++
	}
	if end == r.at {
		end += len(string([]rune(r.text[r.at:])[:1]))
	}
	return strconv.Quote(r.text[r.at:end])
}

// take passes over a sign if it stands next.
func (r *formulaReader) take(sign string) bool {
	r.space()
	if !strings.HasPrefix(r.text[r.at:], sign) {
		return false
	}
	r.at += len(sign)
	return true
}

func (r *formulaReader) want(sign string) {
	if !r.take(sign) {
		r.stop("%q is wanted before %s", sign, r.next())
	}
}

func (r *formulaReader) choice() *expression {
	if r.depth++; r.depth > maxDepth {
		r.stop("it is nested too deeply")
	}
	defer func() { r.depth-- }()
	condition := r.level(0)
	r.space()
	sign := r.at
	if !r.take("?") {
		return condition
	}
	yes := r.level(0)
	r.want(":")
	return &expression{kind: aCall, word: ifElse, args: []*expression{condition, yes, r.choice()}, at: condition.at, sign: sign}
}

func (r *formulaReader) level(n int) *expression {
	if n == len(operatorLevels) {
		return r.signed()
	}
	left := r.level(n + 1)
	for {
		r.space()
		sign, word := r.at, ""
		for _, o := range operatorLevels[n] {
			if r.take(o) {
				word = o
				break
			}
		}
		if word == "" {
			return left
		}
		left = &expression{kind: aCall, word: word, args: []*expression{left, r.level(n + 1)}, at: left.at, sign: sign}
	}
}

func (r *formulaReader) signed() *expression {
	r.space()
	at, word := r.at, ""
	switch {
	case strings.HasPrefix(r.text[at:], "!="):
	case r.take("-"):
		word = negate
	case r.take("!"):
		word = not
	}
	if word == "" {
		return r.single()
	}
	if r.depth++; r.depth > maxDepth {
		r.stop("it is nested too deeply")
	}
	defer func() { r.depth-- }()
	return &expression{kind: aCall, word: word, args: []*expression{r.signed()}, at: at, sign: at}
}

func (r *formulaReader) single() *expression {
	r.space()
	at := r.at
	if at >= len(r.text) {
		r.stop("it ends too early")
	}
	switch c := r.text[at]; {
	case isDigit(c) || c == '.' && at+1 < len(r.text) && isDigit(r.text[at+1]):
		return r.number()
	case isNameByte(c):
		return r.name()
	case r.take("("):
		e := r.choice()
		r.want(")")
		e.at = at
		return e
	case r.take("["):
		return &expression{kind: aList, args: r.several("]"), at: at, sign: at}
	case c == '"' || c == '\'':
		r.stop("a text has no place in a formula")
	}
	r.stop("a number or a name is wanted before %s", r.next())
	return nil
}

func (r *formulaReader) number() *expression {
	at := r.at
	r.at = numberEnd(r.text, at)
	if r.at < len(r.text) && isNameByte(r.text[r.at]) {
		r.stop("%s cannot follow a number", r.next())
	}
	v, err := strconv.ParseFloat(r.text[at:r.at], 64)
	if err != nil {
		r.at = at
		r.stop("%s is no number that can be worked with", r.text[at:numberEnd(r.text, at)])
	}
	return &expression{kind: aNumber, value: v, at: at, sign: at}
}

func (r *formulaReader) name() *expression {
	at := r.at
	for r.at < len(r.text) && isNameByte(r.text[r.at]) {
		r.at++
	}
	word := r.text[at:r.at]
	r.space()
	sign := r.at
	switch {
	case r.take("("):
		return &expression{kind: aCall, word: word, args: r.several(")"), at: at, sign: sign}
	case word == "true":
		return &expression{kind: aTruth, value: 1, at: at, sign: at}
	case word == "false":
		return &expression{kind: aTruth, at: at, sign: at}
	}
	return &expression{kind: aName, word: word, at: at, sign: at}
}

// several reads expressions with commas between them, up to a closing bracket.
func (r *formulaReader) several(closing string) []*expression {
	if r.take(closing) {
		return nil
	}
	es := []*expression{r.choice()}
	for r.take(",") {
		es = append(es, r.choice())
	}
	r.want(closing)
	return es
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func isNameByte(c byte) bool {
	return isDigit(c) || c == '_' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
}

// numberEnd finds the end of the number that starts at i.
func numberEnd(s string, i int) int {
	digits := func(j int) int {
		for j < len(s) && isDigit(s[j]) {
			j++
		}
		return j
	}
	j := digits(i)
	if j < len(s) && s[j] == '.' {
		j = digits(j + 1)
	}
	if j < len(s) && (s[j] == 'e' || s[j] == 'E') {
		k := j + 1
		if k < len(s) && (s[k] == '+' || s[k] == '-') {
			k++
		}
		if e := digits(k); e > k {
			j = e
		}
	}
	return j
}
