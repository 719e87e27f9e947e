package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// springsShop is a shop with a vehicle in for its springs, washed, its wheels still on.
var springsShop = []string{"new|shop|Hollow Lane Works|--currency|USD|--rate|mechanic=85",
	"new|job|Truck|--owner|M. Wellbeck|--vehicle|Packhorse of 1956|--pack|packhorse-mark-b|--extent|named units or subsystems|--name|springs",
	"state|J-001|arrived", "agree|J-001|strip|--who|M. Wellbeck|--how|phone|--sum|900",
	"strip|J-001|arrival|--hours|3|--who|Jory|--people|2", "strip|J-001|running-checks|--hours|4|--who|Jory|--people|2", "strip|J-001|fluids-out|--hours|1|--who|Jory|--lost"}

// photographs draws pictures as a camera would leave them, each of another grey, larger than is kept, with a note of the place in them.
func photographs(t *testing.T, n int) []string {
	t.Helper()
	var names []string
	for i := range n {
		m := image.NewGray(image.Rect(0, 0, 2800, 1400))
		for k := range m.Pix {
			m.Pix[k] = color.Gray{Y: uint8(40 + 30*i)}.Y
		}
		var b bytes.Buffer
		require.NoError(t, jpeg.Encode(&b, m, nil))
		raw := append(append(append([]byte{}, b.Bytes()[:2]...), []byte("\xFF\xE1\x00\x12Exif\x00\x00place here")...), b.Bytes()[2:]...)
		name := filepath.Join(t.TempDir(), fmt.Sprintf("IMG_%d.jpg", i))
		require.NoError(t, os.WriteFile(name, raw, 0o600))
		names = append(names, name)
	}
	return names
}

// photograph hands pictures to the n-th camera button of the page, as the camera would.
func (s *device) photograph(button int, files ...string) {
	s.t.Helper()
	s.until(fmt.Sprintf(`document.querySelectorAll('.camera input').length > %d`, button))
	s.run(fmt.Sprintf(`document.querySelectorAll('.camera input')[%d].id = 'camera'`, button))
	s.do(chromedp.SetUploadFiles(chromedp.CSS(`#camera`), files))
	s.run(`document.getElementById('camera').removeAttribute('id')`)
}

// typeIn types into the field within what a selector finds.
func (s *device) typeIn(selector, text string) {
	s.t.Helper()
	s.run(fmt.Sprintf(`(() => { const e = document.querySelector(%q); e.value = %q; e.dispatchEvent(new Event('input', {bubbles: true})); })()`, selector, text))
}

// shades are the greys of a tag's pictures, and none of them has the camera's notes.
func (b *bench) shades(tag core.Tag) []int {
	b.t.Helper()
	var out []int
	for _, sum := range tag.Photos {
		got, err := http.Get(b.url("/photos/" + sum))
		require.NoError(b.t, err)
		raw, err := io.ReadAll(got.Body)
		require.NoError(b.t, err)
		require.NoError(b.t, got.Body.Close())
		require.Equal(b.t, "image/jpeg", got.Header.Get("Content-Type"))
		require.NotContains(b.t, string(raw), "place here")
		m, err := jpeg.Decode(bytes.NewReader(raw))
		require.NoError(b.t, err)
		require.Equal(b.t, 2560, m.Bounds().Dx())
		r, _, _, _ := m.At(100, 100).RGBA()
		out = append(out, int((r>>8)+5)/10*10)
	}
	return out
}

