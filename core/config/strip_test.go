package config

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

const smallPlan = `id: generic
title: Any vehicle
currency: USD
steps:
  - {id: wheels-off, name: Wheels off, hours: [.3, .5, .8], refit: [0, 0, 0], before_agreement: true}
  - id: hub-off
    positions: [LF, RF]
    name: "Hub off, {position}"
    hours: [.5, .8, 1.5]
    refit: [.6, 1, 2]
    people: 2
    skill: fitter
    all_of: [wheels-off]
    destroys: ["hub/bearing-{position}/end-float"]
    one_use: [{key: hub-gasket, name: "Gasket, {position}", count: 2, each: [.5, 1.20, 3], tax: goods}, {key: pin, name: Split pin}]
    cautions: [Mind your toes., {text: "Left-hand thread at {position}.", source: manual page 7}]
    load: hub
    confirm: The stands are under the frame.
    bare_frame: true
  - {id: swivel-off, positions: [LF, RF], name: Swivel off, hours: [1, 2, 3], all_of: ["hub-off/{position}"], scope: front-axle}
  - {id: axle-off, name: Axle off, hours: [1, 1, 1], all_of: ["swivel-off/*", wheels-off], any_of: [[hub-off/LF, hub-off/RF]]}
`

func TestReadStripPlan(t *testing.T) {
	plan, err := ReadStripPlan([]byte(smallPlan), "x")
	require.NoError(t, err)
	require.Equal(t, "generic", plan.ID)
	var ids []string
	for _, s := range plan.Steps {
		ids = append(ids, s.ID)
	}
	require.Equal(t, []string{"wheels-off", "hub-off/LF", "hub-off/RF", "swivel-off/LF", "swivel-off/RF", "axle-off"}, ids)
	require.True(t, plan.Steps[0].NoRefit)
	require.Equal(t, []string{"wheels-off"}, plan.BeforeAgreement)
	require.Equal(t, 1, plan.Steps[0].People)
	require.Equal(t, "mechanic", plan.Steps[0].Skill)
	require.Equal(t, core.Step{ID: "hub-off/RF", Name: "Hub off, RF", StripHours: core.Range3{Low: .5, Likely: .8, High: 1.5},
		RefitHours: core.Range3{Low: .6, Likely: 1, High: 2}, People: 2, Skill: "fitter", AllOf: []string{"wheels-off"},
		Destroys: []string{"hub/bearing-RF/end-float"}, Load: "hub", ConfirmHelp: "The stands are under the frame.", BareFrame: true,
		OneUse: []core.Item{{Key: "hub-gasket", Name: "Gasket, RF", Count: 2, OneUse: true, TaxClass: "goods",
			TypicalEach: core.Money3{Low: "0.5", Likely: "1.20", High: "3", Currency: "USD"}},
			{Key: "pin", Name: "Split pin", Count: 1, OneUse: true, TaxClass: "parts"}},
		Cautions: []core.Caution{{Text: "Mind your toes.", Step: "hub-off/RF", Source: commonPractice},
			{Text: "Left-hand thread at RF.", Step: "hub-off/RF", Source: "manual page 7"}}}, plan.Steps[2])
	require.Equal(t, "Swivel off, RF", plan.Steps[4].Name, "a name without its position gets it")
	require.Equal(t, []string{"hub-off/RF"}, plan.Steps[4].AllOf)
	require.Equal(t, []string{"swivel-off/LF", "swivel-off/RF", "wheels-off"}, plan.Steps[5].AllOf)
	require.Equal(t, [][]string{{"hub-off/LF", "hub-off/RF"}}, plan.Steps[5].AnyOf)
}

