package core

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Slack is the relative slack of every comparison of quantities (model).
const Slack = 1e-9

// Quantity is a reading or a size: a value in a unit, and the instrument's +/- in the same unit.
type Quantity struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
	Bound float64 `json:"bound,omitempty"` // a bound, not a standard deviation: u = Bound / sqrt(3)
}

// String gives the value with no more digits than it needs, and the unit.
func (q Quantity) String() string {
	s := FormatNumber(q.Value)
	switch q.Unit {
	case "", "1", "count":
		return s
	case "%":
		return s + " %"
	}
	return s + " " + q.Unit
}

// FormatNumber writes a number with up to six significant decimals and no trailing zeros.
func FormatNumber(v float64) string {
	s := strconv.FormatFloat(v, 'f', 6, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" || s == "" {
		return "0"
	}
	return s
}

// In gives the quantity in another unit of its dimension.
func (q Quantity) In(unit string) (Quantity, error) {
	v, err := Convert(q.Value, q.Unit, unit)
	if err != nil {
		return Quantity{}, err
	}
	b, err := ConvertSpan(q.Bound, q.Unit, unit)
	if err != nil {
		return Quantity{}, err
	}
	return Quantity{v, unit, b}, nil
}

// LessOrEqual compares with the relative slack.
func LessOrEqual(a, b float64) bool { return a <= b+Slack*math.Max(math.Abs(a), math.Abs(b)) }

// Reading is a number as typed: its value, its unit if one was typed, and whether it was signed.
type Reading struct {
	Value  float64
	Unit   string // "" if none was typed
	Signed bool   // "+6.4 thou", "-.002": perhaps against nominal
}

// ParseReading reads a number as mechanics write it: "24.87 mm", "3.5 thou", "1 1/2 in", "9/16\"", "12 ft lbf", "-.002".
// A comma is a decimal comma where it cannot be a thousands mark. Errors are of code Invalid.
func ParseReading(text string) (Reading, error) {
	s := strings.TrimSpace(text)
	bad := func(why string) error {
		return Errorf(Invalid, `write a number and its unit, like 24.87 mm, 3.5 thou, 1 1/2 in or 9/16"`, "cannot read %q: %s", text, why)
	}
	if s == "" {
		return Reading{}, bad("it is blank")
	}
	var r Reading
	neg := false
	switch {
	case strings.HasPrefix(s, "+"):
		r.Signed, s = true, strings.TrimSpace(s[1:])
	case strings.HasPrefix(s, "-"):
		r.Signed, neg, s = true, true, strings.TrimSpace(s[1:])
	case strings.HasPrefix(s, "−"):
		r.Signed, neg, s = true, true, strings.TrimSpace(s[len("−"):])
	}
	whole, rest := number(s)
	if whole == "" && startsVulgar(s) {
		whole = "0"
	}
	if whole == "" {
		return Reading{}, bad("no number at its start")
	}
	v, err := decimal(whole)
	if err != nil {
		return Reading{}, bad(err.Error())
	}
	rest, v, err = fraction(rest, whole, v)
	if err != nil {
		return Reading{}, bad(err.Error())
	}
	if neg {
		v = -v
	}
	r.Value = v
	unit := strings.TrimSpace(rest)
	if unit == "" {
		return r, nil
	}
	u, ok := FindUnit(unit)
	if !ok {
		return Reading{}, bad(fmt.Sprintf("unknown unit %q", unit))
	}
	r.Unit = u.Name
	return r, nil
}

// number splits the leading digits, points and commas off s.
func number(s string) (num, rest string) {
	i := 0
	for i < len(s) && (s[i] >= '0' && s[i] <= '9' || s[i] == '.' || s[i] == ',') {
		i++
	}
	return s[:i], s[i:]
}

func decimal(s string) (float64, error) {
	if strings.Count(s, ",") > 0 {
		_, after, _ := strings.Cut(s, ",")
		if strings.Contains(s, ".") || strings.Count(s, ",") > 1 || len(after) == 3 {
			return 0, fmt.Errorf("is the comma in %q a decimal comma or a thousands mark? write a point", s)
		}
		s = strings.Replace(s, ",", ".", 1)
	}
	if strings.Count(s, ".") > 1 || s == "." || len(s) > 40 {
		return 0, fmt.Errorf("%q is no number", s)
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is no number", s)
	}
	return v, nil
}

