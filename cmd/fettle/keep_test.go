package main

import (
	"context"
	"log/slog"
	"os"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

// emptyShop is what the pages see of a shop with one job and nothing else.
func emptyShop(t *testing.T) *behind {
	t.Helper()
	book, err := store.Create(t.Context(), t.TempDir(), time.Now)
	require.NoError(t, err)
	t.Cleanup(func() { _ = book.Close() })
	_, err = book.OpenJob(t.Context(), core.Job{Title: "One gearbox", Extent: core.Extent{Kind: core.ExtentAsNeeded}}, "Jory")
	require.NoError(t, err)
	s := &shop{book: book, dir: t.TempDir(), logger: slog.New(slog.DiscardHandler)}
	require.NoError(t, os.WriteFile(s.settingsFile(), []byte("shop: {name: Hollow Lane Works}\ncurrency: USD\n"), 0o600))
	require.NoError(t, s.settle())
	return &behind{s: s, life: t.Context()}
}

// rename changes the book.
func rename(t *testing.T, b *behind, title string) {
	t.Helper()
	_, err := b.s.book.ChangeJob(t.Context(), "J-001", "Jory", store.Change{Title: &title})
	require.NoError(t, err)
}

// However many ask at once, a thing is worked out once; after a change of the book it is worked out anew, and what was there is let go.
func TestAThingIsWorkedOutOnce(t *testing.T) {
	b := emptyShop(t)
	var made map[string]kept[int64]
	var n atomic.Int64
	begun, goOn := make(chan struct{}, 1), make(chan struct{})
	ask := func(key string) int64 {
		v, err := keep(t.Context(), b, &made, key, func() (int64, error) {
			begun <- struct{}{}
			<-goOn
			return n.Add(1), nil
		})
		require.NoError(t, err)
		return v
	}
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() { require.Equal(t, int64(1), ask("a")) })
	}
	<-begun
	close(goOn)
	wg.Wait()
	require.Equal(t, int64(1), ask("a"))
	require.Equal(t, int64(2), ask("b"))
	<-begun
	rename(t, b, "Two gearboxes")
	require.Equal(t, int64(3), ask("a"))
	require.Len(t, made, 1)
}

// Whoever asked first may go away: those who wait still get their answer, and what was broken off is not kept.
func TestWhoGoesAwayTakesNobodysAnswer(t *testing.T) {
	b := emptyShop(t)
	var made map[string]kept[string]
	first, leave := context.WithCancel(t.Context())
	begun, broken := make(chan struct{}), make(chan error, 1)
	go func() {
		_, err := keep(first, b, &made, "", func() (string, error) {
			close(begun)
			<-first.Done()
			return "half an answer", nil
		})
		broken <- err
	}()
	<-begun
	got := make(chan string, 1)
	go func() {
		v, err := keep(t.Context(), b, &made, "", func() (string, error) { return "whole", nil })
		if err == nil {
			got <- v
		}
		close(got)
	}()
	leave()
	require.ErrorIs(t, <-broken, context.Canceled)
	require.Equal(t, "whole", <-got)
}

// What is wanted is made again beside the pages, once the book has changed and is still.
func TestWhatIsWantedIsMadeReady(t *testing.T) {
	b := emptyShop(t)
	made := make(chan struct{}, 100)
	b.want("plan", func(context.Context) error { made <- struct{}{}; return nil })
	go b.keepReady(t.Context())
	<-made
	rename(t, b, "Two gearboxes")
	<-made
}

// What takes long says how far it is, is done once for a state of the book, and is told to be old when that has passed.
func TestWhatTakesLongIsDoneOnce(t *testing.T) {
	var s slowly[string]
	n, on := 0, make(chan struct{})
	work := func(ctx context.Context, told func(n, of int)) (string, error) {
		n++
		told(1, 2)
		select {
		case <-on:
		case <-ctx.Done():
		}
		return "done", ctx.Err()
	}
	is, err := s.state("J-001", 7)
	require.NoError(t, err)
	require.False(t, is.Begun)
	s.begin(t.Context(), "J-001", 7, work)
	s.begin(t.Context(), "J-001", 7, work)
	is, err = s.state("J-001", 7)
	require.NoError(t, err)
	require.True(t, is.Waiting())
	require.Equal(t, 50, is.Part())
	close(on)
	s.begin(t.Context(), "J-001", 7, work)
	is, err = s.state("J-001", 8)
	require.NoError(t, err)
	require.Equal(t, "done", *is.Value)
	require.True(t, is.Stale)
	require.Equal(t, 1, n)
}