// Two steps come off on a phone: what must be read or confirmed is asked, and each thing has its tag and its picture.
func TestTwoStepsComeOffWithTagAndPhotograph(t *testing.T) {
	b := openBench(t, springsShop...)
	shots := photographs(t, 2)
	s := b.device(390, 844)
	s.open("/jobs/J-001/strip")
	s.until(`document.getElementById('step-wash-down')?.open && document.querySelector('#done-wash-down [name=who]').value === 'Jory'`)
	s.touch("Done")
	s.until(`document.querySelector('#step-wash-down .told')?.innerText.includes('How long did it take?')`)
	s.typeIn("#done-wash-down [name=hours]", "1:30")
	s.reload() // what was typed is still there
	s.until(`document.querySelector('#done-wash-down [name=hours]')?.value === '1:30'`)
	s.touch("Done")
	s.until(`document.getElementById('did')?.innerText.includes('Wash down: done')`)

	// The wheels: readings are lost with them, named and one touch from the bench; then they are written off.
	s.until(`document.querySelector('#step-wheels-off .links a')`)
	require.Contains(t, js[string](s, `document.querySelector('#step-wheels-off .links').textContent`), "Springs as a pair front, rear: ride height")
	s.run(`[...document.querySelectorAll('#step-wheels-off .links a')].find((a) => a.textContent.includes('ride height')).click()`)
	s.until(`location.pathname.includes('/bench/springs') && document.querySelector('#pad .asks')?.innerText.includes('Springs as a pair front')`)
	s.open("/jobs/J-001/strip")
	s.until(`document.getElementById('done-wheels-off')`)
	s.run(`document.getElementById('step-wheels-off').open = true`)
	s.typeIn("#done-wheels-off [name=hours]", ".5")
	s.run(`document.querySelector('#done-wheels-off button').click()`)
	s.until(`document.querySelector('#step-wheels-off .told')?.innerText.includes('nobody has taken')`)
	s.run(`document.querySelector('#done-wheels-off [name=lost]').click()`)
	s.run(`document.querySelector('#done-wheels-off button').click()`)
	s.until(`document.getElementById('did')?.innerText.includes('Wheels off')`)
	s.touch("Tag what came off")
	s.until(`document.querySelector('#new')?.open && document.querySelector('#make [name=what]').value === 'Wheels'`)
	s.typeIn("#make [name=what]", "wheels, four")
	s.typeIn("#make [name=lies]", "rack 4")
	s.typeIn("#make [name=fasteners]", "20 x 7/16 UNF, bag 1")
	s.touch("Tag it")
	s.until(`location.pathname === '/tags/T-001'`)
	s.photograph(0, shots[0])
	s.until(`document.querySelector('.photos img')`)

	// The next one by photograph: two touches, and where it lies.
	s.open("/jobs/J-001/strip")
	s.until(`document.getElementById('done-prop-shafts-out')`)
	s.run(`document.getElementById('step-prop-shafts-out').open = true`)
	s.typeIn("#done-prop-shafts-out [name=hours]", "1")
	s.run(`document.querySelector('#done-prop-shafts-out [name=lost]')?.click()`)
	s.run(`document.querySelector('#done-prop-shafts-out button').click()`)
	s.until(`document.getElementById('did')?.innerText.includes('Propeller shafts out: done')`)
	s.open("/jobs/J-001/tags")
	s.until(`document.querySelector('.camera input') && window.fettle && fettle.photo`)
	s.photograph(0, shots[1])
	s.until(`!document.getElementById('untagged').hidden`)
	require.Equal(t, "rack 4", js[string](s, `document.querySelector('#untagged input[list=places]').value`), "where the last one lies")
	s.touch("New: Propeller shafts")
	s.until(`document.getElementById('untagged').hidden && document.querySelector('#tags #T-002')`)
	s.until(`document.getElementById('device').hidden`)

	story := b.story("J-001")
	require.Len(t, story.Steps, 6)
	require.Equal(t, 1.5, story.Steps[3].Hours)
	require.Equal(t, "Jory", story.Steps[4].Who)
	var lost int
	for _, f := range b.live("J-001") {
		if f.Check == "ride-height-difference" && f.AsTyped == string(core.Lost) {
			lost++
		}
	}
	require.Equal(t, 2, lost)
	require.Len(t, story.Tags, 2)
	require.Equal(t, "20 x 7/16 UNF, bag 1", story.Tags[0].Fasteners[0].String())
	require.Equal(t, []int{40}, b.shades(story.Tags[0]))
	require.Equal(t, "Propeller shafts", story.Tags[1].What)
	require.Equal(t, []int{70}, b.shades(story.Tags[1]))

	// A tag is changed, in what was changed alone; a step is taken back.
	s.open("/tags/T-001")
	s.until(`document.getElementById('change-form') && window.fettle && fettle.form`)
	s.run(`document.getElementById('change').open = true`)
	b.fettle("tag", "J-001", "T-001", "--note", "one tyre flat") // another device, meanwhile
	s.typeIn("#change-form [name=lies]", "yard, against the wall")
	s.touch("Write it down")
	s.until(`document.getElementById('tag')?.innerText.includes('yard, against the wall') && document.getElementById('tag').innerText.includes('one tyre flat')`)
	s.open("/jobs/J-001/strip")
	s.until(`document.getElementById('undo') && window.fettle && fettle.form`)
	s.run(`document.getElementById('back').open = true`)
	s.run(`document.querySelector('#undo select').value = 'wash-down'`)
	s.typeIn("#undo [name=why]", "mud again")
	s.touch("Take it back")
	s.until(`document.getElementById('did')?.innerText.includes('Wash down: taken back') && document.getElementById('did').innerText.includes('Still written as done')`)
}

