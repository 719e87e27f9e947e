package store

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestOpenJobFillsIn(t *testing.T) {
	b := newBook(t)
	j, err := b.OpenJob(t.Context(), core.Job{}, "Wren")
	require.NoError(t, err)
	require.Equal(t, "J-002", j.Number)
	require.Equal(t, "enquiry", j.State)
	require.Equal(t, noon, j.Opened)
	require.NotEmpty(t, j.ID)
	require.Equal(t, seed("J-002"), j.Seed)
	require.Less(t, j.Seed, uint64(1)<<53)
	_, err = b.OpenJob(t.Context(), core.Job{Number: "J-017"}, "Wren")
	require.NoError(t, err)
	j, err = b.OpenJob(t.Context(), core.Job{Number: "BENCH-3"}, "Wren")
	require.NoError(t, err)
	j, err = b.OpenJob(t.Context(), core.Job{}, "Wren")
	require.NoError(t, err)
	require.Equal(t, "J-018", j.Number)

	_, err = b.OpenJob(t.Context(), core.Job{Number: "J-017"}, "Wren")
	require.Equal(t, core.Conflict, core.ErrorCode(err))
	_, err = b.OpenJob(t.Context(), core.Job{Number: "../etc"}, "Wren")
	require.Equal(t, core.Invalid, core.ErrorCode(err))
	jobs, err := b.Jobs(t.Context())
	require.NoError(t, err)
	require.Len(t, jobs, 5)
	require.Equal(t, "J-001", jobs[0].Number)
}

func TestJobNumbersAreGivenOnce(t *testing.T) {
	b := newBook(t)
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			_, err := b.OpenJob(t.Context(), core.Job{}, "Wren")
			assert.NoError(t, err)
		})
	}
	wg.Wait()
	jobs, err := b.Jobs(t.Context())
	require.NoError(t, err)
	require.Len(t, jobs, 9)
	require.Equal(t, "J-009", jobs[8].Number)
}

func ptr[T any](v T) *T { return &v }

func TestChangeJobFolds(t *testing.T) {
	b := newBook(t)
	place := core.Place{Subsystem: "gearbox", Unit: "gearbox", Target: core.Target{Part: "layshaft"}}
	limit := core.SubsystemOverride{Subsystem: "gearbox", Override: core.Override{Target: core.Target{Part: "layshaft"}, Check: "end-float",
		Limit: core.Limit{WearHigh: ptr(.012), Unit: "in", Source: "shop rule"}}}
	_, err := b.ChangeJob(t.Context(), "J-001", "Wren", Change{
		Title: ptr("Gearbox, spare"), Owner: &core.Party{Name: "O. Wner"}, Vehicle: &core.Vehicle{Title: "Packhorse"},
		Brief: &core.Brief{Use: "show", Originality: 3, HorizonKM: 1000}, Extent: &core.Extent{Kind: core.ExtentBench, Apart: []string{"gearbox:case-open"}},
		Units: []core.Unit{{ID: "gearbox", Kind: "gearbox", Title: "first"}, {ID: "gearbox-2", Kind: "gearbox"}},
		Pins:  []core.Pin{{Place: place, Remedy: "new", Reason: "owner has one", By: "Wren"}}, Left: []core.Left{{Place: place, Reason: "money", By: "O. Wner"}},
		Overrides: []core.SubsystemOverride{limit},
	})
	require.NoError(t, err)
	job, err := b.ChangeJob(t.Context(), "J-001", "Wren", Change{Brief: &core.Brief{Use: "farm", Originality: 1},
		Units: []core.Unit{{ID: "gearbox", Kind: "gearbox", Title: "second"}}})
	require.NoError(t, err)
	require.Equal(t, core.Brief{Use: "farm", Originality: 1}, job.Brief, "a whole new value, nothing of the old one")
	require.Equal(t, []core.Unit{{ID: "gearbox", Kind: "gearbox", Title: "second"}, {ID: "gearbox-2", Kind: "gearbox"}}, job.Units)
	require.Equal(t, "Gearbox, spare", job.Title)
	require.Equal(t, "Packhorse", job.Vehicle.Title)
	require.Equal(t, []core.SubsystemOverride{limit}, job.Overrides)
	require.Equal(t, []string{"gearbox:case-open"}, job.Extent.Apart)
	require.Len(t, job.Pins, 1)

	out := limit
	out.Limit = core.Limit{}
	job, err = b.ChangeJob(t.Context(), "J-001", "Wren", Change{Pins: []core.Pin{{Place: place}}, Left: []core.Left{{Place: place}},
		Overrides: []core.SubsystemOverride{out}})
	require.NoError(t, err)
	require.Empty(t, job.Pins)
	require.Empty(t, job.Left)
	require.Empty(t, job.Overrides)

	_, err = b.Undo(t.Context(), "J-001", "Wren")
	require.NoError(t, err)
	job, err = b.Job(t.Context(), "J-001")
	require.NoError(t, err)
	require.Equal(t, "owner has one", job.Pins[0].Reason)
	_, err = b.Undo(t.Context(), "J-001", "Wren")
	require.NoError(t, err)
	job, err = b.Job(t.Context(), "J-001")
	require.NoError(t, err)
	require.Equal(t, "show", job.Brief.Use)
}

func TestChangeJobRefuses(t *testing.T) {
	b := newBook(t)
	place := core.Place{Subsystem: "gearbox", Target: core.Target{Part: "layshaft"}}
	for name, c := range map[string]Change{
		"pin without a reason": {Pins: []core.Pin{{Place: place, Remedy: "new", By: "Wren"}}},
		"pin without a name":   {Pins: []core.Pin{{Place: place, Remedy: "new", Reason: "so"}}},
		"left without a name":  {Left: []core.Left{{Place: place, Reason: "money"}}},
		"unit without a kind":  {Units: []core.Unit{{ID: "engine"}}},
	} {
		_, err := b.ChangeJob(t.Context(), "J-001", "Wren", c)
		require.Equal(t, core.Invalid, core.ErrorCode(err), name)
	}
	_, err := b.ChangeJob(t.Context(), "J-404", "Wren", Change{Title: ptr("Another")})
	require.Equal(t, core.NotFound, core.ErrorCode(err))
	_, err = b.Job(t.Context(), "J-404")
	require.Equal(t, core.NotFound, core.ErrorCode(err))
}
