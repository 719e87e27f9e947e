package sdk

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"cel.dev/cel-go/cel"
	"cel.dev/cel-go/common/types"
	"cel.dev/cel-go/common/types/ref"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A sheet's formulas are a part of the Common Expression Language (cel.dev), with numbers that may be written shorter. Its
// own implementation, cel-go, is asked here what each means.

// celFormula is what cel-go makes of a formula over names that are plain numbers.
type celFormula struct{ program cel.Program }

func newCELFormula(env *cel.Env, text string) (*celFormula, error) {
	ast, issues := env.Compile(text)
	if issues.Err() != nil {
		return nil, issues.Err()
	}
	if ast.OutputType() != types.DoubleType {
		return nil, fmt.Errorf("it gives %s", ast.OutputType())
	}
	program, err := env.Program(ast)
	return &celFormula{program}, err
}

func (c *celFormula) eval(t require.TestingT, values map[string]float64) (float64, bool) {
	in := map[string]any{}
	for n, v := range values {
		in[n] = v
	}
	out, _, err := c.program.Eval(in)
	require.NoError(t, err)
	v := out.Value().(float64)
	return v, !math.IsNaN(v) && !math.IsInf(v, 0)
}

// celEnv is CEL's standard arithmetic, comparison and logic, with the trade's functions.
func celEnv(t require.TestingT, names []string) *cel.Env {
	d := cel.DoubleType
	options := []cel.EnvOption{cel.Constant("pi", d, types.Double(math.Pi)), cel.ClearMacros()}
	for _, n := range names {
		options = append(options, cel.Variable(n, d))
	}
	several := func(name string, from, to int, f func(x []float64) float64) {
		for n := from; n <= to; n++ {
			args := make([]*cel.Type, n)
			for i := range args {
				args[i] = d
			}
			bind := cel.FunctionBinding(func(vs ...ref.Val) ref.Val {
				x := make([]float64, len(vs))
				for i, v := range vs {
					x[i] = float64(v.(types.Double))
				}
				return types.Double(f(x))
			})
			options = append(options, cel.Function(name, cel.Overload(fmt.Sprintf("%s_%d", name, n), args, d, bind)))
		}
	}
	listed := func(name string, f func(x []float64) float64) {
		options = append(options, cel.Function(name, cel.Overload(name+"_list", []*cel.Type{cel.ListType(d)}, d, cel.UnaryBinding(func(v ref.Val) ref.Val {
			x, err := v.ConvertToNative(reflect.TypeFor[[]float64]())
			if err != nil {
				return types.WrapErr(err)
			}
			return types.Double(f(x.([]float64)))
		}))))
	}
	several("abs", 1, 1, func(x []float64) float64 { return math.Abs(x[0]) })
	several("sqrt", 1, 1, func(x []float64) float64 { return math.Sqrt(x[0]) })
	several("min", 2, 8, func(x []float64) float64 {
		m := x[0]
		for _, v := range x {
			m = math.Min(m, v)
		}
		return m
	})
	several("max", 2, 8, func(x []float64) float64 {
		m := x[0]
		for _, v := range x {
			m = math.Max(m, v)
		}
		return m
	})
	several("out_of_round", 4, 4, func(x []float64) float64 { return math.Max(math.Abs(x[0]-x[1]), math.Abs(x[2]-x[3])) })
	several("taper", 4, 4, func(x []float64) float64 { return math.Max(math.Abs(x[0]-x[2]), math.Abs(x[1]-x[3])) })
	listed("spread", func(x []float64) float64 {
		low, high := math.Inf(1), math.Inf(-1)
		for _, v := range x {
			low, high = math.Min(low, v), math.Max(high, v)
		}
		return high - low
	})
	listed("mean", Mean)
	env, err := cel.NewEnv(options...)
	require.NoError(t, err)
	return env
}

// celNumber finds the numbers of a formula, which CEL wants with a digit before the point and one after it.
var celNumber = regexp.MustCompile(`(^|[^A-Za-z0-9_.])((?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)`)

func celText(t require.TestingT, text string) string {
	return celNumber.ReplaceAllStringFunc(text, func(s string) string {
		m := celNumber.FindStringSubmatch(s)
		v, err := strconv.ParseFloat(m[2], 64)
		require.NoError(t, err)
		n := strconv.FormatFloat(v, 'f', -1, 64)
		if !strings.Contains(n, ".") {
			n += ".0"
		}
		return m[1] + n
	})
}

// sameAsCEL wants of cel-go what the formula gives; the values may be anything.
func sameAsCEL(t require.TestingT, x *formula, values map[string]float64) {
	names := scope{}
	for n := range values {
		names[n] = "1"
	}
	text := celText(t, x.text)
	c, err := newCELFormula(celEnv(t, names.names()), text)
	require.NoError(t, err, text)
	want, finite := c.eval(t, values)
	got, ok := x.eval(func(n string) (float64, bool) { v, known := values[n]; return v, known })
	require.Equal(t, finite, ok, text)
	if finite {
		require.Equal(t, want, got, "%s with %v", text, values)
	}
}

