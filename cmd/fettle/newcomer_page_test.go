package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// fill types into the field of a name.
func (s *device) fill(name, text string) {
	s.t.Helper()
	quoted, err := json.Marshal(text)
	require.NoError(s.t, err)
	field := fmt.Sprintf(`document.querySelector('[name="%s"]')`, name)
	s.until(field + "?.checkVisibility()")
	s.run(fmt.Sprintf(`(%s.value = %s)`, field, quoted))
}

// tick ticks the box with these words: they stand beside a box that is as large as they are.
func (s *device) tick(words string) {
	s.t.Helper()
	box := fmt.Sprintf(`[...document.querySelectorAll('label.pick')].find((e) => e.innerText.trim() === %q && e.checkVisibility())?.querySelector('input')`, words)
	s.until(box)
	s.run("(" + box + ").click()")
}

// media shows the page as it is on "print" or, "", on the screen, at a size.
func (s *device) media(name string, width, height int64) {
	s.t.Helper()
	ctx, stop := context.WithTimeout(s.ctx, patience)
	defer stop()
	_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: name})
	require.NoError(s.t, err)
	s.do(chromedp.EmulateViewport(width, height))
}

// A newcomer goes from an empty folder to a job, its printed sheet and a first reading, on a phone: no command but the first, no pack.
func TestANewcomersFirstTenMinutes(t *testing.T) {
	b := openBench(t)
	require.NoFileExists(t, filepath.Join(b.dir, "book.db"))
	s := b.device(390, 844)
	s.open("/jobs/J-001") // an old address leads to the one page there is
	s.until(`document.querySelector('h1')?.innerText === 'A shop to begin with'`)
	s.fill("name", "Otter & Sons")
	s.fill("currency", "XQX")
	s.fill("rate", "62.50")
	s.touch("Make the shop")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('"XQX" is no currency')`)
	require.Equal(t, "Otter & Sons", js[string](s, `document.querySelector('[name=name]').value`)) // what was typed stays
	require.NoFileExists(t, filepath.Join(b.dir, "book.db"))
	s.fill("currency", "eur")
	s.touch("Make the shop")

	s.until(`location.pathname === '/new'`)
	settings, err := os.ReadFile(filepath.Join(b.dir, "fettle.yaml"))
	require.NoError(t, err)
	require.Contains(t, string(settings), `name: "Otter & Sons"`)
	require.Contains(t, string(settings), "currency: EUR")
	require.Contains(t, string(settings), "mechanic: 62.50")
	s.until(`document.querySelector('[name=vehicle]')?.checkVisibility() && !document.querySelector('[name=kind]').checkVisibility()`)
	s.fill("owner", "Ada Brock")
	s.tick("A unit, on the bench")
	s.until(`!document.querySelector('[name=vehicle]').checkVisibility()`)
	s.fill("kind", "gearbox")
	s.fill("use", "farm tracks")
	s.fill("horizon-years", "8")
	s.touch("Open the job")
	s.until(`document.querySelector('h1')?.innerText === 'J-001 is open'`)

	// The sheet to print: a box for each reading, nothing of the screen's on the paper, no wider than the paper.
	s.touch("Print inspection sheets and tags")
	s.touch("Manual gearbox")
	s.until(`document.querySelector('h1')?.innerText === 'Manual gearbox' && !document.querySelector('[data-print]').hidden`)
	boxes := js[int](s, `document.querySelectorAll('.boxes b').length`)
	require.Greater(t, boxes, 30)
	s.media("print", 718, 1000) // A4 at 96 to the inch, less margins
	require.Equal(t, 0, js[int](s, `[...document.querySelectorAll('header, .on-screen, button')].filter((e) => e.checkVisibility()).length`))
	require.Contains(t, js[string](s, `document.querySelector('.on-paper').innerText`), "Otter & Sons · J-001")
	require.LessOrEqual(t, js[int](s, `document.documentElement.scrollWidth`), 718)
	s.media("", 390, 844)
	s.open("/jobs/J-001/labels")
	s.until(`document.querySelectorAll('.labels section').length === 8`)

	// The first reading.
	s.open("/jobs/J-001/begin")
	s.touch("Write readings down at the bench")
	s.touch("Manual gearbox")
	s.until(`document.getElementById('pad') && !document.getElementById('pad').hidden`)
	first := js[string](s, `document.querySelector('.now').dataset.key`)
	if js[bool](s, `[...document.querySelectorAll('#pad button')].some((e) => e.innerText === 'pass')`) {
		s.touch("pass")
	} else {
		s.touch("could not reach")
	}
	quoted, err := json.Marshal(first)
	require.NoError(t, err)
	s.until(fmt.Sprintf(`document.querySelector('.now')?.dataset.key !== %s && document.getElementById('device').hidden`, quoted))
	fs := b.liveOf("J-001", 1)
	require.Equal(t, first, strings.TrimSpace(fs[0].Target.String()+" "+fs[0].Check+" "+fs[0].Station))
	require.Equal(t, "gearbox", fs[0].Subsystem)

	// The book has what was said.
	var job core.Job
	require.NoError(t, json.Unmarshal([]byte(b.fettle("job", "show", "J-001", "--json")), &job))
	require.Equal(t, "Ada Brock", job.Owner.Name)
	require.Equal(t, core.ExtentBench, job.Extent.Kind)
	require.Equal(t, "farm tracks", job.Brief.Use)
	require.InDelta(t, 8, job.Brief.HorizonYears, 0)
	require.Empty(t, job.Units[0].Pack)
	// The sheet shows what was read.
	s.open("/jobs/J-001/sheets/gearbox")
	require.Equal(t, 1, js[int](s, `[...document.querySelectorAll('.boxes b')].filter((e) => !e.querySelector('i')).length`))
}
