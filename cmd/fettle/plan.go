package main

import (
	"context"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

func (c *command) planCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "plan [JOB]",
		Short:   "What was found, what to do with each part, what it will cost",
		Example: "  fettle plan J-001\n  fettle plan J-001 --json",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withPlan(cmd.Context(), args, func(_ *shop, p core.Plan) error {
				if c.asJSON() {
					return writeJSON(c.out, planToJSON(p))
				}
				printPlan(c.out, p)
				return nil
			})
		},
	}
}

func (c *command) budgetCommand() *cobra.Command {
	var sum string
	var byDay bool
	cmd := &cobra.Command{
		Use:     "budget [JOB]",
		Short:   "How sure the sum is: the chance that it is enough, and what widens it",
		Example: "  fettle budget J-001\n  fettle budget J-001 --sum 95000\n  fettle budget J-001 --by-day",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if byDay {
				return c.budgetByDay(cmd.Context(), append(args, "")[0])
			}
			return c.withPlan(cmd.Context(), args, func(s *shop, p core.Plan) error {
				asked, err := s.typedAmountOr("sum", sum)
				if err != nil {
					return err
				}
				out := budgetJSON{Job: p.Job.Number, Budget: p.Budget, Tax: p.WorkOrder.Tax, Total: p.WorkOrder.Total, Sum: asked, Learned: p.Learned}
				if asked != nil {
					out.Enough = new(p.Budget.Enough(*asked))
				}
				if c.asJSON() {
					return writeJSON(c.out, out)
				}
				printBudget(c.out, p)
				if asked != nil {
					printEnough(c.out, out)
				}
				return nil
			})
		},
	}
	cmd.Flags().StringVar(&sum, "sum", "", "how likely is this `AMOUNT` before tax to be enough?")
	cmd.Flags().BoolVar(&byDay, "by-day", false, "how it moved and narrowed, day by day, as more was read")
	cmd.MarkFlagsMutuallyExclusive("sum", "by-day")
	return cmd
}

// budgetByDay shows how a job's price moved as more was read; on a terminal it tells how far it is.
func (c *command) budgetByDay(ctx context.Context, number string) error {
	return c.withShop(ctx, func(s *shop) error {
		job, err := s.job(ctx, number)
		if err != nil {
			return err
		}
		days, err := s.byDay(ctx, job, func(n, of int) { c.progress("planning day", n, of) })
		if err != nil {
			return err
		}
		if c.asJSON() {
			return writeJSON(c.out, budgetDaysJSON{job.Number, days})
		}
		printBudgetDays(c.out, job, days)
		return nil
	})
}

// withPlan opens the shop, plans the job named (or the only one) and hands both on.
func (c *command) withPlan(ctx context.Context, args []string, f func(*shop, core.Plan) error) error {
	s, err := c.openShop(ctx)
	if err != nil {
		return err
	}
	defer s.close()
	number := ""
	if len(args) > 0 {
		number = args[0]
	}
	job, err := s.job(ctx, number)
	if err != nil {
		return err
	}
	p, err := s.plan(ctx, job)
	if err != nil {
		return err
	}
	return f(s, p)
}
