package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

func (c *command) jobSetCommand() *cobra.Command {
	var j jobFlags
	var title string
	cmd := &cobra.Command{
		Use: "set JOB", Short: "Change what a job was opened with: title, owner, vehicle, extent, what it is wanted for", Args: cobra.ExactArgs(1),
		Long:    "Only what is given changes. Units have a command of their own: fettle unit. An empty --stages brings the usual stages back.",
		Example: "  fettle job set J-002 --horizon-years 8 --worked light\n  fettle job set J-002 --extent \"named units or subsystems\" --name brakes --name hubs-wheels",
		RunE: func(cmd *cobra.Command, args []string) error {
			if !acting(cmd) {
				return core.Errorf(core.Invalid, "say what is otherwise, such as: "+c.self()+" job set "+args[0]+" --worked light", "nothing is said to be changed")
			}
			return c.withShop(cmd.Context(), func(s *shop) error {
				old, err := s.book.Job(cmd.Context(), args[0])
				if err != nil {
					return err
				}
				given := cmd.Flags().Changed
				j.keep(given, old)
				put(!given("title"), &title, old.Title)
				job, err := j.job(s, title)
				if err != nil {
					return err
				}
				job.Number, job.Units = old.Number, old.Units
				if err := s.checkJob(cmd.Context(), job); err != nil {
					return err
				}
				return c.changed(cmd.Context(), s, old.Number, difference(given, old, job))
			})
		},
	}
	j.define(cmd.Flags())
	cmd.Flags().StringVar(&title, "title", "", "`WHAT` the job is called")
	return cmd
}

// keep fills in from a job what was not given.
func (j *jobFlags) keep(given func(string) bool, old core.Job) {
	b, e := old.Brief, old.Extent
	put(!given("owner"), &j.owner, old.Owner.Name)
	put(!given("extent"), &j.extent, e.Kind)
	put(!given("name"), &j.names, e.Names)
	put(!given("apart"), &j.apart, e.Apart)
	put(!given("use"), &j.use, b.Use)
	put(!given("originality"), &j.originality, b.Originality)
	if !given("originality-of") {
		j.originalityOf = nil
		for _, l := range b.OriginalityOf {
			j.originalityOf = append(j.originalityOf, fmt.Sprintf("%s=%d", l.Subsystem, l.Level))
		}
	}
	put(!given("most"), &j.most, numberOf(b.Most))
	put(!given("week-worth"), &j.weekWorth, numberOf(b.WeekWorth))
	put(!given("horizon-km"), &j.horizonKM, b.HorizonKM)
	put(!given("horizon-years"), &j.horizonYears, b.HorizonYears)
	put(!given("stored"), &j.stored, b.Stored)
	put(!given("ran"), &j.ran, b.Ran)
	put(!given("worked"), &j.worked, b.Worked)
	if b.ServiceKM != nil {
		put(!given("service-km"), &j.serviceKM, *b.ServiceKM)
	}
	if b.AgeYears != nil {
		put(!given("age-years"), &j.ageYears, *b.AgeYears)
	}
	if old.Vehicle != nil {
		put(!given("vehicle"), &j.vehicle, old.Vehicle.Title)
		put(!given("pack"), &j.pack, old.Vehicle.Pack)
	}
	if e.Kind == core.ExtentBench { // what the check of a bench job asks for
		j.units = nil
		for _, u := range old.Units {
			j.units = append(j.units, u.Kind+"="+u.ID)
		}
	}
}

// numberOf is an amount as it is typed; "" for none.
func numberOf(m *core.Money) string {
	if m == nil {
		return ""
	}
	return m.Number()
}

// difference is what of a job was given anew.
func difference(given func(string) bool, old, job core.Job) (c store.Change) {
	any := func(flags ...string) bool {
		for _, f := range flags {
			if given(f) {
				return true
			}
		}
		return false
	}
	if given("title") {
		c.Title = &job.Title
	}
	if given("owner") && job.Owner.Name != old.Owner.Name {
		c.Owner = &job.Owner
	}
	if any("vehicle", "pack") && job.Vehicle != nil {
		if old.Vehicle != nil {
			job.Vehicle.Marks = old.Vehicle.Marks
		}
		c.Vehicle = job.Vehicle
	}
	brief := pflag.NewFlagSet("", pflag.ContinueOnError)
	new(briefFlags).define(brief)
	brief.VisitAll(func(f *pflag.Flag) {
		if f.Name != "extent" && f.Name != "name" && given(f.Name) {
			c.Brief = &job.Brief
		}
	})
	if any("extent", "name", "apart") {
		c.Extent = &job.Extent
	}
	if given("stages") {
		c.Stages = append([]core.StageShare{}, job.Stages...)
	}
	return c
}
