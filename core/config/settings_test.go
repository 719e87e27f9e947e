package config

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

const smallSettings = `shop:
  name: Hollow Lane Works
  address: [Hollow Lane, 12]
  contact: telephone 1234
currency: USD
zone: America/New_York
rates:
  mechanic: 85
  fine machinist: 95.50
taxes:
  - {class: parts, percent: 8.25, name: Sales tax}
people: 2
weekly_hours: 45
payment: Half on approval.
terms: ["Have these checked locally."]
sundries: {percent_of_parts: 8}
plugins: [{name: axle, path: plugins/axle.yaml, sha256: BA7816BF8F01CFEA414140DE5DAE2223B00361A396177A9CB410FF61F20015AD}]
`

func TestReadSettings(t *testing.T) {
	s, err := ReadSettings([]byte(smallSettings), "x", nil)
	require.NoError(t, err)
	require.Equal(t, core.Party{Name: "Hollow Lane Works", Address: []string{"Hollow Lane", "12"}, Contact: "telephone 1234"}, s.Shop)
	require.Equal(t, "USD", s.Currency)
	require.Equal(t, "America/New_York", s.Zone.String())
	require.Len(t, s.Rates, 2)
	require.Equal(t, "fine machinist", s.Rates[1].Skill)
	require.Equal(t, "95.50 USD", s.Rates[1].Hour.String())
	require.Equal(t, []core.Tax{{Class: "parts", Percent: "8.25", Name: "Sales tax"}}, s.Taxes)
	require.Equal(t, 2, s.People)
	require.Equal(t, 45.0, s.WeeklyHours)
	require.Equal(t, 30, s.ValidDays, "common practice, if the shop does not say")
	require.Equal(t, "plugins", s.PluginDir)
	require.Equal(t, Sundries{PercentOfParts: "8"}, s.Sundries)
	require.Equal(t, []PluginPin{{Name: "axle", Path: "plugins/axle.yaml", SHA256: "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"}}, s.Plugins)

	bare, err := ReadSettings([]byte("shop: {name: n}\ncurrency: EUR\n"), "x", nil)
	require.NoError(t, err)
	require.Empty(t, bare.Rates, "no rate is ever assumed")
	require.Empty(t, bare.Taxes)
	require.Equal(t, "UTC", bare.Zone.String())
}

// TestFlagOverVariableOverFile: flag, then FETTLE_ variable, then file.
func TestFlagOverVariableOverFile(t *testing.T) {
	flags := pflag.NewFlagSet("fettle", pflag.ContinueOnError)
	flags.Int("people", 0, "")
	flags.String("zone", "", "")
	read := func() Settings {
		s, err := ReadSettings([]byte(smallSettings), "x", flags)
		require.NoError(t, err)
		return s
	}
	require.Equal(t, 2, read().People, "a flag not given changes nothing")
	t.Setenv("FETTLE_PEOPLE", "3")
	t.Setenv("FETTLE_WEEKLY_HOURS", "12.5")
	require.Equal(t, 3, read().People)
	require.Equal(t, 12.5, read().WeeklyHours)
	require.NoError(t, flags.Parse([]string{"--people=4"}))
	require.Equal(t, 4, read().People)
	require.Equal(t, "America/New_York", read().Zone.String())

	t.Setenv("FETTLE_CURRENCY", "shillings")
	require.NoError(t, flags.Parse([]string{"--people=0", "--zone=Nowhere"}))
	_, err := ReadSettings([]byte(smallSettings), "x", flags)
	require.ElementsMatch(t, []string{`FETTLE_CURRENCY: "shillings" is no currency`, `--zone: "Nowhere" is no time zone`, "--people: people: 0 is outside what can be meant"}, told(t, err))
}

func TestSettingsFaults(t *testing.T) {
	text := `shop: {nam: n}
zone: Mars/Olympus
rates: {mechanic: lots, mechanic: 5, fitter: }
taxes: [{class: parts, percent: 101, name: n}, {class: parts, percent: 1, name: n}]
people: two
weekly_hours: -1
valid_days: 1.5
sundries: {percent_of_parts: 8, an_hour: 3.5x}
plugins: [{name: a, path: p, sha256: abc}, {name: a, path: p, sha256: ""}]
rate: 5
`
	_, err := ReadSettings([]byte(text), "x", nil)
	require.Equal(t, []string{
		"1:1: the settings have no currency",
		"1:7: shop has no name",
		`1:8: unknown key "nam" in shop`,
		`2:7: "Mars/Olympus" is no time zone`,
		`3:19: "lots" is no hourly rate`,
		"3:25: mechanic stands here twice",
		"3:38: fitter is blank",
		`4:33: "101" is no percentage`,
		"4:56: the class parts is taxed twice",
		`5:9: people: "two" is no number`,
		"6:15: weekly_hours: -1 is outside what can be meant",
		"7:13: valid_days: 1.5 is no whole number",
		"8:11: sundries are charged by parts and by hours",
		`8:42: "3.5x" is no amount`,
		"9:38: this is no SHA-256: it has 3 characters, not 64 hexadecimal digits",
		"9:51: the plugin a is pinned twice",
		"9:63: sha256 is blank in an entry of plugins",
		`10:1: unknown key "rate" in the settings`,
	}, told(t, err))
	_, err = ReadSettings([]byte("shop: ["), "x", nil)
	require.Len(t, told(t, err), 1, "what is no YAML is one fault")
}

func TestLoadSettings(t *testing.T) {
	dir := t.TempDir()
	_, err := LoadSettings(dir, nil)
	require.Equal(t, core.NotFound, core.ErrorCode(err))
	require.NoError(t, os.WriteFile(filepath.Join(dir, SettingsFile), []byte(smallSettings), 0o600))
	s, err := LoadSettings(dir, nil)
	require.NoError(t, err)
	require.Equal(t, "Hollow Lane Works", s.Shop.Name)
}
