package main

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// From the vehicle's drawing to the bench and back: a reading makes a shape's words, another type's mark is written down, a second gearbox comes in, and the owner decides.
func TestAVehicleIsKnownByItsMarks(t *testing.T) {
	b := openBench(t, "new|shop|Hollow Lane Works|--currency|USD|--rate|mechanic=85",
		"new|job|Packhorse|--owner|M. Wellbeck|--vehicle|Packhorse of 1956|--unit|gearbox|--extent|named units or subsystems|--name|gearbox|--name|brakes")
	s := b.device(390, 844)
	s.open("/jobs/J-001")
	s.until(`document.querySelector('svg.vehicle a[aria-label="Gearbox: not seen"]')`)
	require.Equal(t, 4, js[int](s, `document.querySelectorAll('svg.vehicle a[aria-label^="Brake "]').length`))
	require.True(t, js[bool](s, `[...document.querySelectorAll('svg.vehicle text')].some((e) => e.textContent === 'not in this job')`)) // the rest of it
	// A shape is as high as a glove needs, and its words stay within it.
	require.Empty(t, js[[]string](s, `[...document.querySelectorAll('svg.vehicle .edge')].filter((e) => e.getBoundingClientRect().height < 56.6).map((e) => e.outerHTML)`))
	require.Empty(t, js[[]string](s, `[...document.querySelectorAll('svg.vehicle a')].filter((a) => [...a.querySelectorAll('text')].some((x) => x.getBoundingClientRect().right > a.querySelector('.edge').getBoundingClientRect().right)).map((a) => a.getAttribute('aria-label'))`))

	// What another device writes down changes the drawing within the second.
	b.fettle("record", "J-001", "brakes", "drum", "LF", "missing")
	s.until(`document.querySelector('svg.vehicle a[aria-label^="Brake LF: "]:not([aria-label="Brake LF: not seen"])')`)

	s.touch("Write a mark down")
	s.fill("where", "third speed wheel, teeth")
	s.fill("text", "29")
	s.run(`document.querySelector('form[action$="/marks"] [name=on]').value = 'gearbox'`)
	s.fill("says", "from another model")
	s.fill("expected", "28")
	s.touch("Write the mark down")
	s.until(`location.hash === '#units' && document.getElementById('vehicle').innerText.includes('Ask the owner')`)

	s.touch("A unit comes in")
	s.until(`document.querySelector('form[action$="/units"] [name=kind]').checkVisibility()`)
	s.run(`document.querySelector('form[action$="/units"] [name=kind]').value = 'gearbox'`)
	s.fill("id", "gearbox")
	s.touch("Bring it in")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('J-001 has a unit "gearbox"')`) // asked again, its form open
	s.fill("id", "gearbox-2")
	s.tick("Spare: it is looked at and lends its parts")
	s.touch("Bring it in")
	s.until(`location.hash === '#units' && document.getElementById('vehicle').innerText.includes('gearbox, spare')`)

	s.open("/jobs/J-001/bench/gearbox@gearbox-2") // a spare one is looked at too
	s.until(`document.getElementById('pad') && !document.getElementById('pad').hidden`)
	s.open("/jobs/J-001")

	s.touch("What the owner decided of a unit")
	s.fill("words", "kept but noted")
	s.touch("Write it down")
	s.until(`document.getElementById('vehicle').innerText.includes('The owner: kept but noted')`)

	var job core.Job
	require.NoError(t, json.Unmarshal([]byte(b.fettle("job", "show", "J-001", "--json")), &job))
	require.Len(t, job.Units, 2)
	require.Equal(t, []core.Mark{{Where: "third speed wheel, teeth", Text: "29", Expected: "28", Says: core.MarkOtherModel}}, job.Units[0].Marks)
	require.Equal(t, "kept but noted", job.Units[0].Belongs)
	require.Equal(t, core.UnitSpare, job.Units[1].Role)
}
