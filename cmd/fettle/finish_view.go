package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// finishLine is the finish in a sentence: the week that is as likely as not, and the one that four jobs in five keep.
func finishLine(f *core.Finish, zone *time.Location) string {
	if f == nil {
		return "Finish: not known. How many hours a week the bench has is weekly_hours in fettle.yaml."
	}
	return fmt.Sprintf("Finish: as likely as not in %s (about %s); eight times in ten in %s (about %s).", weeksWhole(f.P50), aboutDay(*f, f.P50, zone), weeksWhole(f.P80), aboutDay(*f, f.P80, zone))
}

// weeksWhole writes weeks, a part of a week counted as one.
func weeksWhole(w float64) string {
	n := int(math.Ceil(w - core.Slack))
	if n == 1 {
		return "1 week"
	}
	return fmt.Sprintf("%d weeks", n)
}

func aboutDay(f core.Finish, weeks float64, zone *time.Location) string {
	return f.Day(weeks, zone).Format("2 January 2006")
}

// printFinish draws the distribution of the finish with words: how likely the job is to be done by each day, and what it waits for.
func printFinish(w io.Writer, f *core.Finish, zone *time.Location) {
	fmt.Fprintf(w, "\nWHEN IT IS DONE\n")
	para(w, "  ", finishLine(f, zone))
	if f == nil {
		return
	}
	para(w, "  ", f.SayPace())
	if len(f.Curve) == 101 {
		fmt.Fprintf(w, "\n  chance that it is done by then\n")
		for _, q := range []int{5, 10, 25, 50, 75, 80, 90, 95} {
			v, n := f.Curve[q], 0
			if lo, hi := f.Curve[1], f.Curve[99]; hi > lo {
				n = int(48 * (v - lo) / (hi - lo))
			}
			fmt.Fprintf(w, "  %3d %%  %s| %.1f weeks, %s\n", q, strings.Repeat("-", n), v, aboutDay(*f, v, zone))
		}
	}
	if len(f.StandardErrors) == 4 {
		fmt.Fprintf(w, "\n  %d trials, seed %d; P50 is known to +/- %.2f weeks, P80 to +/- %.2f.\n", f.Trials, f.Seed, f.StandardErrors[1], f.StandardErrors[2])
	}
	if len(f.HeldUp) == 0 {
		para(w, "  ", "Nothing is waited for: the bench is busy until the end.")
		return
	}
	fmt.Fprintf(w, "\nWHAT THE FINISH WAITS FOR\n")
	t := newTable(">of 100", ">away", ">back in", ">bench after", ">later by", ">widens", "last to come, and what only then can begin")
	for _, h := range f.HeldUp {
		if h.Chance < .005 {
			continue
		}
		t.add(fmt.Sprintf("%.0f", 100*h.Chance), fmt.Sprintf("%.1f", h.Wait), fmt.Sprintf("%.1f", h.Begins+h.Wait), fmt.Sprintf("%.1f", h.After), fmt.Sprintf("%.1f", h.Later), widens(h.Share), h.Name)
	}
	t.add(fmt.Sprintf("%.0f", 100*f.Bench), "", "", "", "", widens(f.BenchShare), "nothing: the bench is busy until the end")
	t.print(w, "  ", screen)
	para(w, "  ", "Weeks, on average over the trials in which it is the last to come: how long it is away, when it is back, what the bench has left then, how much later the finish is for it.")
}

// widens is a share of the variance; what narrows is told by the others' shares.
func widens(share float64) string {
	if share < .005 {
		return ""
	}
	return fmt.Sprintf("%.0f %%", 100*share)
}

// printFinishAsked says how likely the job is to be done by the day asked about.
func printFinishAsked(w io.Writer, a finishAsked, day string) {
	fmt.Fprintf(w, "\nBY %s: %s.\n", strings.ToUpper(day), core.SayDone(a.Chance))
}
