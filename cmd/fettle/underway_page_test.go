package main

import (
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// While the shop takes its time the page says that it is at work, and nothing of it stays once the page is there.
func TestAPageSaysThatItIsUnderWay(t *testing.T) {
	b := openBench(t, engineShop...)
	// Between browser and shop stands one that keeps a page back until the note has been seen.
	shop, err := url.Parse(b.url("/"))
	require.NoError(t, err)
	through, seen := httputil.NewSingleHostReverseProxy(shop), make(chan struct{})
	var hold atomic.Bool
	between := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case r.URL.Path == "/seen":
			close(seen)
		case r.URL.Path == "/jobs/J-001/choices" && hold.Load():
			select {
			case <-seen:
			case <-time.After(patience):
				http.Error(w, "nobody said that it is under way", http.StatusTeapot)
				return
			}
			fallthrough
		default:
			through.ServeHTTP(w, r)
		}
	}))
	t.Cleanup(between.Close)
	s := b.device(390, 844)
	s.do(chromedp.Navigate(between.URL + "/jobs/J-001"))
	s.until(`document.readyState === 'complete' && document.getElementById('underway')`)
	require.True(t, js[bool](s, `document.getElementById('underway').hidden`))
	s.run(`new MutationObserver(() => { if (document.getElementById('underway').checkVisibility()) fetch('/seen'); }).observe(document.getElementById('underway'), {attributes: true})`)
	hold.Store(true)
	s.run(`document.querySelector('details.where summary').click()`)
	s.touch("Choices")
	s.until(`document.title.startsWith('Choices, J-001') && document.getElementById('underway')?.hidden`)
	hold.Store(false)
}

// What is typed into a plain form is there again when the page is left and opened anew, and gone once the shop has it.
func TestAFormKeepsWhatIsTyped(t *testing.T) {
	b := openBench(t, engineShop...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/arrive")
	s.until(`window.fettle && fettle.typing && document.readyState === 'complete'`)
	s.key("Note", "on a pallet")
	s.open("/")
	s.until(`document.readyState === 'complete'`)
	s.open("/jobs/J-001/arrive")
	s.until(`document.querySelector('[name=note]')?.value === 'on a pallet'`)
	s.touch("Write down what came")
	s.until(`location.hash === '#before'`)
	require.Equal(t, "on a pallet", b.story("J-001").Arrival.Note)
	s.until(`Object.keys(localStorage).every((k) => !k.startsWith('draft '))`)

	s.open("/shop/parties")
	s.touch("Somebody new")
	s.key("Name", "Tern Lane Grinding")
	s.reload()
	s.until(`document.querySelector('[name=name]')?.checkVisibility() && document.querySelector('[name=name]').value === 'Tern Lane Grinding'`)
	s.touch("Keep it")
	s.until(`document.querySelector('[role=alert]') || [...document.querySelectorAll('.cards a')].some((e) => e.innerText === 'Tern Lane Grinding')`)
}
