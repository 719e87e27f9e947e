package main

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

// job reads a job from the book.
func (b *bench) job(number string) core.Job {
	b.t.Helper()
	book, err := store.Open(b.t.Context(), b.dir, nil)
	require.NoError(b.t, err)
	defer book.Close()
	job, err := book.Job(b.t.Context(), number)
	require.NoError(b.t, err)
	return job
}

// write types into a field of a form, as the label has it.
func (s *device) write(label, text string) {
	s.t.Helper()
	find := fmt.Sprintf(`[...document.querySelectorAll('label')].find((e) => e.innerText.trim().startsWith(%q) && e.checkVisibility())`, label)
	s.until(find)
	s.run(fmt.Sprintf("(%s).querySelector('input').value = %q", find, text))
}

// at waits until a page is there.
func (s *device) at(path string) {
	s.t.Helper()
	s.until(fmt.Sprintf("location.pathname === %q && document.readyState === 'complete'", path))
}

// What to look at next leads to its question on the bench; read there, it is asked no more.
func TestALookIsFollowedToTheBench(t *testing.T) {
	b := openBench(t, engineShop...)
	s := b.device(390, 844)
	s.open("/jobs/J-001")
	s.run(`document.querySelector('details.where summary').click()`)
	s.touch("Look next")
	s.at("/jobs/J-001/look")
	// A look at one part is a way by itself; one at several is a list of ways.
	s.run(`document.querySelectorAll('.looks details').forEach((d) => d.open = true)`)
	asked := js[string](s, `document.querySelector('.looks .go').href`)
	s.run(`document.querySelector('.looks .go').click()`)
	s.until(`location.pathname.includes('/bench/') && document.querySelector('#pad .asks')`)
	key := js[string](s, fmt.Sprintf(`decodeURIComponent(new URL(%q).hash.slice(1))`, asked))
	s.until(fmt.Sprintf(`document.querySelector('.now')?.dataset.key === %q`, key))
	// Whatever it is that settles most, it is as new.
	if js[bool](s, `[...document.querySelectorAll('#pad button')].some((e) => e.innerText === 'Write down')`) {
		s.touch("0")
		s.touch("Write down")
	} else {
		s.touch(js[string](s, `[...document.querySelectorAll('#pad button')].find((e) => ['pass', 'class 0'].includes(e.innerText)).innerText`))
	}
	s.until(`document.getElementById('device').hidden && document.querySelectorAll('.waiting').length === 0`)
	b.liveOf("J-001", 1)
	s.open("/jobs/J-001/look")
	s.until(`document.querySelector('.looks .go')`)
	require.NotEqual(t, asked, js[string](s, `document.querySelector('.looks .go').href`))
}

