package main

import (
	"github.com/spf13/cobra"
)

func (c *command) undoCommand() *cobra.Command {
	var again bool
	cmd := &cobra.Command{
		Use: "undo JOB", Short: "Take back what was last written down; nothing is erased", Args: cobra.ExactArgs(1),
		Long:    "One line of findings, one import or one change is taken back at a time. --redo brings back what the last undo took.",
		Example: "  fettle undo J-001\n  fettle undo J-001 --redo",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				act, word := s.book.Undo, "taken back: "
				if again {
					act, word = s.book.Redo, "brought back: "
				}
				u, err := act(cmd.Context(), args[0], c.by())
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, u)
				}
				c.print(word + u.Words())
				return nil
			})
		},
	}
	cmd.Flags().BoolVar(&again, "redo", false, "bring back what the last undo took")
	return cmd
}
