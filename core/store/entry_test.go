package store

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/fettle-tools/fettle/core"
)

func TestAppendRoundTrip(t *testing.T) {
	b := newBook(t)
	first := Entry{ID: "a", Job: "J-001", Kind: "note", By: "Wren", Body: json.RawMessage(`{"text":"oil is black"}`)}
	second := Entry{ID: "b", Job: "J-001", Kind: "note", Body: json.RawMessage(`{"text":"no, it is water"}`), Supersedes: []string{"a"}}
	n, err := b.Append(t.Context(), first, second)
	require.NoError(t, err)
	require.Equal(t, 2, n)
	n, err = b.Append(t.Context(), first, second)
	require.NoError(t, err)
	require.Zero(t, n, "adding the same twice changes nothing")

	es, err := b.Entries(t.Context(), "J-001")
	require.NoError(t, err)
	require.Len(t, es, 3)
	require.Equal(t, []string{KindJob, "note", "note"}, []string{es[0].Kind, es[1].Kind, es[2].Kind})
	require.Equal(t, noon, es[1].At, "nine digits, UTC")
	require.Equal(t, es[1].Batch, es[2].Batch, "one call, one batch")
	require.NotEqual(t, es[0].Batch, es[1].Batch)
	require.JSONEq(t, `{"text":"oil is black"}`, string(es[1].Body))
	require.Equal(t, []string{"a"}, es[2].Supersedes)
	live := Live(es)
	require.Len(t, live, 2)
	require.Equal(t, "b", live[1].ID)
}

func TestAppendRefuses(t *testing.T) {
	b := newBook(t)
	_, err := b.OpenJob(t.Context(), core.Job{Number: "J-002"}, "Wren")
	require.NoError(t, err)
	_, err = b.Append(t.Context(), Entry{ID: "a", Job: "J-001", Kind: "note"}, Entry{ID: "z", Job: "J-002", Kind: "note"})
	require.NoError(t, err)
	tests := map[string]struct {
		entry Entry
		code  core.Code
	}{
		"no kind":                 {Entry{Job: "J-001"}, core.Invalid},
		"a body that is no JSON":  {Entry{Job: "J-001", Kind: "note", Body: json.RawMessage(`{"a":`)}, core.Invalid},
		"an id with a blank":      {Entry{ID: "a b", Job: "J-001", Kind: "note"}, core.Invalid},
		"a job never opened":      {Entry{Job: "J-404", Kind: "note"}, core.NotFound},
		"superseding itself":      {Entry{ID: "s", Job: "J-001", Kind: "note", Supersedes: []string{"s"}}, core.Conflict},
		"superseding nothing":     {Entry{Job: "J-001", Kind: "note", Supersedes: []string{"nowhere"}}, core.Conflict},
		"superseding another job": {Entry{Job: "J-001", Kind: "note", Supersedes: []string{"z"}}, core.Conflict},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			n, err := b.Append(t.Context(), Entry{Job: "J-001", Kind: "note", ID: "goes"}, tt.entry)
			require.Equal(t, tt.code, core.ErrorCode(err), "%v", err)
			require.Zero(t, n)
			require.NotEmpty(t, core.ErrorNext(err))
		})
	}
	es, err := b.Entries(t.Context(), "J-001")
	require.NoError(t, err)
	require.Len(t, es, 2, "all or none")
}

// TestNothingIsEverLost adds, supersedes, undoes and redoes at random, and checks after each that every entry is still
// there as it was, and that those live are those that no live entry supersedes, worked out by following each chain.
func TestNothingIsEverLost(t *testing.T) {
	b := newBook(t)
	jobs := 1
	rapid.Check(t, func(rt *rapid.T) {
		jobs++
		job, err := b.OpenJob(t.Context(), core.Job{Number: fmt.Sprintf("P-%d", jobs)}, "Wren")
		require.NoError(rt, err)
		before := []Entry{}
		for range rapid.IntRange(1, 10).Draw(rt, "steps") {
			es, err := b.Entries(t.Context(), job.Number)
			require.NoError(rt, err)
			switch rapid.SampledFrom([]string{"add", "supersede", "undo", "redo"}).Draw(rt, "step") {
			case "add":
				_, err = b.Append(t.Context(), notes(job.Number, rapid.IntRange(1, 3).Draw(rt, "n"))...)
				require.NoError(rt, err)
			case "supersede":
				e := rapid.SampledFrom(es).Draw(rt, "which")
				if e.Kind == "note" {
					_, err = b.Append(t.Context(), Entry{Job: job.Number, Kind: "note", Supersedes: []string{e.ID}})
					require.NoError(rt, err)
				}
			case "undo":
				u, err := b.Undo(t.Context(), job.Number, "Wren")
				require.Contains(rt, []core.Code{"", core.NotFound}, core.ErrorCode(err))
				require.Equal(rt, err == nil, len(u.Entries) > 0)
			case "redo":
				_, err := b.Redo(t.Context(), job.Number, "Wren")
				require.Contains(rt, []core.Code{"", core.NotFound}, core.ErrorCode(err))
			}
			after, err := b.Entries(t.Context(), job.Number)
			require.NoError(rt, err)
			require.GreaterOrEqual(rt, len(after), len(before))
			require.Equal(rt, before, after[:len(before)], "what was there is there, unchanged and in its order")
			require.Equal(rt, liveByChains(after), ids(Live(after)))
			before = after
		}
	})
}

func notes(job string, n int) []Entry {
	es := make([]Entry, n)
	for i := range es {
		es[i] = Entry{Job: job, Kind: "note"}
	}
	return es
}

// liveByChains is the definition read literally: an entry is live if no live entry supersedes it.
func liveByChains(es []Entry) []string {
	by := map[string][]string{}
	for _, e := range es {
		for _, s := range e.Supersedes {
			by[s] = append(by[s], e.ID)
		}
	}
	var live func(id string) bool
	live = func(id string) bool {
		for _, s := range by[id] {
			if live(s) {
				return false
			}
		}
		return true
	}
	out := []string{}
	for _, e := range es {
		if live(e.ID) {
			out = append(out, e.ID)
		}
	}
	return out
}

func ids(es []Entry) []string {
	out := []string{}
	for _, e := range es {
		out = append(out, e.ID)
	}
	return out
}
