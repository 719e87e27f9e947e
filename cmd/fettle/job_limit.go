package main

import (
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

func (c *command) jobLimitCommand() *cobra.Command {
	var l core.Limit
	var newLow, newHigh, wearLow, wearHigh float64
	cmd := &cobra.Command{
		Use: "limit JOB PART CHECK", Short: "Give a check its limit for this job; without --source the sheet's comes back", Args: cobra.ExactArgs(3),
		Long: `PART is a part, or part/position for one position. The job's limit wins over the unit's pack, the vehicle's pack and the sheet. Say where it comes
from: it is printed beside every verdict.`,
		Example: `  fettle job limit J-001 gearbox/layshaft-cluster end-float --new-low .004 --new-high .010 --wear-high .018 --source "manual of the gearbox, page 7"
  fettle job limit J-001 gearbox/layshaft-cluster end-float`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				job, err := s.job(cmd.Context(), args[0])
				if err != nil {
					return err
				}
				o := core.SubsystemOverride{}
				subsystem, part, found := strings.Cut(args[1], "/")
				if !found {
					return core.Errorf(core.Invalid, "write it like gearbox/layshaft-cluster", "%q names no subsystem", args[1])
				}
				o.Subsystem, o.Check = subsystem, args[2]
				o.Target.Part, o.Target.Position, _ = strings.Cut(part, "/")
				sheet, _, err := s.sheet(cmd.Context(), job, subsystem)
				if err != nil {
					return err
				}
				check := sheet.Check(o.Target.Part, o.Check)
				if check == nil {
					return core.Errorf(core.NotFound, "see: fettle sheet "+subsystem, "%s has no check %q of %q", subsystem, o.Check, o.Target.Part)
				}
				for flag, v := range map[string]struct {
					from *float64
					to   **float64
				}{"new-low": {&newLow, &l.NewLow}, "new-high": {&newHigh, &l.NewHigh}, "wear-low": {&wearLow, &l.WearLow}, "wear-high": {&wearHigh, &l.WearHigh}} {
					if cmd.Flags().Changed(flag) {
						*v.to = v.from
					}
				}
				if l.Source != "" && l.NewLow == nil && l.NewHigh == nil && l.WearLow == nil && l.WearHigh == nil {
					return core.Errorf(core.Invalid, "give --new-low, --new-high, --wear-low or --wear-high", "the limit has no figure")
				}
				if l.Unit == "" {
					l.Unit = check.Unit
				}
				l.Origin, o.Limit = "job", l
				return c.changed(cmd.Context(), s, job.Number, store.Change{Overrides: []core.SubsystemOverride{o}})
			})
		},
	}
	f := cmd.Flags()
	f.Float64Var(&newLow, "new-low", 0, "the `LEAST` that is as new")
	f.Float64Var(&newHigh, "new-high", 0, "the `MOST` that is as new")
	f.Float64Var(&wearLow, "wear-low", 0, "under this `SIZE` it is past its limit")
	f.Float64Var(&wearHigh, "wear-high", 0, "over this `SIZE` it is past its limit")
	f.StringVar(&l.Unit, "unit", "", "`UNIT` of the figures; the check's if left out")
	f.StringVar(&l.Source, "source", "", "`WHERE` it comes from: a manual's page, a drawing")
	f.StringVar(&l.Confidence, "confidence", "high", "`HOW` sure it is: high, medium or low")
	return cmd
}
