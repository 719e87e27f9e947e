package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

// engineShop is a shop with one engine on the bench.
var engineShop = []string{"new|shop|Hollow Lane Works|--currency|USD|--rate|mechanic=85",
	"new|job|Engine|--owner|M. Wellbeck|--unit|engine:d4-1959|--extent|one unit on the bench"}

// live reads the findings of a job from the book.
func (b *bench) live(job string) []core.Finding {
	b.t.Helper()
	book, err := store.Open(b.t.Context(), b.dir, nil)
	require.NoError(b.t, err)
	defer book.Close()
	fs, err := book.Findings(b.t.Context(), job)
	require.NoError(b.t, err)
	return fs
}

// liveOf waits until the book has so many.
func (b *bench) liveOf(job string, n int) []core.Finding {
	b.t.Helper()
	var fs []core.Finding
	require.Eventually(b.t, func() bool { fs = b.live(job); return len(fs) == n }, patience, 50*time.Millisecond)
	return fs
}

// typed lists findings as they were typed: "crankpin/P1 diameter FV 1.9985 in".
func typed(fs []core.Finding) []string {
	var out []string
	for _, f := range fs {
		out = append(out, strings.Join(strings.Fields(fmt.Sprintf("%s %s %s %s", f.Target, f.Check, f.Station, f.AsTyped)), " "))
	}
	return out
}

