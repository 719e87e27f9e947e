package main

import (
	"strings"

	"github.com/spf13/cobra"
)

func (c *command) findCommand() *cobra.Command {
	var job string
	cmd := &cobra.Command{
		Use: "find WORDS...", Short: "Find anything by tag, part, place or word, in every job", Args: cobra.MinimumNArgs(1),
		Long:    "The last word may be the beginning of one. Found are tags, units, marks, what is out or bought, surprises, snags and notes to findings.",
		Example: "  fettle find T-001\n  fettle find rack 2 shelf",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				found, err := s.book.Find(cmd.Context(), job, strings.Join(args, " "))
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, found)
				}
				if len(found) == 0 {
					c.print("Nothing has these words.")
					return nil
				}
				t := newTable("job", "", "is", "lies", "what")
				for _, f := range found {
					name := f.Name
					if f.Kind == "finding" {
						name = "finding"
						f.What = f.Name + ": " + f.What
					}
					t.add(f.Job, name, f.State, f.Lies, f.What)
				}
				t.print(c.out, "", screen)
				return nil
			})
		},
	}
	cmd.Flags().StringVar(&job, "job", "", "look in this `JOB` alone")
	return cmd
}
