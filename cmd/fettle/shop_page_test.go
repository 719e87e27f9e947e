package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

// What came is taken in on a phone, as the owner stands beside it: counts, what lies loose, how it lived, who signed. Then what is to be read before anything
// is touched.
func TestAVehicleIsTakenIn(t *testing.T) {
	b := openBench(t, "new|shop|Hollow Lane Works|--currency|USD|--rate|mechanic=85",
		"new|job|Packhorse|--owner|M. Wellbeck|--vehicle|Packhorse of 1956|--pack|packhorse-mark-b|--extent|named units or subsystems|--name|brakes|--name|steering")
	s := b.device(390, 844)
	s.open("/jobs/J-001/arrive")
	s.fill("ask-mileage", "43210 miles")
	s.fill("ask-keys", "a few")
	s.fill("ask-loose", "jack\nwheel brace")
	s.fill("ask-runs", "does not run")
	s.fill("ask-signed", "Marta Wellbeck")
	s.fill("stored", "damp")
	s.touch("Write down what came")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('“a few” is no count')`)
	require.Equal(t, "43210 miles", js[string](s, `document.querySelector('[name=ask-mileage]').value`))
	s.fill("ask-keys", "0")
	s.touch("Write down what came")
	s.until(`location.hash === '#before' && document.getElementById('before').innerText.includes('as-found photographs taken')`)
	require.Positive(t, js[int](s, `document.querySelectorAll('#before .cards a[href*="/bench/"]').length`))

	var v struct {
		Arrival *core.Arrival `json:"arrival"`
		State   string        `json:"state"`
	}
	require.NoError(t, json.Unmarshal([]byte(b.fettle("arrive", "J-001", "--json")), &v))
	require.Equal(t, core.StateArrived, v.State)
	require.Equal(t, []string{"jack", "wheel brace"}, v.Arrival.Loose)
	require.Equal(t, []string{"keys"}, v.Arrival.Counted)
	require.Equal(t, "Marta Wellbeck", v.Arrival.Signed)
	var job core.Job
	require.NoError(t, json.Unmarshal([]byte(b.fettle("job", "show", "J-001", "--json")), &job))
	require.Equal(t, "damp", job.Brief.Stored)
}

// The shop's own things: somebody is kept, a price is asked for and written down, an instrument is on its zero, and a copy of the book is a book.
func TestTheShopIsKept(t *testing.T) {
	b := openBench(t, engineShop...)
	s := b.device(390, 844)
	s.open("/")
	s.touch("The shop: people, prices, instruments, backup")
	s.touch("Instruments")
	s.touch("micrometer: on zero")
	s.until(`document.querySelector('#instruments li')?.innerText.includes('Zero looked at today')`)

	s.open("/shop/parties")
	s.touch("Somebody new")
	s.fill("name", "Tern Lane Grinding")
	s.tick("Outworker")
	s.fill("may", "lots")
	s.touch("Keep it")
	s.until(`document.querySelector('[role=alert]')`)
	s.fill("may", "")
	s.fill("contact", "telephone 2277")
	s.touch("Keep it")
	s.until(`[...document.querySelectorAll('.cards a')].some((e) => e.innerText === 'Tern Lane Grinding')`)

	s.open("/shop/prices?job=J-001")
	s.until(`document.querySelector('.rows a')`)
	item := js[string](s, `document.querySelector('.rows a').innerText`)
	s.touch(item)
	s.until(`document.querySelector('[name=item]').value !== ''`)
	s.fill("likely", "325")
	s.fill("from", "Tern Lane Grinding")
	s.touch("Write the price down")
	s.until(`location.search.includes('q=') && document.body.innerText.includes('325 USD')`)
	require.False(t, js[bool](s, `[...document.querySelectorAll('.notice')].some((e) => e.checkVisibility())`), "a key that is asked for is not odd")
	s.open("/shop/prices?job=J-001")
	s.until(`document.querySelector('h2') && ![...document.querySelectorAll('.rows a')].some((e) => e.innerText === ` + string(must(json.Marshal(item))) + `)`)

	// A price too many is taken back, and brought back.
	s.open("/shop/prices")
	s.touch("Take back what was last written")
	s.until(`document.querySelector('.notice')?.innerText.includes('Taken back') && !document.querySelector('.rows.short').innerText.includes('325 USD')`)
	s.touch("Bring it back")
	s.until(`document.querySelector('.rows.short').innerText.includes('325 USD')`)

	// The price of an hour and the hands present are said on the page, stand in the file beside what a person wrote there, and hold at once, on every device.
	other := b.device(1280, 800)
	other.open("/jobs/J-001/money")
	other.until(`document.body.innerText.includes('P80')`)
	was := js[string](other, `document.querySelector('main').innerText`)
	s.open("/shop")
	s.touch("Change them")
	require.Equal(t, "85", js[string](s, `document.querySelector('[name=hour]').value`))
	s.fill("hour", "dear")
	s.fill("people", "3")
	s.touch("Write them down")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('“dear” is no price of an hour')`)
	s.fill("hour", "97.50")
	s.touch("Write them down")
	s.until(`location.hash === '#figures' && document.querySelector('.facts').innerText.includes('97.50 USD an hour')`)
	other.until(`document.querySelector('main').innerText !== ` + string(must(json.Marshal(was))))
	settings := string(must(os.ReadFile(filepath.Join(b.dir, "fettle.yaml"))))
	require.Contains(t, settings, "mechanic: 97.50")
	require.Contains(t, settings, "people: 3             # hands present")

	// What is changed in the file shows by itself; what cannot be read there is said, and what it said before holds.
	require.NoError(t, os.WriteFile(filepath.Join(b.dir, "fettle.yaml"), []byte(strings.Replace(settings, "97.50", "much", 1)), 0o600))
	s.open("/shop")
	s.until(`document.querySelector('.notice')?.innerText.includes('"much" is no hourly rate') && document.querySelector('.facts').innerText.includes('97.50 USD an hour')`)
	require.NoError(t, os.WriteFile(filepath.Join(b.dir, "fettle.yaml"), []byte(strings.Replace(settings, "97.50", "85", 1)), 0o600))
	s.open("/shop")
	s.until(`!document.querySelector('.notice') && document.querySelector('.facts').innerText.includes('85.00 USD an hour')`)

	// The copy opens as a book with what was just written.
	saved := js[string](s, `fetch('/shop/backup').then((r) => r.arrayBuffer()).then((b) => btoa([...new Uint8Array(b)].map((x) => String.fromCharCode(x)).join('')))`)
	var copied []byte
	require.NoError(t, json.Unmarshal([]byte(`"`+saved+`"`), &copied))
	dir := t.TempDir()
	file := filepath.Join(dir, "copy.db")
	require.NoError(t, os.WriteFile(file, copied, 0o600))
	book, err := store.Restore(t.Context(), file, filepath.Join(dir, "again"), nil)
	require.NoError(t, err)
	defer func() { require.NoError(t, book.Close()) }()
	parties, err := book.Parties(t.Context())
	require.NoError(t, err)
	require.Equal(t, "telephone 2277", parties[0].Contact)
	prices, err := book.Prices(t.Context())
	require.NoError(t, err)
	require.Equal(t, "325", prices[0].Price.Likely)
	zeros, err := book.ZeroChecks(t.Context())
	require.NoError(t, err)
	require.Equal(t, "micrometer", zeros[0].Instrument)
	require.Equal(t, "Jory", zeros[0].By)
	// A copy of the book is not kept on the device.
	require.False(t, js[bool](s, `caches.keys().then(async (ks) => { for (const k of ks) for (const r of await (await caches.open(k)).keys()) if (r.url.includes('/shop/backup')) return true; return false })`))
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
