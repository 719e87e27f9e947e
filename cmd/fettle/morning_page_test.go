package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// key types into the field of a label, key by key, as it is seen on the page.
func (s *device) key(label, text string) {
	s.t.Helper()
	field := fmt.Sprintf(`[...document.querySelectorAll('label')].find((e) => e.innerText.trim().startsWith(%q) && e.checkVisibility())?.querySelector('input, textarea')`, label)
	s.until(field)
	s.run(fmt.Sprintf(`((e) => { e.scrollIntoView({block: 'center'}); e.focus(); e.select(); })(%s)`, field))
	s.do(chromedp.KeyEvent(text))
	s.until(fmt.Sprintf(`%s.value === %q`, field, text))
}

// way goes to another page of the job by the way that stands on every page.
func (s *device) way(title, page string) {
	s.t.Helper()
	s.until(`document.readyState === 'complete' && document.querySelector('details.where')`)
	s.run(`((w) => { if (!w.open) w.querySelector('summary').click(); })(document.querySelector('details.where'))`)
	s.touch(page)
	s.until(fmt.Sprintf(`document.readyState === 'complete' && document.title.startsWith(%q)`, title))
}

// press touches an element as soon as it is there.
func (s *device) press(element string) {
	s.t.Helper()
	s.until(fmt.Sprintf(`((e) => { if (e) e.click(); return Boolean(e); })(%s)`, element))
}

