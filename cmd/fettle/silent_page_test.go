package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// plugins are the processes of a subsystem that the server started, by what they were told at their start (proc(5)).
func (b *bench) plugins() (pids []int) {
	b.t.Helper()
	tasks, err := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/children", b.server.Process.Pid))
	require.NoError(b.t, err)
	for _, task := range tasks {
		children, err := os.ReadFile(task)
		if err != nil {
			continue // the thread has ended
		}
		for pid := range strings.FieldsSeq(string(children)) {
			var n int
			_, err := fmt.Sscan(pid, &n)
			require.NoError(b.t, err)
			pids = append(pids, n)
		}
	}
	return pids
}

// A subsystem that does not answer is a note on itself: every other page of the job works, what is read waits on the device, and once somebody has put it right it is
// tried again at a touch.
func TestASilentSubsystemIsANoteOnItself(t *testing.T) {
	b := openBench(t, append(engineShop, "plugin|new|winch")...)
	sheet := filepath.Join(b.dir, "plugins", "winch", "sheet.yaml")
	good, err := os.ReadFile(sheet)
	require.NoError(t, err)
	s := b.device(390, 844)
	s.open("/jobs/J-001/bench/winch")
	s.until(`document.querySelector('#pad .keys')`)
	asked := js[string](s, `document.querySelector('.now').dataset.key`)

	b.stop()
	require.NoError(t, os.WriteFile(sheet, bytes.Replace(good, []byte("title: Winch"), []byte("title: Other"), 1), 0o644))
	b.start()
	s.touch("could not reach") // on the page as it was
	s.until(`document.getElementById('device').innerText.includes('1 on this device only')`)
	require.Empty(t, b.live("J-001"))

	s.open("/jobs/J-001/bench")
	s.until(`document.querySelectorAll('.cards li').length > 3`)
	require.Equal(t, "Winch It does not answer. Open it to see why, and to try again.", js[string](s, `[...document.querySelectorAll('.cards li')].at(-1).innerText.trim().replace(/\s+/g, ' ')`))
	require.Equal(t, 1, js[int](s, `document.body.innerText.split('It does not answer').length - 1`))
	for _, page := range []string{"/jobs/J-001", "/jobs/J-001/choices", "/jobs/J-001/money", "/jobs/J-001/look", "/jobs/J-001/tags", "/jobs/J-001/strip", "/jobs/J-001/sheets", "/jobs/J-001/bench/bottom-end"} {
		s.open(page)
		s.until(`document.readyState === 'complete'`)
		require.NotEqual(t, "That did not work", js[string](s, `document.querySelector('h1').innerText`), page)
		if strings.HasSuffix(page, "choices") || strings.HasSuffix(page, "money") || strings.HasSuffix(page, "look") {
			require.Equal(t, "/jobs/J-001/bench/winch", js[string](s, `new URL(document.querySelector('.without a').href).pathname`), page)
		}
	}
	s.open("/jobs/J-001/choices")
	s.touch("Winch")
	s.until(`document.getElementById('silent')?.innerText.includes('its sheet has changed since')`)
	s.run("window.before = true")
	s.touch("Try again")
	s.until(`!window.before && document.readyState === 'complete' && document.getElementById('silent')`)

	require.NoError(t, os.WriteFile(sheet, good, 0o644))
	s.touch("Try again")
	s.until(`document.querySelector('#pad .keys') && !document.getElementById('silent')`)
	s.until(`document.getElementById('device').hidden && !document.querySelector('.waiting')`)
	fs := b.liveOf("J-001", 1)
	require.Equal(t, asked+" could not reach", typed(fs)[0])
	s.open("/jobs/J-001/choices")
	s.until(`document.querySelector('#areas') && !document.querySelector('.without')`)
}

// Plugins that are killed under the server are started again, and nobody sees it.
func TestKilledPluginsAreStartedAgain(t *testing.T) {
	b := openBench(t, engineShop...)
	s := b.device(390, 844)
	s.open("/jobs/J-001/bench/bottom-end#crankpin%2FP1%20diameter%20FV")
	s.until(`document.querySelector('#pad .asks')?.innerText.includes('Crankpin P1, diameter at FV')`)
	pids := b.plugins()
	require.NotEmpty(t, pids)
	for _, pid := range pids {
		p, err := os.FindProcess(pid)
		require.NoError(t, err)
		require.NoError(t, p.Kill())
	}
	for _, digit := range "940" {
		s.touch(string(digit))
	}
	s.touch("Write down")
	s.until(`document.querySelector('#pad .came').innerText.includes('The pins as a group: all to -.010')`)
	require.Equal(t, []string{"crankpin/P1 diameter FV 1.9940 in"}, typed(b.live("J-001")))
	require.False(t, js[bool](s, `Boolean(document.getElementById('silent'))`))
}
