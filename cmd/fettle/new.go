package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/config"
	"github.com/fettle-tools/fettle/core/store"
)

func (c *command) newCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use: "new", Short: "Make this folder a shop, or open a job",
		Example: "  fettle new shop \"Hollow Lane Works\" --currency USD --rate mechanic=85\n  fettle new job \"One gearbox\" --owner \"M. Wellbeck\" --unit gearbox",
	}
	cmd.AddCommand(c.newShopCommand(), c.newJobCommand())
	return cmd
}

func (c *command) newShopCommand() *cobra.Command {
	var currency, zone string
	var rates []string
	cmd := &cobra.Command{
		Use:     "shop NAME",
		Short:   "Make the folder a shop: settings to edit, and an empty book",
		Example: `  fettle new shop "Hollow Lane Works" --currency USD --zone America/New_York --rate mechanic=85`,
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			text, err := settingsText(args[0], currency, zone, rates)
			if err != nil {
				return err
			}
			if err := c.createShop(cmd.Context(), text); err != nil {
				return err
			}
			where := "This folder"
			if c.dir() != "." {
				where = c.dir()
			}
			file := filepath.Join(c.dir(), config.SettingsFile)
			return c.report(map[string]string{"shop": args[0], "settings": file},
				fmt.Sprintf("%s is a shop now. Its settings are in %s: look them over, rates and taxes above all.\n\n  %s new job \"What it is\" --owner \"Whose it is\"", where, file, c.self()))
		},
	}
	cmd.Flags().StringVar(&currency, "currency", "", "`CODE` of all money, like USD (needed)")
	cmd.Flags().StringVar(&zone, "zone", "UTC", "the shop's time `ZONE`, like Europe/London")
	cmd.Flags().StringArrayVar(&rates, "rate", nil, "what an hour costs, `SKILL=AMOUNT` like mechanic=85; may be repeated")
	return cmd
}

// settingsText writes the settings of a new shop, with what each is for.
func settingsText(name, currency, zone string, rates []string) (string, error) {
	if currency == "" {
		return "", core.Errorf(core.Invalid, "name it: --currency USD, or another", "which currency is all money in?")
	}
	if !core.ValidCurrency(strings.ToUpper(currency)) {
		return "", core.Errorf(core.Invalid, "write its three letters, like USD", "%q is no currency", currency)
	}
	if err := checkSettings(name, zone, rates); err != nil {
		return "", err
	}
	lines := []string{"# The settings of the shop. An unknown word here is told, never passed over.",
		"shop:", fmt.Sprintf("  name: %q", name), "  address: []", `  contact: ""`, "currency: " + strings.ToUpper(currency), "zone: " + zone,
		"rates:                # an hour, by skill; what has no rate is asked for, never assumed"}
	for _, r := range rates {
		skill, hour, _ := strings.Cut(r, "=")
		lines = append(lines, fmt.Sprintf("  %s: %s", skill, hour))
	}
	if len(rates) == 0 {
		lines[len(lines)-1] = "# rates:              # an hour, by skill; what has no rate is asked for, never assumed\n#   mechanic: 85"
	}
	lines = append(lines, "# taxes:              # by class; 0 is a rate, none is asked for", "#   - {class: labour, percent: 0, name: none}", "#   - {class: parts, percent: 0, name: none}",
		"#   - {class: outwork, percent: 0, name: none}", "people: 1             # hands present", "weekly_hours: 40      # for all jobs together", "valid_days: 30        # how long a scope holds", "")
	return strings.Join(lines, "\n"), nil
}

// skillWord is what a skill may be called.
var skillWord = regexp.MustCompile(`^[a-z][a-z -]*$`)

// checkSettings refuses what could not stand in the settings as one word or one figure. What it says is read again by whoever reads settings.
func checkSettings(name, zone string, rates []string) error {
	var errs faults
	if strings.TrimSpace(name) == "" {
		errs = append(errs, core.Errorf(core.Invalid, "write what stands above its door", "the shop has no name"))
	}
	if strings.ContainsFunc(name+zone, unicode.IsControl) {
		errs = append(errs, core.Errorf(core.Invalid, "write it on one line", "a name goes over several lines"))
	}
	for _, r := range rates {
		skill, hour, ok := strings.Cut(r, "=")
		if !ok || !skillWord.MatchString(skill) || hour == "" || strings.Trim(hour, "0123456789.") != "" {
			errs = append(errs, core.Errorf(core.Invalid, "write it like mechanic=85", "--rate %q", r))
		}
	}
	return errs.orNil()
}

// hasBook reports that the folder has a shop's book, sound or not.
func (c *command) hasBook() bool {
	_, err := os.Stat(filepath.Join(c.dir(), store.BookFile))
	return !errors.Is(err, fs.ErrNotExist)
}

