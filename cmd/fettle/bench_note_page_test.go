package main

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What the shop says of a part and of those that go with it is told as soon as it is read. Without a signal it is said that nothing is graded yet.
func TestAReadingIsToldItsGroup(t *testing.T) {
	b := openBench(t, append(engineShop, "record|J-001|bottom-end crankpin P1 diameter FV 1.9990 in")...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/bench/bottom-end#crankpin%2FP4%20diameter%20FV")
	s.until(`document.querySelector('#pad .asks')?.innerText.includes('Crankpin P4, diameter at FV') && navigator.serviceWorker.controller`)
	require.Empty(t, js[string](s, `document.querySelector('#pad .came').innerText`))
	for _, digit := range []string{"9", "4", "0"} {
		s.touch(digit)
	}
	s.touch("Write down")
	s.until(`/^Crankpin P4: past limit\s+The pins as a group: all to -\.010, by P4/.test(document.querySelector('#pad .came').innerText)`)
	s.until(`(() => { const a = document.querySelector("#pad .came a"); if (a) a.click(); return a !== null; })()`)
	s.until(`document.getElementById('group-M02').getBoundingClientRect().top < innerHeight && document.querySelector('#pad .asks').innerText.includes('diameter at FH')`)
	require.Contains(t, js[string](s, `document.getElementById('group-M02').innerText`), "P1")

	b.stop()
	s.touch("2")
	s.touch("Write down")
	s.until(`document.querySelector('#pad .came').innerText === 'Crankpin P4: on this device, graded when it is back'`)
	s.until(`document.getElementById('crankpin-P4').innerText.includes('graded again when what is on this device is back')`)
	s.until(`document.getElementById('group-M02').innerText.includes('Worked out again when what is on this device is back.')`)
	b.start()
	s.until(`/^Crankpin P4: past limit/.test(document.querySelector('#pad .came').innerText)`)
	s.until(`!document.getElementById('group-M02').innerText.includes('on this device')`)
	require.Len(t, b.live("J-001"), 3)
}
