package main

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// money is an amount as other programs read it: {"number": "12.50", "currency": "USD"}.
type money struct {
	Number   string `json:"number"`
	Currency string `json:"currency"`
}

func (m money) minor() (int64, error) {
	x, err := core.NewMoney(m.Number, m.Currency)
	if err != nil {
		return 0, err
	}
	return core.Minor(x), nil
}

// fault collects what is wrong with a shape.
type shape struct{ wrong []string }

func (s *shape) tell(format string, args ...any) {
	s.wrong = append(s.wrong, fmt.Sprintf(format, args...))
}

// object takes a JSON object apart and tells the keys that are missing.
func (s *shape) object(where string, raw json.RawMessage, keys ...string) map[string]json.RawMessage {
	var m map[string]json.RawMessage
	if err := json.Unmarshal(raw, &m); err != nil || m == nil {
		s.tell("%s is no object: %.40s", where, raw)
		return map[string]json.RawMessage{}
	}
	for _, k := range keys {
		if _, ok := m[k]; !ok {
			s.tell("%s has no %s", where, k)
		}
	}
	return m
}

// list takes a JSON list apart; null is none.
func (s *shape) list(where string, raw json.RawMessage) []json.RawMessage {
	var xs []json.RawMessage
	if err := json.Unmarshal(raw, &xs); err != nil || xs == nil {
		s.tell("%s is no list: %.40s", where, raw)
	}
	return xs
}

// money reads an amount and gives it in minor units.
func (s *shape) money(where string, raw json.RawMessage) int64 {
	m := s.object(where, raw, "number", "currency")
	var x money
	if json.Unmarshal(raw, &x) != nil || len(m) != 2 {
		s.tell("%s is not money: %s", where, raw)
		return 0
	}
	n, err := x.minor()
	if err != nil {
		s.tell("%s: %v", where, err)
	}
	return n
}

func (s *shape) word(where string, raw json.RawMessage, words ...string) string {
	var w string
	if err := json.Unmarshal(raw, &w); err != nil || len(words) > 0 && !slices.Contains(words, w) {
		s.tell("%s is %s, none of %q", where, raw, words)
	}
	return w
}

var (
	gradeWords  = []string{"within new", "worn, fit", "near limit", "past limit", "too tight", "failed", "measure again", "not seen", "missing"}
	choiceWords = []string{"reuse", "rebuild", "replace", "left", "undecided"}
)

// checkPlan tells what of a plan printed as JSON is not as promised, and which sums do not add up.
func checkPlan(data []byte) error {
	s := &shape{}
	p := s.object("the plan", data, "job", "conditions", "choices", "budget", "work_order", "not_seen", "problems")
	s.object("job", p["job"], "number", "title")
	for i, raw := range s.list("conditions", p["conditions"]) {
		s.condition(fmt.Sprintf("conditions[%d]", i), raw)
	}
	for i, raw := range s.list("choices", p["choices"]) {
		s.choice(fmt.Sprintf("choices[%d]", i), raw)
	}
	s.list("not_seen", p["not_seen"])
	for i, raw := range s.list("problems", p["problems"]) {
		m := s.object(fmt.Sprintf("problems[%d]", i), raw, "severity", "summary")
		s.word(fmt.Sprintf("problems[%d].severity", i), m["severity"], "error", "warning", "note")
	}
	s.sums(p["budget"], p["work_order"])
	if len(s.wrong) > 0 {
		return fmt.Errorf("%d things are not as promised:\n%s", len(s.wrong), strings.Join(s.wrong, "\n"))
	}
	return nil
}

func (s *shape) condition(where string, raw json.RawMessage) {
	m := s.object(where, raw, "subsystem", "unit", "part", "position", "grade", "wear", "governing_check", "reasons")
	for _, k := range []string{"subsystem", "unit", "part", "position", "governing_check"} {
		s.word(where+"."+k, m[k])
	}
	s.word(where+".grade", m["grade"], gradeWords...)
	var wear *float64
	if err := json.Unmarshal(m["wear"], &wear); err != nil {
		s.tell("%s.wear is neither a number nor null: %s", where, m["wear"])
	}
	s.reasons(where, m["reasons"])
}

func (s *shape) reasons(where string, raw json.RawMessage) {
	rs := s.list(where+".reasons", raw)
	for _, r := range rs {
		m := s.object(where+".reasons", r, "text")
		if s.word(where+".reasons.text", m["text"]) == "" {
			s.tell("%s has a reason without words", where)
		}
	}
}

func (s *shape) choice(where string, raw json.RawMessage) {
	m := s.object(where, raw, "subsystem", "unit", "part", "position", "choice", "remedy", "reasons", "runner_up", "flip_price")
	kind := s.word(where+".choice", m["choice"], choiceWords...)
	remedy := s.word(where+".remedy", m["remedy"])
	if (kind == "undecided") != (remedy == "") && kind != "left" {
		s.tell("%s is %s with the remedy %q", where, kind, remedy)
	}
	s.reasons(where, m["reasons"])
	if string(m["runner_up"]) != "null" {
		r := s.object(where+".runner_up", m["runner_up"], "remedy")
		for _, more := range []string{"costs_more", "risks_more"} { // within a sum it is the risk that counts
			if r[more] != nil && s.money(where+".runner_up."+more, r[more]) < 0 && len(m["pinned"]) == 0 {
				s.tell("%s: the runner-up is better", where)
			}
		}
		if (r["costs_more"] == nil) == (r["risks_more"] == nil) {
			s.tell("%s: of the runner-up one thing is said, what it costs more or what it risks more", where)
		}
	}
	if string(m["flip_price"]) != "null" {
		s.money(where+".flip_price", m["flip_price"])
	}
}

// sums checks that the lines add up to the totals, that the expected sum is the order's, and that percentiles rise.
func (s *shape) sums(budget, order json.RawMessage) {
	b := s.object("budget", budget, "expected", "p10", "p50", "p80", "p90", "contingency")
	o := s.object("work_order", order, "lines", "total_before_tax", "tax", "total")
	var before, tax int64
	for i, raw := range s.list("work_order.lines", o["lines"]) {
		where := fmt.Sprintf("work_order.lines[%d]", i)
		m := s.object(where, raw, "amount", "kind", "tax", "name")
		if s.word(where+".kind", m["kind"]) == "" {
			s.tell("%s has no kind", where)
		}
		before += s.money(where+".amount", m["amount"])
		tax += s.money(where+".tax", m["tax"])
	}
	equal := func(what string, got, want int64) {
		if got != want {
			s.tell("%s: %d is not %d", what, got, want)
		}
	}
	equal("the lines' sum and total_before_tax", before, s.money("work_order.total_before_tax", o["total_before_tax"]))
	equal("the lines' tax and tax", tax, s.money("work_order.tax", o["tax"]))
	equal("total_before_tax and tax, and total", before+tax, s.money("work_order.total", o["total"]))
	expected := s.money("budget.expected", b["expected"])
	equal("budget.expected and total_before_tax", expected, before)
	p80 := s.money("budget.p80", b["p80"])
	equal("P80 less expected, and contingency", p80-expected, s.money("budget.contingency", b["contingency"]))
	last := s.money("budget.p10", b["p10"])
	for _, k := range []string{"p50", "p80", "p90"} {
		v := s.money("budget."+k, b[k])
		if v < last {
			s.tell("budget.%s is less than the one before it", k)
		}
		last = v
	}
}
