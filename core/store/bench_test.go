package store

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// rows are n findings of a file, with a value each.
func rows(n int) []core.Finding {
	fs := make([]core.Finding, n)
	for i := range fs {
		fs[i] = core.Finding{Subsystem: "bottom-end", Unit: "engine", Target: core.Target{Part: "main-journal", Position: fmt.Sprintf("M%d", i%3+1)},
			Check: "diameter", Station: "FV", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 2.4985, Unit: "in", Bound: .0001}},
			AsTyped: fmt.Sprint(2.4985 + float64(i)*1e-6), Instrument: "micrometer", By: "Wren", At: noon}
		fs[i].ID = ImportID("J-001", fs[i].AsTyped, i)
	}
	return fs
}

// BenchmarkImport2000 is the durable import of 2,000 findings: to be well under a second.
func BenchmarkImport2000(b *testing.B) {
	fs := rows(2000)
	for b.Loop() {
		b.StopTimer()
		book, err := Create(b.Context(), b.TempDir(), fixed)
		require.NoError(b, err)
		_, err = book.OpenJob(b.Context(), core.Job{}, "Wren")
		require.NoError(b, err)
		b.StartTimer()
		a, err := book.AddFindings(b.Context(), "J-001", fs)
		require.NoError(b, err)
		require.Len(b, a.New, 2000)
		b.StopTimer()
		require.NoError(b, book.Close())
		b.StartTimer()
	}
}

func BenchmarkFindings2000(b *testing.B) {
	book := newBook(b)
	_, err := book.AddFindings(b.Context(), "J-001", rows(2000))
	require.NoError(b, err)
	for b.Loop() {
		fs, err := book.Findings(b.Context(), "J-001")
		require.NoError(b, err)
		require.Len(b, fs, 2000)
	}
}

// BenchmarkOpen opens and closes a book that is up to date: to be under 10 ms.
func BenchmarkOpen(b *testing.B) {
	book := newBook(b)
	dir := copyBook(b, book)
	for b.Loop() {
		o, err := Open(b.Context(), dir, time.Now)
		require.NoError(b, err)
		require.NoError(b, o.Close())
	}
}

func BenchmarkAppendOne(b *testing.B) {
	book := newBook(b)
	for b.Loop() {
		_, err := book.Append(b.Context(), notes("J-001", 1)...)
		require.NoError(b, err)
	}
}
