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
			return c.withFinish(cmd.Context(), args, func(s *shop, p core.Plan) error {
				if c.asJSON() {
					return writeJSON(c.out, planToJSON(p))
				}
				printPlan(c.out, p)
				para(c.out, "  ", finishLine(p.Finish, s.settings().Zone))
				return nil
			})
		},
	}
}

func (c *command) budgetCommand() *cobra.Command {
	var sum, finish string
	var byDay bool
	cmd := &cobra.Command{
		Use:     "budget [JOB]",
		Short:   "How sure the sum and the finish are: the chance that they hold, and what widens them",
		Example: "  fettle budget J-001\n  fettle budget J-001 --sum 95000\n  fettle budget J-001 --finish \"30 weeks\"\n  fettle budget J-001 --by-day",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if byDay {
				return c.budgetByDay(cmd.Context(), append(args, "")[0])
			}
			return c.withFinish(cmd.Context(), args, func(s *shop, p core.Plan) error {
				asked, err := s.typedAmountOr("sum", sum)
				if err != nil {
					return err
				}
				day, err := s.typedDate("finish", finish)
				if err != nil {
					return err
				}
				by, err := s.finishBy(p, day)
				if err != nil {
					return err
				}
				story, err := s.book.Story(cmd.Context(), p.Job.Number)
				if err != nil {
					return err
				}
				out := budgetJSON{Job: p.Job.Number, HeldBack: story.HeldBack(), Budget: p.Budget, Tax: p.WorkOrder.Tax, Total: p.WorkOrder.Total, Lacks: p.Lacks(), Sum: asked, Finish: p.Finish, By: by, Learned: p.Learned}
				if asked != nil {
					out.Enough = new(p.Budget.Enough(*asked))
				}
				if c.asJSON() {
					return writeJSON(c.out, out)
				}
				printBudget(c.out, p)
				printHeldBack(c.out, s, out.HeldBack)
				printFinish(c.out, p.Finish, s.settings().Zone)
				if asked != nil {
					printEnough(c.out, out)
				}
				if by != nil {
					printFinishAsked(c.out, *by, s.day(day))
				}
				return nil
			})
		},
	}
	cmd.Flags().StringVar(&sum, "sum", "", "how likely is this `AMOUNT` before tax to be enough?")
	cmd.Flags().StringVar(&finish, "finish", "", "how likely is it to be done by this `DAY`, like 2026-12-20 or \"30 weeks\"?")
	cmd.Flags().BoolVar(&byDay, "by-day", false, "how it moved and narrowed, day by day, as more was read, and what each issued scope said")
	cmd.MarkFlagsMutuallyExclusive("sum", "by-day")
	cmd.MarkFlagsMutuallyExclusive("finish", "by-day")
	return cmd
}

// budgetByDay shows how a job's price moved as more was read; on a terminal it tells how far it is.
func (c *command) budgetByDay(ctx context.Context, number string) error {
	return c.withShop(ctx, func(s *shop) error {
		job, err := s.job(ctx, number)
		if err != nil {
			return err
		}
		issued, err := s.asIssued(ctx, job)
		if err != nil {
			return err
		}
		days, err := s.byDay(ctx, job, func(n, of int) { c.progress("planning day", n, of) })
		if err != nil {
			return err
		}
		if c.asJSON() {
			return writeJSON(c.out, budgetDaysJSON{job.Number, days, issued})
		}
		printBudgetDays(c.out, job, days, issued)
		return nil
	})
}

// withPlan opens the shop, plans the job named (or the only one) and hands both on.
func (c *command) withPlan(ctx context.Context, args []string, f func(*shop, core.Plan) error) error {
	return c.withPlanned(ctx, args, (*shop).plan, f)
}

func (c *command) withPlanned(ctx context.Context, args []string, plan func(*shop, context.Context, core.Job) (core.Plan, error), f func(*shop, core.Plan) error) error {
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
	p, err := plan(s, ctx, job)
	if err != nil {
		return err
	}
	return f(s, p)
}
