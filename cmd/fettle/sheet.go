package main

import (
	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

func (c *command) sheetCommand() *cobra.Command {
	var number string
	cmd := &cobra.Command{
		Use:   "sheet NAME",
		Short: "What a subsystem asks you to look at, and against which limits",
		Long: `Limits scale by the sizes of the unit that is there: those of the job named with --job, else of the shop's first job. Without a job,
limits that scale are left open.`,
		Example: "  fettle sheet gearbox\n  fettle sheet bottom-end --job J-001 --json",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx := cmd.Context()
			s, err := c.openShop(ctx)
			if err != nil {
				return err
			}
			defer s.close()
			var job core.Job
			if jobs, err := s.book.Jobs(ctx); err != nil {
				return err
			} else if number != "" {
				if job, err = s.job(ctx, number); err != nil {
					return err
				}
			} else if len(jobs) > 0 {
				job = jobs[0]
			}
			sheet, facts, err := s.sheet(ctx, job, args[0])
			if err != nil {
				return err
			}
			if c.asJSON() {
				return writeJSON(c.out, sheet)
			}
			printSheet(c.out, sheet, facts)
			return nil
		},
	}
	cmd.Flags().StringVar(&number, "job", "", "the `JOB` whose units' sizes scale the limits")
	return cmd
}
