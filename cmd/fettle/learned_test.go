package main

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// TestLearnedOfSheetsThatAreGone: rows of a subsystem that nobody serves any more, or that are off its sheet, are told and teach nothing; rows of
// one that cannot be asked are neither lost nor gone. A job of an older program says that nothing was kept of it.
func TestLearnedOfSheetsThatAreGone(t *testing.T) {
	ctx, c := context.Background(), demoShop(t)
	require.NoError(t, c.withShop(ctx, func(s *shop) error {
		for number, taught := range map[string]*core.Taught{"J-500": nil, "J-501": {NoHours: "no hours are written on what was agreed to", NoMoney: "no scope was agreed to", Silent: []string{"head"}, Rows: []core.RowsTaught{
			{Subsystem: "gearbox", Unit: "gearbox", Seen: []string{"H17", "H99"}, Happened: []string{"H17"}}, {Subsystem: "winch", Unit: "vehicle", Seen: []string{"R1"}}}}} {
			_, err := s.book.OpenJob(ctx, core.Job{Number: number, Title: "One like it", State: core.StateRoadTest}, "Wren")
			require.NoError(t, err)
			_, err = s.book.Act(ctx, number, "Wren", &core.Handover{Signed: "O. Wner", OldParts: "none", Taught: taught})
			require.NoError(t, err)
		}
		l, err := s.whatWasLearned(ctx)
		require.NoError(t, err)
		require.Len(t, l.Rows, 1)
		require.Equal(t, "H17", l.Rows[0].Row)
		require.Equal(t, []string{"gearbox H99", "winch R1"}, []string{l.Gone[0].Subsystem + " " + l.Gone[0].Row, l.Gone[1].Subsystem + " " + l.Gone[1].Row})
		require.Empty(t, l.Silent)

		s.names = append(s.names, "winch")
		l, err = s.whatWasLearned(ctx)
		require.NoError(t, err)
		require.Equal(t, []string{"winch"}, l.Silent)
		require.Len(t, l.Gone, 1)

		var out bytes.Buffer
		c.out = &out
		c.printLearned(s, l)
		said := strings.Join(strings.Fields(out.String()), " ")
		require.Contains(t, said, "labour ratio 1, the usual: 2 closed jobs have no hours to go by")
		require.Contains(t, said, "it was handed over before this was kept")
		require.Contains(t, said, "head could not be asked when it was handed over")
		require.Contains(t, said, "gearbox: H99, on no sheet now: it teaches nothing")
		require.Contains(t, said, "Could not be asked for their rows now: winch")
		require.Contains(t, said, "No closed job can be held against its scope yet")
		return nil
	}))
}

// BenchmarkWarmPlanLearned is BenchmarkWarmPlan's whole vehicle in a shop that has closed none, 20 and 100 jobs like it. The aim is that it costs a
// few milliseconds at most.
func BenchmarkWarmPlanLearned(b *testing.B) {
	ctx, c := context.Background(), demoShop(b)
	require.NoError(b, c.withShop(ctx, func(s *shop) error {
		job, err := s.job(ctx, "J-001")
		require.NoError(b, err)
		story, err := s.book.Story(ctx, job.Number)
		require.NoError(b, err)
		taught, reckoning, err := s.teach(ctx, story)
		require.NoError(b, err)
		require.Greater(b, len(taught.Rows), 15)
		closed := 0
		for _, jobs := range []int{0, 20, 100} {
			for ; closed < jobs; closed++ {
				number := fmt.Sprintf("J-%03d", 500+closed)
				_, err := s.book.OpenJob(ctx, core.Job{Number: number, Title: "One like it", State: core.StateRoadTest}, "Wren")
				require.NoError(b, err)
				_, err = s.book.Act(ctx, number, "Wren", &core.Handover{Signed: "O. Wner", OldParts: "none", Taught: taught}, reckoning)
				require.NoError(b, err)
			}
			b.Run(fmt.Sprintf("%d closed", jobs), func(b *testing.B) {
				for b.Loop() {
					if _, err := s.plan(ctx, job); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
		return nil
	}))
}
