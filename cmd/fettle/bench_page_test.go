package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
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

// What was read last is written again in one touch, what was seen at home is said so, and the zero of what is read with is looked at in one touch, also without a
// signal: it arrives once.
func TestThePadRepeatsAndAsksForTheZero(t *testing.T) {
	b := openBench(t, engineShop...)
	s := b.device(360, 740)
	s.open("/jobs/J-001/bench/bottom-end#crankpin/P1%20diameter%20FV")
	s.until(`document.querySelector('#pad .asks')?.innerText.includes('Crankpin P1, diameter at FV')`)
	require.Equal(t, "new 1.9995 to 2 in, fails under 1.9985 in", js[string](s, `document.querySelector('#pad .wanted').innerText`))
	require.Contains(t, js[string](s, `document.querySelector('.now .how').innerText`), "(RV, RH)", "how it is read stands with it")
	require.False(t, js[bool](s, `document.querySelector('#pad .same') !== null`), "nothing was read yet")
	for _, digit := range []string{"9", "7", "6"} {
		s.touch(digit)
	}
	s.until(`document.querySelector('#pad .beside').innerText === '50.739 mm'`)
	s.touch("Write down")
	s.until(`document.querySelector('#pad .asks').innerText.includes('diameter at FH')`)
	s.until(`document.querySelector('.now').getBoundingClientRect().top >= document.getElementById('pad').getBoundingClientRect().bottom - 1`) // what is asked is seen below the pad
	s.touch("Same: 1.9976 in")
	s.until(`document.querySelector('#pad .asks').innerText.includes('diameter at RV')`)
	s.touch("by eye")
	s.until(`document.querySelector('#pad .asks').innerText.includes('diameter at RH')`)
	s.nothingWaits()
	s.reload() // the phone went to sleep
	s.until(`document.querySelector('#pad .asks')?.innerText.includes('diameter at RH')`)
	require.Equal(t, []string{"crankpin/P1 diameter FV 1.9976 in", "crankpin/P1 diameter FH 1.9976 in", "crankpin/P1 diameter RV by eye"}, typed(b.live("J-001")))

	// What is not taken says why where the person looks, and stays on the pad; what cannot be taken back says so too.
	for _, key := range []string{".", "9", "3", "6"} {
		s.touch(key)
	}
	s.touch("Write down")
	s.until(`document.querySelector('#pad .came').innerText.startsWith('Not taken: 0.936 in is not plausible here')`)
	s.until(`document.querySelector('#pad .asks').innerText.includes('diameter at RH') && document.querySelector('#pad output').innerText === '.936 in'`)
	s.nothingWaits()
	s.touch("Undo")
	s.until(`document.querySelector('#pad .came').innerText === 'Taken back: by eye' && document.querySelector('#pad .asks').innerText.includes('diameter at RV')`)
	s.touch("by eye")
	s.until(`document.querySelector('#pad .asks').innerText.includes('diameter at RH')`)
	s.nothingWaits()

	b.stop()
	s.touch("Undo")
	s.until(`document.querySelector('#pad .came').innerText.includes('cannot be taken back without a signal')`)
	s.touch("The micrometer is on zero")
	s.until(`document.querySelector('#pad .zeroed')?.innerText === '✓ on zero today'`)
	s.until(`document.getElementById('device').innerText.includes('1 on this device only')`)
	b.start()
	s.nothingWaits()
	s.reload()
	s.until(`document.querySelector('#pad .zeroed')?.innerText === '✓ on zero today'`)
	other := b.device(1280, 800)
	other.open("/jobs/J-001/bench/bottom-end#crankpin/P1%20diameter%20RH")
	other.until(`document.querySelector('#pad .zeroed')?.innerText === '✓ on zero today'`)
	book, err := store.Open(t.Context(), b.dir, nil)
	require.NoError(t, err)
	defer book.Close()
	es, err := book.Entries(t.Context(), "")
	require.NoError(t, err)
	es = slices.DeleteFunc(es, func(e store.Entry) bool { return e.Kind != store.KindZero })
	require.Len(t, es, 1)
	require.JSONEq(t, `{"instrument":"micrometer","by":"","at":"0001-01-01T00:00:00Z"}`, string(es[0].Body))
}