// With the server stopped a new tag and five photographs of it wait on the device, though the page is closed meanwhile; with it back all are there, once and
// in order, and sending them again changes nothing.
func TestATagAndItsPhotographsWaitForTheSignal(t *testing.T) {
	b := openBench(t, springsShop...)
	shots := photographs(t, 5)
	s := b.device(390, 844)
	s.open("/jobs/J-001/tags")
	s.until(`navigator.serviceWorker.controller && window.fettle && fettle.photo`)
	s.reload()
	b.stop()
	s.reload()
	s.until(`window.fettle && fettle.photo && document.querySelector('.camera input')`)
	s.photograph(0, shots[0])
	s.until(`document.querySelectorAll('#untagged img').length === 1`)
	s.open("/jobs/J-001/tags") // the phone went to sleep; the photograph is still here, and asks for its tag
	s.until(`document.querySelectorAll('#untagged img').length === 1`)
	s.typeIn(`#untagged input[list=places]`, "rack 4")
	s.typeIn(`#untagged input[list=parts]`, "fuel tank")
	s.touch("New tag")
	s.until(`document.getElementById('untagged').hidden && document.getElementById('device').innerText.includes('2 on this device only')`)
	for i, shot := range shots[1:] {
		s.photograph(1, shot)
		s.until(`document.querySelectorAll('#untagged img').length === 1`)
		s.touch("New: fuel tank")
		s.until(fmt.Sprintf(`document.getElementById('untagged').hidden && document.getElementById('device').innerText.includes('%d on this device only')`, i+3))
	}
	ids := js[[]string](s, `fettle.waiting().then((all) => all.map((x) => (x.form || x.photo).id))`)
	require.Len(t, ids, 6)
	b.start()
	s.until(`document.getElementById('device').hidden`)
	story := b.story("J-001")
	require.Len(t, story.Tags, 1)
	require.Equal(t, "fuel tank", story.Tags[0].What)
	require.Equal(t, "rack 4", story.Tags[0].Lies)
	require.Equal(t, []int{40, 70, 100, 130, 160}, b.shades(story.Tags[0]))

	// The answer was lost on the way, and the device sends the tag again.
	got, err := http.Post(b.url("/jobs/J-001/tags"), "application/x-www-form-urlencoded", strings.NewReader("what=fuel+tank&lies=rack+4&id="+ids[0]))
	require.NoError(t, err)
	require.NoError(t, got.Body.Close())
	require.Equal(t, "/tags/T-001", got.Request.URL.Path)
	require.Len(t, b.story("J-001").Tags, 1)
}

