package main

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"time"
)

// kept is what was worked out at a state of the book.
type kept[T any] struct {
	at    int64
	value T
}

// keep gives what holds at the book's present state, worked out if it is not there yet: once, however many ask for it at the same time. What belongs to
// an earlier state is let go.
func keep[T any](ctx context.Context, b *behind, in *map[string]kept[T], key string, work func() (T, error)) (T, error) {
	var none T
	for {
		now, err := b.Changed(ctx)
		if err != nil {
			return none, err
		}
		b.mu.Lock()
		k, ok := (*in)[key]
		b.mu.Unlock()
		if ok && k.at == now {
			return k.value, nil
		}
		v, err, _ := b.flights.Do(fmt.Sprintf("%p %d %s", in, now, key), func() (any, error) {
			v, err := work()
			if err == nil {
				err = ctx.Err() // what was broken off may look like an answer
			}
			if err == nil {
				b.mu.Lock()
				defer b.mu.Unlock()
				put := map[string]kept[T]{}
				maps.Copy(put, *in)
				maps.DeleteFunc(put, func(_ string, k kept[T]) bool { return k.at != now })
				put[key] = kept[T]{now, v}
				*in = put
			}
			return v, err
		})
		if errors.Is(err, context.Canceled) && ctx.Err() == nil {
			continue // whoever asked first has gone away
		}
		if err != nil {
			return none, err
		}
		return v.(T), nil
	}
}

// How long after it was last asked for something is made anew after a change, and how often the book is looked at for that.
const (
	wantedFor = 15 * time.Minute
	readyBy   = 400 * time.Millisecond
)

// wanted is something that the pages ask for.
type wanted struct {
	last  time.Time
	again func(context.Context) error
}

// want notes that something was asked for: after the next change of the book it is made again beside the pages.
func (b *behind) want(key string, again func(context.Context) error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.wants == nil {
		b.wants = map[string]wanted{}
	}
	b.wants[key] = wanted{time.Now(), again}
}

// wanting are those asked for of late.
func (b *behind) wanting() map[string]wanted {
	b.mu.Lock()
	defer b.mu.Unlock()
	maps.DeleteFunc(b.wants, func(_ string, w wanted) bool { return time.Since(w.last) > wantedFor })
	return maps.Clone(b.wants)
}

// keepReady makes what is wanted once the book has changed and is still for a moment, so that the next page finds it there. It ends with the context.
func (b *behind) keepReady(ctx context.Context) {
	tick := time.NewTicker(readyBy)
	defer tick.Stop()
	var seen, made int64 = -1, -1
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		wants := b.wanting()
		if len(wants) == 0 {
			continue
		}
		now, err := b.Changed(ctx)
		if err != nil || now != seen || now == made {
			seen = now
			continue
		}
		for key, w := range wants {
			if err := safely(func() error { return w.again(ctx) }); err != nil && ctx.Err() == nil {
				b.s.logger.Warn("not made ready", "what", key, "error", err)
			}
		}
		made = now
	}
}