// createShop writes the settings and makes the book; a folder that is a shop already is left as it is.
func (c *command) createShop(ctx context.Context, settings string) error {
	if _, err := config.ReadSettings([]byte(settings), config.SettingsFile, nil); err != nil {
		return err
	}
	file := filepath.Join(c.dir(), config.SettingsFile)
	if _, err := os.Stat(file); err == nil && !c.hasBook() {
		return &core.Error{Code: core.Conflict, What: "there are a shop's settings already, and no book", Where: file, Next: "put the book back: fettle backup --restore FILE; or move the settings out of the way"}
	}
	book, err := store.Create(ctx, c.dir(), c.clock)
	if err != nil {
		return err
	}
	if err := book.Close(); err != nil {
		return err
	}
	return os.WriteFile(file, []byte(settings), 0o644)
}

func (c *command) newJobCommand() *cobra.Command {
	var j jobFlags
	cmd := &cobra.Command{
		Use:   "job TITLE",
		Short: "Open a job: whose it is, what is there, how far it comes apart, what it is wanted for",
		Example: `  fettle new job "Gearbox and engine, Packhorse" --owner "M. Wellbeck" --vehicle "Packhorse of 1956" --pack packhorse-mark-b \
      --unit engine:d4-1959 --extent "named units or subsystems" --name engine --name gearbox
  fettle new job "One gearbox" --owner "M. Wellbeck" --unit gearbox --extent "one unit on the bench" --stages "deposit 40, on handover 60"`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx := cmd.Context()
			s, err := c.openShop(ctx)
			if err != nil {
				return err
			}
			defer s.close()
			job, err := j.job(s, args[0])
			if err != nil {
				return err
			}
			if job, err = s.openJob(ctx, job, c.by()); err != nil {
				return err
			}
			return c.report(job, fmt.Sprintf("%[1]s  %[2]s\n\n  %[3]s record %[1]s SUBSYSTEM PART POSITION CHECK READING\n  %[3]s sheet NAME --job %[1]s    what to look at; served here: %[4]s",
				job.Number, job.Title, c.self(), strings.Join(s.names, ", ")))
		},
	}
	j.define(cmd.Flags())
	cmd.Flags().StringArrayVar(&j.units, "unit", nil, "a unit that is there, `KIND[=NAME][:PACK]` like engine:d4-1959 or gearbox=spare; may be repeated")
	return cmd
}

// openJob opens a job in the book once all that it names is known.
func (s *shop) openJob(ctx context.Context, job core.Job, by string) (core.Job, error) {
	job.Seed = s.settings().Seed
	if err := s.checkJob(ctx, job); err != nil {
		return job, err
	}
	return s.book.OpenJob(ctx, job, by)
}

// jobFlags are what a job may be opened with.
type jobFlags struct {
	owner, vehicle, pack, stages string
	units, apart                 []string
	briefFlags
}

// briefFlags are how far it comes apart, what it is wanted for and how it has lived.
type briefFlags struct {
	extent                   string
	names                    []string
	use, stored, ran, worked string
	originality              int
	originalityOf            []string // SUBSYSTEM=LEVEL
	most, weekWorth          string   // amounts; "" for none
	horizonKM, horizonYears  float64
	serviceKM, ageYears      float64
}

// define adds the flags but for the units, which have a command of their own once a job is open.
func (j *jobFlags) define(f *pflag.FlagSet) {
	f.StringVar(&j.owner, "owner", "", "`NAME` of the owner")
	f.StringVar(&j.vehicle, "vehicle", "", "`WHAT` stands in the yard; leave out for a unit on the bench")
	f.StringVar(&j.pack, "pack", "", "`ID` of the vehicle's pack of sizes, limits and weights")
	f.StringArrayVar(&j.apart, "apart", nil, "a `STEP` of the strip plan that was done before it came; may be repeated")
	f.StringVar(&j.stages, "stages", "", "the `STAGES` in which it is paid, in percents of the agreed sum: \"deposit 40, engine in 35, on handover 25\"; the usual ones if left out")
	j.briefFlags.define(f)
}

func (j *briefFlags) define(f *pflag.FlagSet) {
	f.StringVar(&j.extent, "extent", core.ExtentAsNeeded, fmt.Sprintf("`HOW` far it comes apart: %q, %q, %q or %q", core.ExtentBareFrame, core.ExtentNamed, core.ExtentAsNeeded, core.ExtentBench))
	f.StringArrayVar(&j.names, "name", nil, "`NAME` of a unit or subsystem that is to come apart; may be repeated")
	f.StringVar(&j.use, "use", "", "`WHAT` the owner wants it for")
	f.IntVar(&j.originality, "originality", 0, "`LEVEL` 1 usable, 2 right to look at, 3 right type and dates, 4 keep what is old; 0 not said")
	f.StringArrayVar(&j.originalityOf, "originality-of", nil, "the level of one `SUBSYSTEM=LEVEL` that is to be kept otherwise, like body=3; may be repeated; \"\" takes them back")
	f.StringVar(&j.most, "most", "", "the most that may be spent, an `AMOUNT` before tax: the plan keeps to it, or says what would be enough; \"\" takes it back")
	f.StringVar(&j.weekWorth, "week-worth", "", "what a week less of waiting for goods and work outside is worth, an `AMOUNT`; \"\" takes it back")
	f.Float64Var(&j.horizonKM, "horizon-km", 20000, "`KM` it is to go before it may need opening again")
	f.Float64Var(&j.horizonYears, "horizon-years", 10, "`YEARS` it is to last before it may need opening again")
	f.StringVar(&j.stored, "stored", "", "`HOW` it stood: dry, damp, outdoors or water")
	f.StringVar(&j.ran, "ran", "", "`WHEN` it ran: \"within 2 years\", longer or \"never seen\"")
	f.StringVar(&j.worked, "worked", "", "`HOW` it worked: hard or light")
	f.Float64Var(&j.serviceKM, "service-km", 0, "`KM` since new or rebuilt, if known")
	f.Float64Var(&j.ageYears, "age-years", 0, "`YEARS` since new or rebuilt, if known")
}

