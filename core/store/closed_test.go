package store

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// handOver opens a job, and hands it over with what it taught.
func handOver(t testing.TB, b *Book, number string, taught *core.Taught) {
	t.Helper()
	_, err := b.OpenJob(t.Context(), core.Job{Number: number, Title: "One of many", State: core.StateRoadTest, Owner: core.Party{Name: "O. Wner"}}, "Wren")
	require.NoError(t, err)
	reckoning := &core.Reckoning{}
	for i := range 150 {
		reckoning.Work = append(reckoning.Work, core.WorkTaught{Work: fmt.Sprint("gearbox:operation-", i), Name: "Full overhaul", Subsystem: "gearbox", Skill: "mechanic", Lines: 1, Likely: 9, Expected: 9.5, Hours: 12})
	}
	s, err := b.Act(t.Context(), number, "Wren", &core.Handover{Signed: "O. Wner", OldParts: "none", Taught: taught}, reckoning)
	require.NoError(t, err)
	require.Len(t, s.Reckoning.Work, 150)
}

func taughtOf(rows int) *core.Taught {
	t := &core.Taught{Hours: 12, Expected: 9.5}
	r := core.RowsTaught{Subsystem: "gearbox", Unit: "gearbox"}
	for i := range rows {
		r.Seen = append(r.Seen, fmt.Sprint("H", i))
	}
	t.Rows = append(t.Rows, r)
	return t
}

// What closed jobs taught is read as it was kept, in the order in which they were handed over; one that was taken back teaches nothing until it is
// brought back, and one that an older program handed over says that it has nothing.
func TestClosedJobs(t *testing.T) {
	b := newBook(t)
	ctx := t.Context()
	closed, err := b.Closed(ctx)
	require.NoError(t, err)
	require.Equal(t, []core.Closed{}, closed)
	handOver(t, b, "J-007", taughtOf(2))
	handOver(t, b, "J-003", nil)
	handOver(t, b, "J-005", taughtOf(1))
	numbers := func() (ns []string) {
		closed, err = b.Closed(ctx)
		require.NoError(t, err)
		for _, c := range closed {
			require.False(t, c.At.IsZero())
			ns = append(ns, c.Job)
		}
		return ns
	}
	require.Equal(t, []string{"J-007", "J-003", "J-005"}, numbers())
	require.Equal(t, taughtOf(2), closed[0].Taught)
	require.Nil(t, closed[1].Taught)
	for range 2 {
		_, err = b.Undo(ctx, "J-007", "Wren")
		require.NoError(t, err)
		require.Equal(t, []string{"J-003", "J-005"}, numbers())
		_, err = b.Redo(ctx, "J-007", "Wren")
		require.NoError(t, err)
		require.Equal(t, []string{"J-007", "J-003", "J-005"}, numbers())
	}
	_, err = b.Undo(ctx, "J-007", "Wren")
	require.NoError(t, err)
	_, err = b.Act(ctx, "J-007", "Wren", &core.Handover{Signed: "O. Wner", OldParts: "none", Taught: taughtOf(3)})
	require.NoError(t, err)
	require.Equal(t, []string{"J-003", "J-005", "J-007"}, numbers())
	require.Equal(t, taughtOf(3), closed[2].Taught)
	s, err := b.Story(ctx, "J-007")
	require.NoError(t, err)
	require.Equal(t, taughtOf(3), s.Handover.Taught)
	require.Nil(t, s.Reckoning, "the first one was taken back with its handover")
	_, err = b.Act(ctx, "J-001", "Wren", &core.Reckoning{})
	require.Equal(t, core.Conflict, core.ErrorCode(err))
}

// The budgets of issued scopes are read oldest first, of each revision once.
func TestScopeBudgets(t *testing.T) {
	b := newBook(t)
	ctx := t.Context()
	issue := func(kind, number string, revision int, inputs map[string]any) {
		in, err := json.Marshal(inputs)
		require.NoError(t, err)
		one := Paper{Job: "J-001", Kind: kind, Number: number, Revision: revision, Inputs: in, Bytes: []byte("pdf")}
		two := one
		two.Media, two.Bytes = "text/html", []byte("html")
		_, err = b.Issue(ctx, "Wren", one, two)
		require.NoError(t, err)
	}
	budget := func(p80 string) map[string]any { return map[string]any{"budget": core.Budget{P80: usd(t, p80)}} }
	issue("scope", "J-001-S", 1, budget("1000"))
	issue("work order", "J-001-W", 1, budget("1"))
	issue("scope", "J-001-S", 2, budget("1200"))
	issue("scope", "J-001-S", 3, map[string]any{"order": 1})
	scopes, err := b.ScopeBudgets(ctx, "J-001")
	require.NoError(t, err)
	require.Len(t, scopes, 2)
	require.Equal(t, 1, scopes[0].Revision)
	require.Equal(t, int64(120_000), core.Minor(scopes[1].Budget.P80))
}

// BenchmarkClosed reads what closed jobs taught, as each plan does: of 10 and of 100 whole vehicles, in a book with as many jobs in work. The aim is
// 1 ms for 10.
func BenchmarkClosed(b *testing.B) {
	for _, jobs := range []int{0, 10, 100} {
		b.Run(fmt.Sprint(jobs), func(b *testing.B) {
			book := newBook(b)
			taught := taughtOf(90)
			for j := range jobs {
				handOver(b, book, fmt.Sprintf("J-%03d", 1000+j), taught)
				number := fmt.Sprintf("J-%03d", 2000+j)
				_, err := book.OpenJob(b.Context(), core.Job{Number: number, Title: "In work"}, "Wren")
				require.NoError(b, err)
				var acts []core.Act
				for i := range 30 {
					acts = append(acts, &core.Tag{What: fmt.Sprint("part ", i), State: core.TagOff, Lies: "rack 1"})
				}
				_, err = book.Act(b.Context(), number, "Wren", acts...)
				require.NoError(b, err)
			}
			for b.Loop() {
				closed, err := book.Closed(b.Context())
				require.NoError(b, err)
				require.Len(b, closed, jobs)
			}
		})
	}
}
