package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A crankshaft goes together on a phone: a size outside new asks why, lives hang on nothing without a second person, and hours stand beside.
func TestAPartIsFitted(t *testing.T) {
	checker := axe(t)
	b := openBench(t, agreedShop...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/build")
	s.until(`document.querySelector('main').innerText.includes('T-001 crankshaft')`)
	s.usable(checker, "build", 390)
	s.fill("what", "crankpine")
	s.touch("Write down how it was fitted")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('no tag or part "crankpine"') && document.querySelector('[name=what]').value === 'crankpine'`)
	s.usable(checker, "build, part not found", 390)
	s.fill("what", "crankpin")
	s.touch("Write down how it was fitted")
	s.touch("Crankpin P1")
	s.until(`document.querySelector('h1').innerText.includes('P1')`)
	s.usable(checker, "fitting", 390)
	field := js[string](s, `[...document.querySelectorAll('label')].find((l) => l.innerText.startsWith('Diameter at FV')).querySelector('input').name`)
	s.fill(field, "1.9976")
	s.run(`document.querySelector('[name=torques]').value = 'rod cap 40 lbf ft'`)
	s.touch("Write it down")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('Not within the limits of new')`)
	require.Empty(t, b.story("J-001").Fits)
	require.Equal(t, "1.9976", js[string](s, `document.querySelector('[name=`+field+`]').value`), "what was typed stays")
	require.Contains(t, js[string](s, `document.querySelector('[name=torques]').value`), "rod cap")
	s.fill("why", "the shells are of the same step")
	s.fill("second", "Wren")
	s.touch("Write it down")
	s.until(`document.querySelector('#fitted-head')?.parentElement.innerText.includes('diameter FV 1.9976 in')`)
	fits := b.story("J-001").Fits
	require.Len(t, fits, 1)
	require.Equal(t, "bottom-end@engine/crankpin/P1 rod cap Wren", strings.Join([]string{fits[0].Words(), fits[0].Torques[0].Fastener, fits[0].Second}, " "))
	require.Equal(t, "the shells are of the same step", fits[0].Why)

	s.fill("task", "fitting the crankshaft")
	s.fill("hours", "long")
	s.touch("Write the hours down")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('"long" are no hours')`)
	s.fill("hours", "1:30")
	s.touch("Write the hours down")
	s.until(`document.querySelector('#hours').textContent.includes('fitting the crankshaft: 1.5 h, Jory')`)
	require.InDelta(t, 1.5, b.story("J-001").Hours[0].Hours, 1e-9)
}
