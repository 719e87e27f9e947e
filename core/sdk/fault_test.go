package sdk_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// mark stands in a changed sheet where the fault is expected.
const mark = "¦"

// spoil replaces texts of the template, given as old, new, old, new, each once, and gives the sheet with the place of
// the mark in it, counted from 1.
func spoil(t *testing.T, change ...string) (sheet []byte, line, column int) {
	t.Helper()
	s := string(sdk.NewSheet("pump"))
	for i := 0; i < len(change); i += 2 {
		require.Contains(t, s, change[i], "the case does not fit the template")
		s = strings.Replace(s, change[i], change[i+1], 1)
	}
	before, after, ok := strings.Cut(s, mark)
	require.True(t, ok, "no mark")
	line = strings.Count(before, "\n") + 1
	column = len([]rune(before[strings.LastIndex(before, "\n")+1:])) + 1
	return []byte(before + after), line, column
}

// requireFault wants a fault told at the mark.
func requireFault(t *testing.T, what, next string, change ...string) {
	t.Helper()
	sheet, line, column := spoil(t, change...)
	for _, f := range sdk.CheckSheet(sheet) {
		if f.Line == line && f.Column == column && strings.Contains(f.What, what) {
			require.NotEmpty(t, f.Next, "it says what to do")
			require.Contains(t, f.Next, next)
			return
		}
	}
	require.Failf(t, "not told", "wanted %d:%d %q, got:\n%v", line, column, what, sdk.CheckSheet(sheet))
}

