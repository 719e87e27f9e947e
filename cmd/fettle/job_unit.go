package main

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

// wholeVehicle stands for the vehicle itself where a unit is asked for.
const wholeVehicle = "vehicle"

func (c *command) jobMarkCommand() *cobra.Command {
	var m core.Mark
	cmd := &cobra.Command{
		Use: "mark JOB UNIT WHERE TEXT", Short: "Write down an identity mark as it reads, and what it says of the unit", Args: cobra.ExactArgs(4),
		Long: `UNIT is a unit of the job, or "vehicle" for frame and plates. A mark at the same place takes the earlier one's place.
One that looks altered stops work order and scope until the owner has been told in writing: --told says how and when.`,
		Example: `  fettle job mark J-001 vehicle "frame stamp" PK-15-20417 --says agrees
  fettle job mark J-001 gearbox "third speed wheel, teeth" 29 --expected 28 --says "from another model"
  fettle job mark J-001 gearbox "case front" "G4 8 55" --says "looks altered" --told "letter of 3 May"`,
		RunE: func(cmd *cobra.Command, args []string) error {
			m.Where, m.Text = args[2], args[3]
			return c.withShop(cmd.Context(), func(s *shop) error {
				job, err := s.markUnit(cmd.Context(), args[0], c.by(), args[1], m)
				if err != nil {
					return err
				}
				return c.noted(job)
			})
		},
	}
	f := cmd.Flags()
	f.StringVar(&m.Says, "says", "unknown", "`WHAT` it says: "+strings.Join(core.MarkWords, ", "))
	f.StringVar(&m.Expected, "expected", "", "`WHAT` should stand there")
	f.StringVar(&m.Told, "told", "", "`HOW` and when the owner was told in writing of a mark that looks altered")
	f.StringVar(&m.Note, "note", "", "`WHAT` else is to be said of it; it is printed")
	return cmd
}

// markUnit writes a mark down on a unit of a job, or on its vehicle.
func (s *shop) markUnit(ctx context.Context, number, by, unit string, m core.Mark) (core.Job, error) {
	if err := m.Check(); err != nil {
		return core.Job{}, err
	}
	return s.changeUnit(ctx, number, by, unit, func(u *core.Unit, v *core.Vehicle) {
		if v != nil {
			v.Marks = core.PutMark(v.Marks, m)
		} else {
			u.Marks = core.PutMark(u.Marks, m)
		}
	})
}

func (c *command) jobFactCommand() *cobra.Command {
	var source string
	cmd := &cobra.Command{
		Use: "fact JOB UNIT NAME VALUE", Short: "Give a size or a count that limits scale by, read off the unit itself", Args: cobra.ExactArgs(4),
		Long:    "It wins over the unit's pack. VALUE is a size with its unit, a whole number, or a word. The plan names the facts that it misses.",
		Example: "  fettle job fact J-001 gearbox L_spring \"1.1 in\" --source \"a new spring measured\"",
		RunE: func(cmd *cobra.Command, args []string) error {
			if args[1] == wholeVehicle {
				return core.Errorf(core.Invalid, "name the unit that it was read off", "a fact is a unit's, not the vehicle's")
			}
			value, err := factValue(args[3])
			if err != nil {
				return err
			}
			fact := core.Fact{Name: args[2], Value: value, Source: source}
			return c.withShop(cmd.Context(), func(s *shop) error {
				job, err := s.changeUnit(cmd.Context(), args[0], c.by(), args[1], func(u *core.Unit, _ *core.Vehicle) {
					if i := slices.IndexFunc(u.Facts, func(f core.Fact) bool { return f.Name == fact.Name }); i >= 0 {
						u.Facts[i] = fact
						return
					}
					u.Facts = append(u.Facts, fact)
				})
				if err != nil {
					return err
				}
				return c.noted(job)
			})
		},
	}
	cmd.Flags().StringVar(&source, "source", "read off the unit", "`WHERE` it comes from: a stamp, a manual's page, a measurement")
	return cmd
}

// factValue reads a whole number, a size with its unit, or a word.
func factValue(s string) (core.Value, error) {
	if n, err := strconv.Atoi(s); err == nil {
		return core.Value{Kind: core.ValueCount, Count: n}, nil
	}
	if s == "" || !strings.ContainsAny(s[:1], "0123456789.+-") {
		return core.Value{Kind: core.ValueWord, Word: s}, nil
	}
	r, err := core.ParseReading(s)
	if err != nil {
		return core.Value{}, err
	}
	if r.Unit == "" {
		return core.Value{}, core.Errorf(core.Invalid, fmt.Sprintf("write it like %q", s+" in"), "%q is a size without a unit", s)
	}
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: r.Value, Unit: r.Unit}}, nil
}

// changeUnit changes one unit of a job, or its vehicle.
func (s *shop) changeUnit(ctx context.Context, number, by, unit string, change func(*core.Unit, *core.Vehicle)) (core.Job, error) {
	job, err := s.book.Job(ctx, number)
	if err != nil {
		return job, err
	}
	if unit == wholeVehicle {
		if job.Vehicle == nil {
			return job, core.Errorf(core.NotFound, "name a unit", "job %s has no vehicle", number)
		}
		change(nil, job.Vehicle)
		return s.book.ChangeJob(ctx, number, by, store.Change{Vehicle: job.Vehicle})
	}
	var ids []string
	for i := range job.Units {
		if job.Units[i].ID == unit {
			change(&job.Units[i], nil)
			return s.book.ChangeJob(ctx, number, by, store.Change{Units: job.Units[i : i+1]})
		}
		ids = append(ids, job.Units[i].ID)
	}
	next := "the job names no unit: open it with --unit"
	if len(ids) > 0 {
		next = "use one of: " + strings.Join(append(ids, wholeVehicle), ", ")
	}
	return job, core.Errorf(core.NotFound, next, "job %s has no unit %q", number, unit)
}
