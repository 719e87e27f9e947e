package web

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// What a subsystem says of a group stands once, before the group's first part, and knows its parts; what it says of a part stands there, the rest before all.
func TestAGroupSpeaksBeforeItsFirstPart(t *testing.T) {
	us, findings := boxSheet()
	left, right, box := core.Target{Part: "spindle", Position: "left"}, core.Target{Part: "spindle", Position: "right"}, core.Target{Part: "case"}
	us.Sheet.Sets = []core.Set{{ID: "B9", Members: []core.Target{box}}, {ID: "B1", Members: []core.Target{right, left}}}
	says := core.Reason{Text: "the spindles as a group: both to -.010, by left; right would do at -.005", Rule: "B1"}
	us.Assessment.Conditions = []core.Condition{{Target: left, Grade: core.PastLimit, Reasons: []core.Reason{{Text: "it stands alone", Rule: "B7"}, says}}, {Target: right, Grade: core.WornFit, Reasons: []core.Reason{says}}}
	us.Assessment.Problems = []core.Problem{{Target: right, Summary: "odd sizes", Next: "measure it again"}, {Target: core.Target{Part: "elsewhere"}, Summary: "no history"}}
	var p benchPage
	p.fill(us, findings)
	require.Len(t, p.Parts, 3)
	require.Equal(t, []benchGroup{{Set: "B1", Says: "the spindles as a group: both to -.010, by left", More: []string{"right would do at -.005"}, Parts: "spindle-left spindle-right"}}, p.Parts[0].Groups)
	require.Empty(t, p.Parts[1].Groups)
	require.Equal(t, []benchNote{{"odd sizes", "measure it again"}}, p.Parts[1].Notes)
	require.Equal(t, []benchNote{{"no history", ""}}, p.Notes)

	pages, err := readPages(nil)
	require.NoError(t, err)
	var out strings.Builder
	p.Job = &core.Job{Number: "J-001"}
	require.NoError(t, pages["bench"].Execute(&out, p))
	require.Less(t, strings.Index(out.String(), `id="group-B1" data-parts="spindle-left spindle-right"`), strings.Index(out.String(), `id="spindle-left"`))
	require.Contains(t, out.String(), "<strong>Odd sizes</strong>: measure it again")
}