// Every kind of fault is told at its line and column, with what to do.
func TestFaults(t *testing.T) {
	for _, c := range []struct{ name, old, new, what, next string }{
		// Reading.
		{"unknown key", "    reach: [", "    ¦reech: [", `unknown key "reech" of a part`, "did you mean reach?"},
		{"key twice", "    name: Pump shaft\n", "    name: Pump shaft\n    ¦name: Shaft\n", "stands here twice", "keep one"},
		{"missing key", "  - id: stud\n    name: Fixing stud\n", "  - ¦id: stud\n", "a part has no name", "add name:"},
		{"blank", "title: Pump ", "title: ¦\"\" ", "this is blank", "write the text"},
		{"blank without quotes", "name: Pump shaft\n", "name:¦\n", "this is blank", "write the text"},
		{"list for a text", "title: Pump ", "title: ¦[Pump, one] ", "a text is wanted here, not a list", ""},
		{"text for a list", "stations: [FV, FH]", "stations: ¦FV", "a list is wanted here", "write a list"},
		{"text for a mapping", "life: {typical: 120000, unit: km, sigma: .5, source: \"common practice, no source\"}", "life: ¦long", "a life is wanted here", ""},
		{"text for a number", "minutes: 4", "minutes: ¦four", "a number is wanted here", "write a number"},
		{"number out of range", "outlook: {past: .3}", "outlook: {past: ¦1.3}", "1.3 is outside", "from 0 to 1"},
		{"no whole number", "default: 4", "default: ¦4.5", "4.5 is no whole number", ""},
		{"text for yes or no", "one_use: true", "one_use: ¦\"true\"", "true or false is wanted", ""},
		{"no id", "  - id: stud\n", "  - id: ¦fixing stud\n", `"fixing stud" is no id`, ""},
		{"alias", "unit_kind: engine ", "unit_kind: ¦&k engine ", "anchor &k", "write it out"},
		{"two numbers for three", "hours: [1, 1.5, 3]", "hours: ¦[1, 3]", "three numbers are wanted", "[low, likely, high]"},
		{"falling three", "hours: [1, 1.5, 3]", "hours: ¦[1, 5, 3]", "do not rise", ""},
		{"negative hours", "hours: [1, 1.5, 3]", "hours: [¦-1, 1.5, 3]", "-1 is outside", ""},
		{"no currency", "currency: USD ", "currency: ¦DOLLAR ", "is no currency", "USD"},
		{"no amount", "each: [40, 65, 120]", "each: [¦4e1, 65, 120]", "no amount of money", ""},
		{"no unit", "unit: in, plausible", "unit: ¦inn, plausible", `there is no unit "inn"`, "did you mean in"},
		{"text listed twice", "answers: [diameter, out-of-round]", "answers: [diameter, ¦diameter]", "stands here twice", ""},
		// Facts.
		{"size with a default", "plausible: [.3, 1.5]}", "plausible: [.3, 1.5], ¦default: 1}", "only a count has a default", "take it out"},
		{"fact no formula can name", "{name: D,", "{name: ¦D-1,", "cannot be named in a formula", ""},
		{"fact kept for formulas", "{name: D,", "{name: ¦in,", "kept for formulas", ""},
		{"plausible upside down", "plausible: [.3, 1.5]", "plausible: [¦3, 1.5]", "upside down", ""},
		{"default not plausible", "default: 4", "¦default: 9", "not plausible", ""},
		{"fact twice", "  - {name: studs,", "  - {name: D, means: d, unit: in}\n  - {name: ¦D, means: d, unit: in}\n  - {name: studs,", "two facts called D", ""},
		// Checks and limits.
		{"no kind", "kind: judged", "kind: ¦judge", `"judge" is no kind of check`, "judged"},
		{"no unit of a measured", "      - id: end-float\n        kind: measured\n        unit: in\n", "      - ¦id: end-float\n        kind: measured\n", "measured check has no unit", "add unit:"},
		{"unit of a judged", "kind: judged\n", "kind: judged\n        ¦unit: mm\n", "a judged check is in", "leave the unit out"},
		{"limit without a source", "limit: {new: [0, .0003], wear_high: .001, source: \"common practice, no source\", ", "limit: ¦{new: [0, .0003], wear_high: .001, ", "a limit has no source", "add source:"},
		{"limit without bounds", "limit: {new: [0, .0003], wear_high: .001, ", "limit: ¦{", "the limit has no bounds", ""},
		{"judged without a class", "limit: {worst_class: 1, ", "limit: ¦{", "no worst class", ""},
		{"class of a size", "wear_high: .015, ", "wear_high: .015, ¦worst_class: 1, ", "has no worst_class", ""},
		{"bounds of a go/no-go", "limit: {source: \"common practice, no source\", confidence: high}\n        needed", "limit: {¦wear_high: 1, source: \"common practice, no source\", confidence: high}\n        needed", "has no wear_high", ""},
		{"confidence", "wear_high: .015, source: \"common practice, no source\", confidence: medium", "wear_high: .015, source: \"common practice, no source\", confidence: ¦sure", "is no confidence", ""},
		{"new upside down", "new: [.002, .005]", "new: [¦.006, .005]", "upside down", ""},
		{"new past wear", "wear_high: .015", "wear_high: ¦.004", "past wear_high", ""},
		{"two-sided without new", "limit: {new: [.002, .005], wear_high: .015", "limit: ¦{wear_high: .015", "needs to know what new is", ""},
		{"derived without a formula", "      - id: out-of-round\n        kind: derived\n        unit: in\n        formula: abs(FV - FH)\n", "      - ¦id: out-of-round\n        kind: derived\n        unit: in\n", "has no formula", ""},
		{"formula of a measured", "        before_strip: true ", "        ¦formula: FV\n        before_strip: true ", "has no use for a formula", ""},
		{"check twice", "      - id: crack-test\n", "      - id: ¦end-float\n", "two checks of this part called end-float", ""},
		// Formulas.
		{"unreadable", "formula: abs(FV - FH)", "formula: abs(FV - ¦)", "cannot be read", ""},
		{"unknown name", "formula: abs(FV - FH)", "formula: abs(FV - ¦FX)", "names FX, which is no station", "did you mean"},
		{"unknown name in a quoted formula", "wear_low: D - .0015", "wear_low: \".0015 + ¦E\"", "names E", ""},
		{"unknown function", "formula: abs(FV - FH)", "formula: ¦round(FV - FH)", "no function round", ""},
		{"too many arguments", "formula: abs(FV - FH)", "formula: abs¦(FV, FH)", "does not work out", ""},
		{"no number", "formula: abs(FV - FH)", "formula: ¦FV < FH", "gives no number", ""},
		{"text in a formula", "formula: abs(FV - FH)", "formula: abs(FV - ¦'a')", "no place in a formula", ""},
		{"length and count", "formula: abs(FV - FH)", "formula: abs(FV - ¦studs)", "a length and a plain number cannot be added", ""},
		{"square of a length", "formula: abs(FV - FH)", "formula: ¦FV * FH", "gives a product of several dimensions", "FV (in)"},
		{"root of a length", "formula: abs(FV - FH)", "formula: ¦sqrt(FV)", "sqrt is taken of a length", ""},
		{"circle", "formula: abs(FV - FH)", "formula: ¦out_of_round_2 + FH - FV\n        limit: {wear_high: 1, source: s, confidence: low}\n      - id: out-of-round-2\n        kind: derived\n        unit: in\n        formula: out_of_round", "worked out from itself", ""},
		{"stationed check as a value", "formula: abs(FV - FH)", "formula: ¦diameter", "read at several stations", "name one of its stations"},
		// Parts, positions, remedies.
		{"part twice", "  - id: seal\n", "  - id: ¦stud\n", "two parts called stud", ""},
		{"position of no fact", `positions: ["S1..S{studs}"]`, `positions: [¦"S1..S{bolts}"]`, "bolts, which is no fact", ""},
		{"position of a size", `positions: ["S1..S{studs}"]`, `positions: [¦"S1..S{D}"]`, "no count with a default", ""},
		{"no range", `positions: ["S1..S{studs}"]`, `positions: [¦"S1..T{studs}"]`, "does not run", ""},
		{"outlook of no entry", "outlook: {past: .1}", "outlook: {register: ¦H1}", "no register entry H1 speaks of stud", ""},
		{"two outlooks", "outlook: {past: .1}", "outlook: ¦{past: .1, register: H1}", "one chance, or one register entry", ""},
		{"own step without its name", "operations: [sleeve-shaft]", "operations: [sleeve-shaft]\n        steps: [¦pump-open]", "named without it", "write pump:pump-open"},
		{"own step unknown", `reach: ["pump:pump-open"]   # what`, `reach: [¦"pump:pump-opn"]   # what`, "no bench step pump-opn", "did you mean pump-open"},
		{"answers unknown", "answers: [diameter, out-of-round]", "answers: [diameter, ¦ovality]", "no check ovality", ""},
		{"answers nothing", "answers: [diameter, out-of-round]", "answers: ¦[]", "can never be reached", ""},
		{"residual", "residual: low ", "residual: ¦lo ", "no residual risk", ""},
		{"operation unknown", "operations: [draw-stud]}", "operations: [¦draw-studs]}", "no operation draw-studs", "did you mean draw-stud"},
		{"requires unknown", "operations: [draw-stud]}", "operations: [draw-stud], requires: [¦\"shaft#new-shift\"]}", "the part shaft has no remedy new-shift", "new-shaft"},
		{"requires itself", "operations: [draw-stud]}", "operations: [draw-stud], requires: [¦\"stud/{position}#new-stud\"]}", "names itself", ""},
		{"requires at no such position", "operations: [draw-stud]}", "operations: [draw-stud], requires: [¦\"shaft/{position}#new-shaft\"]}", "the part shaft has no position S1", ""},
		{"step at no position", "operations: [sleeve-shaft]", "operations: [sleeve-shaft]\n        steps: [¦\"hub-off/{position}\"]", "asks for a position", ""},
		{"step that cannot be worked out", "operations: [draw-stud]}", "operations: [draw-stud], steps: [¦\"hub-off/{pos}\"]}", "cannot be worked out", ""},
		{"requires no remedy", "operations: [draw-stud]}", "operations: [draw-stud], requires: [¦shaft]}", "names no remedy of a part", ""},
		{"reuse of a one-use part", "      - {id: new-seal, kind: replace, name: New seal, operations: [pump-kit]}", "      - {id: new-seal, kind: replace, name: New seal, operations: [pump-kit]}\n      - ¦{id: reuse, kind: reuse}", "can never be reached", ""},
		// Rules, operations, steps.
		{"trigger", "trigger: fails, allowed", "trigger: ¦broken, allowed", "is no trigger", ""},
		{"trigger of another kind", "  - {id: W1, part: shaft, check: crack-test, trigger: fails", "  - ¦{id: W1, part: shaft, check: crack-test, trigger: class 2", "does not suit the go/no-go check", ""},
		{"rule on no part", "{id: W1, part: shaft", "{id: W1, part: ¦shift", "no part shift", "did you mean shaft"},
		{"rule without a way out", "  - {id: W1, part: shaft, check: crack-test, trigger: fails, allowed: [replace]", "  - ¦{id: W1, part: shaft, check: crack-test, trigger: fails, allowed: [rebuild]", "no remedy of shaft is allowed", ""},
		{"includes itself", "  - id: sleeve-shaft\n", "  - id: ¦sleeve-shaft\n    includes: [sleeve-shaft]\n", "includes itself", ""},
		{"after itself", "  - id: sleeve-shaft\n", "  - id: ¦sleeve-shaft\n    after: [sleeve-shaft]\n", "comes after itself", ""},
		{"after nothing known", "  - id: sleeve-shaft\n", "  - id: sleeve-shaft\n    after: [¦draw-studs]\n", "no operation draw-studs", "did you mean draw-stud"},
		{"pair without groups", "    per: piece\n", "    ¦per: pair\n", "which positions make one pair", ""},
		{"hours of nobody", "    skill: mechanic\n    hours: [1, 1.5, 3]", "    ¦hours: [1, 1.5, 3]", "nobody is named", ""},
		{"outwork of no kind", "  - id: sleeve-shaft\n    name: Grind and sleeve the pump shaft\n    outwork: [40, 70, 120]\n    outwork_kind: grinding\n", "  - ¦id: sleeve-shaft\n    name: Grind and sleeve the pump shaft\n    outwork: [40, 70, 120]\n", "outwork wants", ""},
		{"step before itself", "{id: pump-open, ", "{id: ¦pump-open, all_of: [\"pump:pump-open\"], ", "before itself", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			requireFault(t, c.what, c.next, c.old, c.new)
		})
	}
}

