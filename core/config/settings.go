package config

import (
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
	_ "time/tzdata" // A shop's zone must be known on machines that have no list of zones.

	"github.com/spf13/pflag"
	"github.com/spf13/viper"

	"github.com/fettle-tools/fettle/core"
)

// SettingsFile is the name of the settings in a shop folder.
const SettingsFile = "fettle.yaml"

// Settings are what a shop says of itself. No hourly rate and no tax is ever assumed.
type Settings struct {
	Shop        core.Party
	Currency    string         // ISO 4217
	Zone        *time.Location // times are shown in it; UTC if not said
	Rates       []core.Rate    // an hour, by skill, in the order written
	Taxes       []core.Tax     // by class, in the order written
	People      int            // hands present; 0: not said
	WeeklyHours float64        // for jobs together; 0: not said
	ValidDays   int            // how long a scope holds; 30 if not said
	Payment     string         // how it is paid, a sentence
	Terms       []string       // paragraphs, printed as they are
	Sundries    Sundries
	PluginDir   string // relative to the shop folder; "plugins" if not said
	Plugins     []PluginPin
	Seed        uint64 // for new jobs; 0: each job its own
	Trials      int    // of a budget; 0: as many as usual
}

// Sundries are what small goods are charged by: one of the two, or neither.
type Sundries struct {
	PercentOfParts string // decimal text; "" if not by parts
	AnHour         string // decimal text in the shop's currency; "" if not by hours
}

// PluginPin is a plugin that the shop trusts: the file with these bytes and no other.
type PluginPin struct {
	Name   string
	Path   string // relative to the shop folder
	SHA256 string // in lower-case hexadecimal
}

type settingsFile struct {
	Shop struct {
		Name    text   `key:"name,need"`
		Address []text `key:"address"`
		Contact text   `key:"contact"`
	} `key:"shop,need"`
	Currency    text          `key:"currency"`
	Zone        text          `key:"zone"`
	Rates       pairs         `key:"rates"`
	Taxes       []taxFile     `key:"taxes"`
	People      text          `key:"people"`
	WeeklyHours text          `key:"weekly_hours"`
	ValidDays   text          `key:"valid_days"`
	Payment     text          `key:"payment"`
	Terms       []text        `key:"terms"`
	Sundries    sundriesFile  `key:"sundries"`
	PluginDir   text          `key:"plugin_dir"`
	Plugins     []pluginsFile `key:"plugins"`
	Seed        text          `key:"seed"`
	Trials      text          `key:"trials"`
}

type taxFile struct {
	Class   text `key:"class,need"`
	Percent text `key:"percent,need"`
	Name    text `key:"name,need"`
}

type sundriesFile struct {
	Mark    mark
	Percent text `key:"percent_of_parts"`
	AnHour  text `key:"an_hour"`
}

type pluginsFile struct {
	Name   text `key:"name,need"`
	Path   text `key:"path,need"`
	SHA256 text `key:"sha256,need"`
}

// LoadSettings reads the settings of the shop in dir. It is NotFound if there are none. See ReadSettings.
func LoadSettings(dir string, flags *pflag.FlagSet) (Settings, error) {
	path := filepath.Join(dir, SettingsFile)
	data, err := os.ReadFile(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		e := core.Errorf(core.Unavailable, "check that the file may be read", "the shop's settings cannot be read")
		e.Where, e.Err = path, err
		return Settings{}, e
	}
	if err != nil {
		e := core.Errorf(core.NotFound, "go to the shop folder, name it with -C DIR, or make one with: fettle new", "there are no shop's settings here")
		e.Where = path
		return Settings{}, e
	}
	return ReadSettings(data, SettingsFile, flags)
}