func TestEveryFormulaOfTheSheetsMeansWhatCELSays(t *testing.T) {
	files, err := filepath.Glob("../../plugins/*/sheet.yaml")
	require.NoError(t, err)
	require.Len(t, files, 18)
	checked := 0
	for _, file := range append(files, "testdata/bench.yaml", "template.yaml") {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		d, faults := load(text, true)
		require.Empty(t, faults, file)
		for _, p := range d.parts {
			for _, c := range p.checks {
				for _, x := range c.formulas() {
					if x == nil || x.fixed != nil {
						continue
					}
					values := map[string]float64{}
					for i, n := range x.names {
						values[n] = 1.1 + .37*float64(i)
					}
					sameAsCEL(t, x, values)
					checked++
				}
			}
		}
	}
	require.Greater(t, checked, 100)
}

// drawFormula writes a formula that gives a number, or a comparison.
func drawFormula(t *rapid.T, depth int, comparison bool) string {
	space := rapid.SampledFrom([]string{"", " "}).Draw(t, "space")
	sub := func(comparison bool) string { return drawFormula(t, depth-1, comparison) }
	if comparison {
		if depth <= 0 {
			return rapid.SampledFrom([]string{"true", "false", "a < b", "b>=c"}).Draw(t, "comparison")
		}
		switch rapid.IntRange(0, 4).Draw(t, "kind") {
		case 0:
			return sub(false) + space + rapid.SampledFrom([]string{"<", "<=", ">", ">="}).Draw(t, "sign") + space + sub(false)
		case 1:
			return sub(true) + space + rapid.SampledFrom([]string{"&&", "||"}).Draw(t, "sign") + space + sub(true)
		case 2:
			return "!(" + sub(true) + ")"
		case 3:
			return "(" + sub(true) + " ? " + sub(true) + " : " + sub(true) + ")"
		}
		return "(" + sub(true) + ")"
	}
	if depth <= 0 {
		return rapid.SampledFrom([]string{"a", "b", "c", "pi", "1", "2.5", ".0015", "3.", "1e-3"}).Draw(t, "term")
	}
	list := func(least, most int) string {
		n := rapid.IntRange(least, most).Draw(t, "n")
		terms := make([]string, n)
		for i := range terms {
			terms[i] = sub(false)
		}
		return strings.Join(terms, ","+space)
	}
	switch rapid.IntRange(0, 7).Draw(t, "kind") {
	case 0, 1, 2:
		return sub(false) + space + rapid.SampledFrom([]string{"+", "-", "*", "/"}).Draw(t, "sign") + space + sub(false)
	case 3:
		return "-(" + sub(false) + ")"
	case 4:
		return "(" + sub(true) + space + "?" + space + sub(false) + space + ":" + space + sub(false) + ")"
	case 5:
		return rapid.SampledFrom([]string{"min", "max"}).Draw(t, "function") + "(" + list(2, 4) + ")"
	case 6:
		return rapid.SampledFrom([]string{"spread", "mean"}).Draw(t, "function") + "([" + list(1, 4) + "])"
	}
	return rapid.SampledFrom([]string{"abs(" + sub(false) + ")", "sqrt(" + sub(false) + ")", "out_of_round(" + list(4, 4) + ")", "taper(" + list(4, 4) + ")"}).Draw(t, "function")
}

// plainScope has plain numbers alone: only the reading and the sorts are tried here, units elsewhere.
var plainScope = scope{"a": "1", "b": "1", "c": "1"}

func drawValues(t *rapid.T) map[string]float64 {
	values := map[string]float64{}
	for _, n := range plainScope.names() {
		values[n] = rapid.SampledFrom([]float64{0, 1, -1, .25, 3.5, 1e6}).Draw(t, n)
	}
	return values
}

func TestAnyFormulaMeansWhatCELSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := &faults{}
		x := &formula{text: drawFormula(t, 3, false), unit: "1", oneLine: true}
		f.checkFormula(x, plainScope)
		require.Empty(t, f.sorted(), x.text)
		sameAsCEL(t, x, drawValues(t))
	})
}

// A formula with a piece taken out, put in or changed: what is still taken, cel-go takes too, with the same value.
func TestNothingIsTakenThatCELRefuses(t *testing.T) {
	pieces := strings.Split("a b 2 .5 + - * / < >= && || ! ? : ( ) [ ] , abs( spread([ min( true . % = ' & |", " ")
	rapid.Check(t, func(t *rapid.T) {
		text := drawFormula(t, 2, false)
		for range rapid.IntRange(1, 3).Draw(t, "changes") {
			at := rapid.IntRange(0, len(text)).Draw(t, "at")
			piece := rapid.SampledFrom(append(pieces, "")).Draw(t, "piece")
			text = text[:at] + piece + text[min(len(text), at+rapid.IntRange(0, 2).Draw(t, "out")):]
		}
		f := &faults{}
		x := &formula{text: text, unit: "1", oneLine: true}
		if f.checkFormula(x, plainScope); len(f.list) == 0 {
			sameAsCEL(t, x, drawValues(t))
		}
	})
}
