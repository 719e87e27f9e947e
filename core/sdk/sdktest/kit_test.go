package sdktest

import (
	"context"
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

var facts = []core.Fact{{Name: "teeth", Value: core.Value{Kind: core.ValueCount, Count: 24}, Source: "counted"}}

func TestSoundSubsystemPasses(t *testing.T) {
	f := newFake()
	require.Empty(t, Check(context.Background(), f, facts))
	require.Greater(t, f.calls, 100, "it was really tried")
}

// unsound is one way of being unsound and the promise that it breaks.
type unsound struct {
	name    string
	promise Promise
	spoil   func(*fake)
}

// Each way of being unsound is caught under its own promise.
func TestUnsoundSubsystems(t *testing.T) {
	for _, c := range slices.Concat(unsoundSheets(), unsoundAnswers(), unsoundGrades(), unsoundReuse()) {
		t.Run(c.name, func(t *testing.T) {
			f := newFake()
			c.spoil(f)
			faults := Check(context.Background(), f, facts)
			var promises []Promise
			for _, x := range faults {
				promises = append(promises, x.Promise)
				require.NotEmpty(t, x.What)
			}
			require.Contains(t, promises, c.promise, "%v", faults)
			require.LessOrEqual(t, len(faults), maxFaults)
		})
	}
}

// spoiled changes every finished answer.
func spoiled(change func(*core.Assessment)) func(*fake) {
	return func(f *fake) { f.spoil = func(_ *fake, a *core.Assessment) { change(a) } }
}

// judging overrules the grade of one check's readings.
func judging(check string, grade func(x float64) core.Grade) func(*fake) {
	return func(f *fake) {
		f.judge = func(c core.Check, x float64) *core.Grade {
			if c.ID != check {
				return nil
			}
			return new(grade(x))
		}
	}
}

// withoutRules leaves a check to its grade alone.
func withoutRules(spoil func(*fake)) func(*fake) {
	return func(f *fake) {
		f.sheet.NoReuse = nil
		spoil(f)
	}
}

func TestCancelledRun(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	faults := Check(ctx, newFake(), facts)
	require.Len(t, faults, 1)
	require.Equal(t, Answers, faults[0].Promise)
	require.ErrorContains(t, errors.New(faults[0].String()), "context canceled")
}

func TestFaultTellsItsPlace(t *testing.T) {
	f := Fault{Crosses, core.Target{Part: "shaft", Position: "A"}, "diameter", "graded worn, fit at 1.24 in"}
	require.Equal(t, "shaft/A diameter: graded worn, fit at 1.24 in (promise: "+string(Crosses)+")", f.String())
}
