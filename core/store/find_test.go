package store

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestFind(t *testing.T) {
	b := newBook(t)
	ctx := t.Context()
	tag := func(number, what, lies string) {
		t.Helper()
		_, err := b.Act(ctx, "J-001", "Wren", &core.Tag{ID: number, What: what, State: core.TagOff, Lies: lies})
		require.NoError(t, err)
	}
	tag("T-014", "Gearbox, whole", "pallet 3")
	tag("T-014-03", "Layshaft cluster", "rack 2, shelf 1")
	tag("T-140", "Bonnet stay", "rafters")
	names := func(text string) (ns []string) {
		t.Helper()
		found, err := b.Find(ctx, "", text)
		require.NoError(t, err)
		for _, f := range found {
			ns = append(ns, f.Name)
		}
		return ns
	}
	require.Equal(t, []string{"T-014-03", "T-014"}, names("T-014"), "a number and its children, nothing that only begins alike")
	require.Equal(t, []string{"T-014-03"}, names("laysh"))
	require.Equal(t, []string{"T-014-03"}, names("shelf RACK"))
	require.Equal(t, []string{"T-140"}, names("rafters"))
	require.Empty(t, names("spindle"))
	tag("T-140", "Bonnet stay", "rack 9")
	require.Empty(t, names("rafters"), "it lies elsewhere now")
	require.Equal(t, []string{"T-140"}, names("rack 9"))
	_, err := b.Undo(ctx, "J-001", "Wren")
	require.NoError(t, err)
	require.Equal(t, []string{"T-140"}, names("rafters"))
	_, err = b.ChangeJob(ctx, "J-001", "Wren", Change{Units: []core.Unit{{ID: "gearbox-2", Kind: "gearbox", Title: "From the barn", Marks: []core.Mark{{Where: "case", Text: "G4 3 61", Says: "unknown"}}}}})
	require.NoError(t, err)
	require.Equal(t, []string{"gearbox-2"}, names(`G4 3 61`))
	_, err = b.Act(ctx, "J-001", "Wren", &core.Tag{ID: "T-200", What: "Swivel", State: core.TagOff, Lies: "bay 1", Fasteners: []core.Fasteners{{Bag: "7", In: 8, Thread: "3/8 UNF"}}},
		&core.Tag{ID: "T-201", What: "Bag of trim for 7 doors", State: core.TagOff, Lies: "rafters"})
	require.NoError(t, err)
	require.Equal(t, []string{"T-200", "T-201"}, names("bag 7"), "the words in a row first")
	_, err = b.Find(ctx, "", ` "-* `)
	require.Equal(t, core.Invalid, core.ErrorCode(err))
	found, err := b.Find(ctx, "J-404", "rack")
	require.NoError(t, err)
	require.Empty(t, found)
}

// BenchmarkFind looks for a tag, a place and a word in a book of 200 jobs and 10,000 tags. The aim is 50 ms.
func BenchmarkFind(b *testing.B) {
	book := newBook(b)
	ctx := b.Context()
	for j := range 200 {
		number := fmt.Sprintf("J-%03d", j+2)
		_, err := book.OpenJob(ctx, core.Job{Number: number, Title: "One of many"}, "Wren")
		require.NoError(b, err)
		var acts []core.Act
		for i := range 50 {
			acts = append(acts, &core.Tag{ID: fmt.Sprintf("T-%05d", j*50+i), What: fmt.Sprintf("Thing %d of job %d", i, j), State: core.TagOff, Lies: fmt.Sprintf("rack %d, shelf %d", j%9, i%7)})
		}
		_, err = book.Act(ctx, number, "Wren", acts...)
		require.NoError(b, err)
		if j%10 != 0 { // most jobs have had something out and back
			_, err = book.ChangeJob(ctx, number, "Wren", Change{Owner: &core.Party{Name: "O. Wner"}})
			require.NoError(b, err)
			_, err = book.Issue(ctx, "Wren", scopeOf(b, number, 1))
			require.NoError(b, err)
			tag := fmt.Sprintf("T-%05d", j*50)
			_, err = book.Act(ctx, number, "Wren", &core.Move{To: core.StateScopeOut}, &core.Agreement{Gate: core.GateBudget, Paper: number + "-S", Revision: 1, Who: "O. Wner", How: "signed", Sum: usd(b, "1000")},
				&core.Outwork{To: "Tern Lane Grinding", Lines: []string{"work:bottom-end@engine:grind"}, Tags: []string{tag}, Price: usd(b, "400"), Type: "fixed"})
			require.NoError(b, err)
		}
	}
	for _, text := range []string{"T-05020", "rack 3 shelf 2", "thing"} {
		b.Run(text, func(b *testing.B) {
			for b.Loop() {
				found, err := book.Find(ctx, "", text)
				require.NoError(b, err)
				require.NotEmpty(b, found)
			}
		})
	}
}
