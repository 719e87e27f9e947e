package sdk

import "math"

// operation works out one operator or function from its arguments; truths are 1 and 0.
type operation func(x []float64) float64

// formulaWord is an operator or function of a formula: how many arguments it takes, and of which sort they and its result are.
type formulaWord struct {
	least, most int
	takes       termSort // of every argument; of a choice, the first is a truth and the others are alike
	gives       termSort
	apply       operation
}

// termSort is what an expression gives.
type termSort string

const (
	sortNumber termSort = "a number"
	sortTruth  termSort = "a comparison"
	sortList   termSort = "a list of numbers"
	sortAlike  termSort = "" // of a choice: what its alternatives give
)

// findFormulaWord gives an operator or function. The functions are the trade's: abs, sqrt, min and max of 2 to 8 numbers,
// spread and mean of a list, and of the four readings of a journal, front and rear in two directions (FV, FH, RV, RH),
// out_of_round and taper.
func findFormulaWord(name string) (formulaWord, bool) {
	two := func(f func(x, y float64) float64) (formulaWord, bool) {
		return formulaWord{2, 2, sortNumber, sortNumber, func(x []float64) float64 { return f(x[0], x[1]) }}, true
	}
	compare := func(f func(x, y float64) bool) (formulaWord, bool) {
		return formulaWord{2, 2, sortNumber, sortTruth, func(x []float64) float64 { return truthOf(f(x[0], x[1])) }}, true
	}
	switch name {
	case "+":
		return two(func(x, y float64) float64 { return x + y })
	case "-":
		return two(func(x, y float64) float64 { return x - y })
	case "*":
		return two(func(x, y float64) float64 { return x * y })
	case "/":
		return two(func(x, y float64) float64 { return x / y })
	case "<":
		return compare(func(x, y float64) bool { return x < y })
	case "<=":
		return compare(func(x, y float64) bool { return x <= y })
	case ">":
		return compare(func(x, y float64) bool { return x > y })
	case ">=":
		return compare(func(x, y float64) bool { return x >= y })
	case "&&":
		return formulaWord{2, 2, sortTruth, sortTruth, least}, true
	case "||":
		return formulaWord{2, 2, sortTruth, sortTruth, greatest}, true
	case not:
		return formulaWord{1, 1, sortTruth, sortTruth, func(x []float64) float64 { return 1 - x[0] }}, true
	case negate:
		return formulaWord{1, 1, sortNumber, sortNumber, func(x []float64) float64 { return -x[0] }}, true
	case ifElse:
		return formulaWord{3, 3, sortAlike, sortAlike, func(x []float64) float64 {
			if x[0] != 0 {
				return x[1]
			}
			return x[2]
		}}, true
	case "abs":
		return formulaWord{1, 1, sortNumber, sortNumber, func(x []float64) float64 { return math.Abs(x[0]) }}, true
	case "sqrt":
		return formulaWord{1, 1, sortNumber, sortNumber, func(x []float64) float64 { return math.Sqrt(x[0]) }}, true
	case "min":
		return formulaWord{2, 8, sortNumber, sortNumber, least}, true
	case "max":
		return formulaWord{2, 8, sortNumber, sortNumber, greatest}, true
	case "spread":
		return formulaWord{1, 1, sortList, sortNumber, func(x []float64) float64 { return greatest(x) - least(x) }}, true
	case "mean":
		return formulaWord{1, 1, sortList, sortNumber, Mean}, true
	case "out_of_round":
		return formulaWord{4, 4, sortNumber, sortNumber, func(x []float64) float64 { return math.Max(math.Abs(x[0]-x[1]), math.Abs(x[2]-x[3])) }}, true
	case "taper":
		return formulaWord{4, 4, sortNumber, sortNumber, func(x []float64) float64 { return math.Max(math.Abs(x[0]-x[2]), math.Abs(x[1]-x[3])) }}, true
	}
	return formulaWord{}, false
}

// functionNames are those a sheet may call.
var functionNames = []string{"abs", "max", "mean", "min", "out_of_round", "spread", "sqrt", "taper"}

func truthOf(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func least(xs []float64) float64 {
	m := math.Inf(1)
	for _, x := range xs {
		m = math.Min(m, x)
	}
	return m
}

func greatest(xs []float64) float64 {
	m := math.Inf(-1)
	for _, x := range xs {
		m = math.Max(m, x)
	}
	return m
}

// settled gives a checked expression and all in it the operations to be worked out by.
func (e *expression) settled() {
	if e.kind == aCall {
		word, _ := findFormulaWord(e.word)
		e.apply = word.apply
	}
	for _, a := range e.args {
		a.settled()
	}
}

// work evaluates a checked expression; values are those of the formula's names, in their order.
func (e *expression) work(values []float64) float64 {
	switch e.kind {
	case aNumber, aTruth:
		return e.value
	case aName:
		if e.index < 0 {
			return math.Pi
		}
		return values[e.index]
	}
	args := e.args
	if len(args) == 1 && args[0].kind == aList {
		args = args[0].args
	}
	var room [8]float64
	x := room[:0]
	for _, a := range args {
		x = append(x, a.work(values))
	}
	return e.apply(x)
}
