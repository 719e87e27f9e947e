package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// agreedShop has an engine apart, its scope issued and agreed to.
var agreedShop = append(append([]string{}, crankShop...), "tag|J-001|--on|bottom-end/crankshaft|--lies|rack 1", "tag|J-001|--on|bottom-end/rod/1|--lies|rack 1",
	"scope|J-001|--issue", "agree|J-001|budget|--who|M. Wellbeck|--how|signed|--sum|9000")

// A crankshaft goes out on a phone, to a size; back, it is refused while it is off, and taken in when it is not; the book has each step.
func TestOutworkGoesOutAndComesIn(t *testing.T) {
	checker := axe(t)
	b := openBench(t, agreedShop...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/out")
	s.touch("What to send: " + fmt.Sprintf("%d lines", sendable(b.story("J-001"))))
	s.usable(checker, "what to send", 390)
	require.Contains(t, js[string](s, `document.querySelector('main').innerText`), "Crack test crankshaft and rods")
	s.touch("Crack test crankshaft and rods")
	s.until(`document.querySelector('[name=to]')`)
	s.usable(checker, "sending", 390)
	s.fill("to", "Tern Lane Grinding")
	s.fill("due", "soon")
	s.fill("price", "90")
	s.run(`document.querySelector('[name=sizes]').value = 'M1 diameter 2.4790..2.4795 in\nno cracks, paper with it'`)
	s.touch("T-002 rod 1, rack 1") // it stays here
	s.touch("Send it")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('Due "soon" is no day')`)
	require.Empty(t, b.story("J-001").Outwork)
	require.Contains(t, js[string](s, `document.querySelector('[name=sizes]').value`), "no cracks", "what was typed stays")
	require.Equal(t, []string{"T-001"}, js[[]string](s, `[...document.querySelectorAll('[name=tag]:checked')].map((x) => x.value)`))
	s.fill("due", "2 weeks")
	s.touch("Send it")
	s.until(`document.querySelector('h1')?.innerText === 'O-001, Tern Lane Grinding'`)
	story := b.story("J-001")
	o := story.Sent("O-001")
	require.Equal(t, "out T-001 9000 fixed", strings.Join([]string{o.State, strings.Join(o.Tags, " "), fmt.Sprint(core.Minor(o.Price)), o.Type}, " "))
	require.Len(t, o.Asked, 2)
	require.Equal(t, core.StateInWork, story.Job.State)

	s.usable(checker, "receiving", 390)
	s.fill("size0", "2.4700")
	s.touch("Pass")
	s.fill("lies", "rack 2")
	s.touch("Take it in")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('M1 diameter')`)
	require.Equal(t, core.OutworkOut, b.story("J-001").Outwork[0].State)
	require.Equal(t, "2.4700", js[string](s, `document.querySelector('[name=size0]').value`))
	s.fill("why", "nine thou under what was asked")
	s.touch("Refuse it")
	s.until(`document.querySelector('.facts').innerText.includes('Refused')`)
	require.Equal(t, core.OutworkRefused, b.story("J-001").Outwork[0].State)
	s.fill("size0", "2.4792")
	s.touch("Pass")
	s.fill("lies", "rack 2")
	s.touch("Take it in")
	s.until(`document.querySelector('.facts').innerText.includes('Accepted')`)
	story = b.story("J-001")
	o = story.Sent("O-001")
	require.Equal(t, []string{"2.4792 in true", "pass true"}, []string{fmt.Sprint(o.Results[0].As, " ", o.Results[0].OK), fmt.Sprint(o.Results[1].As, " ", o.Results[1].OK)})
	require.Equal(t, "back rack 2", story.Tag("T-001").State+" "+story.Tag("T-001").Lies)
}

// sendable is how many lines are to be sent.
func sendable(story core.Story) int { return len(story.ToSend()) }

// Goods are ordered, come wrong, and go back.
func TestGoodsAreOrdered(t *testing.T) {
	checker := axe(t)
	b := openBench(t, agreedShop...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/out/buy")
	s.until(`document.querySelector('.cards a')`)
	s.usable(checker, "what to buy", 390)
	s.touch(js[string](s, `document.querySelector('.cards a').innerText.trim()`))
	s.until(`document.querySelector('[name=price]')`)
	s.usable(checker, "ordering", 390)
	s.touch("Order it")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('The price is not known')`)
	s.fill("from", "Birch Yard Dismantlers")
	s.fill("price", "70")
	s.touch("Order it")
	s.until(`document.querySelector('h1')?.innerText === 'B-001, Birch Yard Dismantlers'`)
	s.usable(checker, "an order", 390)
	require.Equal(t, core.PurchaseOrdered, b.story("J-001").Purchases[0].State)
	s.touch("It came, and is not right")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('No reason is given')`)
	s.fill("why", "standard size")
	s.touch("It came, and is not right")
	s.until(`document.querySelector('.facts').innerText.includes('standard size')`)
	s.fill("why", "money back")
	s.touch("It goes back, or is not wanted")
	s.until(`document.querySelector('.facts').innerText.includes('money back')`)
	p := b.story("J-001").Purchases[0]
	require.Equal(t, "returned: money back", p.State+": "+p.Why)
	require.Equal(t, int64(7000), core.Minor(p.Price))
}