// A morning on a phone: an engine comes in, the owner says yes to taking it apart, two steps come off and are tagged and photographed, the crankshaft is read by the
// pad, what goes with it is told, what to look at next is followed, a remedy is fixed, the scope is issued, and the owner's answer is written down. Nothing is done
// but what a finger does.
func TestAMorningOnAPhone(t *testing.T) {
	b := openBench(t, engineShop...)
	shots := photographs(t, 2)
	s := b.device(390, 844)
	s.open("/")
	s.touch("J-001 Engine")
	s.at("/jobs/J-001")

	// It comes in, and the owner says yes to taking it apart.
	s.way("Arrive, J-001", "Arrive")
	s.key("Note", "on a pallet, dry")
	s.touch("Write down what came")
	s.until(`location.hash === '#before'`)
	s.way("Papers, J-001", "Papers")
	s.touch("Write the answer down : strip-down")
	s.until(`[...document.querySelectorAll('label.pick')].length > 2`)
	s.press(`[...document.querySelectorAll('label.pick')].find((e) => e.innerText === 'Phone')`)
	s.key("Up to which sum", "900")
	s.key("Who writes this down", "Wren")
	s.touch("Write it down")
	s.until(`document.querySelector('#agreed')?.innerText.includes('900')`)

	// Two steps, each with a tag and a photograph.
	for i, step := range []struct{ key, what, hours string }{{"clutch-off", "Clutch", ".5"}, {"timing-off", "Timing cover and chain", "1:10"}} {
		s.way("Strip, J-001", "Strip")
		card := fmt.Sprintf(`document.getElementById('step-%s')`, step.key)
		s.until(card + ` && window.fettle && fettle.form`)
		s.run(fmt.Sprintf(`((d) => { if (!d.open) d.querySelector('summary').click(); document.querySelectorAll('details.step').forEach((x) => { if (x !== d && x.open) x.querySelector('summary').click(); }); })(%s)`, card))
		s.until(`document.querySelectorAll('details.step[open]').length === 1 && ` + card + `.open`)
		s.key("Hours, all hands together", step.hours)
		s.touch("Done")
		s.until(`document.getElementById('did')?.innerText.includes(': done')`)
		s.touch("Tag what came off")
		s.until(fmt.Sprintf(`document.querySelector('#make [name=what]')?.value === %q && window.fettle && fettle.form`, step.what))
		s.key("It lies", "shelf 2")
		s.touch("Tag it")
		s.until(fmt.Sprintf(`location.pathname === '/tags/T-00%d' && window.fettle && fettle.photo`, i+1))
		s.photograph(0, shots[i])
		s.until(`document.querySelector('.photos img')?.complete && document.getElementById('device').hidden`)
	}

	// The crankshaft by the pad, last digits against the nominal.
	s.way("Bench, J-001", "Bench")
	s.touch("Engine bottom end (engine)")
	s.until(`document.querySelector('#pad .keys')`)
	s.press(`[...document.querySelectorAll('#crankpin-P4 .ask')].find((e) => e.innerText.startsWith('Diameter at FV'))`)
	for i, digits := range []string{"940", "936", "951", "955"} {
		s.until(fmt.Sprintf(`document.querySelector('#pad .asks').innerText === 'Crankpin P4, diameter at %s'`, []string{"FV", "FH", "RV", "RH"}[i]))
		for _, digit := range digits {
			s.touch(string(digit))
		}
		s.touch("Write down")
	}
	s.until(`/^Crankpin P4: past limit\s+The pins as a group: all to -\.010, by P4/.test(document.querySelector('#pad .came').innerText)`)
	s.until(`(() => { const a = document.querySelector("#pad .came a"); if (a) a.click(); return a !== null; })()`)
	s.press(`[...document.querySelectorAll('#front-pulley-hub .ask')].find((e) => e.innerText.toLowerCase().startsWith('depth of'))`)
	s.until(`document.querySelector('.now').closest('.part').id === 'front-pulley-hub'`)
	for _, digit := range ".006" {
		s.touch(string(digit))
	}
	s.touch("Write down")
	s.until(`document.getElementById('device').hidden && !document.querySelector('.waiting')`)

	// What to look at next leads to the bench.
	s.way("Look next, J-001", "Look next")
	s.until(`document.querySelector('.looks li')`)
	s.until(`document.querySelector('.looks li .go')`)
	s.run(`((l) => { const d = l.querySelector('details summary'); if (d) d.click(); l.querySelector('.go').click(); })(document.querySelector('.looks li'))`)
	s.until(`location.pathname.includes('/bench/') && document.querySelector('#pad .asks')`)
	looked := js[string](s, `document.querySelector('.now').dataset.key`)
	if js[bool](s, `[...document.querySelectorAll('#pad button')].some((e) => e.innerText === 'Write down')`) {
		s.touch("0")
		s.touch("Write down")
	} else {
		s.touch(js[string](s, `[...document.querySelectorAll('#pad button')].find((e) => ['pass', 'class 0'].includes(e.innerText)).innerText`))
	}
	s.until(`document.getElementById('device').hidden && !document.querySelector('.waiting')`)

	// The other way is fixed for the pulley's hub.
	s.way("Choices, J-001", "Choices")
	s.touch("Engine bottom end (engine)")
	s.until(`document.querySelector('#chosen .go')`)
	s.press(`[...document.querySelectorAll('#chosen .go')].find((a) => a.innerText.startsWith('Front pulley hub'))`)
	s.until(`document.querySelector('input[name=remedy]')`)
	remedy := js[string](s, `document.querySelector('input[name=remedy]:not(:checked)').value`)
	s.press(`document.querySelector('input[name=remedy]:not(:checked)')?.closest('label')`)
	s.key("Why, as it will be printed", "the owner has one on the shelf")
	s.key("Who says so", "Wren")
	s.touch("Fix it")
	s.until(`document.getElementById('pinned')?.innerText.includes('the owner has one on the shelf')`)

	// The scope, and the answer to it.
	s.way("Papers, J-001", "Papers")
	s.touch("Make the scope")
	s.touch("Issue it: number it and keep it")
	s.touch("Open J-001-S revision 1")
	s.until(`document.querySelector('h1').innerText === 'Scope J-001-S, revision 1'`)
	s.touch("Write the answer down")
	s.until(`[...document.querySelectorAll('label.pick')].length > 2`)
	s.press(`[...document.querySelectorAll('label.pick')].find((e) => e.innerText === 'Signed')`)
	s.key("Up to which sum", "12 000")
	s.touch("Write it down")
	s.until(`document.querySelector('#agreed')?.innerText.includes('J-001-S')`)

	story := b.story("J-001")
	require.NotNil(t, story.Arrival)
	require.Equal(t, "on a pallet, dry", story.Arrival.Note)
	require.Len(t, story.Steps, 2)
	require.Equal(t, []string{"clutch-off", "timing-off"}, []string{story.Steps[0].Step, story.Steps[1].Step})
	require.InDelta(t, 1.1667, story.Steps[1].Hours, 1e-3)
	require.Len(t, story.Tags, 2)
	require.Equal(t, []string{"Clutch", "Timing cover and chain"}, []string{story.Tags[0].What, story.Tags[1].What})
	require.Equal(t, []int{40}, b.shades(story.Tags[0]))
	require.Equal(t, []int{70}, b.shades(story.Tags[1]))
	fs := b.live("J-001")
	require.Len(t, fs, 6)
	require.Equal(t, []string{"crankpin/P4 diameter FV 1.9940 in", "crankpin/P4 diameter FH 1.9936 in", "crankpin/P4 diameter RV 1.9951 in", "crankpin/P4 diameter RH 1.9955 in"}, typed(fs[:4]))
	require.Equal(t, "front-pulley-hub groove-depth .006 in", typed(fs[4:])[0])
	require.True(t, strings.HasPrefix(typed(fs[5:])[0], looked), looked)
	pins := b.job("J-001").Pins
	require.Len(t, pins, 1)
	require.Equal(t, []string{remedy, "the owner has one on the shelf", "Wren"}, []string{pins[0].Remedy, pins[0].Reason, pins[0].By})
	require.Len(t, story.Papers, 1)
	strip, answer := story.Agreed(core.GateStrip), story.Agreed(core.GateBudget)
	require.Equal(t, "phone", strip.How)
	require.Equal(t, "signed J-001-S 1 Wren 12000", fmt.Sprintf("%s %s %d %s %d", answer.How, answer.Paper, answer.Revision, answer.By, core.Minor(answer.Sum)/100))
	require.Equal(t, core.StateAgreed, story.Job.State)
}