// wishes fills in what the owner would have otherwise than the cheapest sound plan has it.
func (j *briefFlags) wishes(s *shop, b *core.Brief) (errs faults) {
	for _, text := range slices.DeleteFunc(slices.Clone(j.originalityOf), func(text string) bool { return text == "" }) {
		name, word, _ := strings.Cut(text, "=")
		level, err := strconv.Atoi(word)
		if err != nil || level < 1 || level > 4 {
			errs = append(errs, core.Errorf(core.Invalid, "write it like body=3, the level 1 to 4", "--originality-of %q", text))
			continue
		}
		errs = append(errs, known("--originality-of", name, s.names)...)
		b.OriginalityOf = append(b.OriginalityOf, core.SubsystemLevel{Subsystem: name, Level: level})
	}
	return append(errs, j.sums(s, b, func(flag string) string { return "--" + flag })...)
}

// sums fills in the sums of money among them; called gives what a flag is called in an error.
func (j *briefFlags) sums(s *shop, b *core.Brief, called func(flag string) string) (errs faults) {
	for _, x := range []struct {
		flag, text string
		into       **core.Money
	}{{"most", j.most, &b.Most}, {"week-worth", j.weekWorth, &b.WeekWorth}} {
		m, err := s.typedAmountOr("", x.text)
		if err != nil {
			err = core.Errorf(core.Invalid, core.ErrorNext(err), "%s %s", called(x.flag), err)
		} else if m != nil && core.Minor(*m) <= 0 {
			err = core.Errorf(core.Invalid, "write an amount above 0, or \"\" for none", "%s %s", called(x.flag), x.text)
		}
		if err != nil {
			errs = append(errs, err)
			continue
		}
		*x.into = m
	}
	return errs
}

func (j *jobFlags) job(s *shop, title string) (core.Job, error) {
	job := core.Job{Title: title, Owner: core.Party{Name: j.owner}, Extent: core.Extent{Kind: j.extent, Names: j.names, Apart: j.apart},
		Brief: core.Brief{Use: j.use, Originality: j.originality, HorizonKM: j.horizonKM, HorizonYears: j.horizonYears, Stored: j.stored, Ran: j.ran, Worked: j.worked}}
	var errs faults
	oneOf := func(flag, value string, words ...string) {
		if value == "" {
			return
		}
		for _, w := range words {
			if value == w {
				return
			}
		}
		errs = append(errs, core.Errorf(core.Invalid, "use one of: "+strings.Join(words, ", "), "--%s %q", flag, value))
	}
	oneOf("extent", j.extent, core.ExtentBareFrame, core.ExtentNamed, core.ExtentAsNeeded, core.ExtentBench)
	oneOf("stored", j.stored, core.StoredWords...)
	oneOf("ran", j.ran, core.RanWords...)
	oneOf("worked", j.worked, core.WorkedWords...)
	for _, x := range []struct {
		flag  string
		value float64
	}{{"horizon-km", j.horizonKM}, {"horizon-years", j.horizonYears}, {"service-km", j.serviceKM}, {"age-years", j.ageYears}} {
		if !(x.value >= 0 && x.value < 1e7) {
			errs = append(errs, core.Errorf(core.Invalid, "write a number of 0 or more", "--%s %s", x.flag, core.FormatNumber(x.value)))
		}
	}
	errs = append(errs, j.wishes(s, &job.Brief)...)
	if j.stages != "" {
		var err error
		if job.Stages, err = core.ReadStages(j.stages); err != nil {
			errs = append(errs, err)
		}
	}
	if j.serviceKM > 0 {
		job.Brief.ServiceKM = &j.serviceKM
	}
	if j.ageYears > 0 {
		job.Brief.AgeYears = &j.ageYears
	}
	if j.vehicle != "" {
		job.Vehicle = &core.Vehicle{Title: j.vehicle, Pack: j.pack}
	}
	for _, u := range j.units {
		kind, pack, _ := strings.Cut(u, ":")
		kind, id, named := strings.Cut(kind, "=")
		if !named {
			id = kind
		}
		job.Units = append(job.Units, core.Unit{ID: id, Kind: kind, Title: kind, Pack: pack})
	}
	errs = append(errs, job.CheckOpening()...)
	if len(errs) > 0 {
		return core.Job{}, errs
	}
	return job, nil
}
