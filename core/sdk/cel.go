package sdk

import (
	"fmt"
	"math"
	"reflect"
	"sync"

	"cel.dev/cel-go/cel"
	"cel.dev/cel-go/common/types"
	"cel.dev/cel-go/common/types/ref"
	"cel.dev/cel-go/interpreter"
)

// variable is one identifier's value; activation hands a few of them to CEL without a map.
type variable struct {
	name  string
	value float64
}

type activation []variable

// ResolveName finds a variable.
func (a activation) ResolveName(name string) (any, bool) {
	for i := range a {
		if a[i].name == name {
			return types.Double(a[i].value), true
		}
	}
	return nil, false
}

// Parent is nil: there is no outer scope.
func (a activation) Parent() interpreter.Activation { return nil }

// formulaEnv is the language of a sheet's formulas: CEL's arithmetic, comparison and choice over doubles, the trade's
// functions, and the sheet's identifiers.
type formulaEnv struct {
	env *cel.Env
}

// language is CEL without macros, strings and calls that a sheet has no use for. It is made once: it is the larger part
// of what formulas cost in memory.
var language = sync.OnceValues(func() (*cel.Env, error) {
	opts := []cel.EnvOption{
		cel.ParserRecursionLimit(60),
		cel.ParserExpressionSizeLimit(2 * maxFormula),
		cel.Constant("pi", cel.DoubleType, types.Double(math.Pi)),
	}
	opts = append(opts, operators()...)
	return cel.NewCustomEnv(append(opts, functions()...)...)
})

func newFormulaEnv(identifiers []string) (*formulaEnv, error) {
	env, err := language()
	if err != nil {
		return nil, err
	}
	opts := make([]cel.EnvOption, len(identifiers))
	for i, id := range identifiers {
		opts[i] = cel.Variable(id, cel.DoubleType)
	}
	env, err = env.Extend(opts...)
	return &formulaEnv{env}, err
}

// plan makes a formula that was found good ready to run.
func (e *formulaEnv) plan(source string) (cel.Program, error) {
	ast, iss := e.env.Compile(source)
	if iss.Err() != nil {
		return nil, iss.Err()
	}
	return e.env.Program(ast)
}

func operators() []cel.EnvOption {
	d, b, t := cel.DoubleType, cel.BoolType, cel.TypeParamType("T")
	var opts []cel.EnvOption
	arithmetic := func(op, id string, f func(x, y float64) float64) {
		opts = append(opts, cel.Function(op, cel.Overload(id, []*cel.Type{d, d}, d, cel.BinaryBinding(func(x, y ref.Val) ref.Val {
			return types.Double(f(float64(x.(types.Double)), float64(y.(types.Double))))
		}))))
	}
	compare := func(op, id string, f func(x, y float64) bool) {
		opts = append(opts, cel.Function(op, cel.Overload(id, []*cel.Type{d, d}, b, cel.BinaryBinding(func(x, y ref.Val) ref.Val {
			return types.Bool(f(float64(x.(types.Double)), float64(y.(types.Double))))
		}))))
	}
	arithmetic("_+_", "add_double", func(x, y float64) float64 { return x + y })
	arithmetic("_-_", "subtract_double", func(x, y float64) float64 { return x - y })
	arithmetic("_*_", "multiply_double", func(x, y float64) float64 { return x * y })
	arithmetic("_/_", "divide_double", func(x, y float64) float64 { return x / y })
	compare("_<_", "less_double", func(x, y float64) bool { return x < y })
	compare("_<=_", "less_equals_double", func(x, y float64) bool { return x <= y })
	compare("_>_", "greater_double", func(x, y float64) bool { return x > y })
	compare("_>=_", "greater_equals_double", func(x, y float64) bool { return x >= y })
	bools := []*cel.Type{b, b}
	return append(opts,
		cel.Function("-_", cel.Overload("negate_double", []*cel.Type{d}, d, cel.UnaryBinding(func(x ref.Val) ref.Val { return -x.(types.Double) }))),
		// CEL itself evaluates these; they need only be known.
		cel.Function("_&&_", cel.Overload("logical_and", bools, b)),
		cel.Function("_||_", cel.Overload("logical_or", bools, b)),
		cel.Function("!_", cel.Overload("logical_not", []*cel.Type{b}, b, cel.UnaryBinding(func(x ref.Val) ref.Val { return !x.(types.Bool) }))),
		cel.Function("_?_:_", cel.Overload("conditional", []*cel.Type{b, t, t}, t)))
}

// functions are the trade's: abs, min and max of 2 to 8, sqrt, spread and mean of a list, and of the four readings
// of a journal, front and rear in two directions (FV, FH, RV, RH), out_of_round and taper.
func functions() []cel.EnvOption {
	d := cel.DoubleType
	one := func(name string, f func(x float64) float64) cel.EnvOption {
		return cel.Function(name, cel.Overload(name+"_double", []*cel.Type{d}, d, cel.UnaryBinding(func(x ref.Val) ref.Val {
			return types.Double(f(float64(x.(types.Double))))
		})))
	}
	several := func(name string, from, to int, f func(xs []float64) float64) cel.EnvOption {
		var os []cel.FunctionOpt
		for n := from; n <= to; n++ {
			args := make([]*cel.Type, n)
			for i := range args {
				args[i] = d
			}
			id := fmt.Sprintf("%s_%d", name, n)
			call := func(vs ...ref.Val) ref.Val { return types.Double(f(doubles(vs))) }
			if n == 2 {
				os = append(os, cel.Overload(id, args, d, cel.BinaryBinding(func(x, y ref.Val) ref.Val { return call(x, y) })))
				continue
			}
			os = append(os, cel.Overload(id, args, d, cel.FunctionBinding(call)))
		}
		return cel.Function(name, os...)
	}
	listed := func(name string, f func(xs []float64) float64) cel.EnvOption {
		return cel.Function(name, cel.Overload(name+"_list", []*cel.Type{cel.ListType(d)}, d, cel.UnaryBinding(func(x ref.Val) ref.Val {
			xs, err := x.ConvertToNative(doubleSlice)
			if err != nil {
				return types.WrapErr(err)
			}
			return types.Double(f(xs.([]float64)))
		})))
	}
	return []cel.EnvOption{
		one("abs", math.Abs), one("sqrt", math.Sqrt),
		several("min", 2, 8, least), several("max", 2, 8, greatest),
		listed("spread", func(xs []float64) float64 { return greatest(xs) - least(xs) }), listed("mean", Mean),
		several("out_of_round", 4, 4, func(x []float64) float64 { return math.Max(math.Abs(x[0]-x[1]), math.Abs(x[2]-x[3])) }),
		several("taper", 4, 4, func(x []float64) float64 { return math.Max(math.Abs(x[0]-x[2]), math.Abs(x[1]-x[3])) }),
	}
}

var doubleSlice = reflect.TypeFor[[]float64]()

func doubles(vs []ref.Val) []float64 {
	xs := make([]float64, len(vs))
	for i, v := range vs {
		xs[i] = float64(v.(types.Double))
	}
	return xs
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