// answersLost lets every first answer be lost on the way back to the page: what was sent is in the book, and the device cannot know.
const answersLost = `(() => {
  const real = window.fetch, lost = new Set();
  window.fetch = async (to, how) => {
    const got = await real(to, how);
    const what = how?.body instanceof FormData ? how.body.get('id') : String(how?.body);
    if (how?.method !== 'POST' || lost.has(what)) return got;
    lost.add(what);
    throw new TypeError('lost on the way');
  };
})()`

// With the server stopped forty readings and five photographs are kept on the device, for which lasting storage is asked, and can be saved to files; with it back all
// are in the book, once and in order, though every first answer is lost.
func TestReadingsWaitForTheSignal(t *testing.T) {
	b := openBench(t, append(engineShop, "tag|J-001|--on|crankshaft|--lies|rack 2")...)
	shots := photographs(t, 5)
	s := b.device(390, 844)
	s.open("/tags/T-001")
	s.until(`window.fettle && fettle.photo && navigator.serviceWorker.controller`)
	s.reload()
	s.open("/jobs/J-001/bench/bottom-end")
	s.until(`!document.getElementById('pad').hidden && navigator.serviceWorker.controller`)
	s.reload()
	s.until(`!document.getElementById('pad').hidden`)
	asked := js[[]string](s, `fettle.questions.filter((q) => q.kind === 'measured').slice(0, 40).map((q) => q.key)`)
	require.Len(t, asked, 40)
	b.stop()
	s.reload()
	s.until(`!document.getElementById('pad').hidden`)
	s.run(`navigator.storage.persist = async () => { window.lasting = true; return true; }`)
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
	require.True(t, js[bool](s, `window.lasting`), "lasting storage is asked for")
	s.open("/tags/T-001")
	s.until(`window.fettle && fettle.photo && document.querySelector('.camera input')`)
	for i, shot := range shots {
		s.photograph(0, shot)
		s.until(fmt.Sprintf(`document.getElementById('device').innerText.includes('%d on this device only')`, 41+i))
	}
	saved := s.saved()
	require.Len(t, saved, 6)
	s.run(answersLost)
	b.start()
	s.until(`fettle.send() && document.getElementById('device').hidden`)
	key := func(f core.Finding) string {
		return strings.TrimRight(strings.Join([]string{f.Target.String(), f.Check, f.Station}, " "), " ")
	}
	var got []string
	for _, f := range b.live("J-001") {
		got = append(got, key(f))
	}
	require.Equal(t, want, got)
	tags := b.story("J-001").Tags
	require.Len(t, tags, 1)
	require.Equal(t, []int{40, 70, 100, 130, 160}, b.shades(tags[0]))

	// The file that was saved is read like any other file of findings, and says the same.
	file := filepath.Join(t.TempDir(), "on-this-device.csv")
	require.NoError(t, os.WriteFile(file, []byte(saved["on-this-device.csv"]), 0o600))
	other := &bench{t: t, dir: t.TempDir()}
	for _, c := range engineShop {
		other.fettle(strings.Split(c, "|")...)
	}
	other.fettle("import", "J-001", file)
	require.Equal(t, typed(b.live("J-001")), typed(other.live("J-001")))
}

// saved touches the button that saves what is on the device only, and gives the files: words as they are, pictures as nothing.
func (s *device) saved() map[string]string {
	s.t.Helper()
	s.run(`(() => {
  const blobs = new Map(), make = URL.createObjectURL;
  window.files = {};
  window.reading = [];
  URL.createObjectURL = (b) => { const u = make.call(URL, b); blobs.set(u, b); return u; };
  HTMLAnchorElement.prototype.click = function () { const b = blobs.get(this.href); files[this.download] = ''; if (b.type.startsWith('text')) reading.push(b.text().then((t) => { files[this.download] = t; })); };
})()`)
	s.touch("Save to a file")
	return js[map[string]string](s, `Promise.all(window.reading).then(() => window.files)`)
}