// Faults that lie in what two places of a sheet say together.
func TestFaultsOfTwoPlaces(t *testing.T) {
	const stud, newStud = "  - id: stud\n", "      - {id: new-stud, kind: replace, name: New stud, operations: [draw-stud]}"
	for _, c := range []struct {
		name, what, next string
		change           []string
	}{
		{"a check without a limit", "a check has no limit", "add limit:", []string{"      - id: thread\n", "      - ¦id: thread\n",
			"        limit: {worst_class: 1, source: \"common practice, no source\", confidence: medium}\n", ""}},
		{"a part without an outlook", "no outlook", "add outlook:", []string{stud, "  - ¦id: stud\n", "    outlook: {past: .1}\n", ""}},
		{"a blank would pass", "a blank would pass", "needed_for_reuse: true", []string{stud, "  - ¦id: stud\n",
			"confidence: medium}\n        needed_for_reuse: true\n    remedies:\n      - {id: new-stud", "confidence: medium}\n    remedies:\n      - {id: new-stud"}},
		{"a rebuild that does not say what it cures", "does not say what it cures", "answers:", []string{"      - id: grind-and-sleeve\n", "      - ¦id: grind-and-sleeve\n",
			"        answers: [diameter, out-of-round]   # the checks it cures; or: all\n", ""}},
		{"a part that cannot be replaced", "cannot be replaced", "replace", []string{stud, "  - ¦id: stud\n",
			newStud, "      - {id: new-stud, kind: rebuild, answers: all, name: New stud, operations: [draw-stud]}"}},
		{"a replacement that may only be pinned", "cannot be replaced", "may be chosen", []string{stud, "  - ¦id: stud\n",
			newStud, "      - {id: new-stud, kind: replace, pin_only: true, name: New stud, operations: [draw-stud]}"}},
		{"no remedy for some state", "no remedy answers every check", "answer all", []string{stud, "  - ¦id: stud\n",
			newStud, "      - {id: new-stud, kind: replace, answers: [], name: New stud, operations: [draw-stud]}"}},
		{"an operation for nothing", "no remedy can reach the operation draw-stud", "by_rule", []string{"  - id: draw-stud\n", "  - id: ¦draw-stud\n",
			"operations: [draw-stud]}", "operations: [pump-kit]}"}},
		{"a one-use part without its check", "no one-use check", "one-use", []string{"  - id: seal\n", "  - ¦id: seal\n",
			"{id: new, kind: one-use, limit: {source", "{id: new, kind: go/no-go, limit: {source"}},
		{"a one-use check on another part", "a one-use check on a part that is not one_use", "one_use: true", []string{"      - id: crack-test\n", "      - ¦id: crack-test\n",
			"kind: go/no-go\n", "kind: one-use\n"}},
		{"a safety-critical go/no-go that is not needed", "needed for reuse", "take it out", []string{"    name: Pump shaft\n", "    name: Pump shaft\n    safety: true\n",
			"confidence: high}\n        needed_for_reuse: true\n", "confidence: high}\n        ¦needed_for_reuse: false\n"}},
		{"two register entries for one part", "both speak of stud", "one of them", []string{stud, "  - ¦id: stud\n", "    outlook: {past: .1}\n", "",
			"no_reuse:\n", "register:\n  - {id: H1, name: a, chance: .1, parts: [stud], source: s}\n  - {id: H2, name: b, chance: .1, parts: [stud/S1], source: s}\nno_reuse:\n"}},
		{"a chance beside the register's", "already gives its chance", "{register: H1}", []string{"outlook: {past: .1}", "outlook: ¦{past: .1}",
			"no_reuse:\n", "register:\n  - {id: H1, name: a, chance: .1, parts: [stud], source: s}\nno_reuse:\n"}},
		{"a register entry on no position", "has no position S9", "", []string{
			"no_reuse:\n", "register:\n  - {id: H1, name: a, chance: .1, parts: [¦stud/S9], source: s}\nno_reuse:\n"}},
		{"a register entry of nothing", "speaks of parts, or raises operations", "", []string{
			"no_reuse:\n", "register:\n  - ¦{id: H1, name: a, chance: .1, source: s}\nno_reuse:\n"}},
		{"a set of two minds", "same kind, or agrees on a key", "", []string{
			"no_reuse:\n", "sets:\n  - ¦{id: M1, name: a, members: [stud], source: s}\nno_reuse:\n"}},
		{"a set of no part", "there is no part bolt", "", []string{
			"no_reuse:\n", "sets:\n  - {id: M1, name: a, members: [¦bolt], same_kind: true, source: s}\nno_reuse:\n"}},
		{"a position in two groups", "in two groups", "", []string{
			"    per: piece\n", "    per: pair\n    groups: {a: [S1, S2], ¦b: [S2, S3, S4]}\n"}},
		{"a position in no group", "the position S4 of stud is in no group", "", []string{"  - id: draw-stud\n", "  - id: ¦draw-stud\n",
			"    per: piece\n", "    per: pair\n    groups: {a: [S1, S2], b: [S3]}\n"}},
		{"a mixture of units", "units are mixed: F1 (lbf), L1 (mm) do not give lbf/in", "one unit", []string{
			"      - id: thread\n", "      - {id: load, kind: measured, unit: lbf, stations: [F1], limit: {wear_low: 1, source: s, confidence: low}}\n" +
				"      - {id: height, kind: measured, unit: mm, stations: [L1], limit: {wear_low: 1, source: s, confidence: low}}\n" +
				"      - {id: rate, kind: derived, unit: lbf/in, formula: ¦F1 / L1, limit: {wear_low: 1, source: s, confidence: low}}\n      - id: thread\n"}},
		{"a station of two checks", "is a station of several checks", "other names", []string{
			"      - id: end-float\n", "      - {id: hardness, kind: measured, unit: in, stations: [FV], limit: {wear_low: 1, source: s, confidence: low}}\n      - id: end-float\n",
			"formula: abs(FV - FH)", "formula: abs(¦FV - FH)"}},
	} {
		t.Run(c.name, func(t *testing.T) { requireFault(t, c.what, c.next, c.change...) })
	}
}