// fraction reads "/16" after a whole number, or " 1/2" after one.
func fraction(rest, whole string, v float64) (string, float64, error) {
	if strings.HasPrefix(rest, "/") {
		return overDenominator(rest[1:], v, 0)
	}
	for _, f := range vulgarFractions {
		if after, ok := strings.CutPrefix(strings.TrimLeft(rest, " "), f.sign); ok {
			return after, v + f.value, nil
		}
	}
	t := strings.TrimLeft(rest, " -")
	top, after := number(t)
	if top == "" || !strings.HasPrefix(after, "/") || strings.ContainsAny(whole, ".,") {
		return rest, v, nil
	}
	n, err := decimal(top)
	if err != nil {
		return "", 0, err
	}
	return overDenominator(after[1:], n, v)
}

var vulgarFractions = []struct {
	sign  string
	value float64
}{{"½", .5}, {"¼", .25}, {"¾", .75}, {"⅛", .125}, {"⅜", .375}, {"⅝", .625}, {"⅞", .875}}

func startsVulgar(s string) bool {
	for _, f := range vulgarFractions {
		if strings.HasPrefix(s, f.sign) {
			return true
		}
	}
	return false
}

func overDenominator(s string, top, whole float64) (string, float64, error) {
	den, after := number(s)
	if strings.ContainsAny(den, ".,") || den == "" {
		return "", 0, fmt.Errorf("no whole number under the fraction line")
	}
	d, err := decimal(den)
	if err != nil || d == 0 {
		return "", 0, fmt.Errorf("nothing can be divided by %q", den)
	}
	return after, whole + top/d, nil
}

// ReadingContext is what is known where a reading is typed. All sizes are in CheckUnit.
type ReadingContext struct {
	CheckUnit      string
	InstrumentUnit string   // "" if the instrument is not known
	Bound          float64  // the instrument's +/-, in BoundUnit
	BoundUnit      string   // "" = the reading's own unit; "%" = of the reading
	PlausibleLow   *float64 // nil: no range known
	PlausibleHigh  *float64
	Nominal        *float64 // for signed readings; nil if none is known
}

// usualOther names the unit that is most easily meant instead; "" if there is none.
func usualOther(unit string) string {
	switch unit {
	case "in", "thou":
		return "mm"
	case "mm":
		return "in"
	case "um":
		return "thou"
	case "lbf-in", "lbf-ft":
		return "N m"
	case "N m":
		return "lbf-ft"
	case "psi":
		return "kPa"
	case "kPa", "bar":
		return "psi"
	case "degF":
		return "degC"
	case "degC":
		return "degF"
	case "lbf":
		return "N"
	case "N":
		return "lbf"
	case "g":
		return "oz"
	}
	return ""
}

// Read turns a text into a quantity in the unit typed. A bare number takes the unit of the instrument that was named, else of the
// check; without an instrument it must also be implausible in the other usual unit, otherwise it is asked back.
func (c ReadingContext) Read(text string) (Quantity, error) {
	r, err := ParseReading(text)
	if err != nil {
		return Quantity{}, err
	}
	if r.Unit == "" {
		if r.Unit, err = c.unitOf(r, text); err != nil {
			return Quantity{}, err
		}
	} else if _, err := Convert(1, r.Unit, c.CheckUnit); err != nil {
		return Quantity{}, err
	}
	q := Quantity{Value: r.Value, Unit: r.Unit}
	if r.Signed && c.Nominal != nil && !c.plausible(r.Value, r.Unit) {
		nominal, err := Convert(*c.Nominal, c.CheckUnit, r.Unit)
		if err != nil {
			return Quantity{}, err
		}
		if sum := nominal + r.Value; c.plausible(sum, r.Unit) {
			q.Value = sum
		}
	}
	if !c.plausible(q.Value, q.Unit) {
		return Quantity{}, Errorf(Invalid, "check the point and the unit; if it is right, the sheet's plausible range is too narrow",
			"%s is not plausible here (expected %s to %s %s)", q, FormatNumber(*c.PlausibleLow), FormatNumber(*c.PlausibleHigh), c.CheckUnit)
	}
	q.Bound, err = c.bound(q)
	return q, err
}