// A remedy is fixed with its reason, after asking what it costs; it shows what it costs, and is taken out again.
func TestARemedyIsPinnedOnThePhone(t *testing.T) {
	b := openBench(t, append(engineShop, "record|J-001|bottom-end front-pulley-hub groove-depth .006 in")...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/choices")
	s.run(`document.querySelector('#areas .cards a').click()`)
	s.until(`[...document.querySelectorAll('#chosen .go')].find((a) => a.innerText.startsWith('Front pulley hub'))`)
	s.run(`[...document.querySelectorAll('#chosen .go')].find((a) => a.innerText.startsWith('Front pulley hub')).click()`)
	s.until(`document.querySelector('h1')?.innerText === 'Front pulley hub' && document.querySelector('input[name=remedy]')`)
	other := js[string](s, `document.querySelector('input[name=remedy]:not(:checked)').value`)
	at := js[string](s, `location.pathname`)
	pick := fmt.Sprintf(`document.querySelector('input[name=remedy][value=%s]').click()`, other)
	s.run(pick)
	s.touch("What would it cost?")
	s.until(`document.querySelector('#if table')`)
	require.Contains(t, js[string](s, `document.getElementById('if').innerText`), "Total before tax")
	require.Equal(t, other, js[string](s, `document.querySelector('input[name=remedy]:checked').value`))
	require.Empty(t, b.job("J-001").Pins)

	// Without a reason it is asked back, with what was typed.
	s.write("Who says so", "Wenna")
	s.touch("Fix it")
	s.until(`document.querySelector('[role=alert]')`)
	require.Equal(t, "Wenna", js[string](s, `document.querySelector('input[name=by]').value`))
	require.Empty(t, b.job("J-001").Pins)
	s.write("Why, as it will be printed", "the owner has one on the shelf")
	s.touch("Fix it")
	s.until(`document.getElementById('pinned')`)
	require.Regexp(t, `Pinned by Wenna: the owner has one on the shelf\s+All pins of this job together cost -?[0-9\x{a0}]+\.[0-9]{2} more`, js[string](s, `document.getElementById('pinned').innerText`))
	pins := b.job("J-001").Pins
	require.Len(t, pins, 1)
	require.Equal(t, "/jobs/J-001/choices/"+pins[0].Place.String(), at)
	require.Equal(t, []string{other, "the owner has one on the shelf", "Wenna"}, []string{pins[0].Remedy, pins[0].Reason, pins[0].By})
	s.open("/jobs/J-001/choices")
	s.until(`[...document.querySelectorAll('h2')].some((h) => h.innerText === 'Pinned')`)

	s.open(at)
	s.touch("Take the pin out")
	s.until(`document.querySelector('input[name=remedy]') && !document.getElementById('pinned')`)
	require.Empty(t, b.job("J-001").Pins)

	s.write("The owner’s words", "next winter")
	s.touch("Leave it")
	s.touch("Take that back")
	s.until(`[...document.querySelectorAll('button')].some((e) => e.innerText === 'Leave it')`)
	require.Empty(t, b.job("J-001").Left)
}

// What is read after a pin may leave no sound plan: the pages say so by the parts' names, and lead to where the pin is taken out.
func TestAPinThatNothingSuitsIsTakenOutOnThePhone(t *testing.T) {
	crank := "record|J-001|bottom-end crankshaft "
	b := openBench(t, append(engineShop, crank+"runout .0005 in", crank+"end-float .006 in", crank+"crack-test pass", crank+"fillets pass",
		"job|pin|J-001|crankpin/P1|regrind-010|--reason|the owner has shells|--by|Wenna", crank+"crack-test fail")...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/money")
	said := js[string](s, `document.querySelector('[role=alert]').innerText`)
	require.Contains(t, said, "No remedies of Crankshaft and Crankpin P1 go together")
	require.NotContains(t, said, "@")
	s.touch("To what is pinned and left")
	s.at("/jobs/J-001/choices")
	s.touch("Take the pin out: Crankpin P1")
	s.at("/jobs/J-001/choices/bottom-end@engine/crankpin/P1")
	require.Empty(t, b.job("J-001").Pins)
	require.Equal(t, "Crankpin P1", js[string](s, `document.querySelector('h1').innerText`))
}

// A sum is asked about; what more money buys is weighed; the most to be spent is written down, and the plan keeps to it.
func TestThePlanKeepsToASumTypedOnThePhone(t *testing.T) {
	b := openBench(t, append(engineShop, "record|J-001|bottom-end crankpin P1 diameter FV 1.9976 in")...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/money")
	s.until(`document.querySelector('svg.curve')`)
	s.write("Sum before tax", "1 ")
	s.touch("Ask")
	s.until(`document.getElementById('answer')?.innerText.includes('it is not enough')`)
	s.write("Sum before tax", "1000000")
	s.touch("Ask")
	s.until(`document.getElementById('answer')?.innerText.includes('nearly sure')`)

	// How likely the job is to be done by a day is asked for there too.
	s.write("Day", time.Now().AddDate(3, 0, 0).Format(time.DateOnly))
	s.touch("Ask about the day")
	s.until(`document.getElementById('done')?.innerText.includes('nearly sure to be done')`)

	s.touch("Weigh it")
	s.at("/jobs/J-001/money/weighing")
	s.until(`document.querySelector('.ladder .button')`)
	least := js[string](s, `new URL(document.querySelector('.ladder .button').href).searchParams.get('most')`)
	s.touch("Plan within this sum")
	s.until(`document.querySelector('input[name=most]')?.value`)
	require.Equal(t, least, js[string](s, `document.querySelector('input[name=most]').value`))
	s.touch("Write it down")
	s.until(`document.getElementById('sums')?.innerText.includes('At most') && location.search === ''`)
	said := js[string](s, `document.getElementById('sums').innerText`)
	require.Contains(t, said, "is kept to by")
	most := b.job("J-001").Brief.Most
	require.NotNil(t, most)
	require.Equal(t, least, most.Number())

	// Less than every safety item costs is not enough, and it is said what would be.
	s.write("The most to be spent", "1")
	s.touch("Write it down")
	s.until(`document.querySelector('#sums .notice')?.innerText.includes('is not enough')`)
	s.write("The most to be spent", "one")
	s.touch("Write it down")
	s.until(`document.querySelector('[role=alert]')?.innerText.includes('is no amount')`)
	s.write("The most to be spent", "")
	s.touch("Write it down")
	s.until(`document.getElementById('sums') && !document.getElementById('sums').innerText.includes('At most')`)
	require.Nil(t, b.job("J-001").Brief.Most)

	s.touch("Day by day, as more was read")
	s.at("/jobs/J-001/money/days")
	s.until(`document.querySelectorAll('.ladder li').length === 2`)
	s.open("/jobs/J-001/money/what-if")
	s.write("at", "95")
	s.touch("Compare")
	s.until(`document.getElementById('if')?.innerText.includes('An hour of mechanic at 95')`)
	require.Nil(t, b.job("J-001").Brief.Most)
}