// All faults of a sheet are told at once, in the order of the file, each once.
func TestAllFaultsAtOnce(t *testing.T) {
	s := string(sdk.NewSheet("pump"))
	s = strings.Replace(s, "currency: USD", "currency: DOLLAR", 1)
	s = strings.Replace(s, "formula: abs(FV - FH)", "formula: abs(FX - FY)", 1)
	s = strings.Replace(s, "operations: [draw-stud]}", "operations: [none]}", 1)
	fs := sdk.CheckSheet([]byte(s))
	require.Len(t, fs, 5, "currency, two names, an operation that is not there and one for nothing: %v", fs)
	for i := 1; i < len(fs); i++ {
		require.True(t, fs[i-1].Line < fs[i].Line || fs[i-1].Line == fs[i].Line && fs[i-1].Column < fs[i].Column, "%v", fs)
	}
	_, err := sdk.New(sdk.Subsystem{Sheet: []byte(s)})
	require.Equal(t, core.Invalid, core.ErrorCode(err))
	for _, f := range fs {
		require.ErrorContains(t, err, f.String())
	}
}

func TestNotASheet(t *testing.T) {
	for _, c := range []struct {
		name, sheet, what string
		line              int
	}{
		{"nothing", "", "empty", 1},
		{"a comment", "# to do\n", "empty", 1},
		{"a list", "- a\n", "a sheet is wanted here, not a list", 1},
		{"a bare template of positions", "parts:\n  - positions: [M1..M{mains}]\n", "no YAML", 2},
		{"a tab", "title: x\n\tparts: []\n", "no YAML", 2},
		{"two sheets", string(sdk.NewSheet("a")) + "---\nb: c\n", "second document", strings.Count(string(sdk.NewSheet("a")), "\n") + 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			fs := sdk.CheckSheet([]byte(c.sheet))
			require.NotEmpty(t, fs)
			require.Contains(t, fs[0].What, c.what)
			require.Equal(t, c.line, fs[0].Line)
		})
	}
}