func (c ReadingContext) bound(q Quantity) (float64, error) {
	switch c.BoundUnit {
	case "":
		return c.Bound, nil
	case "%":
		return math.Abs(q.Value) * c.Bound / 100, nil
	}
	if _, err := Convert(1, c.BoundUnit, q.Unit); err != nil {
		return 0, nil // a share worked out from sizes: how far it may be off is not known here
	}
	return ConvertSpan(c.Bound, c.BoundUnit, q.Unit)
}

// unitOf decides what unit a bare number is in.
func (c ReadingContext) unitOf(r Reading, text string) (string, error) {
	unit := c.InstrumentUnit
	if unit == "" {
		unit = c.CheckUnit
	}
	if _, err := Convert(1, unit, c.CheckUnit); err != nil {
		unit = c.CheckUnit
	}
	fits := func(u string) bool {
		if c.plausible(r.Value, u) {
			return true
		}
		if !r.Signed || c.Nominal == nil {
			return false
		}
		n, err := Convert(*c.Nominal, c.CheckUnit, u)
		return err == nil && c.plausible(n+r.Value, u)
	}
	if c.InstrumentUnit == unit && fits(unit) {
		return unit, nil // whoever names the instrument has said what it reads in
	}
	other := usualOther(unit)
	switch here, there := fits(unit), other != "" && r.Value != 0 && c.PlausibleLow != nil && fits(other); {
	case here && !there:
		return unit, nil
	case here && there:
		return "", Errorf(Invalid, fmt.Sprintf("write %s %s or %s %s", text, unit, text, other), "%s could be %s or %s here", text, unit, other)
	case there:
		return "", Errorf(Invalid, fmt.Sprintf("if you mean %s, write %s %s", other, text, other), "%s %s is not plausible here; %s %s would be", text, unit, text, other)
	}
	return "", Errorf(Invalid, "check the point, or write the unit", "%s %s is not plausible here (expected %s to %s %s)", text, unit,
		FormatNumber(*c.PlausibleLow), FormatNumber(*c.PlausibleHigh), c.CheckUnit)
}

func (c ReadingContext) plausible(v float64, unit string) bool {
	if c.PlausibleLow == nil || c.PlausibleHigh == nil {
		return true
	}
	x, err := Convert(v, unit, c.CheckUnit)
	return err == nil && LessOrEqual(*c.PlausibleLow, x) && LessOrEqual(x, *c.PlausibleHigh)
}

// classWords are the damage classes, by number.
var classWords = []string{"none", "light", "repairable", "past repair"}

// ReadValue reads what was typed for a check: a quantity, a count, a damage class, pass or fails, or why it was not read.
// A blank is not a reading.
func ReadValue(check Check, c ReadingContext, text string) (Value, error) {
	s := strings.ToLower(strings.Join(strings.Fields(text), " "))
	for _, n := range NotReadWords {
		if s == string(n) {
			return Value{Kind: ValueNotRead, NotRead: n}, nil
		}
	}
	if s == "" {
		return Value{}, Errorf(Invalid, `write the reading, or why there is none: "not measured", "could not reach", "missing"`, "a blank is not a reading")
	}
	switch check.Kind {
	case Counted, OneUse:
		n, err := strconv.Atoi(strings.TrimSuffix(s, " off"))
		if err != nil || n < 0 || n > 1_000_000 {
			return Value{}, Errorf(Invalid, "write how many, as a whole number", "%q is no count", text)
		}
		return Value{Kind: ValueCount, Count: n}, nil
	case Judged:
		if n := slices.Index(classWords, s); n >= 0 {
			return Value{Kind: ValueClass, Class: n}, nil
		}
		n, err := strconv.Atoi(strings.TrimSpace(strings.TrimPrefix(s, "class")))
		if err != nil || n < 0 || n > 3 {
			return Value{}, Errorf(Invalid, "write class 0 (none), 1 (light), 2 (repairable) or 3 (past repair)", "%q is no damage class", text)
		}
		return Value{Kind: ValueClass, Class: n}, nil
	case GoNoGo:
		switch s {
		case "pass", "passes", "yes", "go":
			return Value{Kind: ValuePass, Pass: true}, nil
		case "fails", "fail", "no", "no-go", "no go":
			return Value{Kind: ValuePass}, nil
		}
		return Value{}, Errorf(Invalid, `write "pass" or "fails"`, "%q is neither pass nor fails", text)
	}
	q, err := c.Read(text)
	if err != nil {
		return Value{}, err
	}
	return Value{Kind: ValueQuantity, Quantity: q}, nil
}