func TestStripPlanFaults(t *testing.T) {
	tests := map[string]struct {
		text string
		want []string
	}{
		"empty":         {"", []string{" the file is empty"}},
		"not yaml":      {"id: a\n  title: [", []string{"2: this cannot be read as YAML: mapping values are not allowed in this context"}},
		"not utf-8":     {"id: a\ntitle: \xff\n", []string{"2: this is not UTF-8 text"}},
		"two documents": {"id: a\ntitle: b\nsteps: []\n---\nid: c\n", []string{"4:1: a second document begins here"}},
		"a list":        {"- a", []string{"1:1: the strip plan: keys are wanted here, not a list"}},
		"keys": {"id: a b\ntitel: c\nsteps:\n  - {id: s, nam: x, hours: [1, 2, 3], hours: [1, 2, 3]}\n", []string{
			"1:1: the strip plan has no title", `1:5: "a b" is no id`, `2:1: unknown key "titel" in the strip plan`, "4:5: an entry of steps has no name",
			`4:13: unknown key "nam" in an entry of steps`, "4:39: hours stands twice in an entry of steps"}},
		"values": {"id: a\ntitle: b\ncurrency: XYZ\nsteps:\n  - {id: s, name: n, hours: [3, 2, 1], people: 0, bare_frame: maybe}\n  - {id: r, name: true, hours: [1, 2], refit: [a, 1, -2]}\n", []string{
			`3:11: "XYZ" is no currency`, "5:29: low, likely and high do not rise", "5:48: 0 is outside what can be meant here",
			`5:63: true or false is wanted here, not "maybe"`, `6:19: a text is wanted here, not "true"`, "6:32: three numbers are wanted here",
			`6:48: a number is wanted here, not "a"`, "6:54: -2 is outside what can be meant here"}},
		"references": {"id: a\ntitle: b\nsteps:\n  - {id: hub, positions: [LF, RF], name: n, hours: [1, 1, 1]}\n  - {id: s, name: n, hours: [1, 1, 1], all_of: [hub, hub/LR, what], any_of: [[nothing, s/*]]}\n  - {id: w, name: '{position}', hours: [1, 1, 1], all_of: ['s/*'], destroys: [a/b]}\n", []string{
			`5:49: s waits for "hub", which is no step`, `5:54: s waits for "hub/LR", which is no step`, `5:62: s waits for "what", which is no step`,
			`5:79: s waits for "nothing", which is no step`, "5:88: s waits for one of several, but s/* means every position",
			"6:19: {position} in a step without positions", "6:60: w waits for s/*, but s has no positions", `6:79: "a/b" is no check`}},
		"twice": {"id: a\ntitle: b\nsteps:\n  - {id: hub, positions: [LF, LF], name: n, hours: [1, 1, 1]}\n  - {id: hub, positions: [LF], name: n, hours: [1, 1, 1]}\n", []string{
			"4:10: the step hub/LF stands here twice", "5:10: the step hub/LF stands here twice"}},
		"circles": {"id: a\ntitle: b\nsteps:\n  - {id: p, name: n, hours: [1, 1, 1], all_of: [q]}\n  - {id: q, name: n, hours: [1, 1, 1], any_of: [[r, s]]}\n  - {id: r, name: n, hours: [1, 1, 1], all_of: [p]}\n  - {id: s, name: n, hours: [1, 1, 1], all_of: [s]}\n", []string{
			"4:10: steps wait for each other in a circle: p, q, r, p", "7:10: steps wait for each other in a circle: s, s"}},
		"price without a currency": {"id: a\ntitle: b\nsteps:\n  - {id: p, name: n, hours: [1, 1, 1], one_use: [{key: k, name: n, each: [1, 2, 3]}]}\n", []string{
			"4:74: a price without a currency"}},
		"alias": {"id: a\ntitle: &t b\nsteps:\n  - {id: p, name: *t, hours: [1, 1, 1]}\n", []string{"4:19: an alias (*t) is not read here"}},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			plan, err := ReadStripPlan([]byte(tt.text), "x")
			require.Equal(t, tt.want, told(t, err))
			require.Empty(t, plan)
		})
	}
}

func TestMergeStrip(t *testing.T) {
	generic, err := ReadStripPlan([]byte(smallPlan), "x")
	require.NoError(t, err)
	own := []core.Step{{ID: "axle-off", Name: "Axle off, this vehicle", AllOf: []string{"hub-off/*", "guard-off"}}, {ID: "guard-off", AllOf: []string{"wheels-off"}}}
	plan, err := MergeStrip(generic, own)
	require.NoError(t, err)
	require.Len(t, plan.Steps, 7)
	require.Equal(t, "Axle off, this vehicle", plan.Steps[5].Name)
	require.Equal(t, []string{"hub-off/LF", "hub-off/RF", "guard-off"}, plan.Steps[5].AllOf)
	require.Equal(t, "guard-off", plan.Steps[6].ID)
	require.Equal(t, "Axle off", generic.Steps[5].Name, "the generic plan stays as it was")

	_, err = MergeStrip(generic, []core.Step{{ID: "wheels-off", AllOf: []string{"axle-off"}}, {ID: "x", AllOf: []string{"nowhere"}}})
	got := told(t, err)
	require.Len(t, got, 2)
	require.Contains(t, got[0], `step x: x waits for "nowhere"`)
	require.Contains(t, got[1], "in a circle: wheels-off, axle-off, swivel-off/LF, hub-off/LF, wheels-off")
}

// TestCheckedInFiles reads the data that the project ships.
func TestCheckedInFiles(t *testing.T) {
	data, err := os.ReadFile("../../configs/strip/generic.yaml")
	require.NoError(t, err)
	plan, err := ReadStripPlan(data, "generic.yaml")
	require.NoError(t, err)
	require.Greater(t, len(plan.Steps), 50)
	data, err = os.ReadFile("../../configs/instruments.yaml")
	require.NoError(t, err)
	list, err := ReadInstruments(data, "instruments.yaml")
	require.NoError(t, err)
	mic, ok := core.FindInstrument(list, "Outside  micrometer")
	require.True(t, ok)
	require.Equal(t, .0001, mic.Bound)
}
