package store

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// TestTogetherIsOneBatch: a step, its hours and the readings lost by it go in together and come out together; so does a picture with its tag.
func TestTogetherIsOneBatch(t *testing.T) {
	b := newBook(t)
	ctx := t.Context()
	lost := core.Finding{Subsystem: "hubs-wheels", Target: core.Target{Part: "hub-bearing", Position: "LF"}, Check: "end-float",
		Value: core.Value{Kind: core.ValueNotRead, NotRead: core.Lost}}
	damp := core.Brief{Stored: "damp"}
	with := Together{Change: Change{Brief: &damp}, Findings: []core.Finding{lost}}
	_, err := b.ActTogether(ctx, "J-001", "Wren", with, &core.StepDone{Step: "hub-off/LF", Is: core.StepIsDone})
	require.Equal(t, core.Conflict, core.ErrorCode(err), "nobody agreed")
	fs, err := b.Findings(ctx, "J-001")
	require.NoError(t, err)
	require.Empty(t, fs, "what is refused leaves nothing behind")

	s, err := b.ActTogether(ctx, "J-001", "Wren", with, &core.StepDone{Step: "arrival", Is: core.StepIsDone, Free: true, Hours: 1}, &core.Worked{Who: "Wren", Task: "arrival", Hours: 1})
	require.NoError(t, err)
	require.Equal(t, "damp", s.Job.Brief.Stored)
	require.Len(t, s.Steps, 1)
	require.Len(t, s.Hours, 1)
	fs, err = b.Findings(ctx, "J-001")
	require.NoError(t, err)
	require.Len(t, fs, 1)
	require.NotEmpty(t, fs[0].ID)
	u, err := b.Undo(ctx, "J-001", "Wren")
	require.NoError(t, err)
	require.Equal(t, "1 brief, 1 finding, 1 step, 1 hours", u.Words())
	s, err = b.Story(ctx, "J-001")
	require.NoError(t, err)
	require.Empty(t, s.Steps)
	require.Empty(t, s.Job.Brief.Stored)

	p, err := b.KeepPhoto("a.JPG", Photo{Title: "the box"}, strings.NewReader("light"))
	require.NoError(t, err)
	require.Equal(t, ".jpg", p.Ext)
	ps, err := b.Photos(ctx, "J-001")
	require.NoError(t, err)
	require.Empty(t, ps, "kept, but not in the book yet")
	_, err = b.ActTogether(ctx, "J-001", "Wren", Together{Photos: []Photo{p}}, &core.Tag{What: "box", State: core.TagOff, Lies: "rack", Photos: []string{p.SHA256}})
	require.NoError(t, err)
	ps, err = b.Photos(ctx, "J-001")
	require.NoError(t, err)
	require.Equal(t, []Photo{p}, ps)
	_, err = b.Undo(ctx, "J-001", "Wren")
	require.NoError(t, err)
	ps, err = b.Photos(ctx, "J-001")
	require.NoError(t, err)
	require.Empty(t, ps)
}

// TestATimerSurvivesTheBookClosing: its start is an entry; an undo of the hours that ended it lets it run again.
func TestATimerSurvivesTheBookClosing(t *testing.T) {
	b := newBook(t)
	ctx := t.Context()
	s, err := b.Act(ctx, "J-001", "Wren", &core.Timer{Who: "Wren", Task: "washing"})
	require.NoError(t, err)
	s2, err := b.Story(ctx, "J-001")
	require.NoError(t, err)
	require.Equal(t, s.Timers[0].At.UTC(), s2.Running("wren").At.UTC())
	w := core.Worked{Who: "Wren", Task: "washing", Hours: 2, Since: s2.Running("Wren").At}
	s, err = b.Act(ctx, "J-001", "Wren", &w)
	require.NoError(t, err)
	require.Empty(t, s.Timers)
	_, err = b.Undo(ctx, "J-001", "Wren")
	require.NoError(t, err)
	s, err = b.Story(ctx, "J-001")
	require.NoError(t, err)
	require.Len(t, s.Timers, 1)
	require.Empty(t, s.Hours)
}
