package main

import (
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

// crankShop is an engine of which the crankshaft is read, one pin of it past its limit, with a price asked of nobody.
var crankShop = append(append([]string{}, engineShop...), "record|J-001|bottom-end crankpin P4 diameter FV 1.9940 in", "record|J-001|bottom-end crankpin P4 diameter FH 1.9936 in")

// book opens the shop's book for a look.
func (b *bench) book(look func(*store.Book)) {
	b.t.Helper()
	book, err := store.Open(b.t.Context(), b.dir, nil)
	require.NoError(b.t, err)
	defer book.Close()
	look(book)
}

// story reads a job's story from the book.
func (b *bench) story(job string) (s core.Story) {
	b.t.Helper()
	b.book(func(book *store.Book) {
		var err error
		s, err = book.Story(b.t.Context(), job)
		require.NoError(b.t, err)
	})
	return s
}

// back goes to the page before. The answer is lost with the page that was left.
func (s *device) back() {
	_, _ = chromedp.Run(s.ctx, chromedp.Evaluate[bool]("(history.back(), true)"))
}

// The scope is made, looked at, issued and agreed to with a sum and a line refused, on a phone; the book has it.
func TestAScopeIsIssuedAndAgreedTo(t *testing.T) {
	checker := axe(t)
	b := openBench(t, crankShop...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/papers")
	s.touch("Make the scope")
	s.touch("Look at it")
	s.until(`document.title.startsWith('Scope of work J-001-S') && document.body.innerText.includes('draft')`)
	require.Equal(t, "rgb(110, 42, 18)", js[string](s, `getComputedStyle(document.querySelector('h1')).color`), "a paper keeps its own style")
	require.LessOrEqual(t, js[int64](s, `document.documentElement.scrollWidth`), int64(390))
	s.back()
	s.until(`document.querySelector('[name=by]')`)
	s.usable(checker, "the draft", 390)
	require.Empty(t, b.story("J-001").Papers, "a draft is no paper")
	s.fill("by", "Wren")
	s.touch("Issue it: number it and keep it")
	s.touch("Open J-001-S revision 1")
	s.until(`document.querySelector('h1').innerText === 'Scope J-001-S, revision 1'`)
	shown := js[[]string](s, `[...document.querySelectorAll('code')].map((c) => c.innerText.replaceAll(' ', ''))`)
	b.book(func(book *store.Book) {
		for i, media := range []string{"application/pdf", "text/html"} {
			p, err := book.Paper(t.Context(), "J-001-S", 1, media)
			require.NoError(t, err)
			require.Equal(t, "Wren", p.By)
			require.Equal(t, p.SHA256, shown[i])
			require.Equal(t, p.Bytes, fetched(t, b.url("/jobs/J-001/papers/J-001-S/1/"+[]string{"paper.pdf", "paper.html"}[i])), "the very bytes")
		}
	})

	s.touch("Write the answer down")
	s.touch("Write it down")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('How was it agreed')`)
	s.run(`document.querySelector('input[name=how][value=phone]').click()`)
	s.fill("sum", "3 900")
	s.touch("Something was refused")
	s.touch("Bottom end, " + lineCount(b.story("J-001")))
	refused := js[string](s, `(() => { const x = [...document.querySelectorAll('input[name=refuse]')].find((e) => !e.parentElement.innerText.startsWith('Reserve')); x.click(); return x.parentElement.innerText.split(',')[0]; })()`)
	s.usable(checker, "the answer", 390)
	s.touch("Write it down")
	s.until(`document.querySelector('#agreed')?.innerText.includes('up to 3\u00a0900.00 USD')`)
	s.until(`document.querySelector('#agreed').innerText.includes(` + fmt.Sprintf("%q", refused) + `)`)
	story := b.story("J-001")
	a := story.Agreed(core.GateBudget)
	require.NotNil(t, a)
	require.Equal(t, "M. Wellbeck phone J-001-S 1 3900", fmt.Sprintf("%s %s %s %d %d", a.Who, a.How, a.Paper, a.Revision, core.Minor(a.Sum)/100))
	require.Equal(t, "Wren", a.By, "who wrote last is remembered on the device")
	require.Len(t, a.Refused, 1)
	p := story.LastScope()
	for _, l := range p.Lines {
		if l.ID == a.Refused[0] {
			require.True(t, strings.HasPrefix(l.Name, refused), l.Name)
		}
	}
	require.Equal(t, core.StateAgreed, story.Job.State)
}

// What is issued is what was looked at: a draft is made again when what it is made from has changed since. Two revisions are then put side by side.
func TestWhatWasLookedAtIsIssued(t *testing.T) {
	b := openBench(t, append(crankShop, "scope|J-001|--issue")...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/papers")
	s.touch("Make the scope")
	s.until(`document.querySelector('[name=by]')`)
	b.fettle("record", "J-001", "bottom-end crankpin P1 diameter FV 1.9500 in")
	s.touch("Issue it: number it and keep it")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('has changed since it was looked at')`)
	require.Len(t, b.story("J-001").Papers, 1)
	s.touch("Make it again")
	s.touch("Issue it: number it and keep it")
	s.touch("Open J-001-S revision 2")
	s.touch("Beside revision 1, line by line")
	s.until(`document.querySelector('h1').innerText === 'J-001-S: revision 2 beside 1'`)
	papers := b.story("J-001").Papers
	require.Len(t, papers, 2)
	more := js[string](s, `document.querySelector('.sums tbody tr:nth-child(3) td:last-child').innerText.replaceAll(/\s/g, '')`)
	require.Equal(t, core.MinorMoney(core.Minor(papers[1].Total)-core.Minor(papers[0].Total), "USD").Number(), strings.TrimPrefix(more, "+"))
}

// lineCount is how many lines of the bottom end the form offers.
func lineCount(story core.Story) string {
	n := 0
	for _, l := range story.LastScope().Lines {
		if l.Subsystem == "bottom-end" && (l.Kind == core.LineWork || l.Kind == core.LineReserve) {
			n++
		}
	}
	return fmt.Sprintf("%d lines", n)
}

// fetched reads what is at an address.
func fetched(t *testing.T, address string) []byte {
	t.Helper()
	got, err := http.Get(address) //nolint:noctx // a test's own server
	require.NoError(t, err)
	defer got.Body.Close()
	require.Equal(t, 200, got.StatusCode, address)
	bytes, err := io.ReadAll(got.Body)
	require.NoError(t, err)
	return bytes
}
