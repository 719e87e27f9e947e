package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// An engine is started, a snag put right, a sum asked, and it goes back with the owner's word on what stays open.
func TestAJobIsHandedOver(t *testing.T) {
	checker := axe(t)
	b := openBench(t, append(append([]string{}, agreedShop...), "state|J-001|in work")...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/handover")
	s.touch("Write a run down")
	s.fill("what", "first start")
	s.run(`(document.querySelector('[name=readings]').value = 'oil pressure hot 45 psi', document.querySelector('[name=snags]').value = 'weeps at the rear seal')`)
	s.usable(checker, "a run", 390)
	s.touch("Write it down")
	s.until(`document.querySelector('#runs')?.innerText.includes('oil pressure hot 45 psi') && document.querySelector('#snags').innerText.includes('G-001')`)
	s.touch("Settle G-001")
	s.fill("how", "seal seated again")
	s.touch("It is put right")
	s.until(`document.querySelector('#snags')?.innerText.includes('Put right: seal seated again')`)

	s.touch("Write money down")
	s.tick("Asked")
	s.fill("sum", "1 200")
	s.touch("Write it down")
	s.until(`document.querySelector('#money')?.innerText.includes('asked 1\u00a0200.00')`)

	s.fill("first-service", "500 miles: oil, nuts")
	s.tick("Returned")
	s.touch("Hand it over")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('Nobody has signed for it')`)
	s.fill("signed", "M. Wellbeck")
	s.touch("Hand it over")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('Still open: T-001')`)
	require.Equal(t, "500 miles: oil, nuts", js[string](s, `document.querySelector('[name=first-service]').value`), "what was typed stays")
	s.run(`document.querySelector('[name=told]').value = 'I take it in parts'`)
	s.touch("Hand it over")
	s.until(`document.querySelector('#end')?.innerText.includes('signed by M. Wellbeck')`)
	s.usable(checker, "handed over", 390)
	story := b.story("J-001")
	require.Equal(t, core.StateHandedOver, story.Job.State)
	require.Equal(t, "returned, 500 miles: oil, nuts, I take it in parts", story.Handover.OldParts+", "+story.Handover.FirstService+", "+story.Handover.Told)
	require.Equal(t, "seal seated again", story.Snag("G-001").Cleared)
	require.Equal(t, "first start oil pressure hot 45 psi", story.Tests[0].What+" "+story.Tests[0].Readings[0].As)
	require.Equal(t, int64(120000), core.Minor(story.Payments[0].Sum))
}
