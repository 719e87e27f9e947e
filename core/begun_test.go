package core

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestWhatIsBegun(t *testing.T) {
	day := func(n int) time.Time { return time.Date(2026, 12, n, 0, 0, 0, 0, time.UTC) }
	s := Story{
		Outwork: []Outwork{{Lines: []string{"a"}, State: OutworkOut, Due: day(9)}, {Lines: []string{"b"}, State: OutworkAccepted, Due: day(1)}, {Lines: []string{"c"}, State: OutworkRefused}},
		Purchases: []Purchase{{Lines: []string{"a", "d"}, State: PurchaseOrdered, Due: day(4)}, {Lines: []string{"d"}, State: PurchaseOrdered}, {Lines: []string{"d"}, State: PurchaseArrived},
			{Lines: []string{"e"}, State: PurchaseReturned}},
		Hours: []Worked{{Line: "b", Hours: 3}, {Line: "b", Hours: -1}, {Hours: 5}, {Line: "f", Hours: 2}},
	}
	nine, four := day(9), day(4)
	require.Equal(t, []Begun{{Line: "a", Ordered: true, Waiting: true, Due: &nine}, {Line: "b", Ordered: true, Hours: 2}, {Line: "d", Ordered: true, Waiting: true, Due: &four}, {Line: "f", Hours: 2}}, s.Begun())
}

// What was worked before the main agreement was agreed to by itself: it leaves the hours of the scope as they are.
func TestHoursLeft(t *testing.T) {
	at := func(h int) Stamp { return Stamp{At: time.Date(2026, 12, 1, h, 0, 0, 0, time.UTC)} }
	scope := Issued{Number: "J-001-S", Revision: 1, Kind: "scope", Lines: []Line{{ID: "work:a", Kind: LineWork, Hours: Range3{5, 10, 20}}, {ID: "reserve:b", Kind: LineReserve, Hours: Range3{5, 10, 20}}}}
	s := Story{Job: Job{State: StateInWork}, Papers: []Issued{scope}, Hours: []Worked{{Hours: 30, Stamp: at(8)}, {Hours: 4, Stamp: at(10)}}}
	require.Zero(t, s.HoursLeft(), "nothing is agreed to")
	s.Agreements = []Agreement{{Gate: GateBudget, Paper: "J-001-S", Revision: 1, Stamp: at(9)}}
	require.Equal(t, 6., s.HoursLeft())
	s.Hours[1].Hours = 14
	require.Zero(t, s.HoursLeft())
	s.Hours[1].Hours = 4
	s.Job.State = StateStopped
	require.Zero(t, s.HoursLeft())
}
