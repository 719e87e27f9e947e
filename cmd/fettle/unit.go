package main

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

func (c *command) unitCommand() *cobra.Command {
	cmd := &cobra.Command{Use: "unit", Short: "The units of a job: which is in, which lends its parts, which does not belong",
		Example: "  fettle unit list J-001\n  fettle unit swap J-001 gearbox gearbox-2 --why \"the case is cracked\""}
	cmd.AddCommand(c.unitListCommand(), c.unitAddCommand(), c.unitSwapCommand(), c.unitBelongsCommand(), c.unitTakeCommand())
	return cmd
}

func (c *command) unitListCommand() *cobra.Command {
	return &cobra.Command{
		Use: "list JOB", Short: "Units with marks, what each is to the job, and what the owner decided", Args: cobra.ExactArgs(1), Example: "  fettle unit list J-001",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				job, err := s.book.Job(cmd.Context(), args[0])
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, struct {
						Units []core.Unit       `json:"units"`
						Moved []core.Transplant `json:"moved"`
					}{orEmpty(job.Units), orEmpty(job.Moved)})
				}
				printUnits(c.out, job)
				return nil
			})
		},
	}
}

func printUnits(w io.Writer, j core.Job) {
	t := newTable("unit", "kind", "is", "belongs", "what it is")
	for _, u := range j.Units {
		role := u.Role
		if role == "" {
			role = "in work"
		}
		belongs := u.Belongs
		if belongs == "" && slices.ContainsFunc(u.Marks, core.Mark.Foreign) {
			belongs = "ask the owner"
		}
		if u.Worth != nil {
			belongs = strings.TrimPrefix(belongs+", worth "+amount(*u.Worth), ", ")
		}
		t.add(u.ID, u.Kind, role, belongs, strings.TrimSpace(u.Title+" "+parens(u.Pack)))
	}
	t.print(w, "", screen)
	for _, m := range j.Moved {
		fmt.Fprintf(w, "%s goes in as %s: %s\n", m.From, m.To, m.Why)
	}
}

func (c *command) unitAddCommand() *cobra.Command {
	var u core.Unit
	var spare bool
	cmd := &cobra.Command{
		Use: "add JOB ID", Short: "Bring a unit into a job", Args: cobra.ExactArgs(2),
		Long:    "A job may have several units of one kind: three gearboxes to make one. A spare one is looked at and lends its parts; it is not rebuilt.",
		Example: "  fettle unit add J-001 gearbox-2 --kind gearbox --title \"Gearbox from the barn\" --spare",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				if u.ID = args[1]; spare {
					u.Role = core.UnitSpare
				}
				job, err := s.addUnit(cmd.Context(), args[0], c.by(), u)
				if err != nil {
					return err
				}
				return c.tellUnits(job)
			})
		},
	}
	f := cmd.Flags()
	f.StringVar(&u.Kind, "kind", "", "`WHAT` it is: engine, gearbox, transfer-box ...")
	f.StringVar(&u.Title, "title", "", "`WHAT` it is called")
	f.StringVar(&u.Pack, "pack", "", "the unit `PACK` with its facts and limits")
	f.BoolVar(&spare, "spare", false, "it is looked at and lends its parts")
	return cmd
}

func (c *command) changedUnits(cmd *cobra.Command, s *shop, number string, change store.Change) error {
	job, err := s.book.ChangeJob(cmd.Context(), number, c.by(), change)
	if err != nil {
		return err
	}
	return c.tellUnits(job)
}

// addUnit brings a unit into a job.
func (s *shop) addUnit(ctx context.Context, number, by string, u core.Unit) (core.Job, error) {
	job, err := s.book.Job(ctx, number)
	if err != nil {
		return job, err
	}
	if slices.ContainsFunc(job.Units, func(v core.Unit) bool { return v.ID == u.ID }) {
		return job, core.Errorf(core.Conflict, "give it another id", "%s has a unit %q", job.Number, u.ID)
	}
	job.Units = append(job.Units, u)
	if err := s.addPacks(&core.PlanRequest{Job: job}); err != nil {
		return job, err
	}
	return s.book.ChangeJob(ctx, job.Number, by, store.Change{Units: []core.Unit{u}})
}

// decideUnit records what the owner decided of a unit that another vehicle left with. Worth is an amount, "-" takes it back; nil leaves it as it is.
func (s *shop) decideUnit(ctx context.Context, number, by, unit, words string, worth *string) (core.Job, error) {
	job, err := s.book.Job(ctx, number)
	if err != nil {
		return job, err
	}
	u, err := unitOf(job, unit)
	if err != nil {
		return job, err
	}
	if !slices.Contains(core.BelongsWords, words) {
		return job, core.Errorf(core.Invalid, "use one of: "+strings.Join(core.BelongsWords, ", "), "%q is no decision on a unit", words)
	}
	if u.Belongs = words; u.Belongs == "sold on" {
		u.Role = core.UnitOut
	}
	if worth != nil {
		if u.Worth, err = s.sum("worth", true, u.Worth, *worth); err != nil {
			return job, err
		}
	}
	return s.book.ChangeJob(ctx, job.Number, by, store.Change{Units: []core.Unit{u}})
}

// tellUnits shows a job's units as they stand.
func (c *command) tellUnits(job core.Job) error {
	if c.asJSON() {
		return writeJSON(c.out, job)
	}
	printUnits(c.out, job)
	return nil
}