// A crankshaft is read by the pad on a phone: last digits against the nominal, the next station by itself, what could not be reached.
func TestACrankshaftIsReadByThePad(t *testing.T) {
	b := openBench(t, engineShop...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/bench/bottom-end")
	s.until(`!document.getElementById('pad').hidden`)
	s.open("/jobs/J-001/bench/bottom-end#" + "bottom-end%40engine%2Fcrankpin%2FP1%20diameter%20FV")
	s.reload()
	s.until(`document.querySelector('#pad .asks').innerText.includes('Crankpin P1, diameter at FV')`)
	for _, digit := range []string{"9", "7", "6"} {
		s.touch(digit)
	}
	s.until(`document.querySelector('#pad output').innerText === '1.9976 in'`)
	require.Equal(t, "past its limit", js[string](s, `document.querySelector('#pad .figure small').innerText`))
	s.touch("Write down")
	s.until(`document.querySelector('#pad .asks').innerText.includes('diameter at FH')`)
	s.touch("−")
	s.touch("2")
	s.until(`document.querySelector('#pad output').innerText === '-2 thou'`)
	s.touch("Write down")
	s.until(`document.querySelector('#pad .asks').innerText.includes('diameter at RV')`)
	s.touch("could not reach")
	s.until(`document.querySelector('#pad .asks').innerText.includes('diameter at RH')`)
	s.until(`document.querySelectorAll('.waiting').length === 0 && document.getElementById('device').hidden`)
	require.Equal(t, []string{"crankpin/P1 diameter FV 1.9976 in", "crankpin/P1 diameter FH -2 thou", "crankpin/P1 diameter RV could not reach"}, typed(b.live("J-001")))
	b.fettle("record", "J-001", "bottom-end crankpin P4 diameter FV 1.9990 in") // somebody else's stays
	s.touch("Undo")
	s.until(`document.querySelector('[data-key="crankpin/P1 diameter RV"] .answer').innerText === ''`)
	s.until(`document.querySelector('#pad .asks').innerText.includes('Crankpin P1, diameter at RV')`)
	require.Equal(t, []string{"crankpin/P1 diameter FV 1.9976 in", "crankpin/P1 diameter FH -2 thou", "crankpin/P4 diameter FV 1.9990 in"}, typed(b.live("J-001")))
}

// With the server stopped forty readings are kept on the device; with it back all are in the book, once and in order.
func TestReadingsWaitForTheSignal(t *testing.T) {
	b := openBench(t, engineShop...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/bench/bottom-end")
	s.until(`!document.getElementById('pad').hidden && navigator.serviceWorker.controller`)
	s.reload()
	s.until(`!document.getElementById('pad').hidden`)
	asked := js[[]string](s, `fettle.questions.filter((q) => q.kind === 'measured').slice(0, 40).map((q) => q.key)`)
	require.Len(t, asked, 40)
	b.stop()
	s.reload()
	s.until(`!document.getElementById('pad').hidden`)
	var want []string
	for i, key := range asked {
		quoted, err := json.Marshal(key)
		require.NoError(t, err)
		s.run(fmt.Sprintf(`document.querySelector('[data-key=' + JSON.stringify(%s) + '] .ask').click()`, quoted))
		s.until(fmt.Sprintf(`document.querySelector('.now')?.dataset.key === %s`, quoted))
		if i%3 == 2 {
			s.touch("could not reach")
		} else {
			for _, digit := range js[string](s, fmt.Sprintf(`fettle.questions.find((q) => q.key === %s).nominal?.slice(-3) || ''`, quoted)) {
				s.touch(string(digit))
			}
			s.touch(js[string](s, `document.querySelector('#pad output').innerText.trim() ? 'Write down' : 'not measured'`))
		}
		s.until(fmt.Sprintf(`document.querySelector('.now')?.dataset.key !== %s`, quoted))
		want = append(want, key)
	}
	s.until(`document.getElementById('device').innerText.includes('40 on this device only')`)
	b.start()
	s.until(`document.getElementById('device').hidden`)
	var got []string
	for _, f := range b.live("J-001") {
		got = append(got, strings.TrimRight(strings.Join([]string{f.Target.String(), f.Check, f.Station}, " "), " "))
	}
	require.Equal(t, want, got)
}

// The page's own sums are those of the shop.
func TestThePagesSumsAreTheShops(t *testing.T) {
	vectors, err := os.ReadFile("../../testdata/wear/vectors.json")
	require.NoError(t, err)
	b := openBench(t, engineShop...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/bench/bottom-end")
	s.until(`window.fettle && fettle.wear`)
	got := js[[]*float64](s, `(`+string(vectors)+`).map((v) => fettle.wear(v.x, v.new, v.wear))`)
	var want []struct{ W *float64 }
	require.NoError(t, json.Unmarshal(vectors, &want))
	require.Len(t, got, len(want))
	for i, v := range want {
		if v.W == nil {
			require.Nil(t, got[i], i)
			continue
		}
		require.InDelta(t, *v.W, *got[i], 1e-9, i)
	}
	// Last digits against a nominal: the figure nearest to it that ends so.
	for _, c := range [][3]string{{"936", "1.9985", "1.9936"}, {"936", "2.0000", "1.9936"}, {"012", "1.9985", "2.0012"}, {"9990", "2.0000", "1.9990"}, {"5", "0.012", "0.015"}} {
		require.Equal(t, c[2], js[string](s, fmt.Sprintf(`fettle.nearest(%q, %q)`, c[0], c[1])), c[0])
	}
}

// Two devices read one part: neither reading is lost, and each shows both where they disagree.
func TestTwoDevicesReadOnePart(t *testing.T) {
	b := openBench(t, engineShop...)
	one, other := b.device(390, 844), b.device(1280, 900)
	const at = "/jobs/J-001/bench/bottom-end#bottom-end%40engine%2Fcrankpin%2FP1%20diameter%20FV"
	const answer = `document.querySelector('[data-key="crankpin/P1 diameter FV"] .answer').innerText`
	for _, s := range []*device{one, other} {
		s.open(at)
		s.until(`document.querySelector('#pad .asks')?.innerText.includes('Crankpin P1, diameter at FV')`)
	}
	one.touch("9")
	one.touch("9")
	one.touch("0")
	one.touch("Write down")
	other.until(answer + ` === '1.9990 in'`) // nobody has touched that screen
	// A calliper that types as a keyboard does.
	other.do(chromedp.KeyEvent("1.9984"), chromedp.KeyEvent("\r"))
	for _, s := range []*device{one, other} {
		s.until(answer + ` === '1.9984 in and 1.9990 in'`)
	}
	require.Equal(t, []string{"crankpin/P1 diameter FV 1.9990 in", "crankpin/P1 diameter FV 1.9984 in"}, typed(b.live("J-001")))
	// What the command writes down shows too; measured again, it stands in the place of both.
	b.fettle("record", "J-001", "bottom-end crankpin P1 diameter FV 1.9987 in note again")
	one.until(answer + ` === '1.9987 in'`)
	require.Len(t, b.live("J-001"), 1)
}
