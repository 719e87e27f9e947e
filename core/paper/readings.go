package paper

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// readings of one subsystem: what is past its limit, near it or in doubt, with its gauge; what was judged or counted; what was
// measured and found fit. What was judged fit has no figure to show; what is still to be read stands on the work order.
func (in Input) readings(a area) []Block {
	var bs []Block
	gauges, judged, fit := in.gaugeRows(a), in.judged(a), in.fitRows(a)
	if len(gauges) > 0 {
		bs = append(bs, Gauges{gauges})
	}
	for _, t := range []struct {
		head string
		rows []Row
	}{{"Judged or counted", judged}, {"Measured and fit", fit}} {
		if len(t.rows) > 0 {
			bs = append(bs, Table{Compact: true, Columns: []Column{{Head: t.head, Share: 3}, {Head: "Finding, and its limit", Share: 5}, {Head: "Source", Share: 2.4}}, Rows: t.rows})
		}
	}
	return bs
}

// gaugeRows are the readings that are past their limit, near it or in doubt, a bar each.
func (in Input) gaugeRows(a area) []GaugeRow {
	var rows []GaugeRow
	for _, c := range a.Conditions {
		if _, drawn := shapeOf(c.Gauge); !drawn || c.Grade <= core.WornFit || c.Grade == core.NotSeen {
			continue
		}
		rows = append(rows, GaugeRow{Part: named(c.PartName, c.Position), Check: c.Gauge.Name, Gauge: c.Gauge, Grade: core.Capital(shortGrades[c.Grade]), Note: sourceWords(c.Gauge.Source)})
	}
	return rows
}

// spots gives a row for each part: neighbours of which every field says the same stand together. What the first says nothing of
// is left out.
func spots(cs []core.UnitCondition, says ...func(core.UnitCondition) string) []Row {
	var rows []Row
	var last group
	for _, c := range cs {
		row := Row{Cells: []Cell{{}}}
		for _, say := range says {
			row.Cells = append(row.Cells, Cell{Text: say(c)})
		}
		if row.Cells[1].Text == "" {
			continue
		}
		n := len(rows)
		if n == 0 || last.Part != c.Part || !slices.Equal(rows[n-1].Cells[1:], row.Cells[1:]) {
			last = group{Part: c.Part, PartName: c.PartName}
			rows = append(rows, row)
			n++
		}
		last.Choices = append(last.Choices, core.Choice{Place: c.Place})
		rows[n-1].Cells[0].Text = last.Name()
	}
	return rows
}

// ranges are the least and the greatest reading of each part by each check.
type ranges map[string]*[2]*core.Gauge

// rangesOf gathers the readings of the conditions that are shown.
func rangesOf(cs []core.UnitCondition, shown func(core.UnitCondition) bool) ranges {
	rs := ranges{}
	for _, c := range cs {
		if c.Gauge == nil || !shown(c) {
			continue
		}
		k := rangeKey(c)
		if rs[k] == nil {
			rs[k] = &[2]*core.Gauge{c.Gauge, c.Gauge}
		}
		if c.Gauge.Reading < rs[k][0].Reading {
			rs[k][0] = c.Gauge
		}
		if c.Gauge.Reading > rs[k][1].Reading {
			rs[k][1] = c.Gauge
		}
	}
	return rs
}

// rangeKey is what readings have in common that are told as one range: those of another grade are told apart, but not two sorts of fit.
func rangeKey(c core.UnitCondition) string {
	grade := c.Grade
	if grade <= core.WornFit {
		grade = core.WornFit
	}
	return strings.Join([]string{c.Part, c.Gauge.Check, limit(*c.Gauge), c.Gauge.Source, grade.String()}, "\x00")
}

// of is the range that a condition's reading lies in, as printed.
func (rs ranges) of(c core.UnitCondition) string {
	low, high := reading(*rs[rangeKey(c)][0]), reading(*rs[rangeKey(c)][1])
	if low == high {
		return low
	}
	low, _, _ = strings.Cut(low, " ± ")
	return strings.TrimSuffix(low, " "+c.Gauge.Unit) + " to " + high
}

// judged is what failed or is missing and has no bar, in the words of its reason.
func (in Input) judged(a area) []Row {
	return spots(a.Conditions, func(c core.UnitCondition) string {
		_, drawn := shapeOf(c.Gauge)
		switch {
		case drawn || c.Grade <= core.WornFit || c.Grade == core.NotSeen:
			return ""
		case len(c.Reasons) == 0:
			return core.Capital(found(c))
		}
		return core.Capital(bareReason(c.Reasons[0], c.Grade))
	}, func(c core.UnitCondition) string {
		if len(c.Reasons) == 0 {
			return ""
		}
		return sourceWords(c.Reasons[0].Source)
	})
}

// bareReason is a reason without its source, its grade and its rule.
func bareReason(r core.Reason, g core.Grade) string {
	text := plainReason(r, g)
	text, _, _ = strings.Cut(text, ": "+g.String()+";")
	if r.Source != "" {
		text, _, _ = strings.Cut(text, " ("+r.Source)
	}
	return text
}

// fitRows are the parts found fit, with their readings and limits.
func (in Input) fitRows(a area) []Row {
	fit := func(c core.UnitCondition) bool { return c.Grade != core.GradeNone && c.Grade <= core.WornFit }
	rs := rangesOf(a.Conditions, func(c core.UnitCondition) bool { return fit(c) })
	return spots(a.Conditions, func(c core.UnitCondition) string {
		if c.Gauge == nil || !fit(c) {
			return ""
		}
		return core.Capital(c.Gauge.Name) + " " + rs.of(c) + ", " + limit(*c.Gauge)
	}, func(c core.UnitCondition) string {
		if c.Gauge == nil {
			return ""
		}
		return sourceWords(c.Gauge.Source)
	})
}