// A sheet with rules in Go may hold operations that only the rules name.
func TestOperationsForRules(t *testing.T) {
	s := []byte(strings.Replace(string(sdk.NewSheet("pump")), "operations: [draw-stud]}", "operations: [pump-kit]}", 1))
	_, err := sdk.New(sdk.Subsystem{Sheet: s})
	require.ErrorContains(t, err, "draw-stud")
	_, err = sdk.New(sdk.Subsystem{Sheet: s, Rules: func(*sdk.Bench) {}})
	require.NoError(t, err)
}

func FuzzCheckSheet(f *testing.F) {
	f.Add(sdk.NewSheet("pump"))
	f.Add(benchSheet(f))
	for _, s := range []string{"", "a: &a [*a]", "parts: [{checks: [{formula: '((((((1'}]}]", "parts: [{positions: ['M1..M{x}', 'M0..M99999999999999999999']}]",
		"facts: [{name: D, unit: in}]\nparts: [{checks: [{kind: measured, unit: in, limit: {new: [D - .0005, ], wear_low: .5.5}}]}]",
		"operations: [{id: a, includes: [b]}, {id: b, includes: [a]}]", "no_reuse: [{trigger: class 99}]", "? [a]\n: b", "!!binary aGk="} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, sheet []byte) {
		fs := sdk.CheckSheet(sheet)
		for _, x := range fs {
			require.Positive(t, x.Line)
			require.Positive(t, x.Column)
			require.NotEmpty(t, x.What)
		}
		p, err := sdk.New(sdk.Subsystem{Sheet: sheet})
		require.Equal(t, len(fs) == 0, err == nil)
		if err == nil {
			_, err = p.Assess(context.Background(), core.AssessRequest{})
			require.NoError(t, err)
		}
	})
}
