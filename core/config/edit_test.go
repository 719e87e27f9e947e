package config

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/fettle-tools/fettle/core"
)

func TestAValueIsWrittenIntoTheSettingsAndNothingElseChanges(t *testing.T) {
	const head = "# ours\nshop: {name: Hollow Lane Works}\ncurrency: USD\n"
	for _, c := range []struct{ name, was, is string }{
		{"a value in a list of lines", "rates:   # an hour\n  mechanic: 85   # since May\npeople: 1\n", "rates:   # an hour\n  mechanic: 95.50   # since May\npeople: 1\n"},
		{"a value in quotes", "rates:\n  mechanic: \"85\" # since May\n", "rates:\n  mechanic: 95.50 # since May\n"},
		{"behind the last line of its set", "rates:\n    machinist: 90 # he\n\npeople: 1\n", "rates:\n    machinist: 90 # he\n    mechanic: 95.50\n\npeople: 1\n"},
		{"in braces", "rates: {machinist: 90} # all\n", "rates: {machinist: 90, mechanic: 95.50} # all\n"},
		{"in empty braces", "rates: {}\n", "rates: {mechanic: 95.50}\n"},
		{"under a key with nothing", "rates:      # an hour\nzone: UTC\n", "rates:      # an hour\n  mechanic: 95.50\nzone: UTC\n"},
		{"where no key is", "zone: UTC\n# the end\n", "zone: UTC\n# the end\nrates:\n  mechanic: 95.50\n"},
		{"behind a last line without an end", "zone: UTC", "zone: UTC\nrates:\n  mechanic: 95.50\n"},
		{"lines that end as on another system", "rates:\r\n  machinist: 90\r\n", "rates:\r\n  machinist: 90\r\n  mechanic: 95.50\r\n"},
	} {
		got, err := EditSettings([]byte(head+c.was), "x", []Edit{{In: "rates", Key: "mechanic", Value: "95.50"}})
		require.NoError(t, err, c.name)
		require.Equal(t, head+c.is, string(got), c.name)
	}
	for _, c := range []struct{ was, value, is string }{
		{"people: 2   # hands\nzone: UTC\n", "3", "people: 3   # hands\nzone: UTC\n"},
		{"zone: UTC\n", "3", "zone: UTC\npeople: 3\n"},
		{"people:   # hands\nzone: UTC\n", "3", "people: 3   # hands\nzone: UTC\n"},
		{"people: 2   # hands\nzone: UTC\n", "", "zone: UTC\n"},
		{"zone: UTC\n", "", "zone: UTC\n"},
	} {
		got, err := EditSettings([]byte(head+c.was), "x", []Edit{{Key: "people", Value: c.value}})
		require.NoError(t, err)
		require.Equal(t, head+c.is, string(got))
	}
	got, err := EditSettings([]byte(head+"rates:\n  machinist: 90\n  mechanic: 80\n"), "x", []Edit{{In: "rates", Key: "machinist"}})
	require.NoError(t, err)
	require.Equal(t, head+"rates:\n  mechanic: 80\n", string(got))
	got, err = EditSettings([]byte(head), "x", []Edit{{In: "rates", Key: "machinist"}})
	require.NoError(t, err)
	require.Equal(t, head, string(got))
}

func TestWhatCannotBeWrittenIntoTheSettingsIsRefused(t *testing.T) {
	const head = "shop: {name: Hollow Lane Works}\ncurrency: USD\n"
	edit := func(was string, e Edit) error { _, err := EditSettings([]byte(head+was), "x", []Edit{e}); return err }
	require.ErrorContains(t, edit("", Edit{In: "rates", Key: "mechanic", Value: "much"}), "1 fault in x")
	require.ErrorContains(t, edit("peple: 2\n", Edit{Key: "people", Value: "2"}), "1 fault in x")
	err := edit("rates: {mechanic: 85}\n", Edit{In: "rates", Key: "mechanic"})
	require.Equal(t, core.Conflict, core.ErrorCode(err))
	require.ErrorContains(t, edit("people: !!int 2\n", Edit{Key: "people", Value: "3"}), "only a person can change")
}

// Whatever stands in the file, the value is read back and no other line changes.
func TestAnySettingsAreEdited(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b strings.Builder
		b.WriteString("shop:\n  name: Hollow Lane Works\n  address: [Hollow Lane]\ncurrency: USD\n")
		for _, key := range rapid.Permutation([]string{"people: 2", "weekly_hours: 45", "rates", "zone: UTC", "# a word", "", "terms: [\"a: b\"]"}).Draw(t, "keys") {
			if key == "rates" {
				b.WriteString("rates:  # é\n")
				for i := range rapid.IntRange(0, 3).Draw(t, "rates") {
					fmt.Fprintf(&b, "  skill%d: %d\n", i, 10+i)
				}
				continue
			}
			if rapid.Bool().Draw(t, "there") {
				b.WriteString(key + rapid.SampledFrom([]string{"", "  # so"}).Draw(t, "word") + "\n")
			}
		}
		was := b.String()
		n := rapid.IntRange(0, 4).Draw(t, "skill")
		got, err := EditSettings([]byte(was), "x", []Edit{{In: "rates", Key: fmt.Sprintf("skill%d", n), Value: "77.50"}, {Key: "people", Value: "7"}})
		require.NoError(t, err)
		s, err := ReadSettings(got, "x", nil)
		require.NoError(t, err)
		require.Equal(t, 7, s.People)
		found := false
		for _, r := range s.Rates {
			found = found || r.Skill == fmt.Sprintf("skill%d", n) && r.Hour.Number() == "77.50"
		}
		require.True(t, found, "%s\n%s", was, got)
		left := strings.Split(string(got), "\n")
		for line := range strings.SplitSeq(was, "\n") {
			if strings.HasPrefix(line, fmt.Sprintf("  skill%d", n)) || strings.HasPrefix(line, "people") {
				continue
			}
			require.Contains(t, left, line)
		}
	})
}