// Nobody waits: it is broken off, and is as if it had not been begun. What fails within is told once.
func TestWhatNobodyWaitsForIsBrokenOff(t *testing.T) {
	s := slowly[string]{patience: 50 * time.Millisecond}
	ended := make(chan struct{})
	s.begin(t.Context(), "J-001", 7, func(ctx context.Context, _ func(n, of int)) (string, error) {
		<-ctx.Done()
		close(ended)
		return "half", nil
	})
	<-ended
	require.Eventually(t, func() bool { is, err := s.state("J-001", 7); return err == nil && !is.Begun }, patience, time.Millisecond)

	s.begin(t.Context(), "J-001", 7, func(context.Context, func(n, of int)) (string, error) { panic("a fault of the program") })
	_, err := s.state("J-001", 7)
	require.ErrorContains(t, err, "a fault of the program")
	is, err := s.state("J-001", 7)
	require.NoError(t, err)
	require.False(t, is.Begun)
}

// The yard begins a plan where none is kept, and is not stopped by one that cannot be made: it is tried again when the book has changed.
func TestTheYardBeginsAPlan(t *testing.T) {
	b := emptyShop(t)
	b.s.logger = slog.New(slog.DiscardHandler)
	b.beside.Lock() // somebody plans
	ask := func() (p *core.Plan, coming bool) {
		p, _, coming = b.KeptPlan(t.Context(), "J-404")
		return p, coming
	}
	p, coming := ask()
	require.Nil(t, p)
	require.True(t, coming)
	b.beside.Unlock()
	require.Eventually(t, func() bool { _, coming := ask(); return !coming }, patience, time.Millisecond)
	_, coming = ask()
	require.False(t, coming, "there is no such job, and it is not tried all the time")
	rename(t, b, "Two gearboxes")
	_, coming = ask()
	require.True(t, coming)
	require.Eventually(t, func() bool { _, coming := ask(); return !coming }, patience, time.Millisecond)

	b.plans = map[string]kept[core.Plan]{"J-001": {1 << 40, core.Plan{}}}
	p, fresh, coming := b.KeptPlan(t.Context(), "J-001")
	require.NotNil(t, p)
	require.False(t, fresh)
	require.False(t, coming)
}

// What rests on the settings is worked out anew when their file says something else, and only then.
func TestWhatTheSettingsSayIsNotKeptBeyondThem(t *testing.T) {
	b := emptyShop(t)
	var in map[string]kept[float64]
	hours := func() float64 {
		got, err := keep(t.Context(), b, &in, "hours", func() (float64, error) { return b.s.settings().WeeklyHours, nil })
		require.NoError(t, err)
		return got
	}
	write := func(text string) { require.NoError(t, os.WriteFile(b.s.settingsFile(), []byte(text), 0o600)) }
	require.Zero(t, hours())
	before, err := b.Changed(t.Context())
	require.NoError(t, err)
	write("shop: {name: Hollow Lane Works}\ncurrency: USD\nweekly_hours: 40\n")
	require.Equal(t, 40., hours())
	after, err := b.Changed(t.Context())
	require.NoError(t, err)
	require.NotEqual(t, before, after)
	write("shop: {name: Hollow Lane Works}\ncurrency: USD\nweekly_hours: many\n")
	require.Equal(t, 40., hours(), "what cannot be read does not hold")
	require.ErrorContains(t, b.House().Faulty, "fault in fettle.yaml")
	require.NoError(t, os.Remove(b.s.settingsFile()))
	require.Equal(t, 40., hours())
	require.Error(t, b.House().Faulty)
	write("shop: {name: Hollow Lane Works}\ncurrency: USD\n")
	require.Zero(t, hours())
	require.NoError(t, b.House().Faulty)
}