// A calliper that types as a keyboard does: its figures go to the question on the pad, one after another however fast, whatever was touched before. What is typed and
// not yet written down is there when the page is opened again; meanwhile the screen stays on.
func TestACalliperTypes(t *testing.T) {
	b := openBench(t, engineShop...)
	s := b.device(390, 844)
	_, err := chromedp.Call(s.ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
		Source: `Object.defineProperty(navigator, 'wakeLock', {value: {request: async (what) => { window.awake = (window.awake || '') + what; return new EventTarget(); }}})`})
	require.NoError(t, err)
	s.open("/jobs/J-001/bench/bottom-end")
	s.until(`document.querySelector('#pad .keys')`)
	s.run(`((e) => { e.focus(); e.click(); })(document.querySelector('[data-key="crankpin/P2 diameter FV"] .ask'))`)
	s.until(`document.querySelector('#pad .asks').innerText.includes('Crankpin P2, diameter at FV')`)
	require.Equal(t, "screen", js[string](s, `window.awake`))
	s.run(`((e) => { e.focus(); e.value = 'micrometer'; e.dispatchEvent(new Event('change')); })(document.querySelector('#pad select'))`)
	s.do(chromedp.KeyEvent("1.9984\r1.9990\r-2\r"))
	s.until(`document.querySelector('#pad .asks').innerText.includes('Crankpin P2, diameter at RH')`)
	s.do(chromedp.KeyEvent("1.99"))
	s.until(`document.getElementById('device').hidden && !document.querySelector('.waiting')`)
	require.Equal(t, []string{"crankpin/P2 diameter FV 1.9984 in", "crankpin/P2 diameter FH 1.9990 in", "crankpin/P2 diameter RV -2 thou"}, typed(b.live("J-001")))
	require.Equal(t, "micrometer", b.live("J-001")[1].Instrument)
	s.reload()
	s.until(`document.querySelector('#pad .asks')?.innerText.includes('Crankpin P2, diameter at RH') && document.querySelector('#pad output').innerText === '1.99 in'`)
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
	// Outside new on a side without a limit of its own.
	require.Equal(t, []bool{true, false, false, true, false}, js[[]bool](s, `[[.002, [.003, .008], [null, .012]], [.003, [.003, .008], [null, .012]], [.02, [.003, .008], [null, .012]],
		[2.1, [1.9, 2], [1.8, null]], [1.7, [1.9, 2], [1.8, null]]].map((x) => fettle.beyond(...x))`))
	// Last digits against a nominal: the figure nearest to it that ends so.
	for _, c := range [][3]string{{"936", "1.9985", "1.9936"}, {"936", "2.0000", "1.9936"}, {"012", "1.9985", "2.0012"}, {"9990", "2.0000", "1.9990"}, {"5", "0.012", "0.015"}, {"9", "0.003", "0.009"}, {"60", "0.003", "0.060"}} {
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
		require.Regexp(t, `^1\.9990 in: Jory, .+; 1\.9984 in: Jory, .+$`, js[string](s, `document.querySelector('[data-key="crankpin/P1 diameter FV"] .by').innerText`))
	}
	require.Equal(t, []string{"crankpin/P1 diameter FV 1.9990 in", "crankpin/P1 diameter FV 1.9984 in"}, typed(b.live("J-001")))
	// What the command writes down shows too; measured again, it stands in the place of both.
	b.fettle("record", "J-001", "bottom-end crankpin P1 diameter FV 1.9987 in note again")
	one.until(answer + ` === '1.9987 in'`)
	require.Len(t, b.live("J-001"), 1)
}
