package config

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

const smallPack = `id: packhorse-b
title: Packhorse Mark B
kind: vehicle
source: Workshop manual
currency: USD
facts:
  - {subsystem: bottom-end, name: D, value: 2.5 in, source: page 12}
  - {subsystem: bottom-end, name: mains, value: 3}
  - {subsystem: axle, name: ratio, value: 4.7}
  - {subsystem: gearbox, name: interlock, value: pin}
  - {subsystem: gearbox, name: shim, value: "3 1/2 thou"}
limits:
  - {subsystem: gearbox, part: layshaft, check: end-float, new: [.004, .008], wear_high: .012, unit: in, source: page 40, confidence: high}
  - {subsystem: gearbox, part: case, position: front, check: surface, worst_class: 1}
  - {subsystem: gearbox, part: spring, check: length, new: [null, 2.2], wear_low: 2.09, unit: in}
weights: [{load: engine, weight: 430 lb, source: page 3}, {load: body, weight: 218 kg}]
marks: [{where: engine block, expected: D4 and five digits, says: agrees, note: beside a casting date}]
steps:
  - {id: guard-off, name: Guard off, hours: [.1, .2, .4], all_of: [wash-down, "hub-off/*"]}
sets:
  - {id: M20, name: Axle ratios, members: [rear-axle/crown-wheel-pinion, front-axle@front/crown-wheel-pinion/only], agree_on: ratio}
`

func TestReadPack(t *testing.T) {
	p, err := ReadPack([]byte(smallPack), "x")
	require.NoError(t, err)
	f := func(v float64) *float64 { return &v }
	class := 1
	require.Equal(t, core.Pack{
		ID: "packhorse-b", Title: "Packhorse Mark B", Kind: "vehicle", Source: "Workshop manual",
		Facts: []core.PackFact{
			{Subsystem: "bottom-end", Fact: core.Fact{Name: "D", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 2.5, Unit: "in"}}, Source: "page 12"}},
			{Subsystem: "bottom-end", Fact: core.Fact{Name: "mains", Value: core.Value{Kind: core.ValueCount, Count: 3}, Source: "Workshop manual"}},
			{Subsystem: "axle", Fact: core.Fact{Name: "ratio", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 4.7, Unit: "1"}}, Source: "Workshop manual"}},
			{Subsystem: "gearbox", Fact: core.Fact{Name: "interlock", Value: core.Value{Kind: core.ValueWord, Word: "pin"}, Source: "Workshop manual"}},
			{Subsystem: "gearbox", Fact: core.Fact{Name: "shim", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 3.5, Unit: "thou"}}, Source: "Workshop manual"}},
		},
		Overrides: []core.SubsystemOverride{
			{Subsystem: "gearbox", Override: core.Override{Target: core.Target{Part: "layshaft"}, Check: "end-float",
				Limit: core.Limit{NewLow: f(.004), NewHigh: f(.008), WearHigh: f(.012), Unit: "in", Source: "page 40", Confidence: "high", Origin: "vehicle"}}},
			{Subsystem: "gearbox", Override: core.Override{Target: core.Target{Part: "case", Position: "front"}, Check: "surface",
				Limit: core.Limit{WorstClass: &class, Unit: "class 0-3", Source: "Workshop manual", Confidence: "medium", Origin: "vehicle"}}},
			{Subsystem: "gearbox", Override: core.Override{Target: core.Target{Part: "spring"}, Check: "length",
				Limit: core.Limit{NewHigh: f(2.2), WearLow: f(2.09), Unit: "in", Source: "Workshop manual", Confidence: "medium", Origin: "vehicle"}}},
		},
		Weights: []core.Weight{{Key: "engine", Weight: core.Quantity{Value: 430, Unit: "lb"}, Source: "page 3"},
			{Key: "body", Weight: core.Quantity{Value: 218, Unit: "kg"}, Source: "Workshop manual"}},
		Marks: []core.Mark{{Where: "engine block", Expected: "D4 and five digits", Says: "agrees", Note: "beside a casting date"}},
		Steps: []core.Step{{ID: "guard-off", Name: "Guard off", StripHours: core.Range3{Low: .1, Likely: .2, High: .4}, People: 1, Skill: "mechanic",
			AllOf: []string{"wash-down", "hub-off/*"}}},
		Sets: []core.CrossSet{{ID: "M20", Name: "Axle ratios", AgreeOn: "ratio", Source: "Workshop manual", Members: []core.Place{
			{Subsystem: "rear-axle", Target: core.Target{Part: "crown-wheel-pinion"}},
			{Subsystem: "front-axle", Unit: "front", Target: core.Target{Part: "crown-wheel-pinion", Position: "only"}}}}},
	}, p)
}

func TestPackFaults(t *testing.T) {
	text := `id: p
title: t
kind: unit
source: s
colour: green
facts:
  - {subsystem: a, name: D, value: 2.5 inn}
  - {subsystem: a, name: D, value: "2.5"}
  - {subsystem: a, name: E, value: [1]}
limits:
  - {subsystem: a, part: p, check: c}
  - {subsystem: a, part: p, check: d, new: [2, 1], wear_low: 3, confidence: sure}
  - {subsystem: a, part: p, check: d, new: [1, 2], wear_low: 1.5, wear_high: 1.7, unit: in, worst_class: 9}
weights: [{load: engine, weight: 430}, {load: engine, weight: 20 in}]
marks: [{where: w, expected: e, says: perhaps}]
sets:
  - {id: M, name: n, members: [one]}
  - {id: M, name: n, members: [a/b, a/c], same_kind: true, agree_on: k}
`
	_, err := ReadPack([]byte(text), "x")
	require.Equal(t, []string{
		"3:7: a unit's pack does not say what kind of unit",
		`5:1: unknown key "colour" in the pack`,
		`7:36: cannot read "2.5 inn": unknown unit "inn"`,
		"8:5: a has the fact D twice",
		`8:36: "2.5" is a size without a unit`,
		"9:36: a text is wanted here, not a list",
		"11:5: this limit limits nothing",
		"12:5: this limit has no unit",
		"12:5: wear_low is above the low end of new",
		"12:5: wear_low is above the high end of new",
		"12:44: low is above high",
		`12:77: "sure" is no confidence`,
		"13:5: the check d of a/p has two limits",
		"13:5: wear_low is above the low end of new",
		"13:5: wear_high is below the high end of new",
		"13:106: 9 is outside what can be meant here",
		"13:106: a limit is of sizes or of a damage class",
		`14:34: "430" is no weight`,
		"14:47: the load engine stands here twice",
		`14:63: "20 in" is no weight`,
		`15:39: "perhaps" is no word of a mark`,
		"17:5: the set M needs one rule",
		"17:32: the set M has one member",
		`17:32: "one" names no part`,
		"18:5: the set M needs one rule",
		"18:10: the set M stands here twice",
	}, told(t, err))
}
