package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

func (c *command) whyCommand() *cobra.Command {
	var number string
	cmd := &cobra.Command{
		Use:   "why [JOB] PART",
		Short: "From the finding to the price, for one part",
		Long:  "PART is its name as the plan prints it, such as \"Crankpin P4\", or subsystem/part/position, or as much of that as is needed.",
		Example: `  fettle why crankpin/P4
  fettle why J-001 "Crankpin P4"
  fettle why J-001 gearbox/interlock`,
		Args: cobra.RangeArgs(1, 2),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 2 {
				number, args = args[0], args[1:]
			}
			return c.withPlan(cmd.Context(), nonEmpty(number), func(_ *shop, p core.Plan) error {
				found, err := findChoices(p, args[0])
				if err != nil {
					return err
				}
				chains := make([]core.Chain, len(found))
				for i, ch := range found {
					chains[i] = p.Chain(ch)
				}
				if c.asJSON() {
					return writeJSON(c.out, chains)
				}
				for i, ch := range chains {
					if i > 0 {
						fmt.Fprintln(c.out)
					}
					printWhy(c.out, ch)
				}
				return nil
			})
		},
	}
	cmd.Flags().StringVar(&number, "job", "", "the `JOB`'s number; not needed if there is one job")
	return cmd
}

func nonEmpty(s string) []string {
	if s == "" {
		return nil
	}
	return []string{s}
}

// mostMeant is how many parts are named that may be meant.
const mostMeant = 5

// findChoices gives the choices whose place ends as typed, or whose name is.
func findChoices(p core.Plan, typed string) ([]core.Choice, error) {
	var out []core.Choice
	var all, like []string
	want := strings.ToLower(strings.Trim(typed, "/ "))
	for _, c := range p.Choices {
		all = append(all, c.Part, c.Target.String(), c.Subsystem+"/"+c.Part, c.Subsystem+"/"+c.Target.String())
		if answersTo(c.Place, typed) || strings.EqualFold(c.Title(), want) || strings.EqualFold(c.PartName, want) {
			out = append(out, c)
		}
		part := c.Subsystem + "/" + c.Part
		if (strings.Contains(part, want) || strings.Contains(strings.ToLower(c.PartName), want)) && !slices.Contains(like, part) {
			like = append(like, part)
		}
	}
	if len(out) == 0 {
		next := "see: fettle plan"
		if n := core.Nearest(typed, all); n != "" {
			next = fmt.Sprintf("did you mean %q?", n)
		}
		if n := len(like); want != "" && n > 0 && n <= mostMeant {
			next = "did you mean " + strings.Join(like, " or ") + "?"
		}
		return nil, core.Errorf(core.NotFound, next, "no part %q in this job", typed)
	}
	return out, nil
}

// answersTo reports that a place ends as typed.
func answersTo(p core.Place, typed string) bool {
	want := strings.Trim(typed, "/")
	return slices.ContainsFunc([]string{p.String(), p.Part, p.Target.String(), p.Subsystem + "/" + p.Target.String(), p.Subsystem + "/" + p.Part},
		func(name string) bool { return strings.EqualFold(name, want) })
}