// Two devices photograph and change one tag: nothing of either is lost, and each shows what the other did.
func TestTwoDevicesHoldOneTag(t *testing.T) {
	b := openBench(t, append(engineShop, "tag|J-001|--on|crankshaft|--lies|rack 2")...)
	shots := photographs(t, 2)
	one, other := b.device(390, 844), b.device(1280, 900)
	for _, s := range []*device{one, other} {
		s.open("/tags/T-001")
		s.until(`window.fettle && fettle.photo && fettle.form && document.getElementById('change-form')`)
	}
	one.photograph(0, shots[0])
	other.photograph(0, shots[1])
	for _, s := range []*device{one, other} {
		s.until(`document.querySelectorAll('.photos img').length === 2`) // the one's own, and the other's, with nothing touched
		s.run(`document.getElementById('change').open = true`)
	}
	one.typeIn("#change-form [name=lies]", "rack 5")
	other.typeIn("#change-form [name=note]", "journals greased")
	one.touch("Write it down")
	other.touch("Write it down")
	for _, s := range []*device{one, other} {
		s.until(`document.getElementById('tag')?.innerText.includes('rack 5') && document.getElementById('tag').innerText.includes('journals greased')`)
	}
	tags := b.story("J-001").Tags
	require.Len(t, tags, 1)
	require.ElementsMatch(t, []int{40, 70}, b.shades(tags[0]))
	require.Equal(t, []string{"rack 5", "journals greased"}, []string{tags[0].Lies, tags[0].Note})
	require.Empty(t, tags[0].Differing, "they changed different things")

	// Without a signal both write where it lies, and its fasteners alike: where they differ both words stand on both, with who and when, until one is chosen.
	for _, s := range []*device{one, other} {
		s.open("/tags/T-001")
		s.until(`window.fettle && fettle.form && document.getElementById('change-form')`)
	}
	b.stop()
	for s, x := range map[*device][]string{one: {"Wenna", "rack 7"}, other: {"Pasco", "under the bench"}} {
		s.run(fmt.Sprintf(`localStorage.setItem('by', %q)`, x[0]))
		s.run(`document.getElementById('change').open = true`)
		s.typeIn("#change-form [name=lies]", x[1])
		s.typeIn("#change-form [name=fasteners]", "6 x M8, bag 1")
		s.touch("Write it down")
		s.until(`document.getElementById('device').innerText.includes('1 on this device only')`)
	}
	b.start()
	for _, s := range []*device{one, other} {
		s.until(`document.getElementById('differs-lies')`)
		require.Equal(t, 2, js[int](s, `document.querySelectorAll('#differs-lies li').length`))
		words := js[string](s, `document.getElementById('differs-lies').innerText`)
		for _, w := range []string{"rack 7", "Wenna", "under the bench", "Pasco", "stands now"} {
			require.Contains(t, words, w)
		}
		require.False(t, js[bool](s, `document.getElementById('differs-fasteners') !== null`), "both wrote the same")
	}
	require.Contains(t, b.fettle("tag", "J-001"), `DIFFERS  T-001 lies: "rack 7" by Wenna`)
	one.touch("rack 7 is right")
	for _, s := range []*device{one, other} {
		s.until(`document.getElementById('tag')?.innerText.includes('rack 7') && !document.getElementById('differs-lies')`)
	}
	tags = b.story("J-001").Tags
	require.Equal(t, "rack 7", tags[0].Lies)
	require.Equal(t, "6 x M8, bag 1", tags[0].Fasteners[0].String())
	require.Empty(t, tags[0].Differing)

	// What another device changes shows in the open form too, where nobody typed; and a draft keeps nothing that nobody typed.
	other.run(`document.getElementById('change').open = true`)
	other.typeIn("#change-form [name=note]", "journals greased twice")
	b.fettle("tag", "J-001", "T-001", "--lies", "rack 8", "--state", "cleaned")
	other.until(`document.querySelector('#change-form [name=lies]').value === 'rack 8' && document.querySelector('#change-form [name=state]').value === 'cleaned'`)
	b.fettle("tag", "J-001", "T-001", "--lies", "rack 9")
	other.reload()
	other.until(`document.querySelector('#change-form [name=note]')?.value === 'journals greased twice'`)
	require.Equal(t, "rack 9", js[string](other, `document.querySelector('#change-form [name=lies]').value`))

	// A scanner that types what the code on the label holds opens the tag: into the field, or with no field touched.
	for _, code := range []string{"T-001", "http://bench.local:8040/tags/T-001"} {
		one.open("/jobs/J-001/tags")
		one.until(`document.querySelector('input[name=q]') && window.fettle && fettle.photo`)
		one.run(`document.querySelector('input[name=q]').focus()`)
		one.do(chromedp.KeyEvent(code + "\r"))
		one.at("/tags/T-001")
		one.open("/jobs/J-001/tags")
		one.until(`document.querySelector('input[name=q]') && window.fettle && fettle.photo`)
		one.do(chromedp.KeyEvent(code + "\r"))
		one.at("/tags/T-001")
	}
}
