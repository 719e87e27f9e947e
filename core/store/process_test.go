package store

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMain lets the test binary stand in for another program that writes in the same book.
func TestMain(m *testing.M) {
	if dir := os.Getenv("FETTLE_TEST_WRITER"); dir != "" {
		if err := writeOn(dir); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// writeOn appends batches of three entries, and prints the first id of each batch once the book has acknowledged it.
func writeOn(dir string) error {
	b, err := Open(context.Background(), dir, time.Now)
	if err != nil {
		return err
	}
	for {
		es := notes("J-001", 3)
		for i := range es {
			es[i].ID = newID(time.Now())
			es[i].By = fmt.Sprint(os.Getpid())
		}
		if _, err := b.Append(context.Background(), es...); err != nil {
			return err
		}
		fmt.Println(es[0].ID)
	}
}

// writer starts a process that writes in the book of dir until it is killed.
func writer(t *testing.T, dir string) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), "FETTLE_TEST_WRITER="+dir)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	return cmd, bufio.NewScanner(out)
}

// TestKilledWriterLosesNothingAcknowledged kills two processes in the middle of their writing: every batch that either
// was told is in the book is there, no batch is there in part, and the book can be written on.
func TestKilledWriterLosesNothingAcknowledged(t *testing.T) {
	b := newBook(t)
	var acknowledged []string
	var mu sync.Mutex
	var wg sync.WaitGroup
	for range 2 {
		cmd, lines := writer(t, b.Dir())
		wg.Go(func() {
			n := 0
			for lines.Scan() {
				mu.Lock()
				acknowledged = append(acknowledged, lines.Text())
				mu.Unlock()
				if n++; n == 40 {
					assert.NoError(t, cmd.Process.Kill())
				}
			}
			assert.Error(t, cmd.Wait(), "it was killed")
			assert.GreaterOrEqual(t, n, 40)
		})
	}
	wg.Wait()

	es, err := b.Entries(t.Context(), "J-001")
	require.NoError(t, err)
	there := map[string]int{}
	for _, e := range es[1:] {
		there[e.Batch]++
	}
	first := map[string]bool{}
	for _, e := range es {
		first[e.ID] = true
	}
	for batch, n := range there {
		require.Equal(t, 3, n, "batch %s is whole", batch)
	}
	for _, id := range acknowledged {
		require.True(t, first[id], "%s was acknowledged", id)
	}
	_, err = b.Append(t.Context(), notes("J-001", 1)...)
	require.NoError(t, err)
}

// TestManyHandlesOnOneBook writes through several open books at once, each reading before it writes.
func TestManyHandlesOnOneBook(t *testing.T) {
	b := newBook(t)
	const handles, rounds = 4, 25
	var wg sync.WaitGroup
	for range handles {
		wg.Go(func() {
			h, err := Open(t.Context(), b.Dir(), time.Now)
			if !assert.NoError(t, err) {
				return
			}
			for range rounds {
				_, err := h.AddFindings(t.Context(), "J-001", typed("diameter", "1.999"))
				assert.NoError(t, err)
				_, err = h.Findings(t.Context(), "J-001")
				assert.NoError(t, err)
			}
			assert.NoError(t, h.Close())
		})
	}
	wg.Wait()
	require.Len(t, values(t, b), handles*rounds)
}

// TestManyMakeOneBook opens an empty book file from several handles at once: one migrates, the others wait for it.
func TestManyMakeOneBook(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(dir+"/"+BookFile, nil, 0o600))
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			h, err := Open(t.Context(), dir, time.Now)
			if assert.NoError(t, err) {
				assert.NoError(t, h.Close())
			}
		})
	}
	wg.Wait()
}
