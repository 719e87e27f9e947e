package main

import (
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// focused describes what has the focus: its words, and whether it can be seen that it has.
const focused = `(() => {
	const e = document.activeElement;
	const ringed = [e, e.nextElementSibling, e.closest('label')].some((x) => x && parseFloat(getComputedStyle(x).outlineWidth) >= 3 && getComputedStyle(x).outlineStyle === 'solid');
	const drawn = e.querySelector && e.querySelector('.edge') && parseFloat(getComputedStyle(e.querySelector('.edge')).strokeWidth) >= 5;
	const at = e.getBoundingClientRect();
	const top = e.closest('.pad') ? 0 : [...document.querySelectorAll('.pad')].reduce((y, p) => Math.max(y, p.hidden || getComputedStyle(p).position !== 'sticky' || p.getBoundingClientRect().right < at.left || p.getBoundingClientRect().left > at.right || p.getBoundingClientRect().top > at.top ? 0 : p.getBoundingClientRect().bottom), 0);
	return {name: (e.getAttribute('aria-label') || e.innerText || e.name || '').trim().replace(/\s+/g, ' '), tag: e.tagName, html: e.outerHTML.slice(0, 160), seen: Boolean(ringed || drawn), there: at.bottom > top && at.top < innerHeight, where: [at.top, at.bottom, innerHeight, top].map(Math.round).join(' ')};
})()`

// stop is where the focus is.
type stop struct {
	Name, Tag, HTML, Where string
	Seen, There            bool
}

// tab goes on by one, and says where that is.
func (s *device) tab() stop {
	s.t.Helper()
	s.do(chromedp.KeyEvent(kb.Tab))
	return js[stop](s, focused)
}

// tabTo goes on until something with these words has the focus. All on the way must show that it has it, and lie where it can be seen.
func (s *device) tabTo(words string) {
	s.t.Helper()
	var names []string
	for range 100 {
		at := s.tab()
		names = append(names, at.Name)
		if at.Tag == "BODY" {
			continue // the browser's own
		}
		s.showsFocus(at)
		if at.Name == words {
			return
		}
	}
	s.t.Fatalf("the tabulator does not come to %q but to %q", words, names)
}

func (s *device) showsFocus(at stop) {
	s.t.Helper()
	require.True(s.t, at.Seen, "nothing shows that this has the focus: %s", at.HTML)
	for range 50 {
		if at.There {
			return
		}
		time.Sleep(20 * time.Millisecond) // it is on its way
		at = js[stop](s, focused)
	}
	require.True(s.t, at.There, "this has the focus and cannot be seen (top, bottom, of the screen, of the pad: %[2]s): %[1]s", at.HTML, at.Where)
}

func (s *device) enter() { s.t.Helper(); s.do(chromedp.KeyEvent(kb.Enter)) }

// A reading is written down without a pointer: from the yard by the job's list of pages to the bench, and by the keys of the pad one after another.
func TestAReadingIsWrittenDownByTheKeyboard(t *testing.T) {
	b := openBench(t, engineShop...)
	s := b.device(390, 844)
	s.open("/jobs/J-001")
	require.Equal(t, "To the page itself", s.tab().Name, "the first stop leads past the header")
	s.tabTo("J-001 Engine Unit")
	s.enter()
	s.until(`document.querySelector('details.where').open`)
	s.tabTo("Bench")
	s.enter()
	s.until(`location.pathname === '/jobs/J-001/bench' && document.readyState === 'complete'`)
	s.tabTo("Engine bottom end (engine)")
	s.enter()
	s.until(`document.getElementById('pad') && !document.getElementById('pad').hidden`)
	s.open("/jobs/J-001/bench/bottom-end#crankpin/P1%20diameter%20FV")
	s.until(`document.querySelector('#pad .asks')?.innerText.includes('Crankpin P1, diameter at FV')`)
	for _, key := range []string{"9", "6", "1"} {
		s.tabTo(key)
		s.enter()
		time.Sleep(50 * time.Millisecond)
		require.Equal(t, key, js[stop](s, focused).Name, "the pad is drawn anew and the key keeps the focus")
	}
	s.until(`document.querySelector('#pad output').innerText === '1.9961 in'`)
	s.tabTo("Write down")
	s.enter()
	s.until(`document.querySelector('#pad .asks').innerText.includes('diameter at FH')`)
	b.liveOf("J-001", 1)
	require.Equal(t, []string{"crankpin/P1 diameter FV 1.9961 in"}, typed(b.live("J-001")))
	s.until(`document.activeElement.closest('.pad')`)
}

// Every page can be walked by the tabulator: what has the focus shows it and is not hidden behind anything, and the walk comes to an end.
func TestPagesAreWalkedByTheKeyboard(t *testing.T) {
	b := openBench(t, append(engineShop, "tag|J-001|--on|cylinder head|--lies|rack 2|--fasteners|6 x M8, bag 1")...)
	for _, size := range [][2]int64{{360, 740}, {1280, 900}} {
		s := b.device(size[0], size[1])
		for _, page := range []string{"/", "/new", "/shop/parties", "/jobs/J-001/strip", "/jobs/J-001/tags", "/tags/T-001", "/jobs/J-001/bench/clutch", "/jobs/J-001/papers/agree/strip", "/jobs/J-001/money", "/jobs/J-001/handover"} {
			s.open(page)
			s.until(`document.readyState === 'complete' && !document.getElementById('pad')?.hidden`) // the pad moves what is under it when it opens
			stops := 0
			for ; stops < 60; stops++ {
				at := s.tab()
				if at.Tag == "BODY" {
					break
				}
				s.showsFocus(at)
			}
			require.Greater(t, stops, 2, page)
		}
	}
}