// ReadSettings reads a shop's settings:
//
//	shop:
//	  name: Hollow Lane Works
//	  address: [Hollow Lane, Upper Yard]
//	  contact: telephone 1234
//	currency: USD                # of all money; needed
//	zone: America/New_York       # IANA name; UTC if left out
//	rates:                       # money an hour, by skill; what has no rate is asked for, never assumed
//	  mechanic: 85
//	  machinist: 95.50
//	taxes:                       # by class: labour, parts, outwork ...
//	  - {class: parts, percent: 8.25, name: Sales tax}
//	people: 2                    # hands present: a step that needs more is not offered
//	weekly_hours: 45             # of the bench, for all jobs together; left out: nothing is said of when a job is done
//	valid_days: 30               # how long a scope holds
//	payment: Half on approval, half at handover.
//	terms: ["Have these terms checked locally."]
//	sundries: {percent_of_parts: 8}      # or {an_hour: 3.50}
//	plugin_dir: plugins
//	plugins: [{name: gearbox, path: plugins/gearbox.yaml, sha256: 64 hexadecimal digits}]
//	seed: 7                      # of new jobs' budgets; left out: each job has its own
//	trials: 100000
//
// A scalar at the top may also be given by a variable (FETTLE_WEEKLY_HOURS for weekly_hours), and by a flag (--weekly-hours)
// where flags has one: a flag that was given wins over the variable, the variable over the file. flags may be nil.
func ReadSettings(data []byte, file string, flags *pflag.FlagSet) (Settings, error) {
	d := &document{file: file}
	var f settingsFile
	if !d.read(data, "the settings", &f) {
		return Settings{}, d.err()
	}
	o := overlay{d: d, v: viper.New(), flags: flags}
	o.lay(&f)
	s := Settings{Shop: core.Party{Name: f.Shop.Name.s, Contact: f.Shop.Contact.s}, Payment: f.Payment.s, PluginDir: f.PluginDir.or("plugins")}
	for _, a := range f.Shop.Address {
		s.Shop.Address = append(s.Shop.Address, a.s)
	}
	for _, t := range f.Terms {
		s.Terms = append(s.Terms, t.s)
	}
	if s.Currency = strings.ToUpper(f.Currency.s); s.Currency == "" {
		d.add(mark{1, 1}, "add currency: USD, or another", "the settings have no currency")
	} else if !core.ValidCurrency(s.Currency) {
		o.fault("currency", f.Currency, "write its three letters, like USD", "%q is no currency", f.Currency.s)
		s.Currency = ""
	}
	var err error
	if s.Zone, err = time.LoadLocation(f.Zone.or("UTC")); err != nil {
		o.fault("zone", f.Zone, "write an IANA name like Europe/London", "%q is no time zone", f.Zone.s)
	}
	s.People = int(o.number("people", f.People, 1, 100, true))
	s.WeeklyHours = o.number("weekly_hours", f.WeeklyHours, 1, 1000, false)
	if s.ValidDays = int(o.number("valid_days", f.ValidDays, 1, 3650, true)); s.ValidDays == 0 {
		s.ValidDays = 30
	}
	s.Seed = uint64(o.number("seed", f.Seed, 0, 1<<53, true))
	s.Trials = int(o.number("trials", f.Trials, 100, 10_000_000, true))
	s.Rates = d.rates(f.Rates, s.Currency)
	s.Taxes = d.taxes(f.Taxes)
	s.Sundries = d.sundries(f.Sundries)
	s.Plugins = d.plugins(f.Plugins)
	if err := d.err(); err != nil {
		return Settings{}, err
	}
	return s, nil
}

func (d *document) rates(ps pairs, currency string) (rates []core.Rate) {
	for _, p := range ps {
		if !amount.MatchString(plainNumber(p.value.s)) {
			d.add(p.value.mark, "write an amount like 85 or 85.50", "%q is no hourly rate", p.value.s)
			continue
		}
		if currency == "" {
			continue
		}
		m, err := core.NewMoney(plainNumber(p.value.s), currency)
		if err != nil {
			d.add(p.value.mark, core.ErrorNext(err), "%q is no hourly rate", p.value.s)
			continue
		}
		rates = append(rates, core.Rate{Skill: p.key.s, Hour: m})
	}
	return rates
}

func (d *document) taxes(files []taxFile) (taxes []core.Tax) {
	seen := map[string]bool{}
	for _, f := range files {
		if seen[f.Class.s] {
			d.add(f.Class.mark, "keep one of them", "the class %s is taxed twice", f.Class.s)
		}
		seen[f.Class.s] = true
		taxes = append(taxes, core.Tax{Class: f.Class.s, Percent: d.percent(f.Percent), Name: f.Name.s})
	}
	return taxes
}

// percent checks a decimal percentage and gives its text; blank is let pass.
func (d *document) percent(t text) string {
	s := plainNumber(t.s)
	if s == "" {
		return ""
	}
	if _, err := core.ParsePercent(s); err != nil || !amount.MatchString(s) {
		d.add(t.mark, "write a percentage like 8.25", "%q is no percentage", t.s)
	}
	return s
}

func (d *document) sundries(f sundriesFile) Sundries {
	if f.Percent.s != "" && f.AnHour.s != "" {
		d.add(f.Mark, "choose one", "sundries are charged by parts and by hours")
	}
	if f.AnHour.s != "" && !amount.MatchString(plainNumber(f.AnHour.s)) {
		d.add(f.AnHour.mark, "write an amount like 3.50", "%q is no amount", f.AnHour.s)
	}
	return Sundries{PercentOfParts: d.percent(f.Percent), AnHour: plainNumber(f.AnHour.s)}
}

func (d *document) plugins(files []pluginsFile) (pins []PluginPin) {
	seen := map[string]bool{}
	for _, f := range files {
		if seen[f.Name.s] {
			d.add(f.Name.mark, "keep one of them", "the plugin %s is pinned twice", f.Name.s)
		}
		seen[f.Name.s] = true
		p := PluginPin{Name: d.id(f.Name), Path: f.Path.s, SHA256: strings.ToLower(f.SHA256.s)}
		if b, err := hex.DecodeString(p.SHA256); p.SHA256 != "" && (err != nil || len(b) != 32) {
			d.add(f.SHA256.mark, "write what the system's sha256 command gives for the file",
				"this is no SHA-256: it has %d characters, not 64 hexadecimal digits", len(p.SHA256))
		}
		pins = append(pins, p)
	}
	return pins
}