// unitOf finds a unit of a job by its id.
func unitOf(j core.Job, id string) (core.Unit, error) {
	var ids []string
	for _, u := range j.Units {
		if u.ID == id {
			return u, nil
		}
		ids = append(ids, u.ID)
	}
	return core.Unit{}, core.Errorf(core.NotFound, "use one of: "+strings.Join(ids, ", "), "%s has no unit %q", j.Number, id)
}

func (c *command) unitSwapCommand() *cobra.Command {
	var why string
	var worth string
	cmd := &cobra.Command{
		Use: "swap JOB OUT IN", Short: "Put one unit in the place of another; both keep their marks and findings", Args: cobra.ExactArgs(3),
		Long:    "What matters is the unit that is there: plan, limits and prices follow the one that is in. IN may be a dash: the unit is only taken out.",
		Example: "  fettle unit swap J-001 gearbox gearbox-2 --why \"the case is cracked through\"",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				job, err := s.book.Job(cmd.Context(), args[0])
				if err != nil {
					return err
				}
				if strings.TrimSpace(why) == "" {
					return core.Errorf(core.Invalid, "say why: --why WORDS", "a unit is swapped without a reason")
				}
				out, err := unitOf(job, args[1])
				if err != nil {
					return err
				}
				out.Role = core.UnitOut
				out.Title = strings.TrimSpace(out.Title + " (taken out: " + why + ")")
				if out.Worth, err = s.sum("worth", cmd.Flags().Changed("worth"), out.Worth, worth); err != nil {
					return err
				}
				change := store.Change{Units: []core.Unit{out}}
				if args[2] != "-" {
					in, err := unitOf(job, args[2])
					if err != nil {
						return err
					}
					if in.Kind != out.Kind {
						return core.Errorf(core.Invalid, "name a "+out.Kind, "%s is a %s, %s a %s", in.ID, in.Kind, out.ID, out.Kind)
					}
					in.Role = ""
					change.Units = append(change.Units, in)
				}
				return c.changedUnits(cmd, s, job.Number, change)
			})
		},
	}
	cmd.Flags().StringVar(&why, "why", "", "`WHY`; it is printed")
	cmd.Flags().StringVar(&worth, "worth", "", "the `SUM` that the unit taken out is worth")
	return cmd
}

func (c *command) unitBelongsCommand() *cobra.Command {
	var worth string
	cmd := &cobra.Command{
		Use: "belongs JOB UNIT WORDS", Short: "Record the owner's decision on a unit that another vehicle left with", Args: cobra.ExactArgs(3),
		Long:    "WORDS is one of: " + strings.Join(core.BelongsWords, ", ") + ". A unit sold on is out of the job.",
		Example: "  fettle unit belongs J-001 engine \"kept but noted\" --by \"Marta Wellbeck\"",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				given := &worth
				if !cmd.Flags().Changed("worth") {
					given = nil
				}
				job, err := s.decideUnit(cmd.Context(), args[0], c.by(), args[1], args[2], given)
				if err != nil {
					return err
				}
				return c.tellUnits(job)
			})
		},
	}
	cmd.Flags().StringVar(&worth, "worth", "", "the `SUM` it is worth")
	return cmd
}

func (c *command) unitTakeCommand() *cobra.Command {
	var why string
	cmd := &cobra.Command{
		Use: "take JOB PART UNIT", Short: "Use a part of one unit in another; what was found on it counts there", Args: cobra.ExactArgs(3),
		Long: `PART is written subsystem@unit/part/position: the unit it comes from. --why - leaves it where it was. The part that makes room
stays with the unit that it came out of.`,
		Example: "  fettle unit take J-001 gearbox@gearbox-2/layshaft-cluster gearbox --why \"the better of two\"",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				job, err := s.book.Job(cmd.Context(), args[0])
				if err != nil {
					return err
				}
				from, err := placeAt(job, args[1])
				if err != nil {
					return err
				}
				to := from
				u, err := unitOf(job, args[2])
				if err != nil {
					return err
				}
				if to.Unit = u.ID; to == from {
					return core.Errorf(core.Invalid, "name another unit", "%s is there already", from)
				}
				t := core.Transplant{From: from, To: to, Why: why, By: c.by()}
				switch {
				case why == "-":
					t.From = core.Place{}
				case strings.TrimSpace(why) == "":
					return core.Errorf(core.Invalid, "say why: --why WORDS", "a part is moved without a reason")
				}
				return c.changedUnits(cmd, s, job.Number, store.Change{Moved: []core.Transplant{t}})
			})
		},
	}
	cmd.Flags().StringVar(&why, "why", "", "`WHY`; it is printed")
	return cmd
}

// placeAt reads subsystem@unit/part/position.
func placeAt(j core.Job, text string) (p core.Place, err error) {
	head, rest, ok := strings.Cut(text, "/")
	subsystem, unit, at := strings.Cut(head, "@")
	if !ok || !at || subsystem == "" || unit == "" || rest == "" {
		return p, core.Errorf(core.Invalid, "write it like gearbox@gearbox-2/layshaft-cluster", "%q does not say which part of which unit", text)
	}
	if _, err := unitOf(j, unit); err != nil {
		return p, err
	}
	p.Subsystem, p.Unit = subsystem, unit
	p.Part, p.Position, _ = strings.Cut(rest, "/")
	return p, nil
}
